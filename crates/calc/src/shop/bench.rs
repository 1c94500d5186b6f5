//! The bench: how each construction is made, in which operations, how fast.

use pennantry_measure::{BenchTime, Length, MassPerLength, Money, Percent, Rate};

use super::Construction;

/// How one construction is made at this shop.
#[derive(Debug, Clone, PartialEq)]
pub struct Method {
    /// The construction.
    pub construction: Construction,
    /// Seam beyond the finished sides.
    pub seam: Length,
    /// Whether sharp points are cut off square at the seam's width beyond the finished
    /// point, instead of running out to the mitre's tip.
    pub clip_tips: bool,
    /// Least distance between neighbours in a row, square to their sides: 0 where
    /// they share a cut, more where they are cut out roughly and pinked later.
    pub clearance: Length,
    /// Cloth left between rows: 0 where they share a straight cut.
    pub row_gap: Length,
    /// How cloth may lie when it is cut, the simplest first. Never empty.
    pub lays: Vec<Lay>,
    /// Place of the fabric of the web that fuses the layers, where one does.
    pub web: Option<usize>,
}

/// How cloth lies when it is cut.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Lay {
    /// One layer.
    Flat,
    /// Folded selvedge to selvedge: two layers of half the width, both upright.
    FoldedAcross,
    /// Folded end to end: two layers of half the length, the lower one turned by half.
    FoldedAlong,
    /// So many lengths of the same cloth one on the other; at least two.
    Stacked(u32),
}

impl Lay {
    /// Layers cut through at once.
    pub fn layers(self) -> u32 {
        match self {
            Lay::Flat => 1,
            Lay::FoldedAcross | Lay::FoldedAlong => 2,
            Lay::Stacked(layers) => layers.max(1),
        }
    }
}

/// The bench.
#[derive(Debug, Clone, PartialEq)]
pub struct Bench {
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
    /// What stands on top of the operations' times.
    pub allowance: Allowance,
    /// Whether operations get faster with practice. Off unless the shop says so.
    pub learning: bool,
    /// What is done at the bench, in the order of the work.
    pub operations: Vec<Operation>,
    /// How bindings are joined.
    pub join: Join,
    /// Thread.
    pub thread: Thread,
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

/// Time for rest and interruptions, on top of the times of the operations. The two
/// readings differ: 15 % is a factor of 1.150 or of 1.176.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Allowance {
    /// A share of the work: time x (1 + share).
    OfWork(Percent),
    /// A share of the shift: time / (1 - share). Below 100 %.
    OfShift(Percent),
}

/// One thing done at the bench.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Operation {
    /// Its code.
    pub code: String,
    /// Its name.
    pub name: String,
    /// Constructions it is done for; empty for all.
    pub constructions: Vec<Construction>,
    /// What it is counted by.
    pub driver: Driver,
    /// Time for one of them (for metres: for one metre), before the allowance.
    pub time: BenchTime,
    /// How it gets faster with practice, where it does.
    pub learning: Option<Learning>,
}

impl Operation {
    /// Whether it is done for a construction.
    pub fn serves(&self, construction: Construction) -> bool {
        self.constructions.is_empty() || self.constructions.contains(&construction)
    }
}

/// What an operation is counted by, for all strings of an order.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Driver {
    /// Once an order.
    Order,
    /// Strings.
    String,
    /// Pennants.
    Pennant,
    /// Pieces of cloth cut for pennants, spares among them.
    Piece,
    /// Outlines cut for pennants, each through all layers of its lay.
    Outline,
    /// Layers of cloth spread to be cut, over all fabrics.
    Layer,
    /// Metres of overall length.
    Metre,
    /// Ends of strings.
    End,
    /// Joins in the binding.
    Join,
    /// Letters.
    Letter,
    /// Trimmings.
    Trimming,
}

/// How an operation gets faster with practice: every doubling takes `rate` of the time
/// before (Crawford's unit curve), and none takes less than `floor` of the first.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Learning {
    /// Share of the time that a doubling leaves, above 50 % and at most 100 %.
    pub rate: Percent,
    /// Least share of the first one's time, above 0 % and at most 100 %.
    pub floor: Percent,
}

/// How bindings are joined.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Join {
    /// How the ends of bought pieces are cut.
    pub ends: EndCut,
    /// Seam of a join.
    pub seam: Length,
    /// Least piece of binding that may show in a string.
    pub least_piece: Length,
    /// Least distance of a join from the middle of a string.
    pub off_middle: Length,
}

/// How two ends meet in a join.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum EndCut {
    /// Square ends sewn straight across: two seams are lost.
    Straight,
    /// Square ends sewn at 45 degrees: one strip's width is lost.
    Mitred,
    /// Ends already cut at 45 degrees: 2 x seam x √2 is lost.
    Slanted,
}

/// Thread, a lockstitch throughout.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Thread {
    /// Length of a stitch. Above nought.
    pub stitch: Length,
    /// Mass of one thread: tex 27 is 27 g/km.
    pub mass: MassPerLength,
    /// What is wasted, as a share of what is sewn in.
    pub waste: Percent,
    /// Rows of stitching along the binding.
    pub rows: u32,
    /// Thread left at each end of a row, needle and bobbin together.
    pub tail: Length,
    /// Price a metre, before tax.
    pub price: Rate,
}

/// Something used up by the piece that is neither cloth, binding nor thread.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Sundry {
    /// Its code.
    pub code: String,
    /// Its name.
    pub name: String,
    /// What it is counted by: orders, strings, pennants, ends or letters.
    pub driver: Driver,
    /// Price of one, before tax.
    pub price: Money,
    /// Mass of one.
    pub mass: pennantry_measure::Mass,
    /// Whether it only packs: then it is no part of the net mass.
    pub packing: bool,
    /// Of a bag: length round its opening.
    pub bag_opening: Option<Length>,
    /// Of a bag: thickness of its film.
    pub bag_film: Option<Length>,
}

/// How letters are put on pennants: cut from cloth and sewn on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Letters {
    /// Width of the cloth that one letter is cut from, as a share of the pennant's width.
    pub width: Percent,
    /// Its height, as a share of the pennant's drop.
    pub height: Percent,
    /// Place of the fabric of the letters.
    pub fabric: usize,
    /// Place of the fabric of the web that holds them, where one does.
    pub web: Option<usize>,
    /// Length of stitching round one letter, in letter heights: 400 % is four of them.
    pub stitching: Percent,
}
