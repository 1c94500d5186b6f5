//! Planning a reservation anew.
//!
//! For the same quote only lines that are short are planned anew, each by itself and in this
//! order: another piece of the same lot that gives all that the line still wants in one
//! stretch, as [`proposals`](super::proposals()) has it; then another piece of any lot; then what the
//! quote still needs of it, planned on everything that is free, what the line itself holds
//! among it. What it takes is not bounded by what was charged: it was the shop's cloth that went
//! missing. For another quote all that is not cut yet ends, and what that quote needs is planned
//! like any hold, on what is free and what ends.

use std::collections::BTreeMap;
use std::sync::Arc;

use pennantry_calc::shelf::Need;
use pennantry_ledger::rules::{
    Amend, Amount, At, Class, Command, Line, NewLine, PieceId, Refusal, Reservation, ReservationId, Sale,
    State,
};
use pennantry_ledger::shelf::{Promised, Shelf};
use pennantry_ledger::{Applied, Error};
use pennantry_measure::Length;

use super::hold::{HoldError, TRIES, Wanted as Take};
use super::needs::{Charged, Item, Wanted, needs};
use super::plan::{Look, Plan, plan, without};
use super::proposals::{Lacking, would_do};
use super::{Envelope, Stock, at};
use crate::Catalogue;
use crate::quote::Answer;

/// So much new cloth is no bound.
const UNBOUNDED: Length = Length::from_mm(100_000_000);

/// What a reservation is amended to.
pub struct Anew<'a> {
    /// The reservation.
    pub id: ReservationId,
    /// Why.
    pub reason: String,
    /// The other quote, where there is one.
    pub sale: Option<AnewSale<'a>>,
    /// The quote it was sold by, worked again, where that can still be done.
    pub was: Option<&'a Answer>,
}

/// Another quote.
pub struct AnewSale<'a> {
    /// What it comes to.
    pub answer: &'a Answer,
    /// Its identity.
    pub quote: String,
    /// Day on which it was promised to leave.
    pub leave_day: Option<i32>,
    /// What was charged when it was sold.
    pub charged: &'a [Charged],
    /// What is sold, from what it is taken from.
    pub sold: &'a (dyn Fn(&Plan) -> Vec<u8> + Sync),
}

/// Why nothing is amended.
#[derive(Debug)]
pub enum AmendError {
    /// As for a hold.
    Hold(HoldError),
    /// Nothing of it is missing.
    NothingMissing,
    /// The shelf has nothing that would make these lines good.
    Nothing(Vec<Lack>),
}

/// A line for which nothing was found.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Lack {
    /// Its number.
    pub line: u32,
    /// Code of the material.
    pub code: String,
    /// What kind of material.
    pub class: Class,
    /// What it still wants.
    pub wanted: Amount,
    /// What of that is missing.
    pub missing: Amount,
}

impl From<Error> for AmendError {
    fn from(error: Error) -> AmendError {
        AmendError::Hold(HoldError::Ledger(error))
    }
}

impl From<HoldError> for AmendError {
    fn from(error: HoldError) -> AmendError {
        AmendError::Hold(error)
    }
}

impl Stock {
    /// Plans a reservation anew.
    ///
    /// # Errors
    /// See [`AmendError`].
    pub async fn amend(
        &self,
        catalogue: &Catalogue,
        anew: &Anew<'_>,
        envelope: &Envelope,
    ) -> Result<Applied, AmendError> {
        let mut tries = 1;
        loop {
            let Some(is) = self.ledger.reservation(&anew.id).await? else {
                return Err(Error::Refused(Refusal::NoReservation(anew.id.clone())).into());
            };
            if !is.state.is_live() {
                return Err(Error::Refused(over(&is)).into());
            }
            if is.is_overdue(at(envelope.now)) {
                return Err(Error::Refused(Refusal::Expired(is.id, is.expires)).into());
            }
            let done = match &anew.sale {
                Some(sale) => self.resell(catalogue, anew, sale, &is, envelope).await,
                None => self.mend(catalogue, anew, &is, envelope).await,
            };
            match done {
                // the bench was at it meanwhile: planned anew on what that left
                Err(AmendError::Hold(HoldError::Ledger(Error::Refused(Refusal::Changed(_))))) => {
                    if tries == TRIES {
                        return Err(HoldError::Overtaken.into());
                    }
                    tries += 1;
                }
                done => return done,
            }
        }
    }

    async fn resell(
        &self,
        catalogue: &Catalogue,
        anew: &Anew<'_>,
        sale: &AnewSale<'_>,
        is: &Reservation,
        envelope: &Envelope,
    ) -> Result<Applied, AmendError> {
        let ends: Vec<u32> = is.wants().map(|(line, _)| line).collect();
        let items = needs(&catalogue.shop, &sale.answer.order, &sale.answer.quote.worked);
        let wanted = Take { items: &items, charged: sale.charged, frees: Some((is, ends.clone())) };
        let applied = self
            .taken(catalogue, &wanted, envelope, |plan, lines| {
                Command::Amend(Amend {
                    id: is.id.clone(),
                    ends: ends.clone(),
                    planned_on: Some(is.wants().collect()),
                    lines,
                    sale: Some(Sale {
                        quote: sale.quote.clone(),
                        bench_milli_minutes: sale.answer.quote.worked.labour.total.milli_minutes(),
                        leave_day: sale.leave_day,
                        sold: (sale.sold)(plan),
                    }),
                    reason: anew.reason.clone(),
                })
            })
            .await?;
        Ok(applied)
    }

    async fn mend(
        &self,
        catalogue: &Catalogue,
        anew: &Anew<'_>,
        is: &Reservation,
        envelope: &Envelope,
    ) -> Result<Applied, AmendError> {
        let short: Vec<&Line> = is.lines.iter().filter(|line| line.short().is_some()).collect();
        if short.is_empty() {
            return Err(AmendError::NothingMissing);
        }
        let mut of = BTreeMap::new();
        for line in &short {
            if let Some(piece) = self.ledger.piece(&line.piece).await? {
                of.insert(line.piece.clone(), lacking(&piece));
            }
        }
        let items = anew.was.map(|was| needs(&catalogue.shop, &was.order, &was.quote.worked));
        let mut tries = 0;
        loop {
            let shelf = self.ledger.read_shelf().await?;
            let found = find(&shelf, at(envelope.now), is, &short, &of, items.as_deref().unwrap_or(&[]))?;
            let (ends, lines, changes) = match found {
                Ok(found) => found,
                Err(lacks) => return Err(AmendError::Nothing(lacks)),
            };
            let reason = [anew.reason.as_str(), &changes.join("; ")];
            let reason: Vec<&str> = reason.into_iter().filter(|text| !text.is_empty()).collect();
            let command = Command::Amend(Amend {
                id: is.id.clone(),
                ends,
                planned_on: Some(is.wants().collect()),
                lines,
                sale: None,
                reason: reason.join(": "),
            });
            match self.apply(catalogue, envelope, command).await {
                Err(Error::Refused(Refusal::Taken(_))) if tries + 1 < TRIES => tries += 1,
                Err(Error::Refused(Refusal::Taken(_))) => return Err(HoldError::Overtaken.into()),
                other => return Ok(other?),
            }
        }
    }
}

/// Why a reservation that is over cannot be amended.
fn over(is: &Reservation) -> Refusal {
    match is.state {
        State::Expired => Refusal::Expired(is.id.clone(), is.expires),
        state => Refusal::NotNow(is.id.clone(), state),
    }
}

/// What a piece that falls short is to be replaced by.
pub fn lacking(piece: &pennantry_ledger::rules::Piece) -> Lacking {
    Lacking {
        piece: piece.id.clone(),
        material: piece.material.clone(),
        lot: piece.lot.clone(),
        width: piece.width,
    }
}

type Found = Result<(Vec<u32>, Vec<NewLine>, Vec<String>), Vec<Lack>>;

/// Lines that end, lines that take their place, and what that is in words.
fn find(
    shelf: &Arc<Shelf>,
    now: At,
    is: &Reservation,
    short: &[&Line],
    of: &BTreeMap<PieceId, Lacking>,
    items: &[Item],
) -> Result<Found, AmendError> {
    let mut shelf = Shelf::clone(shelf);
    let (mut ends, mut lines, mut changes, mut lacks) = (Vec::new(), Vec::new(), Vec::new(), Vec::new());
    for line in short {
        let Some(of) = of.get(&line.piece) else { continue };
        let free = without(&shelf, is, &[line.number]);
        let single = would_do(&free, now, line, of);
        let single = single.first().filter(|_| of.material.class != Class::Sundry);
        let mut instead: Vec<NewLine> = match single {
            Some((on_shelf, _)) => vec![NewLine {
                piece: on_shelf.piece.id.clone(),
                item: line.item,
                amount: line.wanted,
                shapes: line.shapes.saturating_sub(line.shapes_cut),
                shape_area: line.shape_area,
            }],
            None => Vec::new(),
        };
        if instead.is_empty() {
            instead = replanned(&free, now, line, of, items)?;
        }
        if instead.is_empty() {
            lacks.push(Lack {
                line: line.number,
                code: of.material.code.clone(),
                class: of.material.class,
                wanted: line.wanted,
                missing: line.short(),
            });
            continue;
        }
        let from: Vec<&str> = instead.iter().map(|line| line.piece.as_str()).collect();
        changes.push(format!(
            "line {} is taken from {} and no longer from {}",
            line.number,
            from.join(", "),
            line.piece
        ));
        shelf = free;
        for new in &instead {
            promise(&mut shelf, is, of, new);
        }
        ends.push(line.number);
        lines.extend(instead);
    }
    Ok(if lacks.is_empty() { Ok((ends, lines, changes)) } else { Err(lacks) })
}

/// What a line still has to give, planned on all that is free: of its own lot where that does.
fn replanned(
    shelf: &Shelf,
    now: At,
    line: &Line,
    of: &Lacking,
    items: &[Item],
) -> Result<Vec<NewLine>, AmendError> {
    let left = line.shapes.saturating_sub(line.shapes_cut).max(1);
    let sold = items.iter().find(|item| item.number == line.item && item.material == of.material);
    let wanted = match (of.material.class, sold.map(|item| &item.wanted)) {
        (Class::Cloth, Some(Wanted::Cloth(need))) => {
            let mut need = Need { charged: UNBOUNDED, ..**need };
            need.job.pieces = left;
            Wanted::Cloth(Box::new(need))
        }
        (Class::Binding, _) if line.wanted.0 % i64::from(left) == 0 => {
            let run = Length::from_um(line.wanted.0 / i64::from(left));
            Wanted::Runs(vec![run; usize::try_from(left).unwrap_or(0)])
        }
        (Class::Sundry, _) => Wanted::Count(u32::try_from(line.wanted.0).unwrap_or(u32::MAX)),
        _ => return Ok(Vec::new()),
    };
    let item = Item {
        number: line.item,
        material: of.material.clone(),
        name: String::new(),
        purpose: String::new(),
        wanted,
        charged: UNBOUNDED,
    };
    let items = [item];
    let of_lot = |shelf: &Shelf| {
        let mut only = shelf.clone();
        if let Some(pieces) = only.materials.get_mut(&of.material) {
            Arc::make_mut(pieces).retain(|on_shelf| on_shelf.piece.lot == of.lot);
        }
        only
    };
    let shelves: Vec<Shelf> =
        if of.lot.is_empty() { vec![shelf.clone()] } else { vec![of_lot(shelf), shelf.clone()] };
    let (kept, caps) = (std::collections::BTreeSet::from([of.material.code.clone()]), BTreeMap::new());
    for shelf in &shelves {
        let look = Look { shelf, now, kept: &kept, caps: &caps };
        let found = plan(&items, &[], &look).map_err(|fault| Error::Fault(fault.to_string()))?;
        if found.is_whole() {
            return Ok(found.lines());
        }
    }
    Ok(Vec::new())
}

/// Notes on a shelf what a line takes of it.
fn promise(shelf: &mut Shelf, is: &Reservation, of: &Lacking, line: &NewLine) {
    let expires = (is.state == State::Held).then_some(is.expires);
    let Some(pieces) = shelf.materials.get_mut(&of.material) else { return };
    if let Some(on_shelf) = Arc::make_mut(pieces).iter_mut().find(|on_shelf| on_shelf.piece.id == line.piece)
    {
        Arc::make_mut(on_shelf).promised.push(Promised { expires, granted: line.amount });
    }
}
