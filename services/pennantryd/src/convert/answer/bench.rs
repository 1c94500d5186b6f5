//! Bench time and the calendar.

use pennantry_calc::dates::Dates;
use pennantry_calc::labour::Labour;
use pennantry_calc::order::{Order, construction_name};
use pennantry_calc::shop::{Allowance, Driver, Shop};
use pennantry_calc::ways::{Way, WayKind};
use pennantry_contract::v1;
use pennantry_measure::{BenchTime, Percent};

use super::{mm, money, number, percent, words};

/// Minutes to the thousandth, exactly.
pub(super) fn minutes(time: BenchTime) -> f64 {
    number(time.milli_minutes()) / 1000.0
}

pub(super) fn labour(shop: &Shop, labour: &Labour) -> v1::Labour {
    let operations = labour.operations.iter().filter_map(|done| {
        let operation = shop.bench.operations.get(done.operation)?;
        let count = number(done.count);
        Some(v1::Operation {
            code: operation.code.clone(),
            minutes: minutes(done.time),
            name: operation.name.clone(),
            driver: words::driver(operation.driver).into(),
            count: if operation.driver == Driver::Metre { count / 1_000_000.0 } else { count },
        })
    });
    let (basis, share): (_, Percent) = match shop.bench.allowance {
        Allowance::OfWork(share) => (v1::AllowanceBasis::Work, share),
        Allowance::OfShift(share) => (v1::AllowanceBasis::Shift, share),
    };
    v1::Labour {
        minutes: minutes(labour.total),
        operations: operations.collect(),
        allowance: Some(v1::Allowance {
            basis: basis.into(),
            percent: percent(share),
            minutes: minutes(labour.allowance),
        }),
        set_up_minutes_per_string: minutes(labour.set_up_per_string),
        set_up_minutes_per_metre: minutes(labour.set_up_per_metre),
    }
}

pub(super) fn dates(shop: &Shop, order: &Order, dates: &Dates, ways: &[Way]) -> v1::Dates {
    v1::Dates {
        leave_date: dates.leaves.to_string(),
        arrive_from: dates.arrives.map(|(from, _)| from.to_string()),
        arrive_to: dates.arrives.map(|(_, to)| to.to_string()),
        wanted_kept: dates.kept,
        order_by_date: dates.order_by.map(|day| day.to_string()),
        begin_date: dates.first.to_string(),
        done_date: dates.done.to_string(),
        estimated: dates.estimated,
        order_by_estimated: dates.order_by_estimated,
        ways: ways.iter().map(|way| way_to_keep(shop, order, way)).collect(),
    }
}

fn way_to_keep(shop: &Shop, order: &Order, way: &Way) -> v1::WayToKeep {
    let by = format!("leaves on {}, arrives by {}", way.leaves, way.arrives_to);
    let text = match way.kind {
        WayKind::OtherService => {
            let name = shop.services.get(way.service).map_or("", |service| service.name.as_str());
            format!("sent by \"{name}\": {by}")
        }
        WayKind::Rush => {
            let share = shop.calendar.rush.unwrap_or_default();
            format!("made before all that is promised already, at {share} more on the goods: {by}")
        }
        WayKind::FewerPennants if order.length.is_some() => {
            format!("{} pennants on the same length, {} apart: {by}", way.count, way.gap)
        }
        WayKind::FewerPennants => format!("a shorter string of {} pennants: {by}", way.count),
        WayKind::Plainer => format!("made {}: {by}", construction_name(way.construction)),
    };
    v1::WayToKeep {
        kind: words::way_kind(way.kind).into(),
        text,
        pennant_count: way.count,
        construction: words::write_construction(way.construction).into(),
        leave_date: way.leaves.to_string(),
        arrive_to: way.arrives_to.to_string(),
        total: Some(money(shop, way.total)),
        gap_mm: mm(way.gap),
        tail_mm: mm(way.tail),
        service_code: shop.services.get(way.service).map_or_else(String::new, |service| service.code.clone()),
    }
}
