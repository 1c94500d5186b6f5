//! What the shop alone may say in an enquiry.

use std::borrow::Cow;

use pennantry_contract::reasons::ViolationReason;
use pennantry_contract::v1;

use crate::failure::violation;

/// Takes out what only staff may say, and gives a violation for each.
pub fn take_out(asked: &mut Cow<'_, v1::Enquiry>) -> Vec<v1::FieldViolation> {
    let mut found = Vec::new();
    if asked.discount.is_some() {
        asked.to_mut().discount = None;
        found.push("discount");
    }
    if asked.as_of_date.is_some() {
        asked.to_mut().as_of_date = None;
        found.push("asOfDate");
    }
    let told = |field: &str| {
        let message = format!(
            "{field} is said by the shop alone: leave it out here, or ask at the shop's private door"
        );
        violation(field, ViolationReason::StaffOnly, message)
    };
    found.into_iter().map(told).collect()
}

#[cfg(test)]
mod tests {
    use pennantry_contract::table::{self, Audience, Kind, Message};

    use super::*;

    /// Fields of the shop alone that a public enquiry can hold.
    fn of_the_shop(message: &Message, above: &str, found: &mut Vec<String>) {
        for field in message.fields {
            let path = format!("{above}{}", field.json_name);
            match field.kind {
                _ if field.audience == Audience::Shop => found.push(path),
                Kind::Message(inner) => of_the_shop(inner, &format!("{path}."), found),
                _ => {}
            }
        }
    }

    #[test]
    fn everything_that_the_contract_keeps_for_the_shop_is_taken_out() {
        let enquiry = v1::Enquiry {
            lettering: Some("TWO".to_owned()),
            discount: Some(v1::Discount::default()),
            as_of_date: Some(String::new()),
            ..v1::Enquiry::default()
        };
        let mut asked = Cow::Borrowed(&enquiry);
        let taken: Vec<String> = take_out(&mut asked).into_iter().map(|violation| violation.field).collect();
        let mut kept = Vec::new();
        of_the_shop(&table::ENQUIRY, "", &mut kept);
        assert_eq!(taken, kept);
        let rest = v1::Enquiry { lettering: enquiry.lettering.clone(), ..v1::Enquiry::default() };
        assert_eq!(*asked, rest);
        assert_eq!(take_out(&mut asked), []);
    }
}
