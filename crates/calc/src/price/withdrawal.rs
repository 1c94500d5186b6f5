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
//! else is a specification of the buyer's own: another length or number of pennants, another
//! size, gap or tail, a measurement of an end, a lettering.
//!
//! It is the string that decides and not how it is asked for: whatever was said, where the
//! same pennants come out with the same gap and tails as of the stock length alone, it is a
//! string of stock. So is a tie that is as long as the tail that it is anyway.

use pennantry_measure::Length;

use crate::layout::{self, Layout};
use crate::order::{AskedLength, End, Jurisdiction, Leftover, Order};
use crate::shop::{Design, Shop};

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

const OF_UNION: &str = "Directive 2011/83/EU Art. 16(c) and Commission Notice 2021/C 525/01, 5.11.2 (read in part, in \
                        part as quoted by others: have it looked at before you rely on it)";
const OF_KINGDOM: &str = "SI 2013/3134 reg. 28(1)(b) (read in part, in part as quoted by others: have it looked at \
                          before you rely on it)";

/// Looks at an order as a consumer's in the country it goes to.
pub fn withdrawal(shop: &Shop, order: &Order, layout: &Layout) -> Withdrawal {
    let country = order.country.as_str();
    let source = match Jurisdiction::of_country(country) {
        Some(Jurisdiction::Eu) => OF_UNION,
        Some(Jurisdiction::Gb) => OF_KINGDOM,
        Some(Jurisdiction::Us | Jurisdiction::Ca | Jurisdiction::Au) | None => {
            let reason = format!("not looked at for \"{country}\": local law decides");
            return Withdrawal { applies: None, reason, source: "" };
        }
    };
    let (applies, reason) = match own(shop, order, layout) {
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
fn own(shop: &Shop, order: &Order, layout: &Layout) -> Option<&'static str> {
    let Some(design) = shop.designs.get(order.design) else { return Some("a design of its own") };
    if !order.letters.is_empty() {
        return Some("a lettering");
    }
    if order.ends.iter().any(|end| measured(end, layout)) {
        return Some("a measurement of an end");
    }
    if order.shape != design.shape {
        return Some("a size of pennant that is not the design's");
    }
    // a string of stock fills its length, whatever it was asked by
    let Some(stock) = design.stock.iter().find(|stock| **stock == layout.flagged) else {
        return Some("a length that is no stock length");
    };
    let Ok(plain) = layout::spacing(shop, &as_offered(order, design, *stock)) else {
        return Some("a length that is not offered as it is");
    };
    let own = layout.spacing(order.shape);
    if own.finished != plain.finished {
        return Some("a size of pennant that is not the design's");
    }
    if own.count != plain.count {
        return Some("a number of pennants of its own");
    }
    (own != plain).then_some("gaps or tails of its own")
}

/// Whether the buyer gave a measurement of an end: of a loop, or of what is tied where that is
/// not the tail as it is.
fn measured(end: &End, layout: &Layout) -> bool {
    end.perimeter.is_some()
        || end.breakaway.is_some()
        || end.tie.is_some_and(|tie| tie != layout.tail)
        || end.second_tie.is_some()
        || end.ties_apart != Length::ZERO
}

/// The order as somebody has it who chooses the design and its stock length, and measures
/// nothing: the usual gap, spread so that the length is filled.
fn as_offered(order: &Order, design: &Design, stock: Length) -> Order {
    Order {
        length: Some(AskedLength::Flagged(stock)),
        count: None,
        gap: design.gap,
        gap_given: false,
        tail: design.tail,
        tail_given: false,
        leftover: Leftover::Gaps,
        parity: None,
        min_gap: None,
        max_gap: None,
        shape: design.shape,
        width: design.width,
        drop: design.drop,
        size_at: design.size_at,
        detail: design.detail,
        ..order.clone()
    }
}
