//! The log: on standard error, never on standard output.

use tracing_subscriber::EnvFilter;

/// Starts the log with a filter such as `info` or `pennantryd=debug,info`.
///
/// # Errors
/// The filter cannot be read, in words for the operator.
pub fn start(filter: &str) -> Result<(), String> {
    let directives = EnvFilter::try_new(filter).map_err(|cause| {
        format!("--log {filter}: {cause}: give a level (error, warn, info, debug, trace) or directives such as pennantryd=debug,info")
    })?;
    let log = tracing_subscriber::fmt().with_env_filter(directives).with_writer(std::io::stderr);
    log.try_init().map_err(|cause| format!("the log cannot be started: {cause}"))
}
