//! The table of check values.

use super::*;
use crate::shop::{SideRounding, Volumetric};
use crate::table::{length_um, millionths, rows};

const TABLE: &str = include_str!("../../../tables/parcel.csv");

#[test]
fn the_table_of_parcels_is_met() {
    let all = rows(TABLE, ["id", "function", "rule", "size", "unit", "mass", "expected", "source", "grade"]);
    for [id, function, rule, size, unit, mass, expected, source, grade] in &all {
        match function.as_str() {
            "fits" => {
                let wanted = (expected != "fits").then(|| expected.clone());
                let got = fits(&format(rule, unit), sides(size, unit)).err();
                assert_eq!(got.map(|limit| told(&limit, unit)), wanted, "{id}");
            }
            "edges" => edges(id, &format(rule, unit), mass),
            "counted" => {
                let got = counted(kilograms(mass), Some(&knobs(rule)), sides(size, "cm"));
                assert_eq!(got, kilograms(expected), "{id}");
            }
            "band" => {
                let bands: Vec<Band> = rule.split('/').map(band_of).collect();
                let got = match band(&bands, grams_up(mass)) {
                    Ok(place) => bands[place].most.grams_up().to_string(),
                    Err(BandError::NoMass(_)) => String::from("refused"),
                    Err(BandError::Over { most, .. }) => {
                        assert_eq!(most, Mass::from_grams(2_000), "{id}: the last band is named");
                        String::from("none")
                    }
                };
                assert_eq!(&got, expected, "{id}");
            }
            other => panic!("{id}: no function {other}"),
        }
        assert!(!source.is_empty() && !grade.is_empty(), "{id}: no source");
    }
    assert_eq!(all.len(), 81, "rows of the table");
}

/// 110 mm are 1.1 times the 100 that they may be, 10 mm a fifth of the 50 that they must.
#[test]
fn of_several_broken_limits_the_worst_is_told() {
    let format = format("flat 100x100x100 least=50x50x50", "mm");
    let told = |size: &str| fits(&format, sides(size, "mm")).map_err(|limit| limit.to_string());
    assert_eq!(told("110x90x10"), Err(String::from("the thinnest side of 10 mm is under the 50 mm")));
    assert_eq!(told("110x90x49"), Err(String::from("the longest side of 110 mm is over the 100 mm")));
    assert_eq!(told("100x90x-1"), Err(String::from("the thinnest side of -1 mm is under the 50 mm")));
    assert_eq!(told("100x90x50"), Ok(()));
}

/// At its greatest size, its sides in any order, a format is met; a micrometre more on
/// any side breaks it, and so does a milligram on its greatest mass.
fn edges(id: &str, format: &Format, mass: &str) {
    let [a, b, c] = format.most;
    let mut size = [a, b, c];
    if let Some(sum) = format.most_sum {
        // of a box two sides make up the rest of the sum, of a roll twice its diameter does
        let rest = Length::from_um((sum - a).um() / 2);
        size = [a, rest, rest];
    }
    let [a, b, c] = size;
    for size in [[a, b, c], [a, c, b], [b, a, c], [b, c, a], [c, a, b], [c, b, a]] {
        assert_eq!(fits(format, size), Ok(()), "{id}: the greatest size");
    }
    let more = Length::from_um(1);
    for over in [[a + more, b, c], [a, b + more, c], [c + more, a, b]] {
        let limit = fits(format, over).expect_err("a micrometre more");
        assert!(!limit.to_string().contains("under"), "{id}: {limit}");
    }
    let [a, b, _] = format.least;
    if a > Length::ZERO {
        let limit = fits(format, [a - more, b, Length::from_um(500)]).expect_err("a micrometre less");
        assert!(limit.to_string().contains("under"), "{id}: {limit}");
    }
    if mass.is_empty() {
        return;
    }
    // the whole grams that the greatest mass holds, and a milligram more, in thin strings
    let most = Mass::from_mg(millionths(mass) / 1_000);
    let mut shop = thin_shop();
    shop.formats = vec![Format { most_mass: Some(most), ..format.clone() }];
    shop.services[0].bands = vec![band_of("100000")];
    let order = counted_order(2);
    let whole = Mass::from_grams(most.mg() / 1_000);
    let layout = layout(&shop, &order);
    let at = parcel(&shop, &order, &layout, &weighing(whole, Mass::ZERO));
    assert_eq!(at.map(|parcel| parcel.counted), Ok(whole), "{id}: the greatest mass");
    let over = whole + Mass::from_mg(1);
    let over = parcel(&shop, &order, &layout, &weighing(over, Mass::ZERO)).expect_err("a milligram more");
    assert_eq!(over.nearest.map(|limit| limit.rule), Some(Rule::FormatMass), "{id}: {over}");
}

/// `roll 900x900x900 sum=1040 least=100x0x0 leastsum=170`.
fn format(rule: &str, unit: &str) -> Format {
    let mut words = rule.split(' ');
    let kind = match words.next() {
        Some("flat") => FormatKind::Flat,
        Some("box") => FormatKind::Box,
        Some("roll") => FormatKind::Roll,
        other => panic!("no kind {other:?}"),
    };
    let most = sides(words.next().expect("a greatest size"), unit);
    let mut format = Format {
        code: String::from("format"),
        name: String::from("Format"),
        kind,
        most,
        least: [Length::ZERO; 3],
        most_sum: None,
        most_girth: None,
        least_sum: None,
        least_ratio: None,
        most_mass: None,
    };
    for word in words {
        let (name, value) = word.split_once('=').expect("a name and a value");
        match name {
            "sum" => format.most_sum = Some(length(value, unit)),
            "girth" => format.most_girth = Some(length(value, unit)),
            "leastsum" => format.least_sum = Some(length(value, unit)),
            "least" => format.least = sides(value, unit),
            "ratio" => format.least_ratio = Some(Percent::from_milli(millionths(value) / 10)),
            other => panic!("no rule {other}"),
        }
    }
    format
}

/// `139 nearest step=1 threshold=1728 stepreal`.
fn knobs(rule: &str) -> Volumetric {
    let mut words = rule.split(' ');
    let divisor = words.next().and_then(|word| word.parse().ok()).expect("a divisor");
    let sides = match words.next() {
        Some("exact") => SideRounding::Exact,
        Some("nearest") => SideRounding::Nearest,
        Some("up") => SideRounding::Up,
        other => panic!("no rounding {other:?}"),
    };
    let mut knobs = Volumetric { divisor, sides, step: Mass::ZERO, threshold: 0, step_real: false };
    for word in words {
        match word.split_once('=') {
            Some(("step", step)) => knobs.step = kilograms(step),
            Some(("threshold", threshold)) => knobs.threshold = threshold.parse().expect("a threshold"),
            None if word == "stepreal" => knobs.step_real = true,
            _ => panic!("no knob {word}"),
        }
    }
    knobs
}

fn length(text: &str, unit: &str) -> Length {
    match unit {
        // rows in inches and pounds stand in here as centimetres and kilograms: the type
        // holds whole centimetres, and the arithmetic is the same
        "cm" => Length::from_um(length_um(text, "mm") * 10),
        unit => Length::from_um(length_um(text, unit)),
    }
}

fn sides(text: &str, unit: &str) -> [Length; 3] {
    let sides: Vec<Length> = text.split('x').map(|side| length(side, unit)).collect();
    sides.try_into().expect("three sides")
}

fn kilograms(text: &str) -> Mass {
    Mass::from_mg(millionths(text))
}

/// Grams as milligrams, up: a mass finer than that is at least what the type holds.
fn grams_up(text: &str) -> Mass {
    Mass::from_mg(millionths(text).div_euclid(1_000) + i64::from(millionths(text) % 1_000 != 0))
}

fn band_of(grams: &str) -> Band {
    let grams: i64 = grams.parse().expect("grams");
    Band { format: 0, most: Mass::from_grams(grams), price: Money::from_minor(grams) }
}

/// `Sum 901`, in the unit of the table.
fn told(limit: &Limit, unit: &str) -> String {
    let per_unit = if unit == "in" { 25_400 } else { 1_000 };
    let value = match limit.value {
        Amount::Length(length) => {
            assert_eq!(length.um() % per_unit, 0, "{limit}");
            (length.um() / per_unit).to_string()
        }
        Amount::Share(share) => share.to_string().trim_end_matches(" %").to_owned(),
        Amount::Mass(mass) => mass.to_string(),
    };
    format!("{:?} {value}", limit.rule)
}
