//! Cloth that is washed before it is cut.

use proptest::prelude::*;

use super::super::super::*;
use crate::fixture::{mm, order, shop, um};
use crate::notice::Code;
use crate::order::{Field, Order};
use crate::outline::Finished;
use crate::shop::{BindingSource, FabricRole, Shape, Shop, StripGrain};

const NOUGHT: Percent = Percent::from_milli(0);
const FIVE: Percent = Percent::from_milli(5_000);

fn used(shop: &Shop, order: &Order, hung: &[(usize, u32)]) -> Vec<ClothUse> {
    let finished = Finished { shape: Shape::Triangle, width: mm(190), drop: mm(210), detail: mm(0) };
    cloth(shop, order, &finished, hung).expect("cloth")
}

/// 1 100 less 5 % is 1 045: ten exactly. 210 are 221.053 as bought, and 20 of squaring.
#[test]
fn washed_cloth_is_narrower_and_bought_longer() {
    let mut shop = shop();
    shop.methods[0].clearance = mm(0);
    shop.fabrics[0].shrink_across = FIVE;
    shop.fabrics[0].shrink_along = FIVE;
    shop.fabrics[0].sold = crate::shop::Sold::Bolt { step: mm(0) };
    let ten = &used(&shop, &order(), &[(0, 10)])[0];
    assert_eq!((ten.job.cloth_width, ten.used, ten.charged), (mm(1_045), mm(210), um(241_053)));
    assert_eq!((ten.step.more, ten.step.fewer), (um(221_053), mm(0)));
    assert!(ten.plan.zero_tolerance);
    shop.fabrics[0].shrink_across = Percent::from_milli(5_001);
    assert_eq!(used(&shop, &order(), &[(0, 10)])[0].used, mm(420));
    // a fabric that is too narrow only once it is washed
    shop.fabrics[0].usable_width = mm(195);
    let finished = Finished { shape: Shape::Triangle, width: mm(190), drop: mm(210), detail: mm(0) };
    match cloth(&shop, &order(), &finished, &[(0, 1)]) {
        Err(Error::Refused(found)) => {
            let message = &found[0].message;
            assert!(message.contains("185.248 mm once it is washed"), "{message}");
            assert!(message.contains("a width of 185 mm"), "{message}");
        }
        other => panic!("not refused: {other:?}"),
    }
}

#[test]
fn some_washed_and_some_not_is_noticed() {
    let mixed = |change: &dyn Fn(&mut Shop), order: &Order, hung: &[(usize, u32)]| {
        let mut shop = shop();
        change(&mut shop);
        let uses = used(&shop, order, hung);
        let found = notices(&shop, order, &uses);
        found.into_iter().find(|notice| notice.code == Code::MixedWash)
    };
    let washed = |cloth: &'static [usize], binding: Percent| {
        move |shop: &mut Shop| {
            for place in cloth {
                shop.fabrics[*place].shrink_along = FIVE;
            }
            shop.bindings[0].shrink = binding;
        }
    };
    let hung = [(0, 3), (1, 3)];
    assert_eq!(mixed(&washed(&[], NOUGHT), &order(), &hung), None);
    assert_eq!(mixed(&washed(&[0, 1], FIVE), &order(), &hung), None);
    // a fabric that is not in it does not count
    assert_eq!(mixed(&washed(&[2], NOUGHT), &order(), &hung), None);
    let binding = mixed(&washed(&[0, 1], NOUGHT), &order(), &hung).expect("a notice");
    assert_eq!(binding.field, Some(Field::Binding));
    assert!(binding.message.contains("\"kelp\", \"dune\"; not washed: the binding."), "{}", binding.message);
    let binding = mixed(&washed(&[], FIVE), &order(), &hung).expect("a notice");
    assert_eq!(binding.field, Some(Field::Binding));
    let cloth = mixed(&washed(&[1], FIVE), &order(), &hung).expect("a notice");
    assert_eq!(cloth.field, Some(Field::Fabrics));
    assert!(cloth.message.contains("\"dune\", the binding; not washed: \"kelp\"."), "{}", cloth.message);
    // across alone is washed as well
    let across = |shop: &mut Shop| shop.fabrics[0].shrink_across = FIVE;
    assert!(mixed(&across, &order(), &hung).is_some());
    // letters are cloth, and a web is not
    let lettered = Order { letters: vec![Some(String::from("A"))], ..order() };
    assert!(mixed(&washed(&[0, 1], FIVE), &lettered, &hung).is_some());
    let web = |shop: &mut Shop| {
        washed(&[0, 1], FIVE)(shop);
        shop.fabrics.push(crate::shop::Fabric { role: FabricRole::Web, ..shop.fabrics[2].clone() });
        shop.methods[0].web = Some(3);
    };
    assert_eq!(mixed(&web, &order(), &hung), None);
    // strips of a washed cloth are washed
    let strips = |shop: &mut Shop| {
        washed(&[0, 1], NOUGHT)(shop);
        shop.bindings[0].source =
            BindingSource::Cloth { fabric: 0, raw: mm(50), grain: StripGrain::Straight };
    };
    assert_eq!(mixed(&strips, &order(), &hung), None);
}

#[test]
fn lengths_that_cannot_be_do_not_break_the_sums() {
    assert_eq!(change(mm(0), mm(5)), None);
    assert_eq!(change(mm(-1), mm(5)), None);
    assert_eq!(change(mm(10), mm(0)), Some(Percent::from_milli(-100_000)));
    assert_eq!(washed(mm(10), Percent::WHOLE), mm(0));
    assert_eq!(bought_length(um(1), Percent::WHOLE), mm(100));
    assert_eq!(whole_repeats(mm(0), mm(5)), mm(0));
    assert_eq!(whole_repeats(mm(7), mm(-5)), mm(7));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2_000))]

    /// What is bought for a length gives it once it is washed, and a micrometre less does not.
    #[test]
    fn a_length_bought_is_the_least_that_holds(used in 1_i64..=2_000_000_000, loss in 0_i64..=60_000) {
        let (used, loss) = (um(used), Percent::from_milli(loss));
        let bought = bought_length(used, loss);
        prop_assert!(washed(bought, loss) >= used);
        prop_assert!(washed(bought - um(1), loss) < used);
    }

    #[test]
    fn whole_repeats_are_whole_and_the_least(length in 0_i64..=2_000_000_000, repeat in 1_i64..=2_000_000) {
        let whole = whole_repeats(um(length), um(repeat));
        prop_assert_eq!(whole.um() % repeat, 0);
        prop_assert!(whole >= um(length) && whole - um(repeat) < um(length));
    }
}
