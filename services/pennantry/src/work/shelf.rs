//! `bolts`, `piece`, and the facts: `count`, `gone`, `found`, `flaw`, `move`.

use pennantry_contract::v1::adjust_stock_request::What;
use pennantry_contract::v1::quantity;
use pennantry_contract::{table, v1};

use super::{done, line, stock, with_currency};
use crate::ask::{Door, Failure};
use crate::cli::{Bolts, Fact, Flaw, Gone, HowMuch, Move, OnePiece};
use crate::print::{Look, piece};
use crate::program::Printed;
use crate::typed::{Amount, Stretch};
use crate::{stocktake, words};

/// Pieces a page.
const PAGE: u32 = 1_000;

/// Lists what lies on the shelf, page by page to the end.
///
/// # Errors
/// Refused, or not asked.
pub async fn bolts(flags: &Bolts) -> Result<Printed, Failure> {
    let door = Door::connect(&flags.reach.server).await?;
    let mut all = v1::ListStockResponse::default();
    loop {
        let request = v1::ListStockRequest {
            code: flags.code.clone().unwrap_or_default(),
            lot: flags.lot.clone().unwrap_or_default(),
            empty_too: flags.empty,
            page_size: PAGE,
            page_token: all.next_page_token.clone(),
        };
        let told = door.look(|channel| async move { stock(channel).list_stock(request).await }).await?;
        all.pieces.extend(told.pieces);
        if all.as_of.is_empty() {
            all.as_of = told.as_of;
        }
        let again = !told.next_page_token.is_empty() && told.next_page_token == all.next_page_token;
        if again {
            return Err(Failure::NotAsked("the server gives the same page again and again".to_owned()));
        }
        all.next_page_token = told.next_page_token;
        if all.next_page_token.is_empty() {
            break;
        }
    }
    if flags.reach.json {
        return Ok(done(line(serde_json::to_string(&all))?));
    }
    if !flags.csv {
        return Ok(done(piece::list(&all.pieces, &all.as_of, &Look::of(&flags.reach))));
    }
    let has_cost = all.pieces.iter().any(|piece| piece.cost.is_some());
    let currency = if has_cost { Some(door.currency().await?) } else { None };
    let written = stocktake::write(&all.pieces, currency.as_ref()).map_err(Failure::NotAsked)?;
    let err = match written.without_cost {
        0 => String::new(),
        without => format!(
            "left out is the cost of {}: it is that of the whole piece, of which some is gone\n",
            piece::number_of(without)
        ),
    };
    Ok(Printed { out: written.text, err, ..Printed::default() })
}

/// Shows one piece and its history.
///
/// # Errors
/// Refused, or not asked.
pub async fn one(flags: &OnePiece) -> Result<Printed, Failure> {
    let door = Door::connect(&flags.reach.server).await?;
    let told = get(&door, &flags.label).await?;
    if flags.reach.json {
        return Ok(done(line(serde_json::to_string(&told))?));
    }
    let cost = told.piece.as_ref().is_some_and(|piece| piece.cost.is_some());
    let look = Look::of(&flags.reach);
    let look = if cost || !told.reservations.is_empty() { with_currency(look, &door).await } else { look };
    Ok(done(piece::one(&told, &look)))
}

async fn get(door: &Door, label: &str) -> Result<v1::GetPieceResponse, Failure> {
    let request = v1::GetPieceRequest { piece_id: label.to_owned() };
    door.look(|channel| async move { stock(channel).get_piece(request).await }).await
}

/// Records a count. A plain 0 is no length where the piece is measured.
///
/// # Errors
/// Refused, or not asked.
pub async fn count(flags: &HowMuch) -> Result<Printed, Failure> {
    let amount = amount(&flags.amount)?;
    let door = Door::connect(&flags.fact.reach.server).await?;
    let mut counted = amount.to_wire();
    if amount == Amount::Count(0) {
        let left = get(&door, &flags.label).await?.piece.and_then(|piece| piece.left);
        if let Some(quantity::Amount::LengthMm(_)) = left.and_then(|left| left.amount) {
            counted = v1::Quantity { amount: Some(quantity::Amount::LengthMm(0.0)) };
        }
    }
    adjust(&door, &flags.label, What::Counted(counted), &flags.fact).await
}

/// Records a find.
///
/// # Errors
/// Refused, or not asked.
pub async fn found(flags: &HowMuch) -> Result<Printed, Failure> {
    let found = amount(&flags.amount)?.to_wire();
    let door = Door::connect(&flags.fact.reach.server).await?;
    adjust(&door, &flags.label, What::Found(found), &flags.fact).await
}

/// Records a loss.
///
/// # Errors
/// Refused, or not asked.
pub async fn gone(flags: &Gone) -> Result<Printed, Failure> {
    let gone = v1::Gone {
        quantity: Some(amount(&flags.amount)?.to_wire()),
        reason: words::value(&table::STOCK_REASON, &flags.why).unwrap_or_default(),
    };
    let door = Door::connect(&flags.fact.reach.server).await?;
    adjust(&door, &flags.label, What::Gone(gone), &flags.fact).await
}

/// Records flaws, beside those that are known unless these are said to be all.
///
/// # Errors
/// Refused, or not asked.
pub async fn flaw(flags: &Flaw) -> Result<Printed, Failure> {
    let door = Door::connect(&flags.fact.reach.server).await?;
    let mut flaws: Vec<v1::Flaw> = flags.flaws.iter().copied().map(Stretch::to_wire).collect();
    flaws.sort_by(|one, other| one.from_mm.total_cmp(&other.from_mm).then(one.to_mm.total_cmp(&other.to_mm)));
    flaws.dedup();
    let flaws = v1::Flaws { flaws };
    let what = if flags.all || flags.none { What::Flaws(flaws) } else { What::MoreFlaws(flaws) };
    adjust(&door, &flags.label, what, &flags.fact).await
}

/// Records where a piece lies.
///
/// # Errors
/// Refused, or not asked.
pub async fn moved(flags: &Move) -> Result<Printed, Failure> {
    let door = Door::connect(&flags.fact.reach.server).await?;
    adjust(&door, &flags.label, What::Location(flags.place.join(" ")), &flags.fact).await
}

fn amount(words: &[String]) -> Result<Amount, Failure> {
    Amount::of_words(words).map_err(Failure::NotAsked)
}

async fn adjust(door: &Door, label: &str, what: What, fact: &Fact) -> Result<Printed, Failure> {
    let id = fact.once.id().map_err(Failure::NotAsked)?;
    let request = v1::AdjustStockRequest {
        request_id: id.clone(),
        piece_id: label.to_owned(),
        what: Some(what),
        note: fact.note.clone().unwrap_or_default(),
    };
    let sent = |channel, request| async move { stock(channel).adjust_stock(request).await };
    let told = door.change(&id, request, sent).await?;
    if fact.reach.json {
        return Ok(done(line(serde_json::to_string(&told))?));
    }
    Ok(done(piece::adjusted(&told, &Look::of(&fact.reach))))
}
