use super::*;
use crate::shop::Construction;

const TABLE: &str = include_str!("../../../tables/layout.csv");

/// The inputs of a row: names with lengths in mm, or in inches where it says `in`.
struct Inputs<'a>(&'a str);

impl Inputs<'_> {
    fn text(&self, name: &str) -> Option<&str> {
        self.0.split(' ').filter_map(|input| input.split_once('=')).find(|(n, _)| *n == name).map(|(_, v)| v)
    }

    fn length(&self, name: &str) -> Length {
        measured(self.text(name).unwrap_or_else(|| panic!("{name} in {}", self.0)))
    }

    fn count(&self, name: &str) -> u32 {
        self.text(name).unwrap_or_else(|| panic!("{name} in {}", self.0)).parse().expect("a count")
    }

    fn order(&self) -> Order {
        let length = ["flagged", "overall", "binding"].into_iter().find(|name| self.text(name).is_some());
        let length = length.map(|name| match (name, self.length(name)) {
            ("flagged", length) => AskedLength::Flagged(length),
            ("overall", length) => AskedLength::Overall(length),
            (_, length) => AskedLength::Binding(length),
        });
        let gaps = self.text("leftover") == Some("gaps");
        Order {
            length,
            count: self.text("count").map(|_| self.count("count")),
            gap: self.text("gap").map_or(mm(20), measured),
            gap_given: self.text("gap").is_some(),
            tail: self.text("tail").map_or(mm(0), measured),
            width: self.length("width"),
            leftover: if gaps { Leftover::Gaps } else { Leftover::Tails },
            ..order()
        }
    }
}

/// Exactly, in micrometres: inputs hold nothing finer.
fn measured(text: &str) -> Length {
    let tenths = tenths(text);
    assert_eq!(tenths % 10, 0, "{text} is finer than a micrometre");
    um(tenths / 10)
}

/// Millimetres, or inches where it says `in`, in tenths of a micrometre; exact or refused.
fn tenths(text: &str) -> i64 {
    let (number, times) = match text.strip_suffix("in") {
        Some(inches) => (inches, 254),
        None => (text, 10),
    };
    let (sign, number) = number.strip_prefix('-').map_or((1, number), |rest| (-1, rest));
    let (whole, rest) = number.split_once('.').unwrap_or((number, ""));
    let fine: i64 = format!("{whole}{rest:0<4}").parse().unwrap_or_else(|_| panic!("{text}"));
    assert!(rest.len() <= 4 && fine * times % 10 == 0, "{text} is too fine");
    sign * fine * times / 10
}

/// What a row's function gives: micrometres, or a thousand for each of a count.
fn given(function: &str, inputs: &Inputs) -> i64 {
    let length = |name| inputs.length(name);
    let count = || inputs.count("count");
    let size = || Size { width: length("width"), drop: length("drop"), gap: length("gap") };
    let shop = Shop { most: mm(200_000), least: mm(50), ..shop() };
    let layout = || solve(&shop, &inputs.order()).unwrap_or_else(|found| panic!("{}: {found:?}", inputs.0));
    match function {
        "fit_count" => i64::from(fit_count(length("body"), length("width"), length("gap"))) * 1_000,
        "body_length" => body_length(count(), length("width"), length("gap")).um(),
        "exact_gap" => exact_gap(length("body"), count(), length("width")).expect("a gap").um(),
        "to_top_edge.width" => to_top_edge(size(), length("insertion")).expect("sizes").width.um(),
        "to_top_edge.gap" => to_top_edge(size(), length("insertion")).expect("sizes").gap.um(),
        "to_binding_edge.width" => to_binding_edge(size(), length("insertion")).expect("sizes").width.um(),
        "to_binding_edge.drop" => to_binding_edge(size(), length("insertion")).expect("sizes").drop.um(),
        "to_binding_edge.gap" => to_binding_edge(size(), length("insertion")).expect("sizes").gap.um(),
        "pieces" => {
            let two = inputs.text("layers") == Some("2");
            let made = if two { Construction::DoubleTurned } else { Construction::SinglePinked };
            i64::from(count() * made.layers() * inputs.count("quantity")) * 1_000
        }
        "layout.count" => i64::from(layout().count) * 1_000,
        "layout.gap" => layout().gap.um(),
        "layout.tail" => layout().tail.um(),
        "layout.overall" => layout().overall.um(),
        "layout.pitch" => layout().pitch.nearest().um(),
        other => panic!("no function {other}"),
    }
}

#[test]
fn the_table_of_layouts_is_met() {
    let mut rows = 0;
    for row in csv::Reader::from_reader(TABLE.as_bytes()).records() {
        let row = row.expect("the table reads");
        let cells: Vec<&str> = row.iter().collect();
        let [id, function, inputs, expected, tolerance, source, grade] = cells[..] else { panic!("{row:?}") };
        assert!(!source.is_empty(), "{id}: no source");
        assert!(["derived", "trade", "published"].contains(&grade), "{id}: {grade}");
        let got = given(function, &Inputs(inputs));
        let off = (10 * got - tenths(expected)).abs();
        assert!(off <= tenths(tolerance), "{id}: {got} um, not {expected}");
        rows += 1;
    }
    assert_eq!(rows, TABLE.lines().count() - 1);
}
