//! Reorder point and quantity together, by what they cost.
//!
//! | policy | review | source |
//! |---|---|---|
//! | [`normal::expected_level`] `(r, Q)` | always; cost `p` per unit wanting | Whitin 1953, Hadley and Whitin 1963; Nahmias, ch. 5; Snyder and Shen, sec. 5.3 |
//! | [`normal::quantity_then_point`] `(r, Q)` | always; cost `p` per unit and time | Snyder and Shen, sec. 5.4 |
//! | [`poisson::reorder_and_quantity`] `(r, Q)` | always, exactly | Federgruen and Zheng 1992; Snyder and Shen, sec. 5.6 |
//! | [`poisson::point_and_level`] `(s, S)` | every period, exactly | Zheng and Federgruen 1991; Snyder and Shen, sec. 4.4 |
//!
//! Costs of a unit wanting are known to few shops: a service level ([`super::safety`]) is
//! the usual way to a reorder point, and these say what service a cost would mean. All
//! searches are capped by steps. `h` is what a unit costs to keep for the time in which
//! `D` is demanded, `K` what an order costs.

pub mod normal;
pub mod poisson;
