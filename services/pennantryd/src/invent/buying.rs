//! What the shop orders and what comes.
//!
//! On every open day it looks at what is free at full width, and on order, of each cloth. Where that is less
//! than twelve days of what it sold lately would take beyond the days of delivery, it orders four
//! weeks of it, in whole bolts. Most orders come within two days of when they are expected; one in nine
//! comes a week late, and one in six in two parts.

use std::collections::BTreeMap;

use pennantry_app::restock::Supply;
use pennantry_ledger::Error;
use pennantry_ledger::rules::{
    Amount, Class, Command, Material, NewOrderLine, NewPiece, OrderId, PieceKind, Place, Receive,
};
use pennantry_measure::{Length, Rounding};

use super::book::Book;
use super::sales::COUNTER;

/// Days over which it looks back.
const LATELY: i32 = 28;

/// What is on its way.
#[derive(Debug)]
struct Coming {
    day: i32,
    order: OrderId,
    supply: Supply,
    bolts: u32,
    lot: String,
}

/// The shop as it buys.
#[derive(Debug, Default)]
pub(super) struct Buying {
    coming: Vec<Coming>,
    sold: BTreeMap<String, Vec<(i32, Amount)>>,
    lots: u32,
}

/// How an order comes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Comes {
    /// As orders do.
    Usually,
    /// On the day.
    OnTheDay,
    /// Not before the end of the story.
    Never,
}

impl Buying {
    /// So much of a cloth was sold.
    pub(super) fn sold(&mut self, code: &str, day: i32, amount: Amount) {
        self.sold.entry(code.to_owned()).or_default().push((day, amount));
    }

    /// What was sold of a cloth lately.
    fn lately(&self, code: &str, day: i32) -> Amount {
        let sold = self.sold.get(code).into_iter().flatten();
        sold.filter(|(on, _)| day - on <= LATELY).map(|(_, amount)| *amount).sum()
    }

    /// What is to come of a cloth.
    fn on_order(&self, code: &str) -> Length {
        let coming = self.coming.iter().filter(|coming| coming.supply.fabric == code);
        coming.map(|coming| coming.supply.bolt * i64::from(coming.bolts)).sum()
    }

    /// Looks at one cloth, and orders of it where it is little.
    ///
    /// # Errors
    /// The stock cannot be had.
    pub(super) async fn look(&mut self, book: &mut Book<'_>, supply: &Supply) -> Result<(), Error> {
        let lately = self.lately(&supply.fabric, book.day).length();
        let lead = i64::from(supply.lead_days);
        let due = Length::from_um(lately.um() / i64::from(LATELY) * (lead + 12)).max(Length::from_mm(1_200));
        if whole(book, &supply.fabric).length() + self.on_order(&supply.fabric) > due {
            return Ok(());
        }
        self.order(book, supply, lately, Comes::Usually).await
    }

    /// Orders so much of a cloth, or more: whole bolts, and the least order.
    ///
    /// # Errors
    /// The stock cannot be had.
    pub(super) async fn order(
        &mut self,
        book: &mut Book<'_>,
        supply: &Supply,
        wanted: Length,
        comes: Comes,
    ) -> Result<(), Error> {
        let bolt = supply.bolt.um().max(1);
        let bolts = u32::try_from((wanted.max(supply.least).um() + bolt - 1) / bolt).unwrap_or(1).max(1);
        let lead = i32::try_from(supply.lead_days).unwrap_or(0);
        let expected_day = book.day + lead;
        let order = book.order();
        book.write(Command::Place(Place {
            id: order.clone(),
            supplier: supply.supplier.clone(),
            expected_day,
            note: String::new(),
            lines: vec![NewOrderLine {
                material: cloth(&supply.fabric),
                amount: Amount::of_length(supply.bolt * i64::from(bolts)),
            }],
        }))
        .await?;
        self.lots += 1;
        let lot = format!("L{:04}", self.lots);
        let late = match comes {
            Comes::OnTheDay => 0,
            Comes::Never => 100_000,
            Comes::Usually if book.dice.in_hundred(11) => book.dice.from(4, 9),
            Comes::Usually => book.dice.from(-1, 2),
        };
        let day = expected_day.saturating_add(i32::try_from(late).unwrap_or(0));
        let mut coming = Coming { day, order, supply: supply.clone(), bolts, lot };
        if bolts > 1 && comes == Comes::Usually && book.dice.in_hundred(17) {
            let rest = bolts / 2;
            let later = day + i32::try_from(book.dice.from(5, 8)).unwrap_or(5);
            let (order, supply, lot) = (coming.order.clone(), supply.clone(), coming.lot.clone());
            self.coming.push(Coming { day: later, order, supply, bolts: rest, lot });
            coming.bolts -= rest;
        }
        self.coming.push(coming);
        Ok(())
    }

    /// Puts on the shelf what has come by today.
    ///
    /// # Errors
    /// The stock cannot be had.
    pub(super) async fn receive(&mut self, book: &mut Book<'_>) -> Result<(), Error> {
        let (came, coming) = std::mem::take(&mut self.coming).into_iter().partition(|c| c.day <= book.day);
        self.coming = coming;
        let came: Vec<Coming> = came;
        for Coming { order, supply, bolts, lot, .. } in came {
            let pieces = (0..bolts).map(|_| bolt(book, &supply, &lot)).collect();
            book.write(Command::Receive(Receive { pieces, order: Some(order) })).await?;
        }
        Ok(())
    }

    /// Puts bolts on the shelf that come on no order: those of the first day, and those of cloth of
    /// which the catalogue does not say how it is bought.
    ///
    /// # Errors
    /// The stock cannot be had.
    pub(super) async fn opening(
        &mut self,
        book: &mut Book<'_>,
        code: &str,
        supply: Option<&Supply>,
        bolts: u32,
        length: Length,
    ) -> Result<(), Error> {
        self.lots += 1;
        let lot = format!("C{:04}", self.lots);
        let counter = || Supply {
            fabric: code.to_owned(),
            supplier: COUNTER.to_owned(),
            reference: String::new(),
            lead_days: 0,
            bolt: length,
            least: length,
            last_of_it: false,
        };
        let supply = supply.cloned().unwrap_or_else(counter);
        let pieces = (0..bolts).map(|_| bolt(book, &supply, &lot)).collect();
        book.write(Command::Receive(Receive { pieces, order: None })).await.map(drop)
    }
}

fn bolt(book: &mut Book<'_>, supply: &Supply, lot: &str) -> NewPiece {
    let fabric = book.catalogue.shop.fabrics.iter().find(|fabric| fabric.code == supply.fabric);
    let cost = fabric.map(|fabric| fabric.price.per_metre(supply.bolt, Rounding::HalfUp).minor());
    let width = fabric.map_or(Length::ZERO, |fabric| fabric.usable_width);
    NewPiece {
        id: book.piece(&supply.fabric),
        kind: PieceKind::Bolt,
        material: cloth(&supply.fabric),
        lot: lot.to_owned(),
        width,
        amount: Amount::of_length(supply.bolt),
        flaws: Vec::new(),
        location: "rack".to_owned(),
        cost_minor: cost,
        supplier: supply.supplier.clone(),
        supplier_reference: supply.reference.clone(),
        certificates: Vec::new(),
    }
}

/// The material of a cloth.
pub(super) fn cloth(code: &str) -> Material {
    Material { class: Class::Cloth, code: code.to_owned() }
}

/// What is free of a cloth at its full width: of strips nobody makes a string.
fn whole(book: &Book<'_>, code: &str) -> Amount {
    let fabric = book.catalogue.shop.fabrics.iter().find(|fabric| fabric.code == code);
    let width = fabric.map_or(Length::ZERO, |fabric| fabric.usable_width);
    let shelf = book.ledger.shelf();
    let pieces = shelf.of(&cloth(code)).iter().filter(|on_shelf| on_shelf.piece.width >= width);
    pieces.map(|on_shelf| on_shelf.piece.free()).sum()
}

/// What is free of a cloth.
pub(super) fn free(book: &Book<'_>, code: &str) -> Amount {
    book.ledger.shelf().of(&cloth(code)).iter().map(|on_shelf| on_shelf.piece.free()).sum()
}
