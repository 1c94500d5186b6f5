//! A span of time as it is typed: `15 min`, `2 h`, `2 d`.

use std::str::FromStr;

/// A span of time.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Span {
    /// Its seconds.
    pub seconds: u32,
}

/// What can be written behind the number, and its seconds.
const UNITS: [(&[&str], u32); 5] = [
    (&["s", "sec", "second", "seconds"], 1),
    (&["min", "minute", "minutes"], 60),
    (&["h", "hour", "hours"], 3_600),
    (&["d", "day", "days"], 86_400),
    (&["w", "week", "weeks"], 604_800),
];

impl FromStr for Span {
    type Err = String;

    /// Reads a span; a day has 24 hours.
    ///
    /// ```
    /// use pennantry::typed::Span;
    /// assert_eq!("2 d".parse(), Ok(Span { seconds: 172_800 }));
    /// assert_eq!("90min".parse(), Ok(Span { seconds: 5_400 }));
    /// assert!("2".parse::<Span>().is_err() && "2 m".parse::<Span>().is_err());
    /// ```
    fn from_str(text: &str) -> Result<Span, String> {
        let text = text.trim();
        let how = "write a whole number and min, h, d or w, such as 15 min or 2d";
        let end = text.find(|c: char| !c.is_ascii_digit()).unwrap_or(text.len());
        let (number, unit) = text.split_at(end);
        let unit = unit.trim_start();
        let each = UNITS.iter().find(|(names, _)| names.contains(&unit)).map(|(_, seconds)| *seconds);
        let (Some(each), Ok(number)) = (each, number.parse::<u32>()) else {
            return Err(format!("\"{text}\" is no span of time: {how}"));
        };
        let seconds = number.checked_mul(each).ok_or_else(|| format!("\"{text}\" is too long: {how}"))?;
        Ok(Span { seconds })
    }
}
