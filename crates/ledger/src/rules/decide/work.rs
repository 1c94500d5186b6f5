//! The working set of a command: rows as they become, and what is to be written of them.
//!
//! Amounts are moved here and nowhere else ([`Work::shift`]), each with its movement, so that the
//! movements of a piece always add up to its balance. What a line has is changed here and nowhere
//! else, too ([`Work::grant`]): what it gets comes from what is free of its piece, what it gives up
//! goes there.
//!
//! ```text
//!            Receive                 Reserve, Mend                Cut
//!  supplier ---------> free <-----------------------> held ------------> used, spoiled, kept
//!                      | ^   Release, Expire, Shorten   | Confirm          |
//!            Count,    v |                              v                  |
//!            Adjust  elsewhere   the same as held:  confirmed ------------>|
//!                      free <----------------------------------------------'
//!                                              Undo
//! ```

use std::collections::{BTreeMap, BTreeSet};

use crate::rules::roll::Drawn;
use crate::rules::settle::{self, Claim};
use crate::rules::{
    Account, Amount, At, Change, CutId, CutRow, Envelope, Event, EventKind, Flaw, Line, Movement,
    MovementKind, Order, OrderId, Outcome, Piece, PieceId, Reason, Refusal, Reservation, ReservationId, Rows,
    State,
};

/// A line by its reservation and number.
pub(super) type LineKey = (ReservationId, u32);

/// An amount that is to be moved.
#[derive(Debug, Clone)]
pub(super) struct Shift<'a> {
    pub kind: MovementKind,
    pub piece: &'a PieceId,
    pub from: Account,
    pub to: Account,
    pub amount: Amount,
    pub reservation: Option<&'a ReservationId>,
    pub cut: Option<&'a CutId>,
    pub reason: Reason,
    pub note: &'a str,
}

impl<'a> Shift<'a> {
    /// Between two accounts of a piece, with nothing more to say.
    pub fn of(
        kind: MovementKind,
        piece: &'a PieceId,
        from: Account,
        to: Account,
        amount: Amount,
    ) -> Shift<'a> {
        Shift { kind, piece, from, to, amount, reservation: None, cut: None, reason: Reason::None, note: "" }
    }
}

/// The working set.
#[derive(Debug)]
pub(super) struct Work<'a> {
    /// The instant at which is decided.
    pub now: At,
    /// Rows as they were read.
    pub rows: &'a Rows,
    /// Pieces as they become.
    pub pieces: BTreeMap<PieceId, Piece>,
    /// Reservations as they become.
    pub reservations: BTreeMap<ReservationId, Reservation>,
    /// Orders as they become.
    pub orders: BTreeMap<OrderId, Order>,
    /// What is told, but for the rows below, which are put in once they have become what they
    /// will be.
    pub outcome: Outcome,
    /// The reservation that is told of.
    pub answer: Option<ReservationId>,
    /// The pieces that are told of, each once.
    pub answer_pieces: Vec<PieceId>,
    /// The order that is told of.
    pub answer_order: Option<OrderId>,
    envelope: &'a Envelope,
    /// The shop's day that movements count for.
    pub day: i32,
    /// What was cut, or taken back, with the areas of shapes by line.
    drawn: Option<(CutRow, BTreeMap<u32, i64>)>,
    /// Cuts made or taken back.
    pub cuts: Vec<Change>,
    touched: BTreeSet<PieceId>,
    /// Pieces of which a fact is told, and before which movement the first was.
    facts: Option<(usize, BTreeSet<PieceId>)>,
    /// Movements, in order.
    pub moves: Vec<Movement>,
    /// Events, in order.
    pub events: Vec<Event>,
}

impl<'a> Work<'a> {
    /// Of a command and its rows.
    pub fn new(envelope: &'a Envelope, rows: &'a Rows, now: At) -> Work<'a> {
        Work {
            now,
            rows,
            pieces: rows.pieces.clone(),
            reservations: rows.reservations.clone(),
            orders: rows.orders.clone(),
            outcome: Outcome { at: now, ..Outcome::default() },
            answer: None,
            answer_pieces: Vec::new(),
            answer_order: None,
            envelope,
            day: envelope.day,
            drawn: None,
            cuts: Vec::new(),
            touched: BTreeSet::new(),
            facts: None,
            moves: Vec::new(),
            events: Vec::new(),
        }
    }

    /// A piece.
    pub fn piece(&self, id: &PieceId) -> Result<&Piece, Refusal> {
        self.pieces.get(id).ok_or_else(|| Refusal::NoPiece(id.clone()))
    }

    /// A reservation.
    pub fn reservation(&self, id: &ReservationId) -> Result<&Reservation, Refusal> {
        self.reservations.get(id).ok_or_else(|| Refusal::NoReservation(id.clone()))
    }

    /// A reservation, to be changed.
    pub fn reservation_mut(&mut self, id: &ReservationId) -> Result<&mut Reservation, Refusal> {
        self.reservations.get_mut(id).ok_or_else(|| Refusal::NoReservation(id.clone()))
    }

    /// A reservation that holds cloth. One whose time is over is refused as that, whether or not
    /// it was swept up yet.
    pub fn live(&self, id: &ReservationId) -> Result<&Reservation, Refusal> {
        let reservation = self.reservation(id)?;
        if reservation.state == State::Expired || reservation.is_overdue(self.now) {
            return Err(Refusal::Expired(id.clone(), reservation.expires));
        }
        if reservation.state.is_live() {
            return Ok(reservation);
        }
        Err(Refusal::NotNow(id.clone(), reservation.state))
    }

    /// A hold whose time is not over.
    pub fn held(&self, id: &ReservationId) -> Result<&Reservation, Refusal> {
        let reservation = self.live(id)?;
        match reservation.state {
            State::Held => Ok(reservation),
            other => Err(Refusal::NotNow(id.clone(), other)),
        }
    }

    /// A line, to be changed.
    pub fn line_mut(&mut self, (id, number): &LineKey) -> Option<&mut Line> {
        self.reservations.get_mut(id)?.lines.iter_mut().find(|line| line.number == *number)
    }

    /// Moves an amount. Nothing is not moved.
    pub fn shift(&mut self, shift: &Shift<'_>) {
        if !shift.amount.is_some() {
            return;
        }
        let Some(piece) = self.pieces.get_mut(shift.piece) else { return };
        for (account, amount) in [(shift.from, -shift.amount), (shift.to, shift.amount)] {
            match account {
                Account::Held => piece.held += amount,
                Account::Confirmed => piece.confirmed += amount,
                _ => {}
            }
            if account.is_on_piece() {
                piece.left += amount;
            }
        }
        self.touch(shift.piece);
        self.moves.push(Movement {
            change: self.envelope.id,
            number: number(self.moves.len()),
            at: self.now,
            day: self.day,
            late: self.day < self.envelope.day,
            actor: self.envelope.actor.clone(),
            kind: shift.kind,
            piece: shift.piece.clone(),
            from: shift.from,
            to: shift.to,
            amount: shift.amount,
            reservation: shift.reservation.cloned(),
            cut: shift.cut.cloned(),
            reason: shift.reason,
            note: shift.note.to_owned(),
        });
    }

    /// Something about a piece changed: what is free of it is looked at again.
    pub fn touch(&mut self, piece: &PieceId) {
        self.touched.insert(piece.clone());
    }

    /// What a line has of its piece from now on; the difference goes to or comes from what is free.
    pub fn grant(&mut self, key: &LineKey, granted: Amount, kind: MovementKind) {
        let Some(account) = self.reservations.get(&key.0).map(|reservation| account_of(reservation.state))
        else {
            return;
        };
        let Some(line) = self.line_mut(key) else { return };
        let (piece, more) = (line.piece.clone(), granted - line.granted);
        line.granted = granted;
        let less =
            Shift { reservation: Some(&key.0), ..Shift::of(kind, &piece, account, Account::Free, -more) };
        self.shift(&less);
        self.shift(&Shift { from: Account::Free, to: account, amount: more, ..less });
    }

    /// What a line of a hold has becomes confirmed.
    pub fn promise(&mut self, id: &ReservationId, line: &Line) {
        let (held, confirmed) = (Account::Held, Account::Confirmed);
        let moved = Shift::of(MovementKind::Confirm, &line.piece, held, confirmed, line.granted);
        self.shift(&Shift { reservation: Some(id), ..moved });
    }

    /// Ends a reservation: none of its lines wants or has anything any longer.
    pub fn end(&mut self, id: &ReservationId, state: State, kind: MovementKind) -> Result<(), Refusal> {
        for line in self.reservation(id)?.lines.clone() {
            if line.granted.is_some() {
                self.piece(&line.piece)?;
            }
            let key = (id.clone(), line.number);
            self.grant(&key, Amount::ZERO, kind);
            if let Some(line) = self.line_mut(&key) {
                line.wanted = Amount::ZERO;
            }
        }
        self.reservation_mut(id)?.state = state;
        Ok(())
    }

    /// A fact: a piece has such flaws, and holds what is moved off it or back. What that takes from
    /// promises is found out once all that the command tells is known ([`Work::settle`]): a cut in
    /// parts takes nothing from them for a flaw that its next part cuts off.
    pub fn fact(&mut self, id: &PieceId, flaws: Vec<Flaw>) {
        if let Some(piece) = self.pieces.get_mut(id) {
            piece.flaws = flaws;
        }
        let begun = self.moves.len();
        self.facts.get_or_insert_with(|| (begun, BTreeSet::new())).1.insert(id.clone());
        self.touch(id);
    }

    /// Those lowest in rank lose what does not fit into what is now so. What they lose, and what the
    /// lines that were cut give up, is moved before anything comes off a piece: at no movement is
    /// there less than is promised.
    pub fn settle(&mut self) {
        let Some((begun, pieces)) = self.facts.take() else { return };
        let told = self.moves.split_off(begun);
        let is_given_up = |movement: &Movement| movement.kind == MovementKind::Release;
        let (given_up, told): (Vec<_>, Vec<_>) = told.into_iter().partition(is_given_up);
        self.put(given_up);
        for id in pieces {
            let Some(piece) = self.pieces.get(&id) else { continue };
            let clear = settle::stretches(piece);
            let claims = self.claims(&id);
            let granted: Vec<Amount> = claims.iter().map(|(_, claim)| claim.granted).collect();
            for ((key, claim), kept) in claims.iter().zip(settle::keep(&clear, &granted)) {
                if kept < claim.granted {
                    self.grant(key, kept, MovementKind::Shorten);
                }
            }
        }
        self.put(told);
    }

    /// Movements that were made already, in their place.
    fn put(&mut self, moves: Vec<Movement>) {
        for movement in moves {
            self.moves.push(Movement { number: number(self.moves.len()), ..movement });
        }
    }

    /// Gives what is free of every piece that was touched to those that are short of it.
    pub fn mend(&mut self) {
        for id in std::mem::take(&mut self.touched) {
            let Some(piece) = self.pieces.get(&id) else { continue };
            let claims = self.claims(&id);
            if !piece.free().is_some() || claims.iter().all(|(_, claim)| claim.wanted <= claim.granted) {
                continue;
            }
            let wants: Vec<Claim> = claims.iter().map(|(_, claim)| *claim).collect();
            let granted = settle::mend(&settle::stretches(piece), &wants);
            for ((key, claim), granted) in claims.iter().zip(granted) {
                if granted > claim.granted {
                    self.grant(key, granted, MovementKind::Mend);
                }
            }
        }
        self.touched.clear();
    }

    /// What is promised of a piece, in order of rank.
    pub fn claims(&self, piece: &PieceId) -> Vec<(LineKey, Claim)> {
        let mut ranked = Vec::new();
        for reservation in self.reservations.values().filter(|reservation| reservation.state.is_live()) {
            let held = reservation.state == State::Held;
            let since = reservation.confirmed.filter(|_| !held).unwrap_or(reservation.created);
            for line in reservation.lines.iter().filter(|line| line.piece == *piece && line.wanted.is_some())
            {
                let claim = Claim { wanted: line.wanted, granted: line.granted };
                ranked.push(((held, since, reservation.id.clone(), line.number), claim));
            }
        }
        ranked.sort_by(|(one, _), (other, _)| one.cmp(other));
        ranked.into_iter().map(|((_, _, id, number), claim)| ((id, number), claim)).collect()
    }

    /// Tells of something. What it happened to is said of the answer.
    pub fn tell(&mut self, kind: EventKind) -> Told<'_> {
        self.events.push(Event {
            change: self.envelope.id,
            number: number(self.events.len()),
            at: self.now,
            actor: self.envelope.actor.clone(),
            kind,
            reservation: None,
            piece: None,
            order: None,
            amount: Amount::ZERO,
            note: String::new(),
        });
        Told(self.events.last_mut())
    }

    /// A cut was made.
    pub fn add_cut(&mut self, cut: CutRow) {
        self.cuts.push(Change::AddCut(cut.clone()));
        self.draw(&cut);
        self.outcome.cut = Some(cut);
    }

    /// A cut was taken back.
    pub fn undo_cut(&mut self, cut: CutRow) {
        self.cuts.push(Change::CutUndone(cut.id.clone()));
        self.draw(&cut);
        self.outcome.cut = Some(cut);
    }

    fn draw(&mut self, cut: &CutRow) {
        let lines = self.reservations.get(&cut.reservation).map_or(&[][..], |known| &known.lines);
        let areas = lines.iter().map(|line| (line.number, line.shape_area)).collect();
        self.drawn = Some((cut.clone(), areas));
    }

    /// What its cut took, or gave back.
    pub fn drawn(&self) -> Option<Drawn<'_>> {
        let (cut, areas) = self.drawn.as_ref()?;
        Some(Drawn { parts: &cut.parts, shape_areas: areas.clone(), day: cut.day, taken_back: cut.undone })
    }

    /// Today, as the shop counts.
    pub fn today(&self) -> i32 {
        self.envelope.day
    }

    /// A piece is told of.
    pub fn answer_piece(&mut self, piece: &PieceId) {
        if !self.answer_pieces.contains(piece) {
            self.answer_pieces.push(piece.clone());
        }
    }
}

/// An event that was just told; what it happened to is filled in.
pub(super) struct Told<'a>(Option<&'a mut Event>);

impl Told<'_> {
    /// To a reservation.
    pub fn of(self, reservation: &ReservationId) -> Self {
        self.with(|event| event.reservation = Some(reservation.clone()))
    }

    /// To a piece.
    pub fn on(self, piece: &PieceId) -> Self {
        self.with(|event| event.piece = Some(piece.clone()))
    }

    /// To an order.
    pub fn order(self, order: &OrderId) -> Self {
        self.with(|event| event.order = Some(order.clone()))
    }

    /// How much.
    pub fn amount(self, amount: Amount) -> Self {
        self.with(|event| event.amount = amount)
    }

    /// In words.
    pub fn note(self, note: &str) -> Self {
        self.with(|event| note.clone_into(&mut event.note))
    }

    fn with(mut self, change: impl FnOnce(&mut Event)) -> Self {
        if let Some(event) = self.0.as_deref_mut() {
            change(event);
        }
        self
    }
}

/// Where what a reservation has of a piece is booked.
pub(super) fn account_of(state: State) -> Account {
    if state == State::Held { Account::Held } else { Account::Confirmed }
}

fn number(len: usize) -> u32 {
    u32::try_from(len).unwrap_or(u32::MAX)
}
