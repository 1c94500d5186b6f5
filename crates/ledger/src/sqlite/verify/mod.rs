//! Whether all of the stock agrees with itself.
//!
//! The movements are the truth; everything else is recomputed from them or from the rows that it
//! sums up, and whatever differs is named. Pieces, reservations, cuts, orders and answers are
//! looked at some hundred at a time, each page as of one instant: a long look would keep the write-ahead
//! log from being emptied, and what belongs together is always within one page. What days did is
//! added up again from all movements at once.

mod cuts;
mod orders;
mod pieces;
mod reservations;

use rusqlite::Connection;

use super::pack::count;
use super::readers::at_one_instant;
use super::{days, reports};
use crate::days::Drift;
use crate::engine::{Error, Verified};
use crate::rules::kept;

/// Rows of a page.
const PAGE: usize = 200;

/// Looks through all of it.
pub(super) fn verify(connection: &Connection) -> Result<Verified, Error> {
    let mut found = Verified::default();
    pages(connection, "SELECT id FROM piece WHERE id > ?1 ORDER BY id LIMIT ?2", |id| {
        pieces::look(connection, id, &mut found)
    })?;
    pages(connection, "SELECT id FROM reservation WHERE id > ?1 ORDER BY id LIMIT ?2", |id| {
        reservations::look(connection, id, &mut found)
    })?;
    pages(connection, "SELECT id FROM cut WHERE id > ?1 ORDER BY id LIMIT ?2", |id| {
        cuts::look(connection, id, &mut found)
    })?;
    pages(connection, "SELECT id FROM purchase WHERE id > ?1 ORDER BY id LIMIT ?2", |id| {
        orders::look(connection, id, &mut found)
    })?;
    at_one_instant(connection, |connection| events(connection, &mut found))?;
    at_one_instant(connection, |connection| {
        let drifts = days::drifted(connection)?;
        found.drift.extend(drifts.iter().map(Drift::words));
        Ok(())
    })?;
    at_one_instant(connection, |connection| {
        found.reports = reports::verify(connection, &mut found.drift)?;
        Ok(())
    })?;
    answers(connection, &mut found)?;
    Ok(found)
}

/// Goes through a table page by page, in the order of names. What is looked at within a page
/// is of the instant at which its names were read.
fn pages(
    connection: &Connection,
    sql: &str,
    mut look: impl FnMut(&str) -> rusqlite::Result<()>,
) -> Result<(), Error> {
    let mut after = String::new();
    loop {
        let names = at_one_instant(connection, |connection| {
            let names = names(connection, sql, &after)?;
            names.iter().try_for_each(|name| look(name))?;
            Ok(names)
        })?;
        let full = names.len() == PAGE;
        match names.into_iter().next_back() {
            Some(last) if full => after = last,
            _ => return Ok(()),
        }
    }
}

fn names(connection: &Connection, sql: &str, after: &str) -> rusqlite::Result<Vec<String>> {
    let most = i64::try_from(PAGE).unwrap_or(i64::MAX);
    connection.prepare_cached(sql)?.query_map((after, most), |row| row.get(0))?.collect()
}

/// Events are numbered from 1 without gaps.
fn events(connection: &Connection, found: &mut Verified) -> rusqlite::Result<()> {
    let (many, last): (u64, u64) =
        connection.query_row("SELECT COUNT(*), COALESCE(MAX(place), 0) FROM event", [], |row| {
            Ok((count(row, 0)?, count(row, 1)?))
        })?;
    found.events = many;
    if many != last {
        found.drift.push(format!("events: there are {many}, and the last one has the place {last}"));
    }
    Ok(())
}

/// Every kept answer can be read.
fn answers(connection: &Connection, found: &mut Verified) -> Result<(), Error> {
    let mut after = (String::new(), String::new());
    loop {
        let page: Vec<(String, String, Vec<u8>)> = at_one_instant(connection, |connection| {
            let most = i64::try_from(PAGE).unwrap_or(i64::MAX);
            let mut statement = connection.prepare_cached(
                "SELECT scope, key, answer FROM request WHERE (scope, key) > (?1, ?2)
                 ORDER BY scope, key LIMIT ?3",
            )?;
            let rows = statement
                .query_map((&after.0, &after.1, most), |row| Ok((row.get(0)?, row.get(1)?, row.get(2)?)))?;
            rows.collect()
        })?;
        for (scope, key, _) in page.iter().filter(|(_, _, answer)| kept::read(answer).is_none()) {
            found.drift.push(format!("request {key} of {scope}: its answer cannot be read"));
        }
        let full = page.len() == PAGE;
        match page.into_iter().next_back() {
            Some((scope, key, _)) if full => after = (scope, key),
            _ => return Ok(()),
        }
    }
}

/// Notes what is not as it should be.
fn expect<T: PartialEq + std::fmt::Display>(found: &mut Verified, what: &str, is: &T, should: &T) {
    if is != should {
        found.drift.push(format!("{what} is {is}, but should be {should}"));
    }
}
