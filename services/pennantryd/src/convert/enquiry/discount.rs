//! Reading what staff take off.

use pennantry_calc::order::{Discount, DiscountPart, Field, Off};
use pennantry_contract::reasons::ViolationReason as Why;
use pennantry_contract::v1;
use pennantry_measure::bounds::{self, Bound};
use pennantry_measure::{Money, Percent};

use super::super::fields;
use super::super::length::{self, Fault};
use super::Reader;

/// What may be taken off as a share.
const SHARE: Bound<Percent> = Bound { least: Percent::from_milli(1_000), most: Percent::WHOLE };

impl Reader {
    pub(super) fn discount(&mut self, wire: Option<&v1::Discount>) -> Option<Discount> {
        let wire = wire?;
        let off = match wire.off.as_ref() {
            Some(v1::discount::Off::Percent(percent)) => self.share(*percent).map(Off::Share),
            Some(v1::discount::Off::MinorUnits(minor)) => self.minor(*minor).map(Off::Amount),
            None => {
                let message =
                    "nothing says how much is off: give percent or minorUnits, or leave the discount out";
                self.refuse_part(DiscountPart::Percent, Why::Missing, message.to_owned());
                None
            }
        };
        let reason = self.reason(&wire.reason);
        Some(Discount { off: off?, reason: reason? })
    }

    fn share(&mut self, percent: f64) -> Option<Percent> {
        // thousandths of a percent are read as those of a millimetre are
        let (spoken, range) = (length::spoken(percent), format!("give {} to {}", SHARE.least, SHARE.most));
        let (why, message) = match length::read(percent).map(|read| Percent::from_milli(read.um())) {
            Ok(share) if SHARE.holds(share) => return Some(share),
            Ok(_) | Err(Fault::TooLarge) => (Why::OutOfRange, format!("{spoken} % is out of range: {range}")),
            Err(Fault::NotFinite) => (Why::NotFinite, format!("{spoken} is not a share: {range}")),
            Err(Fault::TooFine) => (
                Why::OutOfRange,
                format!(
                    "{spoken} % is finer than a thousandth of a percent: {range}, with at most three decimals"
                ),
            ),
        };
        self.refuse_part(DiscountPart::Percent, why, message);
        None
    }

    fn minor(&mut self, minor: i64) -> Option<Money> {
        let bound = bounds::DISCOUNT_MINOR;
        if u32::try_from(minor).is_ok_and(|minor| bound.holds(minor)) {
            return Some(Money::from_minor(minor));
        }
        let message = format!("{minor} minor units are out of range: give {} to {}", bound.least, bound.most);
        self.refuse_part(DiscountPart::Minor, Why::OutOfRange, message);
        None
    }

    fn reason(&mut self, reason: &str) -> Option<String> {
        let (bound, text) = (bounds::REASON, reason.trim());
        let range = format!("give {} to {} characters on one line", bound.least, bound.most);
        let count = u32::try_from(text.chars().take(1_000).count()).unwrap_or(u32::MAX);
        let (why, message) = if text.is_empty() {
            (Why::Missing, format!("a discount needs a reason for the bill: {range}"))
        } else if count > bound.most {
            (Why::TooLong, format!("a reason of {count} characters or more is too long: {range}"))
        } else if count < bound.least {
            let characters = if count == 1 { "1 character" } else { "2 characters" };
            (Why::OutOfRange, format!("a reason of {characters} is too short: {range}"))
        } else if text.chars().any(char::is_control) {
            (Why::BadText, format!("the reason holds a control character: {range}"))
        } else {
            return Some(text.to_owned());
        };
        self.refuse_part(DiscountPart::Reason, why, message);
        None
    }

    fn refuse_part(&mut self, part: DiscountPart, why: Why, message: String) {
        let field = Field::Discount(part);
        self.refuse(Some(field), &fields::path(field), why, message);
    }
}
