//! Changes to the demo catalogue, as the cases write them.
//!
//! `"cloth.spares_percent" = 0`; `"methods[single-pinked].clearance_mm" = 5` for the
//! entry whose `code` or `construction` says so; `"fabrics[*].usable_width_mm" = 1100`
//! for all entries; `"fabrics[0].name"` for one; `{ removed = true }` takes a key away.

use toml::{Table, Value};

/// The catalogue's text with every change made.
///
/// A change must meet something that is there: a patch that changes nothing would let
/// its case pass for the wrong reason.
pub fn patched(catalogue: &str, changes: &Table) -> String {
    let mut table: Table = catalogue.parse().expect("the catalogue is TOML");
    for (path, value) in changes {
        let changed = change(&mut table, path, value);
        assert!(changed > 0, "the catalogue has nothing at {path}");
    }
    toml::to_string(&table).expect("the catalogue is TOML still")
}

fn change(table: &mut Table, path: &str, value: &Value) -> usize {
    let (part, rest) = match path.split_once('.') {
        Some((part, rest)) => (part, Some(rest)),
        None => (path, None),
    };
    let (name, select) = match part.split_once('[') {
        Some((name, select)) => (name, Some(select.trim_end_matches(']'))),
        None => (part, None),
    };
    let Some(rest) = rest else {
        // a key that the file leaves out may be added: the reader refuses one it does not know
        let removed = value.get("removed").is_some();
        let before = if removed { table.remove(name) } else { table.insert(name.to_owned(), value.clone()) };
        return usize::from(!removed || before.is_some());
    };
    match (table.get_mut(name), select) {
        (Some(Value::Table(inner)), None) => change(inner, rest, value),
        (Some(Value::Array(list)), Some(select)) => list
            .iter_mut()
            .zip(0_usize..)
            .filter(|(entry, place)| chosen(entry, *place, select))
            .filter_map(|(entry, _)| entry.as_table_mut())
            .map(|entry| change(entry, rest, value))
            .sum(),
        _ => 0,
    }
}

fn chosen(entry: &Value, place: usize, select: &str) -> bool {
    let says = |key: &str| entry.get(key).and_then(Value::as_str) == Some(select);
    select == "*" || select.parse() == Ok(place) || says("code") || says("construction")
}

#[test]
fn changes_are_made_where_they_say() {
    let catalogue = "
        [cloth]
        spares_percent = 2
        [[methods]]
        construction = 'single-pinked'
        clearance_mm = 6
        [[methods]]
        construction = 'double-turned'
        clearance_mm = 6
    ";
    let changes = "
        'cloth.spares_percent' = 0
        'methods[single-pinked].clearance_mm' = 5
        'methods[*].row_gap_mm' = 1
        'methods[double-turned].construction' = { removed = true }
    ";
    let after: Table = patched(catalogue, &changes.parse().expect("TOML")).parse().expect("TOML");
    assert_eq!(after["cloth"]["spares_percent"].as_integer(), Some(0));
    assert_eq!(after["methods"][0]["clearance_mm"].as_integer(), Some(5));
    assert_eq!(after["methods"][1]["clearance_mm"].as_integer(), Some(6));
    assert_eq!(after["methods"][1]["row_gap_mm"].as_integer(), Some(1));
    assert_eq!(after["methods"][1].get("construction"), None);
    assert_eq!(change(&mut after.clone(), "methods[felted].seam_mm", &Value::Integer(1)), 0);
}
