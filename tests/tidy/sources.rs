//! What the sources of the pure packages may not name.
//!
//! The text that is looked at is what the compiler would see of the package
//! itself: comments and everything under `#[cfg(test)]` are gone.

use super::{files, none, text};

/// Ways to the world outside, to a clock, and to an order that differs from run to run.
const WORLD: &[&str] = &[
    "std::time",
    "std::fs",
    "std::env",
    "std::net",
    "std::process",
    "std::thread",
    "std::io",
    "std::sync",
    "thread_local",
    "static mut",
    "SystemTime",
    "Instant",
    "HashMap",
    "HashSet",
    "RandomState",
];

/// Functions of floating point whose last bit differs from machine to machine.
const FUNCTIONS: &[&str] = &[
    "sin", "cos", "tan", "sin_cos", "asin", "acos", "atan", "atan2", "sinh", "cosh", "tanh", "asinh",
    "acosh", "atanh", "exp", "exp2", "exp_m1", "ln", "ln_1p", "log", "log2", "log10", "powf", "powi", "cbrt",
    "hypot", "mul_add",
];

/// The sources of a package, test modules left out, as text without comments.
fn sources(package: &str) -> Vec<(String, String)> {
    let folder = format!("crates/{package}/src/");
    let named: Vec<String> =
        files().into_iter().filter(|name| name.starts_with(&folder) && super::is_rust(name)).collect();
    assert!(!named.is_empty(), "no sources under {folder}");
    let mut only_tests = Vec::new();
    let mut all = Vec::new();
    for name in named {
        let parsed = syn::parse_file(&text(&name).expect("sources are text")).expect("sources parse");
        let stem = name.trim_end_matches(".rs").trim_end_matches("/lib").trim_end_matches("/mod").to_owned();
        let (kept, dropped) = without_tests(parsed);
        for module in dropped {
            let below = if name.ends_with("/lib.rs") { folder.clone() } else { format!("{stem}/") };
            only_tests.push(format!("{below}{module}"));
        }
        all.push((name, code(&kept)));
    }
    all.retain(|(name, _)| !only_tests.iter().any(|tests| name.starts_with(tests.as_str())));
    all
}

/// The file without its test items, and the names of test modules in files of their own.
fn without_tests(mut file: syn::File) -> (syn::File, Vec<String>) {
    let mut dropped = Vec::new();
    file.items.retain(|item| {
        let (attributes, module): (&[syn::Attribute], _) = match item {
            syn::Item::Mod(module) => (&module.attrs, Some(module)),
            syn::Item::Fn(function) => (&function.attrs, None),
            syn::Item::Use(import) => (&import.attrs, None),
            _ => (&[], None),
        };
        let test = attributes.iter().any(is_test);
        if test && let Some(module) = module.filter(|module| module.content.is_none()) {
            dropped.push(module.ident.to_string());
        }
        !test
    });
    (file, dropped)
}

fn is_test(attribute: &syn::Attribute) -> bool {
    attribute.path().is_ident("cfg")
        && attribute.parse_args::<syn::Path>().is_ok_and(|path| path.is_ident("test"))
}

/// The code printed anew, which drops comments; docs become lines that are dropped here.
fn code(file: &syn::File) -> String {
    let printed = prettyplease::unparse(file);
    printed.lines().filter(|line| !line.trim_start().starts_with("//")).collect::<Vec<_>>().join("\n")
}

fn is_part_of_word(c: char) -> bool {
    c.is_alphanumeric() || c == '_'
}

/// Whether a text names a word as a word of its own.
fn names(text: &str, word: &str) -> bool {
    text.match_indices(word).any(|(at, found)| {
        !text[..at].chars().next_back().is_some_and(is_part_of_word)
            && !text[at + found.len()..].chars().next().is_some_and(is_part_of_word)
    })
}

/// Whether a text calls a function of floating point from the standard library.
fn calls(text: &str, function: &str) -> bool {
    let method = text.contains(&format!(".{function}("));
    method || names(text, &format!("f64::{function}")) || names(text, &format!("f32::{function}"))
}

fn worldly(name: &str, code: &str) -> Vec<String> {
    WORLD.iter().filter(|word| names(code, word)).map(|word| format!("{name}: {word}")).collect()
}

fn inexact(name: &str, code: &str) -> Vec<String> {
    FUNCTIONS.iter().filter(|f| calls(code, f)).map(|f| format!("{name}: {f} is not libm's")).collect()
}

#[test]
fn invariant_01_calc_and_measure_reach_no_world_and_no_clock() {
    let all = sources("calc").into_iter().chain(sources("measure"));
    let found: Vec<String> = all.flat_map(|(name, code)| worldly(&name, &code)).collect();
    none("pure packages", &found);
}

#[test]
fn invariant_01_functions_beyond_the_root_come_from_libm() {
    let found: Vec<String> =
        sources("calc").into_iter().flat_map(|(name, code)| inexact(&name, &code)).collect();
    none("calc", &found);
}

fn floats(name: &str, code: &str) -> Vec<String> {
    let words = ["f64", "f32"].into_iter();
    words.filter(|word| names(code, word)).map(|word| format!("{name}: {word}")).collect()
}

#[test]
fn invariant_03_no_float_in_measure() {
    let found: Vec<String> =
        sources("measure").into_iter().flat_map(|(name, code)| floats(&name, &code)).collect();
    none("measure", &found);
}

/// Where the calculation needs one: the curve of a hang, the arc of a scallop, the power of
/// a learning curve.
const CURVES: [&str; 4] = ["/double.rs", "/hang.rs", "/outline/measures.rs", "/labour/learning.rs"];

/// In the calculation only a curve needs one: no float in money, cloth or marks.
#[test]
fn invariant_03_no_float_in_calc_but_for_the_curve() {
    let all =
        sources("calc").into_iter().filter(|(name, _)| !CURVES.iter().any(|curve| name.ends_with(curve)));
    let found: Vec<String> = all.flat_map(|(name, code)| floats(&name, &code)).collect();
    none("calc", &found);
}

/// Time enters once: outside the clock nobody asks what day it is.
#[test]
fn invariant_10_only_the_clock_is_asked_for_the_time() {
    let askers = ["Timestamp::now", "Zoned::now", "SystemTime", "UtcDateTime::now"];
    let inside = |name: &String| {
        super::is_rust(name)
            && (name.starts_with("crates/") || name.starts_with("services/"))
            && !name.contains("/tests/")
    };
    let mut clocks = Vec::new();
    for name in files().into_iter().filter(inside) {
        let parsed = syn::parse_file(&text(&name).expect("sources are text")).expect("sources parse");
        let code = code(&without_tests(parsed).0);
        if askers.iter().any(|asker| names(&code, asker)) {
            clocks.push(name);
        }
    }
    assert_eq!(clocks, ["services/pennantryd/src/clock.rs"]);
}

#[test]
fn what_the_pure_packages_may_not_name_is_found() {
    let wrong = "
        use std::time::Instant;
        /// Says std::fs in its docs only.
        fn f(x: f64) -> f64 { x.sin() + f64::powf(x, 2.0) + libm::cos(x) }
        #[cfg(test)]
        mod tests { use std::env; }
        #[cfg(test)]
        mod elsewhere;
    ";
    let (kept, dropped) = without_tests(syn::parse_str(wrong).expect("it parses"));
    let code = code(&kept);
    assert_eq!(worldly("a", &code), ["a: std::time", "a: Instant"]);
    assert_eq!(inexact("a", &code), ["a: sin is not libm's", "a: powf is not libm's"]);
    assert_eq!(dropped, ["elsewhere"]);
}
