//! What many do at once, held against what each of them saw: there is one order of all changes
//! that everything agrees with.
//!
//! Eight callers change three bolts, and look at them in between. Each notes when it asked and when
//! it was answered, on one count for all. Movements say in which order changes came to each bolt, and
//! events in which order all of them came. Then
//!
//! * the order of each bolt is that of the events, so the orders of the bolts contain no cycle;
//! * whatever was answered before something else was asked comes before it (in real time, that is:
//!   strict serializability, as Herlihy and Wing have it for one object, from memory);
//! * a look shows a bolt as some number of its changes left it: none that was asked after it was
//!   answered, and all that were answered before it was asked.
//!
//! Histories of reads and appends are looked through for cycles in this way by Kingsbury and Alvaro,
//! "Elle: Inferring Isolation Anomalies from Experimental Observations", 2020 (from memory); here the
//! order of the appends is known, and need not be inferred.

use std::collections::{BTreeMap, HashMap};
use std::sync::Arc;
use std::sync::atomic::{AtomicU64, Ordering};

use pennantry_ledger::rules::{
    Account, Amount, At, ChangeId, Class, Command, Confirm, Cut, Envelope, Material, Movement, NewLine,
    NewPiece, PieceId, PieceKind, Receive, Release, Request, Reserve,
};
use pennantry_ledger::{Ledger, Placed};
use pennantry_measure::Length;
use tokio::sync::Barrier;

use crate::dice::Dice;

const CALLERS: u64 = 8;
const TURNS: u64 = 40;
const BOLTS: [&str; 3] = ["B1", "B2", "B3"];

/// When something was asked, and when it was answered.
#[derive(Debug, Clone, Copy)]
struct Span {
    asked: u64,
    answered: u64,
}

/// What lies on a piece, is held and confirmed of it.
type Row = [i64; 3];

/// A look at a piece.
#[derive(Debug, Clone)]
struct Look {
    piece: PieceId,
    row: Row,
    span: Span,
}

/// All that was done and seen.
#[derive(Debug, Clone, Default)]
struct History {
    changes: HashMap<ChangeId, Span>,
    looks: Vec<Look>,
    movements: BTreeMap<PieceId, Vec<Movement>>,
    events: Vec<Placed>,
}

impl History {
    /// Whether there is one order that all of it agrees with.
    fn judge(&self) -> Result<(), String> {
        let mut places: HashMap<ChangeId, i64> = HashMap::new();
        let mut order = Vec::new();
        for placed in &self.events {
            if places.insert(placed.event.change, placed.place).is_none() {
                order.push(placed.event.change);
            }
        }
        self.in_real_time("events", &order)?;
        for (piece, movements) in &self.movements {
            let mut row = [0; 3];
            // how the piece was before the first change, and after each
            let (mut order, mut rows) = (Vec::new(), vec![row]);
            for movement in movements {
                if order.last() != Some(&movement.change) {
                    order.push(movement.change);
                    rows.push(row);
                }
                moved(&mut row, movement);
                if let Some(last) = rows.last_mut() {
                    *last = row;
                }
            }
            self.in_real_time(piece.as_str(), &order)?;
            for pair in order.windows(2) {
                if places.get(&pair[0]) >= places.get(&pair[1]) {
                    return Err(format!(
                        "{piece} and the events have {:?} and {:?} in two orders",
                        pair[0], pair[1]
                    ));
                }
            }
            for look in self.looks.iter().filter(|look| look.piece == *piece) {
                let spans: Vec<Span> =
                    order.iter().filter_map(|change| self.changes.get(change)).copied().collect();
                let least =
                    spans.iter().rposition(|span| span.answered < look.span.asked).map_or(0, |at| at + 1);
                let most =
                    spans.iter().position(|span| span.asked > look.span.answered).unwrap_or(spans.len());
                if !rows.get(least..=most).is_some_and(|rows| rows.contains(&look.row)) {
                    return Err(format!("{look:?} is none of changes {least} to {most} of {piece}"));
                }
            }
        }
        Ok(())
    }

    /// None comes after one that was asked only once it was answered.
    fn in_real_time(&self, what: &str, order: &[ChangeId]) -> Result<(), String> {
        let mut latest: Option<(u64, ChangeId)> = None;
        for change in order {
            let span =
                self.changes.get(change).ok_or_else(|| format!("{what}: nobody asked for {change:?}"))?;
            if let Some((asked, before)) = latest
                && span.answered < asked
            {
                return Err(format!(
                    "{what}: {change:?} was answered before {before:?} was asked, and comes after it"
                ));
            }
            latest = latest.max(Some((span.asked, *change)));
        }
        Ok(())
    }
}

fn moved(row: &mut Row, movement: &Movement) {
    for (account, sign) in [(movement.from, -1), (movement.to, 1)] {
        let amount = sign * movement.amount.0;
        match account {
            Account::Free => row[0] += amount,
            Account::Held => {
                row[0] += amount;
                row[1] += amount;
            }
            Account::Confirmed => {
                row[0] += amount;
                row[2] += amount;
            }
            _ => {}
        }
    }
}

fn envelope(id: u64, command: Command) -> Envelope {
    let mut bytes = [7; 16];
    bytes[..8].copy_from_slice(&id.to_be_bytes());
    Envelope {
        id: ChangeId(bytes),
        at: At(1_796_000_000_000_000),
        day: 20_787,
        actor: "counter".to_owned(),
        request: Some(Request { scope: "history".to_owned(), key: id.to_string(), body: [1; 32] }),
        command,
    }
}

fn bolts() -> Command {
    let bolt = |id: &&str| NewPiece {
        id: PieceId::from(*id),
        kind: PieceKind::Bolt,
        material: Material { class: Class::Cloth, code: "kelp".to_owned() },
        lot: "K1".to_owned(),
        width: Length::from_mm(1_100),
        amount: Amount::of_length(Length::from_mm(60_000)),
        flaws: Vec::new(),
        location: String::new(),
        cost_minor: None,
        supplier: String::new(),
        supplier_reference: String::new(),
        certificates: Vec::new(),
    };
    Command::Receive(Receive { pieces: BOLTS.iter().map(bolt).collect(), order: None })
}

/// What a caller does next, with what it holds.
fn next(dice: &mut Dice, own: &mut Vec<(String, bool)>, name: String) -> Command {
    let hold = |dice: &mut Dice| {
        let line = |dice: &mut Dice| NewLine {
            piece: PieceId::from(*dice.pick(&BOLTS)),
            item: 1,
            amount: Amount::of_length(Length::from_mm(dice.between(100, 1_000))),
            shapes: 2,
            shape_area: 0,
        };
        vec![line(dice), line(dice)]
    };
    let at = *dice.pick(&[0, 1, 2, 3]);
    if at < own.len() {
        let (id, confirmed) = own[at].clone();
        match dice.between(0, 2) {
            0 if !confirmed => {
                own.remove(at);
                return Command::Release(Release { id: id.as_str().into() });
            }
            1 if !confirmed => {
                own[at].1 = true;
                return Command::Confirm(Confirm {
                    id: id.as_str().into(),
                    order_reference: "SO".to_owned(),
                });
            }
            2 => {
                own.remove(at);
                let cut = format!("C{id}").as_str().into();
                return Command::Cut(Cut {
                    id: cut,
                    reservation: id.as_str().into(),
                    parts: Vec::new(),
                    day: None,
                });
            }
            _ => {}
        }
    }
    own.push((name.clone(), false));
    Command::Reserve(Reserve {
        id: name.as_str().into(),
        holder: name,
        most_holds: None,
        seconds: 1_800,
        quote: "q".to_owned(),
        bench_milli_minutes: 0,
        leave_day: None,
        sold: Vec::new(),
        lines: hold(dice),
        supersedes: None,
    })
}

/// One caller's turns.
async fn caller(
    ledger: Ledger,
    seed: u64,
    number: u64,
    count: Arc<AtomicU64>,
    begin: Arc<Barrier>,
) -> History {
    let mut dice = Dice::new(seed * 1_000 + number);
    let (mut own, mut history) = (Vec::new(), History::default());
    let tick = || count.fetch_add(1, Ordering::SeqCst);
    begin.wait().await;
    for turn in 0..TURNS {
        if dice.chance(33) {
            let piece = PieceId::from(*dice.pick(&BOLTS));
            let asked = tick();
            let found = ledger.piece(&piece).await.expect("a look").expect("a bolt");
            let row = [found.left.0, found.held.0, found.confirmed.0];
            history.looks.push(Look { piece, row, span: Span { asked, answered: tick() } });
            continue;
        }
        let change = envelope(number * 1_000 + turn, next(&mut dice, &mut own, format!("R{number}-{turn}")));
        let asked = tick();
        let told = ledger.apply(change.clone(), None).await;
        let span = Span { asked, answered: tick() };
        match told {
            Ok(_) => {
                history.changes.insert(change.id, span);
            }
            // a bolt comes to its end
            Err(pennantry_ledger::Error::Refused(_)) => drop(own.pop()),
            Err(error) => panic!("{:?}: {error:?}", change.command),
        }
    }
    history
}

/// Everybody at once, and what came of it.
async fn played(ledger: &Ledger, seed: u64) -> History {
    let count = Arc::new(AtomicU64::new(0));
    let first = envelope(u64::MAX, bolts());
    let asked = count.fetch_add(1, Ordering::SeqCst);
    ledger.apply(first.clone(), None).await.expect("bolts come");
    let mut history = History::default();
    let answered = count.fetch_add(1, Ordering::SeqCst);
    history.changes.insert(first.id, Span { asked, answered });
    let begin = Arc::new(Barrier::new(usize::try_from(CALLERS).expect("few")));
    let callers: Vec<_> = (0..CALLERS)
        .map(|number| {
            let (ledger, count, begin) = (ledger.clone(), Arc::clone(&count), Arc::clone(&begin));
            tokio::spawn(caller(ledger, seed, number, count, begin))
        })
        .collect();
    for caller in callers {
        let of = caller.await.expect("no caller panics");
        history.changes.extend(of.changes);
        history.looks.extend(of.looks);
    }
    for bolt in BOLTS {
        let moved = ledger.movements(&bolt.into(), 0, 1_000).await.expect("a look");
        history.movements.insert(bolt.into(), moved);
    }
    history.events = ledger.events(0, 1_000).await.expect("a look");
    history
}

/// Plays one history on a ledger, and judges it; then breaks it in every way, and it has to be noticed.
pub async fn is_one_order(ledger: &Ledger, seed: u64) {
    let history = played(ledger, seed).await;
    let told = (history.changes.len(), history.looks.len(), history.events.len());
    assert!(told.0 > 100 && told.1 > 50 && told.2 >= told.0, "too little happened to tell: {told:?}");
    if let Err(words) = history.judge() {
        panic!("seed {seed}: {words}");
    }
    let ledger = ledger.verify().await.expect("a look");
    assert_eq!(ledger.drift, Vec::<String>::new(), "seed {seed}");

    let mut swapped = history.clone();
    let of_one = swapped.movements.values_mut().next().expect("a bolt");
    // the last change of a bolt, told as if it had been the first after the delivery
    let last = of_one.pop().expect("movements");
    of_one.insert(1, last);
    assert!(swapped.judge().is_err(), "a bolt's order that is not that of the events");
    let mut late = history.clone();
    let first = late.events.remove(0);
    late.events.push(Placed { place: i64::MAX, ..first });
    assert!(late.judge().is_err(), "an event after what followed from it");
    let mut stale = history.clone();
    let end = stale.looks.iter().map(|look| look.span.asked).max().expect("looks") + 1;
    let empty = Look { piece: BOLTS[0].into(), row: [0; 3], span: Span { asked: end, answered: end } };
    stale.looks.push(empty);
    assert!(stale.judge().is_err(), "a look at what was long over");
}
