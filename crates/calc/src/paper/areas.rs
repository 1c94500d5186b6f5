//! R21 and R23: how large pennants are, together and one by one.

use pennantry_measure::{Area, Percent, Rounding, divide};

use super::rules::{Limit, Rule};
use super::{Case, Outcome, Told};

/// Area of one finished pennant.
pub(super) fn one(case: &Case<'_>) -> Area {
    case.worked.layout.finished(case.order.shape).area()
}

/// How many pennants there are on all strings.
fn count(case: &Case<'_>) -> i128 {
    i128::from(case.worked.layout.count) * i128::from(case.order.quantity)
}

/// Area of all pennants of all strings.
pub(super) fn pennants(case: &Case<'_>) -> Area {
    Area::from_um2(one(case).um2() * count(case))
}

/// Area of the wall, where its size was told.
pub(super) fn wall(case: &Case<'_>) -> Option<Area> {
    let near = &case.order.near;
    near.wall_width.zip(near.wall_height).map(|(width, height)| width * height)
}

/// R21: all pennants against the wall they hang on. Where it was not told where it hangs it may
/// be a public room: that is a duty and no more, as it is for R20.
pub(super) fn of_the_wall(case: &Case<'_>, rule: &Rule) -> Option<(Outcome, Told)> {
    let Limit::Wall(comparison, share) = rule.limit else { return None };
    let (outcome, where_it_hangs, otherwise) = match case.is_public() {
        Some(false) => return None,
        Some(true) => (Outcome::Restrict, "In a public room", ""),
        None => (
            Outcome::Duty,
            "Where it hangs was not told. In a public room",
            "say where it hangs if that is no public room; otherwise ",
        ),
    };
    let (each, all) = (one(case).um2(), pennants(case).um2());
    let (whole, part) = (i128::from(Percent::WHOLE.milli()), i128::from(share.milli()));
    let per_cent = part / 1_000;
    // up, so that a wall of that size is large enough
    let enough = square_mm(divide(all * whole, part, Rounding::Up));
    let decide = "the local fire code and the fire officer decide";
    let Some(wall) = wall(case).map(Area::um2) else {
        return Some((
            outcome,
            Told {
                measured: format!("the size of the wall was not told; the pennants are {}", square_mm(all)),
                limit: format!("{per_cent} % of the wall"),
                remedy: format!("{otherwise}tell width and height of the wall: {enough} of it are enough"),
                text: format!(
                    "{where_it_hangs} decorations may cover only so much of a wall. How large the wall is was not \
                     told, and {decide}."
                ),
            },
        ));
    };
    if !comparison.breaks(all * whole, wall * part) {
        return None;
    }
    // down: what is allowed is never more than the share
    let allowed = divide(wall * part, whole, Rounding::Down);
    let (total, most) = (count(case), allowed / each.max(1));
    let fewer = if most == 0 {
        String::from("not one of these pennants is within it: hang smaller ones")
    } else {
        let fewer = total - most;
        let pennants = if fewer == 1 { "pennant" } else { "pennants" };
        format!("hang {fewer} {pennants} fewer there, {most} of {total} in all")
    };
    Some((
        outcome,
        Told {
            measured: format!("{total} pennants of {}, {} in all", square_mm(each), square_mm(all)),
            limit: format!("{per_cent} % of a wall of {}, which is {}", square_mm(wall), square_mm(allowed)),
            remedy: format!("{otherwise}{fewer}; or hang them on a wall of {enough} or more"),
            text: format!(
                "{where_it_hangs} decorations may cover only so much of a wall, and these cover more: {decide}."
            ),
        },
    ))
}

/// R23: one pennant by itself.
pub(super) fn of_one(case: &Case<'_>, rule: &Rule) -> Option<(Outcome, Told)> {
    let Limit::Pennant(comparison, most) = rule.limit else { return None };
    let each = one(case);
    comparison.breaks(each, most).then(|| {
        (
            Outcome::Duty,
            Told {
                measured: square_mm(each.um2()),
                limit: square_mm(most.um2()),
                remedy: format!(
                    "sew in a fibre label, or make pennants of at most {}, which is {} less",
                    square_mm(most.um2()),
                    square_mm(each.um2() - most.um2())
                ),
                text: String::from(
                    "A pennant as large as this counts as a flag there, and flags say on a label what they are made of.",
                ),
            },
        )
    })
}

/// `139354.5 mm²`, every decimal of it.
pub(super) fn square_mm(um2: i128) -> String {
    let text = format!("{}.{:06}", um2 / 1_000_000, um2 % 1_000_000);
    format!("{} mm²", text.trim_end_matches('0').trim_end_matches('.'))
}
