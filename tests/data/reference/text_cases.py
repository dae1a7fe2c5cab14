"""Text files of many shapes with known content: python3 text_cases.py

Writes the files into text/ beside this script, and text_cases.json with what each holds: the rate, the
samples on the even grid, those of them that were recorded, the first and last value, the sum of all
recorded ones and the longest gap. Sums are exact, in decimals as written in the file, and know nothing of
the reader. tests/suite/text_reference.rs reads each file and compares.

The recordings are invented: a formula, nobody's heart. Standard library only; made with Python 3.
"""

import json
import math
from datetime import datetime, timedelta
from decimal import Decimal
from pathlib import Path

HERE = Path(__file__).parent
ROWS = 400
TO_MILLIVOLT = {"V": Decimal(1000), "mV": Decimal(1), "uV": Decimal("1e-3"), "nV": Decimal("1e-6")}

known = []


def millivolts(row, rate):
    """One beat a second, a little roughness, and a line below zero, so that signs matter."""
    t = (row / rate) % 1.0
    bell = lambda at, width: math.exp(-0.5 * ((t - at) / width) ** 2)
    return 1.1 * bell(0.3, 0.012) + 0.25 * bell(0.55, 0.04) - 0.05 + (row * 7919 % 13 - 6) * 0.001


def values(decimals, scale=1.0, rate=250.0, rows=ROWS):
    """The values as they are written, without an exponent."""
    return [f"{millivolts(row, rate) * scale:.{decimals}f}" for row in range(rows)]


def seconds(decimals=3, rate=250.0, rows=ROWS, start=0.0, scale=1.0):
    return [f"{(start + row / rate) * scale:.{decimals}f}" for row in range(rows)]


def comma(cells):
    return [cell.replace(".", ",") for cell in cells]


def table(*columns, by=","):
    return "".join(by.join(row) + "\n" for row in zip(*columns))


def case(name, text, written, unit="mV", rate=250.0, missing=(), encoding="utf-8", why=""):
    """`written`: the values on the even grid, None where nothing was recorded; `missing`: what a straight
    line fills in."""
    data = text if isinstance(text, bytes) else text.encode(encoding)
    (HERE / "text" / name).write_bytes(data)
    factor = TO_MILLIVOLT.get(unit, Decimal(1))
    grid = [None if value is None else Decimal(value) * factor for value in written]
    for at in missing:
        grid[at] = (grid[at - 1] + grid[at + 1]) / 2
    recorded = [value for value in grid if value is not None]
    longest = run = 0
    for value in grid:
        run = run + 1 if value is None else 0
        longest = max(longest, run)
    known.append(
        {
            "file": name,
            "why": why,
            "unit": "millivolt" if unit in TO_MILLIVOLT else unit,
            "rate_hz": rate,
            "samples": len(grid),
            "recorded": len(recorded),
            "first": float(recorded[0]),
            "last": float(recorded[-1]),
            "sum": float(sum(recorded)),
            "longest_gap": longest,
        }
    )


def main():
    (HERE / "text").mkdir(exist_ok=True)
    mv, uv, time = values(4), values(1, 1000.0), seconds()
    plain = "time (s),ecg (mV)\n" + table(time, mv)

    case("comma.csv", plain, mv, why="the plainest")
    case("marked-crlf.csv", ("\ufeff" + plain).replace("\n", "\r\n"), mv, why="byte order mark, CRLF")
    case("bare-cr.txt", plain.replace("\n", "\r"), mv, why="lines end in CR")
    case("utf-16.txt", plain, mv, encoding="utf-16", why="as some programs save Unicode text")
    case("semicolon.csv", "Zeit (s);EKG (µV)\n" + table(comma(time), comma(uv), by=";"), uv, "uV", encoding="cp1252", why="decimal commas, micro sign in one byte")
    volts = values(7, 0.001)
    case("tab.txt", "t/ms\tU/V\n" + table(seconds(0, scale=1e3), volts, by="\t"), volts, "V", why="ms and V")
    case("bar.txt", "time (s)|ecg (mV)\n" + table(comma(time), comma(mv), by="|"), mv, why="bars and decimal commas")
    drawn = "".join(f"| {a} | {b} |\n" for a, b in zip(time, mv))
    case("bar-drawn.txt", "| time (s) | ecg (mV) |\n|---|---|\n" + drawn, mv, why="a table drawn with bars")
    aligned = "".join(f"{a:>10}{b:>12}\n" for a, b in zip(time, mv))
    case("aligned.txt", "# time(s)   ecg(mV)\n" + aligned, mv, why="columns of one width")
    case("quoted.csv", '"time, s","ecg, mV"\n' + "".join(f'"{a}","{b}"\n' for a, b in zip(comma(time), comma(mv))), mv, why="quotes and decimal commas")
    case("preamble.csv", "Log of a bench\nPoints,400\n\n" + plain + "\nEnd of log\n", mv, why="text above and below")
    case("units-row.csv", "time,ecg\ns,uV\n" + table(time, uv), uv, "uV", why="units in a row of their own")
    case("two-leads.csv", "time (s),ecg (mV),breath (V)\n" + table(time, mv, [f"{math.sin(row / 60):.3f}" for row in range(ROWS)]), mv, why="another signal beside it")

    midnight = datetime(2026, 3, 1, 23, 59, 59, 200_000)
    moments = [midnight + timedelta(milliseconds=4 * row) for row in range(ROWS)]
    clock = [moment.strftime("%H:%M:%S.%f")[:-3] for moment in moments]
    case("clock.csv", "clock,ecg (mV)\n" + table(clock, mv), mv, why="times of day past midnight")
    iso = [moment.isoformat(timespec="milliseconds") + "+01:00" for moment in moments]
    case("iso.csv", "when,ecg (mV)\n" + table(iso, mv), mv, why="ISO 8601")
    nanoseconds = [str(1_772_409_599_200_000_000 + 4_000_000 * row) for row in range(ROWS)]
    case("nanoseconds.csv", "timestamp (ns),ecg (mV)\n" + table(nanoseconds, mv), mv, why="ns since 1970")
    case("minutes.csv", "time (min),ecg (mV)\n" + table(seconds(9, scale=1 / 60), mv), mv)
    case("hours.csv", "time (h),ecg (mV)\n" + table(seconds(11, scale=1 / 3600), mv), mv)
    days = [f"{46082.99999 + row / 250 / 86400:.12f}" for row in range(ROWS)]
    case("days.csv", "date,ecg (mV)\n" + table(days, mv), mv, why="dates as a spreadsheet counts them")

    grouped = lambda number: f"{number:,}".replace(",", ".")
    whole = values(0, 3000.0)
    text = "Zeit (ms);EKG (µV)\n" + table([grouped(4 * row) for row in range(ROWS)], [grouped(int(cell)) for cell in whole], by=";")
    case("thousands-points.csv", text, whole, "uV", why="points between thousands of whole numbers")
    text = "ms\tuV\n" + table([f"{4 * row:,}" for row in range(ROWS)], [f"{float(cell):,.1f}" for cell in values(1, 3000.0)], by="\t")
    case("thousands-commas.txt", text, values(1, 3000.0), "uV", why="commas between thousands")
    brackets = [f"({cell[1:]})" if cell.startswith("-") else cell for cell in mv]
    case("brackets.csv", "time (s),ecg (mV)\n" + table(time, brackets), mv, why="brackets in place of a minus")
    nano = values(0, 1e6)
    case("nanovolts.csv", "time (s),ecg (nV)\n" + table(time, nano), nano, "nV")
    case("power-of-ten.csv", "time (s),ecg (10^-3 V)\n" + table(time, mv), mv, why="the unit as a power of ten")

    kept = [row for row in range(ROWS) if not 150 <= row < 250]
    text = "time (s),ecg (mV)\n" + "".join(f"{time[row]},{mv[row]}\n" for row in kept)
    case("dropped-rows.csv", text, [mv[row] if row in kept else None for row in range(ROWS)], why="100 rows are missing")
    cells = list(mv)
    cells[200] = ""
    case("missing-cell.csv", "time (s),ecg (mV)\n" + table(time, cells), [cell or None for cell in cells], missing=[200], why="one value is missing")
    cells = ["NaN" if 100 <= row < 160 else cell for row, cell in enumerate(mv)]
    case("missing-stretch.csv", "time (s),ecg (mV)\n" + table(time, cells), [None if cell == "NaN" else cell for cell in cells], why="60 values are missing")
    late = seconds(start=12.0)
    case("cut-first.csv", table(late, mv)[1:], mv[1:], "unstated", why="begins inside the number of its first time")
    case("cut-last.csv", plain[:-4], mv[:-1], why="ends inside its last number")

    case("one-column.csv", "# sampling rate: 250 Hz\necg (mV)\n" + table(mv), mv, why="the rate in a remark")
    odd = values(4, rate=128.0)
    case("rate-128.csv", "time (s),ecg (mV)\n" + table(seconds(4, rate=128.0), odd), odd, rate=128.0, why="rounded times")
    counts = [str(512 + round(300 * float(cell))) for cell in mv]
    ticks = [str(48_213 + 4 * row) for row in range(ROWS)]
    case("counts.csv", "ms,adc\n" + table(ticks, counts), counts, "counts", why="steps of a converter")
    padded = [f"{int(cell):04}" for cell in counts]
    case("padded.csv", "ms,adc\n" + table(ticks, padded), counts, "counts", why="whole numbers padded with zeros")

    pairs = "".join(f"t_ms:{a},ecg_mV:{b}\n" for a, b in zip(ticks, mv))
    case("names-beside-values.txt", pairs, mv, why="a name before each value")
    lines = "".join(json.dumps({"t_ms": int(a), "ecg_mV": float(b)}) + "\n" for a, b in zip(ticks, mv))
    case("json-lines.json", lines, mv, why="an object on each line")
    objects = [{"time": float(a), "ecg_mV": float(b)} for a, b in zip(time, mv)]
    case("json-objects.json", json.dumps(objects), mv, why="a list of objects")
    case("json-lists.json", json.dumps({"rate_hz": 250, "ecg_mV": [float(cell) for cell in mv]}), mv, why="a list beside its rate")

    lines = ",\n".join("  " + json.dumps(each, ensure_ascii=False) for each in known)
    (HERE / "text_cases.json").write_text(f"[\n{lines}\n]\n", encoding="utf-8")


if __name__ == "__main__":
    main()
