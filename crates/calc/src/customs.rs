//! What customs want to know.
//!
//! **Words.** A declaration names what the goods are, of what, how they are put together
//! and how long: "sewn cotton bunting, triangular pennants on folded binding, 6.2 m".
//! Words such as "gift", "decoration" or "textile" say none of it, and entries that say
//! no more are turned back. The length is the flagged one, as it is ordered, to the
//! nearest centimetre, a half up. All of it is ASCII and at most 100 characters, as forms
//! and messages hold no more (common practice, no source): where fibres are too many the
//! last ones become "other fibres"; where even one is too long it is cut at a word.
//!
//! **Heading.** Sewn textile bunting is of heading 63.07, other made-up articles:
//!
//! | question | answer | where it says so |
//! |---|---|---|
//! | Is it made up? | cut to shape, and put together by sewing | Harmonized System, Section XI, Note 7 |
//! | Is it not a festive article of 95.05? | textile flags and bunting of Chapter 63 are left out of it | Chapter 95, Note 1, quoted in CBSA Memorandum D10-14-66 (2015) |
//! | Has customs ruled so? | flags on a cord and a sewn banner; flags printed for holidays | US rulings NY G82087 (2000), NY E81399 (1999) |
//!
//! The letter of the item in Note 1 differs from one edition of the Harmonized System to
//! the next, so it is not named. Plastic pennants on a plastic strip were ruled to be of
//! 9505.90 (US ruling NY 811658, 1995), and flags whose print is their essence of 49.11
//! (the same memorandum): what a cloth is coated or printed with, the catalogue does not
//! say, so the reason names the doubt. Beyond six digits codes are each country's own.

use pennantry_measure::{Length, Mass, Rounding, divide};

use crate::layout::Layout;
use crate::mass::{Masses, PartKind};
use crate::order::Order;
use crate::shop::{Fabric, FabricRole, Shape, Shop};

#[cfg(test)]
mod tests;

/// Most characters of a description.
const MOST_CHARACTERS: usize = 100;

/// Words that say nothing of a fibre.
const VAGUE: [&str; 8] = ["textile", "fabric", "cloth", "material", "mixed", "various", "unknown", "other"];

/// What the declaration says.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Declaration {
    /// The goods in words that a customs officer accepts.
    pub description: String,
    /// Tariff heading.
    pub code: String,
    /// Why that heading and not another.
    pub reason: String,
    /// Country of origin.
    pub origin: String,
    /// How many strings.
    pub strings: u32,
    /// Net mass.
    pub net: Mass,
    /// Gross mass, packing and all.
    pub gross: Mass,
}

/// What a declaration of an order says.
///
/// The fibres are those of the cloth that is in the strings, by `masses`: a fabric that is
/// listed and not used is not declared, nor is a web.
pub fn declaration(shop: &Shop, order: &Order, layout: &Layout, masses: &Masses) -> Declaration {
    Declaration {
        description: description(&fibres(shop, order, masses), order.shape, layout.flagged, order.quantity),
        code: shop.customs.code.clone(),
        reason: reason(&shop.customs.code, &order.country),
        origin: shop.customs.origin.clone(),
        strings: order.quantity,
        net: masses.net,
        gross: masses.packed,
    }
}

/// The goods in words, ASCII and at most 100 characters.
///
/// ```
/// use pennantry_calc::customs::description;
/// use pennantry_calc::shop::Shape;
/// use pennantry_measure::Length;
/// let cotton = [String::from("cotton")];
/// assert_eq!(
///     description(&cotton, Shape::Triangle, Length::from_mm(6_200), 1),
///     "sewn cotton bunting, triangular pennants on folded binding, 6.2 m"
/// );
/// ```
pub fn description(fibres: &[String], shape: Shape, length: Length, strings: u32) -> String {
    let shape = match shape {
        Shape::Triangle => "triangular",
        Shape::Blunt => "trapezoidal",
        Shape::Swallowtail => "swallowtail",
        Shape::Shield => "shield-shaped",
        Shape::Scallop => "round-ended",
        Shape::Rectangle => "rectangular",
    };
    let length = metres(length);
    let length = if strings == 1 { length } else { format!("{strings} strings of {length}") };
    let rest = format!("bunting, {shape} pennants on folded binding, {length}");
    let room = MOST_CHARACTERS.saturating_sub("sewn  ".len() + rest.len());
    // at least one is named
    let mut shortened = (0..fibres.len().max(1)).map(|left_out| listed(fibres, left_out));
    let fitting = shortened.find(|fibres| fibres.len() <= room);
    let fibres = fitting.or_else(|| fibres.first().map(|fibre| cut_at_a_word(fibre, room).to_owned()));
    match fibres {
        Some(fibres) if !fibres.is_empty() => format!("sewn {fibres} {rest}"),
        _ => format!("sewn {rest}"),
    }
}

/// `cotton, linen and hemp`; with so many left out `cotton and other fibres`.
fn listed(fibres: &[String], left_out: usize) -> String {
    let kept = fibres.iter().take(fibres.len().saturating_sub(left_out)).map(String::as_str);
    let mut words: Vec<&str> = kept.collect();
    if left_out > 0 {
        words.push("other fibres");
    }
    match words.split_last() {
        None => String::new(),
        Some((last, [])) => (*last).to_owned(),
        Some((last, before)) => format!("{} and {last}", before.join(", ")),
    }
}

/// What the cloth in the strings is made of, each fibre once, in ASCII.
fn fibres(shop: &Shop, order: &Order, masses: &Masses) -> Vec<String> {
    let weighed =
        masses.parts.iter().filter(|part| part.mass > Mass::ZERO).filter_map(|part| match part.kind {
            PartKind::Cloth(place) => Some(place),
            _ => None,
        });
    let mut places: Vec<usize> = weighed.collect();
    if places.is_empty() {
        places = order.fabrics.iter().chain(&order.backing).copied().collect();
    }
    let cloth = |fabric: &&Fabric| fabric.role == FabricRole::Cloth;
    let mut found: Vec<String> = Vec::new();
    let fabrics = places.into_iter().filter_map(|place| shop.fabrics.get(place)).filter(cloth);
    // "linen and cotton" are two fibres, each named once
    let named = fabrics.flat_map(|fabric| fabric.fibre.split(" and ").map(ascii).collect::<Vec<_>>());
    for fibre in named {
        let vague = VAGUE.iter().any(|word| fibre.eq_ignore_ascii_case(word));
        let named = found.iter().any(|other| other.eq_ignore_ascii_case(&fibre));
        if !fibre.is_empty() && !vague && !named {
            found.push(fibre);
        }
    }
    found
}

/// Why the heading is what it is, and who decides.
fn reason(code: &str, country: &str) -> String {
    let digits: String = code.chars().filter(char::is_ascii_digit).collect();
    let why = "Sewn textile bunting is a made-up article of heading 63.07 (Harmonized System, Section XI, Note 7), \
               and Chapter 95 leaves out textile flags and bunting of Chapter 63 (its Note 1), even where they are \
               for parties; see CBSA Memorandum D10-14-66 and the US rulings NY G82087 and NY E81399";
    let doubt = "Coated or plastic cloth, or cloth whose print is the essence of it, may belong elsewhere";
    let own = if digits.starts_with("6307") {
        String::new()
    } else {
        format!(". The shop declares {code} instead, for reasons of its own")
    };
    format!("{why}{own}. {doubt}; the customs of the country it goes to, {country}, decide.")
}

/// `6.2 m`, to the nearest centimetre.
fn metres(length: Length) -> String {
    let cm = divide(length.wide(), 10_000, Rounding::HalfUp);
    let text = format!("{}.{:02}", cm / 100, cm % 100);
    format!("{} m", text.trim_end_matches('0').trim_end_matches('.'))
}

/// The longest run of whole words of at most so many bytes of an ASCII text.
fn cut_at_a_word(text: &str, most: usize) -> &str {
    let ends = text.char_indices().filter(|(_, letter)| *letter == ' ').map(|(at, _)| at);
    let end = ends.chain([text.len()]).take_while(|at| *at <= most).last().unwrap_or(0);
    text.get(..end).unwrap_or("").trim_end_matches([' ', ','])
}

/// Letters with accents as their plain small ones; whatever else is not ASCII is left out,
/// and runs of spaces are one.
fn ascii(text: &str) -> String {
    let mut plain = String::with_capacity(text.len());
    for letter in text.chars() {
        if letter.is_whitespace() {
            plain.push(' ');
        } else if letter.is_ascii_graphic() {
            plain.push(letter);
        } else {
            letter.to_lowercase().for_each(|small| plain.push_str(plain_letter(small)));
        }
    }
    plain.split(' ').filter(|word| !word.is_empty()).collect::<Vec<_>>().join(" ")
}

/// A small letter with an accent as it is written without; nothing for any other.
fn plain_letter(letter: char) -> &'static str {
    match letter {
        'à' | 'á' | 'â' | 'ã' | 'å' => "a",
        'ä' | 'æ' => "ae",
        'ç' => "c",
        'è' | 'é' | 'ê' | 'ë' => "e",
        'ì' | 'í' | 'î' | 'ï' => "i",
        'ñ' => "n",
        'ò' | 'ó' | 'ô' | 'õ' => "o",
        'ö' | 'ø' | 'œ' => "oe",
        'ß' => "ss",
        'ù' | 'ú' | 'û' => "u",
        'ü' => "ue",
        _ => "",
    }
}
