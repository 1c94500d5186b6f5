-- What each day did with each material, by dye lot: added up where movements are written, so that
-- reports read some rows a day. And what that needs to know: the day of a cut, why something of it
-- was spoiled, the area of the shapes of a line, and which movements were written for a day that
-- was over. The columns are what the rules say of roll-ups; areas are whole square micrometres.

ALTER TABLE line ADD COLUMN shape_area INTEGER NOT NULL DEFAULT 0
    CONSTRAINT line_shape_area CHECK (shape_area >= 0);
ALTER TABLE movement ADD COLUMN late INTEGER NOT NULL DEFAULT 0 CONSTRAINT movement_late CHECK (late IN (0, 1));
ALTER TABLE cut ADD COLUMN day INTEGER NOT NULL DEFAULT 0;
ALTER TABLE cut_part ADD COLUMN why TEXT NOT NULL DEFAULT '';

-- a cut counts for the day of its movements
UPDATE cut SET day = made.day
FROM (SELECT cut, MIN(day) AS day FROM movement WHERE kind = 'cut' AND cut IS NOT NULL GROUP BY cut) AS made
WHERE made.cut = cut.id;

-- parts of one piece are spoiled one after the other, as their movements are
UPDATE cut_part SET why = said.reason
FROM (
    SELECT part.cut, part.number, moved.reason
    FROM (
        SELECT cut, number, piece, (
            SELECT SUM(before.spoiled) FROM cut_part AS before
            WHERE before.cut = here.cut AND before.piece = here.piece AND before.number <= here.number) AS upto
        FROM cut_part AS here WHERE spoiled > 0) AS part
    JOIN (
        SELECT cut, piece, reason, amount, (
            SELECT SUM(before.amount) FROM movement AS before
            WHERE before.change = here.change AND before.number <= here.number AND before.piece = here.piece
            AND before.kind = 'cut' AND before.to_account = 'spoiled') AS upto
        FROM movement AS here WHERE kind = 'cut' AND to_account = 'spoiled') AS moved
    ON moved.cut = part.cut AND moved.piece = part.piece
    AND moved.upto - moved.amount < part.upto AND part.upto <= moved.upto) AS said
WHERE said.cut = cut_part.cut AND said.number = cut_part.number;

CREATE TABLE day_use (
    class      TEXT NOT NULL CONSTRAINT day_use_class CHECK (class IN ('cloth', 'binding', 'sundry')),
    code       TEXT NOT NULL,
    lot        TEXT NOT NULL,
    day        INTEGER NOT NULL,
    came       INTEGER NOT NULL,
    used       INTEGER NOT NULL,
    spoiled    INTEGER NOT NULL,
    ends       INTEGER NOT NULL,
    flawed     INTEGER NOT NULL,
    other      INTEGER NOT NULL,
    promised   INTEGER NOT NULL,
    narrow     INTEGER NOT NULL,
    cuts       INTEGER NOT NULL,
    used_area  INTEGER NOT NULL,
    drawn_area INTEGER NOT NULL,
    net_area   INTEGER NOT NULL,
    late_at    INTEGER,
    PRIMARY KEY (class, code, lot, day)
) STRICT, WITHOUT ROWID;
CREATE INDEX day_use_by_day ON day_use (class, day);

-- from what is there; a cut that was taken back, on whichever day, takes back its own day's
INSERT INTO day_use (class, code, lot, day, came, used, spoiled, ends, flawed, other, promised, narrow, cuts,
    used_area, drawn_area, net_area, late_at)
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
        SELECT movement.piece AS piece,
            CASE WHEN movement.kind = 'undo' THEN cut.day ELSE movement.day END AS day,
            SUM(CASE WHEN from_account = 'supplier' THEN amount ELSE 0 END) AS came,
            SUM(CASE WHEN to_account = 'used' THEN amount WHEN from_account = 'used' THEN -amount ELSE 0 END)
                AS used,
            SUM(CASE WHEN to_account = 'spoiled' AND cut.undone = 0
                AND reason NOT IN ('end bit', 'squaring', 'flaw') THEN amount
                WHEN to_account = 'elsewhere' AND reason IN ('damaged', 'miscut') THEN amount ELSE 0 END)
                AS spoiled,
            SUM(CASE WHEN reason IN ('end bit', 'squaring') AND (to_account = 'elsewhere'
                OR (to_account = 'spoiled' AND cut.undone = 0)) THEN amount ELSE 0 END) AS ends,
            SUM(CASE WHEN reason = 'flaw' AND (to_account = 'elsewhere'
                OR (to_account = 'spoiled' AND cut.undone = 0)) THEN amount ELSE 0 END) AS flawed,
            SUM(CASE WHEN from_account = 'elsewhere' THEN amount WHEN to_account = 'elsewhere'
                AND reason NOT IN ('end bit', 'squaring', 'flaw', 'damaged', 'miscut') THEN -amount ELSE 0 END)
                AS other,
            SUM(CASE WHEN to_account = 'confirmed' THEN amount WHEN from_account = 'confirmed' THEN -amount
                ELSE 0 END) AS promised,
            SUM(CASE WHEN from_account = 'kept' THEN amount WHEN to_account = 'kept' THEN -amount ELSE 0 END)
                AS narrow,
            MAX(CASE WHEN late = 1 THEN movement.at END) AS late_at
        FROM movement NOT INDEXED LEFT JOIN cut ON cut.id = movement.cut
        WHERE from_account NOT IN ('free', 'held') OR to_account NOT IN ('free', 'held')
        GROUP BY 1, 2) AS moved
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
            SELECT part.cut AS cut, part.piece AS piece, cut.day AS day,
                SUM(part.taken - part.spoiled - part.kept) AS used, MIN(line.shape_area) AS known,
                SUM(MIN(part.shapes * line.shape_area, 1000000000000000000)) AS net
            FROM cut_part AS part NOT INDEXED JOIN cut ON cut.id = part.cut
            JOIN line ON line.reservation = cut.reservation AND line.number = part.line
            WHERE cut.undone = 0
            GROUP BY part.cut, part.piece, cut.day) AS made
        JOIN piece ON piece.id = made.piece
        LEFT JOIN (
            SELECT remnant.cut AS cut, remnant.parent AS parent,
                SUM(remnant.received * MIN(remnant.width, 10000000)) AS area
            FROM piece AS remnant JOIN piece AS parent ON parent.id = remnant.parent
            WHERE remnant.width < parent.width GROUP BY remnant.cut, remnant.parent) AS narrower
        ON narrower.cut = made.cut AND narrower.parent = made.piece) AS of_cut
    GROUP BY cut, class, code, lot, day) AS summed
GROUP BY class, code, lot, day;
