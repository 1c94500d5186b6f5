//! Locks what a command concerns, and reads it.
//!
//! Order of locks, the same for every command: the request, the holder, pieces by name,
//! reservations by name, cuts, orders. Every command locks all pieces of every reservation it
//! names, so whoever has a piece has all that is promised of it. Which pieces those are is
//! looked up before anything is locked, and again after; where there are more of them by then,
//! all is begun anew with them.

use std::collections::BTreeSet;

use super::failure::Failure;
use super::options::Clock;
use super::unit::Unit;
use super::{row, sql};
use crate::rules::{At, CutId, CutRow, Needs, Order, OrderId, PieceId, Reservation, ReservationId, Rows};

/// Rows, and the instant at which they were so.
pub(super) struct Loaded {
    pub(super) rows: Rows,
    pub(super) now: At,
}

/// Locks and reads what is needed. `known` are pieces that earlier attempts found concerned.
pub(super) async fn load(
    unit: &Unit,
    needs: &Needs,
    known: &BTreeSet<PieceId>,
    clock: (Clock, At),
) -> Result<Loaded, Failure> {
    if let Some(holder) = &needs.holder
        && unit.one(sql::load::LOCK_HOLDER, &[holder]).await?.is_none()
    {
        unit.execute(sql::load::ADD_HOLDER, &[holder]).await?;
        unit.one(sql::load::LOCK_HOLDER, &[holder]).await?;
    }
    let concerned = Concerned::find(unit, needs, known, instant(unit, clock).await?).await?;

    let mut rows = Rows::default();
    for found in unit.query(sql::load::LOCK_PIECES, &[&concerned.piece_names()]).await? {
        let piece = row::piece(&found)?;
        rows.pieces.insert(piece.id.clone(), piece);
    }
    let named: Vec<&str> = concerned.reservations.iter().map(ReservationId::as_str).collect();
    if !named.is_empty() {
        unit.query(sql::load::LOCK_RESERVATIONS, &[&named]).await?;
    }
    let mut reservations = concerned.reservations.clone();
    if !rows.pieces.is_empty() {
        for found in unit.query(sql::load::LIVE_ON_PIECES, &[&concerned.piece_names()]).await? {
            reservations.insert(ReservationId(found.try_get(0)?));
        }
    }
    for reservation in find_reservations(unit, &reservations).await? {
        rows.reservations.insert(reservation.id.clone(), reservation);
    }
    if !needs.cuts.is_empty() {
        let cuts: Vec<&str> = needs.cuts.iter().map(CutId::as_str).collect();
        unit.query(sql::load::LOCK_CUTS, &[&cuts]).await?;
        for cut in find_cuts(unit, &cuts).await? {
            rows.cuts.insert(cut.id.clone(), cut);
        }
        let of: Vec<&str> = rows.cuts.values().flat_map(pieces_of_cut).map(PieceId::as_str).collect();
        for found in unit.query(sql::load::LAST_CUTS, &[&of]).await? {
            if let Some(cut) = found.try_get(1)? {
                rows.last_cut.insert(PieceId(found.try_get(0)?), CutId(cut));
            }
        }
    }
    if !needs.orders.is_empty() {
        let orders: Vec<&str> = needs.orders.iter().map(OrderId::as_str).collect();
        unit.query(sql::load::LOCK_ORDERS, &[&orders]).await?;
        for order in find_orders(unit, &orders).await? {
            rows.orders.insert(order.id.clone(), order);
        }
    }

    let now = instant(unit, clock).await?;
    concerned.has_all_of(&rows, now)?;
    if let Some(holder) = &needs.holder {
        let holds = unit.number(sql::load::HOLDS, &[holder, &now.0]).await?;
        rows.holds = u32::try_from(holds).unwrap_or(u32::MAX);
    }
    Ok(Loaded { rows, now })
}

pub(super) async fn instant(unit: &Unit, (clock, given): (Clock, At)) -> Result<At, Failure> {
    match clock {
        Clock::Given => Ok(given),
        Clock::Database => Ok(At(unit.number(sql::NOW, &[]).await?)),
    }
}

/// What is concerned, before anything is locked.
struct Concerned {
    pieces: BTreeSet<PieceId>,
    /// Those named, by themselves or by a cut.
    reservations: BTreeSet<ReservationId>,
}

impl Concerned {
    async fn find(
        unit: &Unit,
        needs: &Needs,
        known: &BTreeSet<PieceId>,
        now: At,
    ) -> Result<Concerned, Failure> {
        let mut pieces: BTreeSet<PieceId> = needs.pieces.iter().chain(known).cloned().collect();
        let mut reservations: BTreeSet<ReservationId> = needs.reservations.iter().cloned().collect();
        if needs.overdue > 0 {
            for found in unit.query(sql::load::OVERDUE, &[&now.0, &i64::from(needs.overdue)]).await? {
                reservations.insert(ReservationId(found.try_get(0)?));
            }
        }
        if !needs.cuts.is_empty() {
            let cuts: Vec<&str> = needs.cuts.iter().map(CutId::as_str).collect();
            for cut in find_cuts(unit, &cuts).await? {
                pieces.extend(pieces_of_cut(&cut).cloned());
                reservations.insert(cut.reservation);
            }
        }
        let mut concerned = Concerned { pieces, reservations };
        if !concerned.reservations.is_empty() {
            let named: Vec<&str> = concerned.reservations.iter().map(ReservationId::as_str).collect();
            for found in unit.query(sql::load::PIECES_OF_RESERVATIONS, &[&named]).await? {
                concerned.pieces.insert(PieceId(found.try_get(0)?));
            }
        }
        // an overdue hold on one of them concerns its other pieces, and so on
        let mut before = 0;
        while concerned.pieces.len() > before {
            before = concerned.pieces.len();
            let found = unit.query(sql::load::PIECES_OF_OVERDUE, &[&concerned.piece_names(), &now.0]).await?;
            for found in found {
                concerned.pieces.insert(PieceId(found.try_get(0)?));
            }
        }
        Ok(concerned)
    }

    fn piece_names(&self) -> Vec<&str> {
        self.pieces.iter().map(PieceId::as_str).collect()
    }

    /// Whether every piece that is concerned now was locked.
    fn has_all_of(&self, rows: &Rows, now: At) -> Result<(), Failure> {
        let mut more: BTreeSet<PieceId> = BTreeSet::new();
        for reservation in rows.reservations.values() {
            if self.reservations.contains(&reservation.id) || reservation.is_overdue(now) {
                more.extend(reservation.lines.iter().map(|line| line.piece.clone()));
            }
        }
        more.extend(rows.cuts.values().flat_map(pieces_of_cut).cloned());
        more.retain(|piece| !self.pieces.contains(piece));
        if more.is_empty() { Ok(()) } else { Err(Failure::Grown(more)) }
    }
}

fn pieces_of_cut(cut: &CutRow) -> impl Iterator<Item = &PieceId> {
    cut.parts.iter().flat_map(|part| std::iter::once(&part.piece).chain(&part.remnants))
}

/// Reservations with their lines, by name.
pub(super) async fn find_reservations(
    unit: &Unit,
    names: &BTreeSet<ReservationId>,
) -> Result<Vec<Reservation>, Failure> {
    let names: Vec<&str> = names.iter().map(ReservationId::as_str).collect();
    if names.is_empty() {
        return Ok(Vec::new());
    }
    let heads = unit.query(sql::load::RESERVATIONS, &[&names]).await?;
    let mut reservations = heads.iter().map(row::reservation).collect::<Result<Vec<_>, _>>()?;
    reservations.sort_by(|one, other| one.id.cmp(&other.id));
    for found in unit.query(sql::load::LINES, &[&names]).await? {
        let (of, line) = row::line(&found)?;
        if let Ok(at) = reservations.binary_search_by(|reservation| reservation.id.cmp(&of))
            && let Some(reservation) = reservations.get_mut(at)
        {
            reservation.lines.push(line);
        }
    }
    Ok(reservations)
}

/// Cuts with their parts, in the order in which they are named.
pub(super) async fn find_cuts(unit: &Unit, names: &[&str]) -> Result<Vec<CutRow>, Failure> {
    if names.is_empty() {
        return Ok(Vec::new());
    }
    let heads = unit.query(sql::load::CUTS, &[&names]).await?;
    let mut cuts = heads.iter().map(row::cut).collect::<Result<Vec<_>, _>>()?;
    cuts.sort_by_key(|cut| names.iter().position(|name| *name == cut.id.as_str()));
    for found in unit.query(sql::load::CUT_PARTS, &[&names]).await? {
        let (of, part) = row::cut_part(&found)?;
        if let Some(cut) = cuts.iter_mut().find(|cut| cut.id == of) {
            cut.parts.push(part);
        }
    }
    Ok(cuts)
}

/// Orders with their lines, in the order in which they are named.
pub(super) async fn find_orders(unit: &Unit, names: &[&str]) -> Result<Vec<Order>, Failure> {
    if names.is_empty() {
        return Ok(Vec::new());
    }
    let heads = unit.query(sql::load::ORDERS, &[&names]).await?;
    let mut orders = heads.iter().map(row::order).collect::<Result<Vec<_>, _>>()?;
    orders.sort_by_key(|order| names.iter().position(|name| *name == order.id.as_str()));
    for found in unit.query(sql::load::ORDER_LINES, &[&names]).await? {
        let (of, line) = row::order_line(&found)?;
        if let Some(order) = orders.iter_mut().find(|order| order.id == of) {
            order.lines.push(line);
        }
    }
    Ok(orders)
}
