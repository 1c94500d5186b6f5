"""Works published and generated demand series with public forecasting libraries.

Writes two files beside itself, which the tests of this package read:

* `published.json`: series from textbooks and data sets, with what the libraries say;
* `generated.json`: 500 series drawn from a stated seed, with what the libraries say.

The tests never run this. It is here so that anybody can make the files anew and see
that they come from outside. Needed, from the Python package index:

    pip install statsforecast==2.1.1 statsmodels==0.15.0 utilsforecast==0.2.17
    pip install --no-deps sktime==1.2.0       (only one of its data files is read)
    python make.py            writes both files
    python make.py --check    writes nothing, ends with 1 if a file would change by
                              more than 1e-9 of a figure

Series typed in here: FPP1 and FPP2 are Hyndman and Athanasopoulos, *Forecasting:
Principles and Practice*, first and second edition (data sets `oil`, `ausair` and
`productC` of section 12.2); the airline passengers are Box and Jenkins' series G;
`worked` is a series short enough to be worked by hand.
"""

import csv
import importlib.util
import json
import pathlib
import sys
import warnings
from importlib.metadata import version

import numpy as np
import pandas as pd
from statsforecast.models import ADIDA, IMAPA, TSB, CrostonClassic, CrostonSBA
from statsforecast.models import SimpleExponentialSmoothing as Ses
from statsmodels.tsa.api import Holt, SimpleExpSmoothing
from statsmodels.tsa.seasonal import seasonal_decompose
from utilsforecast import losses

SEED = 20261130
COUNT = 500
HERE = pathlib.Path(__file__).parent
PACKAGES = ("statsforecast", "statsmodels", "utilsforecast", "sktime", "numpy", "scipy")

WORKED = [0, 0, 3, 0, 2, 0, 0, 0, 4, 1, 0, 0]
PRODUCT_C = [0, 2, 0, 1, 0, 11, 0, 0, 0, 0, 2, 0, 6, 3, 0, 0, 0, 0, 0, 7, 0, 0, 0, 0, 0, 0, 0, 3, 1, 0, 0, 1,
             0, 1, 0, 0]
FPP1_OIL = [446.6565, 454.4733, 455.663, 423.6322, 456.2713, 440.5881, 425.3325, 485.1494, 506.0482, 526.792,
            514.2689, 494.211]
FPP2_OIL = [445.3641, 453.1950, 454.4096, 422.3789, 456.0371, 440.3866, 425.1944, 486.2052, 500.4291, 521.2759,
            508.9476, 488.8889, 509.8706, 456.7229, 473.8166, 525.9509, 549.8338, 542.3405]
FPP1_AIR = [17.5534, 21.86, 23.8866, 26.9293, 26.8885, 28.8314, 30.0751, 30.9535, 30.1857, 31.5797, 32.5776,
            33.4774, 39.0216, 41.3864, 41.5966]
FPP2_AUSAIR = [17.55340, 21.86010, 23.88660, 26.92930, 26.88850, 28.83140, 30.07510, 30.95350, 30.18570, 31.57970,
               32.57757, 33.47740, 39.02158, 41.38643, 41.59655, 44.65732, 46.95177, 48.72884, 51.48843, 50.02697,
               60.64091, 63.36031, 66.35527, 68.19795, 68.12324, 69.77935, 72.59770]
PASSENGERS = [112, 118, 132, 129, 121, 135, 148, 148, 136, 119, 104, 118, 115, 126, 141, 135, 125, 149, 170, 170, 158,
              133, 114, 140, 145, 150, 178, 163, 172, 178, 199, 199, 184, 162, 146, 166, 171, 180, 193, 181, 183, 218,
              230, 242, 209, 191, 172, 194, 196, 196, 236, 235, 229, 243, 264, 272, 237, 211, 180, 201, 204, 188, 235,
              227, 234, 264, 302, 293, 259, 229, 203, 229, 242, 233, 267, 269, 270, 315, 364, 347, 312, 274, 237, 278,
              284, 277, 317, 313, 318, 374, 413, 405, 355, 306, 271, 306, 315, 301, 356, 348, 355, 422, 465, 467, 404,
              347, 305, 336, 340, 318, 362, 348, 363, 435, 491, 505, 404, 359, 310, 337, 360, 342, 406, 396, 420, 472,
              548, 559, 463, 407, 362, 405, 417, 391, 419, 461, 472, 535, 622, 606, 508, 461, 390, 432]


def j06():
    """The 204 months of group J06 of FPP3's Australian pharmaceutical benefits, from sktime's wheel."""
    root = pathlib.Path(importlib.util.find_spec("sktime").origin).parent
    with open(root / "datasets/data/PBS_dataset/PBS_dataset.csv", encoding="utf-8") as file:
        return [int(row[1]) for row in list(csv.reader(file))[1:]]


def ahead(model, series, steps=1):
    return [float(value) for value in model.forecast(np.array(series, dtype=np.float64), steps)["mean"]]


def statsmodels_ses(series, alpha, level):
    model = SimpleExpSmoothing(series, initialization_method="known", initial_level=level)
    return float(model.fit(smoothing_level=alpha, optimized=False).forecast(1)[0])


def statsmodels_holt(series, alpha, beta, phi, level, trend, steps):
    model = Holt(np.array(series, dtype=np.float64), damped_trend=phi < 1, initialization_method="known",
                 initial_level=level, initial_trend=trend)
    given = {"smoothing_level": alpha, "smoothing_trend": beta, "optimized": False}
    if phi < 1:
        given["damping_trend"] = phi
    return [float(value) for value in model.fit(**given).forecast(steps)]


def estimated_ses(series):
    fit = SimpleExpSmoothing(np.array(series), initialization_method="estimated").fit()
    return {"alpha": float(fit.params["smoothing_level"]), "level": float(fit.params["initial_level"]),
            "sse": float(fit.sse), "forecast": float(fit.forecast(1)[0])}


def intermittent(series, alpha_size=0.1, alpha_share=0.1, alpha=0.1):
    return {
        "croston": ahead(CrostonClassic(), series)[0],
        "sba": ahead(CrostonSBA(), series)[0],
        "tsb": ahead(TSB(alpha_size, alpha_share), series)[0],
        "adida": ahead(ADIDA(), series)[0],
        "imapa": ahead(IMAPA(), series)[0],
        "ses": ahead(Ses(alpha), series)[0],
    }


def versions():
    return {name: version(name) for name in PACKAGES}


def published():
    whole = {name: {"values": series, "forecasts": intermittent(series)} for name, series in
             [("worked", WORKED), ("productC", PRODUCT_C), ("J06", j06())]}
    ses = [{"values": FPP1_OIL, "alpha": alpha, "level": FPP1_OIL[0],
            "forecast": statsmodels_ses(np.array(FPP1_OIL), alpha, FPP1_OIL[0])} for alpha in (0.2, 0.6)]
    holt = []
    for values, alpha, beta, phi, level, trend in [
        (FPP1_AIR, 0.8, 0.2, 1.0, FPP1_AIR[0], FPP1_AIR[1] - FPP1_AIR[0]),
        (FPP1_AIR, 0.8, 0.2, 0.9, FPP1_AIR[0], FPP1_AIR[1] - FPP1_AIR[0]),
        (FPP2_AUSAIR, 0.8302, 0.0001, 1.0, 15.57, 2.102),
        ([10, 12, 13, 15, 18], 0.5, 0.3, 1.0, 8.0, 2.0),
    ]:
        holt.append({"values": values, "alpha": alpha, "beta": beta, "phi": phi, "level": level, "trend": trend,
                     "forecast": statsmodels_holt(values, alpha, beta, phi, level, trend, 5)})
    estimated = [dict(values=values, **estimated_ses(values)) for values in (FPP2_OIL, FPP1_OIL)]
    seasonal = [decomposed("passengers", PASSENGERS, 12), decomposed("passengers, of three months", PASSENGERS, 3)]
    return {"made_by": "make.py", "versions": versions(), "intermittent": whole, "ses": ses, "holt": holt,
            "estimated": estimated, "seasonal": seasonal}


def decomposed(name, values, period):
    parts = seasonal_decompose(np.array(values, dtype=np.float64), model="multiplicative", period=period)
    trend = [None if np.isnan(value) else float(value) for value in parts.trend]
    return {"name": name, "period": period, "values": values, "trend": trend,
            "index": [float(value) for value in parts.seasonal[:period]]}


def draw(dice, at):
    """A demand series of 24 to 60 whole numbers: from every bucket to one in ten, even to wild in size."""
    length = int(dice.integers(24, 61))
    share = float(dice.choice([0.1, 0.2, 0.35, 0.5, 0.75, 0.95, 1.0]))
    sizes = [dice.integers(1, 9, length), dice.geometric(0.3, length),
             np.maximum(1, np.round(np.exp(dice.normal(3.0, 1.2, length))))][at % 3]
    series = [int(value) for value in np.where(dice.random(length) < share, sizes, 0)]
    return series if any(series) else [0] * (length - 1) + [5]


def errors(series):
    """Scores of a forecast, the last train value held, for the last quarter of the series."""
    cut = len(series) - len(series) // 4
    train = pd.DataFrame({"unique_id": "a", "ds": range(cut), "y": np.array(series[:cut], dtype=float)})
    test = pd.DataFrame({"unique_id": "a", "ds": range(cut, len(series)), "y": np.array(series[cut:], dtype=float)})
    test["f"] = float(np.mean(series[:cut]))
    scale = np.diff(np.array(series[:cut], dtype=float))
    if not np.any(scale):
        return None
    one = {"models": ["f"], "train_df": train, "seasonality": 1}
    return {"cut": cut,
            "mase": float(losses.mase(test, **one)["f"].iloc[0]), "rmsse": float(losses.rmsse(test, **one)["f"].iloc[0]),
            "pinball90": float(losses.quantile_loss(test, models={"f": "f"}, q=0.9)["f"].iloc[0]),
            "bias": float(losses.bias(test, models=["f"])["f"].iloc[0])}


def generated():
    dice = np.random.default_rng(SEED)
    rows = []
    for at in range(COUNT):
        series = draw(dice, at)
        alpha_size, alpha_share = [(0.1, 0.1), (0.2, 0.1), (0.1, 0.05), (0.5, 0.2)][at % 4]
        alpha = [0.05, 0.1, 0.2, 0.3, 0.6][at % 5]
        beta, phi = [(0.1, 1.0), (0.2, 0.9), (0.3, 0.98)][at % 3]
        level, trend = float(np.mean(series[:6])), float(dice.integers(-2, 3)) / 4
        row = {"values": series, "alpha_size": alpha_size, "alpha_share": alpha_share, "alpha": alpha,
               "beta": beta, "phi": phi, "level": level, "trend": trend}
        row.update(intermittent(series, alpha_size, alpha_share, alpha))
        row["ses_from_level"] = statsmodels_ses(np.array(series, dtype=float), alpha, level)
        row["holt"] = statsmodels_holt(series, alpha, beta, phi, level, trend, 3)
        row["errors"] = errors(series)
        rows.append(row)
    weekly = []
    for years in (3, 4):
        week = np.arange(52 * years)
        mean = 40 + 15 * np.sin(2 * np.pi * week / 52) + week / 10
        weekly.append(decomposed(f"{years} years of 52 weeks", [int(value) for value in dice.poisson(mean)], 52))
        del weekly[-1]["trend"]
    return {"made_by": "make.py", "seed": SEED, "versions": versions(), "series": rows, "weekly": weekly}


def differs(old, new, path=""):
    """Where two files differ by more than 1e-9 of a figure; the versions may differ."""
    if path == ".versions":
        return []
    if isinstance(old, dict) and isinstance(new, dict) and old.keys() == new.keys():
        return [found for key in old for found in differs(old[key], new[key], f"{path}.{key}")]
    if isinstance(old, list) and isinstance(new, list) and len(old) == len(new):
        return [found for at, pair in enumerate(zip(old, new)) for found in differs(*pair, f"{path}[{at}]")]
    if isinstance(old, (int, float)) and isinstance(new, (int, float)):
        near = abs(old - new) <= 1e-9 * max(1e-6, abs(old), abs(new))
        return [] if near else [f"{path}: {old} is now {new}"]
    return [] if old == new else [f"{path}: {old} is now {new}"]


def main():
    warnings.simplefilter("ignore")
    found = []
    for name, made in (("published", published()), ("generated", generated())):
        file = HERE / f"{name}.json"
        if "--check" in sys.argv[1:]:
            found += [name + line for line in differs(json.loads(file.read_text()), json.loads(json.dumps(made)))]
        else:
            rows = json.dumps(made, separators=(",", ":")).replace('{"values"', '\n{"values"')
            file.write_text(rows + "\n", encoding="utf-8")
    print("\n".join(found) or "nothing differs")
    sys.exit(1 if found else 0)


if __name__ == "__main__":
    main()
