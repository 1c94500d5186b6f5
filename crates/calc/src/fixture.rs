//! A small shop and orders at it, for the tests of every module.

use pennantry_measure::{BenchTime, Length, Money, Percent, Rate};

use crate::order::{ColourRule, Leftover, Order};
use crate::shop::{
    Bench, Binding, Cloth, Construction, Design, Direction, Fabric, Grain, Method, Pricing, Shape, Shop,
    SizeAt, Surplus,
};

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
pub(crate) fn shop() -> Shop {
    let fabric = |code: &str| Fabric {
        code: code.to_owned(),
        name: code.to_owned(),
        swatch: String::from("#336655"),
        fibre: String::from("cotton"),
        usable_width: mm(1_100),
        direction: Direction::TwoWay,
        price: Rate::from_micro_minor(800_000_000),
        cut_step: mm(100),
    };
    let method = |construction, seam, clearance| Method {
        construction,
        seam,
        clearance,
        row_gap: mm(0),
        per_pennant: BenchTime::from_milli_minutes(2_500),
    };
    Shop {
        name: String::from("Saltmere Loft"),
        currency: String::from("GBP"),
        minor_digits: 2,
        least: mm(500),
        most: mm(100_000),
        designs: vec![Design {
            code: String::from("first"),
            name: String::from("First"),
            shape: Shape::Triangle,
            width: mm(190),
            drop: mm(210),
            size_at: SizeAt::TopEdge,
            gap: mm(20),
            tail: mm(300),
            construction: Construction::SinglePinked,
            constructions: vec![Construction::SinglePinked, Construction::DoubleTurned],
            binding: 0,
            fabrics: vec![0, 1, 2],
            usual: mm(5_000),
        }],
        fabrics: ["kelp", "dune", "slate"].map(fabric).to_vec(),
        bindings: vec![Binding {
            code: String::from("cream"),
            name: String::from("Cream"),
            swatch: String::from("#fff8e0"),
            width: mm(25),
            price: Rate::from_micro_minor(60_000_000),
        }],
        trimmings: Vec::new(),
        methods: vec![
            method(Construction::SinglePinked, mm(0), mm(6)),
            method(Construction::DoubleTurned, mm(6), mm(0)),
        ],
        bench: Bench {
            set_up: BenchTime::from_milli_minutes(15_000),
            per_metre: BenchTime::from_milli_minutes(2_000),
            day: BenchTime::from_milli_minutes(360_000),
            wage: Rate::from_micro_minor(1_500_000_000),
            grain: Grain::Millimetre,
            turn_under: mm(10),
            knot: mm(120),
            tolerance: mm(5),
            tolerance_share: Percent::from_milli(1_000),
        },
        cloth: Cloth { squaring: mm(20), spares: Percent::from_milli(0) },
        pricing: Pricing {
            surplus: Surplus::Margin(Percent::from_milli(40_000)),
            minimum: Money::from_minor(1_500),
            tax_name: String::from("VAT"),
            tax_rate: Percent::from_milli(20_000),
        },
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
        construction: Construction::SinglePinked,
        backing: None,
        rule: ColourRule::Repeat,
        fabrics: vec![0, 1, 2],
        letters: Vec::new(),
        binding: 0,
        trimmings: Vec::new(),
        quantity: 1,
    }
}
