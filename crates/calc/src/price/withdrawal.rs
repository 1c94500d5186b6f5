//! Whether a consumer who buys at a distance may withdraw.
//!
//! Goods made to the consumer's own specification are excepted from the right to withdraw:
//! Directive 2011/83/EU, Article 16(c), in the member states of the European Union, and
//! SI 2013/3134, regulation 28(1)(b), in the United Kingdom. The exception is read
//! narrowly: a measurement that the consumer gave makes it, a choice among what is offered
//! to everybody does not (Commission Notice 2021/C 525/01, section 5.11.2). These texts were
//! read in part and in part as others quote them, so the answer says so; whoever relies on
//! it should have it looked at. Other countries are not looked at.
//!
//! Offered to everybody here are a design as it is, on one of its stock lengths, in any of
//! the constructions, fabrics, bindings, trimmings and ends of the catalogue. Everything
//! else is a specification of the buyer's own: another length, a length between hooks, a
//! number of pennants, another size, gap or tail, a lettering.

use crate::order::{AskedLength, ColourRule, Leftover, Order};
use crate::shop::Shop;

/// Whether a consumer may withdraw, and why.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Withdrawal {
    /// Whether; none where the law of the country is not looked at.
    pub applies: Option<bool>,
    /// Why, in words.
    pub reason: String,
    /// Where that is written.
    pub source: &'static str,
}

/// Member states of the European Union, ISO 3166-1 (from memory, in the order of codes).
const UNION: [&str; 27] = [
    "AT", "BE", "BG", "CY", "CZ", "DE", "DK", "EE", "ES", "FI", "FR", "GR", "HR", "HU", "IE", "IT", "LT",
    "LU", "LV", "MT", "NL", "PL", "PT", "RO", "SE", "SI", "SK",
];

const OF_UNION: &str = "Directive 2011/83/EU Art. 16(c) and Commission Notice 2021/C 525/01, 5.11.2 (read in part, in \
                        part as quoted by others: have it looked at before you rely on it)";
const OF_KINGDOM: &str = "SI 2013/3134 reg. 28(1)(b) (read in part, in part as quoted by others: have it looked at \
                          before you rely on it)";

/// Looks at an order as a consumer's in the country it goes to.
pub fn withdrawal(shop: &Shop, order: &Order) -> Withdrawal {
    let country = order.country.as_str();
    let source = if UNION.contains(&country) {
        OF_UNION
    } else if country == "GB" {
        OF_KINGDOM
    } else {
        let reason = format!("not looked at for \"{country}\": local law decides");
        return Withdrawal { applies: None, reason, source: "" };
    };
    let (applies, reason) = match own(shop, order) {
        Some(own) => (
            false,
            format!(
                "made to the buyer's own specification ({own}): a consumer has no right to withdraw from it"
            ),
        ),
        None => (
            true,
            String::from(
                "offered to everybody, with nothing but choices among what is offered: a consumer may withdraw",
            ),
        ),
    };
    Withdrawal { applies: Some(applies), reason, source }
}

/// What makes it the buyer's own, where something does.
fn own(shop: &Shop, order: &Order) -> Option<&'static str> {
    let Some(design) = shop.designs.get(order.design) else { return Some("a design of its own") };
    if !order.letters.is_empty() {
        return Some("a lettering");
    }
    let size = (order.shape, order.width, order.drop, order.detail, order.size_at);
    if size != (design.shape, design.width, design.drop, design.detail, design.size_at) {
        return Some("a size of pennant that is not the design's");
    }
    if order.count.is_some() || order.parity.is_some() || order.rule == ColourRule::Listed {
        return Some("a number of pennants or an arrangement of its own");
    }
    match order.length {
        Some(AskedLength::Flagged(length)) if design.stock.contains(&length) => {}
        _ => return Some("a length that is no stock length"),
    }
    // the usual gap, spread so that the length is filled
    let bounded = order.min_gap.is_some() || order.max_gap.is_some() || order.leftover == Leftover::Tails;
    (bounded || order.gap != design.gap || order.tail != design.tail).then_some("gaps or tails of its own")
}
