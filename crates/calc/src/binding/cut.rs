//! Binding that is cut from a cloth of the shop: straight strips, or a spiral on the bias.

use pennantry_measure::{Length, Rounding, divide};

use super::joins::{MOST_JOINS, Strings};
use super::told::{self, Stock};
use super::{
    BindingUse, LastSquare, Supply, after_wash, before_wash, continuous_length, join_loss, spiral,
    spiral_seams, spiral_side, strips,
};
use crate::cutting::charged;
use crate::layout::Layout;
use crate::order::{Order, Violation};
use crate::outline::um;
use crate::shop::{Binding, EndCut, Fabric, Shop, Sold};

/// The cloth that a binding is cut from.
#[derive(Debug, Clone, Copy)]
pub(super) struct From<'a> {
    /// Its place.
    pub place: usize,
    /// The cloth.
    pub fabric: &'a Fabric,
    /// Width of a strip.
    pub raw: Length,
}

impl From<'_> {
    /// Usable width once the cloth is washed.
    fn width(&self) -> Length {
        after_wash(self.fabric.usable_width, self.fabric.shrink_across)
    }

    /// Length of a piece once it is washed, where the cloth comes in pieces.
    fn piece(&self) -> Option<Length> {
        match self.fabric.sold {
            Sold::Bolt { .. } => None,
            Sold::Pieces { length } => Some(after_wash(length, self.fabric.shrink_along)),
        }
    }

    /// Cloth charged for a length as it is cut, or for so many pieces.
    fn charged(&self, shop: &Shop, length: Length, pieces: i64) -> Length {
        match self.fabric.sold {
            Sold::Bolt { step } => {
                charged(before_wash(length, self.fabric.shrink_along), shop.cloth.squaring, step)
            }
            Sold::Pieces { length } => length * pieces,
        }
    }
}

/// The binding of all strings from strips straight across the cloth.
pub(super) fn straight(
    shop: &Shop,
    order: &Order,
    binding: &Binding,
    from: From<'_>,
    layout: &Layout,
) -> Result<BindingUse, Vec<Violation>> {
    let (join, raw) = (&shop.bench.join, from.raw);
    let per_piece = match from.piece() {
        Some(length) if raw > length => {
            return Err(told::does_not_fit(format!(
                "\"{}\" is cut in strips {raw} wide, and pieces of \"{}\" are {length} long: strips of at most \
                 {length} fit; choose another binding",
                binding.code, from.fabric.code
            )));
        }
        Some(length) => divide(length.wide(), raw.wide(), Rounding::Down),
        None => 1,
    };
    // a strip as it is sewn
    let strip = after_wash(from.width(), binding.shrink);
    let loss = join_loss(join.ends, raw, join.seam);
    let strings = Strings::new(layout, join, 0, order.quantity);
    let stock = Stock::Strips { cloth: &from.fabric.code };
    let run = strings
        .fill(strip.wide(), loss.wide())
        .map_err(|unfilled| told::unfilled(unfilled, binding, stock, strip, loss))?;

    let cut = before_wash(layout.binding_cut, binding.shrink);
    let net = cut * i64::from(order.quantity);
    let pieces = um(divide(run.opened.into(), per_piece, Rounding::Up)).um();
    let charged = from.charged(shop, raw * i64::from(run.opened), pieces);
    Ok(BindingUse {
        cut,
        net,
        taken: net + before_wash(loss * i64::from(run.joins), binding.shrink),
        joins: run.joins,
        join_loss: loss,
        notices: told::joins(binding, stock, &run, &strings, join),
        places: run.places,
        supply: Supply::Straight { fabric: from.place, strips: run.opened, raw, charged },
        cost: from.fabric.price.per_metre(charged, Rounding::HalfUp),
        steps: run.steps,
    })
}

/// The binding of all strings from spirals round squares of the cloth: one square where
/// one does, else squares as large as the cloth lets them be and a last one for the rest.
pub(super) fn bias(
    shop: &Shop,
    order: &Order,
    binding: &Binding,
    from: From<'_>,
    layout: &Layout,
) -> Result<BindingUse, Vec<Violation>> {
    let (raw, seam) = (from.raw, shop.bench.join.seam);
    let greatest = from.piece().map_or(from.width(), |length| length.min(from.width()));
    let (turns, full) = spiral(greatest, raw, seam);
    // the ends of a spiral lie along the grain, at 45° to the strip
    let loss = join_loss(EndCut::Slanted, raw, seam);
    if turns == 0 || full <= loss {
        return Err(too_wide(binding, from, greatest, seam));
    }

    let cut = before_wash(layout.binding_cut, binding.shrink);
    let net = cut * i64::from(order.quantity);
    // as many squares as strips of their length would be
    let squares = strips(net, full, loss).unwrap_or(u32::MAX);
    let whole = squares.saturating_sub(1);
    if u64::from(squares) * u64::from(spiral_seams(turns)) > u64::from(MOST_JOINS) {
        return Err(vec![told::too_many(binding)]);
    }
    let taken = net + loss * i64::from(whole);
    let least = spiral_side(taken - full * i64::from(whole), raw, seam);
    let (last_turns, last_full) = spiral(least, raw, seam);
    let last = LastSquare { side: least, turns: last_turns };
    let (side, turns, last) = if whole == 0 || least == greatest {
        (least, last_turns, None)
    } else {
        (greatest, turns, Some(last))
    };

    let all = |one: Length, last: Length| one * i64::from(whole) + last;
    let pieces = from.piece().map_or(0, |length| pieces_for(whole, greatest, least, length));
    let charged = from.charged(shop, all(greatest, least), pieces);
    Ok(BindingUse {
        cut,
        net,
        taken,
        joins: whole * (spiral_seams(turns) + 1) + spiral_seams(last_turns),
        join_loss: loss,
        places: Vec::new(),
        supply: Supply::Bias {
            fabric: from.place,
            squares,
            side,
            turns,
            last,
            raw,
            yields: all(full, last_full),
            bound: all(continuous_length(greatest, raw, seam), continuous_length(least, raw, seam)),
            charged,
        },
        cost: from.fabric.price.per_metre(charged, Rounding::HalfUp),
        notices: vec![told::spiral(binding, turns, side, spiral_seams(turns))],
        steps: 1,
    })
}

/// Pieces of a length for so many squares of the greatest side and a last one, which goes
/// beside them where there is room.
fn pieces_for(whole: u32, greatest: Length, last: Length, length: Length) -> i64 {
    let per = divide(length.wide(), greatest.wide(), Rounding::Down).max(1);
    let opened = divide(whole.into(), per, Rounding::Up);
    // the least filled piece is the last one
    let in_last = i128::from(whole) - (opened - 1).max(0) * per;
    let room = length.wide() - in_last * greatest.wide();
    let more = opened == 0 || room < last.wide();
    um(opened + i128::from(more)).um()
}

fn too_wide(binding: &Binding, from: From<'_>, greatest: Length, seam: Length) -> Vec<Violation> {
    let (code, cloth, raw) = (&binding.code, &from.fabric.code, from.raw);
    let least = spiral_side(Length::ZERO, raw, seam);
    told::does_not_fit(format!(
        "\"{code}\" is a spiral {raw} wide, which takes a square of {least} at the least, and \"{cloth}\" gives squares \
         of at most {greatest}: choose another binding, or have it cut narrower or from a wider cloth"
    ))
}
