//! Rows read back into the rules' types.

use pennantry_measure::Length;
use rusqlite::{Connection, OptionalExtension, Row};

use super::pack::{material, maybe_name, name, read_flaws, read_texts, word};
use crate::rules::{
    Account, Amount, At, ChangeId, CutId, CutPart, CutRow, Event, EventKind, Line, Movement, MovementKind,
    Order, OrderId, OrderLine, OrderState, Piece, PieceId, PieceKind, Reason, Reservation, ReservationId,
    State,
};

/// Selects pieces as [`piece`] reads them.
macro_rules! select_piece {
    ($rest:literal) => {
        concat!(
            "SELECT id, kind, class, code, lot, width, received, left_over, held, confirmed, flaws, parent, \
             cut, location, cost_minor, supplier, supplier_reference, certificates, purchase, at FROM piece ",
            $rest
        )
    };
}

/// Selects reservations as [`head`] reads them.
macro_rules! select_reservation {
    ($rest:literal) => {
        concat!(
            "SELECT id, state, holder, created, expires, confirmed, quote, order_reference, \
             bench_milli_minutes, leave_day, sold, supersedes, superseded_by, reason FROM reservation ",
            $rest
        )
    };
}

/// Selects lines as [`line`] reads them, their reservation first.
macro_rules! select_line {
    ($rest:literal) => {
        concat!(
            "SELECT reservation, number, piece, item, planned, wanted, granted, used, spoiled, shapes, \
             shapes_cut, shape_area, past FROM line ",
            $rest
        )
    };
}

/// Selects cuts as [`cut_head`] reads them.
macro_rules! select_cut {
    ($rest:literal) => {
        concat!("SELECT id, reservation, at, undone, day FROM cut ", $rest)
    };
}

/// Selects orders as [`order_head`] reads them.
macro_rules! select_order {
    ($rest:literal) => {
        concat!("SELECT id, supplier, state, at, expected_day, note FROM purchase ", $rest)
    };
}

/// Selects movements as [`movement`] reads them.
macro_rules! select_movement {
    ($rest:literal) => {
        concat!(
            "SELECT change, number, at, day, actor, kind, piece, from_account, to_account, amount, \
             reservation, cut, reason, note, late FROM movement ",
            $rest
        )
    };
}

/// Selects events as [`event`] reads them, their place last.
macro_rules! select_event {
    ($rest:literal) => {
        concat!(
            "SELECT change, number, at, actor, kind, reservation, piece, purchase, amount, note, place \
             FROM event ",
            $rest
        )
    };
}

pub(super) use {select_event, select_movement, select_order, select_piece, select_reservation};

fn amount(row: &Row<'_>, column: usize) -> rusqlite::Result<Amount> {
    row.get(column).map(Amount)
}

fn at(row: &Row<'_>, column: usize) -> rusqlite::Result<At> {
    row.get(column).map(At)
}

/// A piece.
pub(super) fn piece(row: &Row<'_>) -> rusqlite::Result<Piece> {
    Ok(Piece {
        id: name(row, 0, PieceId)?,
        kind: word(row, 1, PieceKind::read)?,
        material: material(row, 2)?,
        lot: row.get(4)?,
        width: Length::from_um(row.get(5)?),
        received: amount(row, 6)?,
        left: amount(row, 7)?,
        held: amount(row, 8)?,
        confirmed: amount(row, 9)?,
        flaws: word(row, 10, read_flaws)?,
        parent: maybe_name(row, 11, PieceId)?,
        cut: maybe_name(row, 12, CutId)?,
        location: row.get(13)?,
        cost_minor: row.get(14)?,
        supplier: row.get(15)?,
        supplier_reference: row.get(16)?,
        certificates: word(row, 17, read_texts)?,
        order: maybe_name(row, 18, OrderId)?,
        at: at(row, 19)?,
    })
}

/// A reservation without its lines.
pub(super) fn head(row: &Row<'_>) -> rusqlite::Result<Reservation> {
    Ok(Reservation {
        id: name(row, 0, ReservationId)?,
        state: word(row, 1, State::read)?,
        holder: row.get(2)?,
        created: at(row, 3)?,
        expires: at(row, 4)?,
        confirmed: row.get::<_, Option<i64>>(5)?.map(At),
        quote: row.get(6)?,
        order_reference: row.get(7)?,
        bench_milli_minutes: row.get(8)?,
        leave_day: row.get(9)?,
        sold: row.get(10)?,
        supersedes: maybe_name(row, 11, ReservationId)?,
        superseded_by: maybe_name(row, 12, ReservationId)?,
        reason: row.get(13)?,
        lines: Vec::new(),
    })
}

/// A line.
pub(super) fn line(row: &Row<'_>) -> rusqlite::Result<Line> {
    Ok(Line {
        number: row.get(1)?,
        piece: name(row, 2, PieceId)?,
        item: row.get(3)?,
        planned: amount(row, 4)?,
        wanted: amount(row, 5)?,
        granted: amount(row, 6)?,
        used: amount(row, 7)?,
        spoiled: amount(row, 8)?,
        shapes: row.get(9)?,
        shapes_cut: row.get(10)?,
        shape_area: row.get(11)?,
        past: row.get(12)?,
    })
}

/// A movement.
pub(super) fn movement(row: &Row<'_>) -> rusqlite::Result<Movement> {
    Ok(Movement {
        change: ChangeId(row.get(0)?),
        number: row.get(1)?,
        at: at(row, 2)?,
        day: row.get(3)?,
        late: row.get(14)?,
        actor: row.get(4)?,
        kind: word(row, 5, MovementKind::read)?,
        piece: name(row, 6, PieceId)?,
        from: word(row, 7, Account::read)?,
        to: word(row, 8, Account::read)?,
        amount: amount(row, 9)?,
        reservation: maybe_name(row, 10, ReservationId)?,
        cut: maybe_name(row, 11, CutId)?,
        reason: word(row, 12, Reason::read)?,
        note: row.get(13)?,
    })
}

/// An event.
pub(super) fn event(row: &Row<'_>) -> rusqlite::Result<Event> {
    Ok(Event {
        change: ChangeId(row.get(0)?),
        number: row.get(1)?,
        at: at(row, 2)?,
        actor: row.get(3)?,
        kind: word(row, 4, EventKind::read)?,
        reservation: maybe_name(row, 5, ReservationId)?,
        piece: maybe_name(row, 6, PieceId)?,
        order: maybe_name(row, 7, OrderId)?,
        amount: amount(row, 8)?,
        note: row.get(9)?,
    })
}

/// A piece by its name.
pub(super) fn find_piece(connection: &Connection, id: &PieceId) -> rusqlite::Result<Option<Piece>> {
    connection.prepare_cached(select_piece!("WHERE id = ?1"))?.query_row([id.as_str()], piece).optional()
}

/// A reservation by its name, with its lines.
pub(super) fn find_reservation(
    connection: &Connection,
    id: &ReservationId,
) -> rusqlite::Result<Option<Reservation>> {
    let found = connection
        .prepare_cached(select_reservation!("WHERE id = ?1"))?
        .query_row([id.as_str()], head)
        .optional()?;
    found.map(|head| with_lines(connection, head)).transpose()
}

/// A reservation's head with its lines.
pub(super) fn with_lines(connection: &Connection, mut head: Reservation) -> rusqlite::Result<Reservation> {
    let mut statement = connection.prepare_cached(select_line!("WHERE reservation = ?1 ORDER BY number"))?;
    head.lines = statement.query_map([head.id.as_str()], line)?.collect::<rusqlite::Result<_>>()?;
    Ok(head)
}

/// Reservations with a live line on a piece, in the order of their names, with all their lines.
pub(super) fn on_piece(connection: &Connection, id: &PieceId) -> rusqlite::Result<Vec<Reservation>> {
    let mut heads = connection.prepare_cached(select_reservation!(
        "WHERE id IN (SELECT reservation FROM line WHERE piece = ?1 AND wanted > 0) ORDER BY id"
    ))?;
    let mut found: Vec<Reservation> =
        heads.query_map([id.as_str()], head)?.collect::<rusqlite::Result<_>>()?;
    if found.is_empty() {
        return Ok(found);
    }
    let mut lines = connection.prepare_cached(select_line!(
        "WHERE reservation IN (SELECT reservation FROM line WHERE piece = ?1 AND wanted > 0)
         ORDER BY reservation, number"
    ))?;
    let mut rows = lines.query([id.as_str()])?;
    let mut into = found.iter_mut().peekable();
    while let Some(row) = rows.next()? {
        let of = row.get_ref(0)?.as_str()?;
        while into.next_if(|reservation| reservation.id.as_str() != of).is_some() {}
        if let Some(reservation) = into.peek_mut() {
            reservation.lines.push(line(row)?);
        }
    }
    Ok(found)
}

fn cut_head(row: &Row<'_>) -> rusqlite::Result<CutRow> {
    Ok(CutRow {
        id: name(row, 0, CutId)?,
        reservation: name(row, 1, ReservationId)?,
        at: at(row, 2)?,
        day: row.get(4)?,
        undone: row.get(3)?,
        parts: Vec::new(),
    })
}

fn cut_part(row: &Row<'_>) -> rusqlite::Result<CutPart> {
    Ok(CutPart {
        piece: name(row, 0, PieceId)?,
        line: row.get(1)?,
        taken: amount(row, 2)?,
        spoiled: amount(row, 3)?,
        why: word(row, 9, Reason::read)?,
        kept: amount(row, 4)?,
        shapes: row.get(5)?,
        served: amount(row, 6)?,
        flaws_before: word(row, 7, read_flaws)?,
        remnants: word(row, 8, read_texts)?.into_iter().map(PieceId).collect(),
    })
}

fn with_parts(connection: &Connection, mut cut: CutRow) -> rusqlite::Result<CutRow> {
    let mut statement = connection.prepare_cached(
        "SELECT piece, line, taken, spoiled, kept, shapes, served, flaws_before, remnants, why
         FROM cut_part WHERE cut = ?1 ORDER BY number",
    )?;
    cut.parts = statement.query_map([cut.id.as_str()], cut_part)?.collect::<rusqlite::Result<_>>()?;
    Ok(cut)
}

/// A cut by its name, with its parts.
pub(super) fn find_cut(connection: &Connection, id: &CutId) -> rusqlite::Result<Option<CutRow>> {
    let found = connection
        .prepare_cached(select_cut!("WHERE id = ?1"))?
        .query_row([id.as_str()], cut_head)
        .optional()?;
    found.map(|cut| with_parts(connection, cut)).transpose()
}

/// Cuts for a reservation, in the order in which they were recorded.
pub(super) fn cuts_for(connection: &Connection, id: &ReservationId) -> rusqlite::Result<Vec<CutRow>> {
    let mut statement = connection.prepare_cached(select_cut!("WHERE reservation = ?1 ORDER BY rowid"))?;
    let heads: Vec<CutRow> =
        statement.query_map([id.as_str()], cut_head)?.collect::<rusqlite::Result<_>>()?;
    heads.into_iter().map(|cut| with_parts(connection, cut)).collect()
}

/// An order without its lines.
pub(super) fn order_head(row: &Row<'_>) -> rusqlite::Result<Order> {
    Ok(Order {
        id: name(row, 0, OrderId)?,
        supplier: row.get(1)?,
        state: word(row, 2, OrderState::read)?,
        at: at(row, 3)?,
        expected_day: row.get(4)?,
        note: row.get(5)?,
        lines: Vec::new(),
    })
}

fn order_line(row: &Row<'_>) -> rusqlite::Result<OrderLine> {
    Ok(OrderLine {
        number: row.get(0)?,
        material: material(row, 1)?,
        ordered: amount(row, 3)?,
        received: amount(row, 4)?,
    })
}

/// An order's head with its lines.
pub(super) fn with_order_lines(connection: &Connection, mut order: Order) -> rusqlite::Result<Order> {
    let mut statement = connection.prepare_cached(
        "SELECT number, class, code, ordered, received FROM purchase_line WHERE purchase = ?1 ORDER BY number",
    )?;
    order.lines = statement.query_map([order.id.as_str()], order_line)?.collect::<rusqlite::Result<_>>()?;
    Ok(order)
}

/// An order by its name, with its lines.
pub(super) fn find_order(connection: &Connection, id: &OrderId) -> rusqlite::Result<Option<Order>> {
    let found = connection
        .prepare_cached(select_order!("WHERE id = ?1"))?
        .query_row([id.as_str()], order_head)
        .optional()?;
    found.map(|order| with_order_lines(connection, order)).transpose()
}
