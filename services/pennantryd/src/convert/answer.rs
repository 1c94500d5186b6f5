//! From what an order comes to, to the answer of the contract.

use pennantry_app::Catalogue;
use pennantry_app::quote::Answer;
use pennantry_calc::cutting::{self, ClothUse};
use pennantry_calc::layout::{Layout, Mark};
use pennantry_calc::order::{AskedLength, Order};
use pennantry_calc::price::{CostKind, LineKind, Price};
use pennantry_calc::quote::Quote;
use pennantry_calc::shop::{Binding, Shop, Surplus};
use pennantry_contract::v1;
use pennantry_measure::{Length, Money, Percent, Rounding, divide};

use super::length::{number, write as mm};
use super::{fields, words};

/// Writes an answer in the view that was asked.
pub fn write(catalogue: &Catalogue, asked: &v1::Enquiry, answer: &Answer, view: v1::View) -> v1::Quote {
    let shop = &*catalogue.shop;
    let (order, quote) = (&answer.order, &answer.quote);
    let price = quote.price.as_ref().map(|price| write_price(shop, order, quote, price, view));
    v1::Quote {
        quote_id: None,
        catalogue_revision: catalogue.revision.clone(),
        expire_time: None,
        token: None,
        understood: Some(understood(shop, asked, order, view)),
        layout: Some(layout(shop, order, quote)),
        fabrics: quote.cloth.iter().map(|cloth| fabric(shop, cloth)).collect(),
        binding: shop.bindings.get(order.binding).map(|b| binding(b, quote.binding_cut)),
        thread: None,
        labour: Some(v1::Labour { minutes: minutes(quote), operations: Vec::new() }),
        dates: None,
        parcel: None,
        price,
        child: None,
        paperwork: None,
        notices: notices(asked, quote),
        workings: Vec::new(),
        shelf: None,
    }
}

/// Bench minutes to a tenth, half up.
fn minutes(quote: &Quote) -> f64 {
    let tenths = divide(i128::from(quote.bench.milli_minutes()), 100, Rounding::HalfUp);
    number(i64::try_from(tenths).unwrap_or(i64::MAX)) / 10.0
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
        destination: asked.destination.clone(),
        service: asked.service.clone(),
        wanted_date: asked.wanted_date.clone(),
        view: Some(view.into()),
        workings: Some(asked.workings.unwrap_or(false)),
        shelf: Some(asked.shelf.unwrap_or(false)),
    }
}

fn layout(shop: &Shop, order: &Order, quote: &Quote) -> v1::Layout {
    let layout = &quote.layout;
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
        positions: Some(positions(shop, order, quote, layout)),
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

fn positions(shop: &Shop, order: &Order, quote: &Quote, layout: &Layout) -> v1::Positions {
    let mark = |mark: &Mark, place: usize| {
        let slot = quote.slots.get(place);
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
        last: Some(mark(&layout.last, quote.slots.len().saturating_sub(1))),
        marks: layout.marks.iter().enumerate().map(|(place, m)| mark(m, place)).collect(),
    }
}

fn fabric(shop: &Shop, cloth: &ClothUse) -> v1::FabricUse {
    let half = |half_um: i64| number(half_um) / 2000.0;
    let plan = &cloth.plan;
    v1::FabricUse {
        fabric_code: shop.fabrics.get(cloth.fabric).map_or_else(String::new, |f| f.code.clone()),
        piece_count: cloth.pieces,
        cut_width_mm: mm(cloth.outline.width),
        cut_drop_mm: mm(cloth.outline.drop),
        used_mm: mm(plan.used),
        charged_mm: mm(cloth.charged),
        bound_mm: mm(plan.bound),
        plan: Some(v1::CuttingPlan {
            cloth_width_mm: mm(cloth.job.cloth_width),
            clearance_mm: mm(cloth.job.clearance),
            row_gap_mm: mm(cloth.job.row_gap),
            squaring_mm: mm(shop.cloth.squaring),
            bands: plan
                .bands
                .iter()
                .map(|band| v1::PlanBand {
                    kind: words::row_kind(band.kind).into(),
                    row_count: band.rows,
                    pieces_per_row: band.per_row,
                    start_mm: mm(band.start),
                    row_mm: mm(band.row),
                    pitch_mm: half(band.half_pitch),
                    slack_mm: half(band.half_slack),
                })
                .collect(),
            zero_tolerance: plan.zero_tolerance,
            above_bound_percent: number(cutting::above_bound_tenths(plan.used, plan.bound)) / 10.0,
            room_count: plan.room,
        }),
        spare_count: cloth.spares,
    }
}

fn binding(binding: &Binding, cut: Length) -> v1::BindingUse {
    v1::BindingUse {
        binding_code: binding.code.clone(),
        width_mm: mm(binding.width),
        insertion_mm: mm(binding.insertion()),
        cut_mm: mm(cut),
    }
}

fn write_price(shop: &Shop, order: &Order, quote: &Quote, price: &Price, view: v1::View) -> v1::Price {
    let money =
        |amount: Money| v1::Money { currency_code: shop.currency.clone(), minor_units: amount.minor() };
    let lines = price.lines.iter().map(|line| {
        let (code, text) = match line.kind {
            LineKind::Goods => ("GOODS", goods(order, &quote.layout)),
            LineKind::MinimumCharge => {
                ("MINIMUM_CHARGE", String::from("Up to the minimum charge for an order"))
            }
        };
        v1::PriceLine { code: code.to_owned(), text, amount: Some(money(line.amount)) }
    });
    v1::Price {
        lines: lines.collect(),
        total: Some(money(price.total)),
        minor_digits: u32::from(shop.minor_digits),
        tax: Some(v1::Tax {
            name: shop.pricing.tax_name.clone(),
            rate_percent: percent(shop.pricing.tax_rate),
            included: Some(money(price.tax)),
        }),
        cost: (view == v1::View::Shop).then(|| write_cost(shop, quote, price)),
    }
}

fn write_cost(shop: &Shop, quote: &Quote, price: &Price) -> v1::Cost {
    let money =
        |amount: Money| v1::Money { currency_code: shop.currency.clone(), minor_units: amount.minor() };
    let lines = price.cost_lines.iter().map(|line| {
        let (code, text) = match line.kind {
            CostKind::Cloth(place) => ("CLOTH", cloth_text(shop, quote, place)),
            CostKind::Binding => ("BINDING", format!("Binding, {}", quote.binding_cut)),
            CostKind::Bench => ("BENCH", format!("Bench, {} minutes", minutes(quote))),
            CostKind::Surplus => ("SURPLUS", String::from("Surplus over cost")),
        };
        v1::PriceLine { code: code.to_owned(), text, amount: Some(money(line.amount)) }
    });
    v1::Cost {
        lines: lines.collect(),
        total: Some(money(price.cost)),
        net: Some(money(price.net)),
        surplus: Some(v1::Surplus {
            basis: Some(match shop.pricing.surplus {
                Surplus::Margin(share) => v1::surplus::Basis::MarginPercent(percent(share)),
                Surplus::Markup(share) => v1::surplus::Basis::MarkupPercent(percent(share)),
            }),
        }),
    }
}

/// A share in percent, to a thousandth.
fn percent(share: Percent) -> f64 {
    number(share.milli()) / 1000.0
}

fn goods(order: &Order, layout: &Layout) -> String {
    let pennants = if layout.count == 1 { "pennant" } else { "pennants" };
    let string = format!("{} {pennants} on {}", layout.count, layout.overall);
    if order.quantity == 1 {
        format!("Bunting, {string}")
    } else {
        format!("Bunting, {} x {string}", order.quantity)
    }
}

fn cloth_text(shop: &Shop, quote: &Quote, place: usize) -> String {
    let name = shop.fabrics.get(place).map_or("", |f| f.name.as_str());
    let charged = quote.cloth.iter().find(|c| c.fabric == place).map_or(Length::ZERO, |c| c.charged);
    format!("{name}, {charged}")
}

/// The notices of the calculation, then one for each field whose step is not built.
fn notices(asked: &v1::Enquiry, quote: &Quote) -> Vec<v1::Notice> {
    let told = quote.notices.iter().map(|notice| v1::Notice {
        code: words::notice_code(notice.code).to_owned(),
        field: notice.field.map(fields::path).unwrap_or_default(),
        message: notice.message.clone(),
    });
    let absent = NOT_BUILT.iter().filter(|(field, _)| match *field {
        "price" => quote.price.is_none(),
        "price.delivery" => quote.price.is_some(),
        "workings" => asked.workings == Some(true),
        "shelf" => asked.shelf == Some(true),
        "price.ends" => quote.price.is_some() && has_ends(asked),
        _ => true,
    });
    let absent = absent.map(|(field, message)| v1::Notice {
        code: String::from("NOT_BUILT"),
        field: (*field).to_owned(),
        message: (*message).to_owned(),
    });
    told.chain(absent).collect()
}

fn has_ends(asked: &v1::Enquiry) -> bool {
    let plain = [None, Some(0), Some(v1::EndStyle::Plain.into())];
    asked.finish.as_ref().is_some_and(|f| f.ends.iter().any(|end| !plain.contains(&end.style)))
}

/// Fields whose step is not built: they are absent, and said to be.
const NOT_BUILT: &[(&str, &str)] = &[
    ("token", "this answer cannot be taken up later yet: it has no identity, no expiry and no ticket"),
    ("thread", "thread is not worked out yet, and is not in the price"),
    ("labour.operations", "bench time is not yet divided into operations"),
    (
        "dates",
        "no day of leaving or arriving is worked out yet; a wanted day is only checked not to have passed",
    ),
    ("parcel", "weight and parcel are not worked out yet"),
    ("price", "no price: letters and trimmings cannot be priced yet"),
    ("price.ends", "loops and ties are not in the price yet; ends are priced plain"),
    ("price.delivery", "delivery is not in the total yet"),
    (
        "child",
        "whether a small child may be near has not been looked at: that clears nothing; cords, loops and small parts \
         can strangle and choke, so keep it out of a child's reach, and ask somebody competent who knows the local rules",
    ),
    ("paperwork", "duties on paper have not been looked at: local rules decide"),
    ("workings", "workings are not printed yet"),
    ("shelf", "what is on the shelf is not known yet"),
];
