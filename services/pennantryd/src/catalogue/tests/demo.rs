//! The demo shop reads without a mistake and is what the stories and cases lean on.

use pennantry_calc::labour::{Counts, labour};
use pennantry_calc::shop::{
    Allowance, Basis, BindingSource, Booked, Break, CertificateKind, Construction, Cord, DatedRate, Day,
    Direction, Driver, EndCut, Extras, FabricRole, Fee, FireStandard, Fixed, FormatKind, Grain, Lay, Letters,
    Part, PartKind, Roll, Shape, Shop, SideRounding, SizeAt, Sold, StripGrain, Surplus, TaxLevel, TaxPoint,
    Volumetric,
};
use pennantry_measure::{
    BenchTime, Force, Length, Mass, MassPerArea, MassPerLength, Money, Percent, Rate, Rounding,
};

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
    assert_eq!(shop.valid_days, 14);
    assert_eq!((shop.least, shop.most), (mm(500), mm(100_000)));
    assert_eq!(shop.bench.wage, Rate::from_micro_minor(1_750_000_000));
    assert_eq!(shop.bench.grain, Grain::Millimetre);
    assert_eq!((shop.bench.turn_under, shop.bench.knot), (mm(10), mm(120)));
    assert_eq!((shop.bench.tolerance, shop.bench.tolerance_share), (mm(5), Percent::from_milli(1_000)));
    assert_eq!((shop.cloth.squaring, shop.cloth.spares), (mm(20), Percent::from_milli(0)));
    let pricing = &shop.pricing;
    let share = Percent::from_milli;
    assert_eq!(pricing.basis, Basis::CostPlus(Surplus::Margin(share(35_000))));
    assert_eq!((pricing.minimum, pricing.floor), (Money::from_minor(2_400), Some(share(20_000))));
    assert_eq!(pricing.overhead, Rate::from_micro_minor(640_000_000));
    assert_eq!(pricing.fee, Fee { share: share(1_500), fixed: Money::from_minor(20) });
    let breaks = [Break { from: 6, off: share(4_000) }, Break { from: 20, off: share(9_000) }];
    assert_eq!((pricing.breaks.as_slice(), &pricing.point), (breaks.as_slice(), &None));
    assert_eq!(pricing.list.len(), 6);
    let extras = [260, 70, 90, 40].map(Money::from_minor);
    let [letter, trimming, looped, tie] = extras;
    assert_eq!(pricing.extras, Extras { letter, trimming, looped, tie });
    let tax = pricing.tax.as_ref().unwrap();
    assert_eq!((tax.name.as_str(), tax.registration.as_deref()), ("VAT", Some("GB 000 0000 00")));
    assert_eq!((tax.included, tax.level, tax.rounding), (true, TaxLevel::Document, Rounding::HalfUp));
    // 4 January 2011, 14 978 days after the first of January 1970
    assert_eq!(tax.rates, [DatedRate { from: Day(14_978), share: share(20_000) }]);
    assert_eq!(tax.point, TaxPoint::Order);
    assert_eq!(shop.designs[0].stock, [3_000, 5_000, 10_000].map(mm));
    assert_eq!(shop.fabrics[0].price, Rate::from_micro_minor(1_100_000_000));
    assert_eq!(shop.fabrics[0].sold, Sold::Bolt { step: mm(100) });
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

/// Minutes for one string, each piece cut by itself and nothing spread in layers.
fn minutes(shop: &Shop, construction: Construction, pennants: u32, overall: Length) -> i64 {
    let pieces = pennants * construction.layers();
    let counts = Counts { strings: 1, pennants, pieces, outlines: pieces, overall, ..Counts::default() };
    labour(shop, construction, &counts).total.milli_minutes()
}

#[test]
fn its_operations_take_79_8_minutes_for_a_string_of_29_pinked_pennants() {
    let shop = read(SALTMERE_LOFT).unwrap();
    assert_eq!(shop.bench.allowance, Allowance::OfShift(Percent::from_milli(10_000)));
    // derived: 13.5 an order, 29 x 1.8 and 6.8 x 0.9 are 71.82 minutes of work; 71.82 / 0.9
    let counts = Counts {
        strings: 1,
        pennants: 29,
        pieces: 29,
        outlines: 29,
        layers: 3,
        overall: mm(6_800),
        ..Counts::default()
    };
    let labour = labour(&shop, Construction::SinglePinked, &counts);
    assert_eq!(labour.work, BenchTime::from_milli_minutes(71_820));
    assert_eq!(labour.total, BenchTime::from_milli_minutes(79_800));
}

#[test]
fn each_construction_takes_its_minutes_a_pennant() {
    let shop = read(SALTMERE_LOFT).unwrap();
    // derived: the demo's operations added up by hand, 15 + 1 a metre and these a pennant
    for (construction, milli) in [
        (Construction::SinglePinked, 2_000),
        (Construction::SinglePlain, 1_400),
        (Construction::DoubleTurned, 4_500),
        (Construction::DoublePinked, 3_200),
        (Construction::DoubleFused, 2_600),
    ] {
        assert_eq!(
            minutes(&shop, construction, 29, mm(6_800)),
            15_000 + 6_800 + 29 * milli,
            "{construction:?}"
        );
    }
}

#[test]
fn letters_trimmings_joins_and_layers_add_theirs() {
    let shop = read(SALTMERE_LOFT).unwrap();
    let of = |driver| pennantry_calc::labour::time_of(&shop, Construction::DoubleTurned, driver);
    for (driver, milli) in
        [(Driver::Letter, 3_000), (Driver::Trimming, 500), (Driver::Join, 2_000), (Driver::Layer, 500)]
    {
        assert_eq!(of(driver), BenchTime::from_milli_minutes(milli), "{driver:?}");
    }
    let spread = pennantry_calc::labour::time_of(&shop, Construction::SinglePinked, Driver::Layer);
    assert_eq!(spread, BenchTime::ZERO);
}

#[test]
fn sixty_two_metres_are_nine_bench_days() {
    let shop = read(SALTMERE_LOFT).unwrap();
    // derived: (62 000 + 20) / 210 = 295.3, so 295 pennants; 62 m and two tails of 0.3 m
    let time = minutes(&shop, shop.designs[0].construction, 295, mm(62_600));
    assert_eq!(time, 15_000 + 62_600 + 590_000);
    let bench_day = shop.calendar.bench_day();
    assert_eq!(bench_day, BenchTime::from_milli_minutes(75_000));
    assert_eq!(2 * time / bench_day.milli_minutes(), 17, "8.5 to 9 days, which round to nine");
}

#[test]
fn its_materials_are_those_of_the_file() {
    let shop = read(SALTMERE_LOFT).unwrap();
    let thread = shop.bench.thread;
    assert_eq!((thread.stitch, thread.rows, thread.tail), (Length::from_um(2_500), 1, mm(200)));
    assert_eq!(thread.mass, MassPerLength::from_ug_per_m(27_000));
    assert_eq!(thread.price, Rate::from_micro_minor(1_200_000));
    assert_eq!(shop.bench.join.ends, EndCut::Mitred);
    let fabric = |code: &str| shop.fabrics.iter().find(|fabric| fabric.code == code).unwrap();
    let kelp = fabric("kelp");
    assert_eq!((kelp.mass, kelp.thickness), (MassPerArea::from_mg_per_m2(140_000), Length::from_um(250)));
    assert_eq!((kelp.shrink_across, kelp.repeat.across), (Percent::from_milli(0), mm(0)));
    assert_eq!(kelp.role, FabricRole::Cloth);
    let linen = fabric("marram-linen");
    assert_eq!(
        (linen.shrink_across, linen.shrink_along),
        (Percent::from_milli(3_000), Percent::from_milli(5_000))
    );
    let map = fabric("pilot-map");
    assert_eq!((map.direction, map.repeat.across, map.repeat.along), (Direction::OneWay, mm(160), mm(240)));
    assert_eq!(fabric("sea-glass").sold, Sold::Pieces { length: mm(500) });
    assert_eq!(fabric("gull-web").role, FabricRole::Web);
    assert_eq!(fabric("bell-buoy").direction, Direction::FourWay);
    let web = shop.fabrics.iter().position(|fabric| fabric.code == "gull-web");
    assert_eq!(shop.method(Construction::DoubleFused).unwrap().web, web);
    assert_eq!(
        shop.letters,
        Some(Letters {
            width: Percent::from_milli(40_000),
            height: Percent::from_milli(48_000),
            fabric: 8,
            web,
            stitching: Percent::from_milli(400_000),
        })
    );
    assert_eq!(shop.fabrics[8].code, "sail-end");
    assert_eq!(shop.method(Construction::DoubleTurned).unwrap().lays, [Lay::Flat, Lay::FoldedAcross]);
}

#[test]
fn its_bindings_are_bought_or_cut_from_its_cloth() {
    let shop = read(SALTMERE_LOFT).unwrap();
    let bought = |price, length, roll_price: Option<i64>| BindingSource::Bought {
        price: Rate::from_micro_minor(price),
        roll: Roll { length: mm(length), price: roll_price.map(Money::from_minor) },
        offcuts: Vec::new(),
    };
    let cut = |fabric, grain| BindingSource::Cloth { fabric, raw: mm(50), grain };
    let sources: Vec<BindingSource> = shop.bindings.iter().map(|binding| binding.source.clone()).collect();
    assert_eq!(
        sources,
        [
            bought(55_000_000, 25_000, None),
            bought(48_000_000, 20_000, None),
            bought(72_000_000, 50_000, Some(3_000)),
            cut(1, StripGrain::Straight),
            cut(0, StripGrain::Bias),
            bought(65_000_000, 30_000, None),
            bought(90_000_000, 25_000, None),
        ]
    );
    assert_eq!(shop.bindings[0].mass, MassPerLength::from_ug_per_m(6_000_000));
    assert_eq!(shop.bindings[0].thickness, Length::from_um(200));
}

/// Every kind of cord and part that the rules about children tell apart is there.
#[test]
fn its_cords_and_parts_are_those_of_the_file() {
    let shop = read(SALTMERE_LOFT).unwrap();
    let cords: Vec<Cord> = shop.bindings.iter().map(|binding| binding.cord).collect();
    assert_eq!(cords[..5], [Cord::Tape; 5]);
    assert_eq!(
        cords[5..],
        [
            Cord::Round { thickness: mm(4) },
            Cord::Elastic { thickness: Length::from_um(1_600), stretch: Percent::from_milli(80_000) },
        ]
    );
    let part = Part {
        kind: PartKind::Hard,
        largest: mm(28),
        fits_cylinder: Some(true),
        fixed: Fixed::Sewn,
        pull: Some(Force::from_newtons(90)),
        hangs: mm(0),
        play: false,
    };
    let star = Part { kind: PartKind::Textile, largest: mm(45), fixed: Fixed::Glued, ..part };
    let pompom = Part { kind: PartKind::Pompom, largest: mm(30), hangs: mm(30), ..part };
    let untested = |part: Part| Part { fits_cylinder: None, pull: None, ..part };
    let parts: Vec<Part> = shop.trimmings.iter().map(|trimming| trimming.part).collect();
    assert_eq!(parts, [part, untested(star), untested(pompom)]);
    assert!(shop.designs.iter().all(|design| !design.play && design.filling.is_none()));
}

#[test]
fn its_calendar_is_that_of_the_file() {
    let shop = read(SALTMERE_LOFT).unwrap();
    let calendar = &shop.calendar;
    assert_eq!((calendar.cut_off, calendar.rest_days), (14 * 60, 0));
    assert_eq!(calendar.known_to.to_string(), "2027-12-31");
    assert_eq!(calendar.rush, Some(Percent::from_milli(25_000)));
    // bank holidays of England and Wales as the government publishes them
    let closed: Vec<String> = calendar.closed.iter().map(Day::to_string).collect();
    assert_eq!(
        closed,
        [
            "2026-12-25",
            "2026-12-28",
            "2027-01-01",
            "2027-03-26",
            "2027-03-29",
            "2027-05-03",
            "2027-05-31",
            "2027-08-30",
            "2027-12-27",
            "2027-12-28"
        ]
    );
    // a bank holiday is a working day otherwise: Monday to Friday
    assert!(calendar.closed.iter().all(|day| day.weekday() < 5));
    // 24 November 2026 is a Tuesday, 20 781 days after the first of January 1970
    assert_eq!(calendar.load, [Booked { day: Day(20_781), time: BenchTime::from_milli_minutes(60_000) }]);
    assert_eq!(calendar.load[0].day.weekday(), 1);
    let names: Vec<&str> = calendar.people.iter().map(|person| person.name.as_str()).collect();
    assert_eq!(names, ["Ailsa", "Ned"]);
}

#[test]
fn its_parcels_are_those_of_the_file() {
    let shop = read(SALTMERE_LOFT).unwrap();
    let largest: Vec<(FormatKind, [i64; 3], Option<i64>)> = shop
        .formats
        .iter()
        .map(|format| {
            (format.kind, format.most.map(|side| side.um() / 1_000), format.most_mass.map(Mass::grams_up))
        })
        .collect();
    assert_eq!(
        largest,
        [
            (FormatKind::Flat, [240, 165, 5], Some(100)),
            (FormatKind::Flat, [353, 250, 25], Some(750)),
            (FormatKind::Box, [450, 350, 160], Some(2_000)),
            (FormatKind::Box, [610, 460, 460], Some(20_000)),
            (FormatKind::Box, [600, 600, 600], Some(2_000)),
            (FormatKind::Roll, [900, 450, 450], Some(2_000)),
        ]
    );
    assert_eq!((shop.formats[4].most_sum, shop.formats[5].least_sum), (Some(mm(900)), Some(mm(170))));
    let second = &shop.services[0];
    assert_eq!((second.code.as_str(), second.transit), ("home-second", (2, 3)));
    assert_eq!(second.week, [true, true, true, true, true, true, false]);
    assert_eq!(second.closed, shop.calendar.closed);
    assert_eq!((second.bands[3].format, second.bands[3].most), (1, Mass::from_grams(500)));
    assert_eq!(second.bands[3].price, Money::from_minor(230));
    assert!(shop.services[2].countries.contains(&"IE".to_owned()));
    assert_eq!(
        shop.services[3].volumetric,
        Some(Volumetric {
            divisor: 5_000,
            sides: SideRounding::Up,
            step: Mass::from_grams(500),
            threshold: 0,
            step_real: false,
        })
    );
    assert_eq!((shop.customs.country.as_str(), shop.customs.code.as_str()), ("GB", "6307.90"));
    let packing: Vec<bool> = shop.sundries.iter().map(|sundry| sundry.packing).collect();
    assert_eq!(packing, [false, true, true]);
}

#[test]
fn its_papers_are_those_of_the_file() {
    let shop = read(SALTMERE_LOFT).unwrap();
    let papers: Vec<(&str, FireStandard, CertificateKind)> = shop
        .fabrics
        .iter()
        .flat_map(|fabric| fabric.fire_certificates.iter().map(|paper| (fabric.code.as_str(), paper)))
        .map(|(code, paper)| (code, paper.standard, paper.kind))
        .collect();
    assert_eq!(
        papers,
        [
            ("sail-end", FireStandard::Bs5867TypeB, CertificateKind::Tested),
            ("marram-linen", FireStandard::Bs5867TypeB, CertificateKind::Treated),
        ]
    );
    assert_eq!(shop.bindings[2].fire_certificates[0].lot, "HW-30-2");
    let children: Vec<(&str, bool)> = shop
        .designs
        .iter()
        .filter(|design| design.offer.for_children)
        .map(|design| (design.code.as_str(), design.offer.us_children_file))
        .collect();
    assert_eq!(children, [("minnow", false), ("limpet", true)]);
    assert!(shop.designs.iter().all(|design| design.offer.pictured));
    let bags: Vec<(Option<Length>, Option<Length>)> =
        shop.sundries.iter().map(|sundry| (sundry.bag_opening, sundry.bag_film)).collect();
    assert_eq!(bags, [(None, None), (None, None), (Some(mm(500)), Some(Length::from_um(60)))]);
    // RFC 2606 keeps example.org for examples
    assert!(shop.maker.electronic_address.unwrap().ends_with(".example.org"));
    assert_eq!(shop.maker.warned_countries, ["IE", "MT"]);
}

#[test]
fn it_has_every_shape_with_its_measure() {
    let shop = read(SALTMERE_LOFT).unwrap();
    let shapes: Vec<(Shape, Length)> =
        shop.designs.iter().skip(4).map(|design| (design.shape, design.detail)).collect();
    assert_eq!(
        shapes,
        [
            (Shape::Triangle, mm(0)),
            (Shape::Blunt, mm(60)),
            (Shape::Swallowtail, mm(60)),
            (Shape::Shield, mm(130)),
            (Shape::Scallop, mm(70)),
            (Shape::Rectangle, mm(0)),
        ]
    );
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
        [mm(25), mm(20), mm(30), mm(25), mm(25), mm(8), mm(20)]
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
