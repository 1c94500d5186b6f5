//! Binding, thread, and what is used up by the piece.

use pennantry_calc::binding::{BindingUse, Supply};
use pennantry_calc::shop::{Binding, Shop};
use pennantry_calc::sundries::{Used, UsedKind};
use pennantry_calc::thread::ThreadUse;
use pennantry_contract::v1;

use super::{fabric_code, mm, words};

pub(super) fn binding(shop: &Shop, binding: &Binding, used: &BindingUse, view: v1::View) -> v1::BindingUse {
    v1::BindingUse {
        binding_code: binding.code.clone(),
        width_mm: mm(binding.width),
        insertion_mm: mm(binding.insertion()),
        cut_mm: mm(used.net),
        taken_mm: mm(used.taken),
        join_count: used.joins,
        join_loss_mm: mm(used.join_loss),
        joins: used
            .places
            .iter()
            .map(|join| v1::BindingJoin {
                string_number: join.string.saturating_add(1),
                at_mm: mm(join.at),
                behind_pennant: join.behind.map(|pennant| pennant.saturating_add(1)),
            })
            .collect(),
        supply: supply(shop, &used.supply, view),
    }
}

/// Where it comes from; rolls and offcuts are the shop's own affair.
fn supply(shop: &Shop, supply: &Supply, view: v1::View) -> Option<v1::binding_use::Supply> {
    use v1::binding_use::Supply as Wire;
    Some(match supply {
        Supply::Bought { .. } if view != v1::View::Shop => return None,
        Supply::Bought { offcuts, rolls, whole_rolls, paid, break_even } => Wire::Bought(v1::BoughtBinding {
            offcut_mm: offcuts.iter().map(|offcut| mm(*offcut)).collect(),
            roll_count: *rolls,
            whole_rolls: *whole_rolls,
            paid_mm: mm(*paid),
            break_even_mm: break_even.map(mm),
        }),
        Supply::Straight { fabric, strips, raw, charged } => Wire::Straight(v1::StraightBinding {
            fabric_code: fabric_code(shop, *fabric),
            strip_count: *strips,
            raw_mm: mm(*raw),
            charged_mm: mm(*charged),
        }),
        Supply::Bias { fabric, squares, side, turns, raw, yields, bound, charged, last } => {
            Wire::Bias(v1::BiasBinding {
                fabric_code: fabric_code(shop, *fabric),
                square_count: *squares,
                side_mm: mm(*side),
                turn_count: *turns,
                raw_mm: mm(*raw),
                yield_mm: mm(*yields),
                bound_mm: mm(*bound),
                charged_mm: mm(*charged),
                last_side_mm: last.map(|last| mm(last.side)),
                last_turn_count: last.map(|last| last.turns),
            })
        }
    })
}

pub(super) fn thread(thread: &ThreadUse) -> v1::ThreadUse {
    v1::ThreadUse {
        length_mm: mm(thread.length),
        seams: thread
            .seams
            .iter()
            .map(|seam| v1::SeamUse {
                kind: words::seam_kind(seam.kind).into(),
                seam_mm: mm(seam.seam),
                thickness_mm: mm(seam.thickness),
                thread_mm: mm(seam.thread),
                stitch_count: i64::try_from(seam.stitches).unwrap_or(i64::MAX),
            })
            .collect(),
    }
}

pub(super) fn sundry(shop: &Shop, used: &Used) -> v1::SundryUse {
    let (code, name) = named(shop, used.kind);
    v1::SundryUse { code: code.to_owned(), name: name.to_owned(), count: used.count, packing: used.packing }
}

/// Code and name of a thing used up by the piece.
pub(super) fn named(shop: &Shop, kind: UsedKind) -> (&str, &str) {
    match kind {
        UsedKind::Sundry(place) => {
            shop.sundries.get(place).map_or(("", ""), |s| (s.code.as_str(), s.name.as_str()))
        }
        UsedKind::Trimming(place) => {
            shop.trimmings.get(place).map_or(("", ""), |t| (t.code.as_str(), t.name.as_str()))
        }
    }
}
