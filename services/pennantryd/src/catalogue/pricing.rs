//! How the price is set: `[pricing]`, the price list and its extras, `[tax]`.

use pennantry_calc::shop::{
    Basis, Break, DatedRate, Extras, Fee, ListPrice, Point, PointMode, Pricing, Surplus, Tax, TaxLevel,
    TaxPoint,
};
use pennantry_measure::bounds::{self, Bound};
use pennantry_measure::{Money, Percent, Rate, Rounding, divide};

use super::bench::CONSTRUCTIONS;
use super::codes::{Codes, all};
use super::field::{Digits, within};
use super::node::{Table, key};

const BREAKS: Bound<usize> = Bound { least: 1, most: 10 };
const ENDINGS: Bound<usize> = Bound { least: 1, most: 10 };
const RATES: Bound<usize> = Bound { least: 1, most: 50 };
const NOUGHT: Percent = Percent::from_milli(0);

/// The class of a fabric for which none is written.
pub(super) const USUAL_CLASS: &str = "standard";

/// The class of a fabric, in the price list.
pub(super) fn class(table: &mut Table<'_, '_, '_>) -> Option<String> {
    let fits = |text: &str| {
        let letter = |byte: u8| byte.is_ascii_lowercase() || byte.is_ascii_digit() || byte == b'-';
        (1..=40).contains(&text.len()) && text.bytes().all(letter)
    };
    let form = "1 to 40 lower-case letters, digits and hyphens in quotes, such as \"standard\"";
    let class = key("class", "the class of the fabric in the price list");
    table.or(class, USUAL_CLASS.to_owned(), |table, key| table.pattern(key, form, fits).map(str::to_owned))
}

/// What the section `[pricing]` says; the list, its extras and the tax stand elsewhere.
pub(super) fn pricing(table: &mut Table<'_, '_, '_>, digits: Digits) -> Option<Pricing> {
    let bases = [("cost-plus", Wanted::CostPlus), ("per-metre", Wanted::PerMetre)];
    let basis = table.choice(key("basis", "what the goods' price is made from"), &bases);
    let surplus = surplus(table, basis != Some(Wanted::PerMetre));
    let overhead = key("overhead_per_hour", "overhead on an hour at the bench, before tax");
    let overhead =
        table.or(overhead, Rate::default(), |table, key| table.rate(key, digits, within(0, 10_000)));
    let share = key("fee_percent", "what a payment costs the shop, as a share of it");
    let share = table.or(share, NOUGHT, |table, key| table.percent(key, within(0, 40)));
    let fixed = key("fee_fixed", "what a payment costs the shop besides");
    let fixed = table.or(fixed, Money::ZERO, |table, key| table.money(key, digits, within(0, 1_000)));
    let minimum = table.money(key("minimum_charge", "least charge for an order"), digits, within(0, 100_000));
    let floor = key("floor_margin_percent", "least margin, below which you are told");
    let floor = table.maybe(floor, |table, key| table.percent(key, within(0, 95)));
    if let (Some(Wanted::CostPlus), Some(surplus), Some(Some(floor))) = (basis, surplus, floor) {
        reachable(table, surplus, floor);
    }
    let breaks = breaks(table);
    let point = key("price_points", "where the goods' price is moved to");
    let point = table.maybe(point, |table, key| {
        let form = "{ mode = \"up\", endings = [95] }";
        table.inline(key, form, |table| points(table, digits))
    });
    Some(Pricing {
        basis: match basis? {
            Wanted::CostPlus => Basis::CostPlus(surplus?),
            Wanted::PerMetre => Basis::PerMetre,
        },
        overhead: overhead?,
        fee: Fee { share: share?, fixed: fixed? },
        minimum: minimum?,
        floor: floor?,
        breaks: breaks?,
        point: point?,
        list: Vec::new(),
        extras: Extras::default(),
        tax: None,
    })
}

/// What the goods' price is made from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Wanted {
    CostPlus,
    PerMetre,
}

/// The margin or the mark-up: one of them, and never both; under a price list neither is
/// used, and none is needed.
fn surplus(table: &mut Table<'_, '_, '_>, needed: bool) -> Option<Surplus> {
    let margin_key = key("margin_percent", "share of the price before tax: price = cost / (1 - margin)");
    let markup_key = key("markup_percent", "share of the cost: price = cost x (1 + mark-up)");
    let (margin, markup) = (table.has(margin_key.name), table.has(markup_key.name));
    if margin
        && markup
        && let Some(node) = table.optional(markup_key.name)
    {
        let fault =
            "stands beside margin_percent: a price has a margin or a mark-up, never both: leave one out";
        table.note_found(&node, fault);
    }
    if !margin && !markup {
        // both are known here, whichever the owner meant
        table.optional(margin_key.name);
        table.optional(markup_key.name);
        if needed {
            let how = "is missing, and markup_percent with it: write one of them, \
                       margin_percent from 0 to 95 or markup_percent from 0 to 1000";
            table.note_absence(margin_key.name, how.to_owned());
        }
        return None;
    }
    let (least_most_margin, least_most_markup) = (within(0, 95), within(0, 1_000));
    let read = |share: Option<Percent>, as_surplus: fn(Percent) -> Surplus| share.map(as_surplus);
    let markup =
        if markup { read(table.percent(markup_key, least_most_markup), Surplus::Markup) } else { None };
    let margin =
        if margin { read(table.percent(margin_key, least_most_margin), Surplus::Margin) } else { None };
    margin.or(markup)
}

/// A floor that the price keeps by itself: one above the margin is missed by every order.
fn reachable(table: &mut Table<'_, '_, '_>, surplus: Surplus, floor: Percent) {
    let whole = Percent::WHOLE.milli();
    let (margin, of) = match surplus {
        Surplus::Margin(margin) => (margin, format!("the margin of {margin}")),
        Surplus::Markup(markup) => {
            // down, so that what is told can be written
            let share = divide(
                i128::from(markup.milli()) * i128::from(whole),
                i128::from(whole + markup.milli()),
                Rounding::Down,
            );
            let margin = Percent::from_milli(i64::try_from(share).unwrap_or(whole));
            (margin, format!("the margin of {margin} that a mark-up of {markup} comes to"))
        }
    };
    if floor > margin
        && let Some(node) = table.optional("floor_margin_percent")
    {
        let fault =
            format!("is above {of}: every price would be below it: write {margin} or less, or raise that");
        table.note_found(&node, &fault);
    }
}

/// Breaks from the smallest quantity on, each with more off than the one before.
fn breaks(table: &mut Table<'_, '_, '_>) -> Option<Vec<Break>> {
    let list = key("breaks", "quantities from which each string is cheaper");
    if !table.has(list.name) {
        table.optional(list.name);
        return Some(Vec::new());
    }
    let most = i64::from(bounds::QUANTITY.most);
    let mut before: Option<Break> = None;
    let rows = table.rows(list, "{ from = 10, off_percent = 5 }", BREAKS, |table| {
        let from = table.count(key("from", "the quantity"), within(2, most));
        let off = table
            .percent_above(key("off_percent", "what is off from there on"), Bound { least: 1, most: 90_000 });
        let read = Break { from: from?, off: off? };
        if let Some(before) = before
            && read.from <= before.from
            && let Some(node) = table.optional("from")
        {
            let fault =
                format!("does not come after {}: write breaks from the smallest quantity on", before.from);
            table.note_found(&node, &fault);
        }
        if let Some(before) = before
            && read.off <= before.off
            && let Some(node) = table.optional("off_percent")
        {
            let fault = format!(
                "is not above the {} of the break before it: write more, or leave one out",
                before.off
            );
            table.note_found(&node, &fault);
        }
        before = Some(read);
        Some(read)
    });
    all(rows)
}

fn points(table: &mut Table<'_, '_, '_>, Digits(digits): Digits) -> Option<Point> {
    let modes = [("up", PointMode::Up), ("nearest", PointMode::Nearest)];
    let mode = table.choice(key("mode", "to which of two price points"), &modes);
    // a whole unit of the currency, or a hundred where that has no decimals, or but one
    let usual = 10_i64.saturating_pow(digits).max(100);
    let step = key("step", "after how many minor units the endings come again");
    let step = table.or(step, usual, |table, key| table.whole(key, within(1, 1_000_000)));
    let form = "whole numbers of minor units in square brackets, such as [95]";
    let last = within(0, step.unwrap_or(usual) - 1);
    let ends = key("endings", "what prices end in, in minor units");
    let endings = table.entries(ends, form, ENDINGS, |table, entry| table.whole_of(entry, ends, last));
    let mut endings = endings?;
    endings.sort_unstable();
    endings.dedup();
    Some(Point { mode: mode?, step: step?, endings })
}

/// One entry of the price list. `classes` are those of the fabrics, if all are known.
pub(super) fn entry(
    table: &mut Table<'_, '_, '_>,
    made: &Codes,
    classes: Option<&[String]>,
    seen: &mut Vec<ListPrice>,
    digits: Digits,
) -> Option<ListPrice> {
    let which = key("construction", "the construction it is for");
    let construction = table.choice(which, &CONSTRUCTIONS);
    if construction.is_some()
        && let Some(node) = table.optional(which.name)
        && let Some(text) = node.value.as_str()
    {
        made.find(table, &node, text);
    }
    let width = key("up_to_width_mm", "greatest width of a pennant's top edge");
    let up_to_width = table.length(width, bounds::WIDTH);
    let class = class(table);
    if let (Some(class), Some(known)) = (&class, classes)
        && !known.contains(class)
    {
        let fault = format!(
            "is the class of no fabric in [[fabrics]], which are {}: write one of these, or add it to a fabric",
            known.join(", ")
        );
        match table.optional("class") {
            Some(node) => table.note_found(&node, &fault),
            None => table.note_absence("class", format!("is missing, and \"{USUAL_CLASS}\" {fault}")),
        }
    }
    let rate =
        table.rate(key("price_per_metre", "price of a metre of overall length"), digits, within(0, 100_000));
    let read =
        ListPrice { construction: construction?, up_to_width: up_to_width?, class: class?, rate: rate? };
    let same = |one: &&ListPrice| {
        (one.construction, one.up_to_width, &one.class) == (read.construction, read.up_to_width, &read.class)
    };
    if seen.iter().any(|one| same(&one))
        && let Some(node) = table.optional(width.name)
    {
        table.note_found(
            &node,
            "is in the price list already for this construction and class: leave one of the two out",
        );
    }
    seen.push(read.clone());
    Some(read)
}

/// What a price list puts on top of the metres.
pub(super) fn extras(table: &mut Table<'_, '_, '_>, digits: Digits) -> Option<Extras> {
    let mut extra = |name: &'static str, what: &'static str| {
        table.or(key(name, what), Money::ZERO, |table, key| table.money(key, digits, within(0, 10_000)))
    };
    let letter = extra("letter", "price of a letter");
    let trimming = extra("trimming", "price of a trimming");
    let looped = extra("loop", "price of an end with a loop");
    let tie = extra("tie", "price of an end that is left to be tied");
    Some(Extras { letter: letter?, trimming: trimming?, looped: looped?, tie: tie? })
}

pub(super) fn tax(table: &mut Table<'_, '_, '_>) -> Option<Tax> {
    let name = table.words(key("name", "the name of the tax, as on the bill"));
    let number = key("registration", "the number under which the shop is registered");
    let registration = table.maybe(number, Table::words);
    let included = table.flag(key("prices_include", "whether your prices include the tax"));
    let levels = [("document", TaxLevel::Document), ("line", TaxLevel::Line)];
    let level = table.choice(key("level", "what is rounded by itself"), &levels);
    let ways = [("half-up", Rounding::HalfUp), ("half-even", Rounding::HalfEven), ("down", Rounding::Down)];
    let rounding = table.choice(key("rounding", "how the tax is rounded to a minor unit"), &ways);
    let days = [("order", TaxPoint::Order), ("leave", TaxPoint::Leave)];
    let point = table.choice(key("point", "the day whose rate holds"), &days);
    let mut before: Option<DatedRate> = None;
    let list = key("rates", "rates of the tax, each from a day on");
    let rates = table.rows(list, "{ from = \"2011-01-04\", percent = 20 }", RATES, |table| {
        let from = table.day(key("from", "the first day on which it holds"));
        let share = table.percent(key("percent", "the rate"), within(0, 100));
        let read = DatedRate { from: from?, share: share? };
        if let Some(before) = before
            && read.from <= before.from
            && let Some(node) = table.optional("from")
        {
            let fault = format!("does not come after {}: write rates from the first day on", before.from);
            table.note_found(&node, &fault);
        }
        before = Some(read);
        Some(read)
    });
    Some(Tax {
        name: name?,
        registration: registration?,
        included: included?,
        level: level?,
        rounding: rounding?,
        point: point?,
        rates: all(rates)?,
    })
}
