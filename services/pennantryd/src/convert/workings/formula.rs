//! The small grammar of formulas, and their value in exact fractions.
//!
//! ```text
//! sum     = product { ("+" | "-") product }
//! product = sign { ("*" | "/") sign }
//! sign    = [ "-" ] atom
//! atom    = number | name | call | "(" sum ")"
//! call    = ("min" | "max" | "abs" | "floor" | "ceil" | "round" | "sqrt" | "sum") "(" sum { "," sum } ")"
//! number  = digits [ "." digits ]
//! name    = a path such as layout.flaggedMm, fabrics[0].usedMm or shop.turnUnderMm
//! ```
//!
//! `round` takes a half away from nought. A name with `[*]` stands for all entries of a
//! list and only inside `sum`; one with `[i]` for the entry that a rule for every entry
//! speaks of, where `i` itself counts from 0.

/// A number as formulas know it.
pub(super) trait Number: Copy + Sized {
    fn whole(value: i128) -> Self;
    fn plus(self, other: Self) -> Option<Self>;
    fn times(self, other: Self) -> Option<Self>;
    fn over(self, other: Self) -> Option<Self>;
    fn floor(self) -> Self;
    fn root(self) -> Option<Self>;
    fn is_less(self, other: Self) -> bool;

    fn negated(self) -> Option<Self> {
        self.times(Self::whole(-1))
    }
}

/// A fraction in its lowest terms, the denominator above nought.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Fraction {
    over: i128,
    under: i128,
}

impl Fraction {
    pub(super) fn new(over: i128, under: i128) -> Option<Fraction> {
        if under == 0 {
            return None;
        }
        let common = common_divisor(over, under);
        let sign = if under < 0 { -1 } else { 1 };
        Some(Fraction { over: sign * over / common, under: sign * under / common })
    }

    /// `12`, `-0.5`, `6200.0`, `172.5/7` is not one.
    pub(super) fn decimal(text: &str) -> Option<Fraction> {
        let (whole, part) = text.split_once('.').unwrap_or((text, ""));
        let digits = u32::try_from(part.len()).ok().filter(|digits| *digits < 20)?;
        let over = format!("{whole}{part}").parse().ok()?;
        Fraction::new(over, 10_i128.checked_pow(digits)?)
    }

    /// A decimal number or a fraction, as it is written in a value.
    pub(super) fn written(text: &str) -> Option<Fraction> {
        match text.split_once('/') {
            Some((over, under)) => Fraction::decimal(over)?.over(Fraction::decimal(under)?),
            None => Fraction::decimal(text),
        }
    }

    /// As short as can be: a whole number, or a fraction.
    pub(super) fn text(self) -> String {
        if self.under == 1 { self.over.to_string() } else { format!("{}/{}", self.over, self.under) }
    }

    /// The multiple of a step that is nearest, below or above, of a half the further one
    /// from nought.
    pub(super) fn rounded(self, mode: Mode, step: Fraction) -> Option<Fraction> {
        let steps = self.over(step)?;
        let steps = match mode {
            Mode::Exact => return Some(self),
            Mode::Down => steps.floor(),
            Mode::Up => steps.negated()?.floor().negated()?,
            Mode::HalfUp => nearest(steps)?,
            Mode::HalfEven => even(steps)?,
        };
        steps.times(step)
    }

    /// As a double, for what has no fraction.
    pub(super) fn float(self) -> f64 {
        f64::whole(self.over).over(f64::whole(self.under)).unwrap_or(f64::NAN)
    }
}

/// How a formula's result becomes the value.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Mode {
    Exact,
    HalfUp,
    HalfEven,
    Up,
    Down,
}

impl Mode {
    pub(super) fn word(self) -> &'static str {
        match self {
            Mode::Exact => "exact",
            Mode::HalfUp => "half-up",
            Mode::HalfEven => "half-even",
            Mode::Up => "up",
            Mode::Down => "down",
        }
    }
}

/// A half away from nought.
fn nearest<N: Number>(value: N) -> Option<N> {
    let half = N::whole(1).over(N::whole(2))?;
    if value.is_less(N::whole(0)) {
        value.negated()?.plus(half)?.floor().negated()
    } else {
        Some(value.plus(half)?.floor())
    }
}

/// A half to the even one.
fn even(value: Fraction) -> Option<Fraction> {
    let below = value.floor();
    let rest = value.plus(below.negated()?)?;
    let up = rest.over.checked_mul(2)? > rest.under
        || (rest.over.checked_mul(2)? == rest.under && below.over.rem_euclid(2) == 1);
    if up { below.plus(Fraction::whole(1)) } else { Some(below) }
}

impl Number for Fraction {
    fn whole(value: i128) -> Fraction {
        Fraction { over: value, under: 1 }
    }

    fn plus(self, other: Fraction) -> Option<Fraction> {
        let left = self.over.checked_mul(other.under)?;
        let right = other.over.checked_mul(self.under)?;
        Fraction::new(left.checked_add(right)?, self.under.checked_mul(other.under)?)
    }

    fn times(self, other: Fraction) -> Option<Fraction> {
        Fraction::new(self.over.checked_mul(other.over)?, self.under.checked_mul(other.under)?)
    }

    fn over(self, other: Fraction) -> Option<Fraction> {
        Fraction::new(self.over.checked_mul(other.under)?, self.under.checked_mul(other.over)?)
    }

    fn floor(self) -> Fraction {
        Fraction { over: self.over.div_euclid(self.under), under: 1 }
    }

    fn root(self) -> Option<Fraction> {
        None
    }

    fn is_less(self, other: Fraction) -> bool {
        match (self.over.checked_mul(other.under), other.over.checked_mul(self.under)) {
            (Some(left), Some(right)) => left < right,
            _ => self.float() < other.float(),
        }
    }
}

impl Number for f64 {
    fn whole(value: i128) -> f64 {
        value.to_string().parse().unwrap_or(f64::NAN)
    }

    fn plus(self, other: f64) -> Option<f64> {
        Some(self + other)
    }

    fn times(self, other: f64) -> Option<f64> {
        Some(self * other)
    }

    fn over(self, other: f64) -> Option<f64> {
        Some(self / other)
    }

    fn floor(self) -> f64 {
        // what is a whole number but for the last bits is that number
        f64::floor(self + 1e-9)
    }

    fn root(self) -> Option<f64> {
        (self >= 0.0).then(|| self.sqrt())
    }

    fn is_less(self, other: f64) -> bool {
        self < other
    }
}

fn common_divisor(a: i128, b: i128) -> i128 {
    let (mut a, mut b) = (a.saturating_abs(), b.saturating_abs());
    while b != 0 {
        (a, b) = (b, a % b);
    }
    a.max(1)
}

/// Works a formula out. `look_up` gives the values of a name: one, or of one with `[*]`
/// all of them. None where the formula cannot be read, a name is not known, or a number
/// gets too large.
pub(super) fn value<N: Number>(formula: &str, look_up: &dyn Fn(&str) -> Option<Vec<N>>) -> Option<N> {
    let mut reader = Reader { rest: formula, look_up };
    let value = reader.sum()?;
    reader.rest.trim().is_empty().then_some(value)
}

struct Reader<'a, N> {
    rest: &'a str,
    look_up: &'a dyn Fn(&str) -> Option<Vec<N>>,
}

impl<'a, N: Number> Reader<'a, N> {
    fn takes(&mut self, sign: char) -> bool {
        let Some(rest) = self.rest.trim_start().strip_prefix(sign) else { return false };
        self.rest = rest;
        true
    }

    fn sum(&mut self) -> Option<N> {
        let mut sum = self.product()?;
        loop {
            if self.takes('+') {
                sum = sum.plus(self.product()?)?;
            } else if self.takes('-') {
                sum = sum.plus(self.product()?.negated()?)?;
            } else {
                return Some(sum);
            }
        }
    }

    fn product(&mut self) -> Option<N> {
        let mut product = self.sign()?;
        loop {
            if self.takes('*') {
                product = product.times(self.sign()?)?;
            } else if self.takes('/') {
                product = product.over(self.sign()?)?;
            } else {
                return Some(product);
            }
        }
    }

    fn sign(&mut self) -> Option<N> {
        if self.takes('-') { self.atom()?.negated() } else { self.atom() }
    }

    fn atom(&mut self) -> Option<N> {
        if self.takes('(') {
            let inner = self.sum()?;
            return self.takes(')').then_some(inner);
        }
        let word = self.word();
        if word.starts_with(|c: char| c.is_ascii_digit()) {
            let (whole, part) = word.split_once('.').unwrap_or((word, ""));
            let over: i128 = format!("{whole}{part}").parse().ok()?;
            let under = 10_i128.checked_pow(u32::try_from(part.len()).ok()?)?;
            return N::whole(over).over(N::whole(under));
        }
        if self.takes('(') {
            return self.call(word);
        }
        let found = (self.look_up)(word)?;
        if found.len() == 1 { found.first().copied() } else { None }
    }

    fn word(&mut self) -> &'a str {
        let rest = self.rest.trim_start();
        let letter = |c: char| c.is_ascii_alphanumeric() || ".[]*".contains(c);
        // a star belongs to a name only between brackets
        let mut end = 0;
        let mut inside = false;
        for (at, c) in rest.char_indices() {
            inside = (inside || c == '[') && c != ']';
            if !letter(c) || (c == '*' && !inside) {
                break;
            }
            end = at + c.len_utf8();
        }
        let (word, rest) = rest.split_at(end);
        self.rest = rest;
        word
    }

    fn call(&mut self, name: &str) -> Option<N> {
        if name == "sum" {
            let word = self.word();
            let all = (self.look_up)(word)?;
            let sum = all.into_iter().try_fold(N::whole(0), N::plus)?;
            return self.takes(')').then_some(sum);
        }
        let mut arguments = vec![self.sum()?];
        while self.takes(',') {
            arguments.push(self.sum()?);
        }
        if !self.takes(')') {
            return None;
        }
        let first = arguments.first().copied()?;
        let least = |a: N, b: N| if b.is_less(a) { b } else { a };
        let most = |a: N, b: N| if a.is_less(b) { b } else { a };
        match name {
            "min" => arguments.into_iter().reduce(least),
            "max" => arguments.into_iter().reduce(most),
            "abs" if first.is_less(N::whole(0)) => first.negated(),
            "abs" => Some(first),
            "floor" => Some(first.floor()),
            "ceil" => first.negated()?.floor().negated(),
            "round" => nearest(first),
            "sqrt" => first.root(),
            _ => None,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn exact(formula: &str) -> Option<String> {
        let look_up = |name: &str| match name {
            "layout.flaggedMm" => Some(vec![Fraction::whole(6_200)]),
            "fabrics[*].usedMm" => Some([420, 420, 210].map(Fraction::whole).to_vec()),
            _ => None,
        };
        value(formula, &look_up).map(Fraction::text)
    }

    #[test]
    fn formulas_are_worked_out_exactly() {
        let cases = [
            ("1 + 2 * 3", "7"),
            ("(1 + 2) * 3", "9"),
            ("1 - 2 - 3", "-4"),
            ("-2 * -3 / 4", "3/2"),
            ("12.50 / 100", "1/8"),
            ("(layout.flaggedMm - 29 * 190) / 28", "345/14"),
            ("sum(fabrics[*].usedMm)", "1050"),
            ("2*layout.flaggedMm*3", "37200"),
            ("floor(7 / 2) + ceil(7 / 2)", "7"),
            ("floor(-7 / 2) + ceil(-7 / 2)", "-7"),
            ("round(2.5) + round(-2.5)", "0"),
            ("max(1, 3, 2) - min(1, 3, 2) + abs(-4)", "6"),
        ];
        for (formula, wanted) in cases {
            assert_eq!(exact(formula).as_deref(), Some(wanted), "{formula}");
        }
        for bad in ["", "1 +", "(1", "1 2", "unknown.name", "nothing(1)", "1 / 0", "sum(1)", "sqrt(2)"] {
            assert_eq!(exact(bad), None, "{bad}");
        }
    }

    #[test]
    fn roots_are_worked_out_in_doubles() {
        let none = |_: &str| None::<Vec<f64>>;
        assert_eq!(value("sqrt(9 * 9 + 12 * 12)", &none), Some(15.0));
        assert_eq!(value("max(1, sqrt(0 - 1))", &none), None);
    }

    #[test]
    fn values_are_rounded_to_steps() {
        let half = Fraction::new(-5, 2).unwrap();
        let one = Fraction::whole(1);
        let round = |mode| half.rounded(mode, one).map(Fraction::text);
        assert_eq!(round(Mode::HalfUp).as_deref(), Some("-3"));
        assert_eq!(round(Mode::HalfEven).as_deref(), Some("-2"));
        assert_eq!(round(Mode::Up).as_deref(), Some("-2"));
        assert_eq!(round(Mode::Down).as_deref(), Some("-3"));
        assert_eq!(round(Mode::Exact).as_deref(), Some("-5/2"));
        assert_eq!(Fraction::written("345/14").map(Fraction::text).as_deref(), Some("345/14"));
        assert_eq!(Fraction::written("6200.0").map(Fraction::text).as_deref(), Some("6200"));
    }
}
