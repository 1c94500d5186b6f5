//! Whether what a cut leaves is kept.
//!
//! A remnant is kept where it holds at least three of the smallest pennant in the catalogue: fewer
//! would not fill a place in a string of three colours. Less is waste, and is told apart from the
//! remnant so that no shelf fills up with strips. The least of three is the project's own figure.
//!
//! *Smallest* is the least cut outline, seams in it, by area, then by width, over all
//! designs and all constructions that they are offered in, whether or not a design usually hangs
//! in this cloth: a buyer may choose any. A web is cut for the constructions that are fused with
//! it. How pieces may be turned, the wash, the repeat, the clearance and the squaring of one end
//! count as they do when an order is cut.
//!
//! Worked: in a shop whose smallest is a triangle of 190 by 210, cut as it is, the clearance 6
//! makes the pitch `95 + 6 · √(95² + 210²) / 210 = 101.585`. A remnant of 400 by 230,
//! squared by 20, holds `1 + ⌊(400 − 190) / 101.585⌋ = 3` in one row, and is kept; one of 390
//! holds 2, and is not.

use pennantry_measure::{Length, bounds};

use super::gives::Gives;
use super::{Need, Stretch};
use crate::cutting::{Job, washed, washed_repeat};
use crate::outline::{Finished, Outline, cut, raised};
use crate::shop::{Binding, Design, Fabric, FabricRole, Lay, Method, Repeat, Shop, SizeAt, Sold};

/// A remnant is kept from so many pieces on.
pub const LEAST_HELD: u32 = 3;

/// Pieces are counted up to so many.
pub const MOST_COUNTED: u32 = 1_000;

/// What a remnant is good for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Useful {
    /// Whether it is kept.
    pub kept: bool,
    /// How many of the smallest pennant it holds, up to [`MOST_COUNTED`].
    pub holds: u32,
    /// Whose pennant that is: a place in the shop's designs. None where the shop has none, or
    /// none that is made with this web.
    pub design: Option<usize>,
}

/// Whether a remnant of a fabric, given by its place in the shop, is kept: see this module's
/// rule. Width and length are usable ones, as it lies on the shelf.
pub fn useful(shop: &Shop, fabric: usize, width: Length, length: Length) -> Useful {
    let nothing = Useful { kept: false, holds: 0, design: None };
    let Some(cloth) = shop.fabrics.get(fabric) else { return nothing };
    let Some((design, method, outline)) = smallest(shop, fabric, cloth) else { return nothing };
    let need = need(shop, cloth, method, outline);
    let shelf = [Stretch { piece: 0, lot: 0, remnant: true, width, length }];
    let holds = Gives::new(&need, &shelf).most(0, MOST_COUNTED, length, Length::from_um(1));
    Useful { kept: holds >= LEAST_HELD, holds, design: Some(design) }
}

/// The least piece that designs are cut of, whose it is, and how it is made.
fn smallest<'a>(shop: &'a Shop, fabric: usize, cloth: &Fabric) -> Option<(usize, &'a Method, Outline)> {
    let pieces = shop.designs.iter().enumerate().flat_map(|(place, design)| {
        let methods = design.constructions.iter().filter_map(|construction| shop.method(*construction));
        let methods = methods.filter(|method| cloth.role == FabricRole::Cloth || method.web == Some(fabric));
        methods.map(move |method| (place, method, piece(shop, design, method)))
    });
    // the first of equal ones
    pieces.min_by_key(|(_, _, outline)| (outline.area(), outline.width))
}

/// The piece that a design's own pennant is cut as.
fn piece(shop: &Shop, design: &Design, method: &Method) -> Outline {
    let Design { shape, width, drop, detail, .. } = *design;
    let seen = Finished { shape, width, drop, detail };
    let finished = match design.size_at {
        SizeAt::TopEdge => seen,
        SizeAt::BindingEdge => {
            let insertion = shop.bindings.get(design.binding).map_or(Length::ZERO, Binding::insertion);
            raised(&seen, insertion)
        }
    };
    cut(&finished, method.seam, method.clip_tips)
}

/// Such pieces from a fabric, as many as are counted.
fn need(shop: &Shop, cloth: &Fabric, method: &Method, outline: Outline) -> Need {
    let pennants = cloth.role == FabricRole::Cloth;
    let repeat = Repeat {
        across: washed_repeat(cloth.repeat.across, cloth.shrink_across),
        along: washed_repeat(cloth.repeat.along, cloth.shrink_along),
    };
    Need {
        job: Job {
            cloth_width: washed(cloth.usable_width, cloth.shrink_across),
            direction: cloth.direction,
            outline,
            clearance: if pennants { method.clearance } else { Length::ZERO },
            row_gap: if pennants { method.row_gap } else { Length::ZERO },
            repeat: if pennants { repeat } else { Repeat::default() },
            pieces: MOST_COUNTED.min(bounds::PIECES.most),
        },
        lay: Lay::Flat,
        charged: Length::ZERO,
        sold: cloth.sold,
        squaring: match cloth.sold {
            Sold::Bolt { .. } => shop.cloth.squaring,
            Sold::Pieces { .. } => Length::ZERO,
        },
        start: if pennants && cloth.centred { repeat.across } else { Length::ZERO },
        shrink_across: cloth.shrink_across,
        shrink_along: cloth.shrink_along,
    }
}
