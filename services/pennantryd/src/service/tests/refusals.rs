//! What cannot be, in words, and a store that stays as it was.

use pennantry_contract::reasons::Kind;

use super::*;

fn fields(failure: &Failure) -> Vec<(&str, &str)> {
    failure.violations.iter().map(|found| (found.field.as_str(), found.reason.as_str())).collect()
}

#[tokio::test]
async fn every_violation_of_a_delivery_is_told_in_order() {
    let shop = open();
    let before = shop.state().await;
    let request = read(json!({"pieces": [
        {"pieceId": "a b", "code": "kelpp", "quantity": length(2_000.0)},
        {"code": "kelp", "quantity": length(-5.0), "widthMm": 1.0, "lot": "x".repeat(61)},
        {"code": "kelp", "quantity": length(0.0)},
        {"code": "kelp", "quantity": length(1e12)},
        {"code": "kelp", "quantity": {"count": 4}},
        {"code": "sewn-label", "quantity": length(4.0), "widthMm": 30.0},
        {"code": "kelp", "kind": "PIECE_KIND_ROLL", "quantity": length(2_000.0)},
        {"code": "kelp-bias-25", "quantity": length(2_000.0)},
        {"pieceId": "B-1", "code": "kelp", "quantity": length(2_000.0),
         "flaws": [{"fromMm": 100.0, "toMm": 50.0}, {"fromMm": 1_900.0, "toMm": 2_100.0}],
         "cost": {"currencyCode": "USD", "minorUnits": "-1"}},
        {"pieceId": "B-1", "code": "kelp", "quantity": length(2_000.0)},
        {"code": "kelp"},
    ]}));
    let refused = shop.service.receive_stock(&staff(), &request).await.unwrap_err();
    assert_eq!(
        fields(&refused),
        [
            ("pieces[0].pieceId", "BAD_TEXT"),
            ("pieces[0].code", "UNKNOWN_CODE"),
            ("pieces[1].quantity.lengthMm", "OUT_OF_RANGE"),
            ("pieces[1].widthMm", "OUT_OF_RANGE"),
            ("pieces[1].lot", "TOO_LONG"),
            ("pieces[2].quantity.lengthMm", "OUT_OF_RANGE"),
            ("pieces[3].quantity.lengthMm", "OUT_OF_RANGE"),
            ("pieces[4].quantity.count", "CONTRADICTION"),
            ("pieces[5].quantity.lengthMm", "CONTRADICTION"),
            ("pieces[5].widthMm", "CONTRADICTION"),
            ("pieces[6].kind", "CONTRADICTION"),
            ("pieces[7].code", "NOT_OFFERED"),
            ("pieces[8].flaws[0].toMm", "OUT_OF_RANGE"),
            ("pieces[8].flaws[1].toMm", "OUT_OF_RANGE"),
            ("pieces[8].cost.currencyCode", "NOT_OFFERED"),
            ("pieces[8].cost.minorUnits", "OUT_OF_RANGE"),
            ("pieces[9].pieceId", "REPEATED"),
            ("pieces[10].quantity.lengthMm", "MISSING"),
        ]
    );
    assert!(refused.violations[1].message.contains("did you mean \"kelp\"?"), "{:?}", refused.violations[1]);
    // looked through beforehand it is the same
    let looked = v1::CheckDeliveryRequest { pieces: request.pieces.clone() };
    let told = shop.service.check_delivery(&staff(), &looked).await.unwrap();
    assert_eq!(told.violations, refused.violations);
    assert_eq!(shop.state().await, before);
}

#[tokio::test]
async fn a_delivery_is_looked_through_to_its_end_a_hundred_pieces_at_a_time() {
    let shop = open();
    let before = shop.state().await;
    let wrong = json!({"code": "kelpp", "quantity": length(-5.0), "widthMm": 1.0});
    let pieces = |count| v1::CheckDeliveryRequest { pieces: read(json!(vec![wrong.clone(); count])) };
    let told = shop.service.check_delivery(&staff(), &pieces(100)).await.unwrap();
    let last: Vec<&str> = told
        .violations
        .iter()
        .map(|v| v.field.as_str())
        .filter(|field| field.starts_with("pieces[99]."))
        .collect();
    assert!(told.violations.len() >= 200 && last.contains(&"pieces[99].code"), "{last:?}");
    for count in [0, 101] {
        let refused = shop.service.check_delivery(&staff(), &pieces(count)).await.unwrap_err();
        assert_eq!((refused.kind, refused.violations[0].field.as_str()), (Kind::InvalidEnquiry, "pieces"));
    }
    assert_eq!(shop.state().await, before);
}

#[tokio::test]
async fn a_delivery_of_a_label_that_is_taken_is_refused_whole() {
    let shop = open();
    shop.stocked().await;
    let before = shop.state().await;
    let request = read(json!({"pieces": [
        {"pieceId": "NEW-1", "code": "kelp", "quantity": length(2_000.0)},
        {"pieceId": "KELP-1", "code": "kelp", "quantity": length(2_000.0)},
    ]}));
    let refused = shop.service.receive_stock(&staff(), &request).await.unwrap_err();
    assert_eq!(refused.kind, Kind::FailedPrecondition);
    assert!(refused.detail.contains("KELP-1"), "{refused:?}");
    assert_eq!(shop.state().await, before);
}

#[tokio::test]
async fn what_is_not_there_is_not_found() {
    let shop = open();
    shop.stocked().await;
    let before = shop.state().await;
    let not_found = |failure: Failure, word: &str| {
        assert_eq!(failure.kind, Kind::NotFound, "{failure:?}");
        assert!(failure.detail.contains(word), "{failure:?}");
    };
    not_found(shop.get("nobody").await.unwrap_err(), "nobody");
    not_found(shop.confirm("nobody", "SO-1").await.unwrap_err(), "nobody");
    not_found(shop.release("nobody").await.unwrap_err(), "nobody");
    not_found(shop.cancel("nobody").await.unwrap_err(), "nobody");
    not_found(shop.adjust(json!({"pieceId": "KELP-9", "counted": length(1.0)})).await.unwrap_err(), "KELP-9");
    not_found(shop.cut(json!({"reservationId": "nobody"})).await.unwrap_err(), "nobody");
    let undo = v1::UndoCutRequest { cut_id: "none".to_owned(), ..Default::default() };
    not_found(shop.service.undo_cut(&staff(), &undo).await.unwrap_err(), "none");
    let order = v1::CancelOrderRequest { order_id: "PO-9".to_owned(), ..Default::default() };
    not_found(shop.service.cancel_order(&staff(), &order).await.unwrap_err(), "PO-9");
    assert_eq!(shop.state().await, before);
}

#[tokio::test]
async fn a_ticket_that_is_altered_over_or_missing_holds_nothing() {
    let shop = open();
    shop.stocked().await;
    let quote = shop.usual();
    let before = shop.state().await;
    let mut altered = hold(&quote);
    altered.token.replace_range(20..21, if &altered.token[20..21] == "A" { "B" } else { "A" });
    let refused = shop.try_hold(&staff(), altered, "").await.unwrap_err();
    assert_eq!(fields(&refused), [("token", "BAD_TEXT")]);
    let over = shop.later("2026-12-09T00:00:00Z", SALTMERE_LOFT);
    let refused = over.try_hold(&staff(), hold(&quote), "").await.unwrap_err();
    assert_eq!(fields(&refused), [("token", "PAST_DATE")]);
    assert!(refused.violations[0].message.contains("2026-12-08"), "{refused:?}");
    // a microsecond before it still holds
    assert!(
        shop.later("2026-12-08T23:59:59.999999Z", SALTMERE_LOFT)
            .try_hold(&staff(), hold(&quote), "")
            .await
            .is_ok()
    );
    let refused = shop.try_hold(&staff(), v1::Hold::default(), "").await.unwrap_err();
    assert_eq!(fields(&refused), [("token", "MISSING")]);
    let wild = v1::Hold { seconds: Some(0), override_reason: "because".to_owned(), ..hold(&quote) };
    let refused = shop.try_hold(&buyer(7), wild, "").await.unwrap_err();
    assert_eq!(fields(&refused), [("seconds", "OUT_OF_RANGE"), ("overrideReason", "STAFF_ONLY")]);
    let after = shop.state().await;
    assert_eq!(after.1, before.1 + 1, "the one that still held, and nothing else");
}

/// Every rule that asks or restricts is read, and no other.
#[tokio::test]
async fn rules_are_acknowledged_one_by_one() {
    let shop = open();
    shop.stocked().await;
    // nobody says who is near
    let quote = shop.quote(json!({"flaggedMm": 6200}));
    let wanted = quote.child.as_ref().unwrap().acknowledge.clone();
    assert!(wanted.contains(&"R00".to_owned()), "{wanted:?}");
    let before = shop.state().await;
    let bare = v1::Hold { acknowledged_rule_ids: vec!["R99".to_owned()], ..hold(&quote) };
    let refused = shop.try_hold(&buyer(7), bare, "").await.unwrap_err();
    assert_eq!(refused.kind, Kind::InvalidEnquiry);
    let mut expected = vec![("acknowledgedRuleIds[0]", "CONTRADICTION")];
    expected.extend(wanted.iter().map(|_| ("acknowledgedRuleIds", "MISSING")));
    assert_eq!(fields(&refused), expected);
    let text =
        &quote.child.as_ref().unwrap().findings.iter().find(|found| found.rule_id == "R00").unwrap().text;
    assert!(refused.violations[1].message.contains(text.as_str()), "{:?}", refused.violations[1]);
    assert_eq!(shop.state().await, before);
    // a word of acknowledgement for each, and it is held; staff may go without, with a reason
    let held = shop.hold(&buyer(7), &quote).await;
    assert_eq!(held.acknowledged_rule_ids, wanted);
    let over = v1::Hold {
        acknowledged_rule_ids: Vec::new(),
        override_reason: "told at the counter".to_owned(),
        ..hold(&quote)
    };
    let held = shop.try_hold(&staff(), over, "").await.unwrap();
    assert_eq!((held.override_reason.as_str(), held.acknowledged_rule_ids.len()), ("told at the counter", 0));
    assert!(held.notices.iter().any(|notice| notice.code == "OVERRIDDEN"), "{:?}", held.notices);
}

/// Over a cot it is priced, and no buyer can hold it.
#[tokio::test]
async fn what_is_refused_is_for_staff_alone() {
    let shop = open();
    shop.stocked().await;
    let near = json!({"who": "WHO_CHILD", "youngestMonths": 6, "place": "PLACE_COT"});
    let quote = shop.quote(json!({"flaggedMm": 6200, "near": near, "destination": {"countryCode": "GB"}}));
    let child = quote.child.as_ref().unwrap();
    assert_eq!(child.outcome(), v1::Outcome::Refuse, "{child:?}");
    let before = shop.state().await;
    for caller in [buyer(7), staff()] {
        let refused = shop.try_hold(&caller, hold(&quote), "").await.unwrap_err();
        assert_eq!(refused.kind, Kind::FailedPrecondition);
        assert!(refused.detail.contains(&child.findings[0].rule_id), "{}", refused.detail);
    }
    assert_eq!(shop.state().await, before);
    let over = v1::Hold { override_reason: "for a shop window, not a cot".to_owned(), ..hold(&quote) };
    let held = shop.try_hold(&staff(), over, "").await.unwrap();
    assert_eq!(held.override_reason, "for a shop window, not a cot");
}

/// On a narrow bolt it would take more new cloth than was charged.
#[tokio::test]
async fn never_more_new_cloth_than_was_charged() {
    let shop = open();
    shop.stocked().await;
    shop.adjust(json!({"pieceId": "KELP-1", "counted": length(0.0)})).await.unwrap();
    shop.receive(json!([
        {"pieceId": "NARROW", "code": "kelp", "widthMm": 400.0, "quantity": length(20_000.0)},
    ]))
    .await;
    let before = shop.state().await;
    let quote = shop.usual();
    let refused = shop.try_hold(&staff(), hold(&quote), "").await.unwrap_err();
    assert_eq!(refused.kind, Kind::FailedPrecondition);
    assert!(refused.detail.contains("more new cloth than was charged"), "{}", refused.detail);
    // a buyer hears what, and nothing of how much
    let refused = shop.try_hold(&buyer(7), hold(&quote), "").await.unwrap_err();
    assert!(refused.detail.contains("\"Kelp\"") && !refused.detail.contains("mm"), "{}", refused.detail);
    assert_eq!(shop.state().await, before);
}
