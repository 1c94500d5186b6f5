-- Looks cost what is there, and not all that ever was: whether a material was ever received, the pieces
-- that are left, orders by their instant, and the open ones alone.

CREATE INDEX piece_ever_of_material ON piece (class, code, id);
CREATE INDEX piece_left ON piece (id) WHERE left_over > 0;
CREATE INDEX purchase_made ON purchase (at, id);
CREATE INDEX purchase_open ON purchase (at, id) WHERE state = 'open';
