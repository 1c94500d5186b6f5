//! The sheet in the README is one that is printed.
//!
//! A block after a line `<!-- sheet: FLAGS -->` is part of what `pennantry quote FLAGS` prints
//! at the instant of these tests: a line `...` leaves lines out, no other line may differ.

use std::path::Path;

use super::process::{close, run, server};

/// The first line of a block that is not printed there, after the lines before it.
fn first_difference<'a>(block: &'a str, printed: &str) -> Option<&'a str> {
    let mut rest = printed.lines();
    let mut may_skip = false;
    for line in block.lines() {
        if line == "..." {
            may_skip = true;
            continue;
        }
        let is_there = if may_skip { rest.any(|told| told == line) } else { rest.next() == Some(line) };
        if !is_there {
            return Some(line);
        }
        may_skip = false;
    }
    None
}

#[test]
fn a_line_that_is_not_printed_is_found() {
    let printed = "a\nb\nc\nd\n";
    for good in ["a\nb\n", "a\n...\nd\n", "...\nb\nc\n"] {
        assert_eq!(first_difference(good, printed), None, "{good}");
    }
    for (wrong, line) in [("b\n", "b"), ("a\nc\n", "c"), ("...\nd\n...\nb\n", "b"), ("a\n...\n x\n", " x")] {
        assert_eq!(first_difference(wrong, printed), Some(line), "{wrong}");
    }
}

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn the_sheet_in_the_readme_is_real() {
    let readme = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../README.md");
    let readme = std::fs::read_to_string(readme).unwrap();
    let server = server().await;
    let mut blocks = 0;
    for after in readme.split("<!-- sheet: ").skip(1) {
        let (flags, rest) = after.split_once(" -->").unwrap();
        let block = rest.split_once("```\n").unwrap().1.split_once("```").unwrap().0;
        let words: Vec<&str> = flags.split_whitespace().collect();
        let (code, printed, err) = run(Some(server.private()), &words.join("|")).await;
        assert_eq!(code, 0, "{flags}: {err}");
        assert_eq!(first_difference(block, &printed), None, "README, sheet of {flags}:\n{printed}");
        blocks += 1;
    }
    assert!(blocks > 0, "the README prints a sheet");
    close(server).await;
}
