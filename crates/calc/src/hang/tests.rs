use proptest::prelude::*;

use super::*;

const TABLE: &str = include_str!("../../tables/hang.csv");

fn mm(mm: i64) -> Length {
    Length::from_mm(mm)
}

fn um(um: i64) -> Length {
    Length::from_um(um)
}

/// Millimetres of the table, which may have decimals, as a length.
fn measured(text: &str) -> Length {
    um((text.parse::<f64>().expect("a number") * 1_000.0).round() as i64)
}

#[test]
fn the_table_of_hangs_is_met() {
    let mut rows = 0;
    for row in csv::Reader::from_reader(TABLE.as_bytes()).records() {
        let row = row.expect("the table reads");
        let (id, function) = (&row[0], &row[1]);
        let (span, dip) = (measured(&row[2]), measured(&row[3]));
        let swags: u32 = row[4].parse().expect("swags");
        let wanted: f64 = row[6].parse().expect("expected");
        let tolerance: f64 = row[7].parse().expect("tolerance");
        assert!(!row[8].is_empty() && !row[9].is_empty(), "{id}: no source");
        let got = match function {
            "curve" => curve(span, dip).um() as f64 / 1_000.0,
            "total" => total_curve(Hang { span, dip, swags }).um() as f64 / 1_000.0,
            "pull" => {
                let grams: i64 = row[5].parse().expect("mass");
                pull_mn(span, dip, grams * 1_000).expect("a pull") as f64
            }
            other => panic!("{id}: no function {other}"),
        };
        assert!((got - wanted).abs() <= tolerance, "{id}: {got}, expected {wanted} within {tolerance}");
        rows += 1;
    }
    assert_eq!(rows, 46, "rows of the table");
}

/// The root by halving the interval, in the unknown `a` and with `cosh`: another
/// unknown, another function and another method than the code under test.
fn by_halving(span: f64, dip: f64) -> f64 {
    let (mut low, mut high) = (span / 2_000.0, span * span / (8.0 * dip) + dip);
    for _ in 0..200 {
        let a = f64::midpoint(low, high);
        if a * ((span / (2.0 * a)).cosh() - 1.0) > dip { low = a } else { high = a }
    }
    let a = f64::midpoint(low, high);
    2.0 * a * (span / (2.0 * a)).sinh()
}

/// The parabola through the same three points (Hicks, Civil Engineering Formulas,
/// equation 10.57), which is always the shorter curve.
fn parabola(span: f64, dip: f64) -> f64 {
    let k = 4.0 * dip / span;
    span / 2.0 * ((1.0 + k * k).sqrt() + k.asinh() / k)
}

#[test]
fn the_ends_of_the_range_hold() {
    assert_eq!(curve(mm(10_000), Length::ZERO), mm(10_000));
    assert_eq!(curve(mm(10_000), um(-1)), mm(10_000));
    assert_eq!(curve(Length::ZERO, mm(300)), mm(600));
    assert_eq!(curve(Length::ZERO, Length::ZERO), Length::ZERO);
    // 8 f²/3 l is a third of a micrometre, then two thirds of one
    assert_eq!(curve(mm(2_000_000), um(15_800)), mm(2_000_000));
    assert_eq!(curve(mm(2_000_000), um(22_360)), mm(2_000_000) + um(1));
    // a dip of a hundred spans is the dip down and up, and a little for the bend
    let deep = curve(mm(1_000), mm(100_000));
    assert!(deep > mm(200_000) && deep < mm(201_000), "{deep}");
    let deepest = curve(um(250), mm(100_000));
    assert!(deepest > mm(200_000) && deepest < mm(200_000) + um(250), "{deepest}");
    // far beyond every bound it still ends, and is no less than the span
    let most = um(i64::MAX);
    assert!(curve(most, Length::ZERO) == most && curve(um(1), most) > um(1));
}

#[test]
fn swags_divide_the_span_exactly_and_are_rounded_once() {
    // a third of 10 m is not whole; three curves rounded each by itself give 1 um less
    let hang = Hang { span: mm(10_000), dip: mm(200), swags: 3 };
    let wanted = 3.0 * by_halving(10_000_000.0 / 3.0, 200_000.0);
    assert!((total_curve(hang).um() as f64 - wanted).abs() <= 0.51, "{}", total_curve(hang));
    assert_eq!(total_curve(Hang { swags: 0, ..hang }), total_curve(Hang { swags: 1, ..hang }));
}

#[test]
fn a_swag_is_level_at_its_hooks_and_as_deep_as_asked() {
    let (span, dip) = (mm(10_000), mm(1_000));
    let whole = curve(span, dip);
    assert_eq!(sag_at(span, dip, Length::ZERO), Length::ZERO);
    assert_eq!(sag_at(span, dip, whole), Length::ZERO);
    assert_eq!(sag_at(span, dip, um(whole.um() / 2)), dip);
    assert_eq!(sag_at(span, dip, whole + mm(1)), Length::ZERO);
    assert_eq!(sag_at(span, Length::ZERO, mm(5_000)), Length::ZERO);
    // straight down and up again
    assert_eq!(sag_at(Length::ZERO, mm(300), mm(100)), mm(100));
    assert_eq!(sag_at(Length::ZERO, mm(300), mm(300)), mm(300));
    // Karnovsky and Lebed, worked example 5.4.3: arms of 31.725 and 13.303 end 18.0
    // apart in height, on one catenary with a = 4.48 (published)
    let (span, dip) = (um(23_794_000), um(27_559_845));
    let far = sag_at(span, dip, um(31_725_089 - 13_302_633));
    assert!((far.um() - 18_003_091).abs() <= 2_000, "{far}");
}

#[test]
fn the_pull_is_rounded_half_up_and_may_be_none() {
    // a dip of the span: an eighth of the weight, and 4.5 mN lies at 3 671.02 mg
    assert_eq!(pull_mn(mm(1_000), mm(1_000), 3_670), Some(4));
    assert_eq!(pull_mn(mm(1_000), mm(1_000), 3_672), Some(5));
    assert_eq!(pull_mn(mm(1_000), Length::ZERO, 1), None);
    assert_eq!(pull_mn(um(i64::MAX), um(1), i64::MAX), None);
}

/// The pencil case's pennants: 190 wide, gap 20.
fn hung(hang: Hang, count: u32) -> HangLayout {
    hang_up(hang, mm(120), count, 210_000, 1, mm(190), mm(210))
}

fn places(of: &HangLayout) -> Vec<(i64, bool, i64)> {
    of.hooks.iter().map(|hook| (hook.at.um(), hook.in_gap, hook.shift.um())).collect()
}

#[test]
fn hooks_go_to_the_nearest_gap() {
    // 40 pennants: gaps centred on whole pitches; thirds of 9 m lie 1 500 from the
    // middle, and 1 470 is seven pitches
    let level = Hang { span: mm(9_000), dip: Length::ZERO, swags: 3 };
    assert_eq!(places(&hung(level, 40)), [(-1_470_000, true, 30_000), (1_470_000, true, -30_000)]);
    // 41 pennants: centred on odd half pitches; 1 575 is seven and a half
    assert_eq!(places(&hung(level, 41)), [(-1_575_000, true, -75_000), (1_575_000, true, 75_000)]);
    // an even count of swags over an odd count of pennants: the hook meant for the
    // middle pennant goes to the gap on its right
    let halves = Hang { swags: 2, ..level };
    assert_eq!(places(&hung(halves, 41)), [(105_000, true, 105_000)]);
    assert_eq!(places(&hung(halves, 40)), [(0, true, 0)]);
    assert!(hung(Hang { swags: 1, ..level }, 40).hooks.is_empty());
}

#[test]
fn a_pitch_that_is_not_whole_is_not_rounded_before_it_is_used() {
    // 29 pennants spread over 6 200: the gap is 690/28, the pitch 6 010/28
    let hang = Hang { span: mm(7_000), dip: Length::ZERO, swags: 4 };
    let hung = hang_up(hang, mm(120), 29, 6_010_000, 28, mm(190), mm(210));
    // 1 750 from the middle lies nearest to 8.5 pitches: 51 085/28
    let out = 1_824_464;
    let wanted = [(-out, true, -(out - 1_750_000)), (107_321, true, 107_321), (out, true, out - 1_750_000)];
    assert_eq!(places(&hung), wanted);
}

#[test]
fn hooks_that_cannot_be_moved_say_what_they_hold() {
    let level = Hang { span: mm(9_000), dip: Length::ZERO, swags: 3 };
    // ten pennants reach 1 040 from the middle: both hooks take bare binding
    assert_eq!(places(&hung(level, 10)), [(-1_500_000, true, 0), (1_500_000, true, 0)]);
    // 15 reach 1 565, so 1 500 is behind the outer half of the last pennant
    assert_eq!(places(&hung(level, 15)), [(-1_500_000, false, 0), (1_500_000, false, 0)]);
    // the edge itself is bare
    let edge = Hang { span: mm(9_390), ..level };
    assert_eq!(places(&hung(edge, 15))[1], (1_565_000, true, 0));
    // one pennant has no gap; the hooks beyond it are free, one on it is not
    assert_eq!(places(&hung(level, 1)), [(-1_500_000, true, 0), (1_500_000, true, 0)]);
    assert_eq!(places(&hung(Hang { swags: 2, ..level }, 1)), [(0, false, 0)]);
    // no gaps, and overlapping tops
    for pitch in [190_000, 180_000] {
        let none = hang_up(level, mm(120), 40, pitch, 1, mm(190), mm(210));
        assert_eq!(places(&none), [(-1_500_000, false, 0), (1_500_000, false, 0)]);
    }
    // swags of 200 are shorter than a pitch: nothing is moved, and only the hook that
    // happens to lie within 10 of a gap's centre is free
    let short = Hang { span: mm(1_000), dip: Length::ZERO, swags: 5 };
    let wanted = [(-300_000, false, 0), (-100_000, true, 0), (100_000, true, 0), (300_000, false, 0)];
    assert_eq!(places(&hung(short, 41)), wanted);
}

#[test]
fn a_hang_carries_its_curve_its_knots_and_its_lowest_tip() {
    let hang = Hang { span: mm(12_000), dip: mm(250), swags: 4 };
    let hung = hung(hang, 57);
    assert_eq!((hung.curve, hung.knot, hung.lowest_tip), (um(12_219_415), mm(120), mm(460)));
    assert_eq!(hung.hooks.len(), 3);
}

proptest! {
    #[test]
    fn a_curve_agrees_with_halving(span in 50_000_i64..=2_000_000_000, share in 0.001_f64..5.0) {
        let dip = (span as f64 * share) as i64;
        let wanted = by_halving(span as f64, dip as f64);
        let got = curve(um(span), um(dip)).um() as f64;
        prop_assert!((got - wanted).abs() <= 0.5 + 1e-11 * wanted, "{got} {wanted}");
    }

    #[test]
    fn a_curve_is_at_least_its_span_its_chords_and_the_parabola(
        span in 1_i64..=2_000_000_000, dip in 0_i64..=100_000_000,
    ) {
        let got = curve(um(span), um(dip)).um();
        let (l, f) = (span as f64, dip as f64);
        prop_assert!(got >= span && got <= span + 2 * dip);
        prop_assert!(got as f64 >= 2.0 * (l * l / 4.0 + f * f).sqrt() - 0.6);
        prop_assert!(dip == 0 || got as f64 >= parabola(l, f) - 0.6);
    }

    #[test]
    fn more_dip_never_takes_less(
        span in 1_i64..=2_000_000_000, dip in 0_i64..100_000_000, more in 1_i64..=1_000_000, swags in 1_u32..=200,
    ) {
        let of = |dip| total_curve(Hang { span: um(span), dip: um(dip), swags });
        prop_assert!(of(dip) <= of(dip + 1));
        prop_assert!(of(dip) <= of(dip + more));
        prop_assert!(of(dip) >= um(span));
    }

    #[test]
    fn a_swag_mirrors_and_never_hangs_below_its_dip(
        span in 1_i64..=50_000_000, dip in 0_i64..=5_000_000, share in 0.0_f64..=1.0,
    ) {
        let (span, dip) = (um(span), um(dip));
        let whole = curve(span, dip);
        let along = um((whole.um() as f64 * share) as i64);
        let sag = sag_at(span, dip, along);
        prop_assert!(Length::ZERO <= sag && sag <= dip);
        // the curve is whole micrometres, so its two ends may differ by one
        prop_assert!((sag - sag_at(span, dip, whole - along)).abs() <= um(2));
    }

    #[test]
    fn hooks_keep_their_order_and_mirror(
        span in 500_i64..=200_000, dip in 0_i64..=2_000, swags in 2_u32..=40, count in 1_u32..=900,
        gap in -50_i64..=300, spread in 1_i128..=40,
    ) {
        let hang = Hang { span: mm(span), dip: mm(dip), swags };
        let pitch = i128::from(190_000 + gap * 1_000) * spread + 1;
        let hung = hang_up(hang, mm(120), count, pitch, spread, mm(190), mm(210));
        prop_assert_eq!(hung.hooks.len(), usize::try_from(swags - 1).expect("small"));
        for (left, right) in hung.hooks.iter().zip(hung.hooks.iter().skip(1)) {
            prop_assert!(left.at < right.at);
        }
        for hook in &hung.hooks {
            prop_assert!(hook.in_gap || hook.shift == Length::ZERO);
            prop_assert!(hook.shift.wide().abs() * 2 * spread <= pitch + 2 * spread);
        }
        for (left, right) in hung.hooks.iter().zip(hung.hooks.iter().rev()) {
            // the very middle goes to the right, whichever side it is seen from
            if left.at - left.shift != Length::ZERO {
                prop_assert_eq!((left.at, left.shift, left.in_gap), (-right.at, -right.shift, right.in_gap));
            }
        }
    }

    #[test]
    fn a_hook_in_a_gap_is_not_behind_a_pennant(
        span in 500_i64..=60_000, swags in 2_u32..=20, count in 1_i64..=300, gap in 1_i64..=300,
    ) {
        let hang = Hang { span: mm(span), dip: mm(100), swags };
        let pitch = 190_000 + gap * 1_000;
        let hung = hang_up(hang, mm(120), u32::try_from(count).expect("small"), pitch.into(), 1, mm(190), mm(210));
        for hook in &hung.hooks {
            // every pennant, one by one, in half micrometres from the middle
            let at = 2 * hook.at.um();
            let lefts = (0..count).map(|i| -(count - 1) * pitch - 190_000 + 2 * i * pitch);
            let edges: Vec<(i64, i64)> = lefts.map(|left| (left, left + 2 * 190_000)).collect();
            // the place is rounded, so beside an edge it may be either
            let beside = |edge: i64| (at - edge).abs() <= 2;
            if edges.iter().any(|(left, right)| beside(*left) || beside(*right)) {
                continue;
            }
            let behind = edges.iter().any(|(left, right)| *left < at && at < *right);
            prop_assert_eq!(behind, !hook.in_gap, "{:?}", hook);
        }
    }
}
