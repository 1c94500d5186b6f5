//! Runs of the report: one a business day, by one runner among many.
//!
//! | a run that | is begun by another | steps, ends | is begun anew | is called off |
//! |---|---|---|---|---|
//! | is not there | theirs | refused | theirs | nothing |
//! | runs, its lease not over | told who runs it | its own runner | told who runs it | cancelled |
//! | runs, its lease over | theirs, with its parts | its own runner | theirs, with its parts | cancelled |
//! | failed | told so | refused | theirs, with its parts where they are of the last hour | told so |
//! | is done or cancelled | told so | refused | theirs, without its parts | told so |
//!
//! A **lease** lasts so many seconds from the last step. At the instant itself it is over. A runner
//! whose lease is over goes on as long as nobody has taken its place; once somebody has, whatever
//! it still says is refused, so two never finish one run. A clock that is put back makes a lease
//! last longer, one that is put forward makes it end sooner: neither makes two runs of one.
//!
//! A **runner** is named anew for each run that it begins, and one that asks again under its name is
//! told the same again: so whoever does not hear an answer may ask again. Parts that were worked out
//! for the days of one time zone, or by one catalogue, are not gone on with in another.
//!
//! A report that is done and begun anew is laid aside until the new one is done: whatever becomes
//! of that, the morning has one.

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
    /// The catalogue by which it is worked out; empty for one that was begun before that was kept.
    pub revision: String,
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
    /// The one that was done before, where this one is begun anew and not done.
    pub earlier: Option<Earlier>,
}

impl Report {
    /// The report of that morning that is done, and when it was begun: this one, or the one before.
    pub fn done(&self) -> Option<(At, &[u8])> {
        match self.head.state {
            ReportState::Done => Some((self.head.started, self.body.as_slice())),
            _ => self.earlier.as_ref().map(|earlier| (earlier.started, earlier.body.as_slice())),
        }
    }
}

/// A report that was done, laid aside until the one that is made instead is done.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Earlier {
    /// When it was begun.
    pub started: At,
    /// When it was done.
    pub finished: At,
    /// The report. Opaque here.
    pub body: Vec<u8>,
}

/// When a run that has ended is begun anew.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Again {
    /// Never.
    #[default]
    Never,
    /// Where it failed or was called off.
    Unfinished,
    /// Always.
    Always,
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
    /// The catalogue by which it is worked out.
    pub revision: String,
    /// When the day begins: what was done before that was by a clock that was ahead.
    pub since: At,
    /// For how long the run is this runner's from now; a second at least.
    pub lease_seconds: i64,
    /// Whether one that has ended is begun anew; one of before its own day is, unless it is never.
    pub again: Again,
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
    pub aside: Aside,
}

/// What becomes of a report that was done before.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Aside {
    /// What is laid aside stays so.
    Leave,
    /// The one that is done is laid aside.
    Put,
    /// What is laid aside goes.
    Drop,
}

impl Written {
    fn of(head: ReportHead) -> Written {
        Written { head, body: Vec::new(), anew: false, part: None, aside: Aside::Leave }
    }
}

/// What comes of a question: what is written, if anything, and what is told.
pub(crate) type Decided<T> = (Option<Written>, T);

fn lease(now: At, seconds: i64) -> At {
    now.after_seconds(seconds.max(1))
}

/// For how long parts of a run that failed are good for the next one. Unit s.
const PARTS_SECONDS: i64 = 3_600;
/// How far ahead of the clock the begin of a run may be: clocks of two servers differ. Unit s.
const AHEAD_SECONDS: i64 = 60;

/// A run that nobody has begun.
fn new(day: i32, now: At) -> ReportHead {
    ReportHead {
        day,
        state: ReportState::Running,
        runner: String::new(),
        lease_until: now,
        started: now,
        finished: None,
        done: 0,
        of: 0,
        zone: String::new(),
        revision: String::new(),
        note: String::new(),
    }
}

/// Whose a run is; parts are read by whoever keeps them.
pub(crate) fn begin(row: Option<&ReportHead>, ask: &Begin, now: At) -> Decided<Begun> {
    let mine = |head: ReportHead, anew, aside| {
        let head = ReportHead {
            runner: ask.runner.clone(),
            zone: ask.zone.clone(),
            revision: ask.revision.clone(),
            lease_until: lease(now, ask.lease_seconds),
            ..head
        };
        (Some(Written { anew, aside, ..Written::of(head) }), Begun::Mine { parts: Vec::new() })
    };
    let new = new(ask.day, now);
    let Some(row) = row else { return mine(new, false, Aside::Leave) };
    let is_alike = row.zone == ask.zone && row.revision == ask.revision;
    let is_late =
        row.finished.is_some_and(|at| now.0.abs_diff(at.0) > PARTS_SECONDS.unsigned_abs() * 1_000_000);
    let is_foretold = row.zone == ask.zone && row.started < ask.since && now >= ask.since;
    match (row.state, ask.again) {
        (ReportState::Running, _) if row.runner != ask.runner && row.lease_until > now => {
            let (by, until) = (row.runner.clone(), row.lease_until);
            (None, Begun::Running { by, until, done: row.done, of: row.of })
        }
        (ReportState::Running, _) if is_alike && !is_foretold => mine(row.clone(), false, Aside::Leave),
        (ReportState::Done, Again::Always) => mine(new, true, Aside::Put),
        (ReportState::Done, Again::Unfinished) if is_foretold => mine(new, true, Aside::Put),
        (ReportState::Done, _) => (None, Begun::Done { finished: row.finished.unwrap_or(row.started) }),
        (ReportState::Failed, Again::Never) => (None, Begun::Failed { note: row.note.clone() }),
        (ReportState::Failed, Again::Unfinished) => mine(new, !is_alike || is_late, Aside::Leave),
        (ReportState::Cancelled, Again::Never) => (None, Begun::Cancelled { note: row.note.clone() }),
        (ReportState::Running | ReportState::Failed | ReportState::Cancelled, _) => {
            mine(new, true, Aside::Leave)
        }
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

/// A runner keeps its run without a part for it, or hands it back: of no seconds nothing is left.
pub(crate) fn hold(
    row: Option<&ReportHead>,
    runner: &str,
    seconds: i64,
    now: At,
) -> Decided<Result<At, Lost>> {
    match own(row, runner) {
        Ok(row) => {
            let until = now.after_seconds(seconds.max(0));
            (Some(Written::of(ReportHead { lease_until: until, ..row.clone() })), Ok(until))
        }
        Err(lost) => (None, Err(lost)),
    }
}

/// A run that was begun later than it is now, by a clock that was ahead, is disowned: it counts as
/// failed, nothing of it is kept, and it may be begun anew when its day comes. Whether it was so.
pub(crate) fn disown(row: Option<&ReportHead>, note: &str, now: At) -> Decided<bool> {
    match row {
        Some(row) if row.started > now.after_seconds(AHEAD_SECONDS) => {
            let (state, note, finished) = (ReportState::Failed, note.to_owned(), Some(now));
            let head = ReportHead { state, finished, note, ..new(row.day, now) };
            (Some(Written { anew: true, aside: Aside::Drop, ..Written::of(head) }), true)
        }
        _ => (None, false),
    }
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
            let aside = if state == ReportState::Done { Aside::Drop } else { Aside::Leave };
            (Some(Written { body: body.to_vec(), aside, ..Written::of(head) }), Ok(()))
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
