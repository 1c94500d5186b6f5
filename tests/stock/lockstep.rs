//! Commands from a seed, asked of the model and of one engine or both, one after the other.

use std::collections::{BTreeMap, VecDeque};
use std::fmt::Write as _;

use pennantry_ledger::rules::Envelope;
use pennantry_ledger::{Applied, Error, Ledger};

use super::commands::Shop;
use super::model::{Broken, Model};
use super::whole::{self, Seen};

/// After how many commands the whole store is read and added up.
const BETWEEN_LOOKS: u64 = 500;
/// After how many commands something of what was touched is read by its name.
const BETWEEN_READS: u64 = 3;
/// How many commands before the one that failed are shown.
const SHOWN: usize = 12;

/// What was done, by command and refusal, how often.
pub type Tally = BTreeMap<String, u64>;

/// A run that ended well: the model as it is then, and what was seen of each store.
#[derive(Debug)]
pub struct Played {
    /// What was done.
    pub tally: Tally,
    model: Model,
    seen: Vec<Seen>,
}

impl Played {
    /// Looks through the whole of a store again, which must not have changed.
    ///
    /// # Errors
    /// What is not as it was.
    pub async fn look_again(&mut self, at: usize, ledger: &Ledger) -> Result<(), String> {
        whole::look(ledger, &mut self.model, &mut self.seen[at]).await
    }
}

/// A run from a seed.
#[derive(Debug, Clone, Copy)]
pub struct Run {
    /// The seed.
    pub seed: u64,
    /// How many commands.
    pub commands: u64,
    /// What is broken in the model on purpose.
    pub broken: Option<Broken>,
}

impl Run {
    /// Asks everything of every engine, and holds the answers against each other and the model.
    ///
    /// # Errors
    /// The first thing that differs, with the seed, the number of the command and the last
    /// ones before it.
    pub async fn on(self, engines: &[(&str, &Ledger)]) -> Result<Played, String> {
        let mut shop = Shop::new(self.seed);
        let mut model = Model::new(self.broken);
        let mut seen: Vec<Seen> = engines.iter().map(|_| Seen::default()).collect();
        let mut last: VecDeque<(u64, Envelope, String)> = VecDeque::new();
        for number in 1..=self.commands {
            let envelope = shop.next(&model);
            let answers = answers(&envelope, engines).await;
            if last.len() == SHOWN {
                last.pop_front();
            }
            last.push_back((number, envelope.clone(), format!("{:?}", answers[0])));
            let mut found = one(number, &mut model, &envelope, engines, &answers).await;
            if found.is_ok() && (number % BETWEEN_LOOKS == 0 || number == self.commands) {
                found = all(&mut model, engines, &mut seen).await;
            }
            if let Err(words) = found {
                return Err(format!(
                    "{}{}",
                    self.report(number, &words, &last),
                    model.as_it_was(&envelope.command)
                ));
            }
        }
        Ok(Played { tally: std::mem::take(&mut model.tally), model, seen })
    }

    fn report(self, number: u64, words: &str, last: &VecDeque<(u64, Envelope, String)>) -> String {
        let mut told = format!("seed {}, command {number}: {words}\nthe last commands:\n", self.seed);
        for (at, (number, envelope, answer)) in last.iter().enumerate() {
            let whole = at + 1 == last.len();
            let answer: String = answer.chars().take(if whole { usize::MAX } else { 200 }).collect();
            let key = envelope.request.as_ref().map_or("", |request| request.key.as_str());
            let _ = writeln!(told, "  {number} at {} {key} {:?}", envelope.at.0, envelope.command);
            let _ = writeln!(told, "      -> {answer}");
        }
        told
    }
}

async fn answers(envelope: &Envelope, engines: &[(&str, &Ledger)]) -> Vec<Result<Applied, Error>> {
    let mut all = Vec::new();
    for (_, ledger) in engines {
        all.push(ledger.apply(envelope.clone(), None).await);
    }
    all
}

/// One command: engines against each other, then against the model, and what it touched.
async fn one(
    number: u64,
    model: &mut Model,
    envelope: &Envelope,
    engines: &[(&str, &Ledger)],
    answers: &[Result<Applied, Error>],
) -> Result<(), String> {
    for (at, answer) in answers.iter().enumerate().skip(1) {
        if *answer != answers[0] {
            let (one, other) = (engines[0].0, engines[at].0);
            return Err(format!("{one} and {other} differ:\n  {:?}\n  {answer:?}", answers[0]));
        }
    }
    model.judge(envelope, &answers[0])?;
    // now and then one of the pieces it touched and one of the reservations, each in its turn:
    // the rest is in the outcome, or seen when the whole is looked through
    let (pieces, reservations) = model.touched();
    let turn = |of: usize| usize::try_from(number).unwrap_or(0).checked_rem(of);
    for (name, ledger) in engines.iter().filter(|_| number.is_multiple_of(BETWEEN_READS)) {
        if let Some(id) = turn(pieces.len()).map(|at| &pieces[at]) {
            let found = ledger.piece(id).await.map_err(|error| error.to_string())?;
            if found != model.piece(id) {
                return Err(format!("{name}: {found:?}\n  expected {:?}", model.piece(id)));
            }
        }
        if let Some(id) = turn(reservations.len()).map(|at| &reservations[at]) {
            let found = ledger.reservation(id).await.map_err(|error| error.to_string())?;
            if found.as_ref() != model.reservations.get(id) {
                return Err(format!("{name}: {found:?}\n  expected {:?}", model.reservations.get(id)));
            }
        }
    }
    Ok(())
}

/// The first thing in which two lists are not the same.
fn differ<T: PartialEq + std::fmt::Debug>(one: &[T], other: &[T]) -> Result<(), String> {
    if one == other {
        return Ok(());
    }
    let at = one.iter().zip(other).take_while(|(one, other)| one == other).count();
    let many = (one.len(), other.len());
    Err(format!("of {many:?}, number {at}: {:?}\n  and {:?}", one.get(at), other.get(at)))
}

async fn all(model: &mut Model, engines: &[(&str, &Ledger)], seen: &mut [Seen]) -> Result<(), String> {
    let told = model.told.clone();
    for ((name, ledger), seen) in engines.iter().zip(seen.iter_mut()) {
        model.told.clone_from(&told);
        whole::look(ledger, model, seen).await.map_err(|words| format!("{name}, looked through: {words}"))?;
    }
    for ((name, _), other) in engines.iter().zip(seen.iter()).skip(1) {
        let (moved, happened) = &seen[0].news;
        differ(moved, &other.news.0).map_err(|words| format!("movements, {name}: {words}"))?;
        differ(happened, &other.news.1).map_err(|words| format!("events, {name}: {words}"))?;
    }
    Ok(())
}
