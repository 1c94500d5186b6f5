//! The clock: the only place that reads it.
//!
//! A door reads the instant once a request and passes it on; nothing further inside asks
//! what time it is.

#[cfg(test)]
use std::sync::atomic::{AtomicI64, Ordering};

use jiff::Timestamp;

/// Where the instant of a request comes from.
#[derive(Debug, Clone, Copy)]
pub enum Clock {
    /// The machine's clock.
    System,
    /// One instant that stands still, so that an example can be repeated.
    Fixed(Timestamp),
    /// One that a test puts forward and back, in microseconds.
    #[cfg(test)]
    ByHand(&'static AtomicI64),
}

impl Clock {
    /// The instant now.
    ///
    /// ```
    /// use pennantryd::clock::Clock;
    /// let asked: jiff::Timestamp = "2026-11-24T10:00:00Z".parse()?;
    /// assert_eq!(Clock::Fixed(asked).now(), asked);
    /// # Ok::<(), jiff::Error>(())
    /// ```
    pub fn now(&self) -> Timestamp {
        match self {
            Clock::System => Timestamp::now(),
            Clock::Fixed(instant) => *instant,
            #[cfg(test)]
            Clock::ByHand(micros) => {
                Timestamp::from_microsecond(micros.load(Ordering::SeqCst)).unwrap_or_default()
            }
        }
    }
}
