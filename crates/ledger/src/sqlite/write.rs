//! What is written when a command is carried out, one row after the other.

use rusqlite::{Connection, ToSql};

use super::{days, pack};
use crate::rules::{
    Amount, Change, CutId, CutRow, Event, Flaw, Line, Movement, Order, OrderId, OrderState, Piece, PieceId,
    Reservation, ReservationId, State,
};

/// Writes a change. `place` is that of the last event.
///
/// # Errors
/// The statement fails, or the row is not as it was read
/// ([`rusqlite::Error::StatementChangedRows`] with nought): a fault of the program, since
/// nobody else writes in the transaction.
pub(super) fn write(connection: &Connection, change: &Change, place: &mut i64) -> rusqlite::Result<()> {
    match change {
        Change::AddPiece(piece) => add_piece(connection, piece),
        Change::Balance { piece, was, is } => balance(connection, piece, was, is),
        Change::Flaws { piece, flaws } => set_flaws(connection, piece, flaws),
        Change::Location { piece, location } => {
            one(connection, "UPDATE piece SET location = ?2 WHERE id = ?1", &[&piece.as_str(), location])
        }
        Change::AddReservation(reservation) => {
            head(connection, reservation, None)?;
            reservation.lines.iter().try_for_each(|line| add_line(connection, &reservation.id, line))
        }
        Change::Head { id: _, was, is } => head(connection, is, Some(*was)),
        Change::AddLine { reservation, line } => add_line(connection, reservation, line),
        Change::SetLine { reservation, line } => set_line(connection, reservation, line),
        Change::AddCut(cut) => add_cut(connection, cut),
        Change::CutUndone(id) => undone(connection, id),
        Change::AddOrder(order) => add_order(connection, order),
        Change::OrderState { id, state, note } => order_state(connection, id, *state, note),
        Change::OrderReceived { id, line, received } => received_of(connection, id, *line, *received),
        Change::Move(movement) => add_movement(connection, movement),
        Change::Roll(roll) => days::add(connection, roll),
        Change::Tell(event) => {
            *place += 1;
            add_event(connection, event, *place)
        }
    }
}

/// A statement that must write one row.
fn one(connection: &Connection, sql: &str, values: &[&dyn ToSql]) -> rusqlite::Result<()> {
    match connection.prepare_cached(sql)?.execute(values)? {
        1 => Ok(()),
        rows => Err(rusqlite::Error::StatementChangedRows(rows)),
    }
}

fn add_piece(connection: &Connection, piece: &Piece) -> rusqlite::Result<()> {
    one(
        connection,
        "INSERT INTO piece (id, kind, class, code, lot, width, received, left_over, held, confirmed, flaws, \
         parent, cut, location, cost_minor, supplier, supplier_reference, certificates, purchase, at) \
         VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12, ?13, ?14, ?15, ?16, ?17, ?18, ?19, ?20)",
        &[
            &piece.id.as_str(),
            &piece.kind.as_str(),
            &piece.material.class.as_str(),
            &piece.material.code,
            &piece.lot,
            &piece.width.um(),
            &piece.received.0,
            &piece.left.0,
            &piece.held.0,
            &piece.confirmed.0,
            &pack::flaws(&piece.flaws),
            &piece.parent.as_ref().map(PieceId::as_str),
            &piece.cut.as_ref().map(CutId::as_str),
            &piece.location,
            &piece.cost_minor,
            &piece.supplier,
            &piece.supplier_reference,
            &pack::texts(piece.certificates.iter().map(String::as_str)),
            &piece.order.as_ref().map(OrderId::as_str),
            &piece.at.0,
        ],
    )
}

fn balance(
    connection: &Connection,
    piece: &PieceId,
    was: &[Amount; 3],
    is: &[Amount; 3],
) -> rusqlite::Result<()> {
    let [left, held, confirmed] = is;
    let [was_left, was_held, was_confirmed] = was;
    one(
        connection,
        "UPDATE piece SET left_over = ?2, held = ?3, confirmed = ?4 \
         WHERE id = ?1 AND left_over = ?5 AND held = ?6 AND confirmed = ?7",
        &[&piece.as_str(), &left.0, &held.0, &confirmed.0, &was_left.0, &was_held.0, &was_confirmed.0],
    )
}

fn set_flaws(connection: &Connection, piece: &PieceId, flaws: &[Flaw]) -> rusqlite::Result<()> {
    one(connection, "UPDATE piece SET flaws = ?2 WHERE id = ?1", &[&piece.as_str(), &pack::flaws(flaws)])
}

const ADD_HEAD: &str = "INSERT INTO reservation (id, state, holder, created, expires, confirmed, quote, order_reference, \
     bench_milli_minutes, leave_day, sold, supersedes, superseded_by, reason) \
     VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12, ?13, ?14)";

const SET_HEAD: &str = "UPDATE reservation SET state = ?2, holder = ?3, created = ?4, expires = ?5, confirmed = ?6, quote = ?7, \
     order_reference = ?8, bench_milli_minutes = ?9, leave_day = ?10, sold = ?11, supersedes = ?12, \
     superseded_by = ?13, reason = ?14 WHERE id = ?1 AND state = ?15";

/// Writes a head anew, or over one that still is in the state it was read in.
fn head(connection: &Connection, reservation: &Reservation, was: Option<State>) -> rusqlite::Result<()> {
    let confirmed = reservation.confirmed.map(|at| at.0);
    let supersedes = reservation.supersedes.as_ref().map(ReservationId::as_str);
    let superseded_by = reservation.superseded_by.as_ref().map(ReservationId::as_str);
    let was = was.map(State::as_str);
    let values: [&dyn ToSql; 14] = [
        &reservation.id.as_str(),
        &reservation.state.as_str(),
        &reservation.holder,
        &reservation.created.0,
        &reservation.expires.0,
        &confirmed,
        &reservation.quote,
        &reservation.order_reference,
        &reservation.bench_milli_minutes,
        &reservation.leave_day,
        &reservation.sold,
        &supersedes,
        &superseded_by,
        &reservation.reason,
    ];
    match &was {
        None => one(connection, ADD_HEAD, &values),
        Some(was) => {
            let mut values = values.to_vec();
            values.push(was);
            one(connection, SET_HEAD, &values)
        }
    }
}

fn add_line(connection: &Connection, reservation: &ReservationId, line: &Line) -> rusqlite::Result<()> {
    one(
        connection,
        "INSERT INTO line (reservation, number, piece, item, planned, wanted, granted, used, spoiled, shapes, \
         shapes_cut, shape_area, past) VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12, ?13)",
        &[
            &reservation.as_str(),
            &line.number,
            &line.piece.as_str(),
            &line.item,
            &line.planned.0,
            &line.wanted.0,
            &line.granted.0,
            &line.used.0,
            &line.spoiled.0,
            &line.shapes,
            &line.shapes_cut,
            &line.shape_area,
            &line.past,
        ],
    )
}

fn set_line(connection: &Connection, reservation: &ReservationId, line: &Line) -> rusqlite::Result<()> {
    one(
        connection,
        "UPDATE line SET piece = ?3, item = ?4, planned = ?5, wanted = ?6, granted = ?7, used = ?8, \
         spoiled = ?9, shapes = ?10, shapes_cut = ?11, shape_area = ?12, past = ?13 \
         WHERE reservation = ?1 AND number = ?2",
        &[
            &reservation.as_str(),
            &line.number,
            &line.piece.as_str(),
            &line.item,
            &line.planned.0,
            &line.wanted.0,
            &line.granted.0,
            &line.used.0,
            &line.spoiled.0,
            &line.shapes,
            &line.shapes_cut,
            &line.shape_area,
            &line.past,
        ],
    )
}

fn add_cut(connection: &Connection, cut: &CutRow) -> rusqlite::Result<()> {
    one(
        connection,
        "INSERT INTO cut (id, reservation, at, undone, day) VALUES (?1, ?2, ?3, ?4, ?5)",
        &[&cut.id.as_str(), &cut.reservation.as_str(), &cut.at.0, &cut.undone, &cut.day],
    )?;
    for (number, part) in (1_i64..).zip(&cut.parts) {
        one(
            connection,
            "INSERT INTO cut_part (cut, number, piece, line, taken, spoiled, kept, shapes, served, \
             flaws_before, remnants, why, turn) VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12, \
             (SELECT COALESCE(MAX(turn), 0) + 1 FROM cut_part WHERE piece = ?3))",
            &[
                &cut.id.as_str(),
                &number,
                &part.piece.as_str(),
                &part.line,
                &part.taken.0,
                &part.spoiled.0,
                &part.kept.0,
                &part.shapes,
                &part.served.0,
                &pack::flaws(&part.flaws_before),
                &pack::texts(part.remnants.iter().map(PieceId::as_str)),
                &part.why.as_str(),
            ],
        )?;
    }
    Ok(())
}

fn undone(connection: &Connection, id: &CutId) -> rusqlite::Result<()> {
    one(connection, "UPDATE cut SET undone = 1 WHERE id = ?1 AND undone = 0", &[&id.as_str()])
}

fn add_order(connection: &Connection, order: &Order) -> rusqlite::Result<()> {
    one(
        connection,
        "INSERT INTO purchase (id, supplier, state, at, expected_day, note) VALUES (?1, ?2, ?3, ?4, ?5, ?6)",
        &[
            &order.id.as_str(),
            &order.supplier,
            &order.state.as_str(),
            &order.at.0,
            &order.expected_day,
            &order.note,
        ],
    )?;
    for line in &order.lines {
        one(
            connection,
            "INSERT INTO purchase_line (purchase, number, class, code, ordered, received) \
             VALUES (?1, ?2, ?3, ?4, ?5, ?6)",
            &[
                &order.id.as_str(),
                &line.number,
                &line.material.class.as_str(),
                &line.material.code,
                &line.ordered.0,
                &line.received.0,
            ],
        )?;
    }
    Ok(())
}

fn order_state(connection: &Connection, id: &OrderId, state: OrderState, note: &str) -> rusqlite::Result<()> {
    one(
        connection,
        "UPDATE purchase SET state = ?2, note = ?3 WHERE id = ?1",
        &[&id.as_str(), &state.as_str(), &note],
    )
}

fn received_of(connection: &Connection, id: &OrderId, line: u32, received: Amount) -> rusqlite::Result<()> {
    one(
        connection,
        "UPDATE purchase_line SET received = ?3 WHERE purchase = ?1 AND number = ?2",
        &[&id.as_str(), &line, &received.0],
    )
}

fn add_movement(connection: &Connection, movement: &Movement) -> rusqlite::Result<()> {
    one(
        connection,
        "INSERT INTO movement (change, number, at, day, actor, kind, piece, from_account, to_account, amount, \
         reservation, cut, reason, note, late, place) \
         VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12, ?13, ?14, ?15, \
         1 + (SELECT COALESCE(MAX(place), 0) FROM movement WHERE piece = ?7))",
        &[
            &movement.change.0,
            &movement.number,
            &movement.at.0,
            &movement.day,
            &movement.actor,
            &movement.kind.as_str(),
            &movement.piece.as_str(),
            &movement.from.as_str(),
            &movement.to.as_str(),
            &movement.amount.0,
            &movement.reservation.as_ref().map(ReservationId::as_str),
            &movement.cut.as_ref().map(CutId::as_str),
            &movement.reason.as_str(),
            &movement.note,
            &movement.late,
        ],
    )
}

fn add_event(connection: &Connection, event: &Event, place: i64) -> rusqlite::Result<()> {
    one(
        connection,
        "INSERT INTO event (place, change, number, at, actor, kind, reservation, piece, purchase, amount, note) \
         VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11)",
        &[
            &place,
            &event.change.0,
            &event.number,
            &event.at.0,
            &event.actor,
            &event.kind.as_str(),
            &event.reservation.as_ref().map(ReservationId::as_str),
            &event.piece.as_ref().map(PieceId::as_str),
            &event.order.as_ref().map(OrderId::as_str),
            &event.amount.0,
            &event.note,
        ],
    )
}
