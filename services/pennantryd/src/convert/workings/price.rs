//! Workings of the price: see `pennantry_calc::price` for the formulas.

use pennantry_calc::binding::Supply;
use pennantry_calc::order::Order;
use pennantry_calc::price::{CostKind, LineKind, off};
use pennantry_calc::quote::Worked;
use pennantry_calc::shop::{Basis, BindingSource, Shop, Surplus, Tax, TaxLevel};
use pennantry_calc::sundries::UsedKind;
use pennantry_contract::v1;
use pennantry_measure::{Percent, Rate, Rounding};

use super::formula::Mode;
use super::layout::exactly;
use super::percent;
use super::sheet::{Sheet, Way};

const ONE: &str = "1";

/// To a whole minor unit.
fn minor(formula: &str, mode: Mode) -> Way {
    (formula.to_owned(), mode, ONE)
}

/// Minor units of a metre or an hour, to the millionth.
fn rate(rate: Rate) -> String {
    let (whole, part) = (rate.micro_minor() / 1_000_000, rate.micro_minor() % 1_000_000);
    format!("{whole}.{part:06}").trim_end_matches('0').trim_end_matches('.').to_owned()
}

pub(super) fn write(sheet: &mut Sheet, shop: &Shop, order: &Order, worked: &Worked, view: v1::View) {
    if view == v1::View::Shop {
        cost(sheet, shop, order, worked);
        goods(sheet, shop, order, worked);
    }
    lines(sheet, shop, worked, view);
    let sum = exactly("sum(price.lines[*].amount.minorUnits)");
    sheet.figure("price.total.minorUnits", "minor", "the sum of the lines", &[sum]);
    tax(sheet, shop, worked);
    let delivery = place(worked, LineKind::Delivery)
        .map_or_else(|| "0".to_owned(), |place| format!("price.lines[{place}].amount.minorUnits"));
    let added = |worked: &Worked| place(worked, LineKind::Tax).zip(place(worked, LineKind::Delivery));
    let delivery = match added(worked) {
        Some((_, place)) => format!("{delivery} - price.lines[{place}].tax.minorUnits"),
        None => delivery,
    };
    let metre =
        format!("1000 * (price.total.minorUnits - {delivery}) / (layout.overallMm * understood.quantity)");
    let source = "all but the delivery over the overall length of all strings";
    sheet.figure("price.perMetre.minorUnits", "minor/m", source, &[minor(&metre, Mode::HalfUp)]);
    for string in 0..sheet.count("price.strings") {
        let source = "the total shared out by largest remainder, of equal ones to the first";
        sheet.given(&format!("price.strings[{string}].minorUnits"), "minor", source);
    }
}

fn place(worked: &Worked, kind: LineKind) -> Option<usize> {
    worked.price.lines.iter().position(|line| line.kind == kind)
}

/// What the order costs the shop.
fn cost(sheet: &mut Sheet, shop: &Shop, order: &Order, worked: &Worked) {
    let made = |kind: CostKind| !matches!(kind, CostKind::Postage | CostKind::Fee | CostKind::Surplus);
    let lines = &worked.price.cost_lines;
    let names = |wanted: &dyn Fn(CostKind) -> bool| {
        let some = lines.iter().enumerate().filter(|(_, line)| wanted(line.kind));
        let some: Vec<String> =
            some.map(|(at, _)| format!("price.cost.lines[{at}].amount.minorUnits")).collect();
        if some.is_empty() { "0".to_owned() } else { some.join(" + ") }
    };
    for (at, line) in lines.iter().enumerate() {
        cost_line(sheet, shop, order, worked, at, line.kind);
    }
    sheet.via("via.madeMinor", &names(&made), "minor", "materials, bench and overhead");
    let all = exactly(&names(&|kind| kind != CostKind::Surplus));
    sheet.figure("price.cost.total.minorUnits", "minor", "the lines but for the surplus", &[all]);
    let net = [
        exactly("price.total.minorUnits - price.tax.included.minorUnits"),
        exactly("price.total.minorUnits"),
    ];
    sheet.figure("price.cost.net.minorUnits", "minor", "the total without the tax", &net);
    if let Some(floor) = shop.pricing.floor {
        sheet.constant("shop.floorPercent", percent(floor), "%", "catalogue, pricing.floor_margin_percent");
        let rest = names(&|kind| matches!(kind, CostKind::Postage | CostKind::Fee));
        let floor = format!("round(via.madeMinor * 100 / (100 - shop.floorPercent)) + {rest}");
        sheet.figure(
            "price.cost.floor.minorUnits",
            "minor",
            "cost over one less the margin",
            &[exactly(&floor)],
        );
    }
}

fn cost_line(sheet: &mut Sheet, shop: &Shop, order: &Order, worked: &Worked, at: usize, kind: CostKind) {
    let name = format!("price.cost.lines[{at}].amount.minorUnits");
    let own = format!("shop.cost.lines[{at}].minor");
    let way = |sheet: &mut Sheet, value: String, unit: &str, source: &str, formula: String| {
        sheet.constant(&own, value, unit, source);
        sheet.figure(&name, "minor", "rate x what it takes", &[minor(&formula, Mode::HalfUp)]);
    };
    match kind {
        CostKind::Cloth(of) => {
            let uses = worked.cloth.iter().enumerate().filter(|(_, used)| used.fabric == of);
            let charged: Vec<String> = uses.map(|(at, _)| format!("fabrics[{at}].chargedMm")).collect();
            let price = shop.fabrics.get(of).map(|fabric| rate(fabric.price)).unwrap_or_default();
            let formula = format!("({}) / 1000 * {own}", charged.join(" + "));
            way(sheet, price, "minor/m", "catalogue, the fabric", formula);
        }
        CostKind::Binding => {
            let source = shop.bindings.get(order.binding).map(|binding| &binding.source);
            let (price, length) = match (source, &worked.binding.supply) {
                (Some(BindingSource::Bought { price, .. }), _) => (rate(*price), "binding.takenMm"),
                (Some(BindingSource::Cloth { fabric, .. }), Supply::Straight { .. }) => (
                    shop.fabrics.get(*fabric).map(|f| rate(f.price)).unwrap_or_default(),
                    "binding.straight.chargedMm",
                ),
                (Some(BindingSource::Cloth { fabric, .. }), _) => (
                    shop.fabrics.get(*fabric).map(|f| rate(f.price)).unwrap_or_default(),
                    "binding.bias.chargedMm",
                ),
                (None, _) => return,
            };
            way(
                sheet,
                price,
                "minor/m",
                "catalogue, the binding or its cloth",
                format!("{length} / 1000 * {own}"),
            );
        }
        CostKind::Thread => {
            let price = rate(shop.bench.thread.price);
            way(sheet, price, "minor/m", "catalogue, the thread", format!("thread.lengthMm / 1000 * {own}"));
        }
        CostKind::Used(used) => {
            let Some(place) = worked.used.iter().position(|one| one.kind == used) else { return };
            let price = match used {
                UsedKind::Sundry(of) => shop.sundries.get(of).map(|one| one.price.minor()),
                UsedKind::Trimming(of) => shop.trimmings.get(of).map(|one| one.price.minor()),
            };
            let price = price.unwrap_or(0).to_string();
            way(sheet, price, "minor", "catalogue, price of one", format!("sundries[{place}].count * {own}"));
        }
        CostKind::Bench => {
            let wage = rate(shop.bench.wage);
            way(
                sheet,
                wage,
                "minor/h",
                "catalogue, bench.wage_per_hour",
                format!("labour.minutes / 60 * {own}"),
            );
        }
        CostKind::Overhead => {
            let overhead = rate(shop.pricing.overhead);
            way(
                sheet,
                overhead,
                "minor/h",
                "catalogue, overhead on an hour",
                format!("labour.minutes / 60 * {own}"),
            );
        }
        CostKind::Postage => {
            sheet.figure(&name, "minor", "what the carrier is paid", &[exactly("parcel.postage.minorUnits")]);
        }
        CostKind::Fee => {
            fee(sheet, shop);
            let formula = "round(price.total.minorUnits * shop.feePercent / 100) + shop.feeFixedMinor";
            sheet.figure(&name, "minor", "fee on what is paid", &[exactly(formula)]);
        }
        CostKind::Surplus => {
            let formula = "price.cost.net.minorUnits - price.cost.total.minorUnits";
            sheet.figure(&name, "minor", "what stands over the cost", &[exactly(formula)]);
        }
    }
}

fn fee(sheet: &mut Sheet, shop: &Shop) {
    let fee = shop.pricing.fee;
    sheet.constant("shop.feePercent", percent(fee.share), "%", "catalogue, fee of the payment");
    sheet.constant(
        "shop.feeFixedMinor",
        fee.fixed.minor().to_string(),
        "minor",
        "catalogue, fee of the payment",
    );
}

/// The goods, from what they cost: only the shop's view has what that takes.
fn goods(sheet: &mut Sheet, shop: &Shop, order: &Order, worked: &Worked) {
    let Some(place) = place(worked, LineKind::Goods) else { return };
    let Basis::CostPlus(surplus) = shop.pricing.basis else { return };
    let target = match surplus {
        Surplus::Margin(_) => "round(via.madeMinor * 100 / (100 - price.cost.surplus.marginPercent))",
        Surplus::Markup(_) => "round(via.madeMinor * (100 + price.cost.surplus.markupPercent) / 100)",
    };
    sheet.via("via.targetMinor", target, "minor", "the price before tax that is to be kept");
    let taxed = if worked.price.tax.is_some() { "(1 + price.tax.ratePercent / 100)" } else { "1" };
    let included = shop.pricing.tax.as_ref().is_none_or(|tax| tax.included);
    let fee = shop.pricing.fee;
    let has_fee = fee.share != Percent::default() || fee.fixed.minor() != 0;
    let upon = if included { taxed } else { "1" };
    let formula = if has_fee {
        self::fee(sheet, shop);
        let share = format!("shop.feePercent / 100 * {taxed}");
        let postage = if worked.parcel.is_ok() { "parcel.postage.minorUnits" } else { "0" };
        format!("(via.targetMinor + shop.feeFixedMinor + {share} * {postage}) / (1 - {share}) * {upon}")
    } else {
        format!("via.targetMinor * {upon}")
    };
    let mode = if has_fee { Mode::Up } else { Mode::HalfUp };
    let broken = off(&shop.pricing.breaks, order.quantity);
    let mut ways = vec![minor(&formula, mode)];
    if broken != Percent::default() {
        sheet.constant("shop.breakPercent", percent(broken), "%", "catalogue, the break of this quantity");
        let whole = if has_fee { format!("ceil({formula})") } else { format!("round({formula})") };
        ways = vec![minor(&format!("{whole} * (100 - shop.breakPercent) / 100"), Mode::HalfUp)];
    }
    let source =
        "what is to be kept, the fee of the payment on all that is paid, tax; and the break of the quantity";
    let name = format!("price.lines[{place}].amount.minorUnits");
    if worked.price.before_point.is_some() {
        sheet.figure("price.cost.beforePoint.minorUnits", "minor", source, &ways);
        sheet.given(&name, "minor", "moved to a price point");
    } else {
        sheet.figure(&name, "minor", source, &ways);
    }
}

/// The lines that stand on the goods.
fn lines(sheet: &mut Sheet, shop: &Shop, worked: &Worked, view: v1::View) {
    let Some(goods) = place(worked, LineKind::Goods) else { return };
    let amount = |place: usize| format!("price.lines[{place}].amount.minorUnits");
    let minimum = place(worked, LineKind::MinimumCharge);
    let charged =
        minimum.map_or_else(|| amount(goods), |minimum| format!("({} + {})", amount(goods), amount(minimum)));
    for (at, line) in worked.price.lines.iter().enumerate() {
        let name = amount(at);
        match line.kind {
            LineKind::Goods => {}
            LineKind::MinimumCharge => {
                let least = shop.pricing.minimum.minor().to_string();
                sheet.constant("shop.minimumMinor", least, "minor", "catalogue, pricing.minimum_charge");
                let formula = format!("shop.minimumMinor - {}", amount(goods));
                sheet.figure(&name, "minor", "what is missing to the least charge", &[exactly(&formula)]);
            }
            LineKind::Rush => {
                let share = percent(shop.calendar.rush.unwrap_or_default());
                sheet.constant("shop.rushPercent", share, "%", "catalogue, calendar.rush_percent");
                let formula = format!("{charged} * shop.rushPercent / 100");
                sheet.figure(
                    &name,
                    "minor",
                    "a share of the goods and what is missing to the least charge",
                    &[minor(&formula, Mode::HalfUp)],
                );
            }
            LineKind::Discount => {
                let formula = format!("-{charged} * understood.discount.percent / 100");
                let ways = [minor(&formula, Mode::HalfUp), exactly("-understood.discount.minorUnits")];
                sheet.figure(&name, "minor", "what staff take off", &ways);
            }
            LineKind::Delivery if view == v1::View::Shop => {
                let ways = [
                    minor("parcel.postage.minorUnits * (1 + price.tax.ratePercent / 100)", Mode::HalfUp),
                    exactly("parcel.postage.minorUnits"),
                ];
                sheet.figure(&name, "minor", "the postage, taxed at the goods' rate", &ways);
            }
            LineKind::Delivery => sheet.given(&name, "minor", "the shop's price of the postage"),
            LineKind::Tax => {
                let formula = exactly("price.tax.included.minorUnits");
                sheet.figure(&name, "minor", "the tax on the lines above", &[formula]);
            }
        }
    }
    sheet.given("price.minorDigits", "", "catalogue, minor digits of the currency");
}

fn tax(sheet: &mut Sheet, shop: &Shop, worked: &Worked) {
    let Some(tax) = shop.pricing.tax.as_ref().filter(|_| worked.price.tax.is_some()) else { return };
    sheet.given("price.tax.ratePercent", "%", "catalogue, the rate that holds on the day of the tax");
    let mode = match tax.rounding {
        Rounding::HalfUp => Some(Mode::HalfUp),
        Rounding::Down => Some(Mode::Down),
        _ => None,
    };
    let of = |amount: &str, tax: &Tax| {
        if tax.included {
            format!("{amount} * price.tax.ratePercent / (100 + price.tax.ratePercent)")
        } else {
            format!("{amount} * price.tax.ratePercent / 100")
        }
    };
    for (at, line) in worked.price.lines.iter().enumerate().filter(|(_, line)| line.tax.is_some()) {
        let name = format!("price.lines[{at}].tax.minorUnits");
        let ways: Vec<Way> = match (tax.level, mode) {
            (TaxLevel::Line, Some(mode)) if line.amount.minor() >= 0 => {
                vec![minor(&of(&format!("price.lines[{at}].amount.minorUnits"), tax), mode)]
            }
            _ => Vec::new(),
        };
        sheet.figure(&name, "minor", "the tax of one line, rounded by itself", &ways);
        sheet.given(&name, "minor", "its share of the tax of the whole, by largest remainder");
    }
    let taxed: Vec<String> = worked
        .price
        .lines
        .iter()
        .enumerate()
        .filter(|(_, line)| line.tax.is_some())
        .map(|(at, _)| format!("price.lines[{at}]"))
        .collect();
    let all = |what: &str| {
        taxed.iter().map(|line| format!("{line}.{what}.minorUnits")).collect::<Vec<_>>().join(" + ")
    };
    let document = mode.map(|mode| minor(&of(&format!("({})", all("amount")), tax), mode));
    let sum = exactly(&all("tax"));
    let ways: Vec<Way> = match tax.level {
        TaxLevel::Document => document.into_iter().chain([sum]).collect(),
        TaxLevel::Line => vec![sum],
    };
    sheet.figure(
        "price.tax.included.minorUnits",
        "minor",
        "tax of the lines, at the level and by the rounding that are told",
        &ways,
    );
    let net = exactly("price.total.minorUnits - price.tax.included.minorUnits");
    sheet.figure("price.tax.net.minorUnits", "minor", "by subtraction", &[net]);
}
