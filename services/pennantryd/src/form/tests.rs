//! What is served of the form, over a real socket.

use std::collections::BTreeSet;
use std::path::Path;

use super::*;
use crate::tests::{LONG, ask, config, get};
use crate::{Config, start};

fn listed(folder: &Path, within: &str, found: &mut BTreeSet<String>) {
    for entry in std::fs::read_dir(folder).unwrap() {
        let entry = entry.unwrap();
        let name = format!("{within}{}", entry.file_name().into_string().unwrap());
        if entry.file_type().unwrap().is_dir() {
            listed(&entry.path(), &format!("{name}/"), found);
        } else {
            found.insert(name);
        }
    }
}

/// A file that is written and not served is a mistake that a browser would find first.
#[test]
fn every_file_of_the_form_is_served() {
    let mut found = BTreeSet::new();
    listed(&Path::new(env!("CARGO_MANIFEST_DIR")).join("src/form/assets"), "", &mut found);
    let served: BTreeSet<String> = ASSETS
        .iter()
        .map(|asset| if asset.path == "/" { "page.html" } else { &asset.path[1..] }.to_owned())
        .collect();
    assert_eq!(served, found);
}

/// Every module that a module asks for is there.
#[test]
fn every_module_that_is_imported_is_served() {
    for asset in ASSETS.iter().filter(|asset| asset.media == SCRIPT) {
        let text = std::str::from_utf8(asset.body).unwrap();
        let folder = asset.path.rsplit_once('/').unwrap().0;
        let imports = text.lines().filter(|line| line.starts_with("import ") || line.starts_with("} from "));
        for line in imports {
            let Some(given) = line.split('"').nth(1) else { continue };
            let path = format!("{folder}/{}", given.strip_prefix("./").unwrap_or_else(|| panic!("{line}")));
            assert!(ASSETS.iter().any(|other| other.path == path), "{}: {line}", asset.path);
        }
    }
}

/// The page asks for all modules at once, not for each when the one before it has come.
#[test]
fn the_page_names_every_module() {
    let modules = ASSETS.iter().filter(|asset| asset.media == SCRIPT).map(|asset| asset.path);
    let page = std::str::from_utf8(ASSETS.iter().find(|asset| asset.path == "/").unwrap().body).unwrap();
    let named: Vec<&str> = page.split('"').filter(|part| part.strip_suffix(".js").is_some()).collect();
    assert_eq!(named.iter().copied().collect::<BTreeSet<_>>(), modules.collect::<BTreeSet<_>>());
    assert_eq!(named.iter().collect::<BTreeSet<_>>().len(), named.len(), "{named:?}");
}

#[tokio::test]
async fn the_page_runs_and_asks_nothing_from_elsewhere() {
    let running = start(config()).await.unwrap();
    let page = ask(running.public(), get("/")).await;
    assert_eq!(page.status, 200);
    let policy = page.header("content-security-policy").unwrap();
    assert!(policy.starts_with("default-src 'none'; script-src 'self';"), "{policy}");
    assert!(!policy.contains("unsafe") && !policy.contains("http"), "{policy}");
    for asset in ASSETS {
        let reply = ask(running.public(), get(asset.path)).await;
        assert_eq!((reply.status, reply.header("content-type")), (200, Some(asset.media)), "{}", asset.path);
        assert_eq!(reply.body, asset.body, "{}", asset.path);
        assert_eq!(reply.header("cache-control"), Some("no-cache"));
        let text = std::str::from_utf8(asset.body).unwrap();
        // the name of a vocabulary, and the address that an example stands for
        let names = ["http://www.w3.org/2000/svg", "https://SHOP"];
        let elsewhere = text.match_indices("://").filter(|(at, _)| {
            let before = |name: &str| at.checked_sub(name.find("://").unwrap());
            !names.iter().any(|name| before(name).is_some_and(|from| text[from..].starts_with(*name)))
        });
        assert_eq!(elsewhere.count(), 0, "{} names an address elsewhere", asset.path);
    }
    assert!(running.stop(LONG).await);
}

#[tokio::test]
async fn what_the_asker_has_is_not_sent_again() {
    let running = start(config()).await.unwrap();
    let first = ask(running.public(), get("/made-to-order.js")).await;
    let tag = first.header("etag").unwrap().to_owned();
    let again = ask(running.public(), with(&get("/made-to-order.js"), &[("if-none-match", &tag)])).await;
    assert_eq!((again.status, again.body.len(), again.header("etag")), (304, 0, Some(&*tag)));
    assert!(running.stop(LONG).await);
}

/// The same request with some headers more.
fn with(request: &str, headers: &[(&str, &str)]) -> String {
    let more: Vec<String> = headers.iter().map(|(name, value)| format!("{name}: {value}\r\n")).collect();
    let more = more.concat();
    format!("{}{more}\r\n", request.strip_suffix("\r\n").unwrap())
}

/// A shop whose kelp has a photograph of that name.
fn with_picture(file: &str) -> String {
    let lines = format!(
        "swatch = \"#3f6b4f\"\npicture = \"{file}\"\npicture_across_mm = 160\npicture_along_mm = 240\n"
    );
    crate::catalogue::SALTMERE_LOFT.replacen("swatch = \"#3f6b4f\"\n", &lines, 1)
}

#[tokio::test]
async fn a_picture_is_served_where_the_catalogue_names_it() {
    let folder = tempfile::tempdir().unwrap();
    let pictures = folder.path().join("pictures");
    std::fs::create_dir(&pictures).unwrap();
    std::fs::write(pictures.join("kelp.png"), b"\x89PNG\r\n\x1a\nkelp").unwrap();
    std::fs::write(pictures.join("secret.png"), b"\x89PNG").unwrap();
    std::fs::write(folder.path().join("outside.png"), b"\x89PNG").unwrap();
    let catalogue = crate::catalogue::open(&with_picture("kelp.png")).unwrap().into();
    let config = Config { data: Some(folder.path().to_owned()), catalogue, ..config() };
    let running = start(config).await.unwrap();
    let catalogue = ask(running.public(), get("/v1/catalogue")).await.json();
    let image = &catalogue["fabrics"][0]["image"];
    assert_eq!(
        *image,
        serde_json::json!({"path": "/pictures/kelp.png", "repeatAcrossMm": 160.0, "repeatAlongMm": 240.0})
    );
    let picture = ask(running.public(), get("/pictures/kelp.png")).await;
    assert_eq!((picture.status, picture.header("content-type")), (200, Some("image/png")));
    assert_eq!(picture.body.as_slice(), b"\x89PNG\r\n\x1a\nkelp");
    for path in
        ["secret.png", "..%2Foutside.png", "%2e%2e%2foutside.png", "kelp.PNG", "kelp.svg", "kelp.png%00", ""]
    {
        let reply = ask(running.public(), get(&format!("/pictures/{path}"))).await;
        assert_eq!(reply.status, 404, "{path}");
    }
    // a file that is gone, or too large, is as if there were none
    std::fs::write(pictures.join("kelp.png"), vec![0; 2 * 1024 * 1024 + 1]).unwrap();
    assert_eq!(ask(running.public(), get("/pictures/kelp.png")).await.status, 404);
    std::fs::remove_file(pictures.join("kelp.png")).unwrap();
    assert_eq!(ask(running.public(), get("/pictures/kelp.png")).await.status, 404);
    assert!(running.stop(LONG).await);
}

/// What is wrong with a catalogue, in its words.
fn mistakes(catalogue: &str) -> String {
    let found = crate::catalogue::read(catalogue).unwrap_err();
    found.iter().map(ToString::to_string).collect::<Vec<_>>().join("\n")
}

#[test]
fn a_picture_without_its_size_or_with_a_name_that_leads_elsewhere_is_a_mistake() {
    for file in ["../kelp.png", "Kelp.png", "kelp.svg", ".png", "a/b.png", "kelp.png.exe"] {
        let told = mistakes(&with_picture(file));
        assert!(told.contains("picture"), "{file}: {told}");
    }
    let no_size = with_picture("kelp.png").replacen("picture_along_mm = 240\n", "", 1);
    let told = mistakes(&no_size);
    assert!(told.contains("picture_along_mm"), "{told}");
    let no_file = with_picture("kelp.png").replacen("picture = \"kelp.png\"\n", "", 1);
    let told = mistakes(&no_file);
    assert!(told.contains("picture_across_mm") && told.contains("stands without picture"), "{told}");
}

/// A page of another origin asks as a browser does: first whether it may, then for real.
#[tokio::test]
async fn a_page_of_another_origin_may_ask_and_read_errors_too() {
    let running = start(config()).await.unwrap();
    let origin = ("origin", "https://shop.example.org");
    let may_i = get("/v1/reservations").replacen("GET", "OPTIONS", 1);
    let may_i = with(
        &may_i,
        &[
            origin,
            ("access-control-request-method", "POST"),
            ("access-control-request-headers", "content-type,idempotency-key"),
        ],
    );
    let told = ask(running.public(), may_i).await;
    assert_eq!((told.status, told.header("access-control-allow-origin")), (200, Some("*")));
    let headers = told.header("access-control-allow-headers").unwrap();
    assert!(headers.contains("content-type") && headers.contains("idempotency-key"), "{headers}");
    assert_eq!(told.header("access-control-allow-credentials"), None);
    for path in ["/v1/catalogue", "/v1/nothing", "/made-to-order.js"] {
        let told = ask(running.public(), with(&get(path), &[origin])).await;
        assert_eq!(told.header("access-control-allow-origin"), Some("*"), "{path}");
        let readable = told.header("access-control-expose-headers").unwrap();
        assert!(readable.contains("retry-after") && readable.contains("x-request-id"), "{readable}");
    }
    assert!(running.stop(LONG).await);
}
