//! Figures of the report: ABC, days of cover, dead stock, wastage.
//!
//! | figure | rule |
//! |---|---|
//! | ABC | by value of use, the greatest first: A while what stands before it is below 80 % of all, B below 95 %, C from there on and where nothing was used |
//! | days of cover | `max(0, available) / rate`; nothing where nothing is used |
//! | dead | something on hand and no use for `max(180 days, 6 mean intervals)` |
//! | wastage | `(consumed - net) / consumed`, consumed `(issued - returned) · usable width` |
//!
//! The rule "what stands *before* it" makes the item that crosses 80 % an A. Shares of
//! 80 % and 95 %, and 180 days, are common practice, no source; 6 intervals are ours.
//! Comparisons are of whole numbers, shares are doubles; no rounding.

use super::Error;
use super::number::{exact, quotient};

/// Least days without use after which a fabric can be dead.
pub const DEAD_DAYS: u32 = 180;
/// Mean intervals without use after which it can be.
pub const DEAD_INTERVALS: f64 = 6.0;

/// A fabric's weight in the whole.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Abc {
    /// The few that make up most.
    A,
    /// The next.
    B,
    /// The rest.
    C,
}

/// The class of each item, in the order given. Equal values are taken in that order.
///
/// ```
/// use pennantry_forecast::demand::kpi::{Abc::{A, B, C}, abc};
/// assert_eq!(abc(&[200, 5_200, 2_600, 900, 1_100])?, [C, A, A, B, A]);
/// # Ok::<(), pennantry_forecast::demand::Error>(())
/// ```
pub fn abc(values: &[i64]) -> Result<Vec<Abc>, Error> {
    let mut order = Vec::with_capacity(values.len());
    for (at, &value) in values.iter().enumerate() {
        if value < 0 {
            return Err(Error::Negative { at, amount: exact(value).unwrap_or(f64::MIN) });
        }
        order.push((std::cmp::Reverse(value), at));
    }
    order.sort_unstable();
    let total: i128 = values.iter().copied().map(i128::from).sum();
    let mut classes = vec![Abc::C; values.len()];
    let mut before: i128 = 0;
    for (std::cmp::Reverse(value), at) in order {
        let class = if value == 0 {
            Abc::C
        } else if before * 100 < total * 80 {
            Abc::A
        } else if before * 100 < total * 95 {
            Abc::B
        } else {
            Abc::C
        };
        if let Some(place) = classes.get_mut(at) {
            *place = class;
        }
        before += i128::from(value);
    }
    Ok(classes)
}

/// How many days what is available lasts at a rate; nothing where the rate is 0, below
/// it, or no number: without use nothing runs out, and no figure says when.
///
/// Available is what is on hand less what is held or promised; below nought it lasts 0
/// days. Days are of the rate's kind, open or calendar.
///
/// ```
/// use pennantry_forecast::demand::kpi::days_of_cover;
/// assert!((days_of_cover(1_840 - 260, 36.5).unwrap() - 43.2876712329).abs() < 1e-10);
/// assert_eq!(days_of_cover(1_580, 0.0), None);
/// ```
pub fn days_of_cover(available: i64, rate: f64) -> Option<f64> {
    quotient(exact(available.max(0))?, rate)
}

/// Whether a fabric still moves.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Moving {
    /// Nothing is on hand, so nothing can be dead.
    NothingOnHand,
    /// Used within the limit, or too young to say otherwise.
    Live,
    /// On hand and not used for longer.
    Dead,
}

/// Whether a fabric is dead: `idle_days` since its last use, or since it came in where it
/// was never used; `interval_days` its mean interval in days, where it has one.
pub fn moving(on_hand: i64, idle_days: u32, interval_days: Option<f64>) -> Moving {
    if on_hand <= 0 {
        return Moving::NothingOnHand;
    }
    let interval = interval_days.filter(|days| days.is_finite()).unwrap_or(0.0);
    let limit = f64::from(DEAD_DAYS).max(DEAD_INTERVALS * interval);
    if f64::from(idle_days) >= limit { Moving::Dead } else { Moving::Live }
}

/// What was cut from and what came of it: lengths in one unit, areas in its square.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Cut {
    /// Length issued.
    pub issued: i64,
    /// Length brought back as a piece that is kept.
    pub returned: i64,
    /// Usable width.
    pub width: i64,
    /// Area of the pieces cut.
    pub net_area: i128,
    /// Area of end bits too short to keep.
    pub end_bits: i128,
    /// Area left out for flaws.
    pub flaws: i128,
}

/// Where cloth went.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Wastage {
    /// Area consumed.
    pub consumed: i128,
    /// All of it that is in no piece.
    pub wasted: i128,
    /// Between the pieces: what is neither end bits nor flaws.
    pub layout: i128,
    /// `wasted / consumed`; nothing where nothing was consumed.
    pub share: Option<f64>,
}

/// Wastage of a cut, and its part between the pieces.
///
/// # Errors
/// A measure below nought; more returned than issued, more in pieces than consumed, or
/// more in end bits and flaws than wasted.
///
/// ```
/// use pennantry_forecast::demand::kpi::{Cut, wastage};
/// // 3.20 m of cloth 1.12 m wide, 2.86 m² in pieces; millimetres
/// let cut = Cut { issued: 3_200, returned: 0, width: 1_120, net_area: 2_860_000, end_bits: 0, flaws: 0 };
/// assert!((wastage(&cut)?.share.unwrap() - 0.202008928571).abs() < 1e-12);
/// # Ok::<(), pennantry_forecast::demand::Error>(())
/// ```
pub fn wastage(cut: &Cut) -> Result<Wastage, Error> {
    let measures = [
        ("the length issued", i128::from(cut.issued)),
        ("the length returned", i128::from(cut.returned)),
        ("the usable width", i128::from(cut.width)),
        ("the area in pieces", cut.net_area),
        ("the area of end bits", cut.end_bits),
        ("the area left out for flaws", cut.flaws),
    ];
    for (what, size) in measures {
        above_nought(what, size)?;
    }
    let length = above_nought("what was kept", i128::from(cut.issued) - i128::from(cut.returned))?;
    // two 64-bit lengths make at most 126 bits
    let consumed = length * i128::from(cut.width);
    let wasted = above_nought("what was wasted", consumed.saturating_sub(cut.net_area))?;
    let named = cut.end_bits.saturating_add(cut.flaws);
    let layout = above_nought("waste between the pieces", wasted.saturating_sub(named))?;
    Ok(Wastage { consumed, wasted, layout, share: quotient(wide(wasted), wide(consumed)) })
}

fn above_nought(what: &'static str, size: i128) -> Result<i128, Error> {
    if size < 0 { Err(Error::BelowNought { what, by: size.saturating_neg() }) } else { Ok(size) }
}

/// An area as a double, to its nearest 53 bits or so; it is only divided by another.
fn wide(area: i128) -> f64 {
    let part =
        |shift: u32| u32::try_from((area.unsigned_abs() >> shift) & 0xffff_ffff).map_or(0.0, f64::from);
    let word = 4_294_967_296.0;
    ((part(96) * word + part(64)) * word + part(32)) * word + part(0)
}
