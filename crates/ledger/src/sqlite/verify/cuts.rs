//! Cuts: their parts and the remnants that they left.

use rusqlite::Connection;

use super::expect;
use crate::engine::Verified;
use crate::rules::{Amount, CutId, CutPart, CutRow};
use crate::sqlite::rows::{find_cut, find_piece};

/// Looks at one cut.
pub(super) fn look(connection: &Connection, id: &str, found: &mut Verified) -> rusqlite::Result<()> {
    let Some(cut) = find_cut(connection, &CutId::from(id))? else {
        return Ok(());
    };
    if cut.parts.is_empty() {
        found.drift.push(format!("cut {id}: nothing was cut by it"));
    }
    cut.parts.iter().try_for_each(|part| remnants(connection, &cut, part, found))
}

/// Each remnant is there and knows where it comes from; those of full width are what the part says
/// was kept. That they went back with a cut taken back is seen by their movements: something may
/// have been found on them since.
fn remnants(
    connection: &Connection,
    cut: &CutRow,
    part: &CutPart,
    found: &mut Verified,
) -> rusqlite::Result<()> {
    let id = &cut.id;
    let Some(from) = find_piece(connection, &part.piece)? else {
        found.drift.push(format!("cut {id}: the piece {} is not there", part.piece));
        return Ok(());
    };
    let mut kept = Amount::ZERO;
    for name in &part.remnants {
        let Some(remnant) = find_piece(connection, name)? else {
            found.drift.push(format!("cut {id}: the remnant {name} is not there"));
            continue;
        };
        if remnant.cut.as_ref() != Some(id) || remnant.parent.as_ref() != Some(&part.piece) {
            found.drift.push(format!("cut {id}: the remnant {name} does not know that it comes of it"));
        }
        if remnant.material != from.material || remnant.lot != from.lot {
            found.drift.push(format!("cut {id}: the remnant {name} is of another material or lot"));
        }
        if remnant.width == from.width {
            kept += remnant.received;
        }
    }
    expect(found, &format!("cut {id}: kept of {}", part.piece), &part.kept.0, &kept.0);
    Ok(())
}
