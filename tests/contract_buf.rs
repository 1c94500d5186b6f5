//! The contract as the linter of its format sees it: style, comments, and no breaking
//! change against the first release.
//!
//! The linter comes from npm ([`tools`](crate::tools)).

use std::path::Path;
use std::process::{Command, Output};

use crate::contract_source::top;
use crate::tools::{NPM, said};

const BASELINE: &str = "tests/golden/contract-baseline.binpb";

fn buf(folder: &Path, arguments: &[&str]) -> Output {
    Command::new(NPM.join("node_modules/.bin/buf")).args(arguments).current_dir(folder).output().unwrap()
}

/// A copy of the contract in which one text is another.
fn changed(from: &str, to: &str) -> tempfile::TempDir {
    let copy = tempfile::tempdir().unwrap();
    copy_folder(&top("proto"), copy.path());
    let file = copy.path().join("pennantry/v1/quote_service.proto");
    let text = std::fs::read_to_string(&file).unwrap();
    assert_eq!(text.matches(from).count(), 1, "{from:?} is there once");
    std::fs::write(&file, text.replace(from, to)).unwrap();
    copy
}

fn copy_folder(from: &Path, to: &Path) {
    std::fs::create_dir_all(to).unwrap();
    for entry in std::fs::read_dir(from).unwrap().map(Result::unwrap) {
        let target = to.join(entry.file_name());
        if entry.path().is_dir() {
            copy_folder(&entry.path(), &target);
        } else {
            std::fs::copy(entry.path(), target).unwrap();
        }
    }
}

#[test]
fn contract_passes_the_linter() {
    let output = buf(&top("proto"), &["lint"]);
    assert!(output.status.success(), "{}", said(&output));
}

#[test]
fn contract_linter_finds_what_it_should() {
    let silent = changed("// The shape of a pennant.\n", "");
    let output = buf(silent.path(), &["lint"]);
    assert!(!output.status.success() && said(&output).contains("non-empty comment"), "{}", said(&output));
    let named = changed("  SHAPE_BLUNT = 2;", "  Blunt = 2;");
    let output = buf(named.path(), &["lint"]);
    assert!(!output.status.success() && said(&output).contains("SHAPE_"), "{}", said(&output));
}

/// The baseline is the first release. `UPDATE=1 BASELINE=1` writes it again, which is
/// right only before that.
#[test]
fn contract_breaks_nothing() {
    let baseline = top(BASELINE);
    let set = |name: &str| std::env::var_os(name).is_some_and(|value| value == "1");
    if set("UPDATE") && set("BASELINE") {
        let path = baseline.to_str().unwrap().to_owned();
        let output = buf(&top("proto"), &["build", "--exclude-source-info", "-o", &path]);
        assert!(output.status.success(), "{}", said(&output));
    }
    let against = baseline.to_str().unwrap();
    let output = buf(&top("proto"), &["breaking", "--against", against]);
    assert!(output.status.success(), "the contract breaks its clients: {}", said(&output));
    // and it would be seen if it did
    let other = changed("double flagged_mm = 2 ", "double flagged_mm = 102 ");
    let output = buf(other.path(), &["breaking", "--against", against]);
    assert!(!output.status.success() && said(&output).contains("flagged_mm"), "{}", said(&output));
}
