//! Flags that many commands have.

use clap::Args;

use super::SERVER;
use crate::length::Unit;

/// Asking and printing.
#[derive(Debug, Clone, Args)]
pub struct Reach {
    /// Where the server's private door is.
    #[arg(long, env = "PENNANTRY_SERVER", value_name = "URL", default_value = SERVER)]
    pub server: String,
    /// Unit in which lengths are shown, none of them shortened.
    #[arg(long, value_enum, default_value_t = Unit::M)]
    pub show: Unit,
    /// Nothing but ASCII: what is not in it is printed as a question mark.
    #[arg(long)]
    pub plain: bool,
    /// The answer as JSON, in one line, as the private door gives it.
    #[arg(long, conflicts_with_all = ["show", "plain"])]
    pub json: bool,
}

/// Doing it once.
#[derive(Debug, Clone, Args)]
pub struct Once {
    /// Identity of the request: sent again with the same one, it is done once. A new one
    /// unless it is said.
    #[arg(long, value_name = "ID")]
    pub request_id: Option<String>,
}

impl Once {
    /// The identity that was said, or a new one.
    ///
    /// # Errors
    /// The system gives no random bits.
    pub fn id(&self) -> Result<String, String> {
        self.request_id.clone().map_or_else(crate::request_id::fresh, Ok)
    }
}
