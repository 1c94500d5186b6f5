//! What an order needs of each fabric, before any cloth is spread.

use pennantry_measure::{Length, Percent, Rounding, divide};

use super::Role;
use crate::order::{Field, Order};
use crate::outline::{Finished, Outline, cut, um};
use crate::shop::{Letters, Method, Shape, Shop};

/// Pieces of one outline from one fabric.
#[derive(Debug, Clone, Copy)]
pub(super) struct Need {
    /// Place of the fabric in the shop.
    pub fabric: usize,
    pub role: Role,
    pub what: What,
    pub outline: Outline,
    /// Pieces for all strings, without spares.
    pub pieces: u64,
    /// Pieces that one pennant, or one letter, takes of this fabric.
    pub each: u32,
    /// The field of the order that asks for this fabric.
    pub field: Field,
}

/// What a piece covers.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum What {
    /// A whole pennant.
    Pennant,
    /// A letter.
    Letter,
}

impl What {
    /// The outline to cut for a finished pennant.
    pub(super) fn outline(self, shop: &Shop, method: &Method, finished: &Finished) -> Outline {
        match (self, &shop.letters) {
            (What::Letter, Some(letters)) => letter(letters, finished),
            _ => cut(finished, method.seam, method.clip_tips),
        }
    }
}

/// All needs: pennants, then letters, then web. Pieces of one outline and one role from
/// one fabric are one need.
pub(super) fn needs(
    shop: &Shop,
    order: &Order,
    method: &Method,
    finished: &Finished,
    per_fabric: &[(usize, u32)],
) -> Vec<Need> {
    let strings = u64::from(order.quantity);
    let pennants = per_fabric.iter().map(|(_, count)| u64::from(*count)).sum::<u64>() * strings;
    let layers = if order.backing.is_some() { 1 } else { order.construction.layers() };
    let letters = u64::try_from(order.letters.iter().flatten().count()).unwrap_or(u64::MAX);
    let mut all = Needs { all: Vec::with_capacity(per_fabric.len() + 4), shop, method, finished };

    for (fabric, count) in per_fabric {
        let pieces = u64::from(*count) * u64::from(layers) * strings;
        // where it hangs behind as well, a pennant of it takes a back too
        let each = layers + u32::from(order.backing == Some(*fabric));
        all.add(*fabric, Role::Pennants, What::Pennant, pieces, each, hung(order, *fabric));
    }
    if let Some(fabric) = order.backing {
        all.add(fabric, Role::Pennants, What::Pennant, pennants, 1, hung(order, fabric));
    }
    if let Some(put_on) = &shop.letters {
        let pieces = letters.saturating_mul(strings);
        all.add(put_on.fabric, Role::Letters, What::Letter, pieces, 1, Field::Lettering);
    }
    if let Some(fabric) = method.web {
        all.add(fabric, Role::Web, What::Pennant, pennants, 1, Field::Construction);
    }
    if let Some(fabric) = shop.letters.as_ref().and_then(|put_on| put_on.web) {
        let pieces = letters.saturating_mul(strings);
        all.add(fabric, Role::Web, What::Letter, pieces, 1, Field::Lettering);
    }
    all.all
}

struct Needs<'a> {
    all: Vec<Need>,
    shop: &'a Shop,
    method: &'a Method,
    finished: &'a Finished,
}

impl Needs<'_> {
    fn add(&mut self, fabric: usize, role: Role, what: What, pieces: u64, each: u32, field: Field) {
        if pieces == 0 {
            return;
        }
        let known = |need: &&mut Need| (need.fabric, need.role, need.what) == (fabric, role, what);
        if let Some(need) = self.all.iter_mut().find(known) {
            need.pieces = need.pieces.saturating_add(pieces);
            return;
        }
        let outline = what.outline(self.shop, self.method, self.finished);
        self.all.push(Need { fabric, role, what, outline, pieces, each, field });
    }
}

/// The field of the order that names a fabric of the shop.
pub(super) fn hung(order: &Order, fabric: usize) -> Field {
    let named = order.fabrics.iter().zip(0..).find(|(place, _)| **place == fabric);
    named.map_or(Field::Backing, |(_, at)| Field::Fabric(at))
}

/// The cloth that one letter is cut from: shares of the finished pennant's width and
/// drop at its top edge, up to the micrometre.
fn letter(letters: &Letters, finished: &Finished) -> Outline {
    let share = |of: Length, share: Percent| {
        let parts = of.wide() * i128::from(share.milli());
        um(divide(parts, i128::from(Percent::WHOLE.milli()), Rounding::Up))
    };
    Outline {
        shape: Shape::Rectangle,
        width: share(finished.width, letters.width),
        drop: share(finished.drop, letters.height),
        detail: Length::ZERO,
        flat: Length::ZERO,
    }
}
