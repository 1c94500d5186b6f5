//! What an answer of the public door may hold, by the audience of each field.

use pennantry_contract::DESCRIPTOR;
use prost_reflect::{DescriptorPool, DynamicMessage, FieldDescriptor, Value};

use crate::contract_tables::rule_of;

/// Paths of all that an encoded message holds and a buyer may not see, such as
/// `price.cost`; also numbers of fields that the contract does not know.
///
/// What lies inside a private message is not listed again.
pub fn private_fields_in(message_full_name: &str, bytes: &[u8]) -> Vec<String> {
    let pool = DescriptorPool::decode(DESCRIPTOR).unwrap();
    let kind =
        pool.get_message_by_name(message_full_name).unwrap_or_else(|| panic!("no {message_full_name}"));
    let message = DynamicMessage::decode(kind, bytes).unwrap();
    let mut found = Vec::new();
    collect(&message, "", &mut found);
    found
}

fn collect(message: &DynamicMessage, path: &str, found: &mut Vec<String>) {
    let inside = |name: &str| if path.is_empty() { name.to_owned() } else { format!("{path}.{name}") };
    for (field, value) in message.fields() {
        let path = inside(field.json_name());
        if is_private(&field) {
            found.push(path);
            continue;
        }
        match value {
            Value::Message(message) => collect(message, &path, found),
            Value::List(entries) => {
                for (index, entry) in entries.iter().enumerate() {
                    if let Value::Message(message) = entry {
                        collect(message, &format!("{path}[{index}]"), found);
                    }
                }
            }
            _ => {}
        }
    }
    found.extend(message.unknown_fields().map(|field| inside(&format!("#{}", field.number()))));
}

/// Nothing said means the shop alone: a new field is private until it is listed.
fn is_private(field: &FieldDescriptor) -> bool {
    !rule_of(field).buyer
}

mod tests {
    use prost::Message as _;

    use pennantry_contract::v1;

    use super::private_fields_in;
    use crate::doors::House;
    use crate::golden;

    /// What the public door gave for every case holds nothing that is the shop's alone.
    #[tokio::test]
    async fn the_public_door_gives_nothing_private() {
        let house = House::demo().await;
        let mut answered = 0;
        for case in golden::cases().iter().filter(|case| case.plain() && !case.private()) {
            let told = house.public_json(&case.request(&house.fabrics)).await;
            let Ok(quote) = told.answer else { continue };
            let found = private_fields_in("pennantry.v1.Quote", &quote.encode_to_vec());
            assert_eq!(found, [""; 0], "{}", case.name);
            answered += 1;
        }
        assert!(answered > 40, "only {answered} answers looked at");
        let reply = house.get(house.public(), "/v1/catalogue").await;
        let catalogue: v1::Catalogue = serde_json::from_slice(&reply.body).expect("a catalogue");
        assert_eq!(private_fields_in("pennantry.v1.Catalogue", &catalogue.encode_to_vec()), [""; 0]);
        house.close().await;
    }

    /// A ticket that staff were given holds nothing that is the shop's alone, and so there is
    /// nothing in it for whoever brings it to the public door.
    #[tokio::test]
    async fn a_ticket_of_staff_tells_nothing_private() {
        let house = House::demo().await;
        let mut staff = serde_json::json!({
            "flaggedMm": 6200, "lettering": "ADA", "view": "VIEW_SHOP", "asOfDate": "2026-11-23",
            "discount": {"percent": 10, "reason": "returning buyer"},
        });
        let quote = house.private_json(&staff).await.answer.expect("a quote");
        assert_eq!((quote.token, quote.expire_time), (None, None), "as of a day");
        staff["asOfDate"] = serde_json::Value::Null;
        let quote = house.private_json(&staff).await.answer.expect("a quote");
        let kept = private_fields_in("pennantry.v1.Quote", &quote.encode_to_vec());
        assert!(kept.contains(&"understood.discount".to_owned()), "{kept:?}");
        let body = serde_json::json!({"token": quote.token}).to_string();
        let reply = house.post(house.public(), "/v1/quotes/check", body.as_bytes()).await;
        let check: v1::QuoteCheck = serde_json::from_slice(&reply.body).expect("a finding");
        assert!(check.valid && check.understood.is_some(), "{check:?}");
        assert_eq!(check.order_date.as_deref(), Some("2026-11-24"));
        assert_eq!(private_fields_in("pennantry.v1.QuoteCheck", &check.encode_to_vec()), [""; 0]);
        let text = String::from_utf8(reply.body.to_vec()).expect("JSON is text");
        assert!(text.contains("ADA"), "{text}");
        // the buyer has seen the line; what staff typed for it stays with them
        let understood = serde_json::to_string(&check.understood).expect("an enquiry");
        assert!(check.summary.contains("returning buyer") && !understood.contains("discount"), "{text}");
        // and what is asked for the buyer's eyes does not show them either
        let mut shown = staff;
        shown["view"] = "VIEW_BUYER".into();
        let quote = house.private_json(&shown).await.answer.expect("a quote");
        assert_eq!(private_fields_in("pennantry.v1.Quote", &quote.encode_to_vec()), [""; 0]);
        house.close().await;
    }

    /// The same question in the shop's view does hold them: there is something to hide.
    #[tokio::test]
    async fn the_private_door_gives_the_shops_figures_to_the_shop_alone() {
        let house = House::demo().await;
        for (view, there) in [("VIEW_SHOP", true), ("VIEW_BUYER", false)] {
            let told = house.private_json(&serde_json::json!({"flaggedMm": 6200, "view": view})).await;
            let quote = told.answer.expect("a quote");
            let found = private_fields_in("pennantry.v1.Quote", &quote.encode_to_vec());
            let kept = ["binding.bought", "parcel.postage", "price.cost"];
            assert_eq!(found, if there { kept.to_vec() } else { Vec::new() }, "{view}");
        }
        house.close().await;
    }

    #[test]
    fn private_fields_are_found_wherever_they_are() {
        let money = || Some(v1::Money { currency_code: "GBP".to_owned(), minor_units: 5400 });
        let line = |code: &str| v1::PriceLine {
            code: code.to_owned(),
            text: "Bunting".to_owned(),
            amount: money(),
            tax: None,
        };
        let mut quote = v1::Quote {
            catalogue_revision: "r".to_owned(),
            price: Some(v1::Price { lines: vec![line("GOODS")], total: money(), ..Default::default() }),
            ..Default::default()
        };
        let private = |quote: &v1::Quote| private_fields_in("pennantry.v1.Quote", &quote.encode_to_vec());
        assert_eq!(private(&quote), [""; 0]);
        let price = quote.price.as_mut().unwrap();
        price.cost = Some(v1::Cost { lines: vec![line("CLOTH")], ..Default::default() });
        assert_eq!(private(&quote), ["price.cost"]);

        let outcome = v1::QuoteOutcome { outcome: Some(v1::quote_outcome::Outcome::Quote(quote.clone())) };
        let several = v1::CalculateQuotesResponse { outcomes: vec![v1::QuoteOutcome::default(), outcome] };
        let found = private_fields_in("pennantry.v1.CalculateQuotesResponse", &several.encode_to_vec());
        assert_eq!(found, ["outcomes[1].quote.price.cost"]);

        // a varint in a field that no message has: number 1000, value 1
        let mut bytes = v1::Quote::default().encode_to_vec();
        bytes.extend([0xc0, 0x3e, 0x01]);
        assert_eq!(private_fields_in("pennantry.v1.Quote", &bytes), ["#1000"]);
    }
}
