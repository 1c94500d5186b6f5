//! Numbers and words of a written length, from its left.

use super::LengthTextError;

/// A number as written: a whole part and the rest of it.
#[derive(Clone, Copy)]
pub(super) struct Number {
    pub(super) whole: u64,
    pub(super) part: Rest,
}

/// What a number has beside its whole part; the denominator is never nought.
#[derive(Clone, Copy)]
pub(super) enum Rest {
    None,
    /// Without noughts at its end, so the denominator is the step that is meant.
    Decimals {
        numerator: u64,
        denominator: u64,
    },
    Fraction {
        numerator: u64,
        denominator: u64,
    },
}

impl Number {
    pub(super) fn is_whole(self) -> bool {
        matches!(self.part, Rest::None)
    }
}

/// A text and how far it is read.
pub(super) struct Scan<'a> {
    text: &'a str,
    characters: Vec<char>,
    at: usize,
}

impl<'a> Scan<'a> {
    pub(super) fn new(text: &'a str) -> Scan<'a> {
        Scan { text, characters: text.chars().map(plain).collect(), at: 0 }
    }

    pub(super) fn text(&self) -> &'a str {
        self.text
    }

    /// Whether nothing but spaces is left, which are passed over.
    pub(super) fn is_done(&mut self) -> bool {
        self.spaces();
        self.at >= self.characters.len()
    }

    /// Takes a minus.
    pub(super) fn minus(&mut self) -> bool {
        self.takes('-')
    }

    /// Takes letters, or a mark of feet or inches, after spaces.
    pub(super) fn word(&mut self) -> Option<String> {
        self.spaces();
        if self.takes('\'') {
            let mark = if self.takes('\'') { "\"" } else { "'" };
            return Some(mark.to_owned());
        }
        if self.takes('"') {
            return Some(String::from("\""));
        }
        let word: String = self.rest().iter().take_while(|c| c.is_alphabetic()).collect();
        self.at += word.chars().count();
        if word.is_empty() {
            return None;
        }
        // the point of an abbreviation
        if self.peek(0) == Some('.') && !self.is_digit(1) {
            self.at += 1;
        }
        Some(word)
    }

    /// Takes a number: whole, with decimals, a fraction, or a whole with a fraction.
    pub(super) fn number(&mut self) -> Result<Number, LengthTextError> {
        self.spaces();
        if let Some((numerator, denominator)) = self.single_fraction() {
            return Ok(Number { whole: 0, part: Rest::Fraction { numerator, denominator } });
        }
        let first = self.digits();
        if self.takes('/') {
            let (numerator, denominator) = (self.value(&first)?, self.denominator()?);
            return Ok(Number { whole: 0, part: Rest::Fraction { numerator, denominator } });
        }
        let whole = self.thousands(first);
        if let Some(sign @ ('.' | ',')) = self.peek(0) {
            self.at += 1;
            return self.decimals(&whole, sign);
        }
        if whole.is_empty() {
            return Err(self.unexpected());
        }
        let whole = self.value(&whole)?;
        let part = match self.added_fraction()? {
            Some((numerator, denominator)) => Rest::Fraction { numerator, denominator },
            None => Rest::None,
        };
        Ok(Number { whole, part })
    }

    /// The digits after a decimal sign.
    fn decimals(&mut self, whole: &str, sign: char) -> Result<Number, LengthTextError> {
        let decimals = self.digits();
        if decimals.is_empty() || matches!(self.peek(0), Some('.' | ',')) {
            return Err(self.unexpected());
        }
        if self.takes('/') || self.fraction_follows() {
            return Err(LengthTextError::BadFraction { text: self.text.to_owned() });
        }
        let thousands = (1..=3).contains(&whole.len()) && !whole.starts_with('0');
        if sign == ',' && decimals.len() == 3 && thousands {
            return Err(LengthTextError::AmbiguousComma { number: format!("{whole},{decimals}") });
        }
        let whole = if whole.is_empty() { 0 } else { self.value(whole)? };
        let decimals = decimals.trim_end_matches('0');
        if decimals.is_empty() {
            return Ok(Number { whole, part: Rest::None });
        }
        let too_fine = || LengthTextError::TooFine { text: self.text.to_owned() };
        let places = u32::try_from(decimals.len()).map_err(|_| too_fine())?;
        let denominator = 10_u64.checked_pow(places).ok_or_else(too_fine)?;
        let numerator = decimals.parse().map_err(|_| too_fine())?;
        Ok(Number { whole, part: Rest::Decimals { numerator, denominator } })
    }

    /// Digits in threes after one to three digits, with a space before each three.
    fn thousands(&mut self, first: String) -> String {
        let mut all = first;
        if !(1..=3).contains(&all.len()) || all.starts_with('0') {
            return all;
        }
        while self.peek(0) == Some(' ') && (1..4).all(|i| self.is_digit(i)) && !self.is_digit(4) {
            // 7 500/1000 in: that is a fraction
            if self.peek(4) == Some('/') {
                break;
            }
            self.at += 1;
            all.push_str(&self.digits());
        }
        all
    }

    /// A fraction after a whole number: `7 1/2`, `7-1/2`, `7½`, `7 ½`.
    fn added_fraction(&mut self) -> Result<Option<(u64, u64)>, LengthTextError> {
        if !self.fraction_follows() {
            return Ok(None);
        }
        if !self.takes('-') {
            self.spaces();
        }
        if let Some(fraction) = self.single_fraction() {
            return Ok(Some(fraction));
        }
        let numerator = self.digits();
        self.takes('/');
        let (numerator, denominator) = (self.value(&numerator)?, self.denominator()?);
        if numerator >= denominator {
            return Err(LengthTextError::BadFraction { text: self.text.to_owned() });
        }
        Ok(Some((numerator, denominator)))
    }

    /// Whether a fraction comes next, after spaces or a hyphen.
    fn fraction_follows(&self) -> bool {
        let rest = self.rest();
        let skipped = match rest.first() {
            Some('-') => 1,
            _ => rest.iter().take_while(|c| **c == ' ').count(),
        };
        let rest = rest.get(skipped..).unwrap_or_default();
        let digits = rest.iter().take_while(|c| c.is_ascii_digit()).count();
        let slash = digits > 0 && rest.get(digits) == Some(&'/');
        slash || rest.first().is_some_and(|c| single(*c).is_some())
    }

    fn single_fraction(&mut self) -> Option<(u64, u64)> {
        let fraction = single(self.peek(0)?)?;
        self.at += 1;
        Some(fraction)
    }

    fn denominator(&mut self) -> Result<u64, LengthTextError> {
        let bad = || LengthTextError::BadFraction { text: self.text.to_owned() };
        let digits: String = self.rest().iter().take_while(|c| c.is_ascii_digit()).collect();
        let after = self.peek(digits.len());
        if digits.chars().all(|c| c == '0') || matches!(after, Some('.' | ',' | '/')) {
            return Err(bad());
        }
        // a number beyond the type is beyond every unit
        let too_fine = |_| LengthTextError::TooFine { text: self.text.to_owned() };
        let value = digits.parse().map_err(too_fine)?;
        self.at += digits.len();
        Ok(value)
    }

    fn value(&self, digits: &str) -> Result<u64, LengthTextError> {
        if digits.is_empty() {
            return Err(LengthTextError::NoNumber { text: self.text.to_owned() });
        }
        digits.parse().map_err(|_| LengthTextError::OutOfRange { text: self.text.to_owned() })
    }

    fn digits(&mut self) -> String {
        let digits: String = self.rest().iter().take_while(|c| c.is_ascii_digit()).collect();
        self.at += digits.len();
        digits
    }

    /// What to say where a number was due: whether a character or a number is wrong.
    fn unexpected(&self) -> LengthTextError {
        let text = self.text.to_owned();
        match self.peek(0) {
            Some('-') => LengthTextError::MinusWithin { text },
            None | Some('.' | ',' | '/' | '\'' | '"' | ' ') => LengthTextError::NoNumber { text },
            Some(c) if c.is_alphabetic() => LengthTextError::NoNumber { text },
            Some(character) => LengthTextError::BadCharacter { character, text },
        }
    }

    fn spaces(&mut self) {
        while self.takes(' ') {}
    }

    fn takes(&mut self, wanted: char) -> bool {
        let found = self.peek(0) == Some(wanted);
        self.at += usize::from(found);
        found
    }

    fn peek(&self, ahead: usize) -> Option<char> {
        self.characters.get(self.at + ahead).copied()
    }

    fn is_digit(&self, ahead: usize) -> bool {
        self.peek(ahead).is_some_and(|c| c.is_ascii_digit())
    }

    fn rest(&self) -> &[char] {
        self.characters.get(self.at..).unwrap_or_default()
    }
}

/// One character for each kind: every space (the thin and the no-break ones too),
/// every minus, every mark of feet and of inches, every stroke of a fraction.
fn plain(c: char) -> char {
    match c {
        c if c.is_whitespace() => ' ',
        '\u{2212}' | '\u{2010}' | '\u{2011}' => '-',
        '\u{2032}' | '\u{2019}' => '\'',
        '\u{2033}' | '\u{201d}' => '"',
        '\u{2044}' | '\u{2215}' => '/',
        c => c,
    }
}

/// A fraction that is one character.
fn single(c: char) -> Option<(u64, u64)> {
    Some(match c {
        '½' => (1, 2),
        '⅓' => (1, 3),
        '⅔' => (2, 3),
        '¼' => (1, 4),
        '¾' => (3, 4),
        '⅛' => (1, 8),
        '⅜' => (3, 8),
        '⅝' => (5, 8),
        '⅞' => (7, 8),
        _ => return None,
    })
}
