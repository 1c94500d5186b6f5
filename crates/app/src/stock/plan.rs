//! From which pieces an order is taken.
//!
//! Materials are planned one after the other in the order of the items, and all items of one
//! material together, so that they come of one dye lot where one does. The rules are those of
//! [`pennantry_calc::shelf`]: nothing missing, the fewest lots, remnants first, never more
//! new cloth than is charged. What is promised to others and what lies between flaws is left
//! alone. Of pieces that are as good, the one that came first is cut first; pieces whose lot is
//! not known are a lot each, but for remnants of one piece.
//!
//! A material of which the shop never received anything is not kept: of cloth and binding all
//! is then missing; things that are counted are left out, and said to be.

use std::cmp::Reverse;
use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use pennantry_calc::cutting::PlanError;
use pennantry_calc::shelf::{Need, RunTake, Stretch, left, lengths, plans};
use pennantry_ledger::rules::{Amount, At, Class, Material, NewLine, PieceId, PieceKind, Reservation, State};
use pennantry_ledger::shelf::{OnShelf, Promised, Shelf};
use pennantry_measure::Length;

use super::needs::{Charged, Item, Wanted};

/// A shelf as it is looked at for a plan.
#[derive(Debug)]
pub struct Look<'a> {
    /// What lies there.
    pub shelf: &'a Shelf,
    /// When: holds whose time is over count for nothing.
    pub now: At,
    /// Codes of what is counted and was received at some time.
    pub kept: &'a BTreeSet<String>,
    /// Pieces of which one cut can have no more than so much, whatever the shelf says.
    pub caps: &'a BTreeMap<PieceId, Amount>,
}

/// From which pieces an order is taken.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Plan {
    /// Item by item.
    pub uses: Vec<Use>,
}

/// From which pieces one item is taken.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Use {
    /// The item's number.
    pub item: u32,
    /// Of which material.
    pub material: Material,
    /// The material's name.
    pub name: String,
    /// What it is for.
    pub purpose: String,
    /// Whether the shop keeps it in stock.
    pub kept: bool,
    /// The area of one shape that is cut, in square micrometres; nought where it is not known.
    pub shape_area: i64,
    /// What it is taken from.
    pub takes: Vec<Take>,
    /// How much is missing: of cloth, the length of a full bolt that it would take.
    pub missing: Amount,
    /// How much more new cloth than was charged would give what is missing, where that would.
    pub over: Option<Length>,
    /// New length taken.
    pub new: Length,
    /// Length charged.
    pub charged: Length,
    /// Dye lots it comes from.
    pub lots: u32,
}

/// What is taken of one piece.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Take {
    /// The piece.
    pub piece: PieceId,
    /// Its dye lot.
    pub lot: String,
    /// Whether it is a remnant, or a roll that was begun.
    pub remnant: bool,
    /// How much.
    pub amount: Amount,
    /// Cut shapes, runs or things it gives.
    pub shapes: u32,
}

impl Plan {
    /// Whether all of it is there.
    pub fn is_whole(&self) -> bool {
        self.uses.iter().all(|used| !used.missing.is_some())
    }

    /// What a reservation takes.
    pub fn lines(&self) -> Vec<NewLine> {
        let of = |used: &Use| {
            let line = |take: &Take| NewLine {
                piece: take.piece.clone(),
                item: used.item,
                amount: take.amount,
                shapes: take.shapes,
                shape_area: used.shape_area,
            };
            used.takes.iter().map(line).collect::<Vec<_>>()
        };
        self.uses.iter().flat_map(of).collect()
    }
}

/// Plans an order on a shelf.
///
/// # Errors
/// A fault of the program: a plan that does not stand up to being rebuilt.
pub fn plan(items: &[Item], charged: &[Charged], look: &Look<'_>) -> Result<Plan, PlanError> {
    let mut uses: Vec<Use> = Vec::with_capacity(items.len());
    for item in items {
        if uses.iter().any(|used| used.material == item.material) {
            continue;
        }
        let same: Vec<&Item> = items.iter().filter(|other| other.material == item.material).collect();
        let mut board = Pieces::of(look, &item.material);
        match item.material.class {
            Class::Cloth => uses.extend(cloth(&same, charged, &mut board)?),
            Class::Binding => uses.extend(same.iter().map(|item| binding(item, &mut board))),
            Class::Sundry => uses.extend(same.iter().map(|item| {
                let kept = look.kept.contains(&item.material.code) || !board.list.is_empty();
                counted(item, &mut board, kept)
            })),
        }
    }
    uses.sort_by_key(|used| used.item);
    Ok(Plan { uses })
}

/// Clear stretches of a material.
struct Pieces<'a> {
    pieces: Vec<&'a OnShelf>,
    list: Vec<Stretch>,
}

impl<'a> Pieces<'a> {
    fn of(look: &Look<'a>, material: &Material) -> Pieces<'a> {
        let mut pieces: Vec<&OnShelf> = look.shelf.of(material).iter().map(Arc::as_ref).collect();
        pieces.sort_by(|one, other| (one.piece.at, &one.piece.id).cmp(&(other.piece.at, &other.piece.id)));
        let mut lots: Vec<(&str, &str)> = Vec::new();
        let mut list = Vec::new();
        for (number, on_shelf) in pieces.iter().enumerate() {
            let key = lot_of(on_shelf, &pieces);
            let lot = lots.iter().position(|known| *known == key).unwrap_or_else(|| {
                lots.push(key);
                lots.len() - 1
            });
            let cap = look.caps.get(&on_shelf.piece.id);
            let clear = on_shelf.clear(look.now);
            for clear in clear.into_iter().take(if cap.is_some() { 1 } else { usize::MAX }) {
                let length = cap.map_or(clear, |cap| clear.min(*cap)).length();
                if length > Length::ZERO {
                    let remnant = is_begun(on_shelf);
                    list.push(Stretch { piece: number, lot, remnant, width: on_shelf.piece.width, length });
                }
            }
        }
        Pieces { pieces, list }
    }

    fn take(&self, stretch: usize, amount: Amount, shapes: u32) -> Option<Take> {
        let stretch = self.list.get(stretch)?;
        let piece = &self.pieces.get(stretch.piece)?.piece;
        let (id, lot) = (piece.id.clone(), piece.lot.clone());
        Some(Take { piece: id, lot, remnant: stretch.remnant, amount, shapes })
    }

    fn shorten(&mut self, takes: &[RunTake], places: &[usize]) {
        for take in takes {
            let stretch = places.get(take.stretch).and_then(|place| self.list.get_mut(*place));
            if let Some(stretch) = stretch {
                stretch.length = stretch.length - take.length;
            }
        }
    }
}

/// A remnant, or a roll or box from which something was taken.
pub(super) fn is_begun(on_shelf: &OnShelf) -> bool {
    let piece = &on_shelf.piece;
    match piece.kind {
        PieceKind::Bolt => false,
        PieceKind::Remnant => true,
        PieceKind::Roll | PieceKind::Box => piece.left < piece.received || piece.parent.is_some(),
    }
}

/// The lot of a piece; where none is known, its own or that of the piece it was cut from, as far
/// back as those lie here.
fn lot_of<'a>(on_shelf: &'a OnShelf, all: &[&'a OnShelf]) -> (&'a str, &'a str) {
    let mut piece = &on_shelf.piece;
    if !piece.lot.is_empty() {
        return (&piece.lot, "");
    }
    for _ in 0..all.len() {
        let Some(parent) = &piece.parent else { break };
        match all.iter().find(|other| other.piece.id == *parent) {
            Some(found) => piece = &found.piece,
            None => return ("", parent.as_str()),
        }
    }
    ("", piece.id.as_str())
}

fn cloth(items: &[&Item], charged: &[Charged], board: &mut Pieces<'_>) -> Result<Vec<Use>, PlanError> {
    let charge = |item: &Item| {
        let sold = charged
            .iter()
            .find(|sold| sold.code == item.material.code && sold.purpose == item.purpose)
            .map(|sold| sold.charged);
        sold.unwrap_or(item.charged)
    };
    let mut uses = Vec::with_capacity(items.len());
    let cut: Vec<(&Item, Need)> = items
        .iter()
        .filter_map(|item| match &item.wanted {
            Wanted::Cloth(need) => Some((*item, Need { charged: charge(item), ..**need })),
            _ => None,
        })
        .collect();
    let wanted: Vec<Need> = cut.iter().map(|(_, need)| *need).collect();
    let found = plans(&wanted, &board.list)?;
    for ((item, need), plan) in cut.iter().zip(&found) {
        let takes = plan
            .takes
            .iter()
            .filter_map(|take| board.take(take.stretch, Amount::of_length(take.length), take.pieces))
            .collect();
        uses.push(Use {
            takes,
            missing: if plan.missing > 0 {
                // whatever it is, it is more than nothing
                Amount::of_length(plan.short).max(Amount(1))
            } else {
                Amount::ZERO
            },
            over: plan.over,
            new: plan.new_cloth,
            charged: need.charged,
            lots: u32::try_from(plan.lots).unwrap_or(u32::MAX),
            ..nothing_of(item)
        });
    }
    for plan in &found {
        board.list = left(&board.list, plan);
    }
    for item in items {
        if let Wanted::Across { length, width, .. } = item.wanted {
            let before: Vec<usize> = uses
                .iter()
                .flat_map(|used| &used.takes)
                .filter_map(|take| board.list.iter().position(|s| board.id(s) == Some(&take.piece)))
                .filter_map(|place| board.list.get(place).map(|stretch| stretch.lot))
                .collect();
            uses.push(across(item, length.min(charge(item)), width, &before, board));
        }
    }
    Ok(uses)
}

impl Pieces<'_> {
    fn id(&self, stretch: &Stretch) -> Option<&PieceId> {
        self.pieces.get(stretch.piece).map(|on_shelf| &on_shelf.piece.id)
    }
}

/// One length of full width: off a lot that is cut anyway where that has it.
fn across(item: &Item, length: Length, width: Length, lots: &[usize], board: &mut Pieces<'_>) -> Use {
    let wide = |stretch: &Stretch| stretch.width >= width;
    for same in [true, false] {
        let places: Vec<usize> = (0..board.list.len())
            .filter(|place| {
                board.list.get(*place).is_some_and(|s| wide(s) && (!same || lots.contains(&s.lot)))
            })
            .collect();
        let list: Vec<Stretch> = places.iter().filter_map(|place| board.list.get(*place).copied()).collect();
        let found = lengths(&[length], &list);
        if found.missing.is_empty() {
            return served(item, &found, &places, board);
        }
    }
    Use { missing: Amount::of_length(length), ..nothing_of(item) }
}

fn served(
    item: &Item,
    found: &pennantry_calc::shelf::RunsPlan,
    places: &[usize],
    board: &mut Pieces<'_>,
) -> Use {
    let takes = found
        .takes
        .iter()
        .filter_map(|take| {
            let runs = u32::try_from(take.runs.len()).unwrap_or(u32::MAX);
            board.take(*places.get(take.stretch)?, Amount::of_length(take.length), runs)
        })
        .collect();
    board.shorten(&found.takes, places);
    Use {
        takes,
        missing: Amount::of_length(found.short),
        new: found.new_length,
        lots: u32::try_from(found.lots).unwrap_or(u32::MAX),
        ..nothing_of(item)
    }
}

fn binding(item: &Item, board: &mut Pieces<'_>) -> Use {
    let Wanted::Runs(runs) = &item.wanted else { return nothing_of(item) };
    let places: Vec<usize> = (0..board.list.len()).collect();
    let found = lengths(runs, &board.list);
    served(item, &found, &places, board)
}

fn counted(item: &Item, board: &mut Pieces<'_>, kept: bool) -> Use {
    let Wanted::Count(count) = item.wanted else { return nothing_of(item) };
    let mut used = Use { kept, ..nothing_of(item) };
    if !kept {
        return used;
    }
    let mut wanted = Amount(i64::from(count));
    // boxes that were begun first, then the fullest, so that few are opened
    let mut order: Vec<usize> = (0..board.list.len()).collect();
    order.sort_by_key(|place| {
        board.list.get(*place).map(|box_| (!box_.remnant, Reverse(box_.length), box_.piece))
    });
    for place in order {
        let Some(stretch) = board.list.get(place) else { continue };
        let amount = Amount::of_length(stretch.length).min(wanted);
        if !amount.is_some() {
            continue;
        }
        wanted -= amount;
        used.takes.extend(board.take(place, amount, u32::try_from(amount.0).unwrap_or(u32::MAX)));
    }
    used.missing = wanted;
    used.lots = u32::try_from(used.takes.len()).unwrap_or(u32::MAX);
    used
}

fn nothing_of(item: &Item) -> Use {
    Use {
        item: item.number,
        material: item.material.clone(),
        name: item.name.clone(),
        purpose: item.purpose.clone(),
        kept: true,
        shape_area: item.shape_area(),
        takes: Vec::new(),
        missing: Amount::ZERO,
        over: None,
        new: Length::ZERO,
        charged: item.charged,
        lots: 0,
    }
}

/// The shelf as it would be if what some lines of a reservation hold were free.
pub fn without(shelf: &Shelf, reservation: &Reservation, lines: &[u32]) -> Shelf {
    let mut shelf = shelf.clone();
    let expires = match reservation.state {
        State::Held => Some(reservation.expires),
        State::Confirmed => None,
        _ => return shelf,
    };
    for line in reservation.lines.iter().filter(|line| lines.contains(&line.number) && line.granted.is_some())
    {
        let its = Promised { expires, granted: line.granted };
        for pieces in shelf.materials.values_mut() {
            let Some(place) = pieces.iter().position(|on_shelf| on_shelf.piece.id == line.piece) else {
                continue;
            };
            let list = Arc::make_mut(pieces);
            if let Some(on_shelf) = list.get_mut(place) {
                let on_shelf = Arc::make_mut(on_shelf);
                if let Some(found) = on_shelf.promised.iter().position(|promised| *promised == its) {
                    on_shelf.promised.remove(found);
                }
            }
        }
    }
    shelf
}
