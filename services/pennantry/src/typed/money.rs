//! Money as it is typed: `12.50`, `12,50`, `GBP 12.50`, `12.50 GBP`.
//!
//! Digits are kept as they stand and become minor units once the currency of the shop is
//! known. What two readers would read in two ways is refused: `1,250` is 1.25 to one of
//! them and 1 250 to the other.

use std::str::FromStr;

use pennantry_contract::v1;

/// An amount of money, the currency's digits not known yet.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Price {
    /// As it was typed.
    text: String,
    /// All digits as one number.
    digits: i64,
    /// Digits behind the point.
    decimals: u32,
    /// Code of the currency, where it was written.
    currency: Option<String>,
}

/// What the shop's amounts are in.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Currency {
    /// Its code.
    pub code: String,
    /// How many digits of an amount are minor.
    pub minor_digits: u32,
}

impl FromStr for Price {
    type Err = String;

    /// Reads an amount.
    ///
    /// ```
    /// use pennantry::typed::{Price, money::Currency};
    /// let pounds = Currency { code: "GBP".to_owned(), minor_digits: 2 };
    /// let minor = |text: &str| text.parse::<Price>().and_then(|price| price.to_wire(&pounds)).map(|m| m.minor_units);
    /// assert_eq!(minor("12.5"), Ok(1_250));
    /// assert_eq!(minor("GBP 12,50"), Ok(1_250));
    /// assert!(minor("12.50 EUR").is_err() && minor("1,250").is_err() && minor("£12").is_err());
    /// ```
    fn from_str(text: &str) -> Result<Price, String> {
        let text = text.trim();
        let wrong = || {
            format!(
                "\"{text}\" is no amount of money: write one such as 12.50, or 12.50 and the currency's code"
            )
        };
        let (number, currency) = parted(text);
        let (whole, behind) = number.split_once(['.', ',']).unwrap_or((number, ""));
        let all = format!("{whole}{behind}");
        let plain =
            !whole.is_empty() && all.chars().all(|c| c.is_ascii_digit()) && !number.ends_with(['.', ',']);
        if !plain {
            return Err(wrong());
        }
        if number.contains(',') && behind.len() == 3 {
            return Err(format!(
                "\"{text}\" can be read as {whole}{behind} or as {whole}.{behind}: write it without a comma"
            ));
        }
        let digits = all.parse().map_err(|_| wrong())?;
        let decimals = u32::try_from(behind.len()).map_err(|_| wrong())?;
        Ok(Price { text: text.to_owned(), digits, decimals, currency: currency.map(str::to_owned) })
    }
}

/// The number, and the currency's code before or behind it.
fn parted(text: &str) -> (&str, Option<&str>) {
    let is_code = |code: &str| code.len() == 3 && code.chars().all(|c| c.is_ascii_uppercase());
    match text.split_once(' ') {
        Some((code, number)) if is_code(code) => (number.trim_start(), Some(code)),
        Some((number, code)) if is_code(code.trim_start()) => (number, Some(code.trim_start())),
        _ => (text, None),
    }
}

impl Price {
    /// In the minor units of the shop's currency.
    ///
    /// # Errors
    /// It is in another currency, has more decimals than the shop's, or is out of range.
    pub fn to_wire(&self, shop: &Currency) -> Result<v1::Money, String> {
        let Price { text, decimals, .. } = self;
        if let Some(currency) = self.currency.as_ref().filter(|currency| **currency != shop.code) {
            return Err(format!(
                "\"{text}\" is in {currency}, but this shop keeps its books in {}",
                shop.code
            ));
        }
        let minor = shop.minor_digits;
        let more = minor.checked_sub(*decimals).ok_or_else(|| {
            format!(
                "\"{text}\" has {decimals} decimals, but {} has {minor}: write at most {minor}",
                shop.code
            )
        })?;
        let units = 10_i64.checked_pow(more).and_then(|each| self.digits.checked_mul(each));
        let minor_units = units.ok_or_else(|| format!("\"{text}\" is out of range: write less"))?;
        Ok(v1::Money { currency_code: shop.code.clone(), minor_units })
    }
}
