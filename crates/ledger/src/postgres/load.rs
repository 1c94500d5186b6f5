//! Locks what a command concerns, and reads it.
//!
//! Order of locks, the same for every command: the request, the holder, pieces by name,
//! reservations by name, cuts, orders. Every command locks all pieces of every reservation it
//! names, so whoever has a piece has all that is promised of it.
//!
//! 1. Which pieces those are is looked up before anything is locked ([`first`], [`Concerned`]).
//! 2. All of it is locked, read, and the clock after it, in statements that are sent together
//!    ([`Concerned::lock`]). Transactions are READ COMMITTED: each statement sees what was
//!    committed when it began, and it begins when the one before it has all its locks. So rows that
//!    are read behind their locks are those of the locks, as if each had been waited for.
//! 3. Where more pieces are concerned by then than were locked, all is begun anew with them.
//!
//! Overdue holds that stand on a piece concern their other pieces as well. Hardly any command meets
//! one with several, so the first attempt leaves it to the last step to find them; the next one
//! looks for them, and for those on their pieces in turn, in the first step.

use std::collections::BTreeSet;

use tokio_postgres::Row;

use super::failure::Failure;
use super::options::Clock;
use super::unit::{Asked, Sent, Unit};
use super::{row, sql};
use crate::rules::{At, CutId, CutRow, Needs, Order, OrderId, PieceId, Reservation, ReservationId, Rows};

/// Rows, and the instant at which they were so.
pub(super) struct Loaded {
    pub(super) rows: Rows,
    pub(super) now: At,
}

pub(super) async fn instant(unit: &Unit, (clock, given): (Clock, At)) -> Result<At, Failure> {
    match clock {
        Clock::Given => Ok(given),
        Clock::Database => Ok(At(unit.number(sql::NOW, &[]).await?)),
    }
}

/// What is looked up of what a command names, before anything is locked.
pub(super) fn first(needs: &Needs) -> Vec<Asked<'_>> {
    let mut asked = Vec::new();
    if !needs.reservations.is_empty() {
        asked.push(pieces_of(needs.reservations.iter()));
    }
    if !needs.cuts.is_empty() {
        let cuts = cut_names(needs);
        asked.push(Asked::look(sql::load::CUTS, vec![Box::new(cuts.clone())]));
        asked.push(Asked::look(sql::load::CUT_PARTS, vec![Box::new(cuts)]));
    }
    asked
}

fn pieces_of<'a>(reservations: impl Iterator<Item = &'a ReservationId>) -> Asked<'a> {
    let named: Vec<&str> = reservations.map(ReservationId::as_str).collect();
    Asked::look(sql::load::PIECES_OF_RESERVATIONS, vec![Box::new(named)])
}

fn cut_names(needs: &Needs) -> Vec<&str> {
    needs.cuts.iter().map(CutId::as_str).collect()
}

fn order_names(needs: &Needs) -> Vec<&str> {
    needs.orders.iter().map(OrderId::as_str).collect()
}

/// What is concerned, before anything is locked.
pub(super) struct Concerned<'a> {
    needs: &'a Needs,
    clock: (Clock, At),
    pieces: BTreeSet<PieceId>,
    /// Those named, by themselves or by a cut.
    reservations: BTreeSet<ReservationId>,
}

impl<'a> Concerned<'a> {
    /// Takes the answers to what was asked [`first`]. `known` are pieces that earlier attempts found
    /// concerned.
    pub(super) async fn find(
        unit: &Unit,
        needs: &'a Needs,
        sent: Option<Sent<'_>>,
        known: &BTreeSet<PieceId>,
        clock: (Clock, At),
    ) -> Result<Concerned<'a>, Failure> {
        let pieces: BTreeSet<PieceId> = needs.pieces.iter().chain(known).cloned().collect();
        let reservations: BTreeSet<ReservationId> = needs.reservations.iter().cloned().collect();
        let mut concerned = Concerned { needs, clock, pieces, reservations };
        let mut more: BTreeSet<ReservationId> = BTreeSet::new();
        if let Some(mut sent) = sent {
            if !needs.reservations.is_empty() {
                concerned.add_pieces(&sent.rows().await?)?;
            }
            if !needs.cuts.is_empty() {
                let (heads, parts) = (sent.rows().await?, sent.rows().await?);
                for cut in cuts_of(&cut_names(needs), &heads, &parts)? {
                    concerned.pieces.extend(pieces_of_cut(&cut).cloned());
                    more.insert(cut.reservation);
                }
            }
        }
        let thorough = needs.overdue > 0 || !known.is_empty();
        let now = if thorough { instant(unit, clock).await? } else { clock.1 };
        if needs.overdue > 0 {
            for found in unit.query(sql::load::OVERDUE, &[&now.0, &i64::from(needs.overdue)]).await? {
                more.insert(ReservationId(found.try_get(0)?));
            }
        }
        more.retain(|reservation| !concerned.reservations.contains(reservation));
        if !more.is_empty() {
            let asked = [pieces_of(more.iter())];
            let found = unit.send(&asked).await?.rows().await?;
            concerned.add_pieces(&found)?;
        }
        concerned.reservations.extend(more);
        // an overdue hold on one of them concerns its other pieces, and so on
        let mut before = 0;
        while thorough && concerned.pieces.len() > before {
            before = concerned.pieces.len();
            let found = unit.query(sql::load::PIECES_OF_OVERDUE, &[&concerned.piece_names(), &now.0]).await?;
            concerned.add_pieces(&found)?;
        }
        Ok(concerned)
    }

    fn add_pieces(&mut self, found: &[Row]) -> Result<(), Failure> {
        for found in found {
            self.pieces.insert(PieceId(found.try_get(0)?));
        }
        Ok(())
    }

    fn piece_names(&self) -> Vec<&str> {
        self.pieces.iter().map(PieceId::as_str).collect()
    }

    fn reservation_names(&self) -> Vec<&str> {
        self.reservations.iter().map(ReservationId::as_str).collect()
    }

    /// Locks and reads, in this order.
    pub(super) fn lock(&self) -> Vec<Asked<'_>> {
        let mut asked = Vec::new();
        let needs = self.needs;
        if let Some(holder) = &needs.holder {
            asked.push(Asked::change(sql::load::ADD_HOLDER, vec![Box::new(holder)]));
            asked.push(Asked::look(sql::load::LOCK_HOLDER, vec![Box::new(holder)]));
        }
        if !self.pieces.is_empty() || !self.reservations.is_empty() {
            let (named, pieces) = (self.reservation_names(), self.piece_names());
            asked.push(Asked::look(sql::load::LOCK_PIECES, vec![Box::new(pieces.clone())]));
            if !named.is_empty() {
                asked.push(Asked::look(sql::load::LOCK_RESERVATIONS, vec![Box::new(named.clone())]));
            }
            let both = |text| Asked::look(text, vec![Box::new(named.clone()), Box::new(pieces.clone())]);
            asked.push(both(sql::load::RESERVATIONS_CONCERNED));
            asked.push(both(sql::load::LINES_CONCERNED));
        }
        if !needs.cuts.is_empty() {
            let cuts = cut_names(needs);
            for text in [sql::load::LOCK_CUTS, sql::load::CUTS, sql::load::CUT_PARTS] {
                asked.push(Asked::look(text, vec![Box::new(cuts.clone())]));
            }
        }
        if !needs.orders.is_empty() {
            let orders = order_names(needs);
            for text in [sql::load::LOCK_ORDERS, sql::load::ORDERS, sql::load::ORDER_LINES] {
                asked.push(Asked::look(text, vec![Box::new(orders.clone())]));
            }
        }
        if self.clock.0 == Clock::Database {
            asked.push(Asked::look(sql::NOW, Vec::new()));
        }
        asked
    }

    /// What was found by [`Concerned::lock`].
    pub(super) async fn locked(&self, unit: &Unit, mut sent: Sent<'_>) -> Result<Loaded, Failure> {
        let needs = self.needs;
        let mut rows = Rows::default();
        if needs.holder.is_some() {
            sent.written().await?;
            sent.rows().await?;
        }
        if !self.pieces.is_empty() || !self.reservations.is_empty() {
            for found in sent.rows().await? {
                let piece = row::piece(&found)?;
                rows.pieces.insert(piece.id.clone(), piece);
            }
            if !self.reservations.is_empty() {
                sent.rows().await?;
            }
            let (heads, lines) = (sent.rows().await?, sent.rows().await?);
            for reservation in reservations_of(&heads, &lines)? {
                rows.reservations.insert(reservation.id.clone(), reservation);
            }
        }
        if !needs.cuts.is_empty() {
            sent.rows().await?;
            let (heads, parts) = (sent.rows().await?, sent.rows().await?);
            for cut in cuts_of(&cut_names(needs), &heads, &parts)? {
                rows.cuts.insert(cut.id.clone(), cut);
            }
        }
        if !needs.orders.is_empty() {
            sent.rows().await?;
            let (heads, lines) = (sent.rows().await?, sent.rows().await?);
            for order in orders_of(&order_names(needs), &heads, &lines)? {
                rows.orders.insert(order.id.clone(), order);
            }
        }
        let now = match self.clock {
            (Clock::Given, given) => given,
            (Clock::Database, _) => At(sent.number().await?),
        };
        self.has_all_of(&rows, now)?;
        if !rows.cuts.is_empty() {
            let of: Vec<&str> = rows.cuts.values().flat_map(pieces_of_cut).map(PieceId::as_str).collect();
            for found in unit.query(sql::load::LAST_CUTS, &[&of]).await? {
                if let Some(cut) = found.try_get(1)? {
                    rows.last_cut.insert(PieceId(found.try_get(0)?), CutId(cut));
                }
            }
        }
        if let Some(holder) = &needs.holder {
            let holds = unit.number(sql::load::HOLDS, &[holder, &now.0]).await?;
            rows.holds = u32::try_from(holds).unwrap_or(u32::MAX);
        }
        Ok(Loaded { rows, now })
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
    let (heads, lines) = with_parts(unit, &names, sql::load::RESERVATIONS, sql::load::LINES).await?;
    reservations_of(&heads, &lines)
}

/// Cuts with their parts, in the order in which they are named.
pub(super) async fn find_cuts(unit: &Unit, names: &[&str]) -> Result<Vec<CutRow>, Failure> {
    let (heads, parts) = with_parts(unit, names, sql::load::CUTS, sql::load::CUT_PARTS).await?;
    cuts_of(names, &heads, &parts)
}

/// Orders with their lines, in the order in which they are named.
pub(super) async fn find_orders(unit: &Unit, names: &[&str]) -> Result<Vec<Order>, Failure> {
    let (heads, lines) = with_parts(unit, names, sql::load::ORDERS, sql::load::ORDER_LINES).await?;
    orders_of(names, &heads, &lines)
}

async fn with_parts(
    unit: &Unit,
    names: &[&str],
    heads: &str,
    parts: &str,
) -> Result<(Vec<Row>, Vec<Row>), Failure> {
    if names.is_empty() {
        return Ok((Vec::new(), Vec::new()));
    }
    let asked = [heads, parts].map(|text| Asked::look(text, vec![Box::new(names)]));
    let mut sent = unit.send(&asked).await?;
    Ok((sent.rows().await?, sent.rows().await?))
}

fn reservations_of(heads: &[Row], lines: &[Row]) -> Result<Vec<Reservation>, Failure> {
    let mut reservations = heads.iter().map(row::reservation).collect::<Result<Vec<_>, _>>()?;
    reservations.sort_by(|one, other| one.id.cmp(&other.id));
    for found in lines {
        let (of, line) = row::line(found)?;
        if let Ok(at) = reservations.binary_search_by(|reservation| reservation.id.cmp(&of))
            && let Some(reservation) = reservations.get_mut(at)
        {
            reservation.lines.push(line);
        }
    }
    Ok(reservations)
}

fn cuts_of(names: &[&str], heads: &[Row], parts: &[Row]) -> Result<Vec<CutRow>, Failure> {
    let mut cuts = heads.iter().map(row::cut).collect::<Result<Vec<_>, _>>()?;
    cuts.sort_by_key(|cut| names.iter().position(|name| *name == cut.id.as_str()));
    for found in parts {
        let (of, part) = row::cut_part(found)?;
        if let Some(cut) = cuts.iter_mut().find(|cut| cut.id == of) {
            cut.parts.push(part);
        }
    }
    Ok(cuts)
}

fn orders_of(names: &[&str], heads: &[Row], lines: &[Row]) -> Result<Vec<Order>, Failure> {
    let mut orders = heads.iter().map(row::order).collect::<Result<Vec<_>, _>>()?;
    orders.sort_by_key(|order| names.iter().position(|name| *name == order.id.as_str()));
    for found in lines {
        let (of, line) = row::order_line(found)?;
        if let Some(order) = orders.iter_mut().find(|order| order.id == of) {
            order.lines.push(line);
        }
    }
    Ok(orders)
}
