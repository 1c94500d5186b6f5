//! Values are read exactly, or not at all.

use pennantry_calc::shop::Day;
use pennantry_measure::{BenchTime, Force, Length, Mass, MassPerArea, MassPerLength, Money, Percent, Rate};

use super::super::number::{Fault, scaled};
use super::super::{SALTMERE_LOFT, read};
use super::{demo_with, mistakes, only_mistake};

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
    let shop = read(&demo_with("minutes = 0.36", "minutes = 4.035")).unwrap();
    let cut = shop.bench.operations.iter().find(|operation| operation.code == "cut").unwrap();
    assert_eq!(cut.time, BenchTime::from_milli_minutes(4_035));
    let shop = read(&demo_with("percent = 20 }", "percent = 8.875 }")).unwrap();
    assert_eq!(shop.pricing.tax.unwrap().rates[0].share, Percent::from_milli(8_875));
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

/// The demo in another currency, with every price of a piece, a parcel or a roll, every extra of
/// the price list and the fee taken to 1; prices of a metre stay.
pub(super) fn in_currency(code: &str, digits: u32) -> String {
    let text = demo_with("currency = \"GBP\"", &format!("currency = \"{code}\""));
    let mut text = text.replace("minor_digits = 2\n", &format!("minor_digits = {digits}\n"));
    for key in ["price", "letter", "trimming", "loop", "tie", "fee_fixed"] {
        let mut parts = text.split(&format!("{key} = \"")).map(str::to_owned).collect::<Vec<_>>().into_iter();
        let mut whole = parts.next().unwrap_or_default();
        for part in parts {
            let (_, after) = part.split_once('"').unwrap();
            whole = format!("{whole}{key} = \"1\"{after}");
        }
        text = whole;
    }
    text
}

/// Currencies of every number of digits that there is: ISO 4217, list of 2026-01-01.
#[test]
fn money_follows_the_digits_of_the_currency() {
    for (code, digits, minimum) in [
        ("JPY", 0, 24),
        ("ISK", 0, 24),
        ("EUR", 2, 2_400),
        ("MGA", 2, 2_400),
        ("KWD", 3, 24_000),
        ("UYW", 4, 240_000),
        ("CLF", 4, 240_000),
    ] {
        let shop = read(&in_currency(code, digits)).unwrap_or_else(|found| panic!("{code}: {found:?}"));
        assert_eq!((shop.currency.as_str(), u32::from(shop.minor_digits)), (code, digits));
        assert_eq!(shop.pricing.minimum, Money::from_minor(minimum), "{code}");
        let unit = 10_i64.pow(digits);
        assert_eq!(shop.fabrics[1].price, Rate::from_micro_minor(10_400_000 * unit), "{code}");
    }
    let text = in_currency("JPY", 0).replace("\"24.00\"", "\"24.50\"");
    let told: Vec<String> = read(&text).unwrap_err().iter().map(ToString::to_string).collect();
    assert_eq!(told.len(), 1, "{told:?}");
    assert!(
        told[0].contains("\"24.50\" has more than 0 decimals") && told[0].contains("such as \"11\""),
        "{told:?}"
    );
}

#[test]
fn a_currency_is_one_in_use_with_its_own_digits() {
    for (code, digits, own) in [("GBP", 3, 2), ("JPY", 2, 0), ("KWD", 2, 3), ("UYW", 0, 4), ("HUF", 0, 2)] {
        let found = read(&in_currency(code, digits)).unwrap_err();
        assert_eq!(found.len(), 1, "{found:?}");
        assert_eq!(found[0].path, "shop.minor_digits");
        let text = format!("{digits} is not what {code} has, which is {own} (ISO 4217): write {own}");
        assert_eq!(found[0].message, text);
    }
    // withdrawn: the lev, the kuna, the guilder of the Antilles, a dollar, a convertible peso
    for (code, said) in [
        ("BGN", "no longer"),
        ("HRK", "no longer"),
        ("ANG", "no longer"),
        ("ZWL", "no longer"),
        ("CUC", "no longer"),
        ("QQQ", "is not among the currencies"),
        ("XAU", "no minor unit"),
        ("XTS", "no minor unit"),
    ] {
        let told = only_mistake("currency = \"GBP\"", &format!("currency = \"{code}\""));
        assert!(told.contains(&format!("shop.currency: \"{code}\"")) && told.contains(said), "{told}");
    }
    for code in ["gbp", "£", "EUR "] {
        let told = only_mistake("currency = \"GBP\"", &format!("currency = \"{code}\""));
        assert!(told.contains("three capital letters"), "{told}");
    }
}

#[test]
fn the_ends_of_a_range_are_in_it() {
    for (old, new) in [
        ("usable_width_mm = 1350", "usable_width_mm = 3000"),
        ("tail_mm = 300", "tail_mm = 10000"),
        ("tail_mm = 300", "tail_mm = 0"),
        ("least_mm = 500", "least_mm = 50"),
        ("most_mm = 100000", "most_mm = 2000000"),
        ("valid_days = 14", "valid_days = 1"),
        ("valid_days = 14", "valid_days = 90"),
        ("minutes = 9", "minutes = 1440"),
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
        ("valid_days = 14", "valid_days = 0"),
        ("valid_days = 14", "valid_days = 91"),
        ("minutes = 9", "minutes = 1440.001"),
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
    let other = only_mistake(
        "constructions = [\"double-turned\"]\nbinding",
        "constructions = [\"double-fused\"]\nbinding",
    );
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
    // a design that names it is a mistake, too
    let found = mistakes(&demo_with("code = \"sea-glass\"", "code = \"kelp\""));
    assert!(found.len() == 2 && found[0].message.contains("is on line"), "{found:?}");
    let told = only_mistake("fabric = \"lamp-oil\"", "fabric = \"lamp-oi\"");
    assert!(
        told.contains("supplies[2].fabric: \"lamp-oi\" is no code in [[fabrics]]: did you mean"),
        "{told}"
    );
    let told = only_mistake("fabric = \"lamp-oil\"", "fabric = \"kelp\"");
    assert!(told.contains("supplies[2].fabric: \"kelp\" is on line"), "{told}");
}

#[test]
fn masses_are_read_to_their_smallest_unit() {
    let shop = read(&demo_with("tex = 27", "tex = 29.525")).unwrap();
    assert_eq!(shop.bench.thread.mass, MassPerLength::from_ug_per_m(29_525));
    let shop = read(&demo_with("grams_per_metre = 6\n", "grams_per_metre = 6.125\n")).unwrap();
    assert_eq!(shop.bindings[0].mass, MassPerLength::from_ug_per_m(6_125_000));
    let shop = read(&demo_with("grams_per_m2 = 140", "grams_per_m2 = 137.5")).unwrap();
    assert_eq!(shop.fabrics[0].mass, MassPerArea::from_mg_per_m2(137_500));
    let shop = read(&demo_with("grams = 1.2", "grams = 1.234")).unwrap();
    assert_eq!(shop.trimmings[0].mass, Mass::from_mg(1_234));
    for (old, new, form) in [
        ("tex = 27", "tex = 500.001", "a mass from 5 to 500 tex"),
        ("grams_per_metre = 6\n", "grams_per_metre = 0.05\n", "from 0.1 to 1000 grams a metre"),
        ("grams_per_m2 = 140", "grams_per_m2 = 9.9", "from 10 to 2000 grams a square metre"),
        ("thickness_mm = 0.25", "thickness_mm = 0.009", "a length from 0.01 mm to 20 mm"),
        ("stitch_mm = 2.5", "stitch_mm = 0.499", "a length from 0.5 mm to 10 mm"),
    ] {
        let told = only_mistake(old, new);
        assert!(told.contains("is out of range") && told.contains(form), "{told} has no {form}");
    }
}

#[test]
fn days_are_those_of_the_calendar_and_come_in_order() {
    let known_to = |day: &str| demo_with("known_to = \"2027-12-31\"", &format!("known_to = \"{day}\""));
    // derived by another program's calendar: days after 1970-01-01
    for (day, number) in
        [("2026-11-24", 20_781), ("2028-02-29", 21_243), ("2000-01-01", 10_957), ("2199-12-31", 84_005)]
    {
        assert_eq!(read(&known_to(day)).unwrap().calendar.known_to, Day(number), "{day}");
    }
    for (day, fault) in [
        ("2027-02-29", "is no day of the calendar"),
        ("2027-13-01", "is no day of the calendar"),
        ("2027-1-01", "is no day of the calendar"),
        ("20270101", "is no day of the calendar"),
        ("2027-01-01T12", "is no day of the calendar"),
        ("-2027-01-1", "is no day of the calendar"),
        ("1999-12-31", "is out of range"),
        ("2200-01-01", "is out of range"),
    ] {
        let told = read(&known_to(day)).unwrap_err();
        assert!(told.len() == 1 && told[0].message.contains(fault), "{day}: {told:?}");
    }
    let shop = read(&demo_with("off = []", "off = [\"2027-03-02\", \"2026-12-29\"]")).unwrap();
    let off: Vec<String> = shop.calendar.people[0].off.iter().map(Day::to_string).collect();
    assert_eq!(off, ["2026-12-29", "2027-03-02"]);
    let twice = only_mistake("off = []", "off = [\"2027-03-02\", \"2027-03-02\"]");
    assert!(twice.contains("people[0].off[1]: \"2027-03-02\" is in this list already"), "{twice}");
    let second = "[[load]]\nday = \"2026-11-23\"\nminutes = 5\n\n[[load]]";
    let load = read(&demo_with("[[load]]", second)).unwrap().calendar.load;
    assert_eq!(load.iter().map(|booked| booked.day).collect::<Vec<_>>(), [Day(20_780), Day(20_781)]);
}

#[test]
fn times_of_the_day_are_minutes_after_midnight() {
    for (time, minutes) in [("00:00", 0), ("09:05", 545), ("23:59", 1_439), ("24:00", 1_440)] {
        let shop = read(&demo_with("\"14:00\"", &format!("\"{time}\""))).unwrap();
        assert_eq!(shop.calendar.cut_off, minutes, "{time}");
    }
    for time in ["24:01", "25:00", "12:60", "9:05", "12:5", "12", "12:00:00", "+1:00", "١٢:٠٠", ""] {
        let told = only_mistake("\"14:00\"", &format!("\"{time}\""));
        assert!(told.contains("is no time of the day"), "{told}");
    }
}

#[test]
fn each_shape_asks_for_its_own_measure_within_its_limits() {
    // derived: bosun-25 hides 12.5 mm of a drop of 200; at least 1 mm is left of what is seen
    for (shape, key, least, most) in [
        ("blunt", "foot_mm", "1 mm", "149 mm"),
        ("swallowtail", "notch_mm", "1 mm", "186.5 mm"),
        ("shield", "shoulder_mm", "13.5 mm", "199 mm"),
        ("scallop", "rise_mm", "1 mm", "75 mm"),
    ] {
        let with = |value: &str| {
            let old = SALTMERE_LOFT.find("shape = \"blunt\"").unwrap();
            let (before, after) = SALTMERE_LOFT.split_at(old);
            let after = after.replacen("shape = \"blunt\"", &format!("shape = \"{shape}\""), 1);
            format!("{before}{}", after.replacen("foot_mm = 60", value, 1))
        };
        for end in [least, most] {
            assert!(read(&with(&format!("{key} = \"{end}\""))).is_ok(), "{shape} with {key} of {end}");
        }
        for beyond in ["0.999", "200"] {
            let told = read(&with(&format!("{key} = {beyond}"))).unwrap_err();
            assert_eq!(told.len(), 1, "{told:?}");
            let form = format!("{beyond} is out of range: write a length from {least} to {most}");
            assert!(told[0].message.contains(&form), "{told:?} has no {form}");
        }
        let told = read(&with("")).unwrap_err();
        assert!(told.len() == 1 && told[0].path == format!("designs[5].{key}"), "{told:?}");
    }
    let told = only_mistake("shape = \"triangle\"", "shape = \"triangle\"\nrise_mm = 5");
    assert!(told.contains("rise_mm: 5 is a measure of the shape \"scallop\", and this one is"), "{told}");
}

#[test]
fn webs_and_cloths_are_not_taken_for_each_other() {
    for (old, new, text) in [
        ("fabric = \"sail-end\"", "fabric = \"gull-web\"", "letters.fabric: \"gull-web\" is a web"),
        ("web = \"gull-web\"", "web = \"kelp\"", "letters.web: \"kelp\" is a cloth"),
        ("cut_from = \"kelp\"", "cut_from = \"gull-web\"", "bindings[4].cut_from: \"gull-web\" is a web"),
        ("[\"sail-end\", \"ebb-stripe\"]", "[\"gull-web\"]", "designs[9].fabrics[0]: \"gull-web\" is a web"),
        ("cut_from = \"kelp\"", "cut_from = \"kelb\"", "did you mean \"kelp\"?"),
    ] {
        let told = only_mistake(old, new);
        assert!(told.contains(text), "{told} has no {text}");
    }
    let found = read(&demo_with("role = \"web\"\n", "")).unwrap_err();
    let paths: Vec<&str> = found.iter().map(|mistake| mistake.path.as_str()).collect();
    assert_eq!(paths, ["letters.web", "methods[4].web"], "a cloth unless it says otherwise");
    let told = only_mistake("lays = [\"flat\"]", "lays = [\"flat\"]\nweb = \"gull-web\"");
    assert!(told.contains("methods[0].web: \"gull-web\" fuses two layers"), "{told}");
}

#[test]
fn cloth_is_as_wide_as_washing_leaves_it() {
    // 560 mm less 40 % are 336 mm
    let shrunk = |width: &str| {
        let old = "usable_width_mm = 560\ndirection = \"two-way\"\nprice_per_metre = \"8.60\"";
        demo_with(old, &old.replace("560", &format!("{width}\nshrink_across_percent = 40")))
    };
    assert!(read(&shrunk("560")).is_ok());
    let told = read(&shrunk("330")).unwrap_err();
    assert_eq!(told.len(), 1, "{told:?}");
    assert!(told[0].message.contains("can be used 198 mm wide and the pennant takes 200 mm"), "{told:?}");
    let told = only_mistake("raw_mm = 50", "raw_mm = 24.999");
    assert!(told.contains("is narrower than the binding, which is 25 mm: write 25 mm or more"), "{told}");
}

#[test]
fn addresses_may_be_longer_than_names() {
    let postal = "postal_address = \"Saltmere Loft, 3 Chandlery Steps, Saltmere, SX0 0SL, United Kingdom\"";
    for (length, reads) in [(80, true), (81, true), (200, true), (201, false), (0, false)] {
        let text = demo_with(postal, &format!("postal_address = \"{}\"", "a".repeat(length)));
        assert_eq!(read(&text).is_ok(), reads, "{length}");
    }
    let shop = read(&demo_with(postal, "postal_address = \"  1 Slip \"")).unwrap();
    assert_eq!(shop.maker.postal_address.as_deref(), Some("1 Slip"));
    // the leaflet prints it: nothing in it may be hidden or turn the direction of writing
    for hidden in ["\\u202e", "\\u2066", "\\u200e", "\\u061c", "\\u200b", "\\ufeff", "\\u2028", "\\n"] {
        let told = only_mistake(postal, &format!("postal_address = \"1 {hidden} Slip\""));
        assert!(told.contains("maker.postal_address") && told.contains("holds what nobody sees"), "{told}");
    }
    let told = only_mistake("warned_countries = [\"IE\", \"MT\"]", "warned_countries = [\"Ie\"]");
    assert!(told.contains("maker.warned_countries[0]: \"Ie\" is not that: write the two capital"), "{told}");
}

#[test]
fn bags_are_measured_round_and_through() {
    for (old, new, reads) in [
        ("bag_opening_mm = 500", "bag_opening_mm = \"14 in\"", true),
        ("bag_opening_mm = 500", "bag_opening_mm = 0.999", false),
        ("bag_opening_mm = 500", "bag_opening_mm = 10000.001", false),
        ("bag_film_mm = 0.06", "bag_film_mm = 0.001", true),
        ("bag_film_mm = 0.06", "bag_film_mm = 10.001", false),
    ] {
        assert_eq!(read(&demo_with(old, new)).is_ok(), reads, "{new}");
    }
}

#[test]
fn forces_are_read_to_a_tenth_of_a_newton() {
    // 15 lbf are 66.7 N, to the tenth (0.453 592 37 kg and 9.806 65 m/s2, exactly)
    let shop = read(&demo_with("pull_newtons = 90", "pull_newtons = 66.7")).unwrap();
    assert_eq!(shop.trimmings[0].part.pull, Some(Force::from_tenths(667)));
    for end in ["1", "1000", "999.9"] {
        assert!(read(&demo_with("pull_newtons = 90", &format!("pull_newtons = {end}"))).is_ok(), "{end}");
    }
    for (value, fault) in [
        ("66.75", "66.75 has more than 1 decimal"),
        ("0.9", "0.9 is out of range: write a force from 1 N to 1000 N"),
        ("1000.1", "1000.1 is out of range"),
        ("\"90\"", "is not a number in plain digits"),
    ] {
        let told = only_mistake("pull_newtons = 90", &format!("pull_newtons = {value}"));
        assert!(told.contains(fault), "{told} has no {fault}");
    }
}

#[test]
fn a_filling_has_seams_and_a_cord_its_thickness() {
    let filled = |value: &str| demo_with("filled = false", &format!("filled = true\n{value}"));
    let seam = |text: &str| read(text).unwrap().designs[0].filling.map(|filling| filling.seam);
    assert_eq!(seam(&filled("seam_newtons = 70")), Some(Some(Force::from_newtons(70))));
    assert_eq!(seam(&filled("")), Some(None), "not tested");
    let told = only_mistake("filled = false", "filled = false\nseam_newtons = 70");
    assert!(told.contains("designs[0].seam_newtons: 70 is of a design with filled pennants"), "{told}");
    let told = only_mistake("filled = false", "filled = true\nseam_newtons = 0.9");
    assert!(told.contains("designs[0].seam_newtons: 0.9 is out of range"), "{told}");
    for (old, new, text) in [
        ("cord_mm = 4\n", "", "bindings[5].cord_mm: is missing: write a length from 0.1 mm to 50 mm"),
        (
            "cord_mm = 4\n",
            "cord_mm = 4\nstretch_percent = 5\n",
            "bindings[5].stretch_percent: 5 is of an elastic",
        ),
        ("stretch_percent = 80", "", "bindings[6].stretch_percent: is missing"),
        (
            "stretch_percent = 80",
            "stretch_percent = 0.999",
            "0.999 is out of range: write a share from 1 to 1000",
        ),
        (
            "cord = \"tape\"",
            "cord = \"tape\"\ncord_mm = 2",
            "bindings[0].cord_mm: 2 is of a round cord or an elastic",
        ),
        ("cord = \"tape\"", "cord = \"rope\"", "bindings[0].cord: \"rope\" is not known"),
        ("cord_mm = 1.6", "cord_mm = 0.099", "bindings[6].cord_mm: 0.099 is out of range"),
    ] {
        let told = only_mistake(old, new);
        assert!(told.contains(text), "{told} has no {text}");
    }
}
