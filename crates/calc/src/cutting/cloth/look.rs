//! What is worth a look before the cloth is cut.

use pennantry_measure::{Length, Percent};

use super::needs::hung;
use super::wash::{washed, washed_repeat};
use super::{ClothUse, Role};
use crate::cutting::TIGHT_HALF_UM;
use crate::notice::{Code, Notice};
use crate::order::{Field, Order, construction_name};
use crate::shop::{BindingSource, Fabric, Lay, Shop, Sold};

/// Seams beyond this share of the cut width are noticed (common practice, no source).
const WIDE_SEAMS: Percent = Percent::from_milli(15_000);

/// What is worth a look before cutting: seams that take much of the cloth, rows and
/// bought pieces that are filled to less than a millimetre, and cloth or binding that is
/// washed beside some that is not.
///
/// A web is neither washed nor sewn by itself, so it does not count for the last.
pub fn notices(shop: &Shop, order: &Order, uses: &[ClothUse]) -> Vec<Notice> {
    let mut notices = Vec::new();
    // one outline for all pennants, so one notice
    let pennants = uses.iter().find(|used| used.role == Role::Pennants);
    if let Some(used) = pennants.filter(|used| used.seams > WIDE_SEAMS) {
        let message = format!(
            "the seams take {} of the cut width of {}: is the seam right for a pennant of this size?",
            used.seams, used.outline.width
        );
        notices.push(Notice::about(Code::WideSeams, Field::Width, message));
    }
    for used in uses {
        let Some(fabric) = shop.fabrics.get(used.fabric) else { continue };
        let field = field(shop, order, used);
        if used.plan.zero_tolerance {
            let full = used.plan.tightest();
            let (count, slack) = full.map_or((0, 0), |band| (band.per_row, band.half_slack));
            let message = format!(
                "a full row of {count} leaves {} of the {} width of {}: measure the cloth before cutting",
                Length::from_um(slack / 2),
                if used.lay == Lay::FoldedAcross { "folded" } else { "usable" },
                used.job.cloth_width
            );
            notices.push(Notice::about(Code::ZeroTolerance, field, message));
        }
        let left = left_of_a_piece(fabric, used).filter(|left| left.um() * 2 < TIGHT_HALF_UM);
        if let Some(left) = left {
            let message = format!(
                "{} pieces leave {left} of the length of each bought piece of \"{}\": measure it before cutting",
                used.job.pieces, fabric.code
            );
            notices.push(Notice::about(Code::ZeroTolerance, field, message));
        }
    }
    notices.extend(lays_left_out(shop, order, uses));
    notices.extend(mixed_wash(shop, order, uses));
    notices
}

/// Cloth that lies flat though the shop does not cut it so: none of its lays can be.
fn lays_left_out(shop: &Shop, order: &Order, uses: &[ClothUse]) -> Vec<Notice> {
    let Some(method) = shop.method(order.construction) else { return Vec::new() };
    if method.lays.contains(&Lay::Flat) {
        return Vec::new();
    }
    let flat = uses
        .iter()
        .filter(|used| used.role == Role::Pennants && used.lay == Lay::Flat && used.bought.is_none());
    let told = flat.filter_map(|used| {
        let code = &shop.fabrics.get(used.fabric)?.code;
        let message = format!(
            "\"{code}\" is cut lying flat: it cannot lie as the shop cuts pennants {}, because of its print, its \
             width or the number of pieces",
            construction_name(order.construction)
        );
        Some(Notice::about(Code::LayLeftOut, field(shop, order, used), message))
    });
    told.collect()
}

/// What the plan of a full piece leaves of its length, where cloth is bought in pieces.
fn left_of_a_piece(fabric: &Fabric, used: &ClothUse) -> Option<Length> {
    let Sold::Pieces { length } = fabric.sold else { return None };
    let kept = if used.role == Role::Pennants { fabric.repeat.along } else { Length::ZERO };
    let usable = washed(length, fabric.shrink_along) - washed_repeat(kept, fabric.shrink_along);
    Some(usable - used.plan.used)
}

/// The field of the order that asks for a fabric.
fn field(shop: &Shop, order: &Order, used: &ClothUse) -> Field {
    let fuses = || shop.method(order.construction).and_then(|method| method.web) == Some(used.fabric);
    match used.role {
        Role::Pennants => hung(order, used.fabric),
        Role::Web if fuses() => Field::Construction,
        Role::Letters | Role::Web => Field::Lettering,
    }
}

/// Cloth or binding that is washed beside some that is not: the latter shrinks later.
fn mixed_wash(shop: &Shop, order: &Order, uses: &[ClothUse]) -> Option<Notice> {
    let nought = Percent::from_milli(0);
    let is_washed = |fabric: &Fabric| fabric.shrink_across > nought || fabric.shrink_along > nought;
    let mut places: Vec<usize> = Vec::with_capacity(uses.len());
    for used in uses.iter().filter(|used| used.role != Role::Web) {
        if !places.contains(&used.fabric) {
            places.push(used.fabric);
        }
    }
    let cloth = places.iter().filter_map(|place| shop.fabrics.get(*place));
    let (cloth_washed, cloth_not): (Vec<&Fabric>, Vec<&Fabric>) = cloth.partition(|fabric| is_washed(fabric));
    let binding = shop.bindings.get(order.binding);
    let binding_washed = binding.is_some_and(|binding| {
        let source = match binding.source {
            BindingSource::Cloth { fabric, .. } => shop.fabrics.get(fabric),
            BindingSource::Bought { .. } => None,
        };
        binding.shrink > nought || source.is_some_and(is_washed)
    });
    let name = |all: &[&Fabric], with_binding: bool| {
        let cloth = all.iter().map(|fabric| format!("\"{}\"", fabric.code));
        cloth.chain(with_binding.then(|| String::from("the binding"))).collect::<Vec<_>>().join(", ")
    };
    let yes = name(&cloth_washed, binding.is_some() && binding_washed);
    let no = name(&cloth_not, binding.is_some() && !binding_washed);
    if yes.is_empty() || no.is_empty() {
        return None;
    }
    // the binding alone is unlike all the cloth, or the cloth is not alike
    let alike = cloth_washed.is_empty() || cloth_not.is_empty();
    let field = if alike { Field::Binding } else { Field::Fabrics };
    let message = format!(
        "washed before it is used: {yes}; not washed: {no}. What is not washed shrinks later and puckers the rest"
    );
    Some(Notice::about(Code::MixedWash, field, message))
}
