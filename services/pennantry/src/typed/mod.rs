//! Values as they are typed at the shelf and the bench: amounts, flaws, offcuts, spans of
//! time, money. Each says what is wrong with it and what may be written instead.

pub mod amount;
pub mod money;
pub mod span;
pub mod stretch;

pub use self::amount::Amount;
pub use self::money::Price;
pub use self::span::Span;
pub use self::stretch::{Offcut, OrderLine, Stretch};
