//! What buyers want, day by day.
//!
//! Each line of the table is a habit of buyers: which design, in which cloth, how often and how
//! large. What kinds of demand come of them, as Syntetos and Boylan name these (*JORS* 56 (2005)
//! 495-503), is what each is there for:
//!
//! | cloth | what its use is to look like |
//! |---|---|
//! | kelp | smooth: every week, with a summer and a December |
//! | chandlers-rope, lamp-oil | likewise, fewer; one festival buys much of the rope at once |
//! | quay-stone | erratic: every week, but now a handful and now a street |
//! | saltmere-tern | intermittent: now and then, always much the same |
//! | loft-lights | lumpy: a wedding, a Christmas, and nothing between |
//! | ebb-stripe | new: five weeks of it |
//! | oilskin | bought once, and unused for more than a year |
//! | pilot-map | the last of it |
//! | the others | a little |

use jiff::civil::Date;

use super::dice::Dice;

/// How much more than usual is ordered in a month, January first: in thousandths.
const MONTHS: [u64; 12] = [550, 550, 700, 950, 1_800, 2_100, 1_800, 1_000, 750, 650, 800, 2_100];
/// From then on nothing comes in time for Christmas.
const LAST_OF_DECEMBER: i8 = 18;
/// What is left of December after that.
const AFTER: u64 = 250;
/// Looks a day: in each one order of a habit may come.
const LOOKS: u64 = 8;

/// A habit of buyers.
#[derive(Debug)]
pub(super) struct Habit {
    /// Code of the design.
    pub design: &'static str,
    /// Codes of the cloth, in turn.
    pub fabrics: &'static [&'static str],
    /// Orders in a hundred usual weeks.
    hundred_weeks: u64,
    /// Whether the year's months change that, and by how much.
    months: Option<&'static [u64; 12]>,
    /// How many in ten orders have from how many to how many pennants; the last is for the rest.
    sizes: &'static [(u64, i64, i64)],
    /// First and last day: so many days before the last one of all.
    days: (i32, i32),
}

const ALWAYS: (i32, i32) = (i32::MAX, 0);
/// Weddings and Christmas lights.
const LIGHTS: [u64; 12] = [0, 0, 300, 500, 2_200, 2_600, 2_200, 1_400, 600, 300, 2_200, 3_600];
/// Felt is for winter.
const FELT: [u64; 12] = [300, 300, 500, 500, 500, 500, 500, 500, 800, 1_500, 3_000, 2_500];

/// The habits.
pub(super) const HABITS: [Habit; 15] = [
    habit("harbour", &["kelp", "chandlers-rope", "lamp-oil"], 380, Some(&MONTHS), &[(10, 15, 36)]),
    habit("harbour", &["kelp"], 340, Some(&MONTHS), &[(10, 12, 26)]),
    habit("harbour", &["chandlers-rope"], 70, Some(&MONTHS), &[(10, 12, 30)]),
    habit("minnow", &["lamp-oil"], 60, Some(&MONTHS), &[(10, 16, 40)]),
    habit("harbour", &["quay-stone"], 240, None, &[(7, 4, 9), (2, 18, 45), (1, 90, 160)]),
    habit("regatta", &["saltmere-tern"], 32, None, &[(10, 9, 12)]),
    habit("harbour", &["loft-lights"], 17, Some(&LIGHTS), &[(5, 6, 12), (3, 20, 40), (2, 60, 110)]),
    Habit { days: (37, 0), ..habit("chart", &["ebb-stripe"], 230, None, &[(10, 10, 22)]) },
    Habit { days: (i32::MAX, 385), ..habit("breakwater", &["oilskin"], 60, None, &[(10, 6, 12)]) },
    habit("breakwater", &["sail-end"], 30, None, &[(10, 5, 9)]),
    habit("pilot", &["pilot-map"], 38, None, &[(10, 8, 12)]),
    habit("hearth", &["bell-buoy", "driftwood"], 35, Some(&FELT), &[(10, 10, 20)]),
    habit("swift", &["driftwood"], 8, Some(&FELT), &[(10, 8, 16)]),
    habit("limpet", &["marram-linen"], 25, Some(&MONTHS), &[(10, 12, 24)]),
    habit("pilot", &["sea-glass"], 15, None, &[(10, 4, 8)]),
];

const fn habit(
    design: &'static str,
    fabrics: &'static [&'static str],
    hundred_weeks: u64,
    months: Option<&'static [u64; 12]>,
    sizes: &'static [(u64, i64, i64)],
) -> Habit {
    Habit { design, fabrics, hundred_weeks, months, sizes, days: ALWAYS }
}

/// What a buyer wants.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Wish {
    /// Code of the design.
    pub design: &'static str,
    /// Codes of the cloth.
    pub fabrics: Vec<&'static str>,
    /// Pennants of a string.
    pub pennants: u32,
    /// Strings.
    pub strings: u32,
}

/// What is wanted on a date that lies so many days before the last one.
pub(super) fn wishes(dice: &mut Dice, date: Date, before_last: i32) -> Vec<Wish> {
    let mut found = Vec::new();
    for habit in &HABITS {
        if before_last > habit.days.0 || before_last < habit.days.1 {
            continue;
        }
        // orders in a million looks
        let often = habit.hundred_weeks * month(habit, date) * 1_000 / (100 * 7 * LOOKS);
        for _ in 0..LOOKS {
            if dice.in_million(often) {
                found.push(Wish {
                    design: habit.design,
                    fabrics: habit.fabrics.to_vec(),
                    pennants: size(dice, habit.sizes),
                    strings: 1,
                });
            }
        }
    }
    found
}

fn month(habit: &Habit, date: Date) -> u64 {
    let Some(months) = habit.months else { return 1_000 };
    if date.month() == 12 && date.day() > LAST_OF_DECEMBER {
        return AFTER;
    }
    let at = usize::try_from(date.month() - 1).unwrap_or(0);
    months.get(at).copied().unwrap_or(1_000)
}

fn size(dice: &mut Dice, sizes: &[(u64, i64, i64)]) -> u32 {
    let thrown = dice.bits() % 10;
    let mut below = 0;
    let of = sizes.iter().find(|(tenths, ..)| {
        below += tenths;
        thrown < below
    });
    let (_, least, most) = of.or(sizes.last()).copied().unwrap_or((10, 10, 10));
    u32::try_from(dice.from(least, most)).unwrap_or(10)
}

#[cfg(test)]
mod tests {
    use super::*;
    use jiff::ToSpan;

    #[test]
    fn as_many_come_as_the_table_says() {
        let mut dice = Dice::new(1);
        let first: Date = "2024-01-01".parse().unwrap();
        // 28 years hold whole weeks and whole leap years
        let days = 28 * 365 + 7;
        let mut count = [0_u32; 2];
        for day in 0..days {
            for wish in wishes(&mut dice, first + day.days(), 500) {
                count[0] += u32::from(wish.fabrics == ["quay-stone"]);
                count[1] += u32::from(wish.fabrics == ["kelp"]);
            }
        }
        let weeks = f64::from(days) / 7.0;
        // quay stone 2.40 a week; kelp 3.40 times the mean of its months by their days, 1.084 with all but
        // a quarter of the end of December left out
        let [stone, kelp] = count.map(|count| f64::from(count) / weeks);
        assert!((stone - 2.40).abs() < 0.12 && (kelp - 3.40 * 1.084).abs() < 0.15, "{stone} {kelp}");
    }

    #[test]
    fn what_is_new_and_what_is_over_keeps_to_its_days() {
        let mut dice = Dice::new(3);
        let date: Date = "2026-06-15".parse().unwrap();
        let mut has = |code: &str, before_last: i32| {
            (0..300)
                .any(|_| wishes(&mut dice, date, before_last).iter().any(|wish| wish.fabrics.contains(&code)))
        };
        assert_eq!([has("ebb-stripe", 38), has("ebb-stripe", 37), has("ebb-stripe", 0)], [false, true, true]);
        assert_eq!([has("oilskin", 700), has("oilskin", 385), has("oilskin", 384)], [true, true, false]);
    }
}
