//! Which count, and where the rest goes: in closed form, a few settings weighed and
//! never a scan.

use pennantry_measure::{Rounding, bounds, divide};

use super::formulas::fit;
use super::frame::{Frame, Rule, Setting};
use super::refuse::not_of_parity;
use crate::order::{AskedLength, Leftover, Order, Parity, Violation};

/// A search, which counts the settings that it works out.
pub(super) struct Search<'a> {
    frame: &'a Frame<'a>,
    pub steps: u64,
}

impl<'a> Search<'a> {
    pub fn new(frame: &'a Frame<'a>) -> Search<'a> {
        Search { frame, steps: 0 }
    }

    /// The setting that answers the order.
    ///
    /// # Errors
    /// See [`solve`](super::solve).
    pub fn choose(&mut self) -> Result<Setting, Vec<Violation>> {
        let order = self.frame.order;
        let mut found = Vec::new();
        if let (Some(count), Some(parity)) = (order.count, order.parity)
            && !parity.holds(count)
        {
            found.push(not_of_parity(count, parity));
        }
        let chosen = match (self.frame.room(), order.length, order.count) {
            (Some(room), Some(length), Some(count)) => self.fill(room, length, count),
            (Some(room), Some(length), None) => self.most_that_fit(room, length),
            (_, _, count) => self.run_on(count.unwrap_or_else(|| lettered(order))),
        };
        let chosen = chosen.and_then(|setting| match self.frame.too_many_pieces(setting.count) {
            Some(violation) => Err(violation),
            None => Ok(setting),
        });
        match chosen {
            Ok(setting) if found.is_empty() => Ok(setting),
            other => {
                found.extend(other.err());
                found.extend(order.count.and_then(|count| self.frame.unlettered(count)));
                found.sort_by_key(|violation| violation.field);
                Err(found)
            }
        }
    }

    /// One pennant fewer and one more, those that can be had.
    pub fn alternatives(&mut self, setting: Setting) -> Vec<Setting> {
        let others = [setting.count.checked_sub(1), setting.count.checked_add(1)];
        others.into_iter().flatten().filter_map(|count| self.other(count, setting.rule)).collect()
    }

    /// A count and no length: it runs on at the gap, between the least tails.
    fn run_on(&mut self, count: u32) -> Result<Setting, Violation> {
        let setting = self.running(count);
        match self.frame.unmade(setting) {
            Some(violation) => Err(violation),
            None => Ok(setting),
        }
    }

    /// A length and no count: the most that fit, or those whose gap comes nearest.
    fn most_that_fit(&mut self, room: i128, length: AskedLength) -> Result<Setting, Violation> {
        let (frame, order) = (self.frame, self.frame.order);
        let down = |count| parity_down(count, order.parity);
        let tight = match order.leftover {
            Leftover::Tails => frame.gap,
            Leftover::Gaps => frame.min_gap.unwrap_or(frame.gap),
        };
        let most = down(fit(room, frame.width, tight));
        if most < 1 {
            return Err(frame.no_room(length, tight));
        }
        let count = match order.leftover {
            Leftover::Tails => most,
            Leftover::Gaps => self.nearest_gap(room, most),
        };
        let within = u32::try_from(count).ok().filter(|count| bounds::PENNANTS.holds(*count));
        let Some(count) = within else {
            return Err(frame.too_many_pennants(length, count));
        };
        Ok(match order.leftover {
            Leftover::Tails => self.kept(count),
            Leftover::Gaps => self.spread(room, count),
        })
    }

    /// Of the counts up to `most` whose spread gap is within the greatest gap, the one
    /// whose gap is nearest to the one wanted, the larger of two; but the letters first.
    /// `most` itself where every gap within the least is above the greatest.
    ///
    /// The spread gap falls as the count grows, so the nearest is one of the two counts
    /// about the gap wanted, held within what is allowed.
    fn nearest_gap(&mut self, room: i128, most: i128) -> i128 {
        let (frame, order) = (self.frame, self.frame.order);
        let up = |count: i128| parity_up(count, order.parity);
        if most < 2 {
            return most;
        }
        let mut least = up(2);
        if let Some(greatest) = frame.max_gap {
            least = least.max(up(divide(room + greatest, frame.width + greatest, Rounding::Up)));
        }
        if least > most {
            return most;
        }
        least = least.max(up(letters(order)).min(most));
        let wide = parity_down(fit(room, frame.width, frame.gap), order.parity).clamp(least, most);
        let narrow = (wide + if order.parity.is_some() { 2 } else { 1 }).min(most);
        self.steps += 2;
        // |gap - wanted| of a count is this over its gaps
        let off = |count: i128| (room - frame.flags(count, frame.gap)).abs();
        if off(narrow) * (wide - 1) <= off(wide) * (narrow - 1) { narrow } else { wide }
    }

    /// A length and a count: the gap or the tails take the rest.
    fn fill(&mut self, room: i128, length: AskedLength, count: u32) -> Result<Setting, Violation> {
        let (frame, order) = (self.frame, self.frame.order);
        if room < frame.width {
            let gap = if order.gap_given { frame.gap } else { frame.floor_gap() };
            return Err(frame.no_room(length, gap));
        }
        let fits = |gap| frame.flags(count.into(), gap) <= room;
        if (order.gap_given || order.leftover == Leftover::Tails) && fits(frame.gap) {
            return Ok(self.kept(count));
        }
        if order.gap_given {
            return Err(frame.too_long(length, room, count, frame.gap));
        }
        if !fits(frame.floor_gap()) {
            return Err(frame.too_long(length, room, count, frame.floor_gap()));
        }
        Ok(self.spread(room, count))
    }

    /// Another count by the same rule, if it can be had.
    fn other(&mut self, count: u32, rule: Rule) -> Option<Setting> {
        let (frame, order) = (self.frame, self.frame.order);
        let wanted = bounds::PENNANTS.holds(count) && i128::from(count) >= letters(order);
        if !wanted || frame.too_many_pieces(count).is_some() {
            return None;
        }
        let Some(room) = frame.room() else {
            let setting = self.running(count);
            return Some(setting).filter(|setting| frame.unmade(*setting).is_none());
        };
        let flags = |gap| frame.flags(count.into(), gap);
        match rule {
            Rule::Tails if flags(frame.gap) <= room => Some(self.kept(count)),
            // a flagged length bounds nothing but the flags: the longer one is on offer too
            Rule::Tails if matches!(order.length, Some(AskedLength::Flagged(_))) => {
                let setting = self.running(count);
                Some(setting).filter(|setting| frame.unmade(*setting).is_none())
            }
            Rule::Tails => None,
            Rule::Gaps if count == 1 => Some(self.spread(room, count)),
            Rule::Gaps => {
                let possible = match frame.min_gap {
                    Some(least) => flags(least) <= room,
                    None => flags(0) < room || frame.gap <= 0 && flags(frame.gap) <= room,
                };
                possible.then(|| self.spread(room, count))
            }
        }
    }

    /// At the gap, as long as it gets.
    fn running(&mut self, count: u32) -> Setting {
        self.steps += 1;
        let flags = self.frame.flags(count.into(), self.frame.gap);
        let overall = flags + self.frame.widening + 2 * self.frame.tail.wide() * self.frame.scale;
        Setting { count, flags, overall, rule: Rule::Tails, capped: false }
    }

    /// At the gap, the rest of the length in the tails.
    fn kept(&mut self, count: u32) -> Setting {
        let running = self.running(count);
        Setting { overall: self.frame.overall.unwrap_or(running.overall), ..running }
    }

    /// The rest of the length in the gaps, up to the greatest; of one pennant in the
    /// tails.
    fn spread(&mut self, room: i128, count: u32) -> Setting {
        let kept = self.kept(count);
        let greatest = self.frame.max_gap.map_or(room, |gap| self.frame.flags(count.into(), gap));
        let flags = if count == 1 { self.frame.width } else { room.min(greatest) };
        Setting { flags, rule: Rule::Gaps, capped: count > 1 && flags < room, ..kept }
    }
}

/// How many pennants the letters take.
pub(super) fn letters(order: &Order) -> i128 {
    i128::try_from(order.letters.len()).unwrap_or(i128::MAX)
}

/// The count that a lettering alone asks for: its letters and spaces, and one plain
/// pennant more where the parity wants it. Nothing asked at all counts as one.
fn lettered(order: &Order) -> u32 {
    let count = parity_up(letters(order).max(1), order.parity);
    u32::try_from(count).unwrap_or(u32::MAX)
}

/// The count, or one less where it is not of the parity.
pub(super) fn parity_down(count: i128, parity: Option<Parity>) -> i128 {
    count - i128::from(lacks(count, parity))
}

/// The count, or one more where it is not of the parity.
pub(super) fn parity_up(count: i128, parity: Option<Parity>) -> i128 {
    count + i128::from(lacks(count, parity))
}

fn lacks(count: i128, parity: Option<Parity>) -> bool {
    match parity {
        Some(Parity::Odd) => count % 2 == 0,
        Some(Parity::Even) => count % 2 != 0,
        None => false,
    }
}
