//! What was found about small children, and about paper. Absence is said: it clears nothing.

use pennantry_contract::table;
use pennantry_contract::v1::{self, FigureOrigin, Outcome, PaperOutcome, RuleBasis};

use super::Style;
use super::page::Page;
use crate::length::Unit;
use crate::{flags, words};

/// Said under every section about children.
const WHO_DECIDES: &str = "Local rules and competent people decide; nothing here clears a use.";

/// Said once where the sheet is in another unit.
const IN_MM: &str = "findings, here and under PAPERWORK, are in mm and mm², as the rules are";

/// The sections.
pub fn write(page: &mut Page, quote: &v1::Quote, style: Style) {
    page.heading("SMALL CHILDREN");
    let found = quote.child.as_ref().is_some_and(|child| !child.findings.is_empty())
        || quote.paperwork.as_ref().is_some_and(|paperwork| !paperwork.findings.is_empty());
    if found && style.unit != Unit::Mm {
        page.line(IN_MM);
    }
    match &quote.child {
        Some(child) => write_child(page, child, style),
        None => page.line("not looked at in this answer, which clears nothing"),
    }
    page.line(WHO_DECIDES);
    page.heading("PAPERWORK");
    match &quote.paperwork {
        Some(paperwork) => write_paperwork(page, paperwork),
        None => page.line("not looked at in this answer; local rules decide"),
    }
}

/// The worst of it, for the head of the sheet.
pub fn in_short(quote: &v1::Quote) -> &'static str {
    outcome(quote.child.as_ref().map_or(Outcome::Unspecified, v1::ChildFinding::outcome))
}

fn write_child(page: &mut Page, child: &v1::ChildFinding, style: Style) {
    page.line(outcome(child.outcome()));
    let whose: Vec<String> = child.jurisdictions.iter().map(|whose| jurisdiction(*whose)).collect();
    if whose.is_empty() {
        page.line("no local rules for where it goes are known here");
    } else {
        page.line(&format!("rules looked at: {}", whose.join(", ")));
    }
    match child.lowest_mm {
        Some(lowest) => {
            page.line(&format!(
                "lowest point {} above whatever a child can stand on",
                style.unit.shown(lowest)
            ));
        }
        None => page.line("no height was told, which counts as within reach"),
    }
    for found in &child.findings {
        let head = format!("{} {}: {}", label(found.outcome()), found.rule_id, found.text);
        finding(
            page,
            &head,
            &Words {
                measured: &found.measured,
                limit: &found.limit,
                source: &found.source,
                remedy: &found.remedy,
                whose: found.jurisdiction,
                basis: found.basis(),
                figure: found.figure(),
            },
        );
    }
    if child.outcome() == Outcome::Refuse {
        page.line("the public cannot hold it: no acknowledgement helps");
    } else if !child.acknowledge.is_empty() {
        page.line(&format!(
            "to be acknowledged before the public may hold it: {}",
            child.acknowledge.join(", ")
        ));
    }
    if !child.scope.is_empty() {
        page.line(&child.scope);
    }
}

fn write_paperwork(page: &mut Page, paperwork: &v1::Paperwork) {
    page.line(match paperwork.outcome() {
        PaperOutcome::Unspecified => "not looked at, which clears nothing",
        PaperOutcome::NothingFound => {
            "nothing found by these rules, which clears nothing; local rules decide"
        }
        PaperOutcome::Duty => "a paper, label or text is due",
        PaperOutcome::Restrict => "only as the remedy says",
        PaperOutcome::Refuse => "not to be offered there",
    });
    for found in &paperwork.findings {
        let label = match found.outcome() {
            PaperOutcome::Unspecified => "NOT TOLD",
            PaperOutcome::NothingFound => "NOTHING FOUND",
            PaperOutcome::Duty => "DUE",
            PaperOutcome::Restrict => "RESTRICT",
            PaperOutcome::Refuse => "REFUSE",
        };
        finding(
            page,
            &format!("{label} {}: {}", found.rule_id, found.text),
            &Words {
                measured: &found.measured,
                limit: &found.limit,
                source: &found.source,
                remedy: &found.remedy,
                whose: found.jurisdiction,
                basis: found.basis(),
                figure: found.figure(),
            },
        );
    }
    if !paperwork.scope.is_empty() {
        page.line(&paperwork.scope);
    }
}

/// What stands under a finding, of children or of paper.
struct Words<'a> {
    measured: &'a str,
    limit: &'a str,
    source: &'a str,
    remedy: &'a str,
    whose: i32,
    basis: RuleBasis,
    figure: FigureOrigin,
}

fn finding(page: &mut Page, head: &str, words: &Words) {
    page.line(&flags::in_words(head));
    if !words.remedy.is_empty() {
        page.below(&format!("what to do: {}", flags::in_words(words.remedy)));
    }
    let mut parts = Vec::new();
    if !words.measured.is_empty() {
        parts.push(format!("measured {}", flags::in_words(words.measured)));
    }
    if !words.limit.is_empty() {
        parts.push(format!("limit {}", flags::in_words(words.limit)));
    }
    if !parts.is_empty() {
        page.below(&parts.join("; "));
    }
    let source = if words.source.is_empty() { "source not told" } else { words.source };
    let mut told = vec![source];
    told.extend(kind(words));
    told.extend(origin(words));
    page.below(&format!("{}: {}", jurisdiction(words.whose), told.join("; ")));
}

/// Whether the source itself says that it is the shop's.
fn says_whose(words: &Words) -> bool {
    words.source.to_lowercase().contains("the shop's own")
}

/// The kind of rule, where the source does not say it.
fn kind(words: &Words) -> Option<&'static str> {
    Some(match words.basis {
        RuleBasis::Unspecified => "kind of rule not told",
        RuleBasis::Law => "law for decorations",
        RuleBasis::Toy => "a rule for toys or child care, which binds only these",
        RuleBasis::Analogy => "a rule for something else, taken as a yardstick",
        RuleBasis::Guidance => "official guidance",
        RuleBasis::Shop if says_whose(words) => return None,
        RuleBasis::Shop if words.figure == FigureOrigin::Shop => "the shop's own rule and figure",
        RuleBasis::Shop => "the shop's own rule",
    })
}

/// Where the figure is from, where neither source nor kind say it.
fn origin(words: &Words) -> Option<&'static str> {
    let said = words.source.contains("from memory") || words.source.contains("remembered");
    Some(match words.figure {
        FigureOrigin::Unspecified => "where its figure is from is not told",
        FigureOrigin::Read => "figure read there",
        FigureOrigin::Remembered if said => "look it up before you rely on it",
        FigureOrigin::Remembered => "figure remembered: look it up before you rely on it",
        FigureOrigin::Shop if says_whose(words) || words.basis == RuleBasis::Shop => return None,
        FigureOrigin::Shop => "the shop's own figure",
        FigureOrigin::None => "no figure in it",
    })
}

fn outcome(outcome: Outcome) -> &'static str {
    match outcome {
        Outcome::Unspecified => "not looked at, which clears nothing",
        Outcome::NothingFound => "nothing found by the rules that were looked at",
        Outcome::Warn => "cautions to pass on",
        Outcome::Ask => "ASK: an answer is missing",
        Outcome::Restrict => "RESTRICT: only as the remedies say",
        Outcome::Refuse => "REFUSE: not for this use",
    }
}

fn label(outcome: Outcome) -> &'static str {
    match outcome {
        Outcome::Unspecified => "NOT TOLD",
        Outcome::NothingFound => "NOTHING FOUND",
        Outcome::Warn => "CAUTION",
        Outcome::Ask => "ASK",
        Outcome::Restrict => "RESTRICT",
        Outcome::Refuse => "REFUSE",
    }
}

fn jurisdiction(number: i32) -> String {
    let told = words::told(&table::JURISDICTION, number);
    told.map_or_else(|| "everywhere".to_owned(), |whose| whose.to_uppercase())
}
