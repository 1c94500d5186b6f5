//! Deliveries, counts and orders.

use pennantry_ledger::rules::{
    Adjust, Adjustment, Amount, CancelOrder, Class, Command, Flaw, NewOrderLine, NewPiece, OrderId,
    PieceKind, Place, Reason, Receive, Sweep,
};
use pennantry_measure::Length;

use super::{MM, Shop, materials};
use crate::stock::model::Model;

impl Shop {
    /// Flaws within an amount, in order and apart; or not.
    fn flaws(&mut self, within: i64) -> Vec<Flaw> {
        let mut flaws = Vec::new();
        let mut at = 0;
        for _ in 0..self.dice.between(1, 3) {
            let room = within - at;
            if room < 100 {
                break;
            }
            let from = at + self.dice.between(i64::from(at > 0), room / 2);
            let to = from + self.dice.between(1, (room / 10).max(1));
            flaws.push(Flaw { from: Length::from_um(from), to: Length::from_um(to) });
            at = to;
        }
        match self.dice.between(1, 40) {
            1 => flaws.reverse(),
            2 => flaws.push(Flaw { from: Length::from_um(within), to: Length::from_um(within + 1) }),
            3 => flaws.insert(0, Flaw { from: Length::from_um(-5), to: Length::from_um(-1) }),
            4 => flaws.extend(flaws.clone()),
            5 => flaws.push(Flaw { from: Length::from_um(within - 1), to: Length::from_um(within - 1) }),
            _ => {}
        }
        flaws
    }

    fn new_piece(&mut self) -> NewPiece {
        let material = self.dice.pick(&materials()).clone();
        let (kind, width, amount) = match material.class {
            Class::Cloth => {
                let width = *self.dice.pick(&[1_120, 1_120, 1_400]);
                let kind = if self.dice.chance(85) { PieceKind::Bolt } else { PieceKind::Remnant };
                (kind, width, self.dice.between(500, 6_000) * MM + i64::from(self.dice.chance(10)))
            }
            Class::Binding => (PieceKind::Roll, 0, self.dice.between(1_000, 50_000) * MM),
            Class::Sundry => (PieceKind::Box, 0, self.dice.between(1, 144)),
        };
        let flawed = material.class != Class::Sundry && self.dice.chance(25);
        let bad = self.dice.chance(1);
        let nonsense = self.dice.chance(1);
        NewPiece {
            id: self.new_piece_name("B"),
            kind,
            lot: (*self.dice.pick(&["", "4711", "4712", "0815"])).to_owned(),
            width: Length::from_um(if bad { -width - 1 } else { width * MM }),
            amount: if nonsense { Amount(*self.dice.pick(&[0, -1, i64::MAX])) } else { Amount(amount) },
            flaws: if flawed { self.flaws(amount) } else { Vec::new() },
            location: self.words(),
            cost_minor: self.dice.chance(60).then(|| self.dice.between(0, 9_000)),
            supplier: (*self.dice.pick(&["", "Lune Mill"])).to_owned(),
            supplier_reference: (*self.dice.pick(&["", "LM-88"])).to_owned(),
            certificates: if self.dice.chance(20) {
                vec!["C-1".to_owned(), "C 2,;".to_owned()]
            } else {
                vec![]
            },
            material,
        }
    }

    pub(super) fn receive(&mut self, model: &Model) -> Command {
        let mut pieces: Vec<NewPiece> = (0..self.dice.between(1, 4)).map(|_| self.new_piece()).collect();
        let mut order = None;
        match self.dice.between(1, 100) {
            1 => pieces.clear(),
            2 => pieces.push(pieces[0].clone()),
            3 => pieces[0].id = self.a_piece(model),
            4 => order = Some(OrderId::from("no such order")),
            5..=45 if !self.orders.is_empty() => {
                let id = self.dice.pick(&self.orders).clone();
                // mostly what was ordered
                if let Some(known) = model.orders.get(&id)
                    && self.dice.chance(90)
                {
                    pieces.retain(|piece| known.lines.iter().any(|line| line.material == piece.material));
                }
                order = Some(id);
            }
            _ => {}
        }
        Command::Receive(Receive { pieces, order })
    }

    pub(super) fn adjust(&mut self, model: &Model) -> Command {
        let piece = self.a_piece(model);
        let there = model.piece(&piece);
        let left = model.left(&piece);
        let free = there.as_ref().map_or(0, |it| it.left.0 - it.held.0 - it.confirmed.0);
        let near = self.around_amount(left);
        let what = match self.dice.between(1, 100) {
            1..=20 => Adjustment::Counted(Amount(left - near.0.clamp(0, left))),
            21..=30 => Adjustment::Counted(Amount(left + near.0.clamp(-1, 900 * MM))),
            31..=33 => Adjustment::Counted(Amount(left)),
            34..=36 => Adjustment::Counted(near),
            37..=52 => Adjustment::Gone(self.around_amount(left), *self.dice.pick(&Reason::ALL)),
            53..=60 => Adjustment::Gone(self.around_amount(free / 2), Reason::Damaged),
            61..=64 => Adjustment::Found(self.around_amount(left / 3)),
            65..=74 => Adjustment::Found(Amount(self.dice.between(1, 1 + left / 4))),
            75..=81 => Adjustment::Flaws(self.flaws(left)),
            82..=88 => Adjustment::MoreFlaws(self.flaws(left)),
            89..=93 => Adjustment::Flaws(Vec::new()),
            _ => Adjustment::Moved(self.words()),
        };
        Command::Adjust(Adjust { piece, what, note: self.words() })
    }

    pub(super) fn place(&mut self) -> Command {
        let known = if self.orders.is_empty() { None } else { Some(self.dice.pick(&self.orders).clone()) };
        let id = known.filter(|_| self.dice.chance(4)).unwrap_or_else(|| OrderId(self.name("o")));
        let mut lines = Vec::new();
        for material in materials() {
            if self.dice.chance(50) {
                let most = if material.class == Class::Sundry { 200 } else { 9_000 * MM };
                let amount = self.dice.between(1, most);
                let nonsense = self.dice.chance(3);
                let amount = if nonsense { *self.dice.pick(&[0, -1, i64::MAX]) } else { amount };
                let amount = Amount(amount);
                lines.push(NewOrderLine { material, amount });
            }
        }
        if self.dice.chance(3) {
            lines.extend(lines.clone());
        }
        self.orders.push(id.clone());
        Command::Place(Place {
            id,
            supplier: "Lune Mill".to_owned(),
            expected_day: i32::try_from(self.dice.between(20_000, 30_000)).expect("small"),
            note: self.words(),
            lines,
        })
    }

    pub(super) fn cancel_order(&mut self) -> Command {
        let id = match self.orders.last() {
            Some(last) if self.dice.chance(30) => last.clone(),
            Some(_) if self.dice.chance(90) => self.dice.pick(&self.orders).clone(),
            _ => OrderId::from("no such order"),
        };
        Command::CancelOrder(CancelOrder { id, reason: self.words() })
    }

    pub(super) fn sweep(&mut self) -> Command {
        let most = *self.dice.pick(&[0, 1, 2, 5, 50]);
        Command::Sweep(Sweep { most })
    }
}
