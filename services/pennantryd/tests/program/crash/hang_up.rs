//! Callers who close their sockets in the middle: each change is made whole or not at all, and
//! its id says which.

use std::io::Write;
use std::net::{Shutdown, TcpStream};
use std::time::Duration;

use serde_json::{Value, json};

use super::super::process::LONG;
use super::kill::settles;
use super::postgres::Database;
use super::wire::{Call, Caller, Told, request};
use super::work::{Asked, replayed};
use super::{Shop, deliver, hold, ticket};

/// How long a caller waits before it hangs up, in milliseconds.
const WAITS: [u64; 4] = [0, 1, 5, 20];
/// Callers for each of those: a thousand in all.
const CALLERS: usize = 250;

#[test]
fn whoever_hangs_up_has_the_embedded_stock_changed_whole_or_not_at_all() {
    whole_or_not_at_all(&Shop::embedded());
}

#[test]
fn whoever_hangs_up_has_the_shared_stock_changed_whole_or_not_at_all() {
    whole_or_not_at_all(&Shop::shared(Database::new()));
}

fn whole_or_not_at_all(shop: &Shop) {
    let server = shop.serve();
    let mut caller = Caller::json(&server.address("private"));
    deliver(&mut caller, "first", 200_000, 400_000);
    let token = ticket(&server);
    let changes: Vec<Asked> = (0..WAITS.len() * CALLERS).map(|number| change(number, &token)).collect();
    std::thread::scope(|scope| {
        for (lane, changes) in changes.chunks(changes.len().div_ceil(8)).enumerate() {
            let address = server.address("private");
            scope.spawn(move || {
                for (number, change) in changes.iter().enumerate() {
                    hangs_up(&address, change, WAITS[(lane + number) % WAITS.len()], number % 6 == 5);
                }
            });
        }
    });
    settled(&mut caller);

    let there = caller.labels();
    let (mut made, mut held) = (0, 0);
    for change in &changes {
        let pieces = change.body["pieces"].as_array();
        let before = pieces.map_or(0, |pieces| count(pieces, &there));
        assert!(before == 0 || before == 3, "a part of {change:?} was made");
        let answer = settles(&mut caller, change).expect("there is enough of everything");
        if before == 3 {
            assert!(replayed(&answer), "it was made, and made again: {answer}");
        }
        made += usize::from(replayed(&answer));
        held += usize::from(pieces.is_none());
    }
    assert!(
        made > 0 && made < changes.len(),
        "{made} of {} were made: nothing is tried by that",
        changes.len()
    );
    assert_eq!(holds(&mut caller), held, "each hold is there once");
    shop.agrees();
}

/// Three pieces that come, or a hold.
fn change(number: usize, token: &str) -> Asked {
    let id = format!("hang-{number}");
    let piece = |part: u32| json!({"pieceId": format!("{id}-{part}"), "code": "quay-stone", "quantity": {"lengthMm": 900}});
    if number.is_multiple_of(3) {
        let body = json!({"requestId": id, "hold": hold(token)});
        return Asked { call: Call::CreateReservation, body, told: Told::Nothing };
    }
    let body = json!({"requestId": id, "pieces": [piece(1), piece(2), piece(3)]});
    Asked { call: Call::ReceiveStock, body, told: Told::Nothing }
}

/// Sends a change, or half of one, and hangs up after some time.
fn hangs_up(address: &str, change: &Asked, after_ms: u64, half: bool) {
    let bytes = request(change.call.path(), "", &change.body);
    let bytes = if half { &bytes[..bytes.len() - 20] } else { &bytes[..] };
    let mut stream = TcpStream::connect(address).unwrap();
    stream.set_nodelay(true).unwrap();
    stream.write_all(bytes.as_bytes()).unwrap();
    // the caller's patience is what is tried
    std::thread::sleep(Duration::from_millis(after_ms));
    let _ = stream.shutdown(Shutdown::Both);
}

fn count(pieces: &[Value], there: &[String]) -> usize {
    let is_there = |piece: &&Value| there.iter().any(|label| piece["pieceId"] == **label);
    pieces.iter().filter(is_there).count()
}

/// Waits until nothing changes any longer.
fn settled(caller: &mut Caller) {
    let begun = std::time::Instant::now();
    let mut seen = (0, usize::MAX, usize::MAX);
    while seen.0 < 3 {
        assert!(begun.elapsed() < LONG, "it goes on and on");
        std::thread::sleep(Duration::from_millis(100));
        let now = (caller.labels().len(), holds(caller));
        seen = if (seen.1, seen.2) == now { (seen.0 + 1, now.0, now.1) } else { (0, now.0, now.1) };
    }
}

/// How many reservations there are.
fn holds(caller: &mut Caller) -> usize {
    let told = caller.done(Call::ListReservations, &json!({"pageSize": 500}));
    assert!(told.get("nextPageToken").is_none_or(|token| token == ""), "more than a page");
    told["reservations"].as_array().map_or(0, Vec::len)
}
