//! Who keeps what, by hand.

use super::make::{bolt, cm, flaw, loft};
use crate::rules::settle::{Claim, between, clear, fit, keep, mend, stretches};
use crate::rules::{Amount, Flaw};

fn all(amounts: &[i64]) -> Vec<Amount> {
    amounts.iter().copied().map(cm).collect()
}

#[test]
fn stretches_lie_between_flaws() {
    let check = |flaws: &[Flaw], left, expected: &[i64]| assert_eq!(between(flaws, cm(left)), all(expected));
    check(&[], 300, &[300]);
    check(&[flaw(100, 120)], 300, &[100, 180]);
    check(&[flaw(0, 20)], 300, &[0, 280]);
    check(&[flaw(280, 300)], 300, &[280, 0]);
    check(&[flaw(100, 120), flaw(120, 150)], 300, &[100, 0, 150]);
    // flaws beyond what will be left, while a cut is being worked out
    check(&[flaw(100, 120), flaw(200, 220)], 110, &[100, 0, 0]);
    check(&[flaw(100, 120)], 50, &[50, 0]);
    check(&[], 0, &[0]);
}

#[test]
fn clear_lengths_the_longest_first() {
    let loft = loft(vec![crate::rules::NewPiece { flaws: vec![flaw(100, 120)], ..bolt("B", 300) }]);
    let check = |promised: &[i64], expected: &[i64]| {
        assert_eq!(clear(loft.on("B"), all(promised).into_iter()), all(expected), "{promised:?}");
    };
    assert_eq!(stretches(loft.on("B")), all(&[100, 180]));
    check(&[], &[180, 100]);
    check(&[90], &[180, 10]);
    check(&[110], &[100, 70]);
    check(&[90, 180], &[10]);
    check(&[60, 60, 60, 100], &[]);
    // more than fits takes of the longest
    check(&[190], &[100]);
}

#[test]
fn fitting_tries_more_than_one_way() {
    let fits = |stretches: &[i64], promised: &[i64]| fit(&all(stretches), &all(promised)).is_some();
    assert!(fits(&[100], &[60, 40]));
    assert!(!fits(&[100], &[60, 41]));
    assert!(!fits(&[50, 50], &[60]));
    // the longest first, each into the shortest remainder: 6 into 10, 5 into 11, 4 into the 4 that
    // are left, 3 and 3 into 6
    assert!(fits(&[11, 10], &[6, 5, 4, 3, 3]));
    // here that fails: 6 into 10, both 5 into 12, 3 into the 4 that are left, and 2 and 1 are left for
    // the last one; but 6, 3 and 3 fill the twelve, and 5 and 5 the ten
    assert!(fits(&[12, 10], &[6, 5, 5, 3, 3]));
    assert!(!fits(&[11, 10], &[6, 6, 6]));
    // as much as there is, and no way to lay it
    assert!(!fits(&[12, 10], &[8, 7, 7]));
    assert!(fits(&[], &[]));
    assert!(fits(&[0], &[0, 0]));
}

/// `keep` against its rule: whoever fits beside those before him keeps all, whoever does not gets
/// the longest remainder.
#[test]
fn keeping_by_rank() {
    let check = |stretches: &[i64], granted: &[i64], expected: &[i64]| {
        assert_eq!(keep(&all(stretches), &all(granted)), all(expected), "{stretches:?} {granted:?}");
    };
    check(&[300], &[240, 50], &[240, 50]);
    check(&[280], &[240, 50], &[240, 40]);
    check(&[200], &[240, 50], &[200, 0]);
    check(&[0], &[240, 50], &[0, 0]);
    // a later one that still fits beside keeps all: 90 goes into the first stretch
    check(&[100, 180], &[200, 90], &[180, 90]);
    // one in the middle loses, the last one does not
    check(&[100, 180], &[150, 120, 25], &[150, 100, 25]);
    // order matters only where there is too little
    check(&[40, 40], &[10, 20, 20, 30], &[10, 20, 20, 30]);
    // 20 goes into 39, 20 into 40, 10 into the 19 that are left: the longest remainder is 20
    check(&[40, 39], &[10, 20, 20, 30], &[10, 20, 20, 20]);
}

#[test]
fn mending_by_rank() {
    let check = |stretches: &[i64], claims: &[(i64, i64)], expected: &[i64]| {
        let claims: Vec<_> = claims.iter().map(|(w, g)| Claim { wanted: cm(*w), granted: cm(*g) }).collect();
        assert_eq!(mend(&all(stretches), &claims), all(expected), "{stretches:?} {claims:?}");
    };
    check(&[300], &[(240, 200), (50, 10)], &[240, 50]);
    check(&[280], &[(240, 200), (50, 10)], &[240, 40]);
    check(&[240], &[(240, 200), (50, 10)], &[230, 10]);
    // 190 goes nowhere, but the longer stretch has 180 for it
    check(&[100, 180], &[(190, 100), (30, 0)], &[180, 30]);
    // nobody gives anything up: the first could only have more where the second lies
    check(&[100, 180], &[(190, 100), (120, 120)], &[100, 120]);
    check(&[100], &[(50, 50), (50, 50)], &[50, 50]);
}
