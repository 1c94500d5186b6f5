//! Workings of the bench time: see `pennantry_calc::labour` for the formulas.

use pennantry_calc::order::Order;
use pennantry_calc::quote::Worked;
use pennantry_calc::shop::{Allowance, Driver, Shop};

use super::decimal;
use super::sheet::{Sheet, exactly, up};

pub(super) fn write(sheet: &mut Sheet, shop: &Shop, order: &Order, worked: &Worked) {
    let strings = "understood.quantity";
    let pieces = |key: &str| {
        let cut = worked
            .cloth
            .iter()
            .enumerate()
            .filter(|(_, used)| used.role == pennantry_calc::cutting::Role::Pennants);
        let each = cut.map(|(place, _)| match key {
            "pieces" => format!("fabrics[{place}].pieceCount + fabrics[{place}].spareCount"),
            "outlines" => format!("fabrics[{place}].lay.outlineCount"),
            _ => format!("fabrics[{place}].lay.layerCount"),
        });
        each.collect::<Vec<_>>().join(" + ")
    };
    let trimmed: u32 = order.trimmings.iter().map(|(_, each)| *each).sum();
    let mut set_up = Vec::new();
    for (place, done) in worked.labour.operations.iter().enumerate() {
        let Some(operation) = shop.bench.operations.get(done.operation) else { continue };
        let path = format!("labour.operations[{place}]");
        let count = match operation.driver {
            Driver::Order => "1".to_owned(),
            Driver::String => strings.to_owned(),
            Driver::Pennant => format!("layout.pennantCount * {strings}"),
            Driver::Piece => pieces("pieces"),
            Driver::Outline => pieces("outlines"),
            Driver::Layer => pieces("layers"),
            Driver::Metre => format!("layout.overallMm * {strings} / 1000"),
            Driver::End => format!("2 * {strings}"),
            Driver::Join => "binding.joinCount".to_owned(),
            Driver::Letter => format!("via.letterCount * {strings}"),
            Driver::Trimming => format!("{trimmed} * layout.pennantCount * {strings}"),
        };
        let counts = [exactly(&count), exactly("3 * binding.bias.squareCount - 1")];
        sheet.figure(&format!("{path}.count"), "", "what the operation is counted by", &counts);
        let each = format!("shop.operations[{place}].minutes");
        let time = decimal(operation.time.milli_minutes());
        sheet.constant(&each, time, "min", "catalogue, time of one");
        let all = format!("{path}.count * {each}");
        let ways =
            if shop.bench.learning && operation.learning.is_some() { Vec::new() } else { vec![up(&all)] };
        sheet.figure(&format!("{path}.minutes"), "min", "count x time of one", &ways);
        if operation.driver == Driver::Order {
            set_up.push(format!("{path}.minutes"));
        }
    }
    sheet.given("labour.allowance.percent", "%", "catalogue, bench.allowance_percent");
    let allowed = |work: &str| match shop.bench.allowance {
        Allowance::OfWork(_) => format!("{work} * (100 + labour.allowance.percent) / 100"),
        Allowance::OfShift(_) => format!("{work} * 100 / (100 - labour.allowance.percent)"),
    };
    let source = "work and its allowance, as a share of what the allowance names";
    sheet.figure("labour.minutes", "min", source, &[up(&allowed("sum(labour.operations[*].minutes)"))]);
    let rest = exactly("labour.minutes - sum(labour.operations[*].minutes)");
    sheet.figure("labour.allowance.minutes", "min", "what stands on top", &[rest]);
    let once = if set_up.is_empty() { "0".to_owned() } else { format!("({})", set_up.join(" + ")) };
    let once = format!("ceil(1000 * {}) / 1000", allowed(&once));
    sheet.via("via.setUpMinutes", &once, "min", "what is done once an order, allowance on top");
    let string = up("via.setUpMinutes / understood.quantity");
    sheet.figure("labour.setUpMinutesPerString", "min", "spread over the strings", &[string]);
    let metre = up("via.setUpMinutes * 1000 / (layout.overallMm * understood.quantity)");
    sheet.figure("labour.setUpMinutesPerMetre", "min", "spread over the metres", &[metre]);
}
