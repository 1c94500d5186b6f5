//! Reports of the invented Saltmere Loft; every figure is invented.

use jiff::ToSpan;
use jiff::civil::{Date, Weekday, date};
use pennantry_contract::v1::{
    BackTest, BackTestRow, BurnDetail, BurnFabric, BurnLot, BurnNote, BurnOrder, BurnReport, BurnReportHead,
    BurnReportState, Buying, ComingWeek, DemandClass, MethodScore, Money, PastWeek, Pressing, SeasonWeek,
    ShelfDay, Wastage,
};

/// The morning of every report here: a Monday.
pub const TODAY: Date = date(2026, 12, 7);

/// How a fabric is invented: its use in a usual week and what is free, in metres, and what comes.
pub struct Sketch {
    pub code: &'static str,
    pub name: &'static str,
    pub free: u32,
    pub week: u32,
    pub coming: &'static [(i64, u32)],
    pub pressing: Pressing,
    pub sentence: &'static str,
}

/// A fabric as a sketch has it, with a year of use.
pub fn fabric(sketch: &Sketch) -> BurnFabric {
    let week = f64::from(sketch.week) * 1000.0;
    let past: Vec<PastWeek> = (1..=60_i64).rev().map(|ago| past_week(ago, week)).collect();
    let coming: Vec<ComingWeek> = (0..26_i64).map(|ahead| coming_week(ahead, week)).collect();
    let (line, runs_out) = shelf(sketch, &coming);
    let on_order = sketch.coming.iter().map(|(_, m)| f64::from(*m) * 1000.0).sum();
    let free = f64::from(sketch.free) * 1000.0 + 250.0;
    let proposal = matches!(sketch.pressing, Pressing::Today | Pressing::Soon).then_some(week * 10.0 + 0.5);
    let by = match sketch.pressing {
        Pressing::Today => Some(TODAY),
        Pressing::Soon => TODAY.checked_add(9.days()).ok(),
        _ => None,
    };
    let used = past.iter().rev().take(4).map(|week| week.used_mm).sum();
    BurnFabric {
        code: sketch.code.into(),
        name: sketch.name.into(),
        free_mm: free,
        used_mm: used,
        usual_mm: (week > 0.0).then_some(week * 4.2),
        on_order_mm: on_order,
        weeks_left: (week > 0.0).then(|| (free / week * 10.0).round() / 10.0),
        order_by_date: by.map(|day| day.to_string()),
        proposal_mm: proposal,
        sentence: sketch.sentence.into(),
        pressing: sketch.pressing.into(),
        detail: Some(BurnDetail {
            as_of: "2026-12-07T03:15:00Z".into(),
            on_hand_mm: free + 7_500.0,
            held_mm: 2_500.0,
            confirmed_mm: 5_000.0,
            short_mm: 0.0,
            position_mm: free + on_order,
            demand_class: DemandClass::Smooth.into(),
            interval: (week > 0.0).then_some(1.083),
            size_variation: (week > 0.0).then_some(0.214),
            method: if week > 0.0 { "simple exponential smoothing".into() } else { String::new() },
            seasonal: week > 0.0,
            scores: scores(),
            rate_mm: (week > 0.0).then_some(week / 5.0),
            past: past.clone(),
            coming: if week > 0.0 { coming } else { Vec::new() },
            shelf_line: line,
            runs_out_date: runs_out,
            offer_until_date: None,
            buying: Some(buying(week, proposal)),
            orders: sketch.coming.iter().map(|order| burn_order(*order)).collect(),
            lots: vec![
                BurnLot { lot: "T-4471".into(), on_hand_mm: free, longest_mm: free * 0.75, pieces: 2 },
                BurnLot { lot: String::new(), on_hand_mm: 7_500.0, longest_mm: 4_125.5, pieces: 3 },
            ],
            wastage: Some(Wastage {
                from_date: "2026-09-07".into(),
                to_date: "2026-12-06".into(),
                taken_mm: week * 13.0,
                ends_mm: week * 0.31,
                spoiled_mm: week * 0.12,
                flawed_mm: week * 0.05,
                layout_percent: sketch.week.is_multiple_of(2).then_some(17.3),
                all_percent: sketch.week.is_multiple_of(2).then_some(20.1),
            }),
            dead: sketch.week == 0,
            last_used_date: Some(if week > 0.0 { "2026-12-04" } else { "2026-02-13" }.into()),
            value_class: if week > 0.0 { "A".into() } else { String::new() },
            notes: Vec::new(),
        }),
    }
}

fn monday(weeks: i64) -> String {
    TODAY.checked_add(weeks.weeks()).expect("a day").to_string()
}

/// Weeks that go up and down without being drawn by lot.
fn wave(place: i64) -> f64 {
    let step = i32::try_from(place * 37 % 23).expect("small");
    0.55 + f64::from(step.abs()) / 25.0
}

fn past_week(ago: i64, week: f64) -> PastWeek {
    let out = if matches!(ago, 20..=22) { 3 } else { 0 };
    let used = (week * wave(ago) * if out > 0 { 0.4 } else { 1.0 }).round();
    let open_days = if ago == 50 { 0 } else { 5 };
    let used_mm = if open_days == 0 { 0.0 } else { used };
    PastWeek { monday: monday(-ago), used_mm, open_days, out_days: out, restated: ago == 2 || ago == 9 }
}

fn coming_week(ahead: i64, week: f64) -> ComingWeek {
    let open_days = if ahead == 3 { 2 } else { 5 };
    let expected = week * f64::from(open_days) / 5.0;
    ComingWeek {
        monday: monday(ahead),
        expected_mm: expected,
        low_mm: expected * 0.6,
        high_mm: expected * 1.5,
        open_days,
    }
}

fn shelf(sketch: &Sketch, coming: &[ComingWeek]) -> (Vec<ShelfDay>, Option<String>) {
    let mut free = f64::from(sketch.free) * 1000.0 + 250.0;
    let (mut line, mut out) = (Vec::new(), None);
    if sketch.week == 0 {
        return (line, out);
    }
    for ahead in 0..182_i64 {
        let day = TODAY.checked_add(ahead.days()).expect("a day");
        let week = coming.iter().rfind(|week| week.monday <= day.to_string()).expect("a week");
        let open = day.weekday() != Weekday::Saturday && day.weekday() != Weekday::Sunday;
        let use_of_day = if open { week.expected_mm / 5.0 } else { 0.0 };
        let come =
            sketch.coming.iter().find(|(on, _)| *on == ahead).map_or(0.0, |(_, m)| f64::from(*m) * 1000.0);
        free = ((free + come - use_of_day).max(0.0) * 1000.0).round() / 1000.0;
        if free <= 0.0 && out.is_none() {
            out = Some(day.to_string());
        }
        line.push(ShelfDay { date: day.to_string(), free_mm: free, delivery_mm: come });
    }
    (line, out)
}

fn buying(week: f64, proposal: Option<f64>) -> Buying {
    Buying {
        supplier: "Harbour Mills".into(),
        supplier_reference: "HM 2210/14".into(),
        lead_days: 12,
        bolt_mm: 25_000.0,
        least_mm: 50_000.0,
        last_of_it: false,
        reorder_point_mm: (week > 0.0).then_some(week * 2.8),
        safety_mm: (week > 0.0).then_some(week * 0.9),
        order_up_to_mm: (week > 0.0).then_some(week * 7.5),
        service_kind: "cycle service".into(),
        service_percent: 95.0,
        proposal_bolts: proposal.map(|_| 3),
        proposal_cost: proposal.map(|_| gbp(123_456)),
    }
}

/// So many pence.
pub fn gbp(minor_units: i64) -> Money {
    Money { currency_code: "GBP".into(), minor_units }
}

fn burn_order((ahead, metres): (i64, u32)) -> BurnOrder {
    BurnOrder {
        order_id: format!("PO-{}", 310 + ahead),
        supplier: "Harbour Mills".into(),
        expected_date: TODAY.checked_add(ahead.days()).expect("a day").to_string(),
        outstanding_mm: f64::from(metres) * 1000.0,
        late_days: u32::from(ahead == 9) * 4,
    }
}

fn scores() -> Vec<MethodScore> {
    let score = |method: &str, seasonal, score| MethodScore {
        method: method.into(),
        seasonal,
        rmsse: Some(0.9 * score),
        pinball: Some(0.4 * score),
        bias: Some(-0.031),
        score: Some(score),
        weeks: 26,
    };
    let mut all = vec![
        score("simple exponential smoothing", true, 0.812),
        score("simple exponential smoothing", false, 0.871),
        score("mean of all weeks", false, 0.954),
    ];
    all.push(MethodScore { method: "Croston".into(), ..Default::default() });
    all
}

/// The sketches of the demo shop.
pub const SKETCHES: [Sketch; 7] = [
    Sketch {
        code: "kelp",
        name: "Kelp",
        free: 18,
        week: 7,
        coming: &[],
        pressing: Pressing::Today,
        sentence: "Order 70.00 m today: what is free runs out before an order of tomorrow would come.",
    },
    Sketch {
        code: "chandlers-rope",
        name: "Chandler's Rope",
        free: 31,
        week: 6,
        coming: &[(9, 50), (30, 25)],
        pressing: Pressing::Soon,
        sentence: "Order 60.00 m by Wed 16 Dec 2026. 50.00 m are four days late.",
    },
    Sketch {
        code: "bell-buoy",
        name: "Bell Buoy",
        free: 12,
        week: 0,
        coming: &[],
        pressing: Pressing::Look,
        sentence: "12.25 m lie there and nothing was used since Fri 13 Feb 2026.",
    },
    Sketch {
        code: "lamp-oil",
        name: "Lamp Oil",
        free: 96,
        week: 4,
        coming: &[],
        pressing: Pressing::Nothing,
        sentence: "",
    },
    Sketch {
        code: "marram-linen",
        name: "Marram Linen, washed",
        free: 44,
        week: 5,
        coming: &[(16, 25)],
        pressing: Pressing::Nothing,
        sentence: "",
    },
    Sketch {
        code: "quay-stone",
        name: "Quay Stone",
        free: 52,
        week: 3,
        coming: &[(21, 25)],
        pressing: Pressing::Nothing,
        sentence: "",
    },
    Sketch {
        code: "saltmere-tern",
        name: "Saltmere Tern",
        free: 204,
        week: 8,
        coming: &[],
        pressing: Pressing::Nothing,
        sentence: "",
    },
];

/// A report without fabrics.
pub fn bare() -> BurnReport {
    BurnReport {
        date: TODAY.to_string(),
        through_date: "2026-12-06".into(),
        from_date: Some("2025-10-06".into()),
        as_of: "2026-12-07T03:15:00Z".into(),
        zone: "Europe/London".into(),
        catalogue_revision: "9f2c41d07ab3".into(),
        ..Default::default()
    }
}

/// The report of the demo shop in a usual week.
pub fn usual() -> BurnReport {
    let row = |method: &str, tried, chosen, rmsse| BackTestRow {
        method: method.into(),
        tried,
        chosen,
        rmsse,
        pinball: rmsse.map(|error: f64| error * 0.4),
        bias: Some(0.012),
    };
    let note = "3 movements were written late: the weeks that they belong to were worked out anew.";
    BurnReport {
        fabrics: SKETCHES.iter().map(fabric).collect(),
        notes: vec![BurnNote { code: "WRITTEN_LATE".into(), message: note.into() }],
        back_test: Some(BackTest {
            fabrics: 6,
            weeks: 26,
            rows: vec![
                row("simple exponential smoothing", 6, 4, Some(0.871)),
                row("mean of all weeks", 6, 2, Some(0.954)),
                row("Croston", 1, 0, None),
            ],
        }),
        season: (1..=52).map(|week| SeasonWeek { week, index: 0.7 + f64::from(week) / 100.0 }).collect(),
        ..bare()
    }
}

/// A report in the first week: shelves are known, and two days of use.
pub fn first_week() -> BurnReport {
    let fabrics = SKETCHES.iter().take(3).map(|sketch| {
        let whole = fabric(sketch);
        let detail = whole.detail.expect("a sketch has a detail");
        BurnFabric {
            used_mm: 1_200.0,
            usual_mm: None,
            weeks_left: None,
            order_by_date: None,
            proposal_mm: None,
            sentence: String::new(),
            pressing: Pressing::Nothing.into(),
            detail: Some(BurnDetail {
                demand_class: DemandClass::Insufficient.into(),
                interval: None,
                size_variation: None,
                method: String::new(),
                seasonal: false,
                scores: Vec::new(),
                rate_mm: None,
                past: Vec::new(),
                coming: Vec::new(),
                shelf_line: Vec::new(),
                runs_out_date: None,
                buying: Some(Buying {
                    reorder_point_mm: None,
                    safety_mm: None,
                    order_up_to_mm: None,
                    ..buying(0.0, None)
                }),
                wastage: None,
                dead: false,
                last_used_date: Some("2026-12-05".into()),
                value_class: String::new(),
                notes: vec![BurnNote {
                    code: "TOO_LITTLE_KNOWN".into(),
                    message: "No whole week of it is known yet.".into(),
                }],
                ..detail
            }),
            ..whole
        }
    });
    BurnReport { fabrics: fabrics.collect(), from_date: Some("2026-12-05".into()), ..bare() }
}

/// So many fabrics, three in thirty-five of which need something.
pub fn many(count: usize) -> BurnReport {
    let quiet = SKETCHES.iter().filter(|sketch| sketch.pressing == Pressing::Nothing).cycle();
    let sketches = SKETCHES.iter().cycle().take(count / 5).chain(quiet).take(count);
    let made = sketches.enumerate().map(|(place, sketch)| {
        let mut made = fabric(sketch);
        made.code = format!("{}-{place}", made.code);
        made.name = format!("{} {place}", made.name);
        made
    });
    BurnReport { fabrics: made.collect(), ..usual() }
}

/// Reports of other mornings.
pub fn heads() -> Vec<BurnReportHead> {
    let head = |date: &str, state: BurnReportState, note: &str| BurnReportHead {
        date: date.into(),
        state: state.into(),
        note: note.into(),
        ..Default::default()
    };
    vec![
        head("2026-12-07", BurnReportState::Done, ""),
        head("2026-12-06", BurnReportState::Done, ""),
        head("2026-12-05", BurnReportState::Failed, "the stock could not be read"),
        head("2026-12-04", BurnReportState::Done, ""),
    ]
}
