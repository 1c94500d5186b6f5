//! The nearest ways to keep a wanted day that the order as it stands would miss.
//!
//! Three are looked at, each by itself: being made before all that is promised already,
//! where the shop offers that at a surcharge; fewer pennants on the same length, as few
//! fewer as will do; a plainer construction that the design can be had in, the most
//! elaborate that will do. Each is worked out as an order of its own, so its price is one
//! that the shop would ask.

use pennantry_measure::{BenchTime, Money, Percent, Rounding};

use crate::dates;
use crate::order::{AskedLength, ColourRule, Leftover, Order};
use crate::quote::{When, Worked, work};
use crate::shop::{Construction, Day, Service, Shop};

/// One way to keep a wanted day.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Way {
    /// What is changed.
    pub kind: WayKind,
    /// Pennants of each string.
    pub count: u32,
    /// Construction.
    pub construction: Construction,
    /// Day it would leave.
    pub leaves: Day,
    /// Last day on which it may arrive.
    pub arrives_to: Day,
    /// What the goods would cost, tax included.
    pub total: Money,
}

/// What is changed to keep a wanted day.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum WayKind {
    /// Made before all that is promised already.
    Rush,
    /// Fewer pennants.
    FewerPennants,
    /// A plainer construction.
    Plainer,
}

/// Counts of pennants tried at the most, beyond those that halving needs.
const MOST_TRIES: u32 = 16;

/// The ways to keep `wanted` that there are.
pub fn ways(
    shop: &Shop,
    order: &Order,
    worked: &Worked,
    service: &Service,
    when: When,
    wanted: Day,
) -> Vec<Way> {
    let calendar = &shop.calendar;
    let mut found = Vec::new();
    if let Some(surcharge) = calendar.rush
        && let Ok(days) =
            dates::dates_before_all(calendar, Some(service), worked.labour.total, when, Some(wanted))
        && let (Some(true), Some((_, arrives_to))) = (days.kept, days.arrives)
    {
        found.push(Way {
            kind: WayKind::Rush,
            count: worked.layout.count,
            construction: order.construction,
            leaves: days.leaves,
            arrives_to,
            total: with_surcharge(worked.price.total, surcharge),
        });
    }
    let most = dates::most_time_by(calendar, Some(service), when, wanted);
    if most <= BenchTime::ZERO {
        return found;
    }
    let kept = |order: &Order, kind| {
        let worked = work(shop, order).ok().filter(|worked| worked.labour.total <= most)?;
        let days = dates::dates(calendar, Some(service), worked.labour.total, when, Some(wanted)).ok()?;
        let (Some(true), Some((_, arrives_to))) = (days.kept, days.arrives) else { return None };
        Some(Way {
            kind,
            count: worked.layout.count,
            construction: order.construction,
            leaves: days.leaves,
            arrives_to,
            total: worked.price.total,
        })
    };
    found.extend(fewer(order, worked.layout.count, |order| kept(order, WayKind::FewerPennants)));
    found.extend(plainer(shop, order, worked.labour.total, |order| kept(order, WayKind::Plainer)));
    found
}

/// A price with a surcharge on it, half up.
fn with_surcharge(total: Money, surcharge: Percent) -> Money {
    let whole = i128::from(Percent::WHOLE.milli());
    total.scaled(whole + i128::from(surcharge.milli()), whole, Rounding::HalfUp)
}

/// The most pennants below `count` that will do, by halving: less work never takes longer.
/// A lettering keeps its letters, a listed colour order its list.
fn fewer(order: &Order, count: u32, kept: impl Fn(&Order) -> Option<Way>) -> Option<Way> {
    let least = u32::try_from(order.letters.len()).unwrap_or(u32::MAX).max(1);
    let listed = order.rule == ColourRule::Listed;
    let with = |count| {
        let gaps = matches!(order.length, Some(AskedLength::Flagged(_) | AskedLength::Hang(_)));
        Order {
            count: Some(count),
            gap_given: false,
            max_gap: None,
            leftover: if gaps { Leftover::Gaps } else { order.leftover },
            ..order.clone()
        }
    };
    let step = if order.parity.is_some() { 2 } else { 1 };
    if listed || count <= least {
        return None;
    }
    // in steps down from the count: `low` will do or is nought, `high` will not
    let (mut low, mut high) = (None, 0);
    let steps = (count - least) / step;
    let mut width = 1;
    let mut tries = 0;
    while low.is_none() && high < steps && tries < 2 * MOST_TRIES {
        let down = (high + width).min(steps);
        match kept(&with(count - down * step)) {
            Some(way) => low = Some((down, way)),
            None => high = down,
        }
        width *= 2;
        tries += 1;
    }
    let (mut down, mut best) = low?;
    while down - high > 1 && tries < 4 * MOST_TRIES {
        let middle = u32::midpoint(down, high);
        match kept(&with(count - middle * step)) {
            Some(way) => (down, best) = (middle, way),
            None => high = middle,
        }
        tries += 1;
    }
    Some(best)
}

/// The construction that takes longest of those of the design that will do.
fn plainer(shop: &Shop, order: &Order, now: BenchTime, kept: impl Fn(&Order) -> Option<Way>) -> Option<Way> {
    let design = shop.designs.get(order.design)?;
    let mut others: Vec<(BenchTime, Order)> = design
        .constructions
        .iter()
        .filter(|other| **other != order.construction)
        .filter(|other| order.backing.is_none() || other.layers() > 1)
        .filter_map(|other| {
            let order = Order { construction: *other, ..order.clone() };
            let time = work(shop, &order).ok()?.labour.total;
            Some((time, order))
        })
        .filter(|(time, _)| *time < now)
        .collect();
    others.sort_by_key(|(time, _)| std::cmp::Reverse(*time));
    others.iter().find_map(|(_, order)| kept(order))
}
