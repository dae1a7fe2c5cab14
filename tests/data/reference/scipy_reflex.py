"""EMG onset and size, envelopes, breaths of a belt and Welch's test by numpy and scipy: python3 scipy_reflex.py

Writes scipy_reflex.json beside this script: invented signals, and what numpy and scipy make of them.
tests/suite/reflex_reference.rs does the same and compares.

Made with Python 3, numpy and scipy; the versions stand in the output.
"""

import json
from pathlib import Path

import numpy as np
import scipy
from scipy import ndimage, signal, stats

HERE = Path(__file__).parent
random = np.random.default_rng(20261126)


def emg(name, rate, noise, offset, latency_ms, length_ms, height, k):
    """One tap at 0.15 s; the burst is noise under a half sine, so that it goes through zero often."""
    n = int(0.3 * rate)
    tap = int(0.15 * rate)
    time = np.arange(n) / rate
    burst = (time - tap / rate - latency_ms / 1000) / (length_ms / 1000)
    inside = (burst >= 0) & (burst <= 1)
    wave = np.where(inside, height * np.sin(2 * np.pi * 1.5 * burst) * np.sin(np.pi * burst) ** 0.5, 0)
    samples = np.round(offset + random.normal(0, noise, n) + wave, 5).astype(np.float32)
    x = samples.astype(float)

    def place(ms):
        return int(np.floor((tap / rate + ms / 1000) * rate + 0.5))

    rest = x[place(-105) : place(-5)]
    zero = rest.mean()
    rectified = np.abs(x - zero)
    before = np.abs(rest - zero)
    line = before.mean() + k * before.std(ddof=1)
    above = rectified > line
    # Runs above the line, over dips of at most 1.5 ms, at least 3 ms long, that begin 10 to 60 ms after the tap.
    hold = max(int(np.floor(0.003 * rate + 0.5)), 2)
    dip = int(np.floor(0.0015 * rate + 0.5))
    places = np.flatnonzero(above & (np.arange(n) >= tap))
    runs = np.split(places, np.flatnonzero(np.diff(places) > dip + 1) + 1)
    found = None
    for run in runs:
        if len(run) and run[-1] - run[0] + 1 >= hold and place(10) <= run[0] < place(60):
            found = (run[0], run[-1] + 1)
            break
    result = None
    if found:
        part = x[found[0] : found[1]] - zero
        duration = (found[1] - found[0]) * 1000 / rate
        result = {
            "latency": (found[0] - 0.5 - tap) * 1000 / rate,
            "duration": duration,
            "rectified_mean": np.abs(part).mean(),
            "area": np.abs(part).mean() * duration,
            "rms": np.sqrt((part**2).mean()),
            "peak_to_peak": np.ptp(part),
        }
    return {
        "name": name,
        "rate": rate,
        "tap": tap / rate,
        "k": k,
        "samples": [round(float(one), 5) for one in samples],
        "offset": zero,
        "mean": before.mean(),
        "deviation": before.std(ddof=1),
        "line": line,
        "response": result,
    }


def envelope(rate, window_ms):
    n = 240
    samples = np.round(0.2 + random.normal(0, 1, n), 4).astype(np.float32)
    x = samples.astype(float)
    squares = (x - np.sort(x)[n // 2]) ** 2
    reach = int(np.floor(window_ms / 1000 * rate + 0.5)) // 2
    mean = ndimage.uniform_filter1d(squares, 2 * reach + 1, mode="nearest")
    return {
        "rate": rate,
        "window_ms": window_ms,
        "reach": reach,
        "samples": [round(float(one), 4) for one in samples],
        "rms": np.sqrt(mean),
    }


def belt(rate, seconds, noise):
    """A belt whose breaths grow longer; its lows by a filter and a peak finder of scipy."""
    time = np.arange(int(seconds * rate)) / rate
    phase = 2 * np.pi * (time / 3.5 - 0.0006 * time**2)
    samples = np.round(2 + 0.01 * time - np.cos(phase) + random.normal(0, noise, len(time)), 4)
    order, low, high = 2, 0.05, 1.0
    # Two passes keep the corner where it was asked for.
    factor = (np.sqrt(2) - 1) ** (1 / (2 * order))

    def warped(corner, by):
        return np.arctan(np.tan(np.pi * corner / rate) * by) * 2 / np.pi

    x = samples.astype(np.float32).astype(float)
    for kind, corner in (("highpass", warped(low, factor)), ("lowpass", warped(high, 1 / factor))):
        x = signal.sosfiltfilt(signal.butter(order, corner, kind, output="sos"), x, padlen=len(x) - 1)
    height = np.quantile(x, 0.9) - np.quantile(x, 0.1)
    lows, _ = signal.find_peaks(-x, prominence=0.5 * height)
    return {"rate": rate, "samples": samples, "lows": lows / rate}


def welch(name, first, second):
    t = stats.ttest_ind(second, first, equal_var=False)
    low, high = t.confidence_interval(0.95)
    return {
        "name": name,
        "first": first,
        "second": second,
        "t": t.statistic,
        "df": t.df,
        "p": t.pvalue,
        "low": low,
        "high": high,
    }


def normal(count, middle, spread):
    return [round(float(one), 3) for one in random.normal(middle, spread, count)]


def plain(value):
    if isinstance(value, dict):
        return {key: plain(one) for key, one in value.items()}
    if isinstance(value, (list, tuple, np.ndarray)):
        return [plain(one) for one in value]
    return value.item() if isinstance(value, np.generic) else value


output = {
    "made_with": {"numpy": np.__version__, "scipy": scipy.__version__},
    "emg": [
        emg("knee", 2000, 0.008, 0.0, 17.4, 20.6, 0.8, 4),
        emg("knee, offset, noisy", 1000, 0.05, 1.5, 18.2, 20.6, 0.9, 3),
        emg("ankle, short burst", 4000, 0.01, -0.2, 31.0, 11.05, 1.2, 4),
        emg("weak", 2000, 0.02, 0.0, 20.0, 18.0, 0.15, 2),
        emg("no answer", 2000, 0.01, 0.0, 17.0, 20.0, 0.0, 4),
    ],
    "envelopes": [envelope(1000, 9), envelope(2000, 20)],
    "belts": [belt(20, 60, 0.02), belt(50, 40, 0.05)],
    "welch": [
        welch("eight and ten", normal(8, 17.4, 0.6), normal(10, 17.1, 1.1)),
        welch("six and twenty", normal(6, 0.5, 0.2), normal(20, 0.8, 0.1)),
        welch("reflex and voluntary", normal(10, 18.0, 0.7), normal(9, 190.0, 25.0)),
    ],
}
(HERE / "scipy_reflex.json").write_text(json.dumps(plain(output)) + "\n")
