//! What is posted.

use pennantry_calc::mass::PartKind;
use pennantry_calc::order::Order;
use pennantry_calc::quote::Worked;
use pennantry_calc::shop::Shop;
use pennantry_calc::sundries::UsedKind;
use pennantry_calc::{customs, parcel};
use pennantry_contract::v1;

use super::materials::named;
use super::{grams, mm, money};

pub(super) fn parcel(shop: &Shop, order: &Order, worked: &Worked, view: v1::View) -> v1::Parcel {
    let masses = &worked.masses;
    let mut wire = v1::Parcel {
        net_grams: grams(masses.net),
        packed_grams: grams(masses.packed),
        least_grams: grams(masses.least),
        most_grams: grams(masses.most),
        parts: masses.parts.iter().map(|part| mass_part(shop, part.kind, grams(part.mass))).collect(),
        customs: (order.country != shop.customs.country).then(|| declared(shop, order, worked)),
        ..v1::Parcel::default()
    };
    if let Ok(fits) = &worked.parcel {
        into(&mut wire, shop, fits, view);
    }
    wire
}

/// What customs want to know of a parcel that crosses a border.
fn declared(shop: &Shop, order: &Order, worked: &Worked) -> v1::CustomsDeclaration {
    let declared = customs::declaration(shop, order, &worked.layout, &worked.masses);
    v1::CustomsDeclaration {
        description: declared.description,
        tariff_code: declared.code,
        tariff_reason: declared.reason,
        origin_country_code: declared.origin,
        string_count: declared.strings,
        net_grams: grams(declared.net),
        gross_grams: grams(declared.gross),
    }
}

fn into(wire: &mut v1::Parcel, shop: &Shop, fits: &parcel::Parcel, view: v1::View) {
    let service = shop.services.get(fits.service);
    let [length, width, thickness] = fits.size.map(mm);
    wire.format_code = shop.formats.get(fits.format).map(|format| format.code.clone());
    wire.service_code = service.map(|service| service.code.clone());
    (wire.length_mm, wire.width_mm, wire.thickness_mm) = (Some(length), Some(width), Some(thickness));
    (wire.panel_count, wire.column_count) = (Some(fits.fold.panels), Some(fits.fold.columns));
    wire.counted_grams = Some(grams(fits.counted));
    wire.band_grams = Some(grams(fits.edge));
    wire.to_edge_grams = Some(grams(fits.to_edge));
    wire.postage = (view == v1::View::Shop).then(|| money(shop, fits.postage));
}

fn mass_part(shop: &Shop, kind: PartKind, grams: f64) -> v1::MassPart {
    let (code, text) = match kind {
        PartKind::Cloth(place) => ("CLOTH", shop.fabrics.get(place).map_or("", |f| f.name.as_str())),
        PartKind::Binding => ("BINDING", "Binding"),
        PartKind::Thread => ("THREAD", "Thread"),
        PartKind::Trimming(place) => ("TRIMMING", named(shop, UsedKind::Trimming(place)).1),
        PartKind::Sundry(place) => ("SUNDRY", named(shop, UsedKind::Sundry(place)).1),
    };
    v1::MassPart { code: code.to_owned(), text: text.to_owned(), grams }
}
