//! Workings of how low a string hangs: see `pennantry_calc::child` for the formula.

use pennantry_contract::v1;

use super::sheet::{Sheet, Way, exactly};

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
    // between the hooks of a hang lies its curve, between the fixings of a string its flags
    let string = if hangs { "layout.hang.curveMm" } else { "layout.flaggedMm" };
    let root = format!("sqrt({string} * {string} - {level} * {level})");
    let drop = format!("ceil({root} / (2 * {spans})) + layout.visibleDropMm");
    let ways: [Way; 2] = ["layout.tailMm", "0"].map(|loose| {
        exactly(&format!("floor(max(understood.near.fixingHeightMm - max({loose}, {drop}), 0))"))
    });
    let source = "the fixings less the longest loose end, or less the drop of a span that is pulled at its middle and of a pennant";
    sheet.figure("child.lowestMm", "mm", source, &ways);
}
