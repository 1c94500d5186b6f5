//! Why a text is not a length.

use std::error::Error;
use std::fmt;

use super::MOST_CHARACTERS;

/// Why a text cannot be read as a length.
///
/// Its message says what is wrong, with which part, and what may be written instead;
/// what it quotes is never longer than the longest text that is read.
///
/// ```
/// use pennantry_measure::written::{self, LengthTextError};
/// assert_eq!(written::length(""), Err(LengthTextError::Empty));
/// assert_eq!(
///     written::length("2,500 m").unwrap_err().to_string(),
///     "\"2,500\" can be read as 2500 or as 2.5: write 2500 or 2.5"
/// );
/// ```
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum LengthTextError {
    /// Nothing but spaces.
    Empty,
    /// Longer than anybody writes a length.
    TooLong {
        /// Characters counted.
        characters: usize,
    },
    /// A character that has no place in a length.
    BadCharacter {
        /// The character.
        character: char,
        /// The text.
        text: String,
    },
    /// A number was due and there is none.
    NoNumber {
        /// The text.
        text: String,
    },
    /// A minus elsewhere than in front of all of it.
    MinusWithin {
        /// The text.
        text: String,
    },
    /// A comma that may part thousands or decimals.
    AmbiguousComma {
        /// The number as written.
        number: String,
    },
    /// A fraction with nought below the line, or not smaller than one after a whole
    /// number, or with decimals in it.
    BadFraction {
        /// The text.
        text: String,
    },
    /// A fraction without a unit.
    NoUnit {
        /// The text.
        text: String,
    },
    /// A unit that is not known.
    UnknownUnit {
        /// The unit as written.
        unit: String,
    },
    /// Numbers one after the other that make no length together.
    Muddled {
        /// The text.
        text: String,
    },
    /// A step finer than a micrometre.
    TooFine {
        /// The text.
        text: String,
    },
    /// Beyond 2 000 000 m either way.
    OutOfRange {
        /// The text.
        text: String,
    },
}

impl fmt::Display for LengthTextError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Empty => write!(f, "no length is written: write one such as 2500 mm, 2.5 m or 7 1/2 in"),
            Self::TooLong { characters } => {
                write!(
                    f,
                    "{characters} characters are too long for a length: write at most {MOST_CHARACTERS}"
                )
            }
            Self::BadCharacter { character, text } => write!(
                f,
                "{text:?} holds {character:?}, which has no place in a length: write digits, a point or a comma, \
                 a fraction, and mm, cm, m, in, ft or yd"
            ),
            Self::NoNumber { text } => {
                write!(f, "a number is missing in {text:?}: write one before each unit, such as 2.5 m")
            }
            Self::MinusWithin { text } => {
                write!(f, "{text:?} has a minus within: write one only in front of the whole length, or none")
            }
            Self::AmbiguousComma { number } => {
                let (thousands, decimals) = number.split_once(',').unwrap_or((number, ""));
                let short = decimals.trim_end_matches('0');
                let point = if short.is_empty() { "" } else { "." };
                write!(
                    f,
                    "{number:?} can be read as {thousands}{decimals} or as {thousands}{point}{short}: \
                     write {thousands}{decimals} or {thousands}{point}{short}"
                )
            }
            Self::BadFraction { text } => write!(
                f,
                "the fraction in {text:?} cannot be read: write whole numbers above and below the line, not 0 below \
                 it, and after a whole number a fraction below one, such as 7 1/2 in"
            ),
            Self::NoUnit { text } => write!(
                f,
                "the fraction in {text:?} has no unit: write one of mm, cm, m, in, ft or yd, such as 7 1/2 in"
            ),
            Self::UnknownUnit { unit } => {
                write!(f, "{unit:?} is not a unit of length known here: write mm, cm, m, in, ft or yd")
            }
            Self::Muddled { text } => write!(
                f,
                "{text:?} holds several numbers that make no length together: write one number with its unit, or \
                 whole numbers of larger units before a smaller one of the same kind, such as 3 ft 4 1/2 in"
            ),
            Self::TooFine { text } => {
                write!(f, "{text:?} is finer than a micrometre: write steps of 0.001 mm or more")
            }
            Self::OutOfRange { text } => {
                write!(f, "{text:?} is out of range: write -2000000 m to 2000000 m")
            }
        }
    }
}

impl Error for LengthTextError {}
