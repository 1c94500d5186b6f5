//! Statements about what a command needs to see.

/// Those that are named, and those with a live line on any of these pieces.
macro_rules! concerned {
    () => {
        "ANY(CAST($1 AS text[]) || ARRAY(SELECT reservation FROM line WHERE piece = ANY($2) AND wanted > 0))"
    };
}

pub const ADD_HOLDER: &str = "INSERT INTO holder (name) VALUES ($1) ON CONFLICT DO NOTHING";
pub const LOCK_HOLDER: &str = "SELECT name FROM holder WHERE name = $1 FOR UPDATE";
pub const HOLDS: &str =
    "SELECT count(*) FROM reservation WHERE holder = $1 AND state = 'held' AND expires > $2";
pub const OVERDUE: &str =
    "SELECT id FROM reservation WHERE state = 'held' AND expires <= $1 ORDER BY expires, id LIMIT $2";
pub const PIECES_OF_RESERVATIONS: &str = "SELECT DISTINCT piece FROM line WHERE reservation = ANY($1)";
/// All pieces of overdue holds that stand on any of these.
pub const PIECES_OF_OVERDUE: &str = "SELECT DISTINCT other.piece FROM line AS here \
     JOIN reservation AS hold ON hold.id = here.reservation AND hold.state = 'held' AND hold.expires <= $2 \
     JOIN line AS other ON other.reservation = hold.id \
     WHERE here.piece = ANY($1) AND here.wanted > 0";
pub const LOCK_PIECES: &str =
    concat!("SELECT ", piece!(), " FROM piece WHERE id = ANY($1) ORDER BY id FOR NO KEY UPDATE");
pub const LOCK_RESERVATIONS: &str =
    "SELECT id FROM reservation WHERE id = ANY($1) ORDER BY id FOR NO KEY UPDATE";
pub const RESERVATIONS_CONCERNED: &str =
    concat!("SELECT ", reservation!(), " FROM reservation WHERE id = ", concerned!());
pub const LINES_CONCERNED: &str = concat!(
    "SELECT ",
    line!(),
    " FROM line WHERE reservation = ",
    concerned!(),
    " ORDER BY reservation, number"
);
pub const RESERVATIONS: &str = concat!("SELECT ", reservation!(), " FROM reservation WHERE id = ANY($1)");
pub const LINES: &str =
    concat!("SELECT ", line!(), " FROM line WHERE reservation = ANY($1) ORDER BY reservation, number");
pub const LOCK_CUTS: &str = "SELECT id FROM cut WHERE id = ANY($1) ORDER BY id FOR NO KEY UPDATE";
pub const CUTS: &str = "SELECT id, reservation, at, day, undone FROM cut WHERE id = ANY($1)";
pub const CUT_PARTS: &str = "SELECT cut, piece, line, taken, spoiled, why, kept, shapes, served, flaws_before, \
     remnants FROM cut_part WHERE cut = ANY($1) ORDER BY cut, number";
/// The last cut on each of these pieces that was not taken back, if there is one.
pub const LAST_CUTS: &str = "SELECT named.piece, (SELECT cut.id FROM cut_part \
     JOIN cut ON cut.id = cut_part.cut AND cut.undone = 0 WHERE cut_part.piece = named.piece \
     ORDER BY cut_part.turn DESC LIMIT 1) FROM unnest(CAST($1 AS text[])) AS named (piece)";
pub const LOCK_ORDERS: &str = "SELECT id FROM purchase WHERE id = ANY($1) ORDER BY id FOR NO KEY UPDATE";
pub const ORDERS: &str =
    "SELECT id, supplier, state, at, expected_day, note FROM purchase WHERE id = ANY($1)";
pub const ORDER_LINES: &str = "SELECT purchase, number, class, code, ordered, received FROM purchase_line \
     WHERE purchase = ANY($1) ORDER BY purchase, number";
