//! The program as an operator runs it: flags, exit codes, signals, what it prints where.
//!
//! These runs are here and not with the tests of the whole house because cargo builds the
//! program for the tests of its own package only.

#[cfg(test)]
mod ask;
#[cfg(test)]
mod crash;
#[cfg(test)]
mod keys;
#[cfg(test)]
mod process;
#[cfg(test)]
mod report;
#[cfg(test)]
mod serve;
#[cfg(test)]
mod stock;
