//! Stock and reservations, from the contract to the domain and back.
//!
//! | file | what |
//! |---|---|
//! | `read` | fields: labels, words, amounts |
//! | `goods` | codes of the catalogue as materials of the ledger |
//! | [`facts`] | what comes, what is so, what is ordered |
//! | [`cuts`] | what was cut |
//! | [`hold`] | what is to be held |
//! | [`sold`] | what a reservation keeps of the quote it was sold by |
//! | `promised` | a ticket held against today's catalogue |
//! | [`write`] | pieces, movements, orders, promises |
//! | [`reservation`] | reservations |
//! | [`shelf`] | what is on the shelf for a quote, and what is missing |
//! | [`refused`] | refusals of the ledger as failures |

pub mod cuts;
pub mod facts;
pub mod goods;
pub mod hold;
mod promised;
pub mod read;
pub mod refused;
pub mod reservation;
pub mod shelf;
pub mod sold;
pub mod write;
