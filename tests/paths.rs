//! Paths into a JSON answer, as the cases write them.
//!
//! `layout.gapMm`; `fabrics[0].pieceCount`; `fabrics[*].pieceCount` for all of them;
//! `notices[field=child].code` for the first entry whose key says so;
//! `notices[TOPS_OVERLAP].field` for the first entry of that `code`.

use serde_json::Value;

/// What a path leads to.
#[derive(Debug, PartialEq)]
pub enum Found {
    /// At most one value.
    One(Option<Value>),
    /// The values of every entry of a list, those that are there.
    All(Vec<Value>),
}

/// Follows a path.
pub fn follow(value: &Value, path: &str) -> Found {
    let mut at = vec![value];
    let mut many = false;
    for part in parts(path) {
        let (name, select) = match part.split_once('[') {
            Some((name, rest)) => (name, Some(rest.trim_end_matches(']'))),
            None => (part, None),
        };
        at = at.into_iter().filter_map(|value| value.get(name)).collect();
        match select {
            None => {}
            Some("*") => {
                many = true;
                at = at.into_iter().flat_map(|list| list.as_array().into_iter().flatten()).collect();
            }
            Some(select) => at = at.into_iter().filter_map(|list| entry(list, select)).collect(),
        }
    }
    if many {
        Found::All(at.into_iter().cloned().collect())
    } else {
        Found::One(at.first().map(|v| (*v).clone()))
    }
}

/// The parts between dots; dots in brackets are no border.
fn parts(path: &str) -> Vec<&str> {
    let mut inside = false;
    path.split(|c| {
        match c {
            '[' => inside = true,
            ']' => inside = false,
            _ => {}
        }
        c == '.' && !inside
    })
    .collect()
}

fn entry<'a>(list: &'a Value, select: &str) -> Option<&'a Value> {
    if let Ok(place) = select.parse::<usize>() {
        return list.get(place);
    }
    let (key, wanted) = select.split_once('=').unwrap_or(("code", select));
    list.as_array()?.iter().find(|entry| match &entry[key] {
        Value::Number(number) => number.as_f64() == wanted.parse().ok(),
        other => other.as_str() == Some(wanted),
    })
}

#[test]
fn paths_lead_where_they_say() {
    let answer = serde_json::json!({
        "layout": {"gapMm": 20.0},
        "fabrics": [{"pieceCount": 10, "fabricCode": "a.b"}, {"pieceCount": 9, "fabricCode": "c"}],
        "notices": [{"code": "TOPS_OVERLAP", "field": "gapMm"}],
    });
    let one = |value: Value| Found::One(Some(value));
    assert_eq!(follow(&answer, "layout.gapMm"), one(20.0.into()));
    assert_eq!(follow(&answer, "fabrics[1].pieceCount"), one(9.into()));
    assert_eq!(follow(&answer, "fabrics[*].pieceCount"), Found::All(vec![10.into(), 9.into()]));
    assert_eq!(follow(&answer, "fabrics[fabricCode=a.b].pieceCount"), one(10.into()));
    assert_eq!(follow(&answer, "fabrics[pieceCount=9].fabricCode"), one("c".into()));
    assert_eq!(follow(&answer, "notices[TOPS_OVERLAP].field"), one("gapMm".into()));
    assert_eq!(follow(&answer, "notices[OTHER].field"), Found::One(None));
    assert_eq!(follow(&answer, "layout.hang.curveMm"), Found::One(None));
}
