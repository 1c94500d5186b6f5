//! How parcels leave: customs, folding, formats and services.

use pennantry_calc::shop::{Band, Customs, Folding, Format, FormatKind, Service, SideRounding, Volumetric};
use pennantry_measure::bounds::Bound;
use pennantry_measure::{Length, Mass};

use super::codes::{Codes, all, code, name};
use super::field::{Digits, mm, within};
use super::lists::exactly;
use super::node::{Key, Table, key};

const COUNTRIES: Bound<usize> = Bound { least: 1, most: 300 };
const BANDS: Bound<usize> = Bound { least: 1, most: 200 };
const SIDES: Bound<Length> = mm(1, 10_000);
const SUMS: Bound<Length> = mm(1, 50_000);
/// Greatest mass of a format or a band, in grams.
const GRAMS: Bound<i64> = within(1, 1_000_000);
const WEEK: [(&str, usize); 7] =
    [("mon", 0), ("tue", 1), ("wed", 2), ("thu", 3), ("fri", 4), ("sat", 5), ("sun", 6)];
pub(super) const COUNTRY_FORM: &str =
    "the two capital letters of a country (ISO 3166-1) in quotes, such as \"GB\"";

pub(super) fn is_country(text: &str) -> bool {
    text.len() == 2 && text.bytes().all(|byte| byte.is_ascii_uppercase())
}

pub(super) fn customs(table: &mut Table<'_, '_, '_>) -> Option<Customs> {
    let country = table.pattern(key("country", "the shop's own country"), COUNTRY_FORM, is_country);
    let origin = table.pattern(key("origin", "where the goods are made"), COUNTRY_FORM, is_country);
    let is_heading = |text: &str| {
        let digits = text.bytes().filter(u8::is_ascii_digit).count();
        let groups =
            text.split('.').all(|group| !group.is_empty() && group.bytes().all(|byte| byte.is_ascii_digit()));
        groups && (4..=12).contains(&digits)
    };
    let form = "a tariff heading of 4 to 12 digits with dots between them in quotes, such as \"6307.90\"";
    let heading = table.pattern(key("tariff_code", "the heading of sewn textile bunting"), form, is_heading);
    Some(Customs { country: country?.to_owned(), origin: origin?.to_owned(), code: heading?.to_owned() })
}

pub(super) fn folding(table: &mut Table<'_, '_, '_>) -> Option<Folding> {
    let loft = table
        .percent(key("loft_percent", "air between layers, a share of their thickness"), within(0, 1_000));
    let most_panels = table.count(key("most_panels", "panels that pennants are folded into"), within(1, 8));
    let wrap = table.length(key("wrap_mm", "what wrapping adds to length and width"), mm(0, 500));
    let wrap_thickness =
        table.length(key("wrap_thickness_mm", "what wrapping adds to the thickness"), mm(0, 100));
    let mass_tolerance =
        table.percent(key("mass_tolerance_percent", "how far cloth may be off its mass"), within(0, 50));
    Some(Folding {
        loft: loft?,
        most_panels: most_panels?,
        wrap: wrap?,
        wrap_thickness: wrap_thickness?,
        mass_tolerance: mass_tolerance?,
    })
}

pub(super) fn format(table: &mut Table<'_, '_, '_>, codes: &mut Codes) -> Option<Format> {
    let code = code(table, codes);
    let name = name(table);
    let kinds = [("flat", FormatKind::Flat), ("box", FormatKind::Box), ("roll", FormatKind::Roll)];
    let kind = table.choice(key("kind", "what is measured of it"), &kinds);
    let most = sides(table, key("most_mm", "the greatest size"), kind);
    let none = [Length::ZERO; 3];
    let least = table.or(key("least_mm", "the least size"), none, |table, key| sides(table, key, kind));
    if let (Some(most), Some(least)) = (most, least)
        && least.iter().zip(most).any(|(least, most)| *least > most)
        && let Some(node) = table.optional("least_mm")
    {
        let fault = "one of its sides is above that of most_mm: lower it, or raise most_mm";
        table.note(&node, fault.to_owned());
    }
    let most_sum = key("most_sum_mm", "greatest sum of the sides");
    let most_sum = table.maybe(most_sum, |table, key| table.length(key, SUMS));
    let least_sum = key("least_sum_mm", "least sum of a roll: its length and twice its diameter");
    let least_sum = table.maybe(least_sum, |table, key| table.length(key, SUMS));
    let most_girth = key("most_girth_mm", "greatest length and girth of a parcel");
    let most_girth = table.maybe(most_girth, |table, key| table.length(key, SUMS));
    let least_ratio = key("least_ratio_percent", "least length, as a share of the width");
    let least_ratio = table.maybe(least_ratio, |table, key| table.percent(key, within(100, 1_000)));
    let most_mass = table.maybe(key("most_grams", "greatest mass"), |table, key| table.grams(key, GRAMS));
    match kind {
        Some(FormatKind::Roll) => {
            let fault = "is of a flat or a box, and this is a roll: leave it out";
            table.strangers(&["most_girth_mm", "least_ratio_percent"], fault);
        }
        Some(FormatKind::Flat | FormatKind::Box) => {
            let fault = "is of a roll, and this is none: leave it out, or write least_mm";
            table.strangers(&["least_sum_mm"], fault);
        }
        None => {}
    }
    if let (Some(Some(least)), Some(Some(most))) = (least_sum, most_sum)
        && least > most
        && let Some(node) = table.optional("least_sum_mm")
    {
        table.note_found(&node, &format!("is above most_sum_mm, which is {most}: lower it"));
    }
    Some(Format {
        code: code?,
        name: name?,
        kind: kind?,
        most: most?,
        least: least?,
        most_sum: most_sum?,
        most_girth: most_girth?,
        least_sum: least_sum?,
        least_ratio: least_ratio?,
        most_mass: most_mass?,
    })
}

/// Three sides, the longest first; of a roll its length and its diameter.
fn sides(table: &mut Table<'_, '_, '_>, key: Key, kind: Option<FormatKind>) -> Option<[Length; 3]> {
    let (form, count) = match kind {
        Some(FormatKind::Roll) => ("length and diameter in square brackets, such as [900, 100]", exactly(2)),
        Some(_) => ("three sides in square brackets, the longest first, such as [353, 250, 25]", exactly(3)),
        None => ("sides in square brackets, the longest first", Bound { least: 2, most: 3 }),
    };
    let sides = table.lengths(key, form, count, SIDES)?;
    if let (Some(FormatKind::Flat | FormatKind::Box), Some(node)) = (kind, table.optional(key.name))
        && !sides.is_sorted_by(|longer, shorter| longer >= shorter)
    {
        table.note(&node, format!("the longest side does not stand first: write {form} ({})", key.what));
    }
    match *sides.as_slice() {
        [length, diameter] => Some([length, diameter, diameter]),
        [longest, middle, shortest] => Some([longest, middle, shortest]),
        _ => None,
    }
}

pub(super) fn service(
    table: &mut Table<'_, '_, '_>,
    codes: &mut Codes,
    formats: &Codes,
    sizes: &[Option<Format>],
    digits: Digits,
) -> Option<Service> {
    let code = code(table, codes);
    let name = name(table);
    let key_of = key("countries", "the countries it goes to");
    let form = "a list of countries in square brackets, such as [\"GB\", \"IE\"]";
    let countries = table.texts(key_of, form, COUNTRIES, |table, node, text| {
        table.accept(node, key_of, COUNTRY_FORM, is_country(text).then(|| text.to_owned()), "is not that")
    });
    let transit = transit(table);
    let form = "a list of days in square brackets, such as [\"mon\", \"tue\", \"wed\"]";
    let carries = table.choices(
        key("carries", "the days of the week on which it carries"),
        form,
        Bound { least: 1, most: 7 },
        &WEEK,
    );
    let closed = table.or(key("closed", "days on which it does not carry"), Vec::new(), Table::days);
    let bands = bands(table, formats, sizes, digits);
    let form = "{ divisor = 5000, sides = \"exact\", step_grams = 500, threshold_cm3 = 0, step_real = true }";
    let volumetric = table.maybe(key("volumetric", "how a bulky parcel counts"), |table, key| {
        table.inline(key, form, volumetric)
    });
    Some(Service {
        code: code?,
        name: name?,
        countries: countries?,
        transit: transit?,
        week: carries.map(|days| [0, 1, 2, 3, 4, 5, 6].map(|day| days.contains(&day)))?,
        closed: closed?,
        volumetric: volumetric?,
        bands: bands?,
    })
}

/// Least and most working days of the carrier.
fn transit(table: &mut Table<'_, '_, '_>) -> Option<(u32, u32)> {
    let key = key("transit_days", "least and most working days from posting to arrival");
    let form = "two whole numbers in square brackets, such as [2, 3]";
    let days =
        table.entries(key, form, exactly(2), |table, node| table.whole_of(node, key, within(0, 200)))?;
    let [least, most] = *days.as_slice() else {
        return None;
    };
    if least > most
        && let Some(node) = table.optional(key.name)
    {
        table.note(
            &node,
            format!("the most, {most}, is below the least, {least}: write {form} ({})", key.what),
        );
    }
    u32::try_from(least).ok().zip(u32::try_from(most).ok())
}

/// Weight bands, in each format from the lightest to the heaviest.
fn bands(
    table: &mut Table<'_, '_, '_>,
    formats: &Codes,
    sizes: &[Option<Format>],
    digits: Digits,
) -> Option<Vec<Band>> {
    let form = "{ format = \"letter\", grams = 100, price = \"1.10\" }";
    let mut heaviest: Vec<(usize, Mass)> = Vec::new();
    let bands = table.rows(key("bands", "what it takes up to which mass"), form, BANDS, |table| {
        let format =
            formats.named(table, key("format", "the format it is for"), "the code of a format in quotes");
        let most = table.grams(key("grams", "greatest mass of this band"), GRAMS);
        let price =
            table.money(key("price", "what the shop pays for it before tax"), digits, within(0, 100_000));
        let (format, most) = (format?, most?);
        let before = heaviest.iter().rev().find(|(of, _)| *of == format).map(|(_, mass)| *mass);
        if let Some(before) = before.filter(|before| most <= *before)
            && let Some(node) = table.optional("grams")
        {
            let fault = format!(
                "is not above {before}, the band of this format before it: write them from the lightest to \
                 the heaviest"
            );
            table.note_found(&node, &fault);
        }
        let limit = sizes.get(format).and_then(Option::as_ref).and_then(|size| size.most_mass);
        if let Some(limit) = limit.filter(|limit| most > *limit)
            && let Some(node) = table.optional("grams")
        {
            let fault = format!("is above {limit}, the greatest mass of its format: write that or less");
            table.note_found(&node, &fault);
        }
        heaviest.push((format, most));
        Some(Band { format, most, price: price? })
    });
    // a list that is not there has been told
    all(bands).filter(|bands| !bands.is_empty())
}

fn volumetric(table: &mut Table<'_, '_, '_>) -> Option<Volumetric> {
    let divisor =
        table.count(key("divisor", "cubic centimetres that count as a kilogram"), within(1, 100_000));
    let roundings =
        [("exact", SideRounding::Exact), ("nearest", SideRounding::Nearest), ("up", SideRounding::Up)];
    let sides = table.choice(key("sides", "how each side is rounded to whole centimetres"), &roundings);
    let step =
        table.grams(key("step_grams", "step to which the mass counted is taken up"), within(1, 100_000));
    let threshold =
        table.count(key("threshold_cm3", "volume up to which size does not count"), within(0, 10_000_000));
    let step_real = table.flag(key("step_real", "whether the real mass is taken up to the step too"));
    Some(Volumetric {
        divisor: divisor?,
        sides: sides?,
        step: step?,
        threshold: threshold?,
        step_real: step_real?,
    })
}
