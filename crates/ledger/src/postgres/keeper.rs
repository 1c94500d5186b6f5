//! Keeps the shelf in memory.
//!
//! It is read whole when the store is opened, and again when somebody looks at it and it is
//! older than it may be. After a change of this server the pieces concerned are read again,
//! by whoever comes first for all who wait. Changes of other servers are seen with the next
//! whole reading, so the shelf's instant is that of the last one.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Mutex, PoisonError};
use std::time::Instant;

use deadpool_postgres::Object;
use tokio::sync::Mutex as Turn;
use tokio_postgres::Row;

use super::failure::Failure;
use super::options::Options;
use super::row::{self, Columns};
use super::sql;
use super::unit::Unit;
use crate::rules::{Amount, At, Material, PieceId, State};
use crate::shelf::{OnShelf, Promised, Shelf};

/// The shelf in memory.
#[derive(Debug)]
pub(super) struct Keeper {
    shelf: Mutex<(Arc<Shelf>, Instant)>,
    /// Pieces to be read again.
    touched: Mutex<BTreeSet<PieceId>>,
    /// One reads at a time, so that no older reading replaces a newer one.
    turn: Turn<()>,
    /// Whether somebody is reading all of it in the background.
    refreshing: AtomicBool,
    options: Options,
}

impl Keeper {
    pub(super) fn new(options: Options) -> Keeper {
        Keeper {
            shelf: Mutex::new((Arc::default(), Instant::now())),
            touched: Mutex::default(),
            turn: Turn::new(()),
            refreshing: AtomicBool::new(false),
            options,
        }
    }

    /// The shelf.
    pub(super) fn shelf(&self) -> Arc<Shelf> {
        Arc::clone(&self.shelf.lock().unwrap_or_else(PoisonError::into_inner).0)
    }

    /// Whether it is time to read it again, said to one caller; who is told so has to call
    /// [`Keeper::refreshed`] when done.
    pub(super) fn is_due(&self) -> bool {
        let age = self.shelf.lock().unwrap_or_else(PoisonError::into_inner).1.elapsed();
        age >= self.options.shelf_age && !self.refreshing.swap(true, Ordering::AcqRel)
    }

    /// The reading in the background is over, however it went.
    pub(super) fn refreshed(&self) {
        self.refreshing.store(false, Ordering::Release);
    }

    fn set(&self, shelf: Shelf, read: Instant) -> Arc<Shelf> {
        let shelf = Arc::new(shelf);
        *self.shelf.lock().unwrap_or_else(PoisonError::into_inner) = (Arc::clone(&shelf), read);
        shelf
    }

    /// Reads all of it.
    pub(super) async fn read(&self, connection: Object) -> Result<Arc<Shelf>, Failure> {
        let _turn = self.turn.lock().await;
        let begun = Instant::now();
        let unit = Unit::look(connection);
        let at = At(unit.number(sql::NOW, &[]).await?);
        let shelf = whole(&unit, at).await?;
        drop(unit.commit(self.options.commit).await?);
        Ok(self.set(shelf, begun))
    }

    /// Reads pieces again that a change of this server has touched, on the connection that made
    /// the change. What goes wrong leaves the shelf as it was: it is a hint, and is read again.
    pub(super) async fn touched(&self, connection: Object, pieces: BTreeSet<PieceId>) {
        if pieces.is_empty() {
            return;
        }
        self.touched.lock().unwrap_or_else(PoisonError::into_inner).extend(pieces);
        let _turn = self.turn.lock().await;
        // whoever had the turn before may have read them, after they were committed
        let pieces = std::mem::take(&mut *self.touched.lock().unwrap_or_else(PoisonError::into_inner));
        if pieces.is_empty() {
            return;
        }
        let patience = self.options.statement;
        match tokio::time::timeout(patience, self.read_some(connection, &pieces)).await {
            Ok(Ok(())) => {}
            Ok(Err(failure)) => tracing::warn!(?failure, "the shelf in memory is not up to date"),
            Err(_) => tracing::warn!("the shelf in memory is not up to date: reading it took too long"),
        }
    }

    async fn read_some(&self, connection: Object, pieces: &BTreeSet<PieceId>) -> Result<(), Failure> {
        let names: Vec<&str> = pieces.iter().map(PieceId::as_str).collect();
        let unit = Unit::single(connection);
        let found = unit.query(sql::read::SHELF_OF, &[&names]).await?;
        drop(unit.end());
        let mut materials: BTreeMap<Material, Vec<Arc<OnShelf>>> = BTreeMap::new();
        for on_shelf in each_with_its_promises(&found)? {
            materials.entry(on_shelf.piece.material.clone()).or_default().push(Arc::new(on_shelf));
        }
        let mut guard = self.shelf.lock().unwrap_or_else(PoisonError::into_inner);
        let mut shelf = Shelf::clone(&guard.0);
        for (material, fresh) in materials {
            let kept = shelf.materials.entry(material.clone()).or_default();
            let mut all: Vec<Arc<OnShelf>> =
                kept.iter().filter(|on_shelf| !pieces.contains(&on_shelf.piece.id)).cloned().collect();
            all.extend(fresh.into_iter().filter(|on_shelf| on_shelf.piece.left.is_some()));
            all.sort_by(|one, other| one.piece.id.cmp(&other.piece.id));
            if all.is_empty() {
                shelf.materials.remove(&material);
            } else {
                *kept = Arc::new(all);
            }
        }
        guard.0 = Arc::new(shelf);
        Ok(())
    }
}

/// All of the shelf, in a look that has been begun.
pub(super) async fn whole(unit: &Unit, at: At) -> Result<Shelf, Failure> {
    let pieces = unit.query(sql::read::SHELF, &[]).await?;
    let promised = unit.query(sql::read::PROMISED, &[]).await?;
    let mut materials: BTreeMap<Material, Vec<Arc<OnShelf>>> = BTreeMap::new();
    for on_shelf in on_shelf(&pieces, &promised)? {
        materials.entry(on_shelf.piece.material.clone()).or_default().push(Arc::new(on_shelf));
    }
    let materials = materials.into_iter().map(|(material, pieces)| (material, Arc::new(pieces))).collect();
    Ok(Shelf { at, materials })
}

/// Pieces from rows of which each has one promise, or none.
fn each_with_its_promises(rows: &[Row]) -> Result<Vec<OnShelf>, Failure> {
    let mut all: Vec<OnShelf> = Vec::new();
    for found in rows {
        let (piece, mut of) = row::piece_and_more(found)?;
        if all.last().is_none_or(|last| last.piece.id != piece.id) {
            all.push(OnShelf { piece, promised: Vec::new() });
        }
        let state: Option<&str> = of.take()?;
        if let (Some(state), Some(last)) = (state, all.last_mut()) {
            let held = state == State::Held.as_str();
            let (expires, granted) = (of.at()?, of.amount()?);
            last.promised.push(Promised { expires: held.then_some(expires), granted });
        }
    }
    Ok(all)
}

fn on_shelf(pieces: &[Row], promised: &[Row]) -> Result<Vec<OnShelf>, Failure> {
    let mut by_piece: BTreeMap<&str, Vec<Promised>> = BTreeMap::new();
    for line in promised {
        let mut of = Columns::of(line);
        let piece: &str = of.take()?;
        let state = of.word(State::read)?;
        let expires = of.at()?;
        let granted: Amount = of.amount()?;
        let expires = (state == State::Held).then_some(expires);
        by_piece.entry(piece).or_default().push(Promised { expires, granted });
    }
    let mut all = Vec::with_capacity(pieces.len());
    for found in pieces {
        let piece = row::piece(found)?;
        let promised = by_piece.remove(piece.id.as_str()).unwrap_or_default();
        all.push(OnShelf { piece, promised });
    }
    Ok(all)
}
