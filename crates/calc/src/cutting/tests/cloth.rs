//! From an order to the cloth it takes.

mod bought;
mod extra;
mod lay;
mod table;
mod wash;

use super::super::*;
use crate::fixture::{mm, order, shop, um};
use crate::notice::Code;
use crate::order::{Field, Order, Reason, Violation};
use crate::outline::Finished;
use crate::shop::{Construction, Shape, Shop, SizeAt};

/// The story's colours on one string.
const STORY: [(usize, u32); 3] = [(0, 10), (1, 10), (2, 9)];

/// A finished triangle.
fn finished(width: Length, drop: Length) -> Finished {
    Finished { shape: Shape::Triangle, width, drop, detail: Length::ZERO }
}

fn used(shop: &Shop, order: &Order, per_fabric: &[(usize, u32)]) -> Vec<ClothUse> {
    cloth(shop, order, &finished(mm(190), mm(210)), per_fabric).expect("cloth")
}

fn refused(shop: &Shop, order: &Order, width: Length, per_fabric: &[(usize, u32)]) -> Vec<Violation> {
    match cloth(shop, order, &finished(width, mm(210)), per_fabric) {
        Err(Error::Refused(found)) => found,
        other => panic!("not refused: {other:?}"),
    }
}

fn pieces(uses: &[ClothUse]) -> Vec<(usize, u32)> {
    uses.iter().map(|used| (used.fabric, used.pieces)).collect()
}

#[test]
fn the_story_takes_a_step_of_each_fabric() {
    let mut shop = shop();
    let uses = used(&shop, &order(), &STORY);
    // nine fit a row at a clearance of 6: two rows, two rows, one; 20 of squaring
    assert_eq!(uses.iter().map(|used| used.charged).collect::<Vec<_>>(), [mm(500), mm(500), mm(300)]);
    shop.methods[0].clearance = mm(5);
    let uses = used(&shop, &order(), &STORY);
    assert_eq!(uses.iter().map(|used| used.plan.used).collect::<Vec<_>>(), [mm(210), mm(210), mm(210)]);
    assert_eq!(uses.iter().map(|used| used.charged).collect::<Vec<_>>(), [mm(300), mm(300), mm(300)]);
}

#[test]
fn layers_strings_and_spares_multiply() {
    let mut shop = shop();
    let two = Order { construction: Construction::DoubleTurned, quantity: 3, ..order() };
    assert_eq!(pieces(&used(&shop, &two, &STORY)), [(0, 60), (1, 60), (2, 54)]);
    shop.cloth.spares = Percent::from_milli(5_000);
    let uses = used(&shop, &two, &STORY);
    assert_eq!(uses.iter().map(|used| used.spares).collect::<Vec<_>>(), [3, 3, 3]);
    assert_eq!(uses[2].job.pieces, 57);
    assert_eq!(uses[2].plan.steps, 57);
}

#[test]
fn backs_come_last_or_join_their_fabric() {
    let shop = shop();
    let double = Order { construction: Construction::DoubleTurned, quantity: 2, ..order() };
    let own = Order { backing: Some(2), fabrics: vec![0, 1], ..double.clone() };
    assert_eq!(pieces(&used(&shop, &own, &[(1, 8), (0, 7)])), [(1, 16), (0, 14), (2, 30)]);
    let shared = Order { backing: Some(0), ..double };
    assert_eq!(pieces(&used(&shop, &shared, &STORY)), [(0, 78), (1, 20), (2, 18)]);
}

#[test]
fn the_outline_holds_the_seam_of_its_construction() {
    let double = Order { construction: Construction::DoubleTurned, ..order() };
    let cut = used(&shop(), &double, &STORY)[0].outline;
    assert_eq!(cut, crate::outline::triangle(mm(190), mm(210), mm(6)));
    assert_eq!(used(&shop(), &order(), &STORY)[0].outline, Outline::triangle(mm(190), mm(210)));
}

#[test]
fn every_fabric_that_is_too_narrow_is_named_with_what_fits() {
    let mut shop = shop();
    shop.fabrics[0].usable_width = mm(190);
    shop.fabrics[1].usable_width = um(189_999);
    shop.fabrics[2].usable_width = mm(150);
    let found = refused(&shop, &order(), mm(190), &STORY);
    let told: Vec<_> = found.iter().map(|v| (v.field, v.reason)).collect();
    assert_eq!(told, [(Field::Fabric(1), Reason::DoesNotFit), (Field::Fabric(2), Reason::DoesNotFit)]);
    let message = &found[0].message;
    assert!(
        ["189.999 mm", "190 mm", "a width of 189 mm"].iter().all(|part| message.contains(part)),
        "{message}"
    );

    // what is said to fit does fit, and a millimetre more does not
    let double =
        Order { construction: Construction::DoubleTurned, backing: Some(2), fabrics: vec![0], ..order() };
    let found = refused(&shop, &double, mm(190), &[(0, 4)]);
    assert_eq!(found.iter().map(|v| v.field).collect::<Vec<_>>(), [Field::Fabric(0), Field::Backing]);
    assert!(found[1].message.contains("a width of 137 mm"), "{}", found[1].message);
    let only = Order { backing: None, fabrics: vec![2], ..double };
    assert!(cloth(&shop, &only, &finished(mm(137), mm(210)), &[(2, 4)]).is_ok());
    assert!(cloth(&shop, &only, &finished(mm(138), mm(210)), &[(2, 4)]).is_err());

    // sizes seen at the binding's edge are widened by the insertion first:
    // 141 + 141 * 12.5 / 210 is 149.393, 142 gives 150.452
    let seen = Order { size_at: SizeAt::BindingEdge, fabrics: vec![2], ..order() };
    let found = refused(&shop, &seen, mm(190), &[(2, 4)]);
    assert!(found[0].message.contains("a width of 141 mm"), "{}", found[0].message);

    shop.fabrics[2].usable_width = mm(19);
    let found = refused(&shop, &Order { fabrics: vec![2], ..order() }, mm(190), &[(2, 4)]);
    assert!(found[0].message.contains("no width fits"), "{}", found[0].message);
}

#[test]
fn more_pieces_than_the_bound_are_refused_before_any_is_placed() {
    let many = |quantity| Order { quantity, construction: Construction::DoubleTurned, ..order() };
    let found = refused(&shop(), &many(5), mm(190), &[(0, 20_000), (1, 1)]);
    assert_eq!((found[0].field, found[0].reason), (Field::Quantity, Reason::OutOfRange));
    assert!(
        found[0].message.contains("200010") && found[0].message.contains("200000"),
        "{}",
        found[0].message
    );
    assert_eq!(used(&shop(), &many(5), &[(0, 20_000)])[0].plan.steps, 200_000);
    // as many as a request can say at all
    refused(&shop(), &many(10_000), mm(190), &[(0, 20_000)]);
}

#[test]
fn a_construction_without_a_method_is_refused() {
    let order = Order { construction: Construction::DoubleFused, ..order() };
    assert_eq!(refused(&shop(), &order, mm(190), &STORY)[0].field, Field::Construction);
}

#[test]
fn wide_seams_and_tight_cloth_are_noticed() {
    let mut shop = shop();
    let double =
        Order { construction: Construction::DoubleTurned, backing: Some(2), fabrics: vec![0, 1], ..order() };
    assert!(notices(&shop, &order(), &used(&shop, &order(), &STORY)).is_empty());
    // on a drop of 83 a seam of 6 takes 13.168 of 88.168 (14.94 %) and 13.139 of 87.139
    let small = |width| cloth(&shop, &double, &finished(mm(width), mm(83)), &[(0, 4)]).expect("cloth");
    assert!(notices(&shop, &double, &small(75)).is_empty());
    let told = notices(&shop, &double, &small(74));
    assert_eq!(
        told.iter().map(|n| (n.code, n.field)).collect::<Vec<_>>(),
        [(Code::WideSeams, Some(Field::Width))]
    );
    assert!(told[0].message.contains("15.079 % of the cut width of 87.139 mm"), "{}", told[0].message);

    // rows of five fill the second fabric and the backing
    shop.methods[1].seam = mm(0);
    shop.fabrics[1].usable_width = mm(570);
    shop.fabrics[2].usable_width = um(570_999);
    let uses = used(&shop, &double, &[(0, 5), (1, 5)]);
    let told = notices(&shop, &double, &uses);
    let fields: Vec<_> = told.iter().map(|n| (n.code, n.field)).collect();
    let tight = |field| (Code::ZeroTolerance, Some(field));
    assert_eq!(fields, [tight(Field::Fabric(1)), tight(Field::Backing)]);
    assert!(told[1].message.contains("a full row of 5 leaves 0.999 mm"), "{}", told[1].message);
}
