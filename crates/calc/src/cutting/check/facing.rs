//! Whether two rows that lie foot to foot are apart, measured on the true shapes.

use pennantry_measure::ceil_sqrt;

use super::super::Job;
use super::super::coordinates::{Line, Placed, Way};
use super::super::rows::foot;
use crate::outline::Outline;
use crate::shop::Shape;

/// A point or a direction: across, along.
type Pair = (i128, i128);

/// What two pieces foot to foot are measured by, in half micrometres.
pub(super) struct Facing {
    width: i64,
    /// Two that are so far apart across the cloth, corner to corner, are clear.
    reach: i64,
    foot: Foot,
    /// The shifts that were measured last and found clear: evenly spaced rows have few.
    known: [Option<(i64, i64)>; 4],
    next: usize,
}

/// The foot of a piece.
enum Foot {
    /// Straight edges.
    Edges(Box<[Edge; 7]>),
    /// Part of a circle.
    Arc(Arc),
}

/// A direction square to an edge, and how far beyond the one piece the other must lie
/// in it, by the parts of each.
struct Edge {
    square: Pair,
    /// For the left parts of both, for different ones, for the right parts of both.
    needed: [i128; 3],
}

/// A circle, all figures times `scale`.
struct Arc {
    scale: i128,
    /// From the foot of the piece to the circle's centre, twice.
    diameter: i128,
    /// The least distance of two centres.
    between: i128,
    drop: i128,
}

impl Facing {
    pub(super) fn new(job: &Job) -> Facing {
        let outline = &job.outline;
        let apart = 2 * job.clearance.um();
        let width = 2 * outline.width.um();
        let foot = match outline.shape {
            Shape::Scallop if outline.detail.um() > 0 => Foot::Arc(Arc::new(outline, i128::from(apart))),
            _ => Foot::Edges(Box::new(edges(outline, i128::from(apart)))),
        };
        Facing { width, reach: width + apart, foot, known: [None; 4], next: 0 }
    }

    /// Whether every piece of a row of turned pieces is clear of every piece of a row of
    /// upright ones before it. Both are known to be in order from the left.
    pub(super) fn apart(&mut self, upright: &Line, turned: &Line) -> bool {
        let mut from = 0;
        for at in 0..turned.count {
            let other = turned.piece(at);
            if other.way != Way::Turned {
                return false;
            }
            while from < upright.count && upright.piece(from).x2 + self.reach <= other.x2 {
                from += 1;
            }
            for one in (from..upright.count).map(|at| upright.piece(at)) {
                if one.x2 >= other.x2 + self.reach {
                    break;
                }
                if one.way != Way::Upright || !self.clear(one, other) {
                    return false;
                }
            }
        }
        true
    }

    /// Whether a turned piece is clear of an upright one: a question of how far it is
    /// shifted, and of nothing else.
    fn clear(&mut self, one: Placed, other: Placed) -> bool {
        let shift = (other.x2 - one.x2, other.y2 - one.y2);
        if self.known.contains(&Some(shift)) {
            return true;
        }
        let by = (i128::from(shift.0), i128::from(shift.1));
        let clear = match &self.foot {
            Foot::Arc(arc) => arc.clear(by, i128::from(self.width)),
            // each part of the one from each part of the other
            Foot::Edges(edges) => (0..3).all(|parts| edges.iter().any(|edge| edge.clear(by, parts))),
        };
        if clear {
            self.next = (self.next + 1) % self.known.len();
            if let Some(known) = self.known.get_mut(self.next) {
                *known = Some(shift);
            }
        }
        clear
    }
}

impl Edge {
    fn clear(&self, by: Pair, parts: usize) -> bool {
        let beyond = self.square.0 * by.0 + self.square.1 * by.1;
        self.needed.get(parts).is_some_and(|needed| beyond >= *needed)
    }
}

impl Arc {
    fn new(outline: &Outline, apart: i128) -> Arc {
        let (chord, rise) = (2 * outline.width.wide(), 2 * outline.detail.wide());
        // twice the radius is (w² + 4 f²) / 4 f
        let (scale, diameter) = (4 * rise, chord * chord + 4 * rise * rise);
        Arc { scale, diameter, between: diameter + apart * scale, drop: 2 * outline.drop.wide() }
    }

    /// The pieces are convex and alike left and right, so a shift further apart does not
    /// bring them nearer; within a width both arcs are met on the line of their centres.
    fn clear(&self, by: Pair, width: i128) -> bool {
        let across = by.0.abs().min(width) * self.scale;
        let along = (by.1 - self.drop) * self.scale + self.diameter;
        along >= 0 && across * across + along * along >= self.between * self.between
    }
}

/// The directions in which pieces with straight edges can be apart. A swallowtail is
/// taken as its two halves, which are convex; parts with fewer corners repeat one.
fn edges(outline: &Outline, apart: i128) -> [Edge; 7] {
    let (w, h) = (2 * outline.width.wide(), 2 * outline.drop.wide());
    let (detail, flat) = (2 * outline.detail.wide(), 2 * outline.flat.wide());
    // the slanted edge, and the left part, or the whole
    let ((a, b), left): (Pair, [Pair; 6]) = match outline.shape {
        Shape::Swallowtail => {
            ((2 * detail, w - 2 * flat), [(0, 0), (w / 2, 0), (w / 2, h - detail), (flat, h), (0, h), (0, h)])
        }
        Shape::Shield => {
            let (low, high) = (w / 2 - flat / 2, w / 2 + flat / 2);
            ((2 * (h - detail), w - flat), [(0, 0), (w, 0), (w, detail), (high, h), (low, h), (0, detail)])
        }
        Shape::Triangle | Shape::Blunt => {
            let foot = 2 * foot(outline).wide();
            let (low, high) = (w / 2 - foot / 2, w / 2 + foot / 2);
            ((2 * h, w - foot), [(0, 0), (w, 0), (w, 0), (high, h), (low, h), (0, 0)])
        }
        Shape::Rectangle | Shape::Scallop => ((0, 1), [(0, 0), (w, 0), (w, 0), (w, h), (0, h), (0, h)]),
    };
    let right = left.map(|(x, y)| (w - x, y));
    // one root for the four slanted directions
    let root = ceil_sqrt((apart * apart * (a * a + b * b)).unsigned_abs());
    let root = i128::try_from(root).unwrap_or(i128::MAX);
    let slanted = [(a, b), (-a, b), (a, -b), (-a, -b)].map(|square| (square, root));
    let straight = [(1, 0), (-1, 0), (0, 1)].map(|square| (square, apart));
    let edge = |(square, distance): (Pair, i128)| {
        let along = |at: &Pair| square.0 * at.0 + square.1 * at.1;
        let furthest = |part: &[Pair; 6]| part.iter().map(along).max().unwrap_or(i128::MAX);
        let (left, right) = (furthest(&left), furthest(&right));
        // a turned piece is the upright one seen from its opposite corner
        let own = distance - along(&(w, h));
        Edge { square, needed: [left + left + own, left + right + own, right + right + own] }
    };
    let [one, two, three, four] = slanted.map(edge);
    let [five, six, seven] = straight.map(edge);
    [one, two, three, four, five, six, seven]
}
