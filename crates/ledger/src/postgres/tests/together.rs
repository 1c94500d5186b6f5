//! Statements that are sent together.

use std::time::{Duration, Instant};

use super::proxy::Proxy;
use super::{Shop, asked, bolt, command, done, hold, mm, receive, release, reserve};
use crate::postgres::failure::Failure;
use crate::postgres::unit::{Asked, Unit};
use crate::postgres::write::write;
use crate::postgres::{Options, Store, sql};
use crate::rules::{Change, Command, Reserve};

async fn unit(shop: &Shop) -> Unit {
    let inner = &shop.store.inner;
    let ends = Instant::now() + Duration::from_secs(5);
    Unit::change(inner.connection(ends).await.expect("a connection"), &inner.options, ends)
}

/// Of a shop with one connection, which has to serve afterwards.
async fn shop() -> Shop {
    let shop = Shop::with(Options { connections: 1, ..Options::default() }).await;
    done(&shop.store, receive(vec![bolt("A", 1_000), bolt("B", 1_000)])).await;
    shop
}

fn balance(piece: &str, was_mm: i64) -> Change {
    let was = [mm(was_mm), mm(0), mm(0)];
    Change::Balance { piece: piece.into(), was, is: [mm(was_mm), mm(300), mm(0)] }
}

#[tokio::test(flavor = "multi_thread")]
async fn a_hold_waits_for_the_database_five_times() {
    let shop = Shop::new().await;
    done(&shop.store, receive(vec![bolt("A", 10_000), bolt("B", 10_000)])).await;
    let proxy = Proxy::start(shop.database.port()).await;
    let one = Options { connections: 1, ..Options::default() };
    let through = Store::open(&shop.database.url_by(proxy.port()), one).await.unwrap();
    let holds = |number: u32, key| asked(key, 1, reserve(&format!("R{number}"), &[("A", 10), ("B", 20)]));
    // on the first one's way everything is prepared
    done(&through, holds(1, "k1")).await;
    done(&through, asked("k2", 1, release("R1"))).await;
    proxy.count_trips();
    // looked up, locked and read, written, committed, the shelf
    done(&through, holds(2, "k3")).await;
    assert_eq!(proxy.trips(), 5);
    done(&through, asked("k4", 1, release("R2"))).await;
    assert_eq!(proxy.trips(), 5);
    // found, rolled back
    assert!(done(&through, holds(2, "k3")).await.replayed);
    assert_eq!(proxy.trips(), 2);
    // a holder's row is locked and made with the rest, and holds are counted when it is known since when
    let counted = |id: &str| {
        let mine = Reserve { most_holds: Some(5), ..hold(id, &[("A", 10)]) };
        asked(id, 1, command(Command::Reserve(mine)))
    };
    done(&through, counted("R3")).await;
    proxy.trips();
    done(&through, counted("R4")).await;
    assert_eq!(proxy.trips(), 6);
    shop.is_sound().await;
}

#[tokio::test(flavor = "multi_thread")]
async fn a_conflict_among_what_is_written_together_is_told_as_that() {
    let shop = shop().await;
    let unit_of_work = unit(&shop).await;
    // behind the piece that is not as it was read stands what would be a fault of its own
    let nobody = Asked::change(sql::load::ADD_HOLDER, vec![Box::new(None::<String>)]);
    let changes = [balance("A", 1_000), balance("B", 999)];
    let failure = write(&unit_of_work, &changes, Some(nobody)).await.unwrap_err();
    let Failure::Conflict(words) = failure else { panic!("{failure:?}") };
    assert_eq!(words, "the piece \"B\" is no longer as it was read");
    let connection = unit_of_work.rollback().await.expect("the connection serves");
    drop(connection);
    assert_eq!(shop.ask("SELECT count(*) FROM piece WHERE held > 0"), "0");
    // by the only connection there is
    done(&shop.store, reserve("R1", &[("A", 10)])).await;
    shop.is_sound().await;
}

#[tokio::test(flavor = "multi_thread")]
async fn what_fails_behind_a_failure_is_not_what_is_told() {
    let shop = shop().await;
    let taken = Change::AddPiece(shop.store.piece(&"A".into()).await.unwrap().unwrap());
    let unit_of_work = unit(&shop).await;
    let failure = write(&unit_of_work, &[balance("B", 1_000), taken], None).await.unwrap_err();
    // all that is behind it says only that the transaction has failed
    assert!(matches!(&failure, Failure::Taken(words) if words.contains("piece_pkey")), "{failure:?}");
    assert!(unit_of_work.rollback().await.is_some());
    assert_eq!(shop.ask("SELECT count(*) FROM piece WHERE held > 0"), "0");
    done(&shop.store, reserve("R1", &[("B", 10)])).await;
    shop.is_sound().await;
}

#[tokio::test(flavor = "multi_thread")]
async fn a_unit_let_go_with_answers_outstanding_writes_nothing() {
    let shop = shop().await;
    let unit_of_work = unit(&shop).await;
    let names =
        ["one", "two", "three"].map(|name| Asked::change(sql::load::ADD_HOLDER, vec![Box::new(name)]));
    let sent = unit_of_work.send(&names).await.unwrap();
    drop(sent);
    drop(unit_of_work);
    done(&shop.store, reserve("R1", &[("A", 10)])).await;
    assert_eq!(shop.ask("SELECT count(*) FROM holder"), "0");
}

#[tokio::test(flavor = "multi_thread")]
async fn without_a_transaction_nothing_is_changed() {
    let shop = shop().await;
    let connection = shop.store.inner.connection(Instant::now() + Duration::from_secs(5)).await.unwrap();
    let unit_of_work = Unit::new(connection, "BEGIN MADE UP".into());
    let asked =
        [Asked::look(sql::NOW, Vec::new()), Asked::change(sql::load::ADD_HOLDER, vec![Box::new("x")])];
    assert!(unit_of_work.send(&asked).await.is_err());
    let looks = [Asked::look(sql::NOW, Vec::new())];
    drop(unit_of_work);
    let connection = shop.store.inner.connection(Instant::now() + Duration::from_secs(5)).await.unwrap();
    let looking = Unit::new(connection, "BEGIN MADE UP".into());
    let mut sent = looking.send(&looks).await.unwrap();
    assert!(matches!(sent.number().await, Err(Failure::Final(_))), "the failure to begin is told first");
    assert_eq!(shop.ask("SELECT count(*) FROM holder"), "0");
}
