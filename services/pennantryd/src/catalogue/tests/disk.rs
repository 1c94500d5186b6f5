//! The catalogue as a file: what can be loaded, and what is said when it cannot.

use std::path::PathBuf;

use tempfile::TempDir;

use super::super::{LoadError, MOST_BYTES, SALTMERE_LOFT, check, load, revision};
use super::demo_with;

fn file(bytes: impl AsRef<[u8]>) -> (TempDir, PathBuf) {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("shop.toml");
    std::fs::write(&path, bytes).unwrap();
    (folder, path)
}

#[test]
fn a_good_file_says_what_was_read() {
    let (_folder, path) = file(SALTMERE_LOFT);
    let loaded = load(&path).unwrap();
    assert_eq!((loaded.shop.designs.len(), loaded.revision.as_str()), (10, revision(SALTMERE_LOFT).as_str()));
    let report = check(&path);
    let line = format!(
        "Saltmere Loft: 10 designs, 15 fabrics, 7 bindings, 3 trimmings, 5 methods, revision {}",
        revision(SALTMERE_LOFT)
    );
    assert!(report.passed);
    assert_eq!(report.lines, [line]);
    let catalogue = pennantry_app::Catalogue::from(loaded);
    assert_eq!(catalogue.revision, revision(SALTMERE_LOFT));
}

#[test]
fn a_file_with_mistakes_says_all_of_them_and_how_many() {
    let text = demo_with("knot_mm = 120", "knot_mm = -1").replace("level = \"document\"", "level = \"page\"");
    let (_folder, path) = file(&text);
    let report = check(&path);
    assert!(!report.passed);
    assert_eq!(report.lines.len(), 3, "{:?}", report.lines);
    assert!(report.lines[0].contains("bench.knot_mm: -1") && report.lines[1].contains("tax.level: \"page\""));
    assert_eq!(report.lines[2], format!("2 mistakes in {}", path.display()));
    let told = load(&path).unwrap_err().to_string();
    assert!(told.contains("has 2 mistakes:\nline ") && told.contains("tax.level"), "{told}");
    let (_folder, path) = file(demo_with("knot_mm = 120", "knot_mm = -1"));
    assert!(check(&path).lines[1].starts_with("1 mistake in "));
}

#[test]
fn a_file_that_is_not_there_or_is_a_folder_is_told() {
    let folder = tempfile::tempdir().unwrap();
    for path in [folder.path().join("none.toml"), folder.path().to_owned()] {
        let error = load(&path).unwrap_err();
        assert!(matches!(error, LoadError::Unreadable { .. }), "{error}");
        let report = check(&path);
        assert!(!report.passed);
        assert!(report.lines[0].starts_with(&format!("{} cannot be read (", path.display())), "{report:?}");
    }
}

#[test]
fn a_file_that_is_not_utf_8_is_told_with_its_line() {
    let mut bytes = demo_with("Kelp", "KELP").into_bytes();
    let at = bytes.windows(4).position(|window| window == b"KELP").unwrap();
    bytes[at] = 0xe9;
    let (_folder, path) = file(&bytes);
    let line = bytes[..at].split(|byte| *byte == b'\n').count();
    let report = check(&path);
    assert!(!report.passed);
    assert!(report.lines[0].contains(&format!(", line {line}: this is not UTF-8 text")), "{report:?}");
}

#[test]
fn a_file_over_a_mebibyte_is_refused_and_one_of_just_that_is_read() {
    let most = usize::try_from(MOST_BYTES).unwrap();
    assert_eq!(most, 1024 * 1024);
    let padded = format!("{SALTMERE_LOFT}#{}", " ".repeat(most - SALTMERE_LOFT.len() - 1));
    let (_folder, path) = file(&padded);
    assert!(load(&path).is_ok());
    let (_folder, path) = file(format!("{padded} "));
    let error = load(&path).unwrap_err();
    assert!(matches!(error, LoadError::TooLarge { .. }), "{error}");
    assert!(error.to_string().contains("larger than 1048576 bytes"), "{error}");
}
