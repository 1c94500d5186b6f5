//! What to look at before it is posted.

use super::*;
use crate::fixture::um;

#[test]
fn a_parcel_near_the_edge_of_its_band_is_told_to_be_weighed() {
    let mut shop = thin_shop();
    shop.services[0].bands = vec![band_of(0, 100, 250), band_of(1, 250, 420)];
    let order = counted_order(5);
    let layout = layout(&shop, &order);
    let near = |shop: &Shop, packed: i64, most: i64| {
        let mut masses = weighing(Mass::from_mg(packed), Mass::ZERO);
        masses.most = Mass::from_mg(most);
        let parcel = parcel(shop, &order, &layout, &masses);
        told(shop, &masses, &parcel)
    };
    assert_eq!(near(&shop, 95_000, 100_000), []);
    let notices = near(&shop, 97_200, 102_001);
    assert_eq!(notices.len(), 1);
    let (code, message) = &notices[0];
    assert_eq!(*code, Code::NearBandEdge);
    assert!(message.starts_with("98 g of the 100 g that Second takes as letter"), "{message}");
    assert!(message.contains("make it 103 g"), "{message}");
    // already in the next band: its edge is far
    assert_eq!(near(&shop, 100_001, 105_000), []);
    // a format's own greatest mass is an edge too
    shop.formats[0].most_mass = Some(Mass::from_grams(90));
    let notices = near(&shop, 89_000, 90_001);
    assert!(notices[0].1.starts_with("89 g of the 90 g"), "{notices:?}");
    // and where nothing takes it, that is what is told, with the field that mends it
    let none = near(&shop, 300_000, 310_000);
    assert_eq!(none.iter().map(|(code, _)| *code).collect::<Vec<_>>(), [Code::NoServiceFits]);
}

#[test]
fn a_letter_within_a_fifth_of_its_slot_is_told_to_be_tried() {
    let mut shop = shop();
    let mut order = counted_order(4);
    order.fabrics = vec![0];
    let thick = |shop: &Shop| {
        let masses = weighing(Mass::from_grams(50), Mass::ZERO);
        let parcel = parcel(shop, &order, &layout(shop, &order), &masses);
        let size = parcel.as_ref().map(|parcel| parcel.size[2]).unwrap_or_default();
        (size, told(shop, &masses, &parcel).into_iter().map(|(code, _)| code).collect::<Vec<_>>())
    };
    // 1.3 · (4 · 1.05 + 3.2) = 9.62, and wrapping to 20.000 and just below
    shop.folding.wrap_thickness = um(10_380);
    assert_eq!(thick(&shop), (mm(20), vec![Code::NearThickness]));
    shop.folding.wrap_thickness = um(10_379);
    assert_eq!(thick(&shop), (um(19_999), vec![]));
    shop.folding.wrap_thickness = um(15_380);
    assert_eq!(thick(&shop), (mm(25), vec![Code::NearThickness]));
    // a box has no slot
    shop.formats[0].kind = FormatKind::Box;
    assert_eq!(thick(&shop), (mm(25), vec![]));
    let masses = weighing(Mass::from_grams(50), Mass::ZERO);
    shop.formats[0].kind = FormatKind::Flat;
    let parcel = parcel(&shop, &order, &layout(&shop, &order), &masses);
    let (_, message) = &told(&shop, &masses, &parcel)[0];
    assert!(message.contains("about 25 mm thick and must pass a slot of 25 mm"), "{message}");
}
