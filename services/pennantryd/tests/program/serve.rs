//! `pennantryd serve` and `pennantryd check`.

use std::net::TcpListener;
use std::time::{Duration, Instant};

use pennantryd::catalogue::SALTMERE_LOFT;

use super::process::{LONG, Server, program, run};

const HALF_A_BODY: &str = "POST /v1/quotes HTTP/1.1\r\nhost: localhost\r\ncontent-type: application/json\r\ncontent-length: 18\r\n\r\n{";

fn wait_for_in_flight(server: &Server) {
    while !server.get("admin", "/metrics").contains("pennantry_requests_in_flight 2\n") {}
}

/// What a flag is given wrong is told with what is allowed, not with a parser's own words.
#[test]
fn a_flag_that_cannot_be_read_says_what_is_allowed() {
    for flag in ["--public", "--private", "--admin"] {
        for wrong in ["localhost:0", "127.0.0.1", "127.0.0.1:99999", ""] {
            let (code, out, err) = run(&mut program(&["serve", flag, wrong]));
            assert_eq!((code, out.as_str()), (2, ""));
            assert!(err.contains(flag) && err.contains("such as 127.0.0.1:8080"), "{err}");
        }
    }
    for wrong in ["yesterday", "2026-11-24", "9999-12-31T23:59:59Z"] {
        let (code, out, err) = run(&mut program(&["ask", "--at", wrong, "-"]));
        assert_eq!((code, out.as_str()), (2, ""));
        assert!(err.contains(wrong) && err.contains("such as 2026-11-24T10:00:00Z"), "{err}");
    }
}

#[test]
fn the_first_line_tells_the_addresses_and_is_the_only_one() {
    let (server, folder) = Server::start(&[]);
    let (public, private, admin) =
        (server.address("public"), server.address("private"), server.address("admin"));
    let line = format!(
        "{{\"public\":\"http://{public}\",\"private\":\"http://{private}\",\"admin\":\"http://{admin}\"}}\n"
    );
    assert_eq!(server.first_line, line);
    assert!(folder.path().join("data").is_dir());
    assert!(server.get("admin", "/readyz").starts_with("HTTP/1.1 200"));
    assert!(server.get("public", "/v1/catalogue").contains("Saltmere Loft"));
    server.log_says(&["INFO", "serving", "catalogue="]);
    // callers who ask nothing keep nothing: an idle connection and half a head
    let idle = server.say("public", "GET /v1/catalogue HTTP/1.1\r\nhost: localhost\r\n\r\n");
    let half = server.say("public", "GET /v1/cat");
    let begun = Instant::now();
    server.signal("TERM");
    assert_eq!(server.end(), (Some(0), String::new()));
    assert!(begun.elapsed() < Duration::from_secs(10), "{:?}", begun.elapsed());
    drop((idle, half));
}

#[test]
fn an_interrupt_stops_it_too() {
    let (server, _folder) = Server::start(&[]);
    server.signal("INT");
    assert_eq!(server.end(), (Some(0), String::new()));
}

#[test]
fn what_does_not_end_is_ended_by_the_deadline() {
    let (server, _folder) = Server::start(&["--stop-seconds", "1"]);
    let _caller = server.say("public", HALF_A_BODY);
    wait_for_in_flight(&server);
    let begun = Instant::now();
    server.signal("TERM");
    server.log_says(&["WARN", "broken off"]);
    assert_eq!(server.end().0, Some(0));
    assert!(begun.elapsed() >= Duration::from_secs(1) && begun.elapsed() < LONG / 3, "{:?}", begun.elapsed());
}

#[test]
fn a_second_signal_ends_it_at_once() {
    let (server, _folder) = Server::start(&["--stop-seconds", "600"]);
    let _caller = server.say("public", HALF_A_BODY);
    wait_for_in_flight(&server);
    server.signal("TERM");
    server.log_says(&["stopping"]);
    server.signal("TERM");
    assert_eq!(server.end().0, Some(1));
}

#[test]
fn a_hangup_reads_the_catalogue_again() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("catalogue.toml");
    std::fs::write(&file, SALTMERE_LOFT).unwrap();
    let (server, _data) = Server::start(&["--catalogue", file.to_str().unwrap()]);
    std::fs::write(&file, SALTMERE_LOFT.replace("Saltmere Loft", "Gull Rock")).unwrap();
    server.signal("HUP");
    server.log_says(&["INFO", "catalogue in force", "revision="]);
    assert!(server.get("public", "/v1/catalogue").contains("Gull Rock"));
    std::fs::write(&file, SALTMERE_LOFT.replace("width_mm = 190", "width_mm = 1\nnonsense = 2")).unwrap();
    server.signal("HUP");
    server.log_says(&["ERROR", "mistake", "width_mm: 1 "]);
    server.log_says(&["ERROR", "mistake", "nonsense"]);
    server.log_says(&["ERROR", "stays"]);
    assert!(server.get("public", "/v1/catalogue").contains("Gull Rock"), "the old one serves on");
    server.signal("TERM");
    assert_eq!(server.end().0, Some(0));
}

#[test]
fn without_a_file_a_hangup_changes_nothing() {
    let (server, _folder) = Server::start(&[]);
    server.signal("HUP");
    server.log_says(&["WARN", "--catalogue"]);
    assert!(server.get("admin", "/healthz").starts_with("HTTP/1.1 200"));
}

#[test]
fn the_environment_stands_in_for_flags() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("catalogue.toml");
    std::fs::write(&file, SALTMERE_LOFT.replace("Saltmere Loft", "Gull Rock")).unwrap();
    let data = folder.path().join("kept");
    let mut command = program(&["serve"]);
    for listener in ["PUBLIC", "PRIVATE", "ADMIN"] {
        command.env(format!("PENNANTRY_{listener}"), "127.0.0.1:0");
    }
    command.env("PENNANTRY_DATA", &data).env("PENNANTRY_CATALOGUE", &file).env("PENNANTRY_LOG", "warn");
    command.env("PENNANTRY_REFLECTION", "true").env("PENNANTRY_STOP_SECONDS", "5");
    let server = Server::spawn(&mut command);
    assert!(data.is_dir());
    assert!(server.get("public", "/v1/catalogue").contains("Gull Rock"));
    server.signal("TERM");
    assert_eq!(server.end(), (Some(0), String::new()));
}

#[test]
fn a_switch_in_the_environment_may_be_off() {
    let folder = tempfile::tempdir().unwrap();
    let serve = ["serve", "--catalogue", "none.toml"];
    for (value, said) in
        [("false", false), ("0", false), ("no", false), ("true", false), ("1", false), ("maybe", true)]
    {
        let mut command = program(&serve[..1]);
        command.env("PENNANTRY_REFLECTION", value).current_dir(folder.path());
        let (code, _, err) = run(command.args(&serve[1..]));
        assert_eq!(code, 2);
        assert_eq!(err.contains("--reflection"), said, "{value}: {err}");
    }
}

/// What cannot be done ends with 2, says why, and prints nothing where the addresses go.
#[test]
fn what_cannot_be_served_is_said_and_ends_with_two() {
    let folder = tempfile::tempdir().unwrap();
    let path = |name: &str| folder.path().join(name).to_str().unwrap().to_owned();
    let data = path("data");
    let wrong = path("wrong.toml");
    std::fs::write(&wrong, SALTMERE_LOFT.replace("width_mm = 190", "width_mm = 1\nnonsense = 2")).unwrap();
    let taken = TcpListener::bind("127.0.0.1:0").unwrap();
    let taken = (taken.local_addr().unwrap().to_string(), taken);
    let none = path("none.toml");
    let cases: [(&[&str], &[&str]); 9] = [
        (&["--public", "nowhere"], &["--public", "nowhere", "give an IP address"]),
        (&["--public", &taken.0], &["--public", &taken.0, "another program listens there"]),
        (&["--private", &taken.0, "--admin", &taken.0], &["--private", "--admin"]),
        (&["--catalogue", &none], &["--catalogue", &none, "cannot be read"]),
        (&["--catalogue", &wrong], &["--catalogue", "2 mistakes", "width_mm: 1 ", "nonsense"]),
        (&["--data", &format!("{wrong}/x")], &["--data", "may write"]),
        (&["--log", "pennantryd=loud"], &["--log", "loud"]),
        (&["--stop-seconds", "601"], &["--stop-seconds", "601"]),
        (&["--database", "x"], &["--database"]),
    ];
    for (flags, words) in cases {
        let mut serve = vec!["serve"];
        for listener in ["--public", "--private", "--admin"].into_iter().filter(|name| !flags.contains(name))
        {
            serve.extend([listener, "127.0.0.1:0"]);
        }
        if !flags.contains(&"--data") {
            serve.extend(["--data", &data]);
        }
        let (code, out, err) = run(program(&serve).args(flags));
        assert_eq!((code, out.as_str()), (2, ""), "{flags:?}: {err}");
        for word in words {
            assert!(err.contains(word), "{flags:?}: {word} in {err}");
        }
    }
}

#[test]
fn check_ends_with_none_one_or_two() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("catalogue.toml");
    let check = || run(program(&["check"]).arg(&file));
    assert_eq!(check().0, 2);
    assert_eq!(run(program(&["check"]).arg(file.parent().unwrap())).0, 2, "a folder is no catalogue");
    std::fs::write(&file, SALTMERE_LOFT).unwrap();
    let (code, out, err) = check();
    assert_eq!((code, err.as_str()), (0, ""));
    assert!(out.contains("Saltmere Loft") && out.contains("revision"), "{out}");
    std::fs::write(&file, SALTMERE_LOFT.replace("width_mm = 190", "width_mm = 1\nnonsense = 2")).unwrap();
    let (code, out, _) = check();
    assert_eq!(code, 1);
    assert!(out.contains("width_mm: 1 ") && out.contains("nonsense") && out.contains("2 mistakes"), "{out}");
}
