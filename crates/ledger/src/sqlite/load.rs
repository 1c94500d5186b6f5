//! What a command needs to see, read in the transaction that carries it out.

use std::collections::BTreeSet;

use rusqlite::{Connection, OptionalExtension};

use super::rows::{find_cut, find_order, find_piece, find_reservation, on_piece};
use crate::rules::{At, CutId, Needs, PieceId, Reservation, ReservationId, Rows};

/// Reads what is needed.
///
/// Named reservations and overdue holds bring all their pieces, every piece brings the
/// reservations with a live line on it, and those of them that are overdue bring their pieces
/// in turn, until nothing new comes.
pub(super) fn load(connection: &Connection, needs: &Needs, now: At) -> rusqlite::Result<Rows> {
    let mut load = Load { connection, now, rows: Rows::default(), seen: BTreeSet::new(), next: Vec::new() };
    for id in &needs.orders {
        if let Some(order) = find_order(connection, id)? {
            load.rows.orders.insert(id.clone(), order);
        }
    }
    let mut named: Vec<ReservationId> = needs.reservations.clone();
    for id in &needs.cuts {
        if let Some(cut) = find_cut(connection, id)? {
            named.push(cut.reservation.clone());
            for part in &cut.parts {
                for piece in std::iter::once(&part.piece).chain(&part.remnants) {
                    load.see(piece);
                    if let Some(last) = last_cut(connection, piece)? {
                        load.rows.last_cut.insert(piece.clone(), last);
                    }
                }
            }
            load.rows.cuts.insert(id.clone(), cut);
        }
    }
    if needs.overdue > 0 {
        named.extend(overdue(connection, needs.overdue, now)?);
    }
    for id in named {
        if !load.rows.reservations.contains_key(&id)
            && let Some(reservation) = find_reservation(connection, &id)?
        {
            load.whole(reservation);
        }
    }
    needs.pieces.iter().for_each(|piece| load.see(piece));
    load.pieces()?;
    if let Some(holder) = &needs.holder {
        load.rows.holds = holds(connection, holder, now)?;
    }
    Ok(load.rows)
}

struct Load<'a> {
    connection: &'a Connection,
    now: At,
    rows: Rows,
    seen: BTreeSet<PieceId>,
    next: Vec<PieceId>,
}

impl Load<'_> {
    fn see(&mut self, piece: &PieceId) {
        if self.seen.insert(piece.clone()) {
            self.next.push(piece.clone());
        }
    }

    /// Takes a reservation of which every piece is wanted.
    fn whole(&mut self, reservation: Reservation) {
        reservation.lines.iter().for_each(|line| self.see(&line.piece));
        self.rows.reservations.insert(reservation.id.clone(), reservation);
    }

    fn pieces(&mut self) -> rusqlite::Result<()> {
        while let Some(id) = self.next.pop() {
            let Some(piece) = find_piece(self.connection, &id)? else {
                continue;
            };
            for reservation in on_piece(self.connection, &id)? {
                if self.rows.reservations.contains_key(&reservation.id) {
                    continue;
                }
                if reservation.is_overdue(self.now) {
                    self.whole(reservation);
                } else {
                    self.rows.reservations.insert(reservation.id.clone(), reservation);
                }
            }
            self.rows.pieces.insert(id, piece);
        }
        Ok(())
    }
}

fn last_cut(connection: &Connection, piece: &PieceId) -> rusqlite::Result<Option<CutId>> {
    connection
        .prepare_cached(
            "SELECT cut.id FROM cut_part JOIN cut ON cut.id = cut_part.cut
             WHERE cut_part.piece = ?1 AND cut.undone = 0 ORDER BY cut_part.turn DESC LIMIT 1",
        )?
        .query_row([piece.as_str()], |row| row.get(0).map(CutId))
        .optional()
}

fn overdue(connection: &Connection, most: u32, now: At) -> rusqlite::Result<Vec<ReservationId>> {
    let mut statement = connection.prepare_cached(
        "SELECT id FROM reservation WHERE state = 'held' AND expires <= ?1 ORDER BY expires, id LIMIT ?2",
    )?;
    statement.query_map((now.0, most), |row| row.get(0).map(ReservationId))?.collect()
}

fn holds(connection: &Connection, holder: &str, now: At) -> rusqlite::Result<u32> {
    connection
        .prepare_cached(
            "SELECT COUNT(*) FROM reservation WHERE holder = ?1 AND state = 'held' AND expires > ?2",
        )?
        .query_row((holder, now.0), |row| row.get(0))
}
