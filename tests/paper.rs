//! Duties on paper: requests to the public door with everything that they find, and what every
//! answer says beside it.

use std::collections::BTreeMap;

use pennantry_calc::order::Jurisdiction;
use pennantry_calc::paper::rules::RULES;
use pennantry_contract::v1;
use pennantryd::service::Door;
use serde::Deserialize;
use serde_json::Value;

use crate::doors::House;
use crate::{catalogue, golden, patch};

/// A case of `golden/paper.toml`.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct Case {
    name: String,
    /// Row of the reference tables that it checks.
    id: Option<String>,
    grade: String,
    /// Every finding, in order: rule, jurisdiction, outcome.
    found: Vec<String>,
    /// What measures, limits, remedies and sources have to hold.
    #[serde(default)]
    says: Vec<String>,
    /// What the notice about what was looked at has to hold.
    #[serde(default)]
    scope: Vec<String>,
    #[serde(default)]
    catalogue: toml::Table,
    request: toml::Table,
}

#[derive(Deserialize)]
struct Cases {
    case: Vec<Case>,
}

fn cases() -> Vec<Case> {
    let text = std::fs::read_to_string(golden::folder().join("paper.toml")).expect("the cases");
    let cases = toml::from_str::<Cases>(&text).expect("the cases are TOML").case;
    assert!(cases.len() > 40, "only {} cases", cases.len());
    cases
}

/// Rows of the reference tables that these cases check.
pub fn ids() -> Vec<String> {
    cases().into_iter().filter_map(|case| case.id).collect()
}

impl Case {
    fn catalogue(&self) -> String {
        patch::patched(catalogue::demo(), &self.catalogue)
    }

    fn request(&self) -> Value {
        serde_json::to_value(&self.request).expect("TOML without dates is JSON")
    }
}

/// The end of an enumeration's name: `JURISDICTION_US` is `US`.
fn end<'n>(name: &'n str, prefix: &str) -> &'n str {
    name.strip_prefix(prefix).unwrap_or_else(|| panic!("{name} does not begin with {prefix}"))
}

/// A finding as the cases write it.
fn written(finding: &v1::PaperFinding) -> String {
    let of = end(finding.jurisdiction().as_str_name(), "JURISDICTION_");
    let outcome = end(finding.outcome().as_str_name(), "PAPER_OUTCOME_");
    format!("{} {of} {outcome}", finding.rule_id)
}

/// What is wrong with an answer.
fn judge(case: &Case, quote: &v1::Quote) -> Vec<String> {
    let paper = quote.paperwork.as_ref().expect("duties on paper");
    let mut wrong = Vec::new();
    let found: Vec<String> = paper.findings.iter().map(written).collect();
    if found != case.found {
        wrong.push(format!("found {found:?} and not {:?}", case.found));
    }
    let worst = paper.findings.iter().map(|finding| finding.outcome).max();
    if paper.outcome != worst.unwrap_or(v1::PaperOutcome::NothingFound.into()) {
        wrong.push(format!("the worst is not {:?}", paper.outcome()));
    }
    let told: Vec<String> = paper
        .findings
        .iter()
        .map(|f| format!("{} | {} | {} | {}", f.measured, f.limit, f.remedy, f.source))
        .collect();
    let told = told.join("\n");
    wrong.extend(
        case.says.iter().filter(|text| !told.contains(*text)).map(|text| format!("no \"{text}\" in\n{told}")),
    );
    let notice = quote.notices.iter().find(|notice| notice.code == "PAPERWORK").expect("a notice");
    let missing = case.scope.iter().filter(|text| !notice.message.contains(*text));
    wrong.extend(missing.map(|text| format!("no \"{text}\" in {}", notice.message)));
    for finding in &paper.findings {
        let texts = [&finding.measured, &finding.limit, &finding.source, &finding.remedy, &finding.text];
        if texts.iter().any(|text| text.is_empty()) || finding.basis == 0 || finding.figure == 0 {
            wrong.push(format!("something of it is not said: {finding:?}"));
        }
    }
    wrong
}

#[tokio::test]
async fn every_case_finds_what_it_says_and_nothing_else() {
    let mut houses: BTreeMap<String, House> = BTreeMap::new();
    let mut wrong = Vec::new();
    for case in cases() {
        assert!(golden::GRADES.contains(&case.grade.as_str()), "{}: no such grade", case.name);
        let text = case.catalogue();
        if !houses.contains_key(&text) {
            houses.insert(text.clone(), House::open(&text).await);
        }
        match houses[&text].public_json(&case.request()).await.answer {
            Ok(quote) => {
                wrong.extend(judge(&case, &quote).into_iter().map(|fault| format!("{}: {fault}", case.name)));
            }
            Err(refused) => wrong.push(format!("{}: refused: {refused:?}", case.name)),
        }
    }
    for house in houses.into_values() {
        house.close().await;
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// A rule that no request triggers counts as not built.
#[test]
fn every_rule_about_paper_is_triggered_by_a_case() {
    let code = |of: Jurisdiction| match of {
        Jurisdiction::Eu => "EU",
        Jurisdiction::Gb => "GB",
        Jurisdiction::Us => "US",
        Jurisdiction::Ca => "CA",
        Jurisdiction::Au => "AU",
    };
    let found: Vec<String> = cases().into_iter().flat_map(|case| case.found).collect();
    for rule in RULES {
        let start = format!("{} {} ", rule.id.code(), code(rule.of));
        assert!(found.iter().any(|one| one.starts_with(&start)), "no case triggers {start}");
    }
    // the worked cases on paper, from the first to the last
    let ids = ids();
    for number in 54..=64 {
        assert!(ids.contains(&format!("paper {number}")), "no case {number}");
    }
}

/// Answers to every golden case and to every case here, each at its own catalogue.
fn answers() -> Vec<(String, v1::Quote)> {
    let golden = golden::cases().into_iter().map(|case| {
        let stock = catalogue::stock(&catalogue::of(&catalogue::service(&case.catalogue())));
        (case.name.clone(), case.catalogue(), case.request(&stock.fabrics))
    });
    let mine = cases().into_iter().map(|case| (case.name.clone(), case.catalogue(), case.request()));
    let mut answers = Vec::new();
    for (name, text, request) in golden.chain(mine) {
        let enquiry: v1::Enquiry = serde_json::from_value(request).expect("an enquiry");
        let request = v1::CalculateQuoteRequest { enquiry: Some(enquiry) };
        if let Ok(answer) = catalogue::service(&text).calculate_quote(Door::Private, &request) {
            answers.push((name, answer.quote.expect("a quote")));
        }
    }
    assert!(answers.len() > 100, "only {} answers", answers.len());
    answers
}

/// Everything that an answer says about children, paper and hanging, in words.
fn words_of(quote: &v1::Quote) -> Vec<String> {
    let mut texts = quote.leaflet.clone();
    texts.extend(quote.notices.iter().map(|notice| notice.message.clone()));
    for part in [serde_json::to_string(&quote.paperwork), serde_json::to_string(&quote.child)] {
        texts.push(part.expect("a message is JSON"));
    }
    texts
}

/// An answer in JSON without the word that the title of a statute has: a title is no claim, and
/// stands in a source only.
pub fn without_titles(text: &str) -> String {
    const SOURCE: &str = "\"source\":\"";
    let mut parts = text.split(SOURCE);
    let mut kept = parts.next().unwrap_or_default().to_owned();
    for part in parts {
        let (source, rest) = part.split_once('"').expect("a text ends");
        let title = concat!(") Sa", "fety Standard 20");
        let source = source.replace(title, ") Standard 20");
        kept.extend([SOURCE, &source, "\"", rest]);
    }
    kept
}

#[test]
fn only_the_title_of_a_statute_in_a_source_is_no_claim() {
    let title = concat!("(Toys) Sa", "fety Standard 2023");
    let kept = |text: &str| without_titles(text).to_lowercase().contains(concat!("sa", "fe"));
    assert!(!kept(&format!("{{\"source\":\"{title}: playthings\",\"text\":\"t\"}}")));
    assert!(kept(&format!("{{\"source\":\"s\",\"text\":\"{title}\"}}")));
    assert!(kept(&format!("{{\"text\":\"{title}\",\"source\":\"s\"}}")));
    assert!(kept(concat!("{\"source\":\"it is sa", "fe\"}")));
    assert!(kept(concat!("{\"source\":\"(Toys) sa", "fety standard 2023\"}")));
}

#[test]
fn no_answer_claims_what_only_a_competent_person_may() {
    for (name, quote) in answers() {
        for text in words_of(&quote) {
            let text = without_titles(&text).to_lowercase();
            // within other words too
            for word in [concat!("sa", "fe"), concat!("compl", "ian"), concat!("compl", "ies"), "harmless"] {
                assert!(!text.contains(word), "{name}: {word} in {text}");
            }
        }
    }
}

/// Wherever children, fire or height are spoken of, who decides is said beside it: on the leaflet, on
/// paper and about children.
#[test]
fn every_answer_says_that_local_rules_and_competent_people_decide() {
    let says = |text: &str| {
        let text = text.to_lowercase();
        text.contains("local rules") && text.contains("competent")
    };
    for (name, quote) in answers() {
        assert!(quote.leaflet.iter().any(|line| says(line)), "{name}: {:?}", quote.leaflet);
        let notice = |field: &str| quote.notices.iter().find(|notice| notice.field == field);
        assert!(notice("paperwork").is_some_and(|notice| says(&notice.message)), "{name}: paper");
        match &quote.child {
            Some(child) => assert!(says(&child.scope), "{name}: {}", child.scope),
            None => assert!(notice("child").is_some_and(|notice| says(&notice.message)), "{name}: child"),
        }
        for finding in quote.paperwork.iter().flat_map(|paper| &paper.findings) {
            let text = finding.text.to_lowercase();
            if ["child", "burn", "fire"].iter().any(|word| text.contains(word)) {
                assert!(text.contains("decide"), "{name}: {}: {}", finding.rule_id, finding.text);
            }
        }
    }
}

/// The leaflet is in every answer, a line for each caution, and ends with who made it.
#[test]
fn every_answer_has_the_leaflet_with_the_maker_last() {
    let cautions: [&[&str]; 9] = [
        &["decoration", "not a toy"],
        &["adult"],
        &["strangle", "1.6 m", "1 m", "cot"],
        &["Take it down", "never leave it hanging by one end"],
        &["loose", "choke"],
        &["burns", "flames"],
        &["fixing", "stable ladder", "fall"],
        &["bag", "suffocate"],
        &["local rules", "competent people decide"],
    ];
    for (name, quote) in answers() {
        for words in cautions {
            let there = quote.leaflet.iter().any(|line| words.iter().all(|word| line.contains(word)));
            assert!(there, "{name}: no line with {words:?} in {:?}", quote.leaflet);
        }
        assert!(quote.leaflet.iter().all(|line| !line.contains('\n') && line.ends_with('.')), "{name}");
        let last = quote.leaflet.last().expect("a line");
        assert!(last.starts_with("Made by "), "{name}: {last}");
    }
    let service = catalogue::service(catalogue::demo());
    let maker = catalogue::of(&service).maker.expect("a maker");
    let order = v1::Enquiry { pennant_count: Some(8), ..v1::Enquiry::default() };
    let request = v1::CalculateQuoteRequest { enquiry: Some(order) };
    let quote = service.calculate_quote(Door::Public, &request).expect("an answer").quote.expect("a quote");
    let last = quote.leaflet.last().expect("a line");
    for part in [&maker.name, &maker.postal_address, &maker.electronic_address, &maker.responsible_person] {
        assert!(!part.is_empty() && last.contains(part.as_str()), "{last} has no {part}");
    }
}

/// What is asked about a public room, a wall or papers changes no word about children.
#[test]
fn paper_never_changes_what_is_found_about_children() {
    let ask = |text: &str, request: &Value| {
        let enquiry: v1::Enquiry = serde_json::from_value(request.clone()).expect("an enquiry");
        let request = v1::CalculateQuoteRequest { enquiry: Some(enquiry) };
        let answer = catalogue::service(text).calculate_quote(Door::Private, &request);
        answer.expect("an answer").quote.expect("a quote")
    };
    let mut differ = 0;
    for case in cases().iter().filter(|case| !case.catalogue.is_empty()) {
        if case.catalogue.keys().any(|key| ["name", "country"].contains(&key.rsplit('.').next().unwrap())) {
            // a name may speak of children, a country has rules of its own
            continue;
        }
        let (one, other) = (ask(&case.catalogue(), &case.request()), ask(catalogue::demo(), &case.request()));
        assert_eq!(one.child, other.child, "{}", case.name);
        differ += usize::from(one.paperwork != other.paperwork);
    }
    assert!(differ > 10, "only {differ} differ on paper");
}
