//! Plans rebuilt as polygons and measured by a general geometry library.

use geo::coordinate_position::CoordPos;
use geo::dimensions::Dimensions;
use geo::{Coord, Distance, Euclidean, LineString, Polygon, Relate};
use proptest::prelude::*;

use super::super::*;

#[expect(
    clippy::as_conversions,
    clippy::cast_precision_loss,
    reason = "another library measures in doubles; coordinates here are far below 2^53"
)]
fn float(half_um: i64) -> f64 {
    half_um as f64 / 2.0
}

struct Rebuilt {
    polygon: Polygon,
    /// Left, start, right and end in half micrometres.
    edges: [i64; 4],
    /// Which row.
    row: i64,
}

fn rebuild(plan: &Plan, job: &Job) -> Vec<Rebuilt> {
    let (width, drop) = (job.outline.width.um(), job.outline.drop.um());
    let piece = |placed: Placed| {
        let (left, start) = (placed.x2, 2 * placed.y);
        let (right, end) = (left + 2 * width, start + 2 * drop);
        let (base, tip) = if placed.up { (start, end) } else { (end, start) };
        let at = |x, y| Coord { x: float(x), y: float(y) };
        let corners = LineString::new(vec![at(left, base), at(right, base), at(left + width, tip)]);
        Rebuilt {
            polygon: Polygon::new(corners, Vec::new()),
            edges: [left, start, right, end],
            row: placed.y,
        }
    };
    coordinates(plan, job).map(piece).collect()
}

/// Whether more than their edges is in both.
fn overlap(a: &Rebuilt, b: &Rebuilt) -> bool {
    let near = (0..2).all(|axis| a.edges[axis] < b.edges[axis + 2] && b.edges[axis] < a.edges[axis + 2]);
    near && a.polygon.relate(&b.polygon).get(CoordPos::Inside, CoordPos::Inside) != Dimensions::Empty
}

fn jobs() -> impl Strategy<Value = Job> {
    let widths = (20_000_i64..=400_000, 20_000_i64..=600_000, 400_000_i64..=1_600_000);
    // none at all, as where neighbours share a cut, in a third of the jobs
    let spaces = (prop_oneof![Just(0), 0_i64..=20_000, 0_i64..=20_000], prop_oneof![Just(0), 0_i64..=10_000]);
    (widths, spaces, 1_u32..=60, any::<bool>()).prop_map(
        |((width, drop, cloth), (clear, gap), pieces, two)| Job {
            cloth_width: Length::from_um(cloth),
            direction: if two { Direction::TwoWay } else { Direction::OneWay },
            outline: Outline::triangle(Length::from_um(width), Length::from_um(drop)),
            clearance: Length::from_um(clear),
            row_gap: Length::from_um(gap),
            pieces,
        },
    )
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(500))]

    #[test]
    fn invariant_04_pieces_lie_inside_apart_and_not_on_each_other(job in jobs()) {
        let plan = plan(&job).expect("a plan");
        let pieces = rebuild(&plan, &job);
        prop_assert_eq!(pieces.len(), usize::try_from(job.pieces).expect("a count"));
        let (right, end) = (2 * job.cloth_width.um(), 2 * plan.used.um());
        for piece in &pieces {
            let [left, start, to_right, to_end] = piece.edges;
            prop_assert!(left >= 0 && start >= 0 && to_right <= right && to_end <= end, "{:?}", piece.edges);
        }
        prop_assert_eq!(pieces.iter().map(|piece| piece.edges[3]).max(), Some(end));
        let least = float(2 * job.clearance.um()) - 1e-6;
        for (place, one) in pieces.iter().enumerate() {
            for other in &pieces[place + 1..] {
                prop_assert!(!overlap(one, other), "{:?} and {:?}", one.edges, other.edges);
                if one.row == other.row {
                    let apart = Euclidean.distance(&one.polygon, &other.polygon);
                    prop_assert!(apart >= least, "{apart} apart for {}", job.clearance);
                }
            }
        }
    }

    #[test]
    fn a_row_could_not_hold_one_more(job in jobs()) {
        let count = i128::from(job.per_row());
        let taken = |count: i128| 2 * job.outline.width.wide() + (count - 1) * i128::from(job.half_pitch());
        prop_assert!(taken(count) <= 2 * job.cloth_width.wide() && taken(count + 1) > 2 * job.cloth_width.wide());
        // and pieces half a micrometre closer would be nearer than the clearance
        let mut plan = plan(&Job { pieces: 2, ..job }).expect("a plan");
        if job.per_row() > 1 {
            plan.bands[0].half_pitch -= 1;
            prop_assert_eq!(validate(&plan, &Job { pieces: 2, ..job }), Err(Fault::TooNear { piece: 1 }));
        }
    }

    #[test]
    fn more_pieces_take_no_less_and_wider_cloth_no_more(job in jobs(), more in 1_u32..40, wider in 1_i64..300_000) {
        let used = |job: &Job| plan(job).expect("a plan").used;
        let this = used(&job);
        let many = Job { pieces: job.pieces + more, ..job };
        prop_assert!(used(&many) >= this);
        let wide = Job { cloth_width: job.cloth_width + Length::from_um(wider), ..job };
        prop_assert!(used(&wide) <= this);
        let clear = Job { clearance: job.clearance + Length::from_um(wider / 100), ..job };
        prop_assert!(used(&clear) >= this);
        let one_way = Job { direction: Direction::OneWay, ..job };
        let two_way = Job { direction: Direction::TwoWay, ..job };
        prop_assert!(used(&one_way) >= used(&two_way));
    }

    #[test]
    fn no_plan_gets_below_its_bound(job in jobs()) {
        let plan = plan(&job).expect("a plan");
        prop_assert!(plan.used >= plan.bound, "{} below {}", plan.used, plan.bound);
        prop_assert!(plan.bound >= job.outline.drop);
        // and the rows that hold the pieces hold no fewer than the capacity says
        prop_assert_eq!(job.capacity(plan.used), u64::from(job.pieces) + u64::from(plan.room));
    }
}
