//! Workings of the price: see `pennantry_calc::price` for the formulas.

use pennantry_calc::binding::Supply;
use pennantry_calc::order::Order;
use pennantry_calc::price::{CostKind, LineKind, off};
use pennantry_calc::quote::Worked;
use pennantry_calc::shop::{Basis, BindingSource, Point, PointMode, Shop, Surplus, Tax, TaxLevel};
use pennantry_calc::sundries::UsedKind;
use pennantry_contract::v1;
use pennantry_measure::{Percent, Rate, Rounding};

use super::formula::Mode;
use super::percent;
use super::sheet::{Sheet, Way, exactly};

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
        CostKind::Binding => binding(sheet, shop, order, worked, &name, &own),
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

/// The binding: a length at its price, or whole rolls and the rest by the metre.
fn binding(sheet: &mut Sheet, shop: &Shop, order: &Order, worked: &Worked, name: &str, own: &str) {
    let Some(binding) = shop.bindings.get(order.binding) else { return };
    let cloth = |fabric: usize| shop.fabrics.get(fabric).map(|fabric| fabric.price).unwrap_or_default();
    let (price, length) = match (&binding.source, &worked.binding.supply) {
        (BindingSource::Bought { price, .. }, _) => (*price, "binding.takenMm"),
        (BindingSource::Cloth { fabric, .. }, Supply::Straight { .. }) => {
            (cloth(*fabric), "binding.straight.chargedMm")
        }
        (BindingSource::Cloth { fabric, .. }, _) => (cloth(*fabric), "binding.bias.chargedMm"),
    };
    sheet.constant(own, rate(price), "minor/m", "catalogue, the binding or its cloth");
    let mut ways = vec![minor(&format!("{length} / 1000 * {own}"), Mode::HalfUp)];
    if let BindingSource::Bought { roll, .. } = &binding.source
        && let Some(price) = roll.price
    {
        sheet.constant(
            "shop.rollMinor",
            price.minor().to_string(),
            "minor",
            "catalogue, price of a whole roll",
        );
        sheet.constant(
            "shop.rollMm",
            super::decimal(roll.length.um()),
            "mm",
            "catalogue, length of a whole roll",
        );
        for rolls in ["binding.bought.rollCount", "(binding.bought.rollCount - 1)"] {
            let rest = format!("round((binding.bought.paidMm - {rolls} * shop.rollMm) / 1000 * {own})");
            ways.push(exactly(&format!("{rolls} * shop.rollMinor + {rest}")));
        }
    }
    sheet.figure(name, "minor", "by the metre, or whole rolls where they are cheaper", &ways);
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

/// The goods, from what they cost or from the list: only the shop's view has what that takes.
fn goods(sheet: &mut Sheet, shop: &Shop, order: &Order, worked: &Worked) {
    let Some(place) = place(worked, LineKind::Goods) else { return };
    let (formula, mode) = match (shop.pricing.basis, worked.price.listed) {
        (Basis::CostPlus(surplus), _) => cost_plus(sheet, shop, worked, surplus),
        (Basis::PerMetre, Some(listed)) => {
            sheet.constant(
                "shop.list.minorPerMetre",
                rate(listed.rate),
                "minor/m",
                "catalogue, the price list",
            );
            let extras = listed.extras.minor().to_string();
            let source =
                "catalogue, extras of the price list: letters, trimmings, loops and ties of one string";
            sheet.constant("shop.list.extrasMinor", extras, "minor", source);
            let metres = "round(layout.overallMm * understood.quantity / 1000 * shop.list.minorPerMetre)";
            (format!("{metres} + understood.quantity * shop.list.extrasMinor"), Mode::Exact)
        }
        (Basis::PerMetre, None) => return,
    };
    let broken = off(&shop.pricing.breaks, order.quantity);
    let mut ways = vec![minor(&formula, mode)];
    if broken != Percent::default() {
        sheet.constant("shop.breakPercent", percent(broken), "%", "catalogue, the break of this quantity");
        let whole = match mode {
            Mode::Up => format!("ceil({formula})"),
            Mode::HalfUp => format!("round({formula})"),
            _ => format!("({formula})"),
        };
        ways = vec![minor(&format!("{whole} * (100 - shop.breakPercent) / 100"), Mode::HalfUp)];
    }
    let mut source = match shop.pricing.basis {
        Basis::CostPlus(_) => "what is to be kept, the fee of the payment on all that is paid, tax; and the break of the quantity",
        Basis::PerMetre => "the price list, and the break of the quantity",
    }
    .to_owned();
    if let Some(at) = worked.price.capped_at {
        source = format!(
            "no more than what {at} strings cost at the break there, an order of its own worked in the same way"
        );
        ways.clear();
    }
    let name = format!("price.lines[{place}].amount.minorUnits");
    let before = "price.cost.beforePoint.minorUnits";
    let worked_out = if worked.price.before_point.is_some() { before } else { &name };
    sheet.figure(worked_out, "minor", &source, &ways);
    sheet.given(worked_out, "minor", &source);
    if let Some(point) = &shop.pricing.point {
        self::point(sheet, point, &name);
    }
}

/// What is kept of a cost, and what stands on it.
fn cost_plus(sheet: &mut Sheet, shop: &Shop, worked: &Worked, surplus: Surplus) -> (String, Mode) {
    let target = match surplus {
        Surplus::Margin(_) => "round(via.madeMinor * 100 / (100 - price.cost.surplus.marginPercent))",
        Surplus::Markup(_) => "round(via.madeMinor * (100 + price.cost.surplus.markupPercent) / 100)",
    };
    sheet.via("via.targetMinor", target, "minor", "the price before tax that is to be kept");
    let taxed = if worked.price.tax.is_some() { "(1 + price.tax.ratePercent / 100)" } else { "1" };
    let included = shop.pricing.tax.as_ref().is_none_or(|tax| tax.included);
    let upon = if included { taxed } else { "1" };
    let fee = shop.pricing.fee;
    if fee.share == Percent::default() && fee.fixed.minor() == 0 {
        return (format!("via.targetMinor * {upon}"), Mode::HalfUp);
    }
    self::fee(sheet, shop);
    let share = format!("shop.feePercent / 100 * {taxed}");
    let postage = if worked.parcel.is_ok() { "parcel.postage.minorUnits" } else { "0" };
    let formula =
        format!("(via.targetMinor + shop.feeFixedMinor + {share} * {postage}) / (1 - {share}) * {upon}");
    (formula, Mode::Up)
}

/// Goods that are moved to a price point: the next one up, or the last one down.
fn point(sheet: &mut Sheet, point: &Point, name: &str) {
    let before = "price.cost.beforePoint.minorUnits";
    sheet.constant(
        "shop.pointStepMinor",
        point.step.to_string(),
        "minor",
        "catalogue, step of the price points",
    );
    let mut to = [Vec::new(), Vec::new()];
    for (place, ending) in point.endings.iter().enumerate() {
        let own = format!("shop.pointEndings[{place}].minor");
        sheet.constant(&own, ending.to_string(), "minor", "catalogue, endings of the price points");
        for (rounding, list) in ["ceil", "floor"].into_iter().zip(&mut to) {
            list.push(format!(
                "{rounding}(({before} - {own}) / shop.pointStepMinor) * shop.pointStepMinor + {own}"
            ));
        }
    }
    let [up, down] = to;
    let ways = [exactly(&format!("min({})", up.join(", "))), exactly(&format!("max({})", down.join(", ")))];
    let source = match point.mode {
        PointMode::Up => "the next price point up",
        PointMode::Nearest => "the nearest price point that keeps the floor",
    };
    sheet.figure(name, "minor", source, &ways);
    sheet.given(name, "minor", "the first price point that keeps the floor");
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
            LineKind::Goods => sheet.given(&name, "minor", "the shop's price of the goods"),
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
                let all: Vec<String> = (0..at).map(amount).collect();
                let ways = [
                    minor(&formula, Mode::HalfUp),
                    exactly("-understood.discount.minorUnits"),
                    exactly(&format!("-({})", all.join(" + "))),
                ];
                sheet.figure(&name, "minor", "what staff take off, at the most all lines before it", &ways);
                sheet.given(&name, "minor", "the shop's discount");
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
        Rounding::HalfUp => Mode::HalfUp,
        Rounding::HalfEven => Mode::HalfEven,
        Rounding::Down => Mode::Down,
        Rounding::Up => Mode::Up,
    };
    let of = |amount: &str, tax: &Tax| {
        if tax.included {
            format!("{amount} * price.tax.ratePercent / (100 + price.tax.ratePercent)")
        } else {
            format!("{amount} * price.tax.ratePercent / 100")
        }
    };
    let taxed: Vec<usize> = worked
        .price
        .lines
        .iter()
        .enumerate()
        .filter(|(_, line)| line.tax.is_some())
        .map(|(at, _)| at)
        .collect();
    let sum = |lines: &[usize], what: &str| {
        let all: Vec<String> =
            lines.iter().map(|at| format!("price.lines[{at}].{what}.minorUnits")).collect();
        if all.is_empty() { "0".to_owned() } else { all.join(" + ") }
    };
    for (place, at) in taxed.iter().enumerate() {
        let name = format!("price.lines[{at}].tax.minorUnits");
        if tax.level == TaxLevel::Document {
            sheet.given(&name, "minor", "its share of the tax of the whole, by largest remainder");
            continue;
        }
        let own = minor(&of(&format!("price.lines[{at}].amount.minorUnits"), tax), mode);
        let (before, with) =
            (taxed.get(..place).unwrap_or_default(), taxed.get(..=place).unwrap_or_default());
        let so_far = of(&format!("({})", sum(with, "amount")), tax);
        let off = minor(&format!("{so_far} - ({})", sum(before, "tax")), mode);
        sheet.figure(
            &name,
            "minor",
            "the tax of one line; of one that takes something off, what the lines up to it are taxed less",
            &[own, off],
        );
    }
    let ways = match tax.level {
        TaxLevel::Document => minor(&of(&format!("({})", sum(&taxed, "amount")), tax), mode),
        TaxLevel::Line => exactly(&sum(&taxed, "tax")),
    };
    let source = "tax of the lines, at the level and by the rounding that are told";
    sheet.figure("price.tax.included.minorUnits", "minor", source, &[ways]);
    let net = exactly("price.total.minorUnits - price.tax.included.minorUnits");
    sheet.figure("price.tax.net.minorUnits", "minor", "by subtraction", &[net]);
}
