-- The first stock: pieces and their balances, reservations, cuts, orders, movements, events,
-- and the answers to requests. Amounts are whole micrometres or single things, instants
-- microseconds from 1970, days numbered from 1970.

CREATE TABLE piece (
    id                 TEXT NOT NULL PRIMARY KEY,
    kind               TEXT NOT NULL CONSTRAINT piece_kind CHECK (kind IN ('bolt', 'remnant', 'roll', 'box')),
    class              TEXT NOT NULL CONSTRAINT piece_class CHECK (class IN ('cloth', 'binding', 'sundry')),
    code               TEXT NOT NULL,
    lot                TEXT NOT NULL,
    width              INTEGER NOT NULL CONSTRAINT piece_width CHECK (width >= 0),
    received           INTEGER NOT NULL CONSTRAINT piece_received CHECK (received > 0),
    left_over          INTEGER NOT NULL,
    held               INTEGER NOT NULL,
    confirmed          INTEGER NOT NULL,
    flaws              TEXT NOT NULL,
    parent             TEXT,
    cut                TEXT,
    location           TEXT NOT NULL,
    cost_minor         INTEGER,
    supplier           TEXT NOT NULL,
    supplier_reference TEXT NOT NULL,
    certificates       TEXT NOT NULL,
    purchase           TEXT,
    at                 INTEGER NOT NULL,
    CONSTRAINT piece_left_not_below_nought CHECK (left_over >= 0),
    CONSTRAINT piece_held_not_below_nought CHECK (held >= 0),
    CONSTRAINT piece_confirmed_not_below_nought CHECK (confirmed >= 0),
    CONSTRAINT piece_promised_within_left CHECK (held + confirmed <= left_over)
) STRICT;
CREATE INDEX piece_by_material ON piece (class, code, id) WHERE left_over > 0;
CREATE INDEX piece_of_purchase ON piece (purchase) WHERE purchase IS NOT NULL;

CREATE TABLE reservation (
    id                  TEXT NOT NULL PRIMARY KEY,
    state               TEXT NOT NULL CONSTRAINT reservation_state CHECK (state IN
        ('held', 'confirmed', 'cut', 'released', 'expired', 'cancelled', 'superseded')),
    holder              TEXT NOT NULL,
    created             INTEGER NOT NULL,
    expires             INTEGER NOT NULL,
    confirmed           INTEGER,
    quote               TEXT NOT NULL,
    order_reference     TEXT NOT NULL,
    bench_milli_minutes INTEGER NOT NULL CONSTRAINT reservation_bench CHECK (bench_milli_minutes >= 0),
    leave_day           INTEGER,
    sold                BLOB NOT NULL,
    supersedes          TEXT,
    superseded_by       TEXT,
    reason              TEXT NOT NULL
) STRICT;
CREATE INDEX reservation_held ON reservation (expires) WHERE state = 'held';
CREATE INDEX reservation_of_holder ON reservation (holder, expires) WHERE state = 'held';
CREATE INDEX reservation_confirmed ON reservation (leave_day) WHERE state IN ('confirmed', 'cut');
CREATE INDEX reservation_created ON reservation (created, id);
CREATE INDEX reservation_live ON reservation (created, id) WHERE state IN ('held', 'confirmed');

CREATE TABLE line (
    reservation TEXT NOT NULL REFERENCES reservation (id),
    number      INTEGER NOT NULL CONSTRAINT line_number CHECK (number > 0),
    piece       TEXT NOT NULL REFERENCES piece (id),
    item        INTEGER NOT NULL,
    planned     INTEGER NOT NULL CONSTRAINT line_planned CHECK (planned > 0),
    wanted      INTEGER NOT NULL CONSTRAINT line_wanted CHECK (wanted >= 0),
    granted     INTEGER NOT NULL,
    used        INTEGER NOT NULL CONSTRAINT line_used CHECK (used >= 0),
    spoiled     INTEGER NOT NULL CONSTRAINT line_spoiled CHECK (spoiled >= 0),
    shapes      INTEGER NOT NULL CONSTRAINT line_shapes CHECK (shapes >= 0),
    shapes_cut  INTEGER NOT NULL CONSTRAINT line_shapes_cut CHECK (shapes_cut >= 0),
    PRIMARY KEY (reservation, number),
    CONSTRAINT line_granted_within_wanted CHECK (granted >= 0 AND granted <= wanted)
) STRICT, WITHOUT ROWID;
CREATE INDEX line_live_on_piece ON line (piece) WHERE wanted > 0;
CREATE INDEX line_short ON line (reservation) WHERE granted < wanted;

CREATE TABLE cut (
    id          TEXT NOT NULL PRIMARY KEY,
    reservation TEXT NOT NULL REFERENCES reservation (id),
    at          INTEGER NOT NULL,
    undone      INTEGER NOT NULL CONSTRAINT cut_undone CHECK (undone IN (0, 1))
) STRICT;
CREATE INDEX cut_of_reservation ON cut (reservation);

CREATE TABLE cut_part (
    cut           TEXT NOT NULL REFERENCES cut (id),
    number        INTEGER NOT NULL,
    piece         TEXT NOT NULL REFERENCES piece (id),
    line          INTEGER NOT NULL,
    taken         INTEGER NOT NULL CONSTRAINT cut_part_taken CHECK (taken > 0),
    spoiled       INTEGER NOT NULL CONSTRAINT cut_part_spoiled CHECK (spoiled >= 0),
    kept          INTEGER NOT NULL CONSTRAINT cut_part_kept CHECK (kept >= 0),
    shapes        INTEGER NOT NULL CONSTRAINT cut_part_shapes CHECK (shapes >= 0),
    served        INTEGER NOT NULL CONSTRAINT cut_part_served CHECK (served >= 0),
    flaws_before  TEXT NOT NULL,
    remnants      TEXT NOT NULL,
    PRIMARY KEY (cut, number),
    CONSTRAINT cut_part_within_taken CHECK (spoiled + kept <= taken)
) STRICT, WITHOUT ROWID;
CREATE INDEX cut_part_of_piece ON cut_part (piece);

-- Orders at suppliers: "order" is a word of SQL.
CREATE TABLE purchase (
    id           TEXT NOT NULL PRIMARY KEY,
    supplier     TEXT NOT NULL,
    state        TEXT NOT NULL CONSTRAINT purchase_state CHECK (state IN ('open', 'filled', 'cancelled')),
    at           INTEGER NOT NULL,
    expected_day INTEGER NOT NULL,
    note         TEXT NOT NULL
) STRICT;

CREATE TABLE purchase_line (
    purchase TEXT NOT NULL REFERENCES purchase (id),
    number   INTEGER NOT NULL,
    class    TEXT NOT NULL CONSTRAINT purchase_line_class CHECK (class IN ('cloth', 'binding', 'sundry')),
    code     TEXT NOT NULL,
    ordered  INTEGER NOT NULL CONSTRAINT purchase_line_ordered CHECK (ordered > 0),
    received INTEGER NOT NULL CONSTRAINT purchase_line_received CHECK (received >= 0),
    PRIMARY KEY (purchase, number)
) STRICT, WITHOUT ROWID;

-- Append-only: triggers refuse anything else. `place` numbers the movements of one piece from 1, in
-- the order in which they were written, whatever the clock said.
CREATE TABLE movement (
    change       BLOB NOT NULL,
    number       INTEGER NOT NULL,
    at           INTEGER NOT NULL,
    day          INTEGER NOT NULL,
    actor        TEXT NOT NULL,
    kind         TEXT NOT NULL,
    piece        TEXT NOT NULL REFERENCES piece (id),
    place        INTEGER NOT NULL CONSTRAINT movement_place CHECK (place > 0),
    from_account TEXT NOT NULL,
    to_account   TEXT NOT NULL,
    amount       INTEGER NOT NULL CONSTRAINT movement_amount CHECK (amount > 0),
    reservation  TEXT,
    cut          TEXT,
    reason       TEXT NOT NULL,
    note         TEXT NOT NULL,
    PRIMARY KEY (change, number),
    CONSTRAINT movement_goes_somewhere CHECK (from_account <> to_account)
) STRICT, WITHOUT ROWID;
CREATE UNIQUE INDEX movement_of_piece ON movement (piece, place);
CREATE INDEX movement_of_reservation ON movement (reservation) WHERE reservation IS NOT NULL;
CREATE TRIGGER movement_stays BEFORE UPDATE ON movement
BEGIN SELECT RAISE(ABORT, 'movements are never changed'); END;
CREATE TRIGGER movement_remains BEFORE DELETE ON movement
BEGIN SELECT RAISE(ABORT, 'movements are never deleted'); END;

-- What happened. There is one writer at a time, so an event is given its place where it is written,
-- and whoever reads on from a place misses none.
CREATE TABLE event (
    place       INTEGER NOT NULL PRIMARY KEY,
    change      BLOB NOT NULL,
    number      INTEGER NOT NULL,
    at          INTEGER NOT NULL,
    actor       TEXT NOT NULL,
    kind        TEXT NOT NULL,
    reservation TEXT,
    piece       TEXT,
    purchase    TEXT,
    amount      INTEGER NOT NULL,
    note        TEXT NOT NULL,
    CONSTRAINT event_once UNIQUE (change, number)
) STRICT;
CREATE INDEX event_of_reservation ON event (reservation) WHERE reservation IS NOT NULL;

-- The answer to a request, written in the transaction that did what it asked.
CREATE TABLE request (
    scope  TEXT NOT NULL,
    key    TEXT NOT NULL,
    body   BLOB NOT NULL,
    at     INTEGER NOT NULL,
    answer BLOB NOT NULL,
    PRIMARY KEY (scope, key)
) STRICT, WITHOUT ROWID;
CREATE INDEX request_at ON request (at);
