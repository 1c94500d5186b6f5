use std::collections::BTreeMap;

use clap::Parser;
use serde_json::{Value, json};

use super::*;
use crate::cli::{Cli, Command};
use crate::flags::FLAGS;

fn typed_in(words: &str) -> Result<Quote, String> {
    let all = ["pennantry", "quote"].into_iter().chain(words.split('|').filter(|word| !word.is_empty()));
    match Cli::try_parse_from(all).map_err(|fault| fault.to_string())?.command {
        Command::Quote(flags) => Ok(*flags),
        other => panic!("{other:?}"),
    }
}

fn enquiry(words: &str) -> v1::Enquiry {
    fill(&typed_in(words).unwrap(), Some(2)).unwrap()
}

/// Every value of an enquiry in JSON, by its path without indices.
fn leaves(value: &Value, path: &str, found: &mut BTreeMap<String, Vec<Value>>) {
    match value {
        Value::Object(keys) => {
            for (key, inner) in keys {
                let path = if path.is_empty() { key.clone() } else { format!("{path}.{key}") };
                leaves(inner, &path, found);
            }
        }
        Value::Array(entries) => entries.iter().for_each(|entry| leaves(entry, path, found)),
        _ => found.entry(path.to_owned()).or_default().push(value.clone()),
    }
}

fn told(words: &str) -> BTreeMap<String, Vec<Value>> {
    let mut found = BTreeMap::new();
    leaves(&serde_json::to_value(enquiry(words)).unwrap(), "", &mut found);
    found
}

/// Each field of the contract, what is typed for it, what is sent, and what else is sent
/// because it cannot be typed alone. Inches by hand: 7 1/2 in is 190.5 mm, 20 ft 4 in is 244 in,
/// 6 197.6 mm.
fn samples() -> Vec<(&'static str, &'static str, Value, &'static [&'static str])> {
    vec![
        ("designCode", "--design|harbour", json!(["harbour"]), &[]),
        ("flaggedMm", "20|ft|4|in", json!([6197.6]), &[]),
        ("overallMm", "--overall|6.8 m", json!([6800.0]), &[]),
        ("bindingMm", "--binding|682 cm", json!([6820.0]), &[]),
        ("hang.spanMm", "--span|6 m", json!([6000.0]), &[]),
        ("hang.dipMm", "--span|6 m|--dip|30 cm", json!([300.0]), &["hang.spanMm"]),
        ("hang.swagCount", "--span|6 m|--swags|2", json!([2]), &["hang.spanMm"]),
        ("pennantCount", "--pennants|29", json!([29]), &[]),
        ("gapMm", "--gap|-20 mm", json!([-20.0]), &[]),
        ("tailMm", "--tail|0", json!([0.0]), &[]),
        ("fit.leftover", "--leftover|tails", json!(["LEFTOVER_TAILS"]), &[]),
        ("fit.parity", "--parity|odd", json!(["PARITY_ODD"]), &[]),
        ("fit.minGapMm", "--least-gap|-1cm", json!([-10.0]), &[]),
        ("fit.maxGapMm", "--greatest-gap|30mm", json!([30.0]), &[]),
        ("pennant.shape", "--shape|swallowtail", json!(["SHAPE_SWALLOWTAIL"]), &[]),
        ("pennant.widthMm", "--width|7 1/2 in", json!([190.5]), &[]),
        ("pennant.dropMm", "--drop|1 ft", json!([304.8]), &[]),
        ("pennant.sizeAt", "--size-at|binding-edge", json!(["SIZE_AT_BINDING_EDGE"]), &[]),
        ("pennant.footMm", "--foot|80mm", json!([80.0]), &[]),
        ("pennant.notchMm", "--notch|60mm", json!([60.0]), &[]),
        ("pennant.shoulderMm", "--shoulder|90mm", json!([90.0]), &[]),
        ("pennant.riseMm", "--rise|50mm", json!([50.0]), &[]),
        ("construction", "--construction|double-fused", json!(["CONSTRUCTION_DOUBLE_FUSED"]), &[]),
        ("backing", "--backing|kelp", json!(["kelp"]), &[]),
        ("colourOrder.rule", "--colours|mirror-ends", json!(["RULE_MIRROR_ENDS"]), &[]),
        ("colourOrder.fabricCodes", "--fabrics|a,b,a", json!(["a", "b", "a"]), &[]),
        ("lettering", "--lettering|HELLO YOU", json!(["HELLO YOU"]), &[]),
        ("bindingCode", "--binding-code|bosun-25", json!(["bosun-25"]), &[]),
        ("finish.ends.style", "--ends|plain,loop", json!(["END_STYLE_PLAIN", "END_STYLE_LOOP"]), &[]),
        ("finish.ends.loopMm", "--loop|120mm", json!([120.0]), &[]),
        ("finish.ends.slips", "--slips|no", json!([false]), &[]),
        ("finish.ends.breakawayN", "--breakaway|50 N", json!([50.0]), &[]),
        ("finish.ends.tieMm", "--tie|25cm", json!([250.0]), &[]),
        ("finish.ends.secondTieMm", "--second-tie|20cm", json!([200.0]), &[]),
        ("finish.ends.tiesApartMm", "--ties-apart|0", json!([0.0]), &[]),
        ("finish.ends.trimmingCode", "--end-trimming|tassel", json!(["tassel"]), &[]),
        ("finish.trimmings.code", "--trimming|star", json!(["star"]), &[]),
        ("finish.trimmings.perPennant", "--trimming|star:3", json!([3]), &["finish.trimmings.code"]),
        ("quantity", "--quantity|4", json!([4]), &[]),
        ("near.who", "--who|child", json!(["WHO_CHILD"]), &[]),
        ("near.youngestMonths", "--youngest|0", json!([0]), &[]),
        ("near.place", "--place|child-room", json!(["PLACE_CHILD_ROOM"]), &[]),
        ("near.fixingHeightMm", "--fixing-height|2.2m", json!([2200.0]), &[]),
        ("near.fixings", "--fixings|3", json!([3]), &[]),
        ("near.spanMm", "--fixing-span|6.5m", json!([6500.0]), &[]),
        ("near.cotDistanceMm", "--cot-distance|1 yd", json!([914.4]), &[]),
        ("near.jurisdictions", "--rules|gb,us", json!(["JURISDICTION_GB", "JURISDICTION_US"]), &[]),
        ("near.wallWidthMm", "--wall-width|12m", json!([12000.0]), &[]),
        ("near.wallHeightMm", "--wall-height|4m", json!([4000.0]), &[]),
        ("destination.countryCode", "--to|GB", json!(["GB"]), &[]),
        ("service", "--service|home-second", json!(["home-second"]), &[]),
        ("wantedDate", "--by|2026-12-04", json!(["2026-12-04"]), &[]),
        ("view", "--view|buyer", json!(["VIEW_BUYER"]), &[]),
        ("workings", "--workings", json!([true]), &[]),
        ("shelf", "--shelf", json!([true]), &[]),
        ("discount.percent", "--discount|12.5%|--reason|a friend", json!([12.5]), &["discount.reason"]),
        ("discount.minorUnits", "--discount|5.00|--reason|a friend", json!(["500"]), &["discount.reason"]),
        ("discount.reason", "--discount|5%|--reason|a friend", json!(["a friend"]), &["discount.percent"]),
        ("rush", "--rush", json!([true]), &[]),
        ("asOfDate", "--as-of|2026-11-20", json!(["2026-11-20"]), &[]),
    ]
}

#[test]
fn each_flag_fills_its_field_and_no_other() {
    let samples = samples();
    let tried: Vec<&str> = samples.iter().map(|(path, ..)| *path).collect();
    assert_eq!(tried, FLAGS.iter().map(|(path, _)| *path).collect::<Vec<_>>(), "each field once");
    for (path, words, value, with) in samples {
        let mut told = told(words);
        let sent = told.remove(path).map(Value::Array);
        assert_eq!(sent, Some(value), "{path}: {words}");
        // the shop's view is asked unless a view is said
        told.remove("view");
        let others: Vec<&str> = told.keys().map(String::as_str).collect();
        assert_eq!(others, with, "{path}: {words}");
    }
}

#[test]
fn nothing_typed_is_nothing_sent_but_the_shops_view() {
    let view = v1::Enquiry { view: Some(v1::View::Shop.into()), ..v1::Enquiry::default() };
    assert_eq!(enquiry(""), view);
}

#[test]
fn a_length_means_the_same_in_every_unit() {
    // 6.096 m is 20 ft is 240 in (25.4 mm to the inch, 1959)
    for words in
        ["6096 mm", "609.6 cm", "6.096|m", "240|in", "20|ft", "6 yd 24 in", "19 ft 12 in", "--flagged|240\""]
    {
        assert_eq!(told(words)["flaggedMm"], [json!(6096.0)], "{words}");
    }
}

#[test]
fn what_is_said_of_ends_goes_to_both_or_to_each() {
    let ends = |words| enquiry(words).finish.unwrap().ends;
    let both = ends("--ends|loop,loop|--loop|120mm|--slips|no");
    assert_eq!(both.len(), 2);
    assert!(both.iter().all(|end| end.loop_mm == Some(120.0) && end.slips == Some(false)));
    let apart = ends("--ends|loop,tie|--loop|120mm|--loop|none|--tie|none|--tie|20cm");
    assert_eq!((apart[0].loop_mm, apart[1].loop_mm), (Some(120.0), None));
    assert_eq!((apart[0].tie_mm, apart[1].tie_mm), (None, Some(200.0)));
    // one word for both ends stays one entry: the contract has that
    assert_eq!(ends("--ends|loop").len(), 1);
    let wider = ends("--ends|loop|--loop|9cm|--loop|8cm");
    assert!(wider.len() == 2 && wider.iter().all(|end| end.style == Some(v1::EndStyle::Loop.into())));
}

#[test]
fn what_cannot_be_meant_is_refused_with_what_to_write() {
    for (words, said) in [
        ("20", "no unit"),
        ("6 furlongs", "furlongs"),
        ("--width|7 1/2", "unit"),
        ("--dip|3cm", "--span"),
        ("--reason|a friend", "--discount"),
        ("6 m|--overall|7 m", "--overall"),
        ("--shape|heart", "swallowtail"),
        ("--ends|noose", "loop"),
        ("--slips|perhaps", "yes, no"),
        ("--breakaway|lots", "newtons"),
        ("--trimming|star:x", "colon"),
        ("--discount|half", "10%"),
        ("--discount|5.", "10%"),
        ("--discount|-5", "write a share such as 10%"),
        ("--json|--plain", "--plain"),
    ] {
        let told = typed_in(words).and_then(|flags| fill(&flags, Some(2)).map(|_| ()));
        let refused = told.expect_err(words);
        assert!(refused.contains(said), "{words}: {refused}");
    }
}

/// ISO 4217: yen have 0 digits, pounds 2, dinars of Kuwait 3, UF of Chile 4.
#[test]
fn an_amount_taken_off_is_in_the_minor_units_of_the_currency() {
    let off =
        |words: &str, digits| fill(&typed_in(words).unwrap(), digits).map(|sent| sent.discount.unwrap().off);
    for (words, digits, minor) in [
        ("--discount|5", 0, 5),
        ("--discount|5", 2, 500),
        ("--discount|5.25", 2, 525),
        ("--discount|5.2", 3, 5_200),
        ("--discount|0.0005", 4, 5),
    ] {
        assert_eq!(off(words, Some(digits)), Ok(Some(v1::discount::Off::MinorUnits(minor))), "{words}");
    }
    assert!(off("--discount|5.00", Some(0)).unwrap_err().contains("at most 0"));
    assert!(off("--discount|5.00", None).unwrap_err().contains("not known"));
    assert!(off("--discount|9000000000000000000", Some(4)).unwrap_err().contains("out of range"));
    assert_eq!(off("--discount|5%", None), Ok(Some(v1::discount::Off::Percent(5.0))));
}

/// A value below nought is a value: it is refused by who reads it, here or at the server, and
/// never taken for a flag or for the wanted length.
#[test]
fn a_value_below_nought_belongs_to_its_flag() {
    use clap::CommandFactory;
    let cli = Cli::command();
    let quote = cli.find_subcommand("quote").unwrap();
    let kinds = ["LENGTH", "N", "MONTHS", "PERCENT%|AMOUNT"];
    let takes = |arg: &&clap::Arg| {
        arg.get_value_names().is_some_and(|names| names.iter().any(|name| kinds.contains(&name.as_str())))
    };
    let flags: Vec<&str> = quote.get_arguments().filter(takes).filter_map(clap::Arg::get_long).collect();
    assert!(flags.len() > 25, "{flags:?}");
    for flag in flags {
        for value in ["-1", "-1mm", "-5%", "-0.5"] {
            let Err(fault) =
                typed_in(&format!("--span|6 m|--{flag}|{value}").replace("--span|6 m|--span", "--span"))
            else {
                continue;
            };
            assert!(!fault.contains("tip:") && !fault.contains("unexpected"), "{fault}");
            let other = fault.contains("cannot be used with");
            assert!(other || fault.contains(&format!("invalid value '{value}' for '--{flag}")), "{fault}");
        }
    }
    assert_eq!(told("--fixing-height|-1mm")["near.fixingHeightMm"], [json!(-1.0)]);
    assert_eq!(told("--discount|-5%|--reason|x")["discount.percent"], [json!(-5.0)]);
    assert!(typed_in("--discount|-5").unwrap_err().contains("write a share such as 10%"));
    assert!(typed_in("--youngest|-1").unwrap_err().contains("-1 is not in 0..=4294967295"));
    assert!(typed_in("--youngest|--place|home").unwrap_err().contains("invalid value '--place'"));
}
