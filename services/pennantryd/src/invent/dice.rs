//! Chance that can be repeated.
//!
//! `SplitMix64`: Steele, Lea and Flood, *Fast Splittable Pseudorandom Number Generators*, OOPSLA
//! 2014. Whole numbers only, so every machine throws the same. It keeps no secrets.

/// Dice of a seed.
#[derive(Debug)]
pub(super) struct Dice(u64);

impl Dice {
    pub(super) fn new(seed: u64) -> Dice {
        Dice(seed)
    }

    /// The next 64 bits.
    pub(super) fn bits(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        mixed ^ (mixed >> 31)
    }

    /// A whole number from one to another, both among them: the remainder of a division, whose
    /// leaning is below one in 10¹² for the small spans of a story.
    pub(super) fn from(&mut self, least: i64, most: i64) -> i64 {
        let span = u64::try_from(most.saturating_sub(least)).unwrap_or(0).saturating_add(1);
        least.saturating_add(i64::try_from(self.bits() % span).unwrap_or(0))
    }

    /// True so many times in a million.
    pub(super) fn in_million(&mut self, times: u64) -> bool {
        self.bits() % 1_000_000 < times
    }

    /// True so many times in a hundred.
    pub(super) fn in_hundred(&mut self, times: u64) -> bool {
        self.bits() % 100 < times
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn they_fall_as_published() {
        // Rosetta Code, "Pseudo-random numbers/Splitmix64", from the reference implementation
        let mut dice = Dice::new(1_234_567);
        let thrown: Vec<u64> = (0..5).map(|_| dice.bits()).collect();
        assert_eq!(
            thrown,
            [
                6_457_827_717_110_365_317,
                3_203_168_211_198_807_973,
                9_817_491_932_198_370_423,
                4_593_380_528_125_082_431,
                16_408_922_859_458_223_821,
            ]
        );
    }

    #[test]
    fn numbers_stay_within_what_is_asked() {
        let mut dice = Dice::new(7);
        let thrown: Vec<i64> = (0..1_000).map(|_| dice.from(-1, 2)).collect();
        assert_eq!((thrown.iter().min(), thrown.iter().max()), (Some(&-1), Some(&2)));
        assert_eq!(dice.from(5, 5), 5);
        assert!(!dice.in_million(0) && dice.in_million(1_000_000) && dice.in_hundred(100));
    }
}
