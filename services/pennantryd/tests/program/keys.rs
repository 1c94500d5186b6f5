//! The keys of tickets: `pennantryd keys rotate`, a hangup, and what is never printed.

use std::os::unix::fs::PermissionsExt;

use pennantryd::ticket::FILE;
use serde_json::json;

use super::process::{Server, program, run};

/// The words of the keys in a file.
fn words(text: &str) -> Vec<String> {
    let lines = text.lines().filter(|line| !line.starts_with('#'));
    lines.filter_map(|line| line.split_whitespace().next().map(str::to_owned)).collect()
}

#[test]
fn keys_are_rotated_while_the_server_runs_and_nothing_of_them_is_printed() {
    let (server, folder) = Server::start(&["--log", "trace"]);
    let data = folder.path().join("data");
    let file = data.join(FILE);
    assert_eq!(std::fs::metadata(&file).unwrap().permissions().mode() & 0o777, 0o600);
    let ask = || server.post("public", "/v1/quotes", &json!({"flaggedMm": 6200, "lettering": "ZEPHYRINA"}));
    let check = |token| server.post("public", "/v1/quotes/check", &json!({"token": token}));
    let yesterday = ask();

    let (code, out, err) = run(program(&["keys", "rotate", "--data"]).arg(&data));
    assert_eq!((code, err.as_str()), (0, ""));
    assert!(out.contains("2 keys in all") && out.contains("SIGHUP"), "{out}");
    server.signal("HUP");
    let mut log = server.log_until(&["INFO", "ticket keys in force", "count=2"]);
    let today = ask();
    assert_ne!(today["token"], yesterday["token"]);
    assert_eq!(today["quoteId"], yesterday["quoteId"]);
    for quote in [&yesterday, &today] {
        assert_eq!(check(quote["token"].clone())["valid"], true);
    }
    let cut = yesterday["token"].as_str().unwrap().replacen('.', "A.", 1);
    assert_eq!(check(json!(cut))["fault"], "TICKET_FAULT_NOT_OURS");

    let keys = std::fs::read_to_string(&file).unwrap();
    std::fs::write(&file, keys.replacen(&words(&keys)[0], &words(&keys)[0][1..], 1)).unwrap();
    server.signal("HUP");
    log.extend(server.log_until(&["ERROR", "ticket keys in force stay", "does not begin with a key"]));
    assert_eq!(check(today["token"].clone())["valid"], true);
    server.signal("TERM");
    log.extend(server.log_until(&["stopped"]));
    assert_eq!(server.end().0, Some(0));

    let printed = log.join("\n") + &out;
    assert!(log.len() > 10, "only {} lines of log", log.len());
    let tokens = [&yesterday, &today].map(|quote| quote["token"].as_str().unwrap().to_owned());
    for secret in words(&keys).iter().chain(&tokens).map(String::as_str).chain(["ZEPHYRINA"]) {
        let part = &secret[..secret.len().min(12)];
        assert!(!printed.contains(part), "{part} is printed");
    }
}

#[test]
fn servers_with_one_file_take_each_others_tickets_and_a_start_keeps_it() {
    let (one, folder) = Server::start(&[]);
    let data = folder.path().join("data");
    let free = "127.0.0.1:0";
    let serve = ["serve", "--public", free, "--private", free, "--admin", free, "--data"];
    let two = Server::spawn(program(&serve).arg(&data));
    let given = one.post("public", "/v1/quotes", &json!({"flaggedMm": 6200}));
    let check = two.post("public", "/v1/quotes/check", &json!({"token": given["token"]}));
    assert_eq!((&check["valid"], &check["quoteId"]), (&json!(true), &given["quoteId"]));
    one.signal("TERM");
    two.signal("TERM");
    assert_eq!((one.end().0, two.end().0), (Some(0), Some(0)));
    let three = Server::spawn(program(&serve).arg(&data));
    let check = three.post("public", "/v1/quotes/check", &json!({"token": given["token"]}));
    assert_eq!(check["valid"], true, "after a restart");
    let (other, _elsewhere) = Server::start(&[]);
    let check = other.post("public", "/v1/quotes/check", &json!({"token": given["token"]}));
    assert_eq!(check["fault"], "TICKET_FAULT_NOT_OURS");
}

#[test]
fn what_is_wrong_with_keys_is_said_and_ends_with_two() {
    let folder = tempfile::tempdir().unwrap();
    let data = folder.path().join("data");
    let rotate = || run(program(&["keys", "rotate", "--data"]).arg(&data));
    let (code, out, err) = rotate();
    assert_eq!((code, out.as_str()), (2, ""));
    assert!(err.contains("--data") && err.contains(FILE) && err.contains("cannot be"), "{err}");
    std::fs::create_dir(&data).unwrap();
    let (code, _, err) = rotate();
    assert_eq!(code, 2);
    assert!(err.contains("cannot be read"), "{err}");
    let file = data.join(FILE);
    std::fs::write(&file, "BwcHBwcHBwcHBwcHBwcHBwcHBwcHBwcHBwcHBwcHBwc\n").unwrap();
    std::fs::set_permissions(&file, std::fs::Permissions::from_mode(0o644)).unwrap();
    let free = "127.0.0.1:0";
    let serve = ["serve", "--public", free, "--private", free, "--admin", free, "--data"];
    for (code, out, err) in [rotate(), run(program(&serve).arg(&data))] {
        assert_eq!((code, out.as_str()), (2, ""));
        assert!(err.contains("mode 644") && err.contains("chmod 600") && !err.contains("BwcH"), "{err}");
    }
    assert_eq!(run(&mut program(&["keys"])).0, 2);
    assert_eq!(run(&mut program(&["keys", "forget"])).0, 2);
}
