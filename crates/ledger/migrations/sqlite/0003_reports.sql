-- Runs of the report: one row a business day, held by whoever runs it for as long as its lease lasts,
-- and what is worked out so far, part by part, so that another one can go on with it. What is in
-- a body is the reports' own affair.

CREATE TABLE report (
    day         INTEGER NOT NULL PRIMARY KEY,
    state       TEXT NOT NULL CONSTRAINT report_state CHECK (state IN ('running', 'done', 'failed', 'cancelled')),
    runner      TEXT NOT NULL,
    lease_until INTEGER NOT NULL,
    started     INTEGER NOT NULL,
    finished    INTEGER,
    done        INTEGER NOT NULL CONSTRAINT report_done CHECK (done >= 0),
    out_of      INTEGER NOT NULL CONSTRAINT report_out_of CHECK (out_of >= 0),
    zone        TEXT NOT NULL,
    note        TEXT NOT NULL,
    body        BLOB NOT NULL,
    CONSTRAINT report_ends_once CHECK ((state = 'running') = (finished IS NULL)),
    CONSTRAINT report_body_once_done CHECK (state = 'done' OR length(body) = 0)
) STRICT;

CREATE TABLE report_part (
    day  INTEGER NOT NULL REFERENCES report (day),
    code TEXT NOT NULL,
    at   INTEGER NOT NULL,
    body BLOB NOT NULL,
    PRIMARY KEY (day, code)
) STRICT, WITHOUT ROWID;
