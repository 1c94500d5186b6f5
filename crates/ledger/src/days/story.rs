//! Some days of a loft, which both engines are told, and what they come to.

use pennantry_measure::Length;

use crate::rules::{
    Adjust, Adjustment, Amount, At, ChangeId, Class, Command, Confirm, Cut, DayUse, Envelope, Finish,
    Material, NewLine, NewPiece, NewRemnant, Part, PieceKind, Reason, Receive, Reserve, RollUp, Undo,
};

/// Noon of some day.
pub(crate) const NOON: At = At(1_770_000_000_000_000);

pub(crate) const fn cm(cm: i64) -> Amount {
    Amount(cm * 10_000)
}

pub(crate) fn kelp() -> Material {
    Material { class: Class::Cloth, code: "kelp".into() }
}

/// A bolt of Kelp, 1.12 m wide.
pub(crate) fn bolt(id: &str, lot: &str, amount: Amount) -> NewPiece {
    NewPiece {
        id: id.into(),
        kind: PieceKind::Bolt,
        material: kelp(),
        lot: lot.into(),
        width: Length::from_mm(1_120),
        amount,
        flaws: Vec::new(),
        location: String::new(),
        cost_minor: None,
        supplier: "Tern Mill".into(),
        supplier_reference: String::new(),
        certificates: Vec::new(),
    }
}

/// Shapes of 0.04 m² each.
pub(crate) fn reserve(id: &str, lines: &[(&str, i64)]) -> Command {
    let line = |(piece, amount): &(&str, i64)| NewLine {
        piece: (*piece).into(),
        item: 1,
        amount: cm(*amount),
        shapes: 4,
        shape_area: 40_000_000_000,
    };
    Command::Reserve(Reserve {
        id: id.into(),
        holder: "buyer".into(),
        most_holds: None,
        seconds: 900,
        quote: "Q1".into(),
        bench_milli_minutes: 0,
        leave_day: None,
        sold: Vec::new(),
        lines: lines.iter().map(line).collect(),
        supersedes: None,
    })
}

/// So much taken for a line, so much of it spoiled.
pub(crate) fn part(line: u32, taken: i64, spoiled: i64, why: Reason) -> Part {
    Part {
        line,
        piece: None,
        taken: cm(taken),
        spoiled: cm(spoiled),
        why,
        shapes: Some(4),
        remnants: Vec::new(),
        finish: Finish::WhenEnough,
        note: String::new(),
    }
}

pub(crate) fn cut(id: &str, reservation: &str, day: Option<i32>, parts: Vec<Part>) -> Command {
    Command::Cut(Cut { id: id.into(), reservation: reservation.into(), parts, day })
}

/// A command of a day, so many seconds after noon.
pub(crate) fn on(day: i32, seconds: i64, command: Command) -> Envelope {
    static CHANGES: std::sync::atomic::AtomicU64 = std::sync::atomic::AtomicU64::new(1);
    let change = u128::from(CHANGES.fetch_add(1, std::sync::atomic::Ordering::Relaxed)) | 1 << 100;
    let (id, at) = (ChangeId(change.to_be_bytes()), NOON.after_seconds(seconds));
    Envelope { id, at, day, actor: "loft".into(), request: None, command }
}

/// Things come, are cut, spoiled in two ways in one cut, kept, taken back the day after, counted
/// and lost.
pub(crate) fn story() -> Vec<Envelope> {
    let remnant = |id: &str, length, width_mm| NewRemnant {
        id: id.into(),
        length: cm(length).length(),
        width: Length::from_mm(width_mm),
        location: String::new(),
    };
    let with = |part: Part, kept| Part { remnants: vec![kept], ..part };
    let first = vec![
        with(part(1, 120, 10, Reason::EndBit), remnant("M1", 30, 1_120)),
        with(part(2, 60, 7, Reason::Flaw), remnant("M2", 40, 300)),
        part(3, 50, 0, Reason::None),
    ];
    let second = vec![part(1, 30, 5, Reason::Miscut), part(2, 20, 6, Reason::Squaring)];
    let adjust = |what| Command::Adjust(Adjust { piece: "B1".into(), what, note: String::new() });
    let undo = |cut: &str| Command::Undo(Undo { cut: cut.into() });
    let pieces = vec![bolt("B1", "L1", cm(1_000)), bolt("B2", "L2", cm(400))];
    vec![
        on(100, 0, Command::Receive(Receive { pieces, order: None })),
        on(101, 0, reserve("R1", &[("B1", 200), ("B1", 100), ("B2", 50)])),
        on(101, 0, Command::Confirm(Confirm { id: "R1".into(), order_reference: "SL-1".into() })),
        on(102, 0, cut("C1", "R1", None, first)),
        on(102, 0, cut("C2", "R1", None, second)),
        // made the day before yesterday
        on(103, 60, cut("C3", "R1", Some(101), vec![part(1, 10, 0, Reason::None)])),
        on(103, 90, undo("C3")),
        on(103, 120, undo("C2")),
        on(104, 0, adjust(Adjustment::Gone(cm(3), Reason::Damaged))),
        on(104, 0, adjust(Adjustment::Counted(cm(700)))),
    ]
}

/// What they came to, worked by hand; areas in square micrometres.
pub(crate) fn expected() -> Vec<RollUp> {
    let none = DayUse::default();
    let late = |seconds| Some(NOON.after_seconds(seconds));
    // 80 cm and 53 cm used of B1, less a strip of 40 cm by 30 cm; eight shapes of 0.04 m²
    let area = (800_000 + 530_000) * 1_120_000 - 400_000 * 300_000;
    let row = |lot: &str, day, of| RollUp { material: kelp(), lot: lot.to_owned(), day, of };
    vec![
        row("L1", 100, DayUse { came: cm(1_000), ..none }),
        row("L1", 101, DayUse { promised: cm(300), late_at: late(90), ..none }),
        row(
            "L1",
            102,
            DayUse {
                used: cm(133),
                ends: cm(10),
                flawed: cm(7),
                promised: cm(-133),
                narrow: cm(40),
                cuts: 1,
                used_area: area,
                drawn_area: area,
                net_area: 8 * 40_000_000_000,
                late_at: late(120),
                ..none
            },
        ),
        row("L1", 104, DayUse { spoiled: cm(3), other: cm(-117), ..none }),
        row("L2", 100, DayUse { came: cm(400), ..none }),
        row("L2", 101, DayUse { promised: cm(50), ..none }),
        row(
            "L2",
            102,
            DayUse {
                used: cm(50),
                promised: cm(-50),
                cuts: 1,
                used_area: 500_000 * 1_120_000,
                drawn_area: 500_000 * 1_120_000,
                net_area: 4 * 40_000_000_000,
                ..none
            },
        ),
    ]
}
