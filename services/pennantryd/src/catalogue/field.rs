//! Values of the file: each kind with its least and most, and words for what is wrong.

use jiff::tz::TimeZone;
use pennantry_measure::bounds::Bound;
use pennantry_measure::text::{hidden, is_blank};
use pennantry_measure::{
    BenchTime, Force, Length, Mass, MassPerArea, MassPerLength, Money, Percent, Rate, written,
};
use toml::de::DeValue;

use super::node::{Key, Node, Table};
use super::number::{self, Fault};

/// How finely amounts are written: pence of money, millionths of a penny of rates.
#[derive(Debug, Clone, Copy)]
pub(super) struct Digits(pub(super) u32);

/// Decimals of a rate beyond those of money.
const RATE_DIGITS: u32 = 6;
/// Decimals of millimetres, shares, minutes and masses.
const DECIMALS: u32 = 3;

/// The least and most of whole or decimal numbers, in whole ones.
pub(super) const fn within(least: i64, most: i64) -> Bound<i64> {
    Bound { least, most }
}

/// A least and a most of whole millimetres.
pub(super) const fn mm(least: i64, most: i64) -> Bound<Length> {
    Bound { least: Length::from_mm(least), most: Length::from_mm(most) }
}

/// A least and a most of micrometres.
pub(super) const fn um(least: i64, most: i64) -> Bound<Length> {
    Bound { least: Length::from_um(least), most: Length::from_um(most) }
}

impl<'d> Table<'_, 'd, '_> {
    /// What a key says that may be left out: nothing where it is.
    #[expect(clippy::option_option, reason = "the outer one is for mistakes, as everywhere here")]
    pub(super) fn maybe<T>(
        &mut self,
        key: Key,
        read: impl FnOnce(&mut Self, Key) -> Option<T>,
    ) -> Option<Option<T>> {
        if self.has(key.name) {
            return read(self, key).map(Some);
        }
        self.optional(key.name);
        Some(None)
    }

    /// What a key says that may be left out: something usual where it is.
    pub(super) fn or<T>(
        &mut self,
        key: Key,
        usual: T,
        read: impl FnOnce(&mut Self, Key) -> Option<T>,
    ) -> Option<T> {
        self.maybe(key, read).map(|given| given.unwrap_or(usual))
    }

    /// Notes each of some keys that is given: none belongs here. All of them are known.
    pub(super) fn strangers(&mut self, names: &[&'static str], fault: &str) {
        for name in names {
            if let Some(node) = self.optional(name) {
                self.note_found(&node, fault);
            }
        }
    }

    /// Whether one of some keys is given; does not count as asking for them.
    pub(super) fn has_any(&self, names: &[&str]) -> bool {
        names.iter().any(|name| self.has(name))
    }

    /// A text of 1 to 80 characters on one line.
    pub(super) fn words(&mut self, key: Key) -> Option<String> {
        self.line(key, 80)
    }

    /// An address on one line, of 1 to 200 characters.
    pub(super) fn address(&mut self, key: Key) -> Option<String> {
        self.line(key, 200)
    }

    fn line(&mut self, key: Key, most: usize) -> Option<String> {
        let form = format!("a text of 1 to {most} characters in quotes");
        let node = self.required(key, &form)?;
        let text = self.text_of(&node, key, &form)?;
        let fits =
            (1..=most).contains(&text.trim().chars().count()) && hidden(text).is_none() && !is_blank(text);
        let line = fits.then(|| text.trim().to_owned());
        self.accept(
            &node,
            key,
            &form,
            line,
            "is too short, too long, on several lines or holds what nobody sees",
        )
    }

    /// A text of a given pattern.
    pub(super) fn pattern(&mut self, key: Key, form: &str, fits: impl Fn(&str) -> bool) -> Option<&'d str> {
        let node = self.required(key, form)?;
        let text = self.text_of(&node, key, form)?;
        self.accept(&node, key, form, fits(text).then_some(text), "is not that")
    }

    /// One word out of a few.
    pub(super) fn choice<T: Copy>(&mut self, key: Key, of: &[(&str, T)]) -> Option<T> {
        let form = one_of(of);
        let node = self.required(key, &form)?;
        self.choice_of(&node, key, of)
    }

    /// One word out of a few, of a value that is there.
    pub(super) fn choice_of<T: Copy>(&mut self, node: &Node<'d>, key: Key, of: &[(&str, T)]) -> Option<T> {
        let form = one_of(of);
        let text = self.text_of(node, key, &form)?;
        let found = of.iter().find(|(name, _)| *name == text).map(|(_, value)| *value);
        self.accept(node, key, &form, found, "is not known")
    }

    /// Yes or no.
    pub(super) fn flag(&mut self, key: Key) -> Option<bool> {
        let form = "true or false, without quotes";
        let node = self.required(key, form)?;
        self.accept(&node, key, form, node.value.as_bool(), "is neither")
    }

    /// A whole number.
    pub(super) fn whole(&mut self, key: Key, bound: Bound<i64>) -> Option<i64> {
        let node = self.required(key, &whole_form(bound))?;
        self.whole_of(&node, key, bound)
    }

    /// A whole number that fits a count.
    pub(super) fn count(&mut self, key: Key, bound: Bound<i64>) -> Option<u32> {
        self.whole(key, bound).and_then(|value| u32::try_from(value).ok())
    }

    /// A whole number, of a value that is there.
    pub(super) fn whole_of(&mut self, node: &Node<'d>, key: Key, bound: Bound<i64>) -> Option<i64> {
        let form = whole_form(bound);
        let DeValue::Integer(integer) = node.value else {
            self.note_wrong(node, key, &form, "is not a whole number");
            return None;
        };
        let value = if integer.radix() == 10 { number::scaled(integer.as_str(), 0).ok() } else { None };
        self.accept(node, key, &form, value.filter(|value| bound.holds(*value)), "is out of range")
    }

    /// A length: a number of millimetres, or a text with a unit.
    pub(super) fn length(&mut self, key: Key, bound: Bound<Length>) -> Option<Length> {
        let node = self.required(key, &length_form(bound))?;
        self.length_of(&node, key, bound)
    }

    /// A length, of a value that is there.
    pub(super) fn length_of(&mut self, node: &Node<'d>, key: Key, bound: Bound<Length>) -> Option<Length> {
        let form = length_form(bound);
        let read = match node.value {
            DeValue::String(text) => {
                written::length(text).map_err(|fault| format!("is not a length ({fault})"))
            }
            _ => decimal(node, DECIMALS).map(Length::from_um),
        };
        self.ranged(node, key, &form, read, bound)
    }

    /// An amount of money, as a text in major units.
    pub(super) fn money(&mut self, key: Key, Digits(digits): Digits, bound: Bound<i64>) -> Option<Money> {
        self.amount(key, digits, digits, bound).map(Money::from_minor)
    }

    /// A rate of money, as a text in major units, finer than money.
    pub(super) fn rate(&mut self, key: Key, Digits(digits): Digits, bound: Bound<i64>) -> Option<Rate> {
        self.amount(key, digits, digits + RATE_DIGITS, bound).map(Rate::from_micro_minor)
    }

    /// A share in percent.
    pub(super) fn percent(&mut self, key: Key, bound: Bound<i64>) -> Option<Percent> {
        self.percent_above(key, thousand(bound))
    }

    /// A share, with its least and most in thousandths of a percent.
    pub(super) fn percent_above(&mut self, key: Key, bound: Bound<i64>) -> Option<Percent> {
        self.thousandths(key, "share", "percent", bound).map(Percent::from_milli)
    }

    /// Bench time in minutes.
    pub(super) fn minutes(&mut self, key: Key, bound: Bound<i64>) -> Option<BenchTime> {
        self.thousandths(key, "time", "minutes", thousand(bound)).map(BenchTime::from_milli_minutes)
    }

    /// Bench time, of a value that is there.
    pub(super) fn minutes_of(&mut self, node: &Node<'d>, key: Key, bound: Bound<i64>) -> Option<BenchTime> {
        let bound = thousand(bound);
        let form = thousandths_form("time", "minutes", bound);
        self.thousandths_of(node, key, &form, bound).map(BenchTime::from_milli_minutes)
    }

    /// A mass in grams.
    pub(super) fn grams(&mut self, key: Key, bound: Bound<i64>) -> Option<Mass> {
        self.thousandths(key, "mass", "grams", thousand(bound)).map(Mass::from_mg)
    }

    /// Mass of cloth, in grams a square metre.
    pub(super) fn grams_per_m2(&mut self, key: Key, bound: Bound<i64>) -> Option<MassPerArea> {
        self.thousandths(key, "mass", "grams a square metre", thousand(bound))
            .map(MassPerArea::from_mg_per_m2)
    }

    /// Mass of binding in grams a metre, with its least and most in thousandths of one.
    pub(super) fn grams_per_metre(&mut self, key: Key, bound: Bound<i64>) -> Option<MassPerLength> {
        let mg = self.thousandths(key, "mass", "grams a metre", bound)?;
        Some(MassPerLength::from_ug_per_m(mg * 1_000))
    }

    /// Mass of thread in tex, grams a kilometre: a thousandth is a microgram a metre.
    pub(super) fn tex(&mut self, key: Key, bound: Bound<i64>) -> Option<MassPerLength> {
        self.thousandths(key, "mass", "tex", thousand(bound)).map(MassPerLength::from_ug_per_m)
    }

    /// A force in newtons, with one decimal.
    pub(super) fn newtons(&mut self, key: Key, bound: Bound<Force>) -> Option<Force> {
        let form = format!("a force from {} to {} with at most 1 decimal", bound.least, bound.most);
        let node = self.required(key, &form)?;
        let read = decimal(&node, 1)
            .and_then(|tenths| u32::try_from(tenths).map_err(|_| "is out of range".to_owned()))
            .map(Force::from_tenths);
        self.ranged(&node, key, &form, read, bound)
    }

    /// A time zone by its name.
    pub(super) fn zone(&mut self, key: Key) -> Option<TimeZone> {
        let form = "the name of a time zone such as \"Europe/London\"";
        let node = self.required(key, form)?;
        let text = self.text_of(&node, key, form)?;
        self.accept(&node, key, form, TimeZone::get(text).ok(), "is not known")
    }

    fn amount(&mut self, key: Key, digits: u32, places: u32, bound: Bound<i64>) -> Option<i64> {
        let example = number_with(11, digits);
        let form = format!(
            "an amount from {} to {} with at most {places} decimals in quotes, such as \"{example}\"",
            bound.least, bound.most
        );
        let node = self.required(key, &form)?;
        let read = match node.value {
            DeValue::String(text) => {
                number::scaled(text.trim(), places).map_err(|fault| fault_words(fault, places))
            }
            DeValue::Integer(_) | DeValue::Float(_) => {
                Err("is a bare number, which may not keep its pence: put it in quotes".to_owned())
            }
            _ => Err("is not an amount".to_owned()),
        };
        let unit = 10_i64.saturating_pow(places);
        let bound = within(bound.least.saturating_mul(unit), bound.most.saturating_mul(unit));
        self.ranged(&node, key, &form, read, bound)
    }

    fn thousandths(&mut self, key: Key, kind: &str, unit: &str, bound: Bound<i64>) -> Option<i64> {
        let form = thousandths_form(kind, unit, bound);
        let node = self.required(key, &form)?;
        self.thousandths_of(&node, key, &form, bound)
    }

    fn thousandths_of(&mut self, node: &Node<'d>, key: Key, form: &str, bound: Bound<i64>) -> Option<i64> {
        let read = match node.value {
            DeValue::String(text) => {
                number::scaled(text.trim(), DECIMALS).map_err(|fault| fault_words(fault, DECIMALS))
            }
            _ => decimal(node, DECIMALS),
        };
        self.ranged(node, key, form, read, bound)
    }

    fn ranged<T: PartialOrd + Copy>(
        &mut self,
        node: &Node<'d>,
        key: Key,
        form: &str,
        read: Result<T, String>,
        bound: Bound<T>,
    ) -> Option<T> {
        match read {
            Ok(value) => self.accept(node, key, form, bound.holds(value).then_some(value), "is out of range"),
            Err(fault) => self.accept(node, key, form, None, &fault),
        }
    }

    /// The text of a value, with its mistake noted where it is none.
    pub(super) fn text_of(&mut self, node: &Node<'d>, key: Key, form: &str) -> Option<&'d str> {
        let text = node.value.as_str();
        self.accept(node, key, form, text, "is not a text in quotes")
    }

    /// The value if there is one; otherwise a mistake.
    pub(super) fn accept<T>(
        &mut self,
        node: &Node<'d>,
        key: Key,
        form: &str,
        value: Option<T>,
        fault: &str,
    ) -> Option<T> {
        if value.is_none() {
            self.note_wrong(node, key, form, fault);
        }
        value
    }

    fn note_wrong(&mut self, node: &Node<'d>, key: Key, form: &str, fault: &str) {
        self.note_found(node, &format!("{fault}: write {form} ({})", key.what));
    }
}

const fn thousand(bound: Bound<i64>) -> Bound<i64> {
    within(bound.least * 1_000, bound.most * 1_000)
}

fn whole_form(bound: Bound<i64>) -> String {
    format!("a whole number from {} to {}", bound.least, bound.most)
}

fn length_form(bound: Bound<Length>) -> String {
    let (least, most) = (bound.least, bound.most);
    format!("a length from {least} to {most}, as millimetres or as a text such as \"7 1/2 in\"")
}

fn thousandths_form(kind: &str, unit: &str, bound: Bound<i64>) -> String {
    // thousandths of anything are written as a length writes micrometres
    let plain = |thousandths| Length::from_um(thousandths).to_string().replace(" mm", "");
    let (least, most) = (plain(bound.least), plain(bound.most));
    format!("a {kind} from {least} to {most} {unit} with at most {DECIMALS} decimals")
}

/// A bare number in its smallest unit, or what is wrong with it.
fn decimal(node: &Node<'_>, places: u32) -> Result<i64, String> {
    let digits = match node.value {
        DeValue::Integer(integer) if integer.radix() == 10 => integer.as_str(),
        DeValue::Float(float) => float.as_str(),
        _ => return Err("is not a number in plain digits".to_owned()),
    };
    number::scaled(digits, places).map_err(|fault| fault_words(fault, places))
}

fn one_of<T>(of: &[(&str, T)]) -> String {
    let quoted: Vec<String> = of.iter().map(|(name, _)| format!("\"{name}\"")).collect();
    match quoted.as_slice() {
        [only] => only.clone(),
        _ => format!("one of {}", quoted.join(", ")),
    }
}

fn fault_words(fault: Fault, places: u32) -> String {
    match fault {
        Fault::NotDigits => "is not a number in plain digits".to_owned(),
        Fault::TooFine if places == 1 => "has more than 1 decimal".to_owned(),
        Fault::TooFine => format!("has more than {places} decimals"),
        Fault::TooLong => "is out of range".to_owned(),
    }
}

/// `11.00` with two digits.
fn number_with(whole: i64, digits: u32) -> String {
    if digits == 0 {
        return whole.to_string();
    }
    format!("{whole}.{}", "0".repeat(usize::try_from(digits).unwrap_or(0)))
}
