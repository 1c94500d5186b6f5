//! The contract as OpenAPI 3.1, made from the descriptor, its comments and its options: one
//! document of the public door and one of the private door.
//!
//! `UPDATE=1` writes them. What they say is held against real servers in `http.rs`.

mod notes;
mod paths;
mod schemas;
mod tree;

use pennantry_contract::reasons::Kind;
use prost_reflect::DescriptorPool;

use crate::contract_source::{Source, compare, compile};
use crate::contract_tables::services;
use notes::Notes;
use paths::{Paths, operations};
use schemas::{Schemas, Side};
use tree::{Map, number, print};

/// What stands at the head of both.
const READING: &str = "\
Bodies are UTF-8 JSON, the standard mapping of proto3: what is described here is the form in which \
everything is told and best asked. As the mapping has it, null is read as not given, numbers are also \
read in quotes, 64 bit numbers also without, values of enums also by number, keys also by their proto \
names, and what is empty or nought stands for what is not given where a field cannot tell the two apart. \
Any other key, and a key that is there twice, is refused; an answer may get more keys with time.

Lengths are millimetres and mean whole micrometres: what is finer is refused, not rounded. Money is an \
amount in minor units of its currency, and a string, because 64 bits are more than a number of \
JavaScript holds.

What is refused is an `application/problem+json` (RFC 9457) with a `reason` for programs. A body that \
cannot be read has its first fault listed; of one that can be read, everything that is wrong with it. \
Bodies of more than 64 KiB and ones nested deeper than 32 are not read. An address that is not here is \
answered with 404, a method that an address does not have with 405 and the header Allow.";

const PUBLIC: &str = "\
What a storefront asks, and whoever buys. Pages of every origin may ask: the door knows nobody by a cookie \
or a password. Of an answer it gives what buyers may see.";

const PRIVATE: &str = "\
**The shop's own side: not for the public.** The JSON twin of every call of gRPC, at the path of the call, with the \
same messages; calls that go on telling are `text/event-stream`. It answers programs and pages of the shop's \
own machine and asks nobody who they are, so it must not be reached from outside.";

fn document(source: &Source, side: Side) -> Map {
    let notes = Notes::read(source);
    let operations = operations(&source.pool, side);
    let paths = Paths { notes: &notes, side, operations: &operations };
    let mut schemas = Schemas::new(&notes, side);
    paths.gather(&mut schemas);
    let (title, about) = match side {
        Side::Public => ("Pennantry", PUBLIC),
        Side::Private => ("Pennantry, the private door", PRIVATE),
    };
    let licence = Map::default().with("name", "Apache License 2.0").with("identifier", "Apache-2.0");
    let info = Map::default()
        .with("title", title)
        .with("version", "v1")
        .with("summary", "Bunting made to length: what it takes, when it can leave, what it costs.")
        .with("description", format!("{about}\n\n{READING}"))
        .with("license", licence);
    let written = paths.write(&schemas);
    Map::default()
        .with("openapi", "3.1.0")
        .with("info", info)
        .with("servers", vec![Map::default().with("url", "/")])
        .with("tags", tags(&source.pool, &notes, &operations))
        .with("paths", written)
        .with("components", components(&schemas, side))
}

fn tags(pool: &DescriptorPool, notes: &Notes, operations: &[paths::Operation]) -> Vec<Map> {
    let used = services(pool).filter(|service| operations.iter().any(|one| one.is_of(service)));
    let tag = |service: prost_reflect::ServiceDescriptor| {
        let note = notes.of(service.full_name());
        Map::default().with("name", service.name()).with("description", note)
    };
    used.map(tag).collect()
}

fn components(schemas: &Schemas<'_>, side: Side) -> Map {
    let mut all = schemas.all();
    all.insert("Problem".to_owned(), problem());
    // told at every door, whether or not a message of it has one
    all.entry("FieldViolation".to_owned()).or_insert_with(violation);
    let mut written = Map::default();
    for (name, schema) in all {
        written.put(&name, schema);
    }
    Map::default()
        .with("schemas", written)
        .with("parameters", parameters(side))
        .with("headers", headers(side))
}

fn text(note: &str) -> Map {
    Map::default().with("type", "string").with("description", note)
}

/// What is refused, as `doors/problem.rs` writes it.
fn problem() -> Map {
    let reasons: Vec<&str> = Kind::ALL.iter().map(|kind| kind.as_str()).collect();
    let urns: Vec<String> = reasons.iter().map(|reason| format!("urn:pennantry:problem:{reason}")).collect();
    let status = Map::default().with("type", "integer").with("description", "The status of HTTP.");
    let list = Map::default()
        .with("type", "array")
        .with("items", Map::default().with("$ref", schemas::place("FieldViolation")))
        .with("description", "Every violation, in the order of the fields.");
    let properties = Map::default()
        .with("type", text("The reason as a name; there is nothing to fetch.").with("enum", urns))
        .with("title", text("The failure in a few words, the same every time."))
        .with("status", status)
        .with("detail", text("What happened this time, for people."))
        .with("reason", text("The reason for programs.").with("enum", reasons))
        .with("violations", list)
        .with("requestId", text("The id under which the log knows the request."));
    Map::default()
        .with("type", "object")
        .with("description", "Why something was refused (RFC 9457).")
        .with("required", vec!["type", "title", "status", "detail", "reason", "violations", "requestId"])
        .with("properties", properties)
}

fn violation() -> Map {
    let properties = Map::default()
        .with("field", text("Path of the field in JSON names, or the name of a header."))
        .with("reason", text("Reason in capitals."))
        .with("message", text("What is wrong, with which value, what is allowed and what to do next."));
    Map::default()
        .with("type", "object")
        .with("description", "One thing wrong with one field.")
        .with("required", vec!["field", "reason", "message"])
        .with("properties", properties)
}

fn parameters(side: Side) -> Map {
    let header = |name: &str, note: &str, schema: Map| {
        let parameter = Map::default().with("name", name).with("in", "header").with("description", note);
        parameter.with("schema", schema)
    };
    let typed = || Map::default().with("type", "string");
    let note =
        "An id for the logs, plain letters and digits; one of the server's own stands in for any other.";
    let mut all = Map::default().with("RequestId", header("X-Request-Id", note, typed()));
    if side == Side::Private {
        let note =
            "Who asks, for the record, up to 40 plain letters and digits: \"staff\" stands in for any other.";
        all.put("Actor", header("Pennantry-Actor", note, typed()));
        return all;
    }
    // a string of structured fields (RFC 9651), or the same without its quotes
    let key = r#"^(?:[!#-~][!-~]{0,79}|"(?:[!#-\[\]-~]|\\["\\]){1,80}")$"#;
    let note = "Made up for this request, up to 80 visible characters of ASCII, with or without quotes. Sent again with \
                the same content, nothing is done and the first answer is given.";
    let key = || typed().with("pattern", key);
    all.put("IdempotencyKey", header("Idempotency-Key", note, key()).with("required", true));
    all.put("IdempotencyKeyIfAny", header("Idempotency-Key", note, key()));
    all.put("IfNoneMatch", header("If-None-Match", "Entity tags that the asker has.", typed()));
    all
}

fn headers(side: Side) -> Map {
    let header = |note: &str, schema: Map| Map::default().with("description", note).with("schema", schema);
    let typed = |name: &str| Map::default().with("type", name);
    let mut all = Map::default()
        .with(
            "X-Request-Id",
            header("The id of the request, in the log too.", typed("string")).with("required", true),
        )
        .with(
            "Retry-After",
            header("Seconds after which to ask again.", typed("integer").with("minimum", number(1.0))),
        )
        .with(
            "Pennantry-Replayed",
            header(
                "\"true\" where this is the first answer to a request sent again.",
                typed("string").with("const", "true"),
            ),
        );
    if side == Side::Public {
        all.put("ETag", header("Changes when the answer does.", typed("string")).with("required", true));
        all.put("WWW-Authenticate", header("How to say who one is.", typed("string")).with("required", true));
    }
    all
}

#[test]
fn contract_openapi_is_fresh() {
    let source = compile();
    for (side, name) in [(Side::Public, "openapi"), (Side::Private, "openapi-private")] {
        let path = format!("crates/contract/src/gen/{name}.json");
        compare(&path, print(&document(&source, side)).as_bytes());
    }
}

/// The schema of a violation is that of the contract's own message.
#[test]
fn contract_openapi_has_one_shape_of_violation() {
    let source = compile();
    let private: serde_json::Value = serde_json::from_str(&print(&document(&source, Side::Private))).unwrap();
    let ours: serde_json::Value = serde_json::to_value(violation()).unwrap();
    let theirs = &private["components"]["schemas"]["FieldViolation"];
    assert_eq!(theirs["required"], ours["required"]);
    let keys = |schema: &serde_json::Value| -> Vec<String> {
        schema["properties"].as_object().unwrap().keys().cloned().collect()
    };
    assert_eq!(keys(theirs), keys(&ours));
}
