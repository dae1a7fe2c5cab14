"""Statistics and fits by scipy: python3 scipy_inquiry.py

Writes scipy_inquiry.json beside this script: invented numbers, and what scipy.stats and
scipy.optimize.curve_fit make of them. tests/suite/inquiry_reference.rs does the same and compares.

Made with Python 3, numpy and scipy; the versions stand in the output.
"""

import json
from pathlib import Path

import numpy as np
import scipy
from scipy import optimize, stats

HERE = Path(__file__).parent
random = np.random.default_rng(20261125)


def mean(values):
    low, high = stats.t.interval(0.95, len(values) - 1, np.mean(values), stats.sem(values))
    return {
        "values": values,
        "mean": np.mean(values),
        "sd": np.std(values, ddof=1),
        "low": low,
        "high": high,
        "five": [np.min(values), *np.quantile(values, [0.25, 0.5, 0.75]), np.max(values)],
    }


def paired(name, differences):
    kept = [one for one in differences if one != 0]
    ties = len({abs(one) for one in kept}) < len(kept)
    if len(kept) > 50:
        how, method, continuity = "normal, with correction", "asymptotic", True
    elif ties:
        # Every way to give the signs, since scipy's exact table knows no ties.
        how, method, continuity = "every sign", stats.PermutationMethod(n_resamples=np.inf), False
    else:
        how, method, continuity = "exact", "exact", False
    t = stats.ttest_1samp(differences, 0.0)
    w = stats.wilcoxon(kept, method=method, correction=continuity)
    low, high = t.confidence_interval(0.95)
    return {
        "name": name,
        "differences": differences,
        "t": t.statistic,
        "df": t.df,
        "t_p": t.pvalue,
        "low": low,
        "high": high,
        "d_z": np.mean(differences) / np.std(differences, ddof=1),
        "smaller_rank_sum": w.statistic,
        "wilcoxon_p": w.pvalue,
        "wilcoxon_method": how,
    }


def curve(t, resting, rise, tau):
    return resting + rise * np.exp(-t / tau)


def slopes(t, resting, rise, tau):
    part = np.exp(-t / tau)
    return np.stack([np.ones_like(t), part, rise * part * t / tau**2], axis=1)


def fit(name, truth, seconds, noise):
    """Beats as they come: each takes the interval that its rate asks for."""
    times, rates, now = [], [], 0.0
    while now < seconds:
        rate = curve(now, *truth) + random.normal(0.0, noise)
        times.append(round(now, 3))
        rates.append(round(rate, 2))
        now += 60.0 / rate
    start = (rates[-1], rates[0] - rates[-1], seconds / 3)
    found, covariance = optimize.curve_fit(
        curve, np.array(times), np.array(rates), p0=start, jac=slopes, ftol=1e-14, xtol=1e-14, gtol=0.0
    )
    residuals = np.array(rates) - curve(np.array(times), *found)
    return {
        "name": name,
        "times": times,
        "rates": rates,
        "found": found.tolist(),
        "standard_errors": np.sqrt(np.diag(covariance)).tolist(),
        "scatter": np.sqrt(np.sum(residuals**2) / (len(times) - 3)),
        "r_squared": 1.0 - np.sum(residuals**2) / np.sum((rates - np.mean(rates)) ** 2),
    }


def plain(value):
    if isinstance(value, dict):
        return {key: plain(one) for key, one in value.items()}
    if isinstance(value, (list, tuple, np.ndarray)):
        return [plain(one) for one in value]
    return value.item() if isinstance(value, np.generic) else value


def normal(count, middle, spread, digits=1):
    return [round(float(one), digits) for one in random.normal(middle, spread, count)]


output = {
    "made_with": {"numpy": np.__version__, "scipy": scipy.__version__},
    "means": [mean(normal(n, 72.0, 9.0)) for n in (2, 3, 10, 31, 400)],
    "paired": [
        paired("six", normal(6, 8.0, 6.0, 3)),
        paired("twelve", normal(12, -2.0, 5.0, 3)),
        paired("thirty", normal(30, 1.0, 6.0, 4)),
        paired("fifty", normal(50, 1.0, 6.0, 5)),
        paired("eight with ties and a zero", [3.0, 2.0, 6.0, 2.0, 0.0, 7.0, 1.0, 7.0]),
        paired("ten with ties", [4.0, -1.0, 4.0, 2.0, -2.0, 5.0, 1.0, 3.0, -3.0, 3.0]),
        paired("seventy with ties and zeros", normal(70, 1.5, 5.0, 0)),
    ],
    "student_975": [[df, stats.t.ppf(0.975, df)] for df in (1, 1.5, 2, 3, 4.7, 7, 11, 29, 97, 1000)],
    "fits": [
        fit("two minutes", (78.0, 70.0, 40.0), 120.0, 2.0),
        fit("three minutes, noisy", (85.0, 90.0, 55.0), 180.0, 5.0),
        fit("five minutes, slow", (80.0, 85.0, 110.0), 300.0, 3.0),
        fit("one minute, quick", (90.0, 45.0, 18.0), 60.0, 1.0),
        fit("little to see", (70.0, 12.0, 30.0), 120.0, 3.0),
    ],
}
(HERE / "scipy_inquiry.json").write_text(json.dumps(plain(output), indent=1) + "\n")
