//! Files that are not ours, or of another program than this one.

use rusqlite::Connection;

use super::super::connect::is_new_enough;
use super::super::migrate::{MIGRATIONS, Migration, check, digest, run};
use super::super::{back_up, restore};
use super::*;

fn opened(folder: &TempDir) -> Result<(), Error> {
    Store::open(&file(folder.path()), Options { durability: Durability::Off, ..Options::default() }).map(drop)
}

fn made() -> TempDir {
    let folder = tempfile::tempdir().expect("a folder");
    opened(&folder).expect("an empty one is made");
    folder
}

fn why(told: Result<(), Error>) -> String {
    match told {
        Err(Error::Unfit(why)) => why,
        other => panic!("{other:?}"),
    }
}

#[test]
fn a_store_opens_again() {
    let folder = made();
    opened(&folder).expect("it opens");
}

/// What only looks leaves a file of an older program as it is, since that may be serving it; a copy is
/// one of the older program, too, and is brought up to this one where it is put back.
#[test]
fn what_only_looks_brings_nothing_up_to_date() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = file(folder.path());
    let older = MIGRATIONS.len() - 2;
    let connection = Connection::open(&path).expect("it opens");
    connection.pragma_update_and_check(None, "journal_mode", "WAL", |_| Ok(())).expect("as a server has it");
    run(&connection, &MIGRATIONS[..older], "stock.db").expect("an older program made it");
    let had = |at: &std::path::Path| {
        let connection = Connection::open(at).expect("it opens");
        check(&connection, MIGRATIONS, "stock.db").expect("one of ours")
    };
    let looks = || Options { migrates: false, ..Options::default() };
    let refused = why(Store::open(&path, looks()).map(drop));
    assert!(refused.contains(&format!("schema {older} of an older program")), "{refused}");
    assert!(refused.contains("pennantryd migrate"), "{refused}");
    let copy = folder.path().join("copy.sqlite");
    // while the older program has it open
    back_up(&path, &copy, std::time::Duration::from_secs(1)).expect("as it is");
    assert_eq!((had(&path), had(&copy)), (older, older));
    drop(connection);
    let restored = restore(&copy, &path, &folder.path().join("kept.sqlite")).expect("put back");
    assert_eq!((restored.migrations, had(&path), had(&copy)), (2, MIGRATIONS.len(), older));
    Store::open(&path, looks()).map(drop).expect("up to date");
    let nothing = folder.path().join("nothing.sqlite");
    Connection::open(&nothing).expect("made").execute_batch("VACUUM").expect("an empty file");
    let other = folder.path().join("other.sqlite");
    let why = why(back_up(&nothing, &other, std::time::Duration::from_secs(1)));
    assert!(why.contains("has no stock in it") && !other.exists(), "{why}");
}

#[test]
fn a_schema_of_a_newer_program_is_refused() {
    let folder = made();
    let other = Connection::open(file(folder.path())).expect("it opens");
    let next = MIGRATIONS.last().expect("one").number + 1;
    other
        .execute("INSERT INTO schema_version VALUES (?1, 'later', '0123456789abcdef')", [next])
        .expect("written");
    let why = why(opened(&folder));
    assert!(why.contains("newer program"), "{why}");
}

#[test]
fn an_edited_migration_is_refused_and_line_ends_are_not_an_edit() {
    let folder = made();
    let connection = Connection::open(file(folder.path())).expect("it opens");
    let first = MIGRATIONS[0];
    let with = |text: &str| {
        let migration = Migration { text: String::leak(text.to_owned()), ..first };
        let known: Vec<Migration> = [migration].into_iter().chain(MIGRATIONS[1..].iter().copied()).collect();
        check(&connection, &known, "stock.db").map(drop)
    };
    with(first.text).expect("as it was");
    let crlf = first.text.replace('\n', "\r\n");
    assert_ne!(crlf, first.text);
    with(&crlf).expect("line ends are not an edit");
    let edited = first.text.replace("held >= 0", "held >= -1");
    assert_ne!(edited, first.text);
    let why = why(with(&edited));
    assert!(why.contains("another text of migration 1"), "{why}");
}

/// A migration with other line ends makes the same schema, and a later one runs once.
#[test]
fn migrations_run_once_and_in_order() {
    let connection = Connection::open_in_memory().expect("it opens");
    let first = Migration { text: String::leak(MIGRATIONS[0].text.replace('\n', "\r\n")), ..MIGRATIONS[0] };
    let second = Migration { number: 2, name: "note", text: "ALTER TABLE cut ADD COLUMN note TEXT" };
    run(&connection, &[first], "stock.db").expect("the first");
    run(&connection, &[MIGRATIONS[0], second], "stock.db").expect("the second");
    run(&connection, &[MIGRATIONS[0], second], "stock.db").expect("neither");
    let names: String = connection
        .query_row("SELECT group_concat(name) FROM schema_version", [], |row| row.get(0))
        .expect("rows");
    assert_eq!(names, "stock,note");
}

/// From the published test vectors of FNV-1a, 64 bits: "", "a", "foobar".
#[test]
fn the_digest_is_fnv_1a() {
    assert_eq!(digest(""), "cbf29ce484222325");
    assert_eq!(digest("a"), "af63dc4c8601ec8c");
    assert_eq!(digest("foobar"), "85944171f73967e8");
}

/// Somebody else's database is refused, and not a byte of it is changed.
#[test]
fn a_file_that_is_not_ours_is_left_as_it_is() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = file(folder.path());
    Connection::open(&path).expect("it opens").execute_batch("CREATE TABLE song (id)").expect("written");
    let before = std::fs::read(&path).expect("bytes");
    let words = why(opened(&folder));
    assert!(words.contains("not one of stock"), "{words}");
    assert_eq!(std::fs::read(&path).expect("bytes"), before);

    std::fs::write(
        &path,
        "a shopping list, long enough to be looked at as a header of a hundred bytes and more: \
        flour, eggs, thread",
    )
    .expect("written");
    let words = why(opened(&folder));
    assert!(words.contains("cannot be read"), "{words}");
}

#[test]
fn stock_is_never_only_in_memory() {
    for path in ["", ":memory:"] {
        let told = Store::open(Path::new(path), Options::default()).map(drop);
        assert!(why(told).contains("never only in memory"));
    }
    let folder = tempfile::tempdir().expect("a folder");
    let told = Store::open(&folder.path().join("no folder").join("stock.db"), Options::default()).map(drop);
    assert!(matches!(told, Err(Error::Unavailable(_))));
}

#[test]
fn a_connection_is_set_as_the_shop_needs_it() {
    let folder = tempfile::tempdir().expect("a folder");
    let connection =
        super::super::connect::writing(&file(folder.path()), &Options::default()).expect("it opens");
    let ask = |what: &str| -> String {
        connection
            .query_row(what, [], |row| row.get::<_, rusqlite::types::Value>(0))
            .map_or_else(|error| error.to_string(), |value| format!("{value:?}"))
    };
    assert_eq!(ask("PRAGMA journal_mode"), "Text(\"wal\")");
    assert_eq!(ask("PRAGMA synchronous"), "Integer(2)");
    assert_eq!(ask("PRAGMA foreign_keys"), "Integer(1)");
    assert_eq!(ask("PRAGMA busy_timeout"), "Integer(10000)");
    assert!(rusqlite::version_number() >= 3_051_003);
}

/// 3.51.3 is the first release in which two connections that reset the log at once spoil nothing:
/// <https://www.sqlite.org/changes.html>.
#[test]
fn a_sqlite_that_can_spoil_a_file_is_refused() {
    for old in [3_051_002, 3_050_004, 3_007_000, 2_999_999] {
        let why = why(is_new_enough(old));
        assert!(why.contains("at least 3.51.3"), "{why}");
    }
    assert!(why(is_new_enough(3_051_002)).contains("SQLite 3.51.2, which"));
    for new in [3_051_003, 3_051_004, 3_052_000, 4_000_000, rusqlite::version_number()] {
        is_new_enough(new).expect("new enough");
    }
}
