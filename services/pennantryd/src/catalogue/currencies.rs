//! Currencies and their minor digits: ISO 4217, list one, published 2026-01-01 by its
//! maintenance agency (SIX), as packed in the Python package `iso4217` 1.16.20260101.
//!
//! What a currency is shown with in shops may differ, as do coins; the digits of the list
//! are those in which amounts are paid. Currencies that were withdrawn are not on it.

/// What the list says of a code.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Listed {
    /// A currency with so many minor digits.
    Digits(u32),
    /// Gold, a unit of account, a code for tests: it has no minor unit.
    NoMinorUnit,
    /// Not on the list, or no longer.
    No,
}

/// The list, by minor digits.
const CURRENCIES: [(Listed, &[&str]); 5] = [
    (
        Listed::Digits(0),
        &[
            "BIF", "CLP", "DJF", "GNF", "ISK", "JPY", "KMF", "KRW", "PYG", "RWF", "UGX", "UYI", "VND", "VUV",
            "XAF", "XOF", "XPF",
        ],
    ),
    (
        Listed::Digits(2),
        &[
            "AED", "AFN", "ALL", "AMD", "AOA", "ARS", "AUD", "AWG", "AZN", "BAM", "BBD", "BDT", "BMD", "BND",
            "BOB", "BOV", "BRL", "BSD", "BTN", "BWP", "BYN", "BZD", "CAD", "CDF", "CHE", "CHF", "CHW", "CNY",
            "COP", "COU", "CRC", "CUP", "CVE", "CZK", "DKK", "DOP", "DZD", "EGP", "ERN", "ETB", "EUR", "FJD",
            "FKP", "GBP", "GEL", "GHS", "GIP", "GMD", "GTQ", "GYD", "HKD", "HNL", "HTG", "HUF", "IDR", "ILS",
            "INR", "IRR", "JMD", "KES", "KGS", "KHR", "KPW", "KYD", "KZT", "LAK", "LBP", "LKR", "LRD", "LSL",
            "MAD", "MDL", "MGA", "MKD", "MMK", "MNT", "MOP", "MRU", "MUR", "MVR", "MWK", "MXN", "MXV", "MYR",
            "MZN", "NAD", "NGN", "NIO", "NOK", "NPR", "NZD", "PAB", "PEN", "PGK", "PHP", "PKR", "PLN", "QAR",
            "RON", "RSD", "RUB", "SAR", "SBD", "SCR", "SDG", "SEK", "SGD", "SHP", "SLE", "SOS", "SRD", "SSP",
            "STN", "SVC", "SYP", "SZL", "THB", "TJS", "TMT", "TOP", "TRY", "TTD", "TWD", "TZS", "UAH", "USD",
            "USN", "UYU", "UZS", "VED", "VES", "WST", "XAD", "XCD", "XCG", "YER", "ZAR", "ZMW", "ZWG",
        ],
    ),
    (Listed::Digits(3), &["BHD", "IQD", "JOD", "KWD", "LYD", "OMR", "TND"]),
    (Listed::Digits(4), &["CLF", "UYW"]),
    (
        Listed::NoMinorUnit,
        &["XAG", "XAU", "XBA", "XBB", "XBC", "XBD", "XDR", "XPD", "XPT", "XSU", "XTS", "XUA", "XXX"],
    ),
];

/// Looks a code up.
pub(super) fn look_up(code: &str) -> Listed {
    let found = CURRENCIES.iter().find(|(_, codes)| codes.contains(&code));
    found.map_or(Listed::No, |(listed, _)| *listed)
}
