//! What is on the shelf for a quote.

use super::*;

fn asked(more: &Value) -> Value {
    let mut enquiry = json!({"flaggedMm": 6200, "shelf": true, "near": {"who": "WHO_NO_CHILD"}});
    for (key, value) in more.as_object().unwrap() {
        enquiry[key] = value.clone();
    }
    enquiry
}

#[tokio::test]
async fn it_says_from_what_and_a_buyer_hears_whether() {
    let shop = open();
    shop.stocked().await;
    let quote = shop.quote(asked(&json!({})));
    let shelf = quote.shelf.unwrap();
    assert!(shelf.available && shelf.as_of == NOW && shelf.expected_date.is_none(), "{shelf:?}");
    let kelp = shelf.uses.iter().find(|used| used.code == "kelp").unwrap();
    assert!(kelp.available && kelp.takes[0].piece_id == "KELP-1" && kelp.lot_count == 1, "{kelp:?}");
    assert!(kelp.new_mm <= kelp.charged_mm && kelp.new_mm > 0.0);
    let card = shelf.uses.iter().find(|used| used.code == "card").unwrap();
    assert!(card.not_kept && !card.available && card.takes.is_empty(), "{card:?}");
    let request = v1::CalculateQuoteRequest { enquiry: Some(read(asked(&json!({})))) };
    let public = shop.service.calculate_quote(Door::Public, &request).unwrap().quote.unwrap();
    assert_eq!(public.shelf, Some(v1::Shelf { uses: Vec::new(), ..shelf }));
    // not asked, not said
    assert_eq!(shop.usual().shelf, None);
}

#[tokio::test]
async fn what_is_missing_comes_with_the_day_of_the_order_that_fills_it() {
    let shop = open();
    shop.stocked().await;
    shop.adjust(json!({"pieceId": "KELP-1", "counted": length(0.0)})).await.unwrap();
    let look = |shop: &Shop| shop.quote(asked(&json!({}))).shelf.unwrap();
    let shelf = look(&shop);
    assert!(!shelf.available && shelf.expected_date.is_none(), "{shelf:?}");
    let kelp = shelf.uses.iter().find(|used| used.code == "kelp").unwrap();
    let missing = mm(kelp.missing.as_ref()).0;
    assert!(missing > 0.0, "{kelp:?}");
    for (id, day, much) in [("PO-1", "2026-12-03", missing / 2.0), ("PO-2", "2026-12-10", missing)] {
        let order = json!({"orderId": id, "supplier": "Quay Mills", "expectedDate": day,
            "lines": [{"code": "kelp", "quantity": length(much)}]});
        shop.service.place_order(&staff(), &read(order)).await.unwrap();
    }
    // the first brings half of it
    assert_eq!(look(&shop).expected_date.as_deref(), Some("2026-12-10"));
    let refused = shop.try_hold(&buyer(7), hold(&shop.usual()), "").await.unwrap_err();
    assert!(
        refused.detail.contains("2026-12-10") && refused.detail.contains("\"Kelp\""),
        "{}",
        refused.detail
    );
    // one that is late is not counted on
    let late = shop.later("2026-12-04T10:00:00Z", SALTMERE_LOFT);
    assert_eq!(look(&late).expected_date.as_deref(), Some("2026-12-10"));
    shop.service.cancel_order(&staff(), &read(json!({"orderId": "PO-2"}))).await.unwrap();
    assert_eq!(look(&shop).expected_date, None);
    let delivery = json!({"orderId": "PO-1", "pieces": [
        {"pieceId": "KELP-2", "code": "kelp", "quantity": length(20_000.0)}]});
    let came = shop.service.receive_stock(&staff(), &read(delivery)).await.unwrap();
    assert_eq!(came.order.unwrap().state(), v1::OrderState::Filled);
    assert!(look(&shop).available);
}

#[tokio::test]
async fn where_the_stock_is_not_open_that_is_said() {
    let shop = open();
    let clock = Clock::Fixed(NOW.parse().unwrap());
    let closed = Service::new(catalogue(SALTMERE_LOFT), clock, shop.keys.clone());
    let ask = |enquiry: Value| {
        let request = v1::CalculateQuoteRequest { enquiry: Some(read(enquiry)) };
        closed.calculate_quote(Door::Public, &request).unwrap().quote.unwrap()
    };
    let quote = ask(asked(&json!({})));
    assert_eq!(quote.shelf, None);
    let codes: Vec<&str> = quote.notices.iter().map(|notice| notice.code.as_str()).collect();
    assert!(codes.contains(&"SHELF_UNKNOWN") && !codes.contains(&"NOT_BUILT"), "{codes:?}");
    let plain = ask(json!({"flaggedMm": 6200}));
    assert!(!plain.notices.iter().any(|notice| notice.code == "SHELF_UNKNOWN"));
}
