//! Every key of the demo, one by one: left out, of the wrong type, out of range.

use super::super::{SALTMERE_LOFT, read};
use super::{demo_with, mistakes, only_mistake};

/// A key of the demo, on its line.
struct Line {
    place: usize,
    heading: usize,
    key: &'static str,
    value: &'static str,
}

/// Every line of the demo that gives a key; each stands on a line of its own.
fn keys() -> Vec<Line> {
    let mut heading = 0;
    let mut keys = Vec::new();
    for (content, place) in SALTMERE_LOFT.lines().zip(1..) {
        if content.starts_with('[') {
            heading = place;
        } else if let Some((key, value)) = content.split_once(" = ").filter(|_| !content.starts_with('#')) {
            keys.push(Line { place, heading, key, value });
        }
    }
    assert!(keys.len() > 150, "only {} keys found", keys.len());
    keys
}

/// The demo with one of its lines exchanged.
fn with_line(place: usize, content: &str) -> String {
    let lines = SALTMERE_LOFT.lines().zip(1..);
    lines.map(|(old, at)| if at == place { content } else { old }).collect::<Vec<_>>().join("\n")
}

/// The demo with one key given another value is wrong in one way, on that line.
fn is_wrong_once(line: &Line, value: &str, text: &str) {
    let found = mistakes(&with_line(line.place, &format!("{} = {value}", line.key)));
    assert_eq!(found.len(), 1, "{} = {value}: {found:?}", line.key);
    assert_eq!(found[0].line, line.place, "{}", found[0]);
    assert!(found[0].path.contains(&format!(".{}", line.key)), "{}", found[0]);
    assert!(found[0].message.contains(text), "{} does not name {text}", found[0]);
}

#[test]
fn each_key_left_out_is_told_as_missing_at_its_table() {
    for line in keys() {
        let found = mistakes(&with_line(line.place, ""));
        assert_eq!(found.len(), 1, "{}: {found:?}", line.key);
        assert_eq!(found[0].line, line.heading, "{}", found[0]);
        assert!(found[0].path.ends_with(&format!(".{}", line.key)), "{}", found[0]);
        assert!(found[0].message.starts_with("is missing"), "{}", found[0]);
    }
}

#[test]
fn each_value_of_another_type_is_told_on_its_line() {
    for line in keys() {
        for (value, named) in [
            ("true", "true"),
            ("1979-05-27", "1979-05-27"),
            ("{ a = 1 }", "a table"),
            ("nan", "nan"),
            ("-inf", "-inf"),
        ] {
            is_wrong_once(&line, value, named);
        }
        if line.value.starts_with('[') {
            is_wrong_once(&line, "[]", "0 entries");
            is_wrong_once(&line, "[[]]", "a list");
            is_wrong_once(&line, "[7]", "7");
        } else {
            is_wrong_once(&line, "[]", "a list");
        }
        // a bare number where a text is due, a text where a number is
        let other = if line.value.starts_with(['"', '[']) { "7" } else { "\"seven\"" };
        is_wrong_once(&line, other, other);
    }
}

#[test]
fn each_number_beyond_its_ends_is_told_on_its_line() {
    let amounts = ["wage_per_hour", "minimum_charge", "price_per_metre"];
    let mut ends = 0;
    for line in keys() {
        let quote = if amounts.contains(&line.key) { "\"" } else { "" };
        if quote.is_empty() && line.value.starts_with(['"', '[']) {
            continue;
        }
        for number in ["-99999", "999999999", "99999999999999999999999999"] {
            let value = format!("{quote}{number}{quote}");
            is_wrong_once(&line, &value, number);
            ends += 1;
        }
    }
    assert!(ends > 200, "only {ends} ends tried");
}

#[test]
fn each_table_left_out_is_told_as_missing() {
    for heading in ["[shop]", "[bench]", "[cloth]", "[pricing]"] {
        let name = heading.trim_matches(['[', ']']);
        let start = SALTMERE_LOFT.find(&format!("\n{heading}\n")).unwrap();
        let length = SALTMERE_LOFT[start + 2..].find("\n[").unwrap() + 2;
        let text = format!("{}{}", &SALTMERE_LOFT[..start], &SALTMERE_LOFT[start + length..]);
        let told: Vec<String> = mistakes(&text).iter().map(ToString::to_string).collect();
        assert_eq!(told.len(), 1, "{told:?}");
        assert!(told[0].starts_with(&format!("line 1, {name}: is missing: write {heading}")), "{told:?}");
    }
}

#[test]
fn each_list_left_out_is_told_as_missing_except_the_trimmings() {
    for name in ["methods", "fabrics", "bindings", "designs", "trimmings"] {
        let mut table: toml::Table = SALTMERE_LOFT.parse().unwrap();
        table.remove(name).unwrap();
        let text = toml::to_string(&table).unwrap();
        if name == "trimmings" {
            assert_eq!(read(&text).unwrap().trimmings, []);
        } else {
            let found = mistakes(&text);
            let told =
                found.iter().filter(|mistake| mistake.path == name && mistake.message.contains("is missing"));
            assert_eq!(told.count(), 1, "{found:?}");
        }
    }
}

#[test]
fn a_table_is_not_a_value_and_a_list_not_a_table() {
    let told = only_mistake("[bench]", "[[bench]]");
    assert!(told.contains("bench: a list is not a table: write [bench]"), "{told}");
    let found =
        mistakes(&demo_with("[shop]", "bindings = [7]\n[shop]").replace("[[bindings]]", "[[trimmings]]"));
    assert!(
        found
            .iter()
            .any(|mistake| mistake.path == "bindings[0]" && mistake.message.starts_with("7 is not a table"))
    );
}

#[test]
fn neither_margin_nor_markup_is_told_and_each_alone_is_read() {
    let told = only_mistake("margin_percent = 35", "");
    assert!(told.contains("pricing.margin_percent: is missing, and markup_percent with it"), "{told}");
    let shop = read(&demo_with("margin_percent = 35", "markup_percent = 150")).unwrap();
    let markup = pennantry_measure::Percent::from_milli(150_000);
    assert_eq!(shop.pricing.surplus, pennantry_calc::shop::Surplus::Markup(markup));
}
