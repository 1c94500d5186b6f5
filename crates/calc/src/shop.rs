//! What the catalogue says, in the measures of the calculation.

mod bench;
mod calendar;
mod child;
mod paper;
mod post;
mod pricing;

use pennantry_measure::{Length, Mass, MassPerArea, MassPerLength, Money, Percent, Rate};

pub use bench::{
    Allowance, Bench, Driver, EndCut, Grain, Join, Lay, Learning, Letters, Method, Operation, Sundry, Thread,
};
pub use calendar::{Booked, Calendar, Day, Person};
pub use child::{Cord, Filling, Fixed, Part, PartKind};
pub use paper::{CertificateKind, FireCertificate, FireStandard, Maker, Offer};
pub use post::{Band, Customs, Folding, Format, FormatKind, Service, SideRounding, Volumetric};
pub use pricing::{
    Basis, Break, DatedRate, Extras, Fee, ListPrice, Point, PointMode, Pricing, Surplus, Tax, TaxLevel,
    TaxPoint,
};

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
    /// Days after the order day to whose end a quote holds, 1 to 90.
    pub valid_days: u32,
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
    /// How letters are put on, where they are.
    pub letters: Option<Letters>,
    /// What is used up by the piece.
    pub sundries: Vec<Sundry>,
    /// How the price is set.
    pub pricing: Pricing,
    /// When the bench works.
    pub calendar: Calendar,
    /// How strings are folded and wrapped.
    pub folding: Folding,
    /// Postal formats.
    pub formats: Vec<Format>,
    /// Postal services, the preferred first.
    pub services: Vec<Service>,
    /// What customs want to know.
    pub customs: Customs,
    /// Who makes the strings and answers for them.
    pub maker: Maker,
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
    /// What its shape has beside width and drop: see [`Shape`]. Nought for a triangle and
    /// a rectangle.
    pub detail: Length,
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
    /// How it is offered.
    pub offer: Offer,
    /// Whether a child would play with it.
    pub play: bool,
    /// How its pennants are filled, if they are.
    pub filling: Option<Filling>,
    /// Flagged lengths that it is offered in to everybody.
    pub stock: Vec<Length>,
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
    /// A photograph of it, if there is one.
    pub picture: Option<Picture>,
    /// What it is made of.
    pub fibre: String,
    /// Its class in the price list.
    pub class: String,
    /// Width between the selvedges that can be used.
    pub usable_width: Length,
    /// Whether pieces may lie head to tail, or on their side.
    pub direction: Direction,
    /// Price a metre, before tax.
    pub price: Rate,
    /// How it is sold.
    pub sold: Sold,
    /// Mass of its area.
    pub mass: MassPerArea,
    /// Thickness of one layer.
    pub thickness: Length,
    /// What its width loses when it is washed before cutting; nought where it is not.
    pub shrink_across: Percent,
    /// What its length loses when it is washed before cutting; nought where it is not.
    pub shrink_along: Percent,
    /// Where every pennant shows the same part of a print: after which length, across
    /// and along, the print repeats. Nought where it does not matter.
    pub repeat: Repeat,
    /// Whether that part is to sit in the middle of each pennant, wherever on the bolt the
    /// print begins, and not only in the same place on all of them.
    pub centred: bool,
    /// What it is there for.
    pub role: FabricRole,
    /// Papers about how it burns; none on file where there are none.
    pub fire_certificates: Vec<FireCertificate>,
}

/// A photograph of a cloth, lying in the shop's folder of pictures.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Picture {
    /// Name of the file.
    pub file: String,
    /// How much of the cloth it shows across.
    pub across: Length,
    /// How much of it, along.
    pub along: Length,
}

/// How a cloth is sold.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Sold {
    /// Off a bolt, in steps of a length.
    Bolt {
        /// Step in which it is cut off.
        step: Length,
    },
    /// In pieces of one length, such as fat quarters; the usable width is theirs.
    Pieces {
        /// Length of a piece along the grain.
        length: Length,
    },
}

/// After which length a print repeats; nought where it does not matter.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Repeat {
    /// Across the cloth.
    pub across: Length,
    /// Along the cloth.
    pub along: Length,
}

/// What a cloth is there for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FabricRole {
    /// Pennants and letters.
    Cloth,
    /// Fusing layers; buyers cannot choose it.
    Web,
}

/// Which ways pieces may lie on a cloth.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Direction {
    /// One way: the print, or the nap, has a right way up.
    OneWay,
    /// Two ways: upright or turned by half.
    TwoWay,
    /// Any quarter turn.
    FourWay,
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
    /// Where it comes from.
    pub source: BindingSource,
    /// Mass of its length.
    pub mass: MassPerLength,
    /// Thickness of one layer of its cloth.
    pub thickness: Length,
    /// What its length loses when it is washed before sewing; nought where it is not.
    pub shrink: Percent,
    /// Papers about how it burns, where it is bought; one that is cut from a cloth has those
    /// of its cloth.
    pub fire_certificates: Vec<FireCertificate>,
    /// What it is as a cord.
    pub cord: Cord,
}

/// Where a binding comes from.
#[derive(Debug, Clone, PartialEq)]
pub enum BindingSource {
    /// Bought.
    Bought {
        /// Price of a metre cut off, before tax.
        price: Rate,
        /// The whole roll, where it is sold so.
        roll: Roll,
        /// Offcuts on the shelf.
        offcuts: Vec<Length>,
    },
    /// Cut from a cloth of the shop.
    Cloth {
        /// Place of the cloth.
        fabric: usize,
        /// Width of the strip that it is folded from.
        raw: Length,
        /// Which way strips are cut.
        grain: StripGrain,
    },
}

/// A roll of binding.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Roll {
    /// Its length.
    pub length: Length,
    /// Its price, before tax; none where whole rolls cost the price a metre.
    pub price: Option<Money>,
}

/// Which way strips for a binding are cut.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum StripGrain {
    /// Along the grain, straight across the cloth.
    Straight,
    /// On the bias, as one spiral round a square sewn into a tube.
    Bias,
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
    /// Price of one, before tax.
    pub price: Money,
    /// Mass of one.
    pub mass: Mass,
    /// Thickness of one.
    pub thickness: Length,
    /// What it is, how it is put on, and what was tested.
    pub part: Part,
}

/// How cloth is cut off and spared.
#[derive(Debug, Clone, PartialEq)]
pub struct Cloth {
    /// Cloth spent on squaring the end of each length.
    pub squaring: Length,
    /// Spare pieces, as a share of those needed, up to the next whole piece.
    pub spares: Percent,
}

/// The shape of a pennant. Some have a measure beside width and drop, its *detail*.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Shape {
    /// Straight top, two sides to a point.
    Triangle,
    /// Straight top, two sides to a narrower foot. Detail: the width of the foot.
    Blunt,
    /// Straight sides, the foot cut up into a V. Detail: how deep the notch is.
    Swallowtail,
    /// Straight sides, then to a point. Detail: the length of the straight sides.
    Shield,
    /// Straight sides, a foot that is part of a circle. Detail: the rise of that arc, at
    /// most half the width.
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
