//! Enumerations of the contract as those of the domain, and back.
//!
//! Each pair is written once; the unspecified value is no value, and so is a number
//! that the contract does not name: the reader refuses that before it comes here.

use pennantry_calc::child::Outcome;
use pennantry_calc::cutting::{Role, RowKind};
use pennantry_calc::notice::Code;
use pennantry_calc::order::{ColourRule, EndStyle, Jurisdiction, Leftover, Parity, Place, Who};
use pennantry_calc::rule::{Basis as RuleBasis, Origin};
use pennantry_calc::shop::{Basis, Construction, Driver, Lay, Shape, SizeAt, TaxLevel};
use pennantry_calc::thread::SeamKind;
use pennantry_calc::ways::WayKind;
use pennantry_contract::v1;
use pennantry_measure::Rounding;

macro_rules! pairs {
    ($($read:ident, $write:ident: $wire:ident <=> $domain:ident { $($w:ident = $d:ident),+ $(,)? })+) => {$(
        #[doc = concat!("A `", stringify!($wire), "` of the contract, in the domain.")]
        pub fn $read(wire: v1::$wire) -> Option<$domain> {
            match wire {
                v1::$wire::Unspecified => None,
                $(v1::$wire::$w => Some($domain::$d),)+
            }
        }

        #[doc = concat!("A `", stringify!($domain), "` of the domain, in the contract.")]
        pub fn $write(domain: $domain) -> v1::$wire {
            match domain {
                $($domain::$d => v1::$wire::$w,)+
            }
        }
    )+};
}

pairs! {
    read_shape, write_shape: Shape <=> Shape {
        Triangle = Triangle, Blunt = Blunt, Swallowtail = Swallowtail, Shield = Shield,
        Scallop = Scallop, Rectangle = Rectangle,
    }
    read_size_at, write_size_at: SizeAt <=> SizeAt { TopEdge = TopEdge, BindingEdge = BindingEdge }
    read_construction, write_construction: Construction <=> Construction {
        SinglePinked = SinglePinked, SinglePlain = SinglePlain, DoubleTurned = DoubleTurned,
        DoublePinked = DoublePinked, DoubleFused = DoubleFused,
    }
    read_leftover, write_leftover: Leftover <=> Leftover { Tails = Tails, Gaps = Gaps }
    read_parity, write_parity: Parity <=> Parity { Odd = Odd, Even = Even }
    read_rule, write_rule: Rule <=> ColourRule {
        Repeat = Repeat, MirrorEnds = MirrorEnds, MirrorCentre = MirrorCentre, Listed = Listed,
    }
    read_end_style, write_end_style: EndStyle <=> EndStyle { Plain = Plain, Loop = Loop, Tie = Tie }
    read_who, write_who: Who <=> Who { NoChild = NoChild, Child = Child }
    read_place, write_place: Place <=> Place {
        Cot = Cot, ChildRoom = ChildRoom, Home = Home, Childcare = Childcare, Venue = Venue,
        Outdoors = Outdoors,
    }
    read_jurisdiction, write_jurisdiction: Jurisdiction <=> Jurisdiction {
        Eu = Eu, Gb = Gb, Us = Us, Ca = Ca, Au = Au,
    }
}

macro_rules! written {
    ($($(#[$about:meta])* $write:ident: $domain:ty => $wire:ident { $($d:pat => $w:ident),+ $(,)? })+) => {$(
        $(#[$about])*
        pub fn $write(domain: $domain) -> v1::$wire {
            match domain {
                $($d => v1::$wire::$w,)+
            }
        }
    )+};
}

written! {
    /// How a row lies, in the contract.
    row_kind: RowKind => RowKind {
        RowKind::PlainOneWay => PlainOneWay, RowKind::PlainTwoWay => PlainTwoWay,
        RowKind::Facing => Facing, RowKind::Sideways => Sideways,
    }
    /// How cloth lies, in the contract.
    lay: Lay => Lay {
        Lay::Flat => Flat, Lay::FoldedAcross => FoldedAcross, Lay::FoldedAlong => FoldedAlong,
        Lay::Stacked(_) => Stacked,
    }
    /// What is cut from a cloth, in the contract.
    cloth_role: Role => ClothRole {
        Role::Pennants => Pennants, Role::Letters => Letters, Role::Web => Web,
    }
    /// What a seam holds, in the contract.
    seam_kind: SeamKind => SeamKind {
        SeamKind::BindingAlone => BindingAlone, SeamKind::BindingOverPennants => BindingOverPennants,
        SeamKind::Sides => Sides, SeamKind::Letters => Letters,
    }
    /// What an operation is counted by, in the contract.
    driver: Driver => Driver {
        Driver::Order => Order, Driver::String => String, Driver::Pennant => Pennant,
        Driver::Piece => Piece, Driver::Outline => Outline, Driver::Layer => Layer,
        Driver::Metre => Metre, Driver::End => End, Driver::Join => Join, Driver::Letter => Letter,
        Driver::Trimming => Trimming,
    }
    /// What a finding says to do, in the contract.
    child_outcome: Outcome => Outcome {
        Outcome::NothingFound => NothingFound, Outcome::Warn => Warn, Outcome::Ask => Ask,
        Outcome::Restrict => Restrict, Outcome::Refuse => Refuse,
    }
    /// What kind of rule a finding rests on, in the contract.
    rule_basis: RuleBasis => RuleBasis {
        RuleBasis::Law => Law, RuleBasis::Toy => Toy, RuleBasis::Analogy => Analogy, RuleBasis::Guidance => Guidance,
        RuleBasis::Shop => Shop,
    }
    /// Where a figure was found, in the contract.
    figure_origin: Origin => FigureOrigin {
        Origin::Read => Read, Origin::Remembered => Remembered, Origin::Shop => Shop, Origin::NoFigure => None,
    }
    /// What of a tax is rounded by itself, in the contract.
    tax_level: TaxLevel => TaxLevel { TaxLevel::Document => Document, TaxLevel::Line => Line }
    /// How a price is made, in the contract.
    price_basis: Basis => PriceBasis { Basis::CostPlus(_) => CostPlus, Basis::PerMetre => PerMetre }
    /// How a tax is rounded, in the contract; the catalogue knows no other ways.
    tax_rounding: Rounding => TaxRounding {
        Rounding::HalfUp => HalfUp, Rounding::HalfEven => HalfEven, Rounding::Down => Down,
        Rounding::Up => Unspecified,
    }
    /// What is changed to keep a wanted day, in the contract.
    way_kind: WayKind => WayKind {
        WayKind::OtherService => OtherService, WayKind::Rush => Rush, WayKind::FewerPennants => FewerPennants, WayKind::Plainer => Plainer,
    }
}

/// The code of the line that staff take off.
pub const DISCOUNT: &str = "DISCOUNT";

/// The code of a notice.
pub fn notice_code(code: Code) -> &'static str {
    match code {
        Code::UnusualLength => "UNUSUAL_LENGTH",
        Code::UnusualSize => "UNUSUAL_SIZE",
        Code::WideSeams => "WIDE_SEAMS",
        Code::TopsOverlap => "TOPS_OVERLAP",
        Code::GapCapped => "GAP_CAPPED",
        Code::OffCentre => "OFF_CENTRE",
        Code::EqualNeighbours => "EQUAL_NEIGHBOURS",
        Code::FabricUnused => "FABRIC_UNUSED",
        Code::HookBehindPennant => "HOOK_BEHIND_PENNANT",
        Code::ZeroTolerance => "ZERO_TOLERANCE",
        Code::LayLeftOut => "LAY_LEFT_OUT",
        Code::MixedWash => "MIXED_WASH",
        Code::JoinShows => "JOIN_SHOWS",
        Code::RollCheaper => "ROLL_CHEAPER",
        Code::DaysEstimated => "DAYS_ESTIMATED",
        Code::NoDay => "NO_DAY",
        Code::WantedDayMissed => "WANTED_DAY_MISSED",
        Code::NoServiceFits => "NO_SERVICE_FITS",
        Code::NearBandEdge => "NEAR_BAND_EDGE",
        Code::NearThickness => "NEAR_THICKNESS",
        Code::MinimumCharge => "MINIMUM_CHARGE",
        Code::DeliveryOpen => "DELIVERY_OPEN",
        Code::TaxChanges => "TAX_CHANGES",
        Code::BelowFloor => "BELOW_FLOOR",
    }
}

/// Whether a notice is for the shop alone: it names what the shop pays or wants to keep, or
/// what only the shop can look at.
pub fn shop_only(code: Code) -> bool {
    matches!(code, Code::RollCheaper | Code::BelowFloor)
}
