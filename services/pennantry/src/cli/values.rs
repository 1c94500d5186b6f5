//! Values of flags that are more than a word, a number or a length.

use std::str::FromStr;

/// What is said for one end; nothing passes over it.
#[derive(Debug, Clone, PartialEq)]
pub struct Each<T>(pub Option<T>);

/// Reads what is said for one end, or that nothing is.
pub fn each<T, E: ToString>(
    read: impl Fn(&str) -> Result<T, E> + Clone + Send + Sync + 'static,
) -> impl Fn(&str) -> Result<Each<T>, String> + Clone + Send + Sync + 'static {
    move |text| match text {
        "none" => Ok(Each(None)),
        _ => read(text).map(|value| Each(Some(value))).map_err(|fault| fault.to_string()),
    }
}

/// Reads yes or no.
pub fn yes_or_no(text: &str) -> Result<bool, &'static str> {
    match text {
        "yes" => Ok(true),
        "no" => Ok(false),
        _ => Err("write yes, no, or none for an end without"),
    }
}

/// Reads newtons.
pub fn number(text: &str) -> Result<f64, &'static str> {
    let bare = text.strip_suffix('N').unwrap_or(text).trim_end();
    bare.parse().ok().filter(|n: &f64| n.is_finite()).ok_or("write newtons as a number, such as 50 or 12.5")
}

/// A trimming, and how many on each pennant.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Trimming {
    /// Its code.
    pub code: String,
    /// How many, where it is said.
    pub per_pennant: Option<u32>,
}

impl FromStr for Trimming {
    type Err = &'static str;

    fn from_str(text: &str) -> Result<Trimming, Self::Err> {
        let Some((code, count)) = text.split_once(':') else {
            return Ok(Trimming { code: text.to_owned(), per_pennant: None });
        };
        let per_pennant = count.parse().map_err(|_| "write a code, or a code, a colon and a whole number")?;
        Ok(Trimming { code: code.to_owned(), per_pennant: Some(per_pennant) })
    }
}

/// What staff take off.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Discount {
    /// A share, in percent.
    Percent(f64),
    /// An amount: its digits, and how many of them are behind the point.
    Amount {
        /// All digits as one number.
        digits: i64,
        /// Digits behind the point.
        decimals: u32,
    },
}

impl FromStr for Discount {
    type Err = &'static str;

    fn from_str(text: &str) -> Result<Discount, Self::Err> {
        let wrong = "write a share such as 10% or an amount such as 5.00";
        if let Some(percent) = text.strip_suffix('%') {
            let percent: f64 = percent.trim_end().parse().map_err(|_| wrong)?;
            return if percent.is_finite() { Ok(Discount::Percent(percent)) } else { Err(wrong) };
        }
        let (whole, behind) = text.split_once('.').unwrap_or((text, ""));
        let all = format!("{whole}{behind}");
        let plain = !whole.is_empty() && all.chars().all(|c| c.is_ascii_digit()) && !text.ends_with('.');
        let digits = all.parse().ok().filter(|_| plain).ok_or(wrong)?;
        let decimals = u32::try_from(behind.len()).map_err(|_| wrong)?;
        Ok(Discount::Amount { digits, decimals })
    }
}
