//! The cloth: pieces, cut sizes, lengths, and how they are cut.

use pennantry_contract::table;
use pennantry_contract::v1::{self, ClothRole, RowKind, Shape};

use super::drawing::Keys;
use super::page::{Page, Side};
use super::{Style, counted};
use crate::words;

/// The section.
pub fn write(page: &mut Page, quote: &v1::Quote, style: Style) {
    if quote.fabrics.is_empty() {
        return;
    }
    page.heading("CLOTH, for all strings");
    let keys = Keys::of(quote);
    let head = ["", "pieces", "cut size", "used", "charged", "fabric"].map(str::to_owned).to_vec();
    let rows = quote.fabrics.iter().map(|used| row(used, &keys, style));
    let right = Side::Right;
    let rows: Vec<_> = std::iter::once(head).chain(rows).collect();
    page.table(&[Side::Left, right, Side::Left, right, right, Side::Left], &rows);
    for used in &quote.fabrics {
        plan(page, used, &keys, style);
    }
}

fn key(used: &v1::FabricUse, keys: &Keys) -> String {
    match used.role() {
        ClothRole::Pennants => keys.letter(&used.fabric_code).to_string(),
        _ => String::from(" "),
    }
}

fn row(used: &v1::FabricUse, keys: &Keys, style: Style) -> Vec<String> {
    let mm = |mm| style.unit.shown(mm);
    let spares = if used.spare_count > 0 { format!(" + {}", used.spare_count) } else { String::new() };
    let role = match used.role() {
        ClothRole::Unspecified | ClothRole::Pennants => String::new(),
        ClothRole::Letters => ", for letters".to_owned(),
        ClothRole::Web => ", web".to_owned(),
    };
    vec![
        key(used, keys),
        format!("{}{spares}", used.piece_count),
        format!("{} × {}", mm(used.cut_width_mm), mm(used.cut_drop_mm)),
        mm(used.used_mm),
        mm(used.charged_mm),
        format!("{}{role}", used.fabric_code),
    ]
}

/// How one cloth is cut, in words.
fn plan(page: &mut Page, used: &v1::FabricUse, keys: &Keys, style: Style) {
    let mm = |mm| style.unit.shown(mm);
    let Some(plan) = &used.plan else { return };
    let mut parts: Vec<String> = plan.bands.iter().map(band).collect();
    if plan.room_count > 0 {
        parts.push(format!("room for {} more", plan.room_count));
    }
    let name = format!("{} {}", key(used, keys), used.fabric_code);
    page.line(&format!("{name}: {}", parts.join("; ")));
    for each in &plan.bands {
        page.below(&places(each, style));
    }
    let mut also = vec![format!("cloth {} wide", mm(plan.cloth_width_mm))];
    if let Some(lay) = &used.lay {
        let kind = words::told(&table::LAY, lay.kind).unwrap_or_else(|| "lay not told".to_owned());
        let outlines = counted(lay.outline_count, "outline", "outlines");
        also.push(format!("{kind}, {}, {outlines}", counted(lay.layer_count, "layer", "layers")));
    }
    let shape = words::told(&table::SHAPE, used.cut_shape);
    also.extend(shape.map(|shape| format!("cut as {shape}{}", detail(used, style))));
    also.push(format!(
        "{} between neighbours, {} between rows, {} for squaring",
        mm(plan.clearance_mm),
        mm(plan.row_gap_mm),
        mm(plan.squaring_mm)
    ));
    page.below(&also.join("; "));
    let mut length =
        vec![format!("no plan below {}, this one {} % above", mm(used.bound_mm), plan.above_bound_percent)];
    if let Some(bought) = &used.bought {
        length.push(format!(
            "{} bought, each gives {}",
            counted(bought.count, "piece", "pieces"),
            bought.holds
        ));
    }
    length.push(format!(
        "one more takes {} more, one fewer {} less",
        mm(used.one_more_mm),
        mm(used.one_fewer_mm)
    ));
    page.below(&length.join("; "));
    if plan.zero_tolerance {
        page.below("fills the cloth exactly: measure its width before cutting");
    }
}

/// What the cut outline has beside its width and drop.
fn detail(used: &v1::FabricUse, style: Style) -> String {
    let mm = style.unit.shown(used.cut_detail_mm);
    let detail = match used.cut_shape() {
        Shape::Blunt => format!(", foot {mm}"),
        Shape::Swallowtail => format!(", notch {mm}"),
        Shape::Shield => format!(", straight sides {mm}"),
        Shape::Scallop => format!(", rise {mm}"),
        Shape::Triangle | Shape::Rectangle | Shape::Unspecified => String::new(),
    };
    let flat = used.cut_flat_mm;
    if flat > 0.0 { format!("{detail}, points clipped {} wide", style.unit.shown(flat)) } else { detail }
}

/// Where the rows of a band lie; to half a micrometre, as the contract has it.
fn places(band: &v1::PlanBand, style: Style) -> String {
    let (mm, fine) = (|mm| style.unit.shown(mm), |mm| style.unit.fine(mm));
    let mut parts = vec![
        format!("from {} each {}", mm(band.start_mm), mm(band.row_mm)),
        format!("pitch {}", fine(band.pitch_mm)),
        format!("first piece at {}", fine(band.left_mm)),
    ];
    if band.kind() == RowKind::Facing {
        parts.push(format!("second row {} to the right", fine(band.shift_mm)));
    }
    parts.push(format!("{} of the width left over", fine(band.slack_mm)));
    parts.join(", ")
}

/// Rows that are alike: "1 row of 9, points in turn".
fn band(band: &v1::PlanBand) -> String {
    let (rows, each) = (band.row_count, band.pieces_per_row);
    match band.kind() {
        RowKind::Unspecified => format!("{} of {each}", counted(rows, "row", "rows")),
        RowKind::PlainOneWay => format!("{} of {each}, points one way", counted(rows, "row", "rows")),
        RowKind::PlainTwoWay => format!("{} of {each}, points in turn", counted(rows, "row", "rows")),
        RowKind::Facing => {
            format!("{} of {each}, feet facing", counted(rows, "pair of rows", "pairs of rows"))
        }
        RowKind::Sideways => format!("{} of {each}, on their side", counted(rows, "column", "columns")),
    }
}
