//! Invented shops and their mornings.

mod bad;
mod drawn;
mod figures;
mod monday;
mod property;
mod rests;
mod season;
mod sentences;
mod speed;

use std::collections::BTreeMap;

use pennantry_forecast::supply::service::Service;
use pennantry_ledger::DaySum;
use pennantry_ledger::rules::{Amount, At, DayUse, OrderId, PieceId, PieceKind};
use pennantry_ledger::stand::{Lot as StandLot, Lying, OpenLine, Stand, Standing};
use pennantry_measure::{Length, Rate};

use super::survey::cloth;
use super::*;

/// Monday 30 November 2026.
pub const MONDAY: i32 = 20_787;

/// Monday to Saturday.
pub fn six_days(day: i32) -> bool {
    day.rem_euclid(7) != 3
}

/// Monday to Friday.
pub fn five_days(day: i32) -> bool {
    !matches!(day.rem_euclid(7), 2 | 3)
}

pub fn cm(cm: i64) -> Length {
    Length::from_um(cm * 10_000)
}

pub fn amount(cm: i64) -> Amount {
    Amount(cm * 10_000)
}

/// A shop on a morning.
pub struct Shop {
    pub today: i32,
    pub open: fn(i32) -> bool,
    pub terms: Terms,
    pub fabrics: Vec<FabricTerms>,
    pub uses: Vec<DaySum>,
    pub stand: Stand,
    pub last_report: Option<(i32, At)>,
}

impl Shop {
    pub fn new(open: fn(i32) -> bool) -> Shop {
        Shop {
            today: MONDAY,
            open,
            terms: Terms::of(Service::cycle(0.95).unwrap()),
            fabrics: Vec::new(),
            uses: Vec::new(),
            stand: Stand { at: At(1_000), materials: BTreeMap::new() },
            last_report: None,
        }
    }

    pub fn day(&mut self, code: &str, day: i32, of: DayUse) {
        self.uses.push(DaySum { code: code.to_owned(), day, of });
    }

    pub fn came(&mut self, code: &str, day: i32, came: i64) {
        self.day(code, day, DayUse { came: amount(came), ..DayUse::default() });
    }

    pub fn used(&mut self, code: &str, day: i32, used: i64) {
        self.day(code, day, DayUse { used: amount(used), cuts: 1, ..DayUse::default() });
    }

    /// So much on each open day from `from` on, up to yesterday, out of plenty that came before;
    /// now there is `left`.
    pub fn steady(&mut self, code: &str, from: i32, each: i64, left: i64) {
        let days: Vec<i32> = (from..self.today).filter(|day| (self.open)(*day)).collect();
        let all = each * i64::try_from(days.len()).unwrap();
        self.came(code, from - 1, all + left);
        for day in days {
            self.used(code, day, each);
        }
        self.lies(code, left);
    }

    pub fn standing(&mut self, code: &str) -> &mut Standing {
        self.stand.materials.entry(cloth(code)).or_default()
    }

    /// One bolt of so much, free.
    pub fn lies(&mut self, code: &str, on_hand: i64) {
        let all = amount(on_hand);
        let piece = Lying {
            id: PieceId::from("B-1"),
            kind: PieceKind::Bolt,
            width: Length::from_mm(1_400),
            left: all,
            free: all,
            longest: all,
        };
        let standing = self.standing(code);
        (standing.on_hand, standing.free) = (all, all);
        standing.lots = vec![StandLot { lot: "L1".into(), longest: all, pieces: vec![piece] }];
        if on_hand == 0 {
            standing.lots.clear();
        }
    }

    pub fn ordered(&mut self, code: &str, order: &str, expected_day: i32, ordered: i64) {
        let line = OpenLine {
            supplier: "Harbour Cloth".into(),
            order: OrderId::from(order),
            placed: At(0),
            expected_day,
            ordered: amount(ordered),
            received: Amount::ZERO,
        };
        self.standing(code).open.push(line);
    }

    pub fn morning(&self) -> Morning<'_> {
        Morning {
            today: self.today,
            zone: "Europe/London",
            catalogue_revision: "r1",
            open: &self.open,
            known_to: None,
            terms: &self.terms,
            fabrics: &self.fabrics,
            uses: &self.uses,
            stand: &self.stand,
            last_report: self.last_report,
        }
    }

    pub fn report(&self, code: &str) -> FabricReport {
        let morning = self.morning();
        fabric(&morning, &survey(&morning), code)
    }

    pub fn all(&self) -> (Vec<FabricReport>, Whole) {
        let morning = self.morning();
        let survey = survey(&morning);
        let parts: Vec<_> = survey.codes().iter().map(|code| fabric(&morning, &survey, code)).collect();
        let gists: Vec<_> = parts.iter().map(FabricReport::gist).collect();
        let whole = whole(&morning, &survey, &gists);
        (parts, whole)
    }
}

/// Kelp at 0.60 m on each day from Monday to Saturday for a year, 4.00 m left; ten days from the
/// order: 6.00 m is the reorder point.
pub fn steady_kelp() -> Shop {
    let mut shop = Shop::new(six_days);
    shop.terms.cover_days = 21;
    shop.fabrics = vec![kelp()];
    shop.steady("KELP", MONDAY - 364, 60, 400);
    shop
}

/// Kelp in bolts of 5 m, at least one, ten days from the order, 9.60 a metre.
pub fn kelp() -> FabricTerms {
    FabricTerms {
        code: "KELP".into(),
        name: "Kelp".into(),
        width: Some(Length::from_mm(1_400)),
        price_per_metre: Some(Rate::from_micro_minor(960_000_000)),
        least: Some(Least { length: cm(20), width: cm(10) }),
        buying: Some(BuyingTerms {
            supplier: "Harbour Cloth".into(),
            supplier_reference: "HC-12".into(),
            lead_days: 10,
            bolt: cm(500),
            least: cm(500),
            last_of_it: false,
        }),
    }
}

/// The codes of notes.
pub fn codes(notes: &[Note]) -> Vec<&'static str> {
    notes.iter().map(|note| note.code).collect()
}
