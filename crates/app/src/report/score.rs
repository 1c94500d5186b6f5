//! Methods by their names, and how well they did.

use pennantry_forecast::demand::choose::{Forecast, Method};

use super::number::number;
use super::told::MethodScore;

/// A method's usual name, its constants after it.
pub(super) fn name_of(method: &Method) -> String {
    match method {
        Method::Ses { alpha } => format!("SES ({alpha})"),
        Method::DampedHolt { alpha, beta, phi } => format!("damped Holt ({alpha}, {beta}, {phi})"),
        Method::Croston { alpha } => format!("Croston ({alpha})"),
        Method::Sba { alpha } => format!("SBA ({alpha})"),
        Method::Tsb { alpha, beta } => format!("TSB ({alpha}, {beta})"),
        Method::Adida => "ADIDA".to_owned(),
    }
}

/// All candidates of a forecast. Its bias is forecast less value, ours the other way about.
pub(super) fn scores(forecast: &Forecast) -> Vec<MethodScore> {
    let told = |candidate: &pennantry_forecast::demand::choose::Candidate| {
        let score = candidate.score;
        MethodScore {
            method: name_of(&candidate.method),
            seasonal: candidate.seasonal,
            rmsse: score.and_then(|score| score.rmsse),
            pinball: score.and_then(|score| score.pinball),
            // 0 - x and not -x: no bias is 0, not -0
            bias: score.and_then(|score| score.bias).map(|bias| 0.0 - bias),
            score: score.map(|score| score.total),
            weeks: number(forecast.origins),
        }
    };
    forecast.candidates.iter().map(told).collect()
}
