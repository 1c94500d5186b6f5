//! Who keeps what of a piece.
//!
//! Flaws part a piece into stretches. Grants fit where, laid the largest first, each into the
//! shortest stretch that takes it whole, all of them find a place. Where they do not, in order
//! of rank each keeps the most with which it and those above it fit. Then, the highest rank
//! first, a line that is short gets the most with which all of them fit.

use pennantry_ledger::rules::{Amount, At, Piece, PieceId, ReservationId, State};

use super::{Broken, Model};

/// A line that stands on a piece: whose, which, and how it ranks.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
struct Standing {
    rank: (u8, At, ReservationId, u32),
    place: usize,
}

/// Clear lengths of a piece between its flaws, when so much lies on it.
fn clear_lengths(label: &Piece, left: i64) -> Vec<i64> {
    let mut ends = vec![0];
    for flaw in &label.flaws {
        ends.push(flaw.from.um().min(left));
        ends.push(flaw.to.um().min(left));
    }
    ends.push(left);
    ends.chunks(2).map(|pair| pair[1] - pair[0]).filter(|length| *length > 0).collect()
}

/// What remains of stretches when grants are laid into them one after the other, each into the
/// shortest that takes it whole; nothing where one of them finds no place.
fn laid(mut rest: Vec<i64>, grants: &[i64]) -> Option<Vec<i64>> {
    for grant in grants.iter().filter(|grant| **grant > 0) {
        let takes = (0..rest.len()).filter(|at| rest[*at] >= *grant);
        let shortest = takes.min_by_key(|at| rest[*at])?;
        rest[shortest] -= grant;
    }
    Some(rest)
}

/// Grants, the largest first: in this order they are laid.
fn largest_first(grants: &[i64]) -> Vec<i64> {
    let mut sorted = grants.to_vec();
    sorted.sort_unstable_by(|one, other| other.cmp(one));
    sorted
}

/// The most, from one amount to another, that one more grant can be beside others with all of
/// them had in full.
///
/// Worked out for every amount at once: it parts the others into those laid before it and
/// those after; wherever it goes, what remains there is one unknown number, and each later
/// grant parts its range in at most three.
fn most(stretches: &[i64], others: &[i64], from: i64, to: i64) -> Option<i64> {
    let others = largest_first(others);
    for place in 0..=others.len() {
        let (before, after) = others.split_at(place);
        let Some(mut rest) = laid(stretches.to_vec(), before) else { continue };
        rest.sort_unstable();
        let least = after.first().map_or(from, |next| from.max(*next));
        let most = before.last().map_or(to, |last| to.min(*last));
        for at in (0..rest.len()).rev() {
            let shorter = if at > 0 { rest[at - 1] } else { 0 };
            let (least, most) = (least.max(shorter + 1), most.min(rest[at]));
            let mut elsewhere = rest.clone();
            let here = elsewhere.remove(at);
            if least <= most
                && let Some(remains) = least_rest(&elsewhere, after, here - most, here - least)
            {
                return Some(here - remains);
            }
        }
    }
    None
}

/// The least that may remain of one stretch, within a range, for all these grants to be had in
/// full from it and from other stretches.
fn least_rest(others: &[i64], grants: &[i64], from: i64, to: i64) -> Option<i64> {
    if from > to {
        return None;
    }
    let Some((grant, later)) = grants.split_first() else { return Some(from) };
    if *grant == 0 {
        return least_rest(others, later, from, to);
    }
    let other = (0..others.len()).filter(|at| others[*at] >= *grant).min_by_key(|at| others[*at]);
    let into_other = |from: i64, to: i64| {
        let mut others = others.to_vec();
        others[other?] -= grant;
        least_rest(&others, later, from, to)
    };
    let up_to = other.map_or(to, |at| to.min(others[at]));
    into_other(from, to.min(grant - 1))
        .or_else(|| Some(least_rest(others, later, from.max(*grant) - grant, up_to - grant)? + grant))
        .or_else(|| into_other(from.max(up_to + 1).max(*grant), to))
}

impl Model {
    /// Live lines on a piece that want something, the highest in rank first.
    fn standing(&self, id: &PieceId) -> Vec<Standing> {
        let mut all = Vec::new();
        for reservation in self.live() {
            let (class, since) = match reservation.state {
                State::Confirmed => (0, reservation.confirmed.expect("it was confirmed")),
                _ => (1, reservation.created),
            };
            for (place, line) in reservation.lines.iter().enumerate() {
                if line.piece == *id && line.wanted.0 > 0 {
                    all.push(Standing { rank: (class, since, reservation.id.clone(), line.number), place });
                }
            }
        }
        all.sort();
        if self.is(Broken::Rank) {
            all.reverse();
        }
        all
    }

    fn line_of(&self, standing: &Standing) -> (i64, i64) {
        let line = &self.reservations[&standing.rank.2].lines[standing.place];
        (line.granted.0, line.wanted.0)
    }

    fn grants(&self, all: &[Standing]) -> Vec<i64> {
        all.iter().map(|one| self.line_of(one).0).collect()
    }

    fn grant(&mut self, standing: &Standing, amount: i64) {
        if self.line_of(standing).0 != amount {
            self.reservation(&standing.rank.2).lines[standing.place].granted = Amount(amount);
        }
    }

    fn clear_of(&self, id: &PieceId) -> Vec<i64> {
        self.labels.get(id).map_or_else(Vec::new, |label| clear_lengths(label, self.left(id)))
    }

    /// Whether everybody can have what was granted of a piece.
    pub(super) fn all_fit(&self, id: &PieceId) -> bool {
        let grants = largest_first(&self.grants(&self.standing(id)));
        laid(self.clear_of(id), &grants).is_some()
    }

    /// The longest clear length of a piece that nobody was granted.
    pub fn longest(&self, id: &PieceId) -> i64 {
        let grants = largest_first(&self.grants(&self.standing(id)));
        laid(self.clear_of(id), &grants).and_then(|rest| rest.into_iter().max()).unwrap_or(0)
    }

    /// Takes from promises what is not there, the lowest in rank first, then gives what is
    /// free to those that are short, the highest first.
    pub(super) fn settle(&mut self, id: &PieceId) {
        let all = self.standing(id);
        let stretches = self.clear_of(id);
        if !self.all_fit(id) {
            let mut kept = Vec::new();
            for one in &all {
                let (granted, _) = self.line_of(one);
                let most = if granted > 0 { most(&stretches, &kept, 1, granted) } else { None };
                kept.push(most.unwrap_or(0));
                self.grant(one, most.unwrap_or(0));
            }
        }
        if self.is(Broken::Mend) {
            return;
        }
        for (at, one) in all.iter().enumerate() {
            let (granted, wanted) = self.line_of(one);
            if wanted > granted {
                let mut others = self.grants(&all);
                others.remove(at);
                let more = most(&stretches, &others, granted + 1, wanted);
                self.grant(one, more.unwrap_or(granted));
            }
        }
    }
}
