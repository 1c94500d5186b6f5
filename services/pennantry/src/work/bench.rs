//! `cut` and `undo`.

use pennantry_contract::{table, v1};

use super::{done, line, look_of, stock};
use crate::ask::{Door, Failure};
use crate::cli::{Cut, Undo};
use crate::print::{Look, bench};
use crate::program::Printed;
use crate::typed::{Amount, Offcut};
use crate::words;

/// Records what was cut: all that is still to be cut, or one line.
///
/// # Errors
/// Refused, or not asked.
pub async fn cut(flags: &Cut) -> Result<Printed, Failure> {
    let id = flags.once.id().map_err(Failure::NotAsked)?;
    let door = Door::connect(&flags.reach.server).await?;
    let request = v1::RecordCutRequest {
        request_id: id.clone(),
        reservation_id: flags.id.clone(),
        parts: part(flags).into_iter().collect(),
        cut_date: flags.on.clone(),
    };
    let sent = |channel, request| async move { stock(channel).record_cut(request).await };
    let told = door.change(&id, request, sent).await?;
    if flags.reach.json {
        return Ok(done(line(serde_json::to_string(&told))?));
    }
    let look = look_of(Look::of(&flags.reach), &door, told.reservation.as_ref()).await;
    Ok(done(bench::cut(&told, &look)))
}

/// The line that was cut; none where it was all of it.
fn part(flags: &Cut) -> Option<v1::CutPart> {
    let line = flags.line?;
    let why = flags.why.as_ref().and_then(|why| words::value(&table::STOCK_REASON, why));
    Some(v1::CutPart {
        line,
        piece_id: flags.piece.clone().unwrap_or_default(),
        taken: flags.taken.map(Amount::to_wire),
        spoiled: flags.spoiled.map(Amount::to_wire),
        why: why.unwrap_or_default(),
        offcuts: flags.kept.iter().map(Offcut::to_wire).collect(),
        done: flags.done,
        shapes: flags.shapes,
        note: flags.note.clone().unwrap_or_default(),
    })
}

/// Takes a cut back.
///
/// # Errors
/// Refused, or not asked.
pub async fn undo(flags: &Undo) -> Result<Printed, Failure> {
    let id = flags.once.id().map_err(Failure::NotAsked)?;
    let door = Door::connect(&flags.reach.server).await?;
    let request = v1::UndoCutRequest { request_id: id.clone(), cut_id: flags.cut.clone() };
    let sent = |channel, request| async move { stock(channel).undo_cut(request).await };
    let told = door.change(&id, request, sent).await?;
    if flags.reach.json {
        return Ok(done(line(serde_json::to_string(&told))?));
    }
    let look = look_of(Look::of(&flags.reach), &door, told.reservation.as_ref()).await;
    Ok(done(bench::undone(&flags.cut, &told, &look)))
}
