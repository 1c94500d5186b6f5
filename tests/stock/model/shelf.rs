//! Pieces that come, what is found to be so with them, and orders at suppliers.

use pennantry_ledger::rules::{
    Adjust, Adjustment, Amount, At, CancelOrder, Class, EventKind, Flaw, NewPiece, Order, OrderLine,
    OrderState, Piece, Place, Receive, Refusal,
};
use pennantry_measure::Length;

use super::{Broken, Done, Fact, Model, Verdict};

fn outside(amount: Amount) -> bool {
    amount < Amount(1) || amount > Amount::MOST
}

/// Whether a list of flaws can be that of so much cloth.
fn flaws_can_be(class: Class, flaws: &[Flaw], amount: i64) -> bool {
    let mut end = 0;
    for flaw in flaws {
        if class == Class::Sundry || flaw.from.um() < end || flaw.to <= flaw.from || flaw.to.um() > amount {
            return false;
        }
        end = flaw.to.um();
    }
    true
}

/// Stretches along which there is at least one of these flaws: a sweep along all ends, where one that
/// begins where another ends goes on with it.
fn covered(flaws: &[Flaw]) -> Vec<Flaw> {
    let mut marks: Vec<(Length, i32)> =
        flaws.iter().flat_map(|flaw| [(flaw.from, -1), (flaw.to, 1)]).collect();
    marks.sort_unstable();
    let (mut open, mut begun, mut found) = (0, Length::from_um(0), Vec::new());
    for (place, mark) in marks {
        if open == 0 {
            begun = place;
        }
        open -= mark;
        if open == 0 {
            found.push(Flaw { from: begun, to: place });
        }
    }
    found
}

/// What of flaws lies within so much.
pub(super) fn clipped(flaws: &[Flaw], left: i64) -> Vec<Flaw> {
    let within = flaws.iter().filter(|flaw| flaw.from.um() < left);
    within.map(|flaw| Flaw { from: flaw.from, to: flaw.to.min(Length::from_um(left)) }).collect()
}

impl Model {
    pub(super) fn receive(&mut self, now: At, receive: &Receive) -> Verdict {
        let mut wrong = Vec::new();
        if receive.pieces.is_empty() {
            wrong.push(Refusal::Empty);
        }
        for (at, new) in receive.pieces.iter().enumerate() {
            if self.labels.contains_key(&new.id) {
                wrong.push(Refusal::PieceExists(new.id.clone()));
            }
            if receive.pieces[..at].iter().any(|other| other.id == new.id) {
                wrong.push(Refusal::Twice(new.id.to_string()));
            }
            if outside(new.amount) {
                wrong.push(Refusal::BadAmount(new.material.class, new.amount));
            }
            if new.width < Length::from_um(0) {
                wrong.push(Refusal::BadWidth(new.id.clone(), new.width));
            }
            if !flaws_can_be(new.material.class, &new.flaws, new.amount.0) {
                wrong.push(Refusal::BadFlaws(new.id.clone()));
            }
        }
        if let Some(id) = &receive.order {
            match self.orders.get(id) {
                None => wrong.push(Refusal::NoOrder(id.clone())),
                Some(order) => {
                    if order.state == OrderState::Cancelled {
                        wrong.push(Refusal::OrderNotNow(id.clone(), order.state));
                    }
                    let ordered =
                        |new: &NewPiece| order.lines.iter().any(|line| line.material == new.material);
                    let strange = receive.pieces.iter().filter(|new| !ordered(new));
                    wrong.extend(strange.map(|new| Refusal::NotOrdered(id.clone(), new.material.clone())));
                }
            }
        }
        if !wrong.is_empty() {
            return Err(wrong);
        }

        let mut done = Done { order: receive.order.clone(), ..Done::default() };
        for new in &receive.pieces {
            self.add_piece(arrived(now, new, receive), Fact::Came(new.amount.0));
            done.received.push(new.id.clone());
            done.told.push((EventKind::Received, new.id.to_string()));
            if let Some(id) = &receive.order {
                let forgets = self.is(Broken::Delivery);
                let lines = &mut self.order(id).lines;
                let line =
                    lines.iter_mut().find(|line| line.material == new.material).expect("it was looked for");
                line.received += new.amount;
                if forgets {
                    line.received = line.received.min(line.ordered);
                }
            }
        }
        if let Some(id) = &receive.order {
            let order = self.order(id);
            if order.lines.iter().all(|line| line.received >= line.ordered) {
                order.state = OrderState::Filled;
            }
        }
        Ok(done)
    }

    pub(super) fn adjust(&mut self, adjust: &Adjust) -> Verdict {
        let id = &adjust.piece;
        let Some(label) = self.labels.get(id) else { return Err(vec![Refusal::NoPiece(id.clone())]) };
        let class = label.material.class;
        let left = self.left(id);
        let bad = |amount: Amount| Err(vec![Refusal::BadAmount(class, amount)]);
        let to = |model: &mut Model, now_left: i64| {
            if now_left != left {
                model.fact(id, Fact::Otherwise(now_left - left));
                let label = model.label(id);
                label.flaws = clipped(&label.flaws, now_left);
            }
        };
        match &adjust.what {
            Adjustment::Counted(amount) if *amount < Amount(0) || *amount > Amount::MOST => {
                return bad(*amount);
            }
            Adjustment::Counted(amount) => to(self, amount.0),
            Adjustment::Gone(amount, _) => {
                let (piece, taken) = (id.clone(), *amount);
                let more = Refusal::MoreThanLies { piece, class, taken, left: Amount(left) };
                match (outside(*amount), amount.0 > left) {
                    (true, true) => return Err(vec![Refusal::BadAmount(class, *amount), more]),
                    (true, false) => return bad(*amount),
                    (false, true) => return Err(vec![more]),
                    (false, false) => to(self, left - amount.0),
                }
            }
            Adjustment::Found(amount) if outside(*amount) => return bad(*amount),
            Adjustment::Found(amount) if left + amount.0 > Amount::MOST.0 => {
                return Err(vec![
                    Refusal::BadAmount(class, *amount),
                    Refusal::BadAmount(class, Amount(left + amount.0)),
                ]);
            }
            Adjustment::Found(amount) => to(self, left + amount.0),
            Adjustment::Flaws(flaws) if !flaws_can_be(class, flaws, left) => {
                return Err(vec![Refusal::BadFlaws(id.clone())]);
            }
            Adjustment::Flaws(flaws) => self.label(id).flaws.clone_from(flaws),
            Adjustment::MoreFlaws(more) if more.is_empty() => return Err(vec![Refusal::Empty]),
            Adjustment::MoreFlaws(more) => {
                let each = |flaw: &Flaw| flaws_can_be(class, std::slice::from_ref(flaw), left);
                if !more.iter().all(each) {
                    return Err(vec![Refusal::BadFlaws(id.clone())]);
                }
                self.label(id).flaws.extend(more);
                let known = std::mem::take(&mut self.label(id).flaws);
                self.label(id).flaws = covered(&known);
            }
            Adjustment::Moved(location) => self.label(id).location.clone_from(location),
        }
        self.settle(id);
        let told = vec![(EventKind::Adjusted, id.to_string())];
        Ok(Done { pieces: vec![id.clone()], told, ..Done::default() })
    }

    pub(super) fn place(&mut self, now: At, place: &Place) -> Verdict {
        let mut wrong = Vec::new();
        if self.orders.contains_key(&place.id) {
            wrong.push(Refusal::OrderExists(place.id.clone()));
        }
        if place.lines.is_empty() {
            wrong.push(Refusal::Empty);
        }
        for (at, line) in place.lines.iter().enumerate() {
            if outside(line.amount) {
                wrong.push(Refusal::BadAmount(line.material.class, line.amount));
            }
            if place.lines[..at].iter().any(|other| other.material == line.material) {
                wrong.push(Refusal::Twice(line.material.code.clone()));
            }
        }
        if !wrong.is_empty() {
            return Err(wrong);
        }
        let lines = (1..).zip(&place.lines).map(|(number, line)| OrderLine {
            number,
            material: line.material.clone(),
            ordered: line.amount,
            received: Amount(0),
        });
        self.add_order(Order {
            id: place.id.clone(),
            supplier: place.supplier.clone(),
            state: OrderState::Open,
            at: now,
            expected_day: place.expected_day,
            note: place.note.clone(),
            lines: lines.collect(),
        });
        let told = vec![(EventKind::Ordered, place.id.to_string())];
        Ok(Done { order: Some(place.id.clone()), told, ..Done::default() })
    }

    pub(super) fn cancel_order(&mut self, cancel: &CancelOrder) -> Verdict {
        let id = &cancel.id;
        let order = Some(id.clone());
        match self.orders.get(id).map(|order| order.state) {
            None => Err(vec![Refusal::NoOrder(id.clone())]),
            Some(OrderState::Filled) => Err(vec![Refusal::OrderNotNow(id.clone(), OrderState::Filled)]),
            Some(OrderState::Cancelled) => Ok(Done { unchanged: true, order, ..Done::default() }),
            Some(OrderState::Open) => {
                self.order(id).state = OrderState::Cancelled;
                let told = vec![(EventKind::OrderCancelled, id.to_string())];
                Ok(Done { order, told, ..Done::default() })
            }
        }
    }
}

fn arrived(now: At, new: &NewPiece, receive: &Receive) -> Piece {
    Piece {
        id: new.id.clone(),
        kind: new.kind,
        material: new.material.clone(),
        lot: new.lot.clone(),
        width: new.width,
        received: new.amount,
        left: Amount(0),
        held: Amount(0),
        confirmed: Amount(0),
        flaws: new.flaws.clone(),
        parent: None,
        cut: None,
        location: new.location.clone(),
        cost_minor: new.cost_minor,
        supplier: new.supplier.clone(),
        supplier_reference: new.supplier_reference.clone(),
        certificates: new.certificates.clone(),
        order: receive.order.clone(),
        at: now,
    }
}
