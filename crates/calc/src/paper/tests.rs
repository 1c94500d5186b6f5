//! Rules about paper, each at its edge. The worked cases, as requests, are in
//! `tests/golden/paper.toml`; here is what lies between and beyond them.

use pennantry_measure::Length;
use proptest::prelude::*;

use super::rules::{Limit, RULES};
use super::*;
use crate::fixture::{WHEN, mm, order, shop, um};
use crate::order::Jurisdiction::{Au, Ca, Eu, Gb, Us};
use crate::order::Place;
use crate::quote::work;
use crate::rule::{Comparator, Origin};
use crate::shop::{CertificateKind, FireCertificate, FireStandard, Maker, Shape, SizeAt};

/// An order of 200 by 250 under all rules, in some place.
fn asked(count: u32, place: Option<Place>) -> Order {
    let mut order = order();
    (order.count, order.width, order.drop) = (Some(count), mm(200), mm(250));
    order.near.place = place;
    order.near.jurisdictions = Jurisdiction::ALL.to_vec();
    order
}

fn found(shop: &Shop, order: &Order) -> Paper {
    paperwork(shop, order, &work(shop, order, WHEN).expect("it can be made"))
}

/// A paper's findings as rule and jurisdiction.
fn ids(paper: &Paper) -> Vec<(RuleId, Jurisdiction)> {
    paper.findings.iter().map(|finding| (finding.rule.id, finding.rule.of)).collect()
}

fn tested(standard: FireStandard) -> FireCertificate {
    FireCertificate {
        standard,
        edition: String::from("1"),
        lot: String::from("1"),
        kind: CertificateKind::Tested,
    }
}

/// A shop whose every cloth and binding has a paper.
fn certified(papers: &[FireCertificate]) -> Shop {
    let mut shop = shop();
    for fabric in &mut shop.fabrics {
        fabric.fire_certificates = papers.to_vec();
    }
    shop.bindings[0].fire_certificates = papers.to_vec();
    shop
}

#[test]
fn a_figure_that_is_remembered_names_no_clause() {
    const CLAUSES: [&str; 6] = ["section", "clause", "Article", "Annex", "Schedule", "s. "];
    for rule in RULES {
        let names = CLAUSES.iter().any(|word| rule.source.contains(word));
        assert!(rule.figure != Origin::Remembered || !names, "{}", rule.source);
        assert_eq!(rule.figure == Origin::Remembered, rule.source.contains("remembered"), "{}", rule.source);
        assert_eq!(rule.figure == Origin::NoFigure, rule.limit == Limit::Missing, "{}", rule.source);
    }
}

#[test]
fn rules_stand_in_their_order_each_once() {
    let order: Vec<(RuleId, Jurisdiction)> = RULES.iter().map(|rule| (rule.id, rule.of)).collect();
    assert!(order.is_sorted());
    assert!(order.windows(2).all(|two| two[0] != two[1]));
}

#[test]
fn equal_passes_but_where_the_rule_says_at_least() {
    for (comparison, below, at, above) in [
        (Comparator::Over, false, false, true),
        (Comparator::AtLeast, false, true, true),
        (Comparator::Under, true, false, false),
    ] {
        assert_eq!([9, 10, 11].map(|measure| comparison.breaks(measure, 10)), [below, at, above]);
    }
}

#[test]
fn a_flag_is_counted_to_the_square_micrometre() {
    // 12 by 18 inches are 216 square inches: 304.8 x 457.2 mm = 139 354.56 mm², and an inch is 25.4 mm (ISO 80000-3)
    let shop = certified(&[tested(FireStandard::Nfpa701)]);
    let mut order = asked(3, Some(Place::Home));
    (order.shape, order.near.jurisdictions) = (Shape::Rectangle, vec![Us]);
    for (width, drop, over) in
        [(304_800, 457_200, None), (304_799, 457_200, None), (304_801, 457_200, Some("0.4572"))]
    {
        (order.width, order.drop) = (um(width), um(drop));
        let findings = found(&shop, &order).findings;
        assert_eq!(findings.first().map(|finding| finding.rule.id), over.map(|_| RuleId::R23), "{width}");
        for (finding, over) in findings.iter().zip(over) {
            assert_eq!(finding.told.limit, "139354.56 mm²");
            assert!(
                finding.told.remedy.ends_with(&format!("at most 139354.56 mm², which is {over} mm² less"))
            );
        }
    }
}

#[test]
fn at_home_with_every_paper_in_order_nothing_is_found() {
    let paper = found(&shop(), &asked(8, Some(Place::Home)));
    assert_eq!((paper.outcome, ids(&paper)), (Outcome::NothingFound, Vec::new()));
    assert_eq!(paper.pennants, Area::from_um2(200_000 * 1_000_000));
    for said in ["clears nothing", "local rules and competent people decide", "Canada and Australia"] {
        assert!(paper.scope.contains(said), "{}", paper.scope);
    }
}

#[test]
fn the_worst_stands_first_and_then_the_order_of_the_rules() {
    let mut shop = shop();
    shop.maker = Maker::default();
    shop.designs[0].offer.for_children = true;
    shop.designs[0].offer.us_children_file = true;
    let mut order = asked(3, Some(Place::Venue));
    (order.width, order.drop) = (mm(600), mm(700));
    let paper = found(&shop, &order);
    assert_eq!(paper.outcome, Outcome::Refuse);
    assert_eq!(
        ids(&paper),
        [
            (RuleId::R22, Eu),
            (RuleId::R20, Eu),
            (RuleId::R20, Gb),
            (RuleId::R20, Us),
            (RuleId::R20, Ca),
            (RuleId::R20, Au),
            (RuleId::R21, Us),
            (RuleId::R19, Us),
            (RuleId::R23, Us),
        ]
    );
}

#[test]
fn each_standard_is_taken_where_the_rules_say_and_nowhere_else() {
    // the rule table of the reference: which certificate is accepted where
    for (standard, taken) in [
        (FireStandard::Bs5867TypeB, Some(Gb)),
        (FireStandard::Bs5867TypeC, Some(Gb)),
        (FireStandard::Din4102ClassB1, Some(Eu)),
        (FireStandard::En13773Class1, Some(Eu)),
        (FireStandard::En13501ClassB, Some(Eu)),
        (FireStandard::Nfpa701, Some(Us)),
        (FireStandard::Nfpa705, None),
        (FireStandard::CanUlcS109, Some(Ca)),
        (FireStandard::As1530Part2, Some(Au)),
    ] {
        let mut order = asked(8, Some(Place::Venue));
        (order.near.wall_width, order.near.wall_height) = (Some(mm(100_000)), Some(mm(10_000)));
        let still: Vec<Jurisdiction> =
            found(&certified(&[tested(standard)]), &order).findings.iter().map(|f| f.rule.of).collect();
        let all = Jurisdiction::ALL.iter().copied();
        assert_eq!(still, all.filter(|of| Some(*of) != taken).collect::<Vec<_>>(), "{standard:?}");
        let treated = FireCertificate { kind: CertificateKind::Treated, ..tested(standard) };
        assert_eq!(found(&certified(&[treated]), &order).findings.len(), 5, "{standard:?} treated");
    }
}

#[test]
fn one_cloth_without_its_paper_is_enough() {
    let papers = [tested(FireStandard::Bs5867TypeB)];
    let mut order = asked(8, Some(Place::Childcare));
    order.near.jurisdictions = vec![Gb];
    assert_eq!(found(&certified(&papers), &order).findings, []);
    for fabric in 0..3 {
        let mut shop = certified(&papers);
        shop.fabrics[fabric].fire_certificates.clear();
        let paper = found(&shop, &order);
        assert_eq!(ids(&paper), [(RuleId::R20, Gb)]);
        let told = &paper.findings[0].told;
        assert_eq!(told.measured, format!("{}: no certificate on file", shop.fabrics[fabric].name));
        // a cloth that does not hang there is not asked about
        order.fabrics = vec![(fabric + 1) % 3];
        assert_eq!(found(&shop, &order).findings, []);
        order.fabrics = vec![0, 1, 2];
    }
    let mut shop = certified(&papers);
    shop.bindings[0].fire_certificates.clear();
    assert_eq!(ids(&found(&shop, &order)), [(RuleId::R20, Gb)], "the binding is cloth too");
}

#[test]
fn a_place_that_was_not_told_is_a_duty_and_a_home_is_none() {
    for (place, outcome) in [
        (None, Outcome::Duty),
        (Some(Place::Venue), Outcome::Restrict),
        (Some(Place::Childcare), Outcome::Restrict),
        (Some(Place::Home), Outcome::NothingFound),
        (Some(Place::ChildRoom), Outcome::NothingFound),
        (Some(Place::Cot), Outcome::NothingFound),
        (Some(Place::Outdoors), Outcome::NothingFound),
    ] {
        let mut order = asked(8, place);
        order.near.jurisdictions = vec![Gb];
        assert_eq!(found(&shop(), &order).outcome, outcome, "{place:?}");
    }
}

#[test]
fn the_wall_is_compared_to_the_square_micrometre() {
    let shop = certified(&[tested(FireStandard::Nfpa701)]);
    let mut order = asked(8, Some(Place::Venue));
    order.near.jurisdictions = vec![Us];
    // ten times 200 000 mm² are 2 x 10^12 µm²: a wall of 2 m by 1 m, and one micrometre narrower
    for (width, crossed) in [(2_000_001, false), (2_000_000, false), (1_999_999, true)] {
        (order.near.wall_width, order.near.wall_height) = (Some(um(width)), Some(mm(1_000)));
        assert_eq!(!found(&shop, &order).findings.is_empty(), crossed, "{width}");
    }
    // 499 999 x 500 001 are 250 000 000 000 - 1 µm²: a tenth of it is less than one pennant
    order.count = Some(1);
    (order.near.wall_width, order.near.wall_height) = (Some(um(499_999)), Some(um(500_001)));
    let remedy = &found(&shop, &order).findings[0].told.remedy;
    assert!(remedy.starts_with("not one of these pennants"), "{remedy}");
    order.count = Some(8);
    // what is over at the top edge counts, also where sizes are those below the binding
    order.size_at = SizeAt::BindingEdge;
    (order.near.wall_width, order.near.wall_height) = (Some(mm(2_000)), Some(mm(1_000)));
    assert_eq!(ids(&found(&shop, &order)), [(RuleId::R21, Us)]);
}

#[test]
fn a_wall_is_looked_at_where_the_place_was_not_told() {
    let shop = certified(&[tested(FireStandard::Nfpa701)]);
    let large = (Some(mm(2_000)), Some(mm(1_000)));
    let small = (Some(um(1_999_999)), Some(mm(1_000)));
    let (untold, half) = ((None, None), (Some(mm(2_000)), None));
    for (place, wall, outcome) in [
        (None, large, None),
        (None, small, Some(Outcome::Duty)),
        (None, untold, Some(Outcome::Duty)),
        (None, half, Some(Outcome::Duty)),
        (Some(Place::Venue), large, None),
        (Some(Place::Venue), small, Some(Outcome::Restrict)),
        (Some(Place::Childcare), half, Some(Outcome::Restrict)),
        (Some(Place::Home), small, None),
        (Some(Place::Outdoors), untold, None),
    ] {
        let mut order = asked(8, place);
        order.near.jurisdictions = vec![Us];
        (order.near.wall_width, order.near.wall_height) = wall;
        let findings = found(&shop, &order).findings;
        let outcomes: Vec<_> = findings.iter().map(|finding| (finding.rule.id, finding.outcome)).collect();
        let wanted: Vec<_> = outcome.map(|outcome| (RuleId::R21, outcome)).into_iter().collect();
        assert_eq!(outcomes, wanted, "{place:?} {wall:?}");
        let untold = |text: &str| text.contains("was not told") && text.contains("Where it hangs");
        for finding in &findings {
            assert_eq!(untold(&finding.told.text), place.is_none(), "{}", finding.told.text);
            assert_eq!(finding.told.remedy.starts_with("say where it hangs"), place.is_none());
        }
    }
}

#[test]
fn areas_are_written_with_every_decimal() {
    for (um2, text) in
        [(0, "0 mm²"), (1, "0.000001 mm²"), (139_354_500_000, "139354.5 mm²"), (25_000_000_000, "25000 mm²")]
    {
        assert_eq!(areas::square_mm(um2), text);
    }
}

#[test]
fn words_are_whole_words_in_any_case() {
    let words = ["baby", "cot", "children"];
    for (text, there) in [
        ("Baby bunting", true),
        ("for the COT", true),
        ("children's party", true),
        ("baby-blue", true),
        ("Cotton", false),
        ("Apricot", false),
        ("", false),
        ("babyish", false),
    ] {
        assert_eq!(offer::has_word(text, &words), there, "{text}");
    }
}

#[test]
fn a_bag_that_is_not_packed_is_not_looked_at() {
    let mut shop = shop();
    (shop.sundries[0].bag_opening, shop.sundries[0].bag_film) = (None, None);
    let order = asked(8, Some(Place::Home));
    assert_eq!(found(&shop, &order).findings.len(), 3, "a bag by its name, under three rules");
    // counted by letters, of which there are none
    shop.sundries[0].driver = crate::shop::Driver::Letter;
    assert_eq!(found(&shop, &order).findings, []);
    shop.sundries[0].driver = crate::shop::Driver::Order;
    (shop.sundries[0].name, shop.sundries[0].code) = (String::from("Carton"), String::from("carton"));
    assert_eq!(found(&shop, &order).findings, []);
}

#[test]
fn bags_at_each_edge() {
    // EN 71-1 from memory: over 380 mm and under 0.038 mm; SOR/2011-17 s. 4: 356 mm and under 0.019 mm
    for (opening, film, expected) in [
        (mm(355), um(1), &[][..]),
        (mm(356), um(18), &[Ca][..]),
        (mm(356), um(19), &[]),
        (mm(380), um(18), &[Ca]),
        (um(380_001), um(37), &[Eu, Gb]),
        (um(380_001), um(38), &[]),
        (um(380_001), um(18), &[Eu, Gb, Ca]),
    ] {
        let mut shop = shop();
        (shop.sundries[0].bag_opening, shop.sundries[0].bag_film) = (Some(opening), Some(film));
        let paper = found(&shop, &asked(8, Some(Place::Home)));
        let of: Vec<Jurisdiction> = paper.findings.iter().map(|finding| finding.rule.of).collect();
        assert_eq!(of, expected, "{opening}, {film}");
    }
}

#[test]
fn the_leaflet_names_what_is_not_stated() {
    let made_by = |maker: &Maker| leaflet(maker).pop().expect("a last line");
    let all = shop().maker;
    assert_eq!(
        made_by(&all),
        "Made by Ada Marsh; 1 Slipway, Saltmere; ada@example.org; responsible in the European Union: Quay Agents, \
         2 Strand, Corrmore, Ireland."
    );
    assert_eq!(
        made_by(&Maker { electronic_address: None, responsible_person: None, ..all.clone() }),
        "Made by Ada Marsh; 1 Slipway, Saltmere; electronic address not stated."
    );
    assert_eq!(
        made_by(&Maker { postal_address: None, responsible_person: None, ..all }),
        "Made by Ada Marsh; postal address not stated; ada@example.org."
    );
    assert_eq!(
        made_by(&Maker::default()),
        "Made by a maker whose name is not stated; postal and electronic address not stated."
    );
}

/// The number before a word, such as the 7 of "7 of 8 in all".
fn number_before(text: &str, word: &str) -> u32 {
    let (before, _) = text.split_once(word).expect("the word");
    before.rsplit(' ').next().expect("a number").parse().expect("a number")
}

proptest! {
    /// As many pennants as the remedy says are within the share, and one more is not.
    #[test]
    fn the_remedy_for_a_wall_ends_it_and_no_pennant_more_does(
        count in 2_u32..200, width in 40_000_i64..400_000, drop in 40_000_i64..400_000, wall in 100_000_i64..20_000_000,
    ) {
        let shop = certified(&[tested(FireStandard::Nfpa701)]);
        let mut order = asked(count, Some(Place::Venue));
        (order.width, order.drop) = (Length::from_um(width), Length::from_um(drop));
        order.near.jurisdictions = vec![Us];
        (order.near.wall_width, order.near.wall_height) = (Some(um(wall)), Some(mm(2_000)));
        let crossed = |order: &Order| {
            let worked = work(&shop, order, WHEN).expect("it can be made");
            paperwork(&shop, order, &worked).findings.into_iter().find(|finding| finding.rule.id == RuleId::R21)
        };
        let Some(finding) = crossed(&order) else { return Ok(()) };
        let remedy = finding.told.remedy;
        if remedy.starts_with("not one") {
            order.count = Some(1);
            prop_assert!(crossed(&order).is_some());
            return Ok(());
        }
        let most = number_before(&remedy, " of ");
        prop_assert_eq!(number_before(&remedy, " pennant"), count - most);
        order.count = Some(most);
        prop_assert!(crossed(&order).is_none());
        order.count = Some(most + 1);
        prop_assert!(crossed(&order).is_some());
    }

    /// More rules never find less, and each finding is that of its own rule alone.
    #[test]
    fn rules_of_one_country_do_not_touch_those_of_another(
        chosen in proptest::sample::subsequence(Jurisdiction::ALL.to_vec(), 0..=5), place in 0_usize..4,
    ) {
        let place = [None, Some(Place::Home), Some(Place::Venue), Some(Place::Outdoors)][place];
        let mut shop = shop();
        shop.designs[0].offer.for_children = true;
        (shop.sundries[0].bag_film, shop.maker) = (None, Maker::default());
        let mut order = asked(8, place);
        let all = found(&shop, &order);
        order.near.jurisdictions = chosen.clone();
        let some = found(&shop, &order);
        let kept: Vec<Finding> =
            all.findings.into_iter().filter(|finding| chosen.contains(&finding.rule.of)).collect();
        prop_assert_eq!(some.findings, kept);
    }
}
