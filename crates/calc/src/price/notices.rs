//! What there is to say about a price.

use pennantry_measure::Money;

use super::{Asked, LineKind, Price, written};
use crate::notice::{Code, Notice};
use crate::shop::TaxPoint;

/// What to look at: a least charge that stands, a delivery that is not in it, a tax that
/// changes before the quote ends; for the shop alone that the net is below its floor.
pub(super) fn notices(asked: &Asked, price: &Price, goods: Money) -> Vec<Notice> {
    let shop = asked.shop;
    let mut notices = Vec::new();
    let mut note = |code, message: String| notices.push(Notice { code, field: None, message });
    let has = |kind| price.lines.iter().any(|line| line.kind == kind);
    if has(LineKind::MinimumCharge) {
        note(
            Code::MinimumCharge,
            format!(
                "the goods come to {}; the least charge for an order is {}",
                written(shop, goods),
                written(shop, shop.pricing.minimum)
            ),
        );
    }
    if !has(LineKind::Delivery) {
        let message = "no service takes it as it is, so delivery is not in the total: delivery may be payable; ask \
                       the shop before you order";
        note(Code::DeliveryOpen, String::from(message));
    }
    if let Some(message) = tax_changes(asked) {
        note(Code::TaxChanges, message);
    }
    // what rounding takes from a price that aims at the floor itself
    let rounded = shop.pricing.tax.as_ref().is_some_and(|tax| tax.included) && price.tax.is_some();
    let slack = Money::from_minor(rounded.into());
    if let Some(floor) = price.floor.filter(|floor| price.net + slack < *floor) {
        note(
            Code::BelowFloor,
            format!(
                "the price before tax, {}, is below {}, the least that the floor of {} allows: it covers less than \
                 the shop wants to keep",
                written(shop, price.net),
                written(shop, floor),
                shop.pricing.floor.unwrap_or_default()
            ),
        );
    }
    notices
}

/// That another rate holds from a day on before the quote ends, or before it leaves: whoever
/// pays from that day on may owe another tax than was quoted.
fn tax_changes(asked: &Asked) -> Option<String> {
    let tax = asked.shop.pricing.tax.as_ref()?;
    let held = asked.today + i32::try_from(asked.shop.valid_days).unwrap_or(i32::MAX);
    let last = asked.leaves.map_or(held, |leaves| leaves.max(held));
    let now = tax.rate_on(asked.today);
    let change = tax
        .rates
        .iter()
        .find(|rate| rate.from > asked.today && rate.from <= last && Some(rate.share) != now)?;
    let used = match tax.point {
        TaxPoint::Order => "the day of the order",
        TaxPoint::Leave => "the day it leaves",
    };
    Some(format!(
        "{} changes: {} on {}, {} from {} on; the rate of {used} was taken: from then on ask again before anything is \
         paid",
        tax.name,
        now.map_or_else(|| String::from("none"), |rate| rate.to_string()),
        asked.today,
        change.share,
        change.from
    ))
}
