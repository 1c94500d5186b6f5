//! The calls of the contract as operations of HTTP.

use std::collections::BTreeMap;

use pennantry_contract::reasons::Kind as Reason;
use prost_reflect::{
    DescriptorPool, FieldDescriptor, Kind, MessageDescriptor, MethodDescriptor, ServiceDescriptor,
};

use super::notes::Notes;
use super::schemas::{Schemas, Side, Way, place};
use super::tree::{Map, Tree, number};
use crate::contract_source::top;
use crate::contract_tables::{http_of, rule_of, services};

/// Services that need the stock.
const OF_STOCK: [&str; 3] = ["StockService", "ReservationService", "ReportService"];
/// Calls whose answer has an entity tag at the public door.
const KEPT: [&str; 1] = ["GetCatalogue"];
/// Calls that the public door refuses whoever asks: it does not know storefronts yet.
const SHUT: [&str; 1] = ["ConfirmReservation"];
/// Requests that are printed with a call.
const EXAMPLES: [(&str, &str, &str); 2] = [
    ("CalculateQuote", "story", "tests/golden/story.json"),
    ("CalculateQuote", "pencil", "tests/golden/pencil.json"),
];
const JSON: &str = "application/json";
const PROBLEM: &str = "application/problem+json";

/// A call as it is found over HTTP.
pub struct Operation {
    method: MethodDescriptor,
    verb: String,
    path: String,
    named: Vec<FieldDescriptor>,
    query: Vec<FieldDescriptor>,
    body: Option<MessageDescriptor>,
    answer: MessageDescriptor,
    streams: bool,
}

impl Operation {
    /// Whether a service has it.
    pub fn is_of(&self, service: &ServiceDescriptor) -> bool {
        self.method.parent_service() == service
    }
}

/// Every call of one side, in the order of the files.
pub fn operations(pool: &DescriptorPool, side: Side) -> Vec<Operation> {
    let methods = services(pool).flat_map(|service| service.methods().collect::<Vec<_>>());
    methods.filter_map(|method| operation(method, side)).collect()
}

fn operation(method: MethodDescriptor, side: Side) -> Option<Operation> {
    let part = |message: MessageDescriptor, name: &str| match message.get_field_by_name(name).unwrap().kind()
    {
        Kind::Message(part) => part,
        other => panic!("{name} is {other:?}"),
    };
    if side == Side::Private {
        let streams = method.is_server_streaming();
        let path = format!("/{}/{}", method.parent_service().full_name(), method.name());
        return Some(Operation {
            verb: if streams { "get" } else { "post" }.to_owned(),
            path,
            named: Vec::new(),
            query: if streams { method.input().fields().collect() } else { Vec::new() },
            body: (!streams).then(|| method.input()),
            answer: method.output(),
            streams,
            method,
        });
    }
    let http = http_of(&method)?;
    let names = http.path.split('/').filter_map(|part| part.strip_prefix('{')?.strip_suffix('}'));
    let named = names.map(|name| method.input().get_field_by_name(name).unwrap()).collect();
    Some(Operation {
        verb: http.verb.to_lowercase(),
        named,
        query: Vec::new(),
        body: http.body.map(|body| part(method.input(), &body)),
        answer: part(method.output(), &http.response_body.unwrap()),
        streams: false,
        path: http.path,
        method,
    })
}

/// Operations of one document.
pub struct Paths<'a> {
    pub notes: &'a Notes,
    pub side: Side,
    pub operations: &'a [Operation],
}

impl Paths<'_> {
    /// Takes what is asked and told into the schemas.
    pub fn gather(&self, schemas: &mut Schemas<'_>) {
        for operation in self.operations {
            if let Some(body) = &operation.body {
                schemas.gather(body, Way::Asked);
            }
            schemas.gather(&operation.answer, Way::Told);
        }
    }

    /// Every path with its operations.
    pub fn write(&self, schemas: &Schemas<'_>) -> Map {
        let mut paths: Vec<(&str, Map)> = Vec::new();
        for operation in self.operations {
            let written = self.operation(operation, schemas);
            match paths.iter_mut().find(|(path, _)| *path == operation.path) {
                Some((_, verbs)) => verbs.put(&operation.verb, written),
                None => paths.push((&operation.path, Map::default().with(&operation.verb, written))),
            }
        }
        let mut all = Map::default();
        for (path, verbs) in paths {
            all.put(path, verbs);
        }
        all
    }

    fn operation(&self, operation: &Operation, schemas: &Schemas<'_>) -> Map {
        let method = &operation.method;
        let note = self.notes.of_method(method.full_name());
        let (summary, _) = note.split_once(". ").unwrap_or((note.trim_end_matches('.'), ""));
        let mut written = Map::default()
            .with("operationId", method.name())
            .with("tags", vec![method.parent_service().name()])
            .with("summary", summary.split(':').next().unwrap_or(summary))
            .with("description", note)
            .with("parameters", self.parameters(operation, schemas));
        if let Some(body) = &operation.body {
            let mut content = Map::default().with("schema", schemas.refer(body, Way::Asked));
            let examples = examples(method.name(), self.side);
            if !examples.is_empty() {
                content.put("examples", examples);
            }
            let content = Map::default().with(JSON, content);
            written.put("requestBody", Map::default().with("required", true).with("content", content));
        }
        written.put("responses", self.responses(operation, schemas));
        written
    }

    /// Whether a request has an id of its own, as a header here and in the message elsewhere.
    fn has_id(operation: &Operation) -> bool {
        operation.method.input().get_field_by_name("request_id").is_some()
    }

    fn parameters(&self, operation: &Operation, schemas: &Schemas<'_>) -> Vec<Tree> {
        let mut all: Vec<Tree> = Vec::new();
        let parameter = |name: &str, place: &str, note: &str| {
            Map::default().with("name", name).with("in", place).with("description", note)
        };
        for field in &operation.named {
            let most = rule_of(field).most.unwrap_or_else(|| panic!("{} has no most", field.full_name()));
            let schema = Map::default().with("type", "string").with("minLength", number(1.0));
            let schema = schema.with("maxLength", number(most));
            let note = self.notes.of(field.full_name());
            all.push(
                parameter(field.name(), "path", note).with("required", true).with("schema", schema).into(),
            );
        }
        for field in &operation.query {
            let schema = schemas.value(field, Way::Asked, &rule_of(field));
            let note = self.notes.of(field.full_name());
            all.push(parameter(field.json_name(), "query", note).with("schema", schema).into());
        }
        if self.side == Side::Public && Self::has_id(operation) {
            let needed = operation.verb == "post";
            let name = if needed { "IdempotencyKey" } else { "IdempotencyKeyIfAny" };
            all.push(Map::default().with("$ref", format!("#/components/parameters/{name}")).into());
        }
        if operation.streams {
            let note = "The place that was told last: goes on after it, whatever the address says.";
            let schema = Map::default().with("type", "string");
            all.push(parameter("Last-Event-ID", "header", note).with("schema", schema).into());
        }
        if self.side == Side::Public && KEPT.contains(&operation.method.name()) {
            all.push(Map::default().with("$ref", "#/components/parameters/IfNoneMatch").into());
        }
        if self.side == Side::Private {
            all.push(Map::default().with("$ref", "#/components/parameters/Actor").into());
        }
        all.push(Map::default().with("$ref", "#/components/parameters/RequestId").into());
        all
    }

    fn responses(&self, operation: &Operation, schemas: &Schemas<'_>) -> Map {
        let mut all = Map::default();
        let shut = self.side == Side::Public && SHUT.contains(&operation.method.name());
        if !shut {
            all.put("200", self.told(operation, schemas));
        }
        if self.side == Side::Public && KEPT.contains(&operation.method.name()) {
            let headers = headers(&["ETag", "X-Request-Id"]);
            let note = "What If-None-Match names is still in force.";
            all.put("304", Map::default().with("description", note).with("headers", headers));
        }
        let mut refusals: BTreeMap<u16, Vec<(Reason, String)>> = BTreeMap::new();
        for (reason, note) in self.refusals(operation, shut) {
            let listed = refusals.entry(reason.http_status()).or_default();
            if listed.iter().all(|(other, _)| *other != reason) {
                listed.push((reason, note));
            }
        }
        for (status, reasons) in refusals {
            all.put(&status.to_string(), refused(status, &reasons));
        }
        all
    }

    fn told(&self, operation: &Operation, schemas: &Schemas<'_>) -> Map {
        let note = self.notes.of(operation.method.output().full_name());
        let mut named = vec!["X-Request-Id"];
        if self.side == Side::Public && KEPT.contains(&operation.method.name()) {
            named.push("ETag");
        }
        if Self::has_id(operation) {
            named.push("Pennantry-Replayed");
        }
        let (media, schema) = if operation.streams {
            let of = place(&schemas.name(&operation.answer, Way::Told));
            let told = format!("Events; the data of each is JSON, a `{of}`.");
            ("text/event-stream", Map::default().with("type", "string").with("description", told))
        } else {
            (JSON, schemas.refer(&operation.answer, Way::Told))
        };
        let content = Map::default().with(media, Map::default().with("schema", schema));
        let answer = Map::default().with("description", note).with("headers", headers(&named));
        let answer = answer.with("content", content);
        let links = self.links(operation);
        if links.is_empty() { answer } else { answer.with("links", links) }
    }

    /// Calls that go on with what an answer gives: a ticket, or the name of a reservation.
    fn links(&self, from: &Operation) -> Map {
        let mut links = Map::default();
        if self.side == Side::Private {
            return links;
        }
        let gives = |name: &str| from.answer.get_field_by_name(name);
        for to in self.operations {
            let mut link = Map::default().with("operationId", to.method.name());
            let body = to.body.as_ref();
            if let Some(ticket) = gives("token")
                && let Some(wanted) = body.and_then(|body| body.get_field_by_name(ticket.name()))
            {
                let token = Map::default().with(wanted.json_name(), "$response.body#/token");
                link.put("requestBody", token);
            } else if let Some(name) = gives("reservation_id")
                && to.named.iter().any(|field| field.name() == name.name())
            {
                let source = format!("$response.body#/{}", name.json_name());
                link.put("parameters", Map::default().with(name.name(), source));
            } else {
                continue;
            }
            links.put(to.method.name(), link);
        }
        links
    }

    /// Every way in which a call can be refused, with what the contract says of it.
    fn refusals(&self, operation: &Operation, shut: bool) -> Vec<(Reason, String)> {
        let method = &operation.method;
        let mut found: Vec<(Reason, String)> = Vec::new();
        let mut plain = |reasons: &[Reason]| found.extend(reasons.iter().map(|one| (*one, String::new())));
        if operation.body.is_some() {
            plain(&[
                Reason::Unreadable,
                Reason::TooLarge,
                Reason::UnsupportedMedia,
                Reason::DeadlineExceeded,
            ]);
        }
        if self.side == Side::Private {
            plain(&[Reason::ViewNotPublic]);
        }
        if operation.streams {
            plain(&[Reason::NotAcceptable]);
        }
        if shut {
            plain(&[Reason::Unauthenticated]);
        } else if OF_STOCK.contains(&method.parent_service().name()) {
            plain(&[Reason::Unavailable, Reason::DeadlineExceeded, Reason::ResourceExhausted]);
            if Self::has_id(operation) {
                plain(&[Reason::Aborted, Reason::KeyReused]);
            }
        }
        plain(&[Reason::Internal]);
        // what the contract says of an error comes before the bare error
        let mut told: Vec<(Reason, String)> = Vec::new();
        if !shut {
            let errors = self.notes.errors(method.full_name()).into_iter();
            told.extend(errors.map(|(code, note)| (Reason::from_grpc_code(code), note)));
        }
        told.extend(found);
        let checked = match self.side {
            Side::Public => Self::has_id(operation),
            Side::Private => OF_STOCK.contains(&method.parent_service().name()),
        };
        if checked {
            told.push((Reason::InvalidEnquiry, String::new()));
        }
        if !operation.named.is_empty() {
            told.push((Reason::NotFound, String::new()));
        }
        told
    }
}

fn examples(method: &str, side: Side) -> Map {
    let mut all = Map::default();
    for (of, name, file) in EXAMPLES.iter().filter(|_| side == Side::Public) {
        if *of == method {
            let text = std::fs::read_to_string(top(file)).unwrap();
            let value: serde_json::Value = serde_json::from_str(&text).unwrap();
            all.put(name, Map::default().with("value", value));
        }
    }
    all
}

fn headers(names: &[&str]) -> Map {
    let mut all = Map::default();
    for name in names {
        all.put(name, Map::default().with("$ref", format!("#/components/headers/{name}")));
    }
    all
}

fn refused(status: u16, reasons: &[(Reason, String)]) -> Map {
    let told = |(reason, note): &(Reason, String)| {
        let note = if note.is_empty() { String::new() } else { format!(": {note}") };
        format!("{}{note}.", reason.title())
    };
    let mut named = vec!["X-Request-Id"];
    let again = |(reason, _): &(Reason, String)| {
        matches!(reason, Reason::Aborted | Reason::Unavailable | Reason::ResourceExhausted)
    };
    if reasons.iter().any(again) {
        named.push("Retry-After");
    }
    if reasons.iter().any(|(reason, _)| *reason == Reason::Unauthenticated) {
        named.push("WWW-Authenticate");
    }
    let words: Vec<&str> = reasons.iter().map(|(reason, _)| reason.as_str()).collect();
    let this = Map::default()
        .with("status", Map::default().with("const", number(f64::from(status))))
        .with("reason", Map::default().with("enum", words));
    let schema = Map::default().with("$ref", place("Problem")).with("properties", this);
    let content = Map::default().with(PROBLEM, Map::default().with("schema", schema));
    Map::default()
        .with("description", reasons.iter().map(told).collect::<Vec<_>>().join(" "))
        .with("headers", headers(&named))
        .with("content", content)
}
