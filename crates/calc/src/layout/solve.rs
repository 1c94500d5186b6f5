//! From what was said to what was not.

use pennantry_measure::{Length, Percent, Rounding, bounds, divide};

use super::marks::Ruler;
use super::{Alternative, Layout, Pitch, Size, body_length, exact_gap, fit_count, narrow, to_binding_edge, to_top_edge};
use crate::hang;
use crate::notice::{Code, Notice};
use crate::order::{AskedLength, Field, Leftover, Order, Parity, Reason, Violation};
use crate::shop::{Shop, SizeAt};

/// The sizes at the top edge, and what the wanted length leaves.
struct Frame {
    top: Size,
    seen: Size,
    gap: Length,
    min_gap: Option<Length>,
    max_gap: Option<Length>,
    least_tail: Length,
    /// Overall length and the room in it, where a length was said.
    said: Option<Said>,
}

#[derive(Clone, Copy)]
struct Said {
    field: Field,
    flagged: bool,
    overall: Length,
    room: Length,
    /// What has to be added to a room to say it as it was said.
    beyond_room: Length,
}

/// A count and what goes with it. The gap is exact where it is spread.
#[derive(Clone, Copy)]
struct Fill {
    count: u32,
    flagged: Length,
    tail: Tail,
    capped: bool,
}

/// Tails are the least, or what the overall length leaves.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Tail {
    Least,
    Rest,
}

/// Lays a checked order out.
///
/// # Errors
/// Contradictions between length, count, gap and tails, each with the values that would
/// mend it; lengths and counts that come out beyond what may be made.
pub fn solve(shop: &Shop, order: &Order) -> Result<Layout, Vec<Violation>> {
    let frame = frame(shop, order)?;
    let fill = match (order.count, frame.said) {
        (Some(count), None) => by_count(&frame, count),
        (None, None) => by_count(&frame, letters(order).max(1)),
        (None, Some(said)) => by_length(&frame, order, said)?,
        (Some(count), Some(said)) => by_both(&frame, order, said, count)?,
    };
    within_bounds(shop, order, &frame, &fill)?;
    Ok(finish(shop, order, &frame, &fill))
}

fn letters(order: &Order) -> u32 {
    u32::try_from(order.letters.len()).unwrap_or(u32::MAX)
}

fn one(field: Field, reason: Reason, message: String) -> Vec<Violation> {
    vec![Violation::new(field, reason, message)]
}

fn frame(shop: &Shop, order: &Order) -> Result<Frame, Vec<Violation>> {
    let insertion = shop.bindings.get(order.binding).map_or(Length::ZERO, crate::shop::Binding::insertion);
    let size = Size { width: order.width, drop: order.drop };
    let (top, seen) = match order.size_at {
        SizeAt::TopEdge => {
            if size.drop <= insertion {
                return Err(one(
                    Field::Drop,
                    Reason::DoesNotFit,
                    format!(
                        "a drop of {} disappears into the binding, which takes {insertion}: give more, or a narrower binding",
                        size.drop
                    ),
                ));
            }
            (size, to_binding_edge(size, insertion))
        }
        SizeAt::BindingEdge => (to_top_edge(size, insertion), size),
    };
    // hidden is what the binding hides of a width; a pitch is the same at both edges
    let hidden = top.width - seen.width;
    let at_top = |gap: Length| match order.size_at {
        SizeAt::TopEdge => gap,
        SizeAt::BindingEdge => gap - hidden,
    };
    let hung = matches!(order.length, Some(AskedLength::Hang(_)));
    let least_tail = if hung { order.tail.max(shop.bench.knot) } else { order.tail };
    let tails = least_tail * 2;
    let turns = shop.bench.turn_under * 2;
    let said = order.length.map(|length| {
        let (overall, room, beyond_room) = match length {
            AskedLength::Flagged(asked) => {
                let room = if order.size_at == SizeAt::BindingEdge { asked + hidden } else { asked };
                (room + tails, room, asked - room)
            }
            AskedLength::Overall(overall) => (overall, overall - tails, tails),
            AskedLength::Binding(binding) => (binding - turns, binding - turns - tails, tails + turns),
            AskedLength::Hang(wanted) => {
                let overall = hang::total_curve(wanted) + shop.bench.knot * 2;
                (overall, overall - tails, tails)
            }
        };
        let flagged = matches!(length, AskedLength::Flagged(_));
        Said { field: length.field(), flagged, overall, room, beyond_room }
    });
    Ok(Frame {
        top,
        seen,
        gap: at_top(order.gap),
        min_gap: order.min_gap.map(at_top),
        max_gap: order.max_gap.map(at_top),
        least_tail,
        said,
    })
}

fn by_count(frame: &Frame, count: u32) -> Fill {
    let flagged = body_length(count, frame.top.width, frame.gap);
    Fill { count, flagged, tail: Tail::Least, capped: false }
}

/// The most pennants that fit, or those whose spread gap comes nearest to the usual.
fn by_length(frame: &Frame, order: &Order, said: Said) -> Result<Fill, Vec<Violation>> {
    let (width, room) = (frame.top.width, said.room);
    let floor = match order.leftover {
        Leftover::Tails => frame.gap,
        Leftover::Gaps => frame.min_gap.unwrap_or(frame.gap),
    };
    let most = fit_count(room, width, floor);
    let Some(most) = at_most(most, order.parity) else {
        let fewest = if order.parity == Some(Parity::Even) { 2 } else { 1 };
        let least = body_length(fewest, width, floor) + said.beyond_room;
        return Err(one(
            said.field,
            Reason::DoesNotFit,
            format!(
                "there is no room for {}: {} wide pennants with tails of {} need {least} or more said this way, or a smaller tail or pennant",
                if fewest == 1 { "a pennant" } else { "two pennants" },
                width,
                frame.least_tail
            ),
        ));
    };
    if order.leftover == Leftover::Tails {
        let flagged = body_length(most, width, frame.gap);
        return Ok(Fill { count: most, flagged, tail: Tail::Rest, capped: false });
    }
    // fewer pennants have wider gaps: the least count whose gap is not above the greatest
    let fewest = frame.max_gap.map_or(1, |max| {
        let count = divide((room + max).wide(), (width + max).wide(), Rounding::Up);
        u32::try_from(count).unwrap_or(u32::MAX)
    });
    let usual = fit_count(room, width, frame.gap);
    let below = at_most(usual.min(most), order.parity);
    let above = at_least(usual + 1, order.parity).filter(|count| *count <= most);
    let within = |count: &u32| *count >= fewest || *count == 1;
    let mut best = match (below.filter(within), above.filter(within)) {
        (Some(below), Some(above)) if nearer(frame.gap, room, width, above, below) => Some(above),
        (Some(below), _) => Some(below),
        (None, above) => above,
    };
    let words = letters(order);
    if let Some(count) = best
        && count < words
        && words <= most
    {
        best = at_least(words, order.parity).filter(|count| *count <= most).or(best);
    }
    Ok(match best {
        Some(1) => Fill { count: 1, flagged: width, tail: Tail::Rest, capped: false },
        Some(count) => Fill { count, flagged: room, tail: Tail::Least, capped: false },
        None => capped(frame, most),
    })
}

/// At the greatest gap; the rest goes to the tails.
fn capped(frame: &Frame, count: u32) -> Fill {
    let gap = frame.max_gap.unwrap_or(frame.gap);
    Fill { count, flagged: body_length(count, frame.top.width, gap), tail: Tail::Rest, capped: true }
}

/// Whether the spread gap of `a` pennants is nearer to the usual than that of `b`, or
/// as near: more pennants win a tie.
fn nearer(gap: Length, room: Length, width: Length, a: u32, b: u32) -> bool {
    let off = |count: u32| {
        let spread = exact_gap(room, width, count)?;
        Some(((spread.numerator - gap.wide() * spread.denominator).abs(), spread.denominator))
    };
    match (off(a), off(b)) {
        (Some((an, ad)), Some((bn, bd))) => an * bd <= bn * ad,
        (a, _) => a.is_some(),
    }
}

fn at_most(count: u32, parity: Option<Parity>) -> Option<u32> {
    let count = match parity {
        Some(parity) if !parity.holds(count) => count.checked_sub(1)?,
        _ => count,
    };
    (count > 0).then_some(count)
}

fn at_least(count: u32, parity: Option<Parity>) -> Option<u32> {
    match parity {
        Some(parity) if !parity.holds(count) => count.checked_add(1),
        _ => Some(count),
    }
}

fn by_both(frame: &Frame, order: &Order, said: Said, count: u32) -> Result<Fill, Vec<Violation>> {
    let (width, room) = (frame.top.width, said.room);
    if order.gap_given || count == 1 {
        let flagged = body_length(count, width, frame.gap);
        if flagged <= room {
            return Ok(Fill { count, flagged, tail: Tail::Rest, capped: false });
        }
        return Err(too_long(frame, said, count, flagged, frame.gap));
    }
    let floor = frame.min_gap.unwrap_or(frame.gap.min(Length::ZERO));
    let least = body_length(count, width, floor);
    if least > room {
        return Err(too_long(frame, said, count, least, floor));
    }
    if let Some(max) = frame.max_gap
        && body_length(count, width, max) < room
    {
        return Ok(capped(frame, count));
    }
    Ok(Fill { count, flagged: room, tail: Tail::Least, capped: false })
}

/// Count, gap, tails and length clash: everything that would mend it.
fn too_long(frame: &Frame, said: Said, count: u32, flagged: Length, gap: Length) -> Vec<Violation> {
    let width = frame.top.width;
    let mut mends = Vec::new();
    let most = fit_count(said.room, width, gap);
    if most > 0 {
        mends.push(format!("{most} pennants at most"));
    }
    if let Some(spread) = exact_gap(said.room, width, count) {
        let largest = narrow(divide(spread.numerator, spread.denominator, Rounding::Down));
        if largest >= Length::ZERO && spread.numerator >= 0 {
            mends.push(format!("a gap of {largest} at most"));
        }
    }
    let spare = said.overall - flagged;
    if !said.flagged && spare >= Length::ZERO {
        mends.push(format!("tails of {} at most", Length::from_um(spare.um() / 2)));
    }
    mends.push(format!("a length of {} or more, said this way", flagged + said.beyond_room));
    let tails = if said.flagged { String::new() } else { format!(" and tails of {}", frame.least_tail) };
    one(
        Field::Count,
        Reason::Contradiction,
        format!(
            "{count} pennants {width} wide at a gap of {gap} fill {flagged}{tails}, but there is room for {}: give {}",
            said.room.max(Length::ZERO),
            mends.join(", or ")
        ),
    )
}

fn within_bounds(shop: &Shop, order: &Order, frame: &Frame, fill: &Fill) -> Result<(), Vec<Violation>> {
    let mut found = Vec::new();
    let said_by = frame.said.map_or(Field::Count, |said| said.field);
    if let (Some(parity), Some(count)) = (order.parity, order.count)
        && !parity.holds(count)
    {
        let below = count.checked_sub(1).filter(|c| *c > 0).map(|c| format!("{c} or ")).unwrap_or_default();
        let wanted = if parity == Parity::Odd { "an odd" } else { "an even" };
        found.push(Violation::new(
            Field::Parity,
            Reason::Contradiction,
            format!("{wanted} count is asked, and {count} pennants: give {below}{}, or leave one of the two out", count + 1),
        ));
    }
    let most = bounds::PENNANTS.most;
    if fill.count > most {
        found.push(Violation::new(
            said_by,
            Reason::OutOfRange,
            format!("that makes {} pennants on one string: {most} is the most; ask for less, or for wider gaps", fill.count),
        ));
    }
    let each = u64::from(fill.count) * u64::from(order.construction.layers());
    let pieces = each * u64::from(order.quantity);
    let most = u64::from(bounds::PIECES.most);
    if pieces > most {
        found.push(Violation::new(
            Field::Quantity,
            Reason::OutOfRange,
            format!(
                "that makes {pieces} pieces to cut: {most} is the most for one order; ask for {} such strings at most",
                most.checked_div(each).unwrap_or(0)
            ),
        ));
    }
    if frame.said.is_none() && (fill.flagged < shop.least || fill.flagged > shop.most) {
        let (width, gap) = (frame.top.width, frame.gap);
        let longest = fit_count(shop.most, width, gap);
        let shortest = divide((shop.least + gap).wide(), (width + gap).wide(), Rounding::Up);
        let field = if order.count.is_some() { Field::Count } else { Field::Lettering };
        found.push(Violation::new(
            field,
            Reason::OutOfRange,
            format!(
                "{} pennants come to {}, and {} makes {} to {}: give {shortest} to {longest} pennants",
                fill.count, fill.flagged, shop.name, shop.least, shop.most
            ),
        ));
    }
    found.sort_by_key(|violation| violation.field);
    if found.is_empty() { Ok(()) } else { Err(found) }
}

fn finish(shop: &Shop, order: &Order, frame: &Frame, fill: &Fill) -> Layout {
    let width = frame.top.width;
    let (overall, tail) = tails(frame, fill);
    let spread = exact_gap(fill.flagged, width, fill.count);
    let gap = spread.map_or(frame.gap, Pitch::nearest);
    let pitch = match spread {
        Some(_) => Pitch { numerator: (fill.flagged - width).wide(), denominator: i128::from(fill.count) - 1 },
        None => Pitch { numerator: (width + frame.gap).wide(), denominator: 1 },
    };
    let binding_cut = overall + shop.bench.turn_under * 2;
    let ruler = Ruler { flagged: fill.flagged, width, binding_cut, count: fill.count, grain: shop.bench.grain };
    let listed = if fill.count <= bounds::MARKS_LISTED { fill.count } else { 0 };
    let hidden = width - frame.seen.width;
    let hang = match order.length {
        Some(AskedLength::Hang(wanted)) => Some(hang::hang_up(
            wanted,
            shop.bench.knot,
            fill.count,
            pitch.numerator,
            pitch.denominator,
            width,
            frame.top.drop,
        )),
        _ => None,
    };
    let share = divide(
        fill.flagged.wide() * i128::from(shop.bench.tolerance_share.milli()),
        i128::from(Percent::WHOLE.milli()),
        Rounding::HalfUp,
    );
    Layout {
        count: fill.count,
        gap,
        flagged: fill.flagged,
        overall,
        binding_cut,
        tail,
        top_width: width,
        top_drop: frame.top.drop,
        visible_width: frame.seen.width,
        visible_drop: frame.seen.drop,
        visible_gap: gap + hidden,
        visible_flagged: fill.flagged - hidden,
        tolerance: shop.bench.tolerance.max(narrow(share)),
        pitch,
        alternatives: alternatives(frame, order, fill),
        marks: (0..listed).map(|place| ruler.mark(place)).collect(),
        first: ruler.mark(0),
        last: ruler.mark(fill.count - 1),
        notices: notices(frame, fill, gap, tail, hang.as_ref()),
        hang,
        steps: u64::from(listed) + 8,
    }
}

fn tails(frame: &Frame, fill: &Fill) -> (Length, Length) {
    match (frame.said, fill.tail) {
        (Some(said), Tail::Rest) => {
            let rest = divide((said.overall - fill.flagged).wide(), 2, Rounding::HalfUp);
            (said.overall, narrow(rest))
        }
        _ => (fill.flagged + frame.least_tail * 2, frame.least_tail),
    }
}

/// One fewer and one more under the same rule.
fn alternatives(frame: &Frame, order: &Order, fill: &Fill) -> Vec<Alternative> {
    let width = frame.top.width;
    let spread = fill.tail == Tail::Least && frame.said.is_some();
    let fewest = letters(order).max(1);
    let floor = frame.min_gap.unwrap_or(frame.gap.min(Length::ZERO));
    let other = |count: u32| -> Option<Alternative> {
        if count < fewest || count > bounds::PENNANTS.most {
            return None;
        }
        let (gap, flagged, tail) = match frame.said {
            None => (frame.gap, body_length(count, width, frame.gap), frame.least_tail),
            Some(said) if spread && count > 1 => {
                let gap = exact_gap(said.room, width, count)?.nearest();
                if gap < floor {
                    return None;
                }
                (gap, said.room, frame.least_tail)
            }
            Some(said) => {
                let gap = if fill.capped { frame.max_gap.unwrap_or(frame.gap) } else { frame.gap };
                let flagged = body_length(count, width, gap);
                let rest = narrow(divide((said.overall - flagged).wide(), 2, Rounding::HalfUp));
                // a flagged length may come out longer than asked; other lengths are fixed
                let tail = if said.flagged { rest.max(frame.least_tail) } else { rest };
                if tail < frame.least_tail {
                    return None;
                }
                (gap, flagged, tail)
            }
        };
        let gap = if count == 1 { Length::ZERO } else { gap };
        Some(Alternative { count, gap, flagged, tail })
    };
    [fill.count.checked_sub(1), fill.count.checked_add(1)].into_iter().flatten().filter_map(other).collect()
}

fn notices(frame: &Frame, fill: &Fill, gap: Length, tail: Length, hang: Option<&hang::HangLayout>) -> Vec<Notice> {
    let mut notices = Vec::new();
    if fill.count > 1 && gap <= Length::ZERO {
        let message = if gap == Length::ZERO {
            String::from(
                "with no gap the tops touch: where sides are raised into the binding they overlap in it, and make it bulky to stitch",
            )
        } else {
            format!("at a gap of {gap} the tops overlap in the binding, which makes it bulky to stitch")
        };
        notices.push(Notice::about(Code::TopsOverlap, Field::Gap, message));
    }
    if fill.capped {
        let max = frame.max_gap.unwrap_or(gap);
        notices.push(Notice::about(
            Code::GapCapped,
            Field::MaxGap,
            format!("the greatest gap of {max} was reached; what was left over went to the tails, now {tail} each"),
        ));
    }
    let behind = hang.map_or(0, |hang| hang.hooks.iter().filter(|hook| !hook.in_gap).count());
    if behind > 0 {
        notices.push(Notice::about(
            Code::HookBehindPennant,
            Field::Swags,
            format!("{behind} of the hooks between the ends come behind a pennant: there is no gap for them"),
        ));
    }
    notices
}
