//! A document of OpenAPI as one page of HTML that asks nobody for anything and needs no script.
//!
//! It reads the few parts of OpenAPI that our own documents use. Keys come in the order of the
//! contract.

use std::fmt::Write as _;

use pennantry_contract::table;
use serde_json::Value;

use super::words::{marked, text};
use crate::report::Esc;

/// The style of the page, as it stands in it.
pub const STYLE: &str = include_str!("style.css");

/// Verbs in the order in which they are told.
const VERBS: [&str; 3] = ["get", "post", "delete"];

/// Appends formatted text to a string, which cannot fail.
macro_rules! put {
    ($out:expr, $($what:tt)*) => {{
        let _ = write!($out, $($what)*);
    }};
}

/// The page of a document.
pub fn page(document: &Value) -> String {
    let title = text(&document["info"]["title"]);
    let mut out = format!(
        "<!DOCTYPE html><html lang=en-GB><head><meta charset=utf-8><title>{title}: how to ask</title>\
         <meta name=viewport content=\"width=device-width, initial-scale=1\">\
         <meta name=color-scheme content=\"light dark\"><meta name=referrer content=no-referrer>\
         <link rel=icon href=\"data:,\"><style>{STYLE}</style></head><body>\
         <a class=skip href=\"#calls\">To the calls</a>\
         <header><p class=house>{title}</p><h1>How to ask</h1><p>{}</p></header><main>\
         <section aria-labelledby=about><h2 id=about>All of it</h2>{}\
         <p>The same for programs: <a href=\"/openapi.json\">openapi.json</a>, OpenAPI {}.</section>",
        Esc(text(&document["info"]["summary"])),
        marked(&document["info"]["description"]),
        text(&document["openapi"]),
        title = Esc(title),
    );
    let calls = calls(document);
    out.push_str("<nav aria-labelledby=calls><h2 id=calls>Calls</h2><ul>");
    for call in &calls {
        let (verb, path, about) = (call.verb.to_uppercase(), Esc(call.path), call.about);
        let id = text(&about["operationId"]);
        put!(
            out,
            "<li><a href=\"#{id}\"><b>{verb}</b> <code>{path}</code></a> {}",
            Esc(text(&about["summary"]))
        );
    }
    out.push_str("</ul></nav>");
    for call in &calls {
        article(&mut out, document, call);
    }
    out.push_str("<section aria-labelledby=shapes><h2 id=shapes>Shapes</h2>");
    for (name, schema) in document["components"]["schemas"].as_object().into_iter().flatten() {
        shape(&mut out, name, schema);
    }
    out.push_str("</section></main></body></html>\n");
    out
}

/// A call of the document.
struct Call<'a> {
    path: &'a str,
    verb: &'static str,
    about: &'a Value,
}

/// Every call, service by service in the order of the document's tags.
fn calls(document: &Value) -> Vec<Call<'_>> {
    let mut all = Vec::new();
    for tag in document["tags"].as_array().into_iter().flatten() {
        for (path, verbs) in document["paths"].as_object().into_iter().flatten() {
            for verb in VERBS {
                let about = &verbs[verb];
                if about["tags"][0] == tag["name"] {
                    all.push(Call { path, verb, about });
                }
            }
        }
    }
    all
}

/// What a reference leads to, or the value itself.
fn resolved<'a>(document: &'a Value, value: &'a Value) -> &'a Value {
    let place = value["$ref"].as_str().and_then(|reference| reference.strip_prefix('#'));
    place.and_then(|place| document.pointer(place)).unwrap_or(value)
}

fn article(out: &mut String, document: &Value, call: &Call<'_>) {
    let id = text(&call.about["operationId"]);
    let verb = call.verb.to_uppercase();
    put!(
        out,
        "<article aria-labelledby=\"{id}\"><h3 id=\"{id}\"><b>{verb}</b> <code>{}</code></h3>{}",
        Esc(call.path),
        marked(&call.about["description"])
    );
    let parameters = call.about["parameters"].as_array().into_iter().flatten();
    let parameters: Vec<&Value> = parameters.map(|one| resolved(document, one)).collect();
    if !parameters.is_empty() {
        out.push_str("<h4>With</h4><dl>");
        for one in parameters {
            let needed = one["required"] == Value::Bool(true);
            let place = text(&one["in"]);
            let kind = format!("{place}, {}", kind(&one["schema"]));
            entry(out, text(&one["name"]), &kind, needed, &one["description"]);
        }
        out.push_str("</dl>");
    }
    for (media, content) in call.about["requestBody"]["content"].as_object().into_iter().flatten() {
        put!(out, "<h4>Body</h4><p>{}, {}.", Esc(media), kind(&content["schema"]));
        for (name, example) in content["examples"].as_object().into_iter().flatten() {
            let written = serde_json::to_string_pretty(&example["value"]).unwrap_or_default();
            put!(out, "<figure><figcaption>Such as: {}</figcaption><pre>", Esc(name));
            for line in written.lines() {
                put!(out, "{}\n", Esc(line));
            }
            out.push_str("</pre></figure>");
        }
    }
    out.push_str("<h4>Answers</h4><dl class=answers>");
    for (status, answer) in call.about["responses"].as_object().into_iter().flatten() {
        put!(out, "<div><dt><b>{}</b>", Esc(status));
        for (media, content) in answer["content"].as_object().into_iter().flatten() {
            put!(out, " {}, {}", Esc(media), kind(&content["schema"]));
        }
        put!(out, "<dd>{}", marked(&answer["description"]));
        let reasons = answer["content"]["application/problem+json"]["schema"]["properties"]["reason"]["enum"]
            .as_array();
        let reasons: Vec<String> = reasons
            .into_iter()
            .flatten()
            .map(|reason| format!("<code>{}</code>", Esc(text(reason))))
            .collect();
        if !reasons.is_empty() {
            put!(out, "<p>Reason: {}", reasons.join(" or "));
        }
        let headers: Vec<String> = answer["headers"]
            .as_object()
            .into_iter()
            .flatten()
            .map(|(name, _)| format!("<code>{}</code>", Esc(name)))
            .collect();
        put!(out, "<p class=small>Headers: {}</div>", headers.join(", "));
    }
    out.push_str("</dl></article>");
}

/// One line of a list: its name, its kind, whether it is needed, and what it is.
fn entry(out: &mut String, name: &str, kind: &str, needed: bool, note: &Value) {
    let needed = if needed { " <em>must be given</em>" } else { "" };
    put!(out, "<div><dt><code>{}</code> {kind}{needed}<dd>{}</div>", Esc(name), marked(note));
}

fn shape(out: &mut String, name: &str, schema: &Value) {
    let told = marked(&schema["description"]);
    put!(out, "<article aria-labelledby=\"of-{name}\"><h3 id=\"of-{name}\">{name}</h3>{told}");
    let fields = ordered(name, schema);
    if !fields.is_empty() {
        let asked = schema["additionalProperties"] == Value::Bool(false);
        let required: Vec<&str> = schema["required"].as_array().into_iter().flatten().map(text).collect();
        out.push_str("<dl>");
        for (key, field) in fields {
            let mut kind = kind(field);
            if let Some(standing) = field.get("default") {
                put!(kind, ", else <code>{}</code>", Esc(&standing.to_string()));
            }
            // of what is told it says little that a key is always there
            entry(out, key, &kind, asked && required.contains(&key), &field["description"]);
        }
        out.push_str("</dl>");
    }
    for way in schema["oneOf"].as_array().into_iter().flatten() {
        if let Some(key) = way["required"][0].as_str().filter(|_| way["properties"].is_object()) {
            let others: Vec<String> = way["properties"]
                .as_object()
                .into_iter()
                .flatten()
                .map(|(other, _)| format!("<code>{}</code>", Esc(other)))
                .collect();
            put!(out, "<p class=small><code>{}</code> goes without {}.", Esc(key), others.join(", "));
        }
    }
    out.push_str("</article>");
}

/// Keys in the order of the contract; what is none of its messages, in its own.
fn ordered<'a>(name: &str, schema: &'a Value) -> Vec<(&'a str, &'a Value)> {
    let bare = name.strip_suffix("InAnswer").unwrap_or(name);
    let message = table::message(&format!("pennantry.v1.{bare}"));
    let place = |key: &str| {
        message.and_then(|message| message.fields.iter().position(|field| field.json_name == key))
    };
    let mut all: Vec<(&str, &Value)> = schema["properties"]
        .as_object()
        .into_iter()
        .flatten()
        .map(|(key, field)| (key.as_str(), field))
        .collect();
    all.sort_by_key(|(key, _)| place(key));
    all
}

/// What a value has to be, in words.
fn kind(schema: &Value) -> String {
    if let Some(reference) = schema["$ref"].as_str() {
        let name = reference.rsplit('/').next().unwrap_or_default();
        return format!("<a href=\"#of-{name}\">{name}</a>");
    }
    let bound = |key: &str| schema.get(key).map(text_of_number);
    let mut words = match text(&schema["type"]) {
        "array" => format!("list of {}", kind(&schema["items"])),
        "string" => match text(&schema["format"]) {
            "date" => "day, as 2026-12-04".to_owned(),
            "date-time" => "instant, as 2026-12-09T00:00:00Z".to_owned(),
            "int64" => "whole number in quotes".to_owned(),
            _ => "text".to_owned(),
        },
        "integer" => "whole number".to_owned(),
        "number" => "number".to_owned(),
        "boolean" => "true or false".to_owned(),
        "object" => "object".to_owned(),
        _ => String::new(),
    };
    let full = u32::MAX.to_string();
    match (bound("minimum"), bound("maximum")) {
        (Some(least), Some(most)) if most != full => put!(words, ", {least} to {most}"),
        (Some(least), _) if least != "0" => put!(words, ", {least} or more"),
        _ => {}
    }
    for (key, unit) in [("maxLength", "characters"), ("maxItems", "entries")] {
        if let Some(most) = bound(key) {
            put!(words, ", up to {most} {unit}");
        }
    }
    words
}

fn text_of_number(value: &Value) -> String {
    value.as_f64().map(|value| format!("{value}")).unwrap_or_default()
}
