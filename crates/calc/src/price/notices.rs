//! What there is to say about a price.

use pennantry_measure::{Money, Percent};

use super::{Asked, LineKind, Price, written};
use crate::notice::{Code, Notice};
use crate::shop::{Day, TaxPoint};

/// What to look at: a least charge that stands, a delivery that is not in it; for the shop
/// alone that the tax changes before it leaves, and that the net is below its floor.
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
    if let Some(floor) = price.floor.filter(|floor| price.net < *floor) {
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

/// That another rate holds on the day it leaves than on that of the order.
fn tax_changes(asked: &Asked) -> Option<String> {
    let (tax, leaves) = (asked.shop.pricing.tax.as_ref()?, asked.leaves?);
    let (now, then) = (tax.rate_on(asked.today), tax.rate_on(leaves));
    if now == then {
        return None;
    }
    let rate = |rate: Option<Percent>| rate.map_or_else(|| String::from("none"), |rate| rate.to_string());
    let of = |day: Day, share| format!("{} on {day}", rate(share));
    let used = match tax.point {
        TaxPoint::Order => "the day of the order",
        TaxPoint::Leave => "the day it leaves",
    };
    Some(format!(
        "{} changes between the order and the day it leaves: {}, {}; {used} was taken, look whether that is right",
        tax.name,
        of(asked.today, now),
        of(leaves, then)
    ))
}
