//! From what is asked to an order that can be worked: codes looked up, defaults
//! filled, contradictions named, all of them at once.

use pennantry_measure::{Length, bounds, text};

use super::{Asked, AskedLength, ColourRule, Field, Leftover, Order, Reason, Violation};
use super::{detail, ends, near};
use crate::shop::{Binding, Construction, Design, FabricRole, Shop, SizeAt};

/// Checks what is asked against a shop.
///
/// `unreadable` names fields that were said but could not be read: they count as
/// said, so that nobody is told twice about one mistake. Where it is not empty the
/// order returned only serves to find further violations.
///
/// # Errors
/// Every violation found, in the order of the fields.
pub fn check(shop: &Shop, asked: &Asked, unreadable: &[Field]) -> Result<Order, Vec<Violation>> {
    let mut found = Vec::new();
    let design_place = look_up(
        asked.design.as_deref(),
        shop.designs.iter().map(|d| d.code.as_str()),
        Field::Design,
        "design",
        &mut found,
    )
    .unwrap_or(0);
    let Some(design) = shop.designs.get(design_place) else {
        found.push(Violation::new(Field::Design, Reason::Missing, "the catalogue has no design"));
        return Err(found);
    };
    let readable = |field: Field| !unreadable.contains(&field);

    check_length(shop, asked, unreadable, &mut found);
    let width = asked.width.unwrap_or(design.width);
    let drop = asked.drop.unwrap_or(design.drop);
    let gap = check_gaps(asked, design, width, &mut found);
    let shape = asked.shape.unwrap_or(design.shape);
    let size_at = asked.size_at.unwrap_or(design.size_at);
    let construction = check_construction(shop, asked, design, &mut found);
    let backing = check_backing(shop, asked, construction, &mut found);
    let fabrics = check_fabrics(shop, asked, design, readable(Field::Fabrics), &mut found);
    let letters = check_letters(shop, asked, &mut found);
    let binding = look_up(
        asked.binding.as_deref(),
        shop.bindings.iter().map(|b| b.code.as_str()),
        Field::Binding,
        "binding",
        &mut found,
    )
    .unwrap_or(design.binding);
    let hidden = match size_at {
        SizeAt::TopEdge => shop.bindings.get(binding).map_or(Length::ZERO, Binding::insertion),
        SizeAt::BindingEdge => Length::ZERO,
    };
    let size = detail::Sized { shape, width, drop, hidden };
    let detail = detail::check(asked, design, size, unreadable, &mut found);
    let ends = ends::check(shop, asked, unreadable, &mut found);
    let trimmings = asked
        .trimmings
        .iter()
        .zip(0..)
        .filter_map(|((code, each), place)| {
            let codes = shop.trimmings.iter().map(|t| t.code.as_str());
            let trimming = look_up(Some(code), codes, Field::Trimming(place), "trimming", &mut found)?;
            Some((trimming, *each))
        })
        .collect();
    let (country, service) = check_sending(shop, asked, &mut found);
    let near = near::check(asked, &country, &mut found);
    if asked.rush && shop.calendar.rush.is_none() {
        let message = format!("{} offers no rush: leave it out", shop.name);
        found.push(Violation::new(Field::Rush, Reason::NotOffered, message));
    }

    let leftover = asked.leftover.unwrap_or_else(|| default_leftover(asked));
    found.sort_by_key(|violation| violation.field);
    if !found.is_empty() {
        return Err(found);
    }
    Ok(Order {
        design: design_place,
        length: asked.length,
        count: asked.count,
        gap,
        gap_given: asked.gap.is_some() && asked.leftover != Some(Leftover::Gaps),
        tail: asked.tail.unwrap_or(design.tail),
        tail_given: asked.tail.is_some(),
        leftover,
        parity: asked.parity,
        min_gap: asked.min_gap,
        max_gap: asked.max_gap,
        shape,
        width,
        drop,
        size_at,
        detail,
        construction,
        backing,
        rule: asked.rule.unwrap_or(ColourRule::Repeat),
        fabrics,
        letters,
        binding,
        ends,
        trimmings,
        quantity: asked.quantity.unwrap_or(1),
        near,
        country,
        service,
        wanted: asked.wanted,
        discount: asked.discount.clone(),
        rush: asked.rush,
    })
}

/// Without a gap of its own, a flagged length or a hang is filled exactly, and a count
/// with a length gives the gap; any other length, or a gap that was given, leaves the
/// rest to the tails.
fn default_leftover(asked: &Asked) -> Leftover {
    let fills = matches!(asked.length, Some(AskedLength::Flagged(_) | AskedLength::Hang(_)));
    let bounded = asked.min_gap.is_some() || asked.max_gap.is_some();
    if asked.gap.is_none() && (fills || bounded || asked.count.is_some()) {
        Leftover::Gaps
    } else {
        Leftover::Tails
    }
}

fn check_length(shop: &Shop, asked: &Asked, unreadable: &[Field], found: &mut Vec<Violation>) {
    const SAYING: [Field; 8] = [
        Field::Flagged,
        Field::Overall,
        Field::BindingLength,
        Field::Span,
        Field::Dip,
        Field::Swags,
        Field::Count,
        Field::Lettering,
    ];
    let Some(length) = asked.length else {
        let said = SAYING.iter().any(|field| unreadable.contains(field));
        if asked.count.is_none() && asked.letters.is_empty() && !said {
            found.push(Violation::new(
                Field::Flagged,
                Reason::Missing,
                "nothing says how long it is to be: give one length (flagged, overall, binding in hand, or a hang), \
                 or a number of pennants, or a lettering",
            ));
        }
        return;
    };
    let measured = length.measured();
    if measured < shop.least || measured > shop.most {
        found.push(Violation::new(
            length.field(),
            Reason::OutOfRange,
            format!(
                "{} of {measured} is outside what {} makes: ask for {} to {}",
                length.spoken(),
                shop.name,
                shop.least,
                shop.most
            ),
        ));
    }
}

/// The gap, given or usual, held within the least and greatest gap.
fn check_gaps(asked: &Asked, design: &Design, width: Length, found: &mut Vec<Violation>) -> Length {
    let mut contradiction = |field, message: String| {
        found.push(Violation::new(field, Reason::Contradiction, message));
    };
    let overlap = |gap: Length| width + gap <= Length::ZERO;
    for (field, value, what) in [
        (Field::Gap, asked.gap, "gap"),
        (Field::MinGap, asked.min_gap, "least gap"),
        (Field::MaxGap, asked.max_gap, "greatest gap"),
    ] {
        if let Some(gap) = value.filter(|gap| overlap(*gap)) {
            contradiction(
                field,
                format!(
                    "a {what} of {gap} would hang pennants {width} wide on top of each other: give more than {}",
                    -width
                ),
            );
        }
    }
    if let (Some(min), Some(max)) = (asked.min_gap, asked.max_gap)
        && min > max
    {
        contradiction(
            Field::MinGap,
            format!(
                "the least gap of {min} is above the greatest gap of {max}: exchange them, or leave one out"
            ),
        );
    }
    let Some(gap) = asked.gap else {
        let mut gap = design.gap;
        if let Some(min) = asked.min_gap {
            gap = gap.max(min);
        }
        if let Some(max) = asked.max_gap {
            gap = gap.min(max);
        }
        return gap;
    };
    if let Some(min) = asked.min_gap.filter(|min| gap < *min) {
        contradiction(
            Field::Gap,
            format!(
                "a gap of {gap} is below the least gap of {min}: give {min} or more, or lower the least gap"
            ),
        );
    }
    if let Some(max) = asked.max_gap.filter(|max| gap > *max) {
        contradiction(
            Field::Gap,
            format!(
                "a gap of {gap} is above the greatest gap of {max}: give {max} or less, or raise the greatest gap"
            ),
        );
    }
    gap
}

fn check_construction(
    shop: &Shop,
    asked: &Asked,
    design: &Design,
    found: &mut Vec<Violation>,
) -> Construction {
    let construction = asked.construction.unwrap_or(design.construction);
    if !design.constructions.contains(&construction) || shop.method(construction).is_none() {
        let offered: Vec<&str> = design.constructions.iter().map(|c| construction_name(*c)).collect();
        found.push(Violation::new(
            Field::Construction,
            Reason::NotOffered,
            format!(
                "the design \"{}\" is not made {}: it can be had {}",
                design.code,
                construction_name(construction),
                offered.join(", ")
            ),
        ));
    }
    construction
}

fn check_backing(
    shop: &Shop,
    asked: &Asked,
    construction: Construction,
    found: &mut Vec<Violation>,
) -> Option<usize> {
    let code = asked.backing.as_deref()?;
    if construction.layers() == 1 {
        found.push(Violation::new(
            Field::Backing,
            Reason::Contradiction,
            format!(
                "a backing needs two layers, and the pennants are made {}: leave the backing out or ask for two layers",
                construction_name(construction)
            ),
        ));
    }
    look_up(Some(code), fabric_codes(shop), Field::Backing, "fabric", found)
}

/// Codes of the fabrics; one that pennants are not cut from has none here.
fn fabric_codes(shop: &Shop) -> impl Iterator<Item = &str> + Clone {
    let offered = |role: FabricRole| role == FabricRole::Cloth;
    shop.fabrics.iter().map(move |f| if offered(f.role) { f.code.as_str() } else { "" })
}

/// The country, the shop's own unless said, and the service, which has to go there.
fn check_sending(shop: &Shop, asked: &Asked, found: &mut Vec<Violation>) -> (String, Option<usize>) {
    let country = asked.country.clone().unwrap_or_else(|| shop.customs.country.clone());
    let mut reached: Vec<&str> =
        shop.services.iter().flat_map(|service| service.countries.iter().map(String::as_str)).collect();
    reached.sort_unstable();
    reached.dedup();
    if asked.country.is_some() && !reached.contains(&country.as_str()) {
        let message = format!(
            "{} sends nothing to \"{country}\"{}: it sends to {}",
            shop.name,
            // reserved for the United Kingdom, whose code is GB (ISO 3166-1)
            if country == "UK" { "; did you mean GB?" } else { "" },
            if reached.is_empty() { String::from("no country") } else { reached.join(", ") }
        );
        found.push(Violation::new(Field::Country, Reason::NotOffered, message));
    }
    let codes = shop.services.iter().map(|service| service.code.as_str());
    let service = look_up(asked.service.as_deref(), codes, Field::Service, "postal service", found);
    if let Some(chosen) = service.and_then(|place| shop.services.get(place))
        && reached.contains(&country.as_str())
        && !chosen.countries.contains(&country)
    {
        let others: Vec<&str> = shop
            .services
            .iter()
            .filter(|service| service.countries.contains(&country))
            .map(|service| service.code.as_str())
            .collect();
        let message = format!(
            "the service \"{}\" does not go to \"{country}\": choose {}, or leave it out",
            chosen.code,
            others.join(", ")
        );
        found.push(Violation::new(Field::Service, Reason::NotOffered, message));
    }
    (country, service)
}

fn check_fabrics(
    shop: &Shop,
    asked: &Asked,
    design: &Design,
    readable: bool,
    found: &mut Vec<Violation>,
) -> Vec<usize> {
    let listed = asked.rule == Some(ColourRule::Listed);
    if asked.fabrics.is_empty() {
        if listed && readable {
            found.push(Violation::new(
                Field::Fabrics,
                Reason::Missing,
                "the colours are to hang as listed, but nothing is listed: list one fabric for each pennant, or choose another rule",
            ));
        }
        return design.fabrics.clone();
    }
    let mut places = Vec::with_capacity(asked.fabrics.len());
    for (code, place) in asked.fabrics.iter().zip(0..) {
        if let Some(fabric) = look_up(Some(code), fabric_codes(shop), Field::Fabric(place), "fabric", found) {
            places.push(fabric);
        }
        // a list may be 20 000 long; nobody reads as many mistakes
        if found.len() > 100 {
            break;
        }
    }
    let mut different = places.clone();
    different.sort_unstable();
    different.dedup();
    let most = bounds::FABRICS.most;
    let count = if listed { different.len() } else { places.len() };
    if u32::try_from(count).unwrap_or(u32::MAX) > most {
        found.push(Violation::new(
            Field::Fabrics,
            Reason::OutOfRange,
            format!("{count} fabrics are more than one string can take: name 1 to {most}"),
        ));
    }
    places
}

/// Letters with `None` for spaces; spaces at the ends fall away.
fn check_letters(shop: &Shop, asked: &Asked, found: &mut Vec<Violation>) -> Vec<Option<String>> {
    let blank = |letter: &String| letter.chars().all(char::is_whitespace);
    let unseen = |letter: &&String| !blank(letter) && text::is_blank(letter);
    if asked.letters.is_empty() {
        return Vec::new();
    }
    if shop.letters.is_none() {
        let message = format!("{} puts no letters on pennants: leave the lettering out", shop.name);
        found.push(Violation::new(Field::Lettering, Reason::NotOffered, message));
    }
    if let Some(code) = asked.letters.iter().find_map(|letter| text::hidden(letter)) {
        found.push(Violation::new(
            Field::Lettering,
            Reason::BadText,
            format!(
                "the lettering holds the control character {code}, which nobody sees and which cannot be cut from \
                 cloth: take it out"
            ),
        ));
    } else if let Some(letter) = asked.letters.iter().find(unseen) {
        let code = letter.chars().next().map_or(0, u32::from);
        found.push(Violation::new(
            Field::Lettering,
            Reason::BadText,
            format!(
                "the lettering holds U+{code:04X} alone, which shows nothing and is no letter: take it out"
            ),
        ));
    }
    let start = asked.letters.iter().position(|l| !blank(l));
    let end = asked.letters.iter().rposition(|l| !blank(l));
    let (Some(start), Some(end)) = (start, end) else {
        found.push(Violation::new(
            Field::Lettering,
            Reason::BadText,
            "the lettering is nothing but spaces: give at least one letter, or leave it out",
        ));
        return Vec::new();
    };
    let kept = asked.letters.get(start..=end).unwrap_or_default();
    kept.iter().map(|l| if blank(l) { None } else { Some(l.clone()) }).collect()
}

pub(super) fn look_up<'a>(
    code: Option<&str>,
    mut codes: impl Iterator<Item = &'a str> + Clone,
    field: Field,
    what: &str,
    found: &mut Vec<Violation>,
) -> Option<usize> {
    let code = code?;
    let known = codes.clone();
    let place = codes.position(|known| known == code && !code.is_empty());
    if place.is_none() {
        let mut some: Vec<&str> = known.filter(|code| !code.is_empty()).take(13).collect();
        if some.len() > 12 {
            some.truncate(12);
            some.push("…");
        }
        let offer = if some.is_empty() {
            String::from("it has none; leave it out")
        } else {
            format!("it has {}", some.join(", "))
        };
        found.push(Violation::new(
            field,
            Reason::UnknownCode,
            format!("the catalogue has no {what} \"{}\": {offer}", shorten(code)),
        ));
    }
    place
}

/// Quoted back so that a message stays readable.
fn shorten(text: &str) -> String {
    let clean: String =
        text.chars().take(40).map(|c| if text::is_hidden(c) { '\u{fffd}' } else { c }).collect();
    if text.chars().count() > 40 { format!("{clean}…") } else { clean }
}

/// How a construction is spoken of.
pub fn construction_name(construction: Construction) -> &'static str {
    match construction {
        Construction::SinglePinked => "in one pinked layer",
        Construction::SinglePlain => "in one plain layer",
        Construction::DoubleTurned => "in two layers, turned",
        Construction::DoublePinked => "in two layers, pinked",
        Construction::DoubleFused => "in two layers, fused",
    }
}
