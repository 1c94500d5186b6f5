use super::*;
use crate::binding::joins::{Pennants, Spot, Strings};
use crate::notice::Code;

/// Pennants 190 wide, 210 apart, the first from 300: middles at 395, 605, ….
fn strings(cut_mm: i128, count: u32) -> Strings {
    Strings {
        cut: cut_mm * 1_000,
        first: 0,
        count: 1,
        least: 300_000,
        off_middle: 500_000,
        pennants: Pennants { first: 790_000, width: 190_000, pitch: (210_000, 1), count },
    }
}

/// The place of a join after one that no pennant hides.
fn after(all: &Strings, from: i128, reach: i128) -> Spot {
    all.spot(Spot { at: from, behind: None }, reach - from)
}

fn spot(at_mm: i128, behind: Option<u32>) -> Spot {
    Spot { at: at_mm * 1_000, behind }
}

#[test]
fn a_join_goes_to_the_middle_of_the_last_pennant_that_can_be_reached() {
    let all = strings(10_000, 45);
    // middles at 395 + 210 k
    for (reach, at, behind) in
        [(9_000, 8_795, 40), (8_795, 8_795, 40), (8_794, 8_585, 39), (5_710, 5_645, 25)]
    {
        assert_eq!(after(&all, 0, reach * 1_000), spot(at, Some(behind)), "{reach}");
    }
    // the end keeps a piece of 300
    assert_eq!(after(&all, 0, 9_999_000), spot(9_635, Some(44)));
}

#[test]
fn a_join_keeps_off_the_middle() {
    // 4 500 to 5 500 is near the middle
    let all = strings(10_000, 45);
    assert_eq!(after(&all, 0, 5_499_000), spot(4_385, Some(19)));
    // 5 500 is just allowed: 40 beside the middle of the pennant over it is no place, as 4 385 is a middle
    assert_eq!(after(&all, 0, 5_500_000), spot(4_385, Some(19)));
    // from 4 200 on, 4 500 is the last on the left: 95 beside the middle of the pennant at 4 595
    assert_eq!(after(&all, 4_200_000, 5_400_000), spot(4_500, Some(20)));
    // from 4 201 on all there is is near the middle: behind a pennant none the less
    assert_eq!(after(&all, 4_201_000, 5_400_000), spot(5_225, Some(23)));
}

#[test]
fn a_join_that_no_pennant_reaches_shows_where_it_must() {
    // one pennant from 300 to 490, then 9 510 of tail
    let all = strings(10_000, 1);
    assert_eq!(after(&all, 0, 8_000_000), spot(395, Some(0)));
    assert_eq!(after(&all, 500_000, 8_000_000), spot(8_000, None));
    // of two places that show, one off the middle
    assert_eq!(after(&all, 500_000, 5_000_000), spot(4_500, None));
    assert_eq!(after(&all, 4_300_000, 5_000_000), spot(5_000, None));
    // no room for the least piece
    assert_eq!(after(&all, 5_000_000, 5_200_000), spot(5_200, None));
    assert_eq!(after(&all, 9_750_000, 11_000_000), Spot { at: 9_999_999, behind: None });
}

/// The pennant at 1 025 hides one join: the next one goes to a later pennant, or shows.
#[test]
fn a_pennant_hides_one_join() {
    let all = Strings { least: 0, ..strings(10_000, 45) };
    assert_eq!(all.spot(spot(1_025, Some(3)), 150_000), spot(1_175, Some(4)));
    // behind the same pennant where a piece reaches no further
    assert_eq!(all.spot(spot(1_025, Some(3)), 50_000), spot(1_075, Some(3)));
}

/// Rolls of 1.2 m into strings of 6 m, whose middle metre is barred: some joins are near
/// it, and it is said where and what mends it.
#[test]
fn joins_near_the_middle_are_told() {
    let (mut shop, order) = (shop(), order());
    rolls_of(&mut shop).length = mm(1_200);
    shop.bench.join.off_middle = mm(700);
    let used = binding(&shop, &order, &string(mm(6_000))).expect("a binding");
    let near: Vec<&JoinPlace> =
        used.places.iter().filter(|place| (place.at - mm(3_000)).abs() < mm(700)).collect();
    assert!(!near.is_empty() && near.iter().all(|place| place.behind.is_some()), "{:?}", used.places);
    assert_eq!(used.notices.len(), 1, "{:?}", used.notices);
    let notice = &used.notices[0];
    assert_eq!((notice.code, notice.field), (Code::JoinShows, Some(Field::Binding)));
    let at = format!("{} from the left cut end of string 1", near[0].at);
    for part in [
        "1 of 5 joins in \"cream\" lies nearer to the middle than 700 mm",
        &at,
        "rolls of 6000 mm or longer",
        "another length or count",
    ] {
        assert!(notice.message.contains(part), "{}", notice.message);
    }
}

/// Rolls of 4 m and tails of 10 m: joins at 3 950 and 7 900 show, and so do those of the
/// other tail.
#[test]
fn joins_that_show_are_told() {
    let (mut shop, order) = (shop(), order());
    rolls_of(&mut shop).length = mm(4_000);
    let asked = Order { length: Some(AskedLength::Binding(mm(24_000))), tail: mm(10_000), ..order.clone() };
    let layout = solve(&shop, &asked).expect("a layout");
    let used = binding(&shop, &order, &layout).expect("a binding");
    let shown: Vec<Length> = used.places.iter().filter(|p| p.behind.is_none()).map(|p| p.at).collect();
    assert_eq!(shown[..2], [mm(3_950), mm(7_900)]);
    assert!(shown.len() > 2 && used.joins > 4);
    let message = &used.notices[0].message;
    let many = format!("{} of {} joins", shown.len(), used.joins);
    for part in [
        &many,
        "show beside the pennants, the first 3950 mm",
        "rolls of 24000 mm or longer",
        "another count or gap",
    ] {
        assert!(message.contains(part), "{message}");
    }
}

#[test]
fn pieces_that_are_too_short_are_told() {
    let (mut shop, order) = (shop(), order());
    rolls_of(&mut shop).length = mm(340);
    let used = binding(&shop, &order, &string(mm(1_000))).expect("a binding");
    let said = used.notices.iter().any(|notice| notice.message.contains("shorter than 300 mm"));
    assert!(said, "{:?}", used.notices);
}

#[test]
fn the_first_joins_are_listed_and_all_are_counted() {
    let (mut shop, mut order) = (shop(), order());
    rolls_of(&mut shop).length = mm(2_000);
    order.quantity = 300;
    let used = binding(&shop, &order, &string(mm(6_820))).expect("a binding");
    assert!(used.joins > 400);
    assert_eq!(used.places.len(), 400);
}
