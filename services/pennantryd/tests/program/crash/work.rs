//! What one member of staff does all day: receives, counts, orders, holds, confirms, cuts.

use std::collections::BTreeMap;

use serde_json::{Value, json};

use super::hold;
use super::wire::{Call, Caller, Told};

/// Random numbers from a seed (`SplitMix64`, Steele, Lea and Flood 2014, from memory).
pub struct Dice(u64);

impl Dice {
    pub fn new(seed: u64) -> Dice {
        Dice(seed)
    }

    /// A number below another one.
    pub fn below(&mut self, most: u64) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        (z ^ (z >> 31)) % most
    }

    /// One of a list; none of an empty one.
    fn pick<'a, T>(&mut self, of: &'a [T]) -> Option<&'a T> {
        let place = self.below(u64::try_from(of.len()).unwrap().max(1));
        of.get(usize::try_from(place).unwrap())
    }
}

/// A change that was asked for.
#[derive(Debug, Clone)]
pub struct Asked {
    pub call: Call,
    pub body: Value,
    /// What was answered; nothing where the line went dead.
    pub told: Told,
}

/// A member of staff.
pub struct Hand {
    name: String,
    token: String,
    dice: Dice,
    count: u32,
    /// Everything asked for, in order.
    pub asked: Vec<Asked>,
    /// Reservations, and where each stands as far as this one knows.
    pub promises: BTreeMap<String, String>,
    cuts: BTreeMap<String, String>,
    /// Labels of pieces that were put on the shelf.
    pub labels: Vec<String>,
    counted: Vec<String>,
    orders: Vec<String>,
}

impl Hand {
    pub fn new(name: String, token: &str, seed: u64) -> Hand {
        Hand {
            name,
            token: token.to_owned(),
            dice: Dice::new(seed),
            count: 0,
            asked: Vec::new(),
            promises: BTreeMap::new(),
            cuts: BTreeMap::new(),
            labels: Vec::new(),
            counted: Vec::new(),
            orders: Vec::new(),
        }
    }

    /// Makes up one change.
    pub fn next(&mut self) -> (Call, Value) {
        self.count += 1;
        let id = format!("{}-{}", self.name, self.count);
        let (call, mut body) = match self.dice.below(100) {
            0..15 => self.delivery(&id),
            15..30 => self.fact(&id),
            30..36 => Self::order(&id),
            36..42 => self.end_of_order(&id),
            _ => self.promise(),
        };
        body["requestId"] = json!(id);
        (call, body)
    }

    /// Pieces that come; those that are counted later are of cloth that nobody holds.
    fn delivery(&mut self, id: &str) -> (Call, Value) {
        let mut pieces = vec![
            json!({"pieceId": format!("{id}-c"), "code": "kelp", "quantity": {"lengthMm": 4_000}}),
            json!({"pieceId": format!("{id}-n"), "code": "chandlers-rope", "quantity": {"lengthMm": 9_000}}),
        ];
        if self.dice.below(2) == 0 {
            pieces.push(
                json!({"pieceId": format!("{id}-b"), "code": "bosun-25", "quantity": {"lengthMm": 25_000}}),
            );
        }
        (Call::ReceiveStock, json!({"pieces": pieces}))
    }

    fn fact(&mut self, id: &str) -> (Call, Value) {
        let Some(piece) = self.dice.pick(&self.counted).cloned() else { return self.delivery(id) };
        let mut body = match self.dice.below(4) {
            0 => json!({"counted": {"lengthMm": 5_000 + self.dice.below(4_000)}}),
            1 => json!({"gone": {"quantity": {"lengthMm": 10}, "reason": "STOCK_REASON_DAMAGED"}}),
            2 => json!({"found": {"lengthMm": 1 + self.dice.below(100)}}),
            _ => json!({"location": format!("rack {}", self.dice.below(9))}),
        };
        body["pieceId"] = json!(piece);
        (Call::AdjustStock, body)
    }

    fn order(id: &str) -> (Call, Value) {
        let line = json!({"code": "quay-stone", "quantity": {"lengthMm": 30_000}});
        let body = json!({
            "orderId": format!("{id}-o"), "supplier": "Ropewalk Mill", "expectedDate": "2099-01-05", "lines": [line],
        });
        (Call::PlaceOrder, body)
    }

    fn end_of_order(&mut self, id: &str) -> (Call, Value) {
        let Some(order) = self.orders.pop() else { return Self::order(id) };
        if self.dice.below(2) == 0 {
            return (Call::CancelOrder, json!({"orderId": order, "reason": "not needed"}));
        }
        let piece =
            json!({"pieceId": format!("{id}-q"), "code": "quay-stone", "quantity": {"lengthMm": 30_000}});
        (Call::ReceiveStock, json!({"orderId": order, "pieces": [piece]}))
    }

    /// A new hold, or the next step of one.
    fn promise(&mut self) -> (Call, Value) {
        let open = ["RESERVATION_STATE_HELD", "RESERVATION_STATE_CONFIRMED", "RESERVATION_STATE_CUT"];
        let open: Vec<(String, String)> = self
            .promises
            .iter()
            .filter(|(_, state)| open.contains(&state.as_str()))
            .map(|(id, state)| (id.clone(), state.clone()))
            .collect();
        let step = self.dice.below(10) < 6;
        let Some((id, state)) = self.dice.pick(&open).filter(|_| step) else {
            return (Call::CreateReservation, json!({"hold": hold(&self.token)}));
        };
        let first = self.dice.below(10) < 6;
        match (state.as_str(), first) {
            ("RESERVATION_STATE_HELD", true) => {
                let confirmation = json!({"orderReference": format!("order {}", self.count)});
                (Call::ConfirmReservation, json!({"reservationId": id, "confirmation": confirmation}))
            }
            ("RESERVATION_STATE_HELD", false) => (Call::ReleaseReservation, json!({"reservationId": id})),
            ("RESERVATION_STATE_CONFIRMED", true) => (Call::RecordCut, json!({"reservationId": id})),
            ("RESERVATION_STATE_CUT", true) => (Call::UndoCut, json!({"cutId": self.cuts[id]})),
            _ => (Call::CancelReservation, json!({"reservationId": id, "reason": "called off"})),
        }
    }

    /// Asks, and keeps what comes of it.
    pub fn ask(&mut self, caller: &mut Caller, call: Call, body: Value) -> Told {
        let told = caller.ask(call, &body);
        self.keep(call, body, told.clone());
        told
    }

    /// Keeps what came of a change.
    pub fn keep(&mut self, call: Call, body: Value, told: Told) {
        if let Told::Done(answer) = &told {
            let text = |value: &Value| value.as_str().unwrap().to_owned();
            let labels = answer["pieceIds"].as_array().map_or(&[][..], Vec::as_slice);
            self.labels.extend(labels.iter().map(text));
            self.counted.extend(labels.iter().map(text).filter(|label| label.ends_with("-n")));
            if call == Call::PlaceOrder {
                self.orders.push(text(&answer["order"]["orderId"]));
            }
            if let Some(reservation) = answer.get("reservation") {
                let id = text(&reservation["reservationId"]);
                if call == Call::RecordCut {
                    self.cuts.insert(id.clone(), text(&answer["cutId"]));
                }
                self.promises.insert(id, text(&reservation["state"]));
            }
        }
        self.asked.push(Asked { call, body, told });
    }
}

/// What of an answer is told as it was when it was first given. The rest is a look at the
/// shelf at the time of telling: what others have of a piece by then, where it lies.
pub fn lasting(answer: &Value) -> Value {
    const OF_NOW: [&str; 8] =
        ["replayed", "held", "confirmed", "free", "longest", "remnant", "location", "proposals"];
    match answer {
        Value::Object(fields) => Value::Object(
            fields
                .iter()
                .filter(|(name, _)| !OF_NOW.contains(&name.as_str()))
                .map(|(name, value)| (name.clone(), lasting(value)))
                .collect(),
        ),
        Value::Array(values) => values.iter().map(lasting).collect(),
        other => other.clone(),
    }
}

/// Whether an answer says that it had been given before.
pub fn replayed(answer: &Value) -> bool {
    let within = answer.get("reservation").and_then(|reservation| reservation.get("replayed"));
    [answer.get("replayed"), within].into_iter().flatten().any(|value| value == true)
}
