//! What is posted: how the strings fold, which format and service take them.
//!
//! **Folding.** The pennants of all strings are laid on each other, one stack of `N`
//! pennants, face on face and back on back; the binding zigzags along the stack's top with
//! them, turning in the gaps. The stack is folded into `k` panels along its drop and, where
//! that fits better, laid in `m` columns side by side. With layers of cloth `l` of thickness
//! `c` (the thickest of the order's), binding of ply `b`, top width `w`, drop `h` from the
//! top edge:
//!
//! | figure | formula |
//! |---|---|
//! | body of the stack | `N (l c + web) + letters` |
//! | its top | `N (l c + web + 4 b) + 4 b · ⌈(gap − w) / w⌉ gaps + 4 b · ⌈(tail + turn-under) / w⌉ tails` |
//! | pressed flat | the greater of both + `N` trimmings |
//! | thickness | pressed flat `· k (1 + loft) / m`, up |
//! | width, length | `m (w + gap)`, the gap at most `w`; `h / k`, up |
//! | rolled up instead | diameter `√(4 · thickness · h / π)`, up, of the unfolded stack |
//!
//! A folded binding has four plies: two in front of a pennant's top, two behind it. A gap
//! stands out at the side, half of it on either; what is wider than a pennant, and the
//! tails, are folded back on the stack, once for every pennant width begun. Lettered
//! pennants are thicker by one letter and its web, trimmed ones by the thickest of their
//! trimmings. All of it is derived; it is a careful guess on the thick side, as the share
//! of air is (common practice, no source: the shop's own). Wrapping adds twice its own
//! width to length and width and once its thickness.
//!
//! **Choosing.** The services that go to the country, in the shop's order of preference,
//! or the one that is asked for; of the first that takes the parcel at all its cheapest
//! band, of equal ones the earliest, of all ways to fold the one with the fewest columns and
//! then panels.
//! A format's least size turns nothing away: a larger envelope is taken, and the size
//! told is the envelope's. Carriers, formats and prices are all the shop's: they change
//! from year to year.
//!
//! **Example.** 29 pennants of one layer 0.25 mm thick and 190 × 210 mm, gaps of 24.6 mm,
//! tails of 300 mm, turn-unders of 10 mm, binding plies of 0.2 mm: the top is
//! `29 (0.25 + 0.8) + 0.8 · 2 · 2 = 33.65 mm`, with 30 % of air 43.745 mm; the stack is
//! 214.6 mm wide.

mod choose;
mod fold;
mod limits;
#[cfg(test)]
mod tests;
mod weight;

use pennantry_measure::{Length, Mass, Money, Rounding, divide};

use crate::layout::Layout;
use crate::mass::Masses;
use crate::notice::{Code, Notice};
use crate::order::{Field, Order};
use crate::outline::um;
use crate::shop::{FormatKind, Shop};

pub use fold::{Fold, fold, roll};
pub use limits::{Amount, Limit, Rule, fits};
pub use weight::{BandError, band, counted, volumetric};

/// The parcel that holds all strings.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Parcel {
    /// How the strings fold.
    pub fold: Fold,
    /// The size as posted, longest side first.
    pub size: [Length; 3],
    /// Place of the service.
    pub service: usize,
    /// Place of the band in the service.
    pub band: usize,
    /// Place of the format.
    pub format: usize,
    /// Mass counted: the real one, or that which the size counts for.
    pub counted: Mass,
    /// Greatest mass that the band and its format take.
    pub edge: Mass,
    /// What is left to it.
    pub to_edge: Mass,
    /// What the shop pays for it, before tax.
    pub postage: Money,
}

/// Why no service takes the strings as one parcel.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("{message}")]
pub struct NoService {
    /// The field of the order that would mend it, if one would.
    pub field: Option<Field>,
    /// The nearest limit that is broken, with the value and the limit, and how to mend it.
    pub message: String,
    /// That limit; none where nothing goes to the country at all.
    pub nearest: Option<Limit>,
    /// Most strings that would go as one parcel; nought where not even one does.
    pub strings: u32,
}

/// The parcel that holds all strings of an order: see the [module](self).
///
/// # Errors
/// [`NoService`] where no service goes to the country, nothing is known of what it weighs,
/// or no service takes the parcel. It names
/// the limit that is broken by the smallest share of itself: of every format and way to
/// fold the worst limit counts, of those the mildest.
pub fn parcel(shop: &Shop, order: &Order, layout: &Layout, masses: &Masses) -> Result<Parcel, NoService> {
    choose::parcel(shop, order, layout, masses)
}

/// What to look at before it is posted: that nothing takes it, that by the tolerance of
/// its materials it may weigh more than its band or format, that it is within a fifth of
/// the greatest thickness of a flat format.
pub fn notices(shop: &Shop, masses: &Masses, parcel: &Result<Parcel, NoService>) -> Vec<Notice> {
    let parcel = match parcel {
        Ok(parcel) => parcel,
        Err(none) => {
            let message = none.message.clone();
            return vec![Notice { code: Code::NoServiceFits, field: none.field, message }];
        }
    };
    let Some(service) = shop.services.get(parcel.service) else { return Vec::new() };
    let Some(band) = service.bands.get(parcel.band) else { return Vec::new() };
    let Some(format) = shop.formats.get(parcel.format) else { return Vec::new() };
    let mut notices = Vec::new();
    let knobs = service.volumetric.as_ref();
    let real = |mass: Mass| Mass::from_grams(mass.grams_up());
    let near = if counted(masses.most, knobs, parcel.size) > band.most {
        Some((parcel.counted, counted(masses.most, knobs, parcel.size), band.most))
    } else {
        let most = format.most_mass.filter(|most| real(masses.most) > *most);
        most.map(|most| (real(masses.packed), real(masses.most), most))
    };
    if let Some((now, heaviest, most)) = near {
        let message = format!(
            "{now} of the {most} that {} takes as {}: its materials may be heavier than stated and make it {heaviest}, \
             so weigh it before it is posted",
            service.name, format.name
        );
        notices.push(Notice { code: Code::NearBandEdge, field: None, message });
    }
    let [.., thick] = parcel.size;
    let most = format.most.into_iter().min().unwrap_or_default();
    if format.kind == FormatKind::Flat && thick.wide() * 5 >= most.wide() * 4 {
        let message = format!(
            "folded it is about {} thick and must pass a slot of {most} to go as {}: try it before it is posted",
            tenths(thick),
            format.name
        );
        notices.push(Notice { code: Code::NearThickness, field: None, message });
    }
    notices
}

/// A length that is guessed, in whole tenths of a millimetre, up.
fn tenths(length: Length) -> Length {
    um(divide(length.wide(), 100, Rounding::Up) * 100)
}
