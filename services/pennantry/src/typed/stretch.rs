//! Stretches of a piece: a flaw, an offcut, a line of an order.

use std::str::FromStr;

use pennantry_contract::v1;
use pennantry_measure::Length;

use super::Amount;
use crate::length::{to_wire, typed};

/// A stretch from the free end of a piece: `1.2 m..1.25 m`.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Stretch {
    /// Where it begins.
    pub from: Length,
    /// Where it ends.
    pub to: Length,
}

impl FromStr for Stretch {
    type Err = String;

    /// Reads a stretch.
    ///
    /// ```
    /// use pennantry::typed::Stretch;
    /// use pennantry_measure::Length;
    /// let (from, to) = (Length::from_mm(1_200), Length::from_mm(1_250));
    /// assert_eq!("1.2 m..125cm".parse(), Ok(Stretch { from, to }));
    /// assert!("1.2..1.3 m".parse::<Stretch>().is_err() && "2m..1m".parse::<Stretch>().is_err());
    /// ```
    fn from_str(text: &str) -> Result<Stretch, String> {
        let text = text.trim();
        let Some((from, to)) = text.split_once("..") else {
            return Err(format!(
                "\"{text}\" is no stretch: write where it begins and ends with .. between, such as 1.2 m..1.25 m"
            ));
        };
        let (from, to) = (typed(from)?, typed(to)?);
        if from < Length::ZERO || to <= from {
            return Err(format!("\"{text}\" has to begin at 0 or further on, and to end behind that"));
        }
        Ok(Stretch { from, to })
    }
}

impl Stretch {
    /// As a flaw of the contract.
    pub fn to_wire(self) -> v1::Flaw {
        v1::Flaw { from_mm: to_wire(self.from), to_mm: to_wire(self.to) }
    }
}

/// An offcut that might be kept: `0.3 m*45 cm`, `L7-1=0.3 m`, `0.3 m@rack B`.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Offcut {
    label: String,
    length: Length,
    width: Option<Length>,
    place: String,
}

impl FromStr for Offcut {
    type Err = String;

    /// Reads an offcut: its label and `=`, its length along the cloth, `*` and its width, `@` and
    /// where it is put; all but the length can be left out.
    ///
    /// ```
    /// use pennantry::typed::Offcut;
    /// let all = "L7-1 = 0.3 m * 45 cm @ rack B".parse::<Offcut>()?.to_wire();
    /// assert_eq!((all.piece_id.as_str(), all.length_mm, all.width_mm), ("L7-1", 300.0, Some(450.0)));
    /// assert_eq!(all.location, "rack B");
    /// # Ok::<(), String>(())
    /// ```
    fn from_str(text: &str) -> Result<Offcut, String> {
        let (size, place) = text.split_once('@').unwrap_or((text, ""));
        let (label, size) = size.split_once('=').unwrap_or(("", size));
        let (length, width) = match size.split_once(['*', '×']) {
            Some((length, width)) => (length, Some(width)),
            None => (size, None),
        };
        let read = |of: &str| {
            let length = typed(of).map_err(|fault| format!("{fault}; write an offcut as 0.3 m*45 cm"))?;
            if length <= Length::ZERO {
                return Err(format!("\"{text}\": an offcut is longer and wider than 0"));
            }
            Ok(length)
        };
        Ok(Offcut {
            label: label.trim().to_owned(),
            length: read(length)?,
            width: width.map(read).transpose()?,
            place: place.trim().to_owned(),
        })
    }
}

impl Offcut {
    /// As the contract has it.
    pub fn to_wire(&self) -> v1::NewRemnant {
        v1::NewRemnant {
            piece_id: self.label.clone(),
            length_mm: to_wire(self.length),
            width_mm: self.width.map(to_wire),
            location: self.place.clone(),
        }
    }
}

/// A line of an order: `kelp=25 m`, `star=200`.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct OrderLine {
    code: String,
    amount: Amount,
}

impl FromStr for OrderLine {
    type Err = String;

    /// Reads a line.
    ///
    /// ```
    /// use pennantry::typed::OrderLine;
    /// assert_eq!("kelp=25 m".parse::<OrderLine>()?.to_wire().code, "kelp");
    /// assert!("kelp 25 m".parse::<OrderLine>().is_err());
    /// # Ok::<(), String>(())
    /// ```
    fn from_str(text: &str) -> Result<OrderLine, String> {
        let Some((code, amount)) = text.split_once('=') else {
            return Err(format!(
                "\"{text}\" is no line of an order: write a code, = and how much, such as kelp=25 m"
            ));
        };
        Ok(OrderLine { code: code.trim().to_owned(), amount: amount.parse()? })
    }
}

impl OrderLine {
    /// As the contract has it.
    pub fn to_wire(&self) -> v1::NewOrderLine {
        v1::NewOrderLine { code: self.code.clone(), quantity: Some(self.amount.to_wire()) }
    }
}
