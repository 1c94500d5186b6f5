//! Statements about runs of the report.

macro_rules! head {
    () => {
        "day, state, runner, lease_until, started, finished, done, out_of, zone, note"
    };
}

pub const LOCK: &str = concat!("SELECT ", head!(), " FROM report WHERE day = $1 FOR UPDATE");
pub const FIND: &str = concat!("SELECT ", head!(), ", body FROM report WHERE day = $1");
pub const ADD: &str = concat!(
    "INSERT INTO report (",
    head!(),
    ", body) VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11) ON CONFLICT DO NOTHING"
);
pub const SET: &str = "UPDATE report SET state = $2, runner = $3, lease_until = $4, started = $5, finished = $6, \
     done = $7, out_of = $8, zone = $9, note = $10, body = $11 WHERE day = $1";
pub const DROP_PARTS: &str = "DELETE FROM report_part WHERE day = $1";
pub const PUT_PART: &str = "INSERT INTO report_part (day, code, at, body) VALUES ($1, $2, $3, $4) \
     ON CONFLICT (day, code) DO UPDATE SET at = excluded.at, body = excluded.body";
pub const PARTS: &str = "SELECT code, at, body FROM report_part WHERE day = $1 ORDER BY code COLLATE \"C\"";
pub const LIST: &str =
    concat!("SELECT ", head!(), " FROM report WHERE day BETWEEN $1 AND $2 ORDER BY day DESC LIMIT $3");
pub const LAST_DONE: &str = "SELECT max(day) FROM report WHERE state = 'done' AND day < $1";
pub const COUNT: &str = "SELECT count(*) FROM report";
pub const LOOSE: &str = "SELECT DISTINCT report_part.day FROM report_part \
     LEFT JOIN report ON report.day = report_part.day WHERE report.day IS NULL ORDER BY report_part.day";
