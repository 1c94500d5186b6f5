//! What is posted, and what customs want to know.

use pennantry_contract::v1;

use super::page::Page;
use super::{Style, counted, price};

/// The section.
pub fn write(page: &mut Page, quote: &v1::Quote, style: Style) {
    let Some(parcel) = &quote.parcel else { return };
    page.heading("PARCEL");
    let weighed = format!("{} to {} g on the scales", parcel.least_grams, parcel.most_grams);
    page.pairs(&[
        ("net", format!("{} g", parcel.net_grams)),
        ("packed", format!("{} g, {weighed}", parcel.packed_grams)),
    ]);
    for part in &parcel.parts {
        page.below(&format!("{} g {}", part.grams, part.text));
    }
    match (&parcel.service_code, &parcel.format_code) {
        (Some(service), Some(format)) => page.line(&format!("{service}, {format}")),
        (Some(service), None) => page.line(service),
        (None, _) => page.line("no service takes it"),
    }
    sides(page, parcel, style);
    band(page, parcel);
    if let Some(postage) = &parcel.postage {
        let digits = quote.price.as_ref().map_or(0, |price| price.minor_digits);
        page.line(&format!(
            "postage {} {} before tax",
            postage.currency_code,
            price::amount(postage, digits)
        ));
    }
    if let Some(customs) = &parcel.customs {
        declaration(page, customs);
    }
}

fn sides(page: &mut Page, parcel: &v1::Parcel, style: Style) {
    let mm = |mm| style.unit.shown(mm);
    if let (Some(length), Some(width), Some(thickness)) =
        (parcel.length_mm, parcel.width_mm, parcel.thickness_mm)
    {
        let mut folds = Vec::new();
        folds.extend(parcel.panel_count.map(|count| counted(count, "panel", "panels")));
        folds.extend(parcel.column_count.map(|count| counted(count, "column", "columns")));
        let folds =
            if folds.is_empty() { String::new() } else { format!(", folded into {}", folds.join(" and ")) };
        page.line(&format!("{} × {} × {}{folds}", mm(length), mm(width), mm(thickness)));
    }
}

fn band(page: &mut Page, parcel: &v1::Parcel) {
    let mut parts = Vec::new();
    parts.extend(parcel.counted_grams.map(|grams| format!("counts as {grams} g")));
    parts.extend(parcel.band_grams.map(|grams| format!("band up to {grams} g")));
    parts.extend(parcel.to_edge_grams.map(|grams| format!("{grams} g to its edge")));
    if !parts.is_empty() {
        page.line(&parts.join(", "));
    }
}

fn declaration(page: &mut Page, customs: &v1::CustomsDeclaration) {
    page.line(&format!(
        "customs: {}, {}, tariff {}, origin {}, net {} g, gross {} g",
        customs.description,
        counted(customs.string_count, "string", "strings"),
        customs.tariff_code,
        customs.origin_country_code,
        customs.net_grams,
        customs.gross_grams
    ));
    page.below(&customs.tariff_reason);
}
