//! What was used of a fabric, day by day and week by week, and what cannot be seen in it.
//!
//! | case | rule |
//! |---|---|
//! | demand | `used` of a roll-up and nothing else: counts, losses, samples, own use and waste are none |
//! | a day below nought | counts as nothing used, and is said |
//! | a closed day | no observation; what is dated on it counts for the next open day |
//! | a day with nothing to use | `Σ (on hand - promised)` was below the least cloth that an order takes (below 1 µm where that is not known) on the evening before as well as in the evening, nothing came and nothing was used: what was used is then only a lower bound of what would have been ([`series`]) |
//! | before the first receipt, and while less than nothing lies there | there was something to use: what it was used of lay there and was not written, as before a shop's first stock-take |
//! | before the first movement | not in the history at all |
//! | the day of the report, and later ones | not in the history; later ones are said |
//! | the week that runs | in what was used in four weeks, and not in what a forecast is made from: a week begun is no week |
//! | more than ten years ago | in what lies there, and not in the history |
//!
//! [`series`]: pennantry_forecast::demand::series

use pennantry_forecast::demand::Error;
use pennantry_forecast::demand::days::{Day, Days, Weekly};
use pennantry_ledger::DaySum;
use pennantry_ledger::rules::{Amount, At, DayUse};
use pennantry_measure::Length;

use super::almanac::Almanac;
use super::told::{Note, PastWeek};
use super::words::{Said, metres, several};

/// Days of what is called four weeks.
pub(super) const FOUR_WEEKS: i32 = 28;
/// Days of the thirteen weeks over which waste is told.
pub(super) const THIRTEEN_WEEKS: i32 = 91;
/// Days of the year by which value is told.
const YEAR: i32 = 364;
/// Weeks of the past that are told.
const TOLD_WEEKS: usize = 104;

/// What is known of a fabric's past.
#[derive(Debug, Clone, Default)]
pub(super) struct History {
    /// The first day with any row.
    pub first: Option<i32>,
    /// The last day on which something was used.
    pub last_used: Option<i32>,
    /// Used in four weeks.
    pub used: Amount,
    /// Used in a year.
    pub year: Amount,
    /// All that thirteen weeks did.
    pub quarter: DayUse,
    /// Open days on which there was something to use, from the first use on: number, and use in
    /// micrometres.
    pub seen: Vec<(i32, i64)>,
    /// Open days since anything was used on which there was nothing to use.
    pub out_since: u32,
    /// Whole weeks.
    pub weekly: Option<Weekly>,
    /// Weeks as they are told.
    pub past: Vec<PastWeek>,
    /// Days written after they were over since an instant.
    pub late: Vec<i32>,
    /// What should be said.
    pub notes: Vec<Note>,
}

/// What a history is made with.
pub(super) struct Given<'a> {
    /// Days around the morning.
    pub almanac: &'a Almanac,
    /// Less than this free is nothing to use.
    pub least: Length,
    /// The morning of the last report, and when it was made.
    pub last_report: Option<(i32, At)>,
}

/// Whether a day wrote down something that is there: it came, or was found or counted.
fn is_receipt(of: &DayUse) -> bool {
    of.came.is_some() || of.other.is_some()
}

impl History {
    /// Of roll-ups of one fabric, in the order of their days.
    pub(super) fn of(rows: &[&DaySum], given: &Given<'_>) -> History {
        let today = given.almanac.today;
        let rows = rows.get(..rows.partition_point(|row| row.day < today)).unwrap_or_default();
        let mut history = History { first: rows.first().map(|row| row.day), ..History::default() };
        let mut below: Vec<i32> = Vec::new();
        for row in rows {
            if row.of.used < Amount::ZERO {
                below.push(row.day);
            }
            let used = row.of.used.or_none();
            if used.is_some() {
                history.last_used = Some(row.day);
            }
            let ago = today.saturating_sub(row.day);
            history.used += if ago <= FOUR_WEEKS { used } else { Amount::ZERO };
            history.year += if ago <= YEAR { used } else { Amount::ZERO };
            if ago <= THIRTEEN_WEEKS {
                history.quarter.add(&row.of);
            }
            // what the last report could not know of yet it did not say
            let since = given.last_report.zip(row.of.late_at);
            let since = since.is_some_and(|((day, last), late)| row.day < day && late > last);
            if since && history.late.last() != Some(&row.day) {
                history.late.push(row.day);
            }
        }
        if let (Some(first), Some(last)) = (below.first(), below.last()) {
            let (first, last) = (Said { day: *first, today }, Said { day: *last, today });
            let days = several(u64::try_from(below.len()).unwrap_or(u64::MAX), "day");
            history.note(
                "USED_BELOW_NOUGHT",
                format!("On {days} from {first} to {last} the use written is below nought; they count as none used."),
            );
        }
        if let Err(error) = history.see(rows, given) {
            history.note("NOT_WORKED", format!("The history cannot be worked with: {error}."));
        }
        history
    }

    fn note(&mut self, code: &'static str, message: String) {
        self.notes.push(Note { code, message });
    }

    /// Days, open days and weeks.
    fn see(&mut self, rows: &[&DaySum], given: &Given<'_>) -> Result<(), Error> {
        let almanac = given.almanac;
        let Some(first) = self.first.map(|first| first.max(almanac.first())) else { return Ok(()) };
        let enough = Amount::of_length(given.least).max(Amount(1));
        let mut rows = rows.iter().peekable();
        let (mut free, mut on_hand, mut received) = (Amount::ZERO, Amount::ZERO, false);
        while let Some(row) = rows.next_if(|row| row.day < first) {
            free += row.of.on_hand() - row.of.promised;
            on_hand += row.of.on_hand();
            received |= is_receipt(&row.of);
        }
        let mut days = Vec::new();
        let mut late = Vec::new();
        for day in first..almanac.today {
            let (before, mut came, mut used, mut was_late) = (free, Amount::ZERO, Amount::ZERO, false);
            let mut unwritten = on_hand < Amount::ZERO;
            while let Some(row) = rows.next_if(|row| row.day == day) {
                free += row.of.on_hand() - row.of.promised;
                on_hand += row.of.on_hand();
                received |= is_receipt(&row.of);
                came += row.of.came;
                used += row.of.used.or_none();
                was_late |= row.of.late_at.is_some();
            }
            unwritten |= on_hand < Amount::ZERO || !received;
            late.push(was_late);
            days.push(Day {
                number: i64::from(day),
                week: almanac.week(day),
                open: almanac.open(day),
                stocked: before >= enough || free >= enough || came.is_some() || used.is_some() || unwritten,
                amount: used.0,
            });
        }
        self.tell(&days, &late, almanac);
        let moved = Days::new(&days)?;
        if moved.waiting() > 0 {
            let waits = metres(Length::from_um(moved.waiting()));
            self.note(
                "WAITS_FOR_OPEN_DAY",
                format!("{waits} were cut on closed days and count for the next open one."),
            );
        }
        match moved.open() {
            Ok((series, numbers)) => {
                let seen = series.buckets().iter().zip(numbers);
                let seen = seen.filter(|(bucket, _)| bucket.stocked_days > 0 || bucket.amount > 0);
                let seen = seen.skip_while(|(bucket, _)| bucket.amount == 0);
                self.seen = seen.filter_map(|(b, n)| Some((i32::try_from(n).ok()?, b.amount))).collect();
            }
            // nothing was open yet
            Err(Error::Empty) => {}
            Err(error) => return Err(error),
        }
        let whole = usize::try_from(almanac.monday.saturating_sub(first)).unwrap_or(0);
        if let Some(whole) = days.get(..whole).filter(|days| !days.is_empty()) {
            self.weekly = Some(Days::new(whole)?.weekly(almanac.usual)?);
        }
        Ok(())
    }

    /// Weeks as they are told, with what each day was written for; how long it was out.
    fn tell(&mut self, days: &[Day], late: &[bool], almanac: &Almanac) {
        let since = self.last_used.map_or(i64::MIN, i64::from);
        let out = |day: &&Day| day.open && !day.stocked;
        let number = |count: usize| u32::try_from(count).unwrap_or(u32::MAX);
        self.out_since = number(days.iter().filter(|day| day.number > since).filter(out).count());
        let mut weeks = Vec::new();
        let mut at = 0;
        for week in days.chunk_by(|a, b| a.week == b.week) {
            let restated = late.iter().skip(at).take(week.len()).any(|late| *late);
            at += week.len();
            let Some(first) = week.first().and_then(|day| i32::try_from(day.number).ok()) else { continue };
            weeks.push(PastWeek {
                monday: super::words::monday(first),
                used: Length::from_um(week.iter().fold(0, |sum: i64, day| sum.saturating_add(day.amount))),
                open_days: number(week.iter().filter(|day| day.open).count()),
                out_days: number(week.iter().filter(out).count()),
                restated,
            });
        }
        let left_out = weeks.len().saturating_sub(TOLD_WEEKS);
        self.past = weeks.split_off(left_out);
        let quarter = almanac.today.saturating_sub(THIRTEEN_WEEKS);
        let lately = days.iter().filter(|day| day.number >= i64::from(quarter));
        let count = lately.filter(out).count();
        if count > 0 {
            let days = several(u64::try_from(count).unwrap_or(u64::MAX), "open day");
            self.note(
                "WAS_OUT",
                format!("On {days} of the last thirteen weeks there was nothing to use: demand was at least what was used."),
            );
        }
    }
}
