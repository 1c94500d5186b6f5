//! Enumerations of the contract as those of the domain, and back.
//!
//! Each pair is written once; the unspecified value is no value, and so is a number
//! that the contract does not name: the reader refuses that before it comes here.

use pennantry_calc::cutting::RowKind;
use pennantry_calc::notice::Code;
use pennantry_calc::order::{ColourRule, Leftover, Parity};
use pennantry_calc::shop::{Construction, Shape, SizeAt};
use pennantry_contract::v1;

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
}

/// How a row lies, in the contract.
pub fn row_kind(kind: RowKind) -> v1::RowKind {
    match kind {
        RowKind::PlainOneWay => v1::RowKind::PlainOneWay,
        RowKind::PlainTwoWay => v1::RowKind::PlainTwoWay,
    }
}

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
        Code::MinimumCharge => "MINIMUM_CHARGE",
    }
}
