//! Why a fabric does not take a piece, and what would fit instead.

use pennantry_measure::{Length, bounds};

use super::Role;
use super::lay::Supply;
use super::needs::{Need, What};
use crate::cutting::{Job, shortest};
use crate::order::{Order, Reason, Violation, detail_limits};
use crate::outline::{Finished, raised};
use crate::shop::{Binding, Fabric, Lay, Method, Shop, SizeAt, Sold};

/// What is wrong, and the widest pennant at this drop that would fit.
pub(super) fn refusal(
    shop: &Shop,
    order: &Order,
    method: &Method,
    fabric: &Fabric,
    need: &Need,
) -> Violation {
    let supply = Supply::new(shop, method, fabric, need);
    let (usable, outline) = (supply.flat.cloth_width, need.outline);
    let shrinks = [fabric.shrink_across, fabric.shrink_along].iter().any(|loss| loss.milli() > 0);
    let after = if shrinks { " once it is washed" } else { "" };
    let (what, seams) = match (need.role, need.what) {
        (Role::Web, _) => ("the web is", ""),
        (_, What::Letter) => ("the letters are", ""),
        (_, What::Pennant) => ("the pennants are", " with their seams"),
    };
    let code = &fabric.code;
    let told = match fabric.sold {
        Sold::Bolt { .. } => {
            format!(
                "\"{code}\" can be used over {usable}{after}, and {what} cut {} wide{seams}",
                outline.width
            )
        }
        Sold::Pieces { length } => {
            let start = match supply.repeat.along {
                Length::ZERO => String::new(),
                along => format!(", {along} of its length spent on the start of the print"),
            };
            format!(
                "a piece of \"{code}\" can be used over {usable} by {}{after}{start}, and {what} cut {} wide and {} \
                 deep{seams}",
                supply.usable_length(length),
                outline.width,
                outline.drop
            )
        }
    };
    let widest = widest(shop, order, method, fabric, need);
    let or = match need.role {
        Role::Pennants => "choose another fabric",
        Role::Letters => "leave the letters out",
        Role::Web => "choose another construction",
    };
    let message = match widest {
        Some(widest) => format!("{told}: ask for a width of {widest} or less at this drop, or {or}"),
        None => format!("{told}: no width fits at this drop; {or}"),
    };
    Violation::new(need.field, Reason::DoesNotFit, message)
}

/// The widest pennant in whole millimetres, at the order's drop and where the order
/// takes its sizes, that fits a fabric on which the one that was asked for does not. A
/// narrower pennant is cut narrower, so halving finds the widest that fits across, in at
/// most as many steps as the width has bits; narrower ones have longer tips, so where
/// that one is too long for a bought piece, all are.
fn widest(shop: &Shop, order: &Order, method: &Method, fabric: &Fabric, need: &Need) -> Option<Length> {
    let insertion = shop.bindings.get(order.binding).map_or(Length::ZERO, Binding::insertion);
    let supply = |width_mm: i64| {
        let seen = Finished {
            shape: order.shape,
            width: Length::from_mm(width_mm),
            drop: order.drop,
            detail: order.detail,
        };
        let finished = match order.size_at {
            SizeAt::TopEdge => seen,
            SizeAt::BindingEdge => raised(&seen, insertion),
        };
        let outline = need.what.outline(shop, method, &finished);
        Supply::new(shop, method, fabric, &Need { outline, ..*need })
    };
    let fits = |width_mm: i64| shortest(&Job { pieces: 1, ..supply(width_mm).flat }).is_some();
    let (mut fitting, mut beyond) = (0, order.width.um() / 1_000 + 1);
    while beyond - fitting > 1 {
        let middle = i64::midpoint(fitting, beyond);
        if fits(middle) {
            fitting = middle;
        } else {
            beyond = middle;
        }
    }
    let width = Length::from_mm(fitting);
    let hidden = if order.size_at == SizeAt::TopEdge { insertion } else { Length::ZERO };
    let (least, most) = detail_limits(order.shape, width, order.drop, hidden);
    let can_be_made = bounds::WIDTH.least <= width && least <= order.detail && order.detail <= most;
    (can_be_made && supply(fitting).take(Lay::Flat, 1).is_some()).then_some(width)
}
