//! One file with every kind of mistake: all of them are told at once, on their lines.

use super::super::Mistake;
use super::mistakes;

const FILE: &str = include_str!("thirty_mistakes.toml");

/// What the end of a line says is wrong with it.
struct Expected {
    line: usize,
    path: String,
    texts: Vec<String>,
}

fn expected() -> Vec<Expected> {
    let on_line = |(line, content): (usize, &str)| {
        let marks: Vec<Expected> = content
            .split("#! ")
            .skip(1)
            .map(|mark| {
                let mut parts = mark.split(" | ").map(|part| part.trim().to_owned());
                Expected { line, path: parts.next().unwrap(), texts: parts.collect() }
            })
            .collect();
        marks
    };
    (1..).zip(FILE.lines()).flat_map(on_line).collect()
}

fn fits(expected: &Expected, found: &Mistake) -> bool {
    expected.line == found.line
        && expected.path == found.path
        && expected.texts.iter().all(|text| found.message.contains(text))
}

#[test]
fn a_file_with_every_kind_of_mistake_tells_them_all() {
    let (expected, found) = (expected(), mistakes(FILE));
    assert!(expected.len() >= 30, "only {} mistakes are in the file", expected.len());
    for mark in &expected {
        assert!(
            found.iter().any(|mistake| fits(mark, mistake)),
            "line {}, {}: {:?} is not told in\n{}",
            mark.line,
            mark.path,
            mark.texts,
            found.iter().map(Mistake::to_string).collect::<Vec<_>>().join("\n")
        );
    }
    let cloth = |mistake: &&Mistake| (mistake.line, mistake.path.as_str()) == (1, "cloth");
    assert_eq!(found.iter().filter(cloth).count(), 1, "the misnamed table leaves one missing");
    // lines marked with a star repeat the mistake above them, once for each of their entries
    let starred = FILE.lines().zip(1..).filter(|(content, _)| content.ends_with("#!*")).map(|(_, line)| line);
    let starred: Vec<usize> = starred.collect();
    let repeated = found.iter().filter(|mistake| starred.contains(&mistake.line)).count();
    assert_eq!(repeated, 23, "the one beyond the most is not looked at");
    assert_eq!(found.len(), expected.len() + 1 + repeated, "{found:#?}");
}

#[test]
fn they_come_in_the_order_of_the_lines() {
    let lines: Vec<usize> = mistakes(FILE).iter().map(|mistake| mistake.line).collect();
    assert!(lines.is_sorted());
}

#[test]
fn every_message_says_what_to_do() {
    const ADVICE: [&str; 13] = [
        "write ",
        "leave it out",
        "leave one",
        "leave this one out",
        "did you mean",
        "add it",
        "each code stands once",
        "each construction stands once",
        "choose ",
        "put it in quotes",
        "lower it",
        "mend ",
        "keep one",
    ];
    for mistake in mistakes(FILE) {
        let advised = ADVICE.iter().any(|advice| mistake.message.contains(advice));
        assert!(advised, "{mistake}");
    }
}
