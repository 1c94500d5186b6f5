//! The time that a caller gives a call: the header `grpc-timeout`, at most eight digits and a
//! unit, as "PROTOCOL-HTTP2" of gRPC has it.

use std::time::Duration;

use http::HeaderMap;

/// By how much an answer comes before the caller's time is over: it has its way to go, and
/// the library, which counts as well, would answer in words of its own.
const WAY: Duration = Duration::from_millis(5);

/// The time that a caller gives. What cannot be read is no time, as in the library.
pub(super) fn given(headers: &HeaderMap) -> Option<Duration> {
    let text = headers.get("grpc-timeout")?.to_str().ok()?;
    let (digits, unit) = text.split_at_checked(text.len().checked_sub(1)?)?;
    if digits.len() > 8 || !digits.bytes().all(|byte| byte.is_ascii_digit()) {
        return None;
    }
    let count: u64 = digits.parse().ok()?;
    match unit {
        "H" => Some(Duration::from_secs(count.saturating_mul(3_600))),
        "M" => Some(Duration::from_secs(count.saturating_mul(60))),
        "S" => Some(Duration::from_secs(count)),
        "m" => Some(Duration::from_millis(count)),
        "u" => Some(Duration::from_micros(count)),
        "n" => Some(Duration::from_nanos(count)),
        _ => None,
    }
}

/// How long there is to make an answer that comes in time.
pub(super) fn to_answer_in(given: Duration) -> Duration {
    given.saturating_sub(WAY)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn times_are_read_as_the_protocol_has_them() {
        let read = |text: &str| {
            let mut headers = HeaderMap::new();
            headers.insert("grpc-timeout", text.parse().unwrap());
            given(&headers)
        };
        for (text, micros) in [
            ("2H", 7_200_000_000),
            ("1M", 60_000_000),
            ("3S", 3_000_000),
            ("100m", 100_000),
            ("7u", 7),
            ("5000n", 5),
            ("0S", 0),
        ] {
            assert_eq!(read(text), Some(Duration::from_micros(micros)), "{text}");
        }
        for text in ["", "5", "S", "123456789S", "1s", "-1S", "1.5S", "+1S"] {
            assert_eq!(read(text), None, "{text}");
        }
        assert_eq!(given(&HeaderMap::new()), None);
    }
}
