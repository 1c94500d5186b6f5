//! Copies as of one instant, and putting one back.

use super::super::restore;
use super::*;

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
    let left: Vec<String> = std::fs::read_dir(loft.folder.path())
        .expect("a folder")
        .map(|entry| entry.expect("an entry").file_name().into_string().expect("a name"))
        .filter(|name| name.contains("part"))
        .collect();
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
    let verified = restore(&copy, &loft.file(), &kept).expect("it is put back");
    assert_eq!((verified.pieces, verified.reservations), (1, 0));
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
