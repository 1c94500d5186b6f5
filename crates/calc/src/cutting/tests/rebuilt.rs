//! Plans rebuilt as polygons and measured by a general geometry library.

use geo::coordinate_position::CoordPos;
use geo::dimensions::Dimensions;
use geo::{Coord, Distance, Euclidean, LineString, Polygon, Relate};
use proptest::prelude::*;

use super::super::*;
use crate::cutting::rows;
use crate::shop::Shape;

/// Corners in which an arc is drawn. They lie on the arc, so what the library measures
/// is the arc to a part in ten thousand of its width, never less.
const ARC: i32 = 48;

#[expect(
    clippy::as_conversions,
    clippy::cast_precision_loss,
    reason = "another library measures in doubles; coordinates here are far below 2^53"
)]
fn float(half_um: i64) -> f64 {
    half_um as f64 / 2.0
}

/// The corners of an upright outline, its top's left corner at the origin, in
/// micrometres.
fn corners(outline: &Outline) -> Vec<(f64, f64)> {
    let of = |length: Length| float(2 * length.um());
    let (w, h, d, f) = (of(outline.width), of(outline.drop), of(outline.detail), of(outline.flat));
    let mut all = vec![(0.0, 0.0), (w, 0.0)];
    match outline.shape {
        Shape::Triangle => all.push((w / 2.0, h)),
        Shape::Blunt => all.extend([(0.5 * (w + d), h), (0.5 * (w - d), h)]),
        Shape::Swallowtail => all.extend([(w, h), (w - f, h), (w / 2.0, h - d), (f, h), (0.0, h)]),
        Shape::Shield => all.extend([(w, d), (0.5 * (w + f), h), (0.5 * (w - f), h), (0.0, d)]),
        Shape::Rectangle => all.extend([(w, h), (0.0, h)]),
        Shape::Scallop => {
            all.push((w, h - d));
            let radius = (w * w + 4.0 * d * d) / (8.0 * d);
            for at in 1..ARC {
                let x = w * (1.0 - f64::from(at) / f64::from(ARC));
                let half = x - w / 2.0;
                all.push((x, h - radius + libm::sqrt(radius * radius - half * half)));
            }
            all.push((0.0, h - d));
        }
    }
    all
}

struct Rebuilt {
    polygon: Polygon,
    /// Left, start, right and end in half micrometres.
    edges: [i64; 4],
    way: Way,
}

fn rebuild(plan: &Plan, job: &Job) -> Vec<Rebuilt> {
    let (width, drop) = (job.outline.width.um(), job.outline.drop.um());
    let (w, h) = (float(2 * width), float(2 * drop));
    let corners = corners(&job.outline);
    let piece = |placed: Placed| {
        let turned = |(x, y): &(f64, f64)| match placed.way {
            Way::Upright => (*x, *y),
            Way::Turned => (w - x, h - y),
            // a quarter turn against the clock, and one with it, seen with y downwards
            Way::FootRight => (*y, w - x),
            Way::FootLeft => (h - y, *x),
        };
        let (left, start) = (float(placed.x2), float(placed.y2));
        let at = |corner| {
            let (x, y) = turned(corner);
            Coord { x: left + x, y: start + y }
        };
        let polygon = Polygon::new(LineString::new(corners.iter().map(at).collect()), Vec::new());
        let (across, along) = if placed.way.sideways() { (drop, width) } else { (width, drop) };
        let edges = [placed.x2, placed.y2, placed.x2 + 2 * across, placed.y2 + 2 * along];
        Rebuilt { polygon, edges, way: placed.way }
    };
    coordinates(plan, job).map(piece).collect()
}

/// Whether two come nearer than a distance in half micrometres by their edges.
fn near(a: &Rebuilt, b: &Rebuilt, by: i64) -> bool {
    (0..2).all(|axis| a.edges[axis] < b.edges[axis + 2] + by && b.edges[axis] < a.edges[axis + 2] + by)
}

/// Whether more than their edges is in both.
fn overlap(a: &Rebuilt, b: &Rebuilt) -> bool {
    near(a, b, 0) && a.polygon.relate(&b.polygon).get(CoordPos::Inside, CoordPos::Inside) != Dimensions::Empty
}

/// What two pieces have to keep between them, in micrometres.
fn kept(a: &Rebuilt, b: &Rebuilt, job: &Job) -> i64 {
    let (clearance, gap) = (job.clearance.um(), job.row_gap.um());
    let both = a.way.sideways() && b.way.sideways();
    // the edge across their row or column
    let across = usize::from(!both);
    let same = a.way.sideways() == b.way.sideways() && a.edges[across] == b.edges[across];
    let facing = rows::faces(job.outline.shape)
        && [(a, b), (b, a)].into_iter().any(|(one, other)| {
            one.way == Way::Upright && other.way == Way::Turned && one.edges[1] < other.edges[1]
        });
    let sides = both && a.edges[0] < b.edges[2] && b.edges[0] < a.edges[2];
    if same || facing {
        clearance
    } else if sides {
        // one block behind another
        clearance.max(gap)
    } else {
        gap
    }
}

fn outlines(shape: Shape) -> impl Strategy<Value = Outline> {
    (20_000_i64..=400_000, 20_000_i64..=600_000, 1_i64..=999, prop_oneof![Just(0), 0_i64..=200]).prop_map(
        move |(width, drop, share, flat)| {
            let part = |whole: i64, share: i64| whole * share / 1_000;
            let (detail, flat) = match shape {
                Shape::Triangle | Shape::Rectangle => (0, 0),
                Shape::Blunt => (part(width, share), 0),
                Shape::Swallowtail | Shape::Shield => (part(drop, share), part(width, flat)),
                Shape::Scallop => (part(drop.min(width / 2), share).max(1), 0),
            };
            let um = Length::from_um;
            Outline { shape, width: um(width), drop: um(drop), detail: um(detail), flat: um(flat) }
        },
    )
}

pub(super) fn jobs(shape: Shape) -> impl Strategy<Value = Job> {
    // none at all, as where neighbours share a cut, in a third of the jobs
    let spaces = (prop_oneof![Just(0), 0_i64..=20_000, 0_i64..=20_000], prop_oneof![Just(0), 0_i64..=10_000]);
    let direction = prop_oneof![
        Just(Direction::OneWay),
        Just(Direction::TwoWay),
        Just(Direction::FourWay),
        Just(Direction::FourWay)
    ];
    (outlines(shape), 400_000_i64..=1_600_000, spaces, 1_u32..=60, direction).prop_map(
        |(outline, cloth, (clear, gap), pieces, direction)| Job {
            cloth_width: Length::from_um(cloth),
            direction,
            outline,
            clearance: Length::from_um(clear),
            row_gap: Length::from_um(gap),
            repeat: Repeat::default(),
            pieces,
        },
    )
}

pub(super) const SHAPES: [Shape; 6] =
    [Shape::Triangle, Shape::Blunt, Shape::Swallowtail, Shape::Shield, Shape::Scallop, Shape::Rectangle];

/// A job of any shape.
pub(super) fn any_job() -> impl Strategy<Value = Job> {
    prop::sample::select(&SHAPES[..]).prop_flat_map(jobs)
}

/// Every piece of a plan inside, clear of every other and as far apart as asked.
fn measured(plan: &Plan, job: &Job) -> Result<(), TestCaseError> {
    let pieces = rebuild(plan, job);
    prop_assert_eq!(pieces.len(), usize::try_from(job.pieces).expect("a count"));
    let (right, end) = (2 * job.cloth_width.um(), 2 * plan.used.um());
    for piece in &pieces {
        let [left, start, to_right, to_end] = piece.edges;
        prop_assert!(left >= 0 && start >= 0 && to_right <= right && to_end <= end, "{:?}", piece.edges);
    }
    let last = pieces.iter().map(|piece| piece.edges[3]).max().unwrap_or(0);
    prop_assert!(last == end || last == end - 1, "{last} of {end}");
    for (place, one) in pieces.iter().enumerate() {
        for other in &pieces[place + 1..] {
            if !near(one, other, 2 * job.clearance.um().max(job.row_gap.um())) {
                continue;
            }
            // edges of an arc are drawn within it
            prop_assert!(!overlap(one, other), "{:?} and {:?} in {plan:?}", one.edges, other.edges);
            let least = float(2 * kept(one, other, job)) - 1e-5;
            let apart = Euclidean.distance(&one.polygon, &other.polygon);
            prop_assert!(apart >= least, "{apart} apart for {least}: {:?} and {:?}", one.edges, other.edges);
        }
    }
    Ok(())
}

macro_rules! rebuilt {
    ($($name:ident: $shape:ident),+) => {
        proptest! {
            #![proptest_config(ProptestConfig::with_cases(400))]
            $(
                #[test]
                fn $name(job in jobs(Shape::$shape)) {
                    let planned = plan(&job);
                    if let Err(PlanError::TooWide(_)) = planned {
                        return Ok(());
                    }
                    measured(&planned.expect("a plan"), &job)?;
                    measured(&best(&job).expect("a plan"), &job)?;
                }
            )+
        }
    };
}

rebuilt! {
    invariant_04_triangles_lie_inside_and_apart: Triangle,
    invariant_04_blunts_lie_inside_and_apart: Blunt,
    invariant_04_swallowtails_lie_inside_and_apart: Swallowtail,
    invariant_04_shields_lie_inside_and_apart: Shield,
    invariant_04_scallops_lie_inside_and_apart: Scallop,
    invariant_04_rectangles_lie_inside_and_apart: Rectangle
}

/// The arcs of facing scallops, by their centres in doubles.
#[test]
fn facing_arcs_keep_the_clearance() {
    for (width, drop, rise, clear) in
        [(150, 180, 75, 0), (160, 200, 80, 6), (190, 210, 50, 3), (120, 90, 12, 1)]
    {
        let mm = Length::from_mm;
        let outline = Outline {
            shape: Shape::Scallop,
            width: mm(width),
            drop: mm(drop),
            detail: mm(rise),
            flat: mm(0),
        };
        let job = Job {
            cloth_width: mm(1_100),
            direction: Direction::TwoWay,
            outline,
            clearance: mm(clear),
            row_gap: mm(0),
            repeat: Repeat::default(),
            pieces: 26,
        };
        let plan = best(&job).expect("a plan");
        let (w, f) = (float(2_000 * width), float(2_000 * rise));
        let radius = (w * w + 4.0 * f * f) / (8.0 * f);
        let placed: Vec<Placed> = coordinates(&plan, &job).collect();
        let mut nearest = f64::INFINITY;
        for up in placed.iter().filter(|placed| placed.way == Way::Upright) {
            for down in placed.iter().filter(|placed| placed.way == Way::Turned && placed.y2 > up.y2) {
                let across = float(down.x2 - up.x2);
                let along = float(down.y2 - up.y2) - float(2_000 * drop) + 2.0 * radius;
                // beyond a width their sides are apart, whatever the circles do
                if libm::fabs(across) <= w {
                    nearest = nearest.min(libm::hypot(across, along) - 2.0 * radius);
                }
            }
        }
        // kept, and by no more than a micrometre of length
        let clear = float(2_000 * clear);
        assert!(nearest >= clear - 1e-6 && nearest < clear + 1.0, "{nearest} for {clear}");
    }
}
