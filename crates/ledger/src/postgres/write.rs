//! Writes what was decided.

use super::failure::Failure;
use super::unit::{Asked, Unit, Value};
use super::{days, row, sql};
use crate::engine::Error;
use crate::rules::{
    Change, CutId, CutRow, Event, Line, Movement, Order, OrderId, Piece, PieceId, Reservation, ReservationId,
    RollUp,
};

/// Writes changes, and the answer to the request behind them. New pieces come first, movements,
/// events and what is added to days last, as the rules give them; each of those is one statement,
/// however many there are. Whoever has a row of a day waits for nothing but the next one.
///
/// All of it is sent together, so what comes after a row that is no longer as it was read is
/// written as well, and taken back with the rest: nobody commits before all is looked at here.
pub(super) async fn write(unit: &Unit, changes: &[Change], answer: Option<Asked<'_>>) -> Result<(), Failure> {
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
    let mut writes = Writes::default();
    if !pieces.is_empty() {
        writes.add(sql::write::PIECES, piece_values(&pieces));
    }
    for change in changes {
        writes.one(change);
    }
    if !movements.is_empty() {
        writes.add(sql::write::MOVEMENTS, movement_values(&movements));
    }
    if !events.is_empty() {
        writes.add(sql::write::EVENTS, event_values(&events));
    }
    for asked in days::adding(&rolls).into_iter().chain(answer) {
        writes.push(asked, Meant::Any);
    }
    let mut sent = unit.send(&writes.asked).await?;
    for meant in &writes.meant {
        meant.is_what(sent.written().await?)?;
    }
    Ok(())
}

/// How many rows a statement is meant to write.
enum Meant<'a> {
    Any,
    /// One: a row that was read under its lock is there.
    One(&'static str, &'a str),
    /// One, that is written only as it was read.
    AsRead(&'static str, &'a str),
}

impl Meant<'_> {
    fn is_what(&self, written: u64) -> Result<(), Failure> {
        match self {
            Meant::One(what, name) if written != 1 => Err(Failure::Final(Error::Fault(format!(
                "{written} rows were written for the {what} {name:?}, where one is meant"
            )))),
            Meant::AsRead(what, name) if written != 1 => {
                Err(Failure::Conflict(format!("the {what} {name:?} is no longer as it was read")))
            }
            _ => Ok(()),
        }
    }
}

/// Statements in order, and what each is meant to do.
#[derive(Default)]
struct Writes<'a> {
    asked: Vec<Asked<'a>>,
    meant: Vec<Meant<'a>>,
}

impl<'a> Writes<'a> {
    fn push(&mut self, asked: Asked<'a>, meant: Meant<'a>) {
        self.asked.push(asked);
        self.meant.push(meant);
    }

    fn add(&mut self, text: &'static str, values: Vec<Value<'a>>) {
        self.push(Asked::change(text, values), Meant::Any);
    }

    fn one(&mut self, change: &'a Change) {
        match change {
            Change::AddPiece(_) | Change::Move(_) | Change::Tell(_) | Change::Roll(_) => {}
            Change::Balance { piece, was, is } => {
                let mut values: Vec<Value<'a>> = vec![Box::new(&piece.0)];
                for amount in is.iter().chain(was) {
                    values.push(Box::new(amount.0));
                }
                self.push(Asked::change(sql::write::BALANCE, values), Meant::AsRead("piece", &piece.0));
            }
            Change::Flaws { piece, flaws } => {
                let values: Vec<Value<'a>> = vec![Box::new(&piece.0), Box::new(row::keep_flaws(flaws))];
                self.push(Asked::change(sql::write::FLAWS, values), Meant::One("piece", &piece.0));
            }
            Change::Location { piece, location } => {
                let values: Vec<Value<'a>> = vec![Box::new(&piece.0), Box::new(location)];
                self.push(Asked::change(sql::write::LOCATION, values), Meant::One("piece", &piece.0));
            }
            Change::AddReservation(reservation) => {
                self.add(sql::write::RESERVATION, head_values(reservation));
                for line in &reservation.lines {
                    self.add(sql::write::LINE, line_values(&reservation.id, line));
                }
            }
            Change::Head { id, was, is } => {
                let mut values = head_values(is);
                values.push(Box::new(was.as_str()));
                self.push(Asked::change(sql::write::HEAD, values), Meant::AsRead("reservation", &id.0));
            }
            Change::AddLine { reservation, line } => {
                self.add(sql::write::LINE, line_values(reservation, line));
            }
            Change::SetLine { reservation, line } => self.push(
                Asked::change(sql::write::SET_LINE, line_values(reservation, line)),
                Meant::One("line of reservation", &reservation.0),
            ),
            Change::AddCut(cut) => self.add_cut(cut),
            Change::CutUndone(cut) => self.push(
                Asked::change(sql::write::CUT_UNDONE, vec![Box::new(&cut.0)]),
                Meant::AsRead("cut", &cut.0),
            ),
            Change::AddOrder(order) => self.add_order(order),
            Change::OrderState { id, state, note } => self.push(
                Asked::change(
                    sql::write::ORDER_STATE,
                    vec![Box::new(&id.0), Box::new(state.as_str()), Box::new(note)],
                ),
                Meant::One("order", &id.0),
            ),
            Change::OrderReceived { id, line, received } => self.push(
                Asked::change(
                    sql::write::ORDER_RECEIVED,
                    vec![Box::new(&id.0), Box::new(i64::from(*line)), Box::new(received.0)],
                ),
                Meant::One("line of order", &id.0),
            ),
        }
    }

    fn add_cut(&mut self, cut: &'a CutRow) {
        self.add(
            sql::write::CUT,
            vec![
                Box::new(&cut.id.0),
                Box::new(&cut.reservation.0),
                Box::new(cut.at.0),
                Box::new(i64::from(cut.undone)),
                Box::new(i64::from(cut.day)),
            ],
        );
        for (number, part) in (1_i64..).zip(&cut.parts) {
            self.add(
                sql::write::CUT_PART,
                vec![
                    Box::new(&cut.id.0),
                    Box::new(number),
                    Box::new(&part.piece.0),
                    Box::new(i64::from(part.line)),
                    Box::new(part.taken.0),
                    Box::new(part.spoiled.0),
                    Box::new(part.kept.0),
                    Box::new(i64::from(part.shapes)),
                    Box::new(part.served.0),
                    Box::new(row::keep_flaws(&part.flaws_before)),
                    Box::new(row::keep_list(part.remnants.iter().map(PieceId::as_str))),
                    Box::new(part.why.as_str()),
                ],
            );
        }
    }

    fn add_order(&mut self, order: &'a Order) {
        self.add(
            sql::write::ORDER,
            vec![
                Box::new(&order.id.0),
                Box::new(&order.supplier),
                Box::new(order.state.as_str()),
                Box::new(order.at.0),
                Box::new(i64::from(order.expected_day)),
                Box::new(&order.note),
            ],
        );
        for line in &order.lines {
            self.add(
                sql::write::ORDER_LINE,
                vec![
                    Box::new(&order.id.0),
                    Box::new(i64::from(line.number)),
                    Box::new(line.material.class.as_str()),
                    Box::new(&line.material.code),
                    Box::new(line.ordered.0),
                    Box::new(line.received.0),
                ],
            );
        }
    }
}

fn head_values(reservation: &Reservation) -> Vec<Value<'_>> {
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

fn line_values<'a>(reservation: &'a ReservationId, line: &'a Line) -> Vec<Value<'a>> {
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

/// One column of many rows.
fn column<'a, R, T>(rows: &[&'a R], of: impl Fn(&'a R) -> T) -> Vec<T> {
    rows.iter().map(|row| of(row)).collect()
}

fn piece_values<'a>(rows: &[&'a Piece]) -> Vec<Value<'a>> {
    let certificates = |piece: &Piece| row::keep_list(piece.certificates.iter().map(String::as_str));
    vec![
        Box::new(column(rows, |piece| piece.id.as_str())),
        Box::new(column(rows, |piece| piece.kind.as_str())),
        Box::new(column(rows, |piece| piece.material.class.as_str())),
        Box::new(column(rows, |piece| piece.material.code.as_str())),
        Box::new(column(rows, |piece| piece.lot.as_str())),
        Box::new(column(rows, |piece| piece.width.um())),
        Box::new(column(rows, |piece| piece.received.0)),
        Box::new(column(rows, |piece| piece.left.0)),
        Box::new(column(rows, |piece| piece.held.0)),
        Box::new(column(rows, |piece| piece.confirmed.0)),
        Box::new(column(rows, |piece| row::keep_flaws(&piece.flaws))),
        Box::new(column(rows, |piece| piece.parent.as_ref().map(PieceId::as_str))),
        Box::new(column(rows, |piece| piece.cut.as_ref().map(CutId::as_str))),
        Box::new(column(rows, |piece| piece.location.as_str())),
        Box::new(column(rows, |piece| piece.cost_minor)),
        Box::new(column(rows, |piece| piece.supplier.as_str())),
        Box::new(column(rows, |piece| piece.supplier_reference.as_str())),
        Box::new(column(rows, certificates)),
        Box::new(column(rows, |piece| piece.order.as_ref().map(OrderId::as_str))),
        Box::new(column(rows, |piece| piece.at.0)),
    ]
}

fn movement_values<'a>(rows: &[&'a Movement]) -> Vec<Value<'a>> {
    vec![
        Box::new(column(rows, |movement| movement.change.0.as_slice())),
        Box::new(column(rows, |movement| i64::from(movement.number))),
        Box::new(column(rows, |movement| movement.at.0)),
        Box::new(column(rows, |movement| i64::from(movement.day))),
        Box::new(column(rows, |movement| i64::from(movement.late))),
        Box::new(column(rows, |movement| movement.actor.as_str())),
        Box::new(column(rows, |movement| movement.kind.as_str())),
        Box::new(column(rows, |movement| movement.piece.as_str())),
        Box::new(column(rows, |movement| movement.from.as_str())),
        Box::new(column(rows, |movement| movement.to.as_str())),
        Box::new(column(rows, |movement| movement.amount.0)),
        Box::new(column(rows, |movement| movement.reservation.as_ref().map(ReservationId::as_str))),
        Box::new(column(rows, |movement| movement.cut.as_ref().map(CutId::as_str))),
        Box::new(column(rows, |movement| movement.reason.as_str())),
        Box::new(column(rows, |movement| movement.note.as_str())),
    ]
}

fn event_values<'a>(rows: &[&'a Event]) -> Vec<Value<'a>> {
    vec![
        Box::new(column(rows, |event| event.change.0.as_slice())),
        Box::new(column(rows, |event| i64::from(event.number))),
        Box::new(column(rows, |event| event.at.0)),
        Box::new(column(rows, |event| event.actor.as_str())),
        Box::new(column(rows, |event| event.kind.as_str())),
        Box::new(column(rows, |event| event.reservation.as_ref().map(ReservationId::as_str))),
        Box::new(column(rows, |event| event.piece.as_ref().map(PieceId::as_str))),
        Box::new(column(rows, |event| event.order.as_ref().map(OrderId::as_str))),
        Box::new(column(rows, |event| event.amount.0)),
        Box::new(column(rows, |event| event.note.as_str())),
    ]
}
