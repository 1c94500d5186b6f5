//! Which remnants give so many pieces: the fewest, then those of the least weight.
//!
//! With every remnant `i` cut as full as it goes, `mᵢ` pieces of it at a weight `vᵢ`, the
//! least of (remnants, weight) for `n` pieces from remnant `i` on is
//!
//! `best(i, n) = min(best(i + 1, n), best(i + 1, max(0, n − mᵢ)) + (1, vᵢ))`,
//!
//! nothing for no pieces, and never for some pieces of no remnants. Read from the first
//! remnant on, of equal ones the earlier is taken.
//!
//! Worked: of remnants with 6, 8, 10 and 12 pieces, weighing 5, 9, 4 and 7, 18 are wanted.
//! No one of them does. Of two, 6 and 12 weigh 12, 8 and 10 weigh 13, 8 and 12 weigh 16,
//! 10 and 12 weigh 11: those it is, and one of them is cut short by four.

/// Sums up to which the table is written; about two milliseconds' worth of them.
const MOST_CELLS: usize = 200_000;

/// What one remnant, or one roll, can give.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Item {
    /// Its place on the shelf.
    pub at: usize,
    /// The most pieces that it gives.
    pub most: u32,
    /// What it weighs among as many others.
    pub weight: i128,
}

/// Items taken and how heavy they are together.
type Key = (u32, i128);
const NEVER: Key = (u32::MAX, 0);

/// The items that give so many pieces, each as full as it goes, in the order given; all of
/// them where they do not give so many. Adds to `steps` what it compared.
pub(super) fn cover(items: &[Item], wanted: u32, steps: &mut u64) -> Vec<Item> {
    let useful = items.iter().filter(|item| item.most > 0).copied();
    let useful: Vec<Item> = useful.collect();
    if wanted == 0 {
        return Vec::new();
    }
    let total: u64 = useful.iter().map(|item| u64::from(item.most)).sum();
    if total <= u64::from(wanted) {
        return useful;
    }
    let places = usize::try_from(wanted).unwrap_or(usize::MAX).saturating_add(1);
    let cells = useful.len().saturating_add(1).saturating_mul(places);
    if cells > MOST_CELLS {
        return largest_first(&useful, wanted, steps);
    }
    *steps += u64::try_from(cells).unwrap_or(u64::MAX);
    exactly(&useful, places)
}

fn exactly(items: &[Item], places: usize) -> Vec<Item> {
    // row after row from the last item to the first
    let mut rows: Vec<Vec<Key>> = Vec::with_capacity(items.len() + 1);
    let mut none = vec![NEVER; places];
    if let Some(first) = none.first_mut() {
        *first = (0, 0);
    }
    rows.push(none);
    for item in items.iter().rev() {
        let Some(behind) = rows.last() else { break };
        let row = (0..places).map(|pieces| skipped(behind, pieces).min(taken(behind, pieces, *item)));
        let row = row.collect();
        rows.push(row);
    }
    let mut chosen = Vec::new();
    let mut left = places - 1;
    for (item, behind) in items.iter().zip(rows.iter().rev().skip(1)) {
        if left > 0 && taken(behind, left, *item) <= skipped(behind, left) {
            chosen.push(*item);
            left = left.saturating_sub(usize::try_from(item.most).unwrap_or(usize::MAX));
        }
    }
    chosen
}

fn skipped(behind: &[Key], pieces: usize) -> Key {
    behind.get(pieces).copied().unwrap_or(NEVER)
}

fn taken(behind: &[Key], pieces: usize, item: Item) -> Key {
    let rest = pieces.saturating_sub(usize::try_from(item.most).unwrap_or(usize::MAX));
    let (count, weight) = skipped(behind, rest);
    if count == u32::MAX { NEVER } else { (count + 1, weight + item.weight) }
}

/// The largest first, and the least heavy one that does as the last.
fn largest_first(items: &[Item], wanted: u32, steps: &mut u64) -> Vec<Item> {
    let mut order = items.to_vec();
    order.sort_by_key(|item| (std::cmp::Reverse(item.most), item.weight, item.at));
    let mut chosen: Vec<Item> = Vec::new();
    let mut left = wanted;
    for (place, item) in order.iter().enumerate() {
        *steps += 1;
        if item.most >= left {
            let rest = order.get(place..).unwrap_or_default();
            let last = rest.iter().filter(|other| other.most >= left);
            chosen.extend(last.min_by_key(|other| (other.weight, other.at)));
            break;
        }
        left -= item.most;
        chosen.push(*item);
    }
    chosen.sort_by_key(|item| item.at);
    chosen
}
