//! A clock that is set back or forwards.

use super::*;
use crate::rules::{Refusal, State};

#[tokio::test]
async fn a_clock_set_back_and_forwards_sells_nothing_twice() {
    let loft = Loft::new();
    let store = &loft.store;
    store.apply(at(NOON, receive(vec![bolt("B1", cm(100))])), None).await.expect("it comes");
    store.apply(at(NOON, reserve("R1", &[("B1", cm(60))])), None).await.expect("held for 900 s");
    // an hour back: R1 is taken after it ends, and stands
    let back = NOON.after_seconds(-3_600);
    let refused = store.apply(at(back, reserve("R2", &[("B1", cm(60))])), None).await;
    assert!(matches!(refused, Err(Error::Refused(Refusal::Taken(_)))));
    // an hour on: R1 is over, R3 takes its cloth, and R1 stays over when the clock is put right
    let on = NOON.after_seconds(3_600);
    store.apply(at(on, reserve("R3", &[("B1", cm(60))])), None).await.expect("free again");
    let right = NOON.after_seconds(60);
    let told = store.apply(at(right, confirm("R1")), None).await;
    assert!(matches!(told, Err(Error::Refused(Refusal::Expired(..)))), "{told:?}");
    let state = store.reservation(&"R1".into()).await.expect("a look").expect("it").state;
    assert_eq!(state, State::Expired);
    // movements and events are in the order in which they were written, whatever the clock said
    let ats: Vec<i64> =
        store.movements(&"B1".into(), 0, 10).await.expect("a look").iter().map(|moved| moved.at.0).collect();
    assert_eq!(ats, [NOON.0, NOON.0, on.0, on.0]);
    let places: Vec<i64> =
        store.events(0, 10).await.expect("a look").iter().map(|placed| placed.place).collect();
    assert_eq!(places, [1, 2, 3, 4]);
    loft.sound().await;
}

/// One microsecond before its end a hold stands; at its end it is over.
#[tokio::test]
async fn a_hold_is_over_at_its_instant() {
    let loft = Loft::new();
    let store = &loft.store;
    store.apply(at(NOON, receive(vec![bolt("B1", cm(100))])), None).await.expect("it comes");
    store.apply(at(NOON, reserve("R1", &[("B1", cm(60))])), None).await.expect("held");
    let end = NOON.after_seconds(900);
    let before = store.apply(at(At(end.0 - 1), reserve("R2", &[("B1", cm(60))])), None).await;
    assert!(matches!(before, Err(Error::Refused(Refusal::Taken(_)))));
    let done = store.apply(at(end, reserve("R2", &[("B1", cm(60))])), None).await.expect("it is over");
    assert_eq!(done.outcome.ended, ["R1".into()]);
    loft.sound().await;
}

/// An overdue hold on one piece gives back all its pieces, and what was short there is mended:
/// the engine brings pieces that the command never named.
#[tokio::test]
async fn an_overdue_hold_is_ended_on_all_its_pieces() {
    let loft = Loft::new();
    let store = &loft.store;
    let bolts = vec![bolt("B1", cm(100)), bolt("B2", cm(100)), bolt("B3", cm(100))];
    store.apply(at(NOON, receive(bolts)), None).await.expect("they come");
    // R1 and R2 share B2; R2 stands on B3, too
    store.apply(at(NOON, reserve("R1", &[("B1", cm(60)), ("B2", cm(50))])), None).await.expect("held");
    store.apply(at(NOON, reserve("R2", &[("B2", cm(50)), ("B3", cm(50))])), None).await.expect("held");
    let later = NOON.after_seconds(1_000);
    let done = store.apply(at(later, reserve("R3", &[("B1", cm(100))])), None).await.expect("both are over");
    assert_eq!(done.outcome.ended, ["R1".into(), "R2".into()]);
    for (piece, held) in [("B1", 100), ("B2", 0), ("B3", 0)] {
        let piece = store.piece(&piece.into()).await.expect("a look").expect("a piece");
        assert_eq!(piece.held, cm(held), "{}", piece.id);
    }
    loft.sound().await;
}
