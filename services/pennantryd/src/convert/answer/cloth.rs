//! The cloth: what each fabric gives, and the plan that cuts it.

use pennantry_calc::cutting::{self, ClothUse};
use pennantry_calc::shop::Shop;
use pennantry_contract::v1;

use super::{fabric_code, mm, number, words};

pub(super) fn fabric(shop: &Shop, cloth: &ClothUse) -> v1::FabricUse {
    v1::FabricUse {
        fabric_code: fabric_code(shop, cloth.fabric),
        piece_count: cloth.pieces,
        cut_width_mm: mm(cloth.outline.width),
        cut_drop_mm: mm(cloth.outline.drop),
        used_mm: mm(cloth.used),
        charged_mm: mm(cloth.charged),
        bound_mm: mm(cloth.bound),
        plan: Some(plan(shop, cloth)),
        spare_count: cloth.spares,
        role: words::cloth_role(cloth.role).into(),
        lay: Some(v1::ClothLay {
            kind: words::lay(cloth.lay).into(),
            layer_count: cloth.layers,
            outline_count: cloth.outlines,
        }),
        bought: cloth.bought.map(|bought| v1::ClothPieces { count: bought.count, holds: bought.holds }),
        one_more_mm: mm(cloth.step.more),
        one_fewer_mm: mm(cloth.step.fewer),
        cut_shape: words::write_shape(cloth.outline.shape).into(),
        cut_detail_mm: mm(cloth.outline.detail),
        cut_flat_mm: mm(cloth.outline.flat),
    }
}

fn plan(shop: &Shop, cloth: &ClothUse) -> v1::CuttingPlan {
    let half = |half_um: i64| number(half_um) / 2000.0;
    let plan = &cloth.plan;
    v1::CuttingPlan {
        cloth_width_mm: mm(cloth.job.cloth_width),
        clearance_mm: mm(cloth.job.clearance),
        row_gap_mm: mm(cloth.job.row_pitch() - cloth.outline.drop),
        squaring_mm: if cloth.bought.is_some() { 0.0 } else { mm(shop.cloth.squaring) },
        bands: plan
            .bands
            .iter()
            .map(|band| v1::PlanBand {
                kind: words::row_kind(band.kind).into(),
                row_count: band.rows,
                pieces_per_row: band.per_row,
                start_mm: mm(band.start),
                row_mm: mm(band.row),
                pitch_mm: half(band.half_pitch),
                slack_mm: half(band.half_slack),
                left_mm: half(band.half_left),
                shift_mm: half(band.half_shift),
            })
            .collect(),
        zero_tolerance: plan.zero_tolerance,
        above_bound_percent: number(cutting::above_bound_tenths(cloth.used, cloth.bound)) / 10.0,
        room_count: plan.room,
    }
}
