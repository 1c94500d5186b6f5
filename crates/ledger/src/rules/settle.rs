//! Who keeps what when a piece holds less than is promised, and what one cut can have.
//!
//! Flaws part a piece into clear **stretches**, and what is promised to one line must come out of
//! one stretch. Without flaws there is one stretch, and everything below is sums.
//!
//! - **Fitting.** Promises fit where they can be laid into the stretches side by side. They are laid
//!   the longest first, each into the shortest remainder that takes it; where that fails, other
//!   ways are tried, at most [`STEPS`] places and up to [`MOST_TRIED`] promises, so that the answer
//!   takes a bounded time. One promise fewer, or a shorter one, always fits where more did.
//! - **Keeping** ([`keep`]). A fact (a cut, a count, a loss, a flaw) may leave too little. Then
//!   promises are gone through in order of rank: each keeps all of what it was granted where that
//!   fits beside those before it, and otherwise gets the longest remainder. So the lowest in rank
//!   lose first. Nothing but a fact takes from a promise.
//! - **Mending** ([`mend`]). What is free goes to those that are short, in order of rank, to each as
//!   much as one stretch has for it.
//!
//! Rank, highest first: what is confirmed, the earliest confirmed first; then holds, the earliest
//! taken first; among those of one instant by the reservation's name, then by the line's number.
//! "Holds lose first, then the latest confirmed."
//!
//! ```
//! use pennantry_ledger::rules::{Amount, stretches};
//! # use pennantry_ledger::rules::{At, Class, Flaw, Material, Piece, PieceKind};
//! # use pennantry_measure::Length;
//! # let mm = |mm: i64| Amount::of_length(Length::from_mm(mm));
//! # let mut bolt = Piece {
//! #     id: "B-1".into(), kind: PieceKind::Bolt,
//! #     material: Material { class: Class::Cloth, code: "KELP".to_owned() },
//! #     lot: String::new(), width: Length::from_mm(1_400), received: mm(3_000), left: mm(3_000),
//! #     held: mm(0), confirmed: mm(0), flaws: Vec::new(), parent: None, cut: None,
//! #     location: String::new(), cost_minor: None, supplier: String::new(),
//! #     supplier_reference: String::new(), certificates: Vec::new(), order: None, at: At(0),
//! # };
//! // three metres with a flaw from 1.00 m to 1.20 m
//! bolt.flaws = vec![Flaw { from: Length::from_mm(1_000), to: Length::from_mm(1_200) }];
//! assert_eq!(stretches(&bolt), [mm(1_000), mm(1_800)]);
//! // 0.90 m goes into the shorter stretch, so that the longer one stays whole
//! let clear = pennantry_ledger::rules::clear(&bolt, [mm(900)].into_iter());
//! assert_eq!(clear, [mm(1_800), mm(100)]);
//! ```

use super::{Amount, Flaw, Piece};

/// Places tried at most before promises are taken not to fit.
pub const STEPS: u32 = 20_000;

/// Promises on a flawed piece up to which other ways than the first one are tried.
pub const MOST_TRIED: usize = 64;

/// The clear stretches of a piece, from its free end: what lies between its flaws.
pub fn stretches(piece: &Piece) -> Vec<Amount> {
    between(&piece.flaws, piece.left)
}

/// The clear stretches of so much with such flaws.
pub(super) fn between(flaws: &[Flaw], left: Amount) -> Vec<Amount> {
    let mut clear = Vec::with_capacity(flaws.len() + 1);
    let mut begins = Amount::ZERO;
    for flaw in flaws {
        clear.push((Amount::of_length(flaw.from).min(left) - begins).or_none());
        begins = begins.max(Amount::of_length(flaw.to));
    }
    clear.push((left - begins).or_none());
    clear
}

/// Clear lengths of a piece that are left beside what is promised of it, the longest first:
/// each is what one cut can have.
///
/// Where the promises do not fit, each that fits nowhere takes of the longest remainder.
pub fn clear(piece: &Piece, promised: impl Iterator<Item = Amount>) -> Vec<Amount> {
    let promised: Vec<Amount> = promised.collect();
    remainders(&stretches(piece), &promised)
}

/// What is left of stretches beside promises, the longest first.
pub(super) fn remainders(stretches: &[Amount], promised: &[Amount]) -> Vec<Amount> {
    let mut left = fit(stretches, promised).unwrap_or_else(|| lay(stretches, promised).0);
    left.retain(|length| length.is_some());
    left.sort_unstable_by(|one, other| other.cmp(one));
    left
}

/// What is left of each stretch once promises are laid into them; none where they do not fit.
pub(super) fn fit(stretches: &[Amount], promised: &[Amount]) -> Option<Vec<Amount>> {
    if promised.iter().copied().sum::<Amount>() > stretches.iter().copied().sum() {
        return None;
    }
    let (left, whole) = lay(stretches, promised);
    if whole {
        return Some(left);
    }
    if stretches.len() < 2 || promised.len() > MOST_TRIED {
        return None;
    }
    let mut room = stretches.to_vec();
    let mut steps = STEPS;
    search(&mut room, &longest_first(promised), &mut steps).then_some(room)
}

/// What each may keep of what it was granted, in order of rank.
pub(super) fn keep(stretches: &[Amount], granted: &[Amount]) -> Vec<Amount> {
    if fit(stretches, granted).is_some() {
        return granted.to_vec();
    }
    let mut kept: Vec<Amount> = Vec::with_capacity(granted.len());
    for &wanted in granted {
        let longest = longest_beside(stretches, &kept);
        kept.push(wanted);
        if fit(stretches, &kept).is_none() {
            kept.pop();
            kept.push(wanted.min(longest));
        }
    }
    kept
}

/// What a line wants to have, and what it has.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Claim {
    /// Wanted.
    pub wanted: Amount,
    /// Granted.
    pub granted: Amount,
}

/// What each is granted once what is free has gone to those that are short, in order of rank.
pub(super) fn mend(stretches: &[Amount], claims: &[Claim]) -> Vec<Amount> {
    let mut granted: Vec<Amount> = claims.iter().map(|claim| claim.granted).collect();
    for (place, claim) in claims.iter().enumerate() {
        if claim.wanted <= claim.granted {
            continue;
        }
        let mut with = granted.clone();
        let mut others = granted.clone();
        others.remove(place);
        if let Some(here) = with.get_mut(place) {
            *here = claim.wanted;
        }
        if fit(stretches, &with).is_some() {
            granted = with;
        } else if fit(stretches, &others).is_some()
            && let Some(here) = granted.get_mut(place)
        {
            *here = claim.granted.max(claim.wanted.min(longest_beside(stretches, &others)));
        }
    }
    granted
}

/// The longest length that is left beside promises.
pub(super) fn longest_beside(stretches: &[Amount], promised: &[Amount]) -> Amount {
    remainders(stretches, promised).first().copied().unwrap_or_default()
}

/// Lays promises the longest first, each into the shortest remainder that takes it, and says
/// whether each went in whole; one that does not takes of the longest.
fn lay(stretches: &[Amount], promised: &[Amount]) -> (Vec<Amount>, bool) {
    let mut room = stretches.to_vec();
    let mut whole = true;
    for amount in longest_first(promised) {
        let takes = room.iter_mut().filter(|length| **length >= amount).min();
        if let Some(length) = takes {
            *length -= amount;
        } else {
            whole = false;
            if let Some(length) = room.iter_mut().max() {
                *length = Amount::ZERO;
            }
        }
    }
    (room, whole)
}

/// Tries every remainder for each promise, the shortest first; those of one length are as good
/// as each other.
fn search(room: &mut [Amount], promised: &[Amount], steps: &mut u32) -> bool {
    let Some((&amount, rest)) = promised.split_first() else { return true };
    let mut order: Vec<(Amount, usize)> = room
        .iter()
        .enumerate()
        .map(|(place, length)| (*length, place))
        .filter(|(l, _)| *l >= amount)
        .collect();
    order.sort_unstable();
    order.dedup_by_key(|(length, _)| *length);
    for (length, place) in order {
        if *steps == 0 {
            return false;
        }
        *steps -= 1;
        if let Some(here) = room.get_mut(place) {
            *here = length - amount;
        }
        if search(room, rest, steps) {
            return true;
        }
        if let Some(here) = room.get_mut(place) {
            *here = length;
        }
    }
    false
}

fn longest_first(promised: &[Amount]) -> Vec<Amount> {
    let mut order: Vec<Amount> = promised.iter().copied().filter(|amount| amount.is_some()).collect();
    order.sort_unstable_by(|one, other| other.cmp(one));
    order
}
