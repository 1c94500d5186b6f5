//! What cannot be worked with, and what to do about it.

use std::fmt;

/// Why a history, or a parameter, was refused.
#[derive(Debug, Clone, PartialEq)]
pub enum Error {
    /// There is not one bucket, day or value.
    Empty,
    /// Fewer values than the method can work on.
    TooFew {
        /// How many were given.
        given: usize,
        /// How many it takes.
        least: usize,
    },
    /// More values than are worked on at once.
    TooMany {
        /// How many were given.
        given: usize,
        /// How many are allowed.
        most: usize,
    },
    /// Two lists that belong together are of different lengths.
    Lengths {
        /// What the first list holds, and what the second.
        what: &'static str,
        /// Length of the first.
        first: usize,
        /// Length of the second.
        second: usize,
    },
    /// Use below nought.
    Negative {
        /// Which bucket, day or value, from nought.
        at: usize,
        /// What it says.
        amount: f64,
    },
    /// Not a number, infinite, or above 2⁵³, from which on a double is no longer exact.
    NotExact {
        /// Which bucket, day or value, from nought.
        at: usize,
    },
    /// A count above what is worked on.
    TooGreat {
        /// Which entry, from nought.
        at: usize,
        /// What it says.
        value: f64,
        /// The most.
        most: f64,
    },
    /// A bucket without an open day has use in it.
    UseOnClosed {
        /// Which bucket, from nought.
        at: usize,
    },
    /// More days with stock than days that were open.
    MoreStockedThanOpen {
        /// Which bucket, from nought.
        at: usize,
        /// Open days with stock.
        stocked: u32,
        /// Open days.
        open: u32,
    },
    /// A day that does not follow the day before it.
    DayOutOfOrder {
        /// Which entry, from nought.
        at: usize,
        /// The day it should have been.
        wanted: i64,
        /// The day it is.
        found: i64,
    },
    /// A week that is not one, or not the one after the one before it.
    Week {
        /// Which entry, from nought.
        at: usize,
        /// Its year.
        year: i32,
        /// Its number.
        week: u8,
    },
    /// An issue named a second time.
    Repeated {
        /// Which entry, from nought.
        at: usize,
    },
    /// A parameter outside what it may be.
    Parameter {
        /// Its name.
        name: &'static str,
        /// What was given.
        value: f64,
        /// What is allowed, in words.
        allowed: &'static str,
    },
    /// An index to be tested that does not say before which week it was made.
    Endless,
    /// Nothing but "at least so much": the rate has a lower bound and no estimate.
    OnlyBounds,
    /// A search that came to no end in its rounds.
    NotSettled,
    /// Too little that differs to tell a mean from a spread.
    NoSpread,
    /// A share that cannot be: what is left over is below nought.
    BelowNought {
        /// Of what.
        what: &'static str,
        /// By how much, in the unit of the question.
        by: i128,
    },
}

impl fmt::Display for Error {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Error::Empty => write!(f, "there is no history: give at least one bucket"),
            Error::TooFew { given, least } => {
                write!(
                    f,
                    "{given} values are fewer than the {least} this takes: wait until there are as many"
                )
            }
            Error::TooMany { given, most } => {
                write!(f, "{given} values are more than the {most} that are worked on: leave out the oldest")
            }
            Error::Lengths { what, first, second } => {
                write!(
                    f,
                    "{what} must be as many as each other, not {first} and {second}: give one of each for every bucket"
                )
            }
            Error::Negative { at, amount } => write!(
                f,
                "entry {at} is {amount}; use is 0 or more: move returns and cancellations to the day of the issue they reverse"
            ),
            Error::NotExact { at } => {
                write!(f, "entry {at} is no finite number up to 2^53: give it in a coarser unit, or mend it")
            }
            Error::TooGreat { at, value, most } => {
                write!(f, "entry {at} is {value}; it may be at most {most}: count larger jobs, or mend it")
            }
            Error::UseOnClosed { at } => {
                write!(f, "bucket {at} has use and no open day: move the use to the next open day")
            }
            Error::MoreStockedThanOpen { at, stocked, open } => {
                write!(
                    f,
                    "bucket {at} has {stocked} days with stock of {open} open days; at most all of them are: count open days only"
                )
            }
            Error::DayOutOfOrder { at, wanted, found } => {
                write!(
                    f,
                    "entry {at} is day {found}, not day {wanted}: give every day once, closed ones too, the oldest first"
                )
            }
            Error::Week { at, year, week } => write!(
                f,
                "entry {at} is week {week} of {year}; weeks run from 1 to 53, none left out and none twice: give ISO weeks, the oldest first"
            ),
            Error::Repeated { at } => {
                write!(
                    f,
                    "entry {at} has a name that is taken; each name stands once: add the two amounts up"
                )
            }
            Error::Parameter { name, value, allowed } => {
                write!(f, "{name} is {value}; it may be {allowed}: choose one of these")
            }
            Error::Endless => write!(
                f,
                "the index to be tested was made of all weeks, so it has seen what it is tested on: make it of the weeks before a given one"
            ),
            Error::OnlyBounds => write!(
                f,
                "every entry is only a lower bound, so the rate has no estimate: add at least one bucket in which stock lasted"
            ),
            Error::NotSettled => {
                write!(
                    f,
                    "the estimate did not settle: too many entries are only lower bounds; add buckets in which stock lasted"
                )
            }
            Error::NoSpread => {
                write!(
                    f,
                    "fewer than two different entries are known in full: add buckets in which stock lasted"
                )
            }
            Error::BelowNought { what, by } => {
                write!(
                    f,
                    "{what} is below nought by {by}: what went in is less than what came out, look at the amounts"
                )
            }
        }
    }
}

impl std::error::Error for Error {}
