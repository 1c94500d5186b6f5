//! From an enquiry of the contract to what is asked of the shop.
//!
//! Every field is read by itself against the one table of bounds; what cannot be
//! read is noted with its path and counts as said, so that checking can go on and
//! everything is told at once.

mod discount;
mod ends;
mod near;

use jiff::civil::Date;
use pennantry_app::quote::Enquiry;
use pennantry_calc::order::{Asked, AskedLength, Field, Hang};
use pennantry_contract::reasons::ViolationReason as Why;
use pennantry_contract::v1;
use pennantry_measure::Length;
use pennantry_measure::bounds::{self, Bound};
use pennantry_measure::text::is_hidden;
use unicode_segmentation::UnicodeSegmentation;

use super::{fields, length, words};
use crate::catalogue::DAYS;
use crate::failure::violation;

const AS_OF: &str = "asOfDate";

/// What was asked, and everything about it that could not be read.
pub struct Read {
    /// What was asked.
    pub enquiry: Enquiry,
    /// What could not be read, in the order found.
    pub violations: Vec<v1::FieldViolation>,
}

impl Read {
    /// Counts more as unreadable.
    pub fn refuse(&mut self, violations: Vec<v1::FieldViolation>) {
        self.enquiry.unreadable.extend(violations.iter().map(|_| Field::Whole));
        self.violations.extend(violations);
    }
}

/// Reads an enquiry.
pub fn read(wire: &v1::Enquiry) -> Read {
    let mut reader = Reader::default();
    let asked = Asked {
        design: reader.code(Some(Field::Design), "designCode", wire.design_code.as_deref()),
        length: reader.asked_length(wire.length.as_ref()),
        count: reader.count(Some(Field::Count), "pennantCount", wire.pennant_count, bounds::PENNANTS),
        gap: reader.length(Field::Gap, wire.gap_mm, bounds::GAP),
        tail: reader.length(Field::Tail, wire.tail_mm, bounds::TAIL),
        ..Asked::default()
    };
    let mut asked = reader.rest(asked, wire);
    let wanted = reader.date(Some(Field::WantedDate), "wantedDate", wire.wanted_date.as_deref());
    let as_of = reader.as_of(wire.as_of_date.as_deref());
    reader.value::<v1::View>("view", wire.view);
    asked.service = reader.code(Some(Field::Service), "service", wire.service.as_deref());
    asked.near = reader.near(wire.near.as_ref());
    asked.country = reader.destination(wire.destination.as_ref());
    asked.discount = reader.discount(wire.discount.as_ref());
    asked.rush = wire.rush.unwrap_or(false);
    Read {
        enquiry: Enquiry { asked, wanted, as_of, unreadable: reader.unreadable },
        violations: reader.violations,
    }
}

/// Reads fields one by one, and keeps what cannot stand.
#[derive(Default)]
pub(super) struct Reader {
    pub(super) violations: Vec<v1::FieldViolation>,
    unreadable: Vec<Field>,
}

impl Reader {
    pub(super) fn refuse(&mut self, field: Option<Field>, path: &str, reason: Why, message: String) {
        self.unreadable.push(field.unwrap_or(Field::Whole));
        self.violations.push(violation(path, reason, message));
    }

    fn rest(&mut self, asked: Asked, wire: &v1::Enquiry) -> Asked {
        let fit = wire.fit.unwrap_or_default();
        let pennant = wire.pennant.unwrap_or_default();
        Asked {
            leftover: self.value("fit.leftover", fit.leftover).and_then(words::read_leftover),
            parity: self.value("fit.parity", fit.parity).and_then(words::read_parity),
            min_gap: self.length(Field::MinGap, fit.min_gap_mm, bounds::GAP),
            max_gap: self.length(Field::MaxGap, fit.max_gap_mm, bounds::GAP),
            shape: self.value("pennant.shape", pennant.shape).and_then(words::read_shape),
            width: self.length(Field::Width, pennant.width_mm, bounds::WIDTH),
            drop: self.length(Field::Drop, pennant.drop_mm, bounds::DROP),
            size_at: self.value("pennant.sizeAt", pennant.size_at).and_then(words::read_size_at),
            foot: self.length(Field::Foot, pennant.foot_mm, bounds::FOOT),
            notch: self.length(Field::Notch, pennant.notch_mm, bounds::NOTCH),
            shoulder: self.length(Field::Shoulder, pennant.shoulder_mm, bounds::SHOULDER),
            rise: self.length(Field::Rise, pennant.rise_mm, bounds::RISE),
            construction: self.value("construction", wire.construction).and_then(words::read_construction),
            backing: self.code(Some(Field::Backing), "backing", wire.backing.as_deref()),
            rule: self
                .value("colourOrder.rule", wire.colour_order.as_ref().and_then(|c| c.rule))
                .and_then(words::read_rule),
            fabrics: self.fabrics(wire.colour_order.as_ref()),
            letters: self.letters(wire.lettering.as_deref()),
            binding: self.code(Some(Field::Binding), "bindingCode", wire.binding_code.as_deref()),
            ends: self.ends(wire.finish.as_ref()),
            trimmings: self.trimmings(wire.finish.as_ref()),
            quantity: self.count(Some(Field::Quantity), "quantity", wire.quantity, bounds::QUANTITY),
            ..asked
        }
    }

    fn asked_length(&mut self, wire: Option<&v1::enquiry::Length>) -> Option<AskedLength> {
        use v1::enquiry::Length as Said;
        match wire? {
            Said::FlaggedMm(mm) => {
                self.length(Field::Flagged, Some(*mm), bounds::LENGTH).map(AskedLength::Flagged)
            }
            Said::OverallMm(mm) => {
                self.length(Field::Overall, Some(*mm), bounds::LENGTH).map(AskedLength::Overall)
            }
            Said::BindingMm(mm) => {
                self.length(Field::BindingLength, Some(*mm), bounds::LENGTH).map(AskedLength::Binding)
            }
            Said::Hang(hang) => {
                let span = self.length(Field::Span, Some(hang.span_mm), bounds::LENGTH);
                let dip = self.length(Field::Dip, Some(hang.dip_mm.unwrap_or(0.0)), bounds::DIP);
                let swags = self.count(
                    Some(Field::Swags),
                    "hang.swagCount",
                    Some(hang.swag_count.unwrap_or(1)),
                    bounds::SWAGS,
                );
                Some(AskedLength::Hang(Hang { span: span?, dip: dip?, swags: swags? }))
            }
        }
    }

    fn length(&mut self, field: Field, mm: Option<f64>, bound: Bound<Length>) -> Option<Length> {
        self.length_at(Some(field), &fields::path(field), mm, bound)
    }

    pub(super) fn length_at(
        &mut self,
        field: Option<Field>,
        path: &str,
        mm: Option<f64>,
        bound: Bound<Length>,
    ) -> Option<Length> {
        let mm = mm?;
        let range = || format!("give {} to {}", bound.least, bound.most);
        let (reason, message) = match length::read(mm) {
            Ok(length) if bound.holds(length) => return Some(length),
            // on the wire a span that is left out is nought
            Ok(length) if field == Some(Field::Span) && length == Length::ZERO => {
                (Why::OutOfRange, format!("the span of the hang is not given, or 0 mm: {}", range()))
            }
            Ok(length) => (Why::OutOfRange, format!("{length} is out of range: {}", range())),
            Err(length::Fault::TooLarge) => {
                (Why::OutOfRange, format!("{} mm is out of range: {}", length::spoken(mm), range()))
            }
            Err(length::Fault::NotFinite) => {
                (Why::NotFinite, format!("{} is not a length: {}", length::spoken(mm), range()))
            }
            Err(length::Fault::TooFine) => (
                Why::LengthTooFine,
                format!(
                    "{} mm is finer than a thousandth of a millimetre: give at most three decimals, {} to {}",
                    length::spoken(mm),
                    bound.least,
                    bound.most
                ),
            ),
        };
        self.refuse(field, path, reason, message);
        None
    }

    pub(super) fn count(
        &mut self,
        field: Option<Field>,
        path: &str,
        count: Option<u32>,
        bound: Bound<u32>,
    ) -> Option<u32> {
        let count = count?;
        if bound.holds(count) {
            return Some(count);
        }
        let message = format!("{count} is out of range: give {} to {}", bound.least, bound.most);
        self.refuse(field, path, Why::OutOfRange, message);
        None
    }

    fn code(&mut self, field: Option<Field>, path: &str, code: Option<&str>) -> Option<String> {
        const MOST: usize = 40;
        let code = code?;
        if code.is_empty() {
            self.refuse(
                field,
                path,
                Why::UnknownCode,
                String::from("the code is empty: give one of the catalogue's, or leave it out"),
            );
            return None;
        }
        let length = code.chars().count();
        if length > MOST {
            self.refuse(
                field,
                path,
                Why::TooLong,
                format!("a code of {length} characters is too long: codes have 1 to {MOST}"),
            );
            return None;
        }
        Some(code.to_owned())
    }

    /// A named value of an enumeration; numbers that the contract does not name are
    /// refused, never read as the zero value.
    fn value<E: Named>(&mut self, path: &str, number: Option<i32>) -> Option<E> {
        self.value_at(None, path, number)
    }

    pub(super) fn value_at<E: Named>(
        &mut self,
        field: Option<Field>,
        path: &str,
        number: Option<i32>,
    ) -> Option<E> {
        let number = number?;
        let value = E::try_from(number).ok();
        if value.is_none() {
            let message = format!("{number} is not a value of this field: give {}", E::allowed());
            self.refuse(field, path, Why::UnknownValue, message);
        }
        value
    }

    fn fabrics(&mut self, wire: Option<&v1::ColourOrder>) -> Vec<String> {
        let Some(order) = wire else { return Vec::new() };
        let most = bounds::PENNANTS.most;
        let count = u32::try_from(order.fabric_codes.len()).unwrap_or(u32::MAX);
        if count == 0 {
            self.refuse(
                Some(Field::Fabrics),
                "colourOrder.fabricCodes",
                Why::Missing,
                format!(
                    "no fabric is named: name 1 to {}, or leave colourOrder out for the design's",
                    bounds::FABRICS.most
                ),
            );
        }
        if count > most {
            self.refuse(
                Some(Field::Fabrics),
                "colourOrder.fabricCodes",
                Why::TooLong,
                format!("{count} entries are too many: give 1 to {most}"),
            );
            return Vec::new();
        }
        let mut codes = Vec::with_capacity(order.fabric_codes.len());
        for (code, place) in order.fabric_codes.iter().zip(0..) {
            if code.is_empty() || code.len() > 40 {
                let field = Field::Fabric(place);
                // an unreadable entry keeps its place, so that later ones keep theirs
                self.code(Some(field), &fields::path(field), Some(code));
                if self.violations.len() > 100 {
                    break;
                }
            }
            codes.push(code.clone());
        }
        if self.unreadable.iter().any(|f| matches!(f, Field::Fabric(_))) {
            self.unreadable.push(Field::Fabrics);
            return Vec::new();
        }
        codes
    }

    fn letters(&mut self, text: Option<&str>) -> Vec<String> {
        let Some(text) = text.filter(|text| !text.is_empty()) else { return Vec::new() };
        let most = bounds::LETTERS.most;
        // bytes first: nobody counts the letters of a megabyte
        let letters: Vec<String> =
            if text.len() > 4_000 { Vec::new() } else { text.graphemes(true).map(str::to_owned).collect() };
        if letters.is_empty() || u32::try_from(letters.len()).unwrap_or(u32::MAX) > most {
            let count = if letters.is_empty() {
                format!("{} bytes", text.len())
            } else {
                format!("{} letters and spaces", letters.len())
            };
            self.refuse(
                Some(Field::Lettering),
                "lettering",
                Why::TooLong,
                format!("a lettering of {count} is too long: give 1 to {most} letters and spaces"),
            );
            return Vec::new();
        }
        letters
    }

    fn trimmings(&mut self, wire: Option<&v1::Finish>) -> Vec<(String, u32)> {
        let Some(finish) = wire else { return Vec::new() };
        if finish.trimmings.len() > 10 {
            self.refuse(
                None,
                "finish.trimmings",
                Why::TooLong,
                format!("{} kinds of trimmings are too many: give up to 10", finish.trimmings.len()),
            );
        }
        let mut codes = Vec::new();
        for (trimming, place) in finish.trimmings.iter().take(10).zip(0..) {
            let field = Field::Trimming(place);
            let code = self.code(Some(field), &fields::path(field), Some(&trimming.code));
            let each = self.count(
                None,
                &format!("finish.trimmings[{place}].perPennant"),
                Some(trimming.per_pennant.unwrap_or(1)),
                bounds::PER_PENNANT,
            );
            codes.extend(code.zip(each));
        }
        codes
    }

    fn destination(&mut self, wire: Option<&v1::Destination>) -> Option<String> {
        let destination = wire?;
        let code = &destination.country_code;
        if code.len() != 2 || !code.bytes().all(|b| b.is_ascii_uppercase()) {
            let shown: String = code.chars().take(12).filter(|c| !is_hidden(*c)).collect();
            self.refuse(
                Some(Field::Country),
                "destination.countryCode",
                Why::UnknownCode,
                format!("\"{shown}\" is not a country: give two capitals of ISO 3166-1, such as GB"),
            );
            return None;
        }
        Some(code.clone())
    }

    pub(super) fn date(&mut self, field: Option<Field>, path: &str, text: Option<&str>) -> Option<Date> {
        let text = text?;
        let date = if text.len() == 10 { text.parse::<Date>().ok() } else { None };
        if date.is_none() {
            let shown: String = text.chars().take(20).filter(|c| !is_hidden(*c)).collect();
            self.refuse(
                field,
                path,
                Why::BadDate,
                format!(
                    "\"{shown}\" is not a day: give year, month and day of the calendar, such as 2026-12-04"
                ),
            );
        }
        date
    }

    /// The day as of which staff ask: one that a catalogue may name.
    fn as_of(&mut self, text: Option<&str>) -> Option<Date> {
        let date = self.date(None, AS_OF, text)?;
        if !DAYS.holds(date) {
            self.refuse(
                None,
                AS_OF,
                Why::OutOfRange,
                format!("{date} is out of range: give a day from {} to {}", DAYS.least, DAYS.most),
            );
            return None;
        }
        Some(date)
    }
}

/// An enumeration of the contract that can say what it allows.
pub(super) trait Named: TryFrom<i32> {
    /// Full name in the contract.
    const NAME: &'static str;

    /// The values allowed, for messages.
    fn allowed() -> String {
        let values = pennantry_contract::table::enumeration(Self::NAME).map(|e| e.values).unwrap_or_default();
        values.iter().filter(|v| v.number != 0).map(|v| v.name).collect::<Vec<_>>().join(", ")
    }
}

macro_rules! named {
    ($($name:ident)+) => {$(impl Named for v1::$name { const NAME: &'static str = concat!("pennantry.v1.", stringify!($name)); })+};
}
named! {
    Shape SizeAt Construction Leftover Parity Rule EndStyle Who Place Jurisdiction View
    PieceKind StockReason ReservationState
}
