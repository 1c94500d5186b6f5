//! A request that comes again gets the first answer and changes nothing.

use std::time::{Duration, Instant};

use super::proxy::Proxy;
use super::{BeforeCommit, CONFLICT, Shop, asked, bolt, done, mm, receive, reserve};
use crate::engine::Error;
use crate::postgres::{Options, Store};
use crate::rules::Refusal;

#[tokio::test(flavor = "multi_thread")]
async fn twenty_of_the_same_at_once_are_one() {
    let shop = Shop::new().await;
    done(&shop.store, receive(vec![bolt("B1", 10_000)])).await;
    let mut tasks = Vec::new();
    for _ in 0..20 {
        let store = shop.store.clone();
        let same = asked("key", 1, reserve("R1", &[("B1", 300)]));
        tasks.push(tokio::spawn(async move { done(&store, same).await }));
    }
    let mut answers = Vec::new();
    for task in tasks {
        answers.push(task.await.unwrap());
    }
    assert_eq!(answers.iter().filter(|answer| !answer.replayed).count(), 1);
    assert!(answers.iter().all(|answer| answer.outcome == answers[0].outcome));
    assert_eq!(shop.ask("SELECT count(*) FROM movement WHERE kind = 'reserve'"), "1");
    assert_eq!(shop.store.piece(&"B1".into()).await.unwrap().unwrap().held, mm(300));
    let known = asked("key", 1, reserve("R1", &[])).request.unwrap();
    assert_eq!(shop.store.recall(&known).await.unwrap().unwrap(), answers[0].outcome);
    shop.is_sound().await;
}

#[tokio::test(flavor = "multi_thread")]
async fn a_key_is_for_one_thing_and_a_refusal_does_not_use_it() {
    let shop = Shop::new().await;
    done(&shop.store, receive(vec![bolt("B1", 1_000)])).await;
    let too_much = asked("key", 1, reserve("R1", &[("B1", 2_000)]));
    assert!(matches!(shop.store.apply(too_much, None).await, Err(Error::Refused(Refusal::Taken(_)))));
    assert_eq!(shop.ask("SELECT count(*) FROM request"), "0");
    done(&shop.store, asked("key", 2, reserve("R1", &[("B1", 500)]))).await;
    let other = asked("key", 1, reserve("R2", &[("B1", 100)]));
    assert_eq!(shop.store.apply(other.clone(), None).await, Err(Error::KeyReused));
    assert_eq!(shop.store.recall(&other.request.unwrap()).await, Err(Error::KeyReused));
    let unknown = asked("another", 1, reserve("R2", &[])).request.unwrap();
    assert_eq!(shop.store.recall(&unknown).await, Ok(None));
    shop.is_sound().await;
}

#[tokio::test(flavor = "multi_thread")]
async fn the_same_that_runs_all_the_while_is_said() {
    // the first one sits in its transaction until it is waved on
    let wait = "SELECT pg_sleep(1.5)";
    let slow = Options { before_commit: BeforeCommit::new(move |_| Some(wait)), ..Options::default() };
    let shop = Shop::new().await;
    done(&shop.store, receive(vec![bolt("B1", 10_000)])).await;
    let elsewhere = Store::open(&shop.database.url(), slow).await.unwrap();
    let first =
        tokio::spawn(
            async move { elsewhere.apply(asked("key", 1, reserve("R1", &[("B1", 300)])), None).await },
        );
    while shop.ask("SELECT count(*) FROM pg_stat_activity WHERE query LIKE '%pg_sleep(1.5)' AND state = 'active' AND datname = current_database()") == "0" {
        tokio::task::yield_now().await;
    }
    let soon = Instant::now() + Duration::from_millis(300);
    let second = shop.store.apply(asked("key", 1, reserve("R1", &[("B1", 300)])), Some(soon)).await;
    assert_eq!(second, Err(Error::InProgress));
    assert!(Instant::now() < soon + Duration::from_millis(500), "the deadline is kept");
    // with more time it waits and gets the first answer
    let third = done(&shop.store, asked("key", 1, reserve("R1", &[("B1", 300)]))).await;
    assert!(third.replayed);
    assert_eq!(first.await.unwrap().unwrap().outcome, third.outcome);
    shop.is_sound().await;
}

#[tokio::test(flavor = "multi_thread")]
async fn a_commit_whose_answer_is_lost_is_answered_by_its_request() {
    let shop = Shop::new().await;
    done(&shop.store, receive(vec![bolt("B1", 10_000)])).await;
    let proxy = Proxy::start(shop.database.port()).await;
    let through = Store::open(&shop.database.url_by(proxy.port()), Options::default()).await.unwrap();

    proxy.lose_the_next_commit();
    let answer = done(&through, asked("key", 1, reserve("R1", &[("B1", 300)]))).await;
    assert_eq!(proxy.lost(), 1);
    assert!(!answer.replayed, "it is the first answer that its caller hears");
    assert_eq!(shop.ask("SELECT count(*) FROM movement WHERE kind = 'reserve'"), "1");
    assert!(done(&through, asked("key", 1, reserve("R1", &[("B1", 300)]))).await.replayed);

    // without a request nobody can know
    proxy.lose_the_next_commit();
    let answer = through.apply(reserve("R2", &[("B1", 300)]), None).await;
    assert!(matches!(answer, Err(Error::Unavailable(_))), "{answer:?}");
    assert_eq!(shop.ask("SELECT count(*) FROM reservation"), "2");
    shop.is_sound().await;
}

#[tokio::test(flavor = "multi_thread")]
async fn conflicts_before_commits_are_tried_again_with_their_decisions() {
    let hook = BeforeCommit::new(|before| (before % 3 != 2).then_some(CONFLICT));
    let shop = Shop::with(Options { before_commit: hook.clone(), ..Options::default() }).await;
    done(&shop.store, receive(vec![bolt("B1", 1_000)])).await;
    for number in 0..5 {
        let answer = done(
            &shop.store,
            asked(&format!("k{number}"), 1, reserve(&format!("R{number}"), &[("B1", 200)])),
        );
        assert!(!answer.await.replayed);
    }
    assert_eq!(hook.times(), 18, "each of six was tried three times");
    assert!(shop.store.apply(reserve("R9", &[("B1", 200)]), None).await.is_err());
    assert_eq!(shop.ask("SELECT count(*), sum(amount) FROM movement WHERE kind = 'reserve'"), "5|1000000");
    shop.is_sound().await;
}

#[tokio::test(flavor = "multi_thread")]
async fn a_conflict_that_lasts_ends_with_the_deadline() {
    let hook = BeforeCommit::new(|_| Some(CONFLICT));
    let shop = Shop::with(Options { before_commit: hook.clone(), ..Options::default() }).await;
    let soon = Instant::now() + Duration::from_millis(400);
    assert_eq!(shop.store.apply(receive(vec![bolt("B1", 1_000)]), Some(soon)).await, Err(Error::Late));
    assert!(Instant::now() < soon + Duration::from_millis(500));
    assert!(hook.times() > 2);
    let over = shop.store.apply(receive(vec![bolt("B1", 1_000)]), Some(Instant::now())).await;
    assert_eq!(over, Err(Error::Late));
    assert_eq!(shop.ask("SELECT count(*) FROM piece"), "0");
}
