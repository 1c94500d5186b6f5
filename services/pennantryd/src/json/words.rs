//! Words for paths and for what came.

use super::node::{Node, Step};

/// Characters of a path, of a key in it, and of a value, that are said again.
const PATH: usize = 200;
const KEY: usize = 60;
const VALUE: usize = 40;

/// A path in JSON names. What came from outside is cut and its control characters are
/// written as escapes, so that it can stand in one line of a message.
pub fn join(steps: &[Step]) -> String {
    let mut path = String::new();
    for step in steps {
        match step {
            Step::Index(index) => path.extend(["[", &index.to_string(), "]"]),
            Step::Key(key) => {
                if !path.is_empty() {
                    path.push('.');
                }
                path.push_str(&shown(key, KEY));
            }
        }
    }
    cut(path, PATH)
}

/// A key as it came, for a message.
pub fn key(name: &str) -> String {
    format!("\"{}\"", shown(name, KEY))
}

/// What came, for a message.
pub fn came(node: &Node) -> String {
    match node {
        Node::Null => "null".to_owned(),
        Node::Bool(value) => value.to_string(),
        Node::Number(number) => number.to_string(),
        Node::Text(text) => format!("the text \"{}\"", shown(text, VALUE)),
        Node::List(_) => "a list".to_owned(),
        Node::Object(_) => "an object".to_owned(),
    }
}

/// A value that came, as itself, for a message.
pub fn value(node: &Node) -> String {
    match node {
        Node::Text(text) => format!("\"{}\"", shown(text, VALUE)),
        other => came(other),
    }
}

/// The path in front of a message.
pub fn prefix(path: &str) -> String {
    if path.is_empty() { String::new() } else { format!("{path}: ") }
}

/// A figure of the tables, without decimals that say nothing.
pub fn figure(value: f64) -> String {
    format!("{value}")
}

fn shown(text: &str, most: usize) -> String {
    let clear: String = text.chars().take(most + 1).flat_map(char::escape_debug).collect();
    cut(clear, most)
}

fn cut(text: String, most: usize) -> String {
    if text.chars().count() <= most {
        return text;
    }
    let mut short: String = text.chars().take(most.saturating_sub(1)).collect();
    short.push('…');
    short
}
