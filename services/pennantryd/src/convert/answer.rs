//! From what an order comes to, to the answer of the contract.

mod bench;
mod child;
mod cloth;
mod materials;
mod paper;
mod price;
mod sending;

use pennantry_app::Catalogue;
use pennantry_app::quote::Answer;
use pennantry_calc::layout::Mark;
use pennantry_calc::order::{AskedLength, Order};
use pennantry_calc::paper::leaflet;
use pennantry_calc::quote::{Quote, Worked};
use pennantry_calc::shop::{Shape, Shop};
use pennantry_contract::v1;
use pennantry_measure::{Length, Mass, Money, Percent, Rounding, divide};

use super::length::{number, write as mm};
use super::{fields, words, workings};

/// Writes an answer in the view that was asked, all of it but what its ticket gives
/// ([`seal`](super::ticket::seal)).
pub fn write(catalogue: &Catalogue, asked: &v1::Enquiry, answer: &Answer, view: v1::View) -> v1::Quote {
    let shop = &*catalogue.shop;
    let (order, quote) = (&answer.order, &answer.quote);
    let worked = &quote.worked;
    let mut told = v1::Quote {
        quote_id: None,
        catalogue_revision: catalogue.revision.clone(),
        expire_time: None,
        token: None,
        understood: Some(understood(shop, asked, order, view)),
        layout: Some(layout(shop, order, worked)),
        fabrics: worked.cloth.iter().map(|used| cloth::fabric(shop, used)).collect(),
        binding: shop.bindings.get(order.binding).map(|b| materials::binding(shop, b, &worked.binding, view)),
        thread: Some(materials::thread(&worked.thread)),
        labour: Some(bench::labour(shop, &worked.labour)),
        dates: quote.dates.map(|dates| bench::dates(shop, order, &dates, &quote.ways)),
        parcel: Some(sending::parcel(shop, order, worked, view)),
        price: Some(price::write(shop, order, worked, view)),
        child: Some(child::write(&quote.child)),
        paperwork: Some(paper::paper(&quote.paper)),
        notices: notices(quote, view),
        workings: Vec::new(),
        shelf: None,
        sundries: worked.used.iter().map(|used| materials::sundry(shop, used)).collect(),
        leaflet: leaflet(&shop.maker),
    };
    if asked.workings.unwrap_or(false) {
        told.workings = workings::write(catalogue, answer, &told);
    }
    told
}

/// The enquiry with everything that stood in. Asked again, it gives the same answer.
fn understood(shop: &Shop, asked: &v1::Enquiry, order: &Order, view: v1::View) -> v1::Enquiry {
    let code = |place: usize| shop.fabrics.get(place).map_or_else(String::new, |f| f.code.clone());
    // a gap that is solved for is not one that was understood
    let solved = order.length.is_some() && order.count.is_some() && asked.gap_mm.is_none();
    v1::Enquiry {
        design_code: shop.designs.get(order.design).map(|d| d.code.clone()),
        length: order.length.map(|length| match length {
            AskedLength::Flagged(l) => v1::enquiry::Length::FlaggedMm(mm(l)),
            AskedLength::Overall(l) => v1::enquiry::Length::OverallMm(mm(l)),
            AskedLength::Binding(l) => v1::enquiry::Length::BindingMm(mm(l)),
            AskedLength::Hang(hang) => v1::enquiry::Length::Hang(v1::Hang {
                span_mm: mm(hang.span),
                dip_mm: Some(mm(hang.dip)),
                swag_count: Some(hang.swags),
            }),
        }),
        pennant_count: order.count,
        gap_mm: if solved { None } else { Some(mm(order.gap)) },
        tail_mm: Some(mm(order.tail)),
        fit: Some(v1::Fit {
            leftover: Some(words::write_leftover(order.leftover).into()),
            parity: order.parity.map(|p| words::write_parity(p).into()),
            min_gap_mm: order.min_gap.map(mm),
            max_gap_mm: order.max_gap.map(mm),
        }),
        pennant: Some(v1::Pennant {
            shape: Some(words::write_shape(order.shape).into()),
            width_mm: Some(mm(order.width)),
            drop_mm: Some(mm(order.drop)),
            size_at: Some(words::write_size_at(order.size_at).into()),
            ..detail(order.shape, order.detail)
        }),
        construction: Some(words::write_construction(order.construction).into()),
        backing: order.backing.map(code),
        colour_order: Some(v1::ColourOrder {
            rule: Some(words::write_rule(order.rule).into()),
            fabric_codes: order.fabrics.iter().map(|place| code(*place)).collect(),
        }),
        lettering: asked.lettering.clone(),
        binding_code: shop.bindings.get(order.binding).map(|b| b.code.clone()),
        finish: asked.finish.clone(),
        quantity: Some(order.quantity),
        near: asked.near.clone(),
        destination: Some(v1::Destination { country_code: order.country.clone() }),
        service: asked.service.clone(),
        wanted_date: asked.wanted_date.clone(),
        view: Some(view.into()),
        workings: Some(asked.workings.unwrap_or(false)),
        shelf: Some(asked.shelf.unwrap_or(false)),
        // the shop's alone: the buyer sees it as a line of the price
        discount: asked.discount.clone().filter(|_| view == v1::View::Shop),
        rush: Some(asked.rush.unwrap_or(false)),
        as_of_date: asked.as_of_date.clone().filter(|_| view == v1::View::Shop),
    }
}

/// What a shape has beside width and drop, in the field of its own.
pub fn detail(shape: Shape, detail: Length) -> v1::Pennant {
    let of = |this: Shape| (shape == this).then(|| mm(detail));
    v1::Pennant {
        foot_mm: of(Shape::Blunt),
        notch_mm: of(Shape::Swallowtail),
        shoulder_mm: of(Shape::Shield),
        rise_mm: of(Shape::Scallop),
        ..v1::Pennant::default()
    }
}

fn layout(shop: &Shop, order: &Order, worked: &Worked) -> v1::Layout {
    let layout = &worked.layout;
    v1::Layout {
        pennant_count: layout.count,
        gap_mm: mm(layout.gap),
        flagged_mm: mm(layout.flagged),
        overall_mm: mm(layout.overall),
        binding_cut_mm: mm(layout.binding_cut),
        tail_mm: mm(layout.tail),
        visible_width_mm: mm(layout.visible_width),
        visible_drop_mm: mm(layout.visible_drop),
        visible_gap_mm: mm(layout.visible_gap),
        visible_flagged_mm: mm(layout.visible_flagged),
        tolerance_mm: mm(layout.tolerance),
        alternatives: layout
            .alternatives
            .iter()
            .map(|other| v1::Alternative {
                pennant_count: other.count,
                gap_mm: mm(other.gap),
                flagged_mm: mm(other.flagged),
                tail_mm: mm(other.tail),
            })
            .collect(),
        positions: Some(positions(shop, order, worked)),
        top_width_mm: mm(layout.top_width),
        top_drop_mm: mm(layout.top_drop),
        hang: layout.hang.as_ref().map(|hang| v1::HangLayout {
            curve_mm: mm(hang.curve),
            knot_mm: mm(hang.knot),
            lowest_tip_mm: mm(hang.lowest_tip),
            hooks: hang
                .hooks
                .iter()
                .map(|hook| v1::Hook { at_mm: mm(hook.at), in_gap: hook.in_gap, shift_mm: mm(hook.shift) })
                .collect(),
        }),
    }
}

fn positions(shop: &Shop, order: &Order, worked: &Worked) -> v1::Positions {
    let layout = &worked.layout;
    let mark = |mark: &Mark, place: usize| {
        let slot = worked.slots.get(place);
        let fabric = slot.and_then(|slot| shop.fabrics.get(slot.fabric));
        let letter = slot
            .and_then(|slot| slot.letter)
            .and_then(|letter| usize::try_from(letter).ok())
            .and_then(|letter| order.letters.get(letter))
            .and_then(Clone::clone);
        v1::Mark {
            left_mm: mm(mark.left),
            right_mm: mm(mark.right),
            left_from_end_mm: mm(mark.left_from_end),
            right_from_end_mm: mm(mark.right_from_end),
            fabric_code: fabric.map_or_else(String::new, |f| f.code.clone()),
            letter: letter.unwrap_or_default(),
        }
    };
    let pitch = divide(layout.pitch.numerator, layout.pitch.denominator, Rounding::HalfUp);
    v1::Positions {
        grain_mm: mm(shop.bench.grain.length()),
        pitch_mm: mm(Length::from_um(i64::try_from(pitch).unwrap_or(i64::MAX))),
        first: Some(mark(&layout.first, 0)),
        last: Some(mark(&layout.last, worked.slots.len().saturating_sub(1))),
        marks: layout.marks.iter().enumerate().map(|(place, m)| mark(m, place)).collect(),
    }
}

/// The notices of the calculation, then what was looked at on paper.
fn notices(quote: &Quote, view: v1::View) -> Vec<v1::Notice> {
    let mine = quote.notices.iter().filter(|n| view == v1::View::Shop || !words::shop_only(n.code));
    let told = mine.map(|notice| v1::Notice {
        code: words::notice_code(notice.code).to_owned(),
        field: notice.field.map(fields::path).unwrap_or_default(),
        message: notice.message.clone(),
    });
    told.chain([paper::scope(&quote.paper)]).collect()
}

/// A share in percent, to a thousandth.
fn percent(share: Percent) -> f64 {
    number(share.milli()) / 1000.0
}

/// A mass in grams, to the milligram.
fn grams(mass: Mass) -> f64 {
    number(mass.mg()) / 1000.0
}

/// An amount in the shop's currency.
fn money(shop: &Shop, amount: Money) -> v1::Money {
    v1::Money { currency_code: shop.currency.clone(), minor_units: amount.minor() }
}

/// The code of a fabric.
fn fabric_code(shop: &Shop, place: usize) -> String {
    shop.fabrics.get(place).map_or_else(String::new, |f| f.code.clone())
}
