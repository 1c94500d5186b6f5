//! The whole file: its sections, then its lists, then what only shows between them.

use jiff::tz::TimeZone;
use pennantry_calc::shop::{Bench, Cloth, Grain, Pricing, Shop, Surplus};
use pennantry_measure::bounds::{self, Bound};
use pennantry_measure::{Length, Percent};
use toml::de::DeTable;

use super::field::{Digits, mm, within};
use super::lists::{self, Codes};
use super::mistake::Notes;
use super::node::{Table, key};

const LIST_LIMIT: usize = 100;
const METHODS: Bound<usize> = Bound { least: 1, most: 5 };
const FABRICS: Bound<usize> = Bound { least: 1, most: 500 };
const BINDINGS: Bound<usize> = Bound { least: 1, most: LIST_LIMIT };
const TRIMMINGS: Bound<usize> = Bound { least: 0, most: LIST_LIMIT };
const DESIGNS: Bound<usize> = Bound { least: 1, most: 200 };

/// Minor digits where the file does not say: the most, so that one mistake about them
/// does not make every price too fine.
const MOST_DIGITS: u32 = 4;

/// What the section `[shop]` says.
#[derive(Default)]
struct Head {
    name: Option<String>,
    currency: Option<String>,
    minor_digits: Option<u8>,
    zone: Option<TimeZone>,
    least: Option<Length>,
    most: Option<Length>,
}

/// Reads the whole file. What comes back is only to be used when nothing was noted.
pub(super) fn read(document: &DeTable<'_>, notes: &mut Notes<'_>) -> Option<(Shop, TimeZone)> {
    let mut root = Table::root(document, notes);
    let head = root.section(key("shop", "the shop itself"), |table| Some(head(table))).unwrap_or_default();
    let digits = Digits(head.minor_digits.map_or(MOST_DIGITS, u32::from));
    let lengths = match (head.least, head.most) {
        (Some(least), Some(most)) if least <= most => Bound { least, most },
        _ => bounds::LENGTH,
    };
    let bench = root.section(key("bench", "the bench"), |table| bench(table, digits));
    let cloth = root.section(key("cloth", "how cloth is cut off"), cloth);
    let pricing = root.section(key("pricing", "how the price is set"), |table| pricing(table, digits));

    let mut made = Codes::new("methods", "construction");
    let mut codes = lists::Known {
        fabrics: Codes::new("fabrics", "code"),
        bindings: Codes::new("bindings", "code"),
        widths: Vec::new(),
    };
    let mut trims = Codes::new("trimmings", "code");
    let mut drawn = Codes::new("designs", "code");
    let methods = root.each(key("methods", "how a construction is made here"), METHODS, |table| {
        lists::method(table, &mut made)
    });
    let fabrics =
        root.each(key("fabrics", "a cloth"), FABRICS, |table| lists::fabric(table, &mut codes, digits));
    let bindings = root.each(key("bindings", "a folded binding"), BINDINGS, |table| {
        lists::binding(table, &mut codes.bindings, digits)
    });
    let trimmings =
        root.each(key("trimmings", "a trimming"), TRIMMINGS, |table| lists::trimming(table, &mut trims));
    let designs = root.each(key("designs", "a pennant and how it is usually set"), DESIGNS, |table| {
        lists::design(table, &mut drawn, &made, &codes, lengths)
    });
    root.finish();

    let shop = Shop {
        name: head.name?,
        currency: head.currency?,
        minor_digits: head.minor_digits?,
        least: head.least?,
        most: head.most?,
        designs: all(designs)?,
        fabrics: all(fabrics)?,
        bindings: all(bindings)?,
        trimmings: all(trimmings)?,
        methods: all(methods)?,
        bench: bench?,
        cloth: cloth?,
        pricing: pricing?,
    };
    Some((shop, head.zone?))
}

fn all<T>(list: Vec<Option<T>>) -> Option<Vec<T>> {
    list.into_iter().collect()
}

fn head(table: &mut Table<'_, '_, '_>) -> Head {
    let name = table.words(key("name", "the shop's name"));
    let capitals = |text: &str| text.len() == 3 && text.bytes().all(|byte| byte.is_ascii_uppercase());
    let currency = table.pattern(
        key("currency", "the one currency, ISO 4217"),
        "three capital letters in quotes, such as \"GBP\"",
        capitals,
    );
    let minor_digits = table.whole(key("minor_digits", "decimals of an amount: 2 for pence"), within(0, 4));
    let zone = table.zone(key("zone", "where the shop's clock hangs: it says which day an order comes in"));
    let least = table.length(key("least_mm", "the shortest length the shop makes"), bounds::LENGTH);
    let most = table.length(key("most_mm", "the longest length the shop makes"), bounds::LENGTH);
    if let (Some(least), Some(most)) = (least, most)
        && least > most
        && let Some(node) = table.optional("least_mm")
    {
        table.note_found(&node, &format!("is above most_mm, which is {most}: lower it, or raise most_mm"));
    }
    Head {
        name,
        currency: currency.map(str::to_owned),
        minor_digits: minor_digits.and_then(|digits| u8::try_from(digits).ok()),
        zone,
        least,
        most,
    }
}

fn bench(table: &mut Table<'_, '_, '_>, digits: Digits) -> Option<Bench> {
    let set_up = table.minutes(key("set_up_minutes", "to set up, once an order"), within(0, 1_440));
    let per_metre =
        table.minutes(key("minutes_per_metre", "for each metre of overall length"), within(0, 240));
    let day = table.minutes(key("day_minutes", "bench time of one day"), within(1, 1_440));
    let wage = table.rate(key("wage_per_hour", "what an hour at the bench costs"), digits, within(0, 10_000));
    let grains = [("1 mm", Grain::Millimetre), ("1/16 in", Grain::SixteenthInch)];
    let grain = table.choice(key("grain", "what marks are rounded to"), &grains);
    let turn_under = table.length(key("turn_under_mm", "binding turned under at each end"), mm(0, 500));
    let knot = table.length(key("knot_mm", "binding that a knot takes at each end of a hang"), mm(0, 2_000));
    let tolerance = table.length(key("tolerance_mm", "least tolerance of a length"), mm(0, 1_000));
    let tolerance_share =
        table.percent(key("tolerance_percent", "tolerance as a share of the length"), within(0, 50));
    Some(Bench {
        set_up: set_up?,
        per_metre: per_metre?,
        day: day?,
        wage: wage?,
        grain: grain?,
        turn_under: turn_under?,
        knot: knot?,
        tolerance: tolerance?,
        tolerance_share: tolerance_share?,
    })
}

fn cloth(table: &mut Table<'_, '_, '_>) -> Option<Cloth> {
    let squaring = table.length(key("squaring_mm", "cloth spent on squaring a cut end"), mm(0, 1_000));
    let spares =
        table.percent(key("spares_percent", "spare pieces, as a share of those needed"), within(0, 100));
    Some(Cloth { squaring: squaring?, spares: spares? })
}

fn pricing(table: &mut Table<'_, '_, '_>, digits: Digits) -> Option<Pricing> {
    let surplus = surplus(table);
    let minimum = table.money(
        key("minimum_charge", "least charge for an order, tax in it"),
        digits,
        within(0, 100_000),
    );
    let tax_name = table.words(key("tax_name", "the name of the tax in the price"));
    let tax_rate = table.percent(key("tax_percent", "the rate of that tax"), within(0, 100));
    Some(Pricing { surplus: surplus?, minimum: minimum?, tax_name: tax_name?, tax_rate: tax_rate? })
}

/// The margin or the mark-up: one of them, and never both.
fn surplus(table: &mut Table<'_, '_, '_>) -> Option<Surplus> {
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
        let how = "is missing, and markup_percent with it: write one of them, \
                   margin_percent from 0 to 95 or markup_percent from 0 to 1000";
        table.note_absence(margin_key.name, how.to_owned());
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
