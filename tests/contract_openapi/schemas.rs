//! Messages and enums of the contract as JSON Schema (draft 2020-12).
//!
//! A message is described in up to two ways. As it is *asked* it has only the keys of the
//! contract, and those that must be given are required. As it is *told* it has every key that is
//! always printed, and may get more with time.

use std::collections::{BTreeMap, BTreeSet};

use prost_reflect::{EnumDescriptor, FieldDescriptor, Kind, MessageDescriptor};

use super::notes::Notes;
use super::tree::{Map, Tree, number};
use crate::contract_tables::{FieldRule, rule_of};

/// Texts whose most is counted in letters as people count them; a schema counts code points.
const COUNTED_IN_LETTERS: [&str; 1] = ["pennantry.v1.Enquiry.lettering"];

/// Whose door is described.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Side {
    /// Storefronts and buyers: only what the contract lists for them.
    Public,
    /// The shop's own tools: everything.
    Private,
}

/// Which way a message goes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Way {
    /// To the server.
    Asked,
    /// From the server.
    Told,
}

/// The schemas of one document.
pub struct Schemas<'a> {
    notes: &'a Notes,
    side: Side,
    messages: BTreeMap<String, (MessageDescriptor, BTreeSet<Way>)>,
    enums: BTreeMap<String, EnumDescriptor>,
}

/// Where schemas are in a document.
pub fn place(name: &str) -> String {
    format!("#/components/schemas/{name}")
}

/// Fields in the order in which they are declared, which is that of checking.
pub fn declared(message: &MessageDescriptor) -> Vec<FieldDescriptor> {
    let names = message.descriptor_proto().field.iter();
    names.map(|field| message.get_field_by_name(field.name()).unwrap()).collect()
}

impl<'a> Schemas<'a> {
    /// No schema yet.
    pub fn new(notes: &'a Notes, side: Side) -> Schemas<'a> {
        Schemas { notes, side, messages: BTreeMap::new(), enums: BTreeMap::new() }
    }

    /// Fields that are there on this side.
    fn seen(&self, message: &MessageDescriptor) -> Vec<FieldDescriptor> {
        let seen = |field: &FieldDescriptor| self.side == Side::Private || rule_of(field).buyer;
        declared(message).into_iter().filter(seen).collect()
    }

    /// Takes a message in, and all that is in it.
    pub fn gather(&mut self, message: &MessageDescriptor, way: Way) {
        let entry = self.messages.entry(message.name().to_owned());
        if !entry.or_insert_with(|| (message.clone(), BTreeSet::new())).1.insert(way) {
            return;
        }
        for field in self.seen(message) {
            match field.kind() {
                Kind::Message(inner) => self.gather(&inner, way),
                Kind::Enum(found) => {
                    self.enums.insert(found.name().to_owned(), found);
                }
                _ => {}
            }
        }
    }

    /// A reference to a message that was taken in.
    pub fn refer(&self, message: &MessageDescriptor, way: Way) -> Map {
        Map::default().with("$ref", place(&self.name(message, way)))
    }

    /// Its name among the schemas: that of the contract, unless it goes both ways and is told.
    pub fn name(&self, message: &MessageDescriptor, way: Way) -> String {
        let (_, ways) =
            self.messages.get(message.name()).unwrap_or_else(|| panic!("{message:?} was left out"));
        let suffix = if way == Way::Told && ways.len() == 2 { "InAnswer" } else { "" };
        format!("{}{suffix}", message.name())
    }

    /// Every schema by its name, in the order of names.
    pub fn all(&self) -> BTreeMap<String, Map> {
        let mut all = BTreeMap::new();
        for (message, ways) in self.messages.values() {
            for way in ways {
                all.insert(self.name(message, *way), self.message(message, *way));
            }
        }
        for (name, found) in &self.enums {
            assert!(all.insert(name.clone(), self.enumeration(found)).is_none(), "{name} twice");
        }
        all
    }

    fn message(&self, message: &MessageDescriptor, way: Way) -> Map {
        let fields = self.seen(message);
        let mut properties = Map::default();
        for field in &fields {
            properties.put(field.json_name(), self.field(field, way));
        }
        let required: Vec<&str> =
            fields.iter().filter(|field| is_required(field, way)).map(FieldDescriptor::json_name).collect();
        let mut schema =
            Map::default().with("type", "object").with("description", self.notes.of(message.full_name()));
        if !required.is_empty() {
            schema.put("required", required);
        }
        schema.put("properties", properties);
        let groups: Vec<_> = message.oneofs().filter(|oneof| !oneof.is_synthetic()).collect();
        assert!(groups.len() <= 1, "{}: more than one oneof is not described yet", message.full_name());
        for group in groups {
            let of_group = |field: &&FieldDescriptor| field.containing_oneof().as_ref() == Some(&group);
            schema.put("oneOf", at_most_one(&fields.iter().filter(of_group).collect::<Vec<_>>()));
        }
        if way == Way::Asked {
            schema.put("additionalProperties", false);
        }
        schema
    }

    fn field(&self, field: &FieldDescriptor, way: Way) -> Map {
        let (rule, note) = (rule_of(field), self.notes.of(field.full_name()));
        let mut schema = if field.is_list() {
            let mut list =
                Map::default().with("type", "array").with("items", self.value(field, way, &of_each(note)));
            for (key, bound) in [("minItems", rule.least), ("maxItems", rule.most)] {
                if let Some(bound) = bound {
                    list.put(key, number(bound));
                }
            }
            list
        } else {
            self.value(field, way, &self.on_this_side(&rule, note))
        };
        if is_text(field)
            && !field.is_list()
            && way == Way::Asked
            && is_required(field, way)
            && rule.least.is_none()
        {
            schema.put("minLength", number(1.0));
        }
        let decimals = match rule.decimals {
            0 => String::new(),
            1 if way == Way::Asked => " One decimal.".to_owned(),
            many if way == Way::Asked => format!(" Up to {many} decimals."),
            _ => String::new(),
        };
        schema.put("description", format!("{note}{decimals}"));
        if let Some(standing) = default(field, &rule).filter(|_| way == Way::Asked) {
            schema.put("default", standing);
        }
        schema
    }

    /// A rule as it is at this door, where the comment says that the public one gives less.
    fn on_this_side(&self, rule: &FieldRule, note: &str) -> FieldRule {
        let public = note.split_once("at the public door up to ").filter(|_| self.side == Side::Public);
        let most = public.map(|(_, rest)| {
            let digits = rest.chars().take_while(|letter| letter.is_ascii_digit() || *letter == ' ');
            digits.filter(char::is_ascii_digit).collect::<String>().parse().unwrap()
        });
        FieldRule { least: rule.least, most: most.or(rule.most), ..FieldRule::default() }
    }

    /// One value of a field, within a rule.
    pub fn value(&self, field: &FieldDescriptor, way: Way, rule: &FieldRule) -> Map {
        let typed = |name: &str| Map::default().with("type", name);
        let within = |mut schema: Map, least: Option<f64>, most: Option<f64>| {
            for (key, bound) in [("minimum", least), ("maximum", most)] {
                if let Some(bound) = bound {
                    schema.put(key, number(bound));
                }
            }
            schema
        };
        match field.kind() {
            Kind::Double => within(typed("number"), rule.least, rule.most),
            Kind::Uint32 => {
                within(typed("integer"), rule.least.or(Some(0.0)), rule.most.or(Some(f64::from(u32::MAX))))
            }
            Kind::Int64 => typed("string").with("format", "int64").with("pattern", digits(field, rule)),
            Kind::Bool => typed("boolean"),
            Kind::String => self.text(field, way, rule),
            Kind::Message(message) => self.refer(&message, way),
            Kind::Enum(found) => Map::default().with("$ref", place(found.name())),
            other => panic!("{}: no schema for {other:?} yet", field.full_name()),
        }
    }

    fn text(&self, field: &FieldDescriptor, way: Way, rule: &FieldRule) -> Map {
        let note = self.notes.of(field.full_name());
        let mut inside = Map::default();
        if note.contains("RFC 3339") {
            inside.put("format", "date-time");
        } else if note.contains("ISO date") {
            inside.put("format", "date");
        } else if let Some(least) = rule.least.filter(|least| *least > 0.0) {
            inside.put("minLength", number(least));
        }
        let told = !inside.is_empty();
        let is_free = way == Way::Told || field.supports_presence() || is_required(field, way);
        let mut schema = Map::default().with("type", "string");
        if told && !field.is_list() && !is_free {
            // without presence an empty text is one that is not given
            schema.put("anyOf", vec![inside, Map::default().with("const", "")]);
        } else {
            schema.extend(inside);
        }
        let counted = !COUNTED_IN_LETTERS.contains(&field.full_name());
        if let Some(most) = rule.most.filter(|_| counted && !note.contains("ISO date")) {
            schema.put("maxLength", number(most));
        }
        schema
    }

    fn enumeration(&self, found: &EnumDescriptor) -> Map {
        let mut note = self.notes.of(found.full_name()).to_owned();
        note.push('\n');
        for value in found.values() {
            let told = self.notes.of(&format!("{}.{}", found.full_name(), value.name()));
            note.extend(["\n- `", value.name(), "`: ", &told.replace('\n', " ")]);
        }
        let names: Vec<String> = found.values().map(|value| value.name().to_owned()).collect();
        Map::default().with("type", "string").with("description", note).with("enum", names)
    }
}

/// The rule of each entry of a list, as far as the comment has one.
fn of_each(note: &str) -> FieldRule {
    let most = note.split_once("each of up to ").and_then(|(_, rest)| rest.split_once(" characters"));
    FieldRule { most: most.map(|(digits, _)| digits.parse().unwrap()), ..FieldRule::default() }
}

fn is_text(field: &FieldDescriptor) -> bool {
    field.kind() == Kind::String
}

/// Whether a key has to be there.
fn is_required(field: &FieldDescriptor, way: Way) -> bool {
    let rule = rule_of(field);
    match way {
        // what is left out is the zero value, which has to be one that cannot stand
        Way::Asked => {
            if field.is_list() {
                return rule.required || rule.least.is_some_and(|least| least >= 1.0);
            }
            let zero_stands = matches!(field.kind(), Kind::Double | Kind::Uint32 | Kind::Int64)
                && rule.least.is_none_or(|least| least <= 0.0);
            rule.required && !zero_stands
        }
        Way::Told => !field.supports_presence(),
    }
}

/// At most one of some keys.
fn at_most_one(fields: &[&FieldDescriptor]) -> Vec<Tree> {
    let one = |field: &&FieldDescriptor| {
        let alone = Map::default().with("required", vec![field.json_name()]);
        let others = all_but(fields, Some(field));
        Tree::from(if others.is_empty() { alone } else { alone.with("properties", others) })
    };
    let mut ways: Vec<Tree> = fields.iter().map(one).collect();
    ways.push(Map::default().with("properties", all_but(fields, None)).into());
    ways
}

/// Keys that may not be there.
fn all_but(fields: &[&FieldDescriptor], one: Option<&FieldDescriptor>) -> Map {
    let mut others = Map::default();
    for other in fields.iter().filter(|field| Some(**field) != one) {
        others.put(other.json_name(), false);
    }
    others
}

/// Whole numbers of 64 bits are strings, so their range is one of digits.
fn digits(field: &FieldDescriptor, rule: &FieldRule) -> String {
    match (rule.least, rule.most) {
        (None, None) => "^-?(0|[1-9][0-9]{0,18})$".to_owned(),
        (Some(1.0), Some(most)) => {
            let most = format!("{most}");
            let zeros = most.strip_prefix('1').filter(|zeros| zeros.bytes().all(|digit| digit == b'0'));
            let zeros = zeros.unwrap_or_else(|| panic!("{}: no pattern for up to {most}", field.full_name()));
            format!("^([1-9][0-9]{{0,{}}}|{most})$", zeros.len() - 1)
        }
        other => panic!("{}: no pattern for {other:?} yet", field.full_name()),
    }
}

/// What stands in, where that is a value and not words.
fn default(field: &FieldDescriptor, rule: &FieldRule) -> Option<Tree> {
    if field.is_list() {
        return None;
    }
    let text = rule.stands_in.as_str();
    match field.kind() {
        Kind::Double | Kind::Uint32 => text.parse().ok().map(number),
        Kind::Bool => text.parse().ok().map(|value: bool| Tree::from(value)),
        Kind::Enum(found) => found.get_value_by_name(text).map(|value| Tree::from(value.name())),
        _ => None,
    }
}
