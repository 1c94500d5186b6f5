//! Who keeps what of a piece.

use pennantry_ledger::rules::{Amount, At, Piece, PieceId, ReservationId, State};

use super::{Broken, Model};

/// A line that stands on a piece: whose, which, and how it ranks.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
struct Standing {
    rank: (u8, At, ReservationId, u32),
    place: usize,
}

/// What became of grants that were laid into a piece.
struct Laid {
    /// What each got, and in which stretch it lies.
    got: Vec<(i64, Option<usize>)>,
    /// What remains of each stretch.
    rest: Vec<i64>,
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

/// Into which stretch something goes: the shortest that takes it whole, else the longest.
fn where_to(rest: &[i64], amount: i64) -> Option<usize> {
    let takes = (0..rest.len()).filter(|at| rest[*at] >= amount).min_by_key(|at| rest[*at]);
    takes.or_else(|| (0..rest.len()).max_by_key(|at| rest[*at]))
}

fn lay(mut rest: Vec<i64>, grants: &[i64]) -> Laid {
    let mut got = Vec::new();
    for grant in grants {
        let stretch = if *grant > 0 { where_to(&rest, *grant) } else { None };
        let amount = stretch.map_or(0, |at| rest[at].min(*grant));
        if let Some(at) = stretch {
            rest[at] -= amount;
        }
        got.push((amount, stretch.filter(|_| amount > 0)));
    }
    Laid { got, rest }
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

    fn laid(&self, id: &PieceId, all: &[Standing]) -> Laid {
        let lengths = self.labels.get(id).map_or_else(Vec::new, |label| clear_lengths(label, self.left(id)));
        lay(lengths, &self.grants(all))
    }

    /// Whether everybody can have what was granted of a piece.
    pub(super) fn all_fit(&self, id: &PieceId) -> bool {
        let all = self.standing(id);
        let laid = self.laid(id, &all);
        self.grants(&all).iter().zip(&laid.got).all(|(granted, (got, _))| granted == got)
    }

    /// The longest clear length of a piece that nobody was granted.
    pub fn longest(&self, id: &PieceId) -> i64 {
        let laid = self.laid(id, &self.standing(id));
        laid.rest.iter().copied().max().unwrap_or(0)
    }

    /// Takes from promises what is not there, the lowest in rank first, then gives what is
    /// free to those that are short, the highest first.
    pub(super) fn settle(&mut self, id: &PieceId) {
        let all = self.standing(id);
        let mut laid = self.laid(id, &all);
        for (one, (got, _)) in all.iter().zip(&laid.got) {
            self.grant(one, *got);
        }
        if self.is(Broken::Mend) {
            return;
        }
        for (at, one) in all.iter().enumerate() {
            let (granted, wanted) = self.line_of(one);
            if wanted <= granted {
                continue;
            }
            // its own grant taken out, it goes where all of it goes, else where most of it does
            if let Some(own) = laid.got[at].1 {
                laid.rest[own] += granted;
            }
            let Some(best) = where_to(&laid.rest, wanted) else { continue };
            let more = laid.rest[best].min(wanted);
            let (stretch, amount) =
                if more > granted { (Some(best), more) } else { (laid.got[at].1, granted) };
            if let Some(stretch) = stretch {
                laid.rest[stretch] -= amount;
            }
            self.grant(one, amount);
        }
    }
}
