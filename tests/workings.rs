//! Every figure of an answer is worked out again by a program that knows the answer and
//! the grammar of formulas, and nothing of this house (`workings/evaluate.py`).

use std::collections::{BTreeMap, BTreeSet};
use std::io::Write;
use std::path::Path;
use std::process::{Command, Stdio};

use pennantry_contract::v1;
use pennantryd::service::{Door, Service};
use serde::Deserialize;
use serde_json::Value;

use crate::dice::{self, Dice};
use crate::{catalogue, golden};

/// What the other program says of one answer.
#[derive(Debug, Deserialize)]
struct Report {
    /// Figures of the answer, without what was asked.
    figures: u32,
    /// Of these, with a formula that gives them.
    worked: u32,
    /// Figures that stand as they are, and what their workings say of it.
    given: Vec<(String, String)>,
    /// Figures that no working speaks of.
    bare: Vec<String>,
    /// Workings that do not come to what the answer says.
    faults: Vec<String>,
    /// Alterations that would go unnoticed.
    #[serde(default)]
    unnoticed: Vec<String>,
}

/// Cases whose every number and every formula is altered: one for each kind of work.
const ALTERED: [&str; 15] = [
    "story-gap-spread",
    "pencil-nine-and-equal-tails",
    "a-parcel-abroad",
    "a-lettered-rectangle",
    "letters-and-trimmings",
    "a-shield-with-its-seams",
    "a-clipped-tip-is-a-foot",
    "swallowtails-face-each-other",
    "hang-in-four-spans",
    "four-pieces-of-18-by-22-in",
    "a-washed-linen",
    "binding-on-the-bias",
    "price-by-hand-with-overhead-and-fee",
    "pairs-off-a-fold",
    "sixteenths-of-an-inch",
];

/// Figures that may stand without a formula: what is read from the catalogue, chosen by a
/// search, or worked in doubles. Whatever else has none has lost its formula.
const GIVEN: [&str; 43] = [
    "binding.bias.chargedMm",
    "binding.bias.rawMm",
    "binding.bias.sideMm",
    "binding.bias.squareCount",
    "binding.bought.breakEvenMm",
    "binding.bought.paidMm",
    "binding.bought.rollCount",
    "binding.joinCount",
    "binding.joins[].atMm",
    "binding.joins[].behindPennant",
    "binding.joins[].stringNumber",
    "binding.straight.chargedMm",
    "binding.straight.rawMm",
    "binding.straight.stripCount",
    "binding.widthMm",
    "dates.ways[].gapMm",
    "dates.ways[].pennantCount",
    "dates.ways[].tailMm",
    "dates.ways[].total.minorUnits",
    "fabrics[].bought.holds",
    "fabrics[].oneFewerMm",
    "fabrics[].oneMoreMm",
    "fabrics[].plan.bands[].leftMm",
    "fabrics[].plan.bands[].piecesPerRow",
    "fabrics[].plan.bands[].rowCount",
    "fabrics[].plan.bands[].shiftMm",
    "fabrics[].plan.clearanceMm",
    "fabrics[].plan.rowGapMm",
    "fabrics[].plan.squaringMm",
    "fabrics[].usedMm",
    "labour.allowance.percent",
    "layout.hang.curveMm",
    "layout.hang.hooks[].atMm",
    "parcel.bandGrams",
    "parcel.columnCount",
    "parcel.panelCount",
    "parcel.postage.minorUnits",
    "price.breaks[].offPercent",
    "price.breaks[].quantity",
    "price.cost.surplus.marginPercent",
    "price.cost.surplus.markupPercent",
    "price.minorDigits",
    "price.tax.ratePercent",
];

/// Figures that may stand without a formula only where their workings say one of these.
const GIVEN_WHERE: [(&str, &[&str]); 4] = [
    (
        "price.lines[].amount.minorUnits",
        &[
            "the shop's price of the goods",
            "the shop's price of the postage",
            "the shop's discount",
            "the first price point that keeps",
            "no more than what ",
        ],
    ),
    ("price.lines[].tax.minorUnits", &["its share of the tax of the whole, by largest remainder"]),
    ("price.cost.beforePoint.minorUnits", &["no more than what "]),
    ("price.strings[].minorUnits", &["the total shared out by largest remainder"]),
];

/// Whether a figure has lost its formula.
fn is_lost(name: &str, source: &str, view: &str) -> bool {
    let kind = kind(name);
    let may = |starts: &&[&str]| starts.iter().any(|start| source.starts_with(start));
    let said = GIVEN_WHERE.iter().any(|(of, starts)| *of == kind && may(starts));
    // what hides the shop's cost is the buyer's view alone
    let hidden = source.starts_with("the shop's ") && view == "VIEW_SHOP";
    !GIVEN.contains(&kind.as_str()) && (!said || hidden)
}

/// A figure's name without the places in lists.
fn kind(name: &str) -> String {
    let mut inside = false;
    let kept = name.chars().filter(|c| {
        let keep = !inside || *c == ']';
        inside = (inside || *c == '[') && *c != ']';
        keep
    });
    kept.collect()
}

/// Has answers, a line each, worked out again.
fn evaluated(lines: &[String], alter: bool) -> Vec<Report> {
    let program = Path::new(env!("CARGO_MANIFEST_DIR")).join("workings").join("evaluate.py");
    let mut command = Command::new("python3");
    command.arg(program).args(alter.then_some("--alter"));
    let mut child = command
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .expect("python3 is needed to do the sums again: install the package python3");
    let mut input = child.stdin.take().expect("an input");
    let text = lines.join("\n");
    let writing = std::thread::spawn(move || input.write_all(text.as_bytes()));
    let output = child.wait_with_output().expect("it ends");
    writing.join().expect("no panic").expect("it reads all");
    assert!(output.status.success(), "the other program failed");
    let text = String::from_utf8(output.stdout).expect("text");
    let reports: Vec<Report> =
        text.lines().map(|line| serde_json::from_str(line).expect("a report")).collect();
    assert_eq!(reports.len(), lines.len());
    reports
}

/// The answer as the JSON doors print it.
fn answer(service: &Service, request: &Value, view: &str) -> Option<String> {
    let mut enquiry: v1::Enquiry = serde_json::from_value(request.clone()).ok()?;
    enquiry.workings = Some(true);
    enquiry.view = v1::View::from_str_name(view).map(Into::into);
    let request = v1::CalculateQuoteRequest { enquiry: Some(enquiry) };
    let quote = service.calculate_quote(Door::Private, &request).ok()?.quote?;
    let bytes = pennantryd::json::write(&quote).expect("an answer is JSON");
    Some(String::from_utf8(bytes).expect("text"))
}

/// Every golden answer with its name, in both views.
fn golden_answers() -> Vec<(String, String)> {
    let mut services = BTreeMap::new();
    let mut answers = Vec::new();
    for case in golden::cases() {
        let text = case.catalogue();
        let service = services.entry(text.clone()).or_insert_with(|| catalogue::service(&text));
        let fabrics = catalogue::stock(&catalogue::of(service)).fabrics;
        for view in ["VIEW_BUYER", "VIEW_SHOP"] {
            if let Some(answer) = answer(service, &case.request(&fabrics), view) {
                answers.push((format!("{} {view}", case.name), answer));
            }
        }
    }
    answers
}

fn complain(found: &[String]) {
    assert!(found.is_empty(), "{} complaints\n{}", found.len(), found.join("\n"));
}

#[test]
fn invariant_02_every_figure_of_every_golden_answer_is_worked_out_again() {
    let answers = golden_answers();
    assert!(answers.len() > 150, "only {} answers", answers.len());
    let lines: Vec<String> = answers.iter().map(|(_, line)| line.clone()).collect();
    let mut found = Vec::new();
    let (mut figures, mut worked) = (0, 0);
    let mut lost = BTreeSet::new();
    for ((name, _), report) in answers.iter().zip(evaluated(&lines, false)) {
        let bare = report.bare.iter().map(|bare| format!("{bare} has no working"));
        found.extend(bare.chain(report.faults).map(|fault| format!("{name}: {fault}")));
        let view = name.rsplit(' ').next().unwrap_or_default();
        let gone = report.given.iter().filter(|(given, source)| is_lost(given, source, view));
        lost.extend(gone.map(|(given, source)| format!("{name}: {} ({source})", kind(given))));
        figures += report.figures;
        worked += report.worked;
        assert_eq!(usize::try_from(report.figures - report.worked), Ok(report.given.len()), "{name}");
    }
    complain(&found);
    assert!(lost.is_empty(), "figures without a formula: {lost:#?}");
    println!("{worked} of {figures} figures have a formula");
    assert!(worked * 4 > figures * 3, "only {worked} of {figures} figures have a formula");
}

#[test]
fn random_answers_are_worked_out_again() {
    let service = catalogue::service(catalogue::demo());
    let stock = catalogue::stock(&catalogue::of(&service));
    let mut dice = Dice::new(77);
    let mut orders: Vec<Value> = (0..400).map(|_| dice::order(&mut dice, &stock)).collect();
    // a height is told where it hangs from hooks, and on fixings
    let near = |fixings: u32| serde_json::json!({"who": "WHO_CHILD", "youngestMonths": 12, "fixingHeightMm": 1800, "fixings": fixings});
    for span in [3_000, 5_000, 8_000] {
        orders.push(serde_json::json!({"hang": {"spanMm": span, "dipMm": span / 10}, "near": near(2)}));
        orders.push(serde_json::json!({"flaggedMm": span, "near": near(4)}));
    }
    let lines: Vec<String> = orders.iter().filter_map(|order| answer(&service, order, "VIEW_SHOP")).collect();
    assert!(lines.len() > 200, "only {} answers", lines.len());
    let mut found = Vec::new();
    for (line, report) in lines.iter().zip(evaluated(&lines, false)) {
        let bare = report.bare.iter().map(|bare| format!("{bare} has no working"));
        let asked = line.split("\"layout\"").next().unwrap_or_default();
        let lost = report.given.iter().filter(|(given, source)| is_lost(given, source, "VIEW_SHOP"));
        // of cloth and binding every kind of plan comes up here, and some are given
        let lost = lost.filter(|(given, _)| given.starts_with("price.") || given.starts_with("child."));
        found.extend(lost.map(|(given, source)| format!("{given} has no formula ({source})\n    {asked}")));
        found.extend(bare.chain(report.faults).map(|fault| format!("{fault}\n    {asked}")));
    }
    complain(&found);
}

#[test]
fn no_altered_number_or_formula_goes_unnoticed() {
    let answers = golden_answers();
    let altered: Vec<&(String, String)> = answers
        .iter()
        .filter(|(name, _)| ALTERED.iter().any(|case| name == &format!("{case} VIEW_SHOP")))
        .collect();
    assert_eq!(altered.len(), ALTERED.len(), "each of the cases is there");
    let lines: Vec<String> = altered.iter().map(|(_, line)| line.clone()).collect();
    let mut found = Vec::new();
    for ((name, _), report) in altered.iter().zip(evaluated(&lines, true)) {
        found.extend(report.unnoticed.into_iter().map(|missed| format!("{name}: {missed}")));
    }
    complain(&found);
}

#[test]
fn workings_come_only_where_they_are_wanted() {
    let service = catalogue::service(catalogue::demo());
    let plain = serde_json::json!({"flaggedMm": 6200});
    let enquiry: v1::Enquiry = serde_json::from_value(plain).expect("an enquiry");
    let request = v1::CalculateQuoteRequest { enquiry: Some(enquiry) };
    let quote = service.calculate_quote(Door::Public, &request).expect("an answer").quote.expect("a quote");
    assert!(quote.workings.is_empty());
}
