//! Writes the tables of the contract, for `crates/contract/src/gen/tables.rs`.

use std::fmt::Write as _;

use prost_reflect::{
    DescriptorPool, DynamicMessage, EnumDescriptor, FieldDescriptor, Kind, MessageDescriptor,
    MethodDescriptor, ServiceDescriptor, Value,
};

const PACKAGE: &str = "pennantry.v1";

/// Messages of the package that are sent, in the order of the files.
pub fn messages(pool: &DescriptorPool) -> impl Iterator<Item = MessageDescriptor> {
    pool.all_messages().filter(|message| message.package_name() == PACKAGE && message.name() != "FieldRule")
}

/// Enums of the package that are sent, in the order of the files.
pub fn enums(pool: &DescriptorPool) -> impl Iterator<Item = EnumDescriptor> {
    pool.all_enums().filter(|found| found.package_name() == PACKAGE && found.name() != "Audience")
}

/// Services of the package, in the order of the files.
pub fn services(pool: &DescriptorPool) -> impl Iterator<Item = ServiceDescriptor> {
    pool.services().filter(|service| service.package_name() == PACKAGE)
}

/// The rule of a field, as its option says.
#[derive(Debug, Default, PartialEq)]
pub struct FieldRule {
    pub least: Option<f64>,
    pub most: Option<f64>,
    pub decimals: u32,
    pub stands_in: String,
    pub buyer: bool,
    pub required: bool,
}

/// Reads a field's options.
pub fn rule_of(field: &FieldDescriptor) -> FieldRule {
    let pool = field.parent_pool();
    let options = field.options();
    let mut found = FieldRule::default();
    let behaviour = pool.get_extension_by_name("google.api.field_behavior").unwrap();
    if let Value::List(entries) = options.get_extension(&behaviour).as_ref() {
        // REQUIRED is 2 in google/api/field_behavior.proto.
        found.required = entries.contains(&Value::EnumNumber(2));
    }
    let ours = pool.get_extension_by_name("pennantry.v1.rule").unwrap();
    if !options.has_extension(&ours) {
        return found;
    }
    let value = options.get_extension(&ours);
    let rule: &DynamicMessage = value.as_message().unwrap();
    let number = |name: &str| {
        rule.has_field_by_name(name).then(|| rule.get_field_by_name(name).unwrap().as_f64().unwrap())
    };
    found.least = number("least");
    found.most = number("most");
    found.decimals = rule.get_field_by_name("decimals").unwrap().as_u32().unwrap();
    found.stands_in = rule.get_field_by_name("stands_in").unwrap().as_str().unwrap().to_owned();
    // AUDIENCE_BUYER; anything else, silence too, is the shop alone.
    found.buyer = rule.get_field_by_name("audience").unwrap().as_enum_number() == Some(2);
    found
}

/// The tables as Rust code, to be laid out by a printer of code.
pub fn emit(pool: &DescriptorPool) -> String {
    let mut out = String::new();
    for message in messages(pool) {
        message_table(&mut out, &message);
    }
    for found in enums(pool) {
        enum_table(&mut out, &found);
    }
    let list = |kind: &str, head: &str, names: Vec<String>| {
        format!(
            "/// Every {kind}, in the order of the files.\npub static {head} = &[&{}];\n",
            names.join(", &")
        )
    };
    out += &list(
        "message",
        "MESSAGES: &[&Message]",
        messages(pool).map(|message| constant(message.name())).collect(),
    );
    out += &list("enum", "ENUMS: &[&Enumeration]", enums(pool).map(|found| constant(found.name())).collect());
    out.push_str("/// Every method, in the order of the files.\npub static METHODS: &[Method] = &[");
    for service in services(pool) {
        for method in service.methods() {
            method_entry(&mut out, &method);
        }
    }
    out.push_str("];\n");
    out
}

fn message_table(out: &mut String, message: &MessageDescriptor) {
    write!(
        out,
        "/// `{}`.\npub static {}: Message = Message {{ name: {:?}, fields: &[",
        message.full_name(),
        constant(message.name()),
        message.full_name()
    )
    .unwrap();
    // Fields come by number from the descriptor; as declared is the order of checking.
    let declared = message.descriptor_proto().field.iter();
    for field in declared.map(|field| message.get_field_by_name(field.name()).unwrap()) {
        let rule = rule_of(&field);
        let oneof = field.containing_oneof().filter(|oneof| !oneof.is_synthetic());
        let optional = field.supports_presence() && oneof.is_none() && field.kind().as_message().is_none();
        write!(
            out,
            "Field {{ name: {:?}, json_name: {:?}, number: {}, kind: {}, repeated: {}, optional: {optional}, \
            oneof: {:?}, required: {}, least: {:?}, most: {:?}, decimals: {}, stands_in: {:?}, \
            audience: Audience::{} }},",
            field.name(),
            field.json_name(),
            field.number(),
            kind(&field),
            field.is_list(),
            oneof.as_ref().map(prost_reflect::OneofDescriptor::name),
            rule.required,
            rule.least,
            rule.most,
            rule.decimals,
            rule.stands_in,
            if rule.buyer { "Buyer" } else { "Shop" }
        )
        .unwrap();
    }
    out.push_str("] };\n");
}

fn enum_table(out: &mut String, found: &EnumDescriptor) {
    let (name, full) = (constant(found.name()), found.full_name());
    write!(out, "/// `{full}`.\npub static {name}: Enumeration = Enumeration {{ name: {full:?}, values: &[")
        .unwrap();
    for value in found.values() {
        write!(out, "EnumValue {{ name: {:?}, number: {} }},", value.name(), value.number()).unwrap();
    }
    out.push_str("] };\n");
}

fn kind(field: &FieldDescriptor) -> String {
    match field.kind() {
        Kind::Double => "Kind::Double".to_owned(),
        Kind::Uint32 => "Kind::Uint32".to_owned(),
        Kind::Int64 => "Kind::Int64".to_owned(),
        Kind::Bool => "Kind::Bool".to_owned(),
        Kind::String => "Kind::String".to_owned(),
        Kind::Message(message) => format!("Kind::Message(&{})", constant(message.name())),
        Kind::Enum(found) => format!("Kind::Enum(&{})", constant(found.name())),
        other => panic!("{}: the tables know no {other:?} yet; add it to table::Kind", field.full_name()),
    }
}

fn method_entry(out: &mut String, method: &MethodDescriptor) {
    assert!(!method.is_client_streaming(), "{}: no method streams in", method.full_name());
    write!(
        out,
        "Method {{ service: {:?}, name: {:?}, request: &{}, response: &{}, http: {}, server_streaming: {} }},",
        method.parent_service().full_name(),
        method.name(),
        constant(method.input().name()),
        constant(method.output().name()),
        http(method),
        method.is_server_streaming()
    )
    .unwrap();
}

/// Where a method is found over HTTP.
pub struct Http {
    pub verb: String,
    pub path: String,
    pub body: Option<String>,
    pub response_body: Option<String>,
}

/// Reads a method's `google.api.http`.
pub fn http_of(method: &MethodDescriptor) -> Option<Http> {
    let extension = method.parent_pool().get_extension_by_name("google.api.http").unwrap();
    let options = method.options();
    if !options.has_extension(&extension) {
        return None;
    }
    let value = options.get_extension(&extension);
    let rule = value.as_message().unwrap();
    let text = |name: &str| rule.get_field_by_name(name).unwrap().as_str().unwrap().to_owned();
    let maybe = |name: &str| Some(text(name)).filter(|text| !text.is_empty());
    let verb = ["get", "put", "post", "delete", "patch"]
        .into_iter()
        .find(|verb| rule.has_field_by_name(verb))
        .unwrap_or_else(|| panic!("{}: no verb that the tables know", method.full_name()));
    Some(Http {
        verb: verb.to_uppercase(),
        path: text(verb),
        body: maybe("body"),
        response_body: maybe("response_body"),
    })
}

fn http(method: &MethodDescriptor) -> String {
    http_of(method).map_or_else(
        || "None".to_owned(),
        |http| {
            format!(
                "Some(Http {{ verb: {:?}, path: {:?}, body: {:?}, response_body: {:?} }})",
                http.verb, http.path, http.body, http.response_body
            )
        },
    )
}

/// `CalculateQuoteRequest` as a static: `CALCULATE_QUOTE_REQUEST`.
fn constant(name: &str) -> String {
    let mut out = String::new();
    for (index, letter) in name.char_indices() {
        if index > 0 && letter.is_uppercase() {
            out.push('_');
        }
        out.extend(letter.to_uppercase());
    }
    out
}
