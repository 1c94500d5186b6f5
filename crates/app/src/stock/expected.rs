//! When what is missing is expected.

use std::collections::BTreeMap;

use pennantry_ledger::rules::{Amount, Material, Order, OrderLine, OrderState};

use super::plan::Plan;

/// The day, numbered, on which open orders at suppliers will have brought all that a plan
/// misses; none where nothing is missing, or where they will not.
///
/// For each material orders are counted in the order of their days until they give what is
/// missing; the last of those days over all materials is the answer. An order that is late is
/// not counted on: nobody knows when it comes.
pub fn expected(plan: &Plan, orders: &[Order], today: i32) -> Option<i32> {
    let mut missing: BTreeMap<&Material, Amount> = BTreeMap::new();
    for used in plan.uses.iter().filter(|used| used.missing.is_some()) {
        *missing.entry(&used.material).or_default() += used.missing;
    }
    let mut open: Vec<&Order> = orders
        .iter()
        .filter(|order| order.state == OrderState::Open && order.expected_day >= today)
        .collect();
    open.sort_by(|one, other| (one.expected_day, &one.id).cmp(&(other.expected_day, &other.id)));
    let mut last = None;
    for (material, mut wanted) in missing {
        let day = open.iter().find_map(|order| {
            let lines = order.lines.iter().filter(|line| line.material == *material);
            wanted -= lines.map(OrderLine::outstanding).sum();
            (!wanted.is_some()).then_some(order.expected_day)
        });
        last = last.max(Some(day?));
    }
    last
}
