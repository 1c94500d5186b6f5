//! Checks of the demand half against published values, other libraries and properties.

mod methods;
mod oracle;
mod shapes;

/// FPP2, section 12.2: 36 months of `productC`.
pub const PRODUCT_C: [u8; 36] = [
    0, 2, 0, 1, 0, 11, 0, 0, 0, 0, 2, 0, 6, 3, 0, 0, 0, 0, 0, 7, 0, 0, 0, 0, 0, 0, 0, 3, 1, 0, 0, 1, 0, 1, 0,
    0,
];
/// Short enough to be worked by hand.
pub const WORKED: [u8; 12] = [0, 0, 3, 0, 2, 0, 0, 0, 4, 1, 0, 0];

/// Small whole numbers as values.
pub fn values(of: &[u8]) -> Vec<f64> {
    of.iter().copied().map(f64::from).collect()
}

/// Within so much of the larger of the two.
pub fn near(found: f64, wanted: f64, relative: f64) -> bool {
    (found - wanted).abs() <= relative * found.abs().max(wanted.abs())
}

/// Fails unless a value is within a billionth of what it should be.
#[track_caller]
pub fn same(found: f64, wanted: f64) {
    assert!(near(found, wanted, 1e-9), "{found} is not {wanted}");
}

/// Fails unless a value is what it should be to the digits printed.
#[track_caller]
pub fn printed(found: f64, wanted: &str) {
    let digits = wanted.split_once('.').map_or(0, |(_, digits)| digits.len());
    assert_eq!(format!("{found:.digits$}"), wanted, "{found}");
}
