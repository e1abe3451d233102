#!/usr/bin/env python3
"""Times of our program beside a general-purpose linter's, on equally long texts of either's own language.

    cargo build --release --package plumbhook
    python3 -m venv .venv && .venv/bin/pip install ruff==0.17.6
    python3 tests/measure/beside.py

Prints medians and their ratio; fails on no time. Compare ratios of one run, never an absolute time of another day.
For Linux: the peak of memory is read from /proc.
"""

import pathlib
import statistics
import subprocess
import sys
import tempfile
import time

from session import Session
from texts import TOP, house, long_job, python, short_job

OURS = TOP / "target/release/plumbhook"
THEIRS = TOP / ".venv/bin/ruff"
LINES = 10_000
FILES = 1_000


def keystrokes(command, path, language, text, old, new, strokes=101):
    """Median seconds from a keystroke in the middle to its diagnostics, and the server's peak of memory in MB."""
    lines = text.splitlines()
    line = next(n for n in range(len(lines) // 2, len(lines)) if old in lines[n])
    character = next(n for n, (a, b) in enumerate(zip(old, new)) if a != b)
    column = lines[line].index(old) + character
    path.write_text(text, encoding="utf-8")
    session = Session(command, path.parent)
    before = session.open(path, language, text)
    times = []
    for stroke in range(strokes):
        typed = (new if stroke % 2 == 0 else old)[character]
        took, told = session.replace(path, line, column, typed)
        assert told != before, "the keystroke has to change what is said"
        before = told
        times.append(took)
        time.sleep(0.02)
    memory = session.peak_memory()
    session.end()
    return statistics.median(times), memory


def runs(command, folder, times):
    """Median seconds of a whole run that finds nothing wrong."""
    taken = []
    for _ in range(times):
        started = time.perf_counter()
        done = subprocess.run(command, cwd=folder, capture_output=True, text=True, check=False)
        taken.append(time.perf_counter() - started)
        assert done.returncode == 0, done.stdout + done.stderr
    return statistics.median(taken)


def jobs_in(folder, name):
    """A folder with what every job sees."""
    made = folder / name
    made.mkdir()
    house(made)
    return made


def code_in(folder, name):
    """A folder in which every rule of the linter is on but those that the texts cannot all keep."""
    made = folder / name
    made.mkdir()
    (made / "ruff.toml").write_text(
        '[lint]\nselect = ["ALL"]\nignore = ["CPY001", "D203", "D213", "INP001"]\n', encoding="utf-8"
    )
    return made


def measure(folder):
    """Rows of the table: what, unit, ours, theirs."""
    check = [OURS, "check"]
    lint = [THEIRS, "check", "--no-cache"]

    jobs = jobs_in(folder, "job")
    ours = keystrokes([OURS, "lsp"], jobs / "job.pick", "pick", long_job(LINES), "14.0 t", "94.0 t")
    code = code_in(folder, "code")
    theirs = keystrokes([THEIRS, "server"], code / "shares.py", "python", python(LINES), "return total", "return tota1")
    yield f"keystroke to diagnostics, {LINES:,} lines", "ms", ours[0] * 1e3, theirs[0] * 1e3
    yield f"peak memory of that server, {LINES:,} lines", "MB", ours[1], theirs[1]

    one = jobs_in(folder, "one")
    (one / "job.pick").write_text(short_job(1), encoding="utf-8")
    lone = code_in(folder, "lone")
    (lone / "shares.py").write_text(python(100), encoding="utf-8")
    yield "one file of 100 lines, cold", "ms", runs(check, one, 31) * 1e3, runs(lint, lone, 31) * 1e3

    many = jobs_in(folder, "many")
    lots = code_in(folder, "lots")
    for number in range(FILES):
        (many / f"job-{number}.pick").write_text(short_job(number), encoding="utf-8")
        (lots / f"shares_{number}.py").write_text(python(100, number * 100), encoding="utf-8")
    yield f"{FILES:,} files of 100 lines", "ms", runs(check, many, 5) * 1e3, runs(lint, lots, 5) * 1e3


def main():
    """Prints the table."""
    for program in (OURS, THEIRS):
        if not program.exists():
            sys.exit(f"{program} is not there; the first lines of this file say how to get it")
    version = subprocess.run([THEIRS, "--version"], capture_output=True, text=True, check=True)
    print(f"{'median of':<44} {'plumbhook':>12} {version.stdout.strip():>14} {'ratio':>7}")
    with tempfile.TemporaryDirectory() as folder:
        for what, unit, ours, theirs in measure(pathlib.Path(folder)):
            print(f"{what:<44} {ours:>9.1f} {unit} {theirs:>11.1f} {unit} {ours / theirs:>7.2f}", flush=True)


if __name__ == "__main__":
    main()
