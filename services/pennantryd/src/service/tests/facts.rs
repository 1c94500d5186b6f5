//! Pieces as they come, as they are found to be, and page by page.

use pennantry_contract::reasons::Kind;

use super::*;

#[tokio::test]
async fn what_is_not_said_stands_in_from_the_catalogue() {
    let shop = open();
    let came = shop
        .receive(json!([
            {"code": "kelp", "quantity": length(1_000.0)},
            {"code": "bosun-25", "quantity": length(25_000.0)},
            {"code": "oak-button", "quantity": {"count": 40}},
        ]))
        .await;
    let mut told = Vec::new();
    for id in &came.piece_ids {
        let piece = shop.piece(id).await;
        told.push((piece.code.clone(), piece.kind(), piece.width_mm));
    }
    let expected = [
        ("kelp".to_owned(), v1::PieceKind::Bolt, 1_100.0),
        ("bosun-25".to_owned(), v1::PieceKind::Roll, 0.0),
        ("oak-button".to_owned(), v1::PieceKind::Box, 0.0),
    ];
    assert_eq!(told, expected);
    assert!(came.piece_ids[0].starts_with("KELP-") && came.piece_ids[0].len() == 10, "{:?}", came.piece_ids);
}

#[tokio::test]
async fn pieces_come_page_by_page_and_by_code() {
    let shop = open();
    shop.stocked().await;
    let list = |request: Value| {
        let request: v1::ListStockRequest = read(request);
        let service = &shop.service;
        async move { service.list_stock(&staff(), &request).await }
    };
    let ids = |page: &v1::ListStockResponse| -> Vec<String> {
        page.pieces.iter().map(|piece| piece.piece_id.clone()).collect()
    };
    let first = list(json!({"pageSize": 3})).await.unwrap();
    assert_eq!(ids(&first), ["BOSUN-1", "KELP-1", "LABELS"]);
    let second = list(json!({"pageSize": 3, "pageToken": first.next_page_token})).await.unwrap();
    assert_eq!((ids(&second), second.next_page_token.as_str()), (vec!["LAMP-1".into(), "ROPE-1".into()], ""));
    assert_eq!(ids(&list(json!({"code": "kelp"})).await.unwrap()), ["KELP-1"]);
    assert_eq!(ids(&list(json!({"code": "kelp", "lot": "K9"})).await.unwrap()), Vec::<String>::new());
    let refused = list(json!({"code": "kelpp"})).await.unwrap_err();
    assert!(refused.violations[0].message.contains("did you mean \"kelp\"?"), "{refused:?}");
    assert_eq!(list(json!({"pageSize": 1_001})).await.unwrap_err().violations[0].field, "pageSize");
    // and reservations
    for _ in 0..3 {
        shop.hold(&staff(), &shop.usual()).await;
    }
    let mut seen = Vec::new();
    let mut token = String::new();
    loop {
        let request = read(json!({"pageSize": 2, "pageToken": token}));
        let page = shop.service.list_reservations(&staff(), &request).await.unwrap();
        seen.extend(page.reservations.into_iter().map(|reservation| reservation.reservation_id));
        token = page.next_page_token;
        if token.is_empty() {
            break;
        }
    }
    seen.sort();
    seen.dedup();
    assert_eq!(seen.len(), 3);
    let lost = read(json!({"pageToken": "nobody"}));
    let refused = shop.service.list_reservations(&staff(), &lost).await.unwrap_err();
    assert_eq!(refused.violations[0].field, "pageToken");
}

#[tokio::test]
async fn a_piece_tells_its_history_and_its_flaws_bound_what_one_cut_can_have() {
    let shop = open();
    shop.stocked().await;
    let flawed = shop
        .adjust(json!({"pieceId": "KELP-1", "flaws": {"flaws": [{"fromMm": 8_000.0, "toMm": 8_100.0}]}}))
        .await
        .unwrap();
    assert_eq!(mm(flawed.piece.as_ref().unwrap().longest.as_ref()), 11_900.0);
    let held = shop.hold(&staff(), &shop.usual()).await;
    let request = v1::GetPieceRequest { piece_id: "KELP-1".to_owned() };
    let got = shop.service.get_piece(&staff(), &request).await.unwrap();
    assert_eq!(got.reservations, std::slice::from_ref(&held));
    let kinds: Vec<&str> = got.movements.iter().map(|moved| moved.kind.as_str()).collect();
    assert_eq!(kinds, ["receive", "reserve"]);
    assert_eq!(got.movements[1].reservation_id.as_ref(), Some(&held.reservation_id));
    let refused =
        shop.adjust(json!({"pieceId": "KELP-1", "gone": {"quantity": length(5.0)}})).await.unwrap_err();
    assert_eq!(refused.violations[0].field, "gone.reason");
    let gone = json!({"quantity": length(30_000.0), "reason": "STOCK_REASON_LOST"});
    let refused = shop.adjust(json!({"pieceId": "KELP-1", "gone": gone})).await.unwrap_err();
    assert_eq!(refused.kind, Kind::FailedPrecondition);
    assert!(refused.detail.contains("KELP-1"), "{refused:?}");
    // what was counted or found is said otherwise, and another reason by the note
    for (reason, note, field, why) in [
        ("STOCK_REASON_COUNT", "", "gone.reason", "CONTRADICTION"),
        ("STOCK_REASON_FOUND", "by the door", "gone.reason", "CONTRADICTION"),
        ("STOCK_REASON_OTHER", " ", "note", "MISSING"),
    ] {
        let gone = json!({"quantity": length(5.0), "reason": reason});
        let told = shop.adjust(json!({"pieceId": "KELP-1", "gone": gone, "note": note})).await;
        let refused = told.unwrap_err();
        let found: Vec<_> =
            refused.violations.iter().map(|one| (one.field.as_str(), one.reason.as_str())).collect();
        assert_eq!(found, [(field, why)], "{reason}");
    }
    let gone = json!({"quantity": length(5.0), "reason": "STOCK_REASON_OTHER"});
    shop.adjust(json!({"pieceId": "KELP-1", "gone": gone, "note": "given to the school"})).await.unwrap();
    let refused = shop.adjust(json!({"pieceId": "KELP-1"})).await.unwrap_err();
    assert_eq!(refused.violations[0].reason, "MISSING");
    shop.adds_up().await;
}

/// A label is five random characters, so a large delivery may well be given one twice.
#[tokio::test]
async fn labels_made_for_one_delivery_are_told_apart_and_given_ones_stay() {
    let shop = open();
    let piece = json!({"code": "kelp", "quantity": length(500.0)});
    let labelled = json!({"pieceId": "KELP-AAAAA", "code": "kelp", "quantity": length(500.0)});
    let request: v1::ReceiveStockRequest = read(json!({"pieces": [piece, labelled, piece, piece]}));
    let (mut receive, made) =
        crate::convert::stock::facts::receive(&shop.service.catalogue(), &request).unwrap();
    for piece in &mut receive.pieces {
        piece.id = "KELP-AAAAA".into();
    }
    crate::service::stock::tell_apart(&mut receive, &made).unwrap();
    let mut labels: Vec<&str> = receive.pieces.iter().map(|piece| piece.id.as_str()).collect();
    assert_eq!(labels[1], "KELP-AAAAA");
    labels.sort_unstable();
    labels.dedup();
    assert_eq!(labels.len(), 4);
}
