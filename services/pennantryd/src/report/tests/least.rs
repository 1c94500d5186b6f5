//! The least cloth that a string takes, held against the plans by which the shop cuts the demo
//! shop's cloth.

use std::sync::Arc;

use pennantry_app::report::{Least, least};
use pennantry_calc::cutting::{Role, cloth};
use pennantry_calc::layout::solve;
use pennantry_calc::order::{Asked, AskedLength, check};
use pennantry_calc::shelf::{Need, Stretch, plan};
use pennantry_calc::shop::{FabricRole, Shop};
use pennantry_measure::Length;

use crate::catalogue::{SALTMERE_LOFT, open};

fn demo() -> Arc<Shop> {
    pennantry_app::Catalogue::from(open(SALTMERE_LOFT).expect("the demo catalogue")).shop
}

/// What one pennant of every design, in every construction, needs of a fabric.
fn needs(shop: &Shop, place: usize) -> Vec<Need> {
    let mut needs = Vec::new();
    for design in &shop.designs {
        for construction in &design.constructions {
            let asked = Asked {
                design: Some(design.code.clone()),
                construction: Some(*construction),
                fabrics: vec![shop.fabrics[place].code.clone()],
                length: Some(AskedLength::Flagged(design.usual)),
                ..Asked::default()
            };
            let Ok(order) = check(shop, &asked, &[]) else { continue };
            let layout = solve(shop, &order).expect("the usual length holds");
            let uses = cloth(shop, &order, &layout.finished(order.shape), &[(place, 1)]).expect("cloth");
            let used = uses.iter().find(|used| used.role == Role::Pennants).expect("pennants");
            needs.push(Need::new(shop, used).expect("the fabric is there"));
        }
    }
    needs
}

fn cut(need: &Need, remnant: bool, width: Length, length: Length) -> bool {
    let shelf = [Stretch { piece: 0, lot: 0, remnant, width, length }];
    plan(need, &shelf).expect("a plan").missing == 0
}

/// Pilot's Map has a picture every 0.24 m that is to sit alike on every pennant: one repeat for the
/// 0.12 m of the smallest pennant, one to find the first picture, and 0.02 m to square it are
/// 0.50 m. Kelp: 0.12 and 0.02 m, in steps of 0.10 m. Sea Glass comes in pieces of 0.50 m.
#[test]
fn the_least_that_a_string_takes_is_that_of_a_plan_that_is_cut() {
    let shop = demo();
    let of = |code: &str| {
        let place = shop.fabrics.iter().position(|fabric| fabric.code == code).expect("a fabric");
        least(&shop, place).expect("it is made of it").length
    };
    let mm = Length::from_mm;
    assert_eq!(["pilot-map", "kelp", "sea-glass"].map(of), [mm(500), mm(200), mm(500)]);
    let pilot = shop.fabrics.iter().position(|fabric| fabric.code == "pilot-map").expect("a fabric");
    let width = shop.fabrics[pilot].usable_width;
    let needs = needs(&shop, pilot);
    assert!(needs.iter().any(|need| cut(need, false, width, mm(500))));
    assert!(needs.iter().all(|need| !cut(need, false, width, mm(432)) && !cut(need, false, width, mm(499))));
}

/// A bolt of it gives one pennant, and a strip that is narrower gives none however long it is.
#[test]
fn a_strip_below_the_least_width_holds_no_pennant() {
    let shop = demo();
    let cloth = shop.fabrics.iter().enumerate().filter(|(_, fabric)| fabric.role == FabricRole::Cloth);
    for (place, fabric) in cloth {
        let Least { length, width } = least(&shop, place).expect("it is made of it");
        let needs = needs(&shop, place);
        let long = Length::from_mm(9_000);
        let narrower = width - Length::from_mm(1);
        assert!(needs.iter().any(|need| cut(need, false, fabric.usable_width, length)), "{}", fabric.code);
        assert!(needs.iter().any(|need| cut(need, true, width, long)), "{}: {width}", fabric.code);
        assert!(needs.iter().all(|need| !cut(need, true, narrower, long)), "{}: {width}", fabric.code);
    }
}

#[test]
fn a_fabric_that_the_shop_has_not_has_no_least() {
    assert_eq!(least(&demo(), 10_000), None);
}
