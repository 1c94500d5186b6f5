//! What the shelf has of it now, and what would be taken from where.

use pennantry_contract::v1;

use super::page::Page;
use super::{Style, counted};
use crate::typed::amount::{is_some, told};

/// The section.
pub fn write(page: &mut Page, quote: &v1::Quote, style: Style) {
    let Some(shelf) = &quote.shelf else { return };
    let as_of = if shelf.as_of.is_empty() { String::new() } else { format!(" as of {}", shelf.as_of) };
    page.heading(&format!("SHELF{as_of}"));
    page.line(if shelf.available { "all of it is there now" } else { "not all of it is there now" });
    if let Some(day) = &shelf.expected_date {
        page.line(&format!("all of it is expected to be there on {day}"));
    }
    for material in &shelf.uses {
        write_use(page, material, style);
    }
    if !shelf.uses.is_empty() {
        page.line("none of this is promised before it is reserved");
    }
}

fn write_use(page: &mut Page, material: &v1::ShelfUse, style: Style) {
    let mut facts = vec![format!("{} for {}", material.code, material.purpose)];
    if material.not_kept {
        facts.push("not kept in stock, so nothing is reserved of it".to_owned());
    } else if !material.available {
        facts.push("not all of it is there".to_owned());
    }
    if material.charged_mm > 0.0 {
        let (new, charged) = (style.unit.shown(material.new_mm), style.unit.shown(material.charged_mm));
        facts.push(format!("{new} off bolts, {charged} charged"));
    }
    if material.lot_count > 0 {
        facts.push(format!("from {}", counted(material.lot_count, "dye lot", "dye lots")));
    }
    page.line(&facts.join(", "));
    for take in &material.takes {
        let mut facts = vec![format!("{} of {}", told(take.quantity.as_ref(), style.unit), take.piece_id)];
        if !take.lot.is_empty() {
            facts.push(format!("lot {}", take.lot));
        }
        if take.shapes > 0 {
            facts.push(counted(take.shapes, "shape", "shapes"));
        }
        if take.remnant {
            facts.push("begun".to_owned());
        }
        page.below(&facts.join(", "));
    }
    if is_some(material.missing.as_ref()) {
        page.below(&format!("missing {}", told(material.missing.as_ref(), style.unit)));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_taken_and_what_is_missing_stand_under_their_material() {
        let length = |mm| Some(v1::Quantity { amount: Some(v1::quantity::Amount::LengthMm(mm)) });
        let take = v1::ShelfTake {
            piece_id: "K-12.1".to_owned(),
            lot: "0417".to_owned(),
            remnant: true,
            quantity: length(300.0),
            shapes: 3,
        };
        let kelp = v1::ShelfUse {
            code: "kelp".to_owned(),
            purpose: "pennants".to_owned(),
            takes: vec![take],
            missing: length(400.0),
            new_mm: 0.0,
            charged_mm: 700.0,
            lot_count: 1,
            ..v1::ShelfUse::default()
        };
        let thread = v1::ShelfUse {
            code: "thread".to_owned(),
            purpose: "seams".to_owned(),
            not_kept: true,
            ..v1::ShelfUse::default()
        };
        let shelf = v1::Shelf {
            available: false,
            as_of: "2026-11-24T10:00:00Z".to_owned(),
            expected_date: Some("2026-12-04".to_owned()),
            uses: vec![kelp, thread],
        };
        let quote = v1::Quote { shelf: Some(shelf), ..v1::Quote::default() };
        let mut page = Page::new(false);
        write(&mut page, &quote, Style::default());
        assert_eq!(
            page.finish(),
            "\
SHELF as of 2026-11-24T10:00:00Z
  not all of it is there now
  all of it is expected to be there on 2026-12-04
  kelp for pennants, not all of it is there, 0 mm off bolts, 700 mm charged, from 1 dye lot
    300 mm of K-12.1, lot 0417, 3 shapes, begun
    missing 400 mm
  thread for seams, not kept in stock, so nothing is reserved of it
  none of this is promised before it is reserved
"
        );
    }
}
