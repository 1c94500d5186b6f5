//! The written list of what buyers may see: a new field is private until it is on it.

use prost_reflect::{Kind, MessageDescriptor};

use crate::contract_source::{compare, compile};
use crate::contract_tables::rule_of;

/// Every path that a buyer can reach from a message, in the order of the proto.
fn public(message: &MessageDescriptor, path: &str, out: &mut Vec<String>) {
    assert!(out.len() < 10_000, "{}: the answers do not nest in themselves", message.full_name());
    for field in message.fields().filter(|field| rule_of(field).buyer) {
        let list = if field.is_list() { "[]" } else { "" };
        let path = format!("{path}.{}{list}", field.json_name());
        out.push(path.clone());
        if let Kind::Message(inner) = field.kind() {
            public(&inner, &path, out);
        }
    }
}

#[test]
fn contract_views_public_fields_are_listed() {
    let pool = compile().pool;
    let mut out = vec![
        "# What buyers may see. Written by the test contract_views with UPDATE=1, from proto/.".to_owned(),
    ];
    for (name, path) in [
        ("pennantry.v1.Quote", "quote"),
        ("pennantry.v1.QuoteCheck", "check"),
        ("pennantry.v1.Catalogue", "catalogue"),
        ("pennantry.v1.Reservation", "reservation"),
    ] {
        public(&pool.get_message_by_name(name).unwrap(), path, &mut out);
    }
    // Written by hand: what DESIGN keeps for the shop.
    for kept in ["cost", "surplus", "margin", "markup", "supplier", "bolt", "overhead", "fee"] {
        let leak = out.iter().skip(1).find(|path| path.to_lowercase().contains(kept));
        assert_eq!(leak, None, "{kept} is the shop's alone");
    }
    compare("tests/golden/public-fields.txt", (out.join("\n") + "\n").as_bytes());
}
