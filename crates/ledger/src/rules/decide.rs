//! From a command and the rows it needs to changes, or a refusal.

use super::{At, Change, Command, Envelope, Needs, Outcome, Refusal, Rows};

/// What is done.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Decision {
    /// What is written, in this order.
    pub changes: Vec<Change>,
    /// What is told.
    pub outcome: Outcome,
}

/// What a command needs to see.
pub fn needs(command: &Command) -> Needs {
    let _ = command;
    Needs::default()
}

/// Decides at an instant.
///
/// # Errors
/// A refusal: nothing is to be written, but for the holds that were overdue.
pub fn decide(envelope: &Envelope, rows: &Rows, now: At) -> Result<Decision, Refusal> {
    let _ = (envelope, rows, now);
    Err(Refusal::Empty)
}
