use pennantry_measure::{Rounding, divide};
use proptest::prelude::*;

use super::*;
use crate::order::{Asked, Hang, Parity, Reason, check};
use crate::shop::{Construction, SizeAt};

/// The small shop, making all that the bounds allow.
fn wide_shop() -> Shop {
    let bound = pennantry_measure::bounds::LENGTH;
    Shop { least: bound.least, most: bound.most, ..shop() }
}

/// Whole millimetres half of the time, else micrometres.
fn length(least_mm: i64, most_mm: i64) -> BoxedStrategy<Length> {
    prop_oneof![(least_mm..=most_mm).prop_map(mm), (least_mm * 1_000..=most_mm * 1_000).prop_map(um)].boxed()
}

fn asked_length(most_mm: i64) -> BoxedStrategy<AskedLength> {
    let hang = (length(50, most_mm), length(0, 5_000), 1_u32..=9)
        .prop_map(|(span, dip, swags)| AskedLength::Hang(Hang { span, dip, swags }));
    prop_oneof![
        length(50, most_mm).prop_map(AskedLength::Flagged),
        length(50, most_mm).prop_map(AskedLength::Overall),
        length(50, most_mm).prop_map(AskedLength::Binding),
        hang,
    ]
    .boxed()
}

fn some<T: std::fmt::Debug + Clone + 'static>(
    percent: u32,
    of: BoxedStrategy<T>,
) -> BoxedStrategy<Option<T>> {
    prop_oneof![percent => of.prop_map(Some), 100 - percent => Just(None)].boxed()
}

fn any_of<T: std::fmt::Debug + Clone + 'static>(choices: &[T]) -> BoxedStrategy<T> {
    proptest::sample::select(choices.to_vec()).boxed()
}

/// Whatever can be asked within the bounds, or within what is usual.
fn asked(wild: bool) -> impl Strategy<Value = Asked> {
    let (most_mm, widths, drops, gaps, counts) = if wild {
        (2_000_000, length(20, 1_000), length(20, 1_500), length(-1_000, 2_000), (1_u32..=20_000).boxed())
    } else {
        (30_000, length(80, 260), length(120, 310), length(-30, 150), (1_u32..=120).boxed())
    };
    let layout = (
        some(80, asked_length(most_mm)),
        some(30, counts),
        some(40, gaps.clone()),
        some(50, length(0, if wild { 10_000 } else { 500 })),
        some(30, any_of(&[Leftover::Tails, Leftover::Gaps])),
        some(30, any_of(&[Parity::Odd, Parity::Even])),
        some(20, gaps.clone()),
        some(20, gaps),
    );
    let pennant = (
        some(60, widths),
        some(60, drops),
        any_of(&[SizeAt::TopEdge, SizeAt::BindingEdge]),
        any_of(&[Construction::SinglePinked, Construction::DoubleTurned]),
        1_u32..=if wild { 10_000 } else { 5 },
        prop_oneof![3 => Just(0_usize), 1 => 1_usize..=60],
    );
    (layout, pennant).prop_map(|(layout, pennant)| {
        let (length, count, gap, tail, leftover, parity, min_gap, max_gap) = layout;
        let (width, drop, size_at, construction, quantity, letters) = pennant;
        Asked {
            length,
            count,
            gap,
            tail,
            leftover,
            parity,
            min_gap,
            max_gap,
            width,
            drop,
            size_at: Some(size_at),
            construction: Some(construction),
            quantity: Some(quantity),
            letters: vec![String::from("A"); letters],
            ..Asked::default()
        }
    })
}

/// The order and its layout, where both can be had.
fn worked(asked: &Asked) -> Option<(Order, Result<Layout, Vec<Violation>>)> {
    let shop = wide_shop();
    let order = check(&shop, asked, &[]).ok()?;
    let layout = solve(&shop, &order);
    Some((order, layout))
}

/// What a length asks of the whole string, the wanted figure and the one that came out.
fn reached(order: &Order, layout: &Layout) -> Option<(Length, Length)> {
    match order.length? {
        AskedLength::Flagged(_) => None,
        AskedLength::Overall(asked) => Some((asked, layout.overall)),
        AskedLength::Binding(asked) => Some((asked, layout.binding_cut)),
        AskedLength::Hang(hang) => Some((hang::total_curve(hang) + mm(240), layout.overall)),
    }
}

fn least_tail(order: &Order) -> Length {
    if matches!(order.length, Some(AskedLength::Hang(_))) { order.tail.max(mm(120)) } else { order.tail }
}

/// Top width as a fraction, worked here from the definition.
fn top_width(order: &Order) -> (i128, i128) {
    match order.size_at {
        SizeAt::TopEdge => (order.width.wide(), 1),
        SizeAt::BindingEdge => (order.width.wide() * (order.drop.wide() + 12_500), order.drop.wide()),
    }
}

fn holds(order: &Order, layout: &Layout) -> Result<(), TestCaseError> {
    let n = i128::from(layout.count);
    let Pitch { numerator: p, denominator: q } = layout.pitch;
    let (w, d) = top_width(order);
    // F = w + (n - 1) pitch = n w + (n - 1) g, over d q
    let flagged = w * q + (n - 1) * p * d;
    prop_assert_eq!(layout.flagged.wide(), divide(flagged, d * q, Rounding::HalfUp));
    prop_assert_eq!(layout.gap.wide(), divide(p * d - w * q, d * q, Rounding::HalfUp));
    prop_assert_eq!(layout.top_width.wide(), divide(w, d, Rounding::HalfUp));
    prop_assert_eq!(layout.binding_cut, layout.overall + mm(20));
    prop_assert!((layout.flagged + layout.tail * 2 - layout.overall).abs() <= um(2));
    prop_assert!(layout.tail >= least_tail(order));
    if let Some((asked, reached)) = reached(order, layout) {
        prop_assert_eq!(asked, reached);
    }
    if let Some(AskedLength::Flagged(asked)) = order.length {
        let at_basis = if order.size_at == SizeAt::TopEdge { layout.flagged } else { layout.visible_flagged };
        prop_assert!(at_basis <= asked);
    }
    if order.size_at == SizeAt::BindingEdge {
        prop_assert_eq!((layout.visible_width, layout.visible_drop), (order.width, order.drop));
    }
    // seen plus hidden is one pitch at either edge, to the rounding of the two
    let at_binding = layout.visible_width + layout.visible_gap;
    prop_assert!((at_binding - layout.pitch.nearest()).abs() <= um(2));
    prop_assert!((at_binding - layout.top_width - layout.gap).abs() <= um(2));
    prop_assert!(layout.steps <= 420);
    for other in &layout.alternatives {
        prop_assert!(other.count.abs_diff(layout.count) == 1 && other.tail >= least_tail(order));
        let body = divide(w * i128::from(other.count), d, Rounding::HalfUp)
            + other.gap.wide() * i128::from(other.count - 1);
        prop_assert!((body - other.flagged.wide()).abs() <= 1 + i128::from(other.count));
    }
    marked(layout, w, d)
}

/// Marks mirror, rise, and lie within half a grain of their exact places.
fn marked(layout: &Layout, w: i128, d: i128) -> Result<(), TestCaseError> {
    let n = i128::from(layout.count);
    let Pitch { numerator: p, denominator: q } = layout.pitch;
    prop_assert_eq!(layout.first.left, -layout.last.right);
    prop_assert_eq!(layout.first.right, -layout.last.left);
    prop_assert_eq!(
        layout.marks.len(),
        if layout.count > 400 { 0 } else { usize::try_from(n).expect("a count") }
    );
    for (mark, mirror) in layout.marks.iter().zip(layout.marks.iter().rev()) {
        prop_assert_eq!(mark.left, -mirror.right);
        prop_assert!(mark.left < mark.right && mark.left_from_end < mark.right_from_end);
    }
    for pair in layout.marks.windows(2) {
        prop_assert!(pair[0].left <= pair[1].left && pair[0].right <= pair[1].right);
        prop_assert!(pair[0].left_from_end <= pair[1].left_from_end);
    }
    for (mark, place) in layout.marks.iter().zip(0_i128..) {
        // -F/2 + i pitch, over 2 d q
        let exact = -(w * q + (n - 1) * p * d) + 2 * place * p * d;
        let over = 2 * d * q;
        prop_assert!((mark.left.wide() * over - exact).abs() <= 500 * over);
        let from_end = exact + layout.binding_cut.wide() * d * q;
        prop_assert!((mark.left_from_end.wide() * over - from_end).abs() <= 500 * over);
        prop_assert_eq!(mark.left.um() % 1_000, 0);
    }
    Ok(())
}

/// The count that a scan of every count comes to: of those within the least and the
/// greatest gap the one whose gap is nearest, the larger of two; the letters first.
fn scanned(order: &Order, room: i128, scale: i128) -> Option<i128> {
    let (w, g) = (order.width.wide() * scale, order.gap.wide() * scale);
    let least = order.min_gap.map_or(g, |gap| gap.wide() * scale);
    let allowed = |n: &i128| {
        let parity = u32::try_from(*n).is_ok_and(|n| order.parity.is_none_or(|parity| parity.holds(n)));
        parity && n * w + (n - 1) * least <= room
    };
    let all: Vec<i128> = (1..=400).filter(allowed).collect();
    let most = *all.last()?;
    let greatest = order.max_gap.map(|gap| gap.wide() * scale);
    let letters = i128::try_from(order.letters.len()).expect("a count");
    let within = |n: &&i128| **n > 1 && greatest.is_none_or(|gap| **n * w + (**n - 1) * gap >= room);
    let mut held: Vec<i128> = all.iter().filter(within).copied().collect();
    if held.iter().any(|n| *n >= letters) {
        held.retain(|n| *n >= letters);
    } else {
        held = held.last().copied().into_iter().collect();
    }
    let mut best: Option<i128> = None;
    for n in held {
        let off = |n: i128| (room - n * w - (n - 1) * g).abs();
        if best.is_none_or(|best| off(n) * (best - 1) <= off(best) * (n - 1)) {
            best = Some(n);
        }
    }
    Some(best.unwrap_or(most))
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(256))]

    #[test]
    fn what_is_usual_holds(asked in asked(false)) {
        if let Some((order, Ok(layout))) = worked(&asked) {
            holds(&order, &layout)?;
        }
    }

    #[test]
    fn nothing_in_bounds_panics_and_all_of_it_holds(asked in asked(true)) {
        match worked(&asked) {
            Some((order, Ok(layout))) => holds(&order, &layout)?,
            Some((_, Err(found))) => {
                prop_assert!(!found.is_empty() && found.iter().all(|v| !v.message.is_empty()));
                prop_assert!(found.is_sorted_by_key(|v| v.field));
            }
            None => {}
        }
    }

    #[test]
    fn the_count_is_what_a_scan_comes_to(asked in asked(false)) {
        let asked = Asked { count: None, ..asked };
        let Some((order, Ok(layout))) = worked(&asked) else { return Ok(()) };
        let Some(length) = order.length else { return Ok(()) };
        // over the drop, the room at the size basis
        let scale = order.drop.wide();
        let beyond = if order.size_at == SizeAt::TopEdge { 0 } else { order.width.wide() * 12_500 };
        let tails = 2 * least_tail(&order).wide() * scale + beyond;
        let room = match length {
            AskedLength::Flagged(asked) => asked.wide() * scale,
            AskedLength::Overall(asked) => asked.wide() * scale - tails,
            AskedLength::Binding(asked) => (asked - mm(20)).wide() * scale - tails,
            AskedLength::Hang(hang) => (hang::total_curve(hang) + mm(240)).wide() * scale - tails,
        };
        let plain = Order { min_gap: None, max_gap: None, letters: Vec::new(), ..order.clone() };
        let scanned = match order.leftover {
            Leftover::Gaps => scanned(&order, room, scale),
            // the most that fit are those whose spread gap is nearest to it from above
            Leftover::Tails => scanned(&plain, room, scale),
        };
        if i128::from(layout.count) < 400 {
            prop_assert_eq!(Some(i128::from(layout.count)), scanned, "{:?}", order);
        }
    }

    #[test]
    fn longer_is_never_fewer(asked in asked(false), more in prop_oneof![Just(1_i64), 1_i64..=2_000_000]) {
        let Some(length) = asked.length else { return Ok(()) };
        let longer = match length {
            AskedLength::Flagged(l) => AskedLength::Flagged(l + um(more)),
            AskedLength::Overall(l) => AskedLength::Overall(l + um(more)),
            AskedLength::Binding(l) => AskedLength::Binding(l + um(more)),
            AskedLength::Hang(hang) => AskedLength::Hang(Hang { span: hang.span + um(more), ..hang }),
        };
        let asked = Asked { count: None, ..asked };
        let Some((_, Ok(before))) = worked(&asked) else { return Ok(()) };
        match worked(&Asked { length: Some(longer), ..asked }) {
            Some((_, Ok(after))) => prop_assert!(before.count <= after.count),
            Some((_, Err(found))) => prop_assert!(found.iter().all(|v| v.reason == Reason::OutOfRange), "{:?}", found),
            None => {}
        }
    }

    #[test]
    fn an_exact_multiple_fits_and_a_micrometre_less_does_not(
        count in 1_u32..=20_000,
        width in 20_000_i64..=1_000_000,
        gap in -19_999_i64..=2_000_000,
    ) {
        let (width, gap) = (um(width), um(gap));
        let body = body_length(count, width, gap);
        prop_assert_eq!(fit_count(body, width, gap), count);
        prop_assert_eq!(fit_count(body - um(1), width, gap), count - 1);
        prop_assert_eq!(fit_count(body + width + gap - um(1), width, gap), count);
    }

    #[test]
    fn what_mends_a_contradiction_mends_it(asked in asked(false)) {
        let Some((order, Err(found))) = worked(&asked) else { return Ok(()) };
        for violation in &found {
            if violation.reason != Reason::Contradiction || found.len() > 1 || violation.message.contains(" is not ") {
                continue;
            }
            let shop = wide_shop();
            let mut mended = 0;
            for (order, tighter) in mends(&order, &violation.message) {
                prop_assert!(solve(&shop, &order).is_ok(), "{}\n{:?}", violation.message, order);
                prop_assert!(solve(&shop, &tighter).is_err(), "{}\n{:?}", violation.message, tighter);
                mended += 1;
            }
            prop_assert!(mended > 0 || violation.message.contains("narrower"), "{}", violation.message);
        }
    }
}

/// The order with each value that a message names, and with the least bit too much.
fn mends(order: &Order, message: &str) -> Vec<(Order, Order)> {
    let (_, offers) = message.split_once("ask for ").expect("an offer");
    let number = |offer: &str, before: &str| -> Option<Length> {
        let (_, rest) = offer.split_once(before)?;
        pennantry_measure::written::length(rest.trim_end_matches(" or more").trim_end_matches(" or less"))
            .ok()
    };
    let mut all = Vec::new();
    for offer in offers.split(", or ") {
        let with = |change: &dyn Fn(&mut Order, Length), by: Length, worse: Length| {
            let (mut good, mut bad) = (order.clone(), order.clone());
            change(&mut good, by);
            change(&mut bad, by + worse);
            (good, bad)
        };
        if let Some(gap) = number(offer, "a least gap of ") {
            all.push(with(&|o, gap| (o.min_gap, o.gap) = (Some(gap), o.gap.max(gap)), gap, um(1)));
        } else if let Some(gap) = number(offer, "a gap of ") {
            all.push(with(&|o, gap| o.gap = gap, gap, um(1)));
        } else if let Some(tail) = number(offer, "tails of ") {
            all.push(with(&|o, tail| o.tail = tail, tail, um(1)));
        } else if let Some(length) = number(offer, "a flagged length of ") {
            all.push(with(&|o, l| o.length = Some(AskedLength::Flagged(l)), length, um(-1)));
        } else if let Some(length) = number(offer, "an overall length of ") {
            all.push(with(&|o, l| o.length = Some(AskedLength::Overall(l)), length, um(-1)));
        } else if let Some(length) = number(offer, "a length of binding of ") {
            all.push(with(&|o, l| o.length = Some(AskedLength::Binding(l)), length, um(-1)));
        } else if let Some(span) = number(offer, "a span of ") {
            let hung = |o: &mut Order, span: Length| {
                if let Some(AskedLength::Hang(hang)) = &mut o.length {
                    hang.span = span;
                }
            };
            all.push(with(&hung, span, um(-1)));
        } else if let Some((count, _)) = offer.split_once(" pennant") {
            let count: u32 = count.parse().expect("a count");
            let step = if order.parity.is_some() { 2 } else { 1 };
            let at = |count| Order { count: Some(count), ..order.clone() };
            all.push((at(count), at(count + step)));
        }
    }
    all
}
