//! Things to look at that refuse nothing.

use crate::order::Field;

/// Something to look at.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Notice {
    /// What kind of thing.
    pub code: Code,
    /// The field of the order it is about, if one.
    pub field: Option<Field>,
    /// What it is, in words.
    pub message: String,
}

impl Notice {
    /// A notice about a field.
    pub fn about(code: Code, field: Field, message: String) -> Notice {
        Notice { code, field: Some(field), message }
    }
}

/// The kinds of notices, in the order in which they are given.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Code {
    /// The length is ten times the usual, or a tenth of it.
    UnusualLength,
    /// The pennant's size is outside what is usual.
    UnusualSize,
    /// The seams take more than 15 % of the width.
    WideSeams,
    /// Gaps of nought or less: the tops overlap in the binding.
    TopsOverlap,
    /// The greatest gap was reached; the rest went to the tails.
    GapCapped,
    /// Letters could not be centred exactly.
    OffCentre,
    /// Two neighbours share a fabric.
    EqualNeighbours,
    /// A listed fabric is not used.
    FabricUnused,
    /// A hook has to go behind a pennant.
    HookBehindPennant,
    /// A fit without any tolerance.
    ZeroTolerance,
    /// None of the shop's lays can be for a cloth, which is cut flat.
    LayLeftOut,
    /// Some of the cloth and the binding are washed before they are used, some are not.
    MixedWash,
    /// A join in the binding shows, or lies near the middle.
    JoinShows,
    /// A roll of binding costs less than the length cut off.
    RollCheaper,
    /// Days beyond those for which days off are known.
    DaysEstimated,
    /// The bench has no day on which the order would be done.
    NoDay,
    /// The wanted day is not kept.
    WantedDayMissed,
    /// No postal service takes it.
    NoServiceFits,
    /// The parcel is near the edge of its weight band.
    NearBandEdge,
    /// The parcel is near the greatest thickness of its format.
    NearThickness,
    /// The minimum charge stands.
    MinimumCharge,
    /// Delivery is not in the total.
    DeliveryOpen,
    /// The rate of tax changes before the quote ends, or before it leaves.
    TaxChanges,
    /// The price is below the shop's floor.
    BelowFloor,
}
