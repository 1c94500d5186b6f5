//! The committed answers of statsforecast, statsmodels and utilsforecast; `make.py` in the
//! folder `oracle` says which versions, and makes them anew.

use serde_json::Value;

use super::{near, same};
use crate::demand::accuracy::{bias, mase, pinball, rmsse};
use crate::demand::intermittent::{adida, croston, imapa, tsb};
use crate::demand::smooth::{damped_holt, estimate_ses, ses};

fn read(text: &str) -> Value {
    serde_json::from_str(text).expect("an oracle file reads")
}

pub fn published() -> Value {
    read(include_str!("../../../oracle/published.json"))
}

pub fn generated() -> Value {
    read(include_str!("../../../oracle/generated.json"))
}

pub fn list(value: &Value) -> Vec<f64> {
    value.as_array().expect("a list").iter().map(number).collect()
}

pub fn number(value: &Value) -> f64 {
    value.as_f64().unwrap_or_else(|| panic!("{value} is no number"))
}

/// Where a method and the library differ by more than a billionth.
fn differ(found: &mut Vec<String>, name: &str, row: &Value, ours: f64, theirs: &Value) {
    let theirs = number(theirs);
    if !near(ours, theirs, 1e-9) {
        found.push(format!("{name}: {ours} is not {theirs} for {}", row["values"]));
    }
}

#[test]
fn the_files_name_the_versions_they_are_of() {
    for file in [published(), generated()] {
        let versions = &file["versions"];
        assert_eq!(versions["statsforecast"], "2.1.1");
        assert_eq!(versions["statsmodels"], "0.15.0");
        assert_eq!(versions["sktime"], "1.2.0");
    }
}

#[test]
fn published_series_are_foretold_as_by_statsforecast() {
    let file = published();
    for (name, sum, demands) in [("worked", 10.0, 4), ("productC", 38.0, 11), ("J06", 331.0, 114)] {
        let row = &file["intermittent"][name];
        let values = list(&row["values"]);
        same(values.iter().sum(), sum);
        assert_eq!(values.iter().filter(|&&value| value > 0.0).count(), demands, "{name}");
        let wanted = &row["forecasts"];
        let found = croston(&values, 0.1, 0.1, None).unwrap();
        same(found.rate(), number(&wanted["croston"]));
        same(found.sba(), number(&wanted["sba"]));
        same(tsb(&values, 0.1, 0.1, None).unwrap().rate(), number(&wanted["tsb"]));
        same(adida(&values).unwrap(), number(&wanted["adida"]));
        same(imapa(&values).unwrap(), number(&wanted["imapa"]));
        same(ses(&values, 0.1, None).unwrap().level, number(&wanted["ses"]));
    }
}

#[test]
fn published_series_are_smoothed_as_by_statsmodels() {
    let file = published();
    for row in file["ses"].as_array().unwrap() {
        let start = Some(number(&row["level"]));
        let found = ses(&list(&row["values"]), number(&row["alpha"]), start).unwrap();
        same(found.level, number(&row["forecast"]));
    }
    for row in file["holt"].as_array().unwrap() {
        let constants = (number(&row["alpha"]), number(&row["beta"]), number(&row["phi"]));
        let start = (number(&row["level"]), number(&row["trend"]));
        let found = damped_holt(&list(&row["values"]), constants, start).unwrap();
        for (steps, wanted) in (1..).zip(list(&row["forecast"])) {
            same(found.line(steps), wanted);
        }
    }
}

/// Least squares found by two different searches agree to the digits that the sum's flat
/// bottom leaves, and ours is nowhere the worse.
#[test]
fn the_estimate_of_ses_is_that_of_statsmodels() {
    let file = published();
    for row in file["estimated"].as_array().unwrap() {
        let found = estimate_ses(&list(&row["values"])).unwrap();
        assert!(found.squares <= number(&row["sse"]) * (1.0 + 1e-12), "{found:?}");
        assert!(near(found.alpha, number(&row["alpha"]), 1e-5), "{found:?}");
        assert!(near(found.start, number(&row["level"]), 1e-5), "{found:?}");
        assert!(near(found.level, number(&row["forecast"]), 1e-5), "{found:?}");
    }
}

#[test]
fn five_hundred_generated_series_agree_with_the_libraries() {
    let file = generated();
    let rows = file["series"].as_array().unwrap();
    assert_eq!(rows.len(), 500);
    let mut found = Vec::new();
    for row in rows {
        let values = list(&row["values"]);
        let alpha = number(&row["alpha"]);
        let (size, share) = (number(&row["alpha_size"]), number(&row["alpha_share"]));
        let mut check = |name: &str, ours: f64| differ(&mut found, name, row, ours, &row[name]);
        check("croston", croston(&values, 0.1, 0.1, None).unwrap().rate());
        check("sba", croston(&values, 0.1, 0.1, None).unwrap().sba());
        check("tsb", tsb(&values, size, share, None).unwrap().rate());
        check("adida", adida(&values).unwrap());
        check("imapa", imapa(&values).unwrap());
        check("ses", ses(&values, alpha, None).unwrap().level);
        let level = number(&row["level"]);
        check("ses_from_level", ses(&values, alpha, Some(level)).unwrap().level);
        let constants = (alpha, number(&row["beta"]), number(&row["phi"]));
        let trend = damped_holt(&values, constants, (level, number(&row["trend"]))).unwrap();
        for (steps, wanted) in (1..).zip(row["holt"].as_array().unwrap()) {
            differ(&mut found, "holt", row, trend.line(steps), wanted);
            differ(
                &mut found,
                "holt, not below nought",
                row,
                trend.ahead(steps),
                &number(wanted).max(0.0).into(),
            );
        }
    }
    assert!(found.is_empty(), "{} differ:\n{}", found.len(), found.join("\n"));
}

#[test]
fn scores_of_generated_series_agree_with_utilsforecast() {
    let file = generated();
    let (mut found, mut scored) = (Vec::new(), 0);
    for row in file["series"].as_array().unwrap() {
        let wanted = &row["errors"];
        if wanted.is_null() {
            continue;
        }
        scored += 1;
        let values = list(&row["values"]);
        let cut = usize::try_from(wanted["cut"].as_u64().unwrap()).unwrap();
        let (history, actual) = values.split_at(cut);
        let mean = history.iter().sum::<f64>() / f64::from(u32::try_from(cut).unwrap());
        let forecast = vec![mean; actual.len()];
        let mut check = |name: &str, ours: f64| differ(&mut found, name, row, ours, &wanted[name]);
        check("rmsse", rmsse(history, actual, &forecast).unwrap().unwrap());
        check("mase", mase(history, actual, &forecast).unwrap().unwrap());
        check("pinball90", pinball(actual, &forecast, 0.9).unwrap());
        // a bias is a difference of sums: near nought its own digits are lost
        let ours = bias(actual, &forecast).unwrap();
        assert!((ours - number(&wanted["bias"])).abs() <= 1e-12 * mean.max(1.0), "{ours}");
    }
    assert!(scored > 450, "{scored}");
    assert!(found.is_empty(), "{} differ:\n{}", found.len(), found.join("\n"));
}
