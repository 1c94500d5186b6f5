//! Other cloth in the place of what a reservation still has to be cut.
//!
//! The lines named end, and what they had is free; then the new ones are taken, each in full, and
//! may have of that. Numbers of lines go on, so that a line keeps its number for good.
//!
//! So a short line is mended: it ends, and another piece has what it wanted. A reservation of which
//! something is cut and nothing more is wanted is cut; one of which nothing would be left at all is
//! let go or called off instead, which is refused here.
//!
//! Where another sale takes the place of the one before, lines on which nothing is wanted any longer
//! are of the one before for good: a cut for them that is taken back gives cloth back, and nothing
//! is wanted on them again.
//!
//! What is planned is planned on the reservation as it was read. Where a cut, or one that is taken back,
//! has changed meanwhile what its lines want, the plan is of something else, and is refused.
//!
//! Line 1 wants 2.80 m of B and has 2.50 m. Amended to end it and to take 2.80 m of D, the 2.50 m of
//! B are free, and line 2 has 2.80 m of D; where D has less, nothing is changed.

use std::collections::BTreeSet;

use super::reserve::{is_bench_time, take};
use super::work::Work;
use crate::rules::{Amend, Amount, EventKind, MovementKind, Refusal, State};

/// Amends a live reservation.
pub(super) fn amend(work: &mut Work<'_>, command: &Amend) -> Result<(), Refusal> {
    let id = &command.id;
    let known = work.live(id)?;
    if command.planned_on.as_ref().is_some_and(|planned| !known.wants().eq(planned.iter().copied())) {
        return Err(Refusal::Changed(id.clone()));
    }
    let lines = known.lines.clone();
    if command.ends.is_empty() && command.lines.is_empty() && command.sale.is_none() {
        return Err(Refusal::Empty);
    }
    let mut ends: BTreeSet<u32> = BTreeSet::new();
    for &number in &command.ends {
        let line = lines.iter().find(|line| line.number == number && line.wanted.is_some());
        let line = line.ok_or_else(|| Refusal::NoLine(id.clone(), number))?;
        if !ends.insert(number) {
            return Err(Refusal::Twice(format!("line {number}")));
        }
        work.piece(&line.piece)?;
        let key = (id.clone(), number);
        work.grant(&key, Amount::ZERO, MovementKind::Release);
        if let Some(line) = work.line_mut(&key) {
            line.wanted = Amount::ZERO;
        }
    }
    if command.sale.is_some() {
        // the other sale is planned whole: what was cut for the one before is not of it
        let over = work.reservation(id)?.lines.iter().filter(|line| !line.wanted.is_some());
        let over: Vec<u32> = over.map(|line| line.number).collect();
        for number in over {
            if let Some(line) = work.line_mut(&(id.clone(), number)) {
                line.past = true;
            }
        }
    }
    take(work, id, &command.lines)?;
    let reservation = work.reservation_mut(id)?;
    if let Some(sale) = &command.sale {
        is_bench_time(sale.bench_milli_minutes)?;
        reservation.quote.clone_from(&sale.quote);
        reservation.bench_milli_minutes = sale.bench_milli_minutes;
        reservation.leave_day = sale.leave_day;
        reservation.sold.clone_from(&sale.sold);
    }
    reservation.reason.clone_from(&command.reason);
    if reservation.lines.iter().all(|line| !line.wanted.is_some()) {
        let was_cut = reservation.lines.iter().any(|line| line.used.is_some() || line.spoiled.is_some());
        if !was_cut {
            return Err(Refusal::NothingLeft(id.clone()));
        }
        reservation.state = State::Cut;
    }
    work.tell(EventKind::Amended).of(id).note(&command.reason);
    work.answer = Some(id.clone());
    Ok(())
}
