//! Every key of the demo, one by one: left out, of the wrong type, out of range.

use super::super::{SALTMERE_LOFT, open, read};
use super::{demo_with, mistakes, only_mistake};

/// Keys that may be left out where they stand, by their table.
const OPTIONAL: &[(&str, &str)] = &[
    ("maker", "name"),
    ("maker", "postal_address"),
    ("maker", "electronic_address"),
    ("maker", "responsible_person"),
    ("maker", "warned_countries"),
    ("letters", "web"),
    ("methods", "web"),
    ("operations", "constructions"),
    ("fabrics", "shrink_across_percent"),
    ("fabrics", "shrink_along_percent"),
    ("fabrics", "repeat_across_mm"),
    ("fabrics", "repeat_along_mm"),
    ("fabrics", "centred"),
    ("fabrics", "fire_certificates"),
    ("bindings", "roll_price"),
    ("bindings", "offcuts_mm"),
    ("bindings", "fire_certificates"),
    ("sundries", "bag_opening_mm"),
    ("sundries", "bag_film_mm"),
    ("trimmings", "fits_cylinder"),
    ("trimmings", "pull_newtons"),
    ("fabrics", "class"),
    ("pricing", "overhead_per_hour"),
    ("pricing", "fee_percent"),
    ("pricing", "fee_fixed"),
    ("pricing", "floor_margin_percent"),
    ("pricing", "breaks"),
    ("price_list", "class"),
    ("price_extras", "letter"),
    ("price_extras", "trimming"),
    ("price_extras", "loop"),
    ("price_extras", "tie"),
    ("tax", "registration"),
    ("calendar", "rush_percent"),
    ("people", "off"),
    ("supplies", "reference"),
    ("supplies", "least_mm"),
    ("supplies", "last_of_it"),
    ("formats", "most_sum_mm"),
    ("formats", "least_sum_mm"),
    ("formats", "most_grams"),
    ("services", "closed"),
    ("services", "volumetric"),
    ("designs", "pictured"),
    ("designs", "for_children"),
    ("designs", "us_children_file"),
    ("designs", "stock_lengths_mm"),
];
/// Whose usual value is the one that the demo writes.
const AS_USUAL: &[(&str, &str)] = &[("price_list", "class")];
/// Lists that may be empty.
const MAY_BE_EMPTY: &[&str] =
    &["offcuts_mm", "closed", "off", "warned_countries", "fire_certificates", "stock_lengths_mm"];
/// Amounts of money, in quotes.
const AMOUNTS: &[&str] = &[
    "wage_per_hour",
    "overhead_per_hour",
    "fee_fixed",
    "minimum_charge",
    "price_per_metre",
    "price",
    "roll_price",
    "letter",
    "trimming",
    "loop",
    "tie",
];

/// A key of the demo, on its lines.
#[derive(Clone, Copy)]
struct Line {
    place: usize,
    /// The last line of its value.
    end: usize,
    heading: usize,
    table: &'static str,
    key: &'static str,
    value: &'static str,
}

impl Line {
    fn is_optional(&self) -> bool {
        OPTIONAL.contains(&(self.table, self.key))
    }

    fn is_list(&self) -> bool {
        self.value.starts_with('[')
    }

    /// Whether the value is a list of texts.
    fn holds_texts(&self) -> bool {
        self.is_list() && self.value.contains('"') || self.place < self.end && self.key != "bands"
    }

    fn is_flag(&self) -> bool {
        matches!(self.value, "true" | "false")
    }
}

/// Every line of the demo that gives a key; each starts on a line of its own.
fn keys() -> Vec<Line> {
    let (mut heading, mut table) = (0, "");
    let mut keys: Vec<Line> = Vec::new();
    for (content, place) in SALTMERE_LOFT.lines().zip(1..) {
        let last = keys.last_mut();
        if content.starts_with('[') {
            (heading, table) = (place, content.trim_matches(['[', ']']));
        } else if let Some(last) = last.filter(|_| content == "]" || content.starts_with("  ")) {
            last.end = place;
        } else if let Some((key, value)) = content.split_once(" = ").filter(|_| !content.starts_with('#')) {
            keys.push(Line { place, end: place, heading, table, key, value });
        }
    }
    assert!(keys.len() > 500, "only {} keys found", keys.len());
    keys
}

/// Each key once in its table, where it stands first: what is read there is read everywhere.
fn first_keys() -> Vec<Line> {
    let mut first: Vec<Line> = Vec::new();
    for line in keys() {
        if !first.iter().any(|seen| (seen.table, seen.key) == (line.table, line.key)) {
            first.push(line);
        }
    }
    assert!(first.len() > 120, "only {} different keys found", first.len());
    first
}

/// The demo with the lines of one key exchanged.
fn with_line(line: &Line, content: &str) -> String {
    let lines = SALTMERE_LOFT.lines().zip(1..).map(|(old, at)| match at {
        at if at == line.place => content,
        at if line.place < at && at <= line.end => "",
        _ => old,
    });
    lines.collect::<Vec<_>>().join("\n")
}

/// The demo with one key given another value is wrong in one way, on that line.
fn is_wrong_once(line: &Line, value: &str, text: &str) {
    let found = mistakes(&with_line(line, &format!("{} = {value}", line.key)));
    assert_eq!(found.len(), 1, "{} = {value}: {found:?}", line.key);
    assert_eq!(found[0].line, line.place, "{}", found[0]);
    assert!(found[0].path.contains(&format!(".{}", line.key)), "{}", found[0]);
    assert!(found[0].message.contains(text), "{} does not name {text}", found[0]);
}

#[test]
fn each_key_left_out_is_told_as_missing_at_its_table() {
    for line in keys().into_iter().filter(|line| !line.is_optional() && line.key != "role") {
        let found = mistakes(&with_line(&line, ""));
        assert_eq!(found.len(), 1, "{}: {found:?}", line.key);
        assert_eq!(found[0].line, line.heading, "{}", found[0]);
        // of two ways in which cloth is sold, the first is asked for
        let asked = if line.key == "piece_length_mm" { "cut_step_mm" } else { line.key };
        assert!(found[0].path.ends_with(&format!(".{asked}")), "{}", found[0]);
        assert!(found[0].message.starts_with("is missing"), "{}", found[0]);
        assert!(found[0].message.contains(line.key) || found[0].path.contains(line.key), "{}", found[0]);
    }
}

#[test]
fn each_key_that_may_be_left_out_can_be() {
    let all = |text: &str| open(text).map(|found| (found.shop, found.restock));
    let demo = all(SALTMERE_LOFT).unwrap();
    let mut tried = Vec::new();
    for line in keys().into_iter().filter(Line::is_optional) {
        let shop = all(&with_line(&line, "")).unwrap_or_else(|found| panic!("{}: {found:?}", line.key));
        // an empty list and no list say the same
        let usual = line.value == "\"standard\"" && AS_USUAL.contains(&(line.table, line.key));
        assert_eq!(shop == demo, line.value == "[]" || usual, "{} in {}", line.key, line.table);
        tried.push((line.table, line.key));
    }
    assert!(OPTIONAL.iter().all(|one| tried.contains(one)), "{tried:?}");
}

#[test]
fn each_value_of_another_type_is_told_on_its_line() {
    for line in first_keys() {
        for (value, named) in [
            ("true", "true"),
            ("1979-05-27", "1979-05-27"),
            ("{ a = 1 }", "a table"),
            ("nan", "nan"),
            ("-inf", "-inf"),
        ] {
            if line.key == "volumetric" && value.starts_with('{') || line.is_flag() && value == "true" {
                continue;
            }
            is_wrong_once(&line, value, named);
        }
        if line.is_list() {
            if MAY_BE_EMPTY.contains(&line.key) {
                read(&with_line(&line, &format!("{} = []", line.key))).unwrap();
            } else {
                is_wrong_once(&line, "[]", "0 entries");
            }
        } else {
            is_wrong_once(&line, "[]", "a list");
        }
        if line.holds_texts() {
            is_wrong_once(&line, "[[]]", "a list");
            is_wrong_once(&line, "[7]", "7");
        }
        // a bare number where a text is due, a text where a number is
        let other = if line.value.starts_with(['"', '[', '{']) { "7" } else { "\"seven\"" };
        is_wrong_once(&line, other, other);
    }
}

#[test]
fn each_number_beyond_its_ends_is_told_on_its_line() {
    let mut ends = 0;
    for line in keys() {
        let quote = if AMOUNTS.contains(&line.key) { "\"" } else { "" };
        if line.is_flag() || quote.is_empty() && line.value.starts_with(['"', '[', '{']) {
            continue;
        }
        for number in ["-99999", "999999999", "99999999999999999999999999"] {
            let value = format!("{quote}{number}{quote}");
            is_wrong_once(&line, &value, number);
            ends += 1;
        }
    }
    assert!(ends > 600, "only {ends} ends tried");
}

#[test]
fn each_list_of_numbers_is_held_to_its_count_and_its_ends() {
    for (old, new, text) in [
        ("[240, 165, 5]", "[240, 165]", "formats[0].most_mm: the list has 2 entries: write 3 ("),
        ("[240, 165, 5]", "[240, 165, 5, 5]", "the list has 4 entries: write 3 ("),
        ("[240, 165, 5]", "[240, 165, 0]", "formats[0].most_mm[2]: 0 is out of range"),
        ("[240, 165, 5]", "[240, \"wide\", 5]", "formats[0].most_mm[1]: \"wide\" is not a length"),
        ("[240, 165, 5]", "[165, 240, 5]", "formats[0].most_mm: the longest side does not stand first"),
        ("[900, 450]", "[900, 450, 450]", "formats[5].most_mm: the list has 3 entries: write 2 ("),
        ("[2, 3]", "[3, 2]", "services[0].transit_days: the most, 2, is below the least, 3: write two"),
        ("[2, 3]", "[2]", "services[0].transit_days: the list has 1 entry: write 2 ("),
        ("[2, 3]", "[2, 201]", "services[0].transit_days[1]: 201 is out of range"),
        ("[2, 3]", "[-1, 3]", "services[0].transit_days[0]: -1 is out of range"),
        ("[2, 3]", "[2, 3.0]", "services[0].transit_days[1]: 3.0 is not a whole number"),
        ("[45, 45, 45, 45, 45, 0, 0]", "[45]", "people[0].week_minutes: the list has 1 entry: write 7"),
        ("[45, 45, 45, 45, 45, 0, 0]", "[45, 45, 45, 45, 45, 0, 1441]", "week_minutes[6]: 1441 is out of"),
        ("offcuts_mm = []", "offcuts_mm = [900, 9]", "bindings[1].offcuts_mm[1]: 9 is out of range"),
    ] {
        let told = only_mistake(old, new);
        assert!(told.contains(text), "{told} has no {text}");
    }
}

#[test]
fn each_key_of_a_band_and_of_a_bulky_parcel_is_asked_for() {
    for (old, new, text) in [
        ("{ format = \"letter\", grams = 100,", "{ grams = 100,", "services[0].bands[0].format: is missing"),
        ("{ format = \"letter\", grams = 100,", "{ format = \"letter\",", "bands[0].grams: is missing"),
        ("grams = 100, price = \"0.85\" }", "grams = 100 }", "services[0].bands[0].price: is missing"),
        ("price = \"0.85\" }", "price = \"0.85\", rush = 1 }", "bands[0].rush: there is no such key"),
        (
            "{ format = \"letter\", grams = 100,",
            "{ format = \"leter\", grams = 100,",
            "did you mean \"letter\"",
        ),
        ("grams = 100, price = \"0.85\" }", "grams = 0, price = \"0.85\" }", "bands[0].grams: 0 is out of"),
        ("price = \"0.85\" }", "price = 0.85 }", "bands[0].price: 0.85 is a bare number"),
        ("divisor = 5000, sides", "sides", "services[3].volumetric.divisor: is missing"),
        ("divisor = 5000, sides", "divisor = 0, sides", "services[3].volumetric.divisor: 0 is out of range"),
        ("sides = \"up\", ", "", "services[3].volumetric.sides: is missing"),
        ("sides = \"up\", ", "sides = \"down\", ", "\"down\" is not known: write one of \"exact\""),
        ("step_grams = 500, ", "", "services[3].volumetric.step_grams: is missing"),
        ("threshold_cm3 = 0, ", "", "services[3].volumetric.threshold_cm3: is missing"),
        (", step_real = false", "", "services[3].volumetric.step_real: is missing"),
        ("step_real = false", "step_real = \"no\"", "volumetric.step_real: \"no\" is neither: write true or"),
    ] {
        let told = only_mistake(old, new);
        assert!(told.contains(text), "{told} has no {text}");
    }
    let line = 1 + SALTMERE_LOFT.lines().position(|line| line.contains("price = \"0.85\"")).unwrap();
    let told = only_mistake("grams = 100, price = \"0.85\" }", "grams = 100 }");
    assert!(told.starts_with(&format!("line {line}, ")), "{told}");
}

#[test]
fn each_table_left_out_is_told_as_missing_except_five() {
    let tables = [
        "shop",
        "customs",
        "maker",
        "bench",
        "thread",
        "letters",
        "cloth",
        "pricing",
        "price_extras",
        "tax",
        "calendar",
        "ordering",
        "folding",
    ];
    for name in tables {
        let heading = format!("[{name}]");
        let start = SALTMERE_LOFT.find(&format!("\n{heading}\n")).unwrap();
        let length = SALTMERE_LOFT[start + 2..].find("\n[").unwrap() + 2;
        let text = format!("{}{}", &SALTMERE_LOFT[..start], &SALTMERE_LOFT[start + length..]);
        let told: Vec<String> = mistakes(&text).iter().map(ToString::to_string).collect();
        match name {
            "letters" => assert_eq!(read(&text).unwrap().letters, None),
            "tax" => assert_eq!(read(&text).unwrap().pricing.tax, None),
            "price_extras" => {
                let none = pennantry_calc::shop::Extras::default();
                assert_eq!(read(&text).unwrap().pricing.extras, none);
            }
            _ => {}
        }
        if name == "ordering" {
            assert_eq!(open(&text).unwrap().restock.ordering, None);
        }
        if ["letters", "tax", "price_extras", "ordering"].contains(&name) {
            continue;
        }
        if name == "maker" {
            assert_eq!(read(&text).unwrap().maker, pennantry_calc::shop::Maker::default());
            continue;
        }
        assert_eq!(told.len(), 1, "{told:?}");
        assert!(told[0].starts_with(&format!("line 1, {name}: is missing: write {heading}")), "{told:?}");
    }
}

#[test]
fn each_list_left_out_is_told_as_missing_except_five() {
    let demo: toml::Table = SALTMERE_LOFT.parse().unwrap();
    let lists = demo.iter().filter(|(_, value)| value.is_array()).map(|(name, _)| name.clone());
    let lists: Vec<String> = lists.collect();
    assert_eq!(lists.len(), 13);
    for name in lists {
        let mut table = demo.clone();
        table.remove(&name).unwrap();
        let text = toml::to_string(&table).unwrap();
        match name.as_str() {
            "trimmings" => assert_eq!(read(&text).unwrap().trimmings, []),
            "price_list" => assert_eq!(read(&text).unwrap().pricing.list, []),
            "sundries" => assert_eq!(read(&text).unwrap().sundries, []),
            "load" => assert_eq!(read(&text).unwrap().calendar.load, []),
            "supplies" => assert_eq!(open(&text).unwrap().restock.supplies, []),
            _ => {
                let found = mistakes(&text);
                let told = found.iter().filter(|m| m.path == name && m.message.contains("is missing"));
                assert_eq!(told.count(), 1, "{found:?}");
            }
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
    let told = only_mistake("{ format = \"letter\", grams = 100, price = \"0.85\" }", "7");
    assert!(told.contains("services[0].bands[0]: 7 is not a table: write { format = \"letter\""), "{told}");
}

#[test]
fn neither_margin_nor_markup_is_told_and_each_alone_is_read() {
    let told = only_mistake("margin_percent = 35", "");
    assert!(told.contains("pricing.margin_percent: is missing, and markup_percent with it"), "{told}");
    let shop = read(&demo_with("margin_percent = 35", "markup_percent = 150")).unwrap();
    let markup = pennantry_measure::Percent::from_milli(150_000);
    let surplus = pennantry_calc::shop::Surplus::Markup(markup);
    assert_eq!(shop.pricing.basis, pennantry_calc::shop::Basis::CostPlus(surplus));
    // a list by the metre needs neither
    let by_list = demo_with("basis = \"cost-plus\"", "basis = \"per-metre\"");
    let shop = read(&by_list.replacen("margin_percent = 35", "", 1)).unwrap();
    assert_eq!(shop.pricing.basis, pennantry_calc::shop::Basis::PerMetre);
}

#[test]
fn each_key_of_a_certificate_is_asked_for() {
    let first = "{ standard = \"BS 5867-2 type B\", edition = \"2008\", lot = \"SE-31\", kind = \"tested\" }";
    for (new, text) in [
        ("{ edition = \"2008\", lot = \"SE-31\", kind = \"tested\" }", "[0].standard: is missing"),
        ("{ standard = \"NFPA 701\", lot = \"SE-31\", kind = \"tested\" }", "[0].edition: is missing"),
        ("{ standard = \"NFPA 701\", edition = \"2019\", kind = \"tested\" }", "[0].lot: is missing"),
        ("{ standard = \"NFPA 701\", edition = \"2019\", lot = \"1\" }", "[0].kind: is missing"),
        (
            "{ standard = \"NFPA 701\", edition = \"2019\", lot = \"1\", kind = \"sprayed\" }",
            "[0].kind: \"sprayed\" is not known: write one of \"tested\", \"treated\"",
        ),
        (
            "{ standard = \"BS 5867-2 type A\", edition = \"2008\", lot = \"1\", kind = \"tested\" }",
            "[0].standard: \"BS 5867-2 type A\" is not known: write one of \"BS 5867-2 type B\"",
        ),
        (
            "{ standard = \"NFPA 701\", edition = 2019, lot = \"1\", kind = \"tested\" }",
            "[0].edition: 2019 is not a text",
        ),
        (
            "{ standard = \"NFPA 701\", edition = \"2019\", lot = \"1\", kind = \"tested\", by = \"a\" }",
            "[0].by: there is no such key",
        ),
    ] {
        let told = only_mistake(first, new);
        assert!(told.contains("fabrics[8].fire_certificates") && told.contains(text), "{told} has no {text}");
    }
    let told = only_mistake("cut_from = \"kelp\"", "cut_from = \"kelp\"\nfire_certificates = []");
    assert!(told.contains("bindings[4].fire_certificates: a list is of a binding that is bought"), "{told}");
}
