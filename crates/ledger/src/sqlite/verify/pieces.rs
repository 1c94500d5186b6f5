//! Pieces: balances against movements, promises and cuts.

use std::collections::BTreeMap;

use rusqlite::{Connection, OptionalExtension};

use super::expect;
use crate::engine::Verified;
use crate::rules::{Account, Amount, MovementKind, Piece, PieceId};
use crate::sqlite::pack::{count, word};
use crate::sqlite::rows::find_piece;

/// Looks at one piece.
pub(super) fn look(connection: &Connection, id: &str, found: &mut Verified) -> rusqlite::Result<()> {
    let Some(piece) = find_piece(connection, &PieceId::from(id))? else {
        return Ok(());
    };
    found.pieces += 1;
    let moved = moved(connection, id, found)?;
    let net = |account: Account| {
        let into: Amount = moved.iter().filter(|((_, _, to), _)| *to == account).map(|(_, sum)| *sum).sum();
        let out: Amount =
            moved.iter().filter(|((_, from, _), _)| *from == account).map(|(_, sum)| *sum).sum();
        (into - out).0
    };
    // I1, I2, I7: what lies on it is what its movements brought and did not take
    expect(found, &format!("piece {id}: free"), &piece.free().0, &net(Account::Free));
    expect(found, &format!("piece {id}: held"), &piece.held.0, &net(Account::Held));
    expect(found, &format!("piece {id}: confirmed"), &piece.confirmed.0, &net(Account::Confirmed));
    let came: Amount = moved
        .iter()
        .filter(|((kind, from, _), _)| match kind {
            MovementKind::Receive => *from == Account::Supplier,
            MovementKind::Cut => *from == Account::Kept,
            _ => false,
        })
        .map(|(_, sum)| *sum)
        .sum();
    expect(found, &format!("piece {id}: what came"), &piece.received.0, &came.0);
    // I3, which the file's own constraints say, too
    if piece.held.0 < 0 || piece.confirmed.0 < 0 || piece.free().0 < 0 {
        found.drift.push(format!("piece {id}: more is promised than lies on it"));
    }
    promises(connection, &piece, found)?;
    cut_off(connection, &piece, [net(Account::Used), net(Account::Spoiled), net(Account::Kept)], found)?;
    belongs(connection, &piece, found)?;
    flaws(&piece, found);
    Ok(())
}

type Moved = BTreeMap<(MovementKind, Account, Account), Amount>;

/// Sums of a piece's movements, which are numbered without gaps and each told of by an event of
/// its change.
fn moved(connection: &Connection, id: &str, found: &mut Verified) -> rusqlite::Result<Moved> {
    let mut statement = connection.prepare_cached(
        "SELECT kind, from_account, to_account, SUM(amount), COUNT(*), MAX(place) FROM movement
         WHERE piece = ?1 GROUP BY kind, from_account, to_account",
    )?;
    let mut rows = statement.query([id])?;
    let (mut sums, mut many, mut last) = (Moved::new(), 0_u64, 0_u64);
    while let Some(row) = rows.next()? {
        let key =
            (word(row, 0, MovementKind::read)?, word(row, 1, Account::read)?, word(row, 2, Account::read)?);
        sums.insert(key, Amount(row.get(3)?));
        many += count(row, 4)?;
        last = last.max(count(row, 5)?);
    }
    found.movements += many;
    // I9: none was taken out
    expect(found, &format!("piece {id}: number of movements"), &many, &last);
    let untold: u64 = connection
        .prepare_cached(
            "SELECT COUNT(*) FROM movement WHERE piece = ?1
             AND NOT EXISTS (SELECT 1 FROM event WHERE event.change = movement.change)",
        )?
        .query_row([id], |row| count(row, 0))?;
    // I10
    expect(found, &format!("piece {id}: movements that no event tells of"), &untold, &0);
    Ok(sums)
}

/// I4: what is held and confirmed is what live lines were granted.
fn promises(connection: &Connection, piece: &Piece, found: &mut Verified) -> rusqlite::Result<()> {
    let (held, confirmed): (i64, i64) = connection
        .prepare_cached(
            "SELECT COALESCE(SUM(line.granted) FILTER (WHERE reservation.state = 'held'), 0),
                    COALESCE(SUM(line.granted) FILTER (WHERE reservation.state = 'confirmed'), 0)
             FROM line JOIN reservation ON reservation.id = line.reservation
             WHERE line.piece = ?1 AND line.wanted > 0",
        )?
        .query_row([piece.id.as_str()], |row| Ok((row.get(0)?, row.get(1)?)))?;
    expect(found, &format!("piece {}: held, by its lines,", piece.id), &piece.held.0, &held);
    expect(found, &format!("piece {}: confirmed, by its lines,", piece.id), &piece.confirmed.0, &confirmed);
    Ok(())
}

/// What was used, spoiled and kept of it is what cuts that were not taken back say. A remnant's
/// own length came out of its parent's kept account under its own name.
fn cut_off(
    connection: &Connection,
    piece: &Piece,
    [used, spoiled, kept]: [i64; 3],
    found: &mut Verified,
) -> rusqlite::Result<()> {
    let (by_used, by_spoiled, by_kept): (i64, i64, i64) = connection
        .prepare_cached(
            "SELECT COALESCE(SUM(part.taken - part.spoiled - part.kept), 0), COALESCE(SUM(part.spoiled), 0),
                    COALESCE(SUM(part.kept), 0)
             FROM cut_part AS part JOIN cut ON cut.id = part.cut WHERE part.piece = ?1 AND cut.undone = 0",
        )?
        .query_row([piece.id.as_str()], |row| Ok((row.get(0)?, row.get(1)?, row.get(2)?)))?;
    let undone: Option<bool> = match &piece.cut {
        None => None,
        Some(cut) => connection
            .prepare_cached("SELECT undone FROM cut WHERE id = ?1")?
            .query_row([cut.as_str()], |row| row.get(0))
            .optional()?,
    };
    let came = if undone == Some(false) { piece.received.0 } else { 0 };
    expect(found, &format!("piece {}: used", piece.id), &used, &by_used);
    expect(found, &format!("piece {}: spoiled", piece.id), &spoiled, &by_spoiled);
    expect(found, &format!("piece {}: kept", piece.id), &kept, &(by_kept - came));
    Ok(())
}

/// The piece and the cut that it comes from, and the order it came on, are there.
fn belongs(connection: &Connection, piece: &Piece, found: &mut Verified) -> rusqlite::Result<()> {
    let id = &piece.id;
    match (&piece.parent, &piece.cut) {
        (None, None) => {}
        (Some(parent), Some(cut)) => {
            let named = connection
                .prepare_cached("SELECT 1 FROM cut_part WHERE cut = ?1 AND piece = ?2")?
                .exists([cut.as_str(), parent.as_str()])?;
            if !named {
                found.drift.push(format!("piece {id}: the cut {cut} of {parent} that left it is not there"));
            }
        }
        _ => found.drift.push(format!("piece {id}: has a parent without a cut, or a cut without a parent")),
    }
    if let Some(order) = &piece.order {
        let there =
            connection.prepare_cached("SELECT 1 FROM purchase WHERE id = ?1")?.exists([order.as_str()])?;
        if !there {
            found.drift.push(format!("piece {id}: the order {order} that it came on is not there"));
        }
    }
    Ok(())
}

/// Flaws are in order, apart, not empty, and within what lies there.
fn flaws(piece: &Piece, found: &mut Verified) {
    let mut begins = 0;
    for flaw in &piece.flaws {
        if flaw.from.um() < begins || flaw.to <= flaw.from || flaw.to > piece.left.length() {
            found.drift.push(format!("piece {}: a flaw at {} µm is out of place", piece.id, flaw.from.um()));
        }
        begins = flaw.to.um();
    }
}
