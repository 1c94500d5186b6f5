//! What a shop might ask of its stock, and what it should not: commands from a seed.
//!
//! Cloth in several dye lots, rolls of binding, boxes of buttons; buyers who take, forget and
//! confirm; a bench that cuts too much, keeps remnants and takes cuts back; somebody who
//! counts. The clock mostly moves on, stands still at exactly the instants that matter, and
//! sometimes goes back.

mod bench;
mod buyers;
mod store;

use pennantry_ledger::rules::{
    Amount, At, ChangeId, Class, Command, CutId, Envelope, Material, OrderId, PieceId, Request, Reservation,
    ReservationId, State,
};
use sha2::{Digest, Sha256};

use super::model::Model;
use crate::dice::Dice;

const SECOND: i64 = 1_000_000;
const MM: i64 = 1_000;
/// When the first command comes: an instant of 2026.
const OPENING: i64 = 1_790_000_000 * SECOND;

/// What a shop might ask, one command after the other.
pub struct Shop {
    dice: Dice,
    now: i64,
    pieces: i64,
    names: i64,
    changes: i64,
    /// Requests that may come again.
    sent: Vec<Envelope>,
    /// The last cuts, which may be taken back.
    cuts: Vec<(CutId, At)>,
    /// Orders at suppliers.
    orders: Vec<OrderId>,
    /// How many pieces the shop likes to have.
    size: i64,
}

/// What the shop deals in.
fn materials() -> Vec<Material> {
    let of = |class, code: &str| Material { class, code: code.to_owned() };
    vec![
        of(Class::Cloth, "kelp"),
        of(Class::Cloth, "saltmere-tern"),
        of(Class::Binding, "bosun-25"),
        of(Class::Sundry, "oak-button"),
    ]
}

impl Shop {
    /// A shop that opens with a seed.
    pub fn new(seed: u64) -> Shop {
        let mut dice = Dice::new(seed);
        let size = *dice.pick(&[6, 12, 40, 120]);
        Shop {
            dice,
            now: OPENING,
            pieces: 0,
            names: 0,
            changes: 0,
            sent: Vec::new(),
            cuts: Vec::new(),
            orders: Vec::new(),
            size,
        }
    }

    /// The next command.
    pub fn next(&mut self, model: &Model) -> Envelope {
        self.move_clock(model);
        if self.dice.chance(4) && !self.sent.is_empty() {
            return self.again(model);
        }
        let command = self.command(model);
        let envelope = self.envelope(command);
        if let Command::Cut(cut) = &envelope.command {
            self.cuts.push((cut.id.clone(), envelope.at));
        }
        if envelope.request.is_some() {
            self.sent.push(envelope.clone());
        }
        if self.sent.len() > 60 {
            self.sent.remove(0);
        }
        envelope
    }

    /// Puts a command on its way.
    fn envelope(&mut self, command: Command) -> Envelope {
        let body = Sha256::digest(format!("{command:?}")).into();
        let request = self.dice.chance(70).then(|| Request {
            scope: self.dice.pick(&["shop stock", "public reserve"]).to_string(),
            key: self.name("k"),
            body,
        });
        self.around(command, request)
    }

    fn around(&mut self, command: Command, request: Option<Request>) -> Envelope {
        self.changes += 1;
        let mut id = [0; 16];
        let salt = self.dice.between(0, 1 << 40);
        id[..8].copy_from_slice(&salt.to_be_bytes());
        id[8..].copy_from_slice(&self.changes.to_be_bytes());
        let day = self.today();
        let actor = (*self.dice.pick(&["", "wren", "key of the web shop"])).to_owned();
        Envelope { id: ChangeId(id), at: At(self.now), day, actor, request, command }
    }

    /// The shop's day. Days are short here, so that much happens about midnight.
    fn today(&self) -> i32 {
        i32::try_from(self.now / (3_600 * SECOND)).expect("some hundred thousand")
    }

    /// A request that was sent before: the same again, or its key with something else.
    fn again(&mut self, model: &Model) -> Envelope {
        let old = self.dice.pick(&self.sent).clone();
        let mut request = old.request.clone().expect("only requests are kept");
        let mut command = old.command;
        if self.dice.chance(30) {
            command = self.command(model);
            request.body = Sha256::digest(format!("{command:?}")).into();
        } else if self.dice.chance(10) {
            request.scope = "elsewhere".to_owned();
        }
        self.around(command, Some(request))
    }

    /// Lets time pass; now and then to the very instant at which something is over.
    fn move_clock(&mut self, model: &Model) {
        let passes = match self.dice.between(1, 100) {
            1..=60 => self.dice.between(0, 20 * SECOND),
            61..=80 => 0,
            81..=84 => -self.dice.between(1, 120 * SECOND),
            85..=96 => self.dice.between(0, 300 * SECOND),
            97 if self.dice.chance(40) => self.dice.between(0, 10_000 * SECOND),
            _ => {
                let hair = self.dice.between(-1, 1);
                let holds: Vec<i64> = Shop::holds(model).iter().map(|hold| hold.expires.0).collect();
                let ends = holds.into_iter().chain(self.cuts.last().map(|(_, at)| at.0 + 600 * SECOND));
                let ahead: Vec<i64> =
                    ends.filter(|end| (0..3_600 * SECOND).contains(&(end - self.now))).collect();
                if ahead.is_empty() { 1 } else { self.dice.pick(&ahead) + hair - self.now }
            }
        };
        self.now += passes;
    }

    fn command(&mut self, model: &Model) -> Command {
        let there = model.piece_names().filter(|id| model.left(id) > 0).count();
        let there = i64::try_from(there).expect("few");
        if there < self.size / 2 || self.dice.between(1, 1000) <= 10 {
            return self.receive(model);
        }
        match self.dice.between(1, 100) {
            1..=30 => self.reserve(model),
            31..=34 => self.extend(model),
            35..=46 => self.confirm(model),
            47..=51 => self.release(model),
            52..=55 => self.cancel(model),
            56..=62 => self.amend(model),
            63..=77 => self.cut(model),
            78..=82 => self.undo(model),
            83..=93 => self.adjust(model),
            94..=95 => self.place(),
            96 => self.cancel_order(),
            97..=98 => self.receive(model),
            _ => self.sweep(),
        }
    }

    /// A new name, in no order.
    fn name(&mut self, of: &str) -> String {
        self.names += 1;
        format!("{of}{:08x}{:020x}", self.dice.between(0, 0xFFFF_FFFF), self.names)
    }

    fn new_piece_name(&mut self, of: &str) -> PieceId {
        self.pieces += 1;
        PieceId(format!("{of}-{:02}-{:05}", self.dice.between(0, 99), self.pieces))
    }

    /// A piece that is there, or rarely one that is not.
    fn a_piece(&mut self, model: &Model) -> PieceId {
        let all: Vec<&PieceId> = model.piece_names().collect();
        if all.is_empty() || self.dice.chance(1) {
            return PieceId::from("no such piece");
        }
        // mostly where somebody stands already: that is where promises meet
        let taken: Vec<&PieceId> = model.live().flat_map(|it| &it.lines).map(|line| &line.piece).collect();
        if !taken.is_empty() && self.dice.chance(40) {
            return (*self.dice.pick(&taken)).clone();
        }
        let mut choice = *self.dice.pick(&all);
        for _ in 0..6 {
            if model.left(choice) > 0 {
                break;
            }
            choice = *self.dice.pick(&all);
        }
        choice.clone()
    }

    /// An amount around another one: some of it, all of it, a hair more, or nonsense.
    fn around_amount(&mut self, most: i64) -> Amount {
        let most = most.max(1);
        Amount(match self.dice.between(1, 100) {
            1..=45 => self.dice.between(1, (most / 4).max(1)),
            46..=75 => self.dice.between(1, most),
            76..=88 => most,
            89..=91 => most + 1,
            92..=94 => self.dice.between(most, most * 2),
            95..=98 => (most / (10 * MM)).max(1) * MM,
            _ => *self.dice.pick(&[0, -1, i64::MIN, i64::MAX, Amount::MOST.0, Amount::MOST.0 + 1]),
        })
    }

    fn holds(model: &Model) -> Vec<&Reservation> {
        model.live().filter(|it| it.state == State::Held).collect()
    }

    /// A reservation: mostly one that is live, of a state where one is wanted.
    fn a_reservation(&mut self, model: &Model, state: Option<State>) -> ReservationId {
        let mut live: Vec<&Reservation> =
            model.live().filter(|it| state.is_none_or(|state| it.state == state)).collect();
        if live.is_empty() {
            live = model.live().collect();
        }
        match self.dice.between(1, 100) {
            1 => ReservationId::from("no such reservation"),
            2..=12 if !model.reservations.is_empty() => {
                // the names are random, so the first one after a random name is any
                let from = ReservationId(format!("r{:08x}", self.dice.between(0, 0xFFFF_FFFF)));
                let mut after = model.reservations.range(from..);
                after.next().or_else(|| model.reservations.first_key_value()).expect("there is one").0.clone()
            }
            _ if live.is_empty() => ReservationId::from("none yet"),
            _ => self.dice.pick(&live).id.clone(),
        }
    }

    fn words(&mut self) -> String {
        (*self.dice.pick(&["", "as the buyer asked", "Zoë’s order; see \u{2116} 7\n'quoted' \"twice\""]))
            .to_owned()
    }
}
