//! Bench time, first step: a set-up, so much a pennant, so much a metre.
//!
//! `set-up + strings · (pennants · time a pennant + overall length · time a metre)`
//!
//! The set-up is counted once an order. All three times are the catalogue's: published
//! times for one pennant differ by a factor of ten with the construction, so none is
//! built in. Operations with their own drivers, allowances and learning are not in it.

use pennantry_measure::{BenchTime, Length};

use crate::shop::{Method, Shop};

/// Bench time for `quantity` strings of `count` pennants each on `overall` of binding.
/// The metres of one string are taken up to the next thousandth of a minute.
pub fn minutes(shop: &Shop, method: &Method, count: u32, overall: Length, quantity: u32) -> BenchTime {
    let one = method.per_pennant * i64::from(count) + shop.bench.per_metre.per_metre(overall);
    shop.bench.set_up + one * i64::from(quantity)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fixture::{mm, shop};

    fn milli(milli: i64) -> BenchTime {
        BenchTime::from_milli_minutes(milli)
    }

    /// The story: 15 + 29 · 2.5 + 6.8 · 2 = 101.1 minutes (derived).
    #[test]
    fn the_set_up_is_counted_once() {
        let shop = shop();
        let method = &shop.methods[0];
        assert_eq!(minutes(&shop, method, 29, mm(6_800), 1), milli(101_100));
        assert_eq!(minutes(&shop, method, 29, mm(6_800), 3), milli(15_000 + 3 * 86_100));
    }

    #[test]
    fn metres_go_up_to_the_next_thousandth_once_a_string() {
        let shop = shop();
        let method = &shop.methods[0];
        let over = Length::from_um(6_800_001);
        assert_eq!(minutes(&shop, method, 0, over, 1), milli(15_000 + 13_601));
        assert_eq!(minutes(&shop, method, 0, over, 2), milli(15_000 + 2 * 13_601));
    }
}
