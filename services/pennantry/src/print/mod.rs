//! What the shelf and the bench are told, as text: pieces, reservations, cuts, orders,
//! events. Every figure stands in the answer; nothing is added up here.

pub mod bench;
pub mod event;
pub mod order;
pub mod piece;
pub mod promise;
pub mod reservation;

use pennantry_contract::v1;

use crate::cli::Reach;
use crate::length::Unit;
use crate::sheet::page::Page;
use crate::sheet::price;
use crate::typed::money::Currency;

/// How it is printed.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Look {
    /// Unit of its lengths.
    pub unit: Unit,
    /// Nothing but ASCII.
    pub plain: bool,
    /// What amounts of money are in, where that is known.
    pub currency: Option<Currency>,
}

impl Look {
    /// As the flags say.
    pub fn of(reach: &Reach) -> Look {
        Look { unit: reach.show, plain: reach.plain, currency: None }
    }

    fn page(&self) -> Page {
        Page::new(self.plain)
    }

    /// An amount with its currency; in minor units, and said so, where their number is not known.
    fn money(&self, money: &v1::Money) -> String {
        let code = &money.currency_code;
        match self.currency.as_ref().filter(|shop| shop.code == *code) {
            Some(shop) => format!("{code} {}", price::amount(money, shop.minor_digits)),
            None => format!("{} minor units of {code}", money.minor_units),
        }
    }
}

/// An instant without what is finer than a second: what is over at some fraction of it is said
/// to be over at the whole one before, so nobody comes too late.
///
/// ```
/// use pennantry::print::second;
/// assert_eq!(second("2026-11-30T13:09:16.376822Z"), "2026-11-30T13:09:16Z");
/// assert_eq!(second("2026-11-30T13:09:16Z"), "2026-11-30T13:09:16Z");
/// ```
pub fn second(time: &str) -> String {
    match time.split_once('.') {
        Some((whole, rest)) => {
            format!("{whole}{}", rest.trim_start_matches(|digit: char| digit.is_ascii_digit()))
        }
        None => time.to_owned(),
    }
}

/// A dash where there is nothing.
fn or_dash(text: &str) -> String {
    if text.is_empty() { "-".to_owned() } else { text.to_owned() }
}

/// Said where a request had been done before.
fn replayed(page: &mut Page, replayed: bool) {
    if replayed {
        page.line("this had been done before, and is the first answer: nothing was done again");
    }
}
