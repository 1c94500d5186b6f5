//! Codes of the catalogue as materials of the ledger.
//!
//! Fabrics are cloth, bought bindings are binding, trimmings and whatever else is used up by the
//! piece are sundries. A binding that is cut from a cloth lies on the shelf as that cloth. Where
//! a code stands in more than one list, the kind of the piece says which is meant, then what it is
//! measured in, then the order of these lists.

use pennantry_calc::shop::{BindingSource, Shop};
use pennantry_contract::reasons::ViolationReason as Why;
use pennantry_contract::v1;
use pennantry_ledger::rules::{Class, Material, PieceKind};
use pennantry_measure::Length;
use pennantry_measure::text::is_hidden;

use super::super::enquiry::Reader;
use crate::json::hint;

/// A material of the catalogue.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Goods {
    /// As the ledger calls it.
    pub material: Material,
    /// Its name.
    pub name: String,
    /// Its usual width; nought where it has none.
    pub width: Length,
    /// Its place among the fabrics, where it is one.
    pub fabric: Option<usize>,
}

/// What a kind of piece is of.
pub const fn class_of(kind: PieceKind) -> Class {
    match kind {
        PieceKind::Bolt | PieceKind::Remnant => Class::Cloth,
        PieceKind::Roll => Class::Binding,
        PieceKind::Box => Class::Sundry,
    }
}

/// Everything that a code can mean.
fn all(shop: &Shop, code: &str) -> Vec<Goods> {
    let goods = |class, name: &str, width, fabric| Goods {
        material: Material { class, code: code.to_owned() },
        name: name.to_owned(),
        width,
        fabric,
    };
    let fabrics = shop.fabrics.iter().enumerate().filter(|(_, fabric)| fabric.code == code);
    let fabrics =
        fabrics.map(|(place, fabric)| goods(Class::Cloth, &fabric.name, fabric.usable_width, Some(place)));
    let bindings = shop
        .bindings
        .iter()
        .filter(|binding| binding.code == code && matches!(binding.source, BindingSource::Bought { .. }));
    let bindings = bindings.map(|binding| goods(Class::Binding, &binding.name, Length::ZERO, None));
    let trimmings = shop.trimmings.iter().filter(|trimming| trimming.code == code).map(|t| &t.name);
    let sundries = shop.sundries.iter().filter(|sundry| sundry.code == code).map(|s| &s.name);
    let counted = trimmings.chain(sundries).take(1);
    fabrics
        .chain(bindings)
        .chain(counted.map(|name| goods(Class::Sundry, name, Length::ZERO, None)))
        .collect()
}

/// A material by its code; its class where several have it.
pub fn find(shop: &Shop, code: &str, class: Option<Class>) -> Option<Goods> {
    let mut all = all(shop, code);
    let place = class.and_then(|class| all.iter().position(|goods| goods.material.class == class));
    if all.is_empty() { None } else { Some(all.swap_remove(place.unwrap_or(0))) }
}

/// A material's name; its code where the catalogue no longer has it.
pub fn name<'a>(shop: &'a Shop, material: &'a Material) -> &'a str {
    let code = material.code.as_str();
    let found = match material.class {
        Class::Cloth => shop.fabrics.iter().find(|fabric| fabric.code == code).map(|f| &f.name),
        Class::Binding => shop.bindings.iter().find(|binding| binding.code == code).map(|b| &b.name),
        Class::Sundry => {
            let trimming = shop.trimmings.iter().find(|trimming| trimming.code == code).map(|t| &t.name);
            trimming.or_else(|| shop.sundries.iter().find(|sundry| sundry.code == code).map(|s| &s.name))
        }
    };
    found.map_or(code, String::as_str)
}

/// What a quantity is measured in says whether it is counted.
pub fn hinted(quantity: Option<&v1::Quantity>) -> Option<Class> {
    match quantity?.amount? {
        v1::quantity::Amount::Count(_) => Some(Class::Sundry),
        v1::quantity::Amount::LengthMm(_) => None,
    }
}

impl Reader {
    /// Reads the code of a material.
    pub(super) fn goods(
        &mut self,
        shop: &Shop,
        path: &str,
        code: &str,
        class: Option<Class>,
    ) -> Option<Goods> {
        if code.is_empty() {
            let message =
                "no material is named: give the code of a fabric, a binding or a trimming".to_owned();
            self.refuse(None, path, Why::Missing, message);
            return None;
        }
        if let Some(found) = find(shop, code, class) {
            return Some(found);
        }
        let (why, message) = unknown(shop, code);
        self.refuse(None, path, why, message);
        None
    }
}

/// Why there is no material of a code.
pub fn unknown(shop: &Shop, code: &str) -> (Why, String) {
    let from = shop.bindings.iter().find(|binding| binding.code == code).and_then(|binding| {
        let BindingSource::Cloth { fabric, .. } = binding.source else { return None };
        shop.fabrics.get(fabric)
    });
    if let Some(fabric) = from {
        let message = format!(
            "\"{code}\" is cut from \"{}\", which is what lies on the shelf: give that code",
            fabric.code
        );
        return (Why::NotOffered, message);
    }
    let fabrics = shop.fabrics.iter().map(|fabric| fabric.code.as_str());
    let bindings = shop.bindings.iter().map(|binding| binding.code.as_str());
    let trimmings = shop.trimmings.iter().map(|trimming| trimming.code.as_str());
    let sundries = shop.sundries.iter().map(|sundry| sundry.code.as_str());
    let known = fabrics.chain(bindings).chain(trimmings).chain(sundries);
    let offer = match hint::nearest(code, known) {
        Some(meant) => format!("did you mean \"{meant}\"?"),
        None => "give the code of a fabric, a binding, a trimming or a sundry".to_owned(),
    };
    let shown: String = code.chars().take(40).filter(|c| !is_hidden(*c)).collect();
    (Why::UnknownCode, format!("the catalogue has no material \"{shown}\": {offer}"))
}
