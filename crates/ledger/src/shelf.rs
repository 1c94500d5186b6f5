//! What lies on the shelf, in memory: a hint for planning and for "in stock now", never a
//! promise. Only the command that takes cloth decides.

use std::collections::BTreeMap;
use std::sync::Arc;

use crate::rules::{Amount, At, Material, Piece, PieceId, Reservation, State, clear};

/// The shelf as of an instant.
#[derive(Debug, Clone, Default)]
pub struct Shelf {
    /// As of when.
    pub at: At,
    /// Pieces with something on them, by material, in the order of their names. One shelf shares
    /// with the next whatever did not change.
    pub materials: BTreeMap<Material, Arc<Vec<Arc<OnShelf>>>>,
}

/// A piece on the shelf, and what is promised of it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct OnShelf {
    /// The piece.
    pub piece: Piece,
    /// What is promised of it, line by line: until when where it is a hold, and how much.
    pub promised: Vec<Promised>,
}

/// What a line has of a piece.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Promised {
    /// When it ends, where it is a hold.
    pub expires: Option<At>,
    /// How much it was granted.
    pub granted: Amount,
}

impl Promised {
    /// What a line of a reservation has; nothing where the reservation holds nothing.
    pub fn of(reservation: &Reservation, granted: Amount) -> Option<Promised> {
        let expires = match reservation.state {
            State::Held => Some(reservation.expires),
            State::Confirmed => None,
            _ => return None,
        };
        granted.is_some().then_some(Promised { expires, granted })
    }
}

impl OnShelf {
    /// Clear lengths of it that nobody was promised at an instant, the longest first; holds
    /// whose time is over count for nothing.
    pub fn clear(&self, now: At) -> Vec<Amount> {
        clear(&self.piece, self.standing(now))
    }

    /// What is free of it at an instant, flaws included.
    pub fn free(&self, now: At) -> Amount {
        (self.piece.left - self.standing(now).sum()).or_none()
    }

    fn standing(&self, now: At) -> impl Iterator<Item = Amount> + '_ {
        self.promised
            .iter()
            .filter(move |promised| promised.expires.is_none_or(|expires| expires > now))
            .map(|promised| promised.granted)
    }
}

impl Shelf {
    /// Pieces of a material.
    pub fn of(&self, material: &Material) -> &[Arc<OnShelf>] {
        self.materials.get(material).map_or(&[], |pieces| pieces.as_slice())
    }

    /// A piece by its name.
    pub fn piece(&self, material: &Material, id: &PieceId) -> Option<&OnShelf> {
        self.of(material).iter().map(Arc::as_ref).find(|on_shelf| on_shelf.piece.id == *id)
    }
}
