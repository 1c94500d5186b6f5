//! Names that the server makes: of reservations, pieces, cuts, orders and changes.
//!
//! All of them are random, from the operating system. Letters are those of Crockford's base 32,
//! which has no I, L, O and U, so that nobody reads a 1 for an I on a label.

use jiff::Timestamp;
use pennantry_ledger::rules::ChangeId;

use crate::failure::Failure;

/// The letters: <https://www.crockford.com/base32.html>.
const LETTERS: &[u8; 32] = b"0123456789abcdefghjkmnpqrstvwxyz";
/// Random characters of a label: a million pieces of one code, and a new one is taken already once in
/// thirty times, and then made anew.
const LABEL: usize = 5;

/// 128 random bits as 26 small letters and digits: knowing one is having been told it.
///
/// # Errors
/// The operating system gives no random bytes.
pub fn secret() -> Result<String, Failure> {
    let mut bytes = [0; 16];
    fill(&mut bytes)?;
    Ok(base32(u128::from_be_bytes(bytes), 26))
}

/// A short name with what it is in front, such as `KELP-7Q2MX`.
///
/// # Errors
/// The operating system gives no random bytes.
pub fn label(what: &str) -> Result<String, Failure> {
    let mut bytes = [0; 4];
    fill(&mut bytes)?;
    let random = base32(u128::from(u32::from_be_bytes(bytes)) & 0x1ff_ffff, LABEL);
    let what: String = what.chars().filter(|c| c.is_ascii_alphanumeric() || *c == '-').take(30).collect();
    Ok(format!("{what}-{random}").to_ascii_uppercase())
}

/// Name of a change: a UUID of version 7 (RFC 9562), so that later ones are mostly higher.
pub fn change(now: Timestamp) -> ChangeId {
    let seconds = u64::try_from(now.as_second()).unwrap_or(0);
    let nanos = u32::try_from(now.subsec_nanosecond()).unwrap_or(0);
    let at = uuid::Timestamp::from_unix(uuid::NoContext, seconds, nanos);
    ChangeId(*uuid::Uuid::new_v7(at).as_bytes())
}

fn fill(bytes: &mut [u8]) -> Result<(), Failure> {
    getrandom::fill(bytes).map_err(|_| Failure::internal("the operating system gives no random bytes"))
}

/// The lowest five bits last.
fn base32(number: u128, count: usize) -> String {
    let digit = |place: usize| {
        let shifted = number >> (5 * place).min(127);
        let index = usize::try_from(shifted & 31).unwrap_or(0);
        char::from(LETTERS.get(index).copied().unwrap_or(b'0'))
    };
    (0..count).rev().map(digit).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_are_long_enough_and_easy_to_read() {
        let secret = secret().unwrap();
        assert_eq!(secret.len(), 26);
        assert!(secret.bytes().all(|letter| LETTERS.contains(&letter)), "{secret}");
        assert_ne!(secret, super::secret().unwrap());
        let label = label("kelp").unwrap();
        assert!(label.starts_with("KELP-") && label.len() == 10, "{label}");
        assert!(!label.contains(['I', 'L', 'O', 'U']) || label[..4].contains('L'), "{label}");
        // 2^128 - 1 by hand: 3 bits in front, then 25 times five
        assert_eq!(base32(u128::MAX, 26), format!("7{}", "z".repeat(25)));
        assert_eq!(base32(32 * 32 + 31, 4), "010z");
    }

    #[test]
    fn changes_are_of_their_instant() {
        let now: Timestamp = "2026-11-24T10:00:00Z".parse().unwrap();
        let ChangeId(bytes) = change(now);
        let millis = bytes[..6].iter().fold(0_i64, |sum, byte| sum * 256 + i64::from(*byte));
        assert_eq!((millis, bytes[6] >> 4), (now.as_millisecond(), 7));
        assert_ne!(change(now), change(now));
    }
}
