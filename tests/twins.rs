//! The same question gets the same message by every door (invariant 7).

mod report;
mod stock;

use pennantry_contract::{table, v1};
use prost::Message;
use serde_json::{Value, json};

use crate::dice::{self, Dice};
use crate::doors::{Answer, House, Json, Refused};
use crate::golden;

pub use stock::pieces;

/// How many random orders are asked.
const ORDERS: usize = 2_000;
/// One order in so many is spoiled.
const SPOILED: usize = 4;

/// Complaints where the doors do not agree on one enquiry.
async fn disagreements(house: &House, request: &Value) -> Vec<String> {
    let enquiry: v1::Enquiry = match serde_json::from_value(request.clone()) {
        Ok(enquiry) => enquiry,
        Err(fault) => return vec![format!("not an enquiry: {fault}")],
    };
    let grpc = house.grpc(&enquiry).await;
    let mut found = Vec::new();
    for door in Json::BOTH {
        let body = match door {
            Json::Public => request.clone(),
            Json::Private => json!({"enquiry": request}),
        };
        let told = house.json(door, body.to_string().as_bytes()).await.answer;
        if let Some(difference) = difference(&grpc, &told) {
            found.push(format!("{request}: gRPC and {door:?} JSON: {difference}"));
        }
    }
    found
}

fn difference(grpc: &Answer, json: &Answer) -> Option<String> {
    match (grpc, json) {
        (Ok(one), Ok(other)) if one.encode_to_vec() == other.encode_to_vec() => None,
        (Ok(one), Ok(other)) => Some(format!("answers differ: {one:?}\n{other:?}")),
        (Err(one), Err(other)) if same(one, other) => None,
        (one, other) => Some(format!("{one:?}\n{other:?}")),
    }
}

fn same(one: &Refused, other: &Refused) -> bool {
    one.reason == other.reason && one.detail == other.detail && one.violations == other.violations
}

#[tokio::test]
async fn invariant_07_every_door_gives_the_same_message_for_every_case() {
    let house = House::demo().await;
    let mut found = Vec::new();
    for case in golden::cases().iter().filter(|case| case.plain() && !case.private()) {
        found.extend(disagreements(&house, &case.request(&house.fabrics)).await);
    }
    house.close().await;
    assert!(found.is_empty(), "{}", found.join("\n"));
}

#[tokio::test]
async fn invariant_07_every_door_gives_the_same_message_for_random_orders() {
    let house = House::demo().await;
    let mut dice = Dice::new(20_261_124);
    let mut found = Vec::new();
    let (mut answered, mut refused) = (0, 0);
    for turn in 0..ORDERS {
        let mut request = dice::order(&mut dice, &house.stock);
        if turn % SPOILED == 0 {
            dice::spoil(&mut dice, &mut request);
        }
        let enquiry: v1::Enquiry = serde_json::from_value(request.clone()).expect("an enquiry");
        if house.grpc(&enquiry).await.is_ok() {
            answered += 1;
        } else {
            refused += 1;
        }
        found.extend(disagreements(&house, &request).await);
    }
    house.close().await;
    assert!(found.is_empty(), "{} of {ORDERS}:\n{}", found.len(), found.join("\n"));
    // both kinds have to be there for the comparison to mean anything
    assert!(answered > ORDERS / 2 && refused > ORDERS / 10, "{answered} answered, {refused} refused");
}

/// Asking again, with the same words in another order, gives the same bytes.
#[tokio::test]
async fn invariant_07_asking_again_gives_the_same_bytes() {
    let house = House::demo().await;
    let one = house.json(Json::Public, br#"{"flaggedMm": 6200, "tailMm": 300.0}"#).await;
    let other = house.json(Json::Public, br#"{"tailMm": 3e2, "flagged_mm": "6200"}"#).await;
    assert!(one.answer.is_ok(), "{:?}", one.answer);
    assert_eq!(one.body, other.body);
    house.close().await;
}

/// Methods of the contract whose doors are compared here.
const COMPARED: [&str; 4] = [
    "/pennantry.v1.QuoteService/CalculateQuote",
    "/pennantry.v1.QuoteService/CalculateQuotes",
    "/pennantry.v1.CatalogueService/GetCatalogue",
    "/pennantry.v1.QuoteService/CheckQuote",
];

#[test]
fn every_method_has_its_twins_compared() {
    let mut listed: Vec<String> =
        table::METHODS.iter().filter(|m| !m.server_streaming).map(table::Method::path).collect();
    let mut compared: Vec<String> =
        COMPARED.into_iter().chain(stock::COMPARED).chain(report::COMPARED).map(str::to_owned).collect();
    listed.sort();
    compared.sort();
    assert_eq!(listed, compared, "a method without a comparison of its doors, or the other way round");
}

#[tokio::test]
async fn several_enquiries_are_the_same_by_both_private_doors() {
    let house = House::demo().await;
    let mut dice = Dice::new(50);
    let enquiries: Vec<Value> = (0..50)
        .map(|turn| {
            let mut request = dice::order(&mut dice, &house.stock);
            if turn % SPOILED == 0 {
                dice::spoil(&mut dice, &mut request);
            }
            request
        })
        .collect();
    let several = json!({"enquiries": enquiries});
    let request: v1::CalculateQuotesRequest = serde_json::from_value(several.clone()).expect("a request");
    let grpc = house.quotes().calculate_quotes(request).await.expect("they are answered").into_inner();
    let reply = house.post(house.private(), COMPARED[1], several.to_string().as_bytes()).await;
    let twin: v1::CalculateQuotesResponse = serde_json::from_slice(&reply.body).expect("a response");
    assert_eq!(grpc.encode_to_vec(), twin.encode_to_vec());
    // each stands for itself: the answer is that of the single call
    assert_eq!(grpc.outcomes.len(), 50);
    for (outcome, enquiry) in grpc.outcomes.into_iter().zip(&enquiries) {
        let single = house.grpc(&serde_json::from_value(enquiry.clone()).expect("an enquiry")).await;
        let listed = match outcome.outcome.expect("an outcome") {
            v1::quote_outcome::Outcome::Quote(quote) => Ok(quote),
            v1::quote_outcome::Outcome::Refusal(refusal) => Err(Refused {
                reason: refusal.reason,
                detail: refusal.detail,
                violations: refusal.violations,
            }),
        };
        assert_eq!(difference(&single, &listed), None, "{enquiry}");
    }
    house.close().await;
}

#[tokio::test]
async fn too_many_or_no_enquiries_are_refused_alike() {
    let house = House::demo().await;
    for count in [0, 51] {
        let several = json!({"enquiries": vec![json!({"flaggedMm": 6200}); count]});
        let request: v1::CalculateQuotesRequest = serde_json::from_value(several.clone()).expect("a request");
        let status = house.quotes().calculate_quotes(request).await.expect_err("refused");
        let grpc = House::refusal_of(&status);
        let reply = house.post(house.private(), COMPARED[1], several.to_string().as_bytes()).await;
        assert_eq!(reply.status, 400);
        let twin = House::problem(&reply);
        assert!(same(&grpc, &twin), "{grpc:?}\n{twin:?}");
        assert_eq!(grpc.violations[0].field, "enquiries");
        assert!(grpc.violations[0].message.contains("50"), "{grpc:?}");
    }
    house.close().await;
}

#[tokio::test]
async fn the_catalogue_is_the_same_by_every_door() {
    let house = House::demo().await;
    let grpc = house.catalogue().await;
    let private = house.post(house.private(), COMPARED[2], b"{}").await;
    let private: v1::GetCatalogueResponse = serde_json::from_slice(&private.body).expect("a response");
    let public = house.get(house.public(), "/v1/catalogue").await;
    let public: v1::Catalogue = serde_json::from_slice(&public.body).expect("a catalogue");
    assert_eq!(private.catalogue.expect("a catalogue").encode_to_vec(), grpc.encode_to_vec());
    assert_eq!(public.encode_to_vec(), grpc.encode_to_vec());
    house.close().await;
}

/// What each door says of a ticket.
async fn checks(house: &House, token: &str) -> [Vec<u8>; 3] {
    let ticket = json!({"token": token});
    let request = v1::CheckQuoteRequest { ticket: Some(v1::Ticket { token: token.to_owned() }) };
    let grpc = house.quotes().check_quote(request).await.expect("an answer").into_inner();
    let private =
        house.post(house.private(), COMPARED[3], json!({"ticket": ticket}).to_string().as_bytes()).await;
    let private: v1::CheckQuoteResponse = serde_json::from_slice(&private.body).expect("a response");
    let public = house.post(house.public(), "/v1/quotes/check", ticket.to_string().as_bytes()).await;
    let public: v1::QuoteCheck = serde_json::from_slice(&public.body).expect("a finding");
    [grpc.check, private.check, Some(public)].map(|check| check.expect("a finding").encode_to_vec())
}

/// A ticket given at one door is looked through alike at all of them, and so is one that is
/// not whole.
#[tokio::test]
async fn a_ticket_is_the_same_by_every_door() {
    let house = House::demo().await;
    let mut dice = Dice::new(77);
    let (mut held, mut expected) = (0, 0);
    for _ in 0..100 {
        let request = dice::order(&mut dice, &house.stock);
        let enquiry: v1::Enquiry = serde_json::from_value(request.clone()).expect("an enquiry");
        let Ok(quote) = house.grpc(&enquiry).await else { continue };
        let Some(token) = quote.token else { continue };
        expected += 1;
        let [one, two, three] = checks(&house, &token).await;
        assert!(one == two && two == three, "{request}");
        let check = v1::QuoteCheck::decode(one.as_slice()).expect("a finding");
        assert_eq!((check.quote_id, check.expire_time), (quote.quote_id, quote.expire_time), "{request}");
        assert_eq!(check.total, quote.price.expect("a price").total, "{request}");
        held += u32::from(check.valid);
        let [one, two, three] = checks(&house, &token[1..]).await;
        assert!(one == two && two == three, "{request}");
        assert!(!v1::QuoteCheck::decode(one.as_slice()).expect("a finding").valid, "{request}");
    }
    house.close().await;
    assert!(held > 50 && held == expected, "{held} of {expected} hold");
}

/// Whose view it is, and what is wanted beside the answer, does not change what is promised.
#[tokio::test]
async fn the_same_question_has_the_same_identity_in_every_view_and_another_one_another() {
    let house = House::demo().await;
    let shop = json!({"flaggedMm": 6200, "view": "VIEW_SHOP", "workings": true, "shelf": true});
    let buyer =
        house.public_json(&json!({"flaggedMm": 6200, "lettering": ""})).await.answer.expect("a quote");
    let shop = house.private_json(&shop).await.answer.expect("a quote");
    let plain = house.public_json(&json!({"flaggedMm": 6200})).await.answer.expect("a quote");
    assert_eq!(plain.quote_id, shop.quote_id);
    assert_eq!(plain.token, shop.token, "nothing of the view is in it");
    // what was understood is the same question
    let understood = serde_json::to_value(&plain.understood).expect("a message is JSON");
    let again = house.public_json(&understood).await.answer.expect("a quote");
    assert_eq!((again.quote_id, again.token), (plain.quote_id.clone(), plain.token));
    let mut ids = vec![plain.quote_id];
    for other in [
        json!({"flaggedMm": 6201}),
        json!({"flaggedMm": 6200, "quantity": 2}),
        json!({"flaggedMm": 6200, "near": {"who": "WHO_CHILD"}}),
        json!({"flaggedMm": 6200, "near": {"youngestMonths": 0}}),
        json!({"flaggedMm": 6200, "lettering": "ADA"}),
    ] {
        ids.push(house.public_json(&other).await.answer.expect("a quote").quote_id);
    }
    assert!(buyer.quote_id.is_some() && ids.iter().all(Option::is_some));
    let count = ids.len();
    ids.sort();
    ids.dedup();
    assert_eq!(ids.len(), count);
    house.close().await;
}
