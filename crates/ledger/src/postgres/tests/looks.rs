//! What can be looked at.

use std::time::{Duration, Instant};

use super::{Shop, bolt, command, confirm, count_piece, done, hold, kelp, mm, receive, release, reserve};
use crate::engine::{FindPieces, FindReservations};
use crate::postgres::{Options, Store};
use crate::rules::{
    CancelOrder, Class, Command, Cut, EventKind, Finish, Flaw, Line, Material, NewOrderLine, NewPiece,
    NewRemnant, OrderState, Part, PieceId, PieceKind, Place, Reason, Receive, Reserve, State, Undo,
};
use pennantry_measure::Length;

#[tokio::test(flavor = "multi_thread")]
async fn a_piece_comes_back_as_it_was_given() {
    let shop = Shop::new().await;
    let flaw = |from, to| Flaw { from: Length::from_mm(from), to: Length::from_mm(to) };
    let given = NewPiece { flaws: vec![flaw(100, 110), flaw(400, 450)], ..bolt("B 1 \u{e9}'\"", 1_000) };
    done(&shop.store, receive(vec![given.clone()])).await;
    let piece = shop.store.piece(&given.id).await.unwrap().unwrap();
    assert_eq!(piece.flaws, given.flaws);
    assert_eq!(piece.certificates, given.certificates);
    assert_eq!((piece.width, piece.left, piece.received), (given.width, given.amount, given.amount));
    assert_eq!((piece.kind, piece.material, piece.cost_minor), (PieceKind::Bolt, kelp(), Some(4_200)));
    assert_eq!(shop.store.piece(&"none".into()).await, Ok(None));
    shop.is_sound().await;
}

#[tokio::test(flavor = "multi_thread")]
async fn pieces_and_reservations_are_found_page_by_page() {
    let shop = Shop::new().await;
    let other = NewPiece {
        material: Material { class: Class::Cloth, code: "TERN".to_owned() },
        lot: String::new(),
        ..bolt("c", 100)
    };
    done(&shop.store, receive(vec![bolt("a", 1_000), bolt("B", 1_000), bolt("b", 1_000), other])).await;
    done(&shop.store, count_piece("b", 0)).await;
    let find = async |find: FindPieces| {
        let found = shop.store.pieces(&find).await.unwrap();
        found.into_iter().map(|piece| piece.id.0).collect::<Vec<_>>()
    };
    let all = FindPieces { most: 10, ..FindPieces::default() };
    // bytes, not letters: capitals first
    assert_eq!(find(all.clone()).await, ["B", "a", "c"]);
    assert_eq!(find(FindPieces { empty_too: true, ..all.clone() }).await, ["B", "a", "b", "c"]);
    assert_eq!(find(FindPieces { after: Some("B".into()), most: 1, ..all.clone() }).await, ["a"]);
    assert_eq!(find(FindPieces { material: Some(kelp()), ..all.clone() }).await, ["B", "a"]);
    assert_eq!(find(FindPieces { lot: Some(String::new()), ..all }).await, ["c"]);

    for id in ["R1", "R2", "R3"] {
        done(&shop.store, reserve(id, &[("a", 300), ("B", 10)])).await;
    }
    done(&shop.store, confirm("R1")).await;
    done(&shop.store, release("R2")).await;
    let find = async |find: FindReservations| {
        let found = shop.store.reservations(&find).await.unwrap();
        found.into_iter().map(|reservation| reservation.id.0).collect::<Vec<_>>()
    };
    let all = FindReservations { most: 10, ..FindReservations::default() };
    assert_eq!(find(all.clone()).await, ["R3", "R2", "R1"]);
    assert_eq!(find(FindReservations { after: Some("R3".into()), most: 1, ..all.clone() }).await, ["R2"]);
    let live = vec![State::Held, State::Confirmed];
    assert_eq!(find(FindReservations { states: live, ..all.clone() }).await, ["R3", "R1"]);
    assert_eq!(find(FindReservations { piece: Some("a".into()), ..all.clone() }).await, ["R3", "R1"]);
    assert_eq!(find(FindReservations { short_only: true, ..all.clone() }).await, Vec::<String>::new());
    done(&shop.store, count_piece("a", 500)).await;
    assert_eq!(find(FindReservations { short_only: true, ..all }).await, ["R3"]);
    let reservation = shop.store.reservation(&"R3".into()).await.unwrap().unwrap();
    assert_eq!(reservation.lines.iter().map(Line::short).collect::<Vec<_>>(), [mm(100), mm(0)]);
    assert_eq!((reservation.sold.as_slice(), reservation.leave_day), (b"sold".as_slice(), Some(20_790)));
    assert_eq!(shop.store.bookings(20_791).await.unwrap(), []);
    let bookings = shop.store.bookings(20_790).await.unwrap();
    assert_eq!(bookings.len(), 1);
    assert_eq!((bookings[0].leave_day, bookings[0].milli_minutes), (Some(20_790), 12_500));
    shop.is_sound().await;
}

#[tokio::test(flavor = "multi_thread")]
async fn a_cut_and_what_it_left_are_kept_and_taken_back() {
    let shop = Shop::new().await;
    done(&shop.store, receive(vec![bolt("B1", 3_000)])).await;
    done(&shop.store, reserve("R1", &[("B1", 2_000)])).await;
    done(&shop.store, confirm("R1")).await;
    let remnant = NewRemnant {
        id: "M1".into(),
        length: Length::from_mm(300),
        width: Length::from_mm(1_370),
        location: "box".to_owned(),
    };
    let part = Part {
        line: 1,
        piece: None,
        taken: mm(2_400),
        spoiled: mm(100),
        why: Reason::Miscut,
        shapes: None,
        remnants: vec![remnant],
        finish: Finish::WhenEnough,
        note: String::new(),
    };
    let cut = Cut { id: "C1".into(), reservation: "R1".into(), parts: vec![part], day: None };
    let answer = done(&shop.store, command(Command::Cut(cut))).await.outcome;
    assert_eq!(shop.store.cut(&"C1".into()).await.unwrap(), answer.cut);
    assert_eq!(shop.store.cuts(&"R1".into()).await.unwrap().len(), 1);
    assert_eq!(shop.store.reservation(&"R1".into()).await.unwrap().unwrap().state, State::Cut);
    let remnant = shop.store.piece(&"M1".into()).await.unwrap().unwrap();
    assert_eq!((remnant.parent, remnant.left), (Some(PieceId::from("B1")), mm(300)));
    let movements = shop.store.movements(&"B1".into(), 0, 100).await.unwrap();
    let later = shop.store.movements(&"B1".into(), 2, 1).await.unwrap();
    assert_eq!(later, movements[2..3]);
    shop.is_sound().await;
    // what the embedded engine finds of a cut is found here as well
    for (spoil, mend, named) in [
        (
            "UPDATE line SET used = used + 1",
            "UPDATE line SET used = used - 1",
            "cuts say something else: \"R1, line 1\"",
        ),
        ("UPDATE line SET shapes_cut = 9", "UPDATE line SET shapes_cut = 4", "cuts say something else"),
        (
            "UPDATE cut_part SET remnants = ''",
            "UPDATE cut_part SET remnants = 'M1'",
            "cut \"C1\": what is kept is 300000",
        ),
        ("UPDATE cut_part SET remnants = 'M2'", "UPDATE cut_part SET remnants = 'M1'", "\"M2\" is not there"),
    ] {
        shop.ask(spoil);
        let found = shop.store.verify().await.unwrap();
        assert!(found.drift.iter().any(|drift| drift.contains(named)), "{named}: {:?}", found.drift);
        shop.ask(mend);
    }
    shop.is_sound().await;
    done(&shop.store, command(Command::Undo(Undo { cut: "C1".into() }))).await;
    assert_eq!(shop.store.reservation(&"R1".into()).await.unwrap().unwrap().state, State::Confirmed);
    assert_eq!(shop.store.piece(&"B1".into()).await.unwrap().unwrap().left, mm(3_000));
    shop.is_sound().await;
}

#[tokio::test(flavor = "multi_thread")]
async fn orders_fill_up() {
    let shop = Shop::new().await;
    let place = |id: &str| {
        let lines = vec![NewOrderLine { material: kelp(), amount: mm(5_000) }];
        let (supplier, note) = ("Ropewalk Mill".to_owned(), String::new());
        command(Command::Place(Place { id: id.into(), supplier, expected_day: 20_800, note, lines }))
    };
    done(&shop.store, place("O1")).await;
    done(&shop.store, place("O2")).await;
    assert_eq!(shop.store.on_order().await.unwrap(), [(kelp(), mm(10_000))]);
    let come = Receive { pieces: vec![bolt("B1", 2_000)], order: Some("O1".into()) };
    done(&shop.store, command(Command::Receive(come))).await;
    assert_eq!(shop.store.on_order().await.unwrap(), [(kelp(), mm(8_000))]);
    done(
        &shop.store,
        command(Command::CancelOrder(CancelOrder { id: "O2".into(), reason: "late".to_owned() })),
    )
    .await;
    assert_eq!(shop.store.on_order().await.unwrap(), [(kelp(), mm(3_000))]);
    let orders = shop.store.orders(false, 10).await.unwrap();
    assert_eq!(orders.iter().map(|order| order.id.as_str()).collect::<Vec<_>>(), ["O2", "O1"]);
    assert_eq!(orders[0].state, OrderState::Cancelled);
    assert_eq!(shop.store.orders(true, 10).await.unwrap().len(), 1);
    assert_eq!(orders[1].lines[0].received, mm(2_000));
    shop.is_sound().await;
    for spoil in [
        "UPDATE purchase_line SET received = received + 1 WHERE purchase = 'O1'",
        "DELETE FROM purchase_line",
    ] {
        shop.ask(spoil);
        let found = shop.store.verify().await.unwrap();
        let named = "came on it say something else: \"O1, KELP\"";
        assert!(found.drift.iter().any(|drift| drift.contains(named)), "{:?}", found.drift);
    }
}

#[tokio::test(flavor = "multi_thread")]
async fn the_shelf_follows_changes_of_this_server_at_once_and_of_others_soon() {
    let options = Options { shelf_age: Duration::ZERO, ..Options::default() };
    let shop = Shop::new().await;
    let other = Store::open(&shop.database.url(), options).await.unwrap();
    done(&shop.store, receive(vec![bolt("B1", 1_000), bolt("B2", 1_000)])).await;
    let shelf = shop.store.shelf();
    assert_eq!(shelf.of(&kelp()).len(), 2);
    let held = done(&shop.store, reserve("R1", &[("B1", 400)])).await.outcome.reservation.unwrap();
    let shelf = shop.store.shelf();
    let bolt = shelf.piece(&kelp(), &"B1".into()).unwrap();
    assert_eq!(bolt.free(held.created), mm(600));
    assert_eq!(bolt.free(held.expires), mm(1_000), "from then on it counts for nothing");
    done(&shop.store, count_piece("B2", 0)).await;
    assert_eq!(shop.store.shelf().of(&kelp()).len(), 1, "an empty piece is not on the shelf");
    let whole = shop.store.read_shelf().await.unwrap();
    assert_eq!(whole.materials, shop.store.shelf().materials);

    // the other server reads again when somebody looks
    let ends = Instant::now() + Duration::from_secs(5);
    while other.shelf().of(&kelp()).first().is_none_or(|bolt| bolt.free(held.created) != mm(600)) {
        assert!(Instant::now() < ends, "{:?}", other.shelf());
        tokio::time::sleep(Duration::from_millis(2)).await;
    }
    assert!(other.shelf().at >= held.created);
}

#[tokio::test(flavor = "multi_thread")]
async fn events_are_in_order_and_none_is_missed() {
    let shop = Shop::new().await;
    let other = Store::open(&shop.database.url(), Options::default()).await.unwrap();
    done(&shop.store, receive(vec![bolt("B1", 100_000)])).await;
    let writers: Vec<_> = (0..6)
        .map(|writer| {
            let store = if writer % 2 == 0 { shop.store.clone() } else { other.clone() };
            tokio::spawn(async move {
                for number in 0..20 {
                    done(&store, reserve(&format!("R{writer}-{number}"), &[("B1", 10)])).await;
                }
            })
        })
        .collect();
    // two read on from where they are while others write
    let readers: Vec<_> = [shop.store.clone(), other.clone()]
        .into_iter()
        .map(|store| {
            tokio::spawn(async move {
                let mut seen = Vec::new();
                let ends = Instant::now() + Duration::from_secs(30);
                while seen.len() < 121 && Instant::now() < ends {
                    let last = i64::try_from(seen.len()).unwrap();
                    store.wait_for_events(last, Duration::from_secs(1)).await;
                    let events = store.events(last, 7).await.unwrap();
                    seen.extend(events);
                }
                seen
            })
        })
        .collect();
    for writer in writers {
        writer.await.unwrap();
    }
    let mut all = Vec::new();
    for reader in readers {
        all.push(reader.await.unwrap());
    }
    assert_eq!(all[0], all[1]);
    assert_eq!(all[0].iter().map(|event| event.place).collect::<Vec<_>>(), (1..=121).collect::<Vec<i64>>());
    assert_eq!(all[0][0].event.kind, EventKind::Received);
    assert_eq!(shop.store.last_place().await, Ok(121));
    shop.is_sound().await;
}

#[tokio::test(flavor = "multi_thread")]
async fn an_event_that_is_committed_late_is_seen_by_who_read_on() {
    let shop = Shop::new().await;
    done(&shop.store, receive(vec![bolt("B1", 1_000)])).await;
    let (client, connection) =
        tokio_postgres::connect(&shop.database.url(), tokio_postgres::NoTls).await.unwrap();
    tokio::spawn(connection);
    // its instant is before all others, its commit after
    let early = "BEGIN; INSERT INTO event (change, number, at, actor, kind, amount, note) \
        VALUES ('\\x00', 0, 0, 'late', 'adjusted', 0, '')";
    client.batch_execute(early).await.unwrap();
    assert_eq!(shop.store.events(0, 10).await.unwrap().len(), 1);
    client.batch_execute("ROLLBACK").await.unwrap();
    let early = early.replace("'\\x00'", "'\\x00112233445566778899aabbccddeeff'");
    client.batch_execute(&early).await.unwrap();
    done(&shop.store, reserve("R1", &[("B1", 10)])).await;
    assert_eq!(shop.store.events(1, 10).await.unwrap().len(), 1);
    client.batch_execute("COMMIT").await.unwrap();
    let late = shop.store.events(2, 10).await.unwrap();
    assert_eq!(late.len(), 1);
    assert_eq!((late[0].place, late[0].event.actor.as_str()), (3, "late"));
}

#[tokio::test(flavor = "multi_thread")]
async fn waiting_for_events_ends_at_once_or_in_time() {
    let options = Options { poll: Duration::from_secs(20), ..Options::default() };
    let shop = Shop::with(options).await;
    let begun = Instant::now();
    shop.store.wait_for_events(0, Duration::from_millis(50)).await;
    assert!(begun.elapsed() >= Duration::from_millis(50));
    let waits = tokio::spawn({
        let store = shop.store.clone();
        async move { store.wait_for_events(0, Duration::from_secs(15)).await }
    });
    done(&shop.store, receive(vec![bolt("B1", 1_000)])).await;
    waits.await.unwrap();
    assert!(begun.elapsed() < Duration::from_secs(10), "a change of this server wakes at once");
}

#[tokio::test(flavor = "multi_thread")]
async fn five_thousand_pieces_come_at_once() {
    let shop = Shop::new().await;
    let pieces = (0..5_000).map(|number| bolt(&format!("B{number:05}"), 1_000)).collect();
    let begun = Instant::now();
    let answer = done(&shop.store, receive(pieces)).await;
    let took = begun.elapsed();
    assert_eq!(answer.outcome.received.len(), 5_000);
    // under half a second here; the limit is for a slow machine
    assert!(took < Duration::from_secs(5), "{took:?}");
    eprintln!("5 000 pieces in {took:?}");
    assert_eq!(shop.store.shelf().of(&kelp()).len(), 5_000);
    let verified = shop.store.verify().await.unwrap();
    assert_eq!((verified.pieces, verified.movements, verified.events), (5_000, 5_000, 5_000));
    assert_eq!(verified.drift, Vec::<String>::new());
}

#[tokio::test(flavor = "multi_thread")]
async fn drift_is_named() {
    let shop = Shop::new().await;
    done(&shop.store, receive(vec![bolt("B1", 1_000), bolt("B2", 1_000)])).await;
    done(&shop.store, reserve("R1", &[("B1", 400)])).await;
    let other = Reserve {
        supersedes: Some("R1".into()),
        holder: "holder of R1".to_owned(),
        ..hold("R2", &[("B1", 300)])
    };
    done(&shop.store, command(Command::Reserve(other))).await;
    shop.is_sound().await;
    // each spoils one thing, sees it named, and mends it
    let cases = [
        (
            "UPDATE piece SET left_over = left_over - 1 WHERE id = 'B2'",
            "UPDATE piece SET left_over = left_over + 1 WHERE id = 'B2'",
            "piece \"B2\": free",
        ),
        (
            "UPDATE piece SET held = held - 1 WHERE id = 'B1'",
            "UPDATE piece SET held = held + 1 WHERE id = 'B1'",
            "piece \"B1\": held",
        ),
        (
            "UPDATE piece SET received = 5 WHERE id = 'B1'",
            "UPDATE piece SET received = 1000000 WHERE id = 'B1'",
            "what it came with",
        ),
        (
            "UPDATE piece SET flaws = '5-4' WHERE id = 'B1'",
            "UPDATE piece SET flaws = '' WHERE id = 'B1'",
            "its flaws",
        ),
        (
            "UPDATE line SET granted = 299999 WHERE reservation = 'R2'",
            "UPDATE line SET granted = 300000 WHERE reservation = 'R2'",
            "reservation \"R2\", held: held",
        ),
        (
            "UPDATE line SET wanted = 1 WHERE reservation = 'R1'",
            "UPDATE line SET wanted = 0 WHERE reservation = 'R1'",
            "still want",
        ),
        (
            "UPDATE reservation SET state = 'released' WHERE id = 'R1'",
            "UPDATE reservation SET state = 'superseded' WHERE id = 'R1'",
            "was told",
        ),
        ("UPDATE event_places SET last = 77", "UPDATE event_places SET last = 0", "events: 0 have places"),
        (
            "INSERT INTO request (scope, key, body, at, answer) VALUES ('s', 'k1', '', 0, '')",
            "DELETE FROM request",
            "request without an answer: \"k1\"",
        ),
        (
            "UPDATE piece SET parent = 'nowhere' WHERE id = 'B1'",
            "UPDATE piece SET parent = NULL WHERE id = 'B1'",
            "remnant of no piece",
        ),
        (
            "INSERT INTO reservation (id, state, holder, created, expires, quote, order_reference, bench_milli_minutes, sold, reason) VALUES ('R3', 'held', '', 0, 0, '', '', 0, '', '')",
            "DELETE FROM reservation WHERE id = 'R3'",
            "no lines",
        ),
    ];
    for (spoil, mend, named) in cases {
        shop.ask(spoil);
        let found = shop.store.verify().await.unwrap();
        assert!(found.drift.iter().any(|drift| drift.contains(named)), "{named}: {:?}", found.drift);
        shop.ask(mend);
        shop.is_sound().await;
    }
    let nothing = shop.store.verify().await.unwrap();
    assert_eq!((nothing.pieces, nothing.reservations), (2, 2));
}
