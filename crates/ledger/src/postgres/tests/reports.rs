//! Runs of the report in a database: the database's clock judges leases.

use super::{BeforeCommit, Shop, bolt, done, receive, reserve};
use crate::postgres::{Clock, Options, Store};
use crate::rules::At;
use crate::rules::report::{Again, Begin, Begun, Lost, ReportState, Step};

/// An instant that a caller's clock says; nobody listens.
const WRONG: At = At(5);

fn begin(runner: &str, fresh: bool) -> Begin {
    Begin {
        day: 7,
        runner: runner.into(),
        zone: "Europe/London".into(),
        revision: "r1".into(),
        since: At(0),
        lease_seconds: 60,
        again: if fresh { Again::Always } else { Again::Never },
    }
}

fn step(runner: &str, code: &str, done: u32) -> Step {
    let body = format!("{code} {done}").into_bytes();
    Step { day: 7, runner: runner.into(), code: code.into(), body, done, of: 2, lease_seconds: 60 }
}

/// As the other engine's test has it, by the instants of the commands.
#[tokio::test(flavor = "multi_thread")]
async fn a_run_is_taken_over_with_its_parts_and_done_once() {
    let shop = Shop::with(Options { clock: Clock::Given, ..Options::default() }).await;
    let store = &shop.store;
    let noon = At(1_770_000_000_000_000);
    let later = |seconds: i64| noon.after_seconds(seconds);
    assert_eq!(store.report_get(7).await, Ok(None));
    assert_eq!(store.report_begin(begin("one", false), noon).await, Ok(Begun::Mine { parts: vec![] }));
    assert_eq!(store.report_step(step("one", "tern", 1), later(10)).await, Ok(Ok(later(70))));
    assert_eq!(store.report_step(step("one", "tern", 2), later(20)).await, Ok(Ok(later(80))));
    let told = Begun::Running { by: "one".into(), until: later(80), done: 2, of: 2 };
    assert_eq!(store.report_begin(begin("two", true), later(79)).await, Ok(told));
    assert!(matches!(store.report_begin(begin("two", false), later(-5)).await, Ok(Begun::Running { .. })));
    let Ok(Begun::Mine { parts }) = store.report_begin(begin("two", false), later(80)).await else {
        panic!("it is taken over")
    };
    assert_eq!((parts.len(), parts[0].code.as_str(), parts[0].at), (1, "tern", later(20)));
    assert_eq!(parts[0].body, b"tern 2");
    let lost = Lost::Taken { by: "two".into() };
    assert_eq!(store.report_step(step("one", "kelp", 2), later(81)).await, Ok(Err(lost.clone())));
    assert_eq!(store.report_finish(7, "one", vec![1], later(81)).await, Ok(Err(lost)));
    assert_eq!(store.report_step(step("two", "kelp", 2), later(82)).await, Ok(Ok(later(142))));
    assert_eq!(store.report_finish(7, "two", b"all".to_vec(), later(83)).await, Ok(Ok(())));
    assert_eq!(store.report_finish(7, "two", b"all".to_vec(), later(84)).await, Ok(Ok(())));
    let report = store.report_get(7).await.unwrap().unwrap();
    let head = &report.head;
    assert_eq!((head.state, head.started, head.finished), (ReportState::Done, noon, Some(later(83))));
    assert_eq!((head.runner.as_str(), head.done, head.of), ("two", 2, 2));
    let codes: Vec<&str> = report.parts.iter().map(|part| part.code.as_str()).collect();
    assert_eq!((codes, report.body.as_slice()), (vec!["kelp", "tern"], &b"all"[..]));
    assert_eq!(
        store.report_begin(begin("three", false), later(90)).await,
        Ok(Begun::Done { finished: later(83) })
    );
    assert_eq!(store.report_begin(begin("three", true), later(91)).await, Ok(Begun::Mine { parts: vec![] }));
    let report = store.report_get(7).await.unwrap().unwrap();
    assert_eq!((report.parts.len(), report.body.len(), report.head.done), (0, 0, 0));
    assert_eq!(store.report_cancel(7, "ada", later(92)).await, Ok(Some(ReportState::Running)));
    assert_eq!(
        store.report_begin(begin("four", false), later(93)).await,
        Ok(Begun::Cancelled { note: "ada".into() })
    );
    shop.is_sound().await;
}

/// Whatever becomes of the new one, the morning keeps the report that it had.
#[tokio::test(flavor = "multi_thread")]
async fn what_is_done_stays_until_the_next_one_is() {
    let shop = Shop::with(Options { clock: Clock::Given, ..Options::default() }).await;
    let store = &shop.store;
    let noon = At(1_770_000_000_000_000);
    let later = |seconds: i64| noon.after_seconds(seconds);
    let done = async || {
        let kept = store.report_get(7).await.unwrap().unwrap();
        let last = store.report_last_done(8).await.unwrap().unwrap();
        assert_eq!(kept.done(), last.done());
        kept.done().map(|(started, body)| (started, body.to_vec()))
    };
    store.report_begin(begin("one", false), noon).await.unwrap();
    store.report_finish(7, "one", b"old".to_vec(), later(1)).await.unwrap().unwrap();
    let old = Some((noon, b"old".to_vec()));
    store.report_begin(begin("two", true), later(2)).await.unwrap();
    assert_eq!(done().await, old, "while it is made");
    store.report_cancel(7, "ada", later(3)).await.unwrap();
    assert_eq!(done().await, old, "once it is called off");
    store.report_begin(begin("three", true), later(4)).await.unwrap();
    store.report_fail(7, "three", "full", later(5)).await.unwrap().unwrap();
    assert_eq!(done().await, old, "once it has failed");
    store.report_begin(begin("four", true), later(6)).await.unwrap();
    store.report_finish(7, "four", b"new".to_vec(), later(7)).await.unwrap().unwrap();
    assert_eq!(done().await, Some((later(6), b"new".to_vec())));
    assert_eq!(store.report_get(7).await.unwrap().unwrap().earlier, None);
    // one that is handed back is anybody's at once, with its parts by the same catalogue alone
    store.report_begin(begin("five", true), later(8)).await.unwrap();
    store.report_step(step("five", "kelp", 1), later(9)).await.unwrap().unwrap();
    assert_eq!(store.report_hold(7, "five", 60, later(10)).await, Ok(Ok(later(70))));
    assert_eq!(store.report_hold(7, "five", 0, later(11)).await, Ok(Ok(later(11))));
    let Ok(Begun::Mine { parts }) = store.report_begin(begin("six", false), later(11)).await else {
        panic!("it is taken over")
    };
    assert_eq!(parts.len(), 1);
    let other = Begin { revision: "r2".into(), ..begin("six", false) };
    assert_eq!(store.report_begin(other, later(12)).await, Ok(Begun::Mine { parts: vec![] }));
    // and one of a clock that was ahead is none
    assert_eq!(store.report_disown(7, "ahead", later(12)).await, Ok(false));
    assert_eq!(store.report_disown(7, "ahead", later(-3_600)).await, Ok(true));
    let kept = store.report_get(7).await.unwrap().unwrap();
    assert_eq!((kept.done(), kept.head.note.as_str()), (None, "ahead"));
    shop.is_sound().await;
}

#[tokio::test(flavor = "multi_thread")]
async fn the_databases_clock_judges_leases() {
    let shop = Shop::new().await;
    let other = Store::open(&shop.database.url(), Options::default()).await.unwrap();
    shop.store.report_begin(begin("one", false), WRONG).await.unwrap();
    // whatever another server's clock says
    let ahead = At(i64::MAX / 2);
    assert!(matches!(other.report_begin(begin("two", false), ahead).await, Ok(Begun::Running { .. })));
    shop.ask("UPDATE report SET lease_until = started");
    assert!(matches!(other.report_begin(begin("two", false), WRONG).await, Ok(Begun::Mine { .. })));
    let lost = Lost::Taken { by: "two".into() };
    assert_eq!(shop.store.report_step(step("one", "kelp", 1), ahead).await, Ok(Err(lost)));
    assert_eq!(other.report_fail(7, "two", "no zone", WRONG).await, Ok(Ok(())));
    assert_eq!(
        shop.store.report_begin(begin("one", false), WRONG).await,
        Ok(Begun::Failed { note: "no zone".into() })
    );
}

#[tokio::test(flavor = "multi_thread")]
async fn days_are_listed_the_latest_first() {
    let shop = Shop::new().await;
    for day in 1..=5 {
        shop.store.report_begin(Begin { day, ..begin("one", false) }, WRONG).await.unwrap();
        if day % 2 == 0 {
            let body = day.to_string().into_bytes();
            shop.store.report_finish(day, "one", body, WRONG).await.unwrap().unwrap();
        }
    }
    let days =
        |heads: Vec<crate::rules::report::ReportHead>| heads.iter().map(|head| head.day).collect::<Vec<_>>();
    assert_eq!(days(shop.store.report_list(2, 4, 100).await.unwrap()), [4, 3, 2]);
    assert_eq!(days(shop.store.report_list(i32::MIN, i32::MAX, 2).await.unwrap()), [5, 4]);
    assert_eq!(shop.store.report_last_done(4).await.unwrap().unwrap().body, b"2");
    assert_eq!(shop.store.report_last_done(2).await, Ok(None));
    assert_eq!(shop.store.verify().await.unwrap().reports, 5);
    shop.ask("INSERT INTO report_part (day, code, at, body) VALUES (1, 'kelp', 0, '')");
    shop.is_sound().await;
}

/// Of many servers that begin at once, where there is nothing yet, where a lease is over, and
/// where it is to be begun anew, one runs it.
#[tokio::test(flavor = "multi_thread", worker_threads = 4)]
async fn of_many_who_begin_one_runs_it() {
    let shop = Shop::new().await;
    let other = Store::open(&shop.database.url(), Options::default()).await.unwrap();
    for round in 0..3 {
        let mut tasks = Vec::new();
        for runner in 0..16 {
            let store = if runner % 2 == 0 { shop.store.clone() } else { other.clone() };
            let ask = begin(&format!("runner {round} {runner}"), true);
            tasks.push(tokio::spawn(async move { store.report_begin(ask, WRONG).await.unwrap() }));
        }
        let mut mine = 0;
        for task in tasks {
            mine += u32::from(matches!(task.await.expect("no panic"), Begun::Mine { .. }));
        }
        assert_eq!(mine, 1, "round {round}");
        let next = [
            "UPDATE report SET lease_until = 0",
            "UPDATE report SET state = 'failed', finished = 1",
            "SELECT 1",
        ];
        shop.ask(next[round]);
    }
}

/// While a run is stepped, commands are carried out; and a run that is locked by somebody else is
/// nothing to them.
#[tokio::test(flavor = "multi_thread", worker_threads = 4)]
async fn a_run_keeps_nobody_from_the_stock() {
    let shop = Shop::with(Options { before_commit: BeforeCommit::default(), ..Options::default() }).await;
    done(&shop.store, receive(vec![bolt("B1", 90_000)])).await;
    shop.store.report_begin(begin("one", false), WRONG).await.unwrap();
    let url = shop.database.url();
    let held = tokio::task::spawn_blocking({
        let database = std::sync::Arc::new(shop);
        let asked = std::sync::Arc::clone(&database);
        move || {
            asked.ask("BEGIN; SELECT day FROM report FOR UPDATE; SELECT pg_sleep(1.5); COMMIT");
            database
        }
    });
    let store = Store::open(&url, Options::default()).await.unwrap();
    tokio::time::sleep(std::time::Duration::from_millis(300)).await;
    let begun = std::time::Instant::now();
    for number in 0..20 {
        done(&store, reserve(&format!("R{number}"), &[("B1", 10)])).await;
    }
    assert!(begun.elapsed() < std::time::Duration::from_millis(1_100), "{:?}", begun.elapsed());
    let shop = held.await.expect("no panic");
    assert!(shop.store.report_step(step("one", "kelp", 1), WRONG).await.unwrap().is_ok());
    shop.is_sound().await;
}
