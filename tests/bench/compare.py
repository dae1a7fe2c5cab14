#!/usr/bin/env python3
"""Times the steps of a lesson here, and the same steps in numpy and scipy, on the same machine.

    tests/bench/compare.py [--wasm] [--write]

First `cargo bench -- steps` runs (its texts stay in the target folder), then the same texts are read,
cleaned, and their beats and boundaries found with numpy and scipy as a practitioner would write it,
in one process, with the least time of a few runs on both sides: other work on the machine only adds.
With --wasm the steps are timed in headless Chromium too. Prints the table, and with --write puts it
into README.md beside this script. Nothing is judged.

The numpy side is in with_numpy.py.
"""

import datetime
import json
import math
import os
import pathlib
import platform
import re
import subprocess
import sys
import time

import numpy as np
import scipy
from with_numpy import beats_and_boundaries, clean, open_fast, open_plainly

HERE = pathlib.Path(__file__).resolve().parent
MINUTES = [1, 5, 15, 30, 60, 120]
STEPS = ["open", "clean", "beats and boundaries"]


def least(work, times):
    best = math.inf
    for _ in range(times):
        began = time.perf_counter()
        given = work()
        best = min(best, time.perf_counter() - began)
    return best, given


def numpy_times(folder, minutes):
    path = folder / f"heart-{minutes}.csv"
    times = 3 if minutes <= 30 else 2
    plainly, _ = least(lambda: open_plainly(path), 1 if minutes > 30 else 2)
    fast, rows = least(lambda: open_fast(path), times)
    ecg = rows[:, 1]
    cleaned, _ = least(lambda: clean(ecg), times)
    found, (count, *_) = least(lambda: beats_and_boundaries(ecg), times)
    print(f"numpy, {minutes} min: {count} beats", file=sys.stderr)
    return plainly, [fast, cleaned, found]


def target():
    answer = subprocess.run(
        ["cargo", "metadata", "--format-version", "1", "--no-deps"],
        cwd=HERE, check=True, capture_output=True, text=True,
    )
    return pathlib.Path(json.loads(answer.stdout)["target_directory"])


def native_times(folder, minutes):
    """The least time of an iteration, from the samples that criterion keeps."""
    def step(name):
        sample = json.loads((folder / "steps" / name / str(minutes) / "new" / "sample.json").read_text())
        return min(t / n for t, n in zip(sample["times"], sample["iters"])) / 1e9
    return [step(name) for name in STEPS]


def wasm_times():
    """The steps on 30 min in headless Chromium, as the page is built, but for wasm-opt."""
    environment = {
        **os.environ,
        "CHROMEDRIVER": subprocess.run(["which", "chromedriver"], capture_output=True, text=True).stdout.strip(),
        "WASM_BINDGEN_TEST_WEBDRIVER_JSON": str(HERE.parent / "wasm" / "webdriver.json"),
        "WASM_BINDGEN_TEST_TIMEOUT": "300",
    }
    command = (
        "cargo test --profile wasm --target wasm32-unknown-unknown --test wasm -- "
        "--include-ignored --nocapture the_steps_of_a_lesson"
    )
    answer = subprocess.run(command.split(), cwd=HERE, env=environment, capture_output=True, text=True)
    found = dict(re.findall(r"step (.+): ([0-9.]+) ms", answer.stdout + answer.stderr))
    if set(found) != set(STEPS):
        sys.exit(f"the WASM steps did not run:\n{answer.stdout}\n{answer.stderr}")
    return [float(found[name]) / 1000 for name in STEPS]


def slope(minutes, seconds):
    return np.polyfit(np.log(minutes), np.log(seconds), 1)[0]


def table(native, python, wasm):
    ms = lambda seconds: f"{seconds * 1000:.0f}"
    plainly, fast = python[30]
    rows = list(zip(STEPS, native[30], fast, wasm or [None] * 3))
    rows.append(("all", sum(native[30]), sum(fast), sum(wasm) if wasm else None))
    lines = [
        f"{datetime.date.today()}, {processor()}, {os.cpu_count()} cores, load {os.getloadavg()[0]:.1f}; "
        f"Python {platform.python_version()}, numpy {np.__version__}, scipy {scipy.__version__}. "
        "30 min at 500 Hz (900 000 rows), ms, least of a few runs.",
        "",
        "| step | native | numpy, scipy | native is | WASM, Chromium | WASM is |",
        "|---|---|---|---|---|---|",
    ]
    for name, ours, theirs, web in rows:
        web_cells = f"{ms(web)} | {theirs / web:.1f} times as fast" if web else "– | –"
        lines.append(f"| {name} | {ms(ours)} | {ms(theirs)} | {theirs / ours:.1f} times as fast | {web_cells} |")
    lines += [
        "",
        f"Row by row with Python's csv, opening takes {ms(plainly)} ms.",
        "",
        "| minutes | open | clean | beats and boundaries | all | numpy, scipy, all |",
        "|---|---|---|---|---|---|",
    ]
    for minutes in MINUTES:
        cells = " | ".join(ms(step) for step in native[minutes])
        lines.append(f"| {minutes} | {cells} | {ms(sum(native[minutes]))} | {ms(sum(python[minutes][1]))} |")
    slopes = [slope(MINUTES, [native[m][step] for m in MINUTES]) for step in range(3)]
    slopes.append(slope(MINUTES, [sum(native[m]) for m in MINUTES]))
    slopes.append(slope(MINUTES, [sum(python[m][1]) for m in MINUTES]))
    lines.append("| slope, log over log | " + " | ".join(f"{one:.2f}" for one in slopes) + " |")
    return "\n".join(lines)


def processor():
    try:
        text = pathlib.Path("/proc/cpuinfo").read_text()
        return re.search(r"model name\s*:\s*(.+)", text)[1]
    except (OSError, TypeError):
        return platform.processor() or platform.machine()


def main():
    arguments = sys.argv[1:]
    subprocess.run(["cargo", "bench", "--bench", "speed", "--", "steps"], cwd=HERE, check=True, stdout=sys.stderr)
    folder = target()
    native = {minutes: native_times(folder / "criterion", minutes) for minutes in MINUTES}
    python = {minutes: numpy_times(folder / "tmp", minutes) for minutes in MINUTES}
    wasm = wasm_times() if "--wasm" in arguments else None
    text = table(native, python, wasm)
    print(text)
    if "--write" in arguments:
        readme = HERE / "README.md"
        head = readme.read_text().split("<!-- table -->")[0]
        readme.write_text(f"{head}<!-- table -->\n\n{text}\n")


if __name__ == "__main__":
    main()
