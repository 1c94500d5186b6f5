//! What buyers take: an order is worked as a quote is, planned on the shelf as the server plans it,
//! held, and confirmed or not.
//!
//! So every line has the area of its shapes from the calculation's own outline, and the length
//! from a plan that can be cut. Bindings and what is counted are bought over the counter
//! where they run out: the story is about cloth.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use pennantry_app::quote::{self, Enquiry};
use pennantry_app::stock::{Item, Look, Plan, at, needs, plan};
use pennantry_calc::order::Asked;
use pennantry_calc::shop::BindingSource;
use pennantry_ledger::Error;
use pennantry_ledger::rules::{
    Amount, Class, Command, Confirm, Material, NewPiece, PieceKind, Receive, Refusal, ReservationId, Reserve,
};
use pennantry_measure::Length;

use super::book::Book;
use super::wishes::Wish;

/// Who sells what is bought over the counter.
pub(super) const COUNTER: &str = "The chandlery below";
/// The binding of every order: one that is bought, so that the cloth of an order is its pennants'.
const BINDING: &str = "bosun-25";
/// Rolls of binding, and things in a box, that are bought at once.
const ROLLS: i64 = 4;
const IN_A_BOX: i64 = 400;
/// How long a buyer has to pay.
const SECONDS: i64 = 900;

/// An order as it is worked.
#[derive(Debug)]
pub(super) struct Sold {
    pub items: Vec<Item>,
    bench_milli_minutes: i64,
}

/// What became of a wish.
pub(super) enum Sale {
    /// It is to be cut.
    Confirmed(ReservationId, Arc<Sold>),
    /// It was not paid.
    Held,
    /// There is not enough of these.
    Missing(BTreeSet<String>),
}

/// Orders that were worked before.
#[derive(Debug, Default)]
pub(super) struct Sales {
    worked: BTreeMap<Wish, Arc<Sold>>,
    kept: BTreeSet<String>,
}

impl Sales {
    /// Takes an order: for so many days where it is only held.
    ///
    /// # Errors
    /// The stock cannot be had, or the wish is none of this shop's.
    pub(super) async fn take(
        &mut self,
        book: &mut Book<'_>,
        wish: &Wish,
        held_days: Option<i64>,
    ) -> Result<Sale, Error> {
        let sold = self.work(book, wish)?;
        self.provide(book, &sold).await?;
        let planned = self.plan(book, &sold)?;
        if !planned.is_whole() {
            let missing = planned.uses.iter().filter(|used| used.missing.is_some());
            return Ok(Sale::Missing(missing.map(|used| used.material.code.clone()).collect()));
        }
        let id = book.reservation();
        let reserve = Reserve {
            id: id.clone(),
            holder: "storefront".to_owned(),
            most_holds: None,
            seconds: held_days.map_or(SECONDS, |days| days * 86_400),
            quote: format!("q{}", &id.0),
            bench_milli_minutes: sold.bench_milli_minutes,
            leave_day: Some(book.day + 4),
            sold: Vec::new(),
            lines: planned.lines(),
            supersedes: None,
        };
        match book.write(Command::Reserve(reserve)).await {
            Ok(_) => {}
            Err(Error::Refused(Refusal::Taken(_))) => {
                let codes = planned.uses.iter().map(|used| used.material.code.clone());
                return Ok(Sale::Missing(codes.collect()));
            }
            Err(error) => return Err(error),
        }
        // three in a hundred do not pay
        if held_days.is_some() || book.dice.in_hundred(3) {
            return Ok(Sale::Held);
        }
        let order_reference = book.sale();
        book.write(Command::Confirm(Confirm { id: id.clone(), order_reference })).await?;
        Ok(Sale::Confirmed(id, sold))
    }

    fn work(&mut self, book: &Book<'_>, wish: &Wish) -> Result<Arc<Sold>, Error> {
        if let Some(sold) = self.worked.get(wish) {
            return Ok(sold.clone());
        }
        let asked = Asked {
            design: Some(wish.design.to_owned()),
            count: Some(wish.pennants),
            quantity: Some(wish.strings),
            fabrics: wish.fabrics.iter().map(|code| (*code).to_owned()).collect(),
            binding: Some(BINDING.to_owned()),
            ..Asked::default()
        };
        let answer = quote::answer(book.catalogue, &Enquiry { asked, ..Enquiry::default() }, book.now());
        let answer = answer.map_err(|error| Error::Fault(format!("{wish:?}: {error:?}")))?;
        let items = needs(&book.catalogue.shop, &answer.order, &answer.quote.worked);
        let bench_milli_minutes = answer.quote.worked.labour.total.milli_minutes();
        let sold = Arc::new(Sold { items, bench_milli_minutes });
        self.worked.insert(wish.clone(), sold.clone());
        Ok(sold)
    }

    fn plan(&self, book: &Book<'_>, sold: &Sold) -> Result<Plan, Error> {
        let shelf = book.ledger.shelf();
        let look = Look { shelf: &shelf, now: at(book.now()), kept: &self.kept, caps: &BTreeMap::new() };
        plan(&sold.items, &[], &look).map_err(|fault| Error::Fault(fault.to_string()))
    }

    /// Has bindings and what is counted there.
    async fn provide(&mut self, book: &mut Book<'_>, sold: &Sold) -> Result<(), Error> {
        let counted = sold.items.iter().filter(|item| item.material.class == Class::Sundry);
        self.kept.extend(counted.map(|item| item.material.code.clone()));
        let missing: BTreeSet<Material> = {
            let planned = self.plan(book, sold)?;
            let missing = planned.uses.into_iter().filter(|used| used.missing.is_some());
            missing.map(|used| used.material).filter(|material| material.class != Class::Cloth).collect()
        };
        for material in missing {
            let bindings = &book.catalogue.shop.bindings;
            let roll = bindings.iter().find(|binding| binding.code == material.code);
            let (kind, amount, count) = match roll.map(|roll| &roll.source) {
                Some(BindingSource::Bought { roll, .. }) => {
                    (PieceKind::Roll, Amount::of_length(roll.length), ROLLS)
                }
                _ => (PieceKind::Box, Amount(IN_A_BOX), 1),
            };
            let mut pieces = Vec::new();
            for _ in 0..count {
                pieces.push(NewPiece {
                    id: book.piece(&material.code),
                    kind,
                    material: material.clone(),
                    lot: String::new(),
                    width: Length::ZERO,
                    amount,
                    flaws: Vec::new(),
                    location: "drawer".to_owned(),
                    cost_minor: None,
                    supplier: COUNTER.to_owned(),
                    supplier_reference: String::new(),
                    certificates: Vec::new(),
                });
            }
            book.write(Command::Receive(Receive { pieces, order: None })).await?;
        }
        Ok(())
    }
}
