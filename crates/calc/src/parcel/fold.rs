//! How thick, wide and long the strings lie when they are folded, or rolled up.

use pennantry_measure::{Length, Percent, Rounding, ceil_sqrt, divide};

use crate::layout::Layout;
use crate::order::Order;
use crate::outline::um;
use crate::shop::{Folding, Shop};

/// Plies of a folded binding: two in front of the pennant's top, two behind it.
const PLIES: i128 = 4;

/// `4 / π`, up: 333/106 is below π by less than a ten-thousandth.
const FOUR_BY_PI: (i128, i128) = (4 * 106, 333);

/// How strings fold: pennants on each other, the stack folded into panels along its drop
/// and laid in columns, or rolled up along it. Without wrapping.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Fold {
    /// Panels along the drop; one where it is rolled up.
    pub panels: u32,
    /// Columns side by side into which the stack is divided; the binding goes on from one
    /// to the next.
    pub columns: u32,
    /// Across the columns.
    pub width: Length,
    /// Along the drop, folded; of a roll its diameter.
    pub length: Length,
    /// All layers with the air between them; of a roll its diameter.
    pub thickness: Length,
    /// Whether it is rolled up and not folded.
    pub rolled: bool,
}

impl Fold {
    /// The size with its wrapping, longest side first: wrapping stands out on either side
    /// of length and width, and lies once about the thickness. A roll's wrapping stands
    /// out at its two ends and lies once about its diameter.
    ///
    /// ```
    /// use pennantry_calc::parcel::Fold;
    /// use pennantry_calc::shop::Folding;
    /// use pennantry_measure::{Length, Percent};
    /// let mm = Length::from_mm;
    /// let fold = Fold { panels: 2, columns: 1, width: mm(190), length: mm(105), thickness: mm(20), rolled: false };
    /// let folding = Folding {
    ///     loft: Percent::from_milli(0),
    ///     most_panels: 2,
    ///     wrap: mm(10),
    ///     wrap_thickness: mm(1),
    ///     mass_tolerance: Percent::from_milli(0),
    /// };
    /// assert_eq!(fold.wrapped(&folding), [mm(210), mm(125), mm(21)]);
    /// ```
    pub fn wrapped(&self, folding: &Folding) -> [Length; 3] {
        let sides = um(2 * folding.wrap.wide());
        let about = folding.wrap_thickness;
        let grown = |length: Length, by: Length| um(length.wide() + by.wide());
        let length = grown(self.length, if self.rolled { about } else { sides });
        let mut size = [grown(self.width, sides), length, grown(self.thickness, about)];
        size.sort_unstable_by(|a, b| b.cmp(a));
        size
    }
}

/// So many strings laid on each other, before they are folded.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Stack {
    /// Across the stack, the turns of the binding in it.
    width: Length,
    /// Along the drop.
    drop: Length,
    /// Pressed flat, in micrometres.
    thickness: i128,
    /// Pennants: there are no more columns than that.
    pub(super) pennants: u32,
    /// Air, as a share of the thickness.
    loft: Percent,
}

impl Stack {
    pub(super) fn new(shop: &Shop, order: &Order, layout: &Layout, strings: u32) -> Stack {
        Stack {
            width: width(layout),
            drop: layout.top_drop,
            thickness: thickness(shop, order, layout, strings),
            pennants: layout.count.saturating_mul(strings),
            loft: shop.folding.loft,
        }
    }

    /// Folded into so many panels and laid in so many columns.
    pub(super) fn folded(&self, panels: u32, columns: u32) -> Fold {
        let (panels, columns) = (panels.max(1), columns.max(1));
        let thickness = self.lofted(self.thickness.saturating_mul(i128::from(panels)));
        Fold {
            panels,
            columns,
            width: self.width * i64::from(columns),
            length: um(divide(self.drop.wide(), i128::from(panels), Rounding::Up)),
            thickness: um(divide(thickness, i128::from(columns), Rounding::Up)),
            rolled: false,
        }
    }

    /// Not folded, wound along its drop.
    pub(super) fn rolled(&self) -> Fold {
        let thick = self.lofted(self.thickness);
        let section = thick.saturating_mul(self.drop.wide()).saturating_mul(FOUR_BY_PI.0);
        let square = divide(section, FOUR_BY_PI.1, Rounding::Up);
        let round = i128::try_from(ceil_sqrt(square.unsigned_abs())).unwrap_or(i128::MAX);
        let diameter = um(round.max(thick));
        let (width, length, thickness) = (self.width, diameter, diameter);
        Fold { panels: 1, columns: 1, width, length, thickness, rolled: true }
    }

    /// Layers with the air between them, up.
    fn lofted(&self, thickness: i128) -> i128 {
        let whole = i128::from(Percent::WHOLE.milli());
        divide(thickness.saturating_mul(whole + i128::from(self.loft.milli())), whole, Rounding::Up)
    }
}

/// How so many strings fold into a stack of so many panels, laid in so many columns.
///
/// See the [module](super) for the formulas.
pub fn fold(shop: &Shop, order: &Order, layout: &Layout, panels: u32, columns: u32, strings: u32) -> Fold {
    Stack::new(shop, order, layout, strings).folded(panels, columns)
}

/// How so many strings roll up: the stack, not folded, wound along its drop. Its
/// cross-section keeps its area, so the diameter is `√(4 · thickness · drop / π)`, up;
/// never less than the stack is thick.
pub fn roll(shop: &Shop, order: &Order, layout: &Layout, strings: u32) -> Fold {
    Stack::new(shop, order, layout, strings).rolled()
}

/// Width of the stack: pennants, and the binding that turns from one to the next, half of a
/// gap on either side; what is wider than a pennant is folded back.
fn width(layout: &Layout) -> Length {
    layout.top_width + layout.gap.clamp(Length::ZERO, layout.top_width.max(Length::ZERO))
}

/// Thickness of one panel of the stack, pressed flat, in micrometres.
fn thickness(shop: &Shop, order: &Order, layout: &Layout, strings: u32) -> i128 {
    let cloth_of = |place: usize| shop.fabrics.get(place).map_or(0, |fabric| fabric.thickness.wide());
    let strings = i128::from(strings);
    let count = i128::from(layout.count);
    let pennants = count * strings;

    let cloth = order.fabrics.iter().chain(&order.backing).map(|place| cloth_of(*place)).max().unwrap_or(0);
    let web = shop.method(order.construction).and_then(|method| method.web).map_or(0, cloth_of);
    let pennant = i128::from(order.construction.layers()) * cloth + web;
    let lettered = i128::try_from(order.letters.iter().flatten().count()).unwrap_or(i128::MAX);
    let letter = shop.letters.map_or(0, |letters| cloth_of(letters.fabric) + letters.web.map_or(0, cloth_of));
    let body = pennants * pennant + strings * lettered * letter;

    let ply = shop.bindings.get(order.binding).map_or(0, |binding| binding.thickness.wide());
    let widths = |length: i128| divide(length.max(0), layout.top_width.wide(), Rounding::Up);
    // a gap of up to one width is the turn at the side of the stack
    let gaps = strings * (count - 1).max(0) * widths((layout.gap - layout.top_width).wide());
    let tails = strings * 2 * widths(layout.tail.wide() + shop.bench.turn_under.wide());
    let edge = pennants * (pennant + PLIES * ply) + (gaps + tails) * PLIES * ply;

    let trimming = order.trimmings.iter().filter_map(|(place, _)| shop.trimmings.get(*place));
    let trimming = trimming.map(|trimming| trimming.thickness.wide()).max().unwrap_or(0);
    body.max(edge) + pennants * trimming
}
