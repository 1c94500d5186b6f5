//! What holds of any order: unknown is never harmless, and higher is never worse.

use pennantry_measure::Percent;
use proptest::prelude::*;

use super::*;
use crate::shop::{Cord, Filling};

fn lengths(least: i64, most: i64) -> impl Strategy<Value = Length> {
    (least * 1_000..=most * 1_000).prop_map(Length::from_um)
}

fn near() -> impl Strategy<Value = Near> {
    let places = prop::sample::select(vec![
        None,
        Some(Place::ChildRoom),
        Some(Place::Home),
        Some(Place::Childcare),
        Some(Place::Venue),
        Some(Place::Outdoors),
    ]);
    (
        prop::sample::select(vec![None, Some(Who::NoChild), Some(Who::Child), Some(Who::Child)]),
        prop::option::of(0_u32..=216),
        places,
        prop::option::of(lengths(0, 4_000)),
        prop::option::of(1_u32..=12),
        prop::option::of(0_u32..=100),
        prop::option::of(lengths(0, 3_000)),
        prop::sample::subsequence(Jurisdiction::ALL.to_vec(), 0..=5),
    )
        .prop_map(
            |(who, youngest_months, place, fixing_height, fixings, span, cot_distance, jurisdictions)| {
                Near {
                    who,
                    youngest_months,
                    place,
                    fixing_height,
                    fixings,
                    // a share of the string, put right below
                    span: span.map(|share| Length::from_um(i64::from(share))),
                    cot_distance,
                    jurisdictions,
                    ..Near::default()
                }
            },
        )
}

fn end() -> impl Strategy<Value = End> {
    let looped =
        (prop::option::of(lengths(10, 600)), prop::option::of(any::<bool>()), prop::option::of(10_u32..=400))
            .prop_map(|(perimeter, slips, breakaway)| End {
                style: EndStyle::Loop,
                perimeter,
                slips,
                breakaway: breakaway.map(Force::from_tenths),
                ..End::default()
            });
    let tied = (prop::option::of(lengths(10, 400)), prop::option::of(lengths(10, 400)), lengths(0, 100))
        .prop_map(|(tie, second_tie, ties_apart)| End {
            style: EndStyle::Tie,
            tie,
            second_tie,
            ties_apart,
            ..End::default()
        });
    (prop_oneof![Just(End::default()), looped, tied], prop::option::of(0_usize..1))
        .prop_map(|(end, trimming)| End { trimming, ..end })
}

fn a_part() -> impl Strategy<Value = Part> {
    (
        prop::sample::select(vec![PartKind::Hard, PartKind::Textile, PartKind::Pompom, PartKind::Ball]),
        lengths(2, 60),
        prop::option::of(any::<bool>()),
        prop::sample::select(vec![Fixed::Loose, Fixed::Glued, Fixed::Sewn]),
        prop::option::of(10_u32..=1_200),
        lengths(0, 60),
        any::<bool>(),
    )
        .prop_map(|(kind, largest, fits_cylinder, fixed, pull, hangs, play)| Part {
            kind,
            largest,
            fits_cylinder,
            fixed,
            pull: pull.map(Force::from_tenths),
            hangs,
            play: play && largest > mm(40),
        })
}

fn shop_and_order() -> impl Strategy<Value = (Shop, Order)> {
    let cords = prop_oneof![
        Just(Cord::Tape),
        lengths(1, 3).prop_map(|thickness| Cord::Round { thickness }),
        (lengths(1, 3), 1_i64..=150).prop_map(|(thickness, percent)| Cord::Elastic {
            thickness,
            stretch: Percent::from_milli(percent * 1_000)
        }),
    ];
    let filling = prop::option::of(prop::option::of(100_u32..=1_000));
    (near(), [end(), end()], a_part(), cords, filling, lengths(50, 1_000), lengths(0, 400), any::<bool>())
        .prop_map(|(near, ends, part, cord, filling, width, tail, sewn_on)| {
            let mut shop = shop();
            let mut order = small(&mut shop);
            shop.bindings[0].cord = cord;
            shop.designs[0].filling = filling.map(|seam| Filling { seam: seam.map(Force::from_tenths) });
            shop.trimmings = vec![trimmed(part)];
            order.trimmings = if sewn_on { vec![(0, 1)] } else { Vec::new() };
            (order.ends, order.width, order.tail) = (ends, width, tail);
            order.near = near;
            order.near.span = order.near.span.map(|share| Length::from_um(width.um() * share.um() / 100));
            (shop, order)
        })
}

fn outcome(shop: &Shop, order: &Order) -> Outcome {
    found(shop, order).outcome
}

/// The same order with one thing less known; nothing where that is known to be harmful.
fn less_known(shop: &Shop, order: &Order, what: u32) -> Option<(Shop, Order)> {
    let (mut shop, mut order) = (shop.clone(), order.clone());
    let near = &mut order.near;
    match what {
        0 => near.who = if near.who == Some(Who::NoChild) { None } else { return None },
        // a child's room belies that no child is near
        1 => near.place = if near.who == Some(Who::NoChild) { return None } else { None },
        2 => near.fixing_height = None,
        3 => near.fixings = if near.fixings? >= 2 { None } else { return None },
        4 => near.span = None,
        // a distance to a cot belies that no child is near
        5 => {
            let harmless = near.cot_distance? >= mm(1_000) && near.who != Some(Who::NoChild);
            near.cot_distance = if harmless { None } else { return None };
        }
        // an age belies that no child is near
        6 => {
            let harmless = near.youngest_months? < 18 && near.who != Some(Who::NoChild);
            near.youngest_months = if harmless { None } else { return None };
        }
        7 => order.ends[0].slips = if order.ends[0].slips == Some(true) { return None } else { None },
        8 => order.ends[0].perimeter = None,
        9 => order.ends[0].breakaway = None,
        10 => shop.trimmings[0].part.pull = None,
        11 => shop.trimmings[0].part.fits_cylinder = None,
        _ => shop.designs[0].filling.as_mut()?.seam = None,
    }
    Some((shop, order))
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(1_500))]

    #[test]
    fn invariant_06_unknown_is_never_better_than_known((shop, order) in shop_and_order(), what in 0_u32..13) {
        if let Some((less_shop, less)) = less_known(&shop, &order, what) {
            let before = outcome(&shop, &order);
            let after = outcome(&less_shop, &less);
            // while nothing at all is told there is one question, whatever the string
            prop_assert!(after >= before || after == Outcome::Ask && rules(&found(&less_shop, &less)).len() == 1,
                "{what}: {before:?} became {after:?}");
            // no child told, and then nothing: a question
            prop_assert!(what != 0 || after >= Outcome::Ask);
        }
    }

    #[test]
    fn higher_and_on_more_fixings_is_never_worse((shop, order) in shop_and_order(), by in lengths(0, 2_000)) {
        let before = outcome(&shop, &order);
        if let Some(height) = order.near.fixing_height {
            let near = Near { fixing_height: Some(height + by), ..order.near.clone() };
            let after = outcome(&shop, &Order { near, ..order.clone() });
            prop_assert!(after <= before);
        }
        if let Some(fixings) = order.near.fixings {
            let near = Near { fixings: Some(fixings + 1), ..order.near.clone() };
            let after = outcome(&shop, &Order { near, ..order.clone() });
            prop_assert!(after <= before);
        }
    }

    #[test]
    fn the_worst_stands_and_comes_first((shop, order) in shop_and_order()) {
        let found = found(&shop, &order);
        let worst = found.findings.iter().map(|finding| finding.outcome).max();
        prop_assert_eq!(found.outcome, worst.unwrap_or(Outcome::NothingFound));
        prop_assert!(found.findings.is_sorted_by_key(|finding| std::cmp::Reverse(finding.outcome)));
        // nothing is found only where the buyer said that no child is near, or the child is older
        if found.outcome == Outcome::NothingFound {
            let older = order.near.youngest_months.is_some_and(|months| months >= 36);
            prop_assert!(older || order.near.who == Some(Who::NoChild));
        }
        for finding in &found.findings {
            let texts = [&finding.text, &finding.measured, &finding.limit, &finding.remedy];
            prop_assert!(texts.iter().all(|text| !text.is_empty()), "{finding:?}");
        }
    }
}
