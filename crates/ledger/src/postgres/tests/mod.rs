//! The engine against a real server.

mod conflicts;
mod cuts;
mod days;
mod faults;
mod looks;
mod plans;
mod promises;
mod proxy;
mod reports;
mod requests;
mod schema;
#[path = "../../../../../tests/postgres.rs"]
mod server;
mod together;
mod words;

use std::sync::Arc;
use std::sync::atomic::{AtomicU64, Ordering};

use self::server::Database;
use super::failure::Failure;
use super::unit::Unit;
use super::{Options, Store, migrate};
use crate::engine::Applied;
use crate::rules::{
    Adjust, Adjustment, Amount, At, ChangeId, Class, Command, Confirm, Envelope, Material, NewLine, NewPiece,
    PieceId, PieceKind, Receive, Release, Request, Reserve,
};
use pennantry_measure::Length;

/// Statements that are put in the way of commits: which, by how many there were before.
#[derive(Clone, Default)]
pub(super) struct BeforeCommit {
    statement: Option<Arc<dyn Fn(u64) -> Option<&'static str> + Send + Sync>>,
    count: Arc<AtomicU64>,
}

impl std::fmt::Debug for BeforeCommit {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "BeforeCommit({})", self.count.load(Ordering::Relaxed))
    }
}

impl BeforeCommit {
    fn new(statement: impl Fn(u64) -> Option<&'static str> + Send + Sync + 'static) -> BeforeCommit {
        BeforeCommit { statement: Some(Arc::new(statement)), count: Arc::default() }
    }

    fn times(&self) -> u64 {
        self.count.load(Ordering::Relaxed)
    }

    pub(super) async fn run(&self, unit: &Unit) -> Result<(), Failure> {
        let before = self.count.fetch_add(1, Ordering::Relaxed);
        match self.statement.as_ref().and_then(|statement| statement(before)) {
            Some(statement) => unit.batch(statement).await,
            None => Ok(()),
        }
    }
}

/// Says what databases say where transactions cannot be put in an order.
const CONFLICT: &str = "DO $$ BEGIN RAISE EXCEPTION 'put in the way' USING ERRCODE = '40001'; END $$";

/// A database with the schema, and a store on it.
struct Shop {
    store: Store,
    database: Database,
}

impl Shop {
    async fn new() -> Shop {
        Shop::with(Options::default()).await
    }

    async fn with(options: Options) -> Shop {
        Shop::on(Database::new(), options).await
    }

    async fn on(database: Database, options: Options) -> Shop {
        migrate(&database.url()).await.expect("a new database is migrated");
        let store = Store::open(&database.url(), options).await.expect("a migrated database opens");
        Shop { store, database }
    }

    /// Everything agrees.
    async fn is_sound(&self) {
        let found = self.store.verify().await.expect("the store is looked through");
        assert_eq!(found.drift, Vec::<String>::new());
    }

    /// What psql answers to a query.
    fn ask(&self, query: &str) -> String {
        self.database.ask(query)
    }
}

fn command(command: Command) -> Envelope {
    static CHANGES: AtomicU64 = AtomicU64::new(1);
    let mut id = [0; 16];
    id[..8].copy_from_slice(&CHANGES.fetch_add(1, Ordering::Relaxed).to_be_bytes());
    Envelope {
        id: ChangeId(id),
        at: At(1_796_000_000_000_000),
        day: 20_787,
        actor: "bench".to_owned(),
        request: None,
        command,
    }
}

fn asked(key: &str, body: u8, what: Envelope) -> Envelope {
    let request = Request { scope: "tests".to_owned(), key: key.to_owned(), body: [body; 32] };
    Envelope { request: Some(request), ..what }
}

fn kelp() -> Material {
    Material { class: Class::Cloth, code: "KELP".to_owned() }
}

fn mm(mm: i64) -> Amount {
    Amount::of_length(Length::from_mm(mm))
}

fn bolt(id: &str, length_mm: i64) -> NewPiece {
    NewPiece {
        id: PieceId::from(id),
        kind: PieceKind::Bolt,
        material: kelp(),
        lot: "L7".to_owned(),
        width: Length::from_mm(1_370),
        amount: mm(length_mm),
        flaws: Vec::new(),
        location: "rack 2".to_owned(),
        cost_minor: Some(4_200),
        supplier: "Ropewalk Mill".to_owned(),
        supplier_reference: "KP-14".to_owned(),
        certificates: vec!["C 12\\3".to_owned(), "two\nlines".to_owned()],
    }
}

fn receive(pieces: Vec<NewPiece>) -> Envelope {
    command(Command::Receive(Receive { pieces, order: None }))
}

/// A hold for half an hour.
fn hold(id: &str, lines: &[(&str, i64)]) -> Reserve {
    let line = |(item, (piece, length_mm)): (u32, &(&str, i64))| NewLine {
        piece: PieceId::from(*piece),
        item,
        amount: mm(*length_mm),
        shapes: 4,
        shape_area: 12_000_000_000,
    };
    Reserve {
        id: id.into(),
        holder: format!("holder of {id}"),
        most_holds: None,
        seconds: 1_800,
        quote: "Q1".to_owned(),
        bench_milli_minutes: 12_500,
        leave_day: Some(20_790),
        sold: b"sold".to_vec(),
        lines: (0_u32..).zip(lines).map(line).collect(),
        supersedes: None,
    }
}

fn reserve(id: &str, lines: &[(&str, i64)]) -> Envelope {
    command(Command::Reserve(hold(id, lines)))
}

fn confirm(id: &str) -> Envelope {
    command(Command::Confirm(Confirm { id: id.into(), order_reference: "A-1".to_owned() }))
}

fn release(id: &str) -> Envelope {
    command(Command::Release(Release { id: id.into() }))
}

fn count_piece(piece: &str, length_mm: i64) -> Envelope {
    let what = Adjustment::Counted(mm(length_mm));
    command(Command::Adjust(Adjust { piece: piece.into(), what, note: String::new() }))
}

async fn done(store: &Store, what: Envelope) -> Applied {
    store.apply(what, None).await.expect("it is done")
}
