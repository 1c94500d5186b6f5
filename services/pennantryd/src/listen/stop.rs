//! The signal to stop.

use tokio::sync::watch;

/// Gives the signal; dropping it gives it as well.
#[derive(Debug)]
pub struct Stopper(watch::Sender<bool>);

/// Receives the signal.
#[derive(Debug, Clone)]
pub struct Stop(watch::Receiver<bool>);

/// A signal not yet given.
pub fn stop() -> (Stopper, Stop) {
    let (sender, receiver) = watch::channel(false);
    (Stopper(sender), Stop(receiver))
}

impl Stopper {
    /// Gives the signal to all who wait for it.
    pub fn give(&self) {
        self.0.send_replace(true);
    }
}

impl Stop {
    /// Whether the signal was given.
    pub fn has_begun(&self) -> bool {
        *self.0.borrow() || self.0.has_changed().is_err()
    }

    /// Waits for the signal.
    pub fn begun(&self) -> impl Future<Output = ()> + Send + Sync + use<> {
        let mut receiver = self.0.clone();
        async move {
            // An error says that nobody is left to give it, which is a stop too.
            let _ = receiver.wait_for(|given| *given).await;
        }
    }
}
