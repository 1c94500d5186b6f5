//! Values from books and reference libraries, and properties.
//!
//! "scipy" and "stockpyl" are scipy 1.17.1 and stockpyl 1.0.2; `oracle/supply.py` of this
//! package prints what they say. "Snyder and Shen" are examples and problems of
//! *Fundamentals of Supply Chain Theory*, 2nd edition, as stockpyl ships them; "Nahmias" is
//! *Production and Operations Analysis*: its inputs and rounded answers are from memory, the
//! digits computed by scipy.

mod counts;
mod levels;
mod lots;
mod normal;
mod policies;

use proptest::prelude::ProptestConfig;

/// Many cases of a cheap property; a failing one is printed and not kept in a file.
pub(super) fn many() -> ProptestConfig {
    ProptestConfig { cases: 20_000, failure_persistence: None, ..ProptestConfig::default() }
}

/// Fewer cases of one that takes longer.
pub(super) fn some() -> ProptestConfig {
    ProptestConfig { cases: 2_000, ..many() }
}

/// Equal up to `1e-9`, of the value where it is above 1.
pub(super) fn close(what: &str, got: f64, expected: f64) {
    let off = (got - expected).abs() / expected.abs().max(1.0);
    assert!(off <= 1e-9, "{what}: {got}, expected {expected}");
}
