//! Reading what comes, what is so and what is ordered.

use std::collections::BTreeMap;

use pennantry_app::Catalogue;
use pennantry_contract::reasons::ViolationReason as Why;
use pennantry_contract::v1;
use pennantry_ledger::rules::{
    Adjust, Adjustment, Amount, Class, NewOrderLine, NewPiece, Piece, PieceId, PieceKind, Place, Receive,
};
use pennantry_measure::Length;
use pennantry_measure::bounds::{self, Bound};

use super::super::enquiry::Reader;
use super::goods::{class_of, hinted};
use super::read::Least;
use super::write::numbered;
use crate::failure::{Failure, violation};
use crate::names;

/// Checks the identity of a request.
///
/// # Errors
/// It is longer than any, or holds what nobody sees.
pub fn request_id(text: &str) -> Result<(), Failure> {
    let mut reader = Reader::default();
    reader.name_if_any("requestId", text, "the request's id");
    reader.done(Some(()))
}

/// A name that must be given: of a reservation, a piece, a cut or an order.
///
/// # Errors
/// It is not.
pub fn named(path: &str, text: &str, what: &str) -> Result<String, Failure> {
    let mut reader = Reader::default();
    let name = reader.name(path, text, what);
    reader.done(name)
}

/// A delivery. Pieces that have no label get new ones; `made` says which.
///
/// # Errors
/// Every violation of every piece.
pub fn receive(
    catalogue: &Catalogue,
    wire: &v1::ReceiveStockRequest,
) -> Result<(Receive, Vec<usize>), Failure> {
    let mut reader = Reader::default();
    reader.name_if_any("requestId", &wire.request_id, "the request's id");
    if !reader.are_as_many(&wire.pieces, bounds::RECEIVED) {
        return reader.done(None);
    }
    let mut labels: BTreeMap<&str, usize> = BTreeMap::new();
    let (mut pieces, mut made) = (Vec::with_capacity(wire.pieces.len()), Vec::new());
    for (place, piece) in wire.pieces.iter().enumerate() {
        if reader.is_full() {
            break;
        }
        let new = reader.one_of(catalogue, place, piece, &mut labels)?;
        if piece.piece_id.is_empty() {
            made.push(place);
        }
        pieces.extend(new);
    }
    let order = reader.label("orderId", &wire.order_id, "the order's name");
    let receive = Receive { pieces, order: order.as_deref().map(Into::into) };
    reader.done(Some((receive, made)))
}

/// What the catalogue says against each piece of a delivery, and every piece that can be read.
///
/// # Errors
/// No piece is given, or too many.
pub fn check(catalogue: &Catalogue, wire: &v1::CheckDeliveryRequest) -> Result<Vec<Looked>, Failure> {
    let mut reader = Reader::default();
    if !reader.are_as_many(&wire.pieces, bounds::CHECKED) {
        return reader.done(None);
    }
    let mut labels: BTreeMap<&str, usize> = BTreeMap::new();
    let mut looked = Vec::with_capacity(wire.pieces.len());
    for (place, piece) in wire.pieces.iter().enumerate() {
        reader.one_of(catalogue, place, piece, &mut labels)?;
        let label = Reader::default().label("pieceId", &piece.piece_id, "a label");
        looked.push((label.map(PieceId), std::mem::take(&mut reader.violations)));
    }
    Ok(looked)
}

/// A label, where one is given and can be one, and what is wrong with its piece.
pub type Looked = (Option<PieceId>, Vec<v1::FieldViolation>);

/// That a label is on a piece already.
pub fn is_taken(place: usize, label: &PieceId) -> v1::FieldViolation {
    let message = format!("\"{label}\" is the label of a piece already: give each its own");
    violation(&format!("pieces[{place}].pieceId"), Why::Repeated, message)
}

impl Reader {
    fn are_as_many(&mut self, pieces: &[v1::NewPiece], most: Bound<u32>) -> bool {
        let count = u32::try_from(pieces.len()).unwrap_or(u32::MAX);
        if !most.holds(count) {
            let (why, said) = if count == 0 {
                (Why::Missing, "no piece is given")
            } else {
                (Why::TooLong, "too many pieces")
            };
            let message = format!("{said}: give {} to {} in one call", most.least, most.most);
            self.refuse(None, "pieces", why, message);
        }
        most.holds(count)
    }

    /// A piece among others, of which none has its label.
    fn one_of<'a>(
        &mut self,
        catalogue: &Catalogue,
        place: usize,
        piece: &'a v1::NewPiece,
        labels: &mut BTreeMap<&'a str, usize>,
    ) -> Result<Option<NewPiece>, Failure> {
        let path = format!("pieces[{place}]");
        let new = self.piece(catalogue, &path, piece)?;
        if !piece.piece_id.is_empty()
            && let Some(before) = labels.insert(&piece.piece_id, place)
        {
            let message =
                format!("\"{}\" is the label of pieces[{before}] already: give each its own", piece.piece_id);
            self.refuse(None, &format!("{path}.pieceId"), Why::Repeated, message);
        }
        Ok(new)
    }

    fn piece(
        &mut self,
        catalogue: &Catalogue,
        path: &str,
        wire: &v1::NewPiece,
    ) -> Result<Option<NewPiece>, Failure> {
        let shop = &*catalogue.shop;
        let at = |field: &str| format!("{path}.{field}");
        let label = self.label(&at("pieceId"), &wire.piece_id, "a label");
        let asked = self.value_at::<v1::PieceKind>(None, &at("kind"), Some(wire.kind)).and_then(kind);
        let class = asked.map(class_of).or_else(|| hinted(wire.quantity.as_ref()));
        let goods = self.goods(shop, &at("code"), &wire.code, class);
        let class = goods.as_ref().map(|goods| goods.material.class);
        let kind = asked.or_else(|| class.map(usual));
        if let (Some(kind), Some(class)) = (kind, class)
            && class_of(kind) != class
        {
            let message = format!(
                "\"{}\" is {}, which does not come as a {}: leave the kind out for a {}",
                wire.code,
                class_word(class),
                kind.as_str(),
                usual(class).as_str()
            );
            self.refuse(None, &at("kind"), Why::Contradiction, message);
        }
        let amount = class
            .and_then(|class| self.quantity(&at("quantity"), wire.quantity.as_ref(), class, Least::Piece));
        let width = self.piece_width(&at("widthMm"), wire.width_mm, class);
        let lot = self.words(&at("lot"), &wire.lot, bounds::WORD, "the dye lot");
        let long = amount.filter(|_| class != Some(Class::Sundry)).map(Amount::length);
        let flaws = if class == Some(Class::Sundry) && !wire.flaws.is_empty() {
            let message =
                "what is counted has no flaws along it: leave out those that are no good".to_owned();
            self.refuse(None, &at("flaws"), Why::Contradiction, message);
            Vec::new()
        } else {
            self.flaws(&at("flaws"), &wire.flaws, long)
        };
        let location = self.words(&at("location"), &wire.location, bounds::WORD, "the place");
        let cost = self.cost(catalogue, &at("cost"), wire.cost.as_ref());
        let supplier = self.words(&at("supplier"), &wire.supplier, bounds::PARTY, "the supplier");
        let reference = self.words(
            &at("supplierReference"),
            &wire.supplier_reference,
            bounds::PARTY,
            "the supplier's reference",
        );
        let certificates = self.certificates(&at("certificates"), &wire.certificates);
        let id = match label {
            Some(label) => label,
            None => names::label(&wire.code)?,
        };
        let (Some(goods), Some(kind), Some(amount), Some(lot), Some(location), Some(supplier)) =
            (goods, kind, amount, lot, location, supplier)
        else {
            return Ok(None);
        };
        Ok(Some(NewPiece {
            id: PieceId(id),
            kind,
            width: width.unwrap_or(goods.width),
            material: goods.material,
            lot,
            amount,
            flaws,
            location,
            cost_minor: cost,
            supplier,
            supplier_reference: reference.unwrap_or_default(),
            certificates,
        }))
    }

    fn piece_width(&mut self, path: &str, mm: Option<f64>, class: Option<Class>) -> Option<Length> {
        if mm.is_some() && class.is_some_and(|class| class != Class::Cloth) {
            let message = "only cloth has a usable width here: leave it out".to_owned();
            self.refuse(None, path, Why::Contradiction, message);
            return None;
        }
        self.length_at(None, path, mm, bounds::CLOTH_WIDTH)
    }

    fn cost(&mut self, catalogue: &Catalogue, path: &str, wire: Option<&v1::Money>) -> Option<i64> {
        const MOST: i64 = 1_000_000_000_000;
        let money = wire?;
        let shop = &catalogue.shop;
        if money.currency_code != shop.currency {
            let message = format!("costs are kept in {}: give currencyCode {}", shop.currency, shop.currency);
            self.refuse(None, &format!("{path}.currencyCode"), Why::NotOffered, message);
        }
        if !(0..=MOST).contains(&money.minor_units) {
            let message = format!("{} minor units are out of range: give 0 to {MOST}", money.minor_units);
            self.refuse(None, &format!("{path}.minorUnits"), Why::OutOfRange, message);
            return None;
        }
        Some(money.minor_units)
    }

    fn certificates(&mut self, path: &str, wire: &[String]) -> Vec<String> {
        let most = bounds::CERTIFICATES.most;
        if u32::try_from(wire.len()).unwrap_or(u32::MAX) > most {
            let message =
                format!("{} certificates are too many for one piece: give up to {most}", wire.len());
            self.refuse(None, path, Why::TooLong, message);
            return Vec::new();
        }
        let bound = Bound { least: 1, ..bounds::PARTY };
        let read = wire.iter().enumerate().filter_map(|(place, text)| {
            self.words(&format!("{path}[{place}]"), text, bound, "the certificate's number")
        });
        read.collect()
    }
}

const fn kind(wire: v1::PieceKind) -> Option<PieceKind> {
    match wire {
        v1::PieceKind::Unspecified => None,
        v1::PieceKind::Bolt => Some(PieceKind::Bolt),
        v1::PieceKind::Remnant => Some(PieceKind::Remnant),
        v1::PieceKind::Roll => Some(PieceKind::Roll),
        v1::PieceKind::Box => Some(PieceKind::Box),
    }
}

const fn usual(class: Class) -> PieceKind {
    match class {
        Class::Cloth => PieceKind::Bolt,
        Class::Binding => PieceKind::Roll,
        Class::Sundry => PieceKind::Box,
    }
}

const fn class_word(class: Class) -> &'static str {
    match class {
        Class::Cloth => "a cloth",
        Class::Binding => "a binding",
        Class::Sundry => "counted",
    }
}

/// What is so with a piece.
///
/// # Errors
/// Every violation.
pub fn adjust(piece: &Piece, wire: &v1::AdjustStockRequest) -> Result<Adjust, Failure> {
    use v1::adjust_stock_request::What;
    let class = piece.material.class;
    let mut reader = Reader::default();
    let what = match &wire.what {
        None => {
            let message =
                "nothing says what is so: give counted, gone, found, flaws, moreFlaws or location".to_owned();
            reader.refuse(None, "what", Why::Missing, message);
            None
        }
        Some(What::Counted(amount)) => {
            reader.quantity("counted", Some(amount), class, Least::Nought).map(Adjustment::Counted)
        }
        Some(What::Gone(gone)) => {
            let amount = reader.quantity("gone.quantity", gone.quantity.as_ref(), class, Least::Some);
            let why = reader.why("gone.reason", gone.reason, ("note", &wire.note));
            if gone.reason == 0 {
                let message =
                    "nothing says why it is gone: give a reason, such as STOCK_REASON_DAMAGED".to_owned();
                reader.refuse(None, "gone.reason", Why::Missing, message);
            }
            amount.map(|amount| Adjustment::Gone(amount, why))
        }
        Some(What::Found(amount)) => {
            reader.quantity("found", Some(amount), class, Least::Some).map(Adjustment::Found)
        }
        Some(What::Flaws(flaws)) => {
            Some(Adjustment::Flaws(reader.flaws_of(piece, "flaws.flaws", &flaws.flaws)))
        }
        Some(What::MoreFlaws(more)) => {
            let path = "moreFlaws.flaws";
            if more.flaws.is_empty() {
                let message = "no flaw is given: give at least one, or flaws with none where it has none";
                reader.refuse(None, path, Why::Missing, message.to_owned());
            }
            let most = bounds::FLAWS.most;
            if u32::try_from(piece.flaws.len().saturating_add(more.flaws.len())).unwrap_or(u32::MAX) > most {
                let (known, more) = (piece.flaws.len(), more.flaws.len());
                let message = format!(
                    "{known} flaws are known and {more} more are given: a piece has up to {most}; give all of them as flaws, \
                     those that lie close together as one"
                );
                reader.refuse(None, path, Why::TooLong, message);
            }
            Some(Adjustment::MoreFlaws(reader.flaws_of(piece, path, &more.flaws)))
        }
        Some(What::Location(place)) => {
            reader.words("location", place, bounds::WORD, "the place").map(Adjustment::Moved)
        }
    };
    let note = reader.words("note", &wire.note, bounds::NOTE, "the note");
    let read = what.zip(note).map(|(what, note)| Adjust { piece: piece.id.clone(), what, note });
    reader.done(read)
}

impl Reader {
    /// Flaws of a piece that is there.
    fn flaws_of(
        &mut self,
        piece: &Piece,
        path: &str,
        flaws: &[v1::Flaw],
    ) -> Vec<pennantry_ledger::rules::Flaw> {
        let class = piece.material.class;
        if class == Class::Sundry && !flaws.is_empty() {
            let message = "what is counted has no flaws along it: record those that are no good as gone";
            self.refuse(None, path, Why::Contradiction, message.to_owned());
        }
        let long = (class != Class::Sundry).then(|| piece.left.length());
        self.flaws(path, flaws, long)
    }
}

/// An order at a supplier.
///
/// # Errors
/// Every violation.
pub fn place(catalogue: &Catalogue, wire: &v1::PlaceOrderRequest) -> Result<Place, Failure> {
    let shop = &*catalogue.shop;
    let mut reader = Reader::default();
    reader.name_if_any("requestId", &wire.request_id, "the request's id");
    let id = reader.label("orderId", &wire.order_id, "the order's name");
    let bound = Bound { least: 1, ..bounds::PARTY };
    let supplier = reader.words("supplier", &wire.supplier, bound, "the supplier");
    let expected = reader.date(None, "expectedDate", Some(&wire.expected_date));
    let count = u32::try_from(wire.lines.len()).unwrap_or(u32::MAX);
    if !bounds::ORDER_LINES.holds(count) {
        let why = if count == 0 { Why::Missing } else { Why::TooLong };
        let Bound { least, most } = bounds::ORDER_LINES;
        reader.refuse(None, "lines", why, format!("{count} lines: give {least} to {most}"));
    }
    let mut lines: Vec<NewOrderLine> = Vec::new();
    for (place, line) in wire.lines.iter().enumerate().take(100) {
        let path = format!("lines[{place}]");
        let goods = reader.goods(shop, &format!("{path}.code"), &line.code, hinted(line.quantity.as_ref()));
        let Some(goods) = goods else { continue };
        let class = goods.material.class;
        if lines.iter().any(|before| before.material == goods.material) {
            let message = format!("\"{}\" is on the order already: give each material once", line.code);
            reader.refuse(None, &format!("{path}.code"), Why::Repeated, message);
        }
        let amount =
            reader.quantity(&format!("{path}.quantity"), line.quantity.as_ref(), class, Least::Piece);
        lines.extend(amount.map(|amount| NewOrderLine { material: goods.material, amount }));
    }
    let note = reader.words("note", &wire.note, bounds::NOTE, "the note");
    let id = match id {
        Some(id) => id,
        None => names::label("ORDER")?,
    };
    let expected_day = expected.and_then(|date| numbered(&date.to_string()));
    let read = match (supplier, expected_day, note) {
        (Some(supplier), Some(expected_day), Some(note)) => {
            Some(Place { id: id.as_str().into(), supplier, expected_day, note, lines })
        }
        _ => None,
    };
    reader.done(read)
}

/// Why an order is called off.
///
/// # Errors
/// It is longer than any, or holds what nobody sees.
pub fn cancel_order(wire: &v1::CancelOrderRequest) -> Result<(String, String), Failure> {
    let mut reader = Reader::default();
    reader.name_if_any("requestId", &wire.request_id, "the request's id");
    let id = reader.label_of("orderId", &wire.order_id, "the order's name");
    let reason = reader.words("reason", &wire.reason, bounds::NOTE, "the reason");
    let read = id.zip(reason);
    reader.done(read)
}
