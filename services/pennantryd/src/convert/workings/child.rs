//! Workings of how low a string hangs: see `pennantry_calc::child` for the formula.

use pennantry_contract::v1;

use super::layout::exactly;
use super::sheet::{Sheet, Way};

pub(super) fn write(sheet: &mut Sheet, answer: &v1::Quote) {
    let near = answer.understood.as_ref().and_then(|understood| understood.near.as_ref());
    let Some(near) = near else { return };
    let hangs = answer.layout.as_ref().is_some_and(|layout| layout.hang.is_some());
    let spans = match (near.fixings, hangs) {
        (Some(2..), _) => "(understood.near.fixings - 1)",
        (None, true) => "understood.hang.swagCount",
        _ => "1",
    };
    let level = match (near.span_mm, hangs) {
        (Some(_), _) => "understood.near.spanMm",
        (None, true) => "understood.hang.spanMm",
        (None, false) => "0",
    };
    let mut ways: Vec<Way> = Vec::new();
    for string in ["layout.flaggedMm", "layout.hang.curveMm"] {
        let drop = format!(
            "ceil(sqrt({string} * {string} - {level} * {level}) / (2 * {spans})) + layout.visibleDropMm"
        );
        for loose in ["layout.tailMm", "0"] {
            let lowest = format!("understood.near.fixingHeightMm - max({loose}, {drop})");
            ways.push(exactly(&format!("floor(max({lowest}, 0))")));
        }
    }
    let source = "the fixings less the longest loose end, or less the drop of a span that is pulled at its middle and of a pennant";
    sheet.figure("child.lowestMm", "mm", source, &ways);
}
