-- By which catalogue a run is worked out, so that none is gone on with by another; and the report
-- that was done, laid aside for as long as it is made anew.

ALTER TABLE report ADD COLUMN revision TEXT NOT NULL DEFAULT '';

CREATE TABLE report_earlier (
    day      INTEGER NOT NULL PRIMARY KEY REFERENCES report (day),
    started  INTEGER NOT NULL,
    finished INTEGER NOT NULL,
    body     BLOB NOT NULL
) STRICT;
