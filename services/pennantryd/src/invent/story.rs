//! The days, one after the other.
//!
//! Each morning overdue holds end and whatever has come goes on the shelf; on open days the bench
//! cuts what is due; buyers order, at weekends less; in the evening the shop orders cloth. What happens
//! once only is told by how many days before the last one it lies:
//!
//! | days before the last | what |
//! |---|---|
//! | 215 and 200 | 20 m of rope come for a festival, and eight strings of a kind take most of it |
//! | 100 to 40 | lamp oil is not ordered until the last of it has gone into the shop's own window: out for ten days |
//! | 62 | the new stripe is ordered for the first time |
//! | 16 | rope is ordered that is still not there on the last day |
//! | 3 to 1 | one order is paid for by bank and held meanwhile |
//!
//! Stock is counted at the beginning of each quarter, and three weeks before the last day; one piece
//! in three is then some centimetres short, and narrow strips are given away. Of a hundred cuts two are recorded a day late; three in
//! all are taken back and recorded again.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use jiff::ToSpan;
use jiff::civil::Date;
use pennantry_app::day;
use pennantry_app::report::bench_open;
use pennantry_app::restock::Supply;
use pennantry_app::stock::Wanted;
use pennantry_ledger::Error;
use pennantry_ledger::rules::{
    Adjust, Adjustment, Amount, Cancel, Class, Command, PieceId, Reason, ReservationId, Sweep,
};
use pennantry_measure::Length;

use super::bench::{self, Recorded};
use super::book::Book;
use super::buying::{Buying, free};
use super::once;
use super::sales::{Sale, Sales, Sold};
use super::wishes::{Wish, wishes};

/// How many bolts lie there on the first day, and of what length where the catalogue does not say.
const OPENING: [(&str, u32, i64); 13] = [
    ("kelp", 4, 0),
    ("chandlers-rope", 3, 0),
    ("lamp-oil", 3, 0),
    ("quay-stone", 4, 0),
    ("saltmere-tern", 1, 0),
    ("loft-lights", 1, 0),
    ("oilskin", 2, 0),
    ("pilot-map", 2, 0),
    ("sail-end", 2, 5_000),
    ("bell-buoy", 2, 5_000),
    ("driftwood", 2, 5_000),
    ("marram-linen", 2, 8_000),
    ("sea-glass", 12, 500),
];
/// Cloth that is not bought again, and from what is left of it on nobody orders it.
const KEPT_BACK: [(&str, i64); 2] = [("oilskin", 5_000), ("pilot-map", 1_300)];
/// What is to be cut.
struct Job {
    reservation: ReservationId,
    sold: Arc<Sold>,
    /// The day it was cut on, where that is recorded later.
    on: Option<i32>,
}

/// What a story came to.
#[derive(Debug, Clone, Default)]
pub(super) struct Told {
    pub commands: u32,
    pub orders: u32,
    pub cuts: u32,
    pub lost: u32,
}

/// A story as it is written.
pub(super) struct Story<'a> {
    pub(super) book: Book<'a>,
    pub(super) sales: Sales,
    pub(super) buying: Buying,
    due: BTreeMap<i32, Vec<Job>>,
    last: i32,
    /// What has happened that happens once.
    done: BTreeSet<&'static str>,
    told: Told,
}

impl<'a> Story<'a> {
    pub(super) fn new(book: Book<'a>, last: Date) -> Story<'a> {
        Story {
            book,
            sales: Sales::default(),
            buying: Buying::default(),
            due: BTreeMap::new(),
            last: day(last).0,
            done: BTreeSet::new(),
            told: Told::default(),
        }
    }

    /// Writes it from a first day on.
    ///
    /// # Errors
    /// The stock cannot be had.
    pub(super) async fn write(mut self, first: Date, last: Date) -> Result<Told, Error> {
        let mut date = first;
        self.book.begin(date)?;
        self.opening().await?;
        while date <= last {
            self.book.begin(date)?;
            self.day(date).await?;
            date = date.checked_add(1.day()).map_err(|cause| Error::Fault(cause.to_string()))?;
        }
        self.told.commands = self.book.commands;
        Ok(self.told)
    }

    /// Whether something did not happen before; from now on it has.
    pub(super) fn first(&mut self, what: &'static str) -> bool {
        self.done.insert(what)
    }

    /// Whether something has not happened.
    pub(super) fn is_to_come(&self, what: &str) -> bool {
        !self.done.contains(what)
    }

    /// How the catalogue says that a cloth is bought.
    pub(super) fn supply(&self, code: &str) -> Option<Supply> {
        self.book.catalogue.restock.of(code).cloned()
    }

    async fn opening(&mut self) -> Result<(), Error> {
        for (code, bolts, mm) in OPENING {
            let supply = self.supply(code);
            let length = supply.as_ref().map_or(Length::from_mm(mm), |supply| supply.bolt);
            self.buying.opening(&mut self.book, code, supply.as_ref(), bolts, length).await?;
        }
        Ok(())
    }

    async fn day(&mut self, date: Date) -> Result<(), Error> {
        let before_last = self.last - self.book.day;
        let open = bench_open(&self.book.catalogue.shop.calendar, self.book.day);
        self.book.write(Command::Sweep(Sweep { most: 100 })).await?;
        if open {
            self.buying.receive(&mut self.book).await?;
            self.bench().await?;
            self.counts(date, before_last).await?;
        }
        let mut wanted = wishes(&mut self.book.dice, date, before_last);
        if !open {
            // the storefront is open, the counter is not
            wanted.truncate(1);
        }
        for wish in wanted {
            self.order(wish).await?;
        }
        if open {
            once::once(self, before_last).await?;
            self.restock(before_last).await?;
        }
        Ok(())
    }

    /// The shop looks at what it has.
    async fn restock(&mut self, before_last: i32) -> Result<(), Error> {
        for supply in self.book.catalogue.restock.supplies.clone() {
            let kept_back = KEPT_BACK.iter().any(|(code, _)| *code == supply.fabric);
            if !kept_back && !once::waits(self, &supply.fabric, before_last) {
                self.buying.look(&mut self.book, &supply).await?;
            }
        }
        Ok(())
    }

    /// The next open day after one.
    fn next_open(&self, after: i32) -> i32 {
        let calendar = &self.book.catalogue.shop.calendar;
        (after + 1..after + 60).find(|day| bench_open(calendar, *day)).unwrap_or(after + 1)
    }

    async fn order(&mut self, mut wish: Wish) -> Result<(), Error> {
        wish.fabrics.retain(|code| {
            let kept = KEPT_BACK.iter().find(|(of, _)| of == code);
            kept.is_none_or(|(_, mm)| free(&self.book, code) > Amount::of_length(Length::from_mm(*mm)))
        });
        let mut tries = 0;
        while !wish.fabrics.is_empty() && tries < 3 {
            tries += 1;
            match self.sales.take(&mut self.book, &wish, None).await? {
                Sale::Confirmed(id, sold) => return self.confirmed(id, sold).await,
                Sale::Held => return Ok(()),
                Sale::Missing(missing) => self.missing(&mut wish, missing).await?,
            }
        }
        self.told.lost += 1;
        Ok(())
    }

    /// Somebody runs to the counter, or the buyer takes the other colours.
    async fn missing(&mut self, wish: &mut Wish, missing: BTreeSet<String>) -> Result<(), Error> {
        for code in missing {
            let counter = OPENING.iter().find(|(of, _, mm)| *of == code && *mm > 0);
            if let Some((code, bolts, mm)) = counter {
                let length = Length::from_mm(*mm);
                self.buying.opening(&mut self.book, code, None, *bolts, length).await?;
            } else {
                wish.fabrics.retain(|wanted| *wanted != code);
            }
        }
        Ok(())
    }

    async fn confirmed(&mut self, id: ReservationId, sold: Arc<Sold>) -> Result<(), Error> {
        self.told.orders += 1;
        if self.book.dice.in_hundred(1) {
            let reason = "the buyer changed their mind".to_owned();
            return self.book.write(Command::Cancel(Cancel { id, reason })).await.map(drop);
        }
        for item in &sold.items {
            if let (Class::Cloth, Wanted::Cloth(_)) = (item.material.class, &item.wanted) {
                let amount = Amount::of_length(item.charged);
                self.buying.sold(&item.material.code, self.book.day, amount);
            }
        }
        let mut on = self.next_open(self.book.day);
        if self.book.dice.in_hundred(40) {
            on = self.next_open(on);
        }
        // one of last week's is among those that are recorded late
        let late = self.book.dice.in_hundred(2) || self.last - on == 4;
        let (recorded, cut) = if late { (self.next_open(on), Some(on)) } else { (on, None) };
        self.due.entry(recorded).or_default().push(Job { reservation: id, sold, on: cut });
        Ok(())
    }

    /// A large order is to be cut on the next open day.
    pub(super) fn cut_next(&mut self, reservation: ReservationId, sold: Arc<Sold>) {
        self.told.orders += 1;
        let on = self.next_open(self.book.day);
        self.due.entry(on).or_default().push(Job { reservation, sold, on: None });
    }

    async fn bench(&mut self) -> Result<(), Error> {
        for job in self.due.remove(&self.book.day).unwrap_or_default() {
            self.told.cuts += 1;
            let recorded = match job.on {
                Some(day) => Recorded::For(day),
                None if self.told.cuts % 400 == 200 => Recorded::Twice,
                None => Recorded::AtOnce,
            };
            bench::cut(&mut self.book, &job.reservation, &job.sold, recorded).await?;
        }
        Ok(())
    }

    /// Counts, and what is taken for samples.
    async fn counts(&mut self, date: Date, before_last: i32) -> Result<(), Error> {
        let quarter = date.day() <= 7 && date.month() % 3 == 1 && self.is_first_open(date);
        if quarter || before_last == 21 {
            for id in self.pieces(&|_| true) {
                let short = Amount::of_length(Length::from_mm(self.book.dice.from(8, 45)));
                if self.book.dice.in_hundred(33) && id.2 > short {
                    let note = "stock-take".to_owned();
                    let what = Adjustment::Counted(id.1 - short);
                    self.book.write(Command::Adjust(Adjust { piece: id.0, what, note })).await?;
                }
            }
            self.clear_out().await?;
        }
        if date.day() == 15 {
            let sample = Amount::of_length(Length::from_mm(150));
            if let Some((piece, _, free)) = self.pieces(&|code| code == "kelp").pop()
                && free > sample
            {
                let what = Adjustment::Gone(sample, Reason::Sample);
                let note = "sample cards".to_owned();
                self.book.write(Command::Adjust(Adjust { piece, what, note })).await?;
            }
        }
        Ok(())
    }

    /// Strips that nobody took are given away.
    async fn clear_out(&mut self) -> Result<(), Error> {
        let wide = |code: &str| {
            let fabrics = &self.book.catalogue.shop.fabrics;
            fabrics.iter().find(|fabric| fabric.code == code).map_or(Length::ZERO, |f| f.usable_width)
        };
        let shelf = self.book.ledger.shelf();
        let cloth = shelf.materials.iter().filter(|(material, _)| material.class == Class::Cloth);
        let narrow = cloth.flat_map(|(material, pieces)| {
            pieces.iter().filter(|on_shelf| on_shelf.piece.width < wide(&material.code))
        });
        let idle = narrow.filter(|on_shelf| on_shelf.piece.free() == on_shelf.piece.left);
        let strips: Vec<_> = idle.map(|on_shelf| (on_shelf.piece.id.clone(), on_shelf.piece.left)).collect();
        for (piece, left) in strips {
            let what = Adjustment::Gone(left, Reason::Other);
            let note = "given to the school".to_owned();
            self.book.write(Command::Adjust(Adjust { piece, what, note })).await?;
        }
        Ok(())
    }

    /// Whether a day is the first open one of its month.
    fn is_first_open(&self, date: Date) -> bool {
        let first = self.book.day - i32::from(date.day());
        self.next_open(first) == self.book.day
    }

    /// Pieces of cloth by name, what lies on them and what of it is free.
    pub(super) fn pieces(&self, of: &dyn Fn(&str) -> bool) -> Vec<(PieceId, Amount, Amount)> {
        let shelf = self.book.ledger.shelf();
        let cloth = shelf.materials.iter().filter(|(m, _)| m.class == Class::Cloth && of(&m.code));
        let pieces = cloth.flat_map(|(_, pieces)| pieces.iter());
        pieces.map(|p| (p.piece.id.clone(), p.piece.left, p.piece.free())).collect()
    }
}
