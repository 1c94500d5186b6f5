//! Reservations: lines against cuts, movements and events.

use std::collections::BTreeMap;

use rusqlite::{Connection, OptionalExtension};

use super::expect;
use crate::engine::Verified;
use crate::rules::{Account, Amount, EventKind, Reservation, ReservationId, State};
use crate::sqlite::pack::{count, word};
use crate::sqlite::rows::{cuts_for, find_reservation};

/// Looks at one reservation.
pub(super) fn look(connection: &Connection, id: &str, found: &mut Verified) -> rusqlite::Result<()> {
    let Some(reservation) = find_reservation(connection, &ReservationId::from(id))? else {
        return Ok(());
    };
    found.reservations += 1;
    lines(&reservation, found);
    promised(connection, &reservation, found)?;
    cut(connection, &reservation, found)?;
    told(connection, &reservation, found)?;
    superseded(connection, &reservation, found)
}

/// Lines are numbered from 1; one that has ended wants nothing, one that is live something.
fn lines(reservation: &Reservation, found: &mut Verified) {
    let id = &reservation.id;
    if reservation.lines.is_empty() {
        found.drift.push(format!("reservation {id}: has no line"));
    }
    for (number, line) in (1_u32..).zip(&reservation.lines) {
        expect(found, &format!("reservation {id}: number of a line"), &line.number, &number);
        if line.granted > line.wanted || line.wanted > line.planned {
            found
                .drift
                .push(format!("reservation {id}, line {number}: more is granted than wanted or planned"));
        }
    }
    let wanted: Amount = reservation.lines.iter().map(|line| line.wanted).sum();
    if reservation.state.is_live() != wanted.is_some() {
        found.drift.push(format!(
            "reservation {id}: is {}, and wants {}",
            reservation.state.as_str(),
            wanted.0
        ));
    }
    let confirmed = reservation.confirmed.is_some();
    let fits = match reservation.state {
        State::Confirmed => confirmed,
        State::Held | State::Released | State::Expired | State::Superseded => !confirmed,
        State::Cut | State::Cancelled => true,
    };
    if !fits {
        found.drift.push(format!(
            "reservation {id}: is {}, which its time of confirming does not fit",
            reservation.state.as_str()
        ));
    }
}

/// I5: what its movements promised it and did not take back is what its lines have: nothing, once
/// it has ended.
fn promised(
    connection: &Connection,
    reservation: &Reservation,
    found: &mut Verified,
) -> rusqlite::Result<()> {
    let mut statement = connection.prepare_cached(
        "SELECT from_account, to_account, SUM(amount) FROM movement WHERE reservation = ?1
         GROUP BY from_account, to_account",
    )?;
    let mut net: BTreeMap<Account, Amount> = BTreeMap::new();
    let mut rows = statement.query([reservation.id.as_str()])?;
    while let Some(row) = rows.next()? {
        let sum = Amount(row.get(2)?);
        *net.entry(word(row, 0, Account::read)?).or_default() -= sum;
        *net.entry(word(row, 1, Account::read)?).or_default() += sum;
    }
    let granted: Amount = reservation.lines.iter().map(|line| line.granted).sum();
    for (account, state) in [(Account::Held, State::Held), (Account::Confirmed, State::Confirmed)] {
        let should = if reservation.state == state { granted.0 } else { 0 };
        let is = net.get(&account).copied().unwrap_or_default().0;
        expect(
            found,
            &format!("reservation {}: {} by its movements", reservation.id, account.as_str()),
            &is,
            &should,
        );
    }
    Ok(())
}

/// What its lines say was used, spoiled and given in shapes is what its cuts say.
fn cut(connection: &Connection, reservation: &Reservation, found: &mut Verified) -> rusqlite::Result<()> {
    let id = &reservation.id;
    let cuts = cuts_for(connection, id)?;
    let parts = || cuts.iter().filter(|cut| !cut.undone).flat_map(|cut| &cut.parts);
    for line in &reservation.lines {
        let of = || parts().filter(|part| part.line == line.number);
        let used: Amount = of().map(crate::rules::CutPart::used).sum();
        let spoiled: Amount = of().map(|part| part.spoiled).sum();
        let shapes: u64 = of().map(|part| u64::from(part.shapes)).sum();
        let what = |what: &str| format!("reservation {id}, line {}: {what}", line.number);
        expect(found, &what("used"), &line.used.0, &used.0);
        expect(found, &what("spoiled"), &line.spoiled.0, &spoiled.0);
        expect(found, &what("shapes cut"), &u64::from(line.shapes_cut), &shapes);
    }
    for part in parts() {
        if !reservation.lines.iter().any(|line| line.number == part.line) {
            found.drift.push(format!("reservation {id}: a cut is for line {}, which it has not", part.line));
        }
    }
    if reservation.state == State::Cut && parts().next().is_none() {
        found.drift.push(format!("reservation {id}: is cut, and there is no cut for it"));
    }
    Ok(())
}

/// I6 and I10: it began once, and ended once if it has ended, as its state says.
fn told(connection: &Connection, reservation: &Reservation, found: &mut Verified) -> rusqlite::Result<()> {
    let mut statement =
        connection.prepare_cached("SELECT kind, COUNT(*) FROM event WHERE reservation = ?1 GROUP BY kind")?;
    let mut many: BTreeMap<EventKind, u64> = BTreeMap::new();
    let mut rows = statement.query([reservation.id.as_str()])?;
    while let Some(row) = rows.next()? {
        many.insert(word(row, 0, EventKind::read)?, count(row, 1)?);
    }
    let count = |kind: EventKind| many.get(&kind).copied().unwrap_or(0);
    let once = |yes: bool| u64::from(yes);
    let what =
        |kind: EventKind| format!("reservation {}: number of events \"{}\"", reservation.id, kind.as_str());
    expect(found, &what(EventKind::Held), &count(EventKind::Held), &1);
    let endings = [
        (EventKind::Released, State::Released),
        (EventKind::Expired, State::Expired),
        (EventKind::Cancelled, State::Cancelled),
        (EventKind::Superseded, State::Superseded),
    ];
    for (kind, state) in endings {
        expect(found, &what(kind), &count(kind), &once(reservation.state == state));
    }
    let confirmed = once(reservation.confirmed.is_some());
    expect(found, &what(EventKind::Confirmed), &count(EventKind::Confirmed), &confirmed);
    Ok(())
}

/// What took its place knows of it, and the other way round.
fn superseded(
    connection: &Connection,
    reservation: &Reservation,
    found: &mut Verified,
) -> rusqlite::Result<()> {
    let id = &reservation.id;
    let mut other =
        connection.prepare_cached("SELECT supersedes, superseded_by FROM reservation WHERE id = ?1")?;
    let mut names = |of: &ReservationId| {
        other
            .query_row([of.as_str()], |row| Ok((row.get(0)?, row.get(1)?)))
            .optional()
            .map(Option::<(Option<String>, Option<String>)>::unwrap_or_default)
    };
    if (reservation.state == State::Superseded) != reservation.superseded_by.is_some() {
        found.drift.push(format!("reservation {id}: whether another one took its place is not clear"));
    }
    if let Some(by) = &reservation.superseded_by
        && names(by)?.0.as_deref() != Some(id.as_str())
    {
        found.drift.push(format!("reservation {id}: {by} does not know that it took its place"));
    }
    if let Some(of) = &reservation.supersedes
        && names(of)?.1.as_deref() != Some(id.as_str())
    {
        found.drift.push(format!("reservation {id}: {of} does not know that its place was taken"));
    }
    Ok(())
}
