//! Rows as they are kept, and back.
//!
//! Flaws are kept as `from-to from-to` in micrometres; lists of texts as lines, with `\n` and
//! `\\` for what would break one.

use pennantry_measure::Length;
use tokio_postgres::Row;
use tokio_postgres::types::FromSql;

use super::failure::Failure;
use crate::engine::{Booking, Error, Placed};
use crate::rules::{
    Account, Amount, At, ChangeId, Class, CutId, CutPart, CutRow, Event, EventKind, Flaw, Line, Material,
    Movement, MovementKind, Order, OrderId, OrderLine, OrderState, Piece, PieceId, PieceKind, Reason,
    Reservation, ReservationId, State,
};

/// Reads a row from its first column on.
pub(super) struct Columns<'a> {
    row: &'a Row,
    next: usize,
}

impl<'a> Columns<'a> {
    pub(super) fn of(row: &'a Row) -> Columns<'a> {
        Columns { row, next: 0 }
    }

    /// The next column.
    pub(super) fn take<T: FromSql<'a>>(&mut self) -> Result<T, Failure> {
        let at = self.next;
        self.next += 1;
        Ok(self.row.try_get(at)?)
    }

    /// The next column, as a number of another size.
    pub(super) fn number<T: TryFrom<i64>>(&mut self) -> Result<T, Failure> {
        let number: i64 = self.take()?;
        T::try_from(number).map_err(|_| unreadable("number", &number.to_string()))
    }

    /// The next column, as one of a few words.
    pub(super) fn word<T>(&mut self, read: fn(&str) -> Option<T>) -> Result<T, Failure> {
        let word: &str = self.take()?;
        read(word).ok_or_else(|| unreadable("word", word))
    }

    pub(super) fn amount(&mut self) -> Result<Amount, Failure> {
        Ok(Amount(self.take()?))
    }

    pub(super) fn at(&mut self) -> Result<At, Failure> {
        Ok(At(self.take()?))
    }

    fn change(&mut self) -> Result<ChangeId, Failure> {
        let bytes: &[u8] = self.take()?;
        <[u8; 16]>::try_from(bytes).map(ChangeId).map_err(|_| unreadable("change", &format!("{bytes:02x?}")))
    }

    fn flaws(&mut self) -> Result<Vec<Flaw>, Failure> {
        let text: &str = self.take()?;
        read_flaws(text).ok_or_else(|| unreadable("list of flaws", text))
    }

    fn list(&mut self) -> Result<Vec<String>, Failure> {
        let text: &str = self.take()?;
        Ok(read_list(text))
    }

    pub(super) fn material(&mut self) -> Result<Material, Failure> {
        Ok(Material { class: self.word(Class::read)?, code: self.take()? })
    }
}

fn unreadable(what: &str, value: &str) -> Failure {
    Failure::Final(Error::Fault(format!(
        "the database holds the {what} {value:?}, which this program does not write: another program has, or a newer \
         one"
    )))
}

/// Flaws as text.
pub(super) fn keep_flaws(flaws: &[Flaw]) -> String {
    let kept: Vec<String> = flaws.iter().map(|flaw| format!("{}-{}", flaw.from.um(), flaw.to.um())).collect();
    kept.join(" ")
}

/// Flaws from text.
pub(super) fn read_flaws(text: &str) -> Option<Vec<Flaw>> {
    text.split(' ')
        .filter(|flaw| !flaw.is_empty())
        .map(|flaw| {
            let (from, to) = flaw.split_once('-')?;
            Some(Flaw { from: Length::from_um(from.parse().ok()?), to: Length::from_um(to.parse().ok()?) })
        })
        .collect()
}

/// A list of texts as one.
pub(super) fn keep_list<'a>(texts: impl Iterator<Item = &'a str>) -> String {
    let mut kept = String::new();
    for text in texts {
        kept.push_str(&text.replace('\\', "\\\\").replace('\n', "\\n"));
        kept.push('\n');
    }
    kept
}

/// A list of texts from one.
pub(super) fn read_list(kept: &str) -> Vec<String> {
    kept.split_terminator('\n').map(unescaped).collect()
}

fn unescaped(line: &str) -> String {
    let mut text = String::with_capacity(line.len());
    let mut characters = line.chars();
    while let Some(character) = characters.next() {
        match character {
            '\\' => match characters.next() {
                Some('n') => text.push('\n'),
                Some(other) => text.push(other),
                None => text.push('\\'),
            },
            other => text.push(other),
        }
    }
    text
}

/// A piece, from the columns of `piece!`.
pub(super) fn piece(row: &Row) -> Result<Piece, Failure> {
    Ok(piece_and_more(row)?.0)
}

/// A piece, and the columns behind it.
pub(super) fn piece_and_more(row: &Row) -> Result<(Piece, Columns<'_>), Failure> {
    let mut of = Columns::of(row);
    let piece = Piece {
        id: PieceId(of.take()?),
        kind: of.word(PieceKind::read)?,
        material: of.material()?,
        lot: of.take()?,
        width: Length::from_um(of.take()?),
        received: of.amount()?,
        left: of.amount()?,
        held: of.amount()?,
        confirmed: of.amount()?,
        flaws: of.flaws()?,
        parent: of.take::<Option<String>>()?.map(PieceId),
        cut: of.take::<Option<String>>()?.map(CutId),
        location: of.take()?,
        cost_minor: of.take()?,
        supplier: of.take()?,
        supplier_reference: of.take()?,
        certificates: of.list()?,
        order: of.take::<Option<String>>()?.map(OrderId),
        at: of.at()?,
    };
    Ok((piece, of))
}

/// A reservation without its lines, from the columns of `reservation!`.
pub(super) fn reservation(row: &Row) -> Result<Reservation, Failure> {
    let mut of = Columns::of(row);
    Ok(Reservation {
        id: ReservationId(of.take()?),
        state: of.word(State::read)?,
        holder: of.take()?,
        created: of.at()?,
        expires: of.at()?,
        confirmed: of.take::<Option<i64>>()?.map(At),
        quote: of.take()?,
        order_reference: of.take()?,
        bench_milli_minutes: of.take()?,
        leave_day: day(of.take()?)?,
        sold: of.take()?,
        supersedes: of.take::<Option<String>>()?.map(ReservationId),
        superseded_by: of.take::<Option<String>>()?.map(ReservationId),
        reason: of.take()?,
        lines: Vec::new(),
    })
}

fn day(day: Option<i64>) -> Result<Option<i32>, Failure> {
    day.map(|day| i32::try_from(day).map_err(|_| unreadable("day", &day.to_string()))).transpose()
}

/// A line and the reservation it is of, from the columns of `line!`.
pub(super) fn line(row: &Row) -> Result<(ReservationId, Line), Failure> {
    let mut of = Columns::of(row);
    Ok((
        ReservationId(of.take()?),
        Line {
            number: of.number()?,
            piece: PieceId(of.take()?),
            item: of.number()?,
            planned: of.amount()?,
            wanted: of.amount()?,
            granted: of.amount()?,
            used: of.amount()?,
            spoiled: of.amount()?,
            shapes: of.number()?,
            shapes_cut: of.number()?,
            shape_area: of.take()?,
            past: of.number::<i64>()? != 0,
        },
    ))
}

/// A cut without its parts.
pub(super) fn cut(row: &Row) -> Result<CutRow, Failure> {
    let mut of = Columns::of(row);
    Ok(CutRow {
        id: CutId(of.take()?),
        reservation: ReservationId(of.take()?),
        at: of.at()?,
        day: of.number()?,
        undone: of.take::<i64>()? != 0,
        parts: Vec::new(),
    })
}

/// A part and the cut it is of.
pub(super) fn cut_part(row: &Row) -> Result<(CutId, CutPart), Failure> {
    let mut of = Columns::of(row);
    Ok((
        CutId(of.take()?),
        CutPart {
            piece: PieceId(of.take()?),
            line: of.number()?,
            taken: of.amount()?,
            spoiled: of.amount()?,
            why: of.word(Reason::read)?,
            kept: of.amount()?,
            shapes: of.number()?,
            served: of.amount()?,
            flaws_before: of.flaws()?,
            remnants: of.list()?.into_iter().map(PieceId).collect(),
        },
    ))
}

/// An order without its lines.
pub(super) fn order(row: &Row) -> Result<Order, Failure> {
    let mut of = Columns::of(row);
    Ok(Order {
        id: OrderId(of.take()?),
        supplier: of.take()?,
        state: of.word(OrderState::read)?,
        at: of.at()?,
        expected_day: of.number()?,
        note: of.take()?,
        lines: Vec::new(),
    })
}

/// A line and the order it is of.
pub(super) fn order_line(row: &Row) -> Result<(OrderId, OrderLine), Failure> {
    let mut of = Columns::of(row);
    Ok((
        OrderId(of.take()?),
        OrderLine {
            number: of.number()?,
            material: of.material()?,
            ordered: of.amount()?,
            received: of.amount()?,
        },
    ))
}

/// A movement, from the columns of `movement!`.
pub(super) fn movement(row: &Row) -> Result<Movement, Failure> {
    let mut of = Columns::of(row);
    Ok(Movement {
        change: of.change()?,
        number: of.number()?,
        at: of.at()?,
        day: of.number()?,
        late: of.take::<i64>()? != 0,
        actor: of.take()?,
        kind: of.word(MovementKind::read)?,
        piece: PieceId(of.take()?),
        from: of.word(Account::read)?,
        to: of.word(Account::read)?,
        amount: of.amount()?,
        reservation: of.take::<Option<String>>()?.map(ReservationId),
        cut: of.take::<Option<String>>()?.map(CutId),
        reason: of.word(Reason::read)?,
        note: of.take()?,
    })
}

/// An event that has its place.
pub(super) fn placed(row: &Row) -> Result<Placed, Failure> {
    let mut of = Columns::of(row);
    Ok(Placed {
        place: of.take()?,
        event: Event {
            change: of.change()?,
            number: of.number()?,
            at: of.at()?,
            actor: of.take()?,
            kind: of.word(EventKind::read)?,
            reservation: of.take::<Option<String>>()?.map(ReservationId),
            piece: of.take::<Option<String>>()?.map(PieceId),
            order: of.take::<Option<String>>()?.map(OrderId),
            amount: of.amount()?,
            note: of.take()?,
        },
    })
}

/// Booked bench time.
pub(super) fn booking(row: &Row) -> Result<Booking, Failure> {
    let mut of = Columns::of(row);
    Ok(Booking { leave_day: day(of.take()?)?, milli_minutes: of.take()?, confirmed: of.at()? })
}
