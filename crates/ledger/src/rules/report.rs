//! Runs of the report: one a business day, by one runner among many.
//!
//! | a run that | is begun by another | steps, ends | is begun anew | is called off |
//! |---|---|---|---|---|
//! | is not there | theirs | refused | theirs | nothing |
//! | runs, its lease not over | told who runs it | its own runner | told who runs it | cancelled |
//! | runs, its lease over | theirs, with its parts | its own runner | theirs, with its parts | cancelled |
//! | is done, failed or cancelled | told so | refused | theirs, without its parts | told so |
//!
//! A **lease** lasts so many seconds from the last step. At the instant itself it is over. A runner
//! whose lease is over goes on as long as nobody has taken its place; once somebody has, whatever
//! it still says is refused, so two never finish one run. A clock that is put back makes a lease
//! last longer, one that is put forward makes it end sooner: neither makes two runs of one.
//!
//! A **runner** is named anew for each run that it begins, and one that asks again under its name is
//! told the same again: so whoever does not hear an answer may ask again. Parts that were worked out
//! for the days of one time zone are not gone on with in another.

use super::At;

/// Where a run stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum ReportState {
    /// Somebody is at it, or was.
    Running,
    /// All of it is there.
    Done,
    /// It could not be done: the note says why.
    Failed,
    /// It was called off: the note says by whom.
    Cancelled,
}

impl ReportState {
    /// Every state.
    pub const ALL: [ReportState; 4] =
        [ReportState::Running, ReportState::Done, ReportState::Failed, ReportState::Cancelled];

    /// As it is kept.
    pub const fn as_str(self) -> &'static str {
        match self {
            ReportState::Running => "running",
            ReportState::Done => "done",
            ReportState::Failed => "failed",
            ReportState::Cancelled => "cancelled",
        }
    }

    /// Read back.
    pub fn read(text: &str) -> Option<ReportState> {
        ReportState::ALL.into_iter().find(|state| state.as_str() == text)
    }
}

/// A run without what it worked out.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ReportHead {
    /// The business day, numbered.
    pub day: i32,
    /// Where it stands.
    pub state: ReportState,
    /// Who runs it, or ran it last.
    pub runner: String,
    /// Until when nobody else may take it over.
    pub lease_until: At,
    /// When it was begun, by whomever.
    pub started: At,
    /// When it ended.
    pub finished: Option<At>,
    /// How much of it is done, as its runner counts.
    pub done: u32,
    /// Out of how much.
    pub of: u32,
    /// The time zone of its days.
    pub zone: String,
    /// Why it failed, or who called it off.
    pub note: String,
}

/// A part of a run, worked out.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ReportPart {
    /// Of what, as its runner calls it.
    pub code: String,
    /// When it was worked out.
    pub at: At,
    /// What was worked out. Opaque here.
    pub body: Vec<u8>,
}

/// A run with what it worked out.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Report {
    /// The run.
    pub head: ReportHead,
    /// The report; empty until it is done. Opaque here.
    pub body: Vec<u8>,
    /// Its parts, in the order of their codes.
    pub parts: Vec<ReportPart>,
}

/// Who begins a run.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Begin {
    /// The business day, numbered.
    pub day: i32,
    /// A name made anew for each run.
    pub runner: String,
    /// The time zone of its days.
    pub zone: String,
    /// For how long the run is this runner's from now; a second at least.
    pub lease_seconds: i64,
    /// Whether one that is done, failed or cancelled is begun anew.
    pub fresh: bool,
}

/// Whose a run is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Begun {
    /// Whoever asked runs it.
    Mine {
        /// What is worked out already, in the order of codes.
        parts: Vec<ReportPart>,
    },
    /// Somebody else does.
    Running {
        /// Who.
        by: String,
        /// Until when, unless the lease is renewed.
        until: At,
        /// How much is done.
        done: u32,
        /// Out of how much.
        of: u32,
    },
    /// It is done.
    Done {
        /// Since when.
        finished: At,
    },
    /// It failed.
    Failed {
        /// Why.
        note: String,
    },
    /// It was called off.
    Cancelled {
        /// By whom.
        note: String,
    },
}

/// A part that a runner has worked out.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Step {
    /// The business day, numbered.
    pub day: i32,
    /// Who runs it.
    pub runner: String,
    /// Of what it is; one of the same code takes its place.
    pub code: String,
    /// What was worked out.
    pub body: Vec<u8>,
    /// How much is done by now.
    pub done: u32,
    /// Out of how much.
    pub of: u32,
    /// For how long the run stays this runner's from now; a second at least.
    pub lease_seconds: i64,
}

/// Why a runner is to stop.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum Lost {
    /// Somebody else took it over once the lease was over.
    #[error("the report is run by {by} now, since the lease was over: stop, and leave it to them")]
    Taken {
        /// Who.
        by: String,
    },
    /// It has ended.
    #[error("the report is {} already: stop; begin it anew where it is wanted again", .0.as_str())]
    Ended(ReportState),
    /// There is none.
    #[error("there is no run of that day: begin it first")]
    Missing,
}

/// What is written of a run.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Written {
    pub head: ReportHead,
    /// The report, where it is done now.
    pub body: Vec<u8>,
    /// Whether parts that are there go first.
    pub anew: bool,
    pub part: Option<ReportPart>,
}

impl Written {
    fn of(head: ReportHead) -> Written {
        Written { head, body: Vec::new(), anew: false, part: None }
    }
}

/// What comes of a question: what is written, if anything, and what is told.
pub(crate) type Decided<T> = (Option<Written>, T);

fn lease(now: At, seconds: i64) -> At {
    now.after_seconds(seconds.max(1))
}

/// Whose a run is; parts are read by whoever keeps them.
pub(crate) fn begin(row: Option<&ReportHead>, ask: &Begin, now: At) -> Decided<Begun> {
    let mine = |head: ReportHead, anew| {
        let head = ReportHead {
            runner: ask.runner.clone(),
            zone: ask.zone.clone(),
            lease_until: lease(now, ask.lease_seconds),
            ..head
        };
        (Some(Written { anew, ..Written::of(head) }), Begun::Mine { parts: Vec::new() })
    };
    let new = ReportHead {
        day: ask.day,
        state: ReportState::Running,
        runner: String::new(),
        lease_until: now,
        started: now,
        finished: None,
        done: 0,
        of: 0,
        zone: String::new(),
        note: String::new(),
    };
    let Some(row) = row else { return mine(new, false) };
    match row.state {
        ReportState::Running if row.runner != ask.runner && row.lease_until > now => {
            let (by, until) = (row.runner.clone(), row.lease_until);
            (None, Begun::Running { by, until, done: row.done, of: row.of })
        }
        ReportState::Running if row.zone == ask.zone => mine(row.clone(), false),
        ReportState::Running => mine(new, true),
        _ if ask.fresh => mine(new, true),
        ReportState::Done => (None, Begun::Done { finished: row.finished.unwrap_or(row.started) }),
        ReportState::Failed => (None, Begun::Failed { note: row.note.clone() }),
        ReportState::Cancelled => (None, Begun::Cancelled { note: row.note.clone() }),
    }
}

/// The run, where it still is this runner's.
fn own<'a>(row: Option<&'a ReportHead>, runner: &str) -> Result<&'a ReportHead, Lost> {
    let row = row.ok_or(Lost::Missing)?;
    if row.state != ReportState::Running {
        return Err(Lost::Ended(row.state));
    }
    if row.runner != runner {
        return Err(Lost::Taken { by: row.runner.clone() });
    }
    Ok(row)
}

/// A part is worked out.
pub(crate) fn step(row: Option<&ReportHead>, ask: &Step, now: At) -> Decided<Result<At, Lost>> {
    let row = match own(row, &ask.runner) {
        Ok(row) => row,
        Err(lost) => return (None, Err(lost)),
    };
    let until = lease(now, ask.lease_seconds);
    let head = ReportHead { lease_until: until, done: ask.done, of: ask.of, ..row.clone() };
    let part = ReportPart { code: ask.code.clone(), at: now, body: ask.body.clone() };
    (Some(Written { part: Some(part), ..Written::of(head) }), Ok(until))
}

/// How a run ends.
#[derive(Debug, Clone)]
pub(crate) enum End {
    Done(Vec<u8>),
    Failed(String),
}

/// A run ends; one that its runner ended so before stays as it is.
pub(crate) fn end(row: Option<&ReportHead>, runner: &str, how: &End, now: At) -> Decided<Result<(), Lost>> {
    let (state, note, body) = match how {
        End::Done(body) => (ReportState::Done, "", body.as_slice()),
        End::Failed(note) => (ReportState::Failed, note.as_str(), &[][..]),
    };
    if row.is_some_and(|row| row.state == state && row.runner == runner) {
        return (None, Ok(()));
    }
    match own(row, runner) {
        Ok(row) => {
            let head = ReportHead { state, note: note.to_owned(), finished: Some(now), ..row.clone() };
            (Some(Written { body: body.to_vec(), ..Written::of(head) }), Ok(()))
        }
        Err(lost) => (None, Err(lost)),
    }
}

/// A run is called off; how it stood before.
pub(crate) fn cancel(row: Option<&ReportHead>, by: &str, now: At) -> Decided<Option<ReportState>> {
    let Some(row) = row else { return (None, None) };
    let was = Some(row.state);
    if row.state != ReportState::Running {
        return (None, was);
    }
    let (state, note, finished) = (ReportState::Cancelled, by.to_owned(), Some(now));
    (Some(Written::of(ReportHead { state, finished, note, ..row.clone() })), was)
}
