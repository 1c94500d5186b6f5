//! The whole answer: every step of the work, in its order.

use pennantry_measure::{BenchTime, Length, Money, Rounding, divide};

use crate::colours::{self, Slot};
use crate::cutting::{self, ClothUse};
use crate::labour::{self, Counts};
use crate::layout::{self, Layout};
use crate::notice::{Code, Notice};
use crate::order::{Field, Order, Violation};
use crate::price::{self, Price, Taken};
use crate::shop::{BindingSource, Day, Shop, SizeAt};

#[cfg(test)]
mod tests;

/// When an order comes in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct When {
    /// The day, at the shop.
    pub today: Day,
    /// Whether the shop's cut-off has passed on it.
    pub late: bool,
}

/// What an order comes to.
#[derive(Debug, Clone, PartialEq)]
pub struct Quote {
    /// Where the pennants sit.
    pub layout: Layout,
    /// What hangs at each place of one string.
    pub slots: Vec<Slot>,
    /// The cloth, for all strings.
    pub cloth: Vec<ClothUse>,
    /// Binding cut for all strings.
    pub binding_cut: Length,
    /// Bench time for all strings.
    pub bench: BenchTime,
    /// The price; none where something asked for cannot be priced yet.
    pub price: Option<Price>,
    /// What to look at, in the order of the work.
    pub notices: Vec<Notice>,
    /// Elementary steps of geometry taken: the same for the same order, always.
    pub steps: u64,
}

/// Why there is no quote.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum Error {
    /// What is asked cannot be made as asked.
    #[error("{} violation(s)", .0.len())]
    Refused(Vec<Violation>),
    /// A plan did not stand up to being rebuilt: a fault of the program.
    #[error("a cutting plan did not stand up to re-validation: {0}")]
    Fault(String),
}

/// Works an order out.
///
/// # Errors
/// [`Error::Refused`] with every contradiction that only the geometry shows;
/// [`Error::Fault`] when a plan fails its own re-validation.
pub fn calculate(shop: &Shop, order: &Order, when: When) -> Result<Quote, Error> {
    let _ = when;
    let layout = layout::solve(shop, order).map_err(Error::Refused)?;
    let letters = i64::try_from(order.letters.len()).unwrap_or(i64::MAX);
    // at the least gap that may be had, however wide what is asked spreads it
    let hidden = match order.size_at {
        SizeAt::TopEdge => Length::ZERO,
        SizeAt::BindingEdge => layout.top_width - layout.visible_width,
    };
    let gap = (order.min_gap.filter(|_| !order.gap_given).unwrap_or(order.gap) - hidden).min(layout.gap);
    let least = layout.top_width * letters + gap * (letters - 1) - hidden;
    let slots = colours::assign(order, layout.count, least);
    let hung = slots.as_deref().map(colours::counts).unwrap_or_default();
    let cloth = cutting::cloth(shop, order, &layout.finished(order.shape), &hung);
    let (slots, cloth) = match (slots, cloth) {
        (Ok(slots), Ok(cloth)) => (slots, cloth),
        (slots, cloth) => {
            let mut found = slots.err().unwrap_or_default();
            match cloth {
                Err(cutting::Error::Refused(more)) => found.extend(more),
                Err(cutting::Error::Fault(fault)) => return Err(Error::Fault(fault)),
                Ok(_) => {}
            }
            found.sort_by_key(|violation| violation.field);
            return Err(Error::Refused(found));
        }
    };
    let quantity = i64::from(order.quantity);
    let binding_cut = layout.binding_cut * quantity;
    let pennants = layout.count.saturating_mul(order.quantity);
    let counts = Counts {
        strings: order.quantity,
        pennants,
        pieces: cloth.iter().map(|used| used.pieces + used.spares).sum(),
        outlines: cloth.iter().map(|used| used.outlines).sum(),
        layers: cloth.iter().map(|used| used.layers).sum(),
        overall: layout.overall * quantity,
        joins: 0,
        letters: 0,
        trimmings: order.trimmings.iter().map(|(_, each)| each * pennants).sum(),
    };
    let labour = labour::labour(shop, order.construction, &counts);
    let bench = labour.total;
    let binding_cost = match shop.bindings.get(order.binding).map(|binding| &binding.source) {
        Some(BindingSource::Bought { price, .. }) => price.per_metre(binding_cut, Rounding::HalfUp),
        _ => Money::ZERO,
    };
    let taken = Taken { cloth: &cloth, binding: binding_cost, thread: Money::ZERO, used: &[], bench };
    let price = Some(price::price(shop, &taken));

    let mut notices =
        slips(shop, order, &layout, one(labour.total, labour.set_up_per_string, order.quantity));
    notices.extend(layout.notices.iter().cloned());
    notices.extend(colours::notices(order, &slots));
    notices.extend(cutting::notices(order, &cloth));
    if let Some(price) = &price {
        notices.extend(price.notices.iter().cloned());
    }
    notices.sort_by_key(|notice| notice.code);
    let steps = layout.steps + cloth.iter().map(|c| c.plan.steps).sum::<u64>();
    Ok(Quote { layout, slots, cloth, binding_cut, bench, price, notices, steps })
}

/// Bench time of one string out of several: its share, and the whole of the set-up.
fn one(total: BenchTime, set_up_per_string: BenchTime, strings: u32) -> BenchTime {
    let strings = i64::from(strings.max(1));
    let set_up = set_up_per_string.milli_minutes() * strings;
    let rest = total.milli_minutes() - set_up;
    BenchTime::from_milli_minutes(set_up + rest / strings)
}

/// Slips of the thumb: worth a question, never a refusal.
///
/// A length of ten times the usual or more, or of a tenth or less, is likely a
/// slipped decimal point. Sizes are unusual outside 80 to 260 mm wide, 120 to
/// 310 mm deep, or a drop of 0.9 to 1.8 widths: the range that makers publish
/// (common practice, no source).
fn slips(shop: &Shop, order: &Order, layout: &Layout, bench: BenchTime) -> Vec<Notice> {
    let mut notices = Vec::new();
    if let (Some(length), Some(design)) = (order.length, shop.designs.get(order.design)) {
        let asked = length.measured();
        let usual = design.usual.um();
        let other = if asked.um() >= 10 * usual {
            Some(divide(asked.wide(), 10, Rounding::HalfUp))
        } else if asked.um() * 10 <= usual {
            Some(asked.wide() * 10)
        } else {
            None
        };
        if let Some(other) = other {
            // one string: however many are ordered, it is the length that may have slipped
            notices.push(Notice::about(
                Code::UnusualLength,
                length.field(),
                format!(
                    "{} is {}: did you mean {}?",
                    metres(asked.wide()),
                    bench_days(bench, shop.calendar.bench_day()),
                    metres(other)
                ),
            ));
        }
    }
    let (width, drop) = (layout.top_width, layout.top_drop);
    let mut size = |field, message: String| notices.push(Notice::about(Code::UnusualSize, field, message));
    if !(80_000..=260_000).contains(&width.um()) {
        size(Field::Width, format!("a width of {width} is unusual: most pennants are 80 to 260 mm wide"));
    }
    if !(120_000..=310_000).contains(&drop.um()) {
        size(Field::Drop, format!("a drop of {drop} is unusual: most pennants are 120 to 310 mm deep"));
    }
    if drop.um() * 10 < width.um() * 9 || drop.um() * 10 > width.um() * 18 {
        size(
            Field::Drop,
            format!(
                "a drop of {drop} on a width of {width} is unusual: most drops are 0.9 to 1.8 widths; are the two exchanged?"
            ),
        );
    }
    notices
}

/// `6.2 m`.
fn metres(um: i128) -> String {
    let mm = divide(um, 1_000, Rounding::HalfUp);
    let text = format!("{}.{:03}", mm / 1_000, mm % 1_000);
    format!("{} m", text.trim_end_matches('0').trim_end_matches('.'))
}

/// `nine bench days`, `40 minutes at the bench`.
fn bench_days(bench: BenchTime, day: BenchTime) -> String {
    const WORDS: [&str; 10] = ["no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine"];
    let days = divide(i128::from(bench.milli_minutes()), i128::from(day.milli_minutes()), Rounding::HalfUp);
    if days < 1 {
        let minutes = divide(i128::from(bench.milli_minutes()), 1_000, Rounding::HalfUp);
        return format!("{minutes} minutes at the bench");
    }
    let unit = if days == 1 { "bench day" } else { "bench days" };
    match usize::try_from(days).ok().and_then(|d| WORDS.get(d)) {
        Some(word) => format!("{word} {unit}"),
        None => format!("{days} {unit}"),
    }
}
