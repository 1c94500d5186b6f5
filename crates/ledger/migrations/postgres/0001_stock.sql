-- The first stock: pieces and their balances, reservations, cuts, orders, movements, events,
-- and the answers to requests. Amounts are whole micrometres or single things, instants
-- microseconds from 1970, days numbered from 1970.

CREATE TABLE piece (
    id                 TEXT NOT NULL PRIMARY KEY,
    kind               TEXT NOT NULL CONSTRAINT piece_kind CHECK (kind IN ('bolt', 'remnant', 'roll', 'box')),
    class              TEXT NOT NULL CONSTRAINT piece_class CHECK (class IN ('cloth', 'binding', 'sundry')),
    code               TEXT NOT NULL,
    lot                TEXT NOT NULL,
    width              BIGINT NOT NULL CONSTRAINT piece_width CHECK (width >= 0),
    received           BIGINT NOT NULL CONSTRAINT piece_received CHECK (received > 0),
    left_over          BIGINT NOT NULL,
    held               BIGINT NOT NULL,
    confirmed          BIGINT NOT NULL,
    flaws              TEXT NOT NULL,
    parent             TEXT,
    cut                TEXT,
    location           TEXT NOT NULL,
    cost_minor         BIGINT,
    supplier           TEXT NOT NULL,
    supplier_reference TEXT NOT NULL,
    certificates       TEXT NOT NULL,
    purchase           TEXT,
    at                 BIGINT NOT NULL,
    CONSTRAINT piece_left_not_below_nought CHECK (left_over >= 0),
    CONSTRAINT piece_held_not_below_nought CHECK (held >= 0),
    CONSTRAINT piece_confirmed_not_below_nought CHECK (confirmed >= 0),
    CONSTRAINT piece_promised_within_left CHECK (held + confirmed <= left_over)
);
CREATE INDEX piece_by_material ON piece (class, code) WHERE left_over > 0;

CREATE TABLE reservation (
    id                  TEXT NOT NULL PRIMARY KEY,
    state               TEXT NOT NULL CONSTRAINT reservation_state CHECK (state IN
        ('held', 'confirmed', 'cut', 'released', 'expired', 'cancelled', 'superseded')),
    holder              TEXT NOT NULL,
    created             BIGINT NOT NULL,
    expires             BIGINT NOT NULL,
    confirmed           BIGINT,
    quote               TEXT NOT NULL,
    order_reference     TEXT NOT NULL,
    bench_milli_minutes BIGINT NOT NULL CONSTRAINT reservation_bench CHECK (bench_milli_minutes >= 0),
    leave_day           BIGINT,
    sold                BYTEA NOT NULL,
    supersedes          TEXT,
    superseded_by       TEXT,
    reason              TEXT NOT NULL
);
CREATE INDEX reservation_held ON reservation (expires) WHERE state = 'held';
CREATE INDEX reservation_of_holder ON reservation (holder, expires) WHERE state = 'held';
CREATE INDEX reservation_confirmed ON reservation (leave_day) WHERE state IN ('confirmed', 'cut');
CREATE INDEX reservation_created ON reservation (created, id);

CREATE TABLE line (
    reservation TEXT NOT NULL REFERENCES reservation (id),
    number      BIGINT NOT NULL CONSTRAINT line_number CHECK (number > 0),
    piece       TEXT NOT NULL REFERENCES piece (id),
    item        BIGINT NOT NULL,
    planned     BIGINT NOT NULL CONSTRAINT line_planned CHECK (planned > 0),
    wanted      BIGINT NOT NULL CONSTRAINT line_wanted CHECK (wanted >= 0),
    granted     BIGINT NOT NULL,
    used        BIGINT NOT NULL CONSTRAINT line_used CHECK (used >= 0),
    spoiled     BIGINT NOT NULL CONSTRAINT line_spoiled CHECK (spoiled >= 0),
    shapes      BIGINT NOT NULL CONSTRAINT line_shapes CHECK (shapes >= 0),
    shapes_cut  BIGINT NOT NULL CONSTRAINT line_shapes_cut CHECK (shapes_cut >= 0),
    PRIMARY KEY (reservation, number),
    CONSTRAINT line_granted_within_wanted CHECK (granted >= 0 AND granted <= wanted)
);
CREATE INDEX line_live_on_piece ON line (piece) WHERE wanted > 0;

CREATE TABLE cut (
    id          TEXT NOT NULL PRIMARY KEY,
    reservation TEXT NOT NULL REFERENCES reservation (id),
    at          BIGINT NOT NULL,
    undone      BIGINT NOT NULL CONSTRAINT cut_undone CHECK (undone IN (0, 1))
);
CREATE INDEX cut_of_reservation ON cut (reservation);

CREATE TABLE cut_part (
    cut           TEXT NOT NULL REFERENCES cut (id),
    number        BIGINT NOT NULL,
    piece         TEXT NOT NULL REFERENCES piece (id),
    line          BIGINT NOT NULL,
    taken         BIGINT NOT NULL CONSTRAINT cut_part_taken CHECK (taken > 0),
    spoiled       BIGINT NOT NULL CONSTRAINT cut_part_spoiled CHECK (spoiled >= 0),
    kept          BIGINT NOT NULL CONSTRAINT cut_part_kept CHECK (kept >= 0),
    shapes        BIGINT NOT NULL CONSTRAINT cut_part_shapes CHECK (shapes >= 0),
    served        BIGINT NOT NULL CONSTRAINT cut_part_served CHECK (served >= 0),
    flaws_before  TEXT NOT NULL,
    remnants      TEXT NOT NULL,
    PRIMARY KEY (cut, number),
    CONSTRAINT cut_part_within_taken CHECK (spoiled + kept <= taken)
);
CREATE INDEX cut_part_of_piece ON cut_part (piece);

-- Orders at suppliers: "order" is a word of SQL.
CREATE TABLE purchase (
    id           TEXT NOT NULL PRIMARY KEY,
    supplier     TEXT NOT NULL,
    state        TEXT NOT NULL CONSTRAINT purchase_state CHECK (state IN ('open', 'filled', 'cancelled')),
    at           BIGINT NOT NULL,
    expected_day BIGINT NOT NULL,
    note         TEXT NOT NULL
);

CREATE TABLE purchase_line (
    purchase TEXT NOT NULL REFERENCES purchase (id),
    number   BIGINT NOT NULL,
    class    TEXT NOT NULL CONSTRAINT purchase_line_class CHECK (class IN ('cloth', 'binding', 'sundry')),
    code     TEXT NOT NULL,
    ordered  BIGINT NOT NULL CONSTRAINT purchase_line_ordered CHECK (ordered > 0),
    received BIGINT NOT NULL CONSTRAINT purchase_line_received CHECK (received >= 0),
    PRIMARY KEY (purchase, number)
);

-- Append-only: this program has no statement that changes or deletes one.
CREATE TABLE movement (
    change       BYTEA NOT NULL,
    number       BIGINT NOT NULL,
    at           BIGINT NOT NULL,
    day          BIGINT NOT NULL,
    actor        TEXT NOT NULL,
    kind         TEXT NOT NULL,
    piece        TEXT NOT NULL REFERENCES piece (id),
    from_account TEXT NOT NULL,
    to_account   TEXT NOT NULL,
    amount       BIGINT NOT NULL CONSTRAINT movement_amount CHECK (amount > 0),
    reservation  TEXT,
    cut          TEXT,
    reason       TEXT NOT NULL,
    note         TEXT NOT NULL,
    PRIMARY KEY (change, number),
    CONSTRAINT movement_goes_somewhere CHECK (from_account <> to_account)
);
CREATE INDEX movement_of_piece ON movement (piece, at);

-- What happened. An event is given its place once it is committed, so that places are in
-- the order in which they can be read; whoever reads on from a place misses none.
CREATE TABLE event (
    change      BYTEA NOT NULL,
    number      BIGINT NOT NULL,
    place       BIGINT,
    at          BIGINT NOT NULL,
    actor       TEXT NOT NULL,
    kind        TEXT NOT NULL,
    reservation TEXT,
    piece       TEXT,
    purchase    TEXT,
    amount      BIGINT NOT NULL,
    note        TEXT NOT NULL,
    PRIMARY KEY (change, number)
);
CREATE UNIQUE INDEX event_place ON event (place) WHERE place IS NOT NULL;
CREATE INDEX event_without_place ON event (at) WHERE place IS NULL;

-- One row a holder of holds, locked while theirs are counted.
CREATE TABLE holder (
    name TEXT NOT NULL PRIMARY KEY
);

-- The one row that is locked while places are given to events.
CREATE TABLE event_places (
    only_one BIGINT NOT NULL PRIMARY KEY CONSTRAINT event_places_one_row CHECK (only_one = 1),
    last     BIGINT NOT NULL
);
INSERT INTO event_places (only_one, last) VALUES (1, 0);

-- The answer to a request, written in the transaction that did what it asked.
CREATE TABLE request (
    scope  TEXT NOT NULL,
    key    TEXT NOT NULL,
    body   BYTEA NOT NULL,
    at     BIGINT NOT NULL,
    answer BYTEA NOT NULL,
    PRIMARY KEY (scope, key)
);
CREATE INDEX request_at ON request (at);
