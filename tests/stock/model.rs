//! A second opinion of the stock, written from its rules in words and from nothing else.
//!
//! It shares the plain types of commands and answers with the ledger, and no line of its
//! rules. It is written in another style on purpose: what lies on a piece is not kept but
//! added up from a list of facts each time it is asked; what is held or confirmed is added up
//! from the reservations; a command is carried out on the one state in place, whatever it
//! touches is copied first, and a refusal puts the copies back.
//!
//! Where several things are wrong with a command, all of them are gathered: the ledger may
//! name whichever it sees first, but it has to be one that is so.

mod bench;
mod days;
mod holds;
mod judge;
mod pack;
mod shelf;

use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;

use pennantry_ledger::rules::{
    Amount, At, Command, CutId, CutRow, EventKind, Order, OrderId, Outcome, Piece, PieceId, Refusal,
    Reservation, ReservationId, State,
};

/// Something that changed what lies on a piece.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Fact {
    /// It came from a supplier.
    Came(i64),
    /// It was cut off another piece.
    CutOff(i64),
    /// It went back to the piece it was cut off.
    WentBack(i64),
    /// It was counted, lost or found: so much more, or less.
    Otherwise(i64),
    /// So much was cut off it, and used, spoiled, kept.
    Cut([i64; 3]),
    /// That was taken back.
    Uncut([i64; 3]),
}

impl Fact {
    fn on_the_piece(self) -> i64 {
        match self {
            Fact::Came(amount) | Fact::CutOff(amount) | Fact::Otherwise(amount) => amount,
            Fact::WentBack(amount) => -amount,
            Fact::Cut(parts) => -parts.iter().sum::<i64>(),
            Fact::Uncut(parts) => parts.iter().sum(),
        }
    }
}

/// One rule broken on purpose, to see that the comparison notices.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Broken {
    /// The latest promise keeps its cloth first.
    Rank,
    /// Holds last for ever.
    Expiry,
    /// A hold still lives at the instant at which it is over.
    Instant,
    /// What was spoiled counts as used.
    Spoiled,
    /// Nothing is given back to a promise that is short.
    Mend,
    /// Flaws stay where they are when a piece is cut.
    Flaws,
    /// A cut can be taken back whatever happened since.
    Undo,
    /// A hold superseded is let go only after the new one is taken.
    Supersede,
    /// What comes too much on an order is forgotten.
    Delivery,
    /// What is recorded late, or taken back, counts for today.
    Midnight,
    /// Ends count as spoiled.
    Ends,
    /// Narrower remnants are forgotten by the day.
    Strips,
}

impl Broken {
    /// All of them.
    pub const ALL: [Broken; 12] = [
        Broken::Rank,
        Broken::Expiry,
        Broken::Instant,
        Broken::Spoiled,
        Broken::Mend,
        Broken::Flaws,
        Broken::Undo,
        Broken::Supersede,
        Broken::Delivery,
        Broken::Midnight,
        Broken::Ends,
        Broken::Strips,
    ];
}

/// What is to be put back where a command is refused.
#[derive(Debug, Default)]
struct Copies {
    pieces: BTreeMap<PieceId, Option<Piece>>,
    facts: BTreeMap<PieceId, usize>,
    reservations: BTreeMap<ReservationId, Option<Reservation>>,
    cuts: BTreeMap<CutId, Option<CutRow>>,
    orders: BTreeMap<OrderId, Option<Order>>,
}

/// What a command should come to.
#[derive(Debug, Default)]
struct Done {
    /// Whether nothing changed, since it was so before.
    unchanged: bool,
    reservation: Option<ReservationId>,
    pieces: Vec<PieceId>,
    received: Vec<PieceId>,
    cut: Option<CutId>,
    order: Option<OrderId>,
    /// A reservation that the command itself ended, not being named first.
    ends: Option<ReservationId>,
    /// What is to be told, apart from promises shortened and mended: what, and of whom.
    told: Vec<(EventKind, String)>,
}

/// Whether a command is carried out, or everything that speaks against it.
type Verdict = Result<Done, Vec<Refusal>>;

/// The stock as it should be.
#[derive(Debug, Default)]
pub struct Model {
    /// Pieces; their balance is not kept here.
    labels: BTreeMap<PieceId, Piece>,
    facts: BTreeMap<PieceId, Vec<Fact>>,
    /// Reservations.
    pub reservations: BTreeMap<ReservationId, Reservation>,
    /// Cuts.
    pub cuts: BTreeMap<CutId, CutRow>,
    /// Names of cuts in the order in which they were recorded, refused ones among them.
    recorded: Vec<CutId>,
    /// Orders at suppliers.
    pub orders: BTreeMap<OrderId, Order>,
    /// First answers, by scope and key, with the body they were for.
    answers: BTreeMap<(String, String), ([u8; 32], Outcome)>,
    /// At least all the reservations that are live.
    maybe_live: BTreeSet<ReservationId>,
    copies: Copies,
    /// What happened on which day.
    diary: days::Diary,
    /// The shop's day of the command.
    today: i32,
    broken: Option<Broken>,
    /// Everything that was to be told so far, and is not looked up yet.
    pub told: Vec<(EventKind, String)>,
    /// How many commands were carried out, by name, and refused, by kind.
    pub tally: BTreeMap<String, u64>,
}

impl Model {
    /// An empty shop.
    pub fn new(broken: Option<Broken>) -> Model {
        Model { broken, ..Model::default() }
    }

    fn is(&self, broken: Broken) -> bool {
        self.broken == Some(broken)
    }

    /// What lies on a piece: every fact about it, added up.
    pub fn left(&self, id: &PieceId) -> i64 {
        self.facts.get(id).map_or(0, |facts| facts.iter().map(|fact| fact.on_the_piece()).sum())
    }

    /// What reservations in a state were granted of a piece.
    fn promised(&self, id: &PieceId, state: State) -> i64 {
        let of_state = self.live().filter(|reservation| reservation.state == state);
        let lines = of_state.flat_map(|reservation| &reservation.lines).filter(|line| line.piece == *id);
        lines.map(|line| line.granted.0).sum()
    }

    /// Reservations that are live.
    pub fn live(&self) -> impl Iterator<Item = &Reservation> {
        let named = self.maybe_live.iter().filter_map(|id| self.reservations.get(id));
        named.filter(|reservation| matches!(reservation.state, State::Held | State::Confirmed))
    }

    /// Names of all pieces.
    pub fn piece_names(&self) -> impl Iterator<Item = &PieceId> {
        self.labels.keys()
    }

    /// A piece as it should be told of.
    pub fn piece(&self, id: &PieceId) -> Option<Piece> {
        let label = self.labels.get(id)?;
        Some(Piece {
            left: Amount(self.left(id)),
            held: Amount(self.promised(id, State::Held)),
            confirmed: Amount(self.promised(id, State::Confirmed)),
            ..label.clone()
        })
    }

    /// What lies in the accounts of a piece, in the order of `Account::ALL`.
    pub fn accounts(&self, id: &PieceId) -> [i64; 8] {
        let mut sums = [0; 8];
        for fact in self.facts.get(id).into_iter().flatten() {
            match *fact {
                Fact::Came(amount) => sums[0] -= amount,
                Fact::CutOff(amount) => sums[6] -= amount,
                Fact::WentBack(amount) => sums[6] += amount,
                Fact::Otherwise(amount) => sums[7] -= amount,
                Fact::Cut(parts) => (0..3).for_each(|at| sums[4 + at] += parts[at]),
                Fact::Uncut(parts) => (0..3).for_each(|at| sums[4 + at] -= parts[at]),
            }
        }
        sums[2] = self.promised(id, State::Held);
        sums[3] = self.promised(id, State::Confirmed);
        sums[1] = self.left(id) - sums[2] - sums[3];
        sums
    }

    /// Pieces and reservations that the last command changed.
    pub fn touched(&self) -> (Vec<PieceId>, Vec<ReservationId>) {
        let reservations: Vec<_> = self.copies.reservations.keys().cloned().collect();
        let mut pieces: BTreeSet<PieceId> = self.copies.pieces.keys().cloned().collect();
        pieces.extend(self.copies.facts.keys().cloned());
        for id in &reservations {
            let lines = self.reservations.get(id).map_or(&[][..], |reservation| &reservation.lines);
            pieces.extend(lines.iter().map(|line| line.piece.clone()));
        }
        (pieces.into_iter().collect(), reservations)
    }

    /// Lines that want something, as they were before the last command, on what it touched or
    /// names.
    pub fn as_it_was(&self, command: &Command) -> String {
        let mut words = String::new();
        let mut pieces: BTreeSet<PieceId> = self.touched().0.into_iter().collect();
        pieces.extend(self.named(command).0);
        for id in &pieces {
            let flaws = self.labels.get(id).map_or(&[][..], |label| &label.flaws);
            let flaws: Vec<_> = flaws.iter().map(|flaw| (flaw.from.um(), flaw.to.um())).collect();
            let _ = writeln!(words, "  after: {id} {} with flaws {flaws:?}", self.left(id));
        }
        for reservation in self.reservations.values() {
            let before =
                self.copies.reservations.get(&reservation.id).map_or(Some(reservation), Option::as_ref);
            let Some(before) = before else { continue };
            for line in before.lines.iter().filter(|line| line.wanted.0 > 0 && pieces.contains(&line.piece)) {
                let ranks = before.confirmed.unwrap_or(before.created).0;
                let (wanted, granted) = (line.wanted.0, line.granted.0);
                let _ = writeln!(
                    words,
                    "  before: {} {} {ranks} line {} {wanted} {granted} on {}",
                    before.id,
                    before.state.as_str(),
                    line.number,
                    line.piece
                );
            }
        }
        words
    }

    // --- changing, with a copy of what was ---

    fn label(&mut self, id: &PieceId) -> &mut Piece {
        self.copies.pieces.entry(id.clone()).or_insert_with(|| self.labels.get(id).cloned());
        self.labels.get_mut(id).expect("only pieces that are there are changed")
    }

    fn add_piece(&mut self, piece: Piece, fact: Fact) {
        self.copies.pieces.entry(piece.id.clone()).or_insert(None);
        self.fact(&piece.id, fact);
        self.labels.insert(piece.id.clone(), piece);
    }

    fn fact(&mut self, id: &PieceId, fact: Fact) {
        let facts = self.facts.entry(id.clone()).or_default();
        self.copies.facts.entry(id.clone()).or_insert(facts.len());
        facts.push(fact);
    }

    fn reservation(&mut self, id: &ReservationId) -> &mut Reservation {
        self.copies.reservations.entry(id.clone()).or_insert_with(|| self.reservations.get(id).cloned());
        self.reservations.get_mut(id).expect("only reservations that are there are changed")
    }

    fn add_reservation(&mut self, reservation: Reservation) {
        self.copies.reservations.entry(reservation.id.clone()).or_insert(None);
        self.maybe_live.insert(reservation.id.clone());
        self.reservations.insert(reservation.id.clone(), reservation);
    }

    fn cut(&mut self, id: &CutId) -> &mut CutRow {
        self.copies.cuts.entry(id.clone()).or_insert_with(|| self.cuts.get(id).cloned());
        self.cuts.get_mut(id).expect("only cuts that are there are changed")
    }

    fn add_cut(&mut self, cut: CutRow) {
        self.copies.cuts.entry(cut.id.clone()).or_insert(None);
        self.recorded.push(cut.id.clone());
        self.cuts.insert(cut.id.clone(), cut);
    }

    fn order(&mut self, id: &OrderId) -> &mut Order {
        self.copies.orders.entry(id.clone()).or_insert_with(|| self.orders.get(id).cloned());
        self.orders.get_mut(id).expect("only orders that are there are changed")
    }

    fn add_order(&mut self, order: Order) {
        self.copies.orders.entry(order.id.clone()).or_insert(None);
        self.orders.insert(order.id.clone(), order);
    }

    /// Puts everything back as it was before the command.
    fn put_back(&mut self) {
        fn put<K: Ord + Clone, V>(into: &mut BTreeMap<K, V>, copies: BTreeMap<K, Option<V>>) {
            for (key, copy) in copies {
                match copy {
                    Some(copy) => into.insert(key, copy),
                    None => into.remove(&key),
                };
            }
        }
        let copies = std::mem::take(&mut self.copies);
        put(&mut self.labels, copies.pieces);
        put(&mut self.reservations, copies.reservations);
        put(&mut self.cuts, copies.cuts);
        put(&mut self.orders, copies.orders);
        for (id, length) in copies.facts {
            self.facts.get_mut(&id).expect("facts are only added").truncate(length);
        }
    }

    // --- carrying out ---

    /// What a command comes to, once overdue holds are ended.
    fn decide(&mut self, now: At, command: &Command, over: &BTreeSet<ReservationId>) -> Verdict {
        match command {
            Command::Receive(receive) => self.receive(now, receive),
            Command::Adjust(adjust) => self.adjust(adjust),
            Command::Reserve(reserve) => self.reserve(now, reserve),
            Command::Extend(extend) => self.extend(now, extend),
            Command::Confirm(confirm) => self.confirm(now, confirm),
            Command::Release(release) => self.release(release, over),
            Command::Cancel(cancel) => self.cancel(cancel, over),
            Command::Amend(amend) => self.amend(amend),
            Command::Cut(cut) => self.cut_off(now, cut),
            Command::Undo(undo) => self.undo(now, undo),
            Command::Place(place) => self.place(now, place),
            Command::CancelOrder(cancel) => self.cancel_order(cancel),
            Command::Sweep(_) => Ok(Done::default()),
        }
    }
}
