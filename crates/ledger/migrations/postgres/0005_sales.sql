-- A line of a sale whose place another took: where its cut is taken back, nothing is wanted on it again.

ALTER TABLE line ADD COLUMN past BIGINT NOT NULL DEFAULT 0 CONSTRAINT line_past CHECK (past IN (0, 1));
