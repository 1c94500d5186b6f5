//! What must be so after every command.

use std::collections::{BTreeMap, BTreeSet};

use super::memory::Memory;
use crate::rules::settle::{fit, stretches};
use crate::rules::{
    Account, Amount, At, Class, CutPart, CutRow, DayUse, Event, EventKind, Material, Movement, MovementKind,
    PieceId, State,
};

impl Memory {
    /// Checks all of it.
    pub fn check(&self, now: At) {
        self.movements_make_balances();
        self.promises_lie_there();
        self.ended_hold_nothing();
        self.nothing_hangs_loose();
        self.names_are_told_once();
        self.days_make_what_is_on_hand();
        let _ = now;
    }

    /// What days did with a material and lot comes to what lies there, confirmed and in square
    /// micrometres too: what was used is what left the shelf.
    fn days_make_what_is_on_hand(&self) {
        let mut sums: BTreeMap<(&Material, &str), DayUse> = BTreeMap::new();
        for ((material, lot, _), of) in &self.days {
            sums.entry((material, lot)).or_default().add(of);
        }
        let mut there: BTreeMap<(&Material, &str), [i64; 3]> = BTreeMap::new();
        for piece in self.pieces.values() {
            let sum = there.entry((&piece.material, &piece.lot)).or_default();
            let area = |amount: Amount| amount.0 * piece.width.um();
            sum[0] += piece.left.0;
            sum[1] += piece.confirmed.0;
            if piece.material.class == Class::Cloth {
                // what came, less what was spoiled or went, counts, finds, and what lies there
                let of = |account| {
                    let moved = self.movements.iter().filter(|movement| movement.piece == piece.id);
                    let into = |m: &Movement| i64::from(m.to == account) - i64::from(m.from == account);
                    moved.map(|movement| into(movement) * movement.amount.0).sum::<i64>()
                };
                let gone = of(Account::Spoiled) + of(Account::Elsewhere) + of(Account::Supplier);
                sum[2] -= area(Amount(gone)) + area(piece.left);
            }
        }
        assert_eq!(sums.keys().collect::<Vec<_>>(), there.keys().collect::<Vec<_>>());
        for (key, sum) in &sums {
            assert_eq!([sum.on_hand().0, sum.promised.0, sum.used_area], there[key], "{key:?} {sum:?}");
            assert!(sum.drawn_area <= sum.used_area || sum.narrow.is_some(), "{key:?} {sum:?}");
            let undone = |change: &CutRow| change.undone;
            let cuts = self.cuts.values().filter(|cut| !undone(cut));
            let used = |part: &&CutPart| {
                let piece = &self.pieces[&part.piece];
                (&piece.material, piece.lot.as_str()) == *key && part.used().is_some()
            };
            let cuts = cuts.filter(|cut| cut.parts.iter().any(|part| used(&part))).count();
            assert_eq!(sum.cuts, i64::try_from(cuts).unwrap(), "{key:?} {sum:?}");
        }
    }

    /// Movements of a piece, added up by account.
    fn sums(&self) -> BTreeMap<&PieceId, BTreeMap<Account, Amount>> {
        let mut sums: BTreeMap<&PieceId, BTreeMap<Account, Amount>> = BTreeMap::new();
        for Movement { piece, from, to, amount, .. } in &self.movements {
            let accounts = sums.entry(piece).or_default();
            *accounts.entry(*from).or_default() -= *amount;
            *accounts.entry(*to).or_default() += *amount;
            // what is on a piece is never below nought, not in between either
            for account in [Account::Free, Account::Held, Account::Confirmed] {
                let there = accounts.get(&account).copied().unwrap_or_default();
                assert!(there >= Amount::ZERO, "{piece} {account:?} {there:?}");
            }
        }
        sums
    }

    /// I1, I2, I3, I7.
    fn movements_make_balances(&self) {
        let sums = self.sums();
        for piece in self.pieces.values() {
            let of = |account| sums[&piece.id].get(&account).copied().unwrap_or_default();
            assert_eq!(of(Account::Free), piece.free(), "{piece:?}");
            assert_eq!(of(Account::Held), piece.held, "{piece:?}");
            assert_eq!(of(Account::Confirmed), piece.confirmed, "{piece:?}");
            assert!(
                piece.held >= Amount::ZERO && piece.confirmed >= Amount::ZERO && piece.free() >= Amount::ZERO
            );
            assert!(piece.left <= Amount::MOST);
            // what came less what went is there; a remnant came out of a cut
            let came = if piece.parent.is_some() { Amount::ZERO } else { piece.received };
            assert_eq!(of(Account::Supplier), -came, "{piece:?}");
            let went = of(Account::Used) + of(Account::Spoiled) + of(Account::Kept) + of(Account::Elsewhere);
            assert_eq!(came - went, piece.left, "{piece:?}");
            assert_eq!(Amount::ZERO, Account::ALL.into_iter().map(of).sum(), "{piece:?}");
        }
    }

    /// I4, and that what is granted can be cut between flaws.
    fn promises_lie_there(&self) {
        let mut granted: BTreeMap<(&PieceId, State), Vec<Amount>> = BTreeMap::new();
        for reservation in self.reservations.values() {
            for line in &reservation.lines {
                assert!(line.granted >= Amount::ZERO && line.granted <= line.wanted, "{line:?}");
                granted.entry((&line.piece, reservation.state)).or_default().push(line.granted);
            }
        }
        for piece in self.pieces.values() {
            let of = |state| granted.get(&(&piece.id, state)).cloned().unwrap_or_default();
            assert_eq!(of(State::Held).into_iter().sum::<Amount>(), piece.held, "{piece:?}");
            assert_eq!(of(State::Confirmed).into_iter().sum::<Amount>(), piece.confirmed, "{piece:?}");
            let all = [of(State::Held), of(State::Confirmed)].concat();
            assert!(fit(&stretches(piece), &all).is_some(), "{piece:?} {all:?}");
            let mut begins = Amount::ZERO;
            for flaw in &piece.flaws {
                let (from, to) = (Amount::of_length(flaw.from), Amount::of_length(flaw.to));
                assert!(from >= begins && to > from && to <= piece.left, "{piece:?}");
                begins = to;
            }
            // nobody is short while one stretch has something for him
            for reservation in self.reservations.values().filter(|r| r.state.is_live()) {
                for line in reservation.lines.iter().filter(|l| l.piece == piece.id && l.short().is_some()) {
                    let mut more = all.clone();
                    let place = more.iter().position(|granted| *granted == line.granted).unwrap();
                    more[place] += Amount(1);
                    assert!(
                        fit(&stretches(piece), &more).is_none() || !piece.flaws.is_empty(),
                        "{piece:?} {line:?}"
                    );
                }
            }
        }
    }

    /// I5, I6.
    fn ended_hold_nothing(&self) {
        for reservation in self.reservations.values() {
            let of = |movement: &&Movement| movement.reservation.as_ref() == Some(&reservation.id);
            let mut on: BTreeMap<Account, Amount> = BTreeMap::new();
            for movement in self.movements.iter().filter(of) {
                *on.entry(movement.from).or_default() -= movement.amount;
                *on.entry(movement.to).or_default() += movement.amount;
            }
            let granted: Amount = reservation.lines.iter().map(|line| line.granted).sum();
            let (held, confirmed) = match reservation.state {
                State::Held => (granted, Amount::ZERO),
                _ => (Amount::ZERO, granted),
            };
            assert_eq!(on.get(&Account::Held).copied().unwrap_or_default(), held, "{reservation:?}");
            assert_eq!(
                on.get(&Account::Confirmed).copied().unwrap_or_default(),
                confirmed,
                "{reservation:?}"
            );
            let used: Amount = reservation.lines.iter().map(|line| line.used).sum();
            let spoiled: Amount = reservation.lines.iter().map(|line| line.spoiled).sum();
            assert_eq!(on.get(&Account::Used).copied().unwrap_or_default(), used, "{reservation:?}");
            assert_eq!(on.get(&Account::Spoiled).copied().unwrap_or_default(), spoiled, "{reservation:?}");
            if reservation.state.is_live() {
                assert!(reservation.lines.iter().any(|line| line.wanted.is_some()), "{reservation:?}");
            } else {
                let wanted: Amount = reservation.lines.iter().map(|line| line.wanted).sum();
                assert_eq!((wanted, granted), (Amount::ZERO, Amount::ZERO), "{reservation:?}");
            }
            let ends = [
                (EventKind::Released, State::Released),
                (EventKind::Expired, State::Expired),
                (EventKind::Cancelled, State::Cancelled),
                (EventKind::Superseded, State::Superseded),
            ];
            let told = |event: &&Event, kind| {
                event.reservation.as_ref() == Some(&reservation.id) && event.kind == kind
            };
            for (kind, state) in ends {
                let times = self.events.iter().filter(|event| told(event, kind)).count();
                assert_eq!(times, usize::from(reservation.state == state), "{reservation:?} {kind:?}");
            }
            let held = self.events.iter().filter(|event| told(event, EventKind::Held)).count();
            assert_eq!(held, 1, "{reservation:?}");
        }
    }

    /// Orphans.
    fn nothing_hangs_loose(&self) {
        for reservation in self.reservations.values() {
            assert!(reservation.lines.iter().all(|line| self.pieces.contains_key(&line.piece)));
            let named = reservation.supersedes.iter().chain(&reservation.superseded_by);
            assert!({ named }.all(|id| self.reservations.contains_key(id)));
            assert_eq!(reservation.superseded_by.is_some(), reservation.state == State::Superseded);
        }
        for cut in self.cuts.values() {
            let reservation = &self.reservations[&cut.reservation];
            for part in &cut.parts {
                assert!(reservation.lines.iter().any(|line| line.number == part.line));
                assert!(self.pieces.contains_key(&part.piece));
                for remnant in &part.remnants {
                    let remnant = &self.pieces[remnant];
                    assert_eq!(
                        (remnant.parent.as_ref(), remnant.cut.as_ref()),
                        (Some(&part.piece), Some(&cut.id))
                    );
                    assert!(!cut.undone || remnant.left == Amount::ZERO);
                }
            }
            let moved = self.movements.iter().filter(|m| m.cut.as_ref() == Some(&cut.id));
            let back = moved.map(|m| if m.kind == MovementKind::Undo { -m.amount } else { m.amount });
            assert_eq!(back.sum::<Amount>() == Amount::ZERO, cut.undone, "{cut:?}");
        }
        for piece in self.pieces.values() {
            assert!(piece.parent.iter().all(|parent| self.pieces.contains_key(parent)));
            assert!(piece.cut.iter().all(|cut| self.cuts.contains_key(cut)));
            assert!(piece.order.iter().all(|order| self.orders.contains_key(order)));
        }
    }

    /// I9: numbers within a change are 0, 1, 2, ...
    fn names_are_told_once(&self) {
        let mut next = BTreeMap::new();
        for movement in &self.movements {
            let number = next.entry(movement.change).or_insert(0);
            assert_eq!(movement.number, *number);
            assert!(movement.amount.is_some() && movement.from != movement.to);
            *number += 1;
        }
        let events: BTreeSet<_> = self.events.iter().map(|event| (event.change, event.number)).collect();
        assert_eq!(events.len(), self.events.len());
    }

    /// I9, I10, between two instants: what was written stays, and something is told exactly where
    /// something became different.
    pub fn follows(&self, before: &Memory) {
        assert_eq!(self.movements[..before.movements.len()], before.movements);
        assert_eq!(self.events[..before.events.len()], before.events);
        let rows = |m: &Memory| (m.pieces.clone(), m.reservations.clone(), m.cuts.clone(), m.orders.clone());
        let told = &self.events[before.events.len()..];
        if told.is_empty() {
            assert_eq!(rows(self), rows(before), "told nothing");
            assert_eq!(self.movements.len(), before.movements.len());
        }
        for (id, is) in &self.reservations {
            let was = before.reservations.get(id);
            if was != Some(is) {
                assert!(
                    told.iter().any(|event| event.reservation.as_ref() == Some(id)),
                    "{was:?} {is:?} {told:?}"
                );
            }
            // nothing but a fact makes a promise shorter
            for line in was.iter().flat_map(|was| &was.lines).filter(|_| is.state.is_live()) {
                let now = is.lines.iter().find(|now| now.number == line.number).unwrap();
                let is_fact = told.iter().any(|event| {
                    matches!(event.kind, EventKind::Adjusted | EventKind::Cut | EventKind::Undone)
                });
                assert!(now.short() <= line.short() || is_fact, "{line:?} {now:?} {told:?}");
            }
        }
    }
}
