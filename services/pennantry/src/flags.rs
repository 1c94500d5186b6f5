//! Which flag fills which field of the contract: read by tests, and by a refusal, which
//! names fields, to say what to type otherwise. [`typed`] has the tables of the shelf.

pub mod typed;

/// Every field of an enquiry that holds a value, in the order of the contract, with its
/// flag. The length that stands alone is `LENGTH`.
pub const FLAGS: &[(&str, &str)] = &[
    ("designCode", "--design"),
    ("flaggedMm", "LENGTH"),
    ("overallMm", "--overall"),
    ("bindingMm", "--binding"),
    ("hang.spanMm", "--span"),
    ("hang.dipMm", "--dip"),
    ("hang.swagCount", "--swags"),
    ("pennantCount", "--pennants"),
    ("gapMm", "--gap"),
    ("tailMm", "--tail"),
    ("fit.leftover", "--leftover"),
    ("fit.parity", "--parity"),
    ("fit.minGapMm", "--least-gap"),
    ("fit.maxGapMm", "--greatest-gap"),
    ("pennant.shape", "--shape"),
    ("pennant.widthMm", "--width"),
    ("pennant.dropMm", "--drop"),
    ("pennant.sizeAt", "--size-at"),
    ("pennant.footMm", "--foot"),
    ("pennant.notchMm", "--notch"),
    ("pennant.shoulderMm", "--shoulder"),
    ("pennant.riseMm", "--rise"),
    ("construction", "--construction"),
    ("backing", "--backing"),
    ("colourOrder.rule", "--colours"),
    ("colourOrder.fabricCodes", "--fabrics"),
    ("lettering", "--lettering"),
    ("bindingCode", "--binding-code"),
    ("finish.ends.style", "--ends"),
    ("finish.ends.loopMm", "--loop"),
    ("finish.ends.slips", "--slips"),
    ("finish.ends.breakawayN", "--breakaway"),
    ("finish.ends.tieMm", "--tie"),
    ("finish.ends.secondTieMm", "--second-tie"),
    ("finish.ends.tiesApartMm", "--ties-apart"),
    ("finish.ends.trimmingCode", "--end-trimming"),
    ("finish.trimmings.code", "--trimming"),
    ("finish.trimmings.perPennant", "--trimming"),
    ("quantity", "--quantity"),
    ("near.who", "--who"),
    ("near.youngestMonths", "--youngest"),
    ("near.place", "--place"),
    ("near.fixingHeightMm", "--fixing-height"),
    ("near.fixings", "--fixings"),
    ("near.spanMm", "--fixing-span"),
    ("near.cotDistanceMm", "--cot-distance"),
    ("near.jurisdictions", "--rules"),
    ("near.wallWidthMm", "--wall-width"),
    ("near.wallHeightMm", "--wall-height"),
    ("destination.countryCode", "--to"),
    ("service", "--service"),
    ("wantedDate", "--by"),
    ("view", "--view"),
    ("workings", "--workings"),
    ("shelf", "--shelf"),
    ("discount.percent", "--discount"),
    ("discount.minorUnits", "--discount"),
    ("discount.reason", "--reason"),
    ("rush", "--rush"),
    ("asOfDate", "--as-of"),
];

/// The flag, or flags, of a path in JSON names, such as `colourOrder.fabricCodes[2]`; for a
/// message those of all its fields. Nothing for a path that no flag fills, such as that
/// of the whole enquiry.
///
/// ```
/// use pennantry::flags;
/// assert_eq!(flags::of("pennant.widthMm").as_deref(), Some("--width"));
/// assert_eq!(flags::of("colourOrder.fabricCodes[2]").as_deref(), Some("--fabrics, entry 3"));
/// assert_eq!(flags::of("finish.ends[1].loopMm").as_deref(), Some("--loop, entry 2"));
/// assert_eq!(flags::of("hang").as_deref(), Some("--span, --dip or --swags"));
/// assert_eq!(flags::of(""), None);
/// ```
pub fn of(path: &str) -> Option<String> {
    let (bare, entry) = without_index(path);
    if let Some((_, flag)) = FLAGS.iter().find(|(of, _)| *of == bare) {
        return Some(match entry {
            Some(entry) => format!("{flag}, entry {}", entry.saturating_add(1)),
            None => (*flag).to_owned(),
        });
    }
    let mut below: Vec<&str> = FLAGS
        .iter()
        .filter(|(of, _)| of.strip_prefix(bare.as_str()).is_some_and(|rest| rest.starts_with('.')))
        .map(|(_, flag)| *flag)
        .collect();
    below.dedup();
    let last = below.pop()?;
    Some(if below.is_empty() { last.to_owned() } else { format!("{} or {last}", below.join(", ")) })
}

/// What is typed for a path, by a table of paths without indices: that of the path itself or
/// of the longest one that it is under. The last index says which entry it is.
///
/// ```
/// use pennantry::flags;
/// let table = &[("lines", "--line"), ("lines.code", "CODE")];
/// assert_eq!(flags::under(table, "lines[1].quantity.lengthMm").as_deref(), Some("--line, entry 2"));
/// assert_eq!(flags::under(table, "lines[0].code").as_deref(), Some("CODE, entry 1"));
/// assert_eq!(flags::under(table, "linesOf"), None);
/// ```
pub fn under(table: &[(&str, &str)], path: &str) -> Option<String> {
    let (bare, entry) = without_index(path);
    let holds = |of: &str| bare.strip_prefix(of).is_some_and(|rest| rest.is_empty() || rest.starts_with('.'));
    let (_, flag) = table.iter().filter(|(of, _)| holds(of)).max_by_key(|(of, _)| of.len())?;
    Some(match entry {
        Some(entry) => format!("{flag}, entry {}", entry.saturating_add(1)),
        None => (*flag).to_owned(),
    })
}

/// Words of the server with the flags in place of the contract's names: of whole paths, of the
/// last part of one where it can be no common word, and of a value that is to be given.
/// Where two fields end alike, the one of who is near is meant, for there it is asked after.
///
/// ```
/// use pennantry::flags;
/// assert_eq!(flags::in_words("Give fixingHeightMm; 1253 mm ends it"), "Give --fixing-height; 1253 mm ends it");
/// assert_eq!(flags::in_words("Give slips: false ends it"), "Give --slips no ends it");
/// assert_eq!(flags::in_words("once fixings and spanMm are told"), "once fixings and --fixing-span are told");
/// ```
pub fn in_words(text: &str) -> String {
    let mut told = text.to_owned();
    for (value, typed) in [("slips: false", "--slips no"), ("slips: true", "--slips yes")] {
        told = told.replace(value, typed);
    }
    let of_a_name = |c: char| c.is_ascii_alphanumeric() || matches!(c, '.' | '[' | ']');
    let mut words = String::with_capacity(told.len());
    let mut name = String::new();
    for c in told.chars() {
        if of_a_name(c) {
            name.push(c);
            continue;
        }
        words.push_str(&typed_as(&name));
        name.clear();
        words.push(c);
    }
    words.push_str(&typed_as(&name));
    words
}

/// A word, or the flag where it is a name of the contract. A point that ends it stays.
fn typed_as(word: &str) -> String {
    let name = word.trim_end_matches('.');
    let points = word.get(name.len()..).unwrap_or_default();
    // a plain word in small letters may be no name
    if !name.contains(|c: char| c == '.' || c.is_ascii_uppercase()) {
        return word.to_owned();
    }
    let is_path = FLAGS.iter().any(|(path, _)| *path == without_index(name).0);
    let ends = |path: &str| path.rsplit('.').next() == Some(name);
    let near = FLAGS.iter().find(|(path, _)| path.starts_with("near.") && ends(path));
    let any = || FLAGS.iter().find(|(path, _)| ends(path));
    let flag = if is_path { of(name) } else { near.or_else(any).map(|(_, flag)| (*flag).to_owned()) };
    flag.map_or_else(|| word.to_owned(), |flag| format!("{flag}{points}"))
}

/// The path without its indices, and the last of them.
fn without_index(path: &str) -> (String, Option<u32>) {
    let mut entry = None;
    let parts: Vec<&str> = path
        .split('.')
        .map(|part| {
            let (name, index) = part.split_once('[').unwrap_or((part, ""));
            entry = index.trim_end_matches(']').parse().ok().or(entry);
            name
        })
        .collect();
    (parts.join("."), entry)
}

#[cfg(test)]
mod tests {
    use clap::CommandFactory;
    use pennantry_contract::table::{ENQUIRY, Kind, Message};

    use super::*;
    use crate::cli::Cli;

    fn leaves(of: &Message, above: &str, found: &mut Vec<String>) {
        for field in of.fields {
            let path = format!("{above}{}", field.json_name);
            match field.kind {
                Kind::Message(inner) => leaves(inner, &format!("{path}."), found),
                _ => found.push(path),
            }
        }
    }

    /// A field that is added to the contract fails here until it has a flag.
    #[test]
    fn every_field_of_an_enquiry_has_a_flag_and_no_flag_is_of_no_field() {
        let mut fields = Vec::new();
        leaves(&ENQUIRY, "", &mut fields);
        let listed: Vec<&str> = FLAGS.iter().map(|(path, _)| *path).collect();
        assert_eq!(listed, fields);
    }

    #[test]
    fn every_flag_of_the_table_can_be_typed() {
        let cli = Cli::command();
        let quote = cli.find_subcommand("quote").unwrap();
        for (path, flag) in FLAGS {
            let found = match flag.strip_prefix("--") {
                Some(long) => quote.get_arguments().any(|arg| arg.get_long() == Some(long)),
                None => {
                    quote.get_positionals().any(|arg| arg.get_value_names().is_some_and(|n| n == [*flag]))
                }
            };
            assert!(found, "{path}: {flag}");
        }
    }

    /// What is typed either fills a field or is about asking and printing.
    #[test]
    fn every_flag_that_can_be_typed_is_in_the_table_or_about_the_sheet() {
        let of_the_sheet = ["help", "server", "json", "show", "plain", "marks", "leaflet", "flagged"];
        let cli = Cli::command();
        let quote = cli.find_subcommand("quote").unwrap();
        for long in quote.get_arguments().filter_map(clap::Arg::get_long) {
            let flag = format!("--{long}");
            let fills = FLAGS.iter().any(|(_, of)| *of == flag);
            assert!(fills || of_the_sheet.contains(&long), "{flag}");
        }
    }

    #[test]
    fn every_name_of_the_contract_in_a_sentence_is_told_as_its_flag() {
        for (path, flag) in FLAGS {
            let last = path.rsplit('.').next().unwrap();
            let can_be_a_word = !last.contains(|c: char| c.is_ascii_uppercase());
            if path.contains('.') || !can_be_a_word {
                assert_eq!(in_words(&format!("Give {path}.")), format!("Give {flag}."));
            }
            if can_be_a_word {
                assert_eq!(in_words(&format!("the {last} of it")), format!("the {last} of it"));
            } else {
                let told = in_words(&format!("once {last} is told; {last}"));
                assert!(told.contains("LENGTH") || told.contains("--"), "{told}");
                assert!(!told.contains(last), "{told}");
            }
        }
        for words in
            ["2.5 mm of EN 71-1:2014+A1:2018, clause 5.4 e)", "nothing. Mm", "BS 5867-2; R03 (US)", "…é"]
        {
            assert_eq!(in_words(words), words);
        }
    }

    #[test]
    fn a_path_that_no_flag_fills_has_none() {
        for path in ["", "enquiries", "pennant.colourMm", "hang.", "tail"] {
            assert_eq!(of(path), None, "{path}");
        }
        assert_eq!(of("finish.trimmings[0].code").as_deref(), Some("--trimming, entry 1"));
        assert_eq!(of("near.jurisdictions[1]").as_deref(), Some("--rules, entry 2"));
        assert_eq!(of("discount").as_deref(), Some("--discount or --reason"));
        assert_eq!(of("finish.trimmings").as_deref(), Some("--trimming"));
    }
}
