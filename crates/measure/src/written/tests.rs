use proptest::prelude::*;

use super::*;

#[track_caller]
fn reads(text: &str, um: i64) {
    assert_eq!(length(text), Ok(Length::from_um(um)), "{text}");
}

#[track_caller]
fn refuses(text: &str, message: &str) {
    match length(text) {
        Ok(length) => panic!("{text:?} reads as {length}"),
        Err(error) => assert_eq!(error.to_string(), message, "{text:?}"),
    }
}

#[test]
fn metric_lengths_are_read() {
    for text in
        ["2500", "2500 mm", "2500mm", "250 cm", "2.5 m", "2,5 m", "2.50 m", "2.5M", "2500,0", " 2.5 metres "]
    {
        reads(text, 2_500_000);
    }
    reads("20 mm", 20_000);
    reads("0.001 mm", 1);
    reads(".5 mm", 500);
    reads("0,125 m", 125_000);
    reads("1/3 m", 333_333);
    reads("2/3 m", 666_667);
    reads("2 m 50 cm", 2_500_000);
    reads("1 m 2 cm 3.5 mm", 1_023_500);
    reads("0", 0);
    reads("-0 mm", 0);
}

/// 1 in = 25.4 mm exactly: international yard and pound agreement, 1959.
#[test]
fn inches_feet_and_yards_are_exact() {
    for text in ["7 in", "7in", "7 In.", "7 inches", "7\"", "7\u{2033}", "7''", "7\u{2032}\u{2032}"] {
        reads(text, 177_800);
    }
    for text in [
        "7 1/2 in",
        "7-1/2 in",
        "7 1/2\"",
        "7½ in",
        "7 ½ in",
        "7½″",
        "7.5 in",
        "7,5 in",
        "15/2 in",
        "7 1⁄2 in",
    ] {
        reads(text, 190_500);
    }
    reads("1 in", 25_400);
    reads("1 ft", 304_800);
    reads("1 yd", 914_400);
    reads("5 yd", 4_572_000);
    reads("5 yards", 4_572_000);
    for text in ["3 ft 4 1/2 in", "3′ 4½″", "3'4.5\"", "3 feet 4-1/2 inches", "1 yd 4 1/2 in"] {
        reads(text, 1_028_700);
    }
    reads("1 yd 2 ft 3 in", 914_400 + 609_600 + 76_200);
    // a width over all of 8 ft 2 27/64 in, in 64ths
    reads("98 27/64 in", 2_499_916);
    for (one, um) in
        [("½", 12_700), ("¼", 6_350), ("¾", 19_050), ("⅛", 3_175), ("⅜", 9_525), ("⅝", 15_875), ("⅞", 22_225)]
    {
        reads(&format!("{one} in"), um);
    }
    reads("⅓ yd", 304_800);
    reads("⅔ yd", 609_600);
}

#[test]
fn a_step_of_a_micrometre_or_more_is_rounded_to_the_nearest_half_up() {
    reads("1/16 in", 1_588); // 1 587.5
    reads("1/32 in", 794); // 793.75
    reads("1/64 in", 397); // 396.875
    reads("-1/16 in", -1_588);
    reads("0.001 in", 25); // 25.4
    reads("0.0001 in", 3); // 2.54
    // each 64th is within half a micrometre, and 64 of them are an inch
    for n in 1..64_i64 {
        let um = length(&format!("{n}/64 in")).expect("a 64th").um();
        assert!((um * 64 - n * 25_400).abs() <= 32, "{n}/64");
    }
}

#[test]
fn spaces_of_every_kind_part_digits_in_threes_and_units() {
    for space in [' ', '\u{a0}', '\u{2009}', '\u{202f}'] {
        reads(&format!("2{space}500{space}mm"), 2_500_000);
        reads(&format!("{space}7{space}1/2{space}in{space}"), 190_500);
        reads(&format!("-2{space}500"), -2_500_000);
    }
    reads("2 000 000 m", 2_000_000_000_000);
    reads("1 250.5 mm", 1_250_500);
    // a fraction stays a fraction
    reads("7 500/1000 in", 190_500);
}

#[test]
fn a_minus_stands_in_front_of_all_of_it() {
    reads("-20 mm", -20_000);
    reads("\u{2212}20 mm", -20_000);
    reads("- 20", -20_000);
    reads("-3 ft 4 1/2 in", -1_028_700);
    for text in ["--5", "5 m - 3 cm", "3 ft -4 in", "7 - 1/2 in", "5-"] {
        let within =
            format!("{text:?} has a minus within: write one only in front of the whole length, or none");
        refuses(text, &within);
    }
}

#[test]
fn the_greatest_length_is_allowed_and_nothing_beyond() {
    reads("2000000 m", 2_000_000_000_000);
    reads("-2000000 m", -2_000_000_000_000);
    for text in [
        "2000000.000001 m",
        "-2000001 m",
        "9007199254740993 m",
        "-9223372036854775.808 mm",
        "99999999999999999999999999999999999999",
        "18446744073709551615 yd",
        "18446744073709551615/1 yd",
    ] {
        refuses(text, &format!("{text:?} is out of range: write -2000000 m to 2000000 m"));
    }
}

#[test]
fn what_is_finer_than_a_micrometre_is_refused() {
    for text in [
        "0.0005 mm",
        "1.2345678 m",
        "0.12345 in",
        "1/1001 mm",
        "1/99999 in",
        "1/99999999999999999999999 in",
        "0.0000000000000000000000001",
    ] {
        refuses(text, &format!("{text:?} is finer than a micrometre: write steps of 0.001 mm or more"));
    }
    // noughts at the end are no step
    reads("0.0010000 mm", 1);
    reads("5.0000000000000000000000000 mm", 5_000);
}

#[test]
fn what_is_no_length_is_refused_and_says_why() {
    refuses("", "no length is written: write one such as 2500 mm, 2.5 m or 7 1/2 in");
    refuses(" \u{2009} ", "no length is written: write one such as 2500 mm, 2.5 m or 7 1/2 in");
    refuses(&"1".repeat(41), "41 characters are too long for a length: write at most 40");
    let unit =
        |unit: &str| format!("{unit:?} is not a unit of length known here: write mm, cm, m, in, ft or yd");
    refuses("1e3", &unit("e"));
    refuses("0x10", &unit("x"));
    refuses("5 km", &unit("km"));
    refuses("5 µm", &unit("µm"));
    let missing =
        |text: &str| format!("a number is missing in {text:?}: write one before each unit, such as 2.5 m");
    for text in ["NaN", "inf", "-", "mm", "-mm", "5.", ".", "1.2.3", "1,2.5", "3 ft in", "/2 in"] {
        refuses(text, &missing(text));
    }
    let bad = |text: &str, character: char| {
        format!(
            "{text:?} holds {character:?}, which has no place in a length: write digits, a point or a comma, \
             a fraction, and mm, cm, m, in, ft or yd"
        )
    };
    refuses("1_000", &bad("1_000", '_'));
    refuses("+5", &bad("+5", '+'));
    refuses("5 mm²", &bad("5 mm²", '²'));
    refuses("٣ mm", &bad("٣ mm", '٣'));
    refuses("5\u{0}mm", &bad("5\u{0}mm", '\u{0}'));
    let muddled = |text: &str| {
        format!(
            "{text:?} holds several numbers that make no length together: write one number with its unit, or \
             whole numbers of larger units before a smaller one of the same kind, such as 3 ft 4 1/2 in"
        )
    };
    for text in [
        "3 4 m",
        "12 34",
        "2 5000",
        "2  500",
        "4 in 3 ft",
        "3 ft 3 ft",
        "1.5 ft 3 in",
        "1 m 3 in",
        "5'6",
        "5 5'",
        "2 m 50",
    ] {
        refuses(text, &muddled(text));
    }
    refuses("2,500 m", "\"2,500\" can be read as 2500 or as 2.5: write 2500 or 2.5");
    refuses("12,000", "\"12,000\" can be read as 12000 or as 12: write 12000 or 12");
    let fraction = |text: &str| {
        format!(
            "the fraction in {text:?} cannot be read: write whole numbers above and below the line, not 0 below \
             it, and after a whole number a fraction below one, such as 7 1/2 in"
        )
    };
    for text in
        ["1/0 in", "0/0 in", "1/", "1/2/3 in", "1/2.5 in", "7 3/2 in", "7.5 1/2 in", "7.5/2 in", "7.5½ in"]
    {
        refuses(text, &fraction(text));
    }
    for text in ["7 1/2", "½", "½ ½ in"] {
        refuses(
            text,
            &format!(
                "the fraction in {text:?} has no unit: write one of mm, cm, m, in, ft or yd, such as 7 1/2 in"
            ),
        );
    }
}

#[test]
fn an_error_is_an_error_of_the_standard_library() {
    let error: Box<dyn std::error::Error> = Box::new(length("").expect_err("empty"));
    assert!(error.source().is_none());
}

proptest! {
    #[test]
    fn no_text_panics_and_what_is_read_is_in_range(text in "\\PC{0,60}") {
        if let Ok(length) = length(&text) {
            prop_assert!(length.abs() <= MOST);
        }
    }

    #[test]
    fn no_text_of_likely_characters_panics(text in "[0-9 .,/½¼'\"′″a-z\u{a0}\u{2009}_+-]{0,41}") {
        if let Ok(length) = length(&text) {
            prop_assert!(length.abs() <= MOST);
        }
    }

    #[test]
    fn no_almost_length_panics(
        text in "[-−]?[0-9]{0,22}[ .,/-]?[0-9]{0,20}[ /½]?[0-9]{0,3} ?(mm|cm|m|in|ft|yd|'|\")?( [0-9]{0,3} ?(in|cm))?",
    ) {
        if let Ok(length) = length(&text) {
            prop_assert!(length.abs() <= MOST);
        }
    }

    #[test]
    fn what_a_length_shows_is_read_back(um in -2_000_000_000_000_i64..=2_000_000_000_000) {
        let shown = Length::from_um(um);
        prop_assert_eq!(length(&shown.to_string()), Ok(shown));
    }

    #[test]
    fn sixty_fourths_are_the_nearest_micrometre(whole in 0_i64..=1_000_000, n in 1_i64..64) {
        let exact_64 = (whole * 64 + n) * 25_400;
        let read = length(&format!("{whole} {n}/64 in")).expect("inches").um();
        // nearest, and a half up: -32 < 64 read - exact <= 32
        let over = 64 * read - exact_64;
        prop_assert!(-32 < over && over <= 32);
        prop_assert_eq!(length(&format!("-{whole}-{n}/64\"")).expect("below nought").um(), -read);
    }
}
