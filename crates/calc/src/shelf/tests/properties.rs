//! What holds for every shelf.

use proptest::prelude::*;

use super::*;
use crate::cutting::{bought_length, whole_repeats};
use crate::shop::Shape;

fn outlines() -> impl Strategy<Value = Outline> {
    let shape = prop_oneof![
        Just(Shape::Triangle),
        Just(Shape::Triangle),
        Just(Shape::Blunt),
        Just(Shape::Swallowtail),
        Just(Shape::Shield),
        Just(Shape::Scallop),
        Just(Shape::Rectangle),
    ];
    (shape, 60_i64..=300, 60_i64..=300, 1_i64..=9).prop_map(|(shape, width, drop, share)| {
        let detail = match shape {
            Shape::Triangle | Shape::Rectangle => 0,
            Shape::Blunt => width * share / 10,
            Shape::Swallowtail | Shape::Shield => drop * share / 10,
            Shape::Scallop => (drop.min(width / 2) * share / 10).max(1),
        };
        Outline { shape, width: mm(width), drop: mm(drop), detail: mm(detail), flat: mm(0) }
    })
}

/// A need as a quote makes it: what is charged is the plan of the full width.
fn needs() -> impl Strategy<Value = Need> {
    let direction = prop_oneof![Just(Direction::OneWay), Just(Direction::TwoWay), Just(Direction::FourWay)];
    let spaces = (prop_oneof![Just(0), 0_i64..=20], prop_oneof![Just(0), 0_i64..=10]);
    let losses = (prop_oneof![Just(0), 0_i64..=12_000], prop_oneof![Just(0), 0_i64..=12_000]);
    let print = prop_oneof![4 => Just((0, 0)), 1 => (0_i64..=200, 0_i64..=200)];
    let lay = prop_oneof![
        3 => Just(Lay::Flat),
        1 => Just(Lay::FoldedAcross),
        1 => Just(Lay::FoldedAlong),
        1 => (2_u32..=5).prop_map(Lay::Stacked),
    ];
    let cut = (prop_oneof![Just(0), 10_i64..=40], prop_oneof![Just(0), Just(50), Just(100)], lay);
    (outlines(), direction, spaces, losses, print, cut, 500_i64..=1_500, 1_u32..=90).prop_map(
        |(outline, direction, (clear, gap), (across, along), print, (squaring, step, lay), width, pieces)| {
            let (shrink_across, shrink_along) = (Percent::from_milli(across), Percent::from_milli(along));
            let repeat = Repeat { across: mm(print.0), along: mm(print.1) };
            let start = if print.1 % 2 == 0 { repeat.across } else { mm(0) };
            let job = Job {
                cloth_width: washed(mm(width), shrink_across) - start,
                direction,
                outline,
                clearance: mm(clear),
                row_gap: mm(gap),
                repeat,
                pieces,
            };
            let printed = repeat != Repeat::default();
            let lay = match lay {
                Lay::FoldedAlong if printed || direction == Direction::OneWay => Lay::Flat,
                Lay::FoldedAcross if repeat.across > mm(0) => Lay::Flat,
                lay if lay.layers() > pieces => Lay::Flat,
                lay => lay,
            };
            // a fold may be too narrow, a centred print too wide
            let lay = if spread(&job, lay).is_some() { lay } else { Lay::Flat };
            let bought = bought_length(spread(&job, lay).unwrap_or(mm(0)), shrink_along);
            Need {
                job,
                lay,
                charged: charged(bought, mm(squaring), mm(step)),
                sold: Sold::Bolt { step: mm(step) },
                squaring: mm(squaring),
                start,
                shrink_across,
                shrink_along,
            }
        },
    )
}

/// What a lay takes of washed cloth, by the formula of a quote.
fn spread(job: &Job, lay: Lay) -> Option<Length> {
    let (width, lengths) = match lay {
        Lay::Flat => (job.cloth_width, 1),
        Lay::FoldedAcross => (um(job.cloth_width.um() / 2), 1),
        Lay::FoldedAlong | Lay::Stacked(_) => (job.cloth_width, i64::from(lay.layers())),
    };
    let each = length(&Job { cloth_width: width, pieces: job.pieces.div_ceil(lay.layers()), ..*job })?;
    Some(whole_repeats(each, job.repeat.along) * lengths + job.repeat.along)
}

fn stretches() -> impl Strategy<Value = Stretch> {
    let width = prop_oneof![1 => 80_i64..=1_500, 2 => Just(1_100), 1 => Just(1_500)];
    let length = prop_oneof![4 => 50_i64..=900, 1 => 900_i64..=20_000];
    (any::<bool>(), 0_usize..=3, width, length, 0_usize..=30).prop_map(
        |(remnant, lot, width, length, piece)| Stretch {
            piece,
            lot,
            remnant,
            width: mm(width),
            length: mm(length),
        },
    )
}

fn shelves() -> impl Strategy<Value = Vec<Stretch>> {
    prop::collection::vec(stretches(), 0..=9)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    /// Everything that `found` holds it against; and the same again.
    #[test]
    fn invariant_04_a_shelf_plan_can_be_cut_and_takes_no_more_than_is_charged(
        need in needs(),
        shelf in shelves(),
    ) {
        let plan = found(&need, &shelf);
        prop_assert_eq!(&plan, &super::super::plan(&need, &shelf).expect("a plan"));
        prop_assert!(plan.steps < 3_000_000, "{} steps", plan.steps);
    }

    #[test]
    fn the_fewest_lots_and_in_one_the_least_new_cloth(need in needs(), shelf in shelves()) {
        let plan = found(&need, &shelf);
        let mut alone = Vec::new();
        for lot in 0..=3 {
            let of_lot: Vec<Stretch> = shelf.iter().copied().filter(|stretch| stretch.lot == lot).collect();
            let of_lot = found(&need, &of_lot);
            if of_lot.missing == 0 {
                alone.push(of_lot);
            }
        }
        // what is cut in whole steps comes before what is cut to the micrometre
        let key = |plan: &ShelfPlan| (plan.new_cloth, plan.takes.len());
        if alone.is_empty() {
            // the fewest lots whose stretches together give everything
            let sets = (1_u32..16).filter(|set| {
                let of_set = shelf.iter().copied().filter(|stretch| set >> stretch.lot & 1 == 1);
                found(&need, &of_set.collect::<Vec<_>>()).missing == 0
            });
            match sets.map(u32::count_ones).min() {
                Some(fewest) => prop_assert_eq!((plan.missing, u32::try_from(plan.lots)), (0, Ok(fewest))),
                None => prop_assert!(plan.missing > 0),
            }
        } else {
            prop_assert_eq!((plan.missing, plan.lots), (0, 1));
            prop_assert!(alone.iter().any(|alone| key(alone) == key(&plan)));
        }
        if need.sold == (Sold::Bolt { step: mm(0) }) {
            prop_assert!(alone.iter().all(|alone| key(&plan) <= key(alone)));
        }
    }

    #[test]
    fn more_on_the_shelf_never_makes_more_missing(
        need in needs(),
        shelf in shelves(),
        more in stretches(),
        at in 0_usize..=9,
    ) {
        // a cut may not be dearer by the gap between rows than by its squaring
        let need = Need { job: Job { row_gap: mm(0), clearance: mm(0), ..need.job }, ..need };
        let before = found(&need, &shelf);
        let mut larger = shelf;
        larger.insert(at.min(larger.len()), more);
        let after = found(&need, &larger);
        prop_assert!(after.missing <= before.missing, "{before:?} {after:?}");
        prop_assert!(before.missing > 0 || after.lots <= before.lots);
    }

    /// The cloth of the need is at most as wide as the bolt.
    #[test]
    fn a_full_bolt_makes_it_whole_off_one_lot(need in needs(), shelf in shelves(), lot in 0_usize..=5) {
        prop_assume!(spread(&need.job, need.lay).is_some());
        let full = Stretch { length: need.charged, ..bolt(lot, 1_500, 0) };
        let plan = found(&need, &[&shelf[..], &[full]].concat());
        prop_assert_eq!((plan.missing, plan.lots), (0, 1));
    }

    /// Remnants and one bolt of one lot, in plain rows: every set of remnants tried.
    #[test]
    fn no_set_of_remnants_does_better(
        pieces in 1_u32..=80,
        remnants in prop::collection::vec((190_i64..=1_100, 100_i64..=900), 0..=6),
    ) {
        let need = charged_need(pieces, 1_100);
        let mut shelf: Vec<Stretch> = remnants.iter().map(|(width, length)| remnant(1, *width, *length)).collect();
        shelf.push(bolt(1, 1_100, 10_000));
        let plan = found(&need, &shelf);
        let holds = |(width, length): (i64, i64)| (1 + (width - 190) / 95) * ((length - 20).max(0) / 210);
        let mut best = (i64::MAX, usize::MAX, i64::MAX);
        for set in 0_u32..(1 << remnants.len()) {
            let chosen = || remnants.iter().zip(0..).filter(|(_, at)| set >> at & 1 == 1).map(|(one, _)| *one);
            let left = i64::from(pieces) - chosen().map(holds).sum::<i64>();
            let bolt = if left > 0 { ((left + 9) / 10 * 210 + 20 + 99) / 100 * 100 } else { 0 };
            let area = chosen().map(|(width, length)| width * length).sum();
            best = best.min((bolt, chosen().count() + usize::from(bolt > 0), area));
        }
        let cut_into = plan.takes.iter().filter_map(|take| remnants.get(take.stretch));
        let area: i64 = cut_into.map(|(width, length)| width * length).sum();
        prop_assert_eq!((plan.new_cloth.um() / 1_000, plan.takes.len(), area), best);
    }

    /// Short bolts of one width, to the micrometre: as many rows as there are within what is
    /// charged, each cut squared, the fewest cuts.
    #[test]
    fn no_set_of_bolts_does_better(pieces in 1_u32..=80, bolts in prop::collection::vec(100_i64..=900, 0..=6)) {
        let need = Need { sold: Sold::Bolt { step: um(1) }, ..charged_need(pieces, 1_100) };
        let shelf: Vec<Stretch> = bolts.iter().map(|length| bolt(1, 1_100, *length)).collect();
        let plan = found(&need, &shelf);
        let mut rows: Vec<i64> = bolts.iter().map(|length| (length - 20).max(0) / 210).collect();
        rows.sort_unstable();
        let (wanted, charged) = ((i64::from(pieces) + 9) / 10, need.charged.um() / 1_000);
        let (mut given, mut cuts) = (0, 0);
        // the longest first: a cut more costs its squaring
        for rows in rows.into_iter().rev() {
            let room = (charged - (cuts + 1) * 20) / 210 - given;
            let more = rows.min(wanted - given).min(room);
            if more > 0 {
                given += more;
                cuts += 1;
            }
        }
        prop_assert_eq!(i64::from(plan.missing), (i64::from(pieces) - given * 10).max(0));
        if plan.missing == 0 {
            let took = (plan.new_cloth.um() / 1_000, i64::try_from(plan.takes.len()).expect("few"));
            prop_assert_eq!(took, (wanted * 210 + cuts * 20, cuts));
        }
    }

    /// Whatever is asked there is an answer, however little sense it makes.
    #[test]
    fn no_figure_is_too_odd(
        odd in prop::collection::vec(prop_oneof![any::<i64>(), -5_i64..=5, 0_i64..=3_000_000], 24),
        pieces in prop_oneof![any::<u32>(), 0_u32..=50],
        (four, in_pieces, sane) in any::<(bool, bool, bool)>(),
        layers in any::<u32>(),
        outline in outlines(),
    ) {
        let at = |place: usize| um(odd[place]);
        let odd_one = Outline { width: at(0), drop: at(1), detail: at(2), flat: at(3), ..outline };
        let need = Need {
            job: Job {
                cloth_width: at(4),
                direction: if four { Direction::FourWay } else { Direction::TwoWay },
                outline: if sane { outline } else { odd_one },
                clearance: at(5),
                row_gap: at(6),
                repeat: Repeat { across: at(7), along: at(8) },
                pieces,
            },
            lay: Lay::Stacked(layers),
            charged: at(9),
            sold: if in_pieces { Sold::Pieces { length: at(10) } } else { Sold::Bolt { step: at(10) } },
            squaring: at(11),
            start: at(12),
            shrink_across: Percent::from_milli(odd[13] % 100_000),
            shrink_along: Percent::from_milli(odd[14] % 100_000),
        };
        let stretch = |place: usize| Stretch {
            piece: 0,
            lot: place % 2,
            remnant: place % 4 == 1,
            width: at(place),
            length: at(place + 1),
        };
        let shelf = [stretch(15), stretch(17), stretch(19), stretch(21)];
        if let Ok(plan) = super::super::plan(&need, &shelf) {
            for take in &plan.takes {
                prop_assert!(take.length <= shelf[take.stretch].length);
            }
            let rest = left(&shelf, &plan);
            prop_assert!(rest.iter().zip(&shelf).all(|(after, before)| after.length <= before.length));
        }
    }
}
