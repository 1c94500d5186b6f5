//! The program as staff run it, against a server in this process.
//!
//! These runs are here and not with the tests of the whole house because cargo builds the
//! program for the tests of its own package only.

#[cfg(test)]
mod bench;
#[cfg(test)]
#[path = "../../../../tests/dice.rs"]
#[expect(dead_code, reason = "orders are rolled here, and none is spoiled")]
mod dice;
#[cfg(test)]
mod fake;
#[cfg(test)]
mod held;
#[cfg(test)]
mod process;
#[cfg(test)]
mod quote;
#[cfg(test)]
mod readme;
#[cfg(test)]
mod receive;
#[cfg(test)]
mod script;
#[cfg(test)]
mod sheets;
#[cfg(test)]
mod shelf;
#[cfg(test)]
mod watch;
