//! Pieces, commands and callers.

use std::sync::Arc;
use std::sync::atomic::{AtomicU64, Ordering};

use jiff::Timestamp;
use pennantry_measure::Length;
use pennantryd::ledger::rules::{
    Amount, At, ChangeId, Class, Command, Envelope, Material, NewLine, NewPiece, PieceId, PieceKind, Receive,
    Release, Request, ReservationId, Reserve,
};
use pennantryd::ledger::{Error, Ledger};

/// Fabrics that bolts are spread over.
pub const FABRICS: u64 = 16;
/// The first bolt's number: all of them have as many digits.
pub const FIRST: u64 = 10_000;
/// The first reservation's.
const FIRST_RESERVATION: u64 = 100_000_000_000_000;

/// The label of a bolt.
pub fn label(number: u64) -> PieceId {
    PieceId(format!("B-{}", FIRST + number))
}

/// A fabric.
pub fn material(number: u64) -> Material {
    Material { class: Class::Cloth, code: format!("fabric-{}", number % FABRICS) }
}

fn bolt(number: u64) -> NewPiece {
    NewPiece {
        id: label(number),
        kind: PieceKind::Bolt,
        material: material(number),
        lot: format!("L{}", number / 40),
        width: Length::from_mm(1_100),
        amount: Amount::of_length(Length::from_mm(25_000)),
        flaws: Vec::new(),
        location: "rack 2".to_owned(),
        cost_minor: Some(15_000),
        supplier: "Ropewalk Mill".to_owned(),
        supplier_reference: "KP-14".to_owned(),
        certificates: vec!["12.HCN.99031".to_owned()],
    }
}

/// Bolts that come.
pub fn delivery(count: u64) -> Envelope {
    let pieces = (0..count).map(bolt).collect();
    envelope(change(0), None, Command::Receive(Receive { pieces, order: None }))
}

/// The name of a change: its millisecond first, as doors make them.
fn change(number: u64) -> [u8; 16] {
    let now = u64::try_from(Timestamp::now().as_millisecond()).unwrap_or(0);
    let mut id = [0; 16];
    let (time, rest) = id.split_at_mut(6);
    if let Some(bytes) = now.to_be_bytes().get(2..) {
        time.copy_from_slice(bytes);
    }
    if let Some(end) = rest.get_mut(2..) {
        end.copy_from_slice(&number.to_be_bytes());
    }
    id
}

fn envelope(id: [u8; 16], key: Option<String>, command: Command) -> Envelope {
    let request = |key| Request { scope: "private/staff/CreateReservation".to_owned(), key, body: [7; 32] };
    Envelope {
        id: ChangeId(id),
        at: At(Timestamp::now().as_microsecond()),
        day: 20_787,
        actor: "staff".to_owned(),
        request: key.map(request),
        command,
    }
}

/// A hold of 0.30 m of a bolt, by the number of the reservation.
pub fn hold(id: [u8; 16], number: u64, bolt: PieceId) -> Envelope {
    let line = NewLine {
        piece: bolt,
        item: 0,
        amount: Amount::of_length(Length::from_mm(300)),
        shapes: 2,
        shape_area: 0,
    };
    let command = Command::Reserve(Reserve {
        id: ReservationId(format!("r-{number}")),
        holder: "staff".to_owned(),
        most_holds: None,
        seconds: 86_400,
        quote: "b3f068d7c5c241eee49e2404e9e10419".to_owned(),
        bench_milli_minutes: 20_100,
        leave_day: Some(20_790),
        // about what a sale of one string is kept in
        sold: vec![b'.'; 600],
        lines: vec![line],
        supersedes: None,
    });
    envelope(id, Some(format!("hold-{number}")), command)
}

/// That hold let go.
pub fn let_go(id: [u8; 16], number: u64) -> Envelope {
    let command = Command::Release(Release { id: ReservationId(format!("r-{number}")) });
    envelope(id, Some(format!("let-go-{number}")), command)
}

/// What callers have done and may still do.
#[derive(Debug, Default)]
pub struct Work {
    /// Reservations made so far, for their names.
    pub reservations: AtomicU64,
    /// Commands carried out.
    pub done: AtomicU64,
}

/// So many callers, each with a bolt of its own, for as long as `goes_on` says so; how many
/// commands they had carried out.
pub async fn callers(
    ledger: &Ledger,
    count: u64,
    work: &Arc<Work>,
    goes_on: impl Fn(&Work) -> bool + Clone + Send + 'static,
) -> Result<u64, String> {
    let before = work.done.load(Ordering::Relaxed);
    let tasks: Vec<_> = (0..count)
        .map(|caller| {
            let (ledger, work, goes_on) = (ledger.clone(), work.clone(), goes_on.clone());
            tokio::spawn(async move {
                while goes_on(&work) {
                    let number = FIRST_RESERVATION + work.reservations.fetch_add(1, Ordering::Relaxed);
                    ledger.apply(hold(change(number * 2), number, label(caller)), None).await?;
                    ledger.apply(let_go(change(number * 2 + 1), number), None).await?;
                    work.done.fetch_add(2, Ordering::Relaxed);
                }
                Ok::<(), Error>(())
            })
        })
        .collect();
    for task in tasks {
        task.await.map_err(super::told)?.map_err(super::told)?;
    }
    Ok(work.done.load(Ordering::Relaxed) - before)
}
