//! The nearest ways to keep a wanted day that the order as it stands would miss.
//!
//! Four are looked at, each by itself: another postal service that goes there; being made
//! before all that is promised already, where the shop offers that at a surcharge; fewer
//! pennants, as few fewer as will do; a plainer construction that the design can be had in,
//! the most elaborate that will do. Each is an order of its own, worked out as if it were
//! asked: what was understood, with that one field changed, gives the same price and the
//! same days.
//!
//! **Fewer pennants.** With `n` pennants the order takes `t`, and `m` may be taken. What an
//! order takes is a share for each pennant and something besides, so `n m / t` is a count
//! that certainly all keep within when it is exceeded; from there each count that takes
//! `t'` too long steps down by `n (t' − m) / t`, at least by one, which passes over none
//! that would do. Where the work is not quite even, as joins in the binding are not, a
//! count in between may be missed. A string with less than half its pennants is another
//! string and is not offered.

use pennantry_measure::{BenchTime, Length, Money, Rounding, divide};

use crate::dates;
use crate::order::{ColourRule, Leftover, Order};
use crate::quote::{self, When, Worked, work};
use crate::shop::{Construction, Day, Service, Shop};

#[cfg(test)]
mod tests;

/// One way to keep a wanted day.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Way {
    /// What is changed.
    pub kind: WayKind,
    /// Pennants of each string.
    pub count: u32,
    /// Their gap, at the top edge.
    pub gap: Length,
    /// The tail.
    pub tail: Length,
    /// Construction.
    pub construction: Construction,
    /// Place of the postal service.
    pub service: usize,
    /// Day it would leave.
    pub leaves: Day,
    /// Last day on which it may arrive.
    pub arrives_to: Day,
    /// What it would cost, tax and delivery in it.
    pub total: Money,
}

/// What is changed to keep a wanted day.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum WayKind {
    /// Another postal service.
    OtherService,
    /// Made before all that is promised already.
    Rush,
    /// Fewer pennants.
    FewerPennants,
    /// A plainer construction.
    Plainer,
}

/// Counts of pennants tried at the most.
const MOST_TRIES: u32 = 64;

/// An order that misses its wanted day.
struct Missed<'a> {
    shop: &'a Shop,
    order: &'a Order,
    worked: &'a Worked,
    /// Place of the service that takes it.
    service: usize,
    carrier: &'a Service,
    when: When,
    /// The most bench time that would keep the day.
    most: BenchTime,
}

/// The ways to keep `wanted` that there are; none where no service takes the parcel.
pub fn ways(shop: &Shop, order: &Order, worked: &Worked, when: When, wanted: Day) -> Vec<Way> {
    let Ok(parcel) = &worked.parcel else { return Vec::new() };
    let Some(carrier) = shop.services.get(parcel.service) else { return Vec::new() };
    let most_time = if order.rush { dates::most_time_before_all } else { dates::most_time_by };
    let most = most_time(&shop.calendar, Some(carrier), when, wanted);
    let missed = Missed { shop, order, worked, service: parcel.service, carrier, when, most };
    let ways = [missed.other_service(), missed.rush(), missed.fewer(), missed.plainer()];
    ways.into_iter().flatten().collect()
}

impl Missed<'_> {
    /// The first other service, in the shop's order, that takes the parcel and keeps the day.
    fn other_service(&self) -> Option<Way> {
        let shop = self.shop;
        (0..shop.services.len()).filter(|place| *place != self.service).find_map(|place| {
            let carrier = shop.services.get(place)?;
            if !carrier.countries.contains(&self.order.country) {
                return None;
            }
            let order = Order { service: Some(place), ..self.order.clone() };
            self.would_keep(&order, carrier)?;
            self.worked(WayKind::OtherService, &order)
        })
    }

    fn rush(&self) -> Option<Way> {
        if self.order.rush || self.shop.calendar.rush.is_none() {
            return None;
        }
        let order = Order { rush: true, ..self.order.clone() };
        self.would_keep(&order, self.carrier)?;
        self.worked(WayKind::Rush, &order)
    }

    /// Nothing where an order of as much bench time would certainly not keep the day.
    fn would_keep(&self, order: &Order, carrier: &Service) -> Option<()> {
        let days = quote::days(self.shop, order, Some(carrier), self.worked.labour.total, self.when);
        days.is_ok_and(|days| days.kept == Some(true)).then_some(())
    }

    /// The way that an order of its own is, worked out.
    fn worked(&self, kind: WayKind, order: &Order) -> Option<Way> {
        kept(kind, order, &work(self.shop, order, self.when).ok()?)
    }

    fn fewer(&self) -> Option<Way> {
        let (count, time) = (self.worked.layout.count, self.worked.labour.total.milli_minutes());
        // a listed colour order has one entry for each pennant
        if self.order.rule == ColourRule::Listed || self.most <= BenchTime::ZERO || time <= 0 {
            return None;
        }
        let letters = u32::try_from(self.order.letters.len()).unwrap_or(u32::MAX);
        let least = letters.max(count.div_ceil(2)).max(1);
        let pennants_of = |milli: i64| {
            let pennants = divide(i128::from(milli) * i128::from(count), i128::from(time), Rounding::Down);
            u32::try_from(pennants.max(0)).unwrap_or(u32::MAX)
        };
        let mut next = pennants_of(self.most.milli_minutes()).min(count.checked_sub(1)?);
        for _ in 0..MOST_TRIES {
            if next < least {
                return None;
            }
            let holds = self.order.parity.is_none_or(|parity| parity.holds(next));
            let order = self.with(next);
            let worked = if holds { work(self.shop, &order, self.when).ok() } else { None };
            let over =
                worked.as_ref().map_or(0, |w| w.labour.total.milli_minutes() - self.most.milli_minutes());
            if let Some(worked) = &worked
                && let Some(way) = kept(WayKind::FewerPennants, &order, worked)
            {
                return Some(way);
            }
            next = next.checked_sub(pennants_of(over).max(1))?;
        }
        None
    }

    /// What was understood, with a count of pennants beside it: what goes to the tails keeps
    /// its gap.
    fn with(&self, count: u32) -> Order {
        let gap_given = self.order.leftover == Leftover::Tails;
        Order { count: Some(count), gap_given, ..self.order.clone() }
    }

    fn plainer(&self) -> Option<Way> {
        let design = self.shop.designs.get(self.order.design)?;
        let mut others: Vec<(Order, Worked)> = design
            .constructions
            .iter()
            .filter(|other| **other != self.order.construction)
            .filter(|other| self.order.backing.is_none() || other.layers() > 1)
            .filter_map(|other| {
                let order = Order { construction: *other, ..self.order.clone() };
                let worked = work(self.shop, &order, self.when).ok()?;
                (worked.labour.total < self.worked.labour.total).then_some((order, worked))
            })
            .collect();
        others.sort_by_key(|(_, worked)| std::cmp::Reverse(worked.labour.total));
        others.iter().find_map(|(order, worked)| kept(WayKind::Plainer, order, worked))
    }
}

/// The way that an order of its own is, where it keeps the day.
fn kept(kind: WayKind, order: &Order, worked: &Worked) -> Option<Way> {
    let days = worked.dates.as_ref().ok().filter(|days| days.kept == Some(true))?;
    let (_, arrives_to) = days.arrives?;
    Some(Way {
        kind,
        count: worked.layout.count,
        gap: worked.layout.gap,
        tail: worked.layout.tail,
        construction: order.construction,
        service: worked.parcel.as_ref().ok()?.service,
        leaves: days.leaves,
        arrives_to,
        total: worked.price.total,
    })
}
