//! Values are read exactly, or not at all.

use pennantry_measure::{BenchTime, Length, Money, Percent, Rate};

use super::super::number::{Fault, scaled};
use super::super::read;
use super::{demo_with, only_mistake};

#[test]
fn numbers_are_read_from_their_digits() {
    // derived: shifting the point by hand
    for (text, places, value) in [
        ("0", 3, Ok(0)),
        ("7.5", 3, Ok(7_500)),
        ("-0.001", 3, Ok(-1)),
        ("+12", 0, Ok(12)),
        ("4.35", 2, Ok(435)),
        ("1.10000", 2, Ok(110)),
        ("0.0005", 3, Err(Fault::TooFine)),
        ("1e3", 3, Err(Fault::NotDigits)),
        (".5", 3, Err(Fault::NotDigits)),
        ("5.", 3, Err(Fault::NotDigits)),
        ("1,5", 3, Err(Fault::NotDigits)),
        ("1.2.3", 3, Err(Fault::NotDigits)),
        ("--1", 3, Err(Fault::NotDigits)),
        ("", 3, Err(Fault::NotDigits)),
        ("-", 3, Err(Fault::NotDigits)),
        ("inf", 3, Err(Fault::NotDigits)),
        ("٣", 3, Err(Fault::NotDigits)),
        ("9223372036854775807", 0, Ok(i64::MAX)),
        ("9223372036854775808", 0, Err(Fault::TooLong)),
        ("9223372036854775807", 3, Err(Fault::TooLong)),
    ] {
        assert_eq!(scaled(text, places), value, "{text} with {places} places");
    }
}

#[test]
fn lengths_are_read_to_the_micrometre() {
    // an inch is 25.4 mm exactly (international yard and pound agreement, 1959)
    for (written, um) in [
        ("1100", 1_100_000),
        ("1_100", 1_100_000),
        ("1066.8", 1_066_800),
        ("1000.001", 1_000_001),
        ("\"43 1/2 in\"", 1_104_900),
        ("\"1.1 m\"", 1_100_000),
        ("\"1 yd\"", 914_400),
    ] {
        let shop =
            read(&demo_with("usable_width_mm = 1100", &format!("usable_width_mm = {written}"))).unwrap();
        assert_eq!(shop.fabrics[0].usable_width, Length::from_um(um), "{written}");
    }
}

#[test]
fn a_float_that_no_double_holds_is_read_exactly() {
    // 0.1 has no exact double, and 0.1 + 0.2 is the usual proof of it
    let shop = read(&demo_with("seam_mm = 0", "seam_mm = 0.3")).unwrap();
    assert_eq!(shop.methods[0].seam, Length::from_um(300));
    let shop = read(&demo_with("minutes_per_pennant = 2", "minutes_per_pennant = 4.035")).unwrap();
    assert_eq!(shop.methods[0].per_pennant, BenchTime::from_milli_minutes(4_035));
    let shop = read(&demo_with("tax_percent = 20", "tax_percent = 8.875")).unwrap();
    assert_eq!(shop.pricing.tax_rate, Percent::from_milli(8_875));
}

#[test]
fn what_is_too_fine_is_refused_and_never_rounded() {
    assert!(
        only_mistake("squaring_mm = 20", "squaring_mm = 20.0001")
            .contains("20.0001 has more than 3 decimals")
    );
    assert!(
        only_mistake("minimum_charge = \"24.00\"", "minimum_charge = \"24.005\"")
            .contains("more than 2 decimals")
    );
    assert!(
        only_mistake("wage_per_hour = \"17.50\"", "wage_per_hour = \"17.123456789\"").contains("more than 8")
    );
}

#[test]
fn money_follows_the_digits_of_the_currency() {
    let shop = read(&demo_with("minor_digits = 2", "minor_digits = 0")).unwrap();
    assert_eq!(shop.pricing.minimum, Money::from_minor(24));
    assert_eq!(shop.fabrics[1].price, Rate::from_micro_minor(10_400_000));
    let shop = read(&demo_with("minor_digits = 2", "minor_digits = 3")).unwrap();
    assert_eq!(shop.pricing.minimum, Money::from_minor(24_000));
    let pence = "minor_digits = 0\n# prices follow\n";
    let text = demo_with("minor_digits = 2\n", pence).replace("\"24.00\"", "\"24.50\"");
    let told: Vec<String> = read(&text).unwrap_err().iter().map(ToString::to_string).collect();
    assert_eq!(told.len(), 1, "{told:?}");
    assert!(
        told[0].contains("\"24.50\" has more than 0 decimals") && told[0].contains("such as \"11\""),
        "{told:?}"
    );
}

#[test]
fn the_ends_of_a_range_are_in_it() {
    for (old, new) in [
        ("usable_width_mm = 1350", "usable_width_mm = 3000"),
        ("tail_mm = 300", "tail_mm = 10000"),
        ("tail_mm = 300", "tail_mm = 0"),
        ("least_mm = 500", "least_mm = 50"),
        ("most_mm = 100000", "most_mm = 2000000"),
        ("day_minutes = 75", "day_minutes = 1440"),
        ("margin_percent = 35", "margin_percent = 95"),
        ("price_per_metre = \"11.00\"", "price_per_metre = \"100000\""),
        ("price_per_metre = \"11.00\"", "price_per_metre = \"0\""),
        (
            "name = \"Kelp\"",
            "name = \"KelpKelpKelpKelpKelpKelpKelpKelpKelpKelpKelpKelpKelpKelpKelpKelpKelpKelpKelpKelp\"",
        ),
    ] {
        assert!(read(&demo_with(old, new)).is_ok(), "{new}");
    }
    for (old, new) in [
        ("usable_width_mm = 1350", "usable_width_mm = 3000.001"),
        ("tail_mm = 300", "tail_mm = -0.001"),
        ("day_minutes = 75", "day_minutes = 0.999"),
        ("margin_percent = 35", "margin_percent = 95.001"),
        ("price_per_metre = \"11.00\"", "price_per_metre = \"100000.00000001\""),
    ] {
        assert!(only_mistake(old, new).contains("is out of range"), "{new}");
    }
}

#[test]
fn what_does_not_go_together_is_told() {
    assert!(
        only_mistake("least_mm = 500", "least_mm = 100001").contains("above most_mm, which is 100000 mm")
    );
    assert!(only_mistake("gap_mm = 20", "gap_mm = -190").contains("more than -190 mm"));
    assert!(only_mistake("usual_mm = 5000", "usual_mm = 499").contains("500 mm to 100000 mm"));
    let narrow = only_mistake("usable_width_mm = 560", "usable_width_mm = 199");
    assert!(narrow.contains("designs[3].fabrics[1]: \"sail-end\" can be used 199 mm wide"), "{narrow}");
    let other = only_mistake("constructions = [\"double-turned\"]", "constructions = [\"double-fused\"]");
    assert!(other.contains("designs[3].construction: \"double-turned\" is not among"), "{other}");
    let twice = only_mistake("\"kelp\", \"chandlers-rope\"", "\"kelp\", \"kelp\"");
    assert!(twice.contains("designs[0].fabrics[1]: \"kelp\" is in this list already"), "{twice}");
}

#[test]
fn names_that_lead_nowhere_are_told_with_the_nearest() {
    let told = only_mistake("[\"kelp\", \"chandlers-rope\"", "[\"kelb\", \"chandlers-rope\"");
    assert!(told.contains("\"kelb\" is no code in [[fabrics]]: did you mean \"kelp\"?"), "{told}");
    let told = only_mistake("binding = \"hawser-30\"", "binding = \"kelp\"");
    assert!(
        told.contains("\"kelp\" is no code in [[bindings]]: name one that is there, or add it"),
        "{told}"
    );
    let told = only_mistake("code = \"loft-lights\"", "code = \"kelp\"");
    assert!(told.contains("is on line"), "{told}");
}
