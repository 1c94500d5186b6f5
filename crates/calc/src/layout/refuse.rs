//! What cannot stand, and the values that would mend it.

use pennantry_measure::{Length, Rounding, bounds, divide};

use super::formulas::{fit, length as um};
use super::frame::{Frame, Setting};
use super::search::{letters, parity_down, parity_up};
use crate::colours;
use crate::hang;
use crate::order::{AskedLength, Field, Hang, Parity, Reason, Violation};

/// A count that was given is not of the parity that was asked.
pub(super) fn not_of_parity(count: u32, parity: Parity) -> Violation {
    let beside = [count.checked_sub(1), count.checked_add(1)];
    let counts = beside.into_iter().flatten().filter(|n| bounds::PENNANTS.holds(*n));
    let offer: Vec<String> = counts.map(|n| n.to_string()).collect();
    let what = match parity {
        Parity::Odd => "odd",
        Parity::Even => "even",
    };
    Violation::new(
        Field::Count,
        Reason::Contradiction,
        format!(
            "{count} is not {what}, and an {what} count is asked: ask for {}, or leave {what} out",
            offer.join(" or ")
        ),
    )
}

impl Frame<'_> {
    /// More pieces in all strings than one order may have.
    pub fn too_many_pieces(&self, count: u32) -> Option<Violation> {
        let each = u64::from(count) * u64::from(self.order.construction.layers());
        let strings = self.order.quantity;
        let pieces = each * u64::from(strings);
        let most = u64::from(bounds::PIECES.most);
        (pieces > most).then(|| {
            Violation::new(
                Field::Quantity,
                Reason::OutOfRange,
                format!(
                    "{} of {} take {pieces} pieces, and one order may take {most}: ask for {} or fewer at a time",
                    plural(strings.into(), "string"),
                    plural(count.into(), "pennant"),
                    plural((most / each.max(1)).into(), "string"),
                ),
            )
        })
    }

    /// A count gave a length that the shop does not make, however it is measured: flags
    /// above its most, or a string that is below its least with tails and all.
    pub fn unmade(&self, setting: Setting) -> Option<Violation> {
        let (least, most) = (self.shop.least, self.shop.most);
        let flagged = self.top_flags(setting);
        let short = setting.overall < least.wide() * self.scale;
        if !short && flagged <= most.wide() * self.scale {
            return None;
        }
        let field = if self.order.count.is_some() { Field::Count } else { Field::Lettering };
        let pennants = plural(setting.count.into(), "pennant");
        let (shop, wide) = (&self.shop.name, self.order.width);
        let message = if short {
            let gaps =
                least.wide() * self.scale - self.widening - 2 * self.tail.wide() * self.scale + self.gap;
            let count = parity_up(divide(gaps, self.width + self.gap, Rounding::Up), self.order.parity);
            format!(
                "{pennants} {wide} wide {} a string of {} with its tails, and {shop} makes none below {least}: ask for {} or more",
                if setting.count == 1 { "makes" } else { "make" },
                self.told(setting.overall),
                plural(count, "pennant"),
            )
        } else {
            let room = most.wide() * self.scale - self.widening;
            let count = parity_down(fit(room, self.width, self.gap), self.order.parity);
            let mend = if count > 0 {
                format!("ask for {} or fewer", plural(count, "pennant"))
            } else {
                String::from("ask for narrower pennants")
            };
            format!(
                "{pennants} {wide} wide at a gap of {} make {} of flags, and {shop} makes none above {most}: {mend}",
                self.order.gap,
                self.told(flagged),
            )
        };
        Some(Violation::new(field, Reason::OutOfRange, message))
    }

    /// The lettering takes more pennants than are asked for: told beside what else stands in
    /// the way, and by [`colours::assign`] where nothing does.
    pub fn unlettered(&self, count: u32) -> Option<Violation> {
        let gap = self.min_gap.filter(|_| !self.order.gap_given).unwrap_or(self.gap);
        let flags = self.flags(letters(self.order), gap);
        let least = self.stated(AskedLength::Flagged(Length::ZERO), flags, self.tail);
        colours::unlettered(self.order, count, least)
    }

    /// More pennants fit than a string may have.
    pub fn too_many_pennants(&self, length: AskedLength, count: i128) -> Violation {
        let most = bounds::PENNANTS.most;
        let longest =
            self.stated(length, self.flags(parity_down(most.into(), self.order.parity), self.gap), self.tail);
        let less = if self.makes(longest) { format!("{longest} or less, or for ") } else { String::new() };
        Violation::new(
            length.field(),
            Reason::OutOfRange,
            format!(
                "{} of {} has room for {count} pennants, and a string may have {most}: ask for {less}wider pennants \
                 or gaps",
                length.spoken(),
                length.measured(),
            ),
        )
    }

    /// Not even one pennant goes on, or not two where an even count is asked.
    pub fn no_room(&self, length: AskedLength, gap: i128) -> Violation {
        // a mend that houses fewer than are asked would only be refused again
        let count = match self.order.count {
            Some(count) => i128::from(count),
            None => parity_up(letters(self.order).max(1), self.order.parity),
        };
        let what = match count {
            1 => String::from("one pennant"),
            2 => String::from("two pennants"),
            more => plural(more, "pennant"),
        };
        let flags = self.flags(count, gap);
        let mut mends = Vec::new();
        let least = self.stated(length, flags, self.tail);
        if self.makes(least) {
            mends.push(format!("{} of {least} or more", length.spoken()));
        }
        mends.extend(self.longest_tail(length, flags));
        if mends.is_empty() {
            mends.push(String::from("narrower pennants"));
        }
        Violation::new(
            length.field(),
            Reason::DoesNotFit,
            format!(
                "{} of {} has no room for {what} {} wide{}: ask for {}",
                length.spoken(),
                length.measured(),
                self.order.width,
                self.between_tails(length),
                mends.join(", or ")
            ),
        )
    }

    /// A count that takes more than the length that is asked with it, at a gap that was
    /// given or at the least that it may be spread to.
    pub fn too_long(&self, length: AskedLength, room: i128, count: u32, gap: i128) -> Violation {
        let order = self.order;
        let flags = self.flags(count.into(), gap);
        let needed = self.stated(length, flags, self.tail);
        let mut mends = Vec::new();
        if self.makes(needed) {
            mends.push(format!("{} of {needed} or more", length.spoken()));
        }
        let fewer = parity_down(fit(room, self.width, gap), order.parity);
        if fewer > 0 && fewer >= letters(order) {
            let or_fewer = if fewer > 1 { " or fewer" } else { "" };
            mends.push(format!("{}{or_fewer}", plural(fewer, "pennant")));
        }
        mends.extend(self.widest_gap(room, count));
        let tail = self.longest_tail(length, flags);
        let field = if order.tail_given && tail.is_some() { Field::Tail } else { Field::Count };
        mends.extend(tail);
        if mends.is_empty() {
            mends.push(String::from("narrower pennants"));
        }
        let at = if order.gap_given { "at a gap of" } else { "even at a gap of" };
        Violation::new(
            field,
            Reason::Contradiction,
            format!(
                "{} {} wide {at} {}{} take {} of {needed}, and {} is asked: ask for {}",
                plural(count.into(), "pennant"),
                order.width,
                self.told(gap),
                self.between_tails(length),
                length.spoken(),
                length.measured(),
                mends.join(", or ")
            ),
        )
    }

    /// The gap that would let a count fit, as long as nobody has to want an overlap who
    /// did not say so.
    fn widest_gap(&self, room: i128, count: u32) -> Option<String> {
        let gaps = i128::from(count) - 1;
        if gaps < 1 {
            return None;
        }
        let (order, rest) = (self.order, room - i128::from(count) * self.width);
        let gap = um(rest.div_euclid(gaps * self.scale));
        let (what, given) = match order.min_gap {
            Some(least) if !order.gap_given => ("a least gap", least),
            _ => ("a gap", order.gap),
        };
        let overlaps = gap < Length::ZERO && given >= Length::ZERO;
        let held = order.gap_given && order.min_gap.is_some_and(|least| gap < least);
        let said = order.gap_given || order.min_gap.is_some() || order.gap < Length::ZERO;
        let stands = said && !overlaps && !held && bounds::GAP.holds(gap) && order.width + gap > Length::ZERO;
        stands.then(|| format!("{what} of {gap} or less"))
    }

    /// The tail that would let flags fit, where tails are part of what is asked.
    fn longest_tail(&self, length: AskedLength, flags: i128) -> Option<String> {
        let least = match length {
            AskedLength::Flagged(_) => return None,
            AskedLength::Overall(_) | AskedLength::Binding(_) => Length::ZERO,
            AskedLength::Hang(_) => self.shop.bench.knot,
        };
        let rest = self.overall? - self.widening - flags;
        let tail = um(rest.div_euclid(2 * self.scale));
        (tail >= least && tail < self.tail).then(|| format!("tails of {tail} or less"))
    }

    /// Says the tails where they take of the length.
    fn between_tails(&self, length: AskedLength) -> String {
        match length {
            AskedLength::Flagged(_) => String::new(),
            _ => format!(" between tails of {}", self.tail),
        }
    }

    /// What flags and tails take, said the way the length was asked, up to the next
    /// micrometre.
    fn stated(&self, length: AskedLength, flags: i128, tail: Length) -> Length {
        let up = |parts: i128| um(-(-parts).div_euclid(self.scale));
        let overall = up(flags + self.widening) + tail * 2;
        match length {
            AskedLength::Flagged(_) => up(flags),
            AskedLength::Overall(_) => overall,
            AskedLength::Binding(_) => overall + self.shop.bench.turn_under * 2,
            AskedLength::Hang(hang) => least_span(hang, overall - self.shop.bench.knot * 2),
        }
    }

    /// Whether the shop would take such a length.
    fn makes(&self, stated: Length) -> bool {
        self.shop.least <= stated && stated <= self.shop.most
    }
}

/// The least span whose curve, with the same dip and swags, is as long as `needed`.
fn least_span(hang: Hang, needed: Length) -> Length {
    let (mut below, mut enough) = (0, needed.um().max(0));
    while below + 1 < enough {
        let span = below + (enough - below) / 2;
        if hang::total_curve(Hang { span: Length::from_um(span), ..hang }) >= needed {
            enough = span;
        } else {
            below = span;
        }
    }
    Length::from_um(enough)
}

/// `1 pennant`, `2 pennants`.
fn plural(count: i128, what: &str) -> String {
    if count == 1 { format!("1 {what}") } else { format!("{count} {what}s") }
}
