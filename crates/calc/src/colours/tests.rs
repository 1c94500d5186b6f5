use proptest::prelude::*;

use super::*;

const TABLE: &str = include_str!("../../tables/colours.csv");

fn order(rule: ColourRule, fabrics: &[usize], lettering: &str) -> Order {
    Order {
        tail: Length::ZERO,
        rule,
        fabrics: fabrics.to_vec(),
        letters: lettering.chars().map(|c| (c != ' ').then(|| c.to_string())).collect(),
        ..crate::fixture::order()
    }
}

fn hung(order: &Order, count: u32) -> Vec<Slot> {
    assign(order, count, Length::ZERO).expect("it can be hung")
}

/// Fabrics as letters, place 10 as `A`, place 11 as `B`.
fn fabrics(slots: &[Slot]) -> String {
    slots.iter().map(|slot| char::from(b"ABCDEFGHIJKLMNOPQRSTUVWXYZ"[slot.fabric - 10])).collect()
}

/// Letters, a plain pennant as `_`.
fn letters(order: &Order, slots: &[Slot]) -> String {
    let of = |slot: &Slot| match slot.letter {
        Some(at) => order.letters[wide(at)].clone().expect("a letter, not a space"),
        None => String::from("_"),
    };
    slots.iter().map(of).collect()
}

fn rule(name: &str) -> ColourRule {
    match name {
        "repeat" => ColourRule::Repeat,
        "ends" => ColourRule::MirrorEnds,
        "centre" => ColourRule::MirrorCentre,
        other => panic!("no rule {other}"),
    }
}

#[test]
fn the_table_of_colours_is_met() {
    let mut rows = 0;
    for row in csv::Reader::from_reader(TABLE.as_bytes()).records() {
        let row = row.expect("the table reads");
        let id = &row[0];
        let count: u32 = row[2].parse().expect("count");
        let kinds: usize = row[3].parse().expect("fabrics");
        let places: Vec<usize> = (10..10 + kinds).collect();
        let order = order(rule(&row[1]), &places, &row[4]);
        let slots = hung(&order, count);
        let shown = if row[4].is_empty() { fabrics(&slots) } else { letters(&order, &slots) };
        assert!(row[5].is_empty() || shown == row[5], "{id}: {shown}, expected {}", &row[5]);
        let mut by_place = counts(&slots);
        by_place.sort_unstable();
        let shown: Vec<String> = by_place.iter().map(|(_, count)| count.to_string()).collect();
        assert_eq!(shown.join(";"), row[6], "{id}");
        assert!(!row[7].is_empty() && !row[8].is_empty(), "{id}: no source");
        rows += 1;
    }
    assert_eq!(rows, 22, "rows of the table");
}

#[test]
fn the_story_takes_ten_ten_and_nine_and_ends_its_middle_in_the_third() {
    let slots = hung(&order(ColourRule::Repeat, &[10, 11, 12], ""), 29);
    assert_eq!(counts(&slots), [(10, 10), (11, 10), (12, 9)]);
    assert_eq!(slots[14].fabric, 12);
}

#[test]
fn counts_stand_in_the_order_first_hung() {
    let slots = hung(&order(ColourRule::MirrorCentre, &[10, 11, 12], ""), 9);
    assert_eq!(counts(&slots), [(11, 4), (10, 3), (12, 2)]);
    assert_eq!(counts(&[]), []);
    // one fabric named twice is one fabric
    assert_eq!(counts(&hung(&order(ColourRule::Repeat, &[10, 11, 10], ""), 9)), [(10, 6), (11, 3)]);
}

#[test]
fn a_list_is_hung_as_listed_or_refused_with_what_would_mend_it() {
    let order = order(ColourRule::Listed, &[12, 10, 10, 11], "");
    assert_eq!(fabrics(&hung(&order, 4)), "CAAB");
    for count in [3, 5] {
        let found = assign(&order, count, Length::ZERO).expect_err("one entry a pennant");
        assert_eq!(found.len(), 1);
        assert_eq!((found[0].field, found[0].reason), (Field::Fabrics, Reason::Contradiction));
    }
    assert_eq!(
        assign(&order, 5, Length::ZERO).expect_err("too few")[0].message,
        "4 fabrics are listed, one for each pennant, but the string has 5 pennants: \
         list 5 fabrics, or ask for 4 pennants, or let the list repeat"
    );
}

#[test]
fn words_that_do_not_fit_are_refused_with_the_least_length() {
    let mut order = order(ColourRule::Repeat, &[10, 11], "HAPPY BIRTHDAY KATE!");
    // 20 pennants 160 wide with gaps of 40 between them
    let least = Length::from_mm(20 * 160 + 19 * 40);
    let found = assign(&order, 17, least).expect_err("17 are too few");
    assert_eq!((found[0].field, found[0].reason), (Field::Lettering, Reason::DoesNotFit));
    assert_eq!(
        found[0].message,
        "the lettering takes 20 pennants, one for each letter and each space between words, but only 17 fit: \
         ask for a flagged length of 3960 mm or more, or shorten it to 17"
    );
    order.count = Some(17);
    let message = |order: &Order, count| assign(order, count, least).expect_err("too few")[0].message.clone();
    let counted = message(&order, 17);
    assert!(
        counted.ends_with("only 17 are asked for: ask for 20 pennants or more, or shorten it to 17"),
        "{counted}"
    );
    order.length = Some(crate::order::AskedLength::Overall(Length::from_mm(9_000)));
    let both = message(&order, 17);
    assert!(both.contains("ask for 20 pennants or more on a flagged length of 3960 mm or more"), "{both}");
    order.count = Some(1);
    assert!(message(&order, 1).contains("only 1 is asked for"));
    order.count = None;
    assert!(message(&order, 1).contains("only 1 fits: ask for a flagged length of 3960 mm"));
    (order.count, order.length) = (Some(17), None);
    // both faults at once, in the order of the fields
    order.rule = ColourRule::Listed;
    let fields: Vec<Field> = assign(&order, 17, least).expect_err("both").iter().map(|v| v.field).collect();
    assert_eq!(fields, [Field::Fabrics, Field::Lettering]);
    order.fabrics.clear();
    assert_eq!(assign(&order, 20, least).expect_err("none")[0].reason, Reason::Missing);
}

#[test]
fn a_lettering_sits_in_the_middle_and_leans_left_where_it_must() {
    let order = order(ColourRule::Repeat, &[10, 11], "HI YA");
    let shown = |count| letters(&order, &hung(&order, count));
    assert_eq!(shown(5), "HI_YA");
    assert_eq!(shown(7), "_HI_YA_");
    assert_eq!(shown(8), "_HI_YA__");
    let even = notices(&order, &hung(&order, 7));
    assert!(even.is_empty(), "{even:?}");
    let odd = notices(&order, &hung(&order, 8));
    assert_eq!((odd[0].code, odd[0].field), (Code::OffCentre, Some(Field::Lettering)));
    assert_eq!(
        odd[0].message,
        "the lettering cannot sit exactly in the middle: 1 plain pennant on its left, 2 on its right; \
         7 or 9 pennants would centre it"
    );
}

fn codes(rule: ColourRule, places: &[usize], count: u32) -> Vec<(Code, Option<Field>)> {
    let order = order(rule, places, "");
    notices(&order, &hung(&order, count)).iter().map(|notice| (notice.code, notice.field)).collect()
}

#[test]
fn equal_neighbours_are_noticed_once_and_never_in_a_single_fabric() {
    let equal = (Code::EqualNeighbours, Some(Field::ColourRule));
    assert_eq!(codes(ColourRule::MirrorEnds, &[10, 11], 9), []);
    assert_eq!(codes(ColourRule::MirrorEnds, &[10, 11], 10), [equal]);
    assert_eq!(codes(ColourRule::MirrorCentre, &[10, 11], 9), []);
    assert_eq!(codes(ColourRule::MirrorCentre, &[10, 11], 10), [equal]);
    assert_eq!(codes(ColourRule::Repeat, &[10], 9), []);
    assert_eq!(codes(ColourRule::Repeat, &[10, 10], 9), []);
    assert_eq!(codes(ColourRule::Repeat, &[10, 11, 10], 9), [equal]);
    let message = |rule, places: &[usize], count| {
        let order = order(rule, places, "");
        notices(&order, &hung(&order, count))[0].message.clone()
    };
    assert_eq!(
        message(ColourRule::MirrorEnds, &[10, 11, 12], 20),
        "1 pair of neighbours hangs in the same fabric, the first at pennants 10 and 11 from the left: \
         an odd number of pennants keeps them apart"
    );
    assert_eq!(
        message(ColourRule::Repeat, &[10, 11, 10], 9),
        "2 pairs of neighbours hang in the same fabric, the first at pennants 3 and 4 from the left: \
         name the fabrics in another order to keep them apart"
    );
}

#[test]
fn each_fabric_that_does_not_hang_is_named_once() {
    let unused = |place| (Code::FabricUnused, Some(Field::Fabric(place)));
    assert_eq!(codes(ColourRule::Repeat, &[10, 11, 12, 13], 2), [unused(2), unused(3)]);
    assert_eq!(codes(ColourRule::Repeat, &[10, 11, 12, 12, 10], 2), [unused(2)]);
    assert_eq!(codes(ColourRule::MirrorEnds, &[10, 11, 12], 3), [unused(2)]);
    let order = order(ColourRule::Repeat, &[10, 11, 12], "");
    assert!(notices(&order, &hung(&order, 1))[0].message.contains("1 pennant reaches no further"));
    assert_eq!(
        notices(&order, &hung(&order, 2))[0].message,
        "fabric 3 of the list is not used: 2 pennants reach no further than 2 of its 3 entries"
    );
}

proptest! {
    #[test]
    fn counts_add_up_and_mirrors_mirror(
        named in 1_usize..=26, count in 1_u32..=2_000, name in prop::sample::select(vec!["repeat", "ends", "centre"]),
    ) {
        let places: Vec<usize> = (10..10 + named).collect();
        let slots = hung(&order(rule(name), &places, ""), count);
        prop_assert_eq!(slots.len(), wide(count));
        prop_assert_eq!(counts(&slots).iter().map(|(_, count)| count).sum::<u32>(), count);
        if name == "repeat" {
            let all: Vec<u32> = counts(&slots).iter().map(|(_, count)| *count).collect();
            prop_assert!(all.iter().max().unwrap_or(&0) - all.iter().min().unwrap_or(&0) <= 1);
        } else {
            prop_assert!(slots.iter().eq(slots.iter().rev()));
        }
    }

    #[test]
    fn every_letter_hangs_once_in_its_order(lettering in "[A-Z]( ?[A-Z!]){0,20}", spare in 0_u32..30) {
        let order = order(ColourRule::Repeat, &[10, 11], &lettering);
        let count = u32::try_from(lettering.len()).expect("short") + spare;
        let slots = hung(&order, count);
        let shown = letters(&order, &slots);
        prop_assert_eq!(shown.trim_matches('_'), lettering.replace(' ', "_"));
        let left = shown.len() - shown.trim_start_matches('_').len();
        prop_assert_eq!(left, wide(spare) / 2);
        let off = notices(&order, &slots).iter().any(|notice| notice.code == Code::OffCentre);
        prop_assert_eq!(off, spare % 2 == 1);
    }
}
