//! The systemd unit and its settings: looked through by systemd's own tool, and held
//! against the server's command line.

use std::path::{Path, PathBuf};
use std::process::{Command, Output};

use clap::{CommandFactory, Parser};
use pennantryd::cli::Cli;

fn deploy() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).parent().expect("tests lie in the house").join("deploy")
}

fn text(name: &str) -> String {
    std::fs::read_to_string(deploy().join(name)).expect("the file is there")
}

/// The value of a setting of the unit.
fn setting(unit: &str, name: &str) -> String {
    let found: Vec<&str> =
        unit.lines().filter_map(|line| line.strip_prefix(name)?.strip_prefix('=')).collect();
    assert_eq!(found.len(), 1, "{name} stands once in the unit");
    found[0].to_owned()
}

fn systemd_analyze(arguments: &[&str], unit: &Path) -> Output {
    match Command::new("systemd-analyze").args(arguments).arg(unit).output() {
        Ok(output) => output,
        Err(cause) => panic!("systemd-analyze cannot be run ({cause}): install the package systemd"),
    }
}

/// What systemd's tool has to say of a unit; its program is exchanged for one that is here.
fn verified(unit: &str) -> Result<(), String> {
    let folder = tempfile::tempdir().expect("a folder");
    let here = std::env::current_exe().expect("this test is a program");
    let there = format!("{} ", here.display());
    assert!(unit.contains("/usr/bin/pennantryd "), "the unit starts /usr/bin/pennantryd");
    let path = folder.path().join("pennantryd.service");
    std::fs::write(&path, unit.replace("/usr/bin/pennantryd ", &there)).expect("the unit is written");
    let output = systemd_analyze(&["verify", "--man=no"], &path);
    // it also tells what it finds in other units of the machine
    let told = String::from_utf8_lossy(&output.stderr);
    let ours: Vec<&str> = told.lines().filter(|line| line.contains("pennantryd")).collect();
    if output.status.success() && ours.is_empty() { Ok(()) } else { Err(told.into_owned()) }
}

#[test]
fn systemd_finds_no_fault_with_the_unit() {
    assert_eq!(verified(&text("pennantryd.service")), Ok(()));
}

#[test]
fn systemd_finds_faults_when_there_are_some() {
    let unit = text("pennantryd.service");
    for (old, new) in [
        ("ProtectHome=yes", "ProtectHouse=yes"),
        ("TimeoutStopSec=25", "TimeoutStopSec=soon"),
        ("Type=exec", "Type=exact"),
        ("ExecReload=/bin/kill", "ExecReload=bin/kill"),
    ] {
        assert!(unit.contains(old), "{old}");
        assert!(verified(&unit.replace(old, new)).is_err(), "{new} passes");
    }
}

/// systemd gives a figure for how much of the machine a service can reach, from 0 (nothing)
/// to 10; a server on the network that is shut in as far as this one stays below 2.
#[test]
fn the_unit_reaches_little_of_the_machine() {
    let unit = deploy().join("pennantryd.service");
    let output = systemd_analyze(&["security", "--offline=yes", "--threshold=20", "--no-pager"], &unit);
    let table = String::from_utf8_lossy(&output.stdout);
    assert!(output.status.success(), "{table}{}", String::from_utf8_lossy(&output.stderr));
}

/// Variables of an environment file, set or commented out.
fn variables(file: &str) -> Vec<(String, String, bool)> {
    let line = |line: &str| {
        let (set, line) = match line.strip_prefix('#') {
            Some(rest) => (false, rest),
            None => (true, line),
        };
        let (name, value) = line.split_once('=')?;
        name.starts_with("PENNANTRY_").then(|| (name.to_owned(), value.to_owned(), set))
    };
    file.lines().filter_map(line).collect()
}

/// Flag, variable and default of everything that `serve` can be told.
fn flags() -> Vec<(String, String, Option<String>)> {
    let program = Cli::command();
    let serve = program.find_subcommand("serve").expect("the server serves");
    let told = |flag: &clap::Arg| {
        let variable = flag.get_env()?.to_str()?.to_owned();
        let default = flag.get_default_values().first().and_then(|value| value.to_str()).map(str::to_owned);
        Some((flag.get_long()?.to_owned(), variable, default))
    };
    let flags: Vec<_> = serve.get_arguments().filter_map(told).collect();
    assert!(flags.len() >= 8, "only {flags:?}");
    flags
}

#[test]
fn every_variable_is_known_to_the_server_and_every_flag_has_its_variable() {
    let mut named: Vec<String> =
        variables(&text("pennantryd.env")).into_iter().map(|(name, ..)| name).collect();
    let mut known: Vec<String> = flags().into_iter().map(|(_, variable, _)| variable).collect();
    named.sort();
    known.sort();
    assert_eq!(named, known);
}

#[test]
fn what_is_set_is_the_default_and_can_be_read() {
    let flags = flags();
    for (name, value, set) in variables(&text("pennantryd.env")) {
        let (flag, _, default) =
            flags.iter().find(|(_, variable, _)| *variable == name).expect("a known variable");
        if name == "PENNANTRY_REFLECTION" {
            assert_eq!((value.as_str(), set), ("false", true), "a flag that is not given is off");
            continue;
        }
        let read = Cli::try_parse_from(["pennantryd", "serve", &format!("--{flag}={value}")]);
        assert!(read.is_ok(), "{name}={value}: {}", read.unwrap_err());
        if set {
            assert_eq!(Some(&value), default.as_ref(), "{name}");
        }
    }
}

#[test]
fn each_variable_has_a_comment_of_its_own() {
    let file = text("pennantryd.env");
    for block in file.split("\n\n").filter(|block| block.contains("PENNANTRY_")) {
        let count = variables(block).len();
        assert!(block.starts_with("# ") && count == 1, "{count} variables in\n{block}");
    }
}

#[test]
fn the_unit_waits_longer_than_the_server_takes_to_stop() {
    let unit = text("pennantryd.service");
    let waits: u64 = setting(&unit, "TimeoutStopSec").parse().expect("seconds");
    let set =
        variables(&text("pennantryd.env")).into_iter().find(|(name, ..)| name == "PENNANTRY_STOP_SECONDS");
    let takes: u64 = set.expect("it is set").1.parse().expect("seconds");
    assert!(waits > takes, "{waits} s are not longer than {takes} s");
}

#[test]
fn the_unit_starts_the_server_as_its_command_line_says() {
    let unit = text("pennantryd.service");
    let start = setting(&unit, "ExecStart");
    let words: Vec<&str> = start.split(' ').collect();
    let read = Cli::try_parse_from(&words);
    assert!(read.is_ok(), "{start}: {}", read.unwrap_err());
    assert_eq!(setting(&unit, "ExecReload"), "/bin/kill -HUP $MAINPID");
    assert_eq!(setting(&unit, "EnvironmentFile"), "-/etc/pennantry/pennantryd.env");
    assert!(start.ends_with(&format!("--data %S/{}", setting(&unit, "StateDirectory"))), "{start}");
}
