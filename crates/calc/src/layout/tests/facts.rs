use super::*;
use crate::notice::Code;
use crate::order::{Hang, Parity};
use crate::shop::{Grain, SizeAt};

fn lefts(layout: &Layout) -> Vec<i64> {
    layout.marks.iter().map(|mark| mark.left.um() / 1_000).collect()
}

fn rights(layout: &Layout) -> Vec<i64> {
    layout.marks.iter().map(|mark| mark.right.um() / 1_000).collect()
}

fn gaps(order: Order) -> Order {
    Order { leftover: Leftover::Gaps, ..order }
}

/// Common practice, worked by hand: binding 2 500, template 190 x 210, gap 20.
#[test]
fn the_pencil_case() {
    let layout = solved(&binding(mm(2_500)));
    assert_eq!((layout.count, layout.gap), (9, mm(20)));
    assert_eq!((layout.flagged, layout.tail), (mm(1_870), mm(305)));
    assert_eq!((layout.overall, layout.binding_cut), (mm(2_480), mm(2_500)));
    assert_eq!(lefts(&layout), [-935, -725, -515, -305, -95, 115, 325, 535, 745]);
    assert_eq!(rights(&layout), [-745, -535, -325, -115, 95, 305, 515, 725, 935]);
    let from_end: Vec<Length> = layout.marks.iter().map(|mark| mark.left_from_end).collect();
    assert_eq!(from_end, [315, 525, 735, 945, 1_155, 1_365, 1_575, 1_785, 1_995].map(mm));
    let from_end: Vec<Length> = layout.marks.iter().map(|mark| mark.right_from_end).collect();
    assert_eq!(from_end, [505, 715, 925, 1_135, 1_345, 1_555, 1_765, 1_975, 2_185].map(mm));
    assert_eq!((Some(&layout.first), Some(&layout.last)), (layout.marks.first(), layout.marks.last()));
    assert_eq!((layout.top_width, layout.top_drop), (mm(190), mm(210)));
    // 190 x 197.5 / 210 and what each side gives up: 5.654 762
    assert_eq!((layout.visible_width, layout.visible_drop), (um(178_690), um(197_500)));
    assert_eq!((layout.visible_gap, layout.visible_flagged), (um(31_310), um(1_858_690)));
    assert_eq!(layout.pitch, Pitch { numerator: 210_000, denominator: 1 });
    // 1 % of 1 870 is more than 5
    assert_eq!(layout.tolerance, um(18_700));
    assert_eq!((layout.notices, layout.hang), (Vec::new(), None));
    // ten leave 200 each, less than 300; eight 1 660 and 410
    let eight = Alternative { count: 8, gap: mm(20), flagged: mm(1_660), tail: mm(410) };
    assert_eq!(layout.alternatives, [eight]);
}

#[test]
fn the_pencil_case_with_other_wishes() {
    let ten = solved(&Order { tail: mm(200), ..binding(mm(2_500)) });
    assert_eq!((ten.count, ten.flagged, ten.tail), (10, mm(2_080), mm(200)));
    assert_eq!((ten.marks[4].right, ten.marks[5].left), (mm(-10), mm(10)));
    for wish in [0, 100, 200, 300, 305] {
        let nine = Order { tail: mm(wish), tail_given: true, count: Some(9), ..binding(mm(2_500)) };
        for gap_given in [false, true] {
            let layout = solved(&Order { gap_given, ..nine.clone() });
            assert_eq!((layout.count, layout.gap, layout.tail), (9, mm(20), mm(305)), "{wish}");
        }
    }
    // the bare template on the bare binding: 2 520 / 210 is 12 exactly
    assert_eq!(fit_count(mm(2_500), mm(190), mm(20)), 12);
    for (count, tail) in [(12, 0), (11, 105), (10, 210), (9, 315)] {
        assert_eq!((mm(2_500) - body_length(count, mm(190), mm(20))).um(), 2 * mm(tail).um());
        assert_eq!(fit_count(mm(2_500 - 2 * tail), mm(190), mm(20)), count);
        let layout = solved(&Order { tail: mm(tail), ..overall(mm(2_500)) });
        assert_eq!((layout.count, layout.tail), (count, mm(tail)));
    }
}

/// Common practice, worked by hand: 6.2 m flagged.
#[test]
fn the_story_with_its_gap_kept() {
    let layout = solved(&flagged(mm(6_200)));
    assert_eq!((layout.count, layout.flagged, layout.gap), (29, mm(6_070), mm(20)));
    // what is left of 6 200 lengthens the tails
    assert_eq!((layout.tail, layout.overall, layout.binding_cut), (mm(365), mm(6_800), mm(6_820)));
    let at = |count, flagged, tail| Alternative { count, gap: mm(20), flagged: mm(flagged), tail: mm(tail) };
    assert_eq!(layout.alternatives, [at(28, 5_860, 470), at(30, 6_280, 300)]);
}

#[test]
fn the_story_with_its_gap_spread() {
    let layout = solved(&gaps(flagged(mm(6_200))));
    assert_eq!((layout.count, layout.flagged), (29, mm(6_200)));
    // 690 over 28 gaps, and 190 more to the next left edge
    assert_eq!(layout.gap, um(24_643));
    assert_eq!(layout.pitch, Pitch { numerator: 1_502_500, denominator: 7 });
    // 24.642 857 + 11.309 524
    assert_eq!(layout.visible_gap, um(35_952));
    assert_eq!((layout.tail, layout.overall, layout.binding_cut), (mm(300), mm(6_800), mm(6_820)));
    assert_eq!((layout.first.left, layout.last.right), (mm(-3_100), mm(3_100)));
    // -3 100 + 214.642 857 = -2 885.357
    assert_eq!((layout.marks[1].left, layout.marks[1].right), (mm(-2_885), mm(-2_695)));
    assert_eq!((layout.marks[14].left, layout.marks[14].right), (mm(-95), mm(95)));
    assert_eq!(layout.first.left_from_end, mm(310));
    assert_eq!(layout.tolerance, mm(62));
    // 880 / 27 and 500 / 29
    let at = |count, gap| Alternative { count, gap: um(gap), flagged: mm(6_200), tail: mm(300) };
    assert_eq!(layout.alternatives, [at(28, 32_593), at(30, 17_241)]);
}

#[test]
fn the_story_as_an_overall_length_is_26() {
    let layout = solved(&overall(mm(6_200)));
    assert_eq!((layout.count, layout.flagged, layout.tail), (26, mm(5_440), mm(380)));
}

#[test]
fn a_count_alone_gives_the_length() {
    let layout = solved(&Order { count: Some(30), ..order() });
    assert_eq!((layout.flagged, layout.overall, layout.binding_cut), (mm(6_280), mm(6_880), mm(6_900)));
    let beside: Vec<(u32, Length)> = layout.alternatives.iter().map(|a| (a.count, a.flagged)).collect();
    assert_eq!(beside, [(29, mm(6_070)), (31, mm(6_490))]);
    let one = solved(&Order { count: Some(1), ..order() });
    assert_eq!((one.flagged, one.overall, one.tolerance), (mm(190), mm(790), mm(5)));
    assert_eq!((lefts(&one), rights(&one)), (vec![-95], vec![95]));
    assert_eq!(one.pitch, Pitch { numerator: 210_000, denominator: 1 });
}

#[test]
fn a_lettering_alone_gives_the_count() {
    let lettered = |parity| Order { letters: vec![Some(String::from("A")); 20], parity, ..order() };
    let layout = solved(&Order { gap: mm(40), width: mm(160), ..lettered(None) });
    assert_eq!((layout.count, layout.flagged), (20, mm(3_960)));
    // one fewer would not take the letters
    assert_eq!(layout.alternatives.iter().map(|a| a.count).collect::<Vec<_>>(), [21]);
    assert_eq!(solved(&lettered(Some(Parity::Odd))).count, 21);
}

#[test]
fn letters_are_not_thinned_out_for_a_gap() {
    // spread with a least gap of 0 and 100 wanted: 21 would come nearest, 29 letters fit
    let thin = Order { gap: mm(100), min_gap: Some(mm(0)), ..gaps(flagged(mm(6_200))) };
    assert_eq!(solved(&thin).count, 22);
    let lettered = Order { letters: vec![Some(String::from("A")); 29], ..thin };
    assert_eq!(solved(&lettered).count, 29);
}

#[test]
fn a_length_and_a_count_give_the_gap() {
    let layout = solved(&Order { count: Some(25), width: mm(160), ..gaps(flagged(mm(5_000))) });
    assert_eq!((layout.gap, layout.flagged), (um(41_667), mm(5_000)));
    // to the tails, at the usual gap, if it fits
    let layout = solved(&Order { count: Some(25), width: mm(160), ..flagged(mm(5_000)) });
    assert_eq!((layout.gap, layout.flagged, layout.tail), (mm(20), mm(4_480), mm(560)));
    // and a gap of its own where it does not: (1 868 - 1 710) / 8
    let layout = solved(&Order { count: Some(9), tail: mm(306), ..binding(mm(2_500)) });
    assert_eq!((layout.gap, layout.tail), (um(19_750), mm(306)));
}

#[test]
fn parity_takes_one_fewer() {
    let even = solved(&Order { parity: Some(Parity::Even), ..gaps(flagged(mm(6_200))) });
    assert_eq!((even.count, even.gap), (28, um(32_593)));
    let odd = solved(&Order { parity: Some(Parity::Odd), tail: mm(200), ..binding(mm(2_500)) });
    assert_eq!((odd.count, odd.tail), (9, mm(305)));
}

#[test]
fn least_and_greatest_gaps_hold() {
    let within =
        Order { gap: mm(30), min_gap: Some(mm(30)), max_gap: Some(mm(40)), ..gaps(flagged(mm(6_200))) };
    let layout = solved(&within);
    assert_eq!((layout.count, layout.gap), (28, um(32_593)));
    // 30 leave 17.241 each, 29 leave 24.643: 20 lies nearer to the first
    let tighter = solved(&Order { min_gap: Some(mm(10)), ..gaps(flagged(mm(6_200))) });
    assert_eq!((tighter.count, tighter.gap), (30, um(17_241)));
    // 260: two leave 60, three leave -20; both are 40 off, and the larger count stands
    let tie = solved(&Order { width: mm(100), min_gap: Some(mm(-20)), ..gaps(flagged(mm(260))) });
    assert_eq!((tie.count, tie.gap), (3, mm(-20)));
    // 2 400: 11 leave 31, above the greatest by a little; 12 leave 120/11 and are had
    let held =
        Order { gap: mm(30), min_gap: Some(mm(10)), max_gap: Some(mm(30)), ..gaps(flagged(mm(2_400))) };
    let layout = solved(&held);
    assert_eq!((layout.count, layout.gap), (12, um(10_909)));
    // 2 500: 11 leave 41, 12 leave 20; neither is within 25 to 30
    let capped =
        Order { gap: mm(25), min_gap: Some(mm(25)), max_gap: Some(mm(30)), ..gaps(flagged(mm(2_500))) };
    let layout = solved(&capped);
    assert_eq!((layout.count, layout.gap, layout.flagged), (11, mm(30), mm(2_390)));
    assert_eq!((layout.tail, layout.overall), (mm(355), mm(3_100)));
    let notice = &layout.notices[0];
    assert_eq!((notice.code, notice.field), (Code::GapCapped, Some(Field::MaxGap)));
    assert!(notice.message.contains("355 mm") && notice.message.contains("30 mm"), "{}", notice.message);
    // the same of a count that was given
    let given = solved(&Order { count: Some(28), max_gap: Some(mm(30)), ..gaps(flagged(mm(6_200))) });
    assert_eq!((given.gap, given.flagged, given.tail), (mm(30), mm(6_130), mm(335)));
    assert_eq!(given.notices[0].code, Code::GapCapped);
}

#[test]
fn one_pennant_leaves_the_rest_to_the_tails() {
    let layout = solved(&gaps(overall(mm(900))));
    assert_eq!((layout.count, layout.flagged, layout.tail), (1, mm(190), mm(355)));
    assert!(layout.notices.is_empty());
}

#[test]
fn tops_that_touch_or_overlap_are_noticed() {
    let overlapping = solved(&Order { gap: mm(-20), gap_given: true, ..flagged(mm(2_500)) });
    assert_eq!((overlapping.count, overlapping.flagged, overlapping.gap), (14, mm(2_400), mm(-20)));
    let touching = solved(&Order { gap: mm(0), gap_given: true, width: mm(200), ..flagged(mm(10_000)) });
    assert_eq!((touching.count, touching.flagged), (50, mm(10_000)));
    for (layout, word) in [(&overlapping, "overlap by 20 mm"), (&touching, "touch")] {
        let notice = &layout.notices[0];
        assert_eq!((notice.code, notice.field), (Code::TopsOverlap, Some(Field::Gap)));
        assert!(notice.message.contains(word) && notice.message.contains("bulky"), "{}", notice.message);
    }
    // one pennant has nobody to touch
    assert!(solved(&Order { count: Some(1), gap: mm(0), ..order() }).notices.is_empty());
}

/// Common practice, worked by hand: 200 x 200 as seen, touching, 10 deep in a binding
/// of 20: 40 on 8 m.
#[test]
fn sizes_as_seen_are_kept_as_seen() {
    let mut shop = shop();
    shop.bindings[0].width = mm(20);
    let seen = Order {
        width: mm(200),
        drop: mm(200),
        gap: mm(0),
        gap_given: true,
        size_at: SizeAt::BindingEdge,
        ..flagged(mm(8_000))
    };
    let layout = solve(&shop, &seen).expect("it fits");
    assert_eq!((layout.count, layout.visible_flagged, layout.flagged), (40, mm(8_000), mm(8_010)));
    assert_eq!((layout.visible_width, layout.visible_drop, layout.visible_gap), (mm(200), mm(200), mm(0)));
    assert_eq!((layout.top_width, layout.top_drop, layout.gap), (mm(210), mm(210), mm(-10)));
    assert_eq!((layout.overall, layout.tail), (mm(8_610), mm(300)));
    assert_eq!(layout.notices[0].code, Code::TopsOverlap);
    // 200 x 212 / 200 does not divide by 7: v (d + a) / d is rounded once
    let odd = Order { width: um(190_001), drop: um(210_007), gap: mm(30), ..seen };
    let layout = solve(&shop, &odd).expect("it fits");
    // 190 001 x 220 007 / 210 007 = 199 048.4
    assert_eq!((layout.top_width, layout.gap), (um(199_048), um(20_953)));
}

#[test]
fn marks_fall_on_sixteenths_of_an_inch() {
    let mut shop = shop();
    shop.bench.grain = Grain::SixteenthInch;
    let layout = solve(&shop, &gaps(flagged(mm(6_200)))).expect("it fits");
    // 3 100 / 1.5875 = 1 952.76: 1 953 x 1.5875 = 3 100.3875, and 95 / 1.5875 = 59.84
    assert_eq!((layout.first.left, layout.last.right), (um(-3_100_388), um(3_100_388)));
    assert_eq!((layout.marks[14].left, layout.marks[14].right), (um(-95_250), um(95_250)));
    // from the end 310 / 1.5875 = 195.28: rounded from its own place, not from the middle
    assert_eq!(layout.first.left_from_end, um(309_563));
}

#[test]
fn a_hang_keeps_its_knots() {
    let hang = Hang { span: mm(5_000), dip: mm(0), swags: 1 };
    let asked = Order { length: Some(AskedLength::Hang(hang)), tail: mm(50), ..order() };
    let layout = solved(&asked);
    // 5 240 with 120 at each end knotted: 5 000 for flags, 23 take 4 810
    assert_eq!(
        (layout.count, layout.flagged, layout.overall, layout.tail),
        (23, mm(4_810), mm(5_240), mm(215))
    );
    let hung = layout.hang.expect("it hangs");
    assert_eq!((hung.curve, hung.knot, hung.lowest_tip), (mm(5_000), mm(120), mm(210)));
    // with the usual tails 4 640: 22 take 4 600
    assert_eq!(solved(&Order { tail: mm(300), ..asked }).count, 22);
}

#[test]
fn a_hook_behind_a_pennant_is_noticed() {
    // touching pennants leave no gap for the hook between two swags, but there is one
    let hang = Hang { span: mm(5_000), dip: mm(100), swags: 2 };
    let asked = Order { length: Some(AskedLength::Hang(hang)), gap: mm(0), gap_given: true, ..order() };
    let codes = |order: &Order| solved(order).notices.iter().map(|n| (n.code, n.field)).collect::<Vec<_>>();
    let hidden = (Code::HookBehindPennant, Some(Field::Swags));
    assert_eq!(codes(&asked), [(Code::TopsOverlap, Some(Field::Gap)), hidden]);
    assert_eq!(codes(&Order { gap: mm(20), ..asked }), []);
}

#[test]
fn many_pennants_are_not_listed() {
    let many = Order { count: Some(401), ..order() };
    let layout = solved(&many);
    assert!(layout.marks.is_empty());
    assert_eq!((layout.first.left, layout.last.right), (mm(-42_095), mm(42_095)));
    assert_eq!(solved(&Order { count: Some(400), ..many }).marks.len(), 400);
}

#[test]
fn steps_are_few_and_the_same_every_time() {
    let long = Order { gap: mm(-180), min_gap: Some(mm(-185)), ..gaps(flagged(mm(100_000))) };
    let layout = solved(&long);
    assert!(layout.count > 9_000, "{}", layout.count);
    assert!((1..20).contains(&layout.steps), "{}", layout.steps);
    assert_eq!(solved(&long), layout);
}
