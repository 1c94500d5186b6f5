//! What a ticket promises.

use pennantry_contract::v1;

/// What a ticket promises, in the protobuf of its own that is sealed: a private message,
/// beside those of the contract. A number once used keeps its meaning, so that a ticket
/// opens after the program was renewed.
///
/// Nothing in it is hidden in the buyer's view: the buyer has it, and can read it.
#[derive(Clone, PartialEq, prost::Message)]
pub struct Promise {
    /// The enquiry as it was understood, without whose view it was asked in and what the
    /// shop alone may see of it.
    #[prost(message, optional, tag = "1")]
    pub understood: Option<v1::Enquiry>,
    /// Revision of the catalogue that it was computed from.
    #[prost(string, tag = "2")]
    pub catalogue_revision: String,
    /// The shop's day on which it was quoted, ISO date.
    #[prost(string, tag = "3")]
    pub order_date: String,
    /// Instant from which it holds no longer, in seconds from the first of January 1970, UTC.
    #[prost(sint64, tag = "4")]
    pub expire_second: i64,
    /// Currency of the total, ISO 4217.
    #[prost(string, tag = "5")]
    pub currency_code: String,
    /// How many digits of the total are minor.
    #[prost(uint32, tag = "6")]
    pub minor_digits: u32,
    /// The total, tax and delivery in it.
    #[prost(sint64, tag = "7")]
    pub total_minor_units: i64,
    /// Day it leaves, ISO date; empty where none was said.
    #[prost(string, tag = "8")]
    pub leave_date: String,
    /// Last day it arrives, ISO date; empty where none was said.
    #[prost(string, tag = "9")]
    pub arrive_to: String,
    /// What was found about small children; unspecified where nobody looked.
    #[prost(enumeration = "v1::Outcome", tag = "10")]
    pub child_outcome: i32,
    /// The rate of the tax that was taken, in thousandths of a percent; nought where there was
    /// none, not said in tickets from before it was written down.
    #[prost(uint32, optional, tag = "11")]
    pub tax_milli: Option<u32>,
    /// What staff took off, as the buyer saw it; none where nothing was.
    #[prost(message, optional, tag = "12")]
    pub discount: Option<Discounted>,
    /// Cloth charged, in micrometres: that of each fabric of the answer, then that which the
    /// binding is cut from, if it is. Empty in tickets from before it was written down.
    #[prost(sint64, repeated, tag = "13")]
    pub charged_um: Vec<i64>,
}

/// The line of the price that staff took off.
#[derive(Clone, PartialEq, prost::Message)]
pub struct Discounted {
    /// Its amount in minor units, below nought.
    #[prost(sint64, tag = "1")]
    pub minor_units: i64,
    /// Its words, the reason among them.
    #[prost(string, tag = "2")]
    pub text: String,
}
