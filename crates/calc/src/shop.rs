//! What the catalogue says, in the measures of the calculation.

use pennantry_measure::{BenchTime, Length, Money, Percent, Rate};

/// A shop: what it makes, from what, how fast and for how much.
///
/// Places in lists (`usize`) are always valid: the catalogue reader sees to it.
#[derive(Debug, Clone, PartialEq)]
pub struct Shop {
    /// Its name.
    pub name: String,
    /// ISO 4217 code of its one currency.
    pub currency: String,
    /// How many digits of an amount are minor.
    pub minor_digits: u8,
    /// Shortest length it makes.
    pub least: Length,
    /// Longest length it makes.
    pub most: Length,
    /// Designs; the first stands in. Never empty.
    pub designs: Vec<Design>,
    /// Fabrics. Never empty.
    pub fabrics: Vec<Fabric>,
    /// Bindings. Never empty.
    pub bindings: Vec<Binding>,
    /// Trimmings.
    pub trimmings: Vec<Trimming>,
    /// One method for each construction the shop can make.
    pub methods: Vec<Method>,
    /// The bench.
    pub bench: Bench,
    /// How cloth is cut off and spared.
    pub cloth: Cloth,
    /// How the price is set.
    pub pricing: Pricing,
}

impl Shop {
    /// How a construction is made here, if it is.
    pub fn method(&self, construction: Construction) -> Option<&Method> {
        self.methods.iter().find(|m| m.construction == construction)
    }
}

/// A pennant and how it is usually set.
#[derive(Debug, Clone, PartialEq)]
pub struct Design {
    /// Its code.
    pub code: String,
    /// Its name.
    pub name: String,
    /// Its shape.
    pub shape: Shape,
    /// Its width.
    pub width: Length,
    /// Its drop.
    pub drop: Length,
    /// Where width, drop and gap are taken.
    pub size_at: SizeAt,
    /// The usual gap.
    pub gap: Length,
    /// The least tail.
    pub tail: Length,
    /// The usual construction.
    pub construction: Construction,
    /// All constructions it can be had in; each has a method.
    pub constructions: Vec<Construction>,
    /// The usual binding's place.
    pub binding: usize,
    /// The usual fabrics' places, in order. Never empty.
    pub fabrics: Vec<usize>,
    /// The usual flagged length, against which slips are noticed.
    pub usual: Length,
}

/// A cloth.
#[derive(Debug, Clone, PartialEq)]
pub struct Fabric {
    /// Its code.
    pub code: String,
    /// Its name.
    pub name: String,
    /// Colour for screens, `#rrggbb`.
    pub swatch: String,
    /// What it is made of.
    pub fibre: String,
    /// Width between the selvedges that can be used.
    pub usable_width: Length,
    /// Whether pieces may lie head to tail.
    pub direction: Direction,
    /// Price a metre, before tax.
    pub price: Rate,
    /// Step in which it is cut off the bolt.
    pub cut_step: Length,
}

/// Which ways pieces may lie on a cloth.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Direction {
    /// One way: the print, or the nap, has a right way up.
    OneWay,
    /// Two ways: upright or turned by half.
    TwoWay,
}

/// A folded binding.
#[derive(Debug, Clone, PartialEq)]
pub struct Binding {
    /// Its code.
    pub code: String,
    /// Its name.
    pub name: String,
    /// Colour for screens, `#rrggbb`.
    pub swatch: String,
    /// Width, flat, fold to fold, as sold. Pennants' tops sit half of it deep.
    pub width: Length,
    /// Price a metre, before tax.
    pub price: Rate,
}

impl Binding {
    /// How deep the pennants' tops sit in it: to the fold, half the flat width.
    pub fn insertion(&self) -> Length {
        Length::from_um(self.width.um() / 2)
    }
}

/// A trimming.
#[derive(Debug, Clone, PartialEq)]
pub struct Trimming {
    /// Its code.
    pub code: String,
    /// Its name.
    pub name: String,
}

/// How one construction is made at this shop.
#[derive(Debug, Clone, PartialEq)]
pub struct Method {
    /// The construction.
    pub construction: Construction,
    /// Seam beyond the finished sides.
    pub seam: Length,
    /// Least distance between neighbours in a row, square to their sides: 0 where
    /// they share a cut, more where they are cut out roughly and pinked later.
    pub clearance: Length,
    /// Cloth left between rows: 0 where they share a straight cut.
    pub row_gap: Length,
    /// Bench time for each pennant.
    pub per_pennant: BenchTime,
}

/// The bench.
#[derive(Debug, Clone, PartialEq)]
pub struct Bench {
    /// Time to set up, once an order.
    pub set_up: BenchTime,
    /// Time for each metre of overall length.
    pub per_metre: BenchTime,
    /// Time of one bench day.
    pub day: BenchTime,
    /// Wage an hour.
    pub wage: Rate,
    /// What marks are rounded to.
    pub grain: Grain,
    /// Binding turned under at each end.
    pub turn_under: Length,
    /// Binding that a knot takes at each end of a hang.
    pub knot: Length,
    /// Least tolerance of the flagged length.
    pub tolerance: Length,
    /// Tolerance as a share of the flagged length; the larger stands.
    pub tolerance_share: Percent,
}

/// What marks are rounded to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Grain {
    /// Whole millimetres.
    Millimetre,
    /// Sixteenths of an inch.
    SixteenthInch,
}

impl Grain {
    /// The grain as a length: a sixteenth of an inch is 1.5875 mm, here to the
    /// nearest micrometre; marks are rounded by the exact sixteenth.
    pub fn length(self) -> Length {
        match self {
            Grain::Millimetre => Length::from_um(1_000),
            Grain::SixteenthInch => Length::from_um(1_588),
        }
    }
}

/// How cloth is cut off and spared.
#[derive(Debug, Clone, PartialEq)]
pub struct Cloth {
    /// Cloth spent on squaring the end of each length.
    pub squaring: Length,
    /// Spare pieces, as a share of those needed, up to the next whole piece.
    pub spares: Percent,
}

/// How the price is set.
#[derive(Debug, Clone, PartialEq)]
pub struct Pricing {
    /// What stands over the cost.
    pub surplus: Surplus,
    /// Least charge for an order, tax included.
    pub minimum: Money,
    /// Name of the tax in the price.
    pub tax_name: String,
    /// Its rate.
    pub tax_rate: Percent,
}

/// What stands over the cost: a share of the price or of the cost, never both.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Surplus {
    /// Share of the price before tax: price = cost / (1 - margin).
    Margin(Percent),
    /// Share of the cost: price = cost x (1 + mark-up).
    Markup(Percent),
}

/// The shape of a pennant.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Shape {
    /// Straight top, two sides to a point.
    Triangle,
    /// Straight top, two sides to a narrower foot.
    Blunt,
    /// Straight sides, the foot cut up into a V.
    Swallowtail,
    /// Straight sides, then to a point.
    Shield,
    /// Straight sides, round foot.
    Scallop,
    /// Four straight sides.
    Rectangle,
}

/// Where width, drop and gap are taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SizeAt {
    /// At the template's finished top edge, which the binding hides.
    TopEdge,
    /// As seen below the binding.
    BindingEdge,
}

/// How a pennant is made.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Construction {
    /// One layer, its sides pinked.
    SinglePinked,
    /// One layer of cloth that does not fray.
    SinglePlain,
    /// Two layers sewn right sides together and turned.
    DoubleTurned,
    /// Two layers sewn wrong sides together, the sides pinked.
    DoublePinked,
    /// Two layers fused, then cut.
    DoubleFused,
}

impl Construction {
    /// Pieces that one pennant takes.
    pub fn layers(self) -> u32 {
        match self {
            Construction::SinglePinked | Construction::SinglePlain => 1,
            Construction::DoubleTurned | Construction::DoublePinked | Construction::DoubleFused => 2,
        }
    }
}
