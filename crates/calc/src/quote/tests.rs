use super::*;
use crate::fixture::{WHEN, mm, order, shop, um};
use crate::order::AskedLength;

/// The codes of an order's notices, with their messages.
fn noticed(order: &Order) -> Vec<(Code, String)> {
    let quote = calculate(&shop(), order, WHEN).expect("a quote");
    quote.notices.into_iter().map(|notice| (notice.code, notice.message)).collect()
}

fn has(order: &Order, code: Code) -> bool {
    noticed(order).iter().any(|(noticed, _)| *noticed == code)
}

/// Nine pennants of a size.
fn sized(width: Length, drop: Length) -> Order {
    Order { count: Some(9), width, drop, ..order() }
}

fn long(flagged: Length) -> Order {
    Order { length: Some(AskedLength::Flagged(flagged)), ..order() }
}

/// The usual length here is 5 m.
#[test]
fn ten_times_the_usual_is_asked_about_and_a_micrometre_less_is_not() {
    assert!(has(&long(mm(50_000)), Code::UnusualLength));
    assert!(!has(&long(mm(50_000) - um(1)), Code::UnusualLength));
    assert!(has(&long(mm(500)), Code::UnusualLength));
    assert!(!has(&long(mm(500) + um(1)), Code::UnusualLength));
    assert!(!has(&sized(mm(190), mm(210)), Code::UnusualLength), "a count is not a length");
}

/// 62 m hold (62 000 + 20) / 210 = 295 pennants: 15 minutes of setting up, 2.5 a pennant
/// and 2 a metre of 62 550 mm are 877.6 minutes, two days of 360 and the better part of
/// another. Half a metre holds two: 15 + 5 + 2 x 1.0 = 22 minutes.
#[test]
fn a_slip_names_the_bench_time_and_the_length_that_may_be_meant() {
    let message = |order: &Order| noticed(order).swap_remove(0);
    let said = |text: &str| (Code::UnusualLength, text.to_owned());
    assert_eq!(message(&long(mm(62_000))), said("62 m is two bench days: did you mean 6.2 m?"));
    let nine = Order { quantity: 9, ..long(mm(62_000)) };
    assert_eq!(message(&nine), said("62 m is two bench days: did you mean 6.2 m?"), "the time of one string");
    assert_eq!(message(&long(mm(500))), said("0.5 m is 22 minutes at the bench: did you mean 5 m?"));
}

/// Common practice, no source: 80 to 260 wide, 120 to 310 deep, 0.9 to 1.8 widths deep.
#[test]
fn sizes_are_unusual_just_beyond_what_makers_publish() {
    let usual = [(80, 120), (80, 144), (260, 234), (260, 310), (200, 180), (100, 180)];
    for (width, drop) in usual {
        assert!(!has(&sized(mm(width), mm(drop)), Code::UnusualSize), "{width} x {drop}");
    }
    let hair = um(1);
    let odd = [
        (mm(80) - hair, mm(120)),
        (mm(260) + hair, mm(300)),
        (mm(100), mm(120) - hair),
        (mm(250), mm(310) + hair),
        (mm(200), mm(180) - hair),
        (mm(100), mm(180) + hair),
        // width and drop exchanged
        (mm(250), mm(190)),
    ];
    for (width, drop) in odd {
        assert!(has(&sized(width, drop), Code::UnusualSize), "{width} x {drop}");
    }
}

#[test]
fn bench_time_is_spoken_of_in_words_up_to_nine() {
    let day = BenchTime::from_milli_minutes(75_000);
    let told = |milli: i64| bench_days(BenchTime::from_milli_minutes(milli), day);
    assert_eq!(told(37_499), "37 minutes at the bench");
    assert_eq!(told(37_500), "one bench day");
    assert_eq!(told(667_600), "nine bench days");
    assert_eq!(told(750_000), "10 bench days");
}

#[test]
fn metres_are_written_without_empty_decimals() {
    for (um, text) in
        [(62_000_000, "62 m"), (6_200_000, "6.2 m"), (5_050_000, "5.05 m"), (6_200_500, "6.201 m")]
    {
        assert_eq!(metres(um), text);
    }
}
