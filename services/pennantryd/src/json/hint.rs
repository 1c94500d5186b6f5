//! What a key or a value that is not known may have meant.

use pennantry_contract::table::{Kind, Message};

/// The nearest of some names, if one is near enough to be what was meant.
pub fn nearest<'a>(name: &str, known: impl Iterator<Item = &'a str>) -> Option<&'a str> {
    let wanted = plain(name);
    let most = 1.max(wanted.len() / 4);
    known
        .map(|candidate| (distance(&wanted, &plain(candidate)), candidate))
        .filter(|(distance, _)| *distance <= most)
        // The first of those equally near.
        .min_by_key(|(distance, _)| *distance)
        .map(|(_, candidate)| candidate)
}

/// Where a key would be right, below this message.
pub fn elsewhere(message: &Message, name: &str) -> Option<String> {
    message.fields.iter().find_map(|field| match field.kind {
        Kind::Message(inner) if !field.repeated && inner.field(name).is_some() => {
            Some(format!("{}.{name}", field.json_name))
        }
        _ => None,
    })
}

/// Case and underscores are the commonest slips, so they do not count; of what is far
/// longer than any name, the start is enough to be far from all.
fn plain(name: &str) -> Vec<char> {
    name.chars().filter(|letter| *letter != '_').flat_map(char::to_lowercase).take(64).collect()
}

/// Letters to insert, leave out, replace or swap with their neighbour, at the least.
fn distance(from: &[char], to: &[char]) -> usize {
    let mut before: Vec<usize> = Vec::new();
    let mut above: Vec<usize> = (0..=to.len()).collect();
    for (row, letter) in from.iter().enumerate() {
        let mut line = vec![row + 1];
        for (column, other) in to.iter().enumerate() {
            let at = |line: &[usize], index: usize| line.get(index).copied().unwrap_or(usize::MAX - 1);
            let mut least = at(&above, column) + usize::from(letter != other);
            least = least.min(at(&above, column + 1) + 1).min(at(&line, column) + 1);
            if let (Some(row), Some(column)) = (row.checked_sub(1), column.checked_sub(1))
                && from.get(row) == Some(other)
                && to.get(column) == Some(letter)
            {
                least = least.min(at(&before, column) + 1);
            }
            line.push(least);
        }
        before = std::mem::replace(&mut above, line);
    }
    above.last().copied().unwrap_or(0)
}
