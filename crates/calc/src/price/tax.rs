//! The tax in, or on, what is paid.
//!
//! | figure | formula | rounding |
//! |---|---|---|
//! | tax in a price | `gross · r / (100 + r)` | the shop's, to a minor unit |
//! | tax on a price | `net · r / 100` | the shop's, to a minor unit |
//!
//! Of the document the total is taxed once, and the tax is shared out over the lines by
//! [`allocate`]; by the line each is taxed by itself, and the whole is their sum. A line that
//! takes something off is no supply of its own: its tax is what is missing to the tax of all
//! that it is taken from, so that nothing is left of the tax where nothing is left to pay.
//! Either way the taxes of the lines sum to the whole, and the net is the total less the
//! tax: never a product of its own.
//!
//! Level and rounding are the shop's to choose. Tax on retail sales is rounded half up or
//! finer, never down, in the United Kingdom (HMRC, VAT Traders' Records manual, `VATREC12020`
//! and `VATREC12030`, published); the Union leaves level and rounding to its members (Court
//! of Justice, C-484/06 and C-302/07, published).
//!
//! Delivery has the rate of the goods, whatever the carrier is charged (HMRC, `VTAXPER43000`,
//! published).

use pennantry_measure::{Money, Percent, Rounding};

use super::{Line, LineKind, allocate};
use crate::shop::{Day, Tax, TaxLevel};

/// The tax of an order.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Taxed {
    /// The rate.
    pub rate: Percent,
    /// The tax in the total.
    pub included: Money,
    /// The day whose rate it is.
    pub point: Day,
}

/// The tax in a price that includes it: `gross · r / (100 + r)`.
///
/// ```
/// use pennantry_calc::price::included_tax;
/// use pennantry_measure::{Money, Percent, Rounding};
/// let tax = included_tax(Money::from_minor(2_499), Percent::from_milli(20_000), Rounding::HalfUp);
/// assert_eq!(tax, Money::from_minor(417)); // 4.165
/// ```
pub fn included_tax(gross: Money, rate: Percent, rounding: Rounding) -> Money {
    let rate = i128::from(rate.milli());
    gross.scaled(rate, i128::from(Percent::WHOLE.milli()) + rate, rounding)
}

/// The tax on a price that does not include it: `net · r / 100`.
///
/// ```
/// use pennantry_calc::price::added_tax;
/// use pennantry_measure::{Money, Percent, Rounding};
/// let tax = added_tax(Money::from_minor(499), Percent::from_milli(20_000), Rounding::HalfUp);
/// assert_eq!(tax, Money::from_minor(100)); // 0.998
/// ```
pub fn added_tax(net: Money, rate: Percent, rounding: Rounding) -> Money {
    net.scaled(rate.milli().into(), Percent::WHOLE.milli().into(), rounding)
}

/// The taxes of amounts that are lines of one document, and their sum.
///
/// ```
/// use pennantry_calc::price::taxes;
/// use pennantry_calc::shop::{DatedRate, Day, Tax, TaxLevel, TaxPoint};
/// use pennantry_measure::{Money, Percent, Rounding};
/// let rate = Percent::from_milli(20_000);
/// let mut tax = Tax {
///     name: String::from("VAT"),
///     registration: None,
///     included: true,
///     level: TaxLevel::Document,
///     rounding: Rounding::HalfUp,
///     point: TaxPoint::Order,
///     rates: vec![DatedRate { from: Day(0), share: rate }],
/// };
/// let three = [Money::from_minor(2_499); 3];
/// let of = |tax: &Tax| taxes(tax, rate, &three).into_iter().map(Money::minor).collect::<Vec<_>>();
/// assert_eq!(of(&tax), [417, 417, 416]); // 12.495 of 74.97
/// tax.level = TaxLevel::Line;
/// assert_eq!(of(&tax), [417, 417, 417]); // 4.165 each
/// ```
pub fn taxes(tax: &Tax, rate: Percent, amounts: &[Money]) -> Vec<Money> {
    let of = |amount| {
        let tax_of = if tax.included { included_tax } else { added_tax };
        tax_of(amount, rate, tax.rounding)
    };
    match tax.level {
        TaxLevel::Line => {
            let (mut before, mut taxed) = (Money::ZERO, Money::ZERO);
            let by_itself = amounts.iter().map(|amount| {
                let off = amount.minor().signum() * before.minor().signum() < 0;
                before = before + *amount;
                let tax = if off { of(before) - taxed } else { of(*amount) };
                taxed = taxed + tax;
                tax
            });
            by_itself.collect()
        }
        TaxLevel::Document => {
            let weights: Vec<i64> = amounts.iter().map(|amount| amount.minor()).collect();
            // a sum of nought has no tax, so there is always something to share by
            allocate(of(amounts.iter().copied().sum()), &weights).unwrap_or_default()
        }
    }
}

/// Taxes the lines, adds a line of its own where their amounts do not include it, and says
/// what the tax of all is.
pub(super) fn on_lines(tax: &Tax, rate: Percent, lines: &mut Vec<Line>) -> Money {
    let amounts: Vec<Money> = lines.iter().map(|line| line.amount).collect();
    let mut sum = Money::ZERO;
    for (line, tax) in lines.iter_mut().zip(taxes(tax, rate, &amounts)) {
        line.tax = Some(tax);
        sum = sum + tax;
    }
    if !tax.included {
        lines.push(Line { kind: LineKind::Tax, amount: sum, tax: None });
    }
    sum
}
