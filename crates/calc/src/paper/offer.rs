//! R19 and R22: for whom it is offered, and what the offer shows.

use super::{Case, Outcome, Told, listed};
use crate::order::Jurisdiction;
use crate::shop::Design;

/// Words in a name that offer a thing for children.
const CHILD_WORDS: [&str; 22] = [
    "nursery",
    "nurseries",
    "baby",
    "babies",
    "newborn",
    "newborns",
    "infant",
    "infants",
    "toddler",
    "toddlers",
    "child",
    "children",
    "kid",
    "kids",
    "cot",
    "cots",
    "crib",
    "cribs",
    "pram",
    "prams",
    "playroom",
    "playpen",
];

/// Whether a text holds one of some words, as a whole word in any case.
pub(super) fn has_word(text: &str, words: &[&str]) -> bool {
    text.split(|letter: char| !letter.is_alphanumeric())
        .any(|word| words.iter().any(|known| word.eq_ignore_ascii_case(known)))
}

fn is_for_children(design: &Design) -> bool {
    design.offer.for_children || has_word(&design.name, &CHILD_WORDS) || has_word(&design.code, &CHILD_WORDS)
}

/// R19: a design that is offered for children needs the file of a children's product.
pub(super) fn children(case: &Case<'_>) -> Option<(Outcome, Told)> {
    let design = case.shop.designs.get(case.order.design).filter(|design| is_for_children(design))?;
    let limit =
        String::from("third-party tests, a certificate and a tracking label for a children's product");
    let told = |measured: String, remedy: &str, text: &str| Told {
        measured,
        limit: limit.clone(),
        remedy: remedy.to_owned(),
        text: text.to_owned(),
    };
    let name = &design.name;
    Some(if design.offer.us_children_file {
        let told = told(
            format!("{name} is offered for children, and its file is said to be complete"),
            "send the certificate with it, and see that the tracking label is on it",
            "What is offered for children counts as a children's product there: its certificate and its tracking label \
             go with it. Local rules and competent people decide.",
        );
        (Outcome::Duty, told)
    } else {
        let told = told(
            format!("{name} is offered for children, and no complete file is said to be there"),
            "have it tested by an accepted laboratory, write the certificate and put on the tracking label; or offer \
             it to grown-ups alone, in its name, its pictures and its place in the shop",
            "What is offered for children counts as a children's product there, and is sold only with tests, a \
             certificate and a tracking label. Local rules and competent people decide.",
        );
        (Outcome::Restrict, told)
    })
}

/// R22: what an offer into the European Union has to show, as far as the catalogue holds it.
pub(super) fn shown(case: &Case<'_>) -> Option<(Outcome, Told)> {
    let maker = &case.shop.maker;
    let country = case.order.country.as_str();
    let is_eu = |country: &str| Jurisdiction::of_country(country) == Some(Jurisdiction::Eu);
    // sent elsewhere, nobody said into which country of the Union it is offered
    let warned = if is_eu(country) {
        maker.warned_countries.iter().any(|warned| warned == country)
    } else {
        maker.warned_countries.iter().any(|warned| is_eu(warned))
    };
    let to = if is_eu(country) { country } else { "a country of the Union" };
    let pictured = case.shop.designs.get(case.order.design).is_some_and(|design| design.offer.pictured);
    let items = [
        (maker.name.is_some(), String::from("the name of the maker")),
        (maker.postal_address.is_some(), String::from("the maker's postal address")),
        (maker.electronic_address.is_some(), String::from("the maker's electronic address")),
        (
            is_eu(&case.shop.customs.country) || maker.responsible_person.is_some(),
            String::from("a responsible person in the Union, with address"),
        ),
        (pictured, String::from("a picture of the design")),
        (warned, format!("the warnings in the language of {to}")),
    ];
    let missing: Vec<String> =
        items.into_iter().filter(|(is_there, _)| !is_there).map(|(_, item)| item).collect();
    if missing.is_empty() {
        return None;
    }
    Some((
        Outcome::Refuse,
        Told {
            measured: format!("missing: {}", listed(&missing)),
            limit: String::from(
                "name, postal and electronic address of the maker, a responsible person where the maker is outside the \
                 Union, picture, type, and warnings in the language of the buyer",
            ),
            remedy: format!("put into the offer, and into the catalogue, {}", listed(&missing)),
            text: String::from(
                "An offer into the European Union shows who made the thing, what it is and what to beware of. This one \
                 does not show all of it, and is not to be made there.",
            ),
        },
    ))
}
