//! The demo shop reads without a mistake and is what the stories and cases lean on.

use pennantry_calc::shop::{Construction, Direction, Grain, Shape, SizeAt, Surplus};
use pennantry_measure::{BenchTime, Length, Money, Percent, Rate};

use super::super::{SALTMERE_LOFT, open, read, revision};

fn mm(mm: i64) -> Length {
    Length::from_mm(mm)
}

#[test]
fn it_reads_without_a_mistake() {
    let loaded = open(SALTMERE_LOFT).unwrap_or_else(|found| panic!("{found:#?}"));
    assert_eq!(loaded.shop.name, "Saltmere Loft");
    assert_eq!(loaded.revision, revision(SALTMERE_LOFT));
    assert_eq!(loaded.zone.iana_name(), Some("Europe/London"));
}

#[test]
fn its_figures_are_those_of_the_file() {
    let shop = read(SALTMERE_LOFT).unwrap();
    assert_eq!((shop.currency.as_str(), shop.minor_digits), ("GBP", 2));
    assert_eq!((shop.least, shop.most), (mm(500), mm(100_000)));
    assert_eq!(shop.bench.wage, Rate::from_micro_minor(1_750_000_000));
    assert_eq!(shop.bench.grain, Grain::Millimetre);
    assert_eq!((shop.bench.turn_under, shop.bench.knot), (mm(10), mm(120)));
    assert_eq!((shop.bench.tolerance, shop.bench.tolerance_share), (mm(5), Percent::from_milli(1_000)));
    assert_eq!((shop.cloth.squaring, shop.cloth.spares), (mm(20), Percent::from_milli(0)));
    assert_eq!(shop.pricing.surplus, Surplus::Margin(Percent::from_milli(35_000)));
    assert_eq!(shop.pricing.minimum, Money::from_minor(2_400));
    assert_eq!((shop.pricing.tax_name.as_str(), shop.pricing.tax_rate), ("VAT", Percent::from_milli(20_000)));
    assert_eq!(shop.fabrics[0].price, Rate::from_micro_minor(1_100_000_000));
    assert_eq!(shop.bindings[0].price, Rate::from_micro_minor(55_000_000));
    assert_eq!(shop.fabrics[0].cut_step, mm(100));
}

#[test]
fn its_first_design_is_the_one_of_the_stories() {
    let shop = read(SALTMERE_LOFT).unwrap();
    let first = &shop.designs[0];
    assert_eq!((first.shape, first.size_at), (Shape::Triangle, SizeAt::TopEdge));
    assert_eq!((first.width, first.drop, first.gap, first.tail), (mm(190), mm(210), mm(20), mm(300)));
    assert_eq!((first.construction, first.constructions.len()), (Construction::SinglePinked, 5));
    assert_eq!((shop.bindings[first.binding].width, first.usual), (mm(25), mm(5_000)));
    for fabric in &shop.fabrics[..4] {
        assert_eq!((fabric.usable_width, fabric.direction), (mm(1_100), Direction::TwoWay));
    }
    assert_eq!(first.fabrics, [0, 1, 2]);
    let method = shop.method(first.construction).unwrap();
    assert_eq!((method.seam, method.clearance, method.row_gap), (mm(0), mm(6), mm(0)));
}

#[test]
fn sixty_two_metres_are_nine_bench_days() {
    let shop = read(SALTMERE_LOFT).unwrap();
    let first = &shop.designs[0];
    // derived: (62 000 + 20) / 210 = 295.3, so 295 pennants; 62 m and two tails of 0.3 m
    let pennant = shop.method(first.construction).unwrap().per_pennant;
    let time = shop.bench.set_up + shop.bench.per_metre.per_metre(mm(62_600)) + pennant * 295;
    assert_eq!(time, BenchTime::from_milli_minutes(15_000 + 62_600 + 590_000));
    let days_by_two = 2 * time.milli_minutes() / shop.bench.day.milli_minutes();
    assert_eq!(days_by_two, 17, "8.5 to 9 days, which round to nine");
}

#[test]
fn it_has_something_of_every_kind() {
    let shop = read(SALTMERE_LOFT).unwrap();
    let widths: Vec<Length> = shop.fabrics.iter().map(|fabric| fabric.usable_width).collect();
    assert!(shop.fabrics.len() >= 9 && widths.contains(&mm(1_350)) && widths.contains(&mm(1_480)));
    assert!(widths.iter().any(|width| *width < mm(600)), "a narrow one");
    assert!(shop.fabrics.iter().any(|fabric| fabric.direction == Direction::OneWay));
    assert_eq!(
        shop.bindings.iter().map(|binding| binding.width).collect::<Vec<_>>(),
        [mm(25), mm(20), mm(30)]
    );
    assert_eq!(shop.trimmings.len(), 3);
    assert_eq!(shop.methods.len(), 5);
    let usual: Vec<Construction> = shop.designs.iter().map(|design| design.construction).collect();
    assert!(usual.contains(&Construction::DoubleTurned) && usual.contains(&Construction::SinglePlain));
}

#[test]
fn its_text_is_written_anew_by_a_tool_and_still_reads_the_same() {
    let table: toml::Table = SALTMERE_LOFT.parse().unwrap();
    let anew = toml::to_string(&table).unwrap();
    assert_ne!(anew, SALTMERE_LOFT);
    assert_eq!(read(&anew).unwrap(), read(SALTMERE_LOFT).unwrap());
    assert_ne!(revision(&anew), revision(SALTMERE_LOFT));
}
