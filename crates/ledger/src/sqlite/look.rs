//! Looks at the stock.

use std::collections::BTreeMap;

use rusqlite::types::Value;
use rusqlite::{Connection, params_from_iter};

use super::board::Board;
use super::pack::{material, word};
use super::rows::{
    event, head, movement, order_head, piece, select_event, select_movement, select_order, select_piece,
    select_reservation, with_lines, with_order_lines,
};
use crate::engine::{Booking, FindPieces, FindReservations, Placed};
use crate::rules::{Amount, At, Event, Material, Movement, Order, Piece, PieceId, Reservation, State};
use crate::shelf::Shelf;
use crate::stand::{Missing, Read};

/// Most rows that one look gives, whatever it asks for: a thousand, which is the longest page of
/// a door, and the one by which it knows that there is another page.
pub(super) const MOST: u32 = 1_001;

fn page(most: u32) -> i64 {
    i64::from(most.min(MOST))
}

/// A condition put together from parts, each with its values in their order.
#[derive(Default)]
struct Where {
    text: String,
    values: Vec<Value>,
}

impl Where {
    fn and(&mut self, condition: &str, values: impl IntoIterator<Item = Value>) {
        self.text.push_str(if self.text.is_empty() { " WHERE " } else { " AND " });
        self.text.push_str(condition);
        self.values.extend(values);
    }
}

fn text(value: &str) -> Value {
    Value::Text(value.to_owned())
}

/// Pieces in the order of their names.
pub(super) fn pieces(connection: &Connection, find: &FindPieces) -> rusqlite::Result<Vec<Piece>> {
    let mut which = Where::default();
    if let Some(after) = &find.after {
        which.and("id > ?", [text(after.as_str())]);
    }
    if let Some(material) = &find.material {
        which.and("class = ? AND code = ?", [text(material.class.as_str()), text(&material.code)]);
    }
    if let Some(lot) = &find.lot {
        which.and("lot = ?", [text(lot)]);
    }
    if !find.empty_too {
        which.and("left_over > 0", []);
    }
    which.values.push(Value::Integer(page(find.most)));
    // what is left of a material is an index of its own, which is smaller than that of all there
    // ever was: without statistics the longer one would be taken
    let index = if find.material.is_some() && !find.empty_too { "INDEXED BY piece_by_material" } else { "" };
    let sql = format!("{}{index}{} ORDER BY id LIMIT ?", select_piece!(""), which.text);
    connection.prepare_cached(&sql)?.query_map(params_from_iter(which.values), piece)?.collect()
}

/// Reservations, the latest first.
pub(super) fn reservations(
    connection: &Connection,
    find: &FindReservations,
) -> rusqlite::Result<Vec<Reservation>> {
    let mut which = Where::default();
    if let Some(after) = &find.after {
        which.and(
            "(created, id) < (SELECT created, id FROM reservation WHERE id = ?)",
            [text(after.as_str())],
        );
    }
    if !find.states.is_empty() {
        let marks = vec!["?"; find.states.len()].join(", ");
        which.and(&format!("state IN ({marks})"), find.states.iter().map(|state| text(state.as_str())));
    }
    let live = !find.states.is_empty() && find.states.iter().all(|state| state.is_live());
    if live || find.short_only || find.piece.is_some() {
        // said in the words of the index, which is used only then
        which.and("state IN ('held', 'confirmed')", []);
    }
    if find.short_only {
        which.and("id IN (SELECT reservation FROM line WHERE granted < wanted)", []);
    }
    if let Some(piece) = &find.piece {
        which.and(
            "id IN (SELECT reservation FROM line WHERE piece = ? AND wanted > 0)",
            [text(piece.as_str())],
        );
    }
    which.values.push(Value::Integer(page(find.most)));
    let sql = format!("{}{} ORDER BY created DESC, id DESC LIMIT ?", select_reservation!(""), which.text);
    let heads: Vec<Reservation> = connection
        .prepare_cached(&sql)?
        .query_map(params_from_iter(which.values), head)?
        .collect::<rusqlite::Result<_>>()?;
    heads.into_iter().map(|head| with_lines(connection, head)).collect()
}

/// Movements of a piece, the first one first. They are numbered from 1, so as many are skipped
/// as lie before the place.
pub(super) fn movements(
    connection: &Connection,
    piece: &PieceId,
    skip: u32,
    most: u32,
) -> rusqlite::Result<Vec<Movement>> {
    connection
        .prepare_cached(select_movement!("WHERE piece = ?1 AND place > ?2 ORDER BY place LIMIT ?3"))?
        .query_map((piece.as_str(), skip, page(most)), movement)?
        .collect()
}

/// Orders, the latest first.
pub(super) fn orders(connection: &Connection, open_only: bool, most: u32) -> rusqlite::Result<Vec<Order>> {
    let sql = if open_only {
        select_order!("WHERE state = 'open' ORDER BY at DESC, id DESC LIMIT ?1")
    } else {
        select_order!("ORDER BY at DESC, id DESC LIMIT ?1")
    };
    let heads: Vec<Order> = connection
        .prepare_cached(sql)?
        .query_map([page(most)], order_head)?
        .collect::<rusqlite::Result<_>>()?;
    heads.into_iter().map(|order| with_order_lines(connection, order)).collect()
}

/// All that says how the shop stands.
pub(super) fn stand(connection: &Connection) -> rusqlite::Result<Read> {
    let shelf = Shelf::clone(&*Board::read(connection)?.shelf());
    let heads: Vec<Order> = connection
        .prepare_cached(select_order!("INDEXED BY purchase_open WHERE state = 'open' ORDER BY id"))?
        .query_map([], order_head)?
        .collect::<rusqlite::Result<_>>()?;
    let open = heads.into_iter().map(|order| with_order_lines(connection, order));
    let open = open.collect::<rusqlite::Result<_>>()?;
    let mut short = connection.prepare_cached(
        "SELECT piece.class, piece.code, reservation.state, reservation.expires, line.wanted - line.granted
         FROM line JOIN reservation ON reservation.id = line.reservation JOIN piece ON piece.id = line.piece
         WHERE line.granted < line.wanted",
    )?;
    let missing = short.query_map([], |row| {
        Ok(Missing {
            material: material(row, 0)?,
            state: word(row, 2, State::read)?,
            expires: At(row.get(3)?),
            amount: Amount(row.get(4)?),
        })
    })?;
    let missing = missing.collect::<rusqlite::Result<_>>()?;
    let mut names = connection.prepare_cached(
        "SELECT class, code, supplier FROM piece UNION
         SELECT line.class, line.code, purchase.supplier
         FROM purchase_line AS line JOIN purchase ON purchase.id = line.purchase",
    )?;
    let suppliers = names.query_map([], |row| Ok((material(row, 0)?, row.get(2)?)))?;
    Ok(Read { shelf, open, missing, suppliers: suppliers.collect::<rusqlite::Result<_>>()? })
}

/// What is still to come of each material.
pub(super) fn on_order(connection: &Connection) -> rusqlite::Result<Vec<(Material, Amount)>> {
    let mut statement = connection.prepare_cached(
        "SELECT line.class, line.code, line.ordered - line.received
         FROM purchase_line AS line JOIN purchase ON purchase.id = line.purchase
         WHERE purchase.state = 'open' AND line.ordered > line.received",
    )?;
    let mut sums: BTreeMap<Material, Amount> = BTreeMap::new();
    let mut rows = statement.query([])?;
    while let Some(row) = rows.next()? {
        *sums.entry(material(row, 0)?).or_default() += Amount(row.get(2)?);
    }
    Ok(sums.into_iter().collect())
}

/// Events after a place.
pub(super) fn events(connection: &Connection, after: i64, most: u32) -> rusqlite::Result<Vec<Placed>> {
    connection
        .prepare_cached(select_event!("WHERE place > ?1 ORDER BY place LIMIT ?2"))?
        .query_map((after, page(most)), |row| {
            let event: Event = event(row)?;
            Ok(Placed { place: row.get(10)?, event })
        })?
        .collect()
}

/// Bench time booked. What was cut without having been confirmed is booked from when it was
/// taken. Those without a day are looked up by themselves: with both in one condition, those
/// whose day is over would be read as well.
pub(super) fn bookings(connection: &Connection, since: i32) -> rusqlite::Result<Vec<Booking>> {
    connection
        .prepare_cached(
            "SELECT leave_day, bench_milli_minutes, COALESCE(confirmed, created) AS since, id FROM reservation
             WHERE state IN ('confirmed', 'cut') AND bench_milli_minutes > 0 AND leave_day IS NULL
             UNION ALL
             SELECT leave_day, bench_milli_minutes, COALESCE(confirmed, created) AS since, id FROM reservation
             WHERE state IN ('confirmed', 'cut') AND bench_milli_minutes > 0 AND leave_day >= ?1
             ORDER BY leave_day, since, id",
        )?
        .query_map([since], |row| {
            Ok(Booking { leave_day: row.get(0)?, milli_minutes: row.get(1)?, confirmed: At(row.get(2)?) })
        })?
        .collect()
}
