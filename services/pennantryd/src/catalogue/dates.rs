//! When the bench works: the calendar, the people and what is promised already.

use pennantry_calc::shop::{Booked, Calendar, Day, Person};
use pennantry_measure::{BenchTime, Percent};

use super::field::within;
use super::node::{Table, key};

/// What the section `[calendar]` says.
pub(super) struct Days {
    closed: Vec<Day>,
    known_to: Day,
    cut_off: u32,
    rest: u32,
    rush: Option<Percent>,
}

pub(super) fn calendar(table: &mut Table<'_, '_, '_>) -> Option<Days> {
    let cut_off = table.time_of_day(key("cut_off", "when an order counts from the next working day"));
    let known_to = table.day(key("known_to", "the last day for which the days off are known"));
    let closed = table.days(key("closed", "days on which nobody works"));
    let rest = table.count(key("rest_days", "working days of rest before the post"), within(0, 60));
    let rush = key("rush_percent", "what it costs to be made before everything else");
    let rush = table.maybe(rush, |table, key| table.percent(key, within(0, 1_000)));
    Some(Days { closed: closed?, known_to: known_to?, cut_off: cut_off?, rest: rest?, rush: rush? })
}

pub(super) fn person(table: &mut Table<'_, '_, '_>) -> Option<Person> {
    let name = table.words(key("name", "who it is"));
    let week = table.week(key("week_minutes", "bench time of each day of the week"), within(0, 1_440));
    let off = table.or(key("off", "this person's days off"), Vec::new(), Table::days);
    Some(Person { name: name?, week: week?, off: off? })
}

/// Notes that nobody works on any day of the week.
pub(super) fn somebody_works(root: &mut Table<'_, '_, '_>, people: &[Option<Person>]) {
    let idle = |person: &Option<Person>| {
        person.as_ref().is_some_and(|person| person.week.iter().all(|time| *time == BenchTime::ZERO))
    };
    if !people.is_empty()
        && people.iter().all(idle)
        && let Some(node) = root.optional("people")
    {
        let fault = "nobody works on any day: write minutes for at least one day of one week_minutes";
        root.note(&node, fault.to_owned());
    }
}

pub(super) fn booked(table: &mut Table<'_, '_, '_>) -> Option<Booked> {
    let day = table.day(key("day", "the day from which it is worked"));
    let time = table.minutes(key("minutes", "bench time promised already"), within(0, 100_000));
    Some(Booked { day: day?, time: time? })
}

/// All of it, days in order.
pub(super) fn together(days: Days, people: Vec<Person>, mut load: Vec<Booked>) -> Calendar {
    load.sort_by_key(|booked| booked.day);
    Calendar {
        people,
        closed: days.closed,
        known_to: days.known_to,
        cut_off: days.cut_off,
        rest_days: days.rest,
        load,
        rush: days.rush,
    }
}
