//! Values of the contract's enumerations as words of the command line, and back.
//!
//! Both come from the contract's own tables, so a value that is added there can be typed
//! here at once: `CONSTRUCTION_SINGLE_PINKED` is typed `single-pinked` and read
//! `single pinked`.

use clap::builder::PossibleValuesParser;
use pennantry_contract::table::{EnumValue, Enumeration};

/// The part that every value of an enumeration begins with, such as `SIZE_AT_`.
fn prefix(of: &Enumeration) -> &'static str {
    of.values.first().map_or("", |zero| zero.name.trim_end_matches("UNSPECIFIED"))
}

fn typed(of: &Enumeration, value: &EnumValue) -> String {
    value.name.trim_start_matches(prefix(of)).to_lowercase().replace('_', "-")
}

/// Every word that can be typed, in the order of the contract; not said is no word.
pub fn all(of: &'static Enumeration) -> Vec<String> {
    of.values.iter().skip(1).map(|value| typed(of, value)).collect()
}

/// Reads one of these words and nothing else.
pub fn parser(of: &'static Enumeration) -> PossibleValuesParser {
    PossibleValuesParser::new(all(of))
}

/// The value that a word means.
///
/// ```
/// use pennantry::words;
/// use pennantry_contract::{table, v1};
/// let construction = words::value(&table::CONSTRUCTION, "double-fused");
/// assert_eq!(construction, Some(v1::Construction::DoubleFused.into()));
/// assert_eq!(words::value(&table::CONSTRUCTION, "unspecified"), None);
/// ```
pub fn value(of: &'static Enumeration, word: &str) -> Option<i32> {
    of.values.iter().skip(1).find(|value| typed(of, value) == word).map(|value| value.number)
}

/// A value in words; nothing where it is not said. One that this program does not know, of
/// a newer server, is told by its number.
///
/// ```
/// use pennantry::words;
/// use pennantry_contract::table;
/// assert_eq!(words::told(&table::SHAPE, 3).as_deref(), Some("swallowtail"));
/// assert_eq!(words::told(&table::SHAPE, 0), None);
/// assert_eq!(words::told(&table::SHAPE, 77).as_deref(), Some("number 77, not known to this program"));
/// ```
pub fn told(of: &'static Enumeration, number: i32) -> Option<String> {
    if number == 0 {
        return None;
    }
    let found = of.numbered(number).map(|value| typed(of, value).replace('-', " "));
    Some(found.unwrap_or_else(|| format!("number {number}, not known to this program")))
}

#[cfg(test)]
mod tests {
    use pennantry_contract::table;

    use super::*;

    #[test]
    fn every_word_of_every_enumeration_is_read_back() {
        for of in table::ENUMS {
            let words = all(of);
            assert_eq!(words.len() + 1, of.values.len(), "{}", of.name);
            for (word, known) in words.iter().zip(of.values.iter().skip(1)) {
                assert_eq!(value(of, word), Some(known.number), "{} {word}", of.name);
                assert!(word.chars().all(|c| c.is_ascii_lowercase() || c == '-'), "{word}");
            }
        }
    }

    #[test]
    fn words_are_those_of_the_trade() {
        assert_eq!(all(&table::RULE), ["repeat", "mirror-ends", "mirror-centre", "listed"]);
        assert_eq!(all(&table::WHO), ["no-child", "child"]);
        assert_eq!(all(&table::SIZE_AT), ["top-edge", "binding-edge"]);
        assert_eq!(all(&table::JURISDICTION), ["eu", "gb", "us", "ca", "au"]);
    }
}
