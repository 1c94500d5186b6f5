//! Numbers as the standard JSON mapping lets them be written.

use std::str::FromStr;

use serde_json::{Number, Value};

use super::node::Node;

/// What a node is to a field that wants a number.
pub enum Read {
    /// The number, in a form that the library takes.
    Number(Value),
    /// A number of the right kind that the type cannot hold.
    Beyond,
    /// A number with decimals where a whole one is wanted.
    Fraction,
    /// No number.
    No,
}

/// A double, written as a number or as a string; "NaN" and "Infinity" are read here and
/// refused in checking.
pub fn double(node: &Node) -> Read {
    match node {
        Node::Number(number) => Read::Number(Value::Number(number.clone())),
        Node::Text(text) if text.parse::<f64>().is_ok() => Read::Number(Value::String(text.clone())),
        _ => Read::No,
    }
}

/// A whole number, written as a number or as a string, with or without decimals that
/// are zero.
pub fn whole<T: FromStr + Into<Number>>(node: &Node) -> Read {
    let text = match node {
        Node::Number(number) => number.to_string(),
        Node::Text(text) => text.clone(),
        _ => return Read::No,
    };
    if let Ok(value) = text.parse::<T>() {
        return Read::Number(Value::Number(value.into()));
    }
    match text.parse::<f64>() {
        Err(_) => Read::No,
        Ok(value) if !value.is_finite() => Read::No,
        Ok(value) if value.fract() != 0.0 => Read::Fraction,
        // Digits are what doubles hold exactly up to 2^53; beyond, the number that was
        // written may be another one.
        Ok(value) if value.abs() > 9_007_199_254_740_992.0 => Read::Beyond,
        Ok(value) => {
            let digits = format!("{:.0}", value + 0.0);
            digits.parse::<T>().map_or(Read::Beyond, |value| Read::Number(Value::Number(value.into())))
        }
    }
}
