-- Looks cost what is there, and not all that ever was: whether a material was ever received, the pieces
-- that are left, live reservations, lines that are short, orders by their instant, and the open ones alone.

CREATE INDEX piece_ever_of_material ON piece (class, code, id COLLATE "C");
CREATE INDEX piece_left ON piece (id COLLATE "C") WHERE left_over > 0;
CREATE INDEX piece_named ON piece (id COLLATE "C");
CREATE INDEX reservation_live ON reservation (created, id COLLATE "C") WHERE state IN ('held', 'confirmed');
CREATE INDEX line_short ON line (reservation) WHERE granted < wanted;
CREATE INDEX purchase_made ON purchase (at, id COLLATE "C");
CREATE INDEX purchase_open ON purchase (at, id COLLATE "C") WHERE state = 'open';
