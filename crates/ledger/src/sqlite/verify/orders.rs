//! Orders at suppliers: what has come against the pieces that came.

use std::collections::BTreeMap;

use rusqlite::Connection;

use super::expect;
use crate::engine::Verified;
use crate::rules::{Amount, Material, OrderId, OrderState};
use crate::sqlite::pack::material;
use crate::sqlite::rows::find_order;

/// Looks at one order.
pub(super) fn look(connection: &Connection, id: &str, found: &mut Verified) -> rusqlite::Result<()> {
    let Some(order) = find_order(connection, &OrderId::from(id))? else {
        return Ok(());
    };
    let mut came: BTreeMap<Material, Amount> = BTreeMap::new();
    let mut statement =
        connection.prepare_cached("SELECT class, code, received FROM piece WHERE purchase = ?1")?;
    let mut rows = statement.query([id])?;
    while let Some(row) = rows.next()? {
        *came.entry(material(row, 0)?).or_default() += Amount(row.get(2)?);
    }
    let mut noted: BTreeMap<Material, Amount> = BTreeMap::new();
    for line in &order.lines {
        *noted.entry(line.material.clone()).or_default() += line.received;
    }
    noted.retain(|_, amount| amount.is_some());
    for (material, amount) in &noted {
        let pieces = came.remove(material).unwrap_or_default();
        expect(found, &format!("order {id}: what has come of {}", material.code), &amount.0, &pieces.0);
    }
    for (material, amount) in came {
        found
            .drift
            .push(format!("order {id}: {} of {} came, and it does not say so", amount.0, material.code));
    }
    let outstanding = order.lines.iter().any(|line| line.outstanding().is_some());
    match order.state {
        OrderState::Open if !outstanding => {
            found.drift.push(format!("order {id}: stands open, and all of it has come"));
        }
        OrderState::Filled if outstanding => {
            found.drift.push(format!("order {id}: counts as filled, and not all of it has come"));
        }
        OrderState::Open | OrderState::Filled | OrderState::Cancelled => {}
    }
    Ok(())
}
