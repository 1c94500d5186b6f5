//! The whole contract as one readable list, so that a change of it is seen in review.

use std::fmt::Write as _;

use prost_reflect::{DescriptorPool, FieldDescriptor, Kind};

use crate::contract_source::{compare, compile};
use crate::contract_tables::{enums, http_of, messages, rule_of, services};

/// One line for each field, value and method, in the order of the files.
fn flat(pool: &DescriptorPool) -> String {
    let mut out = String::from("# Written by the test contract_freeze with UPDATE=1, from proto/.\n");
    for service in services(pool) {
        for method in service.methods() {
            let stream = if method.is_server_streaming() { "stream " } else { "" };
            write!(
                out,
                "{} ({}) -> {stream}{}",
                method.full_name(),
                method.input().name(),
                method.output().name()
            )
            .unwrap();
            if let Some(http) = http_of(&method) {
                write!(out, " {} {}", http.verb, http.path).unwrap();
                write!(
                    out,
                    " body={} response_body={}",
                    show(http.body.as_deref()),
                    show(http.response_body.as_deref())
                )
                .unwrap();
            }
            out.push('\n');
        }
    }
    for message in messages(pool) {
        if message.fields().len() == 0 {
            writeln!(out, "{} has no fields", message.full_name()).unwrap();
        }
        for field in message.fields() {
            writeln!(out, "{}", line(&field)).unwrap();
        }
    }
    for found in enums(pool) {
        for value in found.values() {
            writeln!(out, "{}.{} = {}", found.full_name(), value.name(), value.number()).unwrap();
        }
    }
    out
}

fn show(name: Option<&str>) -> &str {
    name.unwrap_or("-")
}

fn line(field: &FieldDescriptor) -> String {
    let rule = rule_of(field);
    let kind = match field.kind() {
        Kind::Message(message) => message.name().to_owned(),
        Kind::Enum(found) => found.name().to_owned(),
        other => format!("{other:?}").to_lowercase(),
    };
    let label = match field.containing_oneof() {
        Some(oneof) if oneof.is_synthetic() => "optional ".to_owned(),
        Some(oneof) => format!("oneof {} ", oneof.name()),
        None if field.is_list() => "repeated ".to_owned(),
        None => String::new(),
    };
    let mut line =
        format!("{} = {} {label}{kind} json={}", field.full_name(), field.number(), field.json_name());
    for (name, value) in [("least", rule.least), ("most", rule.most)] {
        if let Some(value) = value {
            write!(line, " {name}={value}").unwrap();
        }
    }
    if rule.decimals > 0 {
        write!(line, " decimals={}", rule.decimals).unwrap();
    }
    if rule.required {
        line.push_str(" required");
    }
    line.push_str(if rule.buyer { " buyer" } else { " shop" });
    if !rule.stands_in.is_empty() {
        write!(line, " stands_in={:?}", rule.stands_in).unwrap();
    }
    line
}

#[test]
fn contract_freeze() {
    compare("tests/golden/contract.txt", flat(&compile().pool).as_bytes());
}
