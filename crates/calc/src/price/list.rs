//! A price list by the metre.
//!
//! | figure | formula | rounding |
//! |---|---|---|
//! | metres | `rate · overall length · strings` | half up, once |
//! | extras of a string | letters, trimmings, loops and ties, each at its price | none |
//! | goods | `metres + strings · extras` | none |
//!
//! The rate is that of the entry for the construction and the class of the fabric that has
//! the least width up to which it goes and holds the pennant's top edge. Where a string has
//! fabrics of several classes, the dearest entry counts for all of it.
//!
//! An order that no entry covers is refused, with what the list has: a shop that sells by
//! the metre has no margin from which another price could be made, and a price that nobody
//! has set is not to be promised.

use pennantry_measure::{Length, Money, Rate, Rounding};

use super::{Asked, Taken};
use crate::cutting::Role;
use crate::order::{EndStyle, Field, Reason, Violation, construction_name};
use crate::shop::{ListPrice, Shop};

/// What a string is sold at by the list.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Listed {
    /// A metre of it.
    pub rate: Rate,
    /// Its overall length.
    pub overall: Length,
    /// What it has beside its metres.
    pub extras: Money,
}

impl Listed {
    /// The goods of so many strings, before anything is off.
    pub(super) fn goods(&self, strings: u32) -> Money {
        let strings = i64::from(strings);
        let metres = self.rate.per_metre(self.overall * strings, Rounding::HalfUp);
        // a whole multiple: no part to round
        metres + self.extras.scaled(strings.into(), 1, Rounding::HalfUp)
    }
}

/// Looks an order up in the list.
///
/// # Errors
/// A violation that says what the list has, where it has nothing for the order.
pub(super) fn look_up(asked: &Asked, taken: &Taken) -> Result<Listed, Vec<Violation>> {
    let shop = asked.shop;
    let mut dearest = Rate::default();
    for class in classes(shop, taken) {
        dearest = dearest.max(entry(asked, class)?.rate);
    }
    Ok(Listed { rate: dearest, overall: asked.layout.overall, extras: extras(asked) })
}

/// The classes of the pennants' fabrics, each once.
fn classes<'a>(shop: &'a Shop, taken: &Taken) -> Vec<&'a str> {
    let pennants = taken.cloth.iter().filter(|used| used.role == Role::Pennants);
    let mut classes: Vec<&str> = pennants
        .filter_map(|used| shop.fabrics.get(used.fabric))
        .map(|fabric| fabric.class.as_str())
        .collect();
    classes.sort_unstable();
    classes.dedup();
    classes
}

fn entry<'a>(asked: &Asked<'a>, class: &str) -> Result<&'a ListPrice, Vec<Violation>> {
    let (construction, width) = (asked.order.construction, asked.layout.top_width);
    let made = construction_name(construction);
    let refused = |field, reason, message| Err(vec![Violation::new(field, reason, message)]);
    let of_construction = || asked.shop.pricing.list.iter().filter(|one| one.construction == construction);
    if of_construction().next().is_none() {
        let message = format!(
            "the price list has no price for pennants {made}: choose another construction, or ask the shop"
        );
        return refused(Field::Construction, Reason::NotOffered, message);
    }
    let of_class = || of_construction().filter(|one| one.class == class);
    let Some(widest) = of_class().map(|one| one.up_to_width).max() else {
        let message = format!(
            "the price list has no price for pennants {made} from fabrics of the class \"{class}\": choose other \
             fabrics or another construction, or ask the shop"
        );
        return refused(Field::Fabrics, Reason::NotOffered, message);
    };
    let Some(found) = of_class().filter(|one| one.up_to_width >= width).min_by_key(|one| one.up_to_width)
    else {
        let message = format!(
            "the price list goes up to pennants {widest} wide {made}, and these have a top edge of {width}: give a \
             width of {widest} or less, or ask the shop"
        );
        return refused(Field::Width, Reason::OutOfRange, message);
    };
    Ok(found)
}

/// What a string has beside its metres.
fn extras(asked: &Asked) -> Money {
    let (order, extras) = (asked.order, asked.shop.pricing.extras);
    let pennants = u64::from(asked.layout.count);
    let count = |number: usize| u64::try_from(number).unwrap_or(u64::MAX);
    let ends = |style| count(order.ends.iter().filter(|end| end.style == style).count());
    let hung = count(order.ends.iter().filter(|end| end.trimming.is_some()).count());
    let on_pennants: u64 = order.trimmings.iter().map(|(_, each)| u64::from(*each) * pennants).sum();
    let of = |price: Money, number: u64| price.scaled(number.into(), 1, Rounding::HalfUp);
    [
        of(extras.letter, count(order.letters.iter().flatten().count())),
        of(extras.trimming, on_pennants + hung),
        of(extras.looped, ends(EndStyle::Loop)),
        of(extras.tie, ends(EndStyle::Tie)),
    ]
    .into_iter()
    .sum()
}
