//! How cloth is bought: what the nightly report needs to know to propose orders.

use pennantry_app::restock::{Ordering, ServiceKind, Supply};
use pennantry_measure::Length;

use super::codes::{Codes, Fabrics};
use super::field::{mm, within};
use super::node::{Table, key};

/// What the section `[ordering]` says.
pub(super) fn ordering(table: &mut Table<'_, '_, '_>) -> Option<Ordering> {
    let kinds = [("cycle", ServiceKind::Cycle), ("fill", ServiceKind::Fill)];
    let service = table.choice(key("service", "what the service is a share of"), &kinds);
    let level = table.percent(key("service_percent", "how well you want to be served"), within(50, 99));
    let cover = table.count(key("cover_days", "for how many days an order should last"), within(0, 730));
    Some(Ordering { service: service?, level: level?, cover_days: cover? })
}

/// An entry of `[[supplies]]`.
pub(super) fn supply(table: &mut Table<'_, '_, '_>, bought: &mut Codes, fabrics: &Fabrics) -> Option<Supply> {
    let form = "the code of a fabric in quotes";
    let fabric = key("fabric", "which fabric it is");
    let found = fabrics.codes.named(table, fabric, form);
    bought.keep(table);
    let code = table.optional("fabric").and_then(|node| node.value.as_str().map(str::to_owned));
    let supplier = table.words(key("supplier", "who sells it"));
    let reference = table.or(key("reference", "how the seller calls it"), String::new(), Table::words);
    let lead = table.count(key("lead_days", "days from the order to the shelf"), within(0, 365));
    let bolt = table.length(key("bolt_mm", "the length of a bolt as it is sold"), mm(100, 200_000));
    let least = key("least_mm", "the least order");
    let least = table.or(least, Length::ZERO, |table, key| table.length(key, mm(0, 2_000_000)));
    let last = table.or(key("last_of_it", "whether it cannot be had again"), false, Table::flag);
    found?;
    Some(Supply {
        fabric: code?,
        supplier: supplier?,
        reference: reference?,
        lead_days: lead?,
        bolt: bolt?,
        least: least?,
        last_of_it: last?,
    })
}
