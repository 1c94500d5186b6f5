mod choose;
mod fold;
mod notices;
mod table;

use pennantry_measure::{Area, Money, Percent};

use super::*;
use crate::fixture::{mm, order, shop};
use crate::layout::solve;
use crate::mass::masses;
use crate::order::{AskedLength, Leftover};
use crate::shop::{Band, Construction, Format, Service};

/// 6.2 m of flags, the rest to the gaps: 29 pennants, 24.643 mm apart, tails of 300.
fn story() -> Order {
    let mut order = order();
    order.length = Some(AskedLength::Flagged(mm(6_200)));
    order.leftover = Leftover::Gaps;
    order
}

/// So many pennants at the usual gap.
fn counted_order(count: u32) -> Order {
    let mut order = order();
    order.count = Some(count);
    order
}

fn layout(shop: &Shop, order: &Order) -> Layout {
    solve(shop, order).expect("a layout")
}

/// What so much net mass and packing comes to, without a tolerance.
fn weighing(net: Mass, packing: Mass) -> Masses {
    let packed = net + packing;
    Masses { parts: Vec::new(), net, packing, packed, least: packed, most: packed }
}

/// What the strings weigh by the shop: triangles of 190 × 210, binding and a bag.
fn weighed(shop: &Shop, order: &Order, layout: &Layout) -> Masses {
    let pennants = i128::from(layout.count * order.quantity * order.construction.layers());
    let area = Area::from_um2(pennants * 19_950_000_000);
    let bag = crate::sundries::Used {
        kind: crate::sundries::UsedKind::Sundry(0),
        count: 1,
        cost: Money::ZERO,
        mass: shop.sundries[0].mass,
        packing: true,
    };
    let binding = layout.binding_cut * i64::from(order.quantity);
    masses(shop, order, &[(0, area)], binding, Mass::ZERO, &[bag])
}

/// The parcel of an order that weighs so many grams in all.
fn sent(shop: &Shop, order: &Order, grams: i64) -> Result<Parcel, NoService> {
    parcel(shop, order, &layout(shop, order), &weighing(Mass::from_grams(grams), Mass::ZERO))
}

/// A shop whose cloth and binding take up next to no room, so that only mass counts.
fn thin_shop() -> Shop {
    let mut shop = shop();
    shop.fabrics.iter_mut().for_each(|fabric| fabric.thickness = Length::from_um(1));
    shop.bindings[0].thickness = Length::from_um(1);
    shop.folding.wrap = Length::ZERO;
    shop.folding.wrap_thickness = Length::ZERO;
    shop
}

fn band_of(format: usize, grams: i64, price: i64) -> Band {
    Band { format, most: Mass::from_grams(grams), price: Money::from_minor(price) }
}

fn told(shop: &Shop, masses: &Masses, parcel: &Result<Parcel, NoService>) -> Vec<(Code, String)> {
    notices(shop, masses, parcel).into_iter().map(|notice| (notice.code, notice.message)).collect()
}
