//! What prices are made of is held to its order and its ranges.

use pennantry_measure::Length;

use super::super::read;
use super::values::in_currency;
use super::{demo_with, only_mistake};

#[test]
fn price_points_have_their_endings_and_their_step() {
    use pennantry_calc::shop::{Point, PointMode};
    let old = "breaks = [\n";
    let with = |points: &str| demo_with(old, &format!("price_points = {points}\n{old}"));
    let point = |text: &str| read(text).unwrap().pricing.point.unwrap();
    let up = point(&with("{ mode = \"up\", endings = [95] }"));
    assert_eq!(up, Point { mode: PointMode::Up, step: 100, endings: vec![95] });
    let own = point(&with("{ mode = \"nearest\", step = 1000, endings = [980, 480] }"));
    assert_eq!(own, Point { mode: PointMode::Nearest, step: 1_000, endings: vec![480, 980] });
    // yen have no decimals, dinars of Kuwait three
    for (code, digits, step) in [("JPY", 0, 100), ("KWD", 3, 1_000), ("UYW", 4, 10_000)] {
        let text = in_currency(code, digits);
        let text =
            text.replacen(old, &format!("price_points = {{ mode = \"up\", endings = [95] }}\n{old}"), 1);
        assert_eq!(point(&text).step, step, "{code}");
    }
    for (points, told) in [
        ("7", "pricing.price_points: 7 is not a table: write { mode"),
        ("{ endings = [95] }", "pricing.price_points.mode: is missing"),
        (
            "{ mode = \"down\", endings = [95] }",
            "price_points.mode: \"down\" is not known: write one of \"up\"",
        ),
        ("{ mode = \"up\" }", "pricing.price_points.endings: is missing"),
        ("{ mode = \"up\", endings = [] }", "price_points.endings: the list has 0 entries"),
        (
            "{ mode = \"up\", endings = [100] }",
            "price_points.endings[0]: 100 is out of range: write a whole number from 0 to 99",
        ),
        ("{ mode = \"up\", endings = [95], step = 0 }", "price_points.step: 0 is out of range"),
        ("{ mode = \"up\", endings = [95], floor = 1 }", "price_points.floor: there is no such key"),
    ] {
        let found = read(&with(points)).unwrap_err();
        assert_eq!(found.len(), 1, "{points}: {found:?}");
        assert!(found[0].to_string().contains(told), "{} has no {told}", found[0]);
    }
}

#[test]
fn breaks_rates_and_the_price_list_are_held_to_their_order() {
    for (old, new, told) in [
        (
            "{ from = 6, off_percent = 4 },",
            "{ from = 1, off_percent = 4 },",
            "breaks[0].from: 1 is out of range",
        ),
        (
            "{ from = 6, off_percent = 4 },",
            "{ from = 6, off_percent = 0 },",
            "breaks[0].off_percent: 0 is out of",
        ),
        (
            "{ from = 6, off_percent = 4 },",
            "{ from = 6, off_percent = 91 },",
            "breaks[0].off_percent: 91 is out of",
        ),
        (
            "{ from = 20, off_percent = 9 },",
            "{ from = 6, off_percent = 9 },",
            "breaks[1].from: 6 does not come after 6",
        ),
        (
            "{ from = 20, off_percent = 9 },",
            "{ from = 20, off_percent = 4 },",
            "breaks[1].off_percent: 4 is not above the 4 %",
        ),
        ("{ from = 20, off_percent = 9 },", "{ from = 20 },", "pricing.breaks[1].off_percent: is missing"),
        (
            "percent = 20 }]",
            "percent = 20 }, { from = \"2011-01-04\", percent = 21 }]",
            "tax.rates[1].from: \"2011-01-04\" does not come after 2011-01-04",
        ),
        ("percent = 20 }]", "percent = 101 }]", "tax.rates[0].percent: 101 is out of range"),
        ("{ from = \"2011-01-04\", percent = 20 }", "{ percent = 20 }", "tax.rates[0].from: is missing"),
        (
            "up_to_width_mm = 120",
            "up_to_width_mm = 200",
            "price_list[1].up_to_width_mm: 200 is in the price list already",
        ),
        (
            "up_to_width_mm = 200\nclass = \"felt\"",
            "up_to_width_mm = 200\nclass = \"silk\"",
            "price_list[2].class: \"silk\" is the class of no fabric",
        ),
        (
            "construction = \"single-pinked\"\n# Greatest",
            "construction = \"pinked\"\n# Greatest",
            "price_list[0].construction: \"pinked\" is not known",
        ),
    ] {
        let message = only_mistake(old, new);
        assert!(message.contains(told), "{message} has no {told}");
    }
    // whatever sells by the metre needs a list
    let demo: toml::Table = demo_with("basis = \"cost-plus\"", "basis = \"per-metre\"").parse().unwrap();
    let mut bare = demo.clone();
    bare.remove("price_list").unwrap();
    let found = read(&toml::to_string(&bare).unwrap()).unwrap_err();
    assert_eq!(found.len(), 1, "{found:?}");
    assert!(found[0].to_string().contains("price_list: is missing, and the basis"), "{}", found[0]);
    assert!(read(&toml::to_string(&demo).unwrap()).is_ok());
}

#[test]
fn lengths_in_stock_are_those_that_the_shop_makes() {
    let told = only_mistake("stock_lengths_mm = [3000,", "stock_lengths_mm = [499,");
    assert!(told.contains("designs[0].stock_lengths_mm[0]: 499 is out of range"), "{told}");
    let shop = read(&demo_with("stock_lengths_mm = [3000,", "stock_lengths_mm = [\"3 m\",")).unwrap();
    assert_eq!(shop.designs[0].stock[0], Length::from_mm(3_000));
}

/// A floor up to the margin is kept by the price itself; a mark-up of 25 % is a margin of 20 %.
#[test]
fn a_floor_is_not_above_the_margin() {
    let old = "margin_percent = 35\n";
    for (surplus, floor, told) in [
        ("margin_percent = 35", "35", None),
        ("margin_percent = 35", "35.001", Some("35.001 is above the margin of 35 %: ")),
        ("margin_percent = 0", "0", None),
        ("margin_percent = 0", "0.001", Some("0.001 is above the margin of 0 %: ")),
        ("markup_percent = 25", "20", None),
        (
            "markup_percent = 25",
            "20.001",
            Some("is above the margin of 20 % that a mark-up of 25 % comes to"),
        ),
        // 30 of 130 are 23.0769 %
        ("markup_percent = 30", "23.076", None),
        (
            "markup_percent = 30",
            "23.077",
            Some("above the margin of 23.076 % that a mark-up of 30 % comes to"),
        ),
        ("markup_percent = 1000", "90.909", None),
        ("markup_percent = 1000", "90.91", Some("write 90.909 % or less")),
    ] {
        let text = demo_with(old, &format!("{surplus}\n"));
        let text = text.replace("floor_margin_percent = 20", &format!("floor_margin_percent = {floor}"));
        match (read(&text), told) {
            (Ok(_), None) => {}
            (Err(found), Some(told)) => {
                let found: Vec<String> = found.iter().map(ToString::to_string).collect();
                let path = "pricing.floor_margin_percent: ";
                assert!(found.len() == 1 && found[0].contains(path) && found[0].contains(told), "{found:?}");
            }
            (found, told) => panic!("{surplus}, {floor}: {told:?}, {:?}", found.map(|_| ())),
        }
        // a price list has no margin that it could be above
        let listed = text.replace("basis = \"cost-plus\"", "basis = \"per-metre\"");
        assert!(read(&listed).is_ok(), "{surplus}, {floor}");
    }
}
