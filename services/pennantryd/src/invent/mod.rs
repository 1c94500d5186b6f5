//! `pennantryd invent`: two invented years of the demo shop, so that there is a report to look at.
//!
//! Everything in it is invented: the shop, its buyers, its suppliers and every figure. It fills an
//! empty data folder through the same commands as a server does, each with an instant in the past, so that
//! holds, cuts, remnants, roll-ups and events are all as they would be; `pennantryd verify` finds
//! nothing against it. The same last day gives the same rows: chance comes from a seed, and the clock says
//! only which day was yesterday.
//!
//! | file | what |
//! |---|---|
//! | `wishes` | what buyers want, by habit and month |
//! | `sales` | a wish is worked as a quote, planned on the shelf, held and confirmed |
//! | `bench` | what is cut for it, kept of it and spoiled |
//! | `buying` | what the shop orders, and when it comes |
//! | `once` | what happens once: a festival, a week without lamp oil, a late order |
//! | `story` | the days, one after the other |
//! | `book` | commands with their instants and names |
//! | `dice` | chance that can be repeated |

mod bench;
mod book;
mod buying;
mod dice;
mod once;
mod sales;
mod story;
mod wishes;

use std::fs::File;
use std::path::Path;
use std::process::ExitCode;

use jiff::ToSpan;
use jiff::civil::Date;
use pennantry_app::{Catalogue, day};
use pennantry_ledger::sqlite::Durability;
use pennantry_ledger::{Error, FindPieces, FindReservations, Ledger};

use self::book::Book;
use self::dice::Dice;
use self::story::{Story, Told};
use crate::cli;
use crate::clock::Clock;
use crate::start::make_private;
use crate::stock::commands::{Done, Fault, told};
use crate::stock::{FILE, embedded, words};
use crate::{serve, telemetry};

/// The seed, with the number of the last day added to it: the digits of pi after the point.
const SEED: u64 = 14_159_265_358_979;

/// `pennantryd invent`.
pub async fn run(flags: cli::Invent) -> ExitCode {
    let done = match telemetry::start("warn") {
        Ok(()) => invented(&flags, Clock::System).await,
        Err(words) => Err(Fault::CannotRun(words)),
    };
    told(done)
}

async fn invented(flags: &cli::Invent, clock: Clock) -> Done {
    let catalogue = serve::open(None).map_err(Fault::CannotRun)?;
    let today = catalogue.order_day(clock.now());
    let last = flags.until.unwrap_or_else(|| today.saturating_sub(1.day()));
    if last >= today {
        return Err(Fault::Refused(format!(
            "--until {last}: that day is not over: it is {today} at the shop; give an earlier day, or leave it out"
        )));
    }
    let first = first(last, flags.years).ok_or_else(|| {
        Fault::Refused(format!(
            "--until {last}: {} years before it no calendar has days; give a later day",
            flags.years
        ))
    })?;
    let data = &flags.data;
    let at_data = |words: &str| Fault::CannotRun(format!("--data {}: {words}", data.display()));
    make_private(data).map_err(|cause| at_data(&cause.to_string()))?;
    let ledger = embedded(data, Durability::Off).await.map_err(|error| at_data(&words(&error)))?;
    let written = fill(&ledger, &catalogue, first, last).await;
    ledger.close().await;
    let story = match written {
        Ok(Some(story)) => story,
        Ok(None) => {
            return Err(Fault::Refused(format!(
                "--data {}: the stock there has been used: name a folder that is empty, or not there yet",
                data.display()
            )));
        }
        Err(error) => return Err(at_data(&words(&error))),
    };
    kept(data).map_err(|cause| at_data(&cause.to_string()))?;
    Ok(said(flags, first, last, &story))
}

/// The Monday of the week in which it begins: so many years hold whole weeks.
fn first(last: Date, years: u8) -> Option<Date> {
    let back = i32::from(years).checked_mul(52 * 7)?;
    let after = last.checked_add(1.day()).ok()?;
    let first = after.checked_sub(back.days()).ok()?;
    let monday = first.checked_sub(i32::from(first.weekday().to_monday_zero_offset()).days()).ok()?;
    // instants of it have to be there, too
    (monday.year() > -9_000).then_some(monday)
}

/// Writes the story into a stock that was never used; none where it was.
async fn fill(
    ledger: &Ledger,
    catalogue: &Catalogue,
    first: Date,
    last: Date,
) -> Result<Option<Told>, Error> {
    let pieces = FindPieces { empty_too: true, most: 1, ..FindPieces::default() };
    let reservations = FindReservations { most: 1, ..FindReservations::default() };
    let used = !ledger.pieces(&pieces).await?.is_empty()
        || !ledger.reservations(&reservations).await?.is_empty()
        || !ledger.orders(false, 1).await?.is_empty()
        || !ledger.report_list(i32::MIN, i32::MAX, 1).await?.is_empty();
    if used {
        return Ok(None);
    }
    let number = u64::try_from(i64::from(day(last).0)).unwrap_or(0);
    let book = Book::new(ledger, catalogue, Dice::new(SEED.wrapping_add(number)));
    Story::new(book, last).write(first, last).await.map(Some)
}

/// Has the disk keep what was written without waiting for it.
fn kept(data: &Path) -> std::io::Result<()> {
    File::open(data.join(FILE))?.sync_all()?;
    File::open(data)?.sync_all()
}

fn said(flags: &cli::Invent, first: Date, last: Date, story: &Told) -> String {
    let Told { commands, orders, cuts, lost } = story;
    let data = flags.data.display();
    format!(
        "{data}: the demo shop from {first} to {last}: {orders} orders, {cuts} cuts, {lost} orders for which there \
         was no cloth; {commands} commands\n\
         Everything in it is invented.\n\
         Look at it with: pennantryd report --data {data} --as page > report.html"
    )
}

#[cfg(test)]
mod tests;
