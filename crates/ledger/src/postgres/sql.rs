//! Every statement of this engine. The subset is one that other databases speaking this
//! protocol have as well: plain tables, row locks, conditional updates, upserts and arrays.
//! A test reads this file and the migrations for words outside it, and the other files of
//! this engine for statements.

use std::time::Duration;

/// What each day did with each material.
pub(super) mod days;
/// Runs of the report.
pub(super) mod reports;

macro_rules! piece {
    () => {
        "id, kind, class, code, lot, width, received, left_over, held, confirmed, flaws, parent, cut, location, \
         cost_minor, supplier, supplier_reference, certificates, purchase, at"
    };
}

macro_rules! reservation {
    () => {
        "id, state, holder, created, expires, confirmed, quote, order_reference, bench_milli_minutes, leave_day, \
         sold, supersedes, superseded_by, reason"
    };
}

macro_rules! line {
    () => {
        "reservation, number, piece, item, planned, wanted, granted, used, spoiled, shapes, shapes_cut, shape_area, \
         past"
    };
}

macro_rules! movement {
    () => {
        "change, number, at, day, late, actor, kind, piece, from_account, to_account, amount, reservation, cut, reason, \
         note"
    };
}

/// What a command needs to see.
pub(super) mod load;

/// The instant by the database's clock, which goes on within a transaction.
pub(super) const NOW: &str = "SELECT CAST(extract(epoch FROM clock_timestamp()) * 1000000 AS bigint)";

/// How a session is set up. Plans are kept with the session: one that is made while a table is
/// nearly empty would read all of it for as long as nobody analyses it, however it grows. So scans
/// of whole tables are made dear, but for what looks at everything there is.
pub(super) fn session(statement: Duration, lock: Duration, idle: Duration) -> String {
    format!(
        "SET statement_timeout = {}; SET lock_timeout = {}; SET idle_in_transaction_session_timeout = {}; \
         SET synchronous_commit = 'on'; SET enable_seqscan = off",
        milliseconds(statement),
        milliseconds(lock),
        milliseconds(idle)
    )
}

/// Begins a change that has so much time.
pub(super) fn begin_change(statement: Duration, lock: Duration) -> String {
    format!(
        "BEGIN ISOLATION LEVEL READ COMMITTED; SET LOCAL statement_timeout = {}; SET LOCAL lock_timeout = {}",
        milliseconds(statement),
        milliseconds(lock)
    )
}

/// Begins a look at one state of everything.
pub(super) const BEGIN_LOOK: &str = "BEGIN ISOLATION LEVEL REPEATABLE READ READ ONLY";
/// Begins a look at everything there is, which takes as long as it takes.
pub(super) const BEGIN_LONG_LOOK: &str = "BEGIN ISOLATION LEVEL REPEATABLE READ READ ONLY; \
     SET LOCAL statement_timeout = 600000; SET LOCAL enable_seqscan = on";
/// Begins work on all that is there: migrating, adding up again.
pub(super) const BEGIN_LONG_CHANGE: &str = "BEGIN; SET LOCAL lock_timeout = 60000; \
     SET LOCAL statement_timeout = 600000; SET LOCAL enable_seqscan = on";
/// Ends with everything written.
pub(super) const COMMIT: &str = "COMMIT";
/// Ends with nothing written.
pub(super) const ROLLBACK: &str = "ROLLBACK";
/// Answers when the database does.
pub(super) const READY: &str = "SELECT version FROM schema_version ORDER BY version DESC LIMIT 1";

// nought is "for ever" to the database
fn milliseconds(time: Duration) -> u128 {
    time.as_millis().max(1)
}

/// The schema and its versions.
pub(super) mod schema {
    pub const CREATE: &str = "CREATE TABLE IF NOT EXISTS schema_version (\
         version BIGINT NOT NULL PRIMARY KEY, digest TEXT NOT NULL, at BIGINT NOT NULL)";
    /// The row that is locked while migrating.
    pub const ADD_FIRST: &str =
        "INSERT INTO schema_version (version, digest, at) VALUES (0, '', 0) ON CONFLICT DO NOTHING";
    pub const LOCK_FIRST: &str = "SELECT version FROM schema_version WHERE version = 0 FOR UPDATE";
    pub const ALL: &str = "SELECT version, digest FROM schema_version WHERE version > 0 ORDER BY version";
    pub const ADD: &str = "INSERT INTO schema_version (version, digest, at) \
         VALUES ($1, $2, CAST(extract(epoch FROM clock_timestamp()) * 1000000 AS bigint))";
}

/// Requests and their answers.
pub(super) mod request {
    pub const ADD: &str = "INSERT INTO request (scope, key, body, at, answer) VALUES ($1, $2, $3, $4, '') \
         ON CONFLICT DO NOTHING";
    pub const FIND: &str = "SELECT body, answer FROM request WHERE scope = $1 AND key = $2";
    pub const ANSWER: &str = "UPDATE request SET at = $3, answer = $4 WHERE scope = $1 AND key = $2";
}

/// What a decision changes.
pub(super) mod write {
    pub const PIECES: &str = concat!(
        "INSERT INTO piece (",
        piece!(),
        ") SELECT ",
        piece!(),
        " FROM unnest(CAST($1 AS text[]), CAST($2 AS text[]), CAST($3 AS text[]), CAST($4 AS text[]), \
         CAST($5 AS text[]), CAST($6 AS bigint[]), CAST($7 AS bigint[]), CAST($8 AS bigint[]), \
         CAST($9 AS bigint[]), CAST($10 AS bigint[]), CAST($11 AS text[]), CAST($12 AS text[]), \
         CAST($13 AS text[]), CAST($14 AS text[]), CAST($15 AS bigint[]), CAST($16 AS text[]), \
         CAST($17 AS text[]), CAST($18 AS text[]), CAST($19 AS text[]), CAST($20 AS bigint[])) AS added (",
        piece!(),
        ")"
    );
    pub const BALANCE: &str = "UPDATE piece SET left_over = $2, held = $3, confirmed = $4 \
         WHERE id = $1 AND left_over = $5 AND held = $6 AND confirmed = $7";
    pub const FLAWS: &str = "UPDATE piece SET flaws = $2 WHERE id = $1";
    pub const LOCATION: &str = "UPDATE piece SET location = $2 WHERE id = $1";
    pub const RESERVATION: &str = concat!(
        "INSERT INTO reservation (",
        reservation!(),
        ") VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13, $14)"
    );
    pub const HEAD: &str = "UPDATE reservation SET state = $2, holder = $3, created = $4, expires = $5, \
         confirmed = $6, quote = $7, order_reference = $8, bench_milli_minutes = $9, leave_day = $10, sold = $11, \
         supersedes = $12, superseded_by = $13, reason = $14 WHERE id = $1 AND state = $15";
    pub const LINE: &str = concat!(
        "INSERT INTO line (",
        line!(),
        ") VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13)"
    );
    pub const SET_LINE: &str = "UPDATE line SET piece = $3, item = $4, planned = $5, wanted = $6, granted = $7, \
         used = $8, spoiled = $9, shapes = $10, shapes_cut = $11, shape_area = $12, past = $13 \
         WHERE reservation = $1 AND number = $2";
    /// Who records a cut has the reservation, so the next turn is nobody else's.
    pub const CUT: &str = "INSERT INTO cut (id, reservation, at, undone, day, turn) VALUES ($1, $2, $3, $4, $5, \
         (SELECT COALESCE(MAX(turn), 0) + 1 FROM cut WHERE reservation = $2))";
    pub const CUT_PART: &str = "INSERT INTO cut_part (cut, number, piece, line, taken, spoiled, kept, shapes, \
         served, flaws_before, remnants, why, turn) VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, \
         (SELECT COALESCE(MAX(turn), 0) + 1 FROM cut_part WHERE piece = $3))";
    pub const CUT_UNDONE: &str = "UPDATE cut SET undone = 1 WHERE id = $1 AND undone = 0";
    pub const ORDER: &str = "INSERT INTO purchase (id, supplier, state, at, expected_day, note) \
         VALUES ($1, $2, $3, $4, $5, $6)";
    pub const ORDER_LINE: &str = "INSERT INTO purchase_line (purchase, number, class, code, ordered, received) \
         VALUES ($1, $2, $3, $4, $5, $6)";
    pub const ORDER_STATE: &str = "UPDATE purchase SET state = $2, note = $3 WHERE id = $1";
    pub const ORDER_RECEIVED: &str =
        "UPDATE purchase_line SET received = $3 WHERE purchase = $1 AND number = $2";
    /// Each comes after those that its piece had before: whoever writes one has the piece.
    pub const MOVEMENTS: &str = concat!(
        "INSERT INTO movement (",
        movement!(),
        ", turn) SELECT ",
        movement!(),
        ", added.number + 1 + (SELECT COALESCE(MAX(before.turn), 0) FROM movement AS before \
         WHERE before.piece = added.piece) FROM unnest(CAST($1 AS bytea[]), CAST($2 AS bigint[]), CAST($3 AS bigint[]), CAST($4 AS bigint[]), \
         CAST($5 AS bigint[]), CAST($6 AS text[]), CAST($7 AS text[]), CAST($8 AS text[]), CAST($9 AS text[]), \
         CAST($10 AS text[]), CAST($11 AS bigint[]), CAST($12 AS text[]), CAST($13 AS text[]), \
         CAST($14 AS text[]), CAST($15 AS text[])) AS added (",
        movement!(),
        ")"
    );
    /// Each comes after all that has no place yet and can be seen: whatever it follows from can.
    pub const EVENTS: &str = "INSERT INTO event (change, number, at, actor, kind, reservation, piece, purchase, \
         amount, note, turn) SELECT change, number, at, actor, kind, reservation, piece, purchase, amount, note, \
         (SELECT COALESCE(MAX(before.turn), 0) + 1 FROM event AS before WHERE before.place IS NULL) \
         FROM unnest(CAST($1 AS bytea[]), CAST($2 AS bigint[]), CAST($3 AS bigint[]), CAST($4 AS text[]), \
         CAST($5 AS text[]), CAST($6 AS text[]), CAST($7 AS text[]), CAST($8 AS text[]), CAST($9 AS bigint[]), \
         CAST($10 AS text[])) \
         AS added (change, number, at, actor, kind, reservation, piece, purchase, amount, note)";
}

/// What can be looked at.
pub(super) mod read {
    /// Names are in the order of their bytes, as the other engine has them. What is asked for in a
    /// word of an index is a statement of its own: one that would serve all reads all.
    macro_rules! pieces {
        ($which:literal) => {
            concat!(
                "SELECT ",
                piece!(),
                " FROM piece WHERE (CAST($2 AS text) IS NULL OR lot = $2) \
                 AND id COLLATE \"C\" >= COALESCE(CAST($3 AS text), '') AND (CAST($3 AS text) IS NULL OR id <> $3)",
                $which,
                " ORDER BY id COLLATE \"C\" LIMIT $1"
            )
        };
    }
    pub const PIECES_LEFT: &str = pieces!(" AND left_over > 0");
    pub const PIECES_EVER: &str = pieces!("");
    pub const PIECES_LEFT_OF: &str = pieces!(" AND left_over > 0 AND class = $4 AND code = $5");
    pub const PIECES_EVER_OF: &str = pieces!(" AND class = $4 AND code = $5");
    pub const PIECE: &str = concat!("SELECT ", piece!(), " FROM piece WHERE id = $1");
    macro_rules! reservations {
        ($which:literal) => {
            concat!(
                "SELECT ",
                reservation!(),
                " FROM reservation WHERE (cardinality(CAST($1 AS text[])) = 0 OR state = ANY($1)) \
                 AND (NOT CAST($2 AS boolean) OR EXISTS (SELECT 1 FROM line \
                 WHERE line.reservation = reservation.id AND line.granted < line.wanted)) \
                 AND (CAST($3 AS text) IS NULL OR id IN (SELECT line.reservation FROM line \
                 WHERE line.piece = $3 AND line.wanted > 0)) \
                 AND created <= COALESCE((SELECT last.created FROM reservation AS last WHERE last.id = $4), \
                 9223372036854775807) \
                 AND (CAST($4 AS text) IS NULL OR created < (SELECT last.created FROM reservation AS last \
                 WHERE last.id = $4) OR (created = (SELECT last.created FROM reservation AS last \
                 WHERE last.id = $4) AND id COLLATE \"C\" < $4))",
                $which,
                " ORDER BY created DESC, id COLLATE \"C\" DESC LIMIT $5"
            )
        };
    }
    pub const RESERVATIONS: &str = reservations!("");
    pub const LIVE_RESERVATIONS: &str = reservations!(" AND state IN ('held', 'confirmed')");
    pub const MOVEMENTS: &str = concat!(
        "SELECT ",
        movement!(),
        " FROM movement WHERE piece = $1 ORDER BY turn, at, change, number LIMIT $3 OFFSET $2"
    );
    pub const CUTS_OF: &str = "SELECT id FROM cut WHERE reservation = $1 ORDER BY turn, at, id COLLATE \"C\"";
    pub const ORDERS: &str = "SELECT id FROM purchase ORDER BY at DESC, id COLLATE \"C\" DESC LIMIT $1";
    pub const OPEN_ORDERS: &str = "SELECT id FROM purchase WHERE state = 'open' \
         ORDER BY at DESC, id COLLATE \"C\" DESC LIMIT $1";
    pub const ON_ORDER: &str = "SELECT line.class, line.code, \
         CAST(sum(CASE WHEN line.ordered > line.received THEN line.ordered - line.received ELSE 0 END) AS bigint) \
         FROM purchase_line AS line JOIN purchase ON purchase.id = line.purchase AND purchase.state = 'open' \
         GROUP BY line.class, line.code";
    /// What was cut without having been confirmed counts from when it was taken.
    /// Those without a day are looked up by themselves, so that those whose day is over are not read.
    pub const BOOKINGS: &str = "SELECT leave_day, bench_milli_minutes, since FROM (\
         SELECT leave_day, bench_milli_minutes, COALESCE(confirmed, created) AS since, id FROM reservation \
         WHERE state IN ('confirmed', 'cut') AND bench_milli_minutes > 0 AND leave_day IS NULL UNION ALL \
         SELECT leave_day, bench_milli_minutes, COALESCE(confirmed, created) AS since, id FROM reservation \
         WHERE state IN ('confirmed', 'cut') AND bench_milli_minutes > 0 AND leave_day >= $1) AS booked \
         ORDER BY leave_day NULLS FIRST, since, id COLLATE \"C\"";
    pub const SHELF: &str =
        concat!("SELECT ", piece!(), " FROM piece WHERE left_over > 0 ORDER BY id COLLATE \"C\"");
    pub const PROMISED: &str = "SELECT line.piece, reservation.state, reservation.expires, line.granted FROM line \
         JOIN reservation ON reservation.id = line.reservation AND reservation.state IN ('held', 'confirmed') \
         WHERE line.wanted > 0 AND line.granted > 0 \
         ORDER BY line.reservation COLLATE \"C\", line.number";
    /// Each of these pieces, once for each line that it is promised to, or once. It is one statement,
    /// so it sees one state of everything.
    pub const SHELF_OF: &str = concat!(
        "SELECT ",
        piece!(),
        ", to_state, to_expires, to_granted FROM piece LEFT JOIN (\
         SELECT line.piece AS of_piece, line.reservation AS to_reservation, line.number AS to_number, \
         reservation.state AS to_state, reservation.expires AS to_expires, line.granted AS to_granted FROM line \
         JOIN reservation ON reservation.id = line.reservation AND reservation.state IN ('held', 'confirmed') \
         WHERE line.piece = ANY($1) AND line.wanted > 0 AND line.granted > 0) AS promised ON of_piece = id \
         WHERE id = ANY($1) ORDER BY id, to_reservation COLLATE \"C\", to_number"
    );
}

/// How the shop stands.
pub(super) mod stand {
    pub const OPEN: &str = "SELECT id FROM purchase WHERE state = 'open' ORDER BY id COLLATE \"C\"";
    /// What is wanted and not there.
    pub const MISSING: &str = "SELECT piece.class, piece.code, reservation.state, reservation.expires, \
         line.wanted - line.granted FROM line JOIN reservation ON reservation.id = line.reservation \
         JOIN piece ON piece.id = line.piece WHERE line.granted < line.wanted AND line.wanted > 0";
    pub const SUPPLIERS: &str = "SELECT class, code, supplier FROM piece UNION \
         SELECT line.class, line.code, purchase.supplier FROM purchase_line AS line \
         JOIN purchase ON purchase.id = line.purchase";
}

/// Events and their places.
pub(super) mod event {
    pub const WAITING: &str = "SELECT EXISTS (SELECT 1 FROM event WHERE place IS NULL)";
    pub const LAST: &str = "SELECT last FROM event_places WHERE only_one = 1";
    pub const LOCK_LAST: &str = "SELECT last FROM event_places WHERE only_one = 1 FOR UPDATE";
    pub const UNPLACED: &str =
        "SELECT change, number FROM event WHERE place IS NULL ORDER BY turn, at, change, number LIMIT $1";
    pub const PLACE: &str = "UPDATE event SET place = given.place \
         FROM unnest(CAST($1 AS bytea[]), CAST($2 AS bigint[]), CAST($3 AS bigint[])) AS given (change, number, place) \
         WHERE event.change = given.change AND event.number = given.number AND event.place IS NULL";
    pub const SET_LAST: &str = "UPDATE event_places SET last = $1 WHERE only_one = 1";
    pub const AFTER: &str = "SELECT place, change, number, at, actor, kind, reservation, piece, purchase, amount, note \
         FROM event WHERE place > $1 ORDER BY place LIMIT $2";
}

/// What a look through the whole store adds up.
pub(super) mod verify {
    pub const PIECES: &str = concat!("SELECT ", piece!(), " FROM piece ORDER BY id COLLATE \"C\"");
    /// What has come into each account of each piece, less what has gone out.
    pub const ACCOUNTS: &str = "SELECT piece, account, CAST(sum(amount) AS bigint) FROM (\
         SELECT piece, to_account AS account, amount FROM movement \
         UNION ALL SELECT piece, from_account AS account, -amount AS amount FROM movement) AS moved \
         WHERE account IN ('free', 'held', 'confirmed') GROUP BY piece, account";
    /// What came with each piece.
    pub const CAME: &str = "SELECT piece, CAST(sum(amount) AS bigint) FROM movement \
         WHERE from_account = 'supplier' OR (from_account = 'kept' AND kind = 'cut') GROUP BY piece";
    pub const MOVEMENTS: &str = "SELECT count(*) FROM movement";
    /// What lines of live reservations were granted of each piece.
    pub const GRANTED: &str = "SELECT line.piece, reservation.state, CAST(sum(line.granted) AS bigint) FROM line \
         JOIN reservation ON reservation.id = line.reservation AND reservation.state IN ('held', 'confirmed') \
         GROUP BY line.piece, reservation.state";
    /// Each reservation with what its lines want and were granted.
    pub const RESERVATIONS: &str = "SELECT reservation.id, reservation.state, \
         CAST(COALESCE(sum(line.wanted), 0) AS bigint), CAST(COALESCE(sum(line.granted), 0) AS bigint), \
         count(line.number) FROM reservation LEFT JOIN line ON line.reservation = reservation.id \
         GROUP BY reservation.id, reservation.state";
    /// What each reservation holds by the movements.
    pub const MOVED: &str = "SELECT reservation, account, CAST(sum(amount) AS bigint) FROM (\
         SELECT reservation, to_account AS account, amount FROM movement WHERE reservation IS NOT NULL \
         UNION ALL SELECT reservation, from_account AS account, -amount AS amount FROM movement \
         WHERE reservation IS NOT NULL) AS moved \
         WHERE account IN ('held', 'confirmed') GROUP BY reservation, account";
    pub const TOLD: &str = "SELECT reservation, kind, count(*) FROM event \
         WHERE kind IN ('held', 'released', 'expired', 'cancelled', 'superseded') AND reservation IS NOT NULL \
         GROUP BY reservation, kind";
    pub const EVENTS: &str = "SELECT count(*) FROM event";
    pub const PLACES: &str = "SELECT count(place), CAST(COALESCE(max(place), 0) AS bigint) FROM event";
    /// What each part of a cut says that it left.
    pub const REMNANTS: &str = "SELECT cut, piece, kept, remnants FROM cut_part ORDER BY cut, number";
    /// Rows whose other end is missing or says something else, in words.
    pub const ORPHANS: [(&str, &str); 8] = [
        (
            "line of no reservation or piece",
            "SELECT line.reservation FROM line \
         LEFT JOIN reservation ON reservation.id = line.reservation LEFT JOIN piece ON piece.id = line.piece \
         WHERE reservation.id IS NULL OR piece.id IS NULL",
        ),
        (
            "cut of no reservation, or without a part",
            "SELECT cut.id FROM cut \
         LEFT JOIN reservation ON reservation.id = cut.reservation LEFT JOIN cut_part ON cut_part.cut = cut.id \
         WHERE reservation.id IS NULL OR cut_part.cut IS NULL",
        ),
        (
            "remnant of no piece or cut",
            "SELECT piece.id FROM piece \
         LEFT JOIN piece AS parent ON parent.id = piece.parent LEFT JOIN cut ON cut.id = piece.cut \
         WHERE (piece.parent IS NOT NULL AND parent.id IS NULL) OR (piece.cut IS NOT NULL AND cut.id IS NULL)",
        ),
        (
            "movement of no piece",
            "SELECT movement.piece FROM movement \
         LEFT JOIN piece ON piece.id = movement.piece WHERE piece.id IS NULL",
        ),
        (
            "movement for no reservation",
            "SELECT movement.reservation FROM movement \
         LEFT JOIN reservation ON reservation.id = movement.reservation \
         WHERE movement.reservation IS NOT NULL AND reservation.id IS NULL",
        ),
        (
            "line of which its cuts say something else",
            "SELECT line.reservation || ', line ' || CAST(line.number AS text) FROM line LEFT JOIN (\
         SELECT cut.reservation, cut_part.line, sum(taken - spoiled - kept) AS used, sum(spoiled) AS spoiled, \
         sum(shapes) AS shapes FROM cut_part JOIN cut ON cut.id = cut_part.cut AND cut.undone = 0 \
         GROUP BY cut.reservation, cut_part.line) AS made \
         ON made.reservation = line.reservation AND made.line = line.number \
         WHERE line.used <> COALESCE(made.used, 0) OR line.spoiled <> COALESCE(made.spoiled, 0) \
         OR line.shapes_cut <> COALESCE(made.shapes, 0)",
        ),
        (
            "order of which the pieces that came on it say something else",
            "SELECT COALESCE(noted.purchase, came.purchase) || ', ' || COALESCE(noted.code, came.code) FROM (\
         SELECT purchase, class, code, sum(received) AS received FROM purchase_line WHERE received > 0 \
         GROUP BY purchase, class, code) AS noted FULL JOIN (\
         SELECT purchase, class, code, sum(received) AS received FROM piece WHERE purchase IS NOT NULL \
         GROUP BY purchase, class, code) AS came \
         ON came.purchase = noted.purchase AND came.class = noted.class AND came.code = noted.code \
         WHERE COALESCE(noted.received, 0) <> COALESCE(came.received, 0)",
        ),
        ("request without an answer", "SELECT key FROM request WHERE length(answer) = 0"),
    ];
}
