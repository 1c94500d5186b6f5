//! How an outcome is kept, so that a request that is sent again gets the first answer.
//!
//! Bytes of our own, compact and exact, read back by this module only:
//!
//! | what | how |
//! |---|---|
//! | the whole | one byte, the [`VERSION`], then the outcome's fields in the order of its type |
//! | whole number | seven bits a byte, the lowest first, the top bit says that more follow, at most ten bytes |
//! | number with a sign | the same of twice the number, or of twice its distance below -1 and one more |
//! | text, bytes | how many bytes, then they |
//! | list | how many, then each |
//! | may be missing | 0, or 1 and then it |
//! | one of several | its place among [`State::ALL`] and the like, from 0 |
//!
//! Each outcome has exactly one form: a number never takes more bytes than it needs, and nothing
//! follows the last field. What is not an outcome in this form is not read, and no bytes make
//! reading panic or take more memory than they are long.
//!
//! A field that is added makes a new version; this module then reads both. Version 2 added the
//! area of a line's shapes, the day of a cut and why something of it was spoiled: read from
//! version 1, the area is not known, no reason was given, and the cut counts for the day that it
//! was in UTC. Version 3 added whether a line is of a sale whose place another took: read from
//! earlier ones, it is not.
//!
//! ```
//! use pennantry_ledger::rules::{At, Outcome, kept};
//! let outcome = Outcome { at: At(300), ..Outcome::default() };
//! let bytes = kept::keep(&outcome);
//! // the version, 600 = 4 * 128 + 88 with the lowest bits first, and seven things that are empty
//! assert_eq!(bytes, [3, 88 | 128, 4, 0, 0, 0, 0, 0, 0, 0]);
//! assert_eq!(kept::read(&bytes), Some(outcome));
//! assert_eq!(kept::read(&bytes[..4]), None);
//! ```

use pennantry_measure::Length;

use super::{
    Amount, At, Class, CutId, CutPart, CutRow, Flaw, Line, Material, Order, OrderId, OrderLine, OrderState,
    Outcome, Piece, PieceId, PieceKind, Promise, Reason, Reservation, ReservationId, State,
};

/// The version that is written.
pub const VERSION: u8 = 3;

/// An outcome as bytes.
pub fn keep(outcome: &Outcome) -> Vec<u8> {
    let mut out = vec![VERSION];
    outcome.keep(&mut out);
    out
}

/// An outcome from bytes; none where they are not one.
pub fn read(bytes: &[u8]) -> Option<Outcome> {
    let (&version, rest) = bytes.split_first()?;
    if version == 0 || version > VERSION {
        return None;
    }
    let mut from = Bytes { rest, version };
    let mut outcome = Outcome::read(&mut from)?;
    if let Some(cut) = outcome.cut.as_mut().filter(|_| version < 2) {
        cut.day = i32::try_from(cut.at.0.div_euclid(86_400_000_000)).unwrap_or(0);
    }
    from.rest.is_empty().then_some(outcome)
}

/// Bytes that are read, and the version in which they were written.
struct Bytes<'a> {
    rest: &'a [u8],
    version: u8,
}

/// What can be kept.
trait Kept: Sized {
    /// Appends it.
    fn keep(&self, out: &mut Vec<u8>);
    /// Takes it off the front; none where it does not stand there.
    fn read(from: &mut Bytes<'_>) -> Option<Self>;
}

impl Kept for u64 {
    fn keep(&self, out: &mut Vec<u8>) {
        let mut rest = *self;
        while rest >= 128 {
            out.push(u8::try_from(rest & 127).unwrap_or(0) | 128);
            rest >>= 7;
        }
        out.push(u8::try_from(rest).unwrap_or(0));
    }

    fn read(from: &mut Bytes<'_>) -> Option<u64> {
        let mut whole = 0_u64;
        for shift in (0..64).step_by(7) {
            let byte = u8::read(from)?;
            let bits = u64::from(byte & 127);
            let placed = bits << shift;
            if placed >> shift != bits {
                return None;
            }
            whole |= placed;
            if byte < 128 {
                // a last byte of nought says nothing, so it is not there
                return (byte > 0 || shift == 0).then_some(whole);
            }
        }
        None
    }
}

impl Kept for u8 {
    fn keep(&self, out: &mut Vec<u8>) {
        out.push(*self);
    }

    fn read(from: &mut Bytes<'_>) -> Option<u8> {
        let (byte, rest) = from.rest.split_first()?;
        from.rest = rest;
        Some(*byte)
    }
}

impl Kept for u32 {
    fn keep(&self, out: &mut Vec<u8>) {
        u64::from(*self).keep(out);
    }

    fn read(from: &mut Bytes<'_>) -> Option<u32> {
        u32::try_from(u64::read(from)?).ok()
    }
}

impl Kept for i64 {
    fn keep(&self, out: &mut Vec<u8>) {
        let sign = u64::from(*self < 0);
        let distance = if *self < 0 { !*self } else { *self };
        (distance.unsigned_abs() << 1 | sign).keep(out);
    }

    fn read(from: &mut Bytes<'_>) -> Option<i64> {
        let whole = u64::read(from)?;
        let distance = i64::try_from(whole >> 1).ok()?;
        Some(if whole & 1 == 1 { !distance } else { distance })
    }
}

impl Kept for i32 {
    fn keep(&self, out: &mut Vec<u8>) {
        i64::from(*self).keep(out);
    }

    fn read(from: &mut Bytes<'_>) -> Option<i32> {
        i32::try_from(i64::read(from)?).ok()
    }
}

impl Kept for bool {
    fn keep(&self, out: &mut Vec<u8>) {
        out.push(u8::from(*self));
    }

    fn read(from: &mut Bytes<'_>) -> Option<bool> {
        match u8::read(from)? {
            0 => Some(false),
            1 => Some(true),
            _ => None,
        }
    }
}

impl Kept for Length {
    fn keep(&self, out: &mut Vec<u8>) {
        self.um().keep(out);
    }

    fn read(from: &mut Bytes<'_>) -> Option<Length> {
        Some(Length::from_um(i64::read(from)?))
    }
}

impl Kept for String {
    fn keep(&self, out: &mut Vec<u8>) {
        count(self.len()).keep(out);
        out.extend_from_slice(self.as_bytes());
    }

    fn read(from: &mut Bytes<'_>) -> Option<String> {
        let bytes = usize::try_from(u64::read(from)?).ok()?;
        let (text, rest) = from.rest.split_at_checked(bytes)?;
        from.rest = rest;
        Some(std::str::from_utf8(text).ok()?.to_owned())
    }
}

impl<T: Kept> Kept for Vec<T> {
    fn keep(&self, out: &mut Vec<u8>) {
        count(self.len()).keep(out);
        for one in self {
            one.keep(out);
        }
    }

    fn read(from: &mut Bytes<'_>) -> Option<Vec<T>> {
        let many = usize::try_from(u64::read(from)?).ok()?;
        // each takes a byte at least
        if many > from.rest.len() {
            return None;
        }
        (0..many).map(|_| T::read(from)).collect()
    }
}

impl<T: Kept> Kept for Option<T> {
    fn keep(&self, out: &mut Vec<u8>) {
        self.is_some().keep(out);
        if let Some(there) = self {
            there.keep(out);
        }
    }

    fn read(from: &mut Bytes<'_>) -> Option<Option<T>> {
        if bool::read(from)? { T::read(from).map(Some) } else { Some(None) }
    }
}

/// Types kept as what they are made of.
macro_rules! kept_as {
    ($($name:ident),+) => {$(
        impl Kept for $name {
            fn keep(&self, out: &mut Vec<u8>) {
                self.0.keep(out);
            }

            fn read(from: &mut Bytes<'_>) -> Option<$name> {
                Some($name(Kept::read(from)?))
            }
        }
    )+};
}

/// Types kept as their place among all of them; a new one is added at the end.
macro_rules! kept_as_one_of {
    ($($name:ident),+) => {$(
        impl Kept for $name {
            fn keep(&self, out: &mut Vec<u8>) {
                let place = $name::ALL.iter().position(|one| one == self).unwrap_or($name::ALL.len());
                count(place).keep(out);
            }

            fn read(from: &mut Bytes<'_>) -> Option<$name> {
                $name::ALL.get(usize::try_from(u64::read(from)?).ok()?).copied()
            }
        }
    )+};
}

/// Types kept field by field, those of later versions last. A field that is not named here does
/// not compile.
macro_rules! kept_by_fields {
    ($($name:ident { $($field:ident),+ $(; $version:literal: $($later:ident = $before:expr),+)* })+) => {$(
        impl Kept for $name {
            fn keep(&self, out: &mut Vec<u8>) {
                let $name { $($field,)+ $($($later,)+)* } = self;
                $($field.keep(out);)+
                $($($later.keep(out);)+)*
            }

            fn read(from: &mut Bytes<'_>) -> Option<$name> {
                Some($name {
                    $($field: Kept::read(from)?,)+
                    $($($later: if from.version >= $version { Kept::read(from)? } else { $before },)+)*
                })
            }
        }
    )+};
}

kept_as!(Amount, At, PieceId, ReservationId, CutId, OrderId);

kept_as_one_of!(PieceKind, Class, State, OrderState, Reason);

kept_by_fields! {
    Outcome { at, received, pieces, reservation, cut, order, promises, ended }
    Piece {
        id, kind, material, lot, width, received, left, held, confirmed, flaws, parent, cut, location, cost_minor,
        supplier, supplier_reference, certificates, order, at
    }
    Material { class, code }
    Flaw { from, to }
    Reservation {
        id, state, holder, created, expires, confirmed, quote, order_reference, bench_milli_minutes, leave_day, sold,
        supersedes, superseded_by, reason, lines
    }
    Line { number, piece, item, planned, wanted, granted, used, spoiled, shapes, shapes_cut; 2: shape_area = 0; 3: past = false }
    CutRow { id, reservation, at, undone, parts; 2: day = 0 }
    CutPart { piece, line, taken, spoiled, kept, shapes, served, flaws_before, remnants; 2: why = Reason::None }
    Order { id, supplier, state, at, expected_day, note, lines }
    OrderLine { number, material, ordered, received }
    Promise { reservation, state, line, piece, short_before, short }
}

fn count(many: usize) -> u64 {
    u64::try_from(many).unwrap_or(u64::MAX)
}
