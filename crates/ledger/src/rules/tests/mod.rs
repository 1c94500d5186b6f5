//! Tests of the rules.
//!
//! | file | what |
//! |---|---|
//! | `memory` | an engine in memory, that loads rows and writes changes as the real ones do |
//! | `invariants` | what must be so after every command |
//! | `make` | short ways to write commands down |
//! | `table` | every state against every command, the expected answers written out |
//! | `stock`, `orders` | what comes, counts, losses, flaws; orders at suppliers |
//! | `holds` | taking, expiring, superseding, amending |
//! | `cuts`, `undos` | what the bench does |
//! | `rolls` | what each day did with each material |
//! | `reports` | whose a run of the report is |
//! | `settling` | who keeps what, by hand |
//! | `random` | random commands, good and bad, all invariants after each |
//! | `keeping` | outcomes as bytes |
//! | `words` | what each refusal says |

mod cuts;
mod holds;
mod invariants;
mod keeping;
mod make;
mod memory;
mod orders;
mod random;
mod reports;
mod rolls;
mod settling;
mod stock;
mod table;
mod undos;
mod words;
