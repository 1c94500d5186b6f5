//! What is not known of a fabric and why, and whatever else should be said of its figures.

use std::fmt::Display;

use pennantry_forecast::demand::choose::{Outcome, Why};
use pennantry_forecast::demand::days::Weekly;
use pennantry_forecast::supply::lead::How;
use pennantry_measure::Length;

use super::foresee::Foreseen;
use super::history::History;
use super::levels::Found;
use super::number::{count, nearest_mm, quotient, real};
use super::survey::Survey;
use super::told::Note;
use super::words::{Said, metres, monday, several};

/// Weeks in which a one-off job is said.
const YEAR: usize = 52;

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
    pub(super) fn no_week(&mut self, history: &History) {
        if history.first.is_none() {
            self.note("NO_HISTORY", "Nothing of it came or went before this day.".to_owned());
        } else if history.notes.iter().all(|note| note.code != "NOT_WORKED") {
            let used = metres(history.used.length());
            let message =
                format!("No whole week is known yet, and a forecast takes 8: {used} were used so far.");
            self.note("FEW_WEEKS", message);
        }
    }

    pub(super) fn no_usual(&mut self) {
        let message = "What is usual cannot be said: that takes 8 whole weeks with something to use before the last four.";
        self.note("NO_USUAL", message.to_owned());
    }

    pub(super) fn not_said_how_bought(&mut self) {
        let message = "The catalogue does not say how it is bought: nothing can be proposed.";
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
        self.note("NOT_USED", format!("None was used {since}: no use is expected, and none is proposed."));
    }

    pub(super) fn estimated(&mut self, today: i32, known: i32) {
        let known = Said { day: known, today };
        self.note(
            "DAYS_OFF_NOT_KNOWN",
            format!("Days off are known up to {known}; later weeks are taken for ordinary ones."),
        );
    }

    /// How the reorder point came about, where it was drawn.
    pub(super) fn levels(&mut self, levels: Option<&Found>, today: i32, code: &str) {
        let Some(Found { how: How::Drawn { draws, seed }, window, .. }) = levels else { return };
        let window = several(u64::from(*window), "open day");
        let today = super::words::date(today);
        self.note(
            "DRAWN",
            format!("The reorder point is read from {draws} windows of {window}, drawn from the seed {seed} of {today} and {code}."),
        );
    }

    /// What a forecast rests on, or why there is none.
    pub(super) fn foreseen(&mut self, foreseen: &Foreseen, weekly: &Weekly, free: Length, survey: &Survey) {
        match &foreseen.choice.outcome {
            Outcome::RawOnly(why) => self.raw_only(*why, weekly, free),
            Outcome::Foretold(_) => self.foretold(foreseen, weekly, survey),
        }
    }

    fn raw_only(&mut self, why: Why, weekly: &Weekly, free: Length) {
        let used = weekly.series.used();
        let all: f64 = used.iter().sum();
        let most = used.iter().copied().fold(0.0, f64::max);
        let total = nearest_mm(all).map(metres).unwrap_or_default();
        let (code, message) = match why {
            Why::NothingSeen => {
                let message = "Nothing can be said of its use: there was nothing to use on any open day of a whole week.";
                ("NOTHING_SEEN", message.to_owned())
            }
            Why::NoUse => ("NEVER_USED", "None of it was used in any whole week.".to_owned()),
            Why::FewBuckets { have, least } => {
                let have = several(u64::try_from(have).unwrap_or(u64::MAX), "week");
                let since = used.iter().position(|one| *one > 0.0).unwrap_or(0);
                let mean = all / count(used.len().saturating_sub(since));
                let lasts = |rate| quotient(real(free.um().max(0)), rate);
                let range = match (lasts(most), lasts(mean)) {
                    (Some(least), Some(mean)) => format!(
                        "; what is free lasts {least:.1} weeks at the most that one used, {mean:.1} at their mean"
                    ),
                    _ => String::new(),
                };
                let message = format!(
                    "Only {have} since its first use are known, and a forecast takes {least}: {total} were used in them{range}."
                );
                ("FEW_WEEKS", message)
            }
            Why::FewDemands { have, least } => {
                let have = several(u64::try_from(have).unwrap_or(u64::MAX), "week");
                (
                    "FEW_USES",
                    format!("It was used in only {have}, and a forecast takes {least}: {total} in all."),
                )
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
