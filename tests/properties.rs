//! What holds for every quote, looked at on 2 000 random orders.

mod cloth;
mod digest;

use std::sync::Arc;

use pennantry_contract::v1;
use pennantryd::service::{Door, Service};
use serde_json::Value;

use crate::catalogue;
use crate::dice::{self, Dice, Stock};

/// How many random orders are looked at.
const ORDERS: u32 = 2_000;
/// A micrometre in mm, and what two doubles of this size may differ by.
const HAIR_MM: f64 = 0.000_01;

/// Asks without a wire: the service that stands behind every door.
pub struct Bench {
    pub service: Arc<Service>,
    pub stock: Stock,
}

impl Bench {
    pub fn demo() -> Bench {
        let service = catalogue::service(catalogue::demo());
        let stock = catalogue::stock(&catalogue::of(&service));
        Bench { service, stock }
    }

    /// The quote, where there is one, in the shop's view.
    pub fn ask(&self, order: &Value) -> Option<v1::Quote> {
        let mut enquiry: v1::Enquiry = serde_json::from_value(order.clone()).expect("an enquiry");
        enquiry.view = Some(v1::View::Shop.into());
        let request = v1::CalculateQuoteRequest { enquiry: Some(enquiry) };
        let answer = self.service.calculate_quote(Door::Private, &request);
        match answer {
            Ok(response) => Some(response.quote.expect("a quote")),
            Err(failure) => {
                assert!(!failure.violations.is_empty(), "{order}: {failure:?}");
                None
            }
        }
    }

    /// Random orders with their quotes; those refused are left out.
    pub fn quotes(&self, seed: u64, orders: u32) -> impl Iterator<Item = (Value, v1::Quote)> {
        let mut dice = Dice::new(seed);
        let mut answered = 0;
        (0..orders).filter_map(move |turn| {
            let order = dice::order(&mut dice, &self.stock);
            let quote = self.ask(&order);
            answered += u32::from(quote.is_some());
            assert!(turn + 1 < orders || answered > orders / 2, "only {answered} of {orders} answered");
            quote.map(|quote| (order, quote))
        })
    }
}

fn layout(quote: &v1::Quote) -> &v1::Layout {
    quote.layout.as_ref().expect("a layout")
}

#[test]
fn a_flagged_length_is_reached_within_tolerance() {
    let bench = Bench::demo();
    let mut looked_at = 0;
    for (order, quote) in bench.quotes(1, ORDERS) {
        let layout = layout(&quote);
        let understood = quote.understood.as_ref().expect("what was understood");
        let Some(asked) = order["flaggedMm"].as_f64() else { continue };
        let spread = understood.fit.is_some_and(|fit| fit.leftover() == v1::Leftover::Gaps);
        // a length is asked where sizes are taken
        let seen = understood.pennant.is_some_and(|pennant| pennant.size_at() == v1::SizeAt::BindingEdge);
        let flagged = if seen { layout.visible_flagged_mm } else { layout.flagged_mm };
        let capped = quote.notices.iter().any(|notice| notice.code == "GAP_CAPPED");
        if spread && !capped && layout.pennant_count > 1 {
            assert!((flagged - asked).abs() <= layout.tolerance_mm, "{order}: {layout:?}");
            looked_at += 1;
        }
        // whoever keeps the gap never flags more than was asked
        assert!(flagged <= asked + 0.001 + HAIR_MM, "{order}: {layout:?}");
    }
    assert!(looked_at > ORDERS / 10, "only {looked_at} asked so");
}

#[test]
fn lengths_add_up_from_pennant_to_cut() {
    let bench = Bench::demo();
    for (order, quote) in bench.quotes(2, ORDERS) {
        let l = layout(&quote);
        let count = f64::from(l.pennant_count);
        // width and gap are printed to the micrometre: half of one each
        let flagged = count * l.top_width_mm + (count - 1.0) * l.gap_mm;
        assert!((flagged - l.flagged_mm).abs() <= 0.001 * count + HAIR_MM, "{order}: {l:?}");
        assert!((l.flagged_mm + 2.0 * l.tail_mm - l.overall_mm).abs() <= 0.001 + HAIR_MM, "{order}: {l:?}");
        assert!(l.binding_cut_mm > l.overall_mm, "{order}: {l:?}");
        for (key, reached) in [("overallMm", l.overall_mm), ("bindingMm", l.binding_cut_mm)] {
            if let Some(asked) = order[key].as_f64() {
                assert!((reached - asked).abs() <= 0.001 + HAIR_MM, "{order}: {l:?}");
            }
        }
        marks(&order, l);
    }
}

/// Marks: from left to right, mirrored, none further from its exact place than half a grain.
fn marks(order: &Value, layout: &v1::Layout) {
    let positions = layout.positions.as_ref().expect("positions");
    let listed = &positions.marks;
    let count = usize::try_from(layout.pennant_count).expect("a count");
    assert_eq!(listed.len(), if count > 400 { 0 } else { count }, "{order}");
    for (place, mark) in (0_u32..).zip(listed) {
        let exact = f64::from(place) * positions.pitch_mm - layout.flagged_mm / 2.0;
        // the pitch is printed to the micrometre, and its error adds up along the string
        let slack = positions.grain_mm / 2.0 + 0.000_5 * f64::from(place) + 0.001;
        assert!((mark.left_mm - exact).abs() <= slack, "{order}: mark {place}: {mark:?}, exactly {exact}");
        let mirrored = &listed[listed.len() - 1 - usize::try_from(place).expect("a place")];
        assert!((mark.left_mm + mirrored.right_mm).abs() <= HAIR_MM, "{order}: {mark:?} and {mirrored:?}");
    }
}

#[test]
fn counts_add_up() {
    let bench = Bench::demo();
    for (order, quote) in bench.quotes(3, ORDERS) {
        let understood = quote.understood.as_ref().expect("what was understood");
        let layers = match understood.construction() {
            v1::Construction::SinglePinked | v1::Construction::SinglePlain => 1,
            v1::Construction::DoubleTurned
            | v1::Construction::DoublePinked
            | v1::Construction::DoubleFused => 2,
            v1::Construction::Unspecified => panic!("{order}: no construction understood"),
        };
        let strings = understood.quantity();
        let of_pennants = |fabric: &&v1::FabricUse| fabric.role() == v1::ClothRole::Pennants;
        let pieces: u32 = quote.fabrics.iter().filter(of_pennants).map(|fabric| fabric.piece_count).sum();
        assert_eq!(pieces, layout(&quote).pennant_count * layers * strings, "{order}");
        for fabric in &quote.fabrics {
            let plan = fabric.plan.as_ref().expect("a plan");
            let rooms: u32 = plan.bands.iter().map(|band| band.row_count * band.pieces_per_row).sum();
            let (lay, cut) = (fabric.lay.expect("a lay"), fabric.piece_count + fabric.spare_count);
            if let Some(bought) = &fabric.bought {
                // the plan is a full bought piece's; the last one may be cut in part
                assert_eq!(rooms, bought.holds.min(cut), "{order}: {fabric:?}");
                assert_eq!(bought.count, cut.div_ceil(bought.holds), "{order}: {fabric:?}");
            } else {
                // the last outline of a lay may give more than is needed: those are spares
                let through = if lay.kind() == v1::Lay::Flat { 1 } else { lay.layer_count };
                assert_eq!(rooms * through, cut, "{order}: {fabric:?}");
                assert_eq!(rooms, lay.outline_count, "{order}: {fabric:?}");
            }
            assert!(fabric.bound_mm <= fabric.used_mm + HAIR_MM, "{order}: {fabric:?}");
            // bought pieces are square already
            let squaring = if fabric.bought.is_some() { 0.0 } else { plan.squaring_mm };
            assert!(fabric.used_mm + squaring <= fabric.charged_mm + HAIR_MM, "{order}: {fabric:?}");
        }
    }
}

#[test]
fn a_longer_string_never_needs_fewer_pennants() {
    let bench = Bench::demo();
    let mut dice = Dice::new(4);
    let mut looked_at = 0;
    for _ in 0..ORDERS {
        let mut order = dice::order(&mut dice, &bench.stock);
        let Some(key) =
            ["flaggedMm", "overallMm", "bindingMm"].into_iter().find(|key| order.get(*key).is_some())
        else {
            continue;
        };
        if order.get("pennantCount").is_some() {
            continue;
        }
        let shorter = order[key].as_f64().expect("a length");
        let more = *dice.pick(&[0.001, 1.0, 19.0, 210.0, 1_000.0]);
        let before = bench.ask(&order);
        order[key] = serde_json::json!((shorter + more).min(100_000.0));
        let after = bench.ask(&order);
        let (Some(before), Some(after)) = (before, after) else { continue };
        let (before, after) = (layout(&before).pennant_count, layout(&after).pennant_count);
        assert!(before <= after, "{order}: {before} on {shorter}, {after} on {more} more");
        looked_at += 1;
    }
    assert!(looked_at > ORDERS / 3, "only {looked_at} pairs answered");
}

#[test]
fn invariant_05_total_is_the_sum_of_lines() {
    let bench = Bench::demo();
    let minor = |money: &Option<v1::Money>| money.as_ref().expect("an amount").minor_units;
    let mut priced = 0;
    for (order, quote) in bench.quotes(5, ORDERS) {
        let Some(price) = &quote.price else { continue };
        let total = minor(&price.total);
        let tax = price.tax.as_ref().expect("a tax");
        let sum = |lines: &[v1::PriceLine]| lines.iter().map(|line| minor(&line.amount)).sum::<i64>();
        assert_eq!(sum(&price.lines), total, "{order}: {price:?}");
        let cost = price.cost.as_ref().expect("the shop's view has the cost");
        assert_eq!(minor(&cost.net) + minor(&tax.included), total, "{order}: {price:?}");
        assert_eq!(sum(&cost.lines), minor(&cost.net), "{order}: {price:?}");
        // total x rate / (100 + rate), half up, worked in whole numbers
        let rate = milli(tax.rate_percent);
        let included = (2 * i128::from(total) * rate + 100_000 + rate).div_euclid(2 * (100_000 + rate));
        assert_eq!(i128::from(minor(&tax.included)), included, "{order}: {price:?}");
        assert_eq!(
            price.lines.iter().map(|line| minor(&line.tax)).sum::<i64>(),
            minor(&tax.included),
            "{order}"
        );
        assert_eq!(minor(&tax.net), minor(&cost.net), "{order}: {price:?}");
        let shares = price.strings.iter().map(|share| share.minor_units).sum::<i64>();
        assert!(price.strings.is_empty() || shares == total, "{order}: {price:?}");
        let has = |code: &str| price.lines.iter().any(|line| line.code == code);
        let open = quote.notices.iter().any(|notice| notice.code == "DELIVERY_OPEN");
        assert_eq!(has("DELIVERY"), !open, "{order}: a delivery, or the word that it may be payable");
        assert!(price.withdrawal.as_ref().is_some_and(|right| !right.reason.is_empty()), "{order}");
        priced += 1;
    }
    assert!(priced > ORDERS / 3, "only {priced} priced");
}

/// A percentage in thousandths.
fn milli(percent: f64) -> i128 {
    format!("{:.0}", percent * 1_000.0).parse().expect("a number")
}

/// What was understood says everything that the answer stands on.
#[test]
fn asking_what_was_understood_gives_the_same_answer() {
    let bench = Bench::demo();
    for (order, quote) in bench.quotes(8, ORDERS) {
        let understood = serde_json::to_value(&quote.understood).expect("a message is JSON");
        assert_eq!(bench.ask(&understood).as_ref(), Some(&quote), "{order}");
    }
}

/// A step that is not built leaves its field out and says so (invariant 12).
#[test]
fn invariant_12_what_is_not_built_is_absent_and_named() {
    let bench = Bench::demo();
    for (order, quote) in bench.quotes(6, ORDERS) {
        let named = |field: &str| {
            quote.notices.iter().any(|notice| notice.code == "NOT_BUILT" && notice.field == field)
        };
        let missing = [
            ("thread", quote.thread.is_none()),
            ("dates", quote.dates.is_none()),
            ("parcel", quote.parcel.is_none()),
            ("price", quote.price.is_none()),
            ("child", quote.child.is_none()),
            ("paperwork", quote.paperwork.is_none()),
        ];
        // the one thing that a ticket may be missing for is its length
        let too_large = quote.notices.iter().any(|notice| notice.code == "TOO_LARGE_FOR_TICKET");
        assert_eq!(quote.token.is_none(), too_large, "{order}");
        assert!(quote.quote_id.is_some() && quote.expire_time.is_some(), "{order}");
        for (field, absent) in missing {
            assert_eq!(named(field), absent, "{order}: {field} in {:?}", quote.notices);
        }
    }
}
