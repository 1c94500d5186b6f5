//! A body as a tree that keeps what a map would lose: repeated keys and their order.

use std::cell::{Cell, RefCell};
use std::fmt;

use pennantry_contract::reasons::ViolationReason;
use pennantry_measure::bounds;
use serde::de::{DeserializeSeed, Deserializer, MapAccess, SeqAccess, Visitor};
use serde_json::error::Category;

use super::{Unreadable, words};

/// One JSON value.
#[derive(Debug, Clone, PartialEq)]
pub enum Node {
    Null,
    Bool(bool),
    Number(serde_json::Number),
    Text(String),
    List(Vec<Node>),
    Object(Vec<(String, Node)>),
}

/// Reads any JSON, or says where it stops being JSON.
pub fn parse(bytes: &[u8]) -> Result<Node, Unreadable> {
    let malformed =
        |path: String, message: String| Unreadable { path, reason: ViolationReason::MalformedJson, message };
    let text = std::str::from_utf8(bytes).map_err(|error| {
        let (line, column) = position(bytes.get(..error.valid_up_to()).unwrap_or_default());
        malformed(
            String::new(),
            format!("the body is not UTF-8 from line {line}, column {column} on; send JSON in UTF-8"),
        )
    })?;
    if text.starts_with('\u{feff}') {
        let message = "the body starts with a byte order mark; send the JSON without it";
        return Err(malformed(String::new(), message.to_owned()));
    }
    if text.trim_ascii().is_empty() {
        let message = "the body is empty; send one JSON object, {…}";
        return Err(malformed(String::new(), message.to_owned()));
    }
    let reading = Reading { path: RefCell::default(), too_deep: Cell::new(false) };
    let mut source = serde_json::Deserializer::from_str(text);
    let read = At { reading: &reading, depth: 0 }.deserialize(&mut source);
    let path = || words::join(&reading.path.borrow());
    let node = read.map_err(|error| reading.explain(&error, path(), text))?;
    source.end().map_err(|error| {
        let (line, column) = (error.line(), error.column());
        malformed(
            String::new(),
            format!(
                "there is more after the end of the JSON value, from line {line}, column {column} on; \
                 send one JSON object"
            ),
        )
    })?;
    Ok(node)
}

/// The number that stands around a place, as far as a message can quote it.
fn number_before(text: &str, line: usize, column: usize) -> String {
    let of_number = |c: &char| c.is_ascii_digit() || matches!(c, '+' | '-' | '.' | 'e' | 'E');
    let line = text.split('\n').nth(line.saturating_sub(1)).unwrap_or_default();
    let (before, after) = line.split_at_checked(column).unwrap_or((line, ""));
    let start = before.len() - before.chars().rev().take_while(of_number).count();
    let number = before.get(start..).unwrap_or_default().chars().chain(after.chars().take_while(of_number));
    words::value(&Node::Text(number.collect())).trim_matches('"').to_owned()
}

fn position(before: &[u8]) -> (usize, usize) {
    let mut lines = before.split(|byte| *byte == b'\n');
    (lines.clone().count(), lines.next_back().map_or(0, <[u8]>::len) + 1)
}

/// One step of a path.
#[derive(Debug, Clone, PartialEq)]
pub enum Step {
    Key(String),
    Index(usize),
}

/// Where the reading is; after an error, where it stopped.
struct Reading {
    path: RefCell<Vec<Step>>,
    too_deep: Cell<bool>,
}

impl Reading {
    fn explain(&self, error: &serde_json::Error, path: String, text: &str) -> Unreadable {
        let (line, column) = (error.line(), error.column());
        let said = error.to_string();
        let said = said.split(" at line ").next().unwrap_or_default();
        let (reason, message) = if self.too_deep.get() {
            let most = bounds::NESTING;
            let message = format!(
                "lists and objects are nested deeper than {most} at line {line}, column {column}; \
                 no request needs to be"
            );
            (ViolationReason::TooDeep, message)
        } else if said == "number out of range" {
            let number = number_before(text, line, column);
            let message = format!(
                "the number at line {line}, column {column}, {number}, is beyond every number that can be \
                 read (about 1.8e308); write a smaller one"
            );
            (ViolationReason::OutOfRange, message)
        } else if error.classify() == Category::Eof {
            let message = format!(
                "the body ends too soon, at line {line}, column {column} ({said}); send the whole JSON object"
            );
            (ViolationReason::MalformedJson, message)
        } else {
            let message = format!("this is not JSON at line {line}, column {column}: {said}");
            (ViolationReason::MalformedJson, message)
        };
        Unreadable { path, reason, message }
    }
}

/// Reads one value at some depth, keeping the path.
#[derive(Clone, Copy)]
struct At<'a> {
    reading: &'a Reading,
    depth: u32,
}

impl At<'_> {
    fn inside<E: serde::de::Error>(self) -> Result<Self, E> {
        let depth = self.depth + 1;
        if depth > bounds::NESTING {
            self.reading.too_deep.set(true);
            return Err(E::custom("nested too deep"));
        }
        Ok(At { depth, ..self })
    }

    fn step(self, step: Step) {
        self.reading.path.borrow_mut().push(step);
    }

    /// Only after success: a failure leaves the path where it was.
    fn back(self) {
        self.reading.path.borrow_mut().pop();
    }
}

impl<'de> DeserializeSeed<'de> for At<'_> {
    type Value = Node;

    fn deserialize<D: Deserializer<'de>>(self, source: D) -> Result<Node, D::Error> {
        source.deserialize_any(self)
    }
}

impl<'de> Visitor<'de> for At<'_> {
    type Value = Node;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a JSON value")
    }

    fn visit_unit<E>(self) -> Result<Node, E> {
        Ok(Node::Null)
    }

    fn visit_bool<E>(self, value: bool) -> Result<Node, E> {
        Ok(Node::Bool(value))
    }

    fn visit_u64<E>(self, value: u64) -> Result<Node, E> {
        Ok(Node::Number(value.into()))
    }

    fn visit_i64<E>(self, value: i64) -> Result<Node, E> {
        Ok(Node::Number(value.into()))
    }

    fn visit_f64<E: serde::de::Error>(self, value: f64) -> Result<Node, E> {
        serde_json::Number::from_f64(value).map(Node::Number).ok_or_else(|| E::custom("number out of range"))
    }

    fn visit_str<E>(self, value: &str) -> Result<Node, E> {
        Ok(Node::Text(value.to_owned()))
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut entries: A) -> Result<Node, A::Error> {
        let inside = self.inside()?;
        let mut list = Vec::new();
        loop {
            self.step(Step::Index(list.len()));
            let next = entries.next_element_seed(inside)?;
            self.back();
            match next {
                Some(node) => list.push(node),
                None => return Ok(Node::List(list)),
            }
        }
    }

    fn visit_map<A: MapAccess<'de>>(self, mut entries: A) -> Result<Node, A::Error> {
        let inside = self.inside()?;
        let mut object = Vec::new();
        while let Some(key) = entries.next_key::<String>()? {
            self.step(Step::Key(key.clone()));
            let node = entries.next_value_seed(inside)?;
            self.back();
            object.push((key, node));
        }
        Ok(Node::Object(object))
    }
}
