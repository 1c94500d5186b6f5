//! The same request again.

use super::*;

#[tokio::test(flavor = "multi_thread", worker_threads = 4)]
async fn invariant_08_twenty_times_the_same_request_is_one_change() {
    let loft = Loft::new();
    loft.done(receive(vec![bolt("B1", cm(1_000))])).await;
    let before = loft.store.last_place().await.expect("a look");
    let asking: Vec<_> = (0..20)
        .map(|turn| {
            let store = loft.store.clone();
            // each names another reservation: only the first one's is made
            let command = reserve(&format!("R{turn}"), &[("B1", cm(30))]);
            tokio::spawn(async move { store.apply(asked("same", 1, command), None).await })
        })
        .collect();
    let mut told = Vec::new();
    for asked in asking {
        told.push(asked.await.expect("no panic").expect("an answer"));
    }
    assert_eq!(told.iter().filter(|applied| !applied.replayed).count(), 1);
    assert!(told.iter().all(|applied| applied.outcome == told[0].outcome));
    assert_eq!(loft.store.last_place().await.expect("a look"), before + 1);
    assert_eq!(loft.store.movements(&"B1".into(), 0, 9).await.expect("a look").len(), 2);
    loft.sound().await;
}

#[tokio::test]
async fn a_key_is_for_one_request() {
    let loft = Loft::new();
    let first = asked("k", 1, receive(vec![bolt("B1", cm(100))]));
    let request = first.request.clone().expect("a request");
    assert_eq!(loft.store.recall(&request).await, Ok(None));
    let applied = loft.store.apply(first, None).await.expect("it comes");
    assert_eq!(loft.store.recall(&request).await, Ok(Some(applied.outcome)));
    let other = asked("k", 2, receive(vec![bolt("B2", cm(100))]));
    assert_eq!(loft.store.recall(other.request.as_ref().expect("a request")).await, Err(Error::KeyReused));
    assert_eq!(loft.store.apply(other, None).await, Err(Error::KeyReused));
    // another scope has keys of its own
    let mut elsewhere = asked("k", 2, receive(vec![bolt("B2", cm(100))]));
    elsewhere.request.as_mut().expect("a request").scope = "office".into();
    assert!(!loft.store.apply(elsewhere, None).await.expect("it comes").replayed);
}

/// A refusal is not kept: the same request may do later.
#[tokio::test]
async fn a_refusal_is_not_kept() {
    let loft = Loft::new();
    let command = || asked("k", 1, reserve("R1", &[("B1", cm(30))]));
    assert!(matches!(loft.store.apply(command(), None).await, Err(Error::Refused(_))));
    loft.done(receive(vec![bolt("B1", cm(100))])).await;
    assert!(!loft.store.apply(command(), None).await.expect("now it may").replayed);
    assert!(loft.store.apply(command(), None).await.expect("again").replayed);
}
