//! What of the last thirteen weeks was wasted, and how.
//!
//! | figure | formula |
//! |---|---|
//! | taken | used + spoiled + ends + flaws, in length |
//! | layout | `(D - N) / D`: `D` the area used by cuts of which the shapes' area is known, `N` the area of those shapes |
//! | all | `(A - N + w W) / (A + w W)`: `A` the area used, `W` the length spoiled, lost in ends and cut out for flaws, `w` the usable width |
//!
//! Neither is told where the area of no shape is known; the second not where that of some is
//! unknown either, nor without a width: the catalogue's, or that of all pieces on the shelf
//! where they are of one. Shapes of more area than was used for them are a mistake of whoever
//! wrote them: nothing is told, and that is said.
//!
//! Example: 10.00 m used at 1.40 m, 11.20 m² in shapes: 20 % between them. With 0.40 m
//! of ends, 14.56 m² were taken, and 23.1 % of that is in no shape.

use pennantry_ledger::rules::DayUse;
use pennantry_ledger::stand::Standing;
use pennantry_measure::Length;

use super::history::THIRTEEN_WEEKS;
use super::number::{quotient, real};
use super::told::{Note, Wastage};

/// What thirteen weeks wasted, and what cannot be said of it.
pub(super) fn wastage(
    quarter: &DayUse,
    today: i32,
    width: Option<Length>,
    standing: &Standing,
) -> (Wastage, Option<Note>) {
    let wasted = quarter.wasted();
    let mut told = Wastage {
        from: today.saturating_sub(THIRTEEN_WEEKS),
        to: today.saturating_sub(1),
        taken: (quarter.used + wasted).length(),
        ends: quarter.ends.length(),
        spoiled: quarter.spoiled.length(),
        flawed: quarter.flawed.length(),
        layout_percent: None,
        all_percent: None,
    };
    let note = |code, message: &str| Some(Note { code, message: message.to_owned() });
    let DayUse { used_area: used, drawn_area: drawn, net_area: net, .. } = *quarter;
    if !quarter.used.is_some() && !wasted.is_some() {
        return (told, None);
    }
    if drawn <= 0 {
        let message = "What was wasted between the shapes cannot be said: the area of no shape is known.";
        return (told, note("AREA_NOT_KNOWN", message));
    }
    if net > drawn || drawn > used {
        let message = "What was wasted between the shapes cannot be said: they are written with more area than was used for them.";
        return (told, note("AREA_TOO_GREAT", message));
    }
    told.layout_percent = percent(real(drawn) - real(net), real(drawn));
    if drawn < used {
        let message = "What was wasted between the shapes is told of the cuts of which their area is known, and all of it cannot be.";
        return (told, note("AREA_PARTLY_KNOWN", message));
    }
    let Some(width) = width.or_else(|| width_of(standing)) else {
        let message = "What was wasted in all cannot be said: no one usable width is known.";
        return (told, note("WIDTH_NOT_KNOWN", message));
    };
    let lost = real(wasted.0) * real(width.um());
    told.all_percent = percent(real(used) - real(net) + lost, real(used) + lost);
    (told, None)
}

fn percent(part: f64, of: f64) -> Option<f64> {
    quotient(100.0 * part, of)
}

/// The usable width of all pieces on the shelf, where it is one.
fn width_of(standing: &Standing) -> Option<Length> {
    let mut widths = standing.lots.iter().flat_map(|lot| &lot.pieces).map(|piece| piece.width);
    let first = widths.next()?;
    widths.all(|width| width == first).then_some(first)
}
