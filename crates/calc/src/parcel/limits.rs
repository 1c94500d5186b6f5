//! What a format allows, and by how much something breaks it.

use std::fmt;

use pennantry_measure::{Length, Mass, Percent, Rounding, divide};

use crate::outline::um;
use crate::shop::{Format, FormatKind};

/// A limit that is broken.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Limit {
    /// Which.
    pub rule: Rule,
    /// What it is.
    pub value: Amount,
    /// What it may be.
    pub limit: Amount,
}

/// What is limited.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Rule {
    /// The longest side, at the most.
    Longest,
    /// The second side, at the most.
    Second,
    /// The shortest side, at the most.
    Shortest,
    /// The three sides together, at the most.
    Sum,
    /// A roll's length and twice its diameter, at the most.
    RollSum,
    /// The longest side and twice the two others, at the most.
    Girth,
    /// The longest side, at the least.
    LeastLongest,
    /// The second side, at the least.
    LeastSecond,
    /// The shortest side, at the least.
    LeastShortest,
    /// A roll's length and twice its diameter, at the least.
    LeastRollSum,
    /// The longest side as a share of the second, at the least.
    Ratio,
    /// The real mass, at the most for the format.
    FormatMass,
    /// The mass counted, at the most for the band.
    BandMass,
}

/// What a limit is told in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Amount {
    /// A length.
    Length(Length),
    /// A mass.
    Mass(Mass),
    /// A share.
    Share(Percent),
}

impl Amount {
    fn wide(self) -> i128 {
        match self {
            Amount::Length(length) => length.wide(),
            Amount::Mass(mass) => i128::from(mass.mg()),
            Amount::Share(share) => i128::from(share.milli()),
        }
    }
}

impl fmt::Display for Amount {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Amount::Length(length) => length.fmt(f),
            Amount::Mass(mass) => mass.fmt(f),
            Amount::Share(share) => share.fmt(f),
        }
    }
}

impl Rule {
    /// Whether it is a least that is missed, and not a most that is passed.
    fn is_least(self) -> bool {
        matches!(
            self,
            Rule::LeastLongest | Rule::LeastSecond | Rule::LeastShortest | Rule::LeastRollSum | Rule::Ratio
        )
    }
}

impl Limit {
    /// A length over or under its limit.
    fn length(rule: Rule, value: i128, limit: Length) -> Limit {
        Limit { rule, value: Amount::Length(um(value)), limit: Amount::Length(limit) }
    }

    /// Whether this one is broken by a larger share of its limit than another.
    pub(super) fn is_worse_than(&self, other: &Limit) -> bool {
        let (over, of) = self.excess();
        let (other_over, other_of) = other.excess();
        over.saturating_mul(other_of) > other_over.saturating_mul(of)
    }

    /// How many times the limit it is, as a fraction; how many times short of a least.
    fn excess(&self) -> (i128, i128) {
        let (value, limit) = (self.value.wide().max(0), self.limit.wide().max(0));
        if self.rule.is_least() { (limit, value) } else { (value, limit) }
    }
}

/// `the longest side of 601 mm is over the 600 mm`.
impl fmt::Display for Limit {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let what = match self.rule {
            Rule::Longest | Rule::LeastLongest => "the longest side of ",
            Rule::Second | Rule::LeastSecond => "the second side of ",
            Rule::Shortest | Rule::LeastShortest => "the thinnest side of ",
            Rule::Sum => "the three sides, together ",
            Rule::RollSum | Rule::LeastRollSum => "the length and twice the diameter, together ",
            Rule::Girth => "the length and the girth, together ",
            Rule::Ratio => "the longest side, as a share of the second ",
            Rule::FormatMass => "a mass of ",
            Rule::BandMass => "a counted mass of ",
        };
        let comma = if what.contains(',') { "," } else { "" };
        let side = if self.rule.is_least() { "under" } else { "over" };
        let are = if matches!(self.rule, Rule::Sum | Rule::Girth) { "are" } else { "is" };
        write!(f, "{what}{}{comma} {are} {side} the {}", self.value, self.limit)
    }
}

/// Whether a size, its sides in any order, fits a format; of a size that does not, the
/// limit that it breaks by the largest share. Every limit may be met exactly.
///
/// ```
/// use pennantry_calc::parcel::{Rule, fits};
/// use pennantry_calc::shop::{Format, FormatKind};
/// use pennantry_measure::Length;
/// let mm = Length::from_mm;
/// let small_packet = Format {
///     code: String::from("small-packet"),
///     name: String::from("Small packet"),
///     kind: FormatKind::Box,
///     most: [mm(600); 3],
///     least: [mm(0); 3],
///     most_sum: Some(mm(900)),
///     most_girth: None,
///     least_sum: None,
///     least_ratio: None,
///     most_mass: None,
/// };
/// assert_eq!(fits(&small_packet, [mm(100), mm(600), mm(200)]), Ok(()));
/// let broken = fits(&small_packet, [mm(600), mm(201), mm(100)]).unwrap_err();
/// assert_eq!(broken.rule, Rule::Sum);
/// assert_eq!(broken.to_string(), "the three sides, together 901 mm, are over the 900 mm");
/// ```
pub fn fits(format: &Format, size: [Length; 3]) -> Result<(), Limit> {
    let worst =
        broken(format, size).reduce(|worst, next| if next.is_worse_than(&worst) { next } else { worst });
    worst.map_or(Ok(()), Err)
}

/// Whether a size, its sides in any order, breaks no limit of a format. Most are too large,
/// which is seen without telling by how much.
pub(super) fn holds(format: &Format, size: [Length; 3]) -> bool {
    let fits = sorted(size).into_iter().zip(sorted(format.most)).all(|(side, most)| side <= most);
    fits && broken(format, size).next().is_none()
}

/// All limits that a size breaks.
fn broken(format: &Format, size: [Length; 3]) -> impl Iterator<Item = Limit> {
    let size = sorted(size);
    let most = [Rule::Longest, Rule::Second, Rule::Shortest];
    let most = most.into_iter().zip(size).zip(sorted(format.most));
    let most = most.filter(|((_, value), limit)| value > limit);
    let least = [Rule::LeastLongest, Rule::LeastSecond, Rule::LeastShortest];
    let least = least.into_iter().zip(size).zip(sorted(format.least).map(|least| least.max(Length::ZERO)));
    let least = least.filter(|((_, value), limit)| value < limit);
    let sides = most.chain(least).map(|((rule, value), limit)| Limit::length(rule, value.wide(), limit));
    sides.chain(broken_together(format, size).into_iter().flatten())
}

/// The limits of several sides together that a size, its sides sorted, breaks.
fn broken_together(format: &Format, size: [Length; 3]) -> [Option<Limit>; 4] {
    let [longest, second, shortest] = size.map(Length::wide);
    let roll = format.kind == FormatKind::Roll;
    let (length, diameter) = round(size);
    let about = length.wide() + 2 * diameter.wide();
    let (rule, sum) = if roll { (Rule::RollSum, about) } else { (Rule::Sum, longest + second + shortest) };
    let most = format.most_sum.filter(|limit| sum > limit.wide());
    let least = format.least_sum.filter(|limit| roll && about < limit.wide());
    let girth = longest + 2 * (second + shortest);
    let around = format.most_girth.filter(|limit| girth > limit.wide());
    let whole = i128::from(Percent::WHOLE.milli());
    let square = format.least_ratio.filter(|limit| longest * whole < second * i128::from(limit.milli()));
    [
        most.map(|limit| Limit::length(rule, sum, limit)),
        least.map(|limit| Limit::length(Rule::LeastRollSum, about, limit)),
        around.map(|limit| Limit::length(Rule::Girth, girth, limit)),
        square.map(|limit| {
            // down: a share that is under its limit also reads as under it
            let share = i64::try_from(divide(longest * whole, second, Rounding::Down)).unwrap_or(i64::MAX);
            let value = Amount::Share(Percent::from_milli(share));
            Limit { rule: Rule::Ratio, value, limit: Amount::Share(limit) }
        }),
    ]
}

/// The size that a wrapper has to have for something to be neither too small nor too
/// square for a format: a larger envelope, a longer tube. What is too large stays so.
pub(super) fn enlarged(format: &Format, size: [Length; 3]) -> [Length; 3] {
    let mut size = sorted(size);
    let least = sorted(format.least);
    if format.kind == FormatKind::Roll {
        let (length, diameter) = round(size);
        let [longest, wide, _] = least;
        let diameter = diameter.max(wide);
        let by_side = if diameter < longest { longest } else { Length::ZERO };
        let by_sum = format.least_sum.map_or(0, |least| least.wide() - 2 * diameter.wide());
        return sorted([length.max(by_side).max(um(by_sum)), diameter, diameter]);
    }
    for (side, least) in size.iter_mut().zip(least) {
        *side = (*side).max(least);
    }
    let [longest, second, shortest] = size;
    let Some(ratio) = format.least_ratio else { return size };
    let wanted = second.wide() * i128::from(ratio.milli());
    let wanted = um(divide(wanted, Percent::WHOLE.milli().into(), Rounding::Up));
    [longest.max(wanted), second, shortest]
}

/// Length and diameter of a roll, sides sorted: the two sides that are nearer to each
/// other are its diameter, the greater of them counts.
fn round([longest, second, shortest]: [Length; 3]) -> (Length, Length) {
    if longest.wide() - second.wide() < second.wide() - shortest.wide() {
        (shortest, longest)
    } else {
        (longest, second)
    }
}

fn sorted(mut size: [Length; 3]) -> [Length; 3] {
    size.sort_unstable_by(|a, b| b.cmp(a));
    size
}
