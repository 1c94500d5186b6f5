//! Axes: from figures to places in a drawing, with ticks at plain figures.
//!
//! Ticks stand at multiples of 1, 2 or 5 times a power of ten, the smallest with which there are
//! at most five (common practice, no source). A place is rounded to a tenth of a unit of the drawing.

/// An axis from nought, or from below it, upwards.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Axis {
    /// The figure at its start.
    pub least: f64,
    /// The figure at its end.
    pub most: f64,
    /// From tick to tick.
    pub step: f64,
    /// Decimals that a tick needs.
    pub decimals: usize,
    /// Where it starts.
    pub from: f64,
    /// Where it ends.
    pub to: f64,
}

/// Steps are tried from a thousandth upwards, for so many powers of ten from one on.
const POWERS: usize = 300;

impl Axis {
    /// An axis that holds nought and a figure, ending at a tick.
    pub(super) fn holding(least: f64, most: f64, from: f64, to: f64) -> Self {
        let (least, most) = (least.min(0.0), if most > 0.0 { most } else { 1.0 });
        let small = [(0.001, 3), (0.01, 2), (0.1, 1)];
        let large = std::iter::successors(Some(1.0), |power| Some(power * 10.0)).take(POWERS);
        let powers = small.into_iter().chain(large.map(|power| (power, 0)));
        let mut steps = powers.flat_map(|(power, decimals)| [1.0, 2.0, 5.0].map(|of| (of * power, decimals)));
        let span = most - least;
        let (step, decimals) = steps.find(|(step, _)| span / step <= 4.5).unwrap_or((most, 0));
        Self {
            least: (least / step).floor() * step,
            most: (most / step).ceil() * step,
            step,
            decimals,
            from,
            to,
        }
    }

    /// An axis of weeks from one to another, with a tick every so many.
    pub(super) fn weeks(least: f64, most: f64, from: f64, to: f64) -> Self {
        let span = most - least;
        let step = [1.0, 2.0, 4.0, 13.0, 26.0, 52.0].into_iter().find(|step| span / step <= 7.0);
        Self { least, most, step: step.unwrap_or(span), decimals: 0, from, to }
    }

    /// Where a figure is.
    pub(super) fn at(&self, value: f64) -> f64 {
        self.from + (value - self.least) / (self.most - self.least) * (self.to - self.from)
    }

    /// Figures of the ticks.
    pub(super) fn ticks(&self) -> Vec<f64> {
        let first = (self.least / self.step).ceil();
        let mut ticks = Vec::new();
        let mut place = first;
        while place * self.step <= self.most + self.step / 1000.0 && ticks.len() < 20 {
            ticks.push(place * self.step);
            place += 1.0;
        }
        ticks
    }
}

/// A place in a drawing, to a tenth.
pub(super) fn px(value: f64) -> String {
    let text = format!("{value:.1}");
    let text = text.strip_suffix(".0").unwrap_or(&text);
    String::from(if text == "-0" { "0" } else { text })
}
