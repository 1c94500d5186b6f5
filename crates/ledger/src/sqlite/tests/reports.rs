//! Runs of the report in a file.

use rusqlite::Connection;

use super::super::restore;
use super::*;
use crate::rules::report::{Again, Begin, Begun, Lost, ReportState, Step};

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

fn later(seconds: i64) -> At {
    NOON.after_seconds(seconds)
}

/// From the beginning to the end: taken over with its parts, told to whom it concerns, done.
#[tokio::test]
async fn a_run_is_taken_over_with_its_parts_and_done_once() {
    let loft = Loft::new();
    let store = &loft.store;
    assert_eq!(store.report_get(7).await, Ok(None));
    assert_eq!(store.report_begin(begin("one", false), NOON).await, Ok(Begun::Mine { parts: vec![] }));
    assert_eq!(store.report_step(step("one", "tern", 1), later(10)).await, Ok(Ok(later(70))));
    // the same part again takes its place
    assert_eq!(store.report_step(step("one", "tern", 2), later(20)).await, Ok(Ok(later(80))));
    let told = Begun::Running { by: "one".into(), until: later(80), done: 2, of: 2 };
    assert_eq!(store.report_begin(begin("two", true), later(79)).await, Ok(told));
    // a clock that is put back keeps it with its runner
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
    assert_eq!(store.report_finish(7, "two", b"all".to_vec(), later(84)).await, Ok(Ok(())), "told twice");
    let report = store.report_get(7).await.expect("a look").expect("it is there");
    let head = &report.head;
    assert_eq!((head.state, head.started, head.finished), (ReportState::Done, NOON, Some(later(83))));
    assert_eq!((head.runner.as_str(), head.done, head.of), ("two", 2, 2));
    let codes: Vec<&str> = report.parts.iter().map(|part| part.code.as_str()).collect();
    assert_eq!((codes, report.body.as_slice()), (vec!["kelp", "tern"], &b"all"[..]));
    assert_eq!(
        store.report_begin(begin("three", false), later(90)).await,
        Ok(Begun::Done { finished: later(83) })
    );
    // anew: without its parts and its report
    assert_eq!(store.report_begin(begin("three", true), later(91)).await, Ok(Begun::Mine { parts: vec![] }));
    let report = store.report_get(7).await.expect("a look").expect("it is there");
    assert_eq!((report.parts.len(), report.body.len(), report.head.done), (0, 0, 0));
    loft.sound().await;
}

/// Whatever becomes of the new one, the morning keeps the report that it had.
#[tokio::test]
async fn what_is_done_stays_until_the_next_one_is() {
    let loft = Loft::new();
    let store = &loft.store;
    let done = async || {
        let kept = store.report_get(7).await.expect("a look").expect("it is there");
        let last = store.report_last_done(8).await.expect("a look").expect("there is one");
        assert_eq!(kept.done(), last.done());
        kept.done().map(|(started, body)| (started, body.to_vec()))
    };
    store.report_begin(begin("one", false), NOON).await.expect("begun");
    store.report_finish(7, "one", b"old".to_vec(), later(1)).await.expect("kept").expect("its own");
    let old = Some((NOON, b"old".to_vec()));
    store.report_begin(begin("two", true), later(2)).await.expect("begun");
    assert_eq!(done().await, old, "while it is made");
    store.report_cancel(7, "ada", later(3)).await.expect("called off");
    assert_eq!(done().await, old, "once it is called off");
    store.report_begin(begin("three", true), later(4)).await.expect("begun");
    store.report_fail(7, "three", "full", later(5)).await.expect("kept").expect("its own");
    assert_eq!(done().await, old, "once it has failed");
    store.report_begin(begin("four", true), later(6)).await.expect("begun");
    store.report_finish(7, "four", b"new".to_vec(), later(7)).await.expect("kept").expect("its own");
    assert_eq!(done().await, Some((later(6), b"new".to_vec())));
    assert_eq!(store.report_get(7).await.expect("a look").expect("there").earlier, None);
    // one that is handed back is anybody's at once, with its parts by the same catalogue alone
    store.report_begin(begin("five", true), later(8)).await.expect("begun");
    store.report_step(step("five", "kelp", 1), later(9)).await.expect("kept").expect("its own");
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
    let kept = store.report_get(7).await.expect("a look").expect("it is there");
    assert_eq!((kept.done(), kept.head.note.as_str()), (None, "ahead"));
    loft.sound().await;
}

#[tokio::test]
async fn what_fails_or_is_called_off_says_so() {
    let loft = Loft::new();
    let store = &loft.store;
    assert_eq!(store.report_cancel(7, "ada", NOON).await, Ok(None));
    store.report_begin(begin("one", false), NOON).await.expect("begun");
    assert_eq!(store.report_fail(7, "one", "no zone", later(1)).await, Ok(Ok(())));
    assert_eq!(
        store.report_begin(begin("two", false), later(2)).await,
        Ok(Begun::Failed { note: "no zone".into() })
    );
    store.report_begin(begin("two", true), later(3)).await.expect("begun");
    assert_eq!(store.report_cancel(7, "ada", later(4)).await, Ok(Some(ReportState::Running)));
    let lost = Lost::Ended(ReportState::Cancelled);
    assert_eq!(store.report_step(step("two", "kelp", 1), later(5)).await, Ok(Err(lost.clone())));
    assert_eq!(store.report_finish(7, "two", vec![], later(5)).await, Ok(Err(lost)));
    assert_eq!(
        store.report_begin(begin("three", false), later(6)).await,
        Ok(Begun::Cancelled { note: "ada".into() })
    );
    assert_eq!(store.report_cancel(7, "bo", later(7)).await, Ok(Some(ReportState::Cancelled)));
}

#[tokio::test]
async fn days_are_listed_the_latest_first() {
    let loft = Loft::new();
    let store = &loft.store;
    for day in 1..=5 {
        store.report_begin(Begin { day, ..begin("one", false) }, later(day.into())).await.expect("begun");
        if day % 2 == 0 {
            let body = day.to_string().into_bytes();
            store.report_finish(day, "one", body, later(day.into())).await.expect("kept").expect("its own");
        }
    }
    let days =
        |heads: Vec<crate::rules::report::ReportHead>| heads.iter().map(|head| head.day).collect::<Vec<_>>();
    assert_eq!(days(store.report_list(2, 4, 100).await.expect("a look")), [4, 3, 2]);
    assert_eq!(days(store.report_list(i32::MIN, i32::MAX, 2).await.expect("a look")), [5, 4]);
    assert_eq!(store.report_last_done(4).await.expect("a look").expect("there is one").body, b"2");
    assert_eq!(store.report_last_done(5).await.expect("a look").expect("there is one").head.day, 4);
    assert_eq!(store.report_last_done(2).await, Ok(None));
    assert_eq!(store.verify().await.expect("looked through").reports, 5);
}

/// Of many who begin at once, in two stores on one file, one runs it.
#[tokio::test(flavor = "multi_thread", worker_threads = 4)]
async fn of_many_who_begin_one_runs_it() {
    let loft = Loft::new();
    let other = Store::open(&loft.file(), Options { durability: Durability::Off, ..Options::default() })
        .expect("it opens");
    let mut tasks = Vec::new();
    for runner in 0..20 {
        let store = if runner % 2 == 0 { loft.store.clone() } else { other.clone() };
        let ask = begin(&format!("runner {runner}"), runner % 3 == 0);
        tasks.push(tokio::spawn(async move { store.report_begin(ask, NOON).await.expect("an answer") }));
    }
    let mut mine = 0;
    for task in tasks {
        mine += u32::from(matches!(task.await.expect("no panic"), Begun::Mine { .. }));
    }
    assert_eq!(mine, 1);
}

/// A copy has the runs, and so has a store put back from it; a row that hangs loose is named.
#[tokio::test]
async fn copies_have_the_runs_and_verify_knows_them() {
    let loft = Loft::new();
    loft.store.report_begin(begin("one", false), NOON).await.expect("begun");
    loft.store.report_step(step("one", "kelp", 1), NOON).await.expect("kept").expect("its own");
    let copy = loft.folder.path().join("copy.db");
    loft.store.backup(&copy).await.expect("a copy");
    let before = loft.store.report_get(7).await;
    loft.store.close().await;
    let found = restore(&copy, &loft.file(), &loft.folder.path().join("old.db")).expect("put back");
    assert_eq!(found.verified.reports, 1);
    let store = Store::open(&loft.file(), Options { durability: Durability::Off, ..Options::default() })
        .expect("it opens");
    assert_eq!(store.report_get(7).await, before);
    let other = Connection::open(loft.file()).expect("it opens");
    other.execute_batch("PRAGMA foreign_keys = OFF; DELETE FROM report").expect("done");
    let drift = store.verify().await.expect("looked through").drift;
    assert_eq!(drift, ["report of day 7: there are parts of it, and no run"]);
}

/// While runs are begun and stepped, commands are carried out: a step is one short transaction.
#[tokio::test(flavor = "multi_thread", worker_threads = 4)]
async fn a_run_keeps_nobody_from_the_stock() {
    let loft = Loft::new();
    loft.done(receive(vec![bolt("B1", cm(9_000))])).await;
    loft.store.report_begin(begin("one", false), NOON).await.expect("begun");
    let store = loft.store.clone();
    let steps = tokio::spawn(async move {
        for number in 0..200 {
            let body = vec![7; 20_000];
            let step = Step { body, ..step("one", &format!("code {number}"), number) };
            store.report_step(step, NOON).await.expect("kept").expect("its own");
        }
    });
    for number in 0..200 {
        loft.done(reserve(&format!("R{number}"), &[("B1", cm(1))])).await;
    }
    steps.await.expect("no panic");
    // work that panics, or breaks a rule, takes nothing else with it
    let broken =
        loft.store.report_begin(Begin { day: 8, lease_seconds: i64::MAX, ..begin("one", false) }, NOON).await;
    assert!(broken.is_ok(), "a lease without end lasts as long as instants do: {broken:?}");
    loft.sound().await;
}
