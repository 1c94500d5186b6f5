-- By which catalogue a run is worked out, so that none is gone on with by another; and the report
-- that was done, laid aside for as long as it is made anew.

ALTER TABLE report ADD COLUMN revision TEXT NOT NULL DEFAULT '';

CREATE TABLE report_earlier (
    day      BIGINT NOT NULL PRIMARY KEY REFERENCES report (day),
    started  BIGINT NOT NULL,
    finished BIGINT NOT NULL,
    body     BYTEA NOT NULL
);
