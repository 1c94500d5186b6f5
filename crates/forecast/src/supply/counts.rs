//! Demand that comes in pieces: Poisson and negative binomial counts, compound sums.
//!
//! | figure | Poisson, mean `m` | negative binomial, size `r`, `p`, `b = (1 - p) / p` |
//! |---|---|---|
//! | mean, variance | `m`, `m` | `r b`, `r b / p` |
//! | share of `k` | `exp(k ln m - m - ln k!)` | `C(k + r - 1, k) p^r (1 - p)^k` |
//! | share up to `k` | regularised gamma `Q(k + 1, m)` | regularised beta `I_p(r, k + 1)` |
//! | wanting beyond `x` | `(m - x)(1 - F(x)) + m f(x)` | `(r b - x)(1 - F(x)) + b (x + r) f(x)` |
//!
//! From moments, `p = mean / variance` and `r = mean^2 / (variance - mean)`. Sources: Snyder
//! and Shen, *Fundamentals of Supply Chain Theory*, 2nd edition, app. C (Poisson loss);
//! Johnson, Kemp and Kotz, *Univariate Discrete Distributions*, 3rd edition, ch. 5; the loss
//! of the second is derived from `k f(k) = (1 - p)(k + r - 1) f(k - 1)`.
//!
//! A quantile is the least whole number whose share up to it is at least the level, up to
//! 10⁻¹². Regularised functions are `statrs`'; its continued fraction of the beta stops
//! after 140 terms, so means are bounded at 10⁶ and, for the second, mean and size at 10⁴:
//! there rows were compared with scipy 1.17.1 to 1e-9. A share is worked out from logarithms
//! as large as `n ln n` (`n` is `k`, or `k + r`), so its error grows with them: below 10⁻¹²
//! at a hundred, up to 2 10⁻⁹ at a million. `statrs` takes its `exp` and `ln` from the
//! platform, so such last digits may differ from machine to machine, and a level that is met
//! as closely as that may be given by one count more or fewer.
//!
//! Example: mean 4 and variance 10 give `r = 8/3`, `p = 0.4`; 95 % of such lead times
//! want 10 pieces or fewer, where a normal figure would say 9.2.

use libm::{exp, lgamma, log};
use statrs::function::beta::checked_beta_reg;
use statrs::function::gamma::checked_gamma_ur;

use super::{Error, number};

/// Below this two shares are one.
pub(super) const SHARE: f64 = 1e-12;

/// A mean and a variance.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Moments {
    /// The mean.
    pub mean: f64,
    /// The variance.
    pub variance: f64,
}

/// Sizes with this mean and variance, of which a Poisson number of mean `rate` comes in a
/// period: mean `rate m`, variance `rate (m^2 + s^2)`.
///
/// ```
/// use pennantry_forecast::supply::counts::{Moments, compound_poisson};
/// let sum = compound_poisson(3.0, Moments { mean: 1.4, variance: 0.25 })?;
/// assert!((sum.mean - 4.2).abs() < 1e-12 && (sum.variance - 6.63).abs() < 1e-12);
/// # Ok::<(), pennantry_forecast::supply::Error>(())
/// ```
pub fn compound_poisson(rate: f64, size: Moments) -> Result<Moments, Error> {
    let rate = number::not_negative("rate of demands", rate)?;
    let (m, v) = sizes(size)?;
    moments(rate * m, rate * (m * m + v))
}

/// Sizes with this mean and variance, of which one comes in a period with probability `p`
/// and none otherwise: mean `p m`, variance `p s^2 + p (1 - p) m^2`.
pub fn compound_bernoulli(p: f64, size: Moments) -> Result<Moments, Error> {
    if !(0.0..=1.0).contains(&p) {
        return Err(Error::Figure { what: "probability of a demand", value: p, allowed: "0 to 1" });
    }
    let (m, v) = sizes(size)?;
    moments(p * m, p * v + p * (1.0 - p) * m * m)
}

fn sizes(size: Moments) -> Result<(f64, f64), Error> {
    let mean = number::not_negative("mean size", size.mean)?;
    Ok((mean, number::not_negative("variance of sizes", size.variance)?))
}

fn moments(mean: f64, variance: f64) -> Result<Moments, Error> {
    let mean = number::not_negative("mean of the sum", mean)?;
    Ok(Moments { mean, variance: number::not_negative("variance of the sum", variance)? })
}

/// A distribution of counts.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Counts(Kind);

#[derive(Debug, Clone, Copy, PartialEq)]
enum Kind {
    Poisson { mean: f64 },
    NegativeBinomial { size: f64, p: f64 },
}

impl Counts {
    /// Poisson counts; the mean is from 10⁻⁹ to 10⁶.
    pub fn poisson(mean: f64) -> Result<Self, Error> {
        within("mean of Poisson counts", mean, 1e6, "10^-9 to 10^6")?;
        Ok(Self(Kind::Poisson { mean }))
    }

    /// Negative binomial counts of this mean and variance. The variance is above the mean by
    /// so much that `mean^2 / (variance - mean)` is at most 10⁴; closer, they are Poisson.
    pub fn negative_binomial(mean: f64, variance: f64) -> Result<Self, Error> {
        within("mean of negative binomial counts", mean, 1e4, "10^-9 to 10^4")?;
        let allowed = "above the mean by at least mean^2 / 10^4, up to 10^12";
        let least = mean * (1.0 + 1e-4 * mean);
        if !(variance > mean && (least..=1e12).contains(&variance)) {
            let what = "variance of negative binomial counts";
            return Err(Error::Figure { what, value: variance, allowed });
        }
        let size = mean * mean / (variance - mean);
        Ok(Self(Kind::NegativeBinomial { size, p: mean / variance }))
    }

    /// The mean.
    pub fn mean(&self) -> f64 {
        match self.0 {
            Kind::Poisson { mean } => mean,
            Kind::NegativeBinomial { size, p } => size * (1.0 - p) / p,
        }
    }

    /// The variance.
    pub fn variance(&self) -> f64 {
        match self.0 {
            Kind::Poisson { mean } => mean,
            Kind::NegativeBinomial { size, p } => size * (1.0 - p) / (p * p),
        }
    }

    /// The share of exactly `k`.
    pub fn share(&self, k: u32) -> f64 {
        let k = f64::from(k);
        match self.0 {
            Kind::Poisson { mean } => exp(k * log(mean) - mean - lgamma(k + 1.0)),
            Kind::NegativeBinomial { size, p } => {
                let ways = lgamma(k + size) - lgamma(size) - lgamma(k + 1.0);
                exp(ways + size * log(p) + k * log(1.0 - p))
            }
        }
    }

    /// The share of `k` and fewer.
    pub fn up_to(&self, k: u32) -> f64 {
        let next = f64::from(k) + 1.0;
        // neither refuses arguments that the constructors let through
        let share = match self.0 {
            Kind::Poisson { mean } => checked_gamma_ur(next, mean).unwrap_or(0.0),
            Kind::NegativeBinomial { size, p } => checked_beta_reg(size, next, p).unwrap_or(0.0),
        };
        share.clamp(0.0, 1.0)
    }

    /// The least count up to which at least the share `p` lies; `p` is from 10⁻⁶ to
    /// 1 - 10⁻⁶.
    ///
    /// ```
    /// use pennantry_forecast::supply::counts::Counts;
    /// assert_eq!(Counts::poisson(2.4)?.quantile(0.95)?, 5);
    /// assert_eq!(Counts::negative_binomial(4.0, 10.0)?.quantile(0.95)?, 10);
    /// # Ok::<(), pennantry_forecast::supply::Error>(())
    /// ```
    pub fn quantile(&self, p: f64) -> Result<u32, Error> {
        if !(1e-6..=1.0 - 1e-6).contains(&p) {
            return Err(Error::Figure {
                what: "level of a quantile",
                value: p,
                allowed: "10^-6 to 1 - 10^-6",
            });
        }
        let enough = |k: u32| self.up_to(k) >= p - SHARE;
        // Cantelli: at most 10^-6 lies 1 000 sd or more above the mean
        let top = number::whole_up("quantile", self.mean() + 1_000.0 * self.variance().sqrt() + 1.0)?;
        let mut high = u32::try_from(top).unwrap_or(u32::MAX);
        let mut low = 0;
        // low or more is the answer, high is enough
        while low < high {
            let middle = low + (high - low) / 2;
            if enough(middle) {
                high = middle;
            } else {
                low = middle + 1;
            }
        }
        Ok(high)
    }

    /// The mean of what is wanted beyond `x`; below nought nothing is served.
    pub fn loss(&self, x: i64) -> f64 {
        let Ok(whole) = u32::try_from(x) else {
            return if x < 0 { self.mean() - number::real(x) } else { 0.0 };
        };
        let real = f64::from(whole);
        let above = 1.0 - self.up_to(whole);
        let edge = match self.0 {
            Kind::Poisson { mean } => mean,
            Kind::NegativeBinomial { size, p } => (1.0 - p) / p * (real + size),
        };
        ((self.mean() - real) * above + edge * self.share(whole)).max(0.0)
    }
}

fn within(what: &'static str, value: f64, most: f64, allowed: &'static str) -> Result<(), Error> {
    if (1e-9..=most).contains(&value) { Ok(()) } else { Err(Error::Figure { what, value, allowed }) }
}
