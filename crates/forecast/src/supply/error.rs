//! What cannot be computed, and why.

use std::fmt;

/// Why there is no figure: which value it was, and what is allowed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Error {
    /// A figure that is not a number, infinite, or out of its range.
    Figure {
        /// What it is a figure of.
        what: &'static str,
        /// The figure given.
        value: f64,
        /// What is allowed.
        allowed: &'static str,
    },
    /// A whole amount, count or day out of its range.
    Whole {
        /// What it is an amount of.
        what: &'static str,
        /// The amount given.
        value: i64,
        /// What is allowed.
        allowed: &'static str,
    },
    /// There is nothing to compute from.
    Empty {
        /// What there has to be at least one of.
        what: &'static str,
    },
    /// The values are each allowed, and together have no answer.
    NoAnswer {
        /// What has none.
        what: &'static str,
        /// What to change.
        remedy: &'static str,
    },
}

impl fmt::Display for Error {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Figure { what, value, allowed } => write!(f, "{what} is {value}; allowed is {allowed}"),
            Self::Whole { what, value, allowed } => write!(f, "{what} is {value}; allowed is {allowed}"),
            Self::Empty { what } => write!(f, "no {what}; give at least one"),
            Self::NoAnswer { what, remedy } => write!(f, "{what} has no answer; {remedy}"),
        }
    }
}

impl std::error::Error for Error {}
