//! What a buyer may see of a message: only fields that the contract lists for buyers are
//! written, in its order, whatever else the message holds.

use pennantry_contract::table::{Audience, Kind, Message};
use serde::ser::{SerializeMap, SerializeSeq};
use serde::{Serialize, Serializer};
use serde_json::Value;

/// A message as JSON, and what it is.
pub struct Seen<'a> {
    message: &'static Message,
    whole: &'a Value,
}

impl<'a> Seen<'a> {
    /// What a buyer may see of a message. `whole` is all of it in JSON.
    pub fn new(message: &'static Message, whole: &'a Value) -> Seen<'a> {
        Seen { message, whole }
    }
}

impl Serialize for Seen<'_> {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        match self.whole {
            Value::Array(entries) => {
                let mut list = to.serialize_seq(Some(entries.len()))?;
                for entry in entries {
                    list.serialize_element(&Seen::new(self.message, entry))?;
                }
                list.end()
            }
            Value::Object(keys) => {
                let mut map = to.serialize_map(None)?;
                for field in self.message.fields.iter().filter(|field| field.audience == Audience::Buyer) {
                    let Some(value) = keys.get(field.json_name) else { continue };
                    match field.kind {
                        Kind::Message(inner) => {
                            map.serialize_entry(field.json_name, &Seen::new(inner, value))
                        }
                        _ => map.serialize_entry(field.json_name, value),
                    }?;
                }
                map.end()
            }
            other => other.serialize(to),
        }
    }
}

#[cfg(test)]
mod tests {
    use pennantry_contract::{table, v1};

    use super::*;

    #[test]
    fn what_is_the_shops_is_left_out_and_the_order_is_the_contracts() {
        let notice = v1::ReservationNotice { code: "X".to_owned(), message: "y".to_owned() };
        let reservation = v1::Reservation {
            reservation_id: "r1".to_owned(),
            total: Some(v1::Money { currency_code: "GBP".to_owned(), minor_units: 5 }),
            notices: vec![notice],
            lines: vec![v1::ReservationLine { piece_id: "B-1".to_owned(), ..Default::default() }],
            holder: "203.0.113.7".to_owned(),
            short: true,
            ..Default::default()
        };
        let whole = serde_json::to_value(&reservation).unwrap();
        let seen = serde_json::to_string(&Seen::new(&table::RESERVATION, &whole)).unwrap();
        assert!(seen.starts_with(r#"{"reservationId":"r1","state":"#), "{seen}");
        assert!(seen.contains(r#""total":{"currencyCode":"GBP","minorUnits":"5"}"#), "{seen}");
        assert!(seen.contains(r#""notices":[{"code":"X","message":"y"}],"replayed":false}"#), "{seen}");
        for kept in ["lines", "holder", "short", "B-1", "203.0.113.7", "benchMinutes"] {
            assert!(!seen.contains(kept), "{kept} in {seen}");
        }
    }
}
