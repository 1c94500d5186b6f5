//! Names of things. All are made outside, so that the same commands give the same rows on
//! both engines.

macro_rules! text_id {
    ($(#[doc = $doc:literal])+ $name:ident) => {
        $(#[doc = $doc])+
        #[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
        pub struct $name(pub String);

        impl $name {
            /// The text.
            pub fn as_str(&self) -> &str {
                &self.0
            }
        }

        impl From<&str> for $name {
            fn from(text: &str) -> $name {
                $name(text.to_owned())
            }
        }

        impl std::fmt::Display for $name {
            fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                f.write_str(&self.0)
            }
        }
    };
}

text_id! {
    /// A piece, as it stands on its label.
    PieceId
}
text_id! {
    /// A reservation: 128 random bits, so that knowing one is having been told it.
    ReservationId
}
text_id! {
    /// A cut.
    CutId
}
text_id! {
    /// An order at a supplier.
    OrderId
}

/// A change: 128 bits, made where the command is made. Movements and events are numbered
/// within it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct ChangeId(pub [u8; 16]);
