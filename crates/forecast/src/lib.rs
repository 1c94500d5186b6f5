//! How fast a fabric burns away, and what to order.
//!
//! Pure: no IO, no clock, no hidden state. Lengths come in as whole numbers of one
//! unit and leave as figures of the same unit; days come in as open-day or week
//! indices, so that a closed day is no observation.

/// What a demand history says: classes, smoothing, back-test, season.
pub mod demand;
/// What a stock needs: lead-time demand, safety stock, reorder point, lot sizes.
pub mod supply;
