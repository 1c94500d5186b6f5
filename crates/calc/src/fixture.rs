//! A small shop and orders at it, for the tests of every module.

use pennantry_measure::{
    BenchTime, Length, Mass, MassPerArea, MassPerLength, Money, Percent, Rate, Rounding,
};

use crate::order::{ColourRule, End, Leftover, Near, Order};
use crate::quote::When;
use crate::shop::{
    Allowance, Band, Basis, Bench, Binding, BindingSource, Calendar, Cloth, Construction, Cord, Customs,
    DatedRate, Day, Design, Direction, Driver, EndCut, Extras, Fabric, FabricRole, Fee, Fixed, Folding,
    Format, FormatKind, Grain, Join, Lay, Letters, Maker, Method, Offer, Operation, Part, PartKind, Person,
    Pricing, Repeat, Roll, Service, Shape, Shop, SizeAt, Sold, Sundry, Surplus, Tax, TaxLevel, TaxPoint,
    Thread,
};

/// A Tuesday morning, 24 November 2026.
pub(crate) const WHEN: When = When { today: Day(20_781), late: false };

/// Whole millimetres.
pub(crate) fn mm(mm: i64) -> Length {
    Length::from_mm(mm)
}

/// Micrometres.
pub(crate) fn um(um: i64) -> Length {
    Length::from_um(um)
}

/// A shop with one design: 190 x 210 at the top edge, gap 20, least tail 300, one
/// pinked layer at a clearance of 6, a binding of 25, three two-way fabrics 1 100 wide.
/// Turn-unders 10, knots 120, 5 mm and 1 % of tolerance, marks to the millimetre.
///
/// At the bench: 15 minutes to set up, 2.5 a pennant, 2 a metre, no allowance, no learning.
/// One person works 360 minutes on each day but Sunday. Cloth of 140 g/m² and 0.25 mm,
/// binding of 6.0 g/m and 0.2 mm off rolls of 25 m, stitches of 2.5 mm, tex 27. One
/// service to GB by letter up to 500 g and by parcel up to 2 kg, one to two days.
///
/// Priced at a margin of 40 % with 20 % of tax in it and no overhead, fee, floor, break or
/// price point; by the metre nothing is listed. One stock length, 5 m.
pub(crate) fn shop() -> Shop {
    let fabric = |code: &str| Fabric {
        code: code.to_owned(),
        name: code.to_owned(),
        swatch: String::from("#336655"),
        picture: None,
        fibre: String::from("cotton"),
        class: String::from("standard"),
        usable_width: mm(1_100),
        direction: Direction::TwoWay,
        price: Rate::from_micro_minor(800_000_000),
        sold: Sold::Bolt { step: mm(100) },
        mass: MassPerArea::from_mg_per_m2(140_000),
        thickness: um(250),
        shrink_across: Percent::from_milli(0),
        shrink_along: Percent::from_milli(0),
        repeat: Repeat::default(),
        centred: false,
        role: FabricRole::Cloth,
        fire_certificates: Vec::new(),
    };
    let method = |construction, seam, clearance| Method {
        construction,
        seam,
        clearance,
        row_gap: mm(0),
        clip_tips: false,
        lays: vec![Lay::Flat],
        web: None,
    };
    Shop {
        name: String::from("Saltmere Loft"),
        currency: String::from("GBP"),
        minor_digits: 2,
        valid_days: 14,
        least: mm(500),
        most: mm(100_000),
        designs: vec![Design {
            code: String::from("first"),
            name: String::from("First"),
            shape: Shape::Triangle,
            width: mm(190),
            drop: mm(210),
            detail: mm(0),
            size_at: SizeAt::TopEdge,
            gap: mm(20),
            tail: mm(300),
            construction: Construction::SinglePinked,
            constructions: vec![Construction::SinglePinked, Construction::DoubleTurned],
            binding: 0,
            fabrics: vec![0, 1, 2],
            usual: mm(5_000),
            offer: Offer { pictured: true, ..Offer::default() },
            play: false,
            filling: None,
            stock: vec![mm(5_000)],
        }],
        fabrics: ["kelp", "dune", "slate"].map(fabric).to_vec(),
        bindings: vec![Binding {
            code: String::from("cream"),
            name: String::from("Cream"),
            swatch: String::from("#fff8e0"),
            width: mm(25),
            source: BindingSource::Bought {
                price: Rate::from_micro_minor(60_000_000),
                roll: Roll { length: mm(25_000), price: None },
                offcuts: Vec::new(),
            },
            mass: MassPerLength::from_ug_per_m(6_000_000),
            thickness: um(200),
            shrink: Percent::from_milli(0),
            fire_certificates: Vec::new(),
            cord: Cord::Tape,
        }],
        trimmings: Vec::new(),
        methods: vec![
            method(Construction::SinglePinked, mm(0), mm(6)),
            method(Construction::DoubleTurned, mm(6), mm(0)),
        ],
        bench: Bench {
            wage: Rate::from_micro_minor(1_500_000_000),
            grain: Grain::Millimetre,
            turn_under: mm(10),
            knot: mm(120),
            tolerance: mm(5),
            tolerance_share: Percent::from_milli(1_000),
            allowance: Allowance::OfWork(Percent::from_milli(0)),
            learning: false,
            operations: vec![
                operation("set-up", Driver::Order, 15_000),
                operation("sew", Driver::Pennant, 2_500),
                operation("topstitch", Driver::Metre, 2_000),
            ],
            join: Join { ends: EndCut::Mitred, seam: mm(6), least_piece: mm(300), off_middle: mm(500) },
            thread: Thread {
                stitch: um(2_500),
                mass: MassPerLength::from_ug_per_m(27_000),
                waste: Percent::from_milli(15_000),
                rows: 1,
                tail: mm(200),
                price: Rate::from_micro_minor(1_000_000),
            },
        },
        cloth: Cloth { squaring: mm(20), spares: Percent::from_milli(0) },
        pricing: Pricing {
            basis: Basis::CostPlus(Surplus::Margin(Percent::from_milli(40_000))),
            overhead: Rate::default(),
            fee: Fee::default(),
            minimum: Money::from_minor(1_500),
            floor: None,
            breaks: Vec::new(),
            point: None,
            list: Vec::new(),
            extras: Extras::default(),
            tax: Some(Tax {
                name: String::from("VAT"),
                registration: None,
                included: true,
                level: TaxLevel::Document,
                rounding: Rounding::HalfUp,
                point: TaxPoint::Order,
                rates: vec![DatedRate { from: Day(0), share: Percent::from_milli(20_000) }],
            }),
        },
        letters: Some(Letters {
            width: Percent::from_milli(40_000),
            height: Percent::from_milli(48_000),
            fabric: 2,
            web: None,
            stitching: Percent::from_milli(400_000),
        }),
        sundries: vec![Sundry {
            code: String::from("bag"),
            name: String::from("Bag"),
            driver: Driver::Order,
            price: Money::from_minor(20),
            mass: Mass::from_mg(8_000),
            packing: true,
            bag_opening: Some(mm(500)),
            bag_film: Some(um(50)),
        }],
        calendar: Calendar {
            people: vec![Person {
                name: String::from("Ada"),
                week: [360, 360, 360, 360, 360, 360, 0].map(|m| BenchTime::from_milli_minutes(m * 1_000)),
                off: Vec::new(),
            }],
            closed: Vec::new(),
            known_to: Day(22_000),
            cut_off: 14 * 60,
            rest_days: 0,
            load: Vec::new(),
            rush: Some(Percent::from_milli(20_000)),
        },
        folding: Folding {
            loft: Percent::from_milli(30_000),
            most_panels: 2,
            wrap: mm(10),
            wrap_thickness: mm(1),
            mass_tolerance: Percent::from_milli(5_000),
        },
        formats: vec![
            format("letter", FormatKind::Flat, [353, 250, 25], 500),
            format("parcel", FormatKind::Box, [450, 350, 160], 2_000),
        ],
        services: vec![Service {
            code: String::from("second"),
            name: String::from("Second"),
            countries: vec![String::from("GB")],
            transit: (1, 2),
            week: [true, true, true, true, true, true, false],
            closed: Vec::new(),
            volumetric: None,
            bands: vec![
                Band { format: 0, most: Mass::from_grams(500), price: Money::from_minor(250) },
                Band { format: 1, most: Mass::from_grams(2_000), price: Money::from_minor(420) },
            ],
        }],
        customs: Customs {
            country: String::from("GB"),
            origin: String::from("GB"),
            code: String::from("6307.90"),
        },
        maker: Maker {
            name: Some(String::from("Ada Marsh")),
            postal_address: Some(String::from("1 Slipway, Saltmere")),
            electronic_address: Some(String::from("ada@example.org")),
            responsible_person: Some(String::from("Quay Agents, 2 Strand, Corrmore, Ireland")),
            warned_countries: vec![String::from("IE")],
        },
    }
}

fn operation(code: &str, driver: Driver, milli: i64) -> Operation {
    Operation {
        code: code.to_owned(),
        name: code.to_owned(),
        constructions: Vec::new(),
        driver,
        time: BenchTime::from_milli_minutes(milli),
        learning: None,
    }
}

fn format(code: &str, kind: FormatKind, most: [i64; 3], grams: i64) -> Format {
    Format {
        code: code.to_owned(),
        name: code.to_owned(),
        kind,
        most: most.map(mm),
        least: [mm(0); 3],
        most_sum: None,
        most_girth: None,
        least_sum: None,
        least_ratio: None,
        most_mass: Some(Mass::from_grams(grams)),
    }
}

/// A part of cloth, sewn flat.
pub(crate) fn part() -> Part {
    Part {
        kind: PartKind::Textile,
        largest: mm(45),
        fits_cylinder: Some(false),
        fixed: Fixed::Sewn,
        pull: None,
        hangs: mm(0),
        play: false,
    }
}

/// An order for the first design as it is, which says neither length nor count.
pub(crate) fn order() -> Order {
    Order {
        design: 0,
        length: None,
        count: None,
        gap: mm(20),
        gap_given: false,
        tail: mm(300),
        tail_given: false,
        leftover: Leftover::Tails,
        parity: None,
        min_gap: None,
        max_gap: None,
        shape: Shape::Triangle,
        width: mm(190),
        drop: mm(210),
        size_at: SizeAt::TopEdge,
        detail: mm(0),
        construction: Construction::SinglePinked,
        backing: None,
        rule: ColourRule::Repeat,
        fabrics: vec![0, 1, 2],
        letters: Vec::new(),
        binding: 0,
        ends: [End::default(); 2],
        trimmings: Vec::new(),
        quantity: 1,
        near: Near::default(),
        country: String::from("GB"),
        service: None,
        wanted: None,
        discount: None,
        rush: false,
    }
}
