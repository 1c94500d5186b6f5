//! What is not known of a fabric and why, and whatever else should be said of its figures.

use std::fmt::Display;

use pennantry_forecast::demand::choose::{LEAST_BUCKETS, Outcome, Why};

use pennantry_forecast::demand::days::Weekly;
use pennantry_forecast::supply::lead::How;
use pennantry_measure::Length;

use super::foresee::Foreseen;
use super::history::History;
use super::levels::Found;
use super::number::{count, nearest_mm, quotient, real};
use super::survey::Survey;
use super::told::{NOT_USED, Note};
use super::usable::Narrow;
use super::words::{Said, metres, monday, several};

/// Weeks in which a one-off job is said.
const YEAR: usize = 52;

/// What a forecast takes: [`LEAST_BUCKETS`] and [`LEAST_DEMANDS`].
const FORECAST: &str = "a forecast takes 8 weeks since the first use, with use in 2 of them";

/// From which day on there is a forecast, so many weeks still wanting.
fn earliest(weeks: usize, survey: &Survey) -> String {
    let almanac = &survey.almanac;
    let days = i32::try_from(weeks).unwrap_or(i32::MAX).saturating_mul(7);
    let day = almanac.monday.saturating_add(days);
    format!("from {} on at the earliest", Said { day, today: almanac.today })
}

/// A length that was used: `4.00 m were`, `1.00 m was`.
fn was(length: Length) -> String {
    format!("{} {}", metres(length), if length.um() == 1_000_000 { "was" } else { "were" })
}

/// Notes as they are made.
pub(super) struct Notes {
    pub all: Vec<Note>,
}

impl Notes {
    /// Begins with what the history has to say.
    pub(super) fn of(history: &History) -> Notes {
        Notes { all: history.notes.clone() }
    }

    fn note(&mut self, code: &'static str, message: String) {
        self.all.push(Note { code, message });
    }

    pub(super) fn extend(&mut self, notes: impl IntoIterator<Item = Note>) {
        self.all.extend(notes);
    }

    /// A figure, or why there is none.
    pub(super) fn worked<T>(&mut self, what: &str, figure: Result<T, impl Display>) -> Option<T> {
        figure.map_err(|error| self.note("NOT_WORKED", format!("{what} cannot be worked: {error}."))).ok()
    }

    /// No whole week is known.
    pub(super) fn no_week(&mut self, history: &History, survey: &Survey) {
        if history.first.is_none() {
            self.note("NO_HISTORY", "Nothing of it came or went before this day.".to_owned());
        } else if history.notes.iter().all(|note| note.code != "NOT_WORKED") {
            let message = if history.last_used.is_some() {
                format!(
                    "No whole week of it is known yet; {FORECAST}, so there is one {}: {} used so far.",
                    earliest(LEAST_BUCKETS, survey),
                    was(history.used.length())
                )
            } else {
                format!("No whole week of it is known yet, and none of it was used; {FORECAST}.")
            };
            self.note("FEW_WEEKS", message);
        }
    }

    pub(super) fn no_usual(&mut self) {
        let message = "What is usual cannot be said: that takes 8 whole weeks with something to use before the last four.";
        self.note("NO_USUAL", message.to_owned());
    }

    /// What lies in narrow pieces.
    pub(super) fn narrow(&mut self, narrow: &Narrow, usable: Length) {
        if narrow.pieces == 0 {
            return;
        }
        let pieces = several(u64::try_from(narrow.pieces).unwrap_or(u64::MAX), "piece");
        let message = format!(
            "{} of what is free lies in {pieces} of less than the full width: weeks left and what is ordered are \
             reckoned with {} free, in metres of the full width.",
            metres(narrow.free.length()),
            metres(usable)
        );
        self.note("NARROW", message);
    }

    pub(super) fn no_ordering(&mut self) {
        let message =
            "The catalogue has no [ordering] table: nothing can be proposed, and waiting changes nothing.";
        self.note("NO_ORDERING", message.to_owned());
    }

    pub(super) fn not_said_how_bought(&mut self) {
        let message = "The catalogue has no [[supplies]] entry for it: nothing can be proposed, and waiting changes nothing.";
        self.note("NOT_SAID_HOW_BOUGHT", message.to_owned());
    }

    pub(super) fn no_price(&mut self) {
        let message = "Its price is not known: it has no class by value.";
        self.note("NO_PRICE", message.to_owned());
    }

    pub(super) fn no_levels(&mut self) {
        let message = "There is no reorder point, so nothing can be proposed.";
        self.note("NO_LEVELS", message.to_owned());
    }

    pub(super) fn idle(&mut self, today: i32, last_used: Option<i32>) {
        let since = match last_used {
            Some(day) => format!("since {}", Said { day, today }),
            None => "ever".to_owned(),
        };
        self.note(NOT_USED, format!("None was used {since}: no use is expected, and none is proposed."));
    }

    pub(super) fn estimated(&mut self, today: i32, known: i32) {
        let known = Said { day: known, today };
        self.note(
            "DAYS_OFF_NOT_KNOWN",
            format!("Days off are known up to {known}; later weeks are taken for ordinary ones."),
        );
    }

    /// How the reorder point came about.
    pub(super) fn levels(&mut self, levels: Option<&Found>, today: i32, code: &str) {
        let Some(found) = levels else { return };
        let window = several(u64::from(found.window), "open day");
        self.note(
            "REORDER_POINT",
            format!(
                "The reorder point of {} is for the {window} from today until the order after the next look would be \
                 there: {} are expected to be used in them, and one day alone used up to {}.",
                metres(Length::from_um(found.levels.reorder_point)),
                metres(found.expected),
                metres(found.most)
            ),
        );
        let How::Drawn { draws, seed } = found.how else { return };
        let today = super::words::date(today);
        self.note(
            "DRAWN",
            format!("The reorder point is read from {draws} windows of {window}, drawn from the seed {seed} of {today} and {code}."),
        );
    }

    /// What a forecast rests on, or why there is none.
    pub(super) fn foreseen(
        &mut self,
        foreseen: &Foreseen,
        history: &History,
        weekly: &Weekly,
        free: Length,
        survey: &Survey,
    ) {
        match &foreseen.choice.outcome {
            Outcome::RawOnly(why) => self.raw_only(*why, history, weekly, free, survey),
            Outcome::Foretold(_) => self.foretold(foreseen, weekly, survey),
        }
    }

    fn raw_only(&mut self, why: Why, history: &History, weekly: &Weekly, free: Length, survey: &Survey) {
        let used = weekly.series.used();
        let all: f64 = used.iter().sum();
        let most = used.iter().copied().fold(0.0, f64::max);
        let total = nearest_mm(all).map(metres).unwrap_or_default();
        // used for the first time in the week that runs
        let begun = || match history.last_used.filter(|used| *used >= survey.almanac.monday) {
            Some(_) => format!(", so there is one {}", earliest(LEAST_BUCKETS, survey)),
            None => String::new(),
        };
        let (code, message) = match why {
            Why::NothingSeen => (
                "NOTHING_SEEN",
                format!(
                    "Nothing can be said of its use: there was nothing to use on any open day of a whole week; {FORECAST}{}.",
                    begun()
                ),
            ),
            Why::NoUse => {
                ("NEVER_USED", format!("None of it was used in any whole week; {FORECAST}{}.", begun()))
            }
            Why::FewBuckets { have, least } => {
                let weeks = several(u64::try_from(have).unwrap_or(u64::MAX), "week");
                let since = used.iter().position(|one| *one > 0.0).unwrap_or(0);
                let mean = all / count(used.len().saturating_sub(since));
                let lasts = |rate| quotient(real(free.um().max(0)), rate);
                let range = match (lasts(most), lasts(mean)) {
                    (Some(least), Some(mean)) if have > 1 => format!(
                        "; what is free lasts {least:.1} weeks at the most that one used, {mean:.1} at their mean"
                    ),
                    (Some(least), _) if have == 1 => {
                        format!("; what is free lasts {least:.1} weeks at as much a week")
                    }
                    _ => String::new(),
                };
                let (is, them) = if have == 1 { ("is", "it") } else { ("are", "them") };
                let message = format!(
                    "Only {weeks} since its first use {is} known; {FORECAST}, so there is one {}: {} used in {them}{range}.",
                    earliest(least.saturating_sub(have), survey),
                    was(nearest_mm(all).unwrap_or(Length::ZERO))
                );
                ("FEW_WEEKS", message)
            }
            Why::FewDemands { have, .. } => {
                let have = several(u64::try_from(have).unwrap_or(u64::MAX), "week");
                ("FEW_USES", format!("It was used in only {have}, {total} in all; {FORECAST}."))
            }
        };
        self.note(code, message);
    }

    fn foretold(&mut self, foreseen: &Foreseen, weekly: &Weekly, survey: &Survey) {
        let weeks = weekly.weeks.len();
        if weeks < YEAR {
            let known = several(u64::try_from(weeks).unwrap_or(u64::MAX), "week");
            self.note("FIRST_YEAR", format!("Only {known} of it are known: nothing is seen of its season."));
        }
        let almanac = &survey.almanac;
        let lately = foreseen.choice.capped.iter().filter(|one| one.at + YEAR >= weeks);
        for one in lately {
            let back = i32::try_from(weeks.saturating_sub(one.at)).unwrap_or(i32::MAX);
            let day = almanac.monday.saturating_sub(back.saturating_mul(7));
            let used = weekly.series.used().get(one.at).copied().and_then(nearest_mm);
            let Some((used, counts)) = used.zip(nearest_mm(one.counts_as)) else {
                continue;
            };
            self.note(
                "ONE_OFF",
                format!(
                    "The week of {} used {}, far out of the usual: in the rate it counts as {}, in the reorder point in full.",
                    Said { day: monday(day), today: almanac.today },
                    metres(used),
                    metres(counts)
                ),
            );
        }
        if foreseen.forecast().is_some_and(|forecast| forecast.origins == 0) {
            let message =
                "The history is too short for a back-test: the method is that of its kind of demand.";
            self.note("NOT_TESTED", message.to_owned());
        }
    }
}

#[cfg(test)]
mod tests {
    use pennantry_forecast::demand::class::LEAST_DEMANDS;

    use super::*;

    #[test]
    fn what_a_forecast_takes_is_what_the_reckoning_takes() {
        assert!(FORECAST.contains(&format!("takes {LEAST_BUCKETS} weeks since the first use")));
        assert!(FORECAST.contains(&format!("with use in {LEAST_DEMANDS} of them")));
    }
}
