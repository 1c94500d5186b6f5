//! Reading fields of the calls of stock.

use pennantry_contract::reasons::ViolationReason as Why;
use pennantry_contract::v1;
use pennantry_ledger::rules::{Amount, Class, Flaw, Reason};
use pennantry_measure::bounds::{self, Bound};
use pennantry_measure::{Length, text as written};

use super::super::enquiry::Reader;
use super::super::length;
use crate::failure::Failure;

/// A length below any bound of its own: nought or more.
const SOME: Bound<Length> = Bound { least: Length::from_um(1), most: bounds::PIECE_LENGTH.most };
const ANY: Bound<Length> = Bound { least: Length::ZERO, most: bounds::PIECE_LENGTH.most };

/// The least amount that a field may say.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Least {
    /// Nothing is an amount, too.
    Nought,
    /// There must be some.
    Some,
    /// As much as a piece has that comes.
    Piece,
}

impl Reader {
    /// What was read, or everything that cannot stand.
    pub(super) fn done<T>(self, read: Option<T>) -> Result<T, Failure> {
        match read {
            Some(read) if self.violations.is_empty() => Ok(read),
            _ => Err(Failure::refused(self.violations)),
        }
    }

    /// Whether so many have been found that nobody reads on.
    pub(super) fn is_full(&self) -> bool {
        self.violations.len() >= 100
    }

    /// Words on one line.
    pub(super) fn words(&mut self, path: &str, text: &str, bound: Bound<u32>, what: &str) -> Option<String> {
        let text = text.trim();
        let count = u32::try_from(text.chars().take(100_000).count()).unwrap_or(u32::MAX);
        let range = format!("give {} to {} characters on one line", bound.least, bound.most);
        let (why, message) = if text.is_empty() && bound.least > 0 {
            (Why::Missing, format!("{what} is not said: {range}"))
        } else if count > bound.most {
            (Why::TooLong, format!("{what} of {count} characters is too long: {range}"))
        } else if count < bound.least {
            let characters = if count == 1 { "character" } else { "characters" };
            (Why::OutOfRange, format!("{what} of {count} {characters} is too short: {range}"))
        } else if let Some(code) = written::hidden(text) {
            (Why::BadText, format!("{what} holds the control character {code}, which nobody sees: {range}"))
        } else if !text.is_empty() && written::is_blank(text) {
            (Why::BadText, format!("{what} shows nothing: {range}"))
        } else {
            return Some(text.to_owned());
        };
        self.refuse(None, path, why, message);
        None
    }

    /// A name such as that of a request, a reservation or a cut.
    pub(super) fn name(&mut self, path: &str, text: &str, what: &str) -> Option<String> {
        self.words(path, text, bounds::NAME, what)
    }

    /// A name that may be left out.
    pub(super) fn name_if_any(&mut self, path: &str, text: &str, what: &str) -> Option<String> {
        self.words(path, text, Bound { least: 0, ..bounds::NAME }, what).filter(|text| !text.is_empty())
    }

    /// A label, or an order's name, that may be left out.
    pub(super) fn label(&mut self, path: &str, text: &str, what: &str) -> Option<String> {
        if text.is_empty() {
            return None;
        }
        let plain = |c: char| c.is_ascii_alphanumeric() || matches!(c, '.' | '-');
        let count = u32::try_from(text.chars().take(100_000).count()).unwrap_or(u32::MAX);
        let form = format!("give 1 to {} letters of A to Z, digits, dots and hyphens", bounds::LABEL.most);
        let (why, message) = if count > bounds::LABEL.most {
            (Why::TooLong, format!("{what} of {count} characters is too long: {form}"))
        } else if !text.chars().all(plain) {
            let shown: String = text.chars().filter(|c| !written::is_hidden(*c)).collect();
            (Why::BadText, format!("\"{shown}\" cannot be {what}: {form}"))
        } else {
            return Some(text.to_owned());
        };
        self.refuse(None, path, why, message);
        None
    }

    /// A label that must be there.
    pub(super) fn label_of(&mut self, path: &str, text: &str, what: &str) -> Option<String> {
        if text.is_empty() {
            self.refuse(None, path, Why::Missing, format!("{what} is not said: give it as it is written"));
        }
        self.label(path, text, what)
    }

    /// How much of a class of material.
    pub(super) fn quantity(
        &mut self,
        path: &str,
        wire: Option<&v1::Quantity>,
        class: Class,
        least: Least,
    ) -> Option<Amount> {
        let (measured, lengths, counts) = match least {
            Least::Nought => (class != Class::Sundry, ANY, Bound { least: 0, ..bounds::PIECE_COUNT }),
            Least::Some => (class != Class::Sundry, SOME, bounds::PIECE_COUNT),
            Least::Piece => (class != Class::Sundry, bounds::PIECE_LENGTH, bounds::PIECE_COUNT),
        };
        let path = |field: &str| if path.is_empty() { field.to_owned() } else { format!("{path}.{field}") };
        match wire.and_then(|quantity| quantity.amount) {
            Some(v1::quantity::Amount::LengthMm(mm)) if measured => {
                self.length_at(None, &path("lengthMm"), Some(mm), lengths).map(Amount::of_length)
            }
            Some(v1::quantity::Amount::Count(count)) if !measured => {
                self.count(None, &path("count"), Some(count), counts).map(|count| Amount(i64::from(count)))
            }
            Some(v1::quantity::Amount::LengthMm(mm)) => {
                let said = length::spoken(mm);
                let message = format!("{said} mm is a length, and this is counted: give count");
                self.refuse(None, &path("lengthMm"), Why::Contradiction, message);
                None
            }
            Some(v1::quantity::Amount::Count(count)) => {
                let message = format!("{count} is a number, and this is measured: give lengthMm");
                self.refuse(None, &path("count"), Why::Contradiction, message);
                None
            }
            None => {
                let field = if measured { "lengthMm" } else { "count" };
                let message = format!("nothing says how much: give {field}");
                self.refuse(None, &path(field), Why::Missing, message);
                None
            }
        }
    }

    /// Flaws of a piece that is so long, in order and apart from each other.
    pub(super) fn flaws(&mut self, path: &str, wire: &[v1::Flaw], long: Option<Length>) -> Vec<Flaw> {
        let most = bounds::FLAWS.most;
        if u32::try_from(wire.len()).unwrap_or(u32::MAX) > most {
            let message = format!("{} flaws are too many for one piece: give up to {most}", wire.len());
            self.refuse(None, path, Why::TooLong, message);
            return Vec::new();
        }
        let mut flaws: Vec<Flaw> = Vec::with_capacity(wire.len());
        for (place, flaw) in wire.iter().enumerate() {
            let from = self.length_at(None, &format!("{path}[{place}].fromMm"), Some(flaw.from_mm), ANY);
            let to = self.length_at(None, &format!("{path}[{place}].toMm"), Some(flaw.to_mm), SOME);
            let (Some(from), Some(to)) = (from, to) else { continue };
            let end = flaws.last().map_or(Length::ZERO, |before: &Flaw| before.to);
            let wrong = if to <= from {
                Some((
                    "toMm",
                    format!("a flaw from {from} to {to} has no length: give an end after its beginning"),
                ))
            } else if from < end {
                Some((
                    "fromMm",
                    format!(
                        "a flaw from {from} begins before the one before it ends, at {end}: give them in order and apart"
                    ),
                ))
            } else {
                long.filter(|long| to > *long).map(|long| {
                    ("toMm", format!("a flaw to {to} lies beyond the piece, which is {long} long"))
                })
            };
            match wrong {
                Some((field, message)) => {
                    let path = format!("{path}[{place}].{field}");
                    self.refuse(None, &path, Why::OutOfRange, message);
                }
                None => flaws.push(Flaw { from, to }),
            }
        }
        flaws
    }

    /// Why something is gone or spoiled; unspecified is none. What was counted or found is said by a
    /// count or as found, and what is none of these by the note.
    pub(super) fn why(&mut self, path: &str, wire: i32, (note_path, note): (&str, &str)) -> Reason {
        let why = self.value_at::<v1::StockReason>(None, path, Some(wire)).map_or(Reason::None, reason);
        if matches!(why, Reason::Count | Reason::Found) {
            let message =
                "nothing is gone by being counted or found: record it as counted or found, or give a \
                           reason such as STOCK_REASON_LOST"
                    .to_owned();
            self.refuse(None, path, Why::Contradiction, message);
        }
        if why == Reason::Other && note.trim().is_empty() {
            let message =
                "another reason is given, and nothing says which: write it into the note".to_owned();
            self.refuse(None, note_path, Why::Missing, message);
        }
        why
    }
}

/// A reason of the contract in the ledger.
pub const fn reason(wire: v1::StockReason) -> Reason {
    match wire {
        v1::StockReason::Unspecified => Reason::None,
        v1::StockReason::Damaged => Reason::Damaged,
        v1::StockReason::Lost => Reason::Lost,
        v1::StockReason::Sample => Reason::Sample,
        v1::StockReason::OwnUse => Reason::OwnUse,
        v1::StockReason::SentBack => Reason::SentBack,
        v1::StockReason::Flaw => Reason::Flaw,
        v1::StockReason::Miscut => Reason::Miscut,
        v1::StockReason::Squaring => Reason::Squaring,
        v1::StockReason::EndBit => Reason::EndBit,
        v1::StockReason::Other => Reason::Other,
        v1::StockReason::Count => Reason::Count,
        v1::StockReason::Found => Reason::Found,
    }
}
