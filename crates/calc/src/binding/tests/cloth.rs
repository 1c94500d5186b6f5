use pennantry_measure::Percent;

use super::*;
use crate::shop::Sold;

/// The shop, its binding cut from its first cloth, which is 1 100 wide.
fn from_cloth(raw: Length, grain: StripGrain) -> Shop {
    let mut shop = shop();
    shop.bindings[0].source = BindingSource::Cloth { fabric: 0, raw, grain };
    shop
}

fn made(shop: &Shop, quantity: u32, cut: Length) -> BindingUse {
    binding(shop, &Order { quantity, ..order() }, &string(cut)).expect("a binding")
}

fn refused(shop: &Shop, cut: Length) -> Violation {
    binding(shop, &order(), &string(cut)).expect_err("refused").remove(0)
}

/// Strips and cloth charged.
fn strips_of(used: &BindingUse) -> (u32, Length) {
    match used.supply {
        Supply::Straight { fabric: 0, strips, charged, .. } => (strips, charged),
        ref other => panic!("{other:?}"),
    }
}

/// Squares, side, turns, the last one's side and turns, yields, charged.
fn squares_of(used: &BindingUse) -> (u32, Length, u32, Option<(Length, u32)>, Length, Length) {
    match used.supply {
        Supply::Bias { squares, side, turns, last, yields, charged, .. } => {
            (squares, side, turns, last.map(|last| (last.side, last.turns)), yields, charged)
        }
        ref other => panic!("{other:?}"),
    }
}

/// 5 500 by strips of 1 100 that lose 50: (5 500 - 50) / 1 050, six at the least. Middles
/// of pennants are at 440 + 210 k. Joins at 860, 1 910, 2 960, 4 010 and 5 060 take six
/// strips; 2 960 is nearer to the middle than 500, and hopping over takes a strip more:
/// 2 250 is just far enough, and 3 300 is as far as a strip reaches from there. 6 · 50 and 20 of squaring are 320, in steps of 100
/// 400 at 8.00 a metre (derived).
#[test]
fn straight_strips_are_counted_and_charged() {
    let mut shop = from_cloth(mm(50), StripGrain::Straight);
    let places =
        |used: &BindingUse| used.places.iter().map(|place| place.at.um() / 1_000).collect::<Vec<_>>();
    let used = made(&shop, 1, mm(5_500));
    assert_eq!(strips_of(&used).0, 7);
    assert_eq!(places(&used), [860, 1_910, 2_250, 3_300, 4_220, 5_060]);
    assert!(used.notices.is_empty(), "{:?}", used.notices);
    shop.bench.join.off_middle = mm(0);
    let used = made(&shop, 1, mm(5_500));
    assert_eq!(places(&used), [860, 1_910, 2_960, 4_010, 5_060]);
    let (count, charged) = strips_of(&used);
    assert_eq!(strips(mm(5_500), mm(1_100), mm(50)), Some(6));
    assert_eq!(count, 6);
    assert_eq!((charged, used.cost), (mm(400), Money::from_minor(320)));
    assert_eq!((used.joins, used.join_loss, used.taken), (5, mm(50), mm(5_750)));
}

#[test]
fn short_strings_need_no_join() {
    let mut shop = from_cloth(mm(50), StripGrain::Straight);
    shop.least = mm(50);
    // two of 550 out of a strip of 1 100
    for (quantity, count) in [(1, 1), (2, 1), (3, 2), (9, 5), (10_000, 5_000)] {
        let used = made(&shop, quantity, mm(550));
        assert_eq!((strips_of(&used).0, used.joins, used.notices.len()), (count, 0, 0), "{quantity}");
    }
}

/// 4 % off 1 100 leaves 1 056; five strips of 50 along a cloth that loses 5 % are
/// 263.158 as bought, and 20 of squaring: 300 (derived).
#[test]
fn a_cloth_that_is_washed_gives_less() {
    let mut shop = from_cloth(mm(50), StripGrain::Straight);
    shop.fabrics[0].shrink_across = Percent::from_milli(4_000);
    shop.fabrics[0].shrink_along = Percent::from_milli(5_000);
    shop.fabrics[0].sold = Sold::Bolt { step: um(1) };
    let used = made(&shop, 5, mm(1_056));
    assert_eq!(strips_of(&used), (5, um(263_158 + 20_000)));
    assert_eq!(made(&shop, 1, mm(1_057)).joins, 1);
}

/// A fat quarter of 560 by 500 gives ten strips of 50 (derived).
#[test]
fn pieces_of_cloth_give_whole_strips() {
    let mut shop = from_cloth(mm(50), StripGrain::Straight);
    shop.fabrics[0].usable_width = mm(560);
    shop.fabrics[0].sold = Sold::Pieces { length: mm(500) };
    for (quantity, pieces) in [(1, 1), (10, 1), (11, 2), (21, 3)] {
        let used = made(&shop, quantity, mm(560));
        assert_eq!(strips_of(&used), (quantity, mm(500) * pieces), "{quantity}");
        assert_eq!(used.cost.minor(), 400 * pieces);
    }
    shop.bindings[0].source = BindingSource::Cloth { fabric: 0, raw: mm(501), grain: StripGrain::Straight };
    let refused = refused(&shop, mm(560));
    assert_eq!((refused.field, refused.reason), (Field::Binding, Reason::DoesNotFit));
    assert!(refused.message.contains("at most 500 mm"), "{}", refused.message);
}

#[test]
fn strips_as_wide_as_the_cloth_cannot_be_mitred() {
    let shop = from_cloth(mm(1_100), StripGrain::Straight);
    let refused = refused(&shop, mm(2_000));
    assert_eq!((refused.field, refused.reason), (Field::Binding, Reason::DoesNotFit));
    assert!(refused.message.contains("1100 mm"), "{}", refused.message);
    // one that needs no join can be had
    assert_eq!(made(&shop, 1, mm(1_100)).joins, 0);
}

/// 5.6 m of 48: eight turns need a side of 555.059 (derived).
#[test]
fn one_square_of_the_least_side_does() {
    let shop = from_cloth(mm(48), StripGrain::Bias);
    let used = made(&shop, 1, mm(5_600));
    let (squares, side, turns, last, yields, charged) = squares_of(&used);
    assert_eq!((squares, side, turns, last), (1, um(555_059), 8, None));
    assert!(yields >= mm(5_600) && yields < mm(6_200), "{yields}");
    assert_eq!((charged, used.cost), (mm(600), Money::from_minor(480)));
    assert_eq!((used.joins, used.taken), (15, mm(5_600)));
    assert!(used.places.is_empty());
}

/// The module's worked example.
#[test]
fn what_one_square_cannot_give_takes_several() {
    let shop = from_cloth(mm(50), StripGrain::Bias);
    let used = made(&shop, 4, mm(25_000));
    let (squares, side, turns, last, yields, charged) = squares_of(&used);
    assert_eq!((squares, side, turns), (5, mm(1_100), 15));
    let (last_side, last_turns) = last.expect("a last square");
    assert_eq!((last_side, last_turns), (um(648_397), 9));
    assert_eq!(charged, mm(5_100));
    // four of 23 079.96, and 9 · √2 · 636.397
    assert_eq!(yields, um(4 * 23_079_965 + 8_100_011));
    assert_eq!(used.taken, mm(100_000) + um(4 * 16_971));
    assert!(yields >= used.taken);
    assert_eq!(used.joins, 4 * 29 + 17 + 4);
}

/// Pieces of 500 by 560: squares of at most 500, one a piece; with pieces of 1 000, two,
/// and a last one beside them where there is room.
#[test]
fn squares_out_of_pieces_are_no_longer_than_the_piece() {
    let mut shop = from_cloth(mm(50), StripGrain::Bias);
    shop.fabrics[0].usable_width = mm(560);
    shop.fabrics[0].sold = Sold::Pieces { length: mm(500) };
    // 488 gives six turns of 690.136
    let (turns, full) = spiral(mm(500), mm(50), mm(6));
    assert_eq!((turns, full), (6, um(4_140_817)));
    let used = made(&shop, 1, mm(6_000));
    let (squares, side, turns, last, _, charged) = squares_of(&used);
    assert_eq!((squares, side, turns, charged), (2, mm(500), 6, mm(1_000)));
    assert!(last.is_some());
    // 800 long: a last square of 240 or less goes beside one of 560
    shop.fabrics[0].sold = Sold::Pieces { length: mm(800) };
    let beside = made(&shop, 1, mm(5_800));
    let (squares, side, _, last, _, charged) = squares_of(&beside);
    assert_eq!((squares, side, charged), (2, mm(560), mm(800)));
    assert!(last.is_some_and(|(side, _)| side <= mm(240)), "{last:?}");
    let more = made(&shop, 1, mm(8_000));
    assert_eq!(squares_of(&more).5, mm(1_600));
}

#[test]
fn a_strip_too_wide_for_a_square_is_refused() {
    let shop = from_cloth(mm(800), StripGrain::Bias);
    let refused = refused(&shop, mm(500));
    assert_eq!((refused.field, refused.reason), (Field::Binding, Reason::DoesNotFit));
    // √2 · 800 + 12
    assert!(
        refused.message.contains("1143.371 mm") && refused.message.contains("1100 mm"),
        "{}",
        refused.message
    );
}

#[test]
fn a_cloth_that_is_not_in_the_catalogue_is_refused() {
    let mut shop = shop();
    shop.bindings[0].source = BindingSource::Cloth { fabric: 9, raw: mm(50), grain: StripGrain::Bias };
    let refused = refused(&shop, mm(500));
    assert_eq!((refused.field, refused.reason), (Field::Binding, Reason::UnknownCode));
}

#[test]
fn a_spiral_with_more_seams_than_one_order_can_take_is_refused() {
    let mut shop = from_cloth(mm(10), StripGrain::Bias);
    shop.fabrics[0].usable_width = mm(60);
    let order = Order { quantity: 10_000, ..order() };
    let refused = binding(&shop, &order, &string(mm(60_000))).expect_err("refused");
    assert_eq!((refused[0].field, refused[0].reason), (Field::Quantity, Reason::OutOfRange));
}
