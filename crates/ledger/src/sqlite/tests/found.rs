//! What the engine finds for a command beyond what it names.

use super::*;
use crate::rules::{Refusal, Undo};

fn limited(id: &str, most: u32) -> Command {
    let mut command = reserve(id, &[("B1", cm(10))]);
    if let Command::Reserve(reserve) = &mut command {
        reserve.most_holds = Some(most);
    }
    command
}

/// Only holds that are live count, and only the holder's own.
#[tokio::test]
async fn a_holders_live_holds_are_counted() {
    let loft = Loft::new();
    loft.done(receive(vec![bolt("B1", cm(1_000))])).await;
    let mut other = limited("X1", 1);
    if let Command::Reserve(reserve) = &mut other {
        reserve.holder = "another".into();
    }
    loft.done(other).await;
    loft.done(limited("R1", 2)).await;
    loft.done(limited("R2", 2)).await;
    assert_eq!(loft.run(limited("R3", 2)).await, Err(Error::Refused(Refusal::TooManyHolds(2))));
    loft.done(confirm("R1")).await;
    loft.done(limited("R3", 2)).await;
    assert_eq!(loft.run(limited("R4", 2)).await, Err(Error::Refused(Refusal::TooManyHolds(2))));
    // both are over at their instant, and count no longer
    let over = NOON.after_seconds(900);
    loft.store.apply(at(over, limited("R4", 2)), None).await.expect("they are over");
    loft.sound().await;
}

/// The last cut is the one that was written last, whatever it is called and whatever the clock said.
#[tokio::test]
async fn cuts_of_one_instant_are_in_the_order_in_which_they_were_written() {
    let loft = Loft::new();
    loft.done(receive(vec![bolt("B1", cm(1_000))])).await;
    for (reservation, cut_id, seconds) in [("R1", "C9", 0), ("R2", "C1", 0), ("R3", "C5", -1)] {
        for (seconds, command) in [
            (seconds, reserve(reservation, &[("B1", cm(100))])),
            (seconds, cut(cut_id, reservation, cm(100), Amount::ZERO, None)),
        ] {
            loft.store.apply(at(NOON.after_seconds(seconds), command), None).await.expect("carried out");
        }
    }
    let undo = |cut: &str| at(NOON.after_seconds(60), Command::Undo(Undo { cut: cut.into() }));
    for earlier in ["C9", "C1"] {
        let refused = Err(Error::Refused(Refusal::UsedSince(earlier.into(), "B1".into())));
        assert_eq!(loft.store.apply(undo(earlier), None).await, refused);
    }
    for last in ["C5", "C1", "C9"] {
        loft.store.apply(undo(last), None).await.expect("the last one there is");
        loft.sound().await;
    }
    assert_eq!(loft.left("B1").await, cm(1_000).0);
}

/// The last cut on a piece stands in the way of taking an earlier one back.
#[tokio::test]
async fn the_last_cut_on_a_piece_is_found() {
    let loft = Loft::new();
    loft.done(receive(vec![bolt("B1", cm(1_000))])).await;
    for (reservation, cut_id, seconds) in [("R1", "C1", 0), ("R2", "C2", 10), ("R3", "C3", 20)] {
        let now = NOON.after_seconds(seconds);
        for command in [
            reserve(reservation, &[("B1", cm(100))]),
            confirm(reservation),
            cut(cut_id, reservation, cm(100), Amount::ZERO, None),
        ] {
            loft.store.apply(at(now, command), None).await.expect("carried out");
        }
    }
    let undo = |cut: &str| at(NOON.after_seconds(60), Command::Undo(Undo { cut: cut.into() }));
    for earlier in ["C1", "C2"] {
        let refused = Err(Error::Refused(Refusal::UsedSince(earlier.into(), "B1".into())));
        assert_eq!(loft.store.apply(undo(earlier), None).await, refused);
    }
    for last in ["C3", "C2", "C1"] {
        loft.store.apply(undo(last), None).await.expect("the last one there is");
        loft.sound().await;
    }
    assert_eq!(loft.left("B1").await, cm(1_000).0);
}
