use pennantry_measure::{MassPerLength, Rate};
use proptest::prelude::*;

use super::*;
use crate::cutting;
use crate::fixture::{mm, order, shop, um};
use crate::layout;
use crate::order::AskedLength;
use crate::shop::{Letters, Shape};
use crate::table::{length_um, millionths, rows};

const TABLE: &str = include_str!("../../tables/thread.csv");

/// 1 string of 29 pennants, 190 x 210: flagged 6.2 m, overall 6.8 m.
fn story() -> Order {
    Order { length: Some(AskedLength::Flagged(mm(6_200))), ..order() }
}

/// The thread of an order at a shop, its pennants hung in these fabrics.
fn hung(shop: &Shop, order: &Order, per_fabric: &[(usize, u32)]) -> ThreadUse {
    let one = Order { quantity: 1, ..order.clone() };
    let layout = layout::solve(shop, &one).expect("a layout");
    let finished = layout.finished(order.shape);
    // one cloth plan will do, whatever the shape and the quantity
    let plain = Finished { shape: Shape::Triangle, width: mm(190), drop: mm(210), detail: mm(0) };
    let cut = Order { construction: Construction::SinglePinked, ..one };
    let cloth = cutting::cloth(shop, &cut, &plain, per_fabric).expect("cloth");
    thread(shop, order, &layout, &finished, &cloth)
}

fn of(shop: &Shop, order: &Order) -> ThreadUse {
    hung(shop, order, &[(0, 10), (1, 10), (2, 9)])
}

fn seam(used: &ThreadUse, kind: SeamKind) -> Option<SeamUse> {
    used.seams.iter().find(|seam| seam.kind == kind).copied()
}

fn letters(text: &str) -> Vec<Option<String>> {
    text.chars().map(|letter| (letter != ' ').then(|| letter.to_string())).collect()
}

#[test]
fn the_table_of_thread_is_met() {
    let columns = [
        "id",
        "function",
        "unit",
        "seam",
        "thickness",
        "stitch",
        "other",
        "expected",
        "tolerance",
        "source",
        "grade",
    ];
    let all = rows(TABLE, columns);
    for [id, function, unit, seam, thickness, stitch, other, expected, tolerance, source, grade] in &all {
        let read = |text: &str| um(length_um(text, unit));
        let number = |text: &str| text.parse::<u32>().unwrap_or_else(|_| panic!("{id}: no number {text}"));
        let in_seam = || thread_in(read(seam), read(thickness), read(stitch)).um();
        // a tex is a gram a kilometre, a thousand micrograms a metre
        let tex = |mass: MassPerLength| mass.ug_per_m() * 1_000;
        let (got, wanted, within) = match function.as_str() {
            "tex_of_ticket" => {
                (tex(tex_of_ticket(number(other))), millionths(expected), millionths(tolerance))
            }
            "tickets_of_count" => {
                let (count, plies) = other.split_once('/').expect("a count and plies");
                let (count, ticket) = (tex_of_count(number(count), number(plies)), number(expected));
                (tex(count), tex(tex_of_ticket(ticket)), 0)
            }
            "stitches" => {
                let stitches = stitches(read(seam), read(stitch));
                (i64::try_from(stitches).expect("a count"), number(expected).into(), 0)
            }
            "thread_in" => (in_seam(), read(expected).um(), read(tolerance).um()),
            "half" => (in_seam() / 2, read(expected).um(), read(tolerance).um()),
            "with_waste" => {
                let waste = Percent::from_milli(millionths(other) / 1_000);
                (with_waste(read(seam), waste).um(), read(expected).um(), read(tolerance).um())
            }
            "below_top" => {
                let (width, drop) = (read(seam), read(thickness));
                let pennant = Finished { shape: Shape::Triangle, width, drop, detail: Length::ZERO };
                (pennant.below_top().um(), read(expected).um(), read(tolerance).um())
            }
            other => panic!("{id}: no function {other}"),
        };
        assert!((got - wanted).abs() <= within, "{id}: {got}, expected {wanted} within {within}");
        assert!(!source.is_empty() && !grade.is_empty(), "{id}: no source");
    }
    assert_eq!(all.len(), 41, "rows of the table");
}

/// By hand (derived). Tops 29 x 190 = 5 510 through 4 x 0.2 + 0.25 = 1.05, the rest of
/// 6 800 through 0.8: 5 510 x 2.84 = 15 648.4 and 1 290 x 2.64 = 3 405.6, together
/// 19 054. With 15 % 21 912.1, and two tails of 200: 22 312.1. 19.054 m of tex 27 are
/// 0.514 g; a penny a metre is 22.
#[test]
fn the_story_is_sewn_as_by_hand() {
    let used = of(&shop(), &story());
    let alone = SeamUse {
        kind: SeamKind::BindingAlone,
        seam: mm(1_290),
        thickness: um(800),
        thread: um(3_405_600),
        stitches: 516,
    };
    let over = SeamUse {
        kind: SeamKind::BindingOverPennants,
        seam: mm(5_510),
        thickness: um(1_050),
        thread: um(15_648_400),
        stitches: 2_204,
    };
    assert_eq!(used.seams, [alone, over]);
    assert_eq!(used.length, um(22_312_100));
    assert_eq!((used.mass, used.cost), (Mass::from_mg(514), Money::from_minor(22)));
}

/// 25 turned pennants of 160 x 200 on 5.6 m: sides of 10.770 m and a topstitch of 5.6 m,
/// 16.370 m of seam (derived). The sides are 10.770 33 m, so the stitches, each seam up,
/// are one more than the 6 548 of the rounded length, and another for the seam that is cut
/// at each pennant's edge.
#[test]
fn twenty_five_turned_pennants_take_their_seams() {
    let order = Order {
        length: Some(AskedLength::Overall(mm(5_600))),
        count: Some(25),
        width: mm(160),
        drop: mm(200),
        gap: mm(40),
        gap_given: true,
        construction: Construction::DoubleTurned,
        ..order()
    };
    let used = of(&shop(), &order);
    let sides = seam(&used, SeamKind::Sides).expect("sides");
    assert_eq!((sides.seam, sides.thickness), (um(25 * 430_814), um(500)));
    assert_eq!(sides.stitches, 4_309);
    let total: Length = used.seams.iter().map(|seam| seam.seam).sum();
    assert_eq!(divide(total.wide(), 1_000, Rounding::HalfUp), 16_370);
    let thickness: Vec<_> = used.seams.iter().map(|seam| (seam.kind, seam.thickness)).collect();
    // 4 of the binding, and 2 of cloth more where a pennant is
    assert_eq!(
        thickness[..2],
        [(SeamKind::BindingAlone, um(800)), (SeamKind::BindingOverPennants, um(1_300))]
    );
    // tails of one row and of 25 pennants
    let sewn: Length = used.seams.iter().map(|seam| seam.thread).sum();
    let wasted = with_waste(sewn, shop().bench.thread.waste);
    assert_eq!(used.length, wasted + mm(200) * 2 * 26);
}

#[test]
fn sides_are_sewn_where_two_layers_are_sewn_together() {
    let mut shop = shop();
    for construction in [
        Construction::SinglePinked,
        Construction::SinglePlain,
        Construction::DoubleTurned,
        Construction::DoublePinked,
        Construction::DoubleFused,
    ] {
        let method = shop.methods[0].clone();
        shop.methods.push(crate::shop::Method { construction, ..method });
        let used = of(&shop, &Order { construction, ..story() });
        let sewn = matches!(construction, Construction::DoubleTurned | Construction::DoublePinked);
        assert_eq!(seam(&used, SeamKind::Sides).is_some(), sewn, "{construction:?}");
        let over = seam(&used, SeamKind::BindingOverPennants).expect("tops");
        assert_eq!(over.thickness, um(800 + 250 * i64::from(construction.layers())));
    }
}

#[test]
fn a_web_that_fuses_is_sewn_through() {
    let mut shop = shop();
    let web = crate::shop::Fabric { thickness: um(90), ..shop.fabrics[0].clone() };
    shop.fabrics.push(web);
    shop.methods[0].construction = Construction::DoubleFused;
    shop.methods[0].web = Some(3);
    let fused = Order { construction: Construction::DoubleFused, ..story() };
    let layout = layout::solve(&shop, &fused).expect("a layout");
    let cloth = cutting::cloth(&shop, &fused, &layout.finished(Shape::Triangle), &[(0, 29)]).expect("cloth");
    let used = thread(&shop, &fused, &layout, &layout.finished(Shape::Triangle), &cloth);
    assert_eq!(seam(&used, SeamKind::BindingOverPennants).map(|s| s.thickness), Some(um(800 + 500 + 90)));
    // a method for another construction may name a web that is not there
    let single = Order { construction: Construction::SinglePinked, ..fused };
    let used = thread(&shop, &single, &layout, &layout.finished(Shape::Triangle), &cloth);
    assert_eq!(seam(&used, SeamKind::BindingOverPennants).map(|s| s.thickness), Some(um(800 + 250)));
}

/// 7 letters of 48 % of 210, four heights of stitching round each: 403.2 each.
#[test]
fn letters_are_sewn_round_and_spaces_are_not() {
    let mut shop = shop();
    let lettered = Order { letters: letters("KATE MAY"), quantity: 2, ..story() };
    let used = of(&shop, &lettered);
    let sewn = seam(&used, SeamKind::Letters).expect("letters");
    assert_eq!((sewn.seam, sewn.thickness), (um(14 * 403_200), um(500)));
    assert_eq!(sewn.thread, um(14 * 403_200 * 24 / 10));
    // each is a start and an end: 2 x 2 of the rows, 2 x 14 of the letters
    let plain = of(&shop, &Order { quantity: 2, ..story() });
    assert_eq!(used.length - plain.length, with_waste(sewn.thread, shop.bench.thread.waste) + mm(200) * 28);

    // a web under them, thick cloth, another height
    let web = crate::shop::Fabric { thickness: um(90), ..shop.fabrics[0].clone() };
    shop.fabrics.push(web);
    shop.fabrics[2].thickness = um(900);
    let usual = shop.letters.expect("letters");
    shop.letters = Some(Letters { web: Some(3), height: Percent::from_milli(33_333), ..usual });
    let sewn = seam(&hung(&shop, &lettered, &[(0, 29)]), SeamKind::Letters).expect("letters");
    // 210 000 x 0.33333 x 4 = 279 997.2, up
    assert_eq!((sewn.seam, sewn.thickness), (um(14 * 279_998), um(250 + 900 + 90)));

    shop.letters = None;
    assert_eq!(seam(&of(&shop, &lettered), SeamKind::Letters), None);
}

#[test]
fn the_thickest_that_hangs_counts_and_no_other() {
    let mut shop = shop();
    shop.fabrics[1].thickness = um(700);
    let over = |per_fabric: &[(usize, u32)]| {
        let used = hung(&shop, &story(), per_fabric);
        seam(&used, SeamKind::BindingOverPennants).expect("tops").thickness
    };
    assert_eq!(over(&[(0, 20), (2, 9)]), um(800 + 250));
    assert_eq!(over(&[(0, 28), (1, 1)]), um(800 + 700));

    // letters and webs are no pennants
    let layout = layout::solve(&shop, &story()).expect("a layout");
    let finished = layout.finished(Shape::Triangle);
    let mut cloth = cutting::cloth(&shop, &story(), &finished, &[(0, 20), (1, 9)]).expect("cloth");
    for role in [Role::Letters, Role::Web] {
        cloth[1].role = role;
        let used = thread(&shop, &story(), &layout, &finished, &cloth);
        assert_eq!(seam(&used, SeamKind::BindingOverPennants).map(|s| s.thickness), Some(um(800 + 250)));
    }
}

#[test]
fn tops_that_touch_or_overlap_are_sewn_once() {
    let shop = shop();
    let seams = |gap: i64, tail: i64| {
        let (gap, tail) = (mm(gap), mm(tail));
        let order = Order { count: Some(10), gap, gap_given: true, min_gap: Some(gap), tail, ..order() };
        let used = of(&shop, &order);
        let length = |kind| seam(&used, kind).map(|seam| seam.seam);
        (length(SeamKind::BindingAlone), length(SeamKind::BindingOverPennants))
    };
    assert_eq!(seams(0, 0), (None, Some(mm(1_900))));
    assert_eq!(seams(-40, 0), (None, Some(mm(1_900 - 9 * 40))));
    assert_eq!(seams(-40, 300), (Some(mm(600)), Some(mm(1_900 - 9 * 40))));
    assert_eq!(seams(40, 300), (Some(mm(600 + 9 * 40)), Some(mm(1_900))));
}

#[test]
fn a_shop_that_does_not_sew_uses_no_thread() {
    let mut shop = shop();
    shop.bench.thread.rows = 0;
    let used = of(&shop, &story());
    assert_eq!((used.seams.len(), used.length), (0, Length::ZERO));
    assert_eq!((used.mass, used.cost), (Mass::ZERO, Money::ZERO));
}

#[test]
fn figures_that_no_catalogue_lets_through_do_not_break_it() {
    assert_eq!(thread_in(mm(1), um(0), um(0)), mm(2));
    assert_eq!(stitches(mm(1), um(0)), 1_000);
    assert_eq!(stitches(mm(-5), um(2_500)), 0);
    assert_eq!(thread_in(um(i64::MAX), um(i64::MAX), um(1)), um(i64::MAX));
    for tex in [tex_of_ticket(0), tex_of_count(0, 2), tex_of_count(80, 0)] {
        assert_eq!(tex, MassPerLength::from_ug_per_m(0));
    }
    let mut shop = shop();
    (shop.bench.thread.stitch, shop.bench.thread.rows) = (um(0), u32::MAX);
    let used = of(&shop, &Order { quantity: u32::MAX, ..story() });
    assert_eq!(used.length, um(i64::MAX));
}

/// A shop, an order, and what can be made more of.
fn varied(values: (i64, i64, i64, u32, i64, i64), sizes: (u32, u32, bool)) -> ThreadUse {
    let (stitch, fabric, binding, rows, waste, tail) = values;
    let (count, quantity, turned) = sizes;
    let mut shop = shop();
    shop.fabrics.iter_mut().for_each(|f| f.thickness = um(fabric));
    shop.bindings[0].thickness = um(binding);
    let thread = &mut shop.bench.thread;
    (thread.stitch, thread.rows, thread.tail) = (um(stitch), rows, um(tail));
    thread.waste = Percent::from_milli(waste);
    thread.price = Rate::from_micro_minor(3_000_000);
    let construction = if turned { Construction::DoubleTurned } else { Construction::SinglePinked };
    let order = Order { count: Some(count), quantity, construction, letters: letters("AB"), ..order() };
    of(&shop, &order)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    #[test]
    fn thread_grows_with_everything(
        values in (1_500_i64..=4_000, 0_i64..=1_000, 0_i64..=500, 1_u32..=3, 0_i64..=30_000, 0_i64..=300_000),
        sizes in (2_u32..=300, 1_u32..=5, any::<bool>()),
    ) {
        let before = varied(values, sizes);
        let (stitch, fabric, binding, rows, waste, tail) = values;
        let (count, quantity, turned) = sizes;
        for (more, bigger) in [
            ((stitch - 100, fabric, binding, rows, waste, tail), sizes),
            ((stitch, fabric + 50, binding, rows, waste, tail), sizes),
            ((stitch, fabric, binding + 50, rows, waste, tail), sizes),
            ((stitch, fabric, binding, rows + 1, waste, tail), sizes),
            ((stitch, fabric, binding, rows, waste + 1_000, tail), sizes),
            ((stitch, fabric, binding, rows, waste, tail + 1_000), sizes),
            (values, (count + 1, quantity, turned)),
            (values, (count, quantity + 1, turned)),
        ] {
            let after = varied(more, bigger);
            let thick_nothing = more.0 != stitch && fabric == 0 && binding == 0;
            prop_assert!(after.length > before.length || thick_nothing, "{more:?} {bigger:?}");
            prop_assert!(after.mass >= before.mass && after.cost >= before.cost);
        }
        prop_assert!(varied(values, (count, quantity, true)).length >= before.length);
    }

    #[test]
    fn twice_the_strings_are_twice_the_seams(
        values in (1_500_i64..=4_000, 0_i64..=1_000, 0_i64..=500, 1_u32..=3, 0_i64..=30_000, 0_i64..=300_000),
        sizes in (1_u32..=300, 1_u32..=20, any::<bool>()),
    ) {
        let once = varied(values, sizes);
        let twice = varied(values, (sizes.0, 2 * sizes.1, sizes.2));
        prop_assert_eq!(once.seams.len(), twice.seams.len());
        for (once, twice) in once.seams.iter().zip(&twice.seams) {
            prop_assert_eq!((once.kind, once.seam * 2, once.thickness), (twice.kind, twice.seam, twice.thickness));
            // each is rounded up once
            prop_assert!((0..=1).contains(&(once.thread * 2 - twice.thread).um()));
            prop_assert!((0..=1).contains(&(2 * once.stitches - twice.stitches)));
        }
    }

    #[test]
    fn without_waste_and_tails_the_length_is_the_sum(
        values in (1_500_i64..=4_000, 0_i64..=1_000, 0_i64..=500, 0_u32..=3, 0_i64..=30_000, 0_i64..=300_000),
        sizes in (1_u32..=300, 1_u32..=20, any::<bool>()),
    ) {
        let (stitch, fabric, binding, rows, waste, tail) = values;
        let all = varied(values, sizes);
        let bare = varied((stitch, fabric, binding, rows, 0, 0), sizes);
        let sewn: Length = bare.seams.iter().map(|seam| seam.thread).sum();
        prop_assert_eq!(bare.length, sewn);
        prop_assert_eq!((&all.seams, all.mass), (&bare.seams, bare.mass));
        let (count, strings) = (i64::from(sizes.0) * i64::from(sizes.1), i64::from(sizes.1));
        let runs = strings * i64::from(rows) + 2 * strings + if sizes.2 { count } else { 0 };
        let percent = Percent::from_milli(waste);
        prop_assert_eq!(all.length, with_waste(sewn, percent) + um(2 * runs * tail));
        // every seam is between two and two plus what it goes through
        for seam in &bare.seams {
            prop_assert!(seam.thread >= seam.seam * 2);
            let stitches = i64::try_from(seam.stitches).expect("a count");
            prop_assert!((seam.thread - seam.seam * 2).um() <= 2 * stitches * seam.thickness.um());
        }
    }
}
