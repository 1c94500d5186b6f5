//! Which fabric hangs where, and which letter.
//!
//! With `k` fabrics and `n` pennants, counted from nought at the left, place `i` takes
//! fabric
//!
//! | rule | number of the fabric | of 9 pennants in A, B, C |
//! |---|---|---|
//! | repeat | `i mod k` | `ABCABCABC` |
//! | mirror from the ends | `min(i, n − 1 − i) mod k` | `ABCABACBA` |
//! | mirror from the centre | `⌊\|2i − (n − 1)\| / 2⌋ mod k` | `BACBABCAB` |
//! | listed | the `i`-th entry | as listed |
//!
//! The three differ in what they use: nine pennants in three fabrics take 3, 3 and 3,
//! or 4, 3 and 2, or 3, 4 and 2. An even count mirrored doubles the fabric in the
//! middle, which is noticed.
//!
//! A lettering sits in the middle of the string, one character a pennant, a plain
//! pennant for each space between words, and plain pennants fill both ends. Where they
//! cannot be shared out evenly the right end takes one more, which is noticed.

use pennantry_measure::Length;

use crate::notice::{Code, Notice};
use crate::order::{ColourRule, Field, Order, Reason, Violation};

#[cfg(test)]
mod tests;

/// What hangs at one place of a string.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Slot {
    /// Place of its fabric in the shop's list.
    pub fabric: usize,
    /// Place of its letter in the order's lettering; none for a plain pennant.
    pub letter: Option<u32>,
}

/// What hangs at each place of one string, from the left.
///
/// `least_length` is the flagged length that the lettering takes at the least, which
/// is only spoken of where it does not fit.
///
/// # Errors
/// - [`Field::Fabrics`], [`Reason::Contradiction`]: a list whose entries are not as
///   many as the pennants.
/// - [`Field::Fabrics`], [`Reason::Missing`]: no fabric at all, which a checked order
///   never has.
/// - [`Field::Lettering`], [`Reason::DoesNotFit`]: more letters and spaces than
///   pennants.
///
/// All that apply, in the order of the fields.
///
/// ```
/// use pennantry_calc::colours::assign;
/// use pennantry_calc::order::{ColourRule, Order};
/// # use pennantry_calc::order::{End, Leftover, Near};
/// # use pennantry_calc::shop::{Construction, Shape, SizeAt};
/// use pennantry_measure::Length;
/// # let plain = Order {
/// #     design: 0, length: None, count: Some(9), gap: Length::from_mm(20), gap_given: false,
/// #     tail: Length::ZERO, tail_given: false, leftover: Leftover::Tails, parity: None,
/// #     min_gap: None, max_gap: None, shape: Shape::Triangle, width: Length::from_mm(190),
/// #     drop: Length::from_mm(210), size_at: SizeAt::TopEdge, detail: Length::ZERO,
/// #     construction: Construction::SinglePinked, backing: None, rule: ColourRule::Repeat,
/// #     fabrics: vec![0], letters: Vec::new(), binding: 0, trimmings: Vec::new(), quantity: 1,
/// #     country: String::new(), service: None, wanted: None, discount: None, rush: false, ends: [End::default(); 2],
/// #     near: Near::default(),
/// # };
/// // places 4, 7 and 2 of the shop's fabrics, the same from both ends
/// let order = Order { rule: ColourRule::MirrorEnds, fabrics: vec![4, 7, 2], ..plain };
/// let slots = assign(&order, 9, Length::ZERO).unwrap();
/// let fabrics: Vec<usize> = slots.iter().map(|slot| slot.fabric).collect();
/// assert_eq!(fabrics, [4, 7, 2, 4, 7, 4, 2, 7, 4]);
/// ```
pub fn assign(order: &Order, count: u32, least_length: Length) -> Result<Vec<Slot>, Vec<Violation>> {
    let found: Vec<Violation> =
        [unlisted(order, count), unlettered(order, count, least_length)].into_iter().flatten().collect();
    if !found.is_empty() {
        return Err(found);
    }
    let first_letter = (wide(count) - order.letters.len()) / 2;
    let hung = (0..wide(count)).filter_map(|place| {
        let fabric = *order.fabrics.get(number(order.rule, place, wide(count)) % order.fabrics.len())?;
        let letter =
            place.checked_sub(first_letter).filter(|at| matches!(order.letters.get(*at), Some(Some(_))));
        Some(Slot { fabric, letter: letter.and_then(|at| u32::try_from(at).ok()) })
    });
    Ok(hung.collect())
}

/// How many pennants of each fabric hang on one string: the fabric's place in the
/// shop's list and its count, in the order in which they are first hung.
///
/// ```
/// use pennantry_calc::colours::{Slot, counts};
/// let hung = [4, 7, 4].map(|fabric| Slot { fabric, letter: None });
/// assert_eq!(counts(&hung), [(4, 2), (7, 1)]);
/// ```
pub fn counts(slots: &[Slot]) -> Vec<(usize, u32)> {
    let mut counts: Vec<(usize, u32)> = Vec::new();
    for slot in slots {
        match counts.iter_mut().find(|(fabric, _)| *fabric == slot.fabric) {
            Some((_, count)) => *count += 1,
            None => counts.push((slot.fabric, 1)),
        }
    }
    counts
}

/// What to look at in what hangs: letters off the middle, neighbours in one fabric
/// (once, with their number and the first place, and never where the order has one
/// fabric only), and each fabric that was named but does not hang.
pub fn notices(order: &Order, slots: &[Slot]) -> Vec<Notice> {
    let mut notices = Vec::new();
    let letters = order.letters.len();
    if letters > 0 && !slots.len().saturating_sub(letters).is_multiple_of(2) {
        notices.push(Notice::about(Code::OffCentre, Field::Lettering, off_centre(letters, slots.len())));
    }
    let several = order.fabrics.iter().any(|fabric| Some(fabric) != order.fabrics.first());
    let pair = |place: &usize| slots.get(*place).map(|s| s.fabric) == slots.get(*place + 1).map(|s| s.fabric);
    let pairs: Vec<usize> = (0..slots.len().saturating_sub(1)).filter(pair).collect();
    if let Some(first) = pairs.first().filter(|_| several) {
        let message = equal_neighbours(order.rule, slots.len(), *first, pairs.len());
        notices.push(Notice::about(Code::EqualNeighbours, Field::ColourRule, message));
    }
    let hung = counts(slots);
    let mut named = Vec::new();
    for (fabric, place) in order.fabrics.iter().zip(0_u32..) {
        let hangs = hung.iter().any(|(hung, _)| hung == fabric);
        if !hangs && !named.contains(fabric) {
            named.push(*fabric);
            notices.push(Notice::about(
                Code::FabricUnused,
                Field::Fabric(place),
                format!(
                    "fabric {} of the list is not used: {} no further than {} of its {} entries",
                    place + 1,
                    if slots.len() == 1 {
                        String::from("1 pennant reaches")
                    } else {
                        format!("{} pennants reach", slots.len())
                    },
                    hung.len(),
                    order.fabrics.len()
                ),
            ));
        }
    }
    notices
}

/// The number of the fabric at a place, before it is taken modulo the fabrics.
fn number(rule: ColourRule, place: usize, count: usize) -> usize {
    match rule {
        ColourRule::Repeat | ColourRule::Listed => place,
        ColourRule::MirrorEnds => place.min(count - 1 - place),
        ColourRule::MirrorCentre => (2 * place).abs_diff(count - 1) / 2,
    }
}

fn unlisted(order: &Order, count: u32) -> Option<Violation> {
    let entries = order.fabrics.len();
    if entries == 0 {
        let message = "no fabric is named for the pennants: name at least one";
        return Some(Violation::new(Field::Fabrics, Reason::Missing, message));
    }
    if order.rule != ColourRule::Listed || entries == wide(count) {
        return None;
    }
    let message = format!(
        "{} listed, one for each pennant, but the string has {}: list {}, or ask for {}, or let the list repeat",
        if entries == 1 { String::from("1 fabric is") } else { format!("{entries} fabrics are") },
        plural(wide(count), "pennant"),
        plural(wide(count), "fabric"),
        plural(entries, "pennant"),
    );
    Some(Violation::new(Field::Fabrics, Reason::Contradiction, message))
}

/// The letters do not fit the count.
pub(crate) fn unlettered(order: &Order, count: u32, least_length: Length) -> Option<Violation> {
    let letters = order.letters.len();
    if letters <= wide(count) {
        return None;
    }
    let one = count == 1;
    let takes = plural(letters, "pennant");
    let (fit, mend) = match (order.count == Some(count), order.length) {
        // the count that was asked stands in the way, whatever the length
        (true, None) => (if one { "is asked for" } else { "are asked for" }, format!("{takes} or more")),
        (true, Some(_)) => (
            if one { "is asked for" } else { "are asked for" },
            format!("{takes} or more on a flagged length of {least_length} or more"),
        ),
        (false, _) => {
            (if one { "fits" } else { "fit" }, format!("a flagged length of {least_length} or more"))
        }
    };
    let message = format!(
        "the lettering takes {takes}, one for each letter and each space between words, but only {count} {fit}: \
         ask for {mend}, or shorten it to {count}",
    );
    Some(Violation::new(Field::Lettering, Reason::DoesNotFit, message))
}

fn off_centre(letters: usize, count: usize) -> String {
    let left = (count - letters) / 2;
    format!(
        "the lettering cannot sit exactly in the middle: {} on its left, {} on its right; {} or {} would centre it",
        plural(left, "plain pennant"),
        left + 1,
        count - 1,
        plural(count + 1, "pennant"),
    )
}

fn equal_neighbours(rule: ColourRule, count: usize, first: usize, pairs: usize) -> String {
    let mirrored = matches!(rule, ColourRule::MirrorEnds | ColourRule::MirrorCentre);
    let mend = if mirrored && count.is_multiple_of(2) && pairs == 1 {
        "an odd number of pennants keeps them apart"
    } else {
        "name the fabrics in another order to keep them apart"
    };
    format!(
        "{} in the same fabric, the first at pennants {} and {} from the left: {mend}",
        if pairs == 1 {
            String::from("1 pair of neighbours hangs")
        } else {
            format!("{pairs} pairs of neighbours hang")
        },
        first + 1,
        first + 2
    )
}

/// `1 pennant`, `2 pennants`.
fn plural(count: usize, word: &str) -> String {
    if count == 1 { format!("1 {word}") } else { format!("{count} {word}s") }
}

fn wide(count: u32) -> usize {
    usize::try_from(count).unwrap_or(usize::MAX)
}
