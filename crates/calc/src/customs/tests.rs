use pennantry_measure::{Area, Money};
use proptest::prelude::*;

use super::*;
use crate::fixture::{mm, order, shop, um};
use crate::layout::solve;
use crate::mass::masses;
use crate::order::{AskedLength, Leftover};
use crate::sundries::{Used, UsedKind};

fn story() -> Order {
    let mut order = order();
    order.length = Some(AskedLength::Flagged(mm(6_200)));
    order.leftover = Leftover::Gaps;
    order
}

fn bag() -> Used {
    Used { kind: UsedKind::Sundry(0), count: 1, cost: Money::ZERO, mass: Mass::from_grams(8), packing: true }
}

/// The declaration of an order in which so many square millimetres of each fabric stay.
fn declared(shop: &Shop, order: &Order, areas: &[(usize, i128)]) -> Declaration {
    let areas: Vec<_> = areas.iter().map(|(place, mm2)| (*place, Area::from_um2(mm2 * 1_000_000))).collect();
    let masses = masses(shop, order, &areas, mm(6_820), Mass::ZERO, &[bag()]);
    declaration(shop, order, &solve(shop, order).expect("a layout"), &masses)
}

fn words(fibres: &[&str]) -> Vec<String> {
    fibres.iter().map(|fibre| (*fibre).to_owned()).collect()
}

#[test]
fn the_story_is_declared() {
    let shop = shop();
    let got = declared(&shop, &story(), &[(0, 199_500), (1, 199_500), (2, 179_550)]);
    assert_eq!(got.description, "sewn cotton bunting, triangular pennants on folded binding, 6.2 m");
    assert_eq!((got.code.as_str(), got.origin.as_str(), got.strings), ("6307.90", "GB", 1));
    // 121.917 g and a bag of 8
    assert_eq!((got.net, got.gross), (Mass::from_mg(121_917), Mass::from_mg(129_917)));
}

#[test]
fn only_fibres_that_are_in_the_strings_are_declared_each_once() {
    let mut shop = shop();
    shop.fabrics[0].fibre = String::from("Linen");
    shop.fabrics[1].fibre = String::from("cotton");
    shop.fabrics[2].fibre = String::from("linen");
    let starts = |shop: &Shop, areas: &[(usize, i128)], wanted: &str| {
        let got = declared(shop, &story(), areas).description;
        assert!(got.starts_with(wanted), "{got}");
    };
    starts(&shop, &[(1, 1_000), (0, 1_000), (2, 1_000)], "sewn cotton and Linen bunting,");
    starts(&shop, &[(1, 1_000), (0, 0)], "sewn cotton bunting,");
    // where nothing is weighed, those of the order
    starts(&shop, &[], "sewn Linen and cotton bunting,");
    // a web is not declared, nor a word that says nothing
    shop.fabrics[0].role = FabricRole::Web;
    starts(&shop, &[(0, 1_000), (1, 1_000)], "sewn cotton bunting,");
    shop.fabrics[1].fibre = String::from("Textile");
    shop.fabrics[2].fibre = String::from(" \u{7f}\n");
    starts(&shop, &[(1, 1_000), (2, 1_000)], "sewn bunting,");
}

#[test]
fn shapes_strings_and_lengths_are_named() {
    let cotton = words(&["cotton"]);
    for (shape, named) in [
        (Shape::Triangle, "triangular"),
        (Shape::Blunt, "trapezoidal"),
        (Shape::Swallowtail, "swallowtail"),
        (Shape::Shield, "shield-shaped"),
        (Shape::Scallop, "round-ended"),
        (Shape::Rectangle, "rectangular"),
    ] {
        let got = description(&cotton, shape, mm(5_000), 12);
        assert_eq!(
            got,
            format!("sewn cotton bunting, {named} pennants on folded binding, 12 strings of 5 m")
        );
    }
    let length = |length| description(&cotton, Shape::Triangle, length, 1);
    for (um_of, shown) in
        [(6_204_999, "6.2 m"), (6_205_000, "6.21 m"), (500_000, "0.5 m"), (10_000_000, "10 m")]
    {
        assert!(length(um(um_of)).ends_with(&format!(", {shown}")), "{shown}");
    }
}

#[test]
fn too_many_fibres_are_left_out_and_a_long_one_is_cut_at_a_word() {
    let of = |fibres: &[&str]| description(&words(fibres), Shape::Triangle, mm(6_200), 1);
    // 59 characters beside the fibres leave 41
    let rest = "bunting, triangular pennants on folded binding, 6.2 m";
    assert_eq!("sewn  ".len() + rest.len(), 59);
    let long = "cotton, polyester, polyamide and viscose";
    assert_eq!(of(&["cotton", "polyester", "polyamide", "viscose"]), format!("sewn {long} {rest}"));
    assert_eq!(
        of(&["cotton", "polyester", "polyamide", "viscose", "hemp"]),
        format!("sewn cotton, polyester and other fibres {rest}")
    );
    let most = "organic cotton, Gossypium barbadense, spun and wo";
    assert_eq!(of(&[most]), format!("sewn organic cotton, Gossypium barbadense {rest}"));
    assert_eq!(of(&["a23456789b23456789c23456789d23456789e23456789"]), format!("sewn {rest}"));
    assert_eq!(of(&[]), format!("sewn {rest}"));
    let edge = "a23456789 b23456789 c23456789 d23456789 e";
    assert_eq!(of(&[edge]).len(), 100);
    assert_eq!(of(&[&format!("{edge} f")]), of(&[edge]));
    assert_eq!(of(&[&format!("{edge}f")]), format!("sewn a23456789 b23456789 c23456789 d23456789 {rest}"));
}

#[test]
fn letters_that_are_not_ascii_become_plain() {
    assert_eq!(ascii("  jute\u{a0}écru,\tgroße Fläche 綿 "), "jute ecru, grosse Flaeche");
    assert_eq!(ascii("Élasthanne, Össur"), "elasthanne, oessur");
    assert_eq!(ascii("cœur d'œillet – n°1"), "coeur d'oeillet n1");
}

#[test]
fn the_reason_names_its_sources_and_who_decides() {
    let mut shop = shop();
    let mut order = story();
    order.country = String::from("NO");
    let reason = declared(&shop, &order, &[]).reason;
    for named in [
        "63.07",
        "Section XI, Note 7",
        "Chapter 95",
        "Note 1",
        "D10-14-66",
        "NY G82087",
        "NY E81399",
        "NO, decide",
        "plastic",
    ] {
        assert!(reason.contains(named), "{named}: {reason}");
    }
    assert!(reason.is_ascii() && !reason.contains("instead"), "{reason}");
    for own in ["6307", "63.07", "6307 90 98"] {
        shop.customs.code = String::from(own);
        assert!(!declared(&shop, &order, &[]).reason.contains("instead"), "{own}");
    }
    // a shop's own heading is not defended with another's reasons
    shop.customs.code = String::from("9505.90");
    let got = declared(&shop, &order, &[]);
    assert_eq!(got.code, "9505.90");
    assert!(got.reason.contains("The shop declares 9505.90 instead"), "{}", got.reason);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(500))]

    #[test]
    fn descriptions_are_short_plain_and_end_with_the_length(
        fibres in prop::collection::vec("\\PC{0,60}", 1..6),
        length in 1_i64..2_000_000_000,
        strings in 1_u32..=10_000,
        shape in prop::sample::select(vec![Shape::Triangle, Shape::Shield, Shape::Swallowtail]),
    ) {
        let mut shop = shop();
        let fabric = shop.fabrics[0].clone();
        shop.fabrics = fibres.into_iter().map(|fibre| Fabric { fibre, ..fabric.clone() }).collect();
        let mut order = order();
        order.fabrics = (0..shop.fabrics.len()).collect();
        let none = masses(&shop, &order, &[], mm(0), Mass::ZERO, &[]);
        let got = description(&super::fibres(&shop, &order, &none), shape, um(length), strings);
        prop_assert!(got.len() <= 100 && got.is_ascii(), "{} {}", got.len(), got);
        prop_assert!(got.starts_with("sewn ") && got.ends_with(" m"), "{}", got);
        prop_assert!(got.contains("bunting, ") && got.contains(" pennants on folded binding, "), "{}", got);
        prop_assert!(!got.contains("  "), "{}", got);
    }

    #[test]
    fn net_parts_add_up_and_never_weigh_more_than_the_gross(
        areas in prop::collection::vec((0_usize..3, 0_i128..10_000_000), 0..5),
        strings in 1_u32..20,
    ) {
        let shop = shop();
        let mut order = story();
        order.quantity = strings;
        let areas: Vec<_> = areas.into_iter().map(|(p, mm2)| (p, Area::from_um2(mm2 * 1_000_003))).collect();
        let masses = masses(&shop, &order, &areas, mm(6_820), Mass::from_mg(7), &[bag()]);
        let got = declaration(&shop, &order, &solve(&shop, &order).expect("a layout"), &masses);
        prop_assert_eq!(masses.parts.iter().map(|part| part.mass).sum::<Mass>(), got.net);
        prop_assert!(got.net <= got.gross);
        prop_assert_eq!(got.gross, got.net + Mass::from_grams(8));
        prop_assert_eq!(got.strings, strings);
    }
}
