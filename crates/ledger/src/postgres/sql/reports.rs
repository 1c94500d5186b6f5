//! Statements about runs of the report.

macro_rules! head {
    () => {
        "day, state, runner, lease_until, started, finished, done, out_of, zone, note, revision"
    };
}

pub const LOCK: &str = concat!("SELECT ", head!(), " FROM report WHERE day = $1 FOR UPDATE");
pub const FIND: &str = concat!("SELECT ", head!(), ", body FROM report WHERE day = $1");
pub const ADD: &str = concat!(
    "INSERT INTO report (",
    head!(),
    ", body) VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12) ON CONFLICT DO NOTHING"
);
pub const SET: &str = "UPDATE report SET state = $2, runner = $3, lease_until = $4, started = $5, finished = $6, \
     done = $7, out_of = $8, zone = $9, note = $10, revision = $11, body = $12 WHERE day = $1";
pub const DROP_PARTS: &str = "DELETE FROM report_part WHERE day = $1";
pub const PUT_PART: &str = "INSERT INTO report_part (day, code, at, body) VALUES ($1, $2, $3, $4) \
     ON CONFLICT (day, code) DO UPDATE SET at = excluded.at, body = excluded.body";
pub const PARTS: &str = "SELECT code, at, body FROM report_part WHERE day = $1 ORDER BY code COLLATE \"C\"";
pub const LIST: &str =
    concat!("SELECT ", head!(), " FROM report WHERE day BETWEEN $1 AND $2 ORDER BY day DESC LIMIT $3");
pub const LAST_DONE: &str = "SELECT max(day) FROM (SELECT day FROM report WHERE state = 'done' \
     UNION ALL SELECT day FROM report_earlier) AS had WHERE day < $1";
pub const PUT_ASIDE: &str = "INSERT INTO report_earlier (day, started, finished, body) \
     SELECT day, started, finished, body FROM report WHERE day = $1 AND state = 'done' \
     ON CONFLICT (day) DO UPDATE SET started = excluded.started, finished = excluded.finished, body = excluded.body";
pub const DROP_ASIDE: &str = "DELETE FROM report_earlier WHERE day = $1";
pub const ASIDE: &str = "SELECT started, finished, body FROM report_earlier WHERE day = $1";
pub const COUNT: &str = "SELECT count(*) FROM report";
pub const LOOSE: &str = "SELECT DISTINCT report_part.day FROM report_part \
     LEFT JOIN report ON report.day = report_part.day WHERE report.day IS NULL ORDER BY report_part.day";
