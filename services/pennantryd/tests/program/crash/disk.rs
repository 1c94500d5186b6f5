//! A disk that fails under the embedded stock: it says that it has not kept what it was given, or
//! has no room for the log. The kernel's answers to the writing thread are changed on their way by
//! `strace -e inject` (its manual, "Syscall tampering"); everything else is real.

use std::process::Command;

use serde_json::{Value, json};

use super::super::process::{Server, program};
use super::Shop;
use super::wire::{Call, Caller, Told};
use super::work::{lasting, replayed};

/// Deliveries, each a request of its own.
const DELIVERIES: u32 = 60;

#[test]
fn a_disk_that_does_not_keep_what_it_was_given_loses_nothing_that_was_answered() {
    got_over("fsync,fdatasync", "EIO", "10..24");
}

#[test]
fn a_log_that_finds_no_room_loses_nothing_that_was_answered() {
    got_over("pwrite64", "ENOSPC", "300..340");
}

/// A server of which these calls to the kernel fail for a while, counted in each thread by itself.
fn serve_on_a_bad_disk(shop: &Shop, calls: &str, error: &str, which: &str) -> Server {
    let plain = shop.flags(program(&[]));
    let mut command = Command::new("strace");
    // the server is the child, and who watches it is not in its way
    command.args(["-D", "-f", "-qqq", "-o", "/dev/null", "-e", &format!("trace={calls}"), "-e"]);
    command.arg(format!("inject={calls}:error={error}:when={which}"));
    command.arg(plain.get_program()).args(plain.get_args());
    Server::spawn(&mut command)
}

fn delivery(number: u32) -> Value {
    let piece = |part: u32| json!({"pieceId": format!("D{number}-{part}"), "code": "kelp", "quantity": {"lengthMm": 900}});
    json!({"requestId": format!("delivery-{number}"), "pieces": [piece(1), piece(2)]})
}

fn got_over(calls: &str, error: &str, which: &str) {
    let shop = Shop::embedded();
    // the store is made while the disk is well
    let well = shop.serve();
    well.signal("TERM");
    assert_eq!(well.end().0, Some(0));
    let server = serve_on_a_bad_disk(&shop, calls, error, which);
    assert!(!server.first_line.is_empty(), "it does not start: {}", server.log_says(&[]));
    let mut caller = Caller::json(&server.address("private"));
    let told: Vec<Told> =
        (0..DELIVERIES).map(|number| caller.ask(Call::ReceiveStock, &delivery(number))).collect();
    let failed = told.iter().filter(|told| **told == Told::Nothing).count();
    assert!(failed > 0, "no commit failed: nothing is tried by that");
    assert!(matches!(told.first(), Some(Told::Done(_))), "it began well: {told:?}");
    assert!(matches!(told.last(), Some(Told::Done(_))), "it does not get over it: {told:?}");
    // what was answered is seen, what was not is there whole or not at all, while it goes on and after
    seen(&mut caller, &told);
    server.signal("KILL");
    assert_eq!(server.end().0, None);
    shop.agrees();
    let server = shop.serve();
    let mut caller = Caller::json(&server.address("private"));
    seen(&mut caller, &told);
    // sent again, each is done once, and answered as it was
    for (number, told) in (0..).zip(&told) {
        let again = caller.done(Call::ReceiveStock, &delivery(number));
        if let Told::Done(first) = told {
            assert!(replayed(&again), "delivery {number} was made again");
            assert_eq!(lasting(&again), lasting(first));
        }
    }
    assert_eq!(caller.labels().len(), usize::try_from(DELIVERIES * 2).unwrap());
    shop.agrees();
}

fn seen(caller: &mut Caller, told: &[Told]) {
    let labels = caller.labels();
    for (number, told) in told.iter().enumerate() {
        let there = |part: u32| labels.binary_search(&format!("D{number}-{part}")).is_ok();
        let there = (there(1), there(2));
        match told {
            Told::Done(_) => assert_eq!(there, (true, true), "delivery {number} was answered and is gone"),
            Told::Nothing => assert_eq!(there.0, there.1, "a part of delivery {number} is there"),
            Told::Refused(why) => panic!("delivery {number}: {why}"),
        }
    }
}
