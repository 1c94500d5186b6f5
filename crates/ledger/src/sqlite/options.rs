//! How a store is opened.

use std::fmt::Debug;
use std::sync::Arc;
use std::time::Duration;

use crate::rules::Envelope;

/// How a store is opened. The default is what a shop needs.
#[derive(Debug, Clone)]
pub struct Options {
    /// What a commit waits for.
    pub durability: Durability,
    /// Commands that may wait for the writer; one more is refused as busy.
    pub queue: usize,
    /// Most commands in one commit.
    pub batch: usize,
    /// How long commands are taken into one commit, while there are any.
    pub gather: Duration,
    /// Connections that read.
    pub readers: usize,
    /// How long one look may take. What is longer is broken off: a look that is begun keeps the
    /// write-ahead log from being emptied.
    pub look: Duration,
    /// How long is waited for another process that writes.
    pub patience: Duration,
    /// Whether a file of an older program is brought up to this one, and an empty one made where there
    /// is none. A server does; what only looks must not, since an older server may have it open.
    pub migrates: bool,
    /// Bytes of the write-ahead log from which on it is emptied with readers waited for.
    pub log_bytes: u64,
    /// What a test breaks.
    pub faults: Option<Arc<dyn Faults>>,
}

impl Default for Options {
    fn default() -> Options {
        Options {
            durability: Durability::Full,
            queue: 4_096,
            batch: 128,
            gather: Duration::from_millis(50),
            readers: 4,
            look: Duration::from_secs(10),
            patience: Duration::from_secs(10),
            migrates: true,
            log_bytes: 32 * 1024 * 1024,
            faults: None,
        }
    }
}

/// What a commit waits for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Durability {
    /// Until the disk has it: what is answered is there after a power cut.
    #[default]
    Full,
    /// For nothing: for measuring what the disk costs, and for nothing else.
    Off,
}

impl Durability {
    /// As SQLite calls it.
    pub(super) const fn pragma(self) -> &'static str {
        match self {
            Durability::Full => "FULL",
            Durability::Off => "OFF",
        }
    }
}

/// How a test has a commit end.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum CommitFault {
    /// As it ends.
    #[default]
    None,
    /// It fails and nothing is written.
    RolledBack,
    /// It is written, and its success is not heard of.
    Unheard,
}

/// What a test breaks, asked by the writer at the places named. Nothing but tests sets one;
/// where none is set, nothing of it runs.
pub trait Faults: Debug + Send + Sync {
    /// Before a command is carried out; may panic.
    fn command(&self, envelope: &Envelope) {
        let _ = envelope;
    }

    /// After the rows of a command are written, and before the next one is begun; may panic.
    fn written(&self, envelope: &Envelope) {
        let _ = envelope;
    }

    /// Before a commit.
    fn commit(&self) -> CommitFault {
        CommitFault::None
    }

    /// Pages the file may grow to, as if the disk were full there.
    fn most_pages(&self) -> Option<u32> {
        None
    }
}
