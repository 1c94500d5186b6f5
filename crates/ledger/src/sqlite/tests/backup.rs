//! Copies as of one instant, and putting one back.

use super::super::migrate::{MIGRATIONS, run};
use super::super::{digest_of, restore};
use super::*;

fn names(folder: &Path) -> Vec<String> {
    let entries = std::fs::read_dir(folder).expect("a folder");
    entries.map(|entry| entry.expect("an entry").file_name().into_string().expect("a name")).collect()
}

/// While four callers move cloth, the copy is of one instant: it agrees with itself, and every
/// reservation in it has its lines, movements and events.
#[tokio::test(flavor = "multi_thread", worker_threads = 4)]
async fn a_backup_under_load_is_of_one_instant() {
    let loft = Loft::new();
    loft.done(receive((0..4).map(|n| bolt(&format!("B{n}"), cm(100_000))).collect())).await;
    let stop = Arc::new(std::sync::atomic::AtomicBool::new(false));
    let callers: Vec<_> = (0..4)
        .map(|caller| {
            let (store, stop) = (loft.store.clone(), Arc::clone(&stop));
            tokio::spawn(async move {
                let mut turn = 0;
                while !stop.load(Ordering::Relaxed) {
                    let name = format!("R{caller}-{turn}");
                    let piece = format!("B{caller}");
                    let command = reserve(&name, &[(piece.as_str(), cm(1))]);
                    store.apply(envelope(command), None).await.expect("it is carried out");
                    turn += 1;
                }
            })
        })
        .collect();
    for turn in 0..3 {
        let before = loft.store.last_place().await.expect("a look");
        let copy = loft.folder.path().join(format!("copy{turn}.db"));
        loft.store.backup(&copy).await.expect("a copy");
        let opened = Store::open(&copy, Options::default()).expect("it can be served");
        let verified = opened.verify().await.expect("it is looked through");
        assert_eq!(verified.drift, Vec::<String>::new());
        assert_eq!(verified.pieces, 4);
        let place = opened.last_place().await.expect("a look");
        assert!(place >= before, "what was there before the copy was begun is in it");
        // 4 pieces came, and each later event is one reservation of 1 cm
        let held: Amount = opened.shelf().of(&kelp()).iter().map(|on_shelf| on_shelf.piece.held).sum();
        assert_eq!(held, cm(place - 4));
        opened.close().await;
    }
    stop.store(true, Ordering::Relaxed);
    for caller in callers {
        caller.await.expect("no panic");
    }
    let mut left = names(loft.folder.path());
    left.retain(|name| name.contains("part"));
    assert_eq!(left, Vec::<String>::new(), "nothing half made is left");
}

#[tokio::test]
async fn a_backup_replaces_nothing_and_is_its_owners_only() {
    let loft = Loft::new();
    let copy = loft.folder.path().join("copy.db");
    loft.store.backup(&copy).await.expect("a copy");
    let told = loft.store.backup(&copy).await;
    assert!(matches!(&told, Err(Error::Unfit(why)) if why.contains("is there already")), "{told:?}");
    #[cfg(unix)]
    for path in [&copy, &loft.file()] {
        use std::os::unix::fs::PermissionsExt;
        let mode = std::fs::metadata(path).expect("a file").permissions().mode() & 0o777;
        assert_eq!(mode, 0o600, "{}", path.display());
    }
    // the flag in the header that says that the log is used: a 2 in bytes 18 and 19
    let header = std::fs::read(&copy).expect("bytes");
    assert_eq!(header[18..20], [2, 2]);
}

#[tokio::test]
async fn a_backup_is_put_back_and_the_old_file_kept() {
    let loft = Loft::new();
    loft.done(receive(vec![bolt("B1", cm(100))])).await;
    let copy = loft.folder.path().join("copy.db");
    loft.store.backup(&copy).await.expect("a copy");
    loft.done(reserve("R1", &[("B1", cm(60))])).await;

    let kept = loft.folder.path().join("stock-before.db");
    let told = restore(&copy, &loft.file(), &kept);
    assert!(matches!(&told, Err(Error::Unfit(why)) if why.contains("stop the server")), "{told:?}");
    assert!(!kept.exists());
    assert!(loft.store.reservation(&"R1".into()).await.expect("a look").is_some(), "nothing was replaced");

    loft.store.close().await;
    let restored = restore(&copy, &loft.file(), &kept).expect("it is put back");
    assert_eq!((restored.verified.pieces, restored.verified.reservations), (1, 0));
    assert!(restored.digest_agrees && restored.migrations == 0);
    let mut names = names(loft.folder.path());
    names.sort();
    assert_eq!(names, ["copy.db", "copy.db.sha256", "stock-before.db", "stock.db"], "nothing else is left");
    let back = Store::open(&loft.file(), Options::default()).expect("it opens");
    assert!(back.reservation(&"R1".into()).await.expect("a look").is_none());
    assert_eq!(back.shelf().piece(&kelp(), &"B1".into()).expect("on the shelf").piece.left, cm(100));
    back.close().await;
    let old = Store::open(&kept, Options::default()).expect("the old one is whole");
    assert!(old.reservation(&"R1".into()).await.expect("a look").is_some());
    let told = restore(&copy, &loft.file(), &kept);
    assert!(matches!(&told, Err(Error::Unfit(why)) if why.contains("is there already")), "{told:?}");
}

#[tokio::test]
async fn a_spoiled_backup_replaces_nothing() {
    let loft = Loft::new();
    loft.done(receive((0..200).map(|n| bolt(&format!("B{n}"), cm(100))).collect())).await;
    let copy = loft.folder.path().join("copy.db");
    loft.store.backup(&copy).await.expect("a copy");
    loft.store.close().await;
    let kept = loft.folder.path().join("kept.db");
    let whole = std::fs::read(&copy).expect("bytes");
    // what is said here is found without it
    std::fs::remove_file(digest_of(&copy)).expect("it lies beside");

    let mut torn = whole.clone();
    torn[4_096 * 3..4_096 * 5].fill(0x5a);
    let cut_short = whole[..4_096 * 4].to_vec();
    for wrong in [torn, cut_short, b"a shopping list".to_vec(), Vec::new()] {
        std::fs::write(&copy, &wrong).expect("written");
        let told = restore(&copy, &loft.file(), &kept);
        assert!(matches!(told, Err(Error::Unfit(_))), "{} bytes: {told:?}", wrong.len());
    }
    // whole to SQLite, but a balance does not agree with the movements
    std::fs::write(&copy, &whole).expect("written");
    let other = rusqlite::Connection::open(&copy).expect("it opens");
    other.execute("UPDATE piece SET left_over = left_over - 1 WHERE id = 'B7'", []).expect("written");
    drop(other);
    let told = restore(&copy, &loft.file(), &kept);
    assert!(matches!(&told, Err(Error::Unfit(why)) if why.contains("piece B7: free")), "{told:?}");

    assert!(!kept.exists());
    let still = Store::open(&loft.file(), Options::default()).expect("it opens");
    assert_eq!(still.verify().await.expect("looked through").pieces, 200);
}

/// A store that can no longer be read is kept with all that lies beside it.
#[tokio::test]
async fn a_spoiled_store_is_replaced() {
    let loft = Loft::new();
    loft.done(receive(vec![bolt("B1", cm(100))])).await;
    let copy = loft.folder.path().join("copy.db");
    loft.store.backup(&copy).await.expect("a copy");
    loft.store.close().await;
    std::fs::write(loft.file(), vec![0x5a; 8_192]).expect("written");
    std::fs::write(super::super::files::beside(&loft.file(), "-wal"), b"left over").expect("written");
    let told = Store::open(&loft.file(), Options::default()).map(drop);
    assert!(matches!(&told, Err(Error::Unfit(why)) if why.contains("restore a backup")), "{told:?}");
    let kept = loft.folder.path().join("kept.db");
    restore(&copy, &loft.file(), &kept).expect("it is put back");
    assert_eq!(std::fs::read(&kept).expect("bytes"), vec![0x5a; 8_192]);
    let back = Store::open(&loft.file(), Options::default()).expect("it opens");
    assert_eq!(back.verify().await.expect("looked through").pieces, 1);
    // and into a place where nothing was
    let fresh = loft.folder.path().join("fresh.db");
    restore(&copy, &fresh, &loft.folder.path().join("unused.db")).expect("it is put there");
    assert!(!loft.folder.path().join("unused.db").exists());
}

/// A store with something of everything, closed, and a backup of it.
async fn backed_up() -> (Loft, std::path::PathBuf) {
    let loft = Loft::new();
    loft.done(receive(vec![bolt("B1", cm(1_000)), bolt("B2", cm(500))])).await;
    loft.done(reserve("R1", &[("B1", cm(60))])).await;
    loft.done(confirm("R1")).await;
    loft.done(cut("C1", "R1", cm(70), cm(3), Some(("M1", cm(7))))).await;
    loft.done(reserve("R2", &[("B2", cm(60))])).await;
    let copy = loft.folder.path().join("copy.db");
    loft.store.backup(&copy).await.expect("a copy");
    loft.store.close().await;
    (loft, copy)
}

/// SQLite takes a last page that is cut short for one that ends in noughts.
#[tokio::test]
async fn a_backup_of_another_length_than_it_says_is_refused() {
    let (loft, copy) = backed_up().await;
    std::fs::remove_file(digest_of(&copy)).expect("it lies beside");
    let whole = std::fs::read(&copy).expect("bytes");
    let kept = loft.folder.path().join("kept.db");
    let without = |less: usize| whole[..whole.len() - less].to_vec();
    let longer = [whole.as_slice(), &[0; 4_096]].concat();
    for wrong in [without(1), without(100), without(2_000), without(4_095), without(4_096), longer] {
        std::fs::write(&copy, &wrong).expect("written");
        let told = restore(&copy, &loft.file(), &kept);
        let why = format!("is {} bytes long and says that it has {}", wrong.len(), whole.len());
        assert!(matches!(&told, Err(Error::Unfit(told)) if told.contains(&why)), "{told:?}");
    }
    std::fs::write(&copy, &whole).expect("written");
    let restored = restore(&copy, &loft.file(), &kept).expect("it is put back");
    assert!(!restored.digest_agrees, "none was there");
}

#[tokio::test]
async fn a_bit_that_changed_since_a_backup_was_made_is_noticed() {
    let (loft, copy) = backed_up().await;
    let kept = loft.folder.path().join("kept.db");
    let whole = std::fs::read(&copy).expect("bytes");
    let digest = std::fs::read_to_string(digest_of(&copy)).expect("it lies beside");
    assert!(digest.ends_with("  copy.db\n") && digest.len() == 64 + 10, "{digest}");
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt;
        let mode = std::fs::metadata(digest_of(&copy)).expect("a file").permissions().mode() & 0o777;
        assert_eq!(mode, 0o600);
    }
    // every 997th byte: in what is used and what is not
    for at in (100..whole.len()).step_by(997) {
        let mut other = whole.clone();
        other[at] ^= 4;
        std::fs::write(&copy, &other).expect("written");
        let told = restore(&copy, &loft.file(), &kept);
        let why = "is not what it was when its digest was written";
        assert!(matches!(&told, Err(Error::Unfit(told)) if told.contains(why)), "{at}: {told:?}");
    }
    std::fs::write(&copy, &whole).expect("written");
    std::fs::write(digest_of(&copy), "a note").expect("written");
    let told = restore(&copy, &loft.file(), &kept);
    assert!(
        matches!(&told, Err(Error::Unfit(why)) if why.contains("is not the digest of a file")),
        "{told:?}"
    );
    // as it is written elsewhere: capitals, and the mark of a binary file
    std::fs::write(digest_of(&copy), format!("{} *copy.db\r\n", digest[..64].to_uppercase()))
        .expect("written");
    assert!(restore(&copy, &loft.file(), &kept).expect("it is put back").digest_agrees);
}

#[cfg(unix)]
#[tokio::test]
async fn what_is_put_back_is_its_owners_only() {
    use std::os::unix::fs::PermissionsExt;
    let (loft, copy) = backed_up().await;
    for mode in [0o644, 0o666, 0o444] {
        std::fs::set_permissions(&copy, std::fs::Permissions::from_mode(mode)).expect("set");
        let kept = loft.folder.path().join(format!("kept-{mode:o}.db"));
        restore(&copy, &loft.file(), &kept).expect("it is put back");
        let is = std::fs::metadata(loft.file()).expect("a file").permissions().mode() & 0o777;
        assert_eq!(is, 0o600, "of one of {mode:o}");
    }
}

/// A backup of each schema there ever was is put back, brought up to date.
#[tokio::test]
async fn a_backup_of_an_older_program_is_put_back() {
    let (loft, copy) = backed_up().await;
    for had in 1..MIGRATIONS.len() {
        let old = loft.folder.path().join(format!("of-{had}.db"));
        let connection = rusqlite::Connection::open(&old).expect("it opens");
        run(&connection, &MIGRATIONS[..had], "old").expect("its schema");
        connection.execute("ATTACH ?1 AS now", [copy.to_str()]).expect("attached");
        let mut tables_of = connection
            .prepare("SELECT name FROM main.sqlite_schema WHERE type = 'table' AND name <> 'schema_version'")
            .expect("a schema");
        let tables = tables_of.query_map([], |row| row.get(0)).expect("names");
        for table in tables.collect::<rusqlite::Result<Vec<String>>>().expect("names") {
            let columns: String = connection
                .query_row("SELECT group_concat(name) FROM pragma_table_info(?1, 'main')", [&table], |row| {
                    row.get(0)
                })
                .expect("columns");
            let sql = format!("INSERT INTO main.{table} ({columns}) SELECT {columns} FROM now.{table}");
            connection.execute(&sql, []).expect("copied");
        }
        drop(tables_of);
        drop(connection);
        let (fresh, kept) =
            (loft.folder.path().join(format!("fresh-{had}.db")), loft.folder.path().join("kept.db"));
        let restored = restore(&old, &fresh, &kept).expect("it is put back");
        assert_eq!((restored.migrations, restored.verified.pieces), (MIGRATIONS.len() - had, 3));
        let back = Store::open(&fresh, Options::default()).expect("it opens");
        assert_eq!(back.verify().await.expect("looked through").drift, Vec::<String>::new());
        assert_eq!(back.piece(&"M1".into()).await.expect("a look").expect("there").left, cm(7));
        back.close().await;
    }
}
