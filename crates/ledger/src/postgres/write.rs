//! Writes what was decided.

use tokio_postgres::types::ToSql;

use super::failure::Failure;
use super::unit::Unit;
use super::{days, row, sql};
use crate::engine::Error;
use crate::rules::{
    Amount, Change, CutId, CutRow, Event, Line, Movement, Order, OrderId, Piece, PieceId, Reservation,
    ReservationId, RollUp, State,
};

/// Writes changes. New pieces come first, movements, events and what is added to days last, as
/// the rules give them; each of those is one statement, however many there are. Whoever has a row
/// of a day waits for nothing but the next one.
pub(super) async fn write(unit: &Unit, changes: &[Change]) -> Result<(), Failure> {
    let mut pieces: Vec<&Piece> = Vec::new();
    let mut movements: Vec<&Movement> = Vec::new();
    let mut events: Vec<&Event> = Vec::new();
    let mut rolls: Vec<&RollUp> = Vec::new();
    for change in changes {
        match change {
            Change::AddPiece(piece) => pieces.push(piece),
            Change::Move(movement) => movements.push(movement),
            Change::Tell(event) => events.push(event),
            Change::Roll(roll) => rolls.push(roll),
            _ => {}
        }
    }
    add_pieces(unit, &pieces).await?;
    for change in changes {
        write_one(unit, change).await?;
    }
    add_movements(unit, &movements).await?;
    add_events(unit, &events).await?;
    days::add(unit, &rolls).await
}

async fn write_one(unit: &Unit, change: &Change) -> Result<(), Failure> {
    match change {
        Change::AddPiece(_) | Change::Move(_) | Change::Tell(_) | Change::Roll(_) => Ok(()),
        Change::Balance { piece, was, is } => set_balance(unit, piece, *was, *is).await,
        Change::Flaws { piece, flaws } => {
            let written = unit.execute(sql::write::FLAWS, &[&piece.0, &row::keep_flaws(flaws)]).await?;
            one_row(written, "piece", &piece.0)
        }
        Change::Location { piece, location } => {
            let written = unit.execute(sql::write::LOCATION, &[&piece.0, location]).await?;
            one_row(written, "piece", &piece.0)
        }
        Change::AddReservation(reservation) => add_reservation(unit, reservation).await,
        Change::Head { id, was, is } => set_head(unit, id, *was, is).await,
        Change::AddLine { reservation, line } => add_line(unit, reservation, line).await,
        Change::SetLine { reservation, line } => {
            let written =
                unit.execute(sql::write::SET_LINE, &values(&line_values(reservation, line))).await?;
            one_row(written, "line of reservation", &reservation.0)
        }
        Change::AddCut(cut) => add_cut(unit, cut).await,
        Change::CutUndone(cut) => {
            let written = unit.execute(sql::write::CUT_UNDONE, &[&cut.0]).await?;
            as_read(written, "cut", &cut.0)
        }
        Change::AddOrder(order) => add_order(unit, order).await,
        Change::OrderState { id, state, note } => {
            let written = unit.execute(sql::write::ORDER_STATE, &[&id.0, &state.as_str(), note]).await?;
            one_row(written, "order", &id.0)
        }
        Change::OrderReceived { id, line, received } => {
            let written =
                unit.execute(sql::write::ORDER_RECEIVED, &[&id.0, &i64::from(*line), &received.0]).await?;
            one_row(written, "line of order", &id.0)
        }
    }
}

/// A row that was read under its lock is there.
fn one_row(written: u64, what: &str, name: &str) -> Result<(), Failure> {
    if written == 1 {
        return Ok(());
    }
    Err(Failure::Final(Error::Fault(format!(
        "{written} rows were written for the {what} {name:?}, where one is meant"
    ))))
}

/// A row that is written only as it was read.
fn as_read(written: u64, what: &str, name: &str) -> Result<(), Failure> {
    if written == 1 {
        return Ok(());
    }
    Err(Failure::Conflict(format!("the {what} {name:?} is no longer as it was read")))
}

fn values<'a>(owned: &'a [Box<dyn ToSql + Sync + Send + 'a>]) -> Vec<&'a (dyn ToSql + Sync)> {
    owned
        .iter()
        .map(|value| {
            let value: &(dyn ToSql + Sync) = value.as_ref();
            value
        })
        .collect()
}

async fn set_balance(unit: &Unit, piece: &PieceId, was: [Amount; 3], is: [Amount; 3]) -> Result<(), Failure> {
    let [left, held, confirmed] = is;
    let [left_was, held_was, confirmed_was] = was;
    let written = unit
        .execute(
            sql::write::BALANCE,
            &[&piece.0, &left.0, &held.0, &confirmed.0, &left_was.0, &held_was.0, &confirmed_was.0],
        )
        .await?;
    as_read(written, "piece", &piece.0)
}

fn head_values<'a>(reservation: &'a Reservation) -> Vec<Box<dyn ToSql + Sync + Send + 'a>> {
    vec![
        Box::new(&reservation.id.0),
        Box::new(reservation.state.as_str()),
        Box::new(&reservation.holder),
        Box::new(reservation.created.0),
        Box::new(reservation.expires.0),
        Box::new(reservation.confirmed.map(|at| at.0)),
        Box::new(&reservation.quote),
        Box::new(&reservation.order_reference),
        Box::new(reservation.bench_milli_minutes),
        Box::new(reservation.leave_day.map(i64::from)),
        Box::new(&reservation.sold),
        Box::new(reservation.supersedes.as_ref().map(ReservationId::as_str)),
        Box::new(reservation.superseded_by.as_ref().map(ReservationId::as_str)),
        Box::new(&reservation.reason),
    ]
}

async fn add_reservation(unit: &Unit, reservation: &Reservation) -> Result<(), Failure> {
    unit.execute(sql::write::RESERVATION, &values(&head_values(reservation))).await?;
    for line in &reservation.lines {
        add_line(unit, &reservation.id, line).await?;
    }
    Ok(())
}

async fn set_head(unit: &Unit, id: &ReservationId, was: State, is: &Reservation) -> Result<(), Failure> {
    let mut head = head_values(is);
    head.push(Box::new(was.as_str()));
    let written = unit.execute(sql::write::HEAD, &values(&head)).await?;
    as_read(written, "reservation", &id.0)
}

fn line_values<'a>(reservation: &'a ReservationId, line: &'a Line) -> Vec<Box<dyn ToSql + Sync + Send + 'a>> {
    vec![
        Box::new(&reservation.0),
        Box::new(i64::from(line.number)),
        Box::new(&line.piece.0),
        Box::new(i64::from(line.item)),
        Box::new(line.planned.0),
        Box::new(line.wanted.0),
        Box::new(line.granted.0),
        Box::new(line.used.0),
        Box::new(line.spoiled.0),
        Box::new(i64::from(line.shapes)),
        Box::new(i64::from(line.shapes_cut)),
        Box::new(line.shape_area),
        Box::new(i64::from(line.past)),
    ]
}

async fn add_line(unit: &Unit, reservation: &ReservationId, line: &Line) -> Result<(), Failure> {
    unit.execute(sql::write::LINE, &values(&line_values(reservation, line))).await?;
    Ok(())
}

async fn add_cut(unit: &Unit, cut: &CutRow) -> Result<(), Failure> {
    unit.execute(
        sql::write::CUT,
        &[&cut.id.0, &cut.reservation.0, &cut.at.0, &i64::from(cut.undone), &i64::from(cut.day)],
    )
    .await?;
    for (number, part) in (1_i64..).zip(&cut.parts) {
        unit.execute(
            sql::write::CUT_PART,
            &[
                &cut.id.0,
                &number,
                &part.piece.0,
                &i64::from(part.line),
                &part.taken.0,
                &part.spoiled.0,
                &part.kept.0,
                &i64::from(part.shapes),
                &part.served.0,
                &row::keep_flaws(&part.flaws_before),
                &row::keep_list(part.remnants.iter().map(PieceId::as_str)),
                &part.why.as_str(),
            ],
        )
        .await?;
    }
    Ok(())
}

async fn add_order(unit: &Unit, order: &Order) -> Result<(), Failure> {
    let expected = i64::from(order.expected_day);
    unit.execute(
        sql::write::ORDER,
        &[&order.id.0, &order.supplier, &order.state.as_str(), &order.at.0, &expected, &order.note],
    )
    .await?;
    for line in &order.lines {
        unit.execute(
            sql::write::ORDER_LINE,
            &[
                &order.id.0,
                &i64::from(line.number),
                &line.material.class.as_str(),
                &line.material.code,
                &line.ordered.0,
                &line.received.0,
            ],
        )
        .await?;
    }
    Ok(())
}

/// One column of many rows.
fn column<'a, R, T>(rows: &[&'a R], of: impl Fn(&'a R) -> T) -> Vec<T> {
    rows.iter().map(|row| of(row)).collect()
}

async fn add_pieces(unit: &Unit, rows: &[&Piece]) -> Result<(), Failure> {
    if rows.is_empty() {
        return Ok(());
    }
    let certificates = |piece: &Piece| row::keep_list(piece.certificates.iter().map(String::as_str));
    unit.execute(
        sql::write::PIECES,
        &[
            &column(rows, |piece| piece.id.as_str()),
            &column(rows, |piece| piece.kind.as_str()),
            &column(rows, |piece| piece.material.class.as_str()),
            &column(rows, |piece| piece.material.code.as_str()),
            &column(rows, |piece| piece.lot.as_str()),
            &column(rows, |piece| piece.width.um()),
            &column(rows, |piece| piece.received.0),
            &column(rows, |piece| piece.left.0),
            &column(rows, |piece| piece.held.0),
            &column(rows, |piece| piece.confirmed.0),
            &column(rows, |piece| row::keep_flaws(&piece.flaws)),
            &column(rows, |piece| piece.parent.as_ref().map(PieceId::as_str)),
            &column(rows, |piece| piece.cut.as_ref().map(CutId::as_str)),
            &column(rows, |piece| piece.location.as_str()),
            &column(rows, |piece| piece.cost_minor),
            &column(rows, |piece| piece.supplier.as_str()),
            &column(rows, |piece| piece.supplier_reference.as_str()),
            &column(rows, certificates),
            &column(rows, |piece| piece.order.as_ref().map(OrderId::as_str)),
            &column(rows, |piece| piece.at.0),
        ],
    )
    .await?;
    Ok(())
}

async fn add_movements(unit: &Unit, rows: &[&Movement]) -> Result<(), Failure> {
    if rows.is_empty() {
        return Ok(());
    }
    unit.execute(
        sql::write::MOVEMENTS,
        &[
            &column(rows, |movement| movement.change.0.as_slice()),
            &column(rows, |movement| i64::from(movement.number)),
            &column(rows, |movement| movement.at.0),
            &column(rows, |movement| i64::from(movement.day)),
            &column(rows, |movement| i64::from(movement.late)),
            &column(rows, |movement| movement.actor.as_str()),
            &column(rows, |movement| movement.kind.as_str()),
            &column(rows, |movement| movement.piece.as_str()),
            &column(rows, |movement| movement.from.as_str()),
            &column(rows, |movement| movement.to.as_str()),
            &column(rows, |movement| movement.amount.0),
            &column(rows, |movement| movement.reservation.as_ref().map(ReservationId::as_str)),
            &column(rows, |movement| movement.cut.as_ref().map(CutId::as_str)),
            &column(rows, |movement| movement.reason.as_str()),
            &column(rows, |movement| movement.note.as_str()),
        ],
    )
    .await?;
    Ok(())
}

async fn add_events(unit: &Unit, rows: &[&Event]) -> Result<(), Failure> {
    if rows.is_empty() {
        return Ok(());
    }
    unit.execute(
        sql::write::EVENTS,
        &[
            &column(rows, |event| event.change.0.as_slice()),
            &column(rows, |event| i64::from(event.number)),
            &column(rows, |event| event.at.0),
            &column(rows, |event| event.actor.as_str()),
            &column(rows, |event| event.kind.as_str()),
            &column(rows, |event| event.reservation.as_ref().map(ReservationId::as_str)),
            &column(rows, |event| event.piece.as_ref().map(PieceId::as_str)),
            &column(rows, |event| event.order.as_ref().map(OrderId::as_str)),
            &column(rows, |event| event.amount.0),
            &column(rows, |event| event.note.as_str()),
        ],
    )
    .await?;
    Ok(())
}
