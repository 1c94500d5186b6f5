//! The identity of a request, by which the server does it once however often it is sent.

/// A new identity: 122 random bits from the operating system, written as a version 4 UUID
/// (RFC 9562, section 5.4).
///
/// # Errors
/// The system gives no random bits; then an identity can be said with `--request-id`.
///
/// ```
/// let id = pennantry::request_id::fresh()?;
/// assert_eq!((id.len(), id.as_bytes()[14]), (36, b'4'));
/// assert_ne!(id, pennantry::request_id::fresh()?);
/// # Ok::<(), String>(())
/// ```
pub fn fresh() -> Result<String, String> {
    let mut bits = [0_u8; 16];
    getrandom::fill(&mut bits)
        .map_err(|cause| format!("the system gives no random bits ({cause}): say one with --request-id"))?;
    let mut number = u128::from_be_bytes(bits);
    // four bits say the version, two the kind
    number = number & !(0xf << 76) | (0x4 << 76);
    number = number & !(0b11 << 62) | (0b10 << 62);
    let digits = format!("{number:032x}");
    let mut id = String::with_capacity(36);
    for (place, digit) in digits.chars().enumerate() {
        if matches!(place, 8 | 12 | 16 | 20) {
            id.push('-');
        }
        id.push(digit);
    }
    Ok(id)
}
