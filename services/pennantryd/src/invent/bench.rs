//! What the bench cuts, keeps and spoils.
//!
//! A line is cut in the rows of its plan, and what it was charged beyond them stays on the piece. What is
//! left beside the last row is kept, every other time, as a narrow remnant, and what is left of a bolt too short to plan on
//! as one of the full width, wherever the shop's rule keeps it ([`useful`]); an end that it does
//! not keep is an end bit. Of a hundred lines four find a flaw, three are cut wrongly, eight need their
//! end cut square beyond what is reckoned for it, and one is damaged.

use pennantry_app::stock::{Item, Wanted};
use pennantry_calc::cutting::{self, Plan, RowKind};
use pennantry_calc::shelf::{Need, useful};
use pennantry_calc::shop::Lay;
use pennantry_ledger::Error;
use pennantry_ledger::rules::{
    Amount, Class, Command, Cut, Finish, Line, NewRemnant, Part, Piece, Reason, Reservation, ReservationId,
    Undo,
};
use pennantry_measure::Length;

use super::book::Book;
use super::sales::Sold;

/// Less than this on a bolt is taken off it with the last cut.
const STUMP: Amount = Amount(330_000);
/// Where remnants lie.
const BASKET: &str = "remnant basket";

/// How a cut is recorded.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Recorded {
    /// On its day.
    AtOnce,
    /// For a day that is over.
    For(i32),
    /// On its day, taken back, and recorded again.
    Twice,
}

/// Records the cut of a reservation.
///
/// # Errors
/// The stock cannot be had.
pub(super) async fn cut(
    book: &mut Book<'_>,
    id: &ReservationId,
    sold: &Sold,
    recorded: Recorded,
) -> Result<(), Error> {
    let day = if let Recorded::For(day) = recorded { Some(day) } else { None };
    let times = if recorded == Recorded::Twice { 2 } else { 1 };
    for time in 1..=times {
        let Some(reservation) = book.ledger.reservation(id).await? else { return Ok(()) };
        let parts = parts(book, &reservation, sold)?;
        let cut = Cut { id: book.cut(), reservation: id.clone(), parts, day };
        let name = cut.id.clone();
        book.write(Command::Cut(cut)).await?;
        if time < times {
            book.write(Command::Undo(Undo { cut: name })).await?;
        }
    }
    Ok(())
}

fn parts(book: &mut Book<'_>, reservation: &Reservation, sold: &Sold) -> Result<Vec<Part>, Error> {
    let shelf = book.ledger.shelf();
    let mut parts = Vec::new();
    for line in &reservation.lines {
        let item = usize::try_from(line.item).ok().and_then(|at| sold.items.get(at));
        let piece = item.and_then(|item| shelf.piece(&item.material, &line.piece));
        let (Some(item), Some(piece)) = (item, piece) else {
            return Err(Error::Fault(format!("line {} of {} is of nothing", line.number, reservation.id)));
        };
        parts.push(part(book, line, item, &piece.piece));
    }
    Ok(parts)
}

fn part(book: &mut Book<'_>, line: &Line, item: &Item, piece: &Piece) -> Part {
    let mut part = Part {
        line: line.number,
        piece: None,
        taken: line.wanted,
        spoiled: Amount::ZERO,
        why: Reason::None,
        shapes: None,
        remnants: Vec::new(),
        finish: Finish::WhenEnough,
        note: String::new(),
    };
    let place = book.catalogue.shop.fabrics.iter().position(|fabric| fabric.code == item.material.code);
    let (Class::Cloth, Wanted::Cloth(need), Some(fabric)) = (item.material.class, &item.wanted, place) else {
        return part;
    };
    let mut spare = piece.free();
    if let Some(plan) = in_rows(need, line, piece) {
        // only what the rows take is cut off, and the rest stays on the piece
        let taken = Amount::of_length(up(plan.used + need.squaring)).min(line.wanted);
        spare += line.wanted - taken;
        (part.taken, part.finish) = (taken, Finish::Done);
        if let Some((length, width)) = beside(need, &plan)
            && book.dice.in_hundred(50)
            && useful(&book.catalogue.shop, fabric, width, length).kept
        {
            keep(book, &mut part, piece, length, width);
        }
    }
    let (why, most) = match book.dice.from(0, 99) {
        0..=3 => (Reason::Flaw, 260),
        4..=6 => (Reason::Miscut, 240),
        7..=14 => (Reason::Squaring, 45),
        15 => (Reason::Damaged, 150),
        _ => (Reason::None, 0),
    };
    let spoiled = Amount::of_length(Length::from_mm(book.dice.from(most / 3, most)));
    if spoiled.is_some() && spoiled <= spare {
        (part.spoiled, part.why) = (spoiled, why);
        part.taken += spoiled;
        spare -= spoiled;
    }
    let promised = piece.held + piece.confirmed - line.granted;
    let stump = spare.is_some() && spare < STUMP && !promised.is_some();
    if stump && useful(&book.catalogue.shop, fabric, piece.width, spare.length()).kept {
        part.taken += spare;
        keep(book, &mut part, piece, spare.length(), piece.width);
    } else if stump && !part.spoiled.is_some() {
        part.taken += spare;
        (part.spoiled, part.why) = (spare, Reason::EndBit);
    }
    part
}

fn keep(book: &mut Book<'_>, part: &mut Part, piece: &Piece, length: Length, width: Length) {
    let id = book.piece(&piece.material.code);
    part.remnants.push(NewRemnant { id, length, width, location: BASKET.to_owned() });
}

/// The plan of a line that is cut flat off cloth of the full width, as it came from the mill, in
/// one length; none where it is cut in another way.
fn in_rows(need: &Need, line: &Line, piece: &Piece) -> Option<Plan> {
    let washed = need.shrink_across.milli() > 0 || need.shrink_along.milli() > 0;
    let whole = need.start == Length::ZERO && piece.width == need.job.cloth_width;
    if washed || !whole || need.lay != Lay::Flat {
        return None;
    }
    let plan = cutting::best(&cutting::Job { pieces: line.shapes, ..need.job }).ok()?;
    (plan.used + need.squaring <= line.wanted.length()).then_some(plan)
}

/// What the last row leaves beside it: length and width.
fn beside(need: &Need, plan: &Plan) -> Option<(Length, Length)> {
    let last = plan.bands.last().filter(|band| band.rows == 1 && band.half_left == 0)?;
    let plain = matches!(last.kind, RowKind::PlainOneWay | RowKind::PlainTwoWay);
    let width = down(Length::from_um(last.half_slack / 2) - need.job.clearance);
    (plain && width > Length::ZERO).then_some((down(last.row), width))
}

/// A bench measures whole millimetres: what is cut off up, what is kept down.
fn up(length: Length) -> Length {
    down(length + Length::from_um(999))
}

fn down(length: Length) -> Length {
    Length::from_mm(length.um().div_euclid(1_000))
}
