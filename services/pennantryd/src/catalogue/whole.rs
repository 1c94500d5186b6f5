//! The whole file: its sections, then its lists, then what only shows between them.

use jiff::tz::TimeZone;
use pennantry_app::restock::Restock;
use pennantry_calc::shop::{Basis, Cloth, Extras, Fabric, ListPrice, Maker, Pricing, Shop};
use pennantry_measure::Length;
use pennantry_measure::bounds::{self, Bound};
use toml::de::DeTable;

use super::codes::{Codes, Fabrics, all};
use super::currencies::{self, Listed};
use super::field::{Digits, mm, within};
use super::goods::{self, Bindings};
use super::mistake::Notes;
use super::node::{Table, key};
use super::{bench, dates, designs, paper, post, pricing, restock};

const METHODS: Bound<usize> = Bound { least: 1, most: 5 };
const OPERATIONS: Bound<usize> = Bound { least: 1, most: 60 };
const FABRICS: Bound<usize> = Bound { least: 1, most: 500 };
const BINDINGS: Bound<usize> = Bound { least: 1, most: 100 };
const DESIGNS: Bound<usize> = Bound { least: 1, most: 200 };
const UP_TO_50: Bound<usize> = Bound { least: 1, most: 50 };
/// Lists that may be left out.
const UP_TO_100: Bound<usize> = Bound { least: 0, most: 100 };
const UP_TO_500: Bound<usize> = Bound { least: 0, most: 500 };
const UP_TO_400: Bound<usize> = Bound { least: 0, most: 400 };

/// Minor digits where the file does not say: the most, so that one mistake about them
/// does not make every price too fine.
const MOST_DIGITS: u32 = 4;

/// What the section `[shop]` says.
#[derive(Default)]
struct Head {
    name: Option<String>,
    currency: Option<String>,
    minor_digits: Option<u8>,
    valid_days: Option<u32>,
    zone: Option<TimeZone>,
    least: Option<Length>,
    most: Option<Length>,
}

/// Reads the whole file. What comes back is only to be used when nothing was noted.
pub(super) fn read(document: &DeTable<'_>, notes: &mut Notes<'_>) -> Option<(Shop, TimeZone, Restock)> {
    let mut root = Table::root(document, notes);
    let head = root.section(key("shop", "the shop itself"), |table| Some(head(table))).unwrap_or_default();
    let digits = Digits(head.minor_digits.map_or(MOST_DIGITS, u32::from));
    let lengths = match (head.least, head.most) {
        (Some(least), Some(most)) if least <= most => Bound { least, most },
        _ => bounds::LENGTH,
    };
    let customs = root.section(key("customs", "what customs want to know"), post::customs);
    let maker =
        root.or(key("maker", "who makes the strings and answers for them"), Maker::default(), |root, key| {
            root.section(key, paper::maker)
        });
    let bench = root.section(key("bench", "the bench"), |table| bench::bench(table, digits));
    let thread = root.section(key("thread", "the thread"), |table| bench::thread(table, digits));
    let cloth = root.section(key("cloth", "how cloth is cut off"), cloth);
    let pricing =
        root.section(key("pricing", "how the price is set"), |table| pricing::pricing(table, digits));
    let extras =
        root.or(key("price_extras", "what the price list puts on top"), Extras::default(), |root, key| {
            root.section(key, |table| pricing::extras(table, digits))
        });
    let tax = root.maybe(key("tax", "the tax on prices"), |root, key| root.section(key, pricing::tax));

    let (mut cloths, mut folded) = (Fabrics::new(), Bindings::new());
    let fabrics =
        root.each(key("fabrics", "a cloth"), FABRICS, |table| goods::fabric(table, &mut cloths, digits));
    let bindings = root.each(key("bindings", "a folded binding"), BINDINGS, |table| {
        goods::binding(table, &mut folded, &cloths, digits)
    });
    let mut codes = Codes::new("trimmings", "code");
    let trimmings = root
        .each(key("trimmings", "a trimming"), UP_TO_100, |table| goods::trimming(table, &mut codes, digits));
    let mut codes = Codes::new("sundries", "code");
    let sundries = root.each(key("sundries", "what is used up by the piece"), UP_TO_100, |table| {
        goods::sundry(table, &mut codes, digits)
    });

    let mut made = Codes::new("methods", "construction");
    let methods = root.each(key("methods", "how a construction is made here"), METHODS, |table| {
        bench::method(table, &mut made, &cloths)
    });
    let mut codes = Codes::new("operations", "code");
    let operations = root.each(key("operations", "what is done at the bench"), OPERATIONS, |table| {
        bench::operation(table, &mut codes)
    });
    let list = price_list(&mut root, &made, &fabrics, digits);
    let by_list = pricing.as_ref().is_some_and(|pricing| pricing.basis == Basis::PerMetre);
    if by_list && list.is_empty() {
        let how = "is missing, and the basis of [pricing] is \"per-metre\": write [[price_list]] and its keys below \
                   it for each construction, width and class, or write basis = \"cost-plus\"";
        root.note_absence("price_list", how.to_owned());
    }
    let letters = root.maybe(key("letters", "how letters are put on"), |root, key| {
        root.section(key, |table| bench::letters(table, &cloths))
    });

    let days = root.section(key("calendar", "when the bench works"), dates::calendar);
    let people = root.each(key("people", "who works at the bench"), UP_TO_50, dates::person);
    dates::somebody_works(&mut root, &people);
    let load = root.each(key("load", "what is promised already"), UP_TO_400, dates::booked);

    let folding = root.section(key("folding", "how strings are folded and wrapped"), post::folding);
    let mut sizes = Codes::new("formats", "code");
    let formats =
        root.each(key("formats", "a postal format"), UP_TO_50, |table| post::format(table, &mut sizes));
    let mut codes = Codes::new("services", "code");
    let services = root.each(key("services", "a postal service"), UP_TO_50, |table| {
        post::service(table, &mut codes, &sizes, &formats, digits)
    });

    let ordering = root.maybe(key("ordering", "how the nightly report proposes orders"), |root, key| {
        root.section(key, restock::ordering)
    });
    let mut bought = Codes::new("supplies", "fabric");
    let supplies = root.each(key("supplies", "how a fabric is bought"), UP_TO_500, |table| {
        restock::supply(table, &mut bought, &cloths)
    });

    let known = designs::Known { made: &made, fabrics: &cloths, bindings: &folded };
    let mut codes = Codes::new("designs", "code");
    let designs = root.each(key("designs", "a pennant and how it is usually set"), DESIGNS, |table| {
        designs::design(table, &mut codes, known, lengths)
    });
    root.finish();

    let shop = Shop {
        name: head.name?,
        currency: head.currency?,
        minor_digits: head.minor_digits?,
        valid_days: head.valid_days?,
        least: head.least?,
        most: head.most?,
        designs: all(designs)?,
        fabrics: all(fabrics)?,
        bindings: all(bindings)?,
        trimmings: all(trimmings)?,
        methods: all(methods)?,
        bench: bench?(all(operations)?, thread?),
        cloth: cloth?,
        letters: letters?,
        sundries: all(sundries)?,
        pricing: Pricing { list: all(list)?, extras: extras?, tax: tax?, ..pricing? },
        calendar: dates::together(days?, all(people)?, all(load)?),
        folding: folding?,
        formats: all(formats)?,
        services: all(services)?,
        customs: customs?,
        maker: maker?,
    };
    let restock = Restock { ordering: ordering?, supplies: all(supplies)? };
    Some((shop, head.zone?, restock))
}

/// The price list, each of its entries once and for a class that some fabric has.
fn price_list(
    root: &mut Table<'_, '_, '_>,
    made: &Codes,
    fabrics: &[Option<Fabric>],
    digits: Digits,
) -> Vec<Option<ListPrice>> {
    let classes: Option<Vec<String>> = fabrics.iter().map(|f| f.as_ref().map(|f| f.class.clone())).collect();
    let classes = classes.map(|mut classes| {
        classes.sort();
        classes.dedup();
        classes
    });
    let mut seen = Vec::new();
    root.each(key("price_list", "a price by the metre"), UP_TO_400, |table| {
        pricing::entry(table, made, classes.as_deref(), &mut seen, digits)
    })
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
    listed(table, currency, minor_digits);
    let zone = table.zone(key("zone", "where the shop's clock hangs: it says which day an order comes in"));
    let valid_days =
        table.count(key("valid_days", "days after the order day to whose end a quote holds"), within(1, 90));
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
        valid_days,
        zone,
        least,
        most,
    }
}

/// Notes a currency that is not in use, and digits that are not its own.
fn listed(table: &mut Table<'_, '_, '_>, currency: Option<&str>, digits: Option<i64>) {
    let Some(code) = currency else { return };
    let fault = match currencies::look_up(code) {
        Listed::Digits(own) => {
            if let Some(found) = digits
                && found != i64::from(own)
                && let Some(node) = table.optional("minor_digits")
            {
                let fault = format!("is not what {code} has, which is {own} (ISO 4217): write {own}");
                table.note_found(&node, &fault);
            }
            return;
        }
        Listed::NoMinorUnit => "is no currency to pay with: it has no minor unit (ISO 4217)",
        Listed::No => "is not among the currencies, or no longer (ISO 4217, list of 2026-01-01)",
    };
    if let Some(node) = table.optional("currency") {
        let fault = format!("{fault}: write the three capital letters of one in use, such as \"GBP\"");
        table.note_found(&node, &fault);
    }
}

fn cloth(table: &mut Table<'_, '_, '_>) -> Option<Cloth> {
    let squaring = table.length(key("squaring_mm", "cloth spent on squaring a cut end"), mm(0, 1_000));
    let spares =
        table.percent(key("spares_percent", "spare pieces, as a share of those needed"), within(0, 100));
    Some(Cloth { squaring: squaring?, spares: spares? })
}
