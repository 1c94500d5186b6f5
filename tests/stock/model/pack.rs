//! Who keeps what of a piece.
//!
//! Flaws part a piece into stretches. Grants are laid into them the largest first, each into the
//! shortest stretch that takes it whole; where one finds no place, the ones before it are tried
//! in longer stretches. They fit where there is a way to lay them all. Where they do not fit, in
//! order of rank each keeps what it can have beside those above it: all, where that fits, else
//! the longest that remains of laying those. Then, the highest rank first, a line that is short
//! gets what it can have beside all others.

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

/// What remains of stretches when all these grants have a place in them, the first of them
/// being laid first; nothing where there is no way to lay them. Each goes into the shortest
/// stretch that takes it whole, or, where that leaves no place for one of the later ones, into
/// the next longer one.
fn laid(rest: &[i64], grants: &[i64]) -> Option<Vec<i64>> {
    let Some((grant, later)) = grants.split_first() else { return Some(rest.to_vec()) };
    if *grant == 0 {
        return laid(rest, later);
    }
    let mut takes: Vec<usize> = (0..rest.len()).filter(|at| rest[*at] >= *grant).collect();
    takes.sort_by_key(|at| rest[*at]);
    takes.into_iter().find_map(|at| {
        let mut rest = rest.to_vec();
        rest[at] -= grant;
        laid(&rest, later)
    })
}

/// Grants, the largest first: in this order they are laid.
fn largest_first(grants: &[i64]) -> Vec<i64> {
    let mut sorted = grants.to_vec();
    sorted.sort_unstable_by(|one, other| other.cmp(one));
    sorted
}

/// What one more grant can have of stretches beside others: all that it wants where it can be
/// laid with them, else the longest that remains of laying the others.
fn beside(stretches: &[i64], others: &[i64], wanted: i64) -> i64 {
    let mut all = others.to_vec();
    all.push(wanted);
    if laid(stretches, &largest_first(&all)).is_some() {
        return wanted;
    }
    let rest = laid(stretches, &largest_first(others)).unwrap_or_default();
    rest.into_iter().max().unwrap_or(0).min(wanted)
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
        laid(&self.clear_of(id), &grants).is_some()
    }

    /// The longest clear length of a piece that nobody was granted.
    pub fn longest(&self, id: &PieceId) -> i64 {
        let grants = largest_first(&self.grants(&self.standing(id)));
        laid(&self.clear_of(id), &grants).and_then(|rest| rest.into_iter().max()).unwrap_or(0)
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
                let keeps = beside(&stretches, &kept, granted);
                kept.push(keeps);
                self.grant(one, keeps);
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
                self.grant(one, beside(&stretches, &others, wanted).max(granted));
            }
        }
    }
}
