//! What holds for every job.

use proptest::prelude::*;

use super::super::*;
use super::rebuilt::{any_job, jobs};
use crate::cutting::{cover, pairs, rows, turns};
use crate::shop::Shape;

/// The same cloth, no piece on its side.
fn upright(direction: Direction) -> Direction {
    if direction == Direction::FourWay { Direction::TwoWay } else { direction }
}

/// Longer than any plan.
const NEVER: i64 = i64::MAX / 8;

fn used(job: &Job) -> Length {
    // longer than anything where it does not fit
    shortest(job).unwrap_or(Length::from_um(i64::MAX))
}

/// The covering search as it is written, without any short cut: rows for every number of
/// pieces, and every two blocks.
fn plainly(job: &Job) -> Option<i64> {
    let cut = rows::Cut::new(job);
    let mut units = Vec::new();
    rows::plain(&cut, &mut units);
    pairs::pairs(&cut, &mut units);
    let pieces = usize::try_from(job.pieces).expect("a count");
    let mut table = vec![0_i64];
    for count in 1..=pieces {
        let behind = |unit: &rows::Unit| {
            let rest = count.saturating_sub(usize::try_from(unit.count).expect("a count"));
            table[rest] + unit.length + cut.gap
        };
        table.push(units.iter().map(behind).min().unwrap_or(NEVER).min(NEVER));
    }
    let mut best = table[pieces];
    if cut.direction == Direction::FourWay {
        let mut blocks = Vec::new();
        turns::visit(&cut, i64::from(job.pieces), |block| {
            blocks.push(*block);
            true
        });
        let rest = |left: i64| usize::try_from(left).unwrap_or(0);
        for one in &blocks {
            let left = i64::from(job.pieces) - one.count();
            best = best.min(one.length + cut.gap + table[rest(left)]);
            for other in blocks.iter().filter(|_| left > 0) {
                let left = left - other.count();
                let between = if left > 0 { 0 } else { (cut.clearance - cut.gap).max(0) };
                best = best.min(one.length + other.length + 2 * cut.gap + between + table[rest(left)]);
            }
        }
    }
    (best < NEVER).then(|| if job.pieces > 0 { best - cut.gap } else { 0 })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(500))]

    #[test]
    fn a_row_could_not_hold_one_more(job in any_job()) {
        let count = i128::from(job.per_row());
        let taken = |count: i128| 2 * job.outline.width.wide() + (count - 1) * i128::from(job.half_pitch());
        prop_assert!(taken(count) <= 2 * job.cloth_width.wide() && taken(count + 1) > 2 * job.cloth_width.wide());
        // and pieces half a micrometre closer would be nearer than the clearance
        if job.per_row() > 1 {
            let two = Job { pieces: 2, direction: upright(job.direction), ..job };
            let mut plan = plan(&two).expect("a plan");
            plan.bands[0].half_pitch -= 1;
            prop_assert_eq!(validate(&plan, &two), Err(Fault::TooNear { piece: 1 }));
        }
    }

    #[test]
    fn the_search_finds_what_plain_trying_finds(job in any_job()) {
        prop_assert_eq!(shortest(&job).map(Length::um), plainly(&job));
    }

    /// Far beyond the table of rows.
    #[test]
    fn long_runs_of_pairs_are_exact(
        shape in prop::sample::select(&[Shape::Swallowtail, Shape::Shield, Shape::Scallop][..]),
        pieces in 1_u32..20_000,
        job in jobs(Shape::Swallowtail),
    ) {
        let detail = if shape == Shape::Scallop { job.outline.width.um() / 3 } else { job.outline.detail.um() };
        let outline = Outline { shape, detail: Length::from_um(detail), flat: Length::ZERO, ..job.outline };
        let outline = Outline { drop: outline.drop.max(outline.detail), ..outline };
        let job = Job { outline, pieces, direction: Direction::TwoWay, ..job };
        prop_assert_eq!(shortest(&job).map(Length::um), plainly(&job));
    }

    #[test]
    fn more_pieces_take_no_less_and_wider_cloth_no_more(
        job in any_job(),
        more in 1_u32..200,
        wider in 1_i64..300_000,
    ) {
        let this = used(&job);
        let many = Job { pieces: job.pieces + more, ..job };
        prop_assert!(used(&many) >= this);
        let wide = Job { cloth_width: job.cloth_width + Length::from_um(wider), ..job };
        prop_assert!(used(&wide) <= this);
        let clear = Job { clearance: job.clearance + Length::from_um(wider / 100), ..job };
        prop_assert!(used(&clear) >= this);
        let gap = Job { row_gap: job.row_gap + Length::from_um(wider / 100), ..job };
        prop_assert!(used(&gap) >= this);
    }

    #[test]
    fn every_freedom_to_turn_helps(job in any_job()) {
        let turned = |direction| used(&Job { direction, ..job });
        prop_assert!(turned(Direction::OneWay) >= turned(Direction::TwoWay));
        prop_assert!(turned(Direction::TwoWay) >= turned(Direction::FourWay));
        let across = Length::from_um(job.outline.width.um() / 3);
        let repeat = crate::shop::Repeat { across, along: Length::ZERO };
        let printed = Job { repeat, ..job };
        prop_assert!(used(&printed) >= turned(Direction::OneWay));
    }

    #[test]
    fn no_plan_gets_below_its_bound(job in any_job()) {
        let Ok(best) = best(&job) else { return Ok(()) };
        prop_assert!(best.used >= best.bound, "{} below {}", best.used, best.bound);
        prop_assert!(best.bound >= job.outline.drop.min(job.outline.width));
        prop_assert_eq!(Some(best.used), shortest(&job));
        // what is planned is plain rows, or the best where that is worth it
        let planned = plan(&job).expect("a plan");
        prop_assert_eq!(Some(planned.used), length(&job));
        prop_assert!(planned.bound == best.bound && planned.used >= best.used);
        let plain = |plan: &Plan| {
            plan.bands.iter().all(|b| matches!(b.kind, RowKind::PlainOneWay | RowKind::PlainTwoWay) && b.half_left == 0)
        };
        if plain(&planned) {
            // the rows that hold the pieces hold no fewer than the capacity says
            prop_assert_eq!(job.capacity(planned.used), u64::from(job.pieces) + u64::from(planned.room));
            let saved = planned.used - best.used;
            prop_assert!(saved < WORTH_LENGTH || saved.um() * WORTH_SHARE < planned.used.um());
        } else {
            prop_assert_eq!(planned, best);
        }
    }

    /// Beyond the pieces of a second block the search is still right by its coordinates.
    #[test]
    fn many_pieces_are_planned(job in any_job(), pieces in 100_u32..3_000) {
        let job = Job { pieces, ..job };
        let Ok(best) = best(&job) else { return Ok(()) };
        prop_assert_eq!(Some(best.used), shortest(&job));
        prop_assert!(best.steps >= u64::from(pieces) && best.used >= best.bound);
        if let Some(plain) = cover::plain(&rows::Cut::new(&job)) {
            prop_assert!(best.used.um() <= plain.used);
        }
    }
}
