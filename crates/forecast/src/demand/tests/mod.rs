//! Checks of the demand half against published values, other libraries and properties.

mod choice;
mod methods;
mod oracle;
mod report;
mod seasons;
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

/// Random figures from a seed: Steele, Lea and Flood's `SplitMix64` (2014).
pub struct Dice(pub u64);

impl Dice {
    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    /// From 0 up to 1, in steps of 2⁻³².
    pub fn share(&mut self) -> f64 {
        f64::from(u32::try_from(self.next() >> 32).unwrap()) / 4_294_967_296.0
    }

    /// A whole number from 0 up to so many.
    pub fn below(&mut self, most: i64) -> i64 {
        i64::try_from(self.next() % most.unsigned_abs()).unwrap()
    }

    /// A Poisson count, by Knuth's multiplication.
    pub fn poisson(&mut self, mean: f64) -> i64 {
        let (least, mut product, mut count) = (libm::exp(-mean), self.share(), 0);
        while product > least {
            product *= self.share();
            count += 1;
        }
        count
    }
}
