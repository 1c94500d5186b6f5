//! What each day did with each material: added to, read, computed again, put right.

use rusqlite::{Connection, OptionalExtension, Row, ToSql};

use super::pack::material;
use crate::days::{Days, Drift, drifts};
use crate::engine::DaySum;
use crate::rules::{At, Class, DayUse, Material, RollUp};

/// What the movements, cuts and lines say of every day, in the columns of `day_use`.
///
/// Most of the time goes into sorting by piece and day, so that sorts little: the accounts as
/// numbers (`gave`: 1 supplier, 2 used, 3 confirmed, 4 kept, 5 elsewhere; `took`: the same, 6
/// spoiled, 7 end bits, 8 flaws), by a step of its own, which `LIMIT -1` keeps from being merged
/// into the sums. Cuts and pieces are grouped by the numbers of their rows, not by their names.
/// The benchmark of the report tells how long that takes against sums of the same grain.
const COMPUTED: &str = "
SELECT class, code, lot, day, SUM(came), SUM(used), SUM(spoiled), SUM(ends), SUM(flawed), SUM(other),
    SUM(promised), SUM(narrow), SUM(cuts), SUM(used_area), SUM(drawn_area), SUM(net_area), MAX(late_at)
FROM (
    SELECT piece.class AS class, piece.code AS code, piece.lot AS lot, moved.day AS day, moved.came AS came,
        moved.used AS used, moved.spoiled AS spoiled, moved.ends AS ends, moved.flawed AS flawed,
        moved.other AS other, moved.promised AS promised, moved.narrow AS narrow, 0 AS cuts,
        CASE WHEN piece.class = 'cloth' THEN (moved.used - moved.narrow) * MIN(piece.width, 10000000) ELSE 0 END
            AS used_area,
        0 AS drawn_area, 0 AS net_area, moved.late_at AS late_at
    FROM (
        SELECT piece, day, SUM(CASE WHEN gave = 1 THEN amount ELSE 0 END) AS came,
            SUM(CASE WHEN took = 2 THEN amount WHEN gave = 2 THEN -amount ELSE 0 END) AS used,
            SUM(CASE WHEN took = 6 THEN amount ELSE 0 END) AS spoiled,
            SUM(CASE WHEN took = 7 THEN amount ELSE 0 END) AS ends,
            SUM(CASE WHEN took = 8 THEN amount ELSE 0 END) AS flawed,
            SUM(CASE WHEN gave = 5 THEN amount WHEN took = 5 THEN -amount ELSE 0 END) AS other,
            SUM(CASE WHEN took = 3 THEN amount WHEN gave = 3 THEN -amount ELSE 0 END) AS promised,
            SUM(CASE WHEN gave = 4 THEN amount WHEN took = 4 THEN -amount ELSE 0 END) AS narrow,
            MAX(late_at) AS late_at
        FROM (
            SELECT movement.piece AS piece, amount,
                CASE WHEN kind = 'undo' THEN (SELECT day FROM cut WHERE id = movement.cut) ELSE movement.day END
                    AS day,
                CASE WHEN late = 1 THEN movement.at END AS late_at,
                CASE from_account WHEN 'supplier' THEN 1 WHEN 'used' THEN 2 WHEN 'confirmed' THEN 3
                    WHEN 'kept' THEN 4 WHEN 'elsewhere' THEN 5 ELSE 0 END AS gave,
                CASE to_account WHEN 'used' THEN 2 WHEN 'confirmed' THEN 3 WHEN 'kept' THEN 4
                    WHEN 'elsewhere' THEN CASE reason WHEN 'damaged' THEN 6 WHEN 'miscut' THEN 6
                        WHEN 'end bit' THEN 7 WHEN 'squaring' THEN 7 WHEN 'flaw' THEN 8 ELSE 5 END
                    WHEN 'spoiled' THEN CASE WHEN movement.cut IN (SELECT id FROM cut WHERE undone = 1) THEN 0
                        WHEN reason IN ('end bit', 'squaring') THEN 7 WHEN reason = 'flaw' THEN 8 ELSE 6 END
                    ELSE 0 END AS took
            FROM movement NOT INDEXED
            WHERE from_account NOT IN ('free', 'held') OR to_account NOT IN ('free', 'held')
            LIMIT -1)
        GROUP BY piece, day) AS moved
    JOIN piece ON piece.id = moved.piece
    UNION ALL
    SELECT class, code, lot, day, 0, 0, 0, 0, 0, 0, 0, 0, MAX(uses), 0, SUM(drawn), SUM(net), NULL
    FROM (
        SELECT made.cut AS cut, piece.class AS class, piece.code AS code, piece.lot AS lot, made.day AS day,
            CASE WHEN made.used > 0 THEN 1 ELSE 0 END AS uses,
            CASE WHEN made.known > 0 AND piece.class = 'cloth'
                THEN made.used * MIN(piece.width, 10000000) - COALESCE(narrower.area, 0) ELSE 0 END AS drawn,
            CASE WHEN made.known > 0 AND piece.class = 'cloth' THEN made.net ELSE 0 END AS net
        FROM (
            SELECT cut.rowid AS cut, piece.rowid AS piece, cut.day AS day,
                SUM(part.taken - part.spoiled - part.kept) AS used, MIN(line.shape_area) AS known,
                SUM(MIN(part.shapes * line.shape_area, 1000000000000000)) AS net
            FROM cut CROSS JOIN cut_part AS part ON part.cut = cut.id
            JOIN line ON line.reservation = cut.reservation AND line.number = part.line
            JOIN piece ON piece.id = part.piece
            WHERE cut.undone = 0
            GROUP BY cut.rowid, piece.rowid) AS made
        JOIN piece ON piece.rowid = made.piece
        LEFT JOIN (
            SELECT cut.rowid AS cut, parent.rowid AS parent,
                SUM(remnant.received * MIN(remnant.width, 10000000)) AS area
            FROM piece AS remnant JOIN piece AS parent ON parent.id = remnant.parent
            JOIN cut ON cut.id = remnant.cut
            WHERE remnant.width < parent.width GROUP BY 1, 2) AS narrower
        ON narrower.cut = made.cut AND narrower.parent = made.piece) AS of_cut
    GROUP BY cut, class, code, lot, day) AS summed
GROUP BY class, code, lot, day";

const KEPT: &str = "
SELECT class, code, lot, day, came, used, spoiled, ends, flawed, other, promised, narrow, cuts, used_area,
    drawn_area, net_area, late_at
FROM day_use";

/// Adds to what a day did.
pub(super) fn add(connection: &Connection, roll: &RollUp) -> rusqlite::Result<()> {
    let sums = roll.of.columns().map(|(_, sum)| sum);
    let late_at = roll.of.late_at.map(|at| at.0);
    let class = roll.material.class.as_str();
    let mut values: Vec<&dyn ToSql> = vec![&class, &roll.material.code, &roll.lot, &roll.day];
    values.extend(sums.iter().map(|sum| -> &dyn ToSql { sum }));
    values.push(&late_at);
    connection
        .prepare_cached(
            "INSERT INTO day_use (class, code, lot, day, came, used, spoiled, ends, flawed, other, promised, \
             narrow, cuts, used_area, drawn_area, net_area, late_at) \
             VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12, ?13, ?14, ?15, ?16, ?17) \
             ON CONFLICT (class, code, lot, day) DO UPDATE SET came = came + excluded.came, \
             used = used + excluded.used, spoiled = spoiled + excluded.spoiled, ends = ends + excluded.ends, \
             flawed = flawed + excluded.flawed, other = other + excluded.other, \
             promised = promised + excluded.promised, narrow = narrow + excluded.narrow, \
             cuts = cuts + excluded.cuts, used_area = used_area + excluded.used_area, \
             drawn_area = drawn_area + excluded.drawn_area, net_area = net_area + excluded.net_area, \
             late_at = MAX(COALESCE(late_at, excluded.late_at), COALESCE(excluded.late_at, late_at))",
        )?
        .execute(values.as_slice())
        .map(drop)
}

/// Sums and the latest instant, from a column on.
fn day_use(row: &Row<'_>, from: usize) -> rusqlite::Result<DayUse> {
    let mut sums = [0; 12];
    for (column, sum) in (from..).zip(&mut sums) {
        *sum = row.get(column)?;
    }
    let late_at: Option<i64> = row.get(from + sums.len())?;
    Ok(DayUse::of(sums, late_at.map(At)))
}

fn days(connection: &Connection, sql: &str) -> rusqlite::Result<Days> {
    let mut statement = connection.prepare_cached(sql)?;
    let found = statement
        .query_map([], |row| Ok(((material(row, 0)?, row.get(2)?, row.get(3)?), day_use(row, 4)?)))?;
    found.collect()
}

/// Whatever does not agree with the movements, as of one instant.
pub(super) fn drifted(connection: &Connection) -> rusqlite::Result<Vec<Drift>> {
    Ok(drifts(&days(connection, KEPT)?, &days(connection, COMPUTED)?))
}

/// Puts right whatever does not agree, within the transaction that has been begun; how many rows
/// that were.
pub(super) fn rebuild(connection: &Connection) -> rusqlite::Result<u64> {
    let found = drifted(connection)?;
    let mut delete = connection
        .prepare_cached("DELETE FROM day_use WHERE class = ?1 AND code = ?2 AND lot = ?3 AND day = ?4")?;
    for drift in &found {
        let class = drift.material.class.as_str();
        delete.execute((class, &drift.material.code, &drift.lot, drift.day))?;
        if let Some(of) = drift.should {
            let (material, lot, day) = (drift.material.clone(), drift.lot.clone(), drift.day);
            add(connection, &RollUp { material, lot, day, of })?;
        }
    }
    Ok(u64::try_from(found.len()).unwrap_or(u64::MAX))
}

/// What days did with the materials of a class, by code and day, over all lots.
pub(super) fn of_days(
    connection: &Connection,
    class: Class,
    from: i32,
    to: i32,
) -> rusqlite::Result<Vec<DaySum>> {
    let mut statement = connection.prepare_cached(
        "SELECT code, day, SUM(came), SUM(used), SUM(spoiled), SUM(ends), SUM(flawed), SUM(other), \
         SUM(promised), SUM(narrow), SUM(cuts), SUM(used_area), SUM(drawn_area), SUM(net_area), MAX(late_at) \
         FROM day_use WHERE class = ?1 AND day BETWEEN ?2 AND ?3 GROUP BY code, day ORDER BY code, day",
    )?;
    let found = statement.query_map((class.as_str(), from, to), |row| {
        Ok(DaySum { code: row.get(0)?, day: row.get(1)?, of: day_use(row, 2)? })
    })?;
    found.collect()
}

/// The same, by code, lot and day.
pub(super) fn of_lots(
    connection: &Connection,
    class: Class,
    from: i32,
    to: i32,
) -> rusqlite::Result<Vec<RollUp>> {
    let mut statement = connection.prepare_cached(
        "SELECT class, code, lot, day, came, used, spoiled, ends, flawed, other, promised, narrow, cuts, \
         used_area, drawn_area, net_area, late_at FROM day_use \
         WHERE class = ?1 AND day BETWEEN ?2 AND ?3 ORDER BY code, lot, day",
    )?;
    let found = statement.query_map((class.as_str(), from, to), |row| {
        Ok(RollUp { material: material(row, 0)?, lot: row.get(2)?, day: row.get(3)?, of: day_use(row, 4)? })
    })?;
    found.collect()
}

/// The first day on which anything is known of a material.
pub(super) fn first(connection: &Connection, material: &Material) -> rusqlite::Result<Option<i32>> {
    connection
        .prepare_cached("SELECT MIN(day) FROM day_use WHERE class = ?1 AND code = ?2")?
        .query_row((material.class.as_str(), &material.code), |row| row.get(0))
        .optional()
        .map(Option::flatten)
}
