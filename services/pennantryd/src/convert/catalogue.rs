//! What the shop offers, in the contract.

use pennantry_app::Catalogue;
use pennantry_calc::shop::{Design, Direction, FabricRole, Maker, Shop};
use pennantry_contract::v1;

use super::length::write as mm;
use super::words;

/// Writes the catalogue.
pub fn write(catalogue: &Catalogue) -> v1::Catalogue {
    let shop = &*catalogue.shop;
    v1::Catalogue {
        maker: Some(maker(&shop.maker)),
        rush_offered: shop.calendar.rush.is_some(),
        revision: catalogue.revision.clone(),
        currency_code: shop.currency.clone(),
        minor_digits: u32::from(shop.minor_digits),
        designs: shop.designs.iter().map(|d| design(shop, d)).collect(),
        fabrics: shop
            .fabrics
            .iter()
            .filter(|f| f.role == FabricRole::Cloth)
            .map(|f| v1::Fabric {
                code: f.code.clone(),
                name: f.name.clone(),
                swatch: f.swatch.clone(),
                one_way: f.direction == Direction::OneWay,
                usable_width_mm: mm(f.usable_width),
                fibre: f.fibre.clone(),
                image: f.picture.as_ref().map(|picture| v1::ClothImage {
                    path: crate::form::picture_path(&picture.file),
                    repeat_across_mm: mm(picture.across),
                    repeat_along_mm: mm(picture.along),
                }),
            })
            .collect(),
        bindings: shop
            .bindings
            .iter()
            .map(|b| v1::Binding {
                code: b.code.clone(),
                name: b.name.clone(),
                width_mm: mm(b.width),
                swatch: b.swatch.clone(),
            })
            .collect(),
        trimmings: shop
            .trimmings
            .iter()
            .map(|t| v1::CatalogueTrimming { code: t.code.clone(), name: t.name.clone() })
            .collect(),
        shop_name: shop.name.clone(),
        least_mm: mm(shop.least),
        most_mm: mm(shop.most),
        services: shop
            .services
            .iter()
            .map(|s| v1::PostalService {
                code: s.code.clone(),
                name: s.name.clone(),
                country_codes: s.countries.clone(),
            })
            .collect(),
        letters_offered: shop.letters.is_some(),
    }
}

/// What is not stated is empty.
fn maker(maker: &Maker) -> v1::Maker {
    let stated = |text: &Option<String>| text.clone().unwrap_or_default();
    v1::Maker {
        name: stated(&maker.name),
        postal_address: stated(&maker.postal_address),
        electronic_address: stated(&maker.electronic_address),
        responsible_person: stated(&maker.responsible_person),
    }
}

fn design(shop: &Shop, design: &Design) -> v1::Design {
    let code = |place: &usize| shop.fabrics.get(*place).map_or_else(String::new, |f| f.code.clone());
    v1::Design {
        code: design.code.clone(),
        name: design.name.clone(),
        pennant: Some(v1::Pennant {
            shape: Some(words::write_shape(design.shape).into()),
            width_mm: Some(mm(design.width)),
            drop_mm: Some(mm(design.drop)),
            size_at: Some(words::write_size_at(design.size_at).into()),
            ..super::answer::detail(design.shape, design.detail)
        }),
        gap_mm: mm(design.gap),
        tail_mm: mm(design.tail),
        construction: words::write_construction(design.construction).into(),
        constructions: design.constructions.iter().map(|c| words::write_construction(*c).into()).collect(),
        binding_code: shop.bindings.get(design.binding).map(|b| b.code.clone()).unwrap_or_default(),
        fabric_codes: design.fabrics.iter().map(code).collect(),
        usual_mm: mm(design.usual),
        stock_lengths_mm: design.stock.iter().copied().map(mm).collect(),
    }
}
