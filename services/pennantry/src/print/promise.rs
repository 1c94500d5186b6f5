//! Promises that fall short or are good again, and what would make them good.

use pennantry_contract::v1;

use super::{Look, or_dash};
use crate::sheet::page::Page;
use crate::typed::amount::{is_some, told};

/// The sections; nothing where no promise is touched.
pub fn changes(page: &mut Page, promises: &[v1::PromiseChange], proposals: &[v1::Proposal], look: &Look) {
    let short = |change: &&v1::PromiseChange| is_some(change.missing.as_ref());
    if promises.iter().any(|change| short(&change)) {
        page.heading("FALLS SHORT");
    }
    for change in promises.iter().filter(short) {
        let (missing, before) = amounts(change, look);
        page.line(&format!(
            "{}: {missing} of {} is missing on {}; before, {before}",
            change.reservation_id, change.code, change.piece_id
        ));
        let mut others =
            proposals.iter().filter(|other| other.reservation_id == change.reservation_id).peekable();
        if others.peek().is_none() {
            page.below("no other piece on the shelf would make it good");
            continue;
        }
        for other in others {
            let lot = if other.same_lot { "the same lot" } else { "another lot" };
            let longest = told(other.longest.as_ref(), look.unit);
            page.below(&format!(
                "{} would do, {lot} {}, up to {longest} in one cut",
                other.piece_id,
                or_dash(&other.lot)
            ));
        }
        page.below(&format!("plan it anew with: pennantry amend {}", change.reservation_id));
    }
    if promises.iter().any(|change| !short(&change)) {
        page.heading("GOOD AGAIN");
    }
    for change in promises.iter().filter(|change| !short(change)) {
        let (_, before) = amounts(change, look);
        page.line(&format!(
            "{}: nothing of {} is missing on {} any longer; before, {before}",
            change.reservation_id, change.code, change.piece_id
        ));
    }
}

fn amounts(change: &v1::PromiseChange, look: &Look) -> (String, String) {
    (told(change.missing.as_ref(), look.unit), told(change.missing_before.as_ref(), look.unit))
}
