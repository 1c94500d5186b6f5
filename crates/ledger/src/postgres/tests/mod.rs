//! The engine against a real server.

use super::failure::Failure;
use super::unit::Unit;

/// Statements that are put in the way of commits.
#[derive(Debug, Clone, Default)]
pub(super) struct BeforeCommit {}
impl BeforeCommit {
    pub(super) async fn run(&self, _unit: &Unit) -> Result<(), Failure> { Ok(()) }
}
