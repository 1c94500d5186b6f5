//! The whole store read and added up, against the model: the invariants that speak of all of
//! it at once.
//!
//! | | what is looked at |
//! |---|---|
//! | I1, I2, I7 | movements of each piece, added up account by account, are what the facts say and what its row says |
//! | I3 | nothing is below nought, and no more is promised than lies there |
//! | I4 | what is held and confirmed is what live lines were granted |
//! | I5 | movements of each reservation leave with it what its lines have: nothing once it has ended |
//! | I6, I10 | events are exactly those that the commands were to tell; one ending for each reservation that ended |
//! | I8, I9 | movements are never fewer, have names of their own, and are not more for repeats |
//! | | what days did is what the diary and the cuts that stand say, and comes to what lies there |
//! | I11 | whatever was answered is there when the store is closed and opened again |
//!
//! Where there are two stores, their movements and events are the same ones in the same order, word
//! for word (`lockstep`).
//!
//! What is never orphaned is seen on the way: a line, cut or remnant without what it belongs
//! to is not in the model.

use std::collections::{BTreeMap, BTreeSet};

use pennantry_ledger::rules::{
    Account, ChangeId, Class, DayUse, Event, EventKind, Movement, Piece, PieceId, Reservation, State,
};
use pennantry_ledger::{FindPieces, FindReservations, Ledger, Placed};

use super::model::Model;

/// What was seen of a store before.
#[derive(Debug, Default)]
pub struct Seen {
    movements: BTreeMap<PieceId, usize>,
    place: i64,
    names: BTreeSet<(ChangeId, u32)>,
    endings: BTreeMap<(EventKind, String), u64>,
    /// How many movements there are by now.
    pub moved: usize,
    /// Movements and events that the last look came upon, in their order.
    pub news: (Vec<Movement>, Vec<Placed>),
}

/// How many rows are read at once.
const PAGE: u32 = 700;

fn same<T: PartialEq + std::fmt::Debug>(what: &str, found: &T, expected: &T) -> Result<(), String> {
    if found == expected { Ok(()) } else { Err(format!("{what}: found {found:?}\n  expected {expected:?}")) }
}

fn words(error: &pennantry_ledger::Error) -> String {
    format!("the store cannot be read: {error}")
}

async fn all_pieces(ledger: &Ledger) -> Result<Vec<Piece>, String> {
    let mut all: Vec<Piece> = Vec::new();
    loop {
        let after = all.last().map(|piece| piece.id.clone());
        let find = FindPieces { empty_too: true, after, most: PAGE, ..FindPieces::default() };
        let page = ledger.pieces(&find).await.map_err(|error| words(&error))?;
        if page.is_empty() {
            return Ok(all);
        }
        all.extend(page);
    }
}

async fn all_reservations(ledger: &Ledger) -> Result<Vec<Reservation>, String> {
    let mut all: Vec<Reservation> = Vec::new();
    loop {
        let after = all.last().map(|reservation| reservation.id.clone());
        let find = FindReservations { after, most: PAGE, ..FindReservations::default() };
        let page = ledger.reservations(&find).await.map_err(|error| words(&error))?;
        if page.is_empty() {
            return Ok(all);
        }
        all.extend(page);
    }
}

async fn all_movements(ledger: &Ledger, piece: &PieceId) -> Result<Vec<Movement>, String> {
    let mut all = Vec::new();
    loop {
        let skip = u32::try_from(all.len()).expect("few");
        let page = ledger.movements(piece, skip, PAGE).await.map_err(|error| words(&error))?;
        let last = page.len() < usize::try_from(PAGE).expect("small");
        all.extend(page);
        if last {
            return Ok(all);
        }
    }
}

/// Reads everything and holds it against the model.
///
/// # Errors
/// What was found and what was expected.
pub async fn look(ledger: &Ledger, model: &mut Model, seen: &mut Seen) -> Result<(), String> {
    seen.news = Default::default();
    pieces(ledger, model, seen).await?;
    reservations(ledger, model).await?;
    orders(ledger, model).await?;
    shelf(ledger, model).await?;
    days(ledger, model).await?;
    events(ledger, model, seen).await?;
    let verified = ledger.verify().await.map_err(|error| words(&error))?;
    same("what the ledger finds amiss with itself", &verified.drift, &Vec::new())?;
    let counted =
        [verified.pieces, verified.reservations, verified.movements].map(|it| usize::try_from(it).ok());
    let expected = [model.piece_names().count(), model.reservations.len(), seen.moved].map(Some);
    same("pieces, reservations and movements that the ledger looked at", &counted, &expected)
}

async fn pieces(ledger: &Ledger, model: &Model, seen: &mut Seen) -> Result<(), String> {
    let found = all_pieces(ledger).await?;
    let names: Vec<&PieceId> = found.iter().map(|piece| &piece.id).collect();
    same("the names of all pieces", &names, &model.piece_names().collect())?;
    let mut with = BTreeMap::new();
    let mut names = BTreeSet::new();
    seen.moved = 0;
    for piece in &found {
        same("a piece", &Some(piece), &model.piece(&piece.id).as_ref())?;
        let promised = piece.held + piece.confirmed;
        if piece.held.0 < 0 || piece.confirmed.0 < 0 || promised > piece.left {
            return Err(format!("more is promised than lies there: {piece:?}"));
        }
        let movements = all_movements(ledger, &piece.id).await?;
        let before = seen.movements.insert(piece.id.clone(), movements.len()).unwrap_or(0);
        if movements.len() < before {
            return Err(format!("{}: {} movements, and {before} before", piece.id, movements.len()));
        }
        seen.moved += movements.len();
        seen.news.0.extend_from_slice(&movements[before..]);
        let mut sums = [0; 8];
        for movement in &movements {
            if movement.amount.0 < 1 || movement.from == movement.to || movement.piece != piece.id {
                return Err(format!("no movement: {movement:?}"));
            }
            if !names.insert((movement.change, movement.number)) {
                return Err(format!("a movement's name is used twice: {movement:?}"));
            }
            for (account, sign) in [(movement.from, -1), (movement.to, 1)] {
                let place = Account::ALL.iter().position(|it| *it == account).expect("one of all");
                sums[place] += sign * movement.amount.0;
                if matches!(account, Account::Held | Account::Confirmed) {
                    let Some(reservation) = &movement.reservation else {
                        return Err(format!("promised to nobody: {movement:?}"));
                    };
                    let key = (reservation.clone(), piece.id.clone(), account);
                    *with.entry(key).or_insert(0) += sign * movement.amount.0;
                }
            }
        }
        same(&format!("the accounts of {}", piece.id), &sums, &model.accounts(&piece.id))?;
        let row = [piece.free().0, piece.held.0, piece.confirmed.0];
        same(&format!("the row of {} against its movements", piece.id), &row, &[sums[1], sums[2], sums[3]])?;
    }
    let mut expected = BTreeMap::new();
    for reservation in model.live() {
        let account = if reservation.state == State::Held { Account::Held } else { Account::Confirmed };
        for line in &reservation.lines {
            *expected.entry((reservation.id.clone(), line.piece.clone(), account)).or_insert(0) +=
                line.granted.0;
        }
    }
    with.retain(|_, sum| *sum != 0);
    expected.retain(|_, sum| *sum != 0);
    same("what movements left with reservations", &with, &expected)
}

async fn days(ledger: &Ledger, model: &Model) -> Result<(), String> {
    let expected = model.days();
    let mut found = BTreeMap::new();
    let mut there: BTreeMap<_, i64> = BTreeMap::new();
    for id in model.piece_names() {
        if let Some(piece) = model.piece(id) {
            *there.entry((piece.material, piece.lot)).or_default() += piece.left.0;
        }
    }
    let mut sums: BTreeMap<_, i64> = BTreeMap::new();
    for class in Class::ALL {
        let by_lot =
            ledger.day_uses_by_lot(class, i32::MIN, i32::MAX).await.map_err(|error| words(&error))?;
        let mut over_lots: Vec<(String, i32, DayUse)> = Vec::new();
        for row in by_lot {
            *sums.entry((row.material.clone(), row.lot.clone())).or_default() += row.of.on_hand().0;
            let place = over_lots.iter().position(|it| it.0 == row.material.code && it.1 == row.day);
            match place {
                Some(place) => over_lots[place].2.add(&row.of),
                None => over_lots.push((row.material.code.clone(), row.day, row.of)),
            }
            if row.of != DayUse::default() {
                found.insert((row.material, row.lot, row.day), row.of);
            }
        }
        over_lots.sort_by(|one, other| (&one.0, one.1).cmp(&(&other.0, other.1)));
        let told = ledger.day_uses(class, i32::MIN, i32::MAX).await.map_err(|error| words(&error))?;
        let told: Vec<_> = told.into_iter().map(|it| (it.code, it.day, it.of)).collect();
        same("days over all lots", &told, &over_lots)?;
    }
    for (key, of) in &expected {
        same(&format!("day {} of {}, lot {:?}", key.2, key.0, key.1), &found.get(key), &Some(of))?;
    }
    same("days on which something happened", &found.keys().collect(), &expected.keys().collect::<Vec<_>>())?;
    same("what days come to", &sums, &there)
}

async fn reservations(ledger: &Ledger, model: &Model) -> Result<(), String> {
    let found = all_reservations(ledger).await?;
    if !found.windows(2).all(|pair| pair[0].created >= pair[1].created) {
        return Err("reservations are not told the latest first".to_owned());
    }
    let found: BTreeMap<_, _> = found.into_iter().map(|it| (it.id.clone(), it)).collect();
    for (id, expected) in &model.reservations {
        same("a reservation", &found.get(id), &Some(expected))?;
    }
    same("how many reservations there are", &found.len(), &model.reservations.len())?;
    let mut booked: Vec<_> =
        ledger.bookings(i32::MIN).await.map_err(|error| words(&error))?.into_iter().collect();
    booked.sort_by_key(|it| (it.confirmed, it.leave_day, it.milli_minutes));
    let kept = model.reservations.values().filter(|it| matches!(it.state, State::Confirmed | State::Cut));
    let kept = kept.filter(|it| it.bench_milli_minutes > 0);
    let mut expected: Vec<_> =
        kept.map(|it| (it.confirmed.unwrap_or(it.created), it.leave_day, it.bench_milli_minutes)).collect();
    expected.sort_unstable();
    let booked: Vec<_> = booked.iter().map(|it| (it.confirmed, it.leave_day, it.milli_minutes)).collect();
    let booked: Vec<_> = booked.into_iter().filter(|it| it.2 > 0).collect();
    same("bench time that is booked", &booked, &expected)
}

async fn orders(ledger: &Ledger, model: &Model) -> Result<(), String> {
    let mut found = ledger.orders(false, 100_000).await.map_err(|error| words(&error))?;
    found.sort_by(|one, other| one.id.cmp(&other.id));
    let mut expected: Vec<_> = model.orders.values().cloned().collect();
    for order in found.iter_mut().chain(&mut expected) {
        order.note.clear();
    }
    same("orders", &found, &expected)?;
    let mut to_come = BTreeMap::new();
    for order in model.orders.values() {
        for line in order.lines.iter().filter(|_| order.state == pennantry_ledger::rules::OrderState::Open) {
            *to_come.entry(line.material.clone()).or_insert(0) += (line.ordered.0 - line.received.0).max(0);
        }
    }
    to_come.retain(|_, amount| *amount > 0);
    let found = ledger.on_order().await.map_err(|error| words(&error))?;
    let found: BTreeMap<_, _> = found.into_iter().map(|(material, amount)| (material, amount.0)).collect();
    same("what is still to come", &found, &to_come)
}

async fn shelf(ledger: &Ledger, model: &Model) -> Result<(), String> {
    let shelf = ledger.read_shelf().await.map_err(|error| words(&error))?;
    let mut found = BTreeMap::new();
    for on_shelf in shelf.materials.values().flat_map(|pieces| pieces.iter()) {
        let promised = on_shelf.promised.iter().map(|promised| promised.granted.0).sum::<i64>();
        found.insert(on_shelf.piece.id.clone(), (on_shelf.piece.clone(), promised));
    }
    let there = model.piece_names().filter_map(|id| model.piece(id)).filter(|piece| piece.left.0 > 0);
    let expected =
        there.map(|piece| (piece.id.clone(), (piece.clone(), piece.held.0 + piece.confirmed.0))).collect();
    same("the shelf", &found, &expected)
}

/// Of what an event tells.
fn subject(event: &Event) -> String {
    let order = event.order.as_ref().map(ToString::to_string);
    let reservation = event.reservation.as_ref().map(ToString::to_string);
    let piece = event.piece.as_ref().map(ToString::to_string);
    let told = match event.kind {
        EventKind::Received | EventKind::Adjusted => piece,
        EventKind::Ordered | EventKind::OrderCancelled => order,
        _ => reservation,
    };
    told.unwrap_or_default()
}

/// What a list has more of than another one.
fn beyond(list: &[(EventKind, String)], other: &[(EventKind, String)]) -> Vec<(EventKind, String)> {
    let mut other = other.to_vec();
    let mut more = list.to_vec();
    more.retain(|it| match other.iter().position(|one| one == it) {
        Some(at) => {
            other.swap_remove(at);
            false
        }
        None => true,
    });
    more
}

async fn events(ledger: &Ledger, model: &mut Model, seen: &mut Seen) -> Result<(), String> {
    let mut found = Vec::new();
    let last = ledger.last_place().await.map_err(|error| words(&error))?;
    while seen.place < last {
        let page = ledger.events(seen.place, PAGE).await.map_err(|error| words(&error))?;
        if page.is_empty() {
            return Err(format!("no events after {}, and {last} is the last", seen.place));
        }
        for placed in page {
            if placed.place <= seen.place {
                return Err(format!("events are not in order: {placed:?} after {}", seen.place));
            }
            seen.place = placed.place;
            if !seen.names.insert((placed.event.change, placed.event.number)) {
                return Err(format!("an event's name is used twice: {placed:?}"));
            }
            found.push((placed.event.kind, subject(&placed.event)));
            seen.news.1.push(placed);
        }
    }
    for told in &found {
        if matches!(
            told.0,
            EventKind::Released | EventKind::Expired | EventKind::Cancelled | EventKind::Superseded
        ) {
            *seen.endings.entry(told.clone()).or_default() += 1;
        }
    }
    for reservation in model.reservations.values() {
        let of = |kind| seen.endings.get(&(kind, reservation.id.to_string())).copied().unwrap_or(0);
        let kinds = [EventKind::Released, EventKind::Expired, EventKind::Cancelled, EventKind::Superseded];
        let states = [State::Released, State::Expired, State::Cancelled, State::Superseded];
        let expected = states.map(|state| u64::from(reservation.state == state));
        same(&format!("endings told of {}", reservation.id), &kinds.map(of), &expected)?;
    }
    let mut expected = std::mem::take(&mut model.told);
    found.sort();
    expected.sort();
    if found != expected {
        let (more, less) = (beyond(&found, &expected), beyond(&expected, &found));
        return Err(format!(
            "events: told beyond what was expected {more:?}\n  expected and not told {less:?}"
        ));
    }
    Ok(())
}
