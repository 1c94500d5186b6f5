//! Thread, by the length of a stitch, the layers it holds and what is wasted.
//!
//! Every seam is a lockstitch (ISO 4915, type 301; from memory): needle and bobbin
//! thread meet in the middle of the layers, half and half. In one stitch of length `p`
//! through layers `T` thick, each of the two runs `p` along the seam and `T` across it:
//!
//! | figure | formula | rounding |
//! |---|---|---|
//! | thread in a seam | `seam · 2 (p + T) / p`, that is `2 + 2 T / p` for each length of seam | up |
//! | stitches | `seam / p` | up |
//! | sewn in | sum of the seams | none |
//! | length | `sewn in · (1 + waste) + ends · tail` | up |
//! | mass | `sewn in · mass of a length` | half up |
//! | cost | `length · price a metre` | half up |
//!
//! The formula is that of textile engineering courses (A. K. Das, 2015; M. Islam, 2015);
//! the 2.5 of published thread guides is what `T = p / 4` gives. In measured seams
//! stitch length explains 92 % of the thread in a stitch (Chauhan and Ghosh, *Indian
//! Journal of Fibre & Textile Research*), so it is the one figure to be measured well.
//!
//! # Seams
//! | seam | length, for all strings | thickness |
//! |---|---|---|
//! | binding with tops in it | pennants × top width; where tops overlap, the flagged length | 4 of the binding's cloth + the pennant |
//! | binding alone | the rest of the overall length | 4 of the binding's cloth |
//! | sides | all edges of each pennant below its top, along the finished edge | 2 layers |
//! | letters | letters × letter height × stitching round one | the pennant + 1 of the letters' cloth |
//!
//! The binding's seams are sewn once for each row of stitching, over the overall length:
//! turned-under ends are sewn with it and add none, and tops that overlap count once.
//! Sides are sewn where two layers are sewn together, turned or pinked. A pennant is as
//! thick as its layers of the thickest fabric that hangs in the order, and the web that
//! fuses them where one does: so no fabric is short of thread, and a thin one among thick
//! ones is given a little much. A web under letters counts with them.
//!
//! # Ends
//! Thread hangs out at both ends of whatever is sewn in one go: each row along a string,
//! the sides of one pennant, one letter. It is cut off, so it is bought and does not weigh.
//! A shop that sews pennants in a chain, or counts ends in its waste, sets a tail of
//! nought. Waste is a share of what is sewn in, as the trade states it: 10 to 15 %
//! (apparel science and work study courses).
//!
//! # Example
//! A seam of 2.2 m, `p` = 2.5 mm through `T` = 0.625 mm: `2.2 · 2.5 = 5.5 m`, half needle,
//! half bobbin; with 15 % of waste 6.325 m.

use pennantry_measure::{Length, Mass, Money, Percent, Rounding, divide};

use crate::cutting::{ClothUse, Role};
use crate::layout::Layout;
use crate::order::Order;
use crate::outline::{Finished, um};
use crate::shop::{Construction, Shop};

pub use self::label::{tex_of_count, tex_of_ticket};

mod label;
#[cfg(test)]
mod tests;

/// Layers of its cloth that a folded binding has: two, each with its turning.
const BINDING_PLIES: i128 = 4;

/// The thread of all strings.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ThreadUse {
    /// What is sewn, seam by seam; seams of no length are left out.
    pub seams: Vec<SeamUse>,
    /// Needle and bobbin thread together, waste in it.
    pub length: Length,
    /// Mass of what stays in the strings.
    pub mass: Mass,
    /// What it costs, before tax.
    pub cost: Money,
}

/// One kind of seam.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct SeamUse {
    /// What is sewn.
    pub kind: SeamKind,
    /// Length of seam.
    pub seam: Length,
    /// Thickness of what it holds.
    pub thickness: Length,
    /// Thread in it, without waste.
    pub thread: Length,
    /// Stitches, up to the next whole one.
    pub stitches: u64,
}

/// What is sewn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SeamKind {
    /// Binding along the gaps and tails.
    BindingAlone,
    /// Binding with a pennant's top in it.
    BindingOverPennants,
    /// Sides of two-layer pennants.
    Sides,
    /// Round letters.
    Letters,
}

/// The thread for all strings of an order. `finished` is the pennant at its top edge;
/// of `cloth`, which fabrics hang.
pub fn thread(
    shop: &Shop,
    order: &Order,
    layout: &Layout,
    finished: &Finished,
    cloth: &[ClothUse],
) -> ThreadUse {
    let thread = &shop.bench.thread;
    let strings = i128::from(order.quantity);
    let pennants = strings * i128::from(layout.count);
    let letters = strings * letters_of(order);
    let rows = i128::from(thread.rows);

    let layers = Layers::new(shop, order, cloth);
    let tops = i128::from(layout.count) * layout.top_width.wide();
    let over = tops.min(layout.flagged.wide()).min(layout.overall.wide()).max(0);
    let alone = layout.overall.wide() - over;
    let sides = if sews_sides(order.construction) { finished.below_top().wide() } else { 0 };
    let seams = [
        (SeamKind::BindingAlone, strings * rows * alone, layers.binding),
        (SeamKind::BindingOverPennants, strings * rows * over, layers.binding + layers.pennant),
        (SeamKind::Sides, pennants * sides, layers.sides),
        (SeamKind::Letters, letters * round_letter(shop, finished), layers.pennant + layers.letter),
    ];
    let seams: Vec<SeamUse> = seams
        .into_iter()
        .filter(|(_, seam, _)| *seam > 0)
        .map(|(kind, seam, thickness)| {
            let (seam, thickness) = (um(seam), um(thickness));
            let stitches = stitches(seam, thread.stitch);
            SeamUse { kind, seam, thickness, thread: thread_in(seam, thickness, thread.stitch), stitches }
        })
        .collect();

    let sewn = um(seams.iter().map(|seam| seam.thread.wide()).sum());
    let runs = |kind, count| if seams.iter().any(|seam| seam.kind == kind) { count } else { 0 };
    let ends = 2 * (strings * rows + runs(SeamKind::Sides, pennants) + runs(SeamKind::Letters, letters));
    let length = um(with_waste(sewn, thread.waste).wide() + ends * thread.tail.wide());
    ThreadUse {
        length,
        mass: thread.mass.of(sewn, Rounding::HalfUp),
        cost: thread.price.per_metre(length, Rounding::HalfUp),
        seams,
    }
}

/// Needle and bobbin thread together in a seam through so thick layers, up to the
/// micrometre; half of it is from the bobbin. A stitch of nought, which the catalogue
/// lets nobody have, counts as a micrometre.
///
/// ```
/// use pennantry_calc::thread::thread_in;
/// use pennantry_measure::Length;
/// let (mm, um) = (Length::from_mm, Length::from_um);
/// // two layers of 0.25 mm in stitches of 2.5 mm: 2.4 lengths of thread for one of seam
/// assert_eq!(thread_in(mm(1_000), um(500), um(2_500)), mm(2_400));
/// // four layers of 0.25 mm: 2.8
/// assert_eq!(thread_in(mm(1_000), um(1_000), um(2_500)), mm(2_800));
/// ```
pub fn thread_in(seam: Length, thickness: Length, stitch: Length) -> Length {
    let stitch = stitch.wide().max(1);
    um(divide(seam.wide() * 2 * (stitch + thickness.wide()), stitch, Rounding::Up))
}

/// Stitches in a seam, up to the next whole one. A stitch of nought counts as a
/// micrometre, a seam below nought as none.
///
/// ```
/// use pennantry_calc::thread::stitches;
/// use pennantry_measure::Length;
/// // 2.5 mm are 10.16 to the inch: 1 016 on a hundred inches
/// assert_eq!(stitches(Length::from_mm(2_540), Length::from_um(2_500)), 1_016);
/// ```
pub fn stitches(seam: Length, stitch: Length) -> u64 {
    let stitches = divide(seam.wide().max(0), stitch.wide().max(1), Rounding::Up);
    u64::try_from(stitches).unwrap_or(u64::MAX)
}

/// What is sewn in and what is wasted on top, up.
fn with_waste(sewn: Length, waste: Percent) -> Length {
    let whole = i128::from(Percent::WHOLE.milli());
    um(divide(sewn.wide() * (whole + i128::from(waste.milli())), whole, Rounding::Up))
}

/// Letters on one string: the spaces between words are none.
fn letters_of(order: &Order) -> i128 {
    order.letters.iter().flatten().map(|_| 1).sum()
}

/// Stitching round one letter, up.
fn round_letter(shop: &Shop, finished: &Finished) -> i128 {
    let whole = i128::from(Percent::WHOLE.milli());
    shop.letters.map_or(0, |letters| {
        let shares = i128::from(letters.height.milli()) * i128::from(letters.stitching.milli());
        divide(finished.drop.wide() * shares, whole * whole, Rounding::Up)
    })
}

/// Whether a pennant's sides are sewn.
fn sews_sides(construction: Construction) -> bool {
    match construction {
        Construction::DoubleTurned | Construction::DoublePinked => true,
        Construction::SinglePinked | Construction::SinglePlain | Construction::DoubleFused => false,
    }
}

/// How thick what is sewn is, in micrometres.
struct Layers {
    /// A folded binding.
    binding: i128,
    /// A whole pennant.
    pennant: i128,
    /// Two layers of a pennant's cloth.
    sides: i128,
    /// A letter and what holds it.
    letter: i128,
}

impl Layers {
    fn new(shop: &Shop, order: &Order, cloth: &[ClothUse]) -> Layers {
        let of = |place: usize| shop.fabrics.get(place).map_or(0, |fabric| fabric.thickness.wide());
        let hung = cloth.iter().filter(|used| used.role == Role::Pennants);
        let thickest = hung.map(|used| of(used.fabric)).max().unwrap_or(0);
        let binding = shop.bindings.get(order.binding).map_or(0, |binding| binding.thickness.wide());
        let fused = match order.construction {
            Construction::DoubleFused => shop.method(order.construction).and_then(|method| method.web),
            _ => None,
        };
        let letter = shop.letters.map_or(0, |letters| of(letters.fabric) + letters.web.map_or(0, of));
        Layers {
            binding: BINDING_PLIES * binding,
            pennant: i128::from(order.construction.layers()) * thickest + fused.map_or(0, of),
            sides: 2 * thickest,
            letter,
        }
    }
}
