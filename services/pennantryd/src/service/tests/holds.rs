//! Holding, confirming, letting go.

use pennantry_contract::reasons::Kind;
use pennantry_ledger::postgres;

use super::*;

/// The order of the issue: remnants first, the bolt for the rest, never more new cloth than the
/// quote charges, and what nobody keeps in stock is said.
#[tokio::test]
async fn an_order_is_held_from_a_remnant_and_a_bolt() {
    let shop = open();
    shop.receive(json!([
        {"pieceId": "K-REST", "code": "kelp", "kind": "PIECE_KIND_REMNANT", "lot": "K1", "quantity": length(240.0)},
        {"pieceId": "K-BOLT", "code": "kelp", "lot": "K1", "quantity": length(9_000.0)},
        {"pieceId": "ROPE", "code": "chandlers-rope", "quantity": length(9_000.0)},
        {"pieceId": "LAMP", "code": "lamp-oil", "quantity": length(9_000.0)},
        {"pieceId": "BOSUN", "code": "bosun-25", "quantity": length(25_000.0)},
    ]))
    .await;
    // two strings of 30: kelp, the first of the design's three fabrics, hangs twenty times
    let quote = shop.quote(json!({"flaggedMm": 6200, "quantity": 2, "near": {"who": "WHO_NO_CHILD"}}));
    let kelp = quote.fabrics.iter().find(|fabric| fabric.fabric_code == "kelp").unwrap();
    let held = shop.hold(&staff(), &quote).await;
    assert_eq!(held.state(), v1::ReservationState::Held);
    assert_eq!(held.quote_id, quote.quote_id.clone().unwrap());
    assert_eq!(held.total, quote.price.as_ref().unwrap().total);
    assert_eq!(held.leave_date.as_ref(), quote.dates.as_ref().map(|dates| &dates.leave_date));
    assert_eq!(held.expire_time.as_deref(), Some("2026-11-24T10:15:00Z"));
    let taken = lines(&held, "kelp");
    // one row of the remnant, 210 and 20 of squaring, gives up to 9; the rest comes off the bolt
    assert_eq!(taken.first().map(|line| (line.0, line.1)), Some(("K-REST", 230.0)));
    assert_eq!(taken.get(1).map(|line| line.0), Some("K-BOLT"));
    assert!(taken.iter().map(|line| line.2).sum::<u32>() >= kelp.piece_count, "{taken:?}");
    let new: f64 = taken.iter().filter(|line| line.0 == "K-BOLT").map(|line| line.1).sum();
    assert!(new <= kelp.charged_mm && new > 0.0, "{new} of {}", kelp.charged_mm);
    // both strings off the roll, each in one piece
    let cut = quote.binding.as_ref().unwrap().cut_mm;
    assert_eq!(lines(&held, "bosun-25"), [("BOSUN", cut, 2)]);
    let purposes: Vec<&str> = held.lines.iter().map(|line| line.purpose.as_str()).collect();
    assert!(purposes.contains(&"pennants") && purposes.contains(&"binding"), "{purposes:?}");
    let notices: Vec<&str> = held.notices.iter().map(|notice| notice.code.as_str()).collect();
    assert_eq!(notices, ["NOT_KEPT"]);
    assert!(held.notices[0].message.contains("nothing is reserved of it"), "{:?}", held.notices);
    assert_eq!(mm(shop.piece("K-REST").await.held.as_ref()), 230.0);
    assert_eq!(shop.get(&held.reservation_id).await.unwrap(), held);
    shop.adds_up().await;
}

#[tokio::test]
async fn one_dye_lot_serves_where_one_can() {
    let shop = open();
    shop.stocked().await;
    // of the lot M1 there is a remnant, but not enough with it
    shop.receive(json!([
        {"pieceId": "A-REST", "code": "kelp", "kind": "PIECE_KIND_REMNANT", "lot": "M1", "quantity": length(240.0)},
    ]))
    .await;
    let quote = shop.quote(json!({"flaggedMm": 12_000, "near": {"who": "WHO_NO_CHILD"}}));
    let held = shop.hold(&staff(), &quote).await;
    let lots: Vec<&str> =
        held.lines.iter().filter(|line| line.code == "kelp").map(|line| line.lot.as_str()).collect();
    assert!(!lots.is_empty() && lots.iter().all(|lot| *lot == "K1"), "{lots:?}");
}

/// The labels are kept once some came; then they are reserved, and missing when there are too few.
#[tokio::test]
async fn what_is_counted_is_reserved_once_it_was_received() {
    let shop = open();
    shop.stocked().await;
    let held = shop.hold(&staff(), &shop.usual()).await;
    let labels = held.lines.iter().find(|line| line.code == "sewn-label").unwrap();
    assert_eq!(labels.planned.unwrap().amount, Some(v1::quantity::Amount::Count(1)));
    assert!(held.notices[0].message.contains("nothing is reserved"), "card and bag: {:?}", held.notices);
    assert!(!held.notices[0].message.contains("label"), "{:?}", held.notices);
    shop.adjust(json!({"pieceId": "LABELS", "counted": {"count": 1}})).await.unwrap();
    let before = shop.state().await;
    let refused = shop.try_hold(&staff(), hold(&shop.usual()), "").await.unwrap_err();
    assert_eq!(refused.kind, Kind::FailedPrecondition);
    assert!(refused.detail.contains("1 of \"sewn-label\""), "{}", refused.detail);
    assert_eq!(shop.state().await, before);
}

#[tokio::test]
async fn a_hold_is_confirmed_listed_and_called_off() {
    let shop = open();
    shop.stocked().await;
    let held = shop.hold(&staff(), &shop.usual()).await;
    let id = held.reservation_id.as_str();
    assert_eq!((id.len(), id.contains(['i', 'l', 'o', 'u'])), (26, false), "{id}");
    let confirmed = shop.confirm(id, "SO-17").await.unwrap();
    assert_eq!(confirmed.state(), v1::ReservationState::Confirmed);
    assert_eq!((confirmed.order_reference.as_str(), confirmed.expire_time.as_ref()), ("SO-17", None));
    // the same again is the same
    assert_eq!(shop.confirm(id, "SO-17").await.unwrap(), confirmed);
    let refused = shop.confirm(id, "SO-18").await.unwrap_err();
    assert_eq!(refused.kind, Kind::FailedPrecondition, "{refused:?}");
    let refused = shop.release(id).await.unwrap_err();
    assert!(refused.kind == Kind::FailedPrecondition && refused.detail.contains("confirmed"), "{refused:?}");
    let listed =
        shop.service.list_reservations(&staff(), &v1::ListReservationsRequest::default()).await.unwrap();
    assert_eq!(listed.reservations, std::slice::from_ref(&confirmed));
    assert_eq!(mm(shop.piece("KELP-1").await.confirmed.as_ref()), lines(&confirmed, "kelp")[0].1);
    let cancelled = shop.cancel(id).await.unwrap();
    assert_eq!(cancelled.state(), v1::ReservationState::Cancelled);
    assert_eq!(cancelled.reason, "the buyer changed plans");
    assert_eq!(mm(shop.piece("KELP-1").await.free.as_ref()), 20_000.0);
    shop.adds_up().await;
}

#[tokio::test]
async fn a_repeat_gets_the_first_answer_and_changes_nothing() {
    let shop = open();
    shop.stocked().await;
    let quote = shop.usual();
    let first = shop.try_hold(&staff(), hold(&quote), "key-1").await.unwrap();
    let before = shop.state().await;
    // long after the quote has ended, too
    let later = shop.later("2027-03-01T10:00:00Z", SALTMERE_LOFT);
    let again = later.try_hold(&staff(), hold(&quote), "key-1").await.unwrap();
    assert_eq!(again, v1::Reservation { replayed: true, ..first });
    assert_eq!(shop.state().await, before);
    let other = v1::Hold { seconds: Some(60), ..hold(&quote) };
    let refused = shop.try_hold(&staff(), other, "key-1").await.unwrap_err();
    assert_eq!(refused.kind, Kind::KeyReused);
    // the key is its caller's
    assert!(shop.try_hold(&buyer(7), hold(&quote), "key-1").await.is_ok_and(|held| !held.replayed));
}

#[tokio::test]
async fn a_hold_ends_at_its_instant_and_can_be_extended_up_to_a_limit() {
    let shop = open();
    shop.stocked().await;
    let held = shop.hold(&buyer(7), &shop.usual()).await;
    assert_eq!(held.extend_until.as_deref(), Some("2026-11-24T12:00:00Z"));
    assert_eq!((held.lines.len(), held.holder.as_str(), held.summary.as_str()), (0, "", ""), "the shop's");
    let id = held.reservation_id.as_str();
    let extend = |seconds: u32| read(json!({"reservationId": id, "extension": {"seconds": seconds}}));
    let refused = shop.service.extend_reservation(&buyer(7), &extend(1_801)).await.unwrap_err();
    assert_eq!(refused.violations[0].field, "seconds");
    let longer =
        shop.service.extend_reservation(&buyer(7), &extend(1_800)).await.unwrap().reservation.unwrap();
    assert_eq!(longer.expire_time.as_deref(), Some("2026-11-24T10:30:00Z"));
    let ended = shop.later("2026-11-24T10:30:00Z", SALTMERE_LOFT);
    let got = ended.get(id).await.unwrap();
    assert_eq!((got.state(), got.expire_time), (v1::ReservationState::Expired, None));
    assert!(got.lines.iter().all(wants_nothing), "{:?}", got.lines);
    assert_eq!(mm(ended.piece("KELP-1").await.free.as_ref()), 20_000.0, "though nobody has ended it yet");
    let refused = ended.confirm(id, "SO-1").await.unwrap_err();
    assert_eq!(refused.kind, Kind::FailedPrecondition, "{refused:?}");
    assert_eq!(ended.release(id).await.unwrap().state(), v1::ReservationState::Expired);
    ended.adds_up().await;
}

/// Whether a line wants nothing any longer.
fn wants_nothing(line: &v1::ReservationLine) -> bool {
    match line.wanted.and_then(|wanted| wanted.amount) {
        Some(v1::quantity::Amount::LengthMm(mm)) => Mm(mm) == 0.0,
        Some(v1::quantity::Amount::Count(count)) => count == 0,
        None => false,
    }
}

#[tokio::test]
async fn one_caller_has_so_many_holds_and_may_exchange_one() {
    let shop = open();
    shop.stocked().await;
    let quote = shop.usual();
    let mut last = String::new();
    for _ in 0..5 {
        last = shop.hold(&buyer(7), &quote).await.reservation_id;
    }
    let refused = shop.try_hold(&buyer(7), hold(&quote), "").await.unwrap_err();
    assert_eq!(refused.kind, Kind::ResourceExhausted, "{refused:?}");
    let instead = v1::Hold { supersedes_id: last.clone(), ..hold(&quote) };
    // somebody else cannot have it
    let refused = shop.try_hold(&buyer(8), instead.clone(), "").await.unwrap_err();
    assert_eq!(refused.kind, Kind::FailedPrecondition, "{refused:?}");
    let held = shop.try_hold(&buyer(7), instead, "").await.unwrap();
    assert_eq!(shop.get(&last).await.unwrap().superseded_by_id, Some(held.reservation_id.clone()));
    let kept = shop.get(&held.reservation_id).await.unwrap();
    assert!(kept.holder.starts_with("public-") && !kept.holder.contains("203"), "{}", kept.holder);
    shop.adds_up().await;
}

/// Many at once for cloth that is enough for some: each gets all or a word, and nothing is sold
/// twice.
#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn a_shelf_that_is_old_is_read_again() {
    let shop = std::sync::Arc::new(open());
    let quote = shop.usual();
    let kelp = quote.fabrics.iter().find(|fabric| fabric.fabric_code == "kelp").unwrap().charged_mm;
    // for three, on three bolts
    for bolt in 0..3 {
        shop.receive(
            json!([{"pieceId": format!("K-{bolt}"), "code": "kelp", "lot": "K1", "quantity": length(kelp)}]),
        )
        .await;
    }
    shop.receive(json!([
        {"pieceId": "ROPE", "code": "chandlers-rope", "quantity": length(90_000.0)},
        {"pieceId": "LAMP", "code": "lamp-oil", "quantity": length(90_000.0)},
        {"pieceId": "BOSUN", "code": "bosun-25", "quantity": length(500_000.0)},
    ]))
    .await;
    let mut tasks = tokio::task::JoinSet::new();
    for _ in 0..10 {
        let (shop, hold) = (shop.clone(), hold(&quote));
        tasks.spawn(async move { shop.try_hold(&staff(), hold, "").await });
    }
    let answers = tasks.join_all().await;
    let held: Vec<&v1::Reservation> = answers.iter().filter_map(|answer| answer.as_ref().ok()).collect();
    assert_eq!(held.len(), 3, "{answers:?}");
    for refused in answers.iter().filter_map(|answer| answer.as_ref().err()) {
        assert_eq!(refused.kind, Kind::FailedPrecondition, "{refused:?}");
        assert!(refused.detail.contains("\"kelp\""), "{refused:?}");
    }
    shop.adds_up().await;
}

#[tokio::test]
async fn another_catalogue_bounds_no_cloth_and_changes_no_price() {
    let shop = open();
    shop.stocked().await;
    let quote = shop.usual();
    // a coarser step charges more cloth, and the price goes up
    let text = SALTMERE_LOFT.replacen("cut_step_mm = 100", "cut_step_mm = 300", 1).replacen(
        "price_per_metre = \"11.00\"",
        "price_per_metre = \"19.00\"",
        1,
    );
    assert_ne!(text, SALTMERE_LOFT);
    let other = shop.later(NOW, &text);
    let held = other.hold(&staff(), &quote).await;
    assert_eq!(held.total, quote.price.as_ref().unwrap().total);
    let notice = held.notices.iter().find(|notice| notice.code == "SOLD_FROM_ANOTHER_CATALOGUE").unwrap();
    assert!(notice.message.contains("\"kelp\" for pennants"), "{}", notice.message);
    let kelp = quote.fabrics.iter().find(|fabric| fabric.fabric_code == "kelp").unwrap().charged_mm;
    assert!(lines(&held, "kelp").iter().map(|line| line.1).sum::<f64>() <= kelp);
    // a design that is not made any longer cannot be held
    let gone = SALTMERE_LOFT.replace("code = \"harbour\"", "code = \"haven\"");
    let refused = shop.later(NOW, &gone).try_hold(&staff(), hold(&quote), "").await.unwrap_err();
    assert_eq!(refused.kind, Kind::FailedPrecondition);
    assert!(refused.detail.contains("cannot be made any longer"), "{}", refused.detail);
}

#[tokio::test]
async fn a_wanted_day_that_has_passed_is_dropped_and_leaving_is_put_off() {
    let shop = open();
    shop.stocked().await;
    let quote =
        shop.quote(json!({"flaggedMm": 6200, "wantedDate": "2026-11-25", "near": {"who": "WHO_NO_CHILD"}}));
    let later = shop.later("2026-12-04T10:00:00Z", SALTMERE_LOFT);
    let held = later.hold(&staff(), &quote).await;
    assert!(held.leave_date > Some("2026-12-03".to_owned()), "{held:?}");
    assert!(held.notices.iter().any(|notice| notice.code == "LEAVES_LATER"), "{:?}", held.notices);
    assert_eq!(held.total, quote.price.as_ref().unwrap().total);
}

/// A string longer than a roll is taken in the pieces between its joins.
#[tokio::test]
async fn a_long_string_takes_its_binding_in_pieces() {
    let shop = open();
    shop.stocked().await;
    shop.adjust(json!({"pieceId": "BOSUN-1", "counted": length(0.0)})).await.unwrap();
    shop.receive(json!([
        {"pieceId": "ROLL-1", "code": "bosun-25", "lot": "B2", "quantity": length(25_000.0)},
        {"pieceId": "ROLL-2", "code": "bosun-25", "lot": "B2", "quantity": length(25_000.0)},
        {"pieceId": "ROLL-3", "code": "bosun-25", "lot": "B2", "quantity": length(25_000.0)},
    ]))
    .await;
    let quote = shop.quote(json!({"flaggedMm": 60_000, "near": {"who": "WHO_NO_CHILD"}}));
    let binding = quote.binding.as_ref().unwrap();
    assert_eq!(binding.join_count, 2);
    let held = shop.hold(&staff(), &quote).await;
    let taken = lines(&held, "bosun-25");
    assert_eq!(taken.iter().map(|line| line.2).sum::<u32>(), 3, "{taken:?}");
    let sum: f64 = taken.iter().map(|line| line.1).sum();
    assert_eq!(Mm(sum), binding.taken_mm, "{taken:?}");
    assert!(taken.iter().all(|line| line.1 <= 25_000.0), "{taken:?}");
}

/// Letters, their web and a binding that is cut from a cloth are items of their own.
#[tokio::test]
async fn every_cloth_of_an_order_is_an_item() {
    let shop = open();
    shop.stocked().await;
    let quote = shop.quote(json!({
        "flaggedMm": 6200, "lettering": "AHOY", "bindingCode": "kelp-bias-25", "near": {"who": "WHO_NO_CHILD"},
    }));
    let refused = shop.try_hold(&staff(), hold(&quote), "").await.unwrap_err();
    assert!(
        refused.detail.contains("for web") && refused.detail.contains("for letters"),
        "{}",
        refused.detail
    );
    let cloths: Vec<Value> = quote
        .fabrics
        .iter()
        .map(|fabric| json!({"code": fabric.fabric_code, "quantity": length(20_000.0)}))
        .collect();
    shop.receive(json!(cloths)).await;
    let held = shop.hold(&staff(), &quote).await;
    let mut purposes: Vec<(&str, &str)> =
        held.lines.iter().map(|line| (line.purpose.as_str(), line.code.as_str())).collect();
    purposes.dedup();
    for (purpose, code) in [("pennants", "kelp"), ("binding", "kelp")] {
        assert!(purposes.contains(&(purpose, code)), "{purposes:?}");
    }
    for purpose in ["letters", "web"] {
        assert!(purposes.iter().any(|known| known.0 == purpose), "{purposes:?}");
    }
    let binding = held.lines.iter().find(|line| line.purpose == "binding").unwrap();
    let Some(v1::binding_use::Supply::Bias(bias)) = quote.binding.unwrap().supply else { panic!("bias") };
    assert_eq!(mm(binding.planned.as_ref()), bias.charged_mm);
    shop.adds_up().await;
}

/// Lines know the true area of what is cut: of cloth that of the cut outline, seams and all, of what
/// is no cloth none.
#[tokio::test]
async fn lines_know_the_area_of_their_shapes() {
    let shop = open();
    shop.stocked().await;
    let quote = shop.usual();
    let held = shop.hold(&staff(), &quote).await;
    let kept = shop.stock.ledger.reservation(&held.reservation_id.as_str().into()).await.unwrap().unwrap();
    // triangles of 190 by 210 mm, pinked: half a rectangle
    let areas: Vec<_> = kept.lines.iter().map(|line| (line.piece.as_str(), line.shape_area)).collect();
    let pennant = 190_000 * 210_000 / 2;
    let expected =
        [("KELP-1", pennant), ("ROPE-1", pennant), ("LAMP-1", pennant), ("BOSUN-1", 0), ("LABELS", 0)];
    assert_eq!(areas, expected);

    // strips 50 mm wide across a cloth, of which 6 820 mm are sewn in, turn-unders and all
    let straight =
        json!({"flaggedMm": 6200, "bindingCode": "tern-straight-25", "near": {"who": "WHO_NO_CHILD"}});
    let quote = shop.quote(straight);
    assert_eq!(Mm(quote.binding.as_ref().unwrap().cut_mm), 6_820.0);
    let held = shop.hold(&staff(), &quote).await;
    let place = held.lines.iter().position(|line| line.purpose == "binding").unwrap();
    let kept = shop.stock.ledger.reservation(&held.reservation_id.as_str().into()).await.unwrap().unwrap();
    assert_eq!((kept.lines[place].shape_area, kept.lines[place].shapes), (6_820_000 * 50_000, 1));
}

/// When more is expected is a hint: where it cannot be read, what is missing is told all the same.
#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn what_is_missing_is_told_where_orders_cannot_be_read() {
    let given = tokio::task::spawn_blocking(crate::tests::postgres::Database::new).await.unwrap();
    postgres::migrate(&given.url()).await.unwrap();
    let store = postgres::Store::open(&given.url(), postgres::Options::default()).await.unwrap();
    let stock = Stock::new(Ledger::Postgres(store), Holds::default());
    let clock = Clock::Fixed(NOW.parse().unwrap());
    let service = Service::new(catalogue(SALTMERE_LOFT), clock, Keys::fresh().unwrap());
    let shop = Shop { service: service.with_stock(stock.clone()).into(), stock, ..open() };
    shop.stocked().await;
    let quote = shop.quote(json!({"flaggedMm": 90_000, "quantity": 2, "near": {"who": "WHO_NO_CHILD"}}));
    let before = shop.try_hold(&staff(), hold(&quote), "").await.unwrap_err();
    given.ask("ALTER TABLE purchase RENAME TO elsewhere");
    let refused = shop.try_hold(&staff(), hold(&quote), "").await.unwrap_err();
    assert_eq!((refused.kind, &refused.detail), (Kind::FailedPrecondition, &before.detail));
    shop.stock.ledger.close().await;
}

/// A storefront that hears nothing sends again. A key that was made meanwhile makes no other request
/// of that, and no other holder of the buyer.
#[tokio::test]
async fn a_hold_sent_again_after_a_new_key_is_the_same_hold() {
    let mut shop = open();
    shop.stocked().await;
    let (old, new) =
        ("AAECAwQFBgcICQoLDA0ODxAREhMUFRYXGBkaGxwdHh8", "BBECAwQFBgcICQoLDA0ODxAREhMUFRYXGBkaGxwdHh8");
    let clock = || Clock::Fixed(NOW.parse::<Timestamp>().unwrap());
    shop.keys = Keys::read(old).unwrap();
    let before = shop.by(clock(), SALTMERE_LOFT);
    shop.keys = Keys::read(&format!("{new}\n{old}")).unwrap();
    let after = shop.by(clock(), SALTMERE_LOFT);
    let quote = before.usual();
    let first = before.try_hold(&buyer(7), hold(&quote), "k-1").await.unwrap();
    let again = after.try_hold(&buyer(7), hold(&quote), "k-1").await.unwrap();
    assert_eq!((again.reservation_id, again.replayed), (first.reservation_id.clone(), true));
    let holder = shop.get(&first.reservation_id).await.unwrap().holder;
    let other = after.try_hold(&buyer(7), hold(&after.usual()), "k-2").await.unwrap();
    assert_eq!(shop.get(&other.reservation_id).await.unwrap().holder, holder);
    shop.adds_up().await;
}
