//! What was found about small children.

use pennantry_calc::child::{ChildFinding, Finding};
use pennantry_contract::v1;

use super::mm;
use crate::convert::words;

pub(super) fn write(found: &ChildFinding) -> v1::ChildFinding {
    v1::ChildFinding {
        outcome: words::child_outcome(found.outcome).into(),
        findings: found.findings.iter().map(finding).collect(),
        lowest_mm: found.lowest.map(mm),
        jurisdictions: found
            .jurisdictions
            .iter()
            .map(|whose| words::write_jurisdiction(*whose).into())
            .collect(),
        scope: found.scope.clone(),
        acknowledge: found.acknowledge.iter().map(|rule| (*rule).to_owned()).collect(),
    }
}

fn finding(found: &Finding) -> v1::Finding {
    let whose = found.jurisdiction.map_or(v1::Jurisdiction::Unspecified, words::write_jurisdiction);
    v1::Finding {
        rule_id: found.rule.to_owned(),
        jurisdiction: whose.into(),
        outcome: words::child_outcome(found.outcome).into(),
        measured: found.measured.clone(),
        limit: found.limit.clone(),
        source: found.source.to_owned(),
        remedy: found.remedy.clone(),
        text: found.text.clone(),
        basis: words::rule_basis(found.basis).into(),
        figure: words::figure_origin(found.figure).into(),
    }
}
