use proptest::prelude::*;

use super::*;

fn learning(rate: i64, floor: i64) -> Learning {
    Learning { rate: Percent::from_milli(rate), floor: Percent::from_milli(floor) }
}

fn minutes(milli: i64) -> BenchTime {
    BenchTime::from_milli_minutes(milli)
}

fn free(rate: i64) -> Curve {
    Curve::new(learning(rate, 1))
}

/// Sums of power laws, worked in 40 decimal digits (derived): on both sides of where
/// terms are no longer added one by one.
#[test]
fn sums_agree_with_forty_digits() {
    for (rate, n, sum) in [
        (50_010, 65, 4.761_778_489_969_303),
        (50_010, 1_000, 7.492_338_856_021_098),
        (50_010, 5_000, 9.104_961_302_927_691),
        (50_100, 5_000, 9.199_714_603_084_443),
        (70_000, 65, 14.167_354_776_449_091),
        (70_000, 5_000, 127.150_515_561_737_08),
        (80_000, 65, 24.185_305_057_190_227),
        (80_000, 1_000, 158.670_922_956_839_26),
        (80_000, 5_000, 474.300_106_031_715_9),
        (90_000, 65, 40.237_702_268_072_55),
        (90_000, 4_762, 1_549.571_163_937_671),
        (90_000, 5_000, 1_615.021_665_603_546),
        (99_000, 1_000, 917.942_594_023_234_7),
        (99_000, 5_000, 4_484.074_047_013_204),
    ] {
        let got = free(rate).sum(n);
        assert!((got - sum).abs() <= 1e-13 + 1e-14 * sum, "{rate} {n}: {got}, expected {sum}");
    }
}

/// What is summed beyond the first terms is as good as its documented bound: against
/// the terms added one by one, their rounding made up for as Kahan did.
#[test]
fn the_rest_of_the_sum_is_within_its_bound() {
    for rate in [50_001, 50_500, 55_000, 60_000, 70_000, 80_000, 85_000, 90_000, 95_000, 99_999] {
        let curve = free(rate);
        let (mut sum, mut lost) = (0.0, 0.0);
        for nth in DIRECT + 1..=20_000 {
            let term = curve.power(nth, 0.0) - lost;
            let next: f64 = sum + term;
            lost = (next - sum) - term;
            sum = next;
            if nth % 997 == 0 || nth == DIRECT + 1 || nth == 20_000 {
                let got = curve.beyond(DIRECT, nth);
                assert!((got - sum).abs() <= 1.2e-13 + 4e-15 * sum, "{rate} {nth}: {got}, {sum}");
            }
        }
    }
}

/// The first term left out, over all exponents in steps of a thousandth.
#[test]
fn the_documented_bound_holds_for_every_rate() {
    let largest = (0..=1_000).map(|step| {
        let b = -f64::from(step) / 1_000.0;
        let product = b * (b - 1.0) * (b - 2.0) * (b - 3.0) * (b - 4.0);
        product.abs() / 30_240.0 * f64::from(DIRECT).powf(b - 5.0)
    });
    let largest = largest.fold(0.0, f64::max);
    assert!(largest < 1.2e-13 && largest > 1.1e-13, "{largest}");
}

#[test]
fn the_curve_ends_on_its_floor() {
    // 0.9^(log2 n) is above 0.6 up to the 28th
    let first = minutes(1_000_000);
    let unit = |nth| learned_unit(first, nth, learning(90_000, 60_000)).milli_minutes();
    assert!(unit(28) > 600_000);
    assert_eq!([unit(29), unit(30), unit(u32::MAX)], [600_000; 3]);
    let total = |n| learned_total(first, n, learning(90_000, 60_000)).milli_minutes();
    assert_eq!(total(100_029) - total(29), 60_000_000_000);
    // where a doubling lands on the floor exactly, it is on it
    let exact = |nth| learned_unit(first, nth, learning(80_000, 64_000)).milli_minutes();
    assert_eq!([exact(4), exact(5), exact(8)], [640_000; 3]);
}

#[test]
fn nothing_to_learn_is_a_plain_product() {
    let first = minutes(1_234);
    for (rate, floor) in [(100_000, 1), (100_000, 100_000), (80_000, 100_000), (50_001, 100_000)] {
        for n in [0, 1, 2, 64, 65, 200_000] {
            let total = learned_total(first, n, learning(rate, floor));
            assert_eq!(total, minutes(1_234 * i64::from(n)), "{rate} {floor} {n}");
        }
        assert_eq!(learned_unit(first, 200_000, learning(rate, floor)), first);
    }
}

#[test]
fn figures_that_no_catalogue_lets_through_count_as_the_nearest() {
    let total = |rate, floor| learned_total(minutes(1_000), 1_000, learning(rate, floor));
    for (given, nearest) in [
        ((0, 60_000), (50_001, 60_000)),
        ((-5, 60_000), (50_001, 60_000)),
        ((50_000, 60_000), (50_001, 60_000)),
        ((120_000, 60_000), (100_000, 60_000)),
        ((80_000, 0), (80_000, 1)),
        ((80_000, -7), (80_000, 1)),
        ((80_000, 300_000), (80_000, 100_000)),
        ((i64::MIN, i64::MAX), (50_001, 100_000)),
    ] {
        assert_eq!(total(given.0, given.1), total(nearest.0, nearest.1), "{given:?}");
    }
    assert_eq!(learned_unit(minutes(7), 0, learning(80_000, 1)), minutes(7));
    assert_eq!(learned_total(minutes(i64::MAX), u32::MAX, learning(90_000, 1)), minutes(i64::MAX));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2_000))]

    #[test]
    fn each_further_one_adds_its_own_time(
        rate in 50_001_i64..=100_000, floor in 1_i64..=100_000, n in 1_u32..=200_000,
    ) {
        let curve = Curve::new(learning(rate, floor));
        let added = curve.total(n) - curve.total(n - 1);
        // two sums and one share, each to the nearest billionth
        prop_assert!((added - curve.unit(n)).abs() <= 2, "{added} {}", curve.unit(n));
    }

    #[test]
    fn practice_keeps_its_bounds(
        rate in 50_001_i64..=100_000, floor in 1_i64..=100_000, n in 0_u32..=200_000,
        milli in 0_i64..=1_000_000,
    ) {
        let (learning, first) = (learning(rate, floor), minutes(milli));
        let total = i128::from(learned_total(first, n, learning).milli_minutes());
        let even = i128::from(milli) * i128::from(n);
        prop_assert!(total <= even);
        prop_assert!(total * 100_000 >= even * i128::from(floor));
        let next = learned_total(first, n + 1, learning).milli_minutes();
        prop_assert!(i128::from(next) >= total);
        prop_assert!(learned_unit(first, n + 1, learning) <= learned_unit(first, n.max(1), learning));
    }

    #[test]
    fn more_left_by_a_doubling_is_more_time(
        rate in 50_001_i64..100_000, floor in 1_i64..100_000, n in 1_u32..=200_000,
    ) {
        let total = |rate, floor| Curve::new(learning(rate, floor)).total(n);
        prop_assert!(total(rate + 1, floor) >= total(rate, floor));
        prop_assert!(total(rate, floor + 1) >= total(rate, floor));
    }
}
