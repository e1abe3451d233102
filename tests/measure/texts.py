"""The texts that are measured: the clean lift of the rules' examples again and again, and as much Python."""

import pathlib
import re

TOP = pathlib.Path(__file__).resolve().parents[2]


def constant(name):
    """A text of the clean lift, out of the one place where it stands."""
    source = (TOP / "crates/checks/src/example/mod.rs").read_text(encoding="utf-8")
    return re.search(rf'const {name}: &str = r#"(.*?)"#;', source, re.S).group(1)


def house(folder):
    """The root file, the yard and the plant that every job sees."""
    (folder / "plumbhook.toml").write_text('language = 1\nyard = ["."]\nplants = ["."]\n', encoding="utf-8")
    (folder / "yard.pick").write_text(constant("YARD"), encoding="utf-8")
    (folder / "hall.plant.pick").write_text(constant("PLANT"), encoding="utf-8")


def long_job(lines):
    """One job with the lift again and again, each time by names of its own."""
    text = constant("JOB")
    cut = text.index("load cover")
    out, group, number = [text[:cut]], text[cut:], 0
    written = out[0].count("\n")
    while written < lines:
        number += 1
        again = group
        for old, new in (
            ("load cover", f"load cover-{number}"),
            ("carries    cover", f"carries    cover-{number}"),
            ("chains-of-three", f"legs-{number}"),
            ("eye-20", f"eye-{number}"),
            ("move M1", f"move M{number}"),
        ):
            again = again.replace(old, new)
        out.append(again + "\n")
        written += out[-1].count("\n")
    return "".join(out)


def short_job(number):
    """A job of a hundred lines with one move, made up with sources and remarks."""
    lines = constant("JOB").replace("job cover", f"job cover-{number}").splitlines()
    while len(lines) < 100:
        line = len(lines)
        lines += ["", f'source s-{line} drawing 1931 "Sheet {line}"', "  accuracy   10 mm", f"# remark {line}"]
    return "\n".join(lines[:100]) + "\n"


def python(lines, start=0):
    """Python of that many lines, of functions that call nothing."""
    out, number = ['"""Functions."""\n\n'], start
    written = 2
    while written < lines:
        number += 1
        out.append(
            f"\ndef share_{number}(load: float, legs: int) -> float:\n"
            f'    """Share of load {number}."""\n'
            "    if legs < 1:\n"
            '        message = "no legs"\n'
            "        raise ValueError(message)\n"
            "    total = load * 1.10\n"
            "    for leg in range(legs):\n"
            "        total += leg * 0.0\n"
            "    return total / legs\n\n"
        )
        written += out[-1].count("\n")
    return "".join(out)
