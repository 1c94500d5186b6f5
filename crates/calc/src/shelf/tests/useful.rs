//! What is kept as a remnant.

use super::super::useful as rule;
use super::*;
use crate::fixture::shop;
use crate::shop::{FabricRole, SizeAt};

/// The fixture's design is 190 by 210 at a clearance of 6, or sewn with seams of 6 at none:
/// the former is the smaller outline. Its pitch is `95 + 6 · √(95² + 210²) / 210 = 101.586`.
#[test]
fn three_of_the_smallest_pennant_are_kept() {
    let shop = shop();
    for (width, length, holds) in [
        (394, 230, 3), // 190 + 2 · 101.586 = 393.172, and 20 of squaring
        (393, 230, 2),
        (394, 229, 0),
        (190, 650, 3),
        (190, 649, 2),
        (1_100, 230, 9),
        (189, 9_000, 0),
        (0, 0, 0),
        (-5, -5, 0),
    ] {
        let found = rule(&shop, 0, mm(width), mm(length));
        let kept = holds >= 3;
        assert_eq!((found.holds, found.kept, found.design), (holds, kept, Some(0)), "{width} by {length}");
    }
}

#[test]
fn direction_wash_and_print_count() {
    let mut shop = shop();
    // one way, in a row 196 apart: 190 + 2 · 196 = 582
    shop.fabrics[0].direction = Direction::OneWay;
    assert_eq!(rule(&shop, 0, mm(582), mm(230)).holds, 3);
    assert_eq!(rule(&shop, 0, mm(581), mm(230)).holds, 2);
    // 210 washed are 221.053 before, and 20 are squared off
    shop.fabrics[0].shrink_along = Percent::from_milli(5_000);
    assert_eq!(rule(&shop, 0, mm(582), mm(241)).holds, 0);
    assert_eq!(rule(&shop, 0, mm(582), mm(242)).holds, 3);
    // a print takes a repeat to find its start, 300 as it lies
    shop.fabrics[0].repeat = Repeat { across: mm(0), along: mm(300) };
    assert_eq!(rule(&shop, 0, mm(582), mm(541)).holds, 0);
    assert_eq!(rule(&shop, 0, mm(582), mm(542)).holds, 3);
}

#[test]
fn the_smallest_is_of_all_designs_in_whatever_cloth_they_hang() {
    let mut shop = shop();
    let mut small = shop.designs[0].clone();
    (small.width, small.drop, small.fabrics) = (mm(100), mm(110), vec![1]);
    shop.designs.push(small);
    // 100 by 110 with 6 between: 50 + 6 · √(50² + 110²) / 110 = 56.591, so 100 + 2 · 56.591 = 213.182
    for fabric in [0, 1] {
        assert_eq!(rule(&shop, fabric, mm(394), mm(230)).design, Some(1));
        assert_eq!(rule(&shop, fabric, mm(214), mm(130)), Useful { kept: true, holds: 3, design: Some(1) });
        assert_eq!(rule(&shop, fabric, mm(213), mm(130)).holds, 2);
    }
    // seen below the binding it is cut longer
    let at_top = rule(&shop, 1, mm(100), mm(130)).holds;
    shop.designs[1].size_at = SizeAt::BindingEdge;
    assert_eq!((at_top, rule(&shop, 1, mm(100), mm(130)).holds), (1, 0));
    // a web is cut for what is fused with it, and for nothing else
    shop.fabrics[0].role = FabricRole::Web;
    assert_eq!(rule(&shop, 0, mm(394), mm(230)), Useful { kept: false, holds: 0, design: None });
    shop.methods[1].web = Some(0);
    assert_eq!(rule(&shop, 0, mm(394), mm(230)).design, Some(1));
    assert_eq!(rule(&shop, 9, mm(394), mm(230)).design, None);
}

#[test]
fn counting_ends() {
    let shop = shop();
    assert_eq!(rule(&shop, 0, mm(1_100), mm(1_000_000)).holds, MOST_COUNTED);
    assert_eq!(rule(&shop, 0, um(i64::MAX), um(i64::MAX)).holds, MOST_COUNTED);
}
