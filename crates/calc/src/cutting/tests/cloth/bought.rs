//! Cloth that is bought in pieces.

use proptest::prelude::*;

use super::super::super::*;
use crate::fixture::{mm, order, shop, um};
use crate::notice::Code;
use crate::order::{Field, Order, Reason};
use crate::outline::Finished;
use crate::shop::{Construction, Lay, Repeat, Shape, Shop, SizeAt, Sold};

/// The first fabric in pieces of this size.
fn quarters(width: Length, length: Length) -> Shop {
    let mut shop = shop();
    shop.fabrics[0].usable_width = width;
    shop.fabrics[0].sold = Sold::Pieces { length };
    shop.methods[0].clearance = mm(0);
    shop
}

fn of(shop: &Shop, order: &Order, width: Length, drop: Length, pennants: u32) -> Result<ClothUse, Error> {
    let finished = Finished { shape: Shape::Triangle, width, drop, detail: mm(0) };
    cloth(shop, order, &finished, &[(0, pennants)]).map(|mut uses| uses.swap_remove(0))
}

/// Pieces of 18 by 22 in, triangles of 9 by 11 in: six each (common practice, no source).
#[test]
fn nothing_crosses_from_one_piece_to_the_next() {
    let (piece, triangle) = ((um(457_200), um(558_800)), (um(228_600), um(279_400)));
    let shop = quarters(piece.0, piece.1);
    let of = |pennants| of(&shop, &order(), triangle.0, triangle.1, pennants).expect("cloth");
    let used = of(24);
    assert_eq!((used.bought, used.lay), (Some(Bought { count: 4, holds: 6 }), Lay::Flat));
    assert_eq!((used.layers, used.outlines, used.spares), (4, 24, 0));
    // the plan is one piece's; all four are covered, and no squaring is charged
    assert_eq!((used.job.pieces, used.plan.used), (6, piece.1));
    assert_eq!((used.used, used.charged), (piece.1 * 4, piece.1 * 4));
    assert_eq!((used.step.more, used.step.fewer), (piece.1, mm(0)));
    // of a fifth piece one row is cut
    let used = of(25);
    assert_eq!((used.layers, used.used, used.charged), (5, piece.1 * 4 + triangle.1, piece.1 * 5));
    assert_eq!((used.step.more, used.step.fewer), (mm(0), piece.1));
    // fewer than one piece holds
    let used = of(2);
    assert_eq!((used.layers, used.job.pieces, used.used), (1, 2, triangle.1));
    assert_eq!((of(1).step.more, of(1).step.fewer), (mm(0), piece.1), "none at all buys no cloth");
}

#[test]
fn a_bought_piece_is_washed_and_gives_a_repeat_to_its_start() {
    let mut shop = quarters(mm(500), mm(640));
    let holds =
        |shop: &Shop| of(shop, &order(), mm(190), mm(210), 30).expect("cloth").bought.expect("pieces").holds;
    assert_eq!(holds(&shop), 4 * 3);
    shop.fabrics[0].shrink_along = Percent::from_milli(1_563);
    assert_eq!(holds(&shop), 4 * 2, "640 x 0.98437 is 629.997");
    shop.fabrics[0].shrink_along = Percent::from_milli(1_562);
    assert_eq!(holds(&shop), 4 * 3, "640 x 0.98438 is 630.003");
    shop.fabrics[0].shrink_across = Percent::from_milli(5_001);
    assert_eq!(holds(&shop), 3 * 3, "500 x 0.94999 is 474.995, four take 475");
    let mut kept = quarters(mm(500), mm(640));
    kept.fabrics[0].repeat = Repeat { across: mm(0), along: mm(10) };
    // every piece upright then: two a row
    assert_eq!(holds(&kept), 2 * 3);
    kept.fabrics[0].repeat.along = um(10_001);
    assert_eq!(holds(&kept), 2 * 2, "two rows 210.021 apart and 210 are 630.042 of 629.999");
}

#[test]
fn a_piece_that_holds_none_is_refused_with_what_fits() {
    let told = |shop: &Shop, order: &Order, width, drop| match of(shop, order, width, drop, 4) {
        Err(Error::Refused(found)) => {
            assert_eq!(
                (found.len(), found[0].field, found[0].reason),
                (1, Field::Fabric(0), Reason::DoesNotFit)
            );
            found[0].message.clone()
        }
        other => panic!("not refused: {other:?}"),
    };
    let shop = quarters(mm(500), um(209_999));
    let message = told(&shop, &order(), mm(190), mm(210));
    let parts = ["a piece of \"kelp\"", "500 mm by 209.999 mm", "210 mm deep", "no width fits"];
    assert!(parts.iter().all(|part| message.contains(part)), "{message}");
    let narrow = quarters(um(189_999), mm(500));
    let message = told(&narrow, &order(), mm(190), mm(210));
    assert!(message.contains("a width of 189 mm or less"), "{message}");
    assert!(of(&narrow, &order(), mm(189), mm(210), 4).is_ok());
    // washed, and with a repeat kept
    let mut washed = quarters(mm(500), mm(220));
    washed.fabrics[0].shrink_along = Percent::from_milli(1_000);
    washed.fabrics[0].repeat.along = mm(10);
    let message = told(&washed, &order(), mm(190), mm(210));
    let parts =
        ["500 mm by 207.9 mm once it is washed, 9.9 mm of its length spent on the start of the print"];
    assert!(parts.iter().all(|part| message.contains(part)), "{message}");
    // a seam takes more of the drop, the narrower a pennant is: none is short enough
    let double = Order { construction: Construction::DoubleTurned, ..order() };
    let message = told(&quarters(mm(500), mm(220)), &double, mm(190), mm(210));
    assert!(message.contains("no width fits"), "{message}");
    // 300 is too wide, 100 too deep at 235.9; between them 205 is cut 218.4 wide and 223.7
    // deep, and fits
    let wide = Order { width: mm(300), ..double.clone() };
    let between = quarters(mm(219), mm(228));
    let message = told(&between, &wide, mm(300), mm(210));
    let named =
        (1..300).rev().find(|width| of(&between, &double, mm(*width), mm(210), 1).is_ok()).expect("a width");
    assert!(message.contains(&format!("a width of {named} mm or less")), "{message}");
    assert!(of(&between, &double, mm(100), mm(210), 1).is_err());
    // straight from the binding's edge
    let seen = Order { size_at: SizeAt::BindingEdge, ..order() };
    let message = told(&quarters(mm(150), mm(500)), &seen, mm(201), mm(222));
    assert!(message.contains("a width of 141 mm or less"), "{message}");
}

#[test]
fn a_piece_filled_to_its_end_has_no_tolerance() {
    let told = |length, pennants| {
        let shop = quarters(mm(500), length);
        let used = of(&shop, &order(), mm(190), mm(210), pennants).expect("cloth");
        notices(&shop, &order(), &[used])
    };
    let full = told(um(420_999), 9);
    assert_eq!(
        full.iter().map(|n| (n.code, n.field)).collect::<Vec<_>>(),
        [(Code::ZeroTolerance, Some(Field::Fabric(0)))]
    );
    assert!(full[0].message.contains("8 pieces leave 0.999 mm of the length"), "{}", full[0].message);
    assert!(told(mm(421), 9).is_empty());
    assert!(told(mm(420), 4).is_empty(), "one row has 210 mm to spare");
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(600))]

    #[test]
    fn a_piece_holds_what_fits_and_not_one_more(
        piece in (200_000_i64..=1_200_000, 200_000_i64..=1_200_000),
        triangle in (60_000_i64..=200_000, 60_000_i64..=200_000),
        direction in 0_usize..3,
        clear in (0_i64..=8_000, 0_i64..=8_000),
        washing in (0_i64..=5_000, 0_i64..=5_000),
        spare in 0_i64..=10_000,
        pennants in 1_u32..200,
    ) {
        let mut shop = quarters(um(piece.0), um(piece.1));
        shop.fabrics[0].direction = [Direction::OneWay, Direction::TwoWay, Direction::FourWay][direction];
        shop.fabrics[0].shrink_across = Percent::from_milli(washing.0);
        shop.fabrics[0].shrink_along = Percent::from_milli(washing.1);
        shop.methods[0].clearance = um(clear.0);
        shop.methods[0].row_gap = um(clear.1);
        shop.cloth.spares = Percent::from_milli(spare);
        let of = |pennants| of(&shop, &order(), um(triangle.0), um(triangle.1), pennants);
        let Ok(used) = of(pennants) else {
            let wide = washed(um(piece.0), shop.fabrics[0].shrink_across);
            let long = washed(um(piece.1), shop.fabrics[0].shrink_along);
            prop_assert!(wide < um(triangle.0) || long < um(triangle.1));
            return Ok(());
        };
        let (length, bought) = (washed(um(piece.1), shop.fabrics[0].shrink_along), used.bought.expect("pieces"));
        let total = used.pieces + used.spares;
        prop_assert!(bought.count * bought.holds >= total && (bought.count - 1) * bought.holds < total);
        prop_assert_eq!(used.spares, spares(pennants, shop.cloth.spares));
        prop_assert_eq!((used.layers, used.outlines), (bought.count, total));
        prop_assert_eq!(used.charged, um(piece.1) * i64::from(bought.count));
        prop_assert_eq!(used.job.pieces, total.min(bought.holds));
        prop_assert_eq!(validate(&used.plan, &used.job), Ok(()));
        prop_assert!(used.plan.used <= length && used.used <= length * i64::from(bought.count));
        prop_assert!(used.used >= used.bound);
        let planned = |pieces| best(&Job { pieces, ..used.job }).expect("a plan").used;
        prop_assert!(planned(bought.holds) <= length && planned(bought.holds + 1) > length);
        // plain rows at the least
        prop_assert!(u64::from(bought.holds) >= used.job.capacity(length));
        prop_assert_eq!(used.step.more, of(pennants + 1).expect("cloth").charged - used.charged);
        if pennants > 1 {
            prop_assert_eq!(used.step.fewer, used.charged - of(pennants - 1).expect("cloth").charged);
        }
    }
}
