//! Text from data, and the words for what the contract numbers.

use std::fmt::{Display, Formatter, Write};

use pennantry_contract::v1::{BurnReportState, DemandClass, Pressing};

/// Appends formatted text to a string, which cannot fail.
macro_rules! put {
    ($out:expr, $($what:tt)*) => {{
        use std::fmt::Write as _;
        let _ = write!($out, $($what)*);
    }};
}
pub(super) use put;

/// Characters that a reader does not see and that change what is seen: of Unicode's bidirectional
/// algorithm (UAX 9), ends of lines, control codes (C0, C1), and what HTML has no place for.
fn steers(c: char) -> bool {
    let code = u32::from(c);
    c.is_control()
        || matches!(code, 0x061C | 0x200B | 0x200E | 0x200F | 0x2028..=0x202E | 0x2060..=0x206F | 0xFEFF)
        || (0xFDD0..=0xFDEF).contains(&code)
        || code & 0xFFFE == 0xFFFE
}

/// Data as text of one line: a character that steers is shown by its number, as `[U+202E]`.
pub(super) fn shown(text: &str) -> String {
    let mut shown = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '\n' | '\t' => shown.push(' '),
            c if steers(c) => put!(shown, "[U+{:04X}]", u32::from(c)),
            c => shown.push(c),
        }
    }
    shown
}

/// Data in a page: [`shown`], and what HTML would read is escaped, in text as in an attribute.
pub(crate) struct Esc<'a>(pub &'a str);

impl Display for Esc<'_> {
    fn fmt(&self, f: &mut Formatter<'_>) -> std::fmt::Result {
        for c in shown(self.0).chars() {
            match c {
                '&' => f.write_str("&amp;")?,
                '<' => f.write_str("&lt;")?,
                '>' => f.write_str("&gt;")?,
                '"' => f.write_str("&quot;")?,
                '\'' => f.write_str("&#39;")?,
                c => f.write_char(c)?,
            }
        }
        Ok(())
    }
}

/// How pressing, in a word; nothing where nothing is to be done.
pub(super) fn pressing(value: i32) -> Option<&'static str> {
    match Pressing::try_from(value) {
        Ok(Pressing::Today) => Some("Today"),
        Ok(Pressing::Soon) => Some("Soon"),
        // what nobody has judged is looked at
        Ok(Pressing::Look | Pressing::Unspecified) | Err(_) => Some("Look"),
        Ok(Pressing::Nothing) => None,
    }
}

/// Class of the stitch that goes with [`pressing`].
pub(super) fn stitch(value: i32) -> &'static str {
    match pressing(value) {
        Some("Today") => "today",
        Some("Soon") => "soon",
        Some(_) => "look",
        None => "rest",
    }
}

/// The kind of demand, and what it means.
pub(super) fn class(value: i32) -> (&'static str, &'static str) {
    match DemandClass::try_from(value) {
        Ok(DemandClass::Smooth) => ("smooth", "used often, and about as much each time"),
        Ok(DemandClass::Erratic) => ("erratic", "used often, but how much differs widely"),
        Ok(DemandClass::Intermittent) => ("intermittent", "used now and then, about as much each time"),
        Ok(DemandClass::Lumpy) => ("lumpy", "used now and then, and how much differs widely"),
        Ok(DemandClass::Insufficient | DemandClass::Unspecified) | Err(_) => {
            ("not known yet", "it takes two whole weeks with use before its kind can be told")
        }
    }
}

/// Where another report stands.
pub(super) fn state(value: i32) -> &'static str {
    match BurnReportState::try_from(value) {
        Ok(BurnReportState::Running) => "being made",
        Ok(BurnReportState::Done) => "done",
        Ok(BurnReportState::Failed) => "failed",
        Ok(BurnReportState::Cancelled) => "stopped",
        Ok(BurnReportState::Unspecified) | Err(_) => "in a state that is not known",
    }
}

/// Kind of service as the contract says it, in words.
pub(super) fn service(kind: &str) -> &str {
    match kind {
        "cycle service" => "of deliveries come before it has run out",
        "fill rate" => "of the use is served from the shelf",
        other => other,
    }
}

/// "one fabric", "3 fabrics".
pub(super) fn counted(count: usize, one: &str, many: &str) -> String {
    if count == 1 { format!("one {one}") } else { format!("{count} {many}") }
}
