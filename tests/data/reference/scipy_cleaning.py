"""Values of scipy.signal for the cleaning tests: python3 scipy_cleaning.py > scipy_cleaning.json

The signal is a sum of sines and a spike, written out so that it can be made again in Rust. The filters
are designed as src/analysis/filter does: corners corrected for two passes, so that -3 dB stays where
it was asked for. Made with numpy 2.4.6 and scipy 1.17.1.
"""

import json

import numpy as np
from scipy import signal

RATE = 250.0
N = 1000

t = np.arange(N) / RATE
x = np.sin(2 * np.pi * 1.3 * t) + 0.4 * np.sin(2 * np.pi * 17.0 * t + 0.5) + 0.2 * np.sin(2 * np.pi * 50.0 * t)
x[400] += 3.0
# The reader holds samples as 32-bit floats.
x = x.astype(np.float32).astype(float)

two_passes = (np.sqrt(2) - 1) ** 0.25


def butterworth(corner, kind):
    factor = 1 / two_passes if kind == "lowpass" else two_passes
    design = 2 * RATE / (2 * np.pi) * np.arctan(np.tan(np.pi * corner / RATE) * factor)
    return signal.butter(2, design, kind, fs=RATE)


def both_ways(b, a):
    return signal.filtfilt(b, a, x, padlen=N - 1)


low, high = butterworth(40.0, "lowpass"), butterworth(0.67, "highpass")
frequencies = [0.2, 0.67, 1.0, 10.0, 40.0, 49.0, 50.0, 60.0, 100.0]


def gains(b, a):
    return [float(abs(h) ** 2) for h in signal.freqz(b, a, frequencies, fs=RATE)[1]]


shown = list(range(0, 12)) + list(range(380, 420)) + list(range(N - 12, N))
pick = lambda y: [float(y[i]) for i in shown]
odd = [5, 9, 17, 25]
print(
    json.dumps(
        {
            "made_with": "scipy 1.17.1, scipy_cleaning.py",
            "rate_hz": RATE,
            "samples": N,
            "at": shown,
            "frequencies_hz": frequencies,
            # Near the ends scipy's medfilt pads with zeros and ours shrinks: only the middle is compared.
            "median": {n: pick(signal.medfilt(x, n)) for n in odd},
            "savitzky_golay": {n: pick(signal.savgol_filter(x, n, 2, mode="interp")) for n in odd},
            "mean": {n: pick(np.convolve(x, np.ones(n) / n, "same")) for n in odd},
            "triangular": {n: pick(np.convolve(x, signal.windows.triang(n) / signal.windows.triang(n).sum(), "same")) for n in odd},
            "low_pass_40": {"samples": pick(both_ways(*low)), "gains": gains(*low)},
            "drift_067": {"samples": pick(both_ways(*high)), "gains": gains(*high)},
        }
    )
)
