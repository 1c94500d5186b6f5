//! Fields of an order as paths of the contract, and reasons as its reasons.

use pennantry_calc::order::{DiscountPart, EndPart, Field, NearPart, Reason, Violation};
use pennantry_contract::reasons::ViolationReason;
use pennantry_contract::{table, v1};

use crate::failure::violation;

/// The path of a field in JSON names.
pub fn path(field: Field) -> String {
    let fixed = match field {
        Field::Whole => "",
        Field::Design => "designCode",
        Field::Flagged => "flaggedMm",
        Field::Overall => "overallMm",
        Field::BindingLength => "bindingMm",
        Field::Span => "hang.spanMm",
        Field::Dip => "hang.dipMm",
        Field::Swags => "hang.swagCount",
        Field::Count => "pennantCount",
        Field::Gap => "gapMm",
        Field::Tail => "tailMm",
        Field::Leftover => "fit.leftover",
        Field::Parity => "fit.parity",
        Field::MinGap => "fit.minGapMm",
        Field::MaxGap => "fit.maxGapMm",
        Field::Shape => "pennant.shape",
        Field::Width => "pennant.widthMm",
        Field::Drop => "pennant.dropMm",
        Field::SizeAt => "pennant.sizeAt",
        Field::Foot => "pennant.footMm",
        Field::Notch => "pennant.notchMm",
        Field::Shoulder => "pennant.shoulderMm",
        Field::Rise => "pennant.riseMm",
        Field::Construction => "construction",
        Field::Backing => "backing",
        Field::ColourRule => "colourOrder.rule",
        Field::Fabrics => "colourOrder.fabricCodes",
        Field::Lettering => "lettering",
        Field::Binding => "bindingCode",
        Field::Quantity => "quantity",
        Field::Country => "destination.countryCode",
        Field::Service => "service",
        Field::WantedDate => "wantedDate",
        Field::Discount(DiscountPart::Whole) => "discount",
        Field::Discount(DiscountPart::Percent) => "discount.percent",
        Field::Discount(DiscountPart::Minor) => "discount.minorUnits",
        Field::Discount(DiscountPart::Reason) => "discount.reason",
        Field::Rush => "rush",
        Field::Fabric(place) => return format!("colourOrder.fabricCodes[{place}]"),
        Field::End(place, part) => return format!("finish.ends[{place}].{}", end(part)),
        Field::Near(NearPart::Jurisdiction(place)) => return format!("near.jurisdictions[{place}]"),
        Field::Near(part) => return format!("near.{}", near(part)),
        Field::Trimming(place) => return format!("finish.trimmings[{place}].code"),
    };
    fixed.to_owned()
}

/// A field of an end.
fn end(part: EndPart) -> &'static str {
    match part {
        EndPart::Style => "style",
        EndPart::Perimeter => "loopMm",
        EndPart::Slips => "slips",
        EndPart::Breakaway => "breakawayN",
        EndPart::Tie => "tieMm",
        EndPart::SecondTie => "secondTieMm",
        EndPart::TiesApart => "tiesApartMm",
        EndPart::Trimming => "trimmingCode",
    }
}

/// A field of who is near.
fn near(part: NearPart) -> &'static str {
    match part {
        NearPart::Who => "who",
        NearPart::Months => "youngestMonths",
        NearPart::Place => "place",
        NearPart::FixingHeight => "fixingHeightMm",
        NearPart::Fixings => "fixings",
        NearPart::Span => "spanMm",
        NearPart::CotDistance => "cotDistanceMm",
        NearPart::Jurisdictions | NearPart::Jurisdiction(_) => "jurisdictions",
        NearPart::WallWidth => "wallWidthMm",
        NearPart::WallHeight => "wallHeightMm",
    }
}

/// A reason of the calculation as one of the contract.
pub fn reason(reason: Reason) -> ViolationReason {
    match reason {
        Reason::Missing => ViolationReason::Missing,
        Reason::OutOfRange => ViolationReason::OutOfRange,
        Reason::UnknownCode => ViolationReason::UnknownCode,
        Reason::Repeated => ViolationReason::Repeated,
        Reason::Contradiction => ViolationReason::Contradiction,
        Reason::DoesNotFit => ViolationReason::DoesNotFit,
        Reason::NotOffered => ViolationReason::NotOffered,
        Reason::PastDate => ViolationReason::PastDate,
        Reason::BadText => ViolationReason::BadText,
    }
}

/// A violation of the calculation as one of the contract.
pub fn told(found: Violation) -> v1::FieldViolation {
    violation(&path(found.field), reason(found.reason), found.message)
}

/// Sorts violations by the order in which the contract declares their fields.
pub fn in_field_order(violations: &mut [v1::FieldViolation]) {
    violations.sort_by_cached_key(|v| place(&v.field));
}

/// Where a path stands: the declared place of each part, and the index of each list.
fn place(path: &str) -> Vec<usize> {
    let mut message = Some(&table::ENQUIRY);
    let mut key = Vec::new();
    for part in path.split('.') {
        let (name, index) = part.split_once('[').unwrap_or((part, ""));
        let found = message.and_then(|m| m.fields.iter().position(|f| f.json_name == name).zip(Some(m)));
        let Some((position, current)) = found else { break };
        key.push(position);
        key.push(index.trim_end_matches(']').parse().unwrap_or(0));
        message = match current.fields.get(position).map(|f| f.kind) {
            Some(table::Kind::Message(inner)) => Some(inner),
            _ => None,
        };
    }
    key
}
