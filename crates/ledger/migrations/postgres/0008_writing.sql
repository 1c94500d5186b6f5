-- What was written first comes first, whatever the database's clock said: movements of a piece, cuts for a
-- reservation, and events that have no place yet. What is there already keeps the order that it was read in.

ALTER TABLE movement ADD COLUMN turn BIGINT NOT NULL DEFAULT 0;
ALTER TABLE cut ADD COLUMN turn BIGINT NOT NULL DEFAULT 0;
ALTER TABLE event ADD COLUMN turn BIGINT NOT NULL DEFAULT 0;

DROP INDEX movement_of_piece;
CREATE INDEX movement_of_piece ON movement (piece, turn);
DROP INDEX event_without_place;
CREATE INDEX event_without_place ON event (turn, at) WHERE place IS NULL;
