//! Numbers of the file, read from their digits and never through a float.

/// Why a text is not a number with so many decimals.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Fault {
    /// Not digits with at most one point.
    NotDigits,
    /// More decimals than are kept.
    TooFine,
    /// More digits than any value here has.
    TooLong,
}

/// A number in its smallest unit: with three places, `7.5` is 7 500.
///
/// Exact: nothing is rounded. Noughts after the last place do not count.
pub(super) fn scaled(text: &str, places: u32) -> Result<i64, Fault> {
    let (negative, digits) = match text.strip_prefix('-') {
        Some(rest) => (true, rest),
        None => (false, text.strip_prefix('+').unwrap_or(text)),
    };
    let (whole, decimals) = digits.split_once('.').unwrap_or((digits, "0"));
    let all_digits = |part: &str| !part.is_empty() && part.bytes().all(|byte| byte.is_ascii_digit());
    if !all_digits(whole) || !all_digits(decimals) {
        return Err(Fault::NotDigits);
    }
    let decimals = decimals.trim_end_matches('0');
    let mut wide = String::from(whole);
    wide.push_str(decimals);
    let kept = u32::try_from(decimals.len()).unwrap_or(u32::MAX);
    let Some(missing) = places.checked_sub(kept) else {
        return Err(Fault::TooFine);
    };
    let value = wide.parse::<i64>().ok().and_then(|value| value.checked_mul(10_i64.checked_pow(missing)?));
    value.map(|value| if negative { -value } else { value }).ok_or(Fault::TooLong)
}
