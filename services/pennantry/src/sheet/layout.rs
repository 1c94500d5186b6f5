//! Where the pennants sit: the drawing, its figures, the marks.

use pennantry_contract::v1;
use pennantry_measure::Length;

use super::Style;
use super::drawing::{self, Keys};
use super::page::{Page, Side};

/// The section.
pub fn write(page: &mut Page, quote: &v1::Quote, style: Style) {
    let Some(layout) = &quote.layout else { return };
    page.heading("LAYOUT");
    let keys = Keys::of(quote);
    draw(page, quote, &keys, style);
    figures(page, layout, style);
    if let Some(hang) = &layout.hang {
        hangs(page, hang, style);
    }
    for other in &layout.alternatives {
        let mm = |mm| style.unit.shown(mm);
        page.line(&format!(
            "or {} pennants: gap {}, flagged {}, tails {}",
            other.pennant_count,
            mm(other.gap_mm),
            mm(other.flagged_mm),
            mm(other.tail_mm)
        ));
    }
    if let Some(positions) = &layout.positions {
        page.heading("MARKS");
        marks(page, layout, positions, &keys, style);
    }
}

fn draw(page: &mut Page, quote: &v1::Quote, keys: &Keys, style: Style) {
    let Some(drawing) = drawing::draw(quote, keys) else {
        page.line("not drawn: the answer does not tell a shape and lengths that can be");
        return;
    };
    for line in &drawing.lines {
        page.drawn(line);
    }
    let scale = style.unit.length(Length::from_um(drawing.frame.scale_um));
    let cut = if drawing.frame.breaks.is_empty() { "" } else { "; not across a break ~" };
    page.line(&format!("one column is {scale}, one row two columns{cut}"));
    let mut told = keys.told();
    if drawing.unlisted {
        told.push(". not listed which".to_owned());
    }
    page.line(&told.join(", "));
    if !drawing.frame.breaks.is_empty() {
        left_to_right(page, quote, keys);
    }
}

/// What a break may leave out: every fabric in order, and every letter.
fn left_to_right(page: &mut Page, quote: &v1::Quote, keys: &Keys) {
    let Some(positions) = quote.layout.as_ref().and_then(|layout| layout.positions.as_ref()) else { return };
    let fabrics: String = positions.marks.iter().map(|mark| keys.letter(&mark.fabric_code)).collect();
    if !fabrics.is_empty() {
        page.line(&format!("all from the left: {fabrics}"));
    }
    if positions.marks.iter().any(|mark| !mark.letter.is_empty()) {
        let letter =
            |mark: &v1::Mark| if mark.letter.is_empty() { "-".to_owned() } else { mark.letter.clone() };
        let letters: String = positions.marks.iter().map(letter).collect();
        page.line(&format!("letters, - for none: {letters}"));
    }
}

fn figures(page: &mut Page, layout: &v1::Layout, style: Style) {
    let mm = |mm| style.unit.shown(mm);
    let size = |width, drop| format!("{} × {}", mm(width), mm(drop));
    // what is seen is what the binding leaves free
    page.pairs(&[
        ("pennant", size(layout.top_width_mm, layout.top_drop_mm)),
        ("seen size", size(layout.visible_width_mm, layout.visible_drop_mm)),
        ("gap", mm(layout.gap_mm)),
        ("seen gap", mm(layout.visible_gap_mm)),
        ("flagged length", mm(layout.flagged_mm)),
        ("seen flagged", mm(layout.visible_flagged_mm)),
        ("overall length", mm(layout.overall_mm)),
        ("may be off by", format!("± {}", mm(layout.tolerance_mm))),
        ("binding cut", mm(layout.binding_cut_mm)),
        ("each tail", mm(layout.tail_mm)),
    ]);
}

fn hangs(page: &mut Page, hang: &v1::HangLayout, style: Style) {
    let mm = |mm| style.unit.shown(mm);
    page.line(&format!(
        "hangs along a curve of {}, {} for each knot, lowest tip {} below the hooks at most",
        mm(hang.curve_mm),
        mm(hang.knot_mm),
        mm(hang.lowest_tip_mm)
    ));
    for hook in &hang.hooks {
        let place = if hook.in_gap { "in a gap" } else { "behind a pennant" };
        page.line(&format!(
            "hook {} from the middle, {place}, {} from equal division",
            mm(hook.at_mm),
            mm(hook.shift_mm)
        ));
    }
}

fn marks(page: &mut Page, layout: &v1::Layout, positions: &v1::Positions, keys: &Keys, style: Style) {
    let mm = |mm| style.unit.shown(mm);
    let grain = mm(positions.grain_mm);
    page.line(&format!("pitch {}; each mark by itself to the nearest {grain}", mm(positions.pitch_mm)));
    let numbered: Vec<(u32, &v1::Mark)> = if style.marks && !positions.marks.is_empty() {
        (1..).zip(&positions.marks).collect()
    } else {
        let last = positions.last.iter().map(|mark| (layout.pennant_count, mark));
        positions.first.iter().map(|mark| (1, mark)).chain(last.filter(|(number, _)| *number > 1)).collect()
    };
    let mut rows = vec![
        ["", "from cut end", "", "from middle", "", ""].map(str::to_owned).to_vec(),
        ["", "left", "right", "left", "right", "fabric"].map(str::to_owned).to_vec(),
    ];
    for (number, mark) in numbered {
        let mut cloth = format!("{} {}", keys.letter(&mark.fabric_code), mark.fabric_code);
        if !mark.letter.is_empty() {
            cloth = format!("{cloth}, letter {}", mark.letter);
        }
        rows.push(vec![
            number.to_string(),
            mm(mark.left_from_end_mm),
            mm(mark.right_from_end_mm),
            mm(mark.left_mm),
            mm(mark.right_mm),
            cloth,
        ]);
    }
    let right = Side::Right;
    page.table(&[right, right, right, right, right, Side::Left], &rows);
    match (style.marks, positions.marks.len()) {
        (true, 0) => page.line("the answer lists no more marks than these"),
        (false, listed) if listed > 2 => page.line(&format!("all {listed} with --marks")),
        _ => {}
    }
}
