//! A store with years of use in it, written by SQL: as many movements as that would take
//! weeks of commands.
//!
//! A sale of one string from one bolt is what the engine writes for it: a reservation with a
//! line, a cut with a part, and four movements (held, confirmed, used, and an end bit that is
//! not). Sales are spread evenly over the fabrics and over the open days, Monday to Saturday,
//! of the two years that end yesterday; each takes 0.20 to 0.80 m.

use std::path::Path;

use jiff::Timestamp;
use pennantryd::catalogue::SALTMERE_LOFT;
use pennantryd::ledger::sqlite;
use rusqlite::Connection;
use tokio::runtime::Runtime;

use crate::shared::told;

/// Open days of two years.
pub const OPEN_DAYS: u64 = 626;

/// How much of it there is.
#[derive(Debug)]
pub struct Extent {
    /// Fabrics, a bolt each.
    pub fabrics: u64,
    /// Sales cut.
    pub cuts: u64,
    /// Each fabric is used on every so many open days.
    pub every: u64,
}

/// The demo shop with so many fabrics besides, each with somebody who sells it.
pub fn catalogue(extent: &Extent) -> String {
    let cloth = |fabric: u64| {
        format!(
            "\n[[fabrics]]\ncode = \"cloth-{fabric}\"\nname = \"Cloth {fabric}\"\nswatch = \"#3f6b4f\"\n\
             fibre = \"cotton\"\nusable_width_mm = 1100\ndirection = \"two-way\"\nprice_per_metre = \"11.00\"\n\
             cut_step_mm = 100\ngrams_per_m2 = 140\nthickness_mm = 0.25\n\n[[supplies]]\nfabric = \
             \"cloth-{fabric}\"\nsupplier = \"Holm Bank Weavers\"\nlead_days = 10\nbolt_mm = 5000\n\
             least_mm = 10000\n"
        )
    };
    let more: Vec<String> = (0..extent.fabrics).map(cloth).collect();
    format!("{SALTMERE_LOFT}{}", more.concat())
}

/// A store on a file.
#[derive(Debug)]
pub struct Store {
    kept: sqlite::Store,
    connection: Connection,
    runtime: Runtime,
    bytes: u64,
}

impl Store {
    /// Makes the store of a data folder and writes a history into it, without roll-ups.
    pub fn write(folder: &Path, extent: &Extent) -> Result<Store, String> {
        let runtime = tokio::runtime::Builder::new_multi_thread().worker_threads(2).enable_all().build();
        let runtime = runtime.map_err(told)?;
        let file = folder.join("stock.sqlite");
        let open = || {
            let _inside = runtime.enter();
            sqlite::Store::open(&file, sqlite::Options::default()).map_err(told)
        };
        // makes the tables
        runtime.block_on(open()?.close());
        let connection = Connection::open(&file).map_err(told)?;
        connection.execute_batch("PRAGMA journal_mode = OFF; PRAGMA synchronous = OFF;").map_err(told)?;
        connection.execute_batch(&history(extent)).map_err(told)?;
        drop(connection);
        let store = open()?;
        let connection = Connection::open(&file).map_err(told)?;
        let bytes = std::fs::metadata(&file).map_err(told)?.len();
        Ok(Store { kept: store, connection, runtime, bytes })
    }

    /// Size of the file with the history, before roll-ups.
    pub fn bytes(&self) -> u64 {
        self.bytes
    }

    /// Computes the roll-ups again; how many rows were put right.
    pub fn rebuild(&self) -> Result<u64, String> {
        self.runtime.block_on(self.kept.rebuild()).map_err(told)
    }

    fn number(&self, sql: &str) -> Result<i64, String> {
        self.connection.query_row(sql, [], |row| row.get(0)).map_err(told)
    }

    /// Movements.
    pub fn movements(&self) -> Result<i64, String> {
        self.number("SELECT COUNT(*) FROM movement")
    }

    /// Days on which a fabric was used, over all fabrics.
    pub fn fabric_days(&self) -> Result<i64, String> {
        self.number("SELECT COUNT(*) FROM day_use WHERE used > 0")
    }

    /// One aggregate over every movement.
    pub fn sum(&self) -> Result<i64, String> {
        self.number("SELECT SUM(amount) FROM movement NOT INDEXED")
    }

    /// The same by piece and day, as roll-ups are kept.
    pub fn sum_by_day(&self) -> Result<i64, String> {
        self.number(
            "SELECT COUNT(*) FROM (SELECT piece, day, SUM(amount) FROM movement NOT INDEXED GROUP BY piece, day)",
        )
    }
}

impl Drop for Store {
    fn drop(&mut self) {
        self.runtime.block_on(self.kept.close());
    }
}

/// The whole history in SQL.
fn history(extent: &Extent) -> String {
    let Extent { fabrics, cuts, every } = extent;
    let today = Timestamp::now().as_second() / 86_400;
    // a Monday, 105 weeks back: 626 days of six a week end before today
    let monday = today - (today + 3).rem_euclid(7) - 105 * 7;
    let on_each = OPEN_DAYS / every;
    format!(
        "BEGIN;
        CREATE TEMP TABLE sale AS
        WITH RECURSIVE number(n) AS (SELECT 0 UNION ALL SELECT n + 1 FROM number WHERE n + 1 < {cuts})
        SELECT n, 'bolt-' || (n % {fabrics}) AS piece, (n / {fabrics}) % {on_each} * {every} + n % {every} AS place,
            0 AS day, 200000 + n * 7919 % 13 * 50000 AS amount, 10000 + n * 104729 % 7 * 10000 AS bit
        FROM number;
        UPDATE sale SET day = {monday} + place / 6 * 7 + place % 6;

        INSERT INTO piece (id, kind, class, code, lot, width, received, left_over, held, confirmed, flaws, location,
            supplier, supplier_reference, certificates, at)
        SELECT piece, 'bolt', 'cloth', 'cloth-' || substr(piece, 6), 'L1', 1100000, SUM(amount + bit) + 9000000,
            9000000, 0, 0, '', 'rack 2', 'Holm Bank Weavers', '', '', 0
        FROM sale GROUP BY piece;
        INSERT INTO movement (change, number, at, day, actor, kind, piece, place, from_account, to_account, amount,
            reason, note)
        SELECT CAST(printf('%016d', rowid) AS BLOB), 1, 0, {monday}, 'staff', 'receive', id, 1, 'supplier', 'free',
            received, '', '' FROM piece;

        INSERT INTO reservation (id, state, holder, created, expires, confirmed, quote, order_reference,
            bench_milli_minutes, leave_day, sold, reason)
        SELECT printf('r-%08d', n), 'cut', 'staff', day * 86400000000, day * 86400000000, day * 86400000000, '', '',
            20100, day, zeroblob(200), '' FROM sale ORDER BY n;
        INSERT INTO line (reservation, number, piece, item, planned, wanted, granted, used, spoiled, shapes,
            shapes_cut, shape_area)
        SELECT printf('r-%08d', n), 1, piece, 0, amount, 0, 0, amount, bit, 12, 12, 15000000000 FROM sale ORDER BY n;
        INSERT INTO cut (id, reservation, at, undone, day)
        SELECT printf('c-%08d', n), printf('r-%08d', n), day * 86400000000, 0, day FROM sale ORDER BY n;
        INSERT INTO cut_part (cut, number, piece, line, taken, spoiled, kept, shapes, served, flaws_before, remnants,
            why)
        SELECT printf('c-%08d', n), 1, piece, 1, amount + bit, bit, 0, 12, amount, '', '', 'end bit'
        FROM sale ORDER BY n;
        WITH move(k, kind, number, from_account, to_account, reason) AS (VALUES
            (0, 'reserve', 1, 'free', 'held', ''), (1, 'confirm', 1, 'held', 'confirmed', ''),
            (2, 'cut', 1, 'confirmed', 'used', ''), (2, 'cut', 2, 'free', 'spoiled', 'end bit'))
        INSERT INTO movement (change, number, at, day, actor, kind, piece, place, from_account, to_account, amount,
            reservation, cut, reason, note)
        SELECT CAST(printf('%016d', 1000 + n * 3 + k) AS BLOB), number, day * 86400000000, day, 'staff', kind, piece,
            2 + n / {fabrics} * 4 + k + number - 1, from_account, to_account,
            CASE WHEN reason = '' THEN amount ELSE bit END, printf('r-%08d', n),
            CASE WHEN k = 2 THEN printf('c-%08d', n) END, reason, ''
        FROM sale CROSS JOIN move ORDER BY n, k, number;
        DROP TABLE sale;
        COMMIT;"
    )
}
