//! Writing into the stock as it went: each command at an instant of the shop's day.
//!
//! A day begins at nine by the shop's clock, and whatever is done takes some minutes of it. Names
//! of changes are of the form of version 7 (RFC 9562, section 5.7), and like those of reservations come
//! of the dice, so that the same dice write the same rows.

use std::collections::BTreeMap;

use jiff::civil::Date;
use jiff::{Timestamp, ToSpan};
use pennantry_app::stock::at;
use pennantry_app::{Catalogue, day};
use pennantry_ledger::rules::{ChangeId, Command, CutId, Envelope, OrderId, PieceId, ReservationId};
use pennantry_ledger::{Applied, Error, Ledger};

use super::dice::Dice;

/// Who did it, on the record.
pub(super) const ACTOR: &str = "invented";
/// The hour at which a day begins.
const NINE: i8 = 9;

/// Whoever writes.
pub(super) struct Book<'a> {
    pub ledger: &'a Ledger,
    pub catalogue: &'a Catalogue,
    pub dice: Dice,
    /// The day, numbered.
    pub day: i32,
    /// Commands carried out.
    pub commands: u32,
    now: Timestamp,
    names: BTreeMap<String, u32>,
}

impl<'a> Book<'a> {
    pub(super) fn new(ledger: &'a Ledger, catalogue: &'a Catalogue, dice: Dice) -> Book<'a> {
        Book {
            ledger,
            catalogue,
            dice,
            day: 0,
            commands: 0,
            now: Timestamp::UNIX_EPOCH,
            names: BTreeMap::new(),
        }
    }

    /// Opens a day.
    ///
    /// # Errors
    /// The date is at an end of the calendar.
    pub(super) fn begin(&mut self, date: Date) -> Result<(), Error> {
        let nine = date.at(NINE, 0, 0, 0).to_zoned(self.catalogue.zone.clone());
        let nine = nine.map_err(|cause| Error::Fault(cause.to_string()))?;
        (self.day, self.now) = (day(date).0, nine.timestamp());
        Ok(())
    }

    /// The instant.
    pub(super) fn now(&self) -> Timestamp {
        self.now
    }

    /// Carries a command out, some minutes after the last one.
    ///
    /// # Errors
    /// As [`Ledger::apply`].
    pub(super) async fn write(&mut self, command: Command) -> Result<Applied, Error> {
        let passed = self.dice.from(45, 240).seconds();
        self.now = self.now.saturating_add(passed).unwrap_or(self.now);
        let envelope = Envelope {
            id: self.change(),
            at: at(self.now),
            day: self.day,
            actor: ACTOR.to_owned(),
            request: None,
            command,
        };
        let done = self.ledger.apply(envelope, None).await?;
        self.commands += 1;
        Ok(done)
    }

    fn change(&mut self) -> ChangeId {
        let wide = |half: u64| u128::from(half);
        let random = wide(self.dice.bits()) << 64 | wide(self.dice.bits());
        let milliseconds =
            u128::from(u64::try_from(self.now.as_millisecond()).unwrap_or(0)) & 0xffff_ffff_ffff;
        let fields = (milliseconds << 80) | (7 << 76) | (2 << 62);
        let free = !((0xffff_ffff_ffff_u128 << 80) | (0xf << 76) | (3 << 62));
        ChangeId((fields | (random & free)).to_be_bytes())
    }

    /// A name that is not taken: what it is, and a number.
    fn numbered(&mut self, what: &str) -> String {
        let count = self.names.entry(what.to_ascii_uppercase()).or_default();
        *count += 1;
        format!("{}-{count:04}", what.to_ascii_uppercase())
    }

    /// Name of a piece.
    pub(super) fn piece(&mut self, code: &str) -> PieceId {
        PieceId(self.numbered(code))
    }

    /// Name of a cut.
    pub(super) fn cut(&mut self) -> CutId {
        CutId(self.numbered("CUT"))
    }

    /// Name of an order at a supplier.
    pub(super) fn order(&mut self) -> OrderId {
        OrderId(self.numbered("ORDER"))
    }

    /// Name of a reservation: 26 letters and digits, as a door makes them.
    pub(super) fn reservation(&mut self) -> ReservationId {
        const LETTERS: &[u8; 32] = b"0123456789abcdefghjkmnpqrstvwxyz";
        let letter = |dice: &mut Dice| {
            let at = usize::try_from(dice.bits() & 31).unwrap_or(0);
            char::from(LETTERS.get(at).copied().unwrap_or(b'0'))
        };
        ReservationId((0..26).map(|_| letter(&mut self.dice)).collect())
    }

    /// The shop's own number of an order.
    pub(super) fn sale(&mut self) -> String {
        self.numbered("SL")
    }
}
