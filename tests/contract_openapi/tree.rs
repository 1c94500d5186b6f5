//! JSON whose keys keep the order in which they were put.

use serde::ser::{Serialize, SerializeMap, Serializer};
use serde_json::Value;

/// A value.
#[derive(Debug, Clone)]
pub enum Tree {
    /// One that holds no object whose order matters.
    Leaf(Value),
    /// A list.
    List(Vec<Tree>),
    /// An object.
    Map(Map),
}

/// An object.
#[derive(Debug, Clone, Default)]
pub struct Map(Vec<(String, Tree)>);

impl Map {
    /// The same with one key more.
    pub fn with(mut self, key: &str, value: impl Into<Tree>) -> Map {
        self.put(key, value);
        self
    }

    /// Puts a key; one that is there already is a mistake.
    pub fn put(&mut self, key: &str, value: impl Into<Tree>) {
        assert!(self.0.iter().all(|(other, _)| other != key), "{key} is there twice");
        self.0.push((key.to_owned(), value.into()));
    }

    /// Puts every key of another one.
    pub fn extend(&mut self, other: Map) {
        for (key, value) in other.0 {
            self.put(&key, value);
        }
    }

    /// Whether it is empty.
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }
}

/// A number, whole where it can be.
pub fn number(value: f64) -> Tree {
    let text = format!("{value}");
    Tree::Leaf(Value::Number(text.parse().unwrap_or_else(|_| panic!("{text} is no number of JSON"))))
}

/// The document as it is committed.
pub fn print(document: &Map) -> String {
    let mut bytes = Vec::new();
    let layout = serde_json::ser::PrettyFormatter::with_indent(b" ");
    document.serialize(&mut serde_json::Serializer::with_formatter(&mut bytes, layout)).unwrap();
    bytes.push(b'\n');
    String::from_utf8(bytes).unwrap()
}

impl Serialize for Tree {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        match self {
            Tree::Leaf(value) => value.serialize(to),
            Tree::List(entries) => entries.serialize(to),
            Tree::Map(map) => map.serialize(to),
        }
    }
}

impl Serialize for Map {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        let mut map = to.serialize_map(Some(self.0.len()))?;
        for (key, value) in &self.0 {
            map.serialize_entry(key, value)?;
        }
        map.end()
    }
}

impl From<Map> for Tree {
    fn from(map: Map) -> Tree {
        Tree::Map(map)
    }
}

impl From<Value> for Tree {
    fn from(value: Value) -> Tree {
        Tree::Leaf(value)
    }
}

impl From<&str> for Tree {
    fn from(text: &str) -> Tree {
        Tree::Leaf(text.into())
    }
}

impl From<String> for Tree {
    fn from(text: String) -> Tree {
        Tree::Leaf(text.into())
    }
}

impl From<bool> for Tree {
    fn from(value: bool) -> Tree {
        Tree::Leaf(value.into())
    }
}

impl<T: Into<Tree>> From<Vec<T>> for Tree {
    fn from(entries: Vec<T>) -> Tree {
        Tree::List(entries.into_iter().map(Into::into).collect())
    }
}
