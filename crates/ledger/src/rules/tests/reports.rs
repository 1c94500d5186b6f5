//! Whose a run of the report is: the table of the module, by hand.

use crate::rules::At;
use crate::rules::report::{
    Again, Aside, Begin, Begun, End, Lost, ReportHead, ReportState, Step, Written, begin, cancel, disown,
    end, hold, step,
};

const fn at(seconds: i64) -> At {
    At(seconds * 1_000_000)
}

fn ask(runner: &str) -> Begin {
    Begin {
        day: 7,
        runner: runner.to_owned(),
        zone: "Europe/London".to_owned(),
        revision: "r1".to_owned(),
        since: at(-9_999),
        lease_seconds: 60,
        again: Again::Never,
    }
}

fn part(runner: &str) -> Step {
    Step {
        day: 7,
        runner: runner.to_owned(),
        code: "KELP".to_owned(),
        body: vec![1],
        done: 3,
        of: 9,
        lease_seconds: 60,
    }
}

/// Begun by "one" at nought; its lease is over at 60.
fn running() -> ReportHead {
    let (written, told) = begin(None, &ask("one"), at(0));
    assert_eq!(told, Begun::Mine { parts: vec![] });
    written.expect("it is written").head
}

fn head(written: Option<Written>) -> ReportHead {
    written.expect("it is written").head
}

#[test]
fn the_first_one_runs_it() {
    let is = running();
    let expected = ReportHead {
        day: 7,
        state: ReportState::Running,
        runner: "one".to_owned(),
        lease_until: at(60),
        started: at(0),
        finished: None,
        done: 0,
        of: 0,
        zone: "Europe/London".to_owned(),
        revision: "r1".to_owned(),
        note: String::new(),
    };
    assert_eq!(is, expected);
}

#[test]
fn another_one_waits_until_the_lease_is_over() {
    let is = running();
    for again in [Again::Never, Again::Unfinished, Again::Always] {
        let other = Begin { again, ..ask("two") };
        let told = Begun::Running { by: "one".to_owned(), until: at(60), done: 0, of: 0 };
        assert_eq!(begin(Some(&is), &other, At(at(60).0 - 1)), (None, told));
        let (written, told) = begin(Some(&is), &other, at(60));
        assert_eq!(told, Begun::Mine { parts: vec![] });
        let written = written.unwrap();
        assert!(!written.anew, "its parts are kept");
        assert_eq!((written.head.runner.as_str(), written.head.lease_until), ("two", at(120)));
        assert_eq!(written.head.started, at(0), "it was begun when it was");
    }
    // asked again under its own name, it is its own
    let (written, _) = begin(Some(&is), &ask("one"), at(30));
    assert_eq!(head(written).lease_until, at(90));
}

#[test]
fn parts_of_another_zone_or_catalogue_are_not_gone_on_with() {
    let (zone, revision) = ("Pacific/Auckland".to_owned(), "r2".to_owned());
    for other in [Begin { zone, ..ask("two") }, Begin { revision, ..ask("two") }] {
        let (written, _) = begin(Some(&running()), &other, at(60));
        let written = written.unwrap();
        assert!(written.anew);
        let head = written.head;
        assert_eq!((head.started, head.zone, head.revision), (at(60), other.zone, other.revision));
    }
}

/// What a run that failed has done is good for the next one for an hour, by the same catalogue.
#[test]
fn one_that_failed_is_gone_on_with_for_an_hour() {
    let failed = head(end(Some(&running()), "one", &End::Failed("full".to_owned()), at(5)).0);
    let next = |again, revision: &str, now| {
        let ask = Begin { again, revision: revision.to_owned(), ..ask("two") };
        let (written, told) = begin(Some(&failed), &ask, now);
        assert_eq!(told, Begun::Mine { parts: vec![] });
        let written = written.unwrap();
        assert_eq!(
            (written.head.started, written.head.note.as_str(), written.aside),
            (now, "", Aside::Leave)
        );
        written.anew
    };
    assert!(!next(Again::Unfinished, "r1", at(3_605)));
    assert!(next(Again::Unfinished, "r1", At(at(3_605).0 + 1)));
    assert!(next(Again::Unfinished, "r2", at(6)));
    assert!(next(Again::Always, "r1", at(6)));
}

#[test]
fn what_is_done_is_laid_aside_until_the_next_one_is() {
    let done = head(end(Some(&running()), "one", &End::Done(vec![9]), at(5)).0);
    let (written, _) = begin(Some(&done), &Begin { again: Again::Always, ..ask("two") }, at(6));
    let written = written.unwrap();
    assert_eq!(written.aside, Aside::Put);
    let is = written.head;
    let aside = |decided: Option<Written>| decided.unwrap().aside;
    assert_eq!(aside(step(Some(&is), &part("two"), at(7)).0), Aside::Leave);
    assert_eq!(aside(hold(Some(&is), "two", 60, at(7)).0), Aside::Leave);
    assert_eq!(aside(cancel(Some(&is), "ada", at(7)).0), Aside::Leave);
    assert_eq!(aside(end(Some(&is), "two", &End::Failed("full".to_owned()), at(7)).0), Aside::Leave);
    assert_eq!(aside(end(Some(&is), "two", &End::Done(vec![1]), at(7)).0), Aside::Drop);
    for over in
        [cancel(Some(&is), "ada", at(7)).0, end(Some(&is), "two", &End::Failed(String::new()), at(7)).0]
    {
        let over = head(over);
        let again = begin(Some(&over), &Begin { again: Again::Always, ..ask("three") }, at(8)).0;
        assert_eq!(aside(again), Aside::Leave, "what never was done takes no place of it");
    }
}

#[test]
fn a_run_is_held_and_handed_back() {
    let is = running();
    let (written, told) = hold(Some(&is), "one", 60, at(50));
    assert_eq!((head(written).lease_until, told), (at(110), Ok(at(110))));
    let (written, told) = hold(Some(&is), "one", 0, at(50));
    assert_eq!(told, Ok(at(50)));
    let (written, _) = begin(Some(&head(written)), &ask("two"), at(50));
    assert!(!written.unwrap().anew, "the next one goes on with it at once");
    assert_eq!(hold(Some(&is), "two", 60, at(50)).1, Err(Lost::Taken { by: "one".to_owned() }));
    assert_eq!(hold(None, "two", 60, at(50)), (None, Err(Lost::Missing)));
}

/// Made by a clock that was ahead: it stands until its day comes, and is then made anew.
#[test]
fn one_of_before_its_own_day_is_made_anew_when_that_comes() {
    let is = running();
    let done = head(end(Some(&is), "one", &End::Done(vec![9]), at(5)).0);
    let on_its_day = |again| Begin { since: at(100), again, ..ask("two") };
    let told = || Begun::Done { finished: at(5) };
    assert_eq!(begin(Some(&done), &on_its_day(Again::Unfinished), at(99)), (None, told()));
    assert_eq!(begin(Some(&done), &on_its_day(Again::Never), at(100)), (None, told()));
    let (written, _) = begin(Some(&done), &on_its_day(Again::Unfinished), at(100));
    let written = written.expect("anew");
    assert!(written.anew && written.aside == Aside::Put && written.head.started == at(100));
    assert_eq!(
        begin(Some(&ReportHead { started: at(100), ..done }), &on_its_day(Again::Unfinished), at(101)).0,
        None
    );
    let (written, _) = begin(Some(&is), &on_its_day(Again::Never), at(100));
    assert!(written.expect("taken over").anew, "nothing of it is gone on with");
}

#[test]
fn one_that_was_begun_later_than_it_is_now_is_disowned() {
    let done = head(end(Some(&running()), "one", &End::Done(vec![9]), at(5)).0);
    assert_eq!(disown(None, "ahead", at(-61)), (None, false));
    assert_eq!(disown(Some(&done), "ahead", at(-60)), (None, false), "clocks of two servers differ");
    let (written, was) = disown(Some(&done), "ahead", at(-61));
    let written = written.unwrap();
    assert!(was && written.anew && written.aside == Aside::Drop && written.body.is_empty());
    let is = written.head;
    assert_eq!((is.state, is.started, is.finished), (ReportState::Failed, at(-61), Some(at(-61))));
    assert_eq!((is.day, is.note.as_str()), (7, "ahead"));
}

#[test]
fn a_step_renews_the_lease() {
    let is = running();
    let (written, told) = step(Some(&is), &part("one"), at(59));
    assert_eq!(told, Ok(at(119)));
    let written = written.unwrap();
    assert_eq!((written.head.done, written.head.of, written.head.lease_until), (3, 9, at(119)));
    let kept = written.part.unwrap();
    assert_eq!((kept.code.as_str(), kept.at, kept.body), ("KELP", at(59), vec![1]));
    // as long as nobody has taken its place, it goes on though its lease is over
    assert_eq!(step(Some(&is), &part("one"), at(500)).1, Ok(at(560)));
    // a clock that was put back makes nothing of it
    assert_eq!(step(Some(&is), &part("one"), at(-500)).1, Ok(at(-440)));
    assert_eq!(step(Some(&is), &Step { lease_seconds: -5, ..part("one") }, at(9)).1, Ok(at(10)));
}

#[test]
fn whoever_lost_it_is_told() {
    let taken = head(begin(Some(&running()), &ask("two"), at(60)).0);
    let by = || Lost::Taken { by: "two".to_owned() };
    assert_eq!(step(Some(&taken), &part("one"), at(61)), (None, Err(by())));
    assert_eq!(end(Some(&taken), "one", &End::Done(vec![1]), at(61)), (None, Err(by())));
    assert_eq!(end(Some(&taken), "one", &End::Failed("x".to_owned()), at(61)), (None, Err(by())));
    assert_eq!(step(None, &part("one"), at(61)), (None, Err(Lost::Missing)));
    assert_eq!(end(None, "one", &End::Done(vec![]), at(61)), (None, Err(Lost::Missing)));
    let (written, was) = cancel(Some(&taken), "ada", at(70));
    assert_eq!(was, Some(ReportState::Running));
    let off = head(written);
    assert_eq!((off.note.as_str(), off.finished), ("ada", Some(at(70))));
    assert_eq!(step(Some(&off), &part("two"), at(71)).1, Err(Lost::Ended(ReportState::Cancelled)));
    let done = end(Some(&off), "two", &End::Done(vec![1]), at(71));
    assert_eq!(done, (None, Err(Lost::Ended(ReportState::Cancelled))));
    assert_eq!(cancel(Some(&off), "bo", at(72)), (None, Some(ReportState::Cancelled)));
    assert_eq!(cancel(None, "bo", at(72)), (None, None));
}

#[test]
fn what_has_ended_is_begun_anew_only_where_that_is_asked() {
    let is = running();
    let done = head(end(Some(&is), "one", &End::Done(vec![9]), at(5)).0);
    let failed = head(end(Some(&is), "one", &End::Failed("no zone".to_owned()), at(5)).0);
    let off = head(cancel(Some(&is), "ada", at(5)).0);
    let told = [
        (&done, Begun::Done { finished: at(5) }),
        (&failed, Begun::Failed { note: "no zone".to_owned() }),
        (&off, Begun::Cancelled { note: "ada".to_owned() }),
    ];
    for (row, told) in told {
        // not even its own runner, nor long after
        assert_eq!(begin(Some(row), &ask("one"), at(6)), (None, told.clone()));
        assert_eq!(begin(Some(row), &ask("two"), at(9_999)), (None, told));
        let (written, told) = begin(Some(row), &Begin { again: Again::Always, ..ask("two") }, at(6));
        assert_eq!(told, Begun::Mine { parts: vec![] });
        let written = written.unwrap();
        assert!(written.anew && written.body.is_empty());
        let is = written.head;
        assert_eq!((is.state, is.started, is.finished), (ReportState::Running, at(6), None));
        assert_eq!((is.done, is.of, is.note.as_str()), (0, 0, ""));
    }
    // an end that is told twice is one end
    assert_eq!(end(Some(&done), "one", &End::Done(vec![9]), at(8)), (None, Ok(())));
    assert_eq!(end(Some(&failed), "one", &End::Failed("x".to_owned()), at(8)), (None, Ok(())));
    let other = end(Some(&done), "one", &End::Failed("x".to_owned()), at(8));
    assert_eq!(other, (None, Err(Lost::Ended(ReportState::Done))));
    assert_eq!(end(Some(&done), "two", &End::Done(vec![]), at(8)).1, Err(Lost::Ended(ReportState::Done)));
}

#[test]
fn states_and_losses_in_words() {
    for state in ReportState::ALL {
        assert_eq!(ReportState::read(state.as_str()), Some(state));
    }
    assert_eq!(ReportState::read("resting"), None);
    assert_eq!(
        Lost::Taken { by: "two".to_owned() }.to_string(),
        "the report is run by two now, since the lease was over: stop, and leave it to them"
    );
    assert_eq!(
        Lost::Ended(ReportState::Cancelled).to_string(),
        "the report is cancelled already: stop; begin it anew where it is wanted again"
    );
    assert_eq!(Lost::Missing.to_string(), "there is no run of that day: begin it first");
}
