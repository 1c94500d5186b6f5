//! The price.

use pennantry_calc::layout::Layout;
use pennantry_calc::order::{Off, Order};
use pennantry_calc::price::{CostKind, Line, LineKind, Withdrawal, off};
use pennantry_calc::quote::Worked;
use pennantry_calc::shop::{Basis, Shop, Surplus};
use pennantry_calc::sundries::UsedKind;
use pennantry_contract::v1;
use pennantry_measure::{Length, Money, Percent};

use super::bench::minutes;
use super::{materials, percent, words};

pub(super) fn write(shop: &Shop, order: &Order, worked: &Worked, view: v1::View) -> v1::Price {
    let price = &worked.price;
    let money = |amount| super::money(shop, amount);
    v1::Price {
        lines: price.lines.iter().map(|line| selling(shop, order, worked, line)).collect(),
        total: Some(money(price.total)),
        minor_digits: u32::from(shop.minor_digits),
        tax: tax(shop, worked),
        cost: (view == v1::View::Shop).then(|| cost(shop, worked)),
        per_metre: price.per_metre.map(money),
        basis: words::price_basis(shop.pricing.basis).into(),
        withdrawal: Some(withdrawal(&price.withdrawal)),
        strings: price.strings.iter().copied().map(money).collect(),
        breaks: shop
            .pricing
            .breaks
            .iter()
            .map(|one| v1::QuantityBreak { quantity: one.from, off_percent: percent(one.off) })
            .collect(),
    }
}

fn selling(shop: &Shop, order: &Order, worked: &Worked, line: &Line) -> v1::PriceLine {
    let (code, text) = match line.kind {
        LineKind::Goods => ("GOODS", goods(shop, order, &worked.layout)),
        LineKind::MinimumCharge => ("MINIMUM_CHARGE", String::from("Up to the minimum charge for an order")),
        LineKind::Rush => {
            let share = shop.calendar.rush.unwrap_or_default();
            ("RUSH", format!("Made before all that is promised already, {share} of {}", base(worked)))
        }
        LineKind::Discount => (words::DISCOUNT, discount(order, worked)),
        LineKind::Delivery => ("DELIVERY", delivery(shop, worked)),
        LineKind::Tax => ("TAX", added(shop, worked)),
    };
    let money = |amount| super::money(shop, amount);
    v1::PriceLine { code: code.to_owned(), text, amount: Some(money(line.amount)), tax: line.tax.map(money) }
}

fn goods(shop: &Shop, order: &Order, layout: &Layout) -> String {
    let pennants = if layout.count == 1 { "pennant" } else { "pennants" };
    let string = format!("{} {pennants} on {}", layout.count, layout.overall);
    let strings = if order.quantity == 1 { string } else { format!("{} x {string}", order.quantity) };
    let off = off(&shop.pricing.breaks, order.quantity);
    if off == Percent::default() {
        format!("Bunting, {strings}")
    } else {
        format!("Bunting, {strings}, at {off} off for the quantity")
    }
}

/// What shares are of.
fn base(worked: &Worked) -> &'static str {
    if worked.price.lines.iter().any(|line| line.kind == LineKind::MinimumCharge) {
        "goods and minimum charge"
    } else {
        "the goods"
    }
}

fn discount(order: &Order, worked: &Worked) -> String {
    let Some(discount) = &order.discount else { return String::new() };
    match discount.off {
        Off::Share(share) => format!("{share} off {}: {}", base(worked), discount.reason),
        Off::Amount(_) => format!("Off: {}", discount.reason),
    }
}

fn delivery(shop: &Shop, worked: &Worked) -> String {
    let service = worked.parcel.as_ref().ok().and_then(|parcel| shop.services.get(parcel.service));
    service.map_or_else(|| String::from("Delivery"), |service| format!("Delivery, {}", service.name))
}

fn added(shop: &Shop, worked: &Worked) -> String {
    let name = shop.pricing.tax.as_ref().map_or("", |tax| tax.name.as_str());
    let rate = worked.price.tax.map(|tax| tax.rate).unwrap_or_default();
    format!("{name}, {rate}")
}

/// The tax; none where the shop is not registered for one.
fn tax(shop: &Shop, worked: &Worked) -> Option<v1::Tax> {
    let (tax, taxed) = (shop.pricing.tax.as_ref()?, worked.price.tax?);
    Some(v1::Tax {
        name: tax.name.clone(),
        rate_percent: percent(taxed.rate),
        included: Some(super::money(shop, taxed.included)),
        net: Some(super::money(shop, worked.price.net)),
        lines_include: tax.included,
        level: words::tax_level(tax.level).into(),
        rounding: words::tax_rounding(tax.rounding).into(),
        point_date: taxed.point.to_string(),
        registration: tax.registration.clone().unwrap_or_default(),
    })
}

fn withdrawal(found: &Withdrawal) -> v1::Withdrawal {
    let right = match found.applies {
        None => v1::WithdrawalRight::Unspecified,
        Some(false) => v1::WithdrawalRight::Excluded,
        Some(true) => v1::WithdrawalRight::Applies,
    };
    v1::Withdrawal { right: right.into(), reason: found.reason.clone(), source: found.source.to_owned() }
}

fn cost(shop: &Shop, worked: &Worked) -> v1::Cost {
    let price = &worked.price;
    let money = |amount: Money| super::money(shop, amount);
    let lines = price.cost_lines.iter().map(|line| {
        let bench = || format!("{} minutes", minutes(worked.labour.total));
        let (code, text) = match line.kind {
            CostKind::Cloth(place) => ("CLOTH", cloth_text(shop, worked, place)),
            CostKind::Binding => ("BINDING", format!("Binding, {}", worked.binding.taken)),
            CostKind::Thread => ("THREAD", format!("Thread, {}", worked.thread.length)),
            CostKind::Used(kind) => used(shop, kind),
            CostKind::Bench => ("BENCH", format!("Bench, {}", bench())),
            CostKind::Overhead => ("OVERHEAD", format!("Overhead, {}", bench())),
            CostKind::Postage => ("POSTAGE", String::from("Postage")),
            CostKind::Fee => ("FEE", String::from("Fee of the payment")),
            CostKind::Surplus => ("SURPLUS", String::from("Surplus over cost")),
        };
        v1::PriceLine { code: code.to_owned(), text, amount: Some(money(line.amount)), tax: None }
    });
    v1::Cost {
        lines: lines.collect(),
        total: Some(money(price.cost)),
        net: Some(money(price.net)),
        surplus: surplus(shop),
        before_point: price.before_point.map(money),
        floor: price.floor.map(money),
    }
}

/// How the surplus is set; none where a list says the price.
fn surplus(shop: &Shop) -> Option<v1::Surplus> {
    let Basis::CostPlus(surplus) = shop.pricing.basis else { return None };
    let basis = match surplus {
        Surplus::Margin(share) => v1::surplus::Basis::MarginPercent(percent(share)),
        Surplus::Markup(share) => v1::surplus::Basis::MarkupPercent(percent(share)),
    };
    Some(v1::Surplus { basis: Some(basis) })
}

fn cloth_text(shop: &Shop, worked: &Worked, place: usize) -> String {
    let name = shop.fabrics.get(place).map_or("", |f| f.name.as_str());
    let charged = worked.cloth.iter().filter(|c| c.fabric == place).map(|c| c.charged);
    format!("{name}, {}", charged.fold(Length::ZERO, |sum, one| sum + one))
}

fn used(shop: &Shop, kind: UsedKind) -> (&'static str, String) {
    let code = match kind {
        UsedKind::Sundry(_) => "SUNDRY",
        UsedKind::Trimming(_) => "TRIMMING",
    };
    (code, materials::named(shop, kind).1.to_owned())
}
