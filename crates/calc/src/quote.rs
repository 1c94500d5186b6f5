//! The whole answer: every step of the work, in its order.

use pennantry_measure::{Area, BenchTime, Length, Rounding, divide};

use crate::binding::{self, BindingUse};
use crate::child::{self, ChildFinding};
use crate::colours::{self, Slot};
use crate::cutting::{self, ClothUse, Role};
use crate::dates::{self, Dates, NoDay};
use crate::labour::{self, Counts, Labour};
use crate::layout::{self, Layout};
use crate::mass::{self, Masses};
use crate::notice::{Code, Notice};
use crate::order::{Field, Order, Violation};
use crate::paper::{self, Paper};
use crate::parcel::{self, NoService, Parcel};
use crate::price::{self, Elsewhere, Price, Taken};
use crate::shop::{Day, Service, Shop, SizeAt};
use crate::sundries::{self, Used};
use crate::thread::{self, ThreadUse};
use crate::ways::{self, Way};

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
    /// What it takes and costs, and when.
    pub worked: Worked,
    /// When it leaves and arrives; none where the bench has no day for it.
    pub dates: Option<Dates>,
    /// The nearest ways to keep a wanted day that is missed.
    pub ways: Vec<Way>,
    /// Duties on paper.
    pub paper: Paper,
    /// What was found about small children.
    pub child: ChildFinding,
    /// What to look at, in the order of the work.
    pub notices: Vec<Notice>,
    /// Elementary steps of geometry and of the calendar taken: the same for the same
    /// order, always.
    pub steps: u64,
}

/// What an order takes and costs, and when.
#[derive(Debug, Clone, PartialEq)]
pub struct Worked {
    /// Where the pennants sit.
    pub layout: Layout,
    /// What hangs at each place of one string.
    pub slots: Vec<Slot>,
    /// The cloth, for all strings.
    pub cloth: Vec<ClothUse>,
    /// The binding, for all strings.
    pub binding: BindingUse,
    /// The thread, for all strings.
    pub thread: ThreadUse,
    /// What is used up by the piece.
    pub used: Vec<Used>,
    /// Bench time for all strings.
    pub labour: Labour,
    /// What they weigh.
    pub masses: Masses,
    /// The parcel, or why there is none.
    pub parcel: Result<Parcel, NoService>,
    /// Its days, or why there are none.
    pub dates: Result<Dates, NoDay>,
    /// The price, by the tax of its day.
    pub price: Price,
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
    let worked = work(shop, order, when)?;
    let days = &worked.dates;
    let missed = days.as_ref().is_ok_and(|days| days.kept == Some(false));
    let ways = order.wanted.filter(|_| missed);
    let ways = ways.map_or_else(Vec::new, |wanted| ways::ways(shop, order, &worked, when, wanted));
    let mut notices = slips(shop, order, &worked);
    notices.extend(worked.layout.notices.iter().cloned());
    notices.extend(colours::notices(order, &worked.slots));
    notices.extend(cutting::notices(shop, order, &worked.cloth));
    notices.extend(worked.binding.notices.iter().cloned());
    notices.extend(calendar_notices(shop, order, days, !ways.is_empty()));
    notices.extend(parcel::notices(shop, &worked.masses, &worked.parcel));
    notices.extend(worked.price.notices.iter().cloned());
    notices.sort_by_key(|notice| notice.code);
    let calendar = days.as_ref().map_or(0, |days| days.steps);
    let steps = steps(&worked.layout, &worked.cloth, &worked.binding) + calendar + worked.price.steps;
    let paper = paper::paperwork(shop, order, &worked);
    let child = child::find(shop, order, &worked.layout);
    Ok(Quote { dates: worked.dates.as_ref().ok().copied(), ways, child, paper, notices, steps, worked })
}

/// What an order takes and costs, and when.
///
/// # Errors
/// As [`calculate`].
pub fn work(shop: &Shop, order: &Order, when: When) -> Result<Worked, Error> {
    let made = make(shop, order)?;
    let service = made.parcel.as_ref().ok().and_then(|parcel| shop.services.get(parcel.service));
    let dates = days(shop, order, service, made.labour.total, when);
    let asked = price::Asked {
        shop,
        order,
        layout: &made.layout,
        today: when.today,
        leaves: dates.as_ref().ok().map(|dates| dates.leaves),
    };
    let at = |quantity| {
        let other = make(shop, &Order { quantity, ..order.clone() }).ok()?;
        let taken = other.taken();
        let steps = steps(&other.layout, &other.cloth, &other.binding);
        Some(Elsewhere { cost: taken.cost(shop), postage: taken.postage, steps })
    };
    let price = price::price(&asked, &made.taken(), at).map_err(Error::Refused)?;
    let Made { layout, slots, cloth, binding, thread, used, labour, masses, parcel } = made;
    Ok(Worked { layout, slots, cloth, binding, thread, used, labour, masses, parcel, dates, price })
}

/// What an order takes, whatever the day and the price.
struct Made {
    layout: Layout,
    slots: Vec<Slot>,
    cloth: Vec<ClothUse>,
    binding: BindingUse,
    thread: ThreadUse,
    used: Vec<Used>,
    labour: Labour,
    masses: Masses,
    parcel: Result<Parcel, NoService>,
}

impl Made {
    fn taken(&self) -> Taken<'_> {
        Taken {
            cloth: &self.cloth,
            binding: self.binding.cost,
            thread: self.thread.cost,
            used: &self.used,
            labour: &self.labour,
            postage: self.parcel.as_ref().ok().map(|parcel| parcel.postage),
        }
    }
}

fn make(shop: &Shop, order: &Order) -> Result<Made, Error> {
    let layout = layout::solve(shop, order).map_err(Error::Refused)?;
    let finished = layout.finished(order.shape);
    let slots = colours::assign(order, layout.count, least_lettered(order, &layout));
    let hung = slots.as_deref().map(colours::counts).unwrap_or_default();
    let cloth = cutting::cloth(shop, order, &finished, &hung);
    let binding = binding::binding(shop, order, &layout);
    let (slots, cloth, binding) = match (slots, cloth, binding) {
        (Ok(slots), Ok(cloth), Ok(binding)) => (slots, cloth, binding),
        (slots, cloth, binding) => {
            let mut found = slots.err().unwrap_or_default();
            match cloth {
                Err(cutting::Error::Refused(more)) => found.extend(more),
                Err(cutting::Error::Fault(fault)) => return Err(Error::Fault(fault)),
                Ok(_) => {}
            }
            found.extend(binding.err().unwrap_or_default());
            found.sort_by_key(|violation| violation.field);
            return Err(Error::Refused(found));
        }
    };
    let thread = thread::thread(shop, order, &layout, &finished, &cloth);
    let used = sundries::used(shop, order, &layout);
    let labour = labour::labour(shop, order.construction, &counts(order, &layout, &cloth, &binding));
    let masses = mass::masses(shop, order, &kept(&cloth), binding.net, thread.mass, &used);
    let parcel = parcel::parcel(shop, order, &layout, &masses);
    Ok(Made { layout, slots, cloth, binding, thread, used, labour, masses, parcel })
}

/// Elementary steps of geometry taken for what an order takes.
fn steps(layout: &Layout, cloth: &[ClothUse], binding: &BindingUse) -> u64 {
    layout.steps + cloth.iter().map(|cloth| cloth.plan.steps).sum::<u64>() + binding.steps
}

/// The days of an order that takes so long: before all that is promised where it is a
/// rush, after it otherwise.
pub(crate) fn days(
    shop: &Shop,
    order: &Order,
    service: Option<&Service>,
    time: BenchTime,
    when: When,
) -> Result<Dates, NoDay> {
    let of = if order.rush { dates::dates_before_all } else { dates::dates };
    let mut days = of(&shop.calendar, service, time, when, order.wanted)?;
    if let Some(wanted) = order.wanted
        && days.arrives.is_none()
        && wanted < days.leaves
    {
        // whatever carries it, it does not arrive before it leaves
        days.kept = Some(false);
    }
    Ok(days)
}

/// The least length on which a lettering hangs: at the least gap that may be had, however
/// wide what is asked spreads it.
fn least_lettered(order: &Order, layout: &Layout) -> Length {
    let letters = i64::try_from(order.letters.len()).unwrap_or(i64::MAX);
    let hidden = match order.size_at {
        SizeAt::TopEdge => Length::ZERO,
        SizeAt::BindingEdge => layout.top_width - layout.visible_width,
    };
    let gap = (order.min_gap.filter(|_| !order.gap_given).unwrap_or(order.gap) - hidden).min(layout.gap);
    layout.top_width * letters + gap * (letters - 1) - hidden
}

/// How much there is of whatever operations are counted by.
fn counts(order: &Order, layout: &Layout, cloth: &[ClothUse], binding: &BindingUse) -> Counts {
    let strings = order.quantity;
    let pennants = layout.count.saturating_mul(strings);
    let cut = || cloth.iter().filter(|used| used.role == Role::Pennants);
    let letters = order.letters.iter().flatten().count();
    Counts {
        strings,
        pennants,
        pieces: cut().map(|used| used.pieces.saturating_add(used.spares)).sum(),
        outlines: cut().map(|used| used.outlines).sum(),
        layers: cut().map(|used| used.layers).sum(),
        overall: layout.overall * i64::from(strings),
        joins: binding.sewn_joins(),
        letters: u32::try_from(letters).unwrap_or(u32::MAX).saturating_mul(strings),
        trimmings: order.trimmings.iter().map(|(_, each)| each.saturating_mul(pennants)).sum(),
    }
}

/// The cloth that stays in the strings, by fabric.
fn kept(cloth: &[ClothUse]) -> Vec<(usize, Area)> {
    let mut kept: Vec<(usize, Area)> = Vec::with_capacity(cloth.len());
    for used in cloth {
        let area = Area::from_um2(used.outline.area().um2() * i128::from(used.pieces));
        match kept.iter_mut().find(|(fabric, _)| *fabric == used.fabric) {
            Some((_, sum)) => *sum = Area::from_um2(sum.um2() + area.um2()),
            None => kept.push((used.fabric, area)),
        }
    }
    kept
}

/// What there is to say about the days.
fn calendar_notices(shop: &Shop, order: &Order, days: &Result<Dates, NoDay>, has_ways: bool) -> Vec<Notice> {
    let days = match days {
        Ok(days) => days,
        Err(none) => {
            let message = format!("{none}: ask for less, or ask the shop for a day");
            return vec![Notice { code: Code::NoDay, field: None, message }];
        }
    };
    let mut notices = Vec::new();
    if days.estimated {
        let message =
            format!("days off are known up to {}: what lies beyond is an estimate", shop.calendar.known_to);
        notices.push(Notice { code: Code::DaysEstimated, field: None, message });
    }
    let Some(wanted) = order.wanted else { return notices };
    let leaves = days.leaves;
    let next = if has_ways { "one of the ways keeps it" } else { "ask for a later day, or for less" };
    let message = match (days.kept, days.arrives) {
        (Some(false), Some((_, to))) => {
            format!(
                "{wanted} cannot be promised: it leaves on {leaves} and may arrive as late as {to}; {next}"
            )
        }
        (Some(false), None) => format!("{wanted} cannot be kept: it leaves on {leaves}; {next}"),
        (None, _) => {
            format!(
                "whether {wanted} is kept cannot be said: it leaves on {leaves}, and no service takes it as it is"
            )
        }
        (Some(true), _) => return notices,
    };
    notices.push(Notice::about(Code::WantedDayMissed, Field::WantedDate, message));
    notices
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
fn slips(shop: &Shop, order: &Order, worked: &Worked) -> Vec<Notice> {
    let (layout, labour) = (&worked.layout, &worked.labour);
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
            let bench = one(labour.total, labour.set_up_per_string, order.quantity);
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
