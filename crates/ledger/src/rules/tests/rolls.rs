//! What each day did with each material. Expected values are worked by hand from the commands.

use super::make::*;
use super::memory::{DAY, Memory};
use crate::rules::{
    Adjustment, Amount, At, Command, Cut, DayUse, NewLine, NewPiece, Part, Reason, Refusal, Sweep,
};

/// The area of so many centimetres of Kelp, which is 1.40 m wide.
const fn kelp_area(cm: i64) -> i64 {
    cm * 10_000 * 1_400_000
}

impl Memory {
    /// What a day, counted from the first, did with the lot of a piece.
    fn day(&self, piece: &str, day: i32) -> DayUse {
        let piece = self.on(piece);
        let key = (piece.material.clone(), piece.lot.clone(), DAY + day);
        self.days.get(&key).copied().unwrap_or_default()
    }

    /// What changed of that since.
    fn since(&self, before: &Memory, piece: &str, day: i32) -> DayUse {
        self.day(piece, day).less(&before.day(piece, day))
    }
}

fn nothing() -> DayUse {
    DayUse::default()
}

/// A loft with a bolt of 10 m, and a confirmed reservation of 3 m on it.
fn promised() -> Memory {
    let mut loft = loft(vec![bolt("A", 1_000)]);
    loft.does(reserve("R", &[("A", 300)]), 1);
    loft.does(confirm("R", "1"), 2);
    loft
}

#[test]
fn what_comes_is_what_came() {
    let loft = loft(vec![bolt("A", 1_000), bolt("B", 200), roll("T", 5_000), buttons("X", 40)]);
    assert_eq!(loft.day("A", 0), DayUse { came: cm(1_200), ..nothing() });
    assert_eq!(loft.day("T", 0), DayUse { came: cm(5_000), ..nothing() });
    assert_eq!(loft.day("X", 0), DayUse { came: Amount(40), ..nothing() });
    let other = loft.days.keys().map(|(material, lot, day)| (material.code.as_str(), lot.as_str(), *day));
    assert_eq!(other.collect::<Vec<_>>(), [("KELP", "L1", DAY), ("TAPE", "L1", DAY), ("BUTTON", "L1", DAY)]);
}

/// Holds that come and go write no row: neither taken, nor given more time, let go, or over.
#[test]
fn holds_write_nothing() {
    let mut loft = loft(vec![bolt("A", 1_000)]);
    loft.day = 1;
    let before = loft.days.clone();
    loft.does(reserve("R", &[("A", 300)]), 1);
    loft.does(extend("R", 7_200, 9_000), 2);
    loft.does(release("R"), 3);
    loft.does(reserve("S", &[("A", 300)]), 4);
    loft.does(amend("S", &[1], vec![line("A", 20)]), 5);
    loft.does(reserve("T", &[("A", 30)]), 6);
    loft.does(cancel("T"), 7);
    loft.does(Command::Sweep(Sweep { most: 9 }), 4 + HOLD);
    assert_eq!(loft.state("S"), crate::rules::State::Expired);
    assert_eq!(loft.days, before);
}

/// A place, flaws and a count of what lies there move nothing.
#[test]
fn what_moves_nothing_writes_nothing() {
    let mut loft = loft(vec![bolt("A", 1_000)]);
    loft.day = 1;
    loft.does(adjust("A", Adjustment::Moved("window".to_owned())), 1);
    loft.does(adjust("A", Adjustment::Flaws(vec![flaw(10, 20)])), 2);
    loft.does(counted("A", 1_000), 3);
    assert_eq!(loft.day("A", 1), nothing());
    assert_eq!(loft.days.len(), 1);
}

#[test]
fn confirming_promises_and_calling_off_takes_it_back() {
    let mut loft = promised();
    assert_eq!(loft.day("A", 0), DayUse { came: cm(1_000), promised: cm(300), ..nothing() });
    loft.day = 2;
    loft.does(amend("R", &[1], vec![line("A", 450)]), 3);
    assert_eq!(loft.day("A", 2), DayUse { promised: cm(150), ..nothing() });
    loft.day = 3;
    loft.does(cancel("R"), 4);
    assert_eq!(loft.day("A", 3), DayUse { promised: cm(-450), ..nothing() });
}

/// The example of the module: 2.30 m are used of 3 m, 20 cm spoiled, 50 cm kept at full width, and
/// a strip of 1 m by 30 cm besides. Ten shapes of 0.2 m² are 2 m².
#[test]
fn a_cut_is_used_spoiled_and_kept() {
    let mut loft = promised();
    let before = loft.clone();
    let kept = vec![remnant("M", 50, 1_400), remnant("N", 100, 300)];
    let of = Part {
        spoiled: cm(20),
        why: Reason::Miscut,
        remnants: kept,
        finish: crate::rules::Finish::Done,
        ..part(1, 300)
    };
    loft.does(cut("C", "R", vec![of]), 3);
    let used_area = kelp_area(230) - 100 * 10_000 * 300_000;
    assert_eq!(used_area, 2_920_000_000_000);
    let expected = DayUse {
        used: cm(230),
        spoiled: cm(20),
        narrow: cm(100),
        promised: cm(-300),
        cuts: 1,
        used_area,
        drawn_area: used_area,
        net_area: 2_000_000_000_000,
        ..nothing()
    };
    assert_eq!(loft.since(&before, "A", 0), expected);
    assert_eq!(loft.day("A", 0).on_hand(), cm(850));
    // the strip is used in turn: its own area, and its length
    let before = loft.clone();
    let unknown = NewLine { shape_area: 0, ..line("N", 60) };
    loft.does(Command::Reserve(hold("S", vec![unknown])), 4);
    loft.does(cut("D", "S", vec![part(1, 60)]), 5);
    let expected = DayUse { used: cm(60), cuts: 1, used_area: 60 * 10_000 * 300_000, ..nothing() };
    assert_eq!(loft.since(&before, "A", 0), expected);
    // what was used of everything is what left the shelf of 14 m²
    let lies = kelp_area(750) + 40 * 10_000 * 300_000;
    assert_eq!(loft.day("A", 0).used_area + kelp_area(20) + lies, kelp_area(1_000));
}

#[test]
fn what_was_spoiled_goes_by_its_reason() {
    for (why, place) in [
        (Reason::None, 0),
        (Reason::Miscut, 0),
        (Reason::Damaged, 0),
        (Reason::Other, 0),
        (Reason::Squaring, 1),
        (Reason::EndBit, 1),
        (Reason::Flaw, 2),
    ] {
        let mut loft = promised();
        let before = loft.clone();
        loft.does(cut("C", "R", vec![Part { spoiled: cm(20), why, ..part(1, 320) }]), 3);
        let did = loft.since(&before, "A", 0);
        let mut expected = [cm(0); 3];
        expected[place] = cm(20);
        assert_eq!([did.spoiled, did.ends, did.flawed], expected, "{why:?}");
        // taken back, it goes by the same
        loft.does(undo("C"), 4);
        assert_eq!(loft.since(&before, "A", 0), nothing(), "{why:?}");
    }
}

#[test]
fn what_is_gone_goes_by_its_reason() {
    for reason in Reason::ALL {
        let mut loft = loft(vec![bolt("A", 1_000)]);
        let before = loft.clone();
        loft.does(adjust("A", Adjustment::Gone(cm(30), reason)), 1);
        let expected = match reason {
            Reason::EndBit | Reason::Squaring => DayUse { ends: cm(30), ..nothing() },
            Reason::Flaw => DayUse { flawed: cm(30), ..nothing() },
            Reason::Damaged | Reason::Miscut => DayUse { spoiled: cm(30), ..nothing() },
            _ => DayUse { other: cm(-30), ..nothing() },
        };
        assert_eq!(loft.since(&before, "A", 0), expected, "{reason:?}");
    }
    let mut loft = loft(vec![buttons("X", 40)]);
    loft.does(adjust("X", Adjustment::Found(Amount(2))), 1);
    loft.does(adjust("X", Adjustment::Counted(Amount(41))), 2);
    assert_eq!(loft.day("X", 0), DayUse { came: Amount(40), other: Amount(1), ..nothing() });
}

/// A fact takes of what is promised, and what comes free mends it: both count as they move.
#[test]
fn what_is_short_and_mended_counts() {
    let mut loft = promised();
    loft.day = 1;
    loft.does(counted("A", 250), 3);
    assert_eq!(loft.day("A", 1), DayUse { other: cm(-750), promised: cm(-50), ..nothing() });
    loft.day = 2;
    loft.does(adjust("A", Adjustment::Found(cm(30))), 4);
    assert_eq!(loft.day("A", 2), DayUse { other: cm(30), promised: cm(30), ..nothing() });
}

/// One cut of two pieces of one lot is one cut; of another lot, one more there.
#[test]
fn a_cut_counts_once_for_each_lot() {
    let other = NewPiece { lot: "L2".to_owned(), ..bolt("Z", 500) };
    let mut loft = loft(vec![bolt("A", 500), bolt("B", 500), other]);
    loft.does(reserve("R", &[("A", 50), ("B", 60), ("Z", 70)]), 1);
    loft.does(cut("C", "R", vec![]), 2);
    assert_eq!((loft.day("A", 0).cuts, loft.day("A", 0).used), (1, cm(110)));
    assert_eq!((loft.day("Z", 0).cuts, loft.day("Z", 0).used), (1, cm(70)));
    // what was only spoiled used nothing
    loft.does(reserve("S", &[("A", 50)]), 3);
    loft.does(cut("D", "S", vec![Part { spoiled: cm(9), ..part(1, 9) }]), 4);
    assert_eq!(loft.day("A", 0).cuts, 1);
}

/// Where the area of some shapes of a piece is not known, none of that piece is judged by it.
#[test]
fn what_is_not_known_is_not_waste() {
    let mut loft = loft(vec![bolt("A", 500), bolt("B", 500), roll("T", 900)]);
    let unknown = NewLine { shape_area: 0, ..line("A", 40) };
    let tape = line("T", 10);
    loft.does(Command::Reserve(hold("R", vec![line("A", 50), unknown, line("B", 60), tape])), 1);
    loft.does(cut("C", "R", vec![]), 2);
    let did = loft.day("A", 0);
    assert_eq!(did.used_area, kelp_area(150));
    assert_eq!((did.drawn_area, did.net_area), (kelp_area(60), 10 * SHAPE));
    // tape has no area
    let tape = loft.day("T", 0);
    assert_eq!((tape.used, tape.used_area, tape.drawn_area, tape.net_area), (cm(10), 0, 0, 0));
}

/// A cut that is taken back after midnight makes the day before as if it had not been made, with
/// what its reservation gets again, and says when that was written.
#[test]
fn a_cut_taken_back_after_midnight_restates_its_day() {
    let mut loft = promised();
    let before = loft.clone();
    let of =
        Part { spoiled: cm(20), why: Reason::EndBit, remnants: vec![remnant("M", 30, 900)], ..part(1, 320) };
    loft.does(cut("C", "R", vec![of]), 100);
    assert_eq!(loft.cuts[&"C".into()].day, DAY);
    assert_eq!(loft.day("A", 0).late_at, None);
    loft.day = 1;
    loft.does(undo("C"), 200);
    assert_eq!(loft.since(&before, "A", 0), DayUse { late_at: Some(at(200)), ..nothing() });
    assert_eq!(loft.day("A", 1), nothing());
    assert_eq!(loft.balance("A"), [1_000, 0, 300]);
    assert!(
        loft.movements.iter().filter(|moved| moved.at == at(200)).all(|moved| moved.late && moved.day == DAY)
    );
}

/// A cut that was made on Friday and is recorded on Monday counts for Friday.
#[test]
fn a_late_cut_counts_for_its_day() {
    let mut loft = promised();
    loft.day = 3;
    let late = |id: &str, day: i32| {
        let parts = vec![part(1, 100)];
        Command::Cut(Cut { id: id.into(), reservation: "R".into(), parts, day: Some(DAY.wrapping_add(day)) })
    };
    loft.does(late("C", 1), 10);
    let expected = DayUse {
        used: cm(100),
        promised: cm(-100),
        cuts: 1,
        used_area: kelp_area(100),
        drawn_area: kelp_area(100),
        late_at: Some(at(10)),
        ..nothing()
    };
    assert_eq!(loft.day("A", 1), expected);
    assert_eq!(loft.day("A", 3), nothing());
    assert_eq!(loft.cuts[&"C".into()].day, DAY + 1);
    // recorded for today, it is not late
    loft.does(late("D", 3), 11);
    assert_eq!((loft.day("A", 3).used, loft.day("A", 3).late_at), (cm(100), None));
    // as long ago as may be, and not a day longer; never a day to come
    loft.day = 31;
    loft.does(late("E", 0), 12);
    loft.does(cancel("R"), 13);
    for (today, day) in [(32, DAY), (0, DAY + 1), (0, i32::MAX), (0, i32::MIN)] {
        let mut loft = promised();
        loft.day = today;
        let refused = loft.run(late("C", day.wrapping_sub(DAY)), at(14));
        assert_eq!(refused, Err(Refusal::BadDay { day, today: DAY + today }));
    }
}

/// The latest of instants is kept, whichever way clocks go.
#[test]
fn the_latest_late_instant_stays() {
    let mut loft = promised();
    loft.day = 1;
    for (id, seconds) in [("C", 500), ("D", 400)] {
        let parts = vec![part(1, 10)];
        loft.does(
            Command::Cut(Cut { id: id.into(), reservation: "R".into(), parts, day: Some(DAY) }),
            seconds,
        );
    }
    assert_eq!(loft.day("A", 0).late_at, Some(at(500)));
}

#[test]
fn a_shape_has_no_area_below_nought() {
    let mut loft = loft(vec![bolt("A", 500)]);
    let bad = NewLine { shape_area: -1, ..line("A", 50) };
    assert_eq!(
        loft.run(Command::Reserve(hold("R", vec![bad.clone()])), at(1)),
        Err(Refusal::BadShapeArea(-1))
    );
    loft.does(reserve("R", &[("A", 50)]), 2);
    assert_eq!(loft.run(amend("R", &[], vec![bad]), at(3)), Err(Refusal::BadShapeArea(-1)));
}

/// Shapes and widths that cannot be do not make areas that cannot be.
#[test]
fn areas_stay_within_the_type() {
    let wide = NewPiece { width: crate::rules::Amount::MOST.length(), amount: Amount::MOST, ..bolt("A", 1) };
    let mut loft = loft(vec![wide]);
    let vast = NewLine { amount: Amount::MOST, shape_area: i64::MAX, shapes: u32::MAX, ..line("A", 1) };
    loft.run(Command::Reserve(hold("R", vec![vast])), at(1)).unwrap();
    loft.run(cut("C", "R", vec![]), At(T0.0 + 9)).unwrap();
    let did = loft.day("A", 0);
    assert_eq!(did.used_area, 100_000_000_000 * 10_000_000);
    assert_eq!(did.net_area, crate::rules::MOST_NET);
    // and a thousand parts of them on one day stay there, too
    assert!(crate::rules::MOST_NET.checked_mul(9_000).is_some());
}

/// More shapes than a line is for are a slip of the pen: nothing came of that many.
#[test]
fn a_part_gives_no_more_shapes_than_its_line_is_for() {
    let mut loft = loft(vec![bolt("A", 300)]);
    loft.does(reserve("R", &[("A", 100)]), 0);
    let too_many = |shapes| Refusal::TooManyShapes { reservation: "R".into(), line: 1, shapes, most: 10 };
    for shapes in [11, u32::MAX] {
        let wrong = cut("C", "R", vec![Part { shapes: Some(shapes), ..part(1, 50) }]);
        assert_eq!(loft.run(wrong, at(1)), Err(too_many(shapes)));
    }
    loft.does(cut("C", "R", vec![Part { shapes: Some(10), ..part(1, 50) }]), 2);
    // one that is cut again, since some were spoiled, is not refused
    loft.does(cut("D", "R", vec![Part { shapes: Some(10), ..part(1, 50) }]), 3);
}
