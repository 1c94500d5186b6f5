//! The keys in the data folder: made once, for their owner alone, rotated, and refused
//! where something is wrong with them.

use std::fs;
use std::os::unix::fs::{MetadataExt, PermissionsExt};
use std::path::Path;

use jiff::civil::date;

use super::super::{FILE, Keys, load, load_or_make, open, rotate};
use super::{COUNTED, SEVENS, promise, token};

fn mode(path: &Path) -> u32 {
    fs::metadata(path).unwrap().permissions().mode() & 0o777
}

fn put(folder: &Path, text: &str, mode: u32) {
    let file = folder.join(FILE);
    fs::write(&file, text).unwrap();
    fs::set_permissions(&file, fs::Permissions::from_mode(mode)).unwrap();
}

fn names(folder: &Path) -> Vec<String> {
    let entries = fs::read_dir(folder).unwrap();
    entries.map(|entry| entry.unwrap().file_name().into_string().unwrap()).collect()
}

#[test]
fn the_first_start_makes_a_key_and_the_next_one_keeps_it() {
    let folder = tempfile::tempdir().unwrap();
    assert!(load(folder.path()).unwrap_err().contains("cannot be read"));
    let first = load_or_make(folder.path(), date(2026, 11, 24)).unwrap();
    assert_eq!((names(folder.path()), mode(&folder.path().join(FILE))), (vec![FILE.to_owned()], 0o600));
    let text = fs::read_to_string(folder.path().join(FILE)).unwrap();
    let keys: Vec<&str> = text.lines().filter(|line| !line.starts_with('#')).collect();
    assert!(keys.len() == 1 && keys[0].ends_with(" since 2026-11-24"), "{keys:?}");
    let again = load_or_make(folder.path(), date(2026, 11, 25)).unwrap();
    assert_eq!(fs::read_to_string(folder.path().join(FILE)).unwrap(), text);
    assert!(open(&token(&promise(), &first), &again).is_some());
    let elsewhere = tempfile::tempdir().unwrap();
    let other = load_or_make(elsewhere.path(), date(2026, 11, 24)).unwrap();
    assert_ne!(other.newest().unwrap().id(), first.newest().unwrap().id());
}

/// Servers that start at the same moment in one folder end up with one key.
#[test]
fn many_first_starts_at_once_agree() {
    let folder = tempfile::tempdir().unwrap();
    let ids: Vec<_> = std::thread::scope(|scope| {
        let start = || load_or_make(folder.path(), date(2026, 11, 24)).unwrap().newest().unwrap().id();
        let started: Vec<_> = (0..16).map(|_| scope.spawn(start)).collect();
        started.into_iter().map(|thread| thread.join().unwrap()).collect()
    });
    assert!(ids.iter().all(|id| *id == ids[0]), "{ids:?}");
    assert_eq!(names(folder.path()), [FILE]);
}

#[test]
fn a_file_that_others_may_open_is_refused() {
    let folder = tempfile::tempdir().unwrap();
    for open in [0o640, 0o604, 0o620, 0o602, 0o610, 0o601, 0o644, 0o666, 0o777] {
        put(folder.path(), COUNTED, open);
        let told = load_or_make(folder.path(), date(2026, 11, 24)).unwrap_err();
        assert!(told.contains(&format!("mode {open:o}")) && told.contains("chmod 600"), "{told}");
        assert!(!told.contains(COUNTED), "{told}");
    }
    for own in [0o600, 0o400] {
        put(folder.path(), COUNTED, own);
        assert_eq!(load(folder.path()).unwrap().count(), 1);
    }
}

#[test]
fn a_file_that_is_wrong_is_refused_and_stays() {
    let folder = tempfile::tempdir().unwrap();
    for (text, said) in [
        (String::new(), "there is no key"),
        ("# only words\n".to_owned(), "there is no key"),
        (format!("{SEVENS}\n{}\n", &COUNTED[..42]), "line 2"),
        (format!("{COUNTED}\n{COUNTED}\n"), "line 2"),
        ("#".repeat(64 * 1024 + 1), "more than 65536 bytes"),
    ] {
        put(folder.path(), &text, 0o600);
        for told in [
            load(folder.path()).unwrap_err(),
            load_or_make(folder.path(), date(2026, 11, 24)).unwrap_err(),
            rotate(folder.path(), date(2026, 11, 24)).unwrap_err(),
        ] {
            assert!(told.contains(said) && told.contains(FILE), "{told}");
            assert!(!told.contains(&COUNTED[..10]) && !told.contains(&SEVENS[..10]), "{told}");
        }
        assert_eq!(fs::read_to_string(folder.path().join(FILE)).unwrap(), text, "it is as it was");
        assert_eq!(names(folder.path()), [FILE]);
    }
    fs::write(folder.path().join(FILE), b"\xff\xfe").unwrap();
    assert!(load(folder.path()).unwrap_err().contains("not text"));
    let gone = folder.path().join("none");
    assert!(load_or_make(&gone, date(2026, 11, 24)).unwrap_err().contains("cannot be made"));
}

#[test]
fn rotation_puts_a_new_key_on_top_and_keeps_the_rest() {
    let folder = tempfile::tempdir().unwrap();
    let told = rotate(folder.path(), date(2026, 11, 24)).unwrap_err();
    assert!(told.contains("cannot be read"), "there is nothing to rotate: {told}");
    assert_eq!(names(folder.path()), [""; 0]);

    put(folder.path(), &format!("# ours\n\n{COUNTED} since May\n# older ones\n{SEVENS}\n"), 0o600);
    let before = load(folder.path()).unwrap();
    let yesterday = token(&promise(), &before);
    let rotated = rotate(folder.path(), date(2026, 11, 24)).unwrap();
    assert_eq!((rotated.count(), mode(&folder.path().join(FILE))), (3, 0o600));
    assert_eq!(names(folder.path()), [FILE]);
    let text = fs::read_to_string(folder.path().join(FILE)).unwrap();
    let lines: Vec<&str> = text.lines().collect();
    assert_eq!([lines[0], lines[1]], ["# ours", ""]);
    assert!(lines[2].ends_with(" since 2026-11-24"), "{}", lines[2]);
    assert_eq!(lines[3..], [&format!("{COUNTED} since May"), "# older ones", SEVENS]);

    // rotated by root, the file stays that of the user who runs the server
    let file = folder.path().join(FILE);
    if std::os::unix::fs::chown(&file, Some(12_345), Some(12_346)).is_ok() {
        rotate(folder.path(), date(2026, 11, 25)).unwrap();
        let about = fs::metadata(&file).unwrap();
        assert_eq!((about.uid(), about.gid(), mode(&file)), (12_345, 12_346, 0o600));
        put(folder.path(), &text, 0o600);
    }

    let read = load(folder.path()).unwrap();
    assert_eq!(read.newest().unwrap().id(), rotated.newest().unwrap().id());
    assert!(open(&yesterday, &read).is_some(), "what was given yesterday holds");
    let today = token(&promise(), &read);
    assert!(open(&today, &before).is_none() && open(&today, &read).is_some());
}

#[test]
fn two_rotations_do_not_meet_and_there_is_an_end_to_them() {
    let folder = tempfile::tempdir().unwrap();
    load_or_make(folder.path(), date(2026, 11, 24)).unwrap();
    let next = folder.path().join("ticket-keys.next");
    fs::write(&next, "").unwrap();
    let told = rotate(folder.path(), date(2026, 11, 24)).unwrap_err();
    assert!(told.contains("ticket-keys.next") && told.contains("remove that file"), "{told}");
    fs::remove_file(&next).unwrap();
    for count in 2..=20 {
        assert_eq!(rotate(folder.path(), date(2026, 11, 24)).unwrap().count(), count);
    }
    let told = rotate(folder.path(), date(2026, 11, 24)).unwrap_err();
    assert!(told.contains("more than 20") && told.contains("take the oldest out"), "{told}");
    assert_eq!(names(folder.path()), [FILE]);
    assert_eq!(load(folder.path()).map(|keys: Keys| keys.count()), Ok(20));
}
