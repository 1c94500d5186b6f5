use super::*;
use crate::notice::Code;
use crate::shop::Join;

fn offcuts_of(shop: &mut Shop) -> &mut Vec<Length> {
    match &mut shop.bindings[0].source {
        BindingSource::Bought { offcuts, .. } => offcuts,
        BindingSource::Cloth { .. } => panic!("not bought"),
    }
}

fn made(shop: &Shop, order: &Order, cut: Length) -> BindingUse {
    binding(shop, order, &string(cut)).expect("a binding")
}

/// Offcuts, rolls, whole rolls, length paid.
fn supply(used: &BindingUse) -> (Vec<Length>, u32, bool, Length) {
    match &used.supply {
        Supply::Bought { offcuts, rolls, whole_rolls, paid, .. } => {
            (offcuts.clone(), *rolls, *whole_rolls, *paid)
        }
        other => panic!("{other:?}"),
    }
}

/// 6.82 m at 0.60: 4.092 (derived).
#[test]
fn a_string_is_cut_off_a_roll() {
    let (shop, order) = (shop(), order());
    let used = made(&shop, &order, mm(6_820));
    assert_eq!(used.cost, Money::from_minor(409));
    assert_eq!((used.cut, used.net, used.taken), (mm(6_820), mm(6_820), mm(6_820)));
    assert_eq!((used.joins, used.places.len(), used.notices.len()), (0, 0, 0));
    assert_eq!(supply(&used), (vec![], 1, false, mm(6_820)));
    // a roll without a price of its own is never the cheaper
    assert!(matches!(used.supply, Supply::Bought { break_even: None, .. }));
}

#[test]
fn a_roll_gives_whole_strings_and_keeps_the_rest() {
    let (shop, mut order) = (shop(), order());
    for (quantity, rolls) in [(1, 1), (3, 1), (4, 2), (6, 2), (7, 3), (10_000, 3_334)] {
        order.quantity = quantity;
        let used = made(&shop, &order, mm(8_000));
        assert_eq!(supply(&used), (vec![], rolls, false, mm(8_000) * i64::from(quantity)), "{quantity}");
        assert_eq!(used.joins, 0);
    }
    // a string exactly as long as a roll needs no join; a micrometre more does
    order.quantity = 2;
    assert_eq!(made(&shop, &order, mm(25_000)).joins, 0);
    assert!(made(&shop, &order, mm(25_000) + um(1)).joins > 0);
}

#[test]
fn offcuts_come_first_the_smallest_that_fits() {
    let (mut shop, mut order) = (shop(), order());
    *offcuts_of(&mut shop) = vec![mm(9_000), mm(4_999), mm(12_000), mm(5_000)];
    // 5 000 holds one, 9 000 one, 12 000 two, a roll five
    for (quantity, offcuts, rolls) in [
        (1, vec![5_000], 0),
        (2, vec![5_000, 9_000], 0),
        (3, vec![5_000, 9_000, 12_000], 0),
        (4, vec![5_000, 9_000, 12_000], 0),
        (5, vec![5_000, 9_000, 12_000], 1),
        (9, vec![5_000, 9_000, 12_000], 1),
        (10, vec![5_000, 9_000, 12_000], 2),
    ] {
        order.quantity = quantity;
        let used = made(&shop, &order, mm(5_000));
        let offcuts: Vec<Length> = offcuts.into_iter().map(mm).collect();
        // offcuts are worth what they would cost
        assert_eq!(supply(&used), (offcuts, rolls, false, mm(5_000) * i64::from(quantity)), "{quantity}");
        assert_eq!(used.cost.minor(), 300 * i64::from(quantity));
    }
}

#[test]
fn a_whole_roll_is_bought_where_it_is_cheaper_and_said() {
    // 42.4 m: 5.088 by the metre, 5.00 the roll
    let (shop, order) = tape(4);
    let used = made(&shop, &order, mm(10_600));
    assert_eq!(used.cost, Money::from_minor(500));
    assert_eq!(supply(&used), (vec![], 1, true, mm(50_000)));
    assert_eq!(used.notices.len(), 1);
    let notice = &used.notices[0];
    assert_eq!((notice.code, notice.field), (Code::RollCheaper, Some(Field::Binding)));
    for part in ["5.00 GBP for 1 whole roll of 50000 mm,", "5.09 GBP for 42400 mm all by the metre"] {
        assert!(notice.message.contains(part), "{}", notice.message);
    }
    // 40 m: 4.80
    let used = made(&shop, &order, mm(10_000));
    assert_eq!((used.cost.minor(), used.notices.len()), (480, 0));
}

/// One whole roll and 10 m: 5.00 + 1.20; two rolls 10.00; all by the metre 7.20 (derived).
#[test]
fn whole_rolls_and_the_rest_by_the_metre_may_be_cheapest() {
    let (shop, mut order) = tape(6);
    let used = made(&shop, &order, mm(10_000));
    assert_eq!(used.cost, Money::from_minor(620));
    assert_eq!(supply(&used), (vec![], 2, true, mm(60_000)));
    let message = &used.notices[0].message;
    assert!(message.contains("6.20 GBP for 1 whole roll of 50000 mm and 10000 mm by the metre"), "{message}");
    // nine: 40 m by the metre are 4.80, below a second roll; ten: two rolls
    for (quantity, cost, rolls, paid) in
        [(9, 980, 2, 90_000), (10, 1_000, 2, 100_000), (11, 1_120, 3, 110_000)]
    {
        order.quantity = quantity;
        let used = made(&shop, &order, mm(10_000));
        assert_eq!(used.cost.minor(), cost, "{quantity}");
        assert_eq!(supply(&used), (vec![], rolls, true, mm(paid)), "{quantity}");
    }
}

#[test]
fn a_break_even_is_told_where_a_roll_reaches_it() {
    let told = |minor| {
        let roll = Roll { length: mm(50_000), price: Some(Money::from_minor(minor)) };
        break_even(Rate::from_micro_minor(12_000_000), roll)
    };
    assert_eq!(told(600), Some(mm(50_000)));
    assert_eq!(told(601), None);
    assert_eq!(told(0), Some(mm(0)));
    let free = Roll { length: mm(50_000), price: Some(Money::from_minor(1)) };
    assert_eq!(break_even(Rate::from_micro_minor(0), free), None);
}

/// 10 m at 4 % are 10 416.667 (derived).
#[test]
fn a_binding_that_is_washed_is_cut_longer() {
    let (mut shop, order) = (shop(), order());
    shop.bindings[0].shrink = pennantry_measure::Percent::from_milli(4_000);
    let used = made(&shop, &order, mm(10_000));
    assert_eq!((used.cut, used.net, used.taken), (um(10_416_667), um(10_416_667), um(10_416_667)));
    // a roll of 25 m is 24 m when it is sewn
    assert_eq!(made(&shop, &order, mm(24_000)).joins, 0);
    let joined = made(&shop, &order, mm(24_001));
    assert_eq!((joined.joins, joined.join_loss), (1, mm(50)));
    assert_eq!(joined.net, um(25_001_042));
    // a join of 50 takes 52.084 off the roll
    assert_eq!(joined.taken, um(25_001_042 + 52_084));
}

/// 30 m off rolls of 25 m: the first join at a pennant's middle, its loss on top.
#[test]
fn a_string_longer_than_a_roll_is_joined_behind_a_pennant() {
    let (shop, order) = (shop(), order());
    let layout = string(mm(30_000));
    let used = binding(&shop, &order, &layout).expect("a binding");
    assert_eq!((used.joins, used.join_loss, used.notices.len()), (1, mm(50), 0));
    assert_eq!(used.taken, mm(30_050));
    assert_eq!(supply(&used), (vec![], 2, false, mm(30_050)));
    // 24 950 can be reached; 140 pennants 210 apart, the first's middle at 405 from the end
    assert_eq!((layout.count, layout.first.left_from_end), (140, mm(310)));
    let place = used.places[0];
    assert_eq!((place.string, place.at, place.behind), (0, mm(24_765), Some(116)));
    // two seams straight across
    let mut straight = shop.clone();
    straight.bench.join = Join { ends: EndCut::Straight, ..shop.bench.join };
    let used = binding(&straight, &order, &layout).expect("a binding");
    assert_eq!((used.join_loss, used.taken), (mm(12), mm(30_012)));
}

/// A string of 30 m joined at its 25th leaves 20 m for the next: 12 strings take 15 rolls
/// where each by itself would take 24.
#[test]
fn what_is_left_of_a_roll_goes_on_in_the_next_string() {
    let (shop, mut order) = (shop(), order());
    order.quantity = 12;
    let used = made(&shop, &order, mm(30_000));
    let (_, rolls, ..) = supply(&used);
    assert!((15..=16).contains(&rolls), "{rolls} rolls");
    assert_eq!(used.taken, used.net + used.join_loss * i64::from(used.joins));
    let strings: Vec<u32> = used.places.iter().map(|place| place.string).collect();
    assert!(strings.is_sorted() && strings.iter().all(|string| *string < 12));
    assert!(used.notices.is_empty(), "{:?}", used.notices);
}

#[test]
fn strings_from_offcuts_keep_their_numbers() {
    let (mut shop, mut order) = (shop(), order());
    *offcuts_of(&mut shop) = vec![mm(61_000)];
    order.quantity = 3;
    let used = made(&shop, &order, mm(30_000));
    assert_eq!(supply(&used).0, [mm(61_000)]);
    assert!(used.places.iter().all(|place| place.string == 2), "{:?}", used.places);
    assert_eq!(used.joins, 1);
}

#[test]
fn a_roll_that_a_join_eats_up_is_refused() {
    let (mut shop, order) = (shop(), order());
    rolls_of(&mut shop).length = mm(50);
    let refused = binding(&shop, &order, &string(mm(6_820))).expect_err("refused");
    assert_eq!((refused[0].field, refused[0].reason), (Field::Binding, Reason::DoesNotFit));
    assert!(refused[0].message.contains("rolls of 50 mm"), "{}", refused[0].message);
}

#[test]
fn more_joins_than_one_order_can_take_are_refused() {
    let (mut shop, mut order) = (shop(), order());
    rolls_of(&mut shop).length = mm(2_000);
    order.quantity = 10_000;
    let refused = binding(&shop, &order, &string(mm(60_000))).expect_err("refused");
    assert_eq!((refused[0].field, refused[0].reason), (Field::Quantity, Reason::OutOfRange));
    assert!(refused[0].message.contains("200000 joins"), "{}", refused[0].message);
}

#[test]
fn a_binding_that_is_not_in_the_catalogue_is_refused() {
    let (shop, mut order) = (shop(), order());
    order.binding = 7;
    let refused = binding(&shop, &order, &string(mm(6_820))).expect_err("refused");
    assert_eq!((refused[0].field, refused[0].reason), (Field::Binding, Reason::UnknownCode));
}
