use proptest::prelude::*;

use super::*;

/// A shop, a service and an order, of days about `TUESDAY`.
#[derive(Debug, Clone)]
struct Case {
    calendar: Calendar,
    service: Service,
    time: BenchTime,
    when: When,
    wanted: Day,
}

impl Case {
    fn of(&self, time: BenchTime, when: When) -> Result<Dates, NoDay> {
        dates(&self.calendar, Some(&self.service), time, when, Some(self.wanted))
    }

    fn found(&self) -> Option<Dates> {
        self.of(self.time, self.when).ok()
    }

    /// Whether an order of that time, made then, keeps the wanted day.
    fn keeps(&self, time: BenchTime, when: When) -> bool {
        self.of(time, when).is_ok_and(|found| found.kept == Some(true))
    }
}

fn days(most: usize) -> impl Strategy<Value = Vec<Day>> {
    prop::collection::btree_set(0_i32..40, 0..most)
        .prop_map(|days| days.into_iter().map(|day| TUESDAY + day).collect())
}

fn thousandths(most: i64) -> impl Strategy<Value = BenchTime> {
    // whole hundreds now and then, so that orders end with the day
    prop_oneof![0..=most, (0..=most / 100).prop_map(|h| h * 100)].prop_map(BenchTime::from_milli_minutes)
}

fn people() -> impl Strategy<Value = Vec<Person>> {
    let time = prop_oneof![Just(0), Just(300), Just(300), 1_i64..=400];
    let week = prop::array::uniform7(time.prop_map(BenchTime::from_milli_minutes));
    let each = (week, days(6)).prop_map(|(week, off)| Person { name: String::from("Ada"), week, off });
    prop::collection::vec(each, 1..3)
}

fn load() -> impl Strategy<Value = Vec<Booked>> {
    let each = (-5_i32..30, thousandths(600));
    prop::collection::vec(each, 0..12).prop_map(|mut all| {
        all.sort();
        all.into_iter().map(|(day, time)| Booked { day: TUESDAY + day, time }).collect()
    })
}

fn cases() -> impl Strategy<Value = Case> {
    let shop = (people(), days(8), load(), 0_u32..4);
    let carrier = (prop::array::uniform7(prop::bool::weighted(0.8)), days(8), (0_u32..4, 0_u32..4));
    let order = (thousandths(1_500), 0_i32..12, any::<bool>(), -3_i32..45);
    (shop, carrier, order).prop_map(|(shop, carrier, order)| {
        let (people, closed, load, rest_days) = shop;
        let calendar = Calendar { people, closed, rest_days, load, ..calendar() };
        let service = Service { week: carrier.0, closed: carrier.1, ..service(carrier.2.0, carrier.2.1) };
        let (time, today, late, wanted) = order;
        let when = When { today: TUESDAY + today, late };
        Case { calendar, service, time, when, wanted: TUESDAY + wanted }
    })
}

/// The same days by another way: a list of the free thousandths of each day, filled in
/// turn with every load and then with the order, and lists of days that are walked.
fn by_hand(case: &Case) -> Option<(Day, Day, Day, (Day, Day))> {
    let Case { calendar, service, when, .. } = case;
    // from the first load on, where that is before today
    let before = calendar.load.first().map_or(0, |first| (when.today.0 - first.day.0).max(0));
    let all: Vec<Day> = (-before..1_100).map(|day| when.today + day).collect();
    let today = usize::try_from(before).expect("small");
    let of = |day: &Day| -> i64 {
        let person = |person: &Person| {
            let off = person.off.contains(day) || calendar.closed.contains(day);
            if off { 0 } else { person.week[day.weekday()].milli_minutes() }
        };
        calendar.people.iter().map(person).sum()
    };
    let mut free: Vec<i64> = all.iter().map(of).collect();
    let working: Vec<usize> = (0..all.len()).filter(|at| free[*at] > 0).collect();
    // fills days from `from` on and gives the last that it took of
    let mut fill = |from: usize, time: i64| {
        let (mut left, mut last) = (time, None);
        for (at, free) in free.iter_mut().enumerate().skip(from) {
            let taken = left.min(*free);
            *free -= taken;
            left -= taken;
            if taken > 0 {
                last = Some(at);
            }
        }
        (left, last)
    };
    for booked in &calendar.load {
        let from = usize::try_from(booked.day.0 - all[0].0).expect("no load is earlier");
        fill(from, booked.time.milli_minutes());
    }
    let first = *working.iter().find(|at| **at >= today && !(when.late && **at == today))?;
    let done = match fill(first, case.time.milli_minutes()) {
        (0, last) => last.unwrap_or(first),
        _ => return None,
    };
    let rest = usize::try_from(calendar.rest_days).expect("small");
    let leaves = *working.iter().filter(|at| **at >= done).nth(rest)?;
    let carried = all[leaves..].iter().filter(|day| service.week[day.weekday()]);
    let carried: Vec<Day> = carried.filter(|day| !service.closed.contains(day)).copied().collect();
    let transit = [service.transit.0, service.transit.1].map(|days| usize::try_from(days).expect("small"));
    let arrives = (*carried.get(transit[0].min(transit[1]))?, *carried.get(transit[0].max(transit[1]))?);
    Some((all[first], all[done], all[leaves], arrives))
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(1_000))]

    #[test]
    fn the_days_are_those_filled_in_by_hand(case in cases()) {
        let got = case.found().map(|d| (d.first, d.done, d.leaves, d.arrives.unwrap_or((d.leaves, d.leaves))));
        prop_assert_eq!(got, by_hand(&case));
    }

    #[test]
    fn days_come_in_their_order_and_the_same_again(case in cases()) {
        let Some(found) = case.found() else { return Ok(()) };
        let (from, to) = found.arrives.unwrap_or((found.leaves, found.leaves));
        let order = [case.when.today, found.first, found.done, found.leaves, from, to];
        prop_assert!(order.is_sorted(), "{order:?}");
        prop_assert_eq!(found.kept, Some(to <= case.wanted));
        prop_assert_eq!(case.found(), Some(found));
        prop_assert!(found.steps > 0 && found.steps <= 8 * u64::from(HORIZON));
    }

    #[test]
    fn more_load_is_never_earlier(case in cases(), more in (-5_i32..30, 1_i64..600)) {
        let Some(found) = case.found() else { return Ok(()) };
        let mut fuller = case.clone();
        let extra = Booked { day: TUESDAY + more.0, time: BenchTime::from_milli_minutes(more.1) };
        fuller.calendar.load.push(extra);
        fuller.calendar.load.sort_by_key(|booked| booked.day);
        let Some(then) = fuller.found() else { return Ok(()) };
        prop_assert!(then.first == found.first && then.done >= found.done && then.leaves >= found.leaves);
        prop_assert!(then.arrives >= found.arrives && then.order_by <= found.order_by);
        let most = |case: &Case| most_time_by(&case.calendar, Some(&case.service), case.when, case.wanted);
        prop_assert!(most(&fuller) <= most(&case));
    }

    #[test]
    fn more_time_is_never_earlier(case in cases(), more in 1_i64..900) {
        let Some(found) = case.found() else { return Ok(()) };
        let Ok(then) = case.of(case.time + BenchTime::from_milli_minutes(more), case.when) else { return Ok(()) };
        prop_assert!(then.first == found.first && then.done >= found.done && then.leaves >= found.leaves);
        prop_assert!(then.arrives >= found.arrives && then.order_by <= found.order_by);
    }

    #[test]
    fn later_is_never_earlier_done(case in cases(), by in 1_i32..9) {
        let Some(found) = case.found() else { return Ok(()) };
        let after = [late(case.when.today), on(case.when.today + by), late(case.when.today + by)];
        for when in after.into_iter().flat_map(|when| case.of(case.time, when)) {
            prop_assert!(when.first >= found.first && when.done >= found.done);
            prop_assert!(when.leaves >= found.leaves && when.arrives >= found.arrives);
        }
    }

    #[test]
    fn the_last_day_to_order_keeps_the_wanted_day_and_the_next_does_not(case in cases()) {
        let Some(found) = case.found() else { return Ok(()) };
        let today = case.when.today;
        let keeps = |day: Day| case.keeps(case.time, if day == today { case.when } else { on(day) });
        prop_assert_eq!(found.order_by.is_some(), found.kept == Some(true));
        // every day there is, one by one
        let last = (today.0..=case.wanted.0.max(today.0)).map(Day).rfind(|day| keeps(*day));
        prop_assert_eq!(found.order_by, last);
    }

    #[test]
    fn the_most_time_keeps_the_wanted_day_and_more_does_not(case in cases()) {
        let most = most_time_by(&case.calendar, Some(&case.service), case.when, case.wanted);
        prop_assert!(!case.keeps(most + BenchTime::from_milli_minutes(1), case.when));
        let any = case.keeps(BenchTime::ZERO, case.when);
        prop_assert_eq!(case.keeps(most, case.when), any);
        prop_assert_eq!(case.keeps(case.time, case.when), any && case.time <= most);
    }

    #[test]
    fn without_a_service_the_most_time_leaves_by_that_day(case in cases()) {
        let most = most_time_by(&case.calendar, None, case.when, case.wanted);
        let leaves = |time| dates(&case.calendar, None, time, case.when, None).map(|found| found.leaves);
        let in_time = |time| leaves(time).is_ok_and(|day| day <= case.wanted);
        prop_assert!(!in_time(most + BenchTime::from_milli_minutes(1)));
        prop_assert_eq!(in_time(most), in_time(BenchTime::ZERO));
    }

    #[test]
    fn a_rushed_order_is_one_at_an_empty_bench(case in cases()) {
        let (service, wanted) = (Some(&case.service), Some(case.wanted));
        let rushed = dates_before_all(&case.calendar, service, case.time, case.when, wanted);
        let most = most_time_before_all(&case.calendar, service, case.when, case.wanted);
        let mut empty = case.clone();
        empty.calendar.load.clear();
        prop_assert_eq!(rushed, empty.of(case.time, case.when));
        prop_assert_eq!(most, most_time_by(&empty.calendar, service, case.when, case.wanted));
        if let (Ok(rushed), Some(found)) = (rushed, case.found()) {
            prop_assert!(rushed.done <= found.done && rushed.order_by >= found.order_by);
        }
    }
}
