//! What a disk or a fault of the program may do.

use std::sync::Mutex;
use std::sync::atomic::{AtomicBool, AtomicU32};

use super::super::CommitFault;
use super::*;
use crate::rules::Refusal;

/// Breaks what it is told to.
#[derive(Debug, Default)]
struct Broken {
    commits: Mutex<Vec<CommitFault>>,
    pages: AtomicU32,
    gate: Mutex<()>,
    panics: AtomicBool,
}

impl Faults for Broken {
    fn command(&self, envelope: &Envelope) {
        drop(self.gate.lock());
        assert!(envelope.actor != "clumsy" || !self.panics.load(Ordering::Relaxed), "dropped the shears");
    }

    fn written(&self, envelope: &Envelope) {
        assert!(envelope.actor != "late", "dropped the book");
    }

    fn commit(&self) -> CommitFault {
        self.commits.lock().expect("a lock").pop().unwrap_or_default()
    }

    fn most_pages(&self) -> Option<u32> {
        Some(self.pages.load(Ordering::Relaxed)).filter(|pages| *pages > 0)
    }
}

#[tokio::test(flavor = "multi_thread", worker_threads = 4)]
async fn a_failed_commit_fails_its_whole_batch_and_the_store_goes_on() {
    let faults = Arc::new(Broken::default());
    let loft = Loft::breaking(&faults);
    loft.done(receive(vec![bolt("B1", cm(100))])).await;
    // the first command is held up until the others are queued behind it, then all share a commit
    let gate = faults.gate.lock().expect("a lock");
    faults.commits.lock().expect("a lock").push(CommitFault::RolledBack);
    let commands = [
        reserve("R1", &[("B1", cm(60))]),
        // refused, but only because of R1, which is not kept: it must not be told so
        reserve("R2", &[("B1", cm(60))]),
        reserve("R3", &[("B1", cm(10))]),
    ];
    let mut asking: Vec<_> =
        commands.into_iter().map(|command| Box::pin(loft.store.apply(envelope(command), None))).collect();
    for asked in &mut asking {
        assert!(queued(asked));
    }
    drop(gate);
    for asked in asking {
        let told = asked.await;
        assert!(matches!(&told, Err(Error::Unavailable(why)) if why.contains("committed")), "{told:?}");
    }
    let piece = loft.store.piece(&"B1".into()).await.expect("a look").expect("a piece");
    assert_eq!(piece.held, Amount::ZERO);
    assert!(loft.store.reservation(&"R1".into()).await.expect("a look").is_none());
    loft.store.ready().await.expect("it was opened again");
    loft.done(reserve("R2", &[("B1", cm(60))])).await;
    loft.sound().await;
}

/// The commit was made and its success not heard of: the same request again gets the answer.
#[tokio::test]
async fn a_commit_that_was_not_heard_of_is_found_by_its_request() {
    let faults = Arc::new(Broken::default());
    let loft = Loft::breaking(&faults);
    loft.done(receive(vec![bolt("B1", cm(100))])).await;
    faults.commits.lock().expect("a lock").push(CommitFault::Unheard);
    let command = reserve("R1", &[("B1", cm(60))]);
    let told = loft.store.apply(asked("k", 1, command.clone()), None).await;
    assert!(matches!(told, Err(Error::Unavailable(_))));
    // the shelf knows already: it was read again with the new connection
    let shelf = loft.store.shelf();
    assert_eq!(shelf.piece(&kelp(), &"B1".into()).expect("on the shelf").free(NOON), cm(40));
    let again = loft.store.apply(asked("k", 1, command), None).await.expect("the answer");
    assert!(again.replayed);
    assert_eq!(again.outcome.reservation.expect("a reservation").id, "R1".into());
    loft.sound().await;
}

#[tokio::test]
async fn a_full_disk_loses_nothing_and_is_got_over() {
    let faults = Arc::new(Broken::default());
    let loft = Loft::breaking(&faults);
    loft.done(receive(vec![bolt("B1", cm(1_000))])).await;
    // as small as the file is now: SQLite takes a lower number for that
    faults.pages.store(1, Ordering::Relaxed);
    let many: Vec<NewPiece> = (0..500).map(|n| bolt(&format!("C{n}"), cm(100))).collect();
    let told = loft.run(receive(many.clone())).await;
    assert!(matches!(&told, Err(Error::Unavailable(why)) if why.contains("full")), "{told:?}");
    assert!(loft.store.piece(&"C0".into()).await.expect("a look").is_none());
    assert_eq!(loft.left("B1").await, cm(1_000).0);
    loft.sound().await;
    faults.pages.store(0, Ordering::Relaxed);
    loft.done(receive(many)).await;
    loft.done(reserve("R1", &[("B1", cm(60)), ("C7", cm(10))])).await;
    loft.sound().await;
}

#[tokio::test]
async fn a_command_that_panics_is_taken_back_and_the_next_one_runs() {
    let faults = Arc::new(Broken::default());
    let loft = Loft::breaking(&faults);
    loft.done(receive(vec![bolt("B1", cm(100))])).await;
    faults.panics.store(true, Ordering::Relaxed);
    let clumsy = |command| Envelope { actor: "clumsy".into(), ..envelope(command) };
    let told = loft.store.apply(clumsy(reserve("R1", &[("B1", cm(60))])), None).await;
    assert!(matches!(&told, Err(Error::Fault(why)) if why.contains("dropped the shears")), "{told:?}");
    loft.done(reserve("R2", &[("B1", cm(60))])).await;
    assert!(loft.store.reservation(&"R1".into()).await.expect("a look").is_none());
    loft.sound().await;
}

/// A command that fails after its rows were written leaves nothing of them, and the next one in
/// the same commit finds cloth and places of events as if it had not been.
#[tokio::test(flavor = "multi_thread", worker_threads = 4)]
async fn a_command_that_fails_half_way_leaves_nothing_in_its_batch() {
    let faults = Arc::new(Broken::default());
    let loft = Loft::breaking(&faults);
    loft.done(receive(vec![bolt("B1", cm(100))])).await;
    let before = loft.store.tally().commits;
    let gate = faults.gate.lock().expect("a lock");
    let late = |command| Envelope { actor: "late".into(), ..envelope(command) };
    let first = late(reserve("R1", &[("B1", cm(60))]));
    let mut first = Box::pin(loft.store.apply(first, None));
    let mut second = Box::pin(loft.store.apply(envelope(reserve("R2", &[("B1", cm(60))])), None));
    for asked in [&mut first, &mut second] {
        assert!(queued(asked));
    }
    drop(gate);
    let told = first.await;
    assert!(matches!(&told, Err(Error::Fault(why)) if why.contains("dropped the book")), "{told:?}");
    second.await.expect("there is cloth");
    assert_eq!(loft.store.tally().commits, before + 1, "both were in one commit");
    assert_eq!(loft.store.last_place().await.expect("a look"), 2);
    assert!(loft.store.reservation(&"R1".into()).await.expect("a look").is_none());
    loft.sound().await;
}

/// A refused command between two others leaves them as they are, and writes nothing.
/// Looks are answered by what is committed, and wait for nobody who writes.
#[tokio::test(flavor = "multi_thread", worker_threads = 4)]
async fn a_look_is_answered_while_the_writer_is_at_work() {
    let faults = Arc::new(Broken::default());
    let loft = Loft::breaking(&faults);
    loft.done(receive(vec![bolt("B1", cm(100))])).await;
    let (tell, told) = std::sync::mpsc::channel();
    let (open, wait) = std::sync::mpsc::channel::<()>();
    let gate = Arc::clone(&faults);
    let keeper = std::thread::spawn(move || {
        let shut = gate.gate.lock().expect("a lock");
        tell.send(()).expect("somebody waits");
        let _ = wait.recv();
        drop(shut);
    });
    told.recv().expect("it is shut");
    let mut asked = Box::pin(loft.store.apply(envelope(reserve("R1", &[("B1", cm(60))])), None));
    assert!(queued(&mut asked), "the writer has it, and is held up within its transaction");
    let piece = loft.store.piece(&"B1".into()).await.expect("a look").expect("a piece");
    assert_eq!(piece.held, Amount::ZERO);
    assert!(loft.store.reservation(&"R1".into()).await.expect("a look").is_none());
    assert_eq!(loft.store.movements(&"B1".into(), 0, 10).await.expect("a look").len(), 1);
    assert_eq!(loft.store.events(0, 10).await.expect("a look").len(), 1);
    loft.store.read_shelf().await.expect("a look");
    assert!(queued(&mut asked), "all the while");
    drop(open);
    keeper.join().expect("it is open");
    asked.await.expect("it is carried out");
    loft.sound().await;
}

#[tokio::test]
async fn a_refusal_writes_nothing() {
    let loft = Loft::new();
    loft.done(receive(vec![bolt("B1", cm(100))])).await;
    let before = loft.store.last_place().await.expect("a look");
    let refused = loft.run(reserve("R1", &[("B1", cm(60)), ("B1", cm(60))])).await;
    assert!(matches!(refused, Err(Error::Refused(Refusal::Taken(_)))), "{refused:?}");
    assert_eq!(loft.store.last_place().await.expect("a look"), before);
    assert_eq!(loft.store.movements(&"B1".into(), 0, 100).await.expect("a look").len(), 1);
}

#[tokio::test]
async fn a_command_whose_time_is_over_is_not_begun() {
    let loft = Loft::new();
    let late = std::time::Instant::now();
    let told = loft.store.apply(envelope(receive(vec![bolt("B1", cm(100))])), Some(late)).await;
    assert_eq!(told, Err(Error::Late));
    assert!(loft.store.piece(&"B1".into()).await.expect("a look").is_none());
    let in_time = late + std::time::Duration::from_mins(1);
    loft.store.apply(envelope(receive(vec![bolt("B1", cm(100))])), Some(in_time)).await.expect("in time");
}

/// Whoever hangs up cancels nothing.
#[tokio::test]
async fn a_command_goes_on_without_whoever_asked() {
    let faults = Arc::new(Broken::default());
    let loft = Loft::breaking(&faults);
    let gate = faults.gate.lock().expect("a lock");
    let mut asked = Box::pin(loft.store.apply(envelope(receive(vec![bolt("B1", cm(100))])), None));
    assert!(queued(&mut asked));
    drop(asked);
    drop(gate);
    loft.store.wait_for_events(0, std::time::Duration::from_secs(10)).await;
    assert_eq!(loft.left("B1").await, cm(100).0);
}

/// The file's own constraints stand behind the rules, and have names.
#[tokio::test]
async fn the_file_itself_refuses_what_cannot_be() {
    let loft = Loft::new();
    loft.done(receive(vec![bolt("B1", cm(100))])).await;
    let other = rusqlite::Connection::open(loft.file()).expect("it opens");
    for (wrong, named) in [
        ("UPDATE piece SET held = left_over + 1", "piece_promised_within_left"),
        ("UPDATE piece SET left_over = -1", "piece_left_not_below_nought"),
        ("UPDATE movement SET amount = 1", "movements are never changed"),
        ("DELETE FROM movement", "movements are never deleted"),
    ] {
        let told = other.execute(wrong, []).expect_err(wrong).to_string();
        assert!(told.contains(named), "{wrong}: {told}");
    }
}
