//! The price.

use pennantry_calc::layout::Layout;
use pennantry_calc::order::Order;
use pennantry_calc::price::{CostKind, LineKind};
use pennantry_calc::quote::Worked;
use pennantry_calc::shop::{Shop, Surplus};
use pennantry_calc::sundries::UsedKind;
use pennantry_contract::v1;
use pennantry_measure::Length;

use super::bench::minutes;
use super::{materials, percent};

pub(super) fn write(shop: &Shop, order: &Order, worked: &Worked, view: v1::View) -> v1::Price {
    let price = &worked.price;
    let money = |amount| super::money(shop, amount);
    let lines = price.lines.iter().map(|line| {
        let (code, text) = match line.kind {
            LineKind::Goods => ("GOODS", goods(order, &worked.layout)),
            LineKind::MinimumCharge => {
                ("MINIMUM_CHARGE", String::from("Up to the minimum charge for an order"))
            }
        };
        v1::PriceLine { code: code.to_owned(), text, amount: Some(money(line.amount)), tax: None }
    });
    v1::Price {
        lines: lines.collect(),
        total: Some(money(price.total)),
        minor_digits: u32::from(shop.minor_digits),
        tax: Some(v1::Tax {
            name: shop.pricing.tax_name.clone(),
            rate_percent: percent(shop.pricing.tax_rate),
            included: Some(money(price.tax)),
            ..v1::Tax::default()
        }),
        cost: (view == v1::View::Shop).then(|| cost(shop, worked)),
        ..v1::Price::default()
    }
}

fn cost(shop: &Shop, worked: &Worked) -> v1::Cost {
    let price = &worked.price;
    let money = |amount| super::money(shop, amount);
    let lines = price.cost_lines.iter().map(|line| {
        let (code, text) = match line.kind {
            CostKind::Cloth(place) => ("CLOTH", cloth_text(shop, worked, place)),
            CostKind::Binding => ("BINDING", format!("Binding, {}", worked.binding.taken)),
            CostKind::Thread => ("THREAD", format!("Thread, {}", worked.thread.length)),
            CostKind::Used(kind) => used(shop, kind),
            CostKind::Bench => ("BENCH", format!("Bench, {} minutes", minutes(worked.labour.total))),
            CostKind::Surplus => ("SURPLUS", String::from("Surplus over cost")),
        };
        v1::PriceLine { code: code.to_owned(), text, amount: Some(money(line.amount)), tax: None }
    });
    v1::Cost {
        lines: lines.collect(),
        total: Some(money(price.cost)),
        net: Some(money(price.net)),
        surplus: Some(v1::Surplus {
            basis: Some(match shop.pricing.surplus {
                Surplus::Margin(share) => v1::surplus::Basis::MarginPercent(percent(share)),
                Surplus::Markup(share) => v1::surplus::Basis::MarkupPercent(percent(share)),
            }),
        }),
        ..v1::Cost::default()
    }
}

fn goods(order: &Order, layout: &Layout) -> String {
    let pennants = if layout.count == 1 { "pennant" } else { "pennants" };
    let string = format!("{} {pennants} on {}", layout.count, layout.overall);
    if order.quantity == 1 {
        format!("Bunting, {string}")
    } else {
        format!("Bunting, {} x {string}", order.quantity)
    }
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
