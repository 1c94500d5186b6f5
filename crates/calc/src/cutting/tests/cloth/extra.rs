//! Letters and web.

use super::super::super::*;
use crate::fixture::{mm, order, shop, um};
use crate::order::{Field, Order, Reason, Violation};
use crate::outline::Finished;
use crate::shop::{Construction, Fabric, FabricRole, Lay, Letters, Method, Shape, Shop, Sold};

/// A name of three letters and a blank between two of them, on two strings.
fn lettered() -> Order {
    let letters = ["A", "D", "", "A"].map(|l| (!l.is_empty()).then(|| l.to_owned())).to_vec();
    Order { letters, quantity: 2, ..order() }
}

/// The shop, with a web and a fused construction.
fn fusing() -> Shop {
    let mut shop = shop();
    let web = Fabric {
        code: String::from("web"),
        role: FabricRole::Web,
        usable_width: mm(450),
        ..shop.fabrics[0].clone()
    };
    shop.fabrics.push(web);
    let method = &shop.methods[0];
    let fused = Method {
        construction: Construction::DoubleFused,
        web: Some(3),
        row_gap: mm(3),
        lays: vec![Lay::FoldedAcross],
        ..method.clone()
    };
    shop.methods.push(fused);
    shop
}

fn finished(width: Length) -> Finished {
    Finished { shape: Shape::Triangle, width, drop: mm(210), detail: mm(0) }
}

fn used(shop: &Shop, order: &Order, hung: &[(usize, u32)]) -> Vec<ClothUse> {
    cloth(shop, order, &finished(mm(190)), hung).expect("cloth")
}

fn refused(shop: &Shop, order: &Order, hung: &[(usize, u32)]) -> Vec<Violation> {
    match cloth(shop, order, &finished(mm(190)), hung) {
        Err(Error::Refused(found)) => found,
        other => panic!("not refused: {other:?}"),
    }
}

fn told(uses: &[ClothUse]) -> Vec<(usize, Role, u32)> {
    uses.iter().map(|used| (used.fabric, used.role, used.pieces)).collect()
}

#[test]
fn letters_are_cut_from_rectangles_and_blanks_are_not() {
    let mut shop = shop();
    let uses = used(&shop, &lettered(), &[(2, 4)]);
    // the same fabric for pennants and for letters: two lines
    assert_eq!(told(&uses), [(2, Role::Pennants, 8), (2, Role::Letters, 6)]);
    let letters = &uses[1];
    // 40 % of 190 and 48 % of 210
    let outline =
        Outline { shape: Shape::Rectangle, width: mm(76), drop: um(100_800), detail: mm(0), flat: mm(0) };
    assert_eq!((letters.outline, letters.seams), (outline, Percent::from_milli(0)));
    assert_eq!((letters.lay, letters.layers, letters.outlines), (Lay::Flat, 1, 6));
    assert_eq!((letters.job.clearance, letters.job.row_gap, letters.job.per_row()), (mm(0), mm(0), 14));
    assert_eq!((letters.used, letters.charged), (um(100_800), mm(200)));
    assert_eq!((letters.step.more, letters.step.fewer), (mm(0), mm(0)));
    // shares of a micrometre go up, spares are cut of letters too
    shop.cloth.spares = Percent::from_milli(5_000);
    let uses = cloth(&shop, &lettered(), &finished(um(190_001)), &[(0, 4)]).expect("cloth");
    assert_eq!((uses[1].outline.width, uses[1].spares, uses[1].outlines), (um(76_001), 1, 7));
    assert_eq!(told(&used(&shop, &order(), &[(0, 4)])), [(0, Role::Pennants, 4)]);
    shop.letters = None;
    assert_eq!(told(&used(&shop, &lettered(), &[(0, 4)])), [(0, Role::Pennants, 8)]);
}

#[test]
fn web_is_cut_once_for_each_pennant_and_each_letter() {
    let mut shop = fusing();
    let fused = Order { construction: Construction::DoubleFused, quantity: 3, ..order() };
    let uses = used(&shop, &fused, &[(0, 4), (1, 3)]);
    assert_eq!(told(&uses), [(0, Role::Pennants, 24), (1, Role::Pennants, 18), (3, Role::Web, 21)]);
    let (pennants, web) = (&uses[0], &uses[2]);
    assert_eq!((web.outline, web.lay), (pennants.outline, Lay::Flat));
    assert_eq!((pennants.lay, pennants.job.clearance), (Lay::FoldedAcross, mm(6)));
    // 450 holds three in a row where they share a cut: seven rows without gaps
    assert_eq!((web.job.clearance, web.job.row_gap, web.used), (mm(0), mm(0), mm(1_470)));
    assert_eq!((web.charged, web.step.more, web.step.fewer), (mm(1_500), mm(200), mm(0)));

    // the same web holds letters: pieces of another outline, and so another line
    let letters = Letters { web: Some(3), ..*shop.letters.as_ref().expect("letters") };
    shop.letters = Some(letters);
    let both = Order { letters: lettered().letters, ..fused.clone() };
    let uses = used(&shop, &both, &[(0, 7)]);
    let lines = [(0, Role::Pennants, 42), (2, Role::Letters, 9), (3, Role::Web, 21), (3, Role::Web, 9)];
    assert_eq!(told(&uses), lines);
    assert_eq!(uses[3].outline, uses[1].outline);
    // a backing of its own takes no more web
    let backed = Order { backing: Some(1), ..fused };
    let lines = [(0, Role::Pennants, 21), (1, Role::Pennants, 21), (3, Role::Web, 21)];
    assert_eq!(told(&used(&shop, &backed, &[(0, 7)])), lines);
}

/// One pennant more takes a front, a front and a back, or a back alone.
#[test]
fn a_step_counts_the_pieces_that_a_pennant_takes_of_the_fabric() {
    let mut shop = shop();
    shop.methods[1].seam = mm(0);
    // one piece a row, rows of 210 cut off to the micrometre
    for fabric in &mut shop.fabrics {
        (fabric.usable_width, fabric.sold) = (mm(200), Sold::Bolt { step: mm(0) });
    }
    let steps = |backing, hung: &[(usize, u32)]| {
        let order = Order { construction: Construction::DoubleTurned, backing, ..order() };
        used(&shop, &order, hung)
            .iter()
            .map(|used| (used.fabric, used.step.more, used.step.fewer))
            .collect::<Vec<_>>()
    };
    let (one, two) = (mm(210), mm(420));
    assert_eq!(steps(None, &[(0, 3)]), [(0, two, two)]);
    assert_eq!(steps(Some(1), &[(0, 3)]), [(0, one, one), (1, one, one)]);
    // the second fabric hangs in front and behind
    assert_eq!(steps(Some(1), &[(0, 3), (1, 2)]), [(0, one, one), (1, two, two)]);
    assert_eq!(steps(Some(1), &[(1, 2), (0, 3)]), [(1, two, two), (0, one, one)]);
}

#[test]
fn letters_and_web_that_do_not_fit_are_refused_at_their_fields() {
    let mut shop = fusing();
    shop.fabrics[2].usable_width = um(75_999);
    let found = refused(&shop, &lettered(), &[(0, 4)]);
    assert_eq!((found.len(), found[0].field, found[0].reason), (1, Field::Lettering, Reason::DoesNotFit));
    let message = &found[0].message;
    let parts =
        ["\"slate\"", "the letters are cut 76 mm wide:", "a width of 189 mm", "leave the letters out"];
    assert!(parts.iter().all(|part| message.contains(part)), "{message}");

    shop.fabrics[3].usable_width = mm(180);
    shop.letters =
        Some(Letters { web: Some(3), width: Percent::WHOLE, ..*shop.letters.as_ref().expect("letters") });
    let fused = Order { construction: Construction::DoubleFused, ..lettered() };
    let found = refused(&shop, &fused, &[(0, 4)]);
    let fields: Vec<_> = found.iter().map(|v| v.field).collect();
    assert_eq!(fields, [Field::Lettering, Field::Construction, Field::Lettering]);
    let message = &found[1].message;
    let parts = ["\"web\"", "the web is cut 190 mm wide:", "a width of 180 mm", "another construction"];
    assert!(parts.iter().all(|part| message.contains(part)), "{message}");
}

#[test]
fn letters_and_web_count_among_the_pieces_of_an_order() {
    let shop = fusing();
    let many = |letters| Order {
        construction: Construction::DoubleFused,
        quantity: 5_000,
        letters: vec![Some(String::from("A")); letters],
        ..order()
    };
    // 13 pennants are 26 pieces and 13 of web
    assert_eq!(told(&used(&shop, &many(1), &[(0, 13)]))[2], (3, Role::Web, 65_000));
    let found = refused(&shop, &many(2), &[(0, 13)]);
    assert_eq!((found[0].field, found[0].reason), (Field::Quantity, Reason::OutOfRange));
    assert!(found[0].message.contains("205000"), "{}", found[0].message);
}
