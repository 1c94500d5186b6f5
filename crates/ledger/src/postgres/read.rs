//! What can be looked at.

use std::collections::BTreeSet;

use super::failure::Failure;
use super::load::{find_cuts, find_orders, find_reservations};
use super::row::{self, Columns};
use super::unit::Unit;
use super::{keeper, sql};
use crate::engine::{Booking, FindPieces, FindReservations};
use crate::rules::{
    Amount, At, CutId, CutRow, Material, Movement, Order, Piece, PieceId, Reservation, ReservationId, State,
};
use crate::stand::{Missing, Read};

pub(super) async fn reservation(unit: &Unit, id: &ReservationId) -> Result<Option<Reservation>, Failure> {
    Ok(find_reservations(unit, &BTreeSet::from([id.clone()])).await?.pop())
}

pub(super) async fn reservations(unit: &Unit, find: &FindReservations) -> Result<Vec<Reservation>, Failure> {
    let states: Vec<&str> = find.states.iter().copied().map(State::as_str).collect();
    let piece = find.piece.as_ref().map(PieceId::as_str);
    let after = find.after.as_ref().map(ReservationId::as_str);
    let live = !find.states.is_empty() && find.states.iter().all(|state| state.is_live());
    let statement = if live || find.short_only || find.piece.is_some() {
        // nothing else is short, or wants anything of a piece
        sql::read::LIVE_RESERVATIONS
    } else {
        sql::read::RESERVATIONS
    };
    let heads =
        unit.query(statement, &[&states, &find.short_only, &piece, &after, &i64::from(find.most)]).await?;
    let heads = heads.iter().map(row::reservation).collect::<Result<Vec<_>, _>>()?;
    let names = heads.iter().map(|head| head.id.clone()).collect();
    let mut with_lines = find_reservations(unit, &names).await?;
    let place = |id: &ReservationId| heads.iter().position(|head| head.id == *id);
    with_lines.sort_by_key(|reservation| place(&reservation.id));
    Ok(with_lines)
}

pub(super) async fn pieces(unit: &Unit, find: &FindPieces) -> Result<Vec<Piece>, Failure> {
    let (most, after) = (i64::from(find.most), find.after.as_ref().map(PieceId::as_str));
    let found = if let Some(Material { class, code }) = &find.material {
        let statement = if find.empty_too { sql::read::PIECES_EVER_OF } else { sql::read::PIECES_LEFT_OF };
        unit.query(statement, &[&most, &find.lot, &after, &class.as_str(), code]).await?
    } else {
        let statement = if find.empty_too { sql::read::PIECES_EVER } else { sql::read::PIECES_LEFT };
        unit.query(statement, &[&most, &find.lot, &after]).await?
    };
    found.iter().map(row::piece).collect()
}

pub(super) async fn piece(unit: &Unit, id: &PieceId) -> Result<Option<Piece>, Failure> {
    unit.one(sql::read::PIECE, &[&id.0]).await?.as_ref().map(row::piece).transpose()
}

pub(super) async fn movements(
    unit: &Unit,
    piece: &PieceId,
    skip: u32,
    most: u32,
) -> Result<Vec<Movement>, Failure> {
    unit.query(sql::read::MOVEMENTS, &[&piece.0, &i64::from(skip), &i64::from(most)])
        .await?
        .iter()
        .map(row::movement)
        .collect()
}

pub(super) async fn cuts(unit: &Unit, reservation: &ReservationId) -> Result<Vec<CutRow>, Failure> {
    let names = unit.query(sql::read::CUTS_OF, &[&reservation.0]).await?;
    let names = names.iter().map(|name| Ok(name.try_get(0)?)).collect::<Result<Vec<&str>, Failure>>()?;
    find_cuts(unit, &names).await
}

pub(super) async fn cut(unit: &Unit, id: &CutId) -> Result<Option<CutRow>, Failure> {
    Ok(find_cuts(unit, &[id.as_str()]).await?.pop())
}

pub(super) async fn orders(unit: &Unit, open_only: bool, most: u32) -> Result<Vec<Order>, Failure> {
    let statement = if open_only { sql::read::OPEN_ORDERS } else { sql::read::ORDERS };
    let names = unit.query(statement, &[&i64::from(most)]).await?;
    let names = names.iter().map(|name| Ok(name.try_get(0)?)).collect::<Result<Vec<&str>, Failure>>()?;
    find_orders(unit, &names).await
}

pub(super) async fn on_order(unit: &Unit) -> Result<Vec<(Material, Amount)>, Failure> {
    let mut all = Vec::new();
    for found in unit.query(sql::read::ON_ORDER, &[]).await? {
        let mut of = Columns::of(&found);
        let (material, amount) = (of.material()?, of.amount()?);
        if amount.is_some() {
            all.push((material, amount));
        }
    }
    all.sort();
    Ok(all)
}

/// All that says how the shop stands at an instant.
pub(super) async fn stand(unit: &Unit, now: At) -> Result<Read, Failure> {
    let shelf = keeper::whole(unit, now).await?;
    let names = unit.query(sql::stand::OPEN, &[]).await?;
    let names = names.iter().map(|name| Ok(name.try_get(0)?)).collect::<Result<Vec<&str>, Failure>>()?;
    let open = find_orders(unit, &names).await?;
    let missing = |row: &tokio_postgres::Row| {
        let mut of = Columns::of(row);
        Ok(Missing {
            material: of.material()?,
            state: of.word(State::read)?,
            expires: of.at()?,
            amount: of.amount()?,
        })
    };
    let missing =
        unit.query(sql::stand::MISSING, &[]).await?.iter().map(missing).collect::<Result<_, Failure>>()?;
    let supplier = |row: &tokio_postgres::Row| {
        let mut of = Columns::of(row);
        Ok((of.material()?, of.take()?))
    };
    let suppliers = unit.query(sql::stand::SUPPLIERS, &[]).await?;
    let suppliers = suppliers.iter().map(supplier).collect::<Result<_, Failure>>()?;
    Ok(Read { shelf, open, missing, suppliers })
}

pub(super) async fn bookings(unit: &Unit, since: i32) -> Result<Vec<Booking>, Failure> {
    unit.query(sql::read::BOOKINGS, &[&i64::from(since)]).await?.iter().map(row::booking).collect()
}
