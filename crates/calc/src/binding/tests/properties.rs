use proptest::prelude::*;

use super::*;
use crate::binding::joins::{Pennants, Spot, Strings};
use crate::shop::{Join, Sold};

fn ends() -> impl Strategy<Value = EndCut> {
    prop::sample::select(vec![EndCut::Straight, EndCut::Mitred, EndCut::Slanted])
}

prop_compose! {
    fn joins()(ends in ends(), seam in 0_i64..=12, least_piece in 0_i64..=900, off_middle in 0_i64..=900) -> Join {
        Join { ends, seam: mm(seam), least_piece: mm(least_piece), off_middle: mm(off_middle) }
    }
}

prop_compose! {
    /// Whole numbers small enough to try every place.
    fn small()(
        (cut, count, first, width, gap) in (20_i128..400, 1_u32..12, 0_i128..60, 1_i128..40, -1_i128..30),
        (least, off_middle, denominator) in (0_i128..60, 0_i128..80, 1_i128..5),
    ) -> Strings {
        let pennants =
            Pennants { first: 2 * first + width, width, pitch: ((width + gap).max(1) * denominator + 1, denominator), count };
        Strings { cut, first: 0, count: 1, least, off_middle, pennants }
    }
}

/// Every place a join could go to, the good ones with how far they are off a pennant's
/// middle in half units, middles down.
fn tried(all: &Strings, from: i128, behind: Option<u32>, reach: i128) -> Vec<(i128, i128)> {
    let Pennants { first, width, pitch, count } = all.pennants;
    let mut good = Vec::new();
    for at in from + 1..=reach.min(all.cut - 1) {
        let long = at - from >= all.least && all.cut - at >= all.least;
        let off = (2 * at - all.cut).abs() >= 2 * all.off_middle;
        let middle = |place: u32| first + (2 * i128::from(place) * pitch.0).div_euclid(pitch.1);
        let over = (0..count)
            .filter(|place| Some(*place) > behind)
            .map(|place| (2 * at - middle(place)).abs())
            .min()
            .filter(|off| *off <= width);
        if let Some(over) = over.filter(|_| long && off) {
            good.push((over, at));
        }
    }
    good
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2_000))]

    /// Against trying every place.
    #[test]
    fn a_join_is_in_the_best_place(
        all in small(), from in 0_i128..300, more in 1_i128..300, behind in prop::option::of(0_u32..12),
    ) {
        // within the string, which goes on beyond its reach
        let from = from % (all.cut - 2);
        let more = more.min(all.cut - 1 - from);
        let reach = from + more;
        let good = tried(&all, from, behind, reach);
        let start = Spot { at: from, behind };
        let spot = all.spot(start, more);
        prop_assert!(from < spot.at && spot.at <= reach);
        prop_assert_eq!(all.good(start, more).is_some(), !good.is_empty());
        if let Some(least) = good.iter().map(|(off, _)| *off).min() {
            // a middle between two places is as good as one
            let least = least.max(1);
            let off = good.iter().find(|(_, at)| *at == spot.at).map(|(off, _)| *off);
            prop_assert!(off.is_some_and(|off| off <= least), "{:?} of {:?}", spot, good);
            // of equally good ones the one that cuts off least
            let last = good.iter().filter(|(off, _)| *off <= least).map(|(_, at)| *at).max();
            prop_assert!(least == 1 || last == Some(spot.at), "{:?} of {:?}", spot, good);
        }
    }

    /// Where a middle can be had, it is that of the last pennant that has one.
    #[test]
    fn the_last_middle_is_taken(
        cut in 3_000_i64..40_000, from in 0_i64..20_000, more in 1_i64..20_000, join in joins(),
    ) {
        let layout = string(mm(cut));
        let all = Strings::new(&layout, &join, 0, 1);
        let (from, reach) = (mm(from).wide(), mm(from + more).wide());
        let middles = layout.marks.iter().map(|mark| (mark.left_from_end + mark.right_from_end).wide() / 2);
        let good = middles.zip(0_u32..).filter(|(at, _)| {
            from + all.least.max(1) <= *at
                && *at <= reach.min(all.cut - all.least)
                && (2 * at - all.cut).abs() >= 2 * all.off_middle
        });
        if let Some((at, place)) = good.last() {
            let spot = all.spot(Spot { at: from, behind: None }, reach - from);
            prop_assert_eq!(spot, Spot { at, behind: Some(place) });
        }
    }

    #[test]
    fn the_fast_way_is_the_slow_way(
        cut in 1_i128..3_000, count in 0_u32..200, stock in 1_i128..20_000, loss in 0_i128..60,
        join in joins(),
    ) {
        prop_assume!(cut <= stock);
        let all = Strings { cut, first: 3, count, ..Strings::new(&string(mm(6_820)), &join, 3, count) };
        let fast = all.fill(stock, loss).expect("filled");
        let mut slow = all.fill_each(stock, loss).expect("filled");
        prop_assert_eq!(slow.joins, 0);
        slow.steps = fast.steps;
        if count == 0 {
            slow.last = 0;
        }
        prop_assert_eq!(fast, slow);
    }

    #[test]
    fn bought_bindings_add_up(
        cut in 1_000_i64..40_000, quantity in 1_u32..60, roll in 1_500_i64..50_000, price in 0_i64..3_000,
        own in prop::bool::ANY, offcuts in prop::collection::vec(0_i64..60_000, 0..6), join in joins(),
        shrink in 0_i64..12_000,
    ) {
        let mut shop = shop();
        shop.bench.join = join;
        shop.bindings[0].shrink = pennantry_measure::Percent::from_milli(shrink);
        shop.bindings[0].source = BindingSource::Bought {
            price: Rate::from_micro_minor(12_000_000),
            roll: Roll { length: mm(roll), price: own.then_some(Money::from_minor(price)) },
            offcuts: offcuts.into_iter().map(mm).collect(),
        };
        let layout = string(mm(cut));
        let made = |quantity| binding(&shop, &Order { quantity, ..order() }, &layout).expect("a binding");
        let used = made(quantity);
        let Supply::Bought { offcuts, rolls, whole_rolls, paid, .. } = &used.supply else { panic!("bought") };
        prop_assert_eq!(used.net, used.cut * i64::from(quantity));
        prop_assert!(used.taken >= used.net && *paid >= used.taken);
        prop_assert!(*whole_rolls || *paid == used.taken);
        // what is taken is there
        let stock: Length = offcuts.iter().copied().sum::<Length>() + mm(roll) * i64::from(*rolls);
        prop_assert!(stock + um(i64::from(quantity)) >= used.taken, "{} of {stock}", used.taken);
        // never dearer than by the metre
        let by_metre = Rate::from_micro_minor(12_000_000).per_metre(used.taken, Rounding::HalfUp);
        prop_assert!(used.cost <= by_metre);
        prop_assert_eq!(used.cost < by_metre, *whole_rolls);
        // one string more never takes or costs less
        let more = made(quantity + 1);
        let Supply::Bought { rolls: more_rolls, .. } = more.supply else { panic!("bought") };
        prop_assert!(more.taken > used.taken && more.joins >= used.joins && more_rolls >= *rolls);
        prop_assert!(more.cost >= used.cost);
        prop_assert_eq!(used.clone(), made(quantity));
    }

    /// Both pieces at every join are long enough, off the middle and hidden, or a notice
    /// says that they are not.
    #[test]
    fn joins_are_well_or_told(
        cut in 1_000_i64..60_000, quantity in 1_u32..8, roll in 400_i64..30_000, join in joins(),
    ) {
        let mut shop = shop();
        shop.bench.join = join;
        rolls_of(&mut shop).length = mm(roll);
        let layout = string(mm(cut));
        let used = binding(&shop, &Order { quantity, ..order() }, &layout).expect("a binding");
        let [mut shows, mut near, mut short] = [false; 3];
        let mut from = (0, mm(0));
        for place in used.places.iter().filter(|_| used.joins <= 400) {
            let left = if place.string == from.0 { from.1 } else { mm(0) };
            prop_assert!(left < place.at && place.at < mm(cut) && place.string < quantity);
            short |= place.at - left < join.least_piece || mm(cut) - place.at < join.least_piece;
            near |= (place.at * 2 - mm(cut)).abs() < join.off_middle * 2;
            shows |= place.behind.is_none();
            if let Some(behind) = place.behind {
                let left = layout.first.left_from_end
                    + um(i64::try_from(
                        divide(i128::from(behind) * layout.pitch.numerator, layout.pitch.denominator, Rounding::HalfUp),
                    ).expect("a length"));
                let right = left + layout.top_width;
                prop_assert!(left - um(2) <= place.at && place.at <= right + um(2), "{place:?} in {left} to {right}");
            }
            from = (place.string, place.at);
        }
        prop_assume!(used.joins <= 400);
        let said = |what: &str| used.notices.iter().any(|notice| notice.message.contains(what));
        prop_assert_eq!(shows, said("beside the pennants"));
        prop_assert_eq!(near, said("nearer to the middle"));
        prop_assert_eq!(short, said("a piece shorter"));
    }

    /// One piece more in every string than it has joins, and no piece longer than a roll.
    #[test]
    fn joins_are_pieces_less_strings(
        cut in 2_000_i64..30_000, quantity in 1_u32..20, roll in 1_000_i64..9_000, join in joins(),
    ) {
        let layout = string(mm(cut));
        let strings = Strings::new(&layout, &join, 0, quantity);
        let loss = join_loss(join.ends, mm(50), join.seam);
        let run = strings.fill(mm(roll).wide(), loss.wide()).expect("filled");
        prop_assert_eq!(run.joins, run.pieces - quantity);
        let stock = mm(roll).wide() * i128::from(run.opened);
        let taken = mm(cut).wide() * i128::from(quantity) + loss.wide() * i128::from(run.joins);
        prop_assert!(stock >= taken);
        prop_assert!(run.last <= mm(roll).wide());
        if cut > roll {
            // never fewer than the pieces of a ribbon
            let least = strips(mm(cut), mm(roll), loss).expect("strips");
            prop_assert!(run.pieces >= least * quantity);
        }
        if run.joins <= 400 {
            let mut from = (0, mm(0));
            for place in &run.places {
                let left = if place.string == from.0 { from.1 } else { mm(0) };
                prop_assert!(place.at - left + loss <= mm(roll));
                from = (place.string, place.at);
            }
        }
    }

    #[test]
    fn a_spiral_is_whole_turns_within_its_bound(
        side in 1_i64..3_000_000, raw in 1_i64..200_000, seam in 0_i64..20_000,
    ) {
        let (turns, length) = spiral(um(side), um(raw), um(seam));
        prop_assert!(length <= continuous_length(um(side), um(raw), um(seam)));
        let clear = i128::from((side - 2 * seam).max(0));
        let square = |k: u32| 2 * i128::from(k) * i128::from(k) * i128::from(raw) * i128::from(raw);
        prop_assert!(square(turns) <= clear * clear);
        prop_assert!(clear == 0 || square(turns + 1) > clear * clear);
        // one more is too long
        let exact = 2 * i128::from(turns) * i128::from(turns) * clear * clear;
        prop_assert!(length.wide() * length.wide() <= exact);
        prop_assert!((length.wide() + 1) * (length.wide() + 1) > exact);
    }

    #[test]
    fn the_side_of_a_spiral_is_the_least(
        length in 1_i64..50_000_000, raw in 1_000_i64..200_000, seam in 0_i64..20_000,
    ) {
        let side = spiral_side(um(length), um(raw), um(seam));
        prop_assert!(spiral(side, um(raw), um(seam)).1 >= um(length));
        prop_assert!(spiral(side - um(1), um(raw), um(seam)).1 < um(length));
        prop_assert!(side >= continuous_side(um(length), um(raw), um(seam)));
    }

    #[test]
    fn strips_are_the_fewest(needed in 1_i64..900_000, usable in 1_i64..30_000, loss in 0_i64..30_000) {
        match strips(um(needed), um(usable), um(loss)) {
            Some(count) => {
                prop_assert!(joined(count, um(usable), um(loss)) >= um(needed));
                prop_assert!(count == 1 || joined(count - 1, um(usable), um(loss)) < um(needed));
            }
            None => prop_assert!(usable <= loss && usable < needed),
        }
    }

    #[test]
    fn bindings_from_cloth_add_up(
        cut in 300_i64..20_000, quantity in 1_u32..40, raw in 20_i64..80, width in 500_i64..1_500,
        pieces in prop::option::of(300_i64..1_200), wash in (0_i64..10_000, 0_i64..10_000), bias in prop::bool::ANY,
        join in joins(),
    ) {
        let mut shop = shop();
        shop.bench.join = join;
        let cloth = &mut shop.fabrics[1];
        cloth.usable_width = mm(width);
        cloth.shrink_across = pennantry_measure::Percent::from_milli(wash.0);
        cloth.shrink_along = pennantry_measure::Percent::from_milli(wash.1);
        if let Some(length) = pieces {
            cloth.sold = Sold::Pieces { length: mm(length) };
        }
        let grain = if bias { StripGrain::Bias } else { StripGrain::Straight };
        shop.bindings[0].source = BindingSource::Cloth { fabric: 1, raw: mm(raw), grain };
        let layout = string(mm(cut));
        let made = |quantity| binding(&shop, &Order { quantity, ..order() }, &layout).expect("a binding");
        let (used, more) = (made(quantity), made(quantity + 1));
        prop_assert!(used.taken >= used.net && more.taken > used.taken);
        prop_assert!(more.joins >= used.joins && more.cost >= used.cost);
        prop_assert_eq!(used.clone(), made(quantity));
        match used.supply {
            Supply::Straight { strips: count, raw, charged, .. } => {
                let room = after_wash(mm(width), shop.fabrics[1].shrink_across) * i64::from(count);
                prop_assert!(room >= used.taken);
                prop_assert!(count >= quantity.min(strips(used.taken, room, mm(0)).unwrap_or(1)));
                prop_assert!(charged >= raw * i64::from(count) || pieces.is_some());
                prop_assert_eq!(used.taken, used.net + used.join_loss * i64::from(used.joins));
            }
            Supply::Bias { squares, side, turns, last, yields, bound, charged, .. } => {
                prop_assert!(used.taken <= yields && yields <= bound);
                prop_assert!(side <= after_wash(mm(width), shop.fabrics[1].shrink_across));
                let (small, small_turns) = last.map_or((side, turns), |last| (last.side, last.turns));
                prop_assert!(small <= side);
                let sides = side * i64::from(squares - 1) + small;
                prop_assert!(charged >= sides || pieces.is_some());
                if let Some(length) = pieces {
                    let fit = i64::from(squares) * mm(length).um();
                    prop_assert!(charged.um() % mm(length).um() == 0 && charged.um() <= fit && charged >= sides);
                }
                // re-derived from what is told
                let (again, full) = spiral(side, mm(raw), join.seam);
                let (small_again, rest) = spiral(small, mm(raw), join.seam);
                prop_assert_eq!((again, small_again), (turns, small_turns));
                prop_assert_eq!(yields, full * i64::from(squares - 1) + rest);
            }
            Supply::Bought { .. } => prop_assert!(false),
        }
    }
}
