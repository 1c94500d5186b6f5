//! What matters about goods where a small child may be near.

use pennantry_measure::{Force, Length, Percent};

/// What a binding is as a cord.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Cord {
    /// A flat tape or ribbon.
    Tape,
    /// A round cord.
    Round {
        /// Its thickness.
        thickness: Length,
    },
    /// An elastic.
    Elastic {
        /// Its thickness.
        thickness: Length,
        /// How much longer it gets when it is pulled, as a share of its length at rest.
        stretch: Percent,
    },
}

/// What a trimming is, how it is put on, and what was tested.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Part {
    /// What kind of part.
    pub kind: PartKind,
    /// Its largest size.
    pub largest: Length,
    /// Whether it goes into the small-parts cylinder; not known, it counts as one that does.
    pub fits_cylinder: Option<bool>,
    /// How it is put on.
    pub fixed: Fixed,
    /// The pull that it stood, if that was tested.
    pub pull: Option<Force>,
    /// How far it hangs from where it is put on, cord and part together.
    pub hangs: Length,
    /// Whether a child would play with it.
    pub play: bool,
}

impl Part {
    /// Whether it has to be taken for a small part.
    pub fn is_small(&self) -> bool {
        self.fits_cylinder.unwrap_or(true)
    }
}

/// What kind of part a trimming is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PartKind {
    /// Wood, metal, plastic, shell, glass: whatever is not cloth.
    Hard,
    /// Flat, of cloth or felt.
    Textile,
    /// A pompom.
    Pompom,
    /// A ball of cloth or felt.
    Ball,
}

/// How a trimming is put on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Fixed {
    /// Not at all, or clipped on.
    Loose,
    /// Glued.
    Glued,
    /// Sewn.
    Sewn,
}

/// That pennants are filled.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Filling {
    /// The pull that its seams stood, if that was tested.
    pub seam: Option<Force>,
}
