//! Cuts on a piece, one after the other.

use super::{Shop, bolt, command, done, mm, receive, reserve};
use crate::engine::Error;
use crate::postgres::{Clock, Options};
use crate::rules::{Command, Cut, Envelope, Refusal, Undo};

/// As the other engine's test has it.
#[tokio::test(flavor = "multi_thread")]
async fn cuts_of_one_instant_are_in_the_order_in_which_they_were_written() {
    let shop = Shop::with(Options { clock: Clock::Given, ..Options::default() }).await;
    done(&shop.store, receive(vec![bolt("B1", 10_000)])).await;
    let at = |seconds: i64, what: Envelope| Envelope { at: what.at.after_seconds(seconds), ..what };
    for (reservation, cut, seconds) in [("R1", "C9", 0), ("R2", "C1", 0), ("R3", "C5", -1)] {
        done(&shop.store, at(seconds, reserve(reservation, &[("B1", 1_000)]))).await;
        let all = Cut { id: cut.into(), reservation: reservation.into(), parts: Vec::new(), day: None };
        done(&shop.store, at(seconds, command(Command::Cut(all)))).await;
    }
    let undo = |cut: &str| at(60, command(Command::Undo(Undo { cut: cut.into() })));
    for earlier in ["C9", "C1"] {
        let refused = Err(Error::Refused(Refusal::UsedSince(earlier.into(), "B1".into())));
        assert_eq!(shop.store.apply(undo(earlier), None).await, refused);
    }
    for last in ["C5", "C1", "C9"] {
        done(&shop.store, undo(last)).await;
        shop.is_sound().await;
    }
    assert_eq!(shop.store.piece(&"B1".into()).await.unwrap().unwrap().left, mm(10_000));
}
