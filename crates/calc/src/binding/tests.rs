mod cloth;
mod places;
mod properties;
mod rolls;
mod table;

use pennantry_measure::{MassPerArea, Rate, Rounding, divide};

use super::*;
use crate::fixture::{mm, order, shop, um};
use crate::layout::solve;
use crate::order::AskedLength;
use crate::shop::{EndCut, Roll};

/// A shop that sells tape off a roll of 50 m for 5.00, or by the metre for 0.12, and an
/// order of so many strings.
fn tape(quantity: u32) -> (Shop, Order) {
    let mut shop = shop();
    shop.bindings[0].source = BindingSource::Bought {
        price: Rate::from_micro_minor(12_000_000),
        roll: Roll { length: mm(50_000), price: Some(Money::from_minor(500)) },
        offcuts: Vec::new(),
    };
    (shop, Order { quantity, ..order() })
}

fn rolls_of(shop: &mut Shop) -> &mut Roll {
    match &mut shop.bindings[0].source {
        BindingSource::Bought { roll, .. } => roll,
        BindingSource::Cloth { .. } => panic!("not bought"),
    }
}

/// A string of the first design so long from cut end to cut end, its tails 300 or more; a
/// short one's nought or more.
fn string(cut: Length) -> Layout {
    let tail = if cut < mm(900) { mm(0) } else { mm(300) };
    let asked = Order { length: Some(AskedLength::Binding(cut)), tail, ..order() };
    let layout = solve(&shop(), &asked).expect("a layout");
    assert_eq!(layout.binding_cut, cut);
    layout
}
