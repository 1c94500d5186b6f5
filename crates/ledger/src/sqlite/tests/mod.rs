//! The embedded engine, from outside: through commands and looks, and with what a disk, a
//! clock, another process or a fault of the program may do to it.

mod backup;
mod clock;
mod days;
mod faults;
mod found;
mod many;
mod plans;
mod reports;
mod requests;
mod schema;
mod shelf;
mod verify;
mod walk;

use std::path::{Path, PathBuf};
use std::pin::Pin;
use std::sync::Arc;
use std::sync::atomic::{AtomicU64, Ordering};
use std::task::{Context, Waker};
use std::time::Duration;

use pennantry_measure::Length;
use tempfile::TempDir;

use super::{Durability, Faults, Options, Store};
use crate::engine::{Applied, Error};
use crate::rules::{
    Amount, At, ChangeId, Class, Command, Confirm, Cut, Envelope, Finish, Material, NewLine, NewPiece,
    NewRemnant, Part, PieceId, PieceKind, Reason, Receive, Release, Request, Reserve,
};

/// Noon of some day.
pub(super) const NOON: At = At(1_770_000_000_000_000);

/// A store in a folder that goes with it.
pub(super) struct Loft {
    pub store: Store,
    pub folder: TempDir,
}

impl Loft {
    pub(super) fn new() -> Loft {
        Loft::with(Options::default())
    }

    /// Durability is left out: a test does not cut the power.
    pub(super) fn with(options: Options) -> Loft {
        let folder = tempfile::tempdir().expect("a folder");
        let options = Options { durability: Durability::Off, ..options };
        let store = Store::open(&file(folder.path()), options).expect("it opens");
        Loft { store, folder }
    }

    pub(super) fn breaking<F: Faults + 'static>(faults: &Arc<F>) -> Loft {
        let faults: Arc<F> = Arc::clone(faults);
        // a test that holds a command up wants the next one in the same commit
        Loft::with(Options { faults: Some(faults), gather: Duration::from_mins(1), ..Options::default() })
    }

    pub(super) fn file(&self) -> PathBuf {
        file(self.folder.path())
    }

    pub(super) async fn run(&self, command: Command) -> Result<Applied, Error> {
        self.store.apply(envelope(command), None).await
    }

    pub(super) async fn on(&self, day: i32, now: At, command: Command) -> Applied {
        let envelope = Envelope { day, ..at(now, command) };
        self.store.apply(envelope, None).await.expect("it is carried out")
    }

    pub(super) async fn done(&self, command: Command) -> Applied {
        self.run(command).await.expect("it is carried out")
    }

    /// Nothing disagrees.
    pub(super) async fn sound(&self) {
        let verified = self.store.verify().await.expect("it is looked through");
        assert_eq!(verified.drift, Vec::<String>::new());
    }

    pub(super) async fn left(&self, piece: &str) -> i64 {
        self.store.piece(&piece.into()).await.expect("a look").expect("a piece").left.0
    }
}

pub(super) fn file(folder: &Path) -> PathBuf {
    folder.join("stock.db")
}

static CHANGES: AtomicU64 = AtomicU64::new(1);

pub(super) fn envelope(command: Command) -> Envelope {
    at(NOON, command)
}

pub(super) fn at(at: At, command: Command) -> Envelope {
    let change = u128::from(CHANGES.fetch_add(1, Ordering::Relaxed));
    Envelope {
        id: ChangeId(change.to_be_bytes()),
        at,
        day: 20_000,
        actor: "loft".into(),
        request: None,
        command,
    }
}

pub(super) fn asked(key: &str, body: u8, command: Command) -> Envelope {
    let request = Request { scope: "till".into(), key: key.into(), body: [body; 32] };
    Envelope { request: Some(request), ..envelope(command) }
}

/// Sends a command without waiting for it; whether it waits to be answered.
pub(super) fn queued<F: Future>(asked: &mut Pin<Box<F>>) -> bool {
    asked.as_mut().poll(&mut Context::from_waker(Waker::noop())).is_pending()
}

/// A centimetre.
pub(super) const fn cm(cm: i64) -> Amount {
    Amount(cm * 10_000)
}

pub(super) fn kelp() -> Material {
    Material { class: Class::Cloth, code: "kelp".into() }
}

pub(super) fn bolt(id: &str, amount: Amount) -> NewPiece {
    NewPiece {
        id: id.into(),
        kind: PieceKind::Bolt,
        material: kelp(),
        lot: "L1".into(),
        width: Length::from_mm(1_120),
        amount,
        flaws: Vec::new(),
        location: "rack 1".into(),
        cost_minor: Some(4_200),
        supplier: "Tern Mill".into(),
        supplier_reference: "K-12".into(),
        certificates: vec!["OEK 1, 2".into()],
    }
}

pub(super) fn receive(pieces: Vec<NewPiece>) -> Command {
    Command::Receive(Receive { pieces, order: None })
}

pub(super) fn reserve(id: &str, lines: &[(&str, Amount)]) -> Command {
    let lines = lines.iter().map(|(piece, amount)| NewLine {
        piece: (*piece).into(),
        item: 1,
        amount: *amount,
        shapes: 3,
        shape_area: 40_000_000_000,
    });
    Command::Reserve(Reserve {
        id: id.into(),
        holder: "buyer".into(),
        most_holds: None,
        seconds: 900,
        quote: "Q1".into(),
        bench_milli_minutes: 30_000,
        leave_day: Some(20_004),
        sold: b"what was sold".to_vec(),
        lines: lines.collect(),
        supersedes: None,
    })
}

pub(super) fn confirm(id: &str) -> Command {
    Command::Confirm(Confirm { id: id.into(), order_reference: "SL-1".into() })
}

pub(super) fn release(id: &str) -> Command {
    Command::Release(Release { id: id.into() })
}

/// Cuts for the first line: so much taken, so much spoiled, so much of it kept.
pub(super) fn cut(
    id: &str,
    reservation: &str,
    taken: Amount,
    spoiled: Amount,
    kept: Option<(&str, Amount)>,
) -> Command {
    let remnants = kept.into_iter().map(|(id, amount)| NewRemnant {
        id: PieceId::from(id),
        length: amount.length(),
        width: Length::from_mm(1_120),
        location: "remnant box".into(),
    });
    Command::Cut(Cut {
        id: id.into(),
        reservation: reservation.into(),
        parts: vec![Part {
            line: 1,
            piece: None,
            taken,
            spoiled,
            why: Reason::Miscut,
            shapes: None,
            remnants: remnants.collect(),
            finish: Finish::WhenEnough,
            note: String::new(),
        }],
        day: None,
    })
}
