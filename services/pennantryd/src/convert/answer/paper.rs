//! Duties on paper.

use pennantry_calc::paper::{Finding, Outcome, Paper};
use pennantry_contract::v1;

use super::words;

pub(super) fn paper(paper: &Paper) -> v1::Paperwork {
    v1::Paperwork {
        outcome: outcome(paper.outcome).into(),
        findings: paper.findings.iter().map(finding).collect(),
        scope: paper.scope.clone(),
    }
}

/// What looking at paper can say and what it cannot: said in every answer.
pub(super) fn scope(paper: &Paper) -> v1::Notice {
    v1::Notice {
        code: String::from("PAPERWORK"),
        field: String::from("paperwork"),
        message: paper.scope.clone(),
    }
}

fn finding(found: &Finding) -> v1::PaperFinding {
    let (rule, told) = (found.rule, &found.told);
    v1::PaperFinding {
        rule_id: rule.id.code().to_owned(),
        jurisdiction: words::write_jurisdiction(rule.of).into(),
        outcome: outcome(found.outcome).into(),
        measured: told.measured.clone(),
        limit: told.limit.clone(),
        source: rule.source.to_owned(),
        remedy: told.remedy.clone(),
        text: told.text.clone(),
        basis: words::rule_basis(rule.basis).into(),
        figure: words::figure_origin(rule.figure).into(),
    }
}

fn outcome(outcome: Outcome) -> v1::PaperOutcome {
    match outcome {
        Outcome::NothingFound => v1::PaperOutcome::NothingFound,
        Outcome::Duty => v1::PaperOutcome::Duty,
        Outcome::Restrict => v1::PaperOutcome::Restrict,
        Outcome::Refuse => v1::PaperOutcome::Refuse,
    }
}
