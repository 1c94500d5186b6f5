//! Lines that are not TOML: told with their line, and the rest is read as far as it can be.

use super::super::{SALTMERE_LOFT, read};
use super::{demo_with, mistakes, only_mistake};

/// The line of a text in the demo.
fn line_of(text: &str) -> usize {
    1 + SALTMERE_LOFT.lines().position(|line| line.starts_with(text)).unwrap()
}

#[test]
fn a_line_that_is_not_toml_is_one_mistake() {
    for (old, new) in [
        ("name = \"Kelp\"", "name = Kelp"),
        ("name = \"Kelp\"", "name = \"Kelp"),
        ("name = \"Kelp\"", "name ="),
        ("name = \"Kelp\"", "name"),
        ("name = \"Kelp\"", "name: \"Kelp\""),
        ("name = \"Kelp\"", "name = \"Kelp\" \"Wrack\""),
        ("name = \"Kelp\"", "name = \"Kelp\\q\""),
        ("name = \"Kelp\"", "= \"Kelp\""),
        ("name = \"Kelp\"", "name = 1,5"),
        ("name = \"Kelp\"", "name = 5."),
    ] {
        let told = only_mistake(old, new);
        assert!(told.starts_with(&format!("line {}: {}", line_of(old), new)), "{new}: {told}");
        assert!(told.contains("this is not TOML") && told.contains("mend this line"), "{told}");
    }
}

#[test]
fn mistakes_on_other_lines_are_told_beside_it() {
    let text = demo_with("name = \"Kelp\"", "name = Kelp").replace("knot_mm = 120", "knot_mm = -1");
    let text = text.replace("code = \"lamp-oil\"", "code = lamp-oil");
    let lines: Vec<usize> = mistakes(&text).iter().map(|mistake| mistake.line).collect();
    assert_eq!(lines, [line_of("knot_mm"), line_of("name = \"Kelp\""), line_of("code = \"lamp-oil\"")]);
}

#[test]
fn a_key_given_twice_is_told_with_its_second_line() {
    let told = only_mistake("knot_mm = 120", "knot_mm = 120\nknot_mm = 130");
    assert!(
        told.starts_with(&format!(
            "line {}: knot_mm = 130: this name is given twice",
            line_of("knot_mm") + 1
        ))
    );
    let told = only_mistake("[cloth]", "[bench]\nknot_mm = 120\n[cloth]");
    assert!(
        told.starts_with(&format!("line {}: [bench]: this name is given twice", line_of("[cloth]"))),
        "{told}"
    );
}

#[test]
fn what_is_never_closed_is_told_alone_since_nothing_below_can_be_read() {
    for (old, new, line) in [
        ("fabrics = [\"kelp\",", "knot_mm = -1\nfabrics = [\"kelp\", [", "fabrics = [\"kelp\","),
        ("[bench]", "[bench", "[bench]"),
        ("[[fabrics]]", "[[fabrics]", "[[fabrics]]"),
    ] {
        let found = mistakes(&demo_with(old, new));
        assert_eq!(found.len(), 1, "{found:?}");
        assert!(found[0].line >= line_of(line), "{found:?}");
        assert!(found[0].message.contains("what is below it could not be read"), "{found:?}");
    }
    let found = mistakes(&demo_with("name = \"Kelp\"", "name = \"\"\"Kelp"));
    assert_eq!(found.len(), 1, "{found:?}");
}

#[test]
fn an_empty_file_misses_everything() {
    for text in ["", "\n\n", "# nothing\n", "\u{feff}"] {
        let told: Vec<String> = mistakes(text).iter().map(|mistake| mistake.path.clone()).collect();
        assert_eq!(
            told,
            [
                "shop",
                "customs",
                "bench",
                "thread",
                "cloth",
                "pricing",
                "fabrics",
                "bindings",
                "methods",
                "operations",
                "calendar",
                "people",
                "folding",
                "formats",
                "services",
                "designs"
            ],
            "{text:?}"
        );
    }
}

#[test]
fn line_ends_of_either_kind_and_a_byte_order_mark_are_read_alike() {
    let shop = read(SALTMERE_LOFT).unwrap();
    let wrong = demo_with("knot_mm = 120", "knot_mm = -1").replace("name = \"Kelp\"", "name = Kelp");
    let told = mistakes(&wrong);
    assert_eq!(told.len(), 2);
    for change in [
        |text: &str| text.replace('\n', "\r\n"),
        |text: &str| format!("\u{feff}{text}"),
        |text: &str| format!("\u{feff}{}", text.replace('\n', "\r\n")),
    ] {
        assert_eq!(read(&change(SALTMERE_LOFT)).unwrap(), shop);
        assert_eq!(mistakes(&change(&wrong)), told);
    }
}
