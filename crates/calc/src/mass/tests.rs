use pennantry_measure::Money;
use proptest::prelude::*;

use super::*;
use crate::fixture::{mm, order, shop, um};
use crate::shop::Sundry;
use crate::table::{millionths, rows};

const TABLE: &str = include_str!("../../tables/mass.csv");

fn mg(mg: i64) -> Mass {
    Mass::from_mg(mg)
}

fn used(kind: UsedKind, mass: i64, packing: bool) -> Used {
    Used { kind, count: 1, cost: Money::ZERO, mass: mg(mass), packing }
}

/// Square millimetres.
fn mm2(mm2: i128) -> Area {
    Area::from_um2(mm2 * 1_000_000)
}

fn of(masses: &Masses, kind: PartKind) -> Mass {
    masses.parts.iter().filter(|part| part.kind == kind).map(|part| part.mass).sum()
}

/// 1 m² of 185 g/m² that loses 3 % and 5 % is cut after the wash: 185 / (0.97 · 0.95) =
/// 200.760 g (derived).
#[test]
fn washed_cloth_is_heavier() {
    let mut shop = crate::fixture::shop();
    shop.fabrics[0].mass = MassPerArea::from_mg_per_m2(185_000);
    let of = |shop: &crate::shop::Shop| of_washed(&shop.fabrics[0], 1_000_000_000_000).mg();
    assert_eq!(of(&shop), 185_000);
    shop.fabrics[0].shrink_across = Percent::from_milli(3_000);
    shop.fabrics[0].shrink_along = Percent::from_milli(5_000);
    assert_eq!(of(&shop), 200_760);
}

#[test]
fn the_table_of_masses_is_met() {
    let all = rows(TABLE, ["id", "function", "amount", "other", "expected", "tolerance", "source", "grade"]);
    for [id, function, amount, other, expected, tolerance, source, grade] in &all {
        // grams, square metres, millimetres and percent in thousandths
        let milli = |text: &str| {
            let millionths = millionths(text);
            assert_eq!(millionths % 1_000, 0, "{id}: {text} is finer than a thousandth");
            millionths / 1_000
        };
        let per_m2 = || MassPerArea::from_mg_per_m2(milli(amount));
        let (least, most) = match function.as_str() {
            "least" | "most" => spread(mg(milli(amount)), Percent::from_milli(milli(other))),
            _ => (Mass::ZERO, Mass::ZERO),
        };
        // in millionths of what the table says
        let got = match function.as_str() {
            "ounces" => from_ounces(milli(amount)).mg_per_m2() * 1_000,
            "jute_ounces" => from_jute_ounces(milli(amount)).mg_per_m2() * 1_000,
            "to_ounces" => to_ounces(per_m2()) * 1_000,
            "running_metre" => per_running_metre(per_m2(), um(milli(other))).ug_per_m(),
            "least" => least.mg() * 1_000,
            "most" => most.mg() * 1_000,
            "binding" => {
                let mut shop = shop();
                shop.bindings[0].mass = MassPerLength::from_ug_per_m(millionths(amount));
                let all = masses(&shop, &order(), &[], um(millionths(other)), Mass::ZERO, &[]);
                all.net.mg() * 1_000
            }
            "cloth" => {
                let mut shop = shop();
                shop.fabrics[1].mass = per_m2();
                let area = Area::from_um2(i128::from(millionths(other)));
                masses(&shop, &order(), &[(1, area)], mm(0), Mass::ZERO, &[]).net.mg() * 1_000
            }
            other => panic!("{id}: no function {other}"),
        };
        let off = (got - millionths(expected)).abs();
        assert!(off <= millionths(tolerance), "{id}: {got} millionths, expected {expected}");
        assert!(!source.is_empty() && !grade.is_empty(), "{id}: no source");
    }
    assert_eq!(all.len(), 23, "rows of the table");
}

/// Derived by hand. Cloth: 10, 10 and 9 triangles of 19 950 mm² at 140 g/m², 2.793 g a
/// piece: 27.93, 27.93 and 25.137 g. Binding: 6.82 · 6.0 = 40.92 g. Together 121.917 g;
/// with 8 g of bag 129.917. By ± 5 % of the materials 6.096 (6.09585) less or more.
#[test]
fn the_story_weighs_what_it_does_by_hand() {
    let areas = [(0, mm2(199_500)), (1, mm2(199_500)), (2, mm2(179_550))];
    let bag = used(UsedKind::Sundry(0), 8_000, true);
    let story = masses(&shop(), &order(), &areas, mm(6_820), Mass::ZERO, &[bag]);
    let parts: Vec<_> = story.parts.iter().map(|part| (part.kind, part.mass.mg())).collect();
    let expected = [
        (PartKind::Cloth(0), 27_930),
        (PartKind::Cloth(1), 27_930),
        (PartKind::Cloth(2), 25_137),
        (PartKind::Binding, 40_920),
        (PartKind::Thread, 0),
    ];
    assert_eq!(parts, expected);
    assert_eq!((story.net, story.packing, story.packed), (mg(121_917), mg(8_000), mg(129_917)));
    assert_eq!((story.least, story.most), (mg(129_917 - 6_096), mg(129_917 + 6_096)));
}

#[test]
fn a_fabric_named_twice_is_weighed_once() {
    // twice 5 mm² of 100 mg/m² are 0.001 mg, twice half a milligram is one, not two
    let mut shop = shop();
    shop.fabrics[0].mass = MassPerArea::from_mg_per_m2(100_000);
    let area = mm2(5);
    let all = masses(&shop, &order(), &[(0, area), (2, area), (0, area)], mm(0), mg(3), &[]);
    assert_eq!(of(&all, PartKind::Cloth(0)), mg(1));
    assert_eq!(all.parts.iter().filter(|part| part.kind == PartKind::Cloth(0)).count(), 1);
    assert_eq!(of(&all, PartKind::Thread), mg(3));
}

#[test]
fn what_only_packs_is_no_part_of_the_net_mass() {
    let things = [
        used(UsedKind::Sundry(0), 8_000, true),
        used(UsedKind::Sundry(1), 500, false),
        used(UsedKind::Trimming(0), 1_200, false),
        used(UsedKind::Trimming(1), 70, true),
    ];
    let mut shop = shop();
    shop.sundries.push(Sundry { packing: false, ..shop.sundries[0].clone() });
    let all = masses(&shop, &order(), &[], mm(0), mg(10), &things);
    assert_eq!((all.net, all.packing, all.packed), (mg(1_710), mg(8_070), mg(9_780)));
    assert_eq!(of(&all, PartKind::Sundry(1)), mg(500));
    assert_eq!(of(&all, PartKind::Trimming(0)), mg(1_200));
    assert_eq!(of(&all, PartKind::Sundry(0)), mg(0));
    // without cloth and binding there is nothing that may be off
    assert_eq!((all.least, all.most), (all.packed, all.packed));
}

#[test]
fn places_that_are_not_there_weigh_nothing() {
    let mut order = order();
    order.binding = 99;
    let all = masses(&shop(), &order, &[(99, mm2(1_000_000))], mm(5_000), Mass::ZERO, &[]);
    assert_eq!((all.net, all.most), (Mass::ZERO, Mass::ZERO));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(1_000))]

    #[test]
    fn parts_add_up_and_the_tolerance_lies_about(
        areas in prop::collection::vec((0_usize..3, 0_i128..10_000_000_000_000), 0..6),
        binding in 0_i64..2_000_000_000,
        thread in 0_i64..100_000,
        things in prop::collection::vec((0_i64..1_000_000, any::<bool>()), 0..6),
        tolerance in 0_i64..=100_000,
    ) {
        let mut shop = shop();
        shop.folding.mass_tolerance = Percent::from_milli(tolerance);
        let areas: Vec<_> = areas.into_iter().map(|(place, area)| (place, Area::from_um2(area))).collect();
        let things: Vec<_> =
            things.into_iter().map(|(mass, packing)| used(UsedKind::Sundry(0), mass, packing)).collect();
        let all = masses(&shop, &order(), &areas, um(binding), mg(thread), &things);
        prop_assert_eq!(all.parts.iter().map(|part| part.mass).sum::<Mass>(), all.net);
        prop_assert_eq!(all.net + all.packing, all.packed);
        prop_assert_eq!(all.net + all.packing, things.iter().map(|thing| thing.mass).sum::<Mass>()
            + mg(thread) + of(&all, PartKind::Binding)
            + (0..3).map(|place| of(&all, PartKind::Cloth(place))).sum::<Mass>());
        prop_assert!(all.least <= all.packed && all.packed <= all.most);
        // as far below as above, but for a rounding each way
        let (below, above) = ((all.packed - all.least).mg(), (all.most - all.packed).mg());
        prop_assert!((below - above).abs() <= 1, "{} {}", below, above);
    }

    #[test]
    fn ounces_come_back(milli in 0_i64..100_000) {
        prop_assert!((to_ounces(from_ounces(milli)) - milli).abs() <= 1);
        // by the other trade's reading the same number is less
        prop_assert!(from_jute_ounces(milli) <= from_ounces(milli));
    }
}
