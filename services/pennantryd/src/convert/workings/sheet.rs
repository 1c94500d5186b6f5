//! The sheet on which workings are written down: names are looked up in the answer
//! itself, and a formula is only written where it gives what the answer says.

use std::cell::RefCell;
use std::collections::{HashMap, HashSet};

use pennantry_contract::v1;
use serde_json::Value;

use super::formula::{Fraction, Mode, value};

/// What a micrometre, a milligram and a thousandth of a minute are in their units.
pub(super) const THOUSANDTH: &str = "0.001";
/// A formula found in doubles may be off by less than so many of its steps.
const SLACK: f64 = 1.01;

/// A way to a figure: its formula, how it is rounded and to which step.
pub(super) type Way = (String, Mode, &'static str);

/// One way, to the nearest micrometre.
pub(super) fn nearest(formula: &str) -> Way {
    (formula.to_owned(), Mode::HalfUp, THOUSANDTH)
}

/// One way, without rounding.
pub(super) fn exactly(formula: &str) -> Way {
    (formula.to_owned(), Mode::Exact, THOUSANDTH)
}

/// One way, up to the next micrometre.
pub(super) fn up(formula: &str) -> Way {
    (formula.to_owned(), Mode::Up, THOUSANDTH)
}

/// The workings so far.
pub(super) struct Sheet {
    answer: Value,
    list: Vec<v1::Working>,
    /// Places of names in the list.
    known: HashMap<String, usize>,
    /// Values of names that were looked up.
    values: RefCell<HashMap<String, Option<Fraction>>>,
}

impl Sheet {
    pub(super) fn new(answer: Value) -> Sheet {
        Sheet { answer, list: Vec::new(), known: HashMap::new(), values: RefCell::default() }
    }

    pub(super) fn is_known(&self, name: &str) -> bool {
        self.known.contains_key(name)
    }

    fn write(&mut self, working: v1::Working) {
        if self.known.contains_key(&working.name) {
            return;
        }
        self.known.insert(working.name.clone(), self.list.len());
        self.list.push(working);
    }

    /// A constant of the shop, or a figure on the way that no formula gives.
    pub(super) fn constant(&mut self, name: &str, value: String, unit: &str, source: &str) {
        self.write(working(name, "", value, unit, "exact", source));
    }

    /// A figure on the way, kept exactly. Nothing where its formula cannot be worked out.
    pub(super) fn via(&mut self, name: &str, formula: &str, unit: &str, source: &str) {
        if let Some(value) = self.exact(formula) {
            self.write(working(name, formula, value.text(), unit, "exact", source));
        }
    }

    /// A figure of the answer, by the first way that gives it; one that no way gives is
    /// left for [`Sheet::rest`].
    pub(super) fn figure(&mut self, name: &str, unit: &str, source: &str, ways: &[Way]) {
        let Some(text) = self.text(name) else { return };
        let Some(told) = Fraction::written(&text) else { return };
        let found = ways.iter().find(|(formula, mode, step)| self.gives(formula, *mode, step, told));
        if let Some((formula, mode, step)) = found {
            self.write(working(name, formula, text, unit, &rounding(*mode, step), source));
        }
    }

    /// A rule for every entry of a list: `[i]` in its name. It is written down as it is.
    pub(super) fn rule(&mut self, name: &str, formula: &str, unit: &str, rounding: &str, source: &str) {
        let list = name.split("[i]").next().unwrap_or(name);
        if self.at(list).and_then(Value::as_array).is_some_and(|list| !list.is_empty()) {
            self.write(working(name, formula, String::new(), unit, rounding, source));
        }
    }

    /// A figure of the answer with a rounding of its own, written down as it is.
    pub(super) fn ruled(&mut self, name: &str, formula: &str, unit: &str, rounding: &str, source: &str) {
        if let Some(text) = self.text(name) {
            self.write(working(name, formula, text, unit, rounding, source));
        }
    }

    /// A figure of the answer that stands as it is.
    pub(super) fn given(&mut self, name: &str, unit: &str, source: &str) {
        if let Some(text) = self.text(name) {
            self.write(working(name, "", text, unit, "exact", source));
        }
    }

    /// Whatever figure of the answer has no working yet, as given; `told` says in which
    /// unit and where it comes from.
    pub(super) fn rest(mut self, told: impl Fn(&str) -> (&'static str, &'static str)) -> Vec<v1::Working> {
        let mut names = Vec::new();
        leaves(&self.answer, "", &mut names);
        for name in names {
            if name.starts_with("understood.") || self.has_rule(&name) {
                continue;
            }
            let (unit, source) = told(&name);
            self.given(&name, unit, source);
        }
        self.pruned()
    }

    /// Without constants and figures on the way that no formula speaks of in the end.
    fn pruned(mut self) -> Vec<v1::Working> {
        loop {
            let before = self.list.len();
            let used: HashSet<&str> = self.list.iter().flat_map(|line| names(&line.formula)).collect();
            let is_needed = |line: &v1::Working| {
                let helps = line.name.starts_with("shop.") || line.name.starts_with("via.");
                !helps || used.contains(line.name.as_str())
            };
            let needed: Vec<bool> = self.list.iter().map(is_needed).collect();
            let mut needed = needed.into_iter();
            self.list.retain(|_| needed.next().unwrap_or(true));
            if self.list.len() == before {
                return self.list;
            }
        }
    }

    /// Whether a rule for every entry speaks of a figure.
    fn has_rule(&self, name: &str) -> bool {
        let mut ruled = String::new();
        let mut inside = false;
        for c in name.chars() {
            match c {
                '[' => {
                    inside = true;
                    ruled.push_str("[i]");
                }
                ']' => inside = false,
                _ if inside => {}
                _ => ruled.push(c),
            }
        }
        ruled != name && self.is_known(&ruled)
    }

    /// How many entries a list of the answer has.
    pub(super) fn count(&self, list: &str) -> usize {
        self.at(list).and_then(Value::as_array).map_or(0, Vec::len)
    }

    /// A formula's exact value.
    pub(super) fn exact(&self, formula: &str) -> Option<Fraction> {
        value(formula, &|name| self.values_of(name))
    }

    fn gives(&self, formula: &str, mode: Mode, step: &str, told: Fraction) -> bool {
        let Some(step) = Fraction::decimal(step) else { return false };
        if let Some(exact) = self.exact(formula) {
            return exact.rounded(mode, step) == Some(told);
        }
        let float = |name: &str| Some(self.values_of(name)?.into_iter().map(Fraction::float).collect());
        let near = value::<f64>(formula, &float);
        near.is_some_and(|near| (near - told.float()).abs() < SLACK * step.float())
    }

    /// The values of a name; of one with `[*]` those of all entries.
    fn values_of(&self, name: &str) -> Option<Vec<Fraction>> {
        if let Some((list, rest)) = name.split_once("[*]") {
            let entries = 0..self.count(list);
            return entries.map(|entry| self.one(&format!("{list}[{entry}]{rest}"))).collect();
        }
        self.one(name).map(|value| vec![value])
    }

    fn one(&self, name: &str) -> Option<Fraction> {
        if let Some(known) = self.values.borrow().get(name) {
            return *known;
        }
        let written = self.known.get(name).and_then(|place| self.list.get(*place));
        let found = match written {
            Some(working) => Fraction::written(&working.value),
            None => self.text(name).and_then(|text| Fraction::written(&text)),
        };
        if found.is_some() {
            self.values.borrow_mut().insert(name.to_owned(), found);
        }
        found
    }

    /// A number of the answer as it is printed there.
    fn text(&self, name: &str) -> Option<String> {
        match self.at(name)? {
            Value::Number(number) => Some(number.to_string()),
            // 64 bit numbers are strings in JSON
            Value::String(text) if name.ends_with("minorUnits") || name.ends_with("stitchCount") => {
                Some(text.clone())
            }
            _ => None,
        }
    }

    fn at(&self, name: &str) -> Option<&Value> {
        name.split('.').try_fold(&self.answer, |value, step| {
            let (key, entries) = step.split_once('[').unwrap_or((step, ""));
            let value = value.get(key)?;
            if entries.is_empty() {
                return Some(value);
            }
            let entry: usize = entries.strip_suffix(']')?.parse().ok()?;
            value.get(entry)
        })
    }
}

/// The names in a formula.
fn names(formula: &str) -> impl Iterator<Item = &str> {
    let part = |c: char| c.is_ascii_alphanumeric() || ".[]".contains(c);
    formula.split(move |c: char| !part(c)).filter(|word| word.starts_with(|c: char| c.is_ascii_alphabetic()))
}

/// The names of all numbers in an answer, in its order.
fn leaves(value: &Value, path: &str, names: &mut Vec<String>) {
    match value {
        Value::Object(fields) => {
            for (key, inner) in fields {
                let path = if path.is_empty() { key.clone() } else { format!("{path}.{key}") };
                leaves(inner, &path, names);
            }
        }
        Value::Array(entries) => {
            for (entry, inner) in entries.iter().enumerate() {
                leaves(inner, &format!("{path}[{entry}]"), names);
            }
        }
        Value::Number(_) => names.push(path.to_owned()),
        Value::String(_) if path.ends_with("minorUnits") || path.ends_with("stitchCount") => {
            names.push(path.to_owned());
        }
        _ => {}
    }
}

fn rounding(mode: Mode, step: &str) -> String {
    if mode == Mode::Exact { mode.word().to_owned() } else { format!("{} {step}", mode.word()) }
}

fn working(
    name: &str,
    formula: &str,
    value: String,
    unit: &str,
    rounding: &str,
    source: &str,
) -> v1::Working {
    let own = str::to_owned;
    v1::Working {
        name: own(name),
        formula: own(formula),
        value,
        unit: own(unit),
        rounding: own(rounding),
        source: own(source),
    }
}
