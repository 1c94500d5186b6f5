//! The slow reading: a tree against the tables of the contract.

use pennantry_contract::reasons::ViolationReason;
use pennantry_contract::table::{Enumeration, Field, Kind, Message};
use serde_json::{Map, Value};

use super::node::{Node, Step};
use super::number::{self, Read};
use super::{Unreadable, hint, words};

/// Compares a body with a message. Gives the body back in the form that the library
/// reads, nulls left out, or the first fault in the order of the text.
pub fn body(message: &Message, node: &Node) -> Result<Value, Unreadable> {
    let mut walk = Walk { path: Vec::new() };
    match node {
        Node::Object(entries) => walk.message(message, entries),
        other => {
            Err(walk.wrong(format!("the body is {}; one JSON object, {{…}}, is wanted", words::came(other))))
        }
    }
}

/// Adds what is allowed to a number that no type can hold, where its field is known.
pub fn with_range(message: &'static Message, fault: Unreadable) -> Unreadable {
    if fault.reason != ViolationReason::OutOfRange {
        return fault;
    }
    let mut inside = Some(message);
    let mut found = None;
    for part in fault.path.split('.') {
        let name = part.split('[').next().unwrap_or(part);
        found =
            inside.and_then(|m| m.fields.iter().find(|field| field.json_name == name || field.name == name));
        inside = found.and_then(|field| match field.kind {
            Kind::Message(message) => Some(message),
            _ => None,
        });
    }
    match found.filter(|field| matches!(field.kind, Kind::Double | Kind::Uint32 | Kind::Int64)) {
        Some(field) => {
            Unreadable { message: format!("{}; allowed is {}", fault.message, range(field)), ..fault }
        }
        None => fault,
    }
}

struct Walk {
    path: Vec<Step>,
}

impl Walk {
    fn fault(&self, reason: ViolationReason, message: String) -> Unreadable {
        Unreadable { path: words::join(&self.path), reason, message }
    }

    fn wrong(&self, message: String) -> Unreadable {
        self.fault(ViolationReason::WrongType, message)
    }

    fn message(&mut self, message: &Message, entries: &[(String, Node)]) -> Result<Value, Unreadable> {
        let mut seen: Vec<&Field> = Vec::new();
        let mut said: Vec<&Field> = Vec::new();
        let mut mended = Map::new();
        for (key, node) in entries {
            // Both names are read, as the standard asks; answers and paths use one.
            let found = message.fields.iter().find(|field| field.json_name == key || field.name == key);
            self.path.push(Step::Key(found.map_or(key.as_str(), |field| field.json_name).to_owned()));
            let field = found.ok_or_else(|| self.unknown(message, key))?;
            if seen.iter().any(|other| other.number == field.number) {
                let message = format!("{} is there twice; give it once", words::key(field.json_name));
                return Err(self.fault(ViolationReason::RepeatedField, message));
            }
            seen.push(field);
            if !matches!(node, Node::Null) {
                let other = said.iter().find(|other| field.oneof.is_some() && other.oneof == field.oneof);
                if let Some(other) = other {
                    return Err(self.two(message, other, field));
                }
                said.push(field);
                mended.insert(field.json_name.to_owned(), self.field(field, node)?);
            }
            self.path.pop();
        }
        Ok(Value::Object(mended))
    }

    fn unknown(&self, message: &Message, key: &str) -> Unreadable {
        let known: Vec<&str> = message.fields.iter().map(|field| field.json_name).collect();
        let meant = hint::elsewhere(message, key)
            .or_else(|| hint::nearest(key, known.iter().copied()).map(str::to_owned))
            .map_or_else(String::new, |name| format!("did you mean \"{name}\"? "));
        let allowed = if known.is_empty() { "no key at all".to_owned() } else { known.join(", ") };
        let message = format!("there is no key {} here; {meant}allowed here: {allowed}", words::key(key));
        self.fault(ViolationReason::UnknownField, message)
    }

    fn two(&self, message: &Message, first: &Field, second: &Field) -> Unreadable {
        let group = second.oneof.unwrap_or_default();
        let members: Vec<&str> = message.oneof(group).map(|field| field.json_name).collect();
        let text = format!(
            "\"{}\" and \"{}\" say one thing in two ways; give at most one of {}",
            first.json_name,
            second.json_name,
            members.join(", ")
        );
        self.fault(ViolationReason::TwoLengths, text)
    }

    fn field(&mut self, field: &Field, node: &Node) -> Result<Value, Unreadable> {
        if !field.repeated {
            return self.value(field, node);
        }
        let Node::List(entries) = node else {
            let came = words::came(node);
            return Err(self.wrong(format!("this is {came}; a list is wanted, [{}, …]", example(field))));
        };
        let mut list = Vec::with_capacity(entries.len());
        for (index, entry) in entries.iter().enumerate() {
            self.path.push(Step::Index(index));
            if matches!(entry, Node::Null) {
                return Err(self.wrong("an entry of a list cannot be null; leave the entry out".to_owned()));
            }
            list.push(self.value(field, entry)?);
            self.path.pop();
        }
        Ok(Value::Array(list))
    }

    fn value(&mut self, field: &Field, node: &Node) -> Result<Value, Unreadable> {
        let read = match (field.kind, node) {
            (Kind::Message(message), Node::Object(entries)) => return self.message(message, entries),
            (Kind::Bool, Node::Bool(value)) => return Ok(Value::Bool(*value)),
            (Kind::String, Node::Text(text)) => return Ok(Value::String(text.clone())),
            (Kind::Enum(found), Node::Text(_) | Node::Number(_)) => return self.named(found, node),
            (Kind::Double, _) => number::double(node),
            (Kind::Uint32, _) => number::whole::<u32>(node),
            (Kind::Int64, _) => number::whole::<i64>(node),
            (Kind::Message(_) | Kind::Bool | Kind::String | Kind::Enum(_), _) => Read::No,
        };
        let came = words::came(node);
        match read {
            Read::Number(value) => Ok(value),
            Read::Beyond => {
                let message = format!("{came} is out of range; allowed is {}", range(field));
                Err(self.fault(ViolationReason::OutOfRange, message))
            }
            Read::Fraction => {
                Err(self.wrong(format!("this is {came}; a whole number is wanted, {}", range(field))))
            }
            Read::No => Err(self.wrong(format!("this is {came}; {} is wanted", wanted(field)))),
        }
    }

    /// An enum by name, or by number as the standard lets it.
    fn named(&self, found: &Enumeration, node: &Node) -> Result<Value, Unreadable> {
        let known = match node {
            Node::Text(name) => found.named(name),
            _ => match number::whole::<i32>(node) {
                Read::Number(value) => value
                    .as_i64()
                    .and_then(|number| i32::try_from(number).ok())
                    .and_then(|number| found.numbered(number)),
                Read::Beyond | Read::Fraction | Read::No => None,
            },
        };
        if let Some(value) = known {
            return Ok(Value::String(value.name.to_owned()));
        }
        let meant = match node {
            Node::Text(name) => hint::nearest(name, found.values.iter().map(|value| value.name)),
            _ => None,
        };
        let meant = meant.map_or_else(String::new, |name| format!("did you mean {name}? "));
        let message =
            format!("there is no value {} here; {meant}allowed are {}", words::value(node), names(found));
        Err(self.fault(ViolationReason::UnknownValue, message))
    }
}

/// Every value that says something, by name and number.
fn names(found: &Enumeration) -> String {
    let said = found.values.iter().filter(|value| value.number != 0);
    said.map(|value| format!("{} ({})", value.name, value.number)).collect::<Vec<_>>().join(", ")
}

/// What a field wants, in words.
fn wanted(field: &Field) -> String {
    match field.kind {
        Kind::Double => {
            let unit = if field.json_name.ends_with("Mm") { " of millimetres" } else { "" };
            format!("a number{unit}, with a point for decimals and no unit, {},", range(field))
        }
        Kind::Uint32 | Kind::Int64 => format!("a whole number, {},", range(field)),
        Kind::Bool => "true or false, without quotes,".to_owned(),
        Kind::String => "text in quotes".to_owned(),
        Kind::Message(message) => {
            let keys: Vec<&str> = message.fields.iter().map(|field| field.json_name).collect();
            format!("an object, {{…}}, with keys among {},", keys.join(", "))
        }
        Kind::Enum(found) => format!("one of {}", names(found)),
    }
}

/// The range of a number; of a list the range is that of its length, and not said here.
fn range(field: &Field) -> String {
    let (least, most) = match field.kind {
        Kind::Uint32 => (Some(0.0), Some(f64::from(u32::MAX))),
        Kind::Double | Kind::Int64 | Kind::Bool | Kind::String | Kind::Message(_) | Kind::Enum(_) => {
            (None, None)
        }
    };
    let (least, most) =
        if field.repeated { (least, most) } else { (field.least.or(least), field.most.or(most)) };
    match (least, most) {
        (Some(least), Some(most)) => format!("{} to {}", words::figure(least), words::figure(most)),
        (Some(least), None) => format!("{} or more", words::figure(least)),
        (None, Some(most)) => format!("{} or less", words::figure(most)),
        (None, None) => "any that the type holds".to_owned(),
    }
}

/// How an entry of a list is begun.
fn example(field: &Field) -> &'static str {
    match field.kind {
        Kind::Double | Kind::Uint32 => "0",
        Kind::Int64 | Kind::String | Kind::Enum(_) => "\"…\"",
        Kind::Bool => "true",
        Kind::Message(_) => "{…}",
    }
}
