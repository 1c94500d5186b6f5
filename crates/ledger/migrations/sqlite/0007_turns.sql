-- Which of the cuts on a piece came first: a clock that is set back, or two cuts of one instant, left
-- that to their names. What is there already keeps the order that it was read in.

ALTER TABLE cut_part ADD COLUMN turn INTEGER NOT NULL DEFAULT 0;

UPDATE cut_part SET turn = (
    SELECT COUNT(*) FROM cut_part AS part
    JOIN cut ON cut.id = part.cut
    JOIN cut AS own ON own.id = cut_part.cut
    WHERE part.piece = cut_part.piece
      AND (cut.at < own.at
           OR (cut.at = own.at AND cut.id < own.id)
           OR (cut.id = own.id AND part.number <= cut_part.number)));
