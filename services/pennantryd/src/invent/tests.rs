//! The story is repeatable, whole, and has what it is told for.

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

use pennantry_app::report::{self, FabricReport, Morning, Pressing};
use pennantry_forecast::demand::class;
use pennantry_ledger::DaySum;
use pennantry_ledger::rules::{Class, OrderState, RollUp};

use super::*;
use crate::report::run::{fabrics, terms};

fn flags(data: &Path, until: &str) -> cli::Invent {
    cli::Invent { data: data.to_owned(), until: Some(until.parse().unwrap()), years: 2 }
}

async fn invented_at(data: &Path, until: &str) -> String {
    let clock = Clock::Fixed("2026-11-30T12:00:00Z".parse().unwrap());
    match invented(&flags(data, until), clock).await {
        Ok(said) => said,
        Err(Fault::Refused(words) | Fault::CannotRun(words)) => panic!("{words}"),
    }
}

async fn refused(data: &Path, until: &str) -> String {
    let clock = Clock::Fixed("2026-11-30T12:00:00Z".parse().unwrap());
    match invented(&flags(data, until), clock).await {
        Err(Fault::Refused(words)) => words,
        _ => panic!("it was not refused"),
    }
}

async fn open(data: &Path) -> Ledger {
    embedded(data, Durability::Off).await.unwrap()
}

#[tokio::test]
async fn a_stock_that_was_used_and_a_day_that_is_not_over_are_refused() {
    let data = tempfile::tempdir().unwrap();
    assert!(refused(data.path(), "2026-11-30").await.contains("2026-11-30"), "today");
    assert!(invented_at(data.path(), "2026-11-29").await.contains("Everything in it is invented."));
    let words = refused(data.path(), "2026-11-29").await;
    assert!(words.contains("has been used") && words.contains("empty"), "{words}");
}

#[tokio::test]
async fn the_same_last_day_gives_the_same_rows_and_they_agree() {
    let mut seen: Vec<(Vec<RollUp>, u64)> = Vec::new();
    for _ in 0..2 {
        let data = tempfile::tempdir().unwrap();
        invented_at(data.path(), "2026-06-30").await;
        let ledger = open(data.path()).await;
        let found = ledger.verify().await.unwrap();
        assert_eq!(found.drift, [""; 0]);
        seen.push((ledger.day_uses_by_lot(Class::Cloth, i32::MIN, i32::MAX).await.unwrap(), found.movements));
        ledger.close().await;
    }
    assert!(seen[0] == seen[1], "two stories of one day differ");
    assert!(seen[0].1 > 10_000, "{}", seen[0].1);
}

/// What the story is told for has to be in it whichever its last day is.
#[tokio::test]
async fn every_cloth_has_the_use_that_it_is_there_for() {
    let (mut proposed, mut late, mut longest_out) = (0, 0, 0);
    for until in ["2026-11-29", "2026-03-04"] {
        let data = tempfile::tempdir().unwrap();
        invented_at(data.path(), until).await;
        let ledger = open(data.path()).await;
        let last = day(until.parse().unwrap()).0;
        let catalogue = serve::open(None).unwrap();
        let uses = ledger.day_uses(Class::Cloth, i32::MIN, i32::MAX).await.unwrap();
        let mut of: BTreeMap<&str, Vec<&DaySum>> = BTreeMap::new();
        for row in &uses {
            of.entry(&row.code).or_default().push(row);
        }
        for rows in of.values() {
            let shop = &catalogue.shop.calendar;
            let cut = rows.iter().filter(|row| row.of.cuts != 0);
            assert!(cut.clone().all(|row| pennantry_app::report::bench_open(shop, row.day)));
            assert!(rows.iter().all(|row| row.day <= last));
        }
        // what the shapes take is never more than what was cut for them
        for row in &uses {
            assert!(0 <= row.of.net_area && row.of.net_area <= row.of.drawn_area, "{row:?}");
            assert_eq!(row.of.drawn_area, row.of.used_area, "every area is known: {row:?}");
        }
        let stand =
            ledger.stand(pennantry_app::stock::at(catalogue.noon(until.parse().unwrap()).unwrap())).await;
        let (stand, fabrics, terms) = (stand.unwrap(), fabrics(&catalogue), terms(&catalogue).unwrap());
        let shop = catalogue.shop.clone();
        let open = move |day| report::bench_open(&shop.calendar, day);
        let morning = Morning {
            today: last + 1,
            zone: "Europe/London",
            catalogue_revision: "r",
            open: &open,
            known_to: None,
            terms: &terms,
            fabrics: &fabrics,
            uses: &uses,
            stand: &stand,
            last_report: None,
        };
        let survey = report::survey(&morning);
        let told: BTreeMap<String, FabricReport> = survey
            .codes()
            .iter()
            .map(|code| (code.clone(), report::fabric(&morning, &survey, code)))
            .collect();
        let class_of = |code: &str| told[code].detail.demand_class;
        assert_eq!(class_of("kelp"), class::Class::Smooth, "{until}");
        assert!(matches!(class_of("quay-stone"), class::Class::Erratic | class::Class::Lumpy), "{until}");
        assert_eq!(class_of("saltmere-tern"), class::Class::Intermittent, "{until}");
        assert_eq!(class_of("loft-lights"), class::Class::Lumpy, "{until}");
        let ebb = &told["ebb-stripe"];
        assert!(ebb.used.um() > 0 && ebb.usual.is_none() && ebb.detail.method.is_empty(), "{until}: {ebb:?}");
        assert!(told["oilskin"].detail.dead && told["oilskin"].free.um() > 0, "{until}");
        assert!(told["pilot-map"].free.um() > 0 && told["pilot-map"].detail.offer_until.is_some(), "{until}");
        // out for a day at least, for a week on one of the two, and late at the end
        let out: u32 = told["lamp-oil"].detail.past.iter().rev().take(16).map(|week| week.out_days).sum();
        assert!(out >= 1, "{until}: {out}");
        longest_out = longest_out.max(out);
        assert!(told["chandlers-rope"].detail.orders.iter().any(|order| order.late_days > 0), "{until}");
        let one_off = |fabric: &FabricReport| fabric.detail.notes.iter().any(|note| note.code == "ONE_OFF");
        assert!(one_off(&told["chandlers-rope"]), "{until}: the festival");
        assert!(told.values().any(|fabric| fabric.detail.confirmed.um() > 0), "{until}: one is to be cut");
        assert!(told.values().any(|fabric| fabric.pressing > Pressing::Look), "{until}: something to do");
        proposed += told.values().filter(|fabric| fabric.proposal.is_some()).count();
        let restated =
            |fabric: &FabricReport| fabric.detail.past.iter().rev().take(3).any(|week| week.restated);
        late += told.values().filter(|fabric| restated(fabric)).count();
        // wasted in every way, and not more than is used
        let [ends, spoiled, flawed] = told.values().fold([0; 3], |[ends, spoiled, flawed], fabric| {
            let waste = &fabric.detail.wastage;
            [ends + waste.ends.um(), spoiled + waste.spoiled.um(), flawed + waste.flawed.um()]
        });
        assert!(ends > 0 && spoiled > 0 && flawed > 0, "{until}: {ends} {spoiled} {flawed}");
        let orders = ledger.orders(false, 1_000).await.unwrap();
        assert!(orders.iter().any(|order| order.state == OrderState::Filled), "{until}");
        let find = FindPieces { empty_too: true, most: 1_000, ..FindPieces::default() };
        let mut came: BTreeMap<_, BTreeSet<i64>> = BTreeMap::new();
        for piece in ledger.pieces(&find).await.unwrap() {
            if let Some(order) = piece.order {
                came.entry(order).or_default().insert(piece.at.0 / 86_400_000_000);
            }
        }
        assert!(came.values().any(|days| days.len() > 1), "{until}: nothing came in parts");
        ledger.close().await;
    }
    assert!(proposed > 0, "something to order on one of the days");
    assert!(late > 0, "a cut recorded late on one of them");
    assert!(longest_out >= 5, "out for a week on one of them: {longest_out} days");
}
