//! A look through the whole store, at one instant: whatever can be judged from rows is
//! computed again from the movements, the lines and the events.

use std::collections::BTreeMap;

use super::failure::Failure;
use super::row::{self, Columns};
use super::unit::Unit;
use super::{days, reports, sql};
use crate::days::Drift;
use crate::engine::Verified;
use crate::rules::{Account, Amount, EventKind, Piece, State, stretches};

/// Sums by a name and a word.
type Sums<W> = BTreeMap<(String, W), Amount>;

/// Looks through everything.
pub(super) async fn verify(unit: &Unit) -> Result<Verified, Failure> {
    let mut found = Verified::default();
    let all = pieces(unit, &mut found).await?;
    remnants(unit, &all, &mut found).await?;
    reservations(unit, &mut found).await?;
    events(unit, &mut found).await?;
    for (what, statement) in sql::verify::ORPHANS {
        for row in unit.query(statement, &[]).await? {
            let name: String = row.try_get(0)?;
            found.drift.push(format!("{what}: {name:?}"));
        }
    }
    let drifts = days::drifted(unit).await?;
    found.drift.extend(drifts.iter().map(Drift::words));
    found.reports = reports::verify(unit, &mut found.drift).await?;
    found.movements = count(unit.number(sql::verify::MOVEMENTS, &[]).await?);
    Ok(found)
}

fn count(number: i64) -> u64 {
    u64::try_from(number).unwrap_or(0)
}

async fn sums<W: Ord>(unit: &Unit, statement: &str, read: fn(&str) -> Option<W>) -> Result<Sums<W>, Failure> {
    let mut sums = BTreeMap::new();
    for found in unit.query(statement, &[]).await? {
        let mut of = Columns::of(&found);
        sums.insert((of.take()?, of.word(read)?), of.amount()?);
    }
    Ok(sums)
}

fn sum<W: Ord>(sums: &Sums<W>, name: &str, word: W) -> Amount {
    sums.get(&(name.to_owned(), word)).copied().unwrap_or_default()
}

/// Compares, and says what differs.
fn compare(found: &mut Verified, of: &str, what: &str, is: Amount, by: &str, meant: Amount) {
    if is != meant {
        found.drift.push(format!("{of}: {what} is {} by the row, {} by the {by}", is.0, meant.0));
    }
}

/// Each remnant is there and knows where it comes from; those of full width are what the part says
/// was kept.
async fn remnants(
    unit: &Unit,
    pieces: &BTreeMap<String, Piece>,
    found: &mut Verified,
) -> Result<(), Failure> {
    for row in unit.query(sql::verify::REMNANTS, &[]).await? {
        let (cut, from): (String, String) = (row.try_get(0)?, row.try_get(1)?);
        let (noted, names): (i64, String) = (row.try_get(2)?, row.try_get(3)?);
        let width = pieces.get(&from).map(|piece| piece.width);
        let mut kept = Amount::ZERO;
        for name in row::read_list(&names) {
            let Some(remnant) = pieces.get(&name) else {
                found.drift.push(format!("cut {cut:?}: the remnant {name:?} is not there"));
                continue;
            };
            let of = |text: Option<&str>, is: &str| text == Some(is);
            let cut_of = remnant.cut.as_ref().map(crate::rules::CutId::as_str);
            let parent = remnant.parent.as_ref().map(crate::rules::PieceId::as_str);
            if !of(cut_of, &cut) || !of(parent, &from) {
                found
                    .drift
                    .push(format!("cut {cut:?}: the remnant {name:?} does not know that it comes of it"));
            }
            if Some(remnant.width) == width {
                kept += remnant.received;
            }
        }
        compare(found, &format!("cut {cut:?}"), "what is kept", Amount(noted), "remnants", kept);
    }
    Ok(())
}

async fn pieces(unit: &Unit, found: &mut Verified) -> Result<BTreeMap<String, Piece>, Failure> {
    let mut all = BTreeMap::new();
    let accounts = sums(unit, sql::verify::ACCOUNTS, Account::read).await?;
    let granted = sums(unit, sql::verify::GRANTED, State::read).await?;
    let mut came: BTreeMap<String, Amount> = BTreeMap::new();
    for row in unit.query(sql::verify::CAME, &[]).await? {
        came.insert(row.try_get(0)?, Amount(row.try_get(1)?));
    }
    for row in unit.query(sql::verify::PIECES, &[]).await? {
        let piece = row::piece(&row)?;
        found.pieces += 1;
        let id = piece.id.as_str();
        let of = format!("piece {id:?}");
        let came = came.get(id).copied().unwrap_or_default();
        compare(found, &of, "what it came with", piece.received, "movements", came);
        compare(found, &of, "free", piece.free(), "movements", sum(&accounts, id, Account::Free));
        compare(found, &of, "held", piece.held, "movements", sum(&accounts, id, Account::Held));
        compare(
            found,
            &of,
            "confirmed",
            piece.confirmed,
            "movements",
            sum(&accounts, id, Account::Confirmed),
        );
        compare(found, &of, "held", piece.held, "lines", sum(&granted, id, State::Held));
        compare(found, &of, "confirmed", piece.confirmed, "lines", sum(&granted, id, State::Confirmed));
        if piece.held < Amount::ZERO || piece.confirmed < Amount::ZERO || piece.free() < Amount::ZERO {
            found.drift.push(format!(
                "{of}: {} held and {} confirmed of {} left",
                piece.held.0, piece.confirmed.0, piece.left.0
            ));
        }
        if !has_sound_flaws(&piece) {
            found.drift.push(format!("{of}: its flaws overlap, are empty or lie beyond what is left"));
        }
        all.insert(id.to_owned(), piece);
    }
    Ok(all)
}

fn has_sound_flaws(piece: &Piece) -> bool {
    let mut end = Amount::ZERO;
    for flaw in &piece.flaws {
        let (from, to) = (Amount::of_length(flaw.from), Amount::of_length(flaw.to));
        if from < end || to <= from || to > piece.left {
            return false;
        }
        end = to;
    }
    stretches(piece).into_iter().sum::<Amount>() <= piece.left
}

async fn reservations(unit: &Unit, found: &mut Verified) -> Result<(), Failure> {
    let moved = sums(unit, sql::verify::MOVED, Account::read).await?;
    let told = sums(unit, sql::verify::TOLD, EventKind::read).await?;
    let mut rows = unit.query(sql::verify::RESERVATIONS, &[]).await?;
    rows.sort_by(|one, other| {
        let name = |row: &tokio_postgres::Row| row.try_get::<_, String>(0).unwrap_or_default();
        name(one).cmp(&name(other))
    });
    for row in rows {
        let mut of = Columns::of(&row);
        let id: &str = of.take()?;
        let state = of.word(State::read)?;
        let (wanted, granted, lines) = (of.amount()?, of.amount()?, of.take::<i64>()?);
        found.reservations += 1;
        let name = format!("reservation {id:?}, {}", state.as_str());
        if lines == 0 {
            found.drift.push(format!("{name}: it has no lines"));
        }
        if !state.is_live() && (wanted.is_some() || granted.is_some()) {
            found.drift.push(format!("{name}: its lines still want {} and have {}", wanted.0, granted.0));
        }
        let as_state = |of: State| if state == of { granted } else { Amount::ZERO };
        for (account, meant) in
            [(Account::Held, as_state(State::Held)), (Account::Confirmed, as_state(State::Confirmed))]
        {
            let is = sum(&moved, id, account);
            if is != meant {
                found.drift.push(format!(
                    "{name}: {} is {} by the movements, {} by its lines",
                    account.as_str(),
                    is.0,
                    meant.0
                ));
            }
        }
        let times = |kind| sum(&told, id, kind).0;
        if times(EventKind::Held) != 1 {
            found.drift.push(format!("{name}: its beginning was told {} times", times(EventKind::Held)));
        }
        let ends =
            [EventKind::Released, EventKind::Expired, EventKind::Cancelled, EventKind::Superseded].map(times);
        let meant = match state {
            State::Released => [1, 0, 0, 0],
            State::Expired => [0, 1, 0, 0],
            State::Cancelled => [0, 0, 1, 0],
            State::Superseded => [0, 0, 0, 1],
            State::Held | State::Confirmed | State::Cut => [0; 4],
        };
        if ends != meant {
            found.drift.push(format!(
                "{name}: it was told to be released, expired, cancelled and superseded {ends:?} times"
            ));
        }
    }
    Ok(())
}

async fn events(unit: &Unit, found: &mut Verified) -> Result<(), Failure> {
    found.events = count(unit.number(sql::verify::EVENTS, &[]).await?);
    let last = unit.number(sql::event::LAST, &[]).await?;
    if let Some(row) = unit.one(sql::verify::PLACES, &[]).await? {
        let (placed, highest): (i64, i64) = (row.try_get(0)?, row.try_get(1)?);
        if placed != last || highest != last {
            found.drift.push(format!(
                "events: {placed} have places, the highest is {highest}, and the last one given is {last}"
            ));
        }
    }
    Ok(())
}
