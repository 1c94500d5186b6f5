//! Plans redrawn from what the answer prints, and measured by a general geometry library.

use geo::{Area, BooleanOps, BoundingRect, Contains, Coord, Distance, Euclidean, LineString, Polygon, Rect};
use pennantry_contract::v1;

use super::{Bench, ORDERS};

/// Printed lengths are rounded to the micrometre, pitches to half of one; a row of
/// some hundred pieces may be off by a hundred times that. Unit mm.
const SLACK_MM: f64 = 0.06;

/// How a piece lies.
#[derive(Clone, Copy, PartialEq)]
enum Lies {
    Upright,
    Turned,
    /// On its side: its top at the left, or at the right.
    Side,
    OtherSide,
}

/// The cut outline as it lies upright: its top along the start of the cloth. An arc is
/// drawn as a fine polygon within it.
fn outline(fabric: &v1::FabricUse) -> Vec<(f64, f64)> {
    let (w, h, d, f) = (fabric.cut_width_mm, fabric.cut_drop_mm, fabric.cut_detail_mm, fabric.cut_flat_mm);
    let top = [(0.0, 0.0), (w, 0.0)];
    let below: Vec<(f64, f64)> = match fabric.cut_shape() {
        v1::Shape::Triangle => vec![(w / 2.0, h)],
        v1::Shape::Blunt => vec![(f64::midpoint(w, d), h), ((w - d) / 2.0, h)],
        v1::Shape::Rectangle => vec![(w, h), (0.0, h)],
        v1::Shape::Swallowtail if f == 0.0 => vec![(w, h), (w / 2.0, h - d), (0.0, h)],
        v1::Shape::Swallowtail => vec![(w, h), (w - f, h), (w / 2.0, h - d), (f, h), (0.0, h)],
        v1::Shape::Shield if f == 0.0 => vec![(w, d), (w / 2.0, h), (0.0, d)],
        v1::Shape::Shield => vec![(w, d), (f64::midpoint(w, f), h), ((w - f) / 2.0, h), (0.0, d)],
        v1::Shape::Scallop => {
            let radius = (w * w / 4.0 + d * d) / (2.0 * d);
            let reach = (w / 2.0 / radius).min(1.0).asin();
            (0..=48)
                .map(|step| {
                    let angle = reach * (1.0 - f64::from(step) / 24.0);
                    (w / 2.0 + radius * angle.sin(), h - radius + radius * angle.cos())
                })
                .collect()
        }
        v1::Shape::Unspecified => panic!("no shape: {fabric:?}"),
    };
    top.into_iter().chain(below).collect()
}

/// One piece, the corner of its bounding box nearest to the start of the cloth at
/// `(left, start)`.
fn piece(fabric: &v1::FabricUse, left: f64, start: f64, lies: Lies) -> Polygon {
    let (w, h) = (fabric.cut_width_mm, fabric.cut_drop_mm);
    let at = |(x, y): (f64, f64)| match lies {
        Lies::Upright => (x, y),
        Lies::Turned => (w - x, h - y),
        Lies::Side => (y, w - x),
        Lies::OtherSide => (h - y, x),
    };
    let corners = outline(fabric).into_iter().map(at);
    Polygon::new(
        corners.map(|(x, y)| Coord { x: left + x, y: start + y }).collect::<LineString>(),
        Vec::new(),
    )
}

/// A piece, and which line of pieces it is in: a row, a pair of rows that face each other,
/// a column.
type Drawn = (usize, Polygon);

/// The pieces of every row, first to last; lines that lie beside each other are one.
fn rows(fabric: &v1::FabricUse, plan: &v1::CuttingPlan) -> Vec<Vec<Drawn>> {
    let leans = matches!(fabric.cut_shape(), v1::Shape::Triangle | v1::Shape::Blunt);
    let mut rows: Vec<(f64, Vec<Drawn>)> = Vec::new();
    let mut line = 0;
    for band in &plan.bands {
        let place = |place: u32| band.left_mm + f64::from(place) * band.pitch_mm;
        for row in 0..band.row_count {
            let start = band.start_mm + f64::from(row) * (band.row_mm + plan.row_gap_mm);
            let pieces: Vec<Polygon> = match band.kind() {
                v1::RowKind::Sideways => {
                    let left = band.left_mm + f64::from(row) * (fabric.cut_drop_mm + plan.row_gap_mm);
                    let lies =
                        |place: u32| if place % 2 == 1 && leans { Lies::OtherSide } else { Lies::Side };
                    let along = |place: u32| band.start_mm + f64::from(place) * band.pitch_mm;
                    (0..band.pieces_per_row).map(|at| piece(fabric, left, along(at), lies(at))).collect()
                }
                v1::RowKind::Facing => {
                    let first = band.pieces_per_row.div_ceil(2);
                    let second = start + band.row_mm - fabric.cut_drop_mm;
                    let turned = |at: u32| piece(fabric, place(at) + band.shift_mm, second, Lies::Turned);
                    let upright = (0..first).map(|at| piece(fabric, place(at), start, Lies::Upright));
                    upright.chain((0..band.pieces_per_row - first).map(turned)).collect()
                }
                kind => {
                    let two_way = kind == v1::RowKind::PlainTwoWay && leans;
                    let lies = |at: u32| if two_way && at % 2 == 1 { Lies::Turned } else { Lies::Upright };
                    (0..band.pieces_per_row).map(|at| piece(fabric, place(at), start, lies(at))).collect()
                }
            };
            line += 1;
            let pieces: Vec<Drawn> = pieces.into_iter().map(|piece| (line, piece)).collect();
            let start = if band.kind() == v1::RowKind::Sideways { band.start_mm } else { start };
            match rows.last_mut().filter(|(last, row)| {
                let end = span(row).1;
                start < end - SLACK_MM || (start - last).abs() < SLACK_MM
            }) {
                Some((_, row)) => row.extend(pieces),
                None => rows.push((start, pieces)),
            }
        }
    }
    rows.into_iter().map(|(_, row)| row).collect()
}

/// Where a row starts and ends along the cloth.
fn span(row: &[Drawn]) -> (f64, f64) {
    let rects = row.iter().map(|(_, piece)| piece.bounding_rect().expect("a piece has corners"));
    rects.fold((f64::MAX, f64::MIN), |(low, high), r| (low.min(r.min().y), high.max(r.max().y)))
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
    let layers = f64::from(through(fabric));
    let cloth = inflated(Rect::new(corner(0.0, 0.0), corner(plan.cloth_width_mm, fabric.used_mm)));
    let mut across: Vec<f64> = Vec::new();
    for row in &rows {
        if let Some(out) = row.iter().find(|(_, piece)| !cloth.contains(piece)) {
            found.push(format!("a piece lies outside the cloth: {out:?}"));
        }
        // a row that lies across the cloth as the one before has the same distances in it
        let start = span(row).0;
        let corners: Vec<f64> = row
            .iter()
            .flat_map(|(_, piece)| piece.exterior().coords().flat_map(|at| [at.x, at.y - start]))
            .collect();
        let same =
            across.len() == corners.len() && across.iter().zip(&corners).all(|(a, b)| (a - b).abs() < 0.001);
        if same {
            continue;
        }
        across = corners;
        for (at, (line, one)) in row.iter().enumerate() {
            let near = row.iter().skip(at + 1).filter(|(_, other)| near(one, other, plan.clearance_mm));
            for (other_line, other) in near {
                let apart = Euclidean.distance(one, other);
                // lines keep the row gap, pieces of a line their clearance
                let wanted = if line == other_line { plan.clearance_mm } else { plan.row_gap_mm };
                // pieces that share a cut touch: then they must not lie on each other
                let shared = if apart > 0.0 { 0.0 } else { one.intersection(other).unsigned_area() };
                if apart < wanted - SLACK_MM || shared > SLACK_MM * fabric.cut_drop_mm {
                    found.push(format!("neighbours are {apart} apart and share {shared}, {wanted} wanted"));
                }
            }
        }
    }
    // rows lie one after the other: what they span does not overlap
    for pair in rows.windows(2) {
        let gap = span(&pair[1]).0 - span(&pair[0]).1;
        if gap < plan.row_gap_mm - SLACK_MM {
            found.push(format!("rows are {gap} apart, {} wanted", plan.row_gap_mm));
        }
    }
    // no plan is shorter than the area of its pieces laid out flat
    let area: f64 = rows.iter().flatten().map(|(_, piece)| piece.unsigned_area()).sum();
    if fabric.used_mm * plan.cloth_width_mm < area - 1.0 {
        found.push(format!("the pieces cover {area}, more than the cloth"));
    }
    let ends = rows.iter().map(|row| span(row).1).fold(0.0, f64::max);
    if ends * layers < fabric.used_mm - SLACK_MM * layers {
        found.push(format!("{} is used, the pieces of {layers} layers end at {ends}", fabric.used_mm));
    }
    found
}

/// How often the cloth used is as long as one layer's plan.
fn through(fabric: &v1::FabricUse) -> u32 {
    let lay = fabric.lay.expect("a lay");
    match (lay.kind(), &fabric.bought) {
        (_, Some(bought)) => bought.count,
        (v1::Lay::FoldedAlong | v1::Lay::Stacked, None) => lay.layer_count,
        _ => 1,
    }
}

/// Whether two pieces are near enough to be worth a closer look.
fn near(one: &Polygon, other: &Polygon, clearance: f64) -> bool {
    let (a, b) = (one.bounding_rect().expect("corners"), other.bounding_rect().expect("corners"));
    let apart = clearance + SLACK_MM;
    a.min().x - apart < b.max().x
        && b.min().x - apart < a.max().x
        && a.min().y - apart < b.max().y
        && b.min().y - apart < a.max().y
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
        left_mm: 0.0,
        shift_mm: 0.0,
    };
    let plan =
        v1::CuttingPlan { cloth_width_mm: 400.0, clearance_mm: 5.0, bands: vec![band], ..Default::default() };
    let good = v1::FabricUse {
        piece_count: 6,
        cut_width_mm: 190.0,
        cut_drop_mm: 210.0,
        used_mm: 420.0,
        cut_shape: v1::Shape::Triangle.into(),
        lay: Some(v1::ClothLay { kind: v1::Lay::Flat.into(), layer_count: 1, outline_count: 6 }),
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
