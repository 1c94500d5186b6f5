//! What strings are made from: fabrics, bindings, trimmings and sundries.

use pennantry_calc::shop::{
    Binding, BindingSource, Direction, Driver, Fabric, FabricRole, Picture, Repeat, Roll, Sold, StripGrain,
    Sundry, Trimming,
};
use pennantry_measure::bounds::Bound;
use pennantry_measure::{Length, Percent, Rate, Rounding, divide};

use super::codes::{Codes, Fabrics, code, name};
use super::field::{Digits, mm, um, within};
use super::node::{Key, Table, key};
use super::paper::certificates;
use super::parts;
use super::pricing;

const OFFCUTS: Bound<usize> = Bound { least: 0, most: 200 };
/// One layer of anything.
const THICKNESS: Bound<Length> = um(10, 20_000);
/// Keys of a binding that is bought.
const BOUGHT: [&str; 4] = ["price_per_metre", "roll_mm", "roll_price", "offcuts_mm"];
/// Keys of a binding that is cut from a cloth.
const CUT: [&str; 3] = ["cut_from", "raw_mm", "strip_grain"];
const PRICE: Key = key("price_per_metre", "price of a metre before tax");
const NOUGHT: Percent = Percent::from_milli(0);

fn swatch(table: &mut Table<'_, '_, '_>) -> Option<String> {
    let fits = |text: &str| {
        text.strip_prefix('#')
            .is_some_and(|hex| hex.len() == 6 && hex.bytes().all(|byte| byte.is_ascii_hexdigit()))
    };
    let form = "\"#\" and six hexadecimal digits in quotes, such as \"#2f5d50\"";
    table.pattern(key("swatch", "the colour that stands for it on a screen"), form, fits).map(str::to_owned)
}

/// A photograph: which file, and how much of the cloth it shows.
#[expect(clippy::option_option, reason = "the outer one is for mistakes, as everywhere here")]
fn picture(table: &mut Table<'_, '_, '_>) -> Option<Option<Picture>> {
    const SIDES: [&str; 2] = ["picture_across_mm", "picture_along_mm"];
    let file = key("picture", "file of a photograph, in the folder of pictures");
    let form = "the name of a JPEG, PNG, WebP or AVIF file in quotes, such as \"kelp.jpg\": small letters, \
                digits, \"-\" and \"_\", 1 to 60 of them, before its ending";
    if !table.has(file.name) {
        table.optional(file.name);
        table.strangers(&SIDES, "stands without picture: say which file it is of, or leave it out");
        return Some(None);
    }
    let name = table.pattern(file, form, |name| crate::form::media(name).is_some()).map(str::to_owned);
    let across =
        table.length(key(SIDES[0], "how much of the cloth the photograph shows across"), mm(5, 3_000));
    let along = table.length(key(SIDES[1], "how much of the cloth it shows along"), mm(5, 3_000));
    Some(Some(Picture { file: name?, across: across?, along: along? }))
}

fn price_per_metre(table: &mut Table<'_, '_, '_>, digits: Digits) -> Option<Rate> {
    table.rate(PRICE, digits, within(0, 100_000))
}

pub(super) fn fabric(table: &mut Table<'_, '_, '_>, known: &mut Fabrics, digits: Digits) -> Option<Fabric> {
    let code = code(table, &mut known.codes);
    let name = name(table);
    let swatch = swatch(table);
    let picture = picture(table);
    let fibre = table.words(key("fibre", "what it is made of"));
    let class = pricing::class(table);
    let width =
        table.length(key("usable_width_mm", "width between the selvedges that can be used"), mm(100, 3_000));
    let ways = [
        ("one-way", Direction::OneWay),
        ("two-way", Direction::TwoWay),
        ("four-way", Direction::FourWay),
        ("nap", Direction::OneWay),
    ];
    let direction = table.choice(key("direction", "which ways pieces may lie"), &ways);
    let price = price_per_metre(table, digits);
    let sold = sold(table);
    let mass = table.grams_per_m2(key("grams_per_m2", "what a square metre weighs"), within(10, 2_000));
    let thickness = table.length(key("thickness_mm", "how thick one layer is"), THICKNESS);
    let across = key("shrink_across_percent", "what its width loses when it is washed before cutting");
    let shrink_across = table.or(across, NOUGHT, |table, key| table.percent(key, within(0, 40)));
    let along = key("shrink_along_percent", "what its length loses when it is washed before cutting");
    let shrink_along = table.or(along, NOUGHT, |table, key| table.percent(key, within(0, 40)));
    let across = key("repeat_across_mm", "after which length across the cloth the print repeats");
    let repeat_across = table.or(across, Length::ZERO, |table, key| table.length(key, mm(0, 2_000)));
    let along = key("repeat_along_mm", "after which length along the cloth the print repeats");
    let repeat_along = table.or(along, Length::ZERO, |table, key| table.length(key, mm(0, 2_000)));
    if let (Some(across), Some(width)) = (repeat_across, width)
        && across > width
        && let Some(node) = table.optional("repeat_across_mm")
    {
        let fault = format!("is wider than the cloth, which can be used over {width}: write that or less");
        table.note_found(&node, &fault);
    }
    let centred =
        table.or(key("centred", "whether the print sits in the middle of each pennant"), false, Table::flag);
    if centred == Some(true)
        && repeat_across == Some(Length::ZERO)
        && repeat_along == Some(Length::ZERO)
        && let Some(node) = table.optional("centred")
    {
        table.note_found(
            &node,
            "needs a print that repeats: give repeat_across_mm, repeat_along_mm or both, or leave it out",
        );
    }
    let roles = [("cloth", FabricRole::Cloth), ("web", FabricRole::Web)];
    let role = table
        .or(key("role", "what it is there for"), FabricRole::Cloth, |table, key| table.choice(key, &roles));
    let fire_certificates = certificates(table);
    known.widths.push(width.zip(shrink_across).map(|(width, shrink)| washed(width, shrink)));
    known.roles.push(role);
    Some(Fabric {
        code: code?,
        name: name?,
        swatch: swatch?,
        picture: picture?,
        fibre: fibre?,
        class: class?,
        usable_width: width?,
        direction: direction?,
        price: price?,
        sold: sold?,
        mass: mass?,
        thickness: thickness?,
        shrink_across: shrink_across?,
        shrink_along: shrink_along?,
        repeat: Repeat { across: repeat_across?, along: repeat_along? },
        centred: centred?,
        role: role?,
        fire_certificates: fire_certificates?,
    })
}

/// What washing leaves of a width, down to the micrometre.
fn washed(width: Length, shrink: Percent) -> Length {
    let whole = Percent::WHOLE.milli();
    let kept = divide(width.wide() * i128::from(whole - shrink.milli()), i128::from(whole), Rounding::Down);
    i64::try_from(kept).map_or(width, Length::from_um)
}

/// Off a bolt or in pieces: one of them, and never both.
fn sold(table: &mut Table<'_, '_, '_>) -> Option<Sold> {
    let step_key = key("cut_step_mm", "step in which it is cut off the bolt");
    let piece_key = key("piece_length_mm", "length of a piece, where it is sold in pieces");
    let (bolt, pieces) = (table.has(step_key.name), table.has(piece_key.name));
    if bolt && pieces {
        let fault = "stands beside cut_step_mm: a cloth is sold off a bolt or in pieces, never both: \
                     leave one out";
        table.strangers(&[piece_key.name], fault);
    }
    if !bolt && !pieces {
        // both are known here, whichever the owner meant
        table.optional(step_key.name);
        table.optional(piece_key.name);
        let how = "is missing, and piece_length_mm with it: write one of them, cut_step_mm from 1 mm to \
                   5000 mm or piece_length_mm from 100 mm to 5000 mm";
        table.note_absence(step_key.name, how.to_owned());
        return None;
    }
    if bolt {
        return table.length(step_key, mm(1, 5_000)).map(|step| Sold::Bolt { step });
    }
    table.length(piece_key, mm(100, 5_000)).map(|length| Sold::Pieces { length })
}

/// The bindings, as designs refer to them.
#[derive(Debug)]
pub(super) struct Bindings {
    pub(super) codes: Codes,
    /// Their widths, in their order.
    pub(super) widths: Vec<Option<Length>>,
}

impl Bindings {
    pub(super) fn new() -> Bindings {
        Bindings { codes: Codes::new("bindings", "code"), widths: Vec::new() }
    }
}

pub(super) fn binding(
    table: &mut Table<'_, '_, '_>,
    known: &mut Bindings,
    fabrics: &Fabrics,
    digits: Digits,
) -> Option<Binding> {
    let code = code(table, &mut known.codes);
    let name = name(table);
    let swatch = swatch(table);
    let width = table.length(key("width_mm", "width as sold, flat, fold to fold"), mm(5, 200));
    known.widths.push(width);
    let source = source(table, fabrics, width, digits);
    let mass = table.grams_per_metre(key("grams_per_metre", "what a metre weighs"), within(100, 1_000_000));
    let thickness = table.length(key("thickness_mm", "how thick one layer of its cloth is"), THICKNESS);
    let shrink = key("shrink_percent", "what its length loses when it is washed before sewing");
    let shrink = table.or(shrink, NOUGHT, |table, key| table.percent(key, within(0, 40)));
    let fire_certificates = if table.has_any(&CUT) {
        let fault = "is of a binding that is bought: one that is cut from a cloth has the certificates of that \
                     cloth: leave it out";
        table.strangers(&["fire_certificates"], fault);
        Some(Vec::new())
    } else {
        certificates(table)
    };
    let cord = parts::cord(table);
    Some(Binding {
        code: code?,
        name: name?,
        swatch: swatch?,
        width: width?,
        source: source?,
        mass: mass?,
        thickness: thickness?,
        shrink: shrink?,
        fire_certificates: fire_certificates?,
        cord: cord?,
    })
}

/// Bought or cut from a cloth: one of them, and never both.
fn source(
    table: &mut Table<'_, '_, '_>,
    fabrics: &Fabrics,
    width: Option<Length>,
    digits: Digits,
) -> Option<BindingSource> {
    let (is_bought, is_cut) = (table.has_any(&BOUGHT), table.has_any(&CUT));
    // all are known here, whichever the owner meant
    for name in BOUGHT.into_iter().chain(CUT) {
        table.optional(name);
    }
    if !is_bought && !is_cut {
        let how = "is missing, and cut_from with it: write price_per_metre and roll_mm for a binding that \
                   is bought, or cut_from, raw_mm and strip_grain for one that is cut from a cloth";
        table.note_absence("price_per_metre", how.to_owned());
        return None;
    }
    let both = is_bought && is_cut;
    if both && let Some(node) = CUT.into_iter().find_map(|name| table.optional(name)) {
        let fault = "is of a binding cut from a cloth and stands beside what is of one that is bought, never \
                     both: leave one out";
        table.note_found(&node, fault);
    }
    let cut = if is_cut { cut_strips(table, fabrics, width, both) } else { None };
    let bought = if is_bought { bought(table, digits, both) } else { None };
    bought.or(cut)
}

/// A value that has to be there, unless it is not sure that its table is meant to have it.
fn needed<T>(
    table: &mut Table<'_, '_, '_>,
    unsure: bool,
    key: Key,
    read: impl FnOnce(&mut Table<'_, '_, '_>, Key) -> Option<T>,
) -> Option<T> {
    if unsure && !table.has(key.name) { None } else { read(table, key) }
}

fn bought(table: &mut Table<'_, '_, '_>, digits: Digits, unsure: bool) -> Option<BindingSource> {
    let price = needed(table, unsure, PRICE, |table, _| price_per_metre(table, digits));
    let roll = key("roll_mm", "length of a whole roll");
    let length = needed(table, unsure, roll, |table, key| table.length(key, mm(1_000, 2_000_000)));
    let roll = key("roll_price", "price of a whole roll before tax");
    let roll_price = table.maybe(roll, |table, key| table.money(key, digits, within(0, 1_000_000)));
    let form = "lengths in square brackets, such as [2400, 900]";
    let offcuts = table.or(key("offcuts_mm", "offcuts on the shelf"), Vec::new(), |table, key| {
        table.lengths(key, form, OFFCUTS, mm(10, 1_000_000))
    });
    Some(BindingSource::Bought {
        price: price?,
        roll: Roll { length: length?, price: roll_price? },
        offcuts: offcuts?,
    })
}

fn cut_strips(
    table: &mut Table<'_, '_, '_>,
    fabrics: &Fabrics,
    width: Option<Length>,
    unsure: bool,
) -> Option<BindingSource> {
    let from = key("cut_from", "the cloth it is cut from");
    let fabric = needed(table, unsure, from, |table, key| fabrics.named(table, key, FabricRole::Cloth));
    let strip = key("raw_mm", "width of the strip that it is folded from");
    let raw = needed(table, unsure, strip, |table, key| table.length(key, mm(5, 1_000)));
    let grains = [("straight", StripGrain::Straight), ("bias", StripGrain::Bias)];
    let way = key("strip_grain", "which way strips are cut");
    let grain = needed(table, unsure, way, |table, key| table.choice(key, &grains));
    let cloth = fabric.and_then(|place| fabrics.width(place));
    let limit = match (raw, width, cloth) {
        (Some(raw), Some(width), _) if raw < width => {
            Some(format!("is narrower than the binding, which is {width}: write {width} or more"))
        }
        (Some(raw), _, Some(cloth)) if raw > cloth => {
            Some(format!("is wider than the cloth, which can be used {cloth} wide: write {cloth} or less"))
        }
        _ => None,
    };
    if let (Some(fault), Some(node)) = (limit, table.optional(strip.name)) {
        table.note_found(&node, &fault);
    }
    Some(BindingSource::Cloth { fabric: fabric?, raw: raw?, grain: grain? })
}

pub(super) fn trimming(table: &mut Table<'_, '_, '_>, codes: &mut Codes, digits: Digits) -> Option<Trimming> {
    let code = code(table, codes);
    let name = name(table);
    let price = table.money(key("price", "price of one before tax"), digits, within(0, 10_000));
    let mass = table.grams(key("grams", "what one weighs"), within(0, 10_000));
    let thickness = table.length(key("thickness_mm", "how thick one is"), mm(0, 200));
    let part = parts::part(table);
    Some(Trimming {
        code: code?,
        name: name?,
        price: price?,
        mass: mass?,
        thickness: thickness?,
        part: part?,
    })
}

pub(super) fn sundry(table: &mut Table<'_, '_, '_>, codes: &mut Codes, digits: Digits) -> Option<Sundry> {
    let code = code(table, codes);
    let name = name(table);
    let drivers = [
        ("order", Driver::Order),
        ("string", Driver::String),
        ("pennant", Driver::Pennant),
        ("end", Driver::End),
        ("letter", Driver::Letter),
    ];
    let driver = table.choice(key("driver", "what it is counted by"), &drivers);
    let price = table.money(key("price", "price of one before tax"), digits, within(0, 10_000));
    let mass = table.grams(key("grams", "what one weighs"), within(0, 10_000));
    let packing = table.flag(key("packing", "whether it only packs"));
    let opening = key("bag_opening_mm", "of a bag, the length round its opening");
    let bag_opening = table.maybe(opening, |table, key| table.length(key, mm(1, 10_000)));
    let film = key("bag_film_mm", "of a bag, how thick its film is");
    let bag_film = table.maybe(film, |table, key| table.length(key, um(1, 10_000)));
    Some(Sundry {
        code: code?,
        name: name?,
        driver: driver?,
        price: price?,
        mass: mass?,
        packing: packing?,
        bag_opening: bag_opening?,
        bag_film: bag_film?,
    })
}
