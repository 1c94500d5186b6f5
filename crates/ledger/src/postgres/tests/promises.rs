//! Nothing is sold twice, whoever asks at once.

use std::sync::Arc;
use std::time::Duration;

use tokio::sync::Barrier;

use super::{Shop, asked, bolt, command, confirm, done, hold, mm, receive, release, reserve};
use crate::engine::{Applied, Error};
use crate::postgres::{Clock, Options, Store};
use crate::rules::{At, Command, Envelope, Refusal, Reserve, State, Sweep};

/// All at the same instant; their answers in the order of the commands.
async fn at_once(store: &Store, commands: Vec<Envelope>) -> Vec<Result<Applied, Error>> {
    let barrier = Arc::new(Barrier::new(commands.len()));
    let mut tasks = Vec::new();
    for envelope in commands {
        let (store, barrier) = (store.clone(), Arc::clone(&barrier));
        tasks.push(tokio::spawn(async move {
            barrier.wait().await;
            store.apply(envelope, None).await
        }));
    }
    let mut answers = Vec::new();
    for task in tasks {
        answers.push(task.await.expect("no task panics"));
    }
    answers
}

fn taken(answers: &[Result<Applied, Error>]) -> usize {
    for answer in answers {
        assert!(
            matches!(answer, Ok(_) | Err(Error::Refused(Refusal::Taken(_)))),
            "nobody hears of anything but cloth: {answer:?}"
        );
    }
    answers.iter().filter(|answer| answer.is_ok()).count()
}

#[tokio::test(flavor = "multi_thread")]
async fn one_of_a_hundred_gets_the_last_metre() {
    let shop = Shop::new().await;
    done(&shop.store, receive(vec![bolt("B1", 1_000)])).await;
    let wanted = (0..100).map(|number| reserve(&format!("R{number}"), &[("B1", 1_000)])).collect();
    assert_eq!(taken(&at_once(&shop.store, wanted).await), 1);
    assert_eq!(shop.store.piece(&"B1".into()).await.unwrap().unwrap().held, mm(1_000));
    shop.is_sound().await;
}

#[tokio::test(flavor = "multi_thread")]
async fn ten_metres_are_thirty_three_times_thirty_centimetres() {
    let shop = Shop::new().await;
    // another server on the same database
    let other = Store::open(&shop.database.url(), Options::default()).await.unwrap();
    done(&shop.store, receive(vec![bolt("B1", 10_000)])).await;
    let wanted = |server: char| {
        (0..50).map(|number| reserve(&format!("{server}{number}"), &[("B1", 300)])).collect::<Vec<_>>()
    };
    let (here, there) = tokio::join!(at_once(&shop.store, wanted('h')), at_once(&other, wanted('t')));
    assert_eq!(taken(&here) + taken(&there), 33);
    let bolt = shop.store.piece(&"B1".into()).await.unwrap().unwrap();
    assert_eq!((bolt.left, bolt.held, bolt.free()), (mm(10_000), mm(9_900), mm(100)));
    shop.is_sound().await;
}

#[tokio::test(flavor = "multi_thread")]
async fn baskets_that_cross_never_stand_in_each_others_way() {
    let shop = Shop::new().await;
    done(&shop.store, receive(vec![bolt("A", 600_000), bolt("B", 600_000)])).await;
    let mut tasks = Vec::new();
    for worker in 0..8 {
        let store = shop.store.clone();
        tasks.push(tokio::spawn(async move {
            for number in 0..125 {
                let id = format!("R{worker}-{number}");
                let lines = if worker % 2 == 0 { [("A", 300), ("B", 400)] } else { [("B", 400), ("A", 300)] };
                done(&store, reserve(&id, &lines)).await;
                // most are let go again, while others take
                done(&store, if number % 25 == 0 { confirm(&id) } else { release(&id) }).await;
            }
        }));
    }
    for task in tasks {
        task.await.expect("no caller hears of a deadlock");
    }
    let kept = 8 * 5;
    let pieces = [("A", kept * 300), ("B", kept * 400)];
    for (piece, confirmed) in pieces {
        let piece = shop.store.piece(&piece.into()).await.unwrap().unwrap();
        assert_eq!((piece.held, piece.confirmed), (mm(0), mm(confirmed)));
    }
    shop.is_sound().await;
}

#[tokio::test(flavor = "multi_thread")]
async fn a_holder_has_as_many_holds_as_may_be_and_no_more() {
    let shop = Shop::new().await;
    // different pieces: nothing but the holder is shared
    done(&shop.store, receive((0..50).map(|number| bolt(&format!("B{number}"), 1_000)).collect())).await;
    let wanted = (0..50)
        .map(|number| {
            let mine = hold(&format!("R{number}"), &[(&format!("B{number}"), 500)]);
            command(Command::Reserve(Reserve { holder: "one".to_owned(), most_holds: Some(5), ..mine }))
        })
        .collect();
    let answers = at_once(&shop.store, wanted).await;
    assert_eq!(answers.iter().filter(|answer| answer.is_ok()).count(), 5);
    let refused = answers
        .iter()
        .filter(|answer| matches!(answer, Err(Error::Refused(Refusal::TooManyHolds(5)))))
        .count();
    assert_eq!(refused, 45, "{answers:?}");
    shop.is_sound().await;
}

#[tokio::test(flavor = "multi_thread")]
async fn the_same_new_name_at_once_is_taken_once() {
    let shop = Shop::new().await;
    let same = |_| receive(vec![bolt("B1", 1_000)]);
    let answers = at_once(&shop.store, (0..16).map(same).collect()).await;
    assert_eq!(answers.iter().filter(|answer| answer.is_ok()).count(), 1);
    let exists = |answer: &&_| matches!(answer, Err(Error::Refused(Refusal::PieceExists(_))));
    assert_eq!(answers.iter().filter(exists).count(), 15, "{answers:?}");
    shop.is_sound().await;
}

#[tokio::test(flavor = "multi_thread")]
async fn the_databases_clock_ends_a_hold() {
    let shop = Shop::new().await;
    done(&shop.store, receive(vec![bolt("B1", 1_000), bolt("B2", 1_000)])).await;
    // the door's clock is years off; only the database's counts
    let mut held =
        command(Command::Reserve(Reserve { seconds: 1, ..hold("R1", &[("B1", 1_000), ("B2", 600)]) }));
    held.at = At(0);
    let expires = done(&shop.store, held).await.outcome.reservation.unwrap().expires;
    let mut early = reserve("R2", &[("B1", 1_000)]);
    early.at = At(i64::MAX);
    assert!(matches!(shop.store.apply(early, None).await, Err(Error::Refused(Refusal::Taken(_)))));

    shop.ask(&format!(
        "SELECT pg_sleep(greatest(0, {} / 1000000.0 - extract(epoch FROM clock_timestamp())))",
        expires.0
    ));
    let mut late = reserve("R3", &[("B1", 1_000)]);
    late.at = At(0);
    let answer = done(&shop.store, late).await.outcome;
    assert_eq!(answer.ended, ["R1".into()]);
    // its other piece is free as well, though nobody asked for that
    assert_eq!(shop.store.piece(&"B2".into()).await.unwrap().unwrap().held, mm(0));
    assert_eq!(shop.store.reservation(&"R1".into()).await.unwrap().unwrap().state, State::Expired);
    let refused = shop.store.apply(confirm("R1"), None).await;
    assert_eq!(refused, Err(Error::Refused(Refusal::Expired("R1".into(), expires))));
    shop.is_sound().await;
}

#[tokio::test(flavor = "multi_thread")]
async fn the_given_clock_judges_where_that_is_wanted() {
    let shop = Shop::with(Options { clock: Clock::Given, ..Options::default() }).await;
    done(&shop.store, receive(vec![bolt("B1", 1_000)])).await;
    let at = |micros: i64, what: Envelope| Envelope { at: At(micros), ..what };
    done(&shop.store, at(0, reserve("R1", &[("B1", 1_000)]))).await;
    let just_before = at(1_800_000_000 - 1, reserve("R2", &[("B1", 1_000)]));
    assert!(shop.store.apply(just_before, None).await.is_err());
    assert_eq!(
        done(&shop.store, at(1_800_000_000, reserve("R3", &[("B1", 1_000)]))).await.outcome.ended.len(),
        1
    );
    shop.is_sound().await;
}

#[tokio::test(flavor = "multi_thread")]
async fn sweeps_at_once_end_each_hold_once() {
    let shop = Shop::with(Options { clock: Clock::Given, ..Options::default() }).await;
    done(&shop.store, receive(vec![bolt("B1", 100_000), bolt("B2", 100_000)])).await;
    for number in 0..60 {
        let id = format!("R{number}");
        done(&shop.store, reserve(&id, &[("B1", 100), ("B2", 100)])).await;
    }
    let sweep = || {
        let mut sweep = command(Command::Sweep(Sweep { most: 60 }));
        sweep.at = sweep.at.after_seconds(1_800);
        sweep
    };
    let answers = at_once(&shop.store, (0..4).map(|_| sweep()).collect()).await;
    let ended: usize = answers.iter().map(|answer| answer.as_ref().unwrap().outcome.ended.len()).sum();
    assert_eq!(ended, 60);
    shop.is_sound().await;
}

#[tokio::test(flavor = "multi_thread")]
async fn one_connection_is_enough_for_everything() {
    let shop = Shop::with(Options { connections: 1, ..Options::default() }).await;
    done(&shop.store, asked("k", 1, receive(vec![bolt("B1", 10_000)]))).await;
    let wanted = (0..40).map(|number| reserve(&format!("R{number}"), &[("B1", 300)])).collect();
    let (taken_of_it, events, shelf) =
        tokio::join!(at_once(&shop.store, wanted), shop.store.events(0, 10), shop.store.read_shelf());
    assert_eq!(taken(&taken_of_it), 33);
    assert!(events.is_ok() && shelf.is_ok());
    shop.is_sound().await;
}

/// Few connections and many who want one: everybody is answered, and nobody holds one while waiting
/// for another.
#[tokio::test(flavor = "multi_thread")]
async fn four_connections_serve_four_hundred_callers() {
    let shop =
        Shop::with(Options { connections: 4, patience: Duration::from_mins(1), ..Options::default() }).await;
    done(&shop.store, receive(vec![bolt("B1", 100_000), bolt("B2", 50_000)])).await;
    let wanted = (0..400)
        .map(|number| {
            asked(&format!("k{number}"), 1, reserve(&format!("R{number}"), &[("B2", 100), ("B1", 200)]))
        })
        .collect();
    let answers = at_once(&shop.store, wanted).await;
    assert_eq!(taken(&answers), 400);
    let piece = shop.store.piece(&"B2".into()).await.unwrap().unwrap();
    assert_eq!((piece.held, piece.free()), (mm(40_000), mm(10_000)));
    shop.is_sound().await;
}
