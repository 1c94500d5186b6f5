//! Which day what is cut counts for: from the first instant of a day of the shop to the first of
//! the next, that one left out. Clock changes: IANA time zone database, 2026f.

use pennantry_app::stock::{Envelope, instant};
use pennantry_ledger::rules::{Amount, ChangeId, Class, Command, NewLine, Reserve};
use pennantry_measure::Length;

use super::*;

/// Cuts so much of a bolt at an instant: held, confirmed and cut.
async fn cut_at(shop: &Shop, at: At, text: &str, mm: u32) {
    let shop = shop.later(&instant(at).to_string(), text);
    let name = format!("r{mm}");
    let envelope = Envelope {
        change: ChangeId(u128::from(mm).to_be_bytes()),
        now: instant(at),
        actor: "counter".to_owned(),
        request: None,
        deadline: None,
    };
    let amount = Amount::of_length(Length::from_mm(i64::from(mm)));
    let reserve = Command::Reserve(Reserve {
        id: name.as_str().into(),
        holder: "staff".to_owned(),
        most_holds: None,
        seconds: 900,
        quote: "q".to_owned(),
        bench_milli_minutes: 0,
        leave_day: None,
        sold: Vec::new(),
        lines: vec![NewLine { piece: "KELP-1".into(), item: 0, amount, shapes: 10, shape_area: 0 }],
        supersedes: None,
    });
    shop.stock.apply(&shop.service.catalogue(), &envelope, reserve).await.unwrap();
    shop.confirm(&name, "SO").await.unwrap();
    shop.cut(json!({"reservationId": name})).await.unwrap();
}

#[tokio::test]
async fn what_is_cut_counts_for_the_shops_day_whatever_the_clocks_do() {
    for (zone, date, first, next, half_hours) in [
        ("Europe/London", "2026-03-29", "2026-03-29T00:00:00Z", "2026-03-29T23:00:00Z", 46),
        ("Europe/London", "2026-10-25", "2026-10-24T23:00:00Z", "2026-10-26T00:00:00Z", 50),
        ("Europe/London", "2026-11-24", "2026-11-24T00:00:00Z", "2026-11-25T00:00:00Z", 48),
        ("Australia/Lord_Howe", "2026-10-04", "2026-10-03T13:30:00Z", "2026-10-04T13:00:00Z", 47),
        ("Australia/Lord_Howe", "2026-04-05", "2026-04-04T13:00:00Z", "2026-04-05T13:30:00Z", 49),
        // midnight does not exist: the day begins at one
        ("America/Santiago", "2026-09-06", "2026-09-06T04:00:00Z", "2026-09-07T03:00:00Z", 46),
    ] {
        let case = format!("{zone} {date}");
        let text = SALTMERE_LOFT.replace("zone = \"Europe/London\"", &format!("zone = \"{zone}\""));
        let (first, next) = (micros(first), micros(next));
        assert_eq!(next.0 - first.0, half_hours * 1_800_000_000, "{case}");
        let shop = open();
        let early = shop.later("2026-01-05T12:00:00Z", &text);
        early.receive(json!([{"pieceId": "KELP-1", "code": "kelp", "quantity": length(20_000.0)}])).await;
        for (at, mm) in [(first.0 - 1, 1_000), (first.0, 200), (next.0 - 1, 30), (next.0, 4)] {
            cut_at(&shop, At(at), &text, mm).await;
        }
        let day = numbered_day(date);
        let rows = shop.stock.ledger.day_uses(Class::Cloth, day - 10, day + 10).await.unwrap();
        let used: Vec<(i32, i64)> = rows.iter().map(|row| (row.day - day, row.of.used.0 / 1_000)).collect();
        assert_eq!(used, [(-1, 1_000), (0, 230), (1, 4)], "{case}");
        assert!(rows.iter().all(|row| row.of.late_at.is_none()), "{case}: nothing is late");
        // each morning knows what was used up to the evening before
        let later = shop.later(&instant(At(next.0 + 86_400_000_000)).to_string(), &text);
        for (morning, used) in [(0, 1_000.0), (1, 1_230.0), (2, 1_234.0)] {
            let date = crate::convert::stock::write::date(day + morning);
            assert_eq!(later.made(&date, false).await.state(), v1::BurnReportState::Done, "{case}");
            let report = later.report(json!({"date": date})).await.unwrap();
            let kelp = fabric(&report, "kelp");
            assert_eq!(Mm(kelp.used_mm), used, "{case}: on the morning of {date}");
            let last = crate::convert::stock::write::date(day + morning - 1);
            assert_eq!(kelp.detail.as_ref().unwrap().last_used_date.as_ref(), Some(&last), "{case}");
            assert_eq!(report.zone, zone);
            assert_eq!(Mm(kelp.free_mm), 20_000.0 - 1_234.0, "{case}: what lies there is told as of now");
        }
        shop.adds_up().await;
    }
}

/// Twenty-eight days of the calendar and not 28 times 24 hours: what was used on the first of
/// them counts until it is the twenty-ninth.
#[tokio::test]
async fn four_weeks_are_twenty_eight_days_across_a_change_of_the_clocks() {
    for (first, mornings) in [
        // summer time begins on 29 March
        ("2026-03-10T00:00:00Z", ["2026-04-07", "2026-04-08"]),
        // and ends on 25 October
        ("2026-10-09T23:00:00Z", ["2026-11-07", "2026-11-08"]),
    ] {
        let shop = open();
        let early = shop.later("2026-01-05T12:00:00Z", SALTMERE_LOFT);
        early.receive(json!([{"pieceId": "KELP-1", "code": "kelp", "quantity": length(20_000.0)}])).await;
        cut_at(&shop, micros(first), SALTMERE_LOFT, 500).await;
        let later = shop.later("2026-12-01T12:00:00Z", SALTMERE_LOFT);
        for (date, used) in mornings.iter().zip([500.0, 0.0]) {
            later.made(date, false).await;
            let report = later.report(json!({"date": date})).await.unwrap();
            assert_eq!(Mm(fabric(&report, "kelp").used_mm), used, "{date}");
        }
    }
}
