//! An engine in memory. It loads what [`needs`] asks for and no more, writes changes one by one
//! under the constraints of the real tables, and keeps the answers to requests as bytes.

use std::collections::{BTreeMap, BTreeSet};

use crate::rules::{
    Amount, At, Change, ChangeId, Command, CutId, CutRow, DayUse, Envelope, Event, Material, Movement, Needs,
    Order, OrderId, Outcome, Piece, PieceId, Refusal, Request, Reservation, ReservationId, Rows, State,
    decide, kept, needs,
};

/// The shop's day at the beginning.
pub const DAY: i32 = 20_000;

/// Everything that is kept.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Memory {
    pub pieces: BTreeMap<PieceId, Piece>,
    pub reservations: BTreeMap<ReservationId, Reservation>,
    pub cuts: BTreeMap<CutId, CutRow>,
    /// Their names in the order in which they were written.
    pub written: Vec<CutId>,
    pub orders: BTreeMap<OrderId, Order>,
    pub movements: Vec<Movement>,
    pub events: Vec<Event>,
    pub requests: BTreeMap<(String, String), ([u8; 32], Vec<u8>)>,
    /// Roll-ups by material, lot and day.
    pub days: BTreeMap<(Material, String, i32), DayUse>,
    /// The shop's day, from [`DAY`].
    pub day: i32,
    pub changes: u64,
}

/// Why there is no answer.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Failed {
    Refused(Refusal),
    KeyReused,
}

impl Memory {
    /// Carries a command out as a request without a key.
    pub fn run(&mut self, command: Command, now: At) -> Result<Outcome, Refusal> {
        match self.apply(command, now, None) {
            Ok((outcome, _)) => Ok(outcome),
            Err(Failed::Refused(refusal)) => Err(refusal),
            Err(Failed::KeyReused) => panic!("no key was used"),
        }
    }

    /// Carries a command out, or finds that it was, which the second value says.
    pub fn apply(
        &mut self,
        command: Command,
        now: At,
        request: Option<Request>,
    ) -> Result<(Outcome, bool), Failed> {
        if let Some(request) = &request
            && let Some((body, answer)) = self.requests.get(&(request.scope.clone(), request.key.clone()))
        {
            if *body != request.body {
                return Err(Failed::KeyReused);
            }
            return Ok((kept::read(answer).expect("an answer that was kept"), true));
        }
        self.changes += 1;
        let mut id = [0; 16];
        id[8..].copy_from_slice(&self.changes.to_be_bytes());
        let envelope = Envelope {
            id: ChangeId(id),
            at: now,
            day: DAY + self.day,
            actor: "loft".to_owned(),
            request,
            command,
        };
        let rows = self.load(&needs(&envelope.command), now);
        let decision = decide(&envelope, &rows, now).map_err(Failed::Refused)?;
        assert_eq!(decide(&envelope, &rows, now).as_ref(), Ok(&decision), "the same again");
        for change in decision.changes {
            self.write(change);
        }
        if let Some(Request { scope, key, body }) = envelope.request {
            self.requests.insert((scope, key), (body, kept::keep(&decision.outcome)));
        }
        Ok((decision.outcome, false))
    }

    /// The rows of some needs, closed as [`Rows`] says.
    pub fn load(&self, needs: &Needs, now: At) -> Rows {
        let mut pieces: BTreeSet<PieceId> = needs.pieces.iter().cloned().collect();
        let mut whole: BTreeSet<ReservationId> = needs.reservations.iter().cloned().collect();
        let mut rows = Rows::default();
        for id in &needs.cuts {
            let Some(cut) = self.cuts.get(id) else { continue };
            rows.cuts.insert(id.clone(), cut.clone());
            whole.insert(cut.reservation.clone());
            for piece in cut.parts.iter().flat_map(|part| part.remnants.iter().chain([&part.piece])) {
                pieces.insert(piece.clone());
                if let Some(last) = self.last_cut(piece) {
                    rows.last_cut.insert(piece.clone(), last);
                }
            }
        }
        let mut overdue: Vec<&Reservation> =
            self.reservations.values().filter(|r| r.is_overdue(now)).collect();
        overdue.sort_by_key(|reservation| (reservation.expires, reservation.id.clone()));
        let most = usize::try_from(needs.overdue).unwrap();
        whole.extend(overdue.iter().take(most).map(|reservation| reservation.id.clone()));
        loop {
            let before = (pieces.len(), whole.len());
            for id in &whole {
                let lines = self.reservations.get(id).into_iter().flat_map(|reservation| &reservation.lines);
                pieces.extend(lines.map(|line| line.piece.clone()));
            }
            let stands =
                |r: &&&Reservation| r.lines.iter().any(|l| l.wanted.is_some() && pieces.contains(&l.piece));
            whole.extend(overdue.iter().filter(stands).map(|reservation| reservation.id.clone()));
            if before == (pieces.len(), whole.len()) {
                break;
            }
        }
        for reservation in self.reservations.values() {
            let on_one = reservation.lines.iter().any(|l| l.wanted.is_some() && pieces.contains(&l.piece));
            if whole.contains(&reservation.id) || on_one && reservation.state.is_live() {
                rows.reservations.insert(reservation.id.clone(), reservation.clone());
            }
        }
        rows.pieces =
            pieces.iter().filter_map(|id| Some((id.clone(), self.pieces.get(id)?.clone()))).collect();
        rows.orders =
            needs.orders.iter().filter_map(|id| Some((id.clone(), self.orders.get(id)?.clone()))).collect();
        let holds = self.reservations.values().filter(|reservation| {
            reservation.state == State::Held
                && reservation.expires > now
                && Some(&reservation.holder) == needs.holder.as_ref()
        });
        rows.holds = u32::try_from(holds.count()).unwrap();
        rows
    }

    fn last_cut(&self, piece: &PieceId) -> Option<CutId> {
        let stands = |id: &&CutId| {
            let cut = &self.cuts[*id];
            !cut.undone && cut.parts.iter().any(|part| part.piece == *piece)
        };
        self.written.iter().rev().find(stands).cloned()
    }

    fn write(&mut self, change: Change) {
        match change {
            Change::AddPiece(piece) => {
                assert!(piece.received.is_some() && piece.width.um() >= 0, "{piece:?}");
                assert!(self.pieces.insert(piece.id.clone(), piece).is_none());
            }
            Change::Balance { piece, was, is } => {
                let row = self.pieces.get_mut(&piece).unwrap();
                assert_eq!([row.left, row.held, row.confirmed], was);
                [row.left, row.held, row.confirmed] = is;
            }
            Change::Flaws { piece, flaws } => self.pieces.get_mut(&piece).unwrap().flaws = flaws,
            Change::Location { piece, location } => self.pieces.get_mut(&piece).unwrap().location = location,
            Change::AddReservation(reservation) => {
                assert!(self.reservations.insert(reservation.id.clone(), reservation).is_none());
            }
            Change::Head { id, was, is } => {
                let row = self.reservations.get_mut(&id).unwrap();
                assert_eq!(row.state, was);
                *row = Reservation { lines: std::mem::take(&mut row.lines), ..*is };
            }
            Change::AddLine { reservation, line } => {
                let lines = &mut self.reservations.get_mut(&reservation).unwrap().lines;
                assert!(lines.iter().all(|there| there.number != line.number));
                lines.push(line);
            }
            Change::SetLine { reservation, line } => {
                let lines = &mut self.reservations.get_mut(&reservation).unwrap().lines;
                let there = lines.iter_mut().find(|there| there.number == line.number).unwrap();
                *there = line;
            }
            Change::AddCut(cut) => {
                assert!(
                    cut.parts.iter().all(|part| part.served >= Amount::ZERO && part.used() >= Amount::ZERO)
                );
                self.written.push(cut.id.clone());
                assert!(self.cuts.insert(cut.id.clone(), cut).is_none());
            }
            Change::CutUndone(id) => {
                let cut = self.cuts.get_mut(&id).unwrap();
                assert!(!std::mem::replace(&mut cut.undone, true));
            }
            Change::AddOrder(order) => assert!(self.orders.insert(order.id.clone(), order).is_none()),
            Change::OrderState { id, state, note } => {
                let order = self.orders.get_mut(&id).unwrap();
                (order.state, order.note) = (state, note);
            }
            Change::OrderReceived { id, line, received } => {
                let lines = &mut self.orders.get_mut(&id).unwrap().lines;
                lines.iter_mut().find(|there| there.number == line).unwrap().received = received;
            }
            Change::Roll(roll) => {
                let key = (roll.material, roll.lot, roll.day);
                self.days.entry(key).or_default().add(&roll.of);
            }
            Change::Move(movement) => {
                assert!(self.pieces.contains_key(&movement.piece));
                self.movements.push(movement);
            }
            Change::Tell(event) => self.events.push(event),
        }
    }
}
