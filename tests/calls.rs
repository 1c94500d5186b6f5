//! Every call of the contract by its name: stories of `golden/calls`, each step a call with what it
//! is to be answered, worked by hand, or why it is refused.
//!
//! A story is told to three servers: to one over gRPC by the descriptor alone (no generated client), to
//! one as JSON, and to one whose stock is in PostgreSQL. The first two have to say what is expected, and
//! all of them the same; but for instants, which in a database are by its own clock.

mod dynamic;

use std::collections::{BTreeMap, BTreeSet};

use pennantry_contract::table;
use pennantry_ledger::report::{Again, Begin, Begun};
use pennantry_ledger::rules::At;
use serde::Deserialize;
use serde_json::Value;

use crate::doors::{House, Refused};
use crate::golden::{self, Refusal};
use crate::postgres::Database;

/// A file of `golden/calls`.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct Story {
    #[serde(skip)]
    name: String,
    title: String,
    source: String,
    grade: String,
    step: Vec<Step>,
}

/// One call.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct Step {
    /// Its name, such as `ReceiveStock`.
    call: String,
    /// What is asked, in the keys of the contract's JSON; `{one}` is a name learnt before.
    #[serde(default)]
    ask: toml::Table,
    /// Paths into the answer, and what is there. Of a stream the answer is the list `signs`.
    #[serde(default)]
    expect: toml::Table,
    /// Names that this server made up, and where they are in the answer.
    #[serde(default)]
    learn: BTreeMap<String, String>,
    /// Why it is refused, where it is.
    refused: Option<Refusal>,
    /// Of a stream: how many signs are waited for.
    signs: Option<usize>,
    /// A day whose report somebody else begins to make before that.
    begun_elsewhere: Option<String>,
}

fn stories() -> Vec<Story> {
    let listed = std::fs::read_dir(golden::folder().join("calls")).expect("the stories can be listed");
    let mut files: Vec<_> = listed.map(|entry| entry.expect("an entry").path()).collect();
    files.sort();
    let read = |path: &std::path::PathBuf| {
        let text = std::fs::read_to_string(path).expect("a story is text");
        let mut story: Story =
            toml::from_str(&text).unwrap_or_else(|fault| panic!("{}: {fault}", path.display()));
        story.name = path.file_stem().expect("a name").to_string_lossy().into_owned();
        story
    };
    files.iter().map(read).collect()
}

/// By which door a story is told.
#[derive(Debug, Clone, Copy, PartialEq)]
enum By {
    Grpc,
    Json,
}

type Told = Result<Value, Refused>;

/// A server, and the names that it made up.
struct Side {
    by: By,
    house: House,
    names: Vec<(String, String)>,
}

impl Side {
    async fn new(by: By) -> Side {
        Side { by, house: House::demo().await, names: Vec::new() }
    }

    /// On a database, over gRPC.
    async fn shared(database: &Database) -> Side {
        Side { by: By::Grpc, house: House::shared(database).await, names: Vec::new() }
    }

    fn filled(&self, value: &Value) -> Value {
        let named =
            |text: String, (name, value): &(String, String)| text.replace(&format!("{{{name}}}"), value);
        let text = self.names.iter().fold(value.to_string(), named);
        serde_json::from_str(&text).expect("still JSON")
    }

    fn without_names(&self, told: &Told) -> String {
        let text = match told {
            Ok(told) => told.to_string(),
            Err(refused) => format!("{refused:?}"),
        };
        self.names.iter().fold(text, |text, (name, value)| text.replace(value, &format!("{{{name}}}")))
    }

    async fn call(&self, step: &Step) -> Told {
        if let Some(day) = &step.begun_elsewhere {
            begun_elsewhere(&self.house, day).await;
        }
        let method = table::METHODS.iter().find(|method| method.name == step.call);
        let method = method.unwrap_or_else(|| panic!("there is no call {}", step.call));
        let ask = serde_json::to_value(&step.ask).expect("TOML without dates is JSON");
        let ask = self.filled(&ask);
        match self.by {
            By::Grpc => dynamic::call(&self.house, method, &ask, step.signs).await,
            By::Json if method.server_streaming => {
                let signs = step.signs.unwrap_or(usize::MAX);
                self.house.signs(&method.path(), &ask, signs).await
            }
            By::Json => {
                let body = ask.to_string();
                let reply = self.house.post(self.house.private(), &method.path(), body.as_bytes()).await;
                if reply.status.as_u16() == 200 {
                    Ok(serde_json::from_slice(&reply.body).expect("an answer is JSON"))
                } else {
                    Err(House::problem(&reply))
                }
            }
        }
    }
}

/// Somebody else begins a day's report on the store of a house.
pub async fn begun_elsewhere(house: &House, day: &str) {
    let date: jiff::civil::Date = day.parse().expect("a day");
    let since = jiff::civil::date(1970, 1, 1).until(date).expect("days").get_days();
    let begin = Begin {
        day: since,
        runner: "elsewhere".to_owned(),
        zone: "Europe/London".to_owned(),
        revision: String::new(),
        since: At(0),
        lease_seconds: 60,
        again: Again::Never,
    };
    let now: jiff::Timestamp = crate::doors::NOW.parse().expect("an instant");
    let begun = house.ledger().report_begin(begin, At(now.as_microsecond())).await;
    assert!(matches!(begun, Ok(Begun::Mine { .. })), "{begun:?}");
}

/// Of a stream the last sign: how many come before it is a matter of time.
fn ends(told: Told) -> Told {
    told.map(|mut answer| {
        if let Some(signs) = answer.get_mut("signs").and_then(Value::as_array_mut) {
            signs.drain(..signs.len().saturating_sub(1));
        }
        answer
    })
}

/// A text with every instant in it left out.
fn without_instants(text: &str) -> String {
    let of_one = |character: char| character.is_ascii_digit() || "-:.TZ".contains(character);
    let mut left = String::with_capacity(text.len());
    let mut rest = text;
    while let Some(begins) = rest.find(of_one) {
        let (before, from) = rest.split_at(begins);
        let (word, after) = from.split_at(from.find(|character| !of_one(character)).unwrap_or(from.len()));
        left.push_str(before);
        left.push_str(if word.parse::<jiff::Timestamp>().is_ok() { "{instant}" } else { word });
        rest = after;
    }
    left + rest
}

#[test]
fn instants_and_nothing_else_are_left_out() {
    let told =
        r#"{"at": "2026-11-24T10:00:00.25Z", "date": "2026-11-24", "mm": 3.5}: until 2026-11-24T10:10:00Z."#;
    let left = r#"{"at": "{instant}", "date": "2026-11-24", "mm": 3.5}: until 2026-11-24T10:10:00Z."#;
    assert_eq!(without_instants(told), left);
    assert_eq!(without_instants("at 2026-11-24T10:10:00Z, or"), "at {instant}, or");
}

/// Tells one step to one side, and what is wrong with what comes back.
async fn tell(side: &mut Side, step: &Step) -> (Told, Vec<String>) {
    let told = side.call(step).await;
    let mut found = match (&told, &step.refused) {
        (Ok(answer), None) => {
            let expect = serde_json::to_value(&step.expect).expect("TOML without dates is JSON");
            let expect = side.filled(&expect);
            golden::complaints(expect.as_object().expect("a table"), answer)
        }
        (Err(refused), Some(expected)) => golden::compare_refusal(expected, refused),
        (Ok(answer), Some(_)) => vec![format!("answered, but a refusal is expected: {answer}")],
        (Err(refused), None) => vec![format!("refused: {refused:?}")],
    };
    if let Ok(answer) = &told {
        for (name, path) in &step.learn {
            match crate::paths::follow(answer, path) {
                crate::paths::Found::One(Some(Value::String(value))) => {
                    side.names.push((name.clone(), value));
                }
                _ => found.push(format!("nothing to learn at {path}: {answer}")),
            }
        }
    }
    (told, found)
}

#[tokio::test]
async fn every_story_is_answered_as_worked_by_hand_and_alike_by_both_private_doors() {
    let mut found = Vec::new();
    for story in stories() {
        let mut sides = [Side::new(By::Grpc).await, Side::new(By::Json).await];
        let database = Database::new();
        let mut shared = Side::shared(&database).await;
        sides[1].house.record.begin();
        for (place, step) in (1..).zip(&story.step) {
            let at = format!("{}, step {place}, {}", story.name, step.call);
            let mut told = Vec::new();
            for side in &mut sides {
                let (answer, complaints) = tell(side, step).await;
                found.extend(complaints.into_iter().map(|one| format!("{at} ({:?}): {one}", side.by)));
                told.push(side.without_names(&ends(answer)));
            }
            if told[0] != told[1] {
                found.push(format!("{at}: the doors differ:\n{}\n{}", told[0], told[1]));
            }
            let answer = ends(tell(&mut shared, step).await.0);
            let (file, there) =
                (without_instants(&told[0]), without_instants(&shared.without_names(&answer)));
            if file != there {
                found.push(format!("{at}: the engines differ:\n{file}\n{there}"));
            }
        }
        sides[1].house.record.is_as_described();
        for side in sides.into_iter().chain([shared]) {
            side.house.close().await;
        }
    }
    assert!(found.is_empty(), "{}", found.join("\n"));
}

/// Every call of the contract is answered in a story, and refused in one with its fields named.
#[test]
fn every_call_has_a_golden_case_and_bad_input() {
    let (mut answered, mut refused) = (BTreeSet::new(), BTreeSet::new());
    for story in stories() {
        assert!(!story.title.is_empty() && !story.source.is_empty(), "{}: no title or source", story.name);
        assert!(golden::GRADES.contains(&story.grade.as_str()), "{}: {}", story.name, story.grade);
        for step in story.step {
            let expects = !step.expect.is_empty();
            assert!(!expects || step.refused.is_none(), "{}: {} is to be both", story.name, step.call);
            if expects {
                answered.insert(step.call);
            } else if step.refused.is_some_and(|why| why.names_fields()) {
                refused.insert(step.call);
            }
        }
    }
    // where all there is to say is yes or no, nothing that can be read is bad
    let yes_or_no = |field: &table::Field| matches!(field.kind, table::Kind::Bool);
    let empty = |method: &&table::Method| method.request.fields.iter().all(yes_or_no);
    let all: BTreeSet<String> = table::METHODS.iter().map(|method| method.name.to_owned()).collect();
    let bad = table::METHODS.iter().filter(|method| !empty(method)).map(|method| method.name.to_owned());
    let bad: BTreeSet<String> = bad.collect();
    let missing = |wanted: &BTreeSet<String>, there: &BTreeSet<String>| -> Vec<String> {
        wanted.difference(there).cloned().collect()
    };
    assert_eq!(missing(&all, &answered), [""; 0], "calls without a golden case");
    assert_eq!(missing(&bad, &refused), [""; 0], "calls without bad input");
}
