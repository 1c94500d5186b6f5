//! Statements about what each day did with each material.

macro_rules! day_use {
    () => {
        "class, code, lot, day, came, used, spoiled, ends, flawed, other, promised, narrow, cuts, used_area, \
         drawn_area, net_area, late_at"
    };
}

/// What the movements, cuts and lines say of every day, in the columns of `day_use!`.
macro_rules! computed {
    () => {
        "SELECT class, code, lot, day, CAST(SUM(came) AS bigint), CAST(SUM(used) AS bigint), CAST(SUM(spoiled) \
         AS bigint), CAST(SUM(ends) AS bigint), CAST(SUM(flawed) AS bigint), CAST(SUM(other) AS bigint), \
         CAST(SUM(promised) AS bigint), CAST(SUM(narrow) AS bigint), CAST(SUM(cuts) AS bigint), \
         CAST(SUM(used_area) AS bigint), CAST(SUM(drawn_area) AS bigint), CAST(SUM(net_area) AS bigint), \
         MAX(late_at) FROM ( SELECT piece.class AS class, piece.code AS code, piece.lot AS lot, moved.day AS \
         day, moved.came AS came, moved.used AS used, moved.spoiled AS spoiled, moved.ends AS ends, \
         moved.flawed AS flawed, moved.other AS other, moved.promised AS promised, moved.narrow AS narrow, 0 \
         AS cuts, CASE WHEN piece.class = 'cloth' THEN (moved.used - moved.narrow) * LEAST(piece.width, \
         10000000) ELSE 0 END AS used_area, 0 AS drawn_area, 0 AS net_area, moved.late_at AS late_at FROM ( \
         SELECT movement.piece AS piece, CASE WHEN movement.kind = 'undo' THEN cut.day ELSE movement.day END \
         AS day, SUM(CASE WHEN from_account = 'supplier' THEN amount ELSE 0 END) AS came, SUM(CASE WHEN \
         to_account = 'used' THEN amount WHEN from_account = 'used' THEN -amount ELSE 0 END) AS used, SUM(CASE \
         WHEN to_account = 'spoiled' AND cut.undone = 0 AND reason NOT IN ('end bit', 'squaring', 'flaw') THEN \
         amount WHEN to_account = 'elsewhere' AND reason IN ('damaged', 'miscut') THEN amount ELSE 0 END) AS \
         spoiled, SUM(CASE WHEN reason IN ('end bit', 'squaring') AND (to_account = 'elsewhere' OR (to_account \
         = 'spoiled' AND cut.undone = 0)) THEN amount ELSE 0 END) AS ends, SUM(CASE WHEN reason = 'flaw' AND \
         (to_account = 'elsewhere' OR (to_account = 'spoiled' AND cut.undone = 0)) THEN amount ELSE 0 END) AS \
         flawed, SUM(CASE WHEN from_account = 'elsewhere' THEN amount WHEN to_account = 'elsewhere' AND reason \
         NOT IN ('end bit', 'squaring', 'flaw', 'damaged', 'miscut') THEN -amount ELSE 0 END) AS other, \
         SUM(CASE WHEN to_account = 'confirmed' THEN amount WHEN from_account = 'confirmed' THEN -amount ELSE \
         0 END) AS promised, SUM(CASE WHEN from_account = 'kept' THEN amount WHEN to_account = 'kept' THEN \
         -amount ELSE 0 END) AS narrow, MAX(CASE WHEN late = 1 THEN movement.at END) AS late_at FROM movement \
         LEFT JOIN cut ON cut.id = movement.cut WHERE from_account NOT IN ('free', 'held') OR to_account NOT \
         IN ('free', 'held') GROUP BY 1, 2) AS moved JOIN piece ON piece.id = moved.piece UNION ALL SELECT \
         class, code, lot, day, 0, 0, 0, 0, 0, 0, 0, 0, MAX(uses), 0, SUM(drawn), SUM(net), CAST(NULL AS \
         bigint) FROM ( SELECT made.cut AS cut, piece.class AS class, piece.code AS code, piece.lot AS lot, \
         made.day AS day, CASE WHEN made.used > 0 THEN 1 ELSE 0 END AS uses, CASE WHEN made.known > 0 AND \
         piece.class = 'cloth' THEN made.used * LEAST(piece.width, 10000000) - COALESCE(narrower.area, 0) ELSE \
         0 END AS drawn, CASE WHEN made.known > 0 AND piece.class = 'cloth' THEN made.net ELSE 0 END AS net \
         FROM ( SELECT part.cut AS cut, part.piece AS piece, cut.day AS day, SUM(part.taken - part.spoiled - \
         part.kept) AS used, MIN(line.shape_area) AS known, SUM(LEAST(CAST(part.shapes AS numeric) * \
         line.shape_area, 1000000000000000)) AS net FROM cut_part AS part JOIN cut ON cut.id = part.cut \
         JOIN line ON line.reservation = cut.reservation AND line.number = part.line WHERE cut.undone = 0 \
         GROUP BY part.cut, part.piece, cut.day) AS made JOIN piece ON piece.id = made.piece LEFT JOIN ( \
         SELECT remnant.cut AS cut, remnant.parent AS parent, SUM(remnant.received * LEAST(remnant.width, \
         10000000)) AS area FROM piece AS remnant JOIN piece AS parent ON parent.id = remnant.parent WHERE \
         remnant.width < parent.width GROUP BY remnant.cut, remnant.parent) AS narrower ON narrower.cut = \
         made.cut AND narrower.parent = made.piece) AS of_cut GROUP BY cut, class, code, lot, day) AS summed \
         GROUP BY class, code, lot, day"
    };
}

/// Adds to what is there, one row after the other in the order in which they are given, which is
/// that of their keys: of two who add to the same rows one waits for the other.
pub const ADD: &str = concat!(
    "INSERT INTO day_use (",
    day_use!(),
    ") SELECT ",
    day_use!(),
    " FROM unnest(CAST($1 AS text[]), CAST($2 AS text[]), CAST($3 AS text[]), CAST($4 AS bigint[]), \
     CAST($5 AS bigint[]), CAST($6 AS bigint[]), CAST($7 AS bigint[]), CAST($8 AS bigint[]), \
     CAST($9 AS bigint[]), CAST($10 AS bigint[]), CAST($11 AS bigint[]), CAST($12 AS bigint[]), \
     CAST($13 AS bigint[]), CAST($14 AS bigint[]), CAST($15 AS bigint[]), CAST($16 AS bigint[]), \
     CAST($17 AS bigint[])) AS added (",
    day_use!(),
    ") ON CONFLICT (class, code, lot, day) DO UPDATE SET came = day_use.came + excluded.came, \
     used = day_use.used + excluded.used, spoiled = day_use.spoiled + excluded.spoiled, \
     ends = day_use.ends + excluded.ends, flawed = day_use.flawed + excluded.flawed, \
     other = day_use.other + excluded.other, promised = day_use.promised + excluded.promised, \
     narrow = day_use.narrow + excluded.narrow, cuts = day_use.cuts + excluded.cuts, \
     used_area = day_use.used_area + excluded.used_area, drawn_area = day_use.drawn_area + excluded.drawn_area, \
     net_area = day_use.net_area + excluded.net_area, late_at = GREATEST(day_use.late_at, excluded.late_at)"
);
/// Both in one statement, so that both are of one instant: what is kept, and what it should be.
pub const BOTH: &str = concat!(
    "SELECT CAST('kept' AS text), ",
    day_use!(),
    " FROM day_use UNION ALL SELECT CAST('computed' AS text), ",
    day_use!(),
    " FROM (",
    computed!(),
    ") AS computed (",
    day_use!(),
    ")"
);
/// An instant that is later than any movement says; where it has changed meanwhile it is right.
pub const LATE: &str = "UPDATE day_use SET late_at = $5 \
     WHERE class = $1 AND code = $2 AND lot = $3 AND day = $4 AND late_at = $6";
/// A row of which no movement knows, once it says nought.
pub const REMOVE: &str = "DELETE FROM day_use WHERE class = $1 AND code = $2 AND lot = $3 AND day = $4 \
     AND came = 0 AND used = 0 AND spoiled = 0 AND ends = 0 AND flawed = 0 AND other = 0 AND promised = 0 \
     AND narrow = 0 AND cuts = 0 AND used_area = 0 AND drawn_area = 0 AND net_area = 0 \
     AND NOT EXISTS (SELECT 1 FROM movement JOIN piece ON piece.id = movement.piece \
     WHERE piece.class = $1 AND piece.code = $2 AND piece.lot = $3 AND movement.day = $4 \
     AND (from_account NOT IN ('free', 'held') OR to_account NOT IN ('free', 'held')))";
pub const OF_DAYS: &str = "SELECT code, day, CAST(sum(came) AS bigint), CAST(sum(used) AS bigint), \
     CAST(sum(spoiled) AS bigint), CAST(sum(ends) AS bigint), CAST(sum(flawed) AS bigint), \
     CAST(sum(other) AS bigint), CAST(sum(promised) AS bigint), CAST(sum(narrow) AS bigint), \
     CAST(sum(cuts) AS bigint), CAST(sum(used_area) AS bigint), CAST(sum(drawn_area) AS bigint), \
     CAST(sum(net_area) AS bigint), max(late_at) FROM day_use WHERE class = $1 AND day BETWEEN $2 AND $3 \
     GROUP BY code, day ORDER BY code COLLATE \"C\", day";
pub const OF_LOTS: &str = concat!(
    "SELECT ",
    day_use!(),
    " FROM day_use WHERE class = $1 AND day BETWEEN $2 AND $3 \
     ORDER BY code COLLATE \"C\", lot COLLATE \"C\", day"
);
pub const FIRST: &str = "SELECT min(day) FROM day_use WHERE class = $1 AND code = $2";
