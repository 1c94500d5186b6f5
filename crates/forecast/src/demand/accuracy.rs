//! How far off forecasts were.
//!
//! | score | formula |
//! |---|---|
//! | RMSSE | `√(mean (y - f)² / mean (yₜ - yₜ₋₁)²)`, below the line over the history before |
//! | the same, scaled as in M5 | below the line from the first demand on |
//! | pinball | mean of `q (y - f)` where `y >= f`, `(1 - q)(f - y)` elsewhere |
//! | bias | mean of `f - y`: above 0 it foretold too much |
//! | MASE | `mean |y - f| / mean |yₜ - yₜ₋₁|` |
//!
//! RMSSE and MASE: Hyndman and Koehler, *International Journal of Forecasting* 22 (2006)
//! 679-688; M5's scale: the guide of the M5 competition (2020). Where more than half of all
//! buckets are empty, absolute errors are least for a forecast of nought: on FPP2's
//! `productC` MAE is 1.06 for nothing and 1.48 for the mean, while RMSE is 2.56 and 2.33.
//! So MAE and MASE stand beside the others only, and nothing here is chosen by them.
//!
//! A history that never changes has no scale: the score is `None`, not nought and not
//! infinite. Doubles; no rounding.

use super::Error;
use super::class::since_first_use;
use super::number::{check, count, mean, quotient, within};

/// What was and what had been foretold, of the same buckets.
fn errors(actual: &[f64], forecast: &[f64]) -> Result<Vec<f64>, Error> {
    check(actual)?;
    check(forecast)?;
    if actual.len() != forecast.len() {
        let what = "values and forecasts";
        return Err(Error::Lengths { what, first: actual.len(), second: forecast.len() });
    }
    Ok(forecast.iter().zip(actual).map(|(forecast, actual)| forecast - actual).collect())
}

/// Mean squared error over a mean squared scale.
fn scaled_root(errors: &[f64], scale: Option<f64>) -> Option<f64> {
    let squares = errors.iter().map(|error| error * error).sum::<f64>() / count(errors.len());
    quotient(squares, scale?).map(f64::sqrt)
}

/// The mean squared change from one bucket to the next; nothing below two buckets, 0
/// where nothing changed.
pub fn squared_scale(history: &[f64]) -> Option<f64> {
    let changes = history.windows(2).map(|pair| match pair {
        [before, after] => (after - before) * (after - before),
        _ => 0.0,
    });
    mean(&changes.collect::<Vec<_>>())
}

/// Root mean squared scaled error.
///
/// ```
/// use pennantry_forecast::demand::accuracy::rmsse;
/// let history = [0.0, 0.0, 3.0, 0.0, 2.0, 0.0, 0.0, 0.0, 4.0, 1.0, 0.0, 0.0];
/// let found = rmsse(&history, &[0.0, 2.0, 0.0, 1.0], &[0.75; 4])?;
/// assert!((found.unwrap() - 0.381356384905).abs() < 1e-12);
/// assert_eq!(rmsse(&[4.0, 4.0], &[4.0], &[5.0])?, None);
/// # Ok::<(), pennantry_forecast::demand::Error>(())
/// ```
pub fn rmsse(history: &[f64], actual: &[f64], forecast: &[f64]) -> Result<Option<f64>, Error> {
    check(history)?;
    Ok(scaled_root(&errors(actual, forecast)?, squared_scale(history)))
}

/// The same with M5's scale: from the first demand on.
pub fn rmsse_m5(history: &[f64], actual: &[f64], forecast: &[f64]) -> Result<Option<f64>, Error> {
    check(history)?;
    Ok(scaled_root(&errors(actual, forecast)?, squared_scale(since_first_use(history))))
}

/// Mean absolute scaled error. Least for a forecast of nought where most buckets are
/// empty: never a reason to choose a method.
pub fn mase(history: &[f64], actual: &[f64], forecast: &[f64]) -> Result<Option<f64>, Error> {
    check(history)?;
    let changes = history.windows(2).map(|pair| match pair {
        [before, after] => (after - before).abs(),
        _ => 0.0,
    });
    let scale = mean(&changes.collect::<Vec<_>>());
    let absolute = mae(actual, forecast)?;
    Ok(scale.and_then(|scale| quotient(absolute, scale)))
}

/// Mean absolute error; see [`mase`].
pub fn mae(actual: &[f64], forecast: &[f64]) -> Result<f64, Error> {
    let absolute: Vec<f64> = errors(actual, forecast)?.iter().map(|error| error.abs()).collect();
    mean(&absolute).ok_or(Error::Empty)
}

/// Root mean squared error.
pub fn rmse(actual: &[f64], forecast: &[f64]) -> Result<f64, Error> {
    scaled_root(&errors(actual, forecast)?, Some(1.0)).ok_or(Error::Empty)
}

/// Mean error, forecast less value: above 0 it foretold too much.
pub fn bias(actual: &[f64], forecast: &[f64]) -> Result<f64, Error> {
    mean_of(&errors(actual, forecast)?)
}

/// Mean pinball loss of a forecast of the quantile `q`, between 0 and 1.
pub fn pinball(actual: &[f64], forecast: &[f64], q: f64) -> Result<f64, Error> {
    within("q", q, (0.0, 1.0), "from 0 to 1")?;
    let losses = errors(actual, forecast)?;
    mean_of(&losses.iter().map(|&error| loss(error, q)).collect::<Vec<_>>())
}

/// The pinball loss of one error, forecast less value.
pub(super) fn loss(error: f64, q: f64) -> f64 {
    if error > 0.0 { (1.0 - q) * error } else { -q * error }
}

fn mean_of(values: &[f64]) -> Result<f64, Error> {
    mean(values).ok_or(Error::Empty)
}
