//! The tables of lays and of washing, read and worked out.

use super::super::super::*;
use crate::fixture::{order, shop};
use crate::outline::Finished;
use crate::shop::{Lay, Repeat, Shape, Sold};
use crate::table::{length_um, millionths, rows};

const CLOTH: &str = include_str!("../../../../tables/cloth.csv");
const LAY: &str = include_str!("../../../../tables/lay.csv");

#[test]
fn the_table_of_washing_and_repeats_is_met() {
    let columns = ["id", "function", "unit", "length", "other", "expected", "tolerance", "source", "grade"];
    let all = rows(CLOTH, columns);
    for [id, function, unit, length, other, expected, tolerance, source, grade] in &all {
        let read = |text: &str| Length::from_um(length_um(text, unit));
        let loss = || Percent::from_milli(millionths(other) / 1_000);
        // micrometres, or thousandths of a percent
        let (got, wanted, tolerance) = if function == "change" {
            let change = change(read(length), read(other)).expect("a length before");
            (change.milli(), millionths(expected) / 1_000, millionths(tolerance) / 1_000)
        } else {
            let got = match function.as_str() {
                "washed" => washed(read(length), loss()),
                "bought" => bought_length(read(length), loss()),
                "whole_repeats" => whole_repeats(read(length), read(other)),
                unknown => panic!("{id}: no function {unknown}"),
            };
            (got.um(), length_um(expected, unit), length_um(tolerance, unit))
        };
        assert!((got - wanted).abs() <= tolerance, "{id}: {got}, expected {wanted} within {tolerance}");
        assert!(!source.is_empty() && !grade.is_empty(), "{id}: no source");
    }
    assert_eq!(all.len(), 17, "rows of the table");
}

fn lay(text: &str) -> Lay {
    match text {
        "flat" => Lay::Flat,
        "across" => Lay::FoldedAcross,
        "along" => Lay::FoldedAlong,
        stack => Lay::Stacked(stack.strip_prefix("stack ").expect("a lay").parse().expect("layers")),
    }
}

#[test]
fn the_table_of_lays_is_met() {
    let columns = [
        "id",
        "function",
        "unit",
        "cloth",
        "length",
        "width",
        "drop",
        "shape",
        "direction",
        "lay",
        "repeat",
        "loss",
        "pieces",
        "expected",
        "source",
        "grade",
    ];
    let all = rows(LAY, columns);
    for row in &all {
        let [id, function, unit, cloth_width, length, width, drop, shape, direction, lies, ..] = row;
        let [.., repeat, loss, pieces, expected, source, grade] = row;
        let read = |text: &str| Length::from_um(length_um(text, unit));
        let mut shop = shop();
        shop.cloth.squaring = Length::ZERO;
        shop.methods[0].clearance = Length::ZERO;
        shop.methods[0].lays = vec![lay(lies)];
        let of_a_piece = matches!(function.as_str(), "holds" | "count");
        let fabric = &mut shop.fabrics[0];
        fabric.usable_width = read(cloth_width);
        fabric.direction = match direction.as_str() {
            "one" => Direction::OneWay,
            "two" => Direction::TwoWay,
            "four" => Direction::FourWay,
            other => panic!("{id}: no direction {other}"),
        };
        fabric.repeat = Repeat { across: Length::ZERO, along: read(repeat) };
        fabric.shrink_across = Percent::from_milli(millionths(loss) / 1_000);
        let step = Length::ZERO;
        fabric.sold = if of_a_piece { Sold::Pieces { length: read(length) } } else { Sold::Bolt { step } };
        let count: u32 = pieces.parse().expect("pieces");
        let finished =
            Finished { shape: Shape::Triangle, width: read(width), drop: read(drop), detail: Length::ZERO };
        let mut order = order();
        let mut hung = vec![(0, count)];
        if shape == "rectangle" {
            // letters as large as the pennant
            let letters = shop.letters.as_mut().expect("letters");
            (letters.fabric, letters.width, letters.height) = (0, Percent::WHOLE, Percent::WHOLE);
            order.letters = (0..count).map(|_| Some(String::from("A"))).collect();
            hung.clear();
        }
        let uses = cloth(&shop, &order, &finished, &hung).unwrap_or_else(|error| panic!("{id}: {error:?}"));
        let [used] = &uses[..] else { panic!("{id}: {} fabrics", uses.len()) };
        assert!(of_a_piece || used.lay == lay(lies), "{id}: {:?}", used.lay);
        let bought = || used.bought.unwrap_or_else(|| panic!("{id}: not bought in pieces"));
        let whole = |count: i64| count * 1_000_000;
        // a length in millionths of a millimetre, a count in millionths
        let (got, wanted) = match function.as_str() {
            "used" => (used.used.um() * 1_000, length_um(expected, unit) * 1_000),
            "charged" => (used.charged.um() * 1_000, length_um(expected, unit) * 1_000),
            "per_row" => (whole(used.job.per_row().into()), millionths(expected)),
            "outlines" => (whole(used.outlines.into()), millionths(expected)),
            "capacity" => {
                let outlines = i64::try_from(used.job.capacity(read(length))).expect("a count");
                let each = if used.lay == Lay::FoldedAcross { 2 } else { 1 };
                (whole(outlines * each), millionths(expected))
            }
            "holds" => (whole(bought().holds.into()), millionths(expected)),
            "count" => (whole(bought().count.into()), millionths(expected)),
            other => panic!("{id}: no function {other}"),
        };
        assert_eq!(got, wanted, "{id}");
        assert!(!source.is_empty() && !grade.is_empty(), "{id}: no source");
    }
    assert_eq!(all.len(), 46, "rows of the table");
}
