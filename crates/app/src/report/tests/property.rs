//! What holds of every report.

use proptest::prelude::*;

use super::*;

/// A fabric with a past and a present.
#[derive(Debug, Clone)]
struct Past {
    uses: Vec<i64>,
    on_hand: i64,
    held: i64,
    confirmed: i64,
    short: i64,
    orders: Vec<(i32, i64)>,
    lead: u32,
    bolt: i64,
    least: i64,
    last_of_it: bool,
    known: bool,
}

fn past() -> impl Strategy<Value = Past> {
    let uses = (20..200_usize, 0..5_u8).prop_flat_map(|(days, rare)| {
        let one = prop_oneof![
            u32::from(rare) + 1 => Just(0),
            2 => 1..400_i64,
        ];
        proptest::collection::vec(one, days)
    });
    let there = (0..3_000_i64, 0..400_i64, 0..400_i64, prop_oneof![3 => Just(0), 1 => 1..300_i64]);
    let orders = proptest::collection::vec((-10..30_i32, 1..2_000_i64), 0..3);
    let terms =
        (0..30_u32, 1..1_000_i64, 0..2_000_i64, proptest::bool::weighted(0.2), proptest::bool::weighted(0.9));
    (uses, there, orders, terms).prop_map(
        |(uses, (on_hand, held, confirmed, short), orders, (lead, bolt, least, last_of_it, known))| Past {
            uses,
            on_hand: on_hand + held + confirmed,
            held,
            confirmed,
            short,
            orders,
            lead,
            bolt,
            least,
            last_of_it,
            known,
        },
    )
}

fn shop_of(past: &Past) -> Shop {
    let mut shop = Shop::new(five_days);
    if past.known {
        shop.fabrics = vec![kelp()];
        let buying = shop.fabrics[0].buying.as_mut().unwrap();
        (buying.lead_days, buying.last_of_it) = (past.lead, past.last_of_it);
        (buying.bolt, buying.least) = (cm(past.bolt), cm(past.least));
    }
    shop.came("KELP", MONDAY - 300, past.uses.iter().sum::<i64>() + past.on_hand);
    for (day, used) in (MONDAY - 280..MONDAY).zip(&past.uses).filter(|(_, used)| **used > 0) {
        shop.used("KELP", day, *used);
    }
    shop.lies("KELP", past.on_hand);
    let standing = shop.standing("KELP");
    (standing.held, standing.confirmed, standing.short) =
        (amount(past.held), amount(past.confirmed), amount(past.short));
    standing.free = amount(past.on_hand - past.held - past.confirmed);
    let mut orders = past.orders.clone();
    orders.sort_unstable();
    for (number, (day, ordered)) in orders.into_iter().enumerate() {
        shop.ordered("KELP", &format!("P-{number}"), MONDAY + day, ordered);
    }
    shop
}

/// Every length in a sentence.
fn lengths(sentence: &str) -> Vec<Length> {
    let words: Vec<&str> = sentence.split([' ', ',', ':']).collect();
    let metres = words.windows(2).filter(|pair| pair[1] == "m" || pair[1] == "m.");
    metres
        .map(|pair| {
            let (whole, rest) = pair[0].split_once('.').unwrap();
            Length::from_um(
                whole.parse::<i64>().unwrap() * 1_000_000 + format!("{rest:0<6}").parse::<i64>().unwrap(),
            )
        })
        .collect()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(150))]

    #[test]
    fn nothing_is_proposed_while_the_position_is_above_the_reorder_point(past in past()) {
        let report = shop_of(&past).report("KELP");
        let detail = &report.detail;
        super::bad::finite(&report);
        prop_assert_eq!(report.free + detail.held + detail.confirmed, detail.on_hand);
        let position = detail.on_hand - detail.held - detail.confirmed - detail.short + report.on_order;
        prop_assert_eq!(detail.position, position);
        let buying = detail.buying.as_ref();
        let point = buying.and_then(|buying| buying.reorder_point);
        if let Some(proposal) = report.proposal {
            let (buying, point) = (buying.unwrap(), point.unwrap());
            prop_assert!(!past.last_of_it && detail.position <= point);
            prop_assert!(proposal >= buying.least && proposal.um() % buying.bolt.um() == 0);
            prop_assert!(detail.position + proposal >= buying.order_up_to.unwrap());
            prop_assert_eq!(i64::from(buying.proposal_bolts.unwrap()) * buying.bolt.um(), proposal.um());
            prop_assert!(report.pressing >= Pressing::Soon);
        } else if let Some(point) = point {
            prop_assert!(detail.position > point, "nothing is proposed at or below it");
        }
        for level in [point, buying.and_then(|buying| buying.safety), buying.and_then(|buying| buying.order_up_to)] {
            prop_assert_eq!(level.map_or(0, |level| level.um() % 1_000), 0);
        }
        prop_assert_eq!(report.sentence.is_empty(), report.pressing == Pressing::Nothing);
    }

    /// What stands in a sentence stands in the row or its details.
    #[test]
    fn figures_of_a_sentence_are_those_of_its_row(past in past()) {
        let shop = shop_of(&past);
        let report = shop.report("KELP");
        let detail = &report.detail;
        let mut row = vec![report.free, report.on_order, detail.on_hand, detail.short, cm(20)];
        row.extend(report.proposal);
        row.extend(detail.buying.as_ref().and_then(|buying| buying.reorder_point));
        row.extend(detail.orders.iter().map(|order| order.outstanding));
        row.extend(detail.notes.iter().flat_map(|note| lengths(&note.message)));
        for said in lengths(&report.sentence) {
            prop_assert!(row.contains(&said), "{} in {}", said, report.sentence);
        }
        if let Some(by) = report.order_by.filter(|by| report.proposal.is_some() && *by > shop.today) {
            let by = words::Said { day: by, today: shop.today }.to_string();
            prop_assert!(report.sentence.contains(&by), "{}", report.sentence);
        }
        prop_assert_eq!(report.sentence.matches(". ").count(), 0);
    }

    /// What is dated on closed days counts for the next open one: which of them it was makes no
    /// difference.
    #[test]
    fn closed_days_permuted_make_the_same_report(past in past(), swaps in proptest::collection::vec(any::<bool>(), 60)) {
        let mut shop = shop_of(&past);
        // the last use is told by its day: on an open one
        shop.used("KELP", MONDAY - 3, 10);
        shop.uses.retain(|row| row.day < MONDAY - 2);
        let before = shop.report("KELP");
        for row in &mut shop.uses {
            let saturday = row.day - (row.day.rem_euclid(7) - 2);
            let swapped = swaps.get(usize::try_from((MONDAY - saturday) / 7).unwrap()).copied().unwrap_or(true);
            match row.day.rem_euclid(7) {
                2 if swapped => row.day += 1,
                3 if swapped => row.day -= 1,
                _ => {}
            }
        }
        prop_assert_eq!(shop.report("KELP"), before);
    }

    /// The same morning gives the same report, whatever the order of its rows.
    #[test]
    fn the_order_of_rows_makes_no_difference(past in past()) {
        let mut shop = shop_of(&past);
        let before = shop.report("KELP");
        shop.uses.reverse();
        prop_assert_eq!(shop.report("KELP"), before);
    }
}
