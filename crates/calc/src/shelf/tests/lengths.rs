//! Runs of binding off rolls and offcuts.

use proptest::prelude::*;

use super::super::lengths as cut;
use super::*;

fn m(m: i64) -> Length {
    mm(1_000 * m)
}

fn offcut(lot: usize, length: i64) -> Stretch {
    remnant(lot, 25, 1_000 * length)
}

fn roll(lot: usize, length: i64) -> Stretch {
    bolt(lot, 25, 1_000 * length)
}

/// Cuts, and holds the answer against everything that has to hold for any.
fn found(runs: &[Length], rolls: &[Stretch]) -> RunsPlan {
    let found = cut(runs, rolls);
    let mut seen: Vec<usize> = found.missing.clone();
    let mut new = Length::ZERO;
    for take in &found.takes {
        assert!(take.length <= rolls[take.stretch].length && !take.runs.is_empty());
        assert_eq!(take.length, take.runs.iter().map(|run| runs[*run]).sum());
        assert_eq!(take.whole, take.length == rolls[take.stretch].length);
        if !rolls[take.stretch].remnant {
            new += take.length;
        }
        seen.extend(&take.runs);
    }
    seen.sort_unstable();
    let wanted: Vec<usize> = (0..runs.len()).filter(|run| runs[*run] > Length::ZERO).collect();
    assert_eq!((seen, found.new_length), (wanted, new));
    assert_eq!(found.short, found.missing.iter().map(|run| runs[*run]).sum());
    found
}

/// Stretch and runs of each take.
fn takes(plan: &RunsPlan) -> Vec<(usize, Vec<usize>)> {
    plan.takes.iter().map(|take| (take.stretch, take.runs.clone())).collect()
}

#[test]
fn part_rolls_come_first() {
    // of 5, 13 and 7 m two runs of 6 m each: 13 gives both
    let shelf = [roll(1, 25), offcut(1, 5), offcut(1, 13), offcut(1, 7)];
    assert_eq!(takes(&found(&[m(6); 2], &shelf)), [(2, vec![0, 1])]);
    // one alone comes off the shorter
    assert_eq!(takes(&found(&[m(6)], &shelf)), [(3, vec![0])]);
    let plan = found(&[m(6); 4], &shelf);
    assert_eq!((takes(&plan), plan.new_length), (vec![(2, vec![0, 1]), (3, vec![2]), (0, vec![3])], m(6)));
    assert!(!plan.takes[0].whole && found(&[m(5)], &shelf).takes[0].whole);
    // more than there is: four off the roll, three off the others
    let plan = found(&[m(6); 9], &shelf);
    assert_eq!((plan.missing, plan.short), (vec![7, 8], m(12)));
    assert_eq!(takes(&found(&[], &shelf)), []);
    assert_eq!(takes(&found(&[m(0), m(26)], &shelf)), []);
}

#[test]
fn one_dye_lot_where_one_does() {
    let shelf = [offcut(1, 13), roll(2, 25), offcut(3, 7)];
    let plan = found(&[m(6); 3], &shelf);
    assert_eq!((takes(&plan), plan.lots), (vec![(1, vec![0, 1, 2])], 1));
    let plan = found(&[m(6); 6], &shelf);
    assert_eq!((plan.lots, plan.missing.len()), (2, 0));
    let plan = found(&[m(6); 7], &shelf);
    assert_eq!((plan.lots, plan.missing.len()), (3, 0));
}

/// Nearest fit goes wrong in each: it cuts 5 off the 9 or the 11 before anything else, and
/// what is left has no room for the last run.
#[test]
fn runs_of_several_lengths_fill_the_offcuts() {
    for (runs, offcuts) in
        [(&[6, 5, 5, 4][..], [10, 10]), (&[6, 5, 4, 4][..], [10, 9]), (&[6, 5, 4, 4, 4][..], [12, 11])]
    {
        let runs: Vec<Length> = runs.iter().copied().map(m).collect();
        let shelf = [roll(1, 25), offcut(1, offcuts[0]), offcut(1, offcuts[1])];
        let plan = found(&runs, &shelf);
        assert_eq!((plan.new_length, plan.takes.len()), (m(0), 2), "{runs:?}");
    }
}

/// Every way there is: the least length missing, then the least off full rolls.
fn plainly(runs: &[Length], rolls: &mut Vec<Stretch>) -> (Length, Length) {
    let Some((run, rest)) = runs.split_first() else { return (Length::ZERO, Length::ZERO) };
    let (missing, new) = plainly(rest, rolls);
    let mut best = (missing + *run, new);
    for at in 0..rolls.len() {
        if rolls[at].length >= *run {
            rolls[at].length = rolls[at].length - *run;
            let (missing, new) = plainly(rest, rolls);
            best = best.min((missing, new + if rolls[at].remnant { Length::ZERO } else { *run }));
            rolls[at].length += *run;
        }
    }
    best
}

/// Alike, or of several lengths; in metres.
fn few_runs() -> impl Strategy<Value = Vec<i64>> {
    prop_oneof![
        prop::collection::vec(2_i64..=9, 1..=5),
        (2_i64..=9, 1..=5_usize).prop_map(|(run, count)| vec![run; count]),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    #[test]
    fn no_other_way_misses_less_or_takes_less_off_full_rolls(
        runs in few_runs(),
        rolls in prop::collection::vec((any::<bool>(), 1_i64..=15), 0..=3),
    ) {
        let runs: Vec<Length> = runs.into_iter().map(m).collect();
        let one = |(part, length)| if part { offcut(1, length) } else { roll(1, length) };
        let mut rolls: Vec<Stretch> = rolls.into_iter().map(one).collect();
        let plan = found(&runs, &rolls);
        prop_assert_eq!((plan.short, plan.new_length), plainly(&runs, &mut rolls));
    }

    #[test]
    fn any_rolls_give_an_answer_and_the_same_again(
        runs in prop::collection::vec(prop_oneof![any::<i64>(), 0_i64..=30_000_000], 0..=70),
        rolls in prop::collection::vec(
            (any::<bool>(), 0_usize..=4, prop_oneof![any::<i64>(), 0_i64..=90_000_000]),
            0..=12,
        ),
    ) {
        let runs: Vec<Length> = runs.into_iter().map(um).collect();
        let one = |(remnant, lot, length)| Stretch { remnant, length: um(length), ..roll(lot, 0) };
        let rolls: Vec<Stretch> = rolls.into_iter().map(one).collect();
        let plan = cut(&runs, &rolls);
        prop_assert_eq!(&plan, &cut(&runs, &rolls));
        for take in &plan.takes {
            prop_assert!(take.length <= rolls[take.stretch].length);
        }
    }
}
