//! The shelf in memory, kept up to date by the writer.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use rusqlite::Connection;

use super::rows::{find_piece, piece, select_piece};
use crate::rules::{Amount, At, Change, Material, PieceId, State};
use crate::shelf::{OnShelf, Promised, Shelf};

/// What lies on the shelf, piece by piece. What is given out shares the pieces, so that one
/// piece changed costs its material's list of pointers and no more.
#[derive(Debug, Default)]
pub(super) struct Board {
    materials: BTreeMap<Material, BTreeMap<PieceId, Arc<OnShelf>>>,
    shelf: Shelf,
}

/// The pieces that a change touches.
pub(super) fn touched(change: &Change, pieces: &mut BTreeSet<PieceId>) {
    match change {
        Change::AddPiece(piece) => {
            pieces.insert(piece.id.clone());
        }
        Change::Balance { piece, .. } | Change::Flaws { piece, .. } | Change::Location { piece, .. } => {
            pieces.insert(piece.clone());
        }
        Change::AddReservation(reservation) => {
            pieces.extend(reservation.lines.iter().map(|line| line.piece.clone()));
        }
        // a hold that became a promise, or lasts longer, counts differently
        Change::Head { is, .. } => pieces.extend(is.lines.iter().map(|line| line.piece.clone())),
        Change::AddLine { line, .. } | Change::SetLine { line, .. } => {
            pieces.insert(line.piece.clone());
        }
        Change::AddCut(_)
        | Change::CutUndone(_)
        | Change::AddOrder(_)
        | Change::OrderState { .. }
        | Change::OrderReceived { .. }
        | Change::Move(_)
        | Change::Roll(_)
        | Change::Tell(_) => {}
    }
}

/// What is promised of a piece, in the order of the reservations' names.
fn promised(connection: &Connection, id: &PieceId) -> rusqlite::Result<Vec<Promised>> {
    let mut statement = connection.prepare_cached(
        "SELECT reservation.state, reservation.expires, line.granted
         FROM line JOIN reservation ON reservation.id = line.reservation
         WHERE line.piece = ?1 AND line.wanted > 0 AND line.granted > 0
         ORDER BY line.reservation, line.number",
    )?;
    let found = statement.query_map([id.as_str()], |row| {
        let held = row.get_ref(0)?.as_str()? == State::Held.as_str();
        let expires = if held { Some(At(row.get(1)?)) } else { None };
        Ok(Promised { expires, granted: Amount(row.get(2)?) })
    })?;
    found.collect()
}

impl Board {
    /// Reads everything.
    pub(super) fn read(connection: &Connection) -> rusqlite::Result<Board> {
        let mut board = Board::default();
        let mut statement = connection.prepare(select_piece!("WHERE left_over > 0 ORDER BY id"))?;
        let mut rows = statement.query([])?;
        while let Some(row) = rows.next()? {
            let piece = piece(row)?;
            let promised = promised(connection, &piece.id)?;
            let pieces = board.materials.entry(piece.material.clone()).or_default();
            pieces.insert(piece.id.clone(), Arc::new(OnShelf { piece, promised }));
        }
        board.shelf.at = last_instant(connection)?;
        let all: BTreeSet<Material> = board.materials.keys().cloned().collect();
        board.give_out(&all);
        Ok(board)
    }

    /// Reads the pieces touched anew, after the commit that touched them.
    pub(super) fn refresh(
        &mut self,
        connection: &Connection,
        touched: &BTreeSet<PieceId>,
        at: At,
    ) -> rusqlite::Result<()> {
        let mut materials = BTreeSet::new();
        for id in touched {
            let Some(piece) = find_piece(connection, id)? else {
                continue;
            };
            let pieces = self.materials.entry(piece.material.clone()).or_default();
            materials.insert(piece.material.clone());
            if piece.left.is_some() {
                let promised = promised(connection, id)?;
                pieces.insert(piece.id.clone(), Arc::new(OnShelf { piece, promised }));
            } else {
                pieces.remove(id);
            }
        }
        self.shelf.at = at;
        self.give_out(&materials);
        Ok(())
    }

    fn give_out(&mut self, materials: &BTreeSet<Material>) {
        for material in materials {
            let pieces: Vec<Arc<OnShelf>> =
                self.materials.get(material).into_iter().flat_map(BTreeMap::values).map(Arc::clone).collect();
            if pieces.is_empty() {
                self.materials.remove(material);
                self.shelf.materials.remove(material);
            } else {
                self.shelf.materials.insert(material.clone(), Arc::new(pieces));
            }
        }
    }

    /// The shelf as it is now.
    pub(super) fn shelf(&self) -> Arc<Shelf> {
        Arc::new(self.shelf.clone())
    }
}

/// When something happened last; the beginning of time where nothing has.
fn last_instant(connection: &Connection) -> rusqlite::Result<At> {
    connection
        .query_row("SELECT COALESCE((SELECT at FROM event ORDER BY place DESC LIMIT 1), 0)", [], |row| {
            row.get(0)
        })
        .map(At)
}
