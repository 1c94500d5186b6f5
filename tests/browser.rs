//! The form: its reckoning by Node, and itself in a real browser.
//!
//! A server of the demo shop runs in this process, on its own data folder; the programs in
//! `tests/browser` are told its addresses and drive Chromium by Playwright. What they look at
//! stands at the head of each.

use std::path::PathBuf;
use std::process::Command;
use std::time::Duration;

use base64::prelude::{BASE64_STANDARD, Engine as _};
use pennantryd::catalogue::{SALTMERE_LOFT, open};
use pennantryd::clock::Clock;
use pennantryd::stock::Stock;
use pennantryd::{Config, Running, start};

use crate::contract_source::top;
use crate::tools::{NPM, said};

/// A picture of one green point, as PNG (ISO/IEC 15948).
const PICTURE: &str =
    "iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAIAAACQd1PeAAAADElEQVR4nGOwz/YHAAHmAPo41bfNAAAAAElFTkSuQmCC";
/// Time to finish what is in flight.
const STOP: Duration = Duration::from_secs(10);

#[test]
fn the_form_reckons_as_it_should() {
    let told = Command::new("node").arg("--test").arg(top("tests/browser/units.mjs")).output();
    let told = told.unwrap_or_else(|error| panic!("node is needed: {error}"));
    assert!(told.status.success(), "{}", said(&told));
}

/// Chromium, as Debian has it.
fn chromium() -> PathBuf {
    let paths = std::env::var_os("PATH").unwrap_or_default();
    let names = ["chromium", "chromium-browser", "google-chrome"];
    let found = std::env::split_paths(&paths).flat_map(|folder| names.map(|name| folder.join(name)));
    found
        .into_iter()
        .find(|file| file.exists())
        .unwrap_or_else(|| panic!("a browser is needed for these tests: install chromium"))
}

/// Runs one program of `tests/browser` against a server of its own.
async fn in_a_browser(program: &str) {
    let folder = tempfile::tempdir().unwrap();
    let pictures = folder.path().join("pictures");
    std::fs::create_dir(&pictures).unwrap();
    std::fs::write(pictures.join("kelp.png"), BASE64_STANDARD.decode(PICTURE).unwrap()).unwrap();
    let swatch = "code = \"kelp\"\n";
    let photographed =
        format!("{swatch}picture = \"kelp.png\"\npicture_across_mm = 160\npicture_along_mm = 240\n");
    let catalogue = open(&SALTMERE_LOFT.replacen(swatch, &photographed, 1)).unwrap().into();
    let config = Config {
        data: Some(folder.path().to_owned()),
        stock: Stock::Embedded,
        ..Config::local(catalogue, Clock::System)
    };
    let running = start(config).await.unwrap();
    drive(program, running, &[]).await;
}

/// Runs one program of `tests/browser` against a server, and stops that. What else it is told is
/// in variables.
pub async fn drive(program: &str, running: Running, variables: &[(&'static str, String)]) {
    let (public, private) = (running.public(), running.private());
    let program = top("tests/browser").join(program);
    let variables = variables.to_vec();
    let told = tokio::task::spawn_blocking(move || {
        Command::new("node")
            .arg(program)
            .envs(variables)
            .env("PENNANTRY_PUBLIC", format!("http://{public}"))
            .env("PENNANTRY_PRIVATE", format!("http://{private}"))
            .env("PENNANTRY_NPM", &*NPM)
            .env("PENNANTRY_CHROMIUM", chromium())
            .output()
    });
    let told = told.await.unwrap().unwrap_or_else(|error| panic!("node is needed: {error}"));
    running.stop(STOP).await;
    assert!(told.status.success(), "{}", said(&told));
}

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn the_form_goes_on_when_something_is_in_the_way() {
    in_a_browser("trouble.mjs").await;
}

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn the_form_is_filled_in_and_ends_in_a_hold() {
    in_a_browser("form.mjs").await;
}

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn the_form_is_used_in_a_page_of_another_origin() {
    in_a_browser("embedded.mjs").await;
}

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn the_form_can_be_read_and_reached_by_everybody() {
    in_a_browser("access.mjs").await;
}

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn the_page_that_says_how_to_ask_can_be_read_by_everybody() {
    in_a_browser("docs.mjs").await;
}
