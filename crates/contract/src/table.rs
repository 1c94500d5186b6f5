//! The contract as tables: what every message, field, enum and method is called and
//! what its rule says.
//!
//! The tables are generated from the descriptor and from the contract's own field
//! option, so a bound, a default or an audience is written once, in the proto. They
//! are plain statics: looking something up allocates nothing and cannot fail late.
//!
//! # Example
//! ```
//! use pennantry_contract::table;
//!
//! let field = table::PENNANT.field("widthMm").ok_or("no such field")?;
//! assert_eq!((field.least, field.most, field.decimals), (Some(20.0), Some(1000.0), 3));
//! assert_eq!(field.audience, table::Audience::Buyer);
//! # Ok::<(), &str>(())
//! ```

/// A message.
#[derive(Debug)]
pub struct Message {
    /// Full name, such as `pennantry.v1.Enquiry`.
    pub name: &'static str,
    /// Its fields in the order of the proto.
    pub fields: &'static [Field],
}

impl Message {
    /// A field by its name in JSON, such as `gapMm`.
    pub fn field(&self, json_name: &str) -> Option<&'static Field> {
        self.fields.iter().find(|field| field.json_name == json_name)
    }

    /// The members of a oneof, in the order of the proto.
    pub fn oneof(&self, name: &str) -> impl Iterator<Item = &'static Field> {
        self.fields.iter().filter(move |field| field.oneof == Some(name))
    }
}

/// A field of a message.
#[derive(Debug)]
pub struct Field {
    /// Name in the proto, such as `gap_mm`.
    pub name: &'static str,
    /// Name in JSON, such as `gapMm`.
    pub json_name: &'static str,
    /// Number on the wire.
    pub number: u32,
    /// What it holds; of each entry where it is repeated.
    pub kind: Kind,
    /// Whether it is a list.
    pub repeated: bool,
    /// Whether absence differs from the zero value. Messages always have presence and
    /// are not marked; members of a oneof neither.
    pub optional: bool,
    /// The oneof it is a member of.
    pub oneof: Option<&'static str>,
    /// Whether it must be given.
    pub required: bool,
    /// Least value, in the unit of the field; for a list the least number of entries.
    pub least: Option<f64>,
    /// Greatest value, in the unit of the field; for a string the number of
    /// characters, for a list the number of entries.
    pub most: Option<f64>,
    /// Decimals of the unit that are read and written.
    pub decimals: u32,
    /// What stands in when it is not given, in words; empty where nothing does.
    pub stands_in: &'static str,
    /// Who may see it in an answer.
    pub audience: Audience,
}

/// What a field holds.
#[derive(Debug, Clone, Copy)]
pub enum Kind {
    /// A double.
    Double,
    /// A whole number of 32 bits without sign.
    Uint32,
    /// A whole number of 64 bits with sign; a string in JSON.
    Int64,
    /// True or false.
    Bool,
    /// Text.
    String,
    /// A message.
    Message(&'static Message),
    /// One of an enum's values.
    Enum(&'static Enumeration),
}

/// Who may see a field of an answer.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Audience {
    /// The shop alone; also where nothing is said.
    Shop,
    /// Buyers and the shop.
    Buyer,
}

/// An enum.
#[derive(Debug)]
pub struct Enumeration {
    /// Full name, such as `pennantry.v1.Shape`.
    pub name: &'static str,
    /// Its values in the order of the proto, zero first.
    pub values: &'static [EnumValue],
}

impl Enumeration {
    /// A value by its name.
    pub fn named(&self, name: &str) -> Option<&'static EnumValue> {
        self.values.iter().find(|value| value.name == name)
    }

    /// A value by its number.
    pub fn numbered(&self, number: i32) -> Option<&'static EnumValue> {
        self.values.iter().find(|value| value.number == number)
    }
}

/// A value of an enum.
#[derive(Debug)]
pub struct EnumValue {
    /// Its name, such as `SHAPE_TRIANGLE`.
    pub name: &'static str,
    /// Its number on the wire.
    pub number: i32,
}

/// A method of a service.
#[derive(Debug)]
pub struct Method {
    /// Full name of the service, such as `pennantry.v1.QuoteService`.
    pub service: &'static str,
    /// Name of the method, such as `CalculateQuote`.
    pub name: &'static str,
    /// What is sent.
    pub request: &'static Message,
    /// What comes back.
    pub response: &'static Message,
    /// Where it is found in the JSON of the public door, if there.
    pub http: Option<Http>,
    /// Whether more than one answer comes back.
    pub server_streaming: bool,
}

impl Method {
    /// Path of the call in gRPC and of its JSON twin:
    /// `/pennantry.v1.QuoteService/CalculateQuote`.
    pub fn path(&self) -> String {
        format!("/{}/{}", self.service, self.name)
    }
}

/// Where a method is found over HTTP.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Http {
    /// The verb in capitals, such as `POST`.
    pub verb: &'static str,
    /// The path, such as `/v1/quotes`.
    pub path: &'static str,
    /// The field of the request that the body is; `*` is all of it, none is no body.
    pub body: Option<&'static str>,
    /// The field of the response that is sent; none is all of it.
    pub response_body: Option<&'static str>,
}

/// A message by its full name.
pub fn message(name: &str) -> Option<&'static Message> {
    MESSAGES.iter().find(|message| message.name == name).copied()
}

/// An enum by its full name.
pub fn enumeration(name: &str) -> Option<&'static Enumeration> {
    ENUMS.iter().find(|found| found.name == name).copied()
}

/// A method by the full name of its service and its own.
pub fn method(service: &str, name: &str) -> Option<&'static Method> {
    METHODS.iter().find(|method| method.service == service && method.name == name)
}

include!("gen/tables.rs");
