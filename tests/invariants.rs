//! Invariants of the design that belong to no single part; the others have their tests
//! beside what they speak of (`tidy`, `properties`, `twins`).

use pennantry_contract::{DESCRIPTOR, v1};
use pennantryd::clock::Clock;
use pennantryd::failure::Failure;
use pennantryd::service::{Door, Service};
use prost::Message;
use prost_reflect::{DescriptorPool, DynamicMessage, Value as Field};
use serde_json::{Value, json};

use crate::contract_tables::rule_of;
use crate::dice::{self, Dice};
use crate::properties::Bench;
use crate::{catalogue, golden};

fn asked_at(instant: &str, order: &Value) -> Result<v1::Quote, Failure> {
    let clock = Clock::Fixed(instant.parse().expect("an instant"));
    let service = Service::new(catalogue::open(catalogue::demo()), clock, catalogue::keys());
    ask(&service, order)
}

fn ask(service: &Service, order: &Value) -> Result<v1::Quote, Failure> {
    let enquiry: v1::Enquiry = serde_json::from_value(order.clone()).expect("an enquiry");
    let request = v1::CalculateQuoteRequest { enquiry: Some(enquiry) };
    service.calculate_quote(Door::Private, &request).map(|response| response.quote.expect("a quote"))
}

/// Every number of a message and of all within it: its name, its value, its decimals.
fn numbers(message: &DynamicMessage, found: &mut Vec<(String, f64, usize)>) {
    for (field, value) in message.fields() {
        let decimals = usize::try_from(rule_of(&field).decimals).expect("few decimals");
        let entries = value.as_list().map_or_else(|| vec![value.clone()], <[Field]>::to_vec);
        for entry in entries {
            match entry {
                Field::Message(inner) => numbers(&inner, found),
                Field::F64(number) => found.push((field.full_name().to_owned(), number, decimals)),
                _ => {}
            }
        }
    }
}

/// Whatever is printed as a length stands for whole micrometres (the pitch and the slack
/// of a row for half ones), every other figure for its own decimals: nothing between.
#[test]
fn invariant_03_every_figure_has_the_decimals_of_its_rule() {
    let pool = DescriptorPool::decode(DESCRIPTOR).expect("the descriptor");
    let kind = pool.get_message_by_name("pennantry.v1.Quote").expect("the answer");
    let mut looked_at = 0;
    for (order, quote) in Bench::demo().quotes(9, 500) {
        let message =
            DynamicMessage::decode(kind.clone(), quote.encode_to_vec().as_slice()).expect("a quote");
        let mut found = Vec::new();
        numbers(&message, &mut found);
        for (name, number, decimals) in &found {
            let shown: f64 = format!("{number:.decimals$}").parse().expect("a number");
            assert_eq!(shown.to_bits(), number.to_bits(), "{order}: {name} is {number:?}");
        }
        looked_at += found.len();
    }
    assert!(looked_at > 20_000, "only {looked_at} figures looked at");
}

/// Silence about who is near is a question, and no answer about it clears anything.
#[test]
fn invariant_06_silence_clears_nothing() {
    let service = catalogue::service(catalogue::demo());
    let untold = [
        Value::Null,
        json!({}),
        json!({"jurisdictions": ["JURISDICTION_EU"]}),
        json!({"wallWidthMm": 9_000, "wallHeightMm": 3_000}),
    ];
    for near in untold {
        let order = json!({"flaggedMm": 6200, "near": near});
        let child = looked_at(&service, &order);
        let told: Vec<_> = child.findings.iter().map(|f| (f.rule_id.as_str(), f.outcome())).collect();
        assert_eq!(told, [("R00", v1::Outcome::Ask)], "{order}");
        assert_eq!(child.findings[0].measured, "not told who is near", "{order}");
    }
    let told = [
        (json!({"who": "WHO_CHILD"}), v1::Outcome::Restrict),
        (json!({"who": "WHO_CHILD", "youngestMonths": 0, "place": "PLACE_COT"}), v1::Outcome::Refuse),
        (
            json!({"youngestMonths": 216, "fixingHeightMm": 50_000, "cotDistanceMm": 100_000}),
            v1::Outcome::Ask,
        ),
        (json!({"who": "WHO_NO_CHILD", "place": "PLACE_CHILDCARE"}), v1::Outcome::Restrict),
        (json!({"who": "WHO_NO_CHILD", "place": "PLACE_COT"}), v1::Outcome::Refuse),
        (json!({"who": "WHO_NO_CHILD", "youngestMonths": 3}), v1::Outcome::Restrict),
        (json!({"place": "PLACE_HOME"}), v1::Outcome::Restrict),
        (json!({"who": "WHO_NO_CHILD"}), v1::Outcome::NothingFound),
    ];
    for (near, outcome) in told {
        let order = json!({"flaggedMm": 6200, "near": near});
        assert_eq!(looked_at(&service, &order).outcome(), outcome, "{order}");
    }
    // no country's rules, and they are asked for
    let order = json!({
        "flaggedMm": 6200,
        "destination": {"countryCode": "NZ"},
        "near": {"who": "WHO_CHILD", "youngestMonths": 24, "place": "PLACE_HOME", "fixingHeightMm": 9_000},
    });
    let child = looked_at(&service, &order);
    assert_eq!((child.outcome(), child.jurisdictions.len()), (v1::Outcome::Ask, 0));
    assert!(child.scope.contains("No rules of the place that it goes to (NZ) are known here"));
}

/// What was found about children; whatever it is, it says that it clears nothing.
fn looked_at(service: &Service, order: &Value) -> v1::ChildFinding {
    let quote = ask(service, order).expect("a quote");
    let child = quote.child.expect("a finding, or that there is none");
    for said in ["clear nothing", "local rules", "competent people"] {
        assert!(child.scope.contains(said), "{order}: {}", child.scope);
    }
    // silence stays silence, nought stays nought
    let said: v1::Enquiry = serde_json::from_value(order.clone()).expect("an enquiry");
    let understood = quote.understood.expect("what was understood");
    assert_eq!(understood.near, said.near, "{order}");
    child
}

/// No answer calls anything by a word that only a competent person may use.
#[test]
fn invariant_06_no_answer_gives_clearance() {
    let mut texts = Vec::new();
    for (_, quote) in Bench::demo().quotes(10, 300) {
        texts.push(serde_json::to_string(&quote).expect("a message is JSON"));
    }
    for case in golden::cases().iter().filter(|case| case.plain()) {
        let bench = Bench::demo();
        let fabrics = bench.stock.fabrics.clone();
        let answer = ask(&bench.service, &case.request(&fabrics));
        texts.push(answer.map_or_else(
            |failure| format!("{failure:?}"),
            |quote| serde_json::to_string(&quote).expect("a message is JSON"),
        ));
    }
    let service = catalogue::service(catalogue::demo());
    let mut dice = Dice::new(6);
    for _ in 0..300 {
        let order = dice::near_a_child(&mut dice);
        let quote = ask(&service, &order).expect("a quote");
        texts.push(serde_json::to_string(&quote.child).expect("a message is JSON"));
    }
    for text in texts {
        let text = crate::paper::without_titles(&text).to_lowercase();
        for word in [concat!("sa", "fe"), concat!("compl", "ian"), "harmless", "childproof"] {
            assert!(!text.contains(word), "{word} in {text}");
        }
    }
}

/// The day changes at midnight where the shop is, summer and winter, and nothing else of
/// an answer depends on the instant but whether the shop's cut-off has passed.
#[test]
fn invariant_10_the_instant_matters_only_as_the_shops_day() {
    // London: clock time of Greenwich in winter, an hour ahead in summer (tz database)
    let days = [
        ("2026-11-24", "2026-11-24T23:59:59.999Z", "2026-11-25T00:00:00Z"),
        ("2026-07-01", "2026-07-01T22:59:59.999Z", "2026-07-01T23:00:00Z"),
        ("2026-10-25", "2026-10-25T23:59:59.999Z", "2026-10-26T00:00:00Z"),
    ];
    for (day, last, over) in days {
        let order = json!({"flaggedMm": 6200, "wantedDate": day});
        let kept = asked_at(last, &order).expect("the day is not over");
        let refused = asked_at(over, &order).expect_err("the day is over");
        let told: Vec<_> = refused.violations.iter().map(|v| (v.field.as_str(), v.reason.as_str())).collect();
        assert_eq!(told, [("wantedDate", "PAST_DATE")]);
        assert!(refused.violations[0].message.contains(day), "{refused:?}");
        let noon = |hour: &str| asked_at(&format!("{day}T{hour}Z"), &order).expect("the day is not over");
        let (early, late) = (noon("10:00:00"), noon("20:00:00"));
        assert_eq!(kept, late, "{day}");
        assert_eq!(early, noon("12:59:59.999"), "{day}");
        let without_dates = |quote: &v1::Quote| {
            let notices = quote.notices.iter().filter(|n| n.field != "wantedDate").cloned().collect();
            // the ticket has the days in it
            v1::Quote { dates: None, notices, quote_id: None, token: None, ..quote.clone() }
        };
        assert_eq!(without_dates(&early), without_dates(&late), "{day}");
    }
}

/// One thing wrong with one field.
struct Wrong {
    field: &'static str,
    value: Value,
    /// Path and reason.
    told: (&'static str, &'static str),
    /// What the message has to name: the value, what is allowed, what to do.
    text: &'static [&'static str],
}

/// Nine faults of nine fields, in the order of the contract.
fn faults() -> [Wrong; 9] {
    let wrong = |field, value, told, text| Wrong { field, value, told, text };
    [
        wrong(
            "designCode",
            json!("nowhere"),
            ("designCode", "UNKNOWN_CODE"),
            &["nowhere", "harbour", "the catalogue has"],
        ),
        wrong("flaggedMm", json!(1), ("flaggedMm", "OUT_OF_RANGE"), &["1 mm", "50", "2000000", "give"]),
        wrong("gapMm", json!(1e9), ("gapMm", "OUT_OF_RANGE"), &["-1000", "2000", "give"]),
        wrong("tailMm", json!(0.000_1), ("tailMm", "LENGTH_TOO_FINE"), &["0.0001", "three decimals", "give"]),
        wrong("lettering", json!("A".repeat(61)), ("lettering", "TOO_LONG"), &["61", "60", "give"]),
        wrong("bindingCode", json!(""), ("bindingCode", "UNKNOWN_CODE"), &["empty", "leave it out"]),
        wrong("quantity", json!(0), ("quantity", "OUT_OF_RANGE"), &["0", "1 to 10000", "give"]),
        wrong(
            "destination",
            json!({"countryCode": "gb"}),
            ("destination.countryCode", "UNKNOWN_CODE"),
            &["\"gb\"", "two capitals", "give"],
        ),
        wrong("wantedDate", json!("2026-02-30"), ("wantedDate", "BAD_DATE"), &["2026-02-30", "give"]),
    ]
}

/// Any faults together are told together, each in the words it has by itself.
#[test]
fn invariant_11_every_violation_is_told_at_once_and_says_what_to_do() {
    let service = catalogue::service(catalogue::demo());
    let faults = faults();
    for chosen in 1_u32..(1 << faults.len()) {
        let mut order = json!({"flaggedMm": 6200});
        let here: Vec<&Wrong> =
            (0..).zip(&faults).filter(|(bit, _)| chosen >> bit & 1 == 1).map(|(_, w)| w).collect();
        for wrong in &here {
            order[wrong.field] = wrong.value.clone();
        }
        let failure = ask(&service, &order).expect_err("it is refused");
        let told: Vec<_> = failure.violations.iter().map(|v| (v.field.as_str(), v.reason.as_str())).collect();
        let wanted: Vec<_> = here.iter().map(|wrong| wrong.told).collect();
        assert_eq!(told, wanted, "{order}");
        for (violation, wrong) in failure.violations.iter().zip(&here) {
            let silent = wrong.text.iter().find(|part| !violation.message.contains(**part));
            assert_eq!(silent, None, "{}: {}", violation.field, violation.message);
        }
    }
    assert_eq!(service.steps(), 0, "nothing was worked out");
}

/// Whatever is refused in random orders ends in what to do about it.
#[test]
fn invariant_11_every_message_says_what_to_do() {
    const DO: [&str; 14] = [
        "give",
        "leave",
        "ask for",
        "name ",
        "list ",
        "choose",
        "take ",
        "raise",
        "lower",
        "exchange",
        "it has ",
        "can be had",
        "turn ",
        "allow",
    ];
    let bench = Bench::demo();
    let mut dice = Dice::new(11);
    let mut heard = 0;
    for turn in 0..2_000 {
        let mut order = dice::order(&mut dice, &bench.stock);
        if turn % 2 == 0 {
            dice::spoil(&mut dice, &mut order);
        }
        let Err(failure) = ask(&bench.service, &order) else { continue };
        for violation in &failure.violations {
            let helpful = DO.iter().any(|word| violation.message.contains(word));
            assert!(helpful, "{order}: {}: {}", violation.field, violation.message);
            heard += 1;
        }
    }
    assert!(heard > 1_000, "only {heard} messages heard");
}

/// Every field that the contract has and an answer leaves out is named by a notice, also
/// one that the contract gets tomorrow.
#[test]
fn invariant_12_whatever_the_contract_has_and_an_answer_has_not_is_named() {
    let pool = DescriptorPool::decode(DESCRIPTOR).expect("the descriptor");
    let kind = pool.get_message_by_name("pennantry.v1.Quote").expect("the answer");
    let service = catalogue::service(catalogue::demo());
    for lettering in ["", "TWO"] {
        let order = json!({"flaggedMm": 6200, "lettering": lettering, "workings": true, "shelf": true});
        let quote = ask(&service, &order).expect("a quote");
        let message =
            DynamicMessage::decode(kind.clone(), quote.encode_to_vec().as_slice()).expect("a quote");
        let mut missing: Vec<String> = kind
            .fields()
            .filter(|field| !message.has_field(field))
            .map(|f| f.json_name().to_owned())
            .collect();
        let mut named: Vec<String> =
            quote.notices.iter().filter(|n| n.code == "SHELF_UNKNOWN").map(|n| n.field.clone()).collect();
        missing.sort();
        named.sort();
        assert_eq!(named, missing, "{order}");
    }
}
