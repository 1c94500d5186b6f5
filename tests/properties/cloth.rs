//! Plans redrawn from what the answer prints, and measured by a general geometry library.

use geo::{Area, BoundingRect, Contains, Coord, Distance, Euclidean, LineString, Polygon, Rect};
use pennantry_contract::v1;

use super::{Bench, ORDERS};

/// Printed lengths are rounded to the micrometre, pitches to half of one; a row of
/// some hundred pieces may be off by a hundred times that. Unit mm.
const SLACK_MM: f64 = 0.06;

/// A piece of a row: `turned` has its point to the start of the cloth.
fn piece(left: f64, start: f64, width: f64, drop: f64, turned: bool) -> Polygon {
    let (base, tip) = if turned { (start + drop, start) } else { (start, start + drop) };
    let corner = |x: f64, y: f64| Coord { x, y };
    Polygon::new(
        LineString::new(vec![
            corner(left, base),
            corner(left + width, base),
            corner(left + width / 2.0, tip),
        ]),
        Vec::new(),
    )
}

/// The pieces of every row, first to last, up to those that are cut.
fn rows(fabric: &v1::FabricUse, plan: &v1::CuttingPlan) -> Vec<Vec<Polygon>> {
    let mut left_to_cut = fabric.piece_count + fabric.spare_count;
    let mut rows = Vec::new();
    for band in &plan.bands {
        for row in 0..band.row_count {
            let start = band.start_mm + f64::from(row) * (band.row_mm + plan.row_gap_mm);
            let count = band.pieces_per_row.min(left_to_cut);
            left_to_cut -= count;
            let two_way = band.kind() == v1::RowKind::PlainTwoWay;
            let pieces = (0..count).map(|place| {
                let left = f64::from(place) * band.pitch_mm;
                piece(left, start, fabric.cut_width_mm, fabric.cut_drop_mm, two_way && place % 2 == 1)
            });
            rows.push(pieces.collect());
        }
    }
    assert_eq!(left_to_cut, 0, "pieces without a place: {fabric:?}");
    rows
}

fn inflated(cloth: Rect) -> Polygon {
    let (min, max) = (cloth.min(), cloth.max());
    let coord = |x: f64, y: f64| Coord { x, y };
    Rect::new(coord(min.x - SLACK_MM, min.y - SLACK_MM), coord(max.x + SLACK_MM, max.y + SLACK_MM))
        .to_polygon()
}

/// Complaints about one fabric's plan.
fn look_at(fabric: &v1::FabricUse) -> Vec<String> {
    let mut found = Vec::new();
    let plan = fabric.plan.as_ref().expect("a plan");
    let rows = rows(fabric, plan);
    let corner = |x: f64, y: f64| Coord { x, y };
    let cloth = inflated(Rect::new(corner(0.0, 0.0), corner(plan.cloth_width_mm, fabric.used_mm)));
    let least = plan.clearance_mm - SLACK_MM;
    let mut across: Vec<f64> = Vec::new();
    for row in &rows {
        if let Some(out) = row.iter().find(|piece| !cloth.contains(*piece)) {
            found.push(format!("a piece lies outside the cloth: {out:?}"));
        }
        // a row that lies across the cloth as the one before has the same distances in it
        let corners: Vec<f64> =
            row.iter().flat_map(|piece| piece.exterior().coords().map(|at| at.x)).collect();
        if corners == across {
            continue;
        }
        across = corners;
        for pair in row.windows(2) {
            let apart = Euclidean.distance(&pair[0], &pair[1]);
            if apart < least {
                found.push(format!("neighbours are {apart} apart, {} wanted", plan.clearance_mm));
            }
        }
    }
    // rows lie one after the other: what they span does not overlap
    for pair in rows.windows(2) {
        let span = |row: &[Polygon]| {
            let rects = row.iter().map(|piece| piece.bounding_rect().expect("a piece has corners"));
            rects.fold((f64::MAX, f64::MIN), |(low, high), r| (low.min(r.min().y), high.max(r.max().y)))
        };
        let gap = span(&pair[1]).0 - span(&pair[0]).1;
        if gap < plan.row_gap_mm - SLACK_MM {
            found.push(format!("rows are {gap} apart, {} wanted", plan.row_gap_mm));
        }
    }
    // no plan is shorter than the area of its pieces laid out flat
    let area: f64 = rows.iter().flatten().map(Area::unsigned_area).sum();
    if fabric.used_mm * plan.cloth_width_mm < area - 1.0 {
        found.push(format!("the pieces cover {area}, more than the cloth"));
    }
    found
}

#[test]
fn invariant_04_every_plan_can_be_cut_from_its_cloth() {
    let bench = Bench::demo();
    let mut plans = 0;
    for (order, quote) in bench.quotes(7, ORDERS) {
        for fabric in &quote.fabrics {
            let found = look_at(fabric);
            assert!(found.is_empty(), "{order}: {}: {}", fabric.fabric_code, found.join("\n"));
            plans += 1;
        }
    }
    assert!(plans > ORDERS, "only {plans} plans looked at");
}

#[test]
fn a_plan_that_cannot_be_cut_is_found() {
    let band = v1::PlanBand {
        kind: v1::RowKind::PlainTwoWay.into(),
        row_count: 2,
        pieces_per_row: 3,
        start_mm: 0.0,
        row_mm: 210.0,
        pitch_mm: 100.487_824,
        slack_mm: 0.0,
    };
    let plan =
        v1::CuttingPlan { cloth_width_mm: 400.0, clearance_mm: 5.0, bands: vec![band], ..Default::default() };
    let good = v1::FabricUse {
        piece_count: 6,
        cut_width_mm: 190.0,
        cut_drop_mm: 210.0,
        used_mm: 420.0,
        plan: Some(plan),
        ..Default::default()
    };
    assert_eq!(look_at(&good), Vec::<String>::new());
    let spoil = |change: fn(&mut v1::FabricUse, &mut v1::CuttingPlan)| {
        let mut spoiled = good.clone();
        let mut plan = spoiled.plan.take().expect("a plan");
        change(&mut spoiled, &mut plan);
        spoiled.plan = Some(plan);
        !look_at(&spoiled).is_empty()
    };
    assert!(spoil(|_, plan| plan.clearance_mm = 5.1), "too near each other");
    assert!(spoil(|_, plan| plan.cloth_width_mm = 390.0), "off the side");
    assert!(spoil(|fabric, _| fabric.used_mm = 419.0), "off the end");
    assert!(spoil(|_, plan| plan.row_gap_mm = 3.0), "used more than said");
    assert!(spoil(|_, plan| plan.bands[0].pitch_mm = 95.0), "side on side");
}
