//! Many at once: the last metre, group commit, a second process's connection, a long reader.

use std::time::Instant;

use rusqlite::{Connection, TransactionBehavior};

use super::*;
use crate::rules::Refusal;

/// 10.00 m and 0.30 m for each of a hundred: 33 times 0.30 is 9.90, so exactly 33 get it.
#[tokio::test(flavor = "multi_thread", worker_threads = 8)]
async fn invariant_08_a_hundred_on_the_last_metres_and_thirty_three_get_it() {
    let loft = Loft::new();
    loft.done(receive(vec![bolt("B1", cm(1_000))])).await;
    let asking: Vec<_> = (0..100)
        .map(|buyer| {
            let store = loft.store.clone();
            let command = reserve(&format!("R{buyer}"), &[("B1", cm(30))]);
            tokio::spawn(async move { store.apply(envelope(command), None).await })
        })
        .collect();
    let mut got = 0;
    for asked in asking {
        match asked.await.expect("no panic") {
            Ok(_) => got += 1,
            Err(Error::Refused(Refusal::Taken(_))) => {}
            Err(other) => panic!("{other:?}"),
        }
    }
    assert_eq!(got, 33);
    let piece = loft.store.piece(&"B1".into()).await.expect("a look").expect("a piece");
    assert_eq!((piece.left, piece.held, piece.free()), (cm(1_000), cm(990), cm(10)));
    loft.sound().await;
}

/// The brief of the engine: 64 callers share at least ten commands a commit.
#[tokio::test(flavor = "multi_thread", worker_threads = 4)]
async fn callers_share_commits() {
    let folder = tempfile::tempdir().expect("a folder");
    // full durability: while the disk is waited for, the next batch gathers
    let store = Store::open(&file(folder.path()), Options::default()).expect("it opens");
    let bolts = (0..64).map(|caller| bolt(&format!("B{caller}"), cm(10_000))).collect();
    store.apply(envelope(receive(bolts)), None).await.expect("they come");
    let before = store.tally();
    let callers: Vec<_> = (0..64)
        .map(|caller| {
            let store = store.clone();
            tokio::spawn(async move {
                for turn in 0..20 {
                    let name = format!("R{caller}-{turn}");
                    let piece = format!("B{caller}");
                    let command = reserve(&name, &[(piece.as_str(), cm(10))]);
                    store.apply(envelope(command), None).await.expect("it is carried out");
                }
            })
        })
        .collect();
    for caller in callers {
        caller.await.expect("no panic");
    }
    let after = store.tally();
    let (commands, commits) = (after.commands - before.commands, after.commits - before.commits);
    assert_eq!(commands, 64 * 20);
    assert!(commits * 10 <= commands, "{commands} commands in {commits} commits");
}

/// Seven other connections write to the file, as other processes would; none of the store's
/// commands is told that the file is locked, and none of theirs is.
#[tokio::test(flavor = "multi_thread", worker_threads = 4)]
async fn nobody_is_told_that_the_file_is_locked() {
    let loft = Loft::new();
    loft.done(receive(vec![bolt("B1", cm(100_000)), bolt("B2", cm(100_000))])).await;
    let path = loft.file();
    let others: Vec<_> = (0..7)
        .map(|other| {
            let path = path.clone();
            std::thread::spawn(move || {
                let mut connection = Connection::open(path).expect("it opens");
                connection.busy_timeout(Duration::from_secs(10)).expect("patience");
                for turn in 0..40 {
                    let writing = connection
                        .transaction_with_behavior(TransactionBehavior::Immediate)
                        .expect("not locked");
                    let location = format!("rack {other}-{turn}");
                    writing
                        .execute("UPDATE piece SET location = ?1 WHERE id = 'B2'", [location])
                        .expect("written");
                    writing.commit().expect("committed");
                }
            })
        })
        .collect();
    let second = Store::open(&path, Options { durability: Durability::Off, ..Options::default() });
    let second = second.expect("a second store at the same file opens");
    for turn in 0..40 {
        loft.done(reserve(&format!("R{turn}"), &[("B1", cm(10))])).await;
        let theirs = reserve(&format!("S{turn}"), &[("B1", cm(10))]);
        second.apply(envelope(theirs), None).await.expect("it is carried out");
    }
    for other in others {
        other.join().expect("none was locked out");
    }
    let piece = loft.store.piece(&"B1".into()).await.expect("a look").expect("a piece");
    assert_eq!(piece.held, cm(800));
    loft.sound().await;
    // events of both have places of one row, without gaps
    assert_eq!(loft.store.last_place().await.expect("a look"), second.last_place().await.expect("a look"));
    second.close().await;
}

/// Two stores open an empty file at once: one makes it, the other waits and finds it made.
#[test]
fn two_open_an_empty_file_at_once() {
    for _ in 0..10 {
        let folder = tempfile::tempdir().expect("a folder");
        let path = file(folder.path());
        let gate = std::sync::Arc::new(std::sync::Barrier::new(4));
        let opening: Vec<_> = (0..4)
            .map(|_| {
                let (path, gate) = (path.clone(), std::sync::Arc::clone(&gate));
                std::thread::spawn(move || {
                    gate.wait();
                    Store::open(&path, Options { durability: Durability::Off, ..Options::default() })
                        .map(drop)
                })
            })
            .collect();
        for opened in opening {
            opened.join().expect("no panic").expect("it opens");
        }
    }
}

/// A reader that never ends a look keeps the log; one that is bounded does not. The look here is
/// as long as it may be, again and again, while much is written.
#[tokio::test(flavor = "multi_thread", worker_threads = 4)]
async fn the_log_stays_short_beside_long_looks() {
    let log_bytes = 512 * 1024;
    let loft = Loft::with(Options { look: Duration::from_millis(300), log_bytes, ..Options::default() });
    loft.done(receive((0..50).map(|n| bolt(&format!("B{n}"), cm(100_000))).collect())).await;
    let looking = {
        let readers = std::sync::Arc::clone(&loft.store.inner.readers);
        tokio::spawn(async move {
            let mut broken_off = 0;
            for _ in 0..8 {
                let endless = readers.look(|connection| {
                    connection.query_row(
                        "WITH RECURSIVE n (i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n)
                         SELECT COUNT(*) FROM n, piece",
                        [],
                        |row| row.get::<_, i64>(0),
                    )
                });
                broken_off += i32::from(matches!(endless.await, Err(Error::Unavailable(_))));
            }
            broken_off
        })
    };
    let log = super::super::files::beside(&loft.file(), "-wal");
    let (mut longest, mut turn, mut since) = (0, 0_u32, Instant::now());
    while !looking.is_finished() {
        let writing = (0..32).map(|n| {
            let command = reserve(&format!("R{turn}-{n}"), &[(&format!("B{n}"), cm(1))]);
            loft.store.apply(envelope(command), None)
        });
        let mut writing: Vec<_> = writing.map(Box::pin).collect();
        for one in &mut writing {
            one.as_mut().await.expect("it is carried out");
        }
        turn += 1;
        longest = longest.max(std::fs::metadata(&log).expect("a log").len());
        assert!(since.elapsed() < Duration::from_secs(20), "the looks never end");
    }
    assert_eq!(looking.await.expect("no panic"), 8, "each look was broken off");
    // once nobody looks, it is emptied with the next batch that finds it long
    since = Instant::now();
    loop {
        loft.done(reserve(&format!("L{turn}"), &[("B49", cm(1))])).await;
        turn += 1;
        if std::fs::metadata(&log).expect("a log").len() <= log_bytes {
            break;
        }
        assert!(since.elapsed() < Duration::from_secs(20), "the log stays long: {longest}");
    }
    assert!(longest > log_bytes, "the looks did not hold the log up: {longest}");
    loft.sound().await;
}

/// 5 000 pieces in one command.
#[tokio::test]
async fn five_thousand_pieces_come_at_once() {
    let loft = Loft::new();
    let pieces = (0..5_000).map(|n| bolt(&format!("B{n:04}"), cm(5_000))).collect();
    let begun = Instant::now();
    let done = loft.done(receive(pieces)).await;
    let took = begun.elapsed();
    assert_eq!(done.outcome.received.len(), 5_000);
    assert_eq!(loft.store.shelf().of(&kelp()).len(), 5_000);
    assert!(took < Duration::from_secs(10), "{took:?}");
    loft.sound().await;
}

/// A queue that is full says so at once; what was taken in is carried out.
#[tokio::test(flavor = "multi_thread", worker_threads = 4)]
async fn a_full_queue_is_busy() {
    let loft = Loft::with(Options { queue: 2, ..Options::default() });
    loft.done(receive(vec![bolt("B1", cm(100_000))])).await;
    // somebody else holds the write lock, so the writer waits and the queue fills
    let other = Connection::open(loft.file()).expect("it opens");
    other.execute_batch("BEGIN IMMEDIATE").expect("the lock");
    let ask = |n: i32| {
        let store = loft.store.clone();
        let command = reserve(&format!("R{n}"), &[("B1", cm(1))]);
        tokio::spawn(async move { store.apply(envelope(command), None).await })
    };
    // the writer takes the first by itself; of the others two find room, and the rest are told
    let mut asking = vec![ask(0)];
    tokio::time::sleep(Duration::from_millis(500)).await;
    asking.extend((1..10).map(ask));
    let told = |asking: &[tokio::task::JoinHandle<_>]| asking.iter().filter(|it| it.is_finished()).count();
    let begun = Instant::now();
    while told(&asking) < 7 && begun.elapsed() < Duration::from_secs(20) {
        tokio::time::sleep(Duration::from_millis(10)).await;
    }
    assert_eq!(told(&asking), 7, "as long as the lock is held");
    other.execute_batch("ROLLBACK").expect("let go");
    let (mut done, mut busy) = (0, 0);
    for asked in asking {
        match asked.await.expect("no panic") {
            Ok(_) => done += 1,
            Err(Error::Busy) => busy += 1,
            Err(other) => panic!("{other:?}"),
        }
    }
    assert_eq!((done, busy), (3, 7));
    assert_eq!(loft.store.piece(&"B1".into()).await.expect("a look").expect("it").held, cm(i64::from(done)));
}
