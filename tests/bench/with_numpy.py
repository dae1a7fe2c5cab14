"""The steps of a lesson in numpy and scipy, as a practitioner would write them: whole arrays throughout,
and one loop, over beats, where each wave is searched in a window of its own length.

No port, but the same work step by step: where the trace stands still, hum, noise, beats (Pan & Tompkins
1985, IEEE Trans Biomed Eng 32:230), which of them look like their neighbours, what each counts for,
tremor, jumps and wander of the line, boundaries on the wavelet of Martinez et al. 2004 (ibid. 51:570) of
each beat blended with the middle half of 32 like it, the typical beat, and the intervals.
"""

import csv

import numpy as np
from numpy.lib.stride_tricks import sliding_window_view
from scipy.ndimage import median_filter, uniform_filter1d
from scipy.signal import butter, filtfilt, find_peaks, iirnotch, savgol_filter, sosfiltfilt, welch

HZ = 500
BLOCK = 32


def count(seconds):
    return int(seconds * HZ)


def open_plainly(path):
    """Row by row, as a first script does."""
    with open(path, newline="") as file:
        rows = csv.reader(file)
        next(rows)
        return np.array([[float(cell) for cell in row] for row in rows])


def open_fast(path):
    """numpy's own reader, in C since 1.23."""
    return np.loadtxt(path, delimiter=",", skiprows=1)


def filtered(ecg, corner, kind):
    return sosfiltfilt(butter(2, corner, kind, fs=HZ, output="sos"), ecg)


def clean(ecg):
    ecg = filtered(ecg, 0.67, "highpass")
    ecg = filtfilt(*iirnotch(60, 10, fs=HZ), ecg)
    return savgol_filter(filtered(ecg, 40, "lowpass"), 11, 2)


def around(ecg, places, before, after):
    """One row a place: the samples from `before` to `after` it; places too near an end take the end's."""
    return ecg[np.clip(places[:, None] + np.arange(-before, after), 0, len(ecg) - 1)]


def standing_still(ecg):
    """Flat, stuck or clipped runs: three equal samples or more."""
    edges = np.concatenate(([0], np.flatnonzero(np.diff(ecg)) + 1, [len(ecg)]))
    lengths, values = np.diff(edges), ecg[edges[:-1]]
    low, middle, high = ecg.min(), np.median(ecg), ecg.max()
    at_end = ((values <= low) | (values >= high)) & (np.abs(values - middle) > 0.25 * (high - low))
    return np.flatnonzero((lengths >= count(1.5)) | (at_end & (lengths >= 3)))


def hum(ecg):
    """The line at 50 or 60 Hz, where it stands twenty times above what is beside it."""
    frequency, power = welch(ecg, HZ, nperseg=4 * HZ)
    for mains in (50, 60):
        off = np.abs(frequency - mains)
        if power[off <= 1].max() > 20 * np.median(power[(off >= 2) & (off <= 6)]):
            return mains
    return None


def noisy(steepness, usual):
    """Seconds whose quietest quarter is steep."""
    seconds = sliding_window_view(steepness, HZ)[:: HZ // 4, :: HZ // 64]
    return np.partition(seconds, seconds.shape[1] // 4)[:, seconds.shape[1] // 4] > 0.35 * usual


def beats(steepness):
    """The peaks that stand above a threshold between signal and noise."""
    peaks, _ = find_peaks(steepness, distance=count(0.25))
    # The running estimates of signal and noise of Pan and Tompkins.
    heights = steepness[peaks]
    signal, noise = np.percentile(heights, 90), np.percentile(heights, 10)
    found = []
    for peak, height in zip(peaks.tolist(), heights.tolist()):
        if height > noise + 0.25 * (signal - noise):
            signal += 0.125 * (height - signal)
            found.append(peak)
        else:
            noise += 0.125 * (height - noise)
    return np.array(found)


def unit(rows):
    rows = rows - rows.mean(1, keepdims=True)
    return rows / np.maximum(np.linalg.norm(rows, axis=1, keepdims=True), 1e-12)


def like_neighbours(band, found, neighbours=15):
    """The beats whose complex looks like one of those beside it, at about 250 Hz."""
    shapes = unit(around(band, found, count(0.08), count(0.08))[:, ::2])
    best = np.zeros(len(found))
    for apart in range(1, neighbours // 2 + 1):
        likeness = np.einsum("ij,ij->i", shapes[apart:], shapes[:-apart])
        best[apart:] = np.maximum(best[apart:], likeness)
        best[:-apart] = np.maximum(best[:-apart], likeness)
    return best > 0.8


def counting(light, r):
    """Which beats have the usual shape and come at the usual time."""
    complexes = around(light, r, count(0.1), count(0.14))[:, ::2]
    usual = np.median(complexes[:: len(r) // 200 + 1], axis=0)
    likeness = unit(complexes) @ unit(usual[None])[0]
    rr = np.diff(r, prepend=r[0] - np.median(np.diff(r)))
    timely = rr / median_filter(rr, 7)
    return (likeness > 0.8) & (timely > 0.75) & (timely < 1.6)


def disturbances(quiet, ecg, r, height):
    """Seconds of tremor, jumps of the line from beat to beat, and how far the line wanders."""
    fine = np.abs(filtered(quiet, 25, "highpass"))
    tremor = np.median(sliding_window_view(fine, HZ)[:: HZ // 2], axis=1) / 0.6745 > 0.04 * height
    cycles = (r[:-1, None] + np.diff(r)[:, None] * np.linspace(0, 1, 61)).astype(int)
    jumps = np.abs(np.diff(np.median(quiet[cycles], axis=1))) > 0.75 * height
    window = count(0.6)
    line = np.median(ecg[: len(ecg) // window * window].reshape(-1, window)[:, ::10], axis=1)
    return tremor, jumps, np.ptp(np.percentile(line, (5, 95)))


def wavelet(ecg, scales):
    """Quadratic spline, stationary: the slope at scales 2^1, 2^2, ... samples, each centred."""
    smooth, slopes = ecg, []
    for scale in range(scales):
        gap = 2**scale
        before, after = gap // 2, gap - gap // 2
        padded = np.pad(smooth, 2 * gap, "edge")
        at = lambda shift: padded[2 * gap + shift : 2 * gap + shift + len(ecg)]
        slopes.append(2 * (at(after) - at(-before)))
        if scale + 1 < scales:
            smooth = (at(-before - gap) + 3 * (at(-before) + at(after)) + at(after + gap)) / 8
    return slopes


def blended(slope, r, before, after):
    """Each beat's transform, six parts in ten of it the middle half of its block."""
    rows = around(slope, r, before, after)
    for start in range(0, len(rows), BLOCK):
        block = rows[start : start + BLOCK]
        quarter = len(block) // 4
        shared = np.sort(block, axis=0)[quarter : len(block) - quarter].mean(0)
        block += 0.6 * (shared - block)
    return rows


def wave(window, start, foot):
    """Onset, peak and end of the largest wave in a window: its two limbs, the zero between, their feet."""
    if len(window) < 5:
        return None
    rise, fall = window.argmax(), window.argmin()
    first, second = min(rise, fall), max(rise, fall)
    turns = np.flatnonzero(np.diff(np.sign(window[first : second + 1])))
    peak = first + (turns[0] if len(turns) else 0)
    before = np.flatnonzero(np.abs(window[:first]) < foot * abs(window[first]))
    after = np.flatnonzero(np.abs(window[second:]) < foot * abs(window[second]))
    onset = before[-1] if len(before) else 0
    end = second + (after[0] if len(after) else len(window) - 1 - second)
    return start + onset, start + peak, start + end


def boundaries(quiet, r):
    slopes = wavelet(filtered(quiet, 0.5, "highpass"), 6)
    reach = (count(0.4), count(0.7))
    sharp, broad = blended(slopes[2], r, *reach), blended(slopes[5], r, *reach)
    following = np.minimum(reach[1], 0.7 * np.diff(r, append=len(quiet))).astype(int)
    points = []
    for at, sharp, broad, limit in zip(r.tolist(), sharp, broad, following.tolist()):
        place = lambda window, start, foot: wave(window, at - reach[0] + start, foot)
        around_r = (reach[0] - count(0.08), reach[0] + count(0.1))
        qrs = place(sharp[slice(*around_r)], around_r[0], 0.06)
        onset, end = (point - at + reach[0] for point in (qrs[0], qrs[2]))
        t = place(broad[end + 10 : reach[0] + limit], end + 10, 0.3)
        start = max(0, onset - count(0.25))
        points.append((place(broad[start:onset], start, 0.4), qrs, t))
    return points


def typical(ecg, r, most=500, shift=6):
    """The median of beats, each moved to where its complex fits the mean best."""
    r = r[:: len(r) // most + 1]
    complexes = sliding_window_view(around(ecg, r, 30 + shift, 31 + shift), 61, axis=1)
    likeness = np.einsum("bsk,k->bs", complexes - complexes.mean(2, keepdims=True),
                         complexes[:, shift].mean(0)) / complexes.std(2)
    r = r + likeness.argmax(1) - shift
    rr = int(np.median(np.diff(r)))
    rows = around(ecg, r, int(0.4 * rr), int(0.6 * rr))
    return np.median(rows - rows[:, :8].mean(1, keepdims=True), axis=0)


def intervals(r, points):
    """Middle and spread of RR, P, PR, QRS and QT, in seconds."""
    nothing = (np.nan,) * 3
    p, qrs, t = (np.array([wave or nothing for wave in waves], float) for waves in zip(*points))
    spans = (np.diff(r), p[:, 2] - p[:, 0], qrs[:, 0] - p[:, 0], qrs[:, 2] - qrs[:, 0], t[:, 2] - qrs[:, 0])
    return [(np.nanmedian(span) / HZ, np.nanstd(span) / HZ) for span in spans]


def beats_and_boundaries(ecg):
    """Everything from the raw trace to the intervals; how many beats there are."""
    still = standing_still(ecg)
    mains = hum(ecg)
    quiet = filtfilt(*iirnotch(mains, 20, fs=HZ), ecg) if mains else ecg
    slope = np.abs(np.gradient(filtered(quiet, (9, 22), "bandpass")))
    steepness = uniform_filter1d(slope, count(0.09))
    usual = np.median(steepness[: len(ecg) // (2 * HZ) * 2 * HZ].reshape(-1, 2 * HZ).max(1))
    noise = noisy(steepness, usual)
    found = beats(steepness)
    clear = ~noise[np.minimum(found // (HZ // 4), len(noise) - 1)]
    found = found[clear | like_neighbours(filtered(quiet, (5, 30), "bandpass"), found)]
    light = filtered(quiet, (0.67, 40), "bandpass")
    reach = count(0.08)
    r = np.unique(np.maximum(found - reach, 0) + around(light, found, reach, reach).argmax(1))
    height = np.median(light[r] - np.median(around(light, r, count(0.25), count(0.25))[:, ::5], axis=1))
    counts = counting(light, r)
    disturbed = disturbances(quiet, ecg, r, height)
    points = boundaries(quiet, r)
    beat = typical(ecg, r[counts])
    return len(r), intervals(r, points), beat, still, disturbed
