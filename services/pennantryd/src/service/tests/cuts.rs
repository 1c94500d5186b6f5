//! What the bench has cut, and taking it back.

use pennantry_app::stock::{Envelope, at};
use pennantry_contract::reasons::Kind;
use pennantry_ledger::rules::{Amount, ChangeId, Command, NewLine, Reserve};
use pennantry_measure::Length;

use super::*;

/// A bolt of 3.00 m of which 2.40 and 0.50 are reserved, each by itself.
async fn example() -> (Shop, Vec<String>) {
    let shop = open();
    shop.receive(json!([
        {"pieceId": "B", "code": "kelp", "lot": "K1", "location": "rack 2", "quantity": length(3_000.0)},
    ]))
    .await;
    let mut names = Vec::new();
    for (number, mm) in [(1, 2_400), (2, 500)] {
        let name = format!("r{number}");
        promise(&shop, &name, number, "B", mm).await;
        shop.confirm(&name, "SO").await.unwrap();
        names.push(name);
    }
    assert!(at(NOW.parse().unwrap()).0 > 0);
    (shop, names)
}

/// Takes so much of a piece, by no quote.
async fn promise(shop: &Shop, name: &str, number: u8, piece: &str, mm: i64) {
    let envelope = Envelope {
        change: ChangeId([number; 16]),
        now: NOW.parse().unwrap(),
        actor: "counter".to_owned(),
        request: None,
        deadline: None,
    };
    let amount = Amount::of_length(Length::from_mm(mm));
    let reserve = Command::Reserve(Reserve {
        id: name.into(),
        holder: "staff".to_owned(),
        most_holds: None,
        seconds: 900,
        quote: "q".to_owned(),
        bench_milli_minutes: 0,
        leave_day: None,
        sold: Vec::new(),
        lines: vec![NewLine { piece: piece.into(), item: 0, amount, shapes: 10, shape_area: 0 }],
        supersedes: None,
    });
    shop.stock.apply(&shop.service.catalogue(), &envelope, reserve).await.unwrap();
}

#[tokio::test]
async fn a_fact_is_recorded_and_what_it_takes_from_a_promise_is_said() {
    let (shop, names) = example().await;
    shop.receive(json!([
        {"pieceId": "C", "code": "kelp", "lot": "K1", "quantity": length(9_000.0)},
        {"pieceId": "D", "code": "kelp", "lot": "K2", "quantity": length(700.0)},
        {"pieceId": "E", "code": "kelp", "lot": "K1", "kind": "PIECE_KIND_REMNANT", "quantity": length(600.0)},
        {"pieceId": "F", "code": "kelp", "lot": "K1", "quantity": length(400.0)},
        {"pieceId": "G", "code": "kelp", "lot": "K1", "widthMm": 900.0, "quantity": length(700.0)},
    ]))
    .await;
    let before = shop.state().await;
    let too_much = json!({"reservationId": names[0], "parts": [{"line": 1, "taken": length(3_100.0)}]});
    let refused = shop.cut(too_much).await.unwrap_err();
    assert_eq!(refused.kind, Kind::FailedPrecondition);
    assert!(refused.detail.contains("count"), "says to count first: {}", refused.detail);
    assert_eq!(shop.state().await, before);
    // ten shapes are planned on the line
    let slip = json!({"line": 1, "taken": length(500.0), "shapes": 4_294_967_295_u32});
    let refused = shop.cut(json!({"reservationId": names[0], "parts": [slip]})).await.unwrap_err();
    assert_eq!(refused.kind, Kind::InvalidEnquiry);
    assert!(refused.detail.contains("4294967295 shapes") && refused.detail.contains("for 10"), "{refused:?}");
    assert_eq!(shop.state().await, before);

    let cut = shop
        .cut(json!({"reservationId": names[0], "parts": [
            {"line": 1, "taken": length(2_600.0), "spoiled": length(200.0), "why": "STOCK_REASON_MISCUT"},
        ]}))
        .await
        .unwrap();
    let piece = &cut.pieces[0];
    assert_eq!((piece.piece_id.as_str(), mm(piece.left.as_ref()).0), ("B", 400.0));
    assert_eq!(cut.undo_until, "2026-11-24T10:10:00Z");
    assert_eq!(cut.reservation.as_ref().unwrap().state(), v1::ReservationState::Cut);
    let [promise] = cut.promises.as_slice() else { panic!("{:?}", cut.promises) };
    assert_eq!((promise.reservation_id.as_str(), promise.code.as_str()), ("r2", "kelp"));
    assert_eq!((mm(promise.missing_before.as_ref()).0, mm(promise.missing.as_ref()).0), (0.0, 100.0));
    // of the same lot the remnant first, then what leaves least; the narrow one and the short one would not do
    let proposed: Vec<(&str, bool)> =
        cut.proposals.iter().map(|proposal| (proposal.piece_id.as_str(), proposal.same_lot)).collect();
    assert_eq!(proposed, [("E", true), ("C", true), ("D", false)]);

    let counted = shop.adjust(json!({"pieceId": "B", "counted": length(300.0)})).await.unwrap();
    assert_eq!(mm(counted.promises[0].missing.as_ref()), 200.0);
    let short = shop.get("r2").await.unwrap();
    assert!(short.short && mm(short.lines[0].missing.as_ref()) == 200.0, "{short:?}");
    let refused = shop.cut(json!({"reservationId": "r2"})).await.unwrap_err();
    assert_eq!(refused.kind, Kind::FailedPrecondition, "it is short: {refused:?}");
    let listed = shop.service.list_reservations(&staff(), &read(json!({"shortOnly": true}))).await.unwrap();
    assert_eq!(listed.reservations.len(), 1);
    shop.adds_up().await;
}

#[tokio::test]
async fn a_cut_as_planned_needs_no_parts_and_can_be_taken_back_for_ten_minutes() {
    let (shop, names) = example().await;
    let cut = shop.cut(json!({"requestId": "c1", "reservationId": names[0]})).await.unwrap();
    assert_eq!(mm(cut.pieces[0].left.as_ref()), 600.0);
    let again = shop.cut(json!({"requestId": "c1", "reservationId": names[0]})).await.unwrap();
    assert_eq!((again.replayed, again.cut_id.as_str()), (true, cut.cut_id.as_str()));
    let refused = shop.release(&names[0]).await.unwrap_err();
    assert!(refused.kind == Kind::FailedPrecondition && refused.detail.contains("cut"), "{refused:?}");
    let undo = v1::UndoCutRequest { cut_id: cut.cut_id.clone(), ..Default::default() };
    let late = shop.later("2026-11-24T10:10:00.000001Z", SALTMERE_LOFT);
    let refused = late.service.undo_cut(&staff(), &undo).await.unwrap_err();
    assert_eq!(refused.kind, Kind::FailedPrecondition, "{refused:?}");
    let last = shop.later("2026-11-24T10:10:00Z", SALTMERE_LOFT);
    let undone = last.service.undo_cut(&staff(), &undo).await.unwrap();
    assert_eq!(mm(undone.pieces[0].left.as_ref()), 3_000.0);
    assert_eq!(undone.reservation.unwrap().state(), v1::ReservationState::Confirmed);
    shop.adds_up().await;
}

#[tokio::test]
async fn an_offcut_is_kept_where_it_holds_three_of_the_smallest_pennant() {
    let (shop, names) = example().await;
    let cut = shop
        .cut(json!({"reservationId": names[0], "parts": [{"line": 1, "taken": length(2_700.0), "offcuts": [
            {"lengthMm": 250.0},
            {"lengthMm": 100.0, "widthMm": 100.0},
        ]}]}))
        .await
        .unwrap();
    let told: Vec<(bool, bool)> =
        cut.offcuts.iter().map(|offcut| (offcut.kept, offcut.piece_id.is_empty())).collect();
    assert_eq!(told, [(true, false), (false, true)]);
    assert!(cut.offcuts[0].holds >= 3 && cut.offcuts[1].holds < 3, "{:?}", cut.offcuts);
    assert!(cut.offcuts[1].message.starts_with("waste"), "{:?}", cut.offcuts[1]);
    let remnant = shop.piece(&cut.offcuts[0].piece_id).await;
    assert_eq!((remnant.kind(), remnant.lot.as_str()), (v1::PieceKind::Remnant, "K1"));
    assert_eq!((remnant.parent_id.as_deref(), remnant.location.as_str()), (Some("B"), "rack 2"));
    assert!(remnant.piece_id.starts_with("KELP-"), "{}", remnant.piece_id);
    shop.adds_up().await;
}

#[tokio::test]
async fn parts_that_cannot_be_are_told_all_at_once() {
    let (shop, names) = example().await;
    let before = shop.state().await;
    let refused = shop
        .cut(json!({"reservationId": names[0], "parts": [
            {"line": 7, "pieceId": "B", "taken": length(-1.0)},
            {"line": 1, "pieceId": "NONE", "taken": length(1.0)},
            {"line": 1, "taken": length(100.0), "spoiled": length(10.0), "note": "x".repeat(201)},
            {"line": 1, "taken": {"count": 3}, "offcuts": [{"lengthMm": 100.0, "widthMm": 1_200.0}]},
        ]}))
        .await
        .unwrap_err();
    let fields: Vec<&str> = refused.violations.iter().map(|found| found.field.as_str()).collect();
    let expected = [
        "parts[0].line",
        "parts[0].taken.lengthMm",
        "parts[1].pieceId",
        "parts[2].why",
        "parts[2].note",
        "parts[3].taken.count",
        "parts[3].offcuts[0].widthMm",
    ];
    assert_eq!(fields, expected);
    assert_eq!(shop.state().await, before);
}

/// Thirty-one days ago and today are the first and the last of them.
#[tokio::test]
async fn a_cut_counts_for_the_day_on_which_it_was_up_to_a_month_ago() {
    use crate::convert::stock::write::numbered;
    let (shop, names) = example().await;
    let before = shop.state().await;
    for (on, reason) in [
        ("2026-11-25", "OUT_OF_RANGE"),
        ("2026-10-23", "OUT_OF_RANGE"),
        ("0001-01-01", "OUT_OF_RANGE"),
        ("2026-11-31", "BAD_DATE"),
        ("yesterday", "BAD_DATE"),
        ("23.11.2026", "BAD_DATE"),
    ] {
        let refused = shop.cut(json!({"reservationId": names[0], "cutDate": on})).await.unwrap_err();
        let [found] = refused.violations.as_slice() else { panic!("{on}: {refused:?}") };
        assert_eq!((found.field.as_str(), found.reason.as_str()), ("cutDate", reason), "{on}");
        if reason == "OUT_OF_RANGE" {
            assert!(found.message.contains("2026-10-24 to 2026-11-24"), "{found:?}");
        }
        assert_eq!(shop.state().await, before, "{on}");
    }
    let rows = async || {
        let rows =
            shop.stock.ledger.day_uses(pennantry_ledger::rules::Class::Cloth, i32::MIN, i32::MAX).await;
        let rows = rows.unwrap().into_iter();
        rows.map(|row| (row.day, row.of.used.0 / 1_000, row.of.late_at.is_some())).collect::<Vec<_>>()
    };
    let day = |date: &str| numbered(date).unwrap();
    let back = json!({"requestId": "late", "reservationId": names[0], "cutDate": "2026-10-24"});
    let cut = shop.cut(back.clone()).await.unwrap();
    assert_eq!(cut.undo_until, "2026-11-24T10:10:00Z", "for ten minutes from when it was recorded");
    assert_eq!(rows().await, [(day("2026-10-24"), 2_400, true), (day("2026-11-24"), 0, false)]);
    // a second later: which of two cuts of one instant was the last, nobody can say
    let soon = shop.later("2026-11-24T10:00:01Z", SALTMERE_LOFT);
    let second = soon.cut(json!({"reservationId": names[1], "cutDate": "2026-11-24"})).await.unwrap();
    assert_eq!(rows().await, [(day("2026-10-24"), 2_400, true), (day("2026-11-24"), 500, false)]);
    // sent again when that day is too long ago by then, it is what it was; of another day it is another
    let later = shop.later("2026-11-25T10:00:00Z", SALTMERE_LOFT);
    let again = later.cut(back).await.unwrap();
    assert_eq!((again.replayed, again.cut_id.as_str()), (true, cut.cut_id.as_str()));
    let other = json!({"requestId": "late", "reservationId": names[0], "cutDate": "2026-10-25"});
    assert_eq!(later.cut(other).await.unwrap_err().kind, Kind::KeyReused);
    // what is taken back goes from the day on which it was
    for (cut, used) in [(second.cut_id, [2_400, 0]), (cut.cut_id, [0, 0])] {
        let undo = v1::UndoCutRequest { cut_id: cut, ..Default::default() };
        shop.service.undo_cut(&staff(), &undo).await.unwrap();
        let rows: Vec<(i32, i64)> = rows().await.into_iter().map(|(day, used, _)| (day, used)).collect();
        assert_eq!(rows, [(day("2026-10-24"), used[0]), (day("2026-11-24"), used[1])]);
    }
    shop.adds_up().await;
}

/// A cut that is sent again is told as it was recorded, whatever the shop would keep today.
#[tokio::test]
async fn a_cut_sent_again_is_told_as_it_was_recorded() {
    let (shop, names) = example().await;
    let asked = json!({"requestId": "c9", "reservationId": names[0], "parts": [
        {"line": 1, "taken": length(2_700.0), "offcuts": [{"lengthMm": 30.0}, {"lengthMm": 250.0}, {"lengthMm": 20.0}]},
    ]});
    let first = shop.cut(asked.clone()).await.unwrap();
    let outcomes = |cut: &v1::RecordCutResponse| -> Vec<(bool, String)> {
        cut.offcuts.iter().map(|offcut| (offcut.kept, offcut.piece_id.clone())).collect()
    };
    let kept: Vec<bool> = first.offcuts.iter().map(|offcut| offcut.kept).collect();
    assert_eq!(kept, [false, true, false]);
    let again = shop.cut(asked.clone()).await.unwrap();
    assert_eq!((again.replayed, &again.offcuts), (true, &first.offcuts));
    // a shop that sells this cloth no longer would keep nothing of it
    let gone = SALTMERE_LOFT.replace("\"kelp\"", "\"tangle\"");
    let later = shop.later("2026-11-24T10:05:00Z", &gone);
    let again = later.cut(asked.clone()).await.unwrap();
    assert_eq!((again.replayed, again.cut_id.as_str()), (true, first.cut_id.as_str()));
    assert_eq!(outcomes(&again), outcomes(&first));
    assert_eq!(again.offcuts[1].message, "kept when it was recorded");
    shop.adds_up().await;
}

/// A piece that many are promised of tells of the latest two hundred.
#[tokio::test]
async fn a_piece_tells_of_as_many_promises_as_it_says() {
    let (shop, _) = example().await;
    shop.receive(json!([{"pieceId": "C", "code": "kelp", "lot": "K1", "quantity": length(9_000.0)}])).await;
    for number in 3..206_u8 {
        let name = format!("many{number}");
        promise(&shop, &name, number, "C", 10).await;
    }
    let request = v1::GetPieceRequest { piece_id: "C".to_owned() };
    let told = shop.service.get_piece(&staff(), &request).await.unwrap();
    assert_eq!((told.reservations.len(), told.movements.len()), (200, 204));
    let all_of_it =
        |held: &v1::Reservation| held.lines.iter().all(|line| line.piece_id == "C" && line.code == "kelp");
    assert!(told.reservations.iter().all(all_of_it));
}

/// What is said to be a flaw is beside those that others have told of meanwhile.
#[tokio::test]
async fn two_who_tell_of_flaws_take_nothing_from_each_other() {
    let (shop, _) = example().await;
    let flaw =
        |from: f64, to: f64| json!({"pieceId": "B", "moreFlaws": {"flaws": [{"fromMm": from, "toMm": to}]}});
    shop.adjust(flaw(2_920.0, 2_930.0)).await.unwrap();
    shop.adjust(flaw(2_950.0, 2_960.0)).await.unwrap();
    let told = shop.adjust(flaw(2_960.0, 2_970.0)).await.unwrap();
    let flaws: Vec<(f64, f64)> =
        told.piece.unwrap().flaws.iter().map(|flaw| (flaw.from_mm, flaw.to_mm)).collect();
    assert_eq!(format!("{flaws:?}"), "[(2920.0, 2930.0), (2950.0, 2970.0)]");
    let before = shop.state().await;
    let none = shop.adjust(json!({"pieceId": "B", "moreFlaws": {}})).await.unwrap_err();
    assert!(none.kind == Kind::InvalidEnquiry && none.violations[0].field == "moreFlaws.flaws", "{none:?}");
    let many: Vec<Value> = (0..99).map(|at| json!({"fromMm": at * 20, "toMm": at * 20 + 1})).collect();
    let many = json!({"pieceId": "B", "moreFlaws": {"flaws": many}});
    let refused = shop.adjust(many).await.unwrap_err();
    assert!(refused.violations[0].message.starts_with("2 flaws are known and 99 more"), "{refused:?}");
    assert_eq!(shop.state().await, before);
}
