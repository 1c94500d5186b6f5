//! The little markup that comments of the contract use.

use std::fmt::Write as _;

use serde_json::Value;

use crate::report::Esc;

/// A text of a document; empty where it is none.
pub fn text(value: &Value) -> &str {
    value.as_str().unwrap_or_default()
}

/// A comment as HTML: paragraphs, lists of lines that begin with a dash, code and stress.
///
/// ```
/// use pennantryd::docs::words::marked;
/// let comment = "Which `one`.\n\n- `A`: a < b\n- **B**: b".into();
/// assert_eq!(
///     marked(&comment),
///     "<p>Which <code>one</code>.<ul><li><code>A</code>: a &lt; b<li><strong>B</strong>: b</ul>"
/// );
/// ```
pub fn marked(comment: &Value) -> String {
    let mut out = String::new();
    for part in text(comment).split("\n\n").filter(|part| !part.trim().is_empty()) {
        let items: Vec<&str> = part.lines().filter_map(|line| line.strip_prefix("- ")).collect();
        if items.is_empty() {
            out.push_str("<p>");
            out.push_str(&inline(part));
            continue;
        }
        out.push_str("<ul>");
        for item in items {
            out.push_str("<li>");
            out.push_str(&inline(item));
        }
        out.push_str("</ul>");
    }
    out
}

/// One paragraph.
fn inline(text: &str) -> String {
    let mut out = String::new();
    for (place, part) in text.split('`').enumerate() {
        if place % 2 == 1 {
            wrap(&mut out, "code", part);
            continue;
        }
        for (place, part) in part.split("**").enumerate() {
            wrap(&mut out, if place % 2 == 1 { "strong" } else { "" }, part);
        }
    }
    out
}

fn wrap(out: &mut String, tag: &str, text: &str) {
    // writing into a string cannot fail
    let _ = match tag {
        "" => write!(out, "{}", Esc(text)),
        tag => write!(out, "<{tag}>{}</{tag}>", Esc(text)),
    };
}
