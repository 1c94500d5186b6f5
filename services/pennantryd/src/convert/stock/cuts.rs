//! Reading what the bench has cut, and judging what it leaves.

use std::collections::BTreeMap;

use pennantry_app::Catalogue;
use pennantry_calc::shelf::{LEAST_HELD, useful};
use pennantry_contract::reasons::ViolationReason as Why;
use pennantry_contract::v1;
use pennantry_ledger::rules::{
    Amount, Class, Cut, CutId, Finish, NewRemnant, Part, Piece, PieceId, Reason, Reservation,
};
use pennantry_measure::Length;
use pennantry_measure::bounds::{self, Bound};

use super::super::enquiry::Reader;
use super::super::length;
use super::goods::find;
use super::read::Least;
use super::write::date;
use crate::failure::{Failure, violation};
use crate::names;

/// An offcut, and what is to become of it.
#[derive(Debug, Clone, PartialEq)]
pub struct Judged {
    /// Its length.
    pub length: Length,
    /// Its width.
    pub width: Length,
    /// How many of the smallest pennant it holds.
    pub holds: u32,
    /// Whether it is kept.
    pub kept: bool,
    /// In words.
    pub message: String,
}

/// What a cut is of: the reservation, and pieces by name, those of its lines and any other that
/// the parts name.
#[derive(Debug)]
pub struct CutOf<'a> {
    /// The reservation.
    pub reservation: &'a Reservation,
    /// The pieces.
    pub pieces: &'a BTreeMap<PieceId, Piece>,
}

impl CutOf<'_> {
    /// The piece that a part was cut off, where it is known.
    fn piece(&self, part: &v1::CutPart) -> Option<&Piece> {
        let line = self.reservation.lines.iter().find(|line| line.number == part.line);
        let named = (!part.piece_id.is_empty()).then(|| PieceId::from(part.piece_id.as_str()));
        self.pieces.get(&named.or_else(|| line.map(|line| line.piece.clone()))?)
    }
}

/// What the bench has cut.
///
/// # Errors
/// Every violation of every part.
pub fn parts(
    catalogue: &Catalogue,
    of: &CutOf<'_>,
    wire: &v1::RecordCutRequest,
) -> Result<(Vec<Part>, Vec<Judged>), Failure> {
    let mut reader = Reader::default();
    let most = bounds::CUT_PARTS.most;
    if u32::try_from(wire.parts.len()).unwrap_or(u32::MAX) > most {
        let message = format!("{} parts are too many for one cut: give up to {most}", wire.parts.len());
        reader.refuse(None, "parts", Why::TooLong, message);
        return reader.done(None);
    }
    let (mut parts, mut judged) = (Vec::with_capacity(wire.parts.len()), Vec::new());
    for (place, part) in wire.parts.iter().enumerate() {
        if reader.is_full() {
            break;
        }
        parts.extend(reader.part(catalogue, of, &format!("parts[{place}]"), part, &mut judged)?);
    }
    reader.done(Some((parts, judged)))
}

impl Reader {
    fn part(
        &mut self,
        catalogue: &Catalogue,
        of: &CutOf<'_>,
        path: &str,
        wire: &v1::CutPart,
        judged: &mut Vec<Judged>,
    ) -> Result<Option<Part>, Failure> {
        let at = |field: &str| format!("{path}.{field}");
        if !of.reservation.lines.iter().any(|line| line.number == wire.line) {
            let last = of.reservation.lines.len();
            let message = format!("the reservation has no line {}: its lines are 1 to {last}", wire.line);
            self.refuse(None, &at("line"), Why::UnknownValue, message);
        }
        let named = self.label(&at("pieceId"), &wire.piece_id, "a label");
        let piece = of.piece(wire);
        if named.is_some() && piece.is_none() {
            let message = format!("there is no piece \"{}\": check its label", wire.piece_id);
            self.refuse(None, &at("pieceId"), Why::UnknownCode, message);
        }
        let Some(piece) = piece else { return Ok(None) };
        let class = piece.material.class;
        let taken = self.quantity(&at("taken"), wire.taken.as_ref(), class, Least::Some);
        let spoiled = match &wire.spoiled {
            Some(_) => self.quantity(&at("spoiled"), wire.spoiled.as_ref(), class, Least::Nought),
            None => Some(Amount::ZERO),
        };
        let why = self.why(&at("why"), wire.why, (&at("note"), &wire.note));
        if spoiled.is_some_and(Amount::is_some) && wire.why == 0 {
            let message =
                "nothing says why it was spoiled: give a reason, such as STOCK_REASON_MISCUT".to_owned();
            self.refuse(None, &at("why"), Why::Missing, message);
        }
        let remnants = self.offcuts(catalogue, piece, path, wire, judged)?;
        let note = self.words(&at("note"), &wire.note, bounds::NOTE, "the note");
        let (Some(taken), Some(spoiled), Some(note)) = (taken, spoiled, note) else { return Ok(None) };
        Ok(Some(Part {
            line: wire.line,
            piece: named.map(PieceId),
            taken,
            spoiled,
            why: if spoiled.is_some() { why } else { Reason::None },
            shapes: wire.shapes,
            remnants,
            finish: if wire.done { Finish::Done } else { Finish::WhenEnough },
            note,
        }))
    }

    fn offcuts(
        &mut self,
        catalogue: &Catalogue,
        piece: &Piece,
        path: &str,
        wire: &v1::CutPart,
        judged: &mut Vec<Judged>,
    ) -> Result<Vec<NewRemnant>, Failure> {
        let at = |place: usize, field: &str| format!("{path}.offcuts[{place}].{field}");
        let most = bounds::OFFCUTS.most;
        if u32::try_from(wire.offcuts.len()).unwrap_or(u32::MAX) > most {
            let message = format!("{} offcuts are too many: give up to {most}", wire.offcuts.len());
            self.refuse(None, &format!("{path}.offcuts"), Why::TooLong, message);
            return Ok(Vec::new());
        }
        if piece.material.class == Class::Sundry && !wire.offcuts.is_empty() {
            let message = "what is counted leaves no offcuts: count what is left in its box".to_owned();
            self.refuse(None, &format!("{path}.offcuts"), Why::Contradiction, message);
            return Ok(Vec::new());
        }
        let mut kept = Vec::new();
        for (place, offcut) in wire.offcuts.iter().enumerate() {
            let label = self.label(&at(place, "pieceId"), &offcut.piece_id, "a label");
            let length =
                self.length_at(None, &at(place, "lengthMm"), Some(offcut.length_mm), bounds::PIECE_LENGTH);
            let width = match offcut.width_mm {
                Some(_) if piece.material.class == Class::Binding => {
                    let message = "a binding has no usable width here: leave it out".to_owned();
                    self.refuse(None, &at(place, "widthMm"), Why::Contradiction, message);
                    None
                }
                None => Some(piece.width),
                Some(_) => {
                    let bound = Bound { least: Length::from_mm(1), most: piece.width };
                    self.length_at(None, &at(place, "widthMm"), offcut.width_mm, bound)
                }
            };
            let location = self.words(&at(place, "location"), &offcut.location, bounds::WORD, "the place");
            let (Some(length), Some(width), Some(location)) = (length, width, location) else { continue };
            let found = judge(catalogue, piece, length, width);
            if found.kept {
                let id = match label {
                    Some(label) => label,
                    None => names::label(&piece.material.code)?,
                };
                let location = if location.is_empty() { piece.location.clone() } else { location };
                kept.push(NewRemnant { id: PieceId(id), length, width, location });
            }
            judged.push(found);
        }
        Ok(kept)
    }
}

/// Whether an offcut is kept: of cloth by the rule of [`pennantry_calc::shelf`]; of binding if it
/// is as long as the shortest string that the shop makes. Of a material that the catalogue no
/// longer has nothing is kept.
fn judge(catalogue: &Catalogue, piece: &Piece, length: Length, width: Length) -> Judged {
    let shop = &*catalogue.shop;
    let code = &piece.material.code;
    if piece.material.class == Class::Binding {
        let kept = length >= shop.least;
        let rule = format!("the shortest string here is {}", shop.least);
        let word = if kept { "kept" } else { "waste, which counts as used" };
        return Judged { length, width, holds: u32::from(kept), kept, message: format!("{word}: {rule}") };
    }
    let fabric = find(shop, code, Some(Class::Cloth)).and_then(|goods| goods.fabric);
    let Some(found) = fabric.map(|fabric| useful(shop, fabric, width, length)) else {
        let message = format!("waste, which counts as used: the catalogue has no \"{code}\" any longer");
        return Judged { length, width, holds: 0, kept: false, message };
    };
    let smallest = found.design.and_then(|design| shop.designs.get(design));
    let whose = smallest.map_or_else(String::new, |design| format!(", that of \"{}\"", design.code));
    let (holds, least) = (found.holds, LEAST_HELD);
    let message = if found.kept {
        format!("kept: it holds {holds} of the smallest pennant{whose}, and {least} are enough")
    } else {
        format!(
            "waste, which counts as used: it holds {holds} of the smallest pennant{whose}, and a remnant holds at \
             least {least}"
        )
    };
    Judged { length, width, holds, kept: found.kept, message }
}

/// What became of the offcuts of a cut that was recorded before: those are kept that went on the shelf,
/// whatever would be kept today.
pub fn again(
    catalogue: &Catalogue,
    of: &CutOf<'_>,
    wire: &v1::RecordCutRequest,
    received: &[PieceId],
) -> Vec<Judged> {
    let mut kept = received.iter().filter_map(|id| of.pieces.get(id)).peekable();
    let mut judged = Vec::new();
    for part in &wire.parts {
        let Some(piece) = of.piece(part) else { continue };
        for offcut in &part.offcuts {
            let Ok(length) = length::read(offcut.length_mm) else { continue };
            let width = offcut.width_mm.map_or(Ok(piece.width), length::read);
            let Ok(width) = width else { continue };
            let is_next = |kept: &&Piece| kept.received.length() == length && kept.width == width;
            let is_kept = kept.next_if(is_next).is_some();
            let today = judge(catalogue, piece, length, width);
            let message = match is_kept {
                _ if today.kept == is_kept => today.message,
                true => "kept when it was recorded".to_owned(),
                false => "waste when it was recorded, which counts as used".to_owned(),
            };
            judged.push(Judged { kept: is_kept, message, ..today });
        }
    }
    judged
}

/// Whether a cut may be recorded for a day.
///
/// # Errors
/// It is to come, or too long ago.
pub fn on(day: i32, today: i32) -> Result<(), Failure> {
    let least = today.saturating_sub(Cut::DAYS);
    if (least..=today).contains(&day) {
        return Ok(());
    }
    let (day, least, today) = (date(day), date(least), date(today));
    let message = format!(
        "{day} is not a day for which a cut can be recorded now: give {least} to {today}, or correct what lies there \
         by AdjustStock"
    );
    Err(Failure::refused(vec![violation("cutDate", Why::OutOfRange, message)]))
}

/// The name of a new cut.
///
/// # Errors
/// The operating system gives no random bytes.
pub fn new_cut() -> Result<CutId, Failure> {
    names::secret().map(CutId)
}
