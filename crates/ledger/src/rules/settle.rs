//! Who keeps what when a piece holds less than is promised, and what one cut can have.

use super::{Amount, Piece};

/// The clear stretches of a piece, from its free end: what lies between its flaws.
pub fn stretches(piece: &Piece) -> Vec<Amount> {
    let mut clear = Vec::with_capacity(piece.flaws.len() + 1);
    let mut begins = Amount::ZERO;
    for flaw in &piece.flaws {
        clear.push((Amount::of_length(flaw.from) - begins).or_none());
        begins = begins.max(Amount::of_length(flaw.to));
    }
    clear.push((piece.left - begins).or_none());
    clear
}

/// Clear lengths of a piece that are left beside what is promised of it, the longest first:
/// each is what one cut can have.
///
/// Promises are laid into the stretches the longest first, each into the shortest one that
/// takes it. What fits into none takes of the longest.
pub fn clear(piece: &Piece, promised: impl Iterator<Item = Amount>) -> Vec<Amount> {
    let mut free = stretches(piece);
    let mut promised: Vec<Amount> = promised.collect();
    promised.sort_unstable_by(|one, other| other.cmp(one));
    for amount in promised {
        let mut into: Option<usize> = None;
        for (place, length) in free.iter().enumerate() {
            let better = into.and_then(|into| free.get(into)).is_none_or(|best| length < best);
            if *length >= amount && better {
                into = Some(place);
            }
        }
        let longest = free.iter().enumerate().max_by_key(|(_, length)| **length).map(|(place, _)| place);
        if let Some(length) = into.or(longest).and_then(|place| free.get_mut(place)) {
            *length = (*length - amount).or_none();
        }
    }
    free.retain(|length| length.is_some());
    free.sort_unstable_by(|one, other| other.cmp(one));
    free
}
