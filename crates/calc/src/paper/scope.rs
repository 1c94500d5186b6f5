//! What looking at paper can say, and what it cannot.

use super::areas::{pennants, square_mm, wall};
use super::fire::{Hung, hung};
use super::{Case, listed};
use crate::order::Jurisdiction;

/// How a jurisdiction is spoken of.
fn name(of: Jurisdiction) -> &'static str {
    match of {
        Jurisdiction::Eu => "the European Union",
        Jurisdiction::Gb => "Great Britain",
        Jurisdiction::Us => "the United States",
        Jurisdiction::Ca => "Canada",
        Jurisdiction::Au => "Australia",
    }
}

/// What was looked at, what was not, and who decides.
pub(super) fn scope(case: &Case<'_>) -> String {
    let near = &case.order.near;
    let names: Vec<String> = near.jurisdictions.iter().map(|of| name(*of).to_owned()).collect();
    let mut said = vec![if names.is_empty() {
        format!("no rule about paper is known here for {}: that clears nothing", case.order.country)
    } else {
        format!(
            "duties on paper were looked at by the rules known here for {}: that clears nothing",
            listed(&names)
        )
    }];
    if case.is_public() == Some(true) {
        let on_file: Vec<String> = hung(case).iter().map(Hung::on_file).collect();
        said.push(format!(
            "fire tests: {}; a certificate holds for the lot that it names, and washing may end it; thread, glue and \
             trimmings were not looked at",
            listed(&on_file)
        ));
    }
    if case.is_public() == Some(true) || wall(case).is_some() {
        let all = square_mm(pennants(case).um2());
        said.push(match wall(case) {
            Some(wall) => format!("all pennants are {all}, on a wall of {}", square_mm(wall.um2())),
            None => format!("all pennants are {all}; the size of the wall was not told"),
        });
    }
    if case.order.country == "GB" {
        said.push(String::from(
            "in Northern Ireland the European Union's rules for offers hold as well, and were not looked at unless \
             asked for",
        ));
    }
    said.push(String::from("local rules and competent people decide"));
    said.join("; ")
}
