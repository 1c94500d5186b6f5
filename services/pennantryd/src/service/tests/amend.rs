//! Planning a reservation anew.

use pennantry_contract::reasons::Kind;

use super::*;

async fn amend(shop: &Shop, id: &str, more: Value) -> Result<v1::Reservation, Failure> {
    let mut request = json!({"reservationId": id, "reason": "to make it good"});
    for (key, value) in more.as_object().unwrap() {
        request[key] = value.clone();
    }
    shop.service.amend_reservation(&staff(), &read(request)).await.map(|told| told.reservation.unwrap())
}

#[tokio::test]
async fn what_is_missing_is_taken_elsewhere_and_said() {
    let shop = open();
    shop.stocked().await;
    let held = shop.hold(&staff(), &shop.usual()).await;
    let id = held.reservation_id.as_str();
    shop.confirm(id, "SO-1").await.unwrap();
    let before = shop.state().await;
    let refused = amend(&shop, id, json!({})).await.unwrap_err();
    assert!(refused.kind == Kind::FailedPrecondition && refused.detail.contains("nothing of it is missing"));
    assert_eq!(shop.state().await, before);
    // 50 mm are left of the bolt
    shop.adjust(json!({"pieceId": "KELP-1", "counted": length(50.0)})).await.unwrap();
    let refused = amend(&shop, id, json!({})).await.unwrap_err();
    assert_eq!(refused.kind, Kind::FailedPrecondition);
    assert!(refused.detail.contains("\"Kelp\""), "{}", refused.detail);
    shop.receive(json!([
        {"pieceId": "KELP-2", "code": "kelp", "lot": "K2", "quantity": length(9_000.0)},
        {"pieceId": "KELP-3", "code": "kelp", "lot": "K1", "quantity": length(9_000.0)},
    ]))
    .await;
    let amended = amend(&shop, id, json!({})).await.unwrap();
    assert_eq!((amended.state(), amended.short), (v1::ReservationState::Confirmed, false));
    let (was, is) = (lines(&held, "kelp")[0], lines(&amended, "kelp"));
    assert!(is.contains(&("KELP-1", 0.0, was.2)) && is.contains(&("KELP-3", was.1, was.2)), "{is:?}");
    assert_eq!(amended.quote_id, held.quote_id);
    assert!(
        amended.reason.starts_with("to make it good: line ") && amended.reason.contains("KELP-3"),
        "{}",
        amended.reason
    );
    assert_eq!(mm(shop.piece("KELP-1").await.confirmed.as_ref()), 0.0);
    shop.adds_up().await;
}

/// No single piece gives all that a line wants: it is planned anew on all of them, its own
/// among them.
#[tokio::test]
async fn a_line_is_spread_over_pieces_where_it_must_be() {
    let shop = open();
    shop.stocked().await;
    let quote = shop.quote(json!({"flaggedMm": 12_000, "near": {"who": "WHO_NO_CHILD"}}));
    let held = shop.hold(&staff(), &quote).await;
    let was = lines(&held, "kelp")[0];
    assert!(was.1 >= 430.0, "two rows: {was:?}");
    shop.adjust(json!({"pieceId": "KELP-1", "counted": length(240.0)})).await.unwrap();
    shop.receive(json!([
        {"pieceId": "KELP-2", "code": "kelp", "lot": "K1", "quantity": length(240.0)},
        {"pieceId": "KELP-3", "code": "kelp", "lot": "K1", "quantity": length(240.0)},
    ]))
    .await;
    let amended = amend(&shop, &held.reservation_id, json!({})).await.unwrap();
    assert!(!amended.short, "{amended:?}");
    let is: Vec<_> = lines(&amended, "kelp").into_iter().filter(|line| line.1 > 0.0).collect();
    assert!(is.len() >= 2 && is.iter().all(|line| line.1 <= 240.0), "{is:?}");
    assert!(is.iter().map(|line| line.2).sum::<u32>() >= was.2, "{is:?} for {was:?}");
    shop.adds_up().await;
}

#[tokio::test]
async fn another_quote_takes_the_place_of_what_is_not_cut() {
    let shop = open();
    shop.stocked().await;
    let held = shop.hold(&staff(), &shop.usual()).await;
    let longer = shop.quote(json!({"flaggedMm": 9_000, "near": {"who": "WHO_NO_CHILD"}}));
    let more = json!({
        "token": longer.token,
        "acknowledgedRuleIds": longer.child.as_ref().unwrap().acknowledge,
    });
    let amended = amend(&shop, &held.reservation_id, more).await.unwrap();
    assert_eq!(Some(amended.quote_id), longer.quote_id);
    assert_eq!(amended.total, longer.price.unwrap().total);
    let binding: f64 =
        amended.lines.iter().filter(|l| l.code == "bosun-25").map(|l| mm(l.wanted.as_ref()).0).sum();
    assert_eq!(Mm(binding), longer.binding.unwrap().cut_mm);
    assert_eq!(mm(shop.piece("BOSUN-1").await.held.as_ref()), binding);
    shop.adds_up().await;
    // nothing to acknowledge where nothing is sold
    let refused =
        amend(&shop, &held.reservation_id, json!({"acknowledgedRuleIds": ["R00"]})).await.unwrap_err();
    assert_eq!(refused.violations[0].field, "acknowledgedRuleIds");
}

/// The bench cuts while the counter plans anew: whoever is first, what is wanted and what was cut
/// are together what was sold.
#[tokio::test(flavor = "multi_thread")]
async fn a_cut_while_it_is_planned_anew_is_not_wanted_twice() {
    for round in 0..24_u32 {
        let shop = open();
        shop.stocked().await;
        let held = shop.hold(&staff(), &shop.usual()).await;
        let id = held.reservation_id.clone();
        shop.confirm(&id, "SO-1").await.unwrap();
        shop.receive(
            json!([{"pieceId": "KELP-2", "code": "kelp", "lot": "K1", "quantity": length(9_000.0)}]),
        )
        .await;
        // the whole line is short, and half of it is cut off other cloth meanwhile
        shop.adjust(json!({"pieceId": "KELP-1", "counted": length(0.0)})).await.unwrap();
        let line = held.lines.iter().find(|line| line.code == "kelp").unwrap();
        let half = mm(line.planned.as_ref()).0 / 2.0;
        let part = json!({"line": line.line, "pieceId": "KELP-2", "taken": length(half), "shapes": 1});
        let cut = json!({"reservationId": id, "parts": [part]});
        let (amended, cut) = if round % 2 == 0 {
            tokio::join!(amend(&shop, &id, json!({})), shop.cut(cut))
        } else {
            let (cut, amended) = tokio::join!(shop.cut(cut), amend(&shop, &id, json!({})));
            (amended, cut)
        };
        amended.unwrap();
        let told = shop.get(&id).await.unwrap();
        let of_kelp = told.lines.iter().filter(|line| line.code == "kelp");
        let wanted: f64 = of_kelp.map(|line| mm(line.wanted.as_ref()).0).sum();
        let used = if cut.is_ok() { half } else { 0.0 };
        let sold = mm(line.planned.as_ref()).0;
        assert!((wanted + used - sold).abs() < 0.001, "{wanted} and {used} of {sold}: {cut:?}");
        shop.adds_up().await;
    }
}
