"""The figures of the page on speed, from two files of numbers and nothing else.

speed.yaml has what the benchmarks' own pages state; benchmarks/results.json has what benchmarks/scale.py measured and
wrote. Each figure has `bars` (label → number) or `across` and `lines` (label → numbers), the numbers as written.
"""

import json
from pathlib import Path
from typing import Any

import yaml

import plots

Figure = dict[str, Any]
RESULTS = Path(__file__).parents[2] / "benchmarks" / "results.json"
SECONDS = "in seconds of processor time; the scale is logarithmic"
# What each part of results.json is about, how its numbers are meant, and what its programs are called.
PARTS: dict[str, tuple[str, str]] = {
    "cold": ("One small chart, from a cold start", "times what importing yaml, numpy, jsonschema and click takes"),
    "charts": ("Many charts of 24 × 24 stitches, in one process", SECONDS),
    "stitches": ("One chart, larger and larger", SECONDS),
    "solvers": ("The plan alone, beside general solvers on the same question", SECONDS),
    "site": ("A site of many charts", "times what bare MkDocs takes for as many pages of one paragraph"),
}
NAMES = {
    "check": "lintarsia check",
    "plan": "lintarsia plan",
    "version": "lintarsia --version",
    "site": "lintarsia site",
    "imports": "importing the four libraries",
    "yamllint": "yamllint, a linter of YAML",
    "libyaml": "loading the files, no more",
    "scipy": "scipy",
    "networkx": "networkx",
    "cover": "lintarsia's plan",
    "mkdocs": "bare MkDocs",
    "python": "Python, doing nothing",
}
IN_PART = {("stitches", "scipy"): "loading, labelling with scipy"}  # where a program has another task
AIMS = {"cold": 1.5}


def _measured() -> dict[str, Figure]:
    results = json.loads(RESULTS.read_text(encoding="utf-8"))
    return {name: _figure(name, results[name]) for name in PARTS if name in results}


def _figure(name: str, part: dict[str, Any]) -> Figure:
    title, unit = PARTS[name]
    found: dict[str, dict[str, float]] = part["found"]
    figure: Figure = {"title": title, "unit": unit, "command": part["command"]}
    if len(found) == 1:
        (entry,) = found.values()
        ratios = {key.partition(" / ")[0]: str(value) for key, value in entry.items() if " / " in key}
        base = next(key.partition(" / ")[2] for key in entry if " / " in key)
        figure["bars"] = {NAMES[key]: value for key, value in {**ratios, base: "1"}.items()}
        return figure | ({"aim": AIMS[name]} if name in AIMS else {})
    sizes = list(dict.fromkeys(label.split()[-1] for label in found))
    kinds = list(dict.fromkeys(label.rpartition(" ")[0] for label in found))
    drawn: dict[str, list[str]] = {}
    for kind in kinds:
        entries = [found.get(f"{kind} {size}".strip(), {}) for size in sizes]
        for key in dict.fromkeys(key for entry in entries for key in entry if key.endswith(" s")):
            program = IN_PART.get((name, key[:-2]), NAMES[key[:-2]])
            label = f"{program}, {kind}" if kind else program
            drawn[label] = [f"{entry[key]:.3g}" if key in entry else "" for entry in entries]
    return figure | {"across": sizes, "lines": drawn}


def _stated() -> dict[str, Figure]:
    stated: dict[str, Figure] = yaml.safe_load(Path(__file__).with_name("speed.yaml").read_text(encoding="utf-8"))
    return stated


STATED = _stated()
MEASURED = _measured()
FIGURES: dict[str, Figure] = {**STATED, **MEASURED}


def plot(name: str) -> str:
    """A figure as SVG with its caption."""
    figure = FIGURES[name]
    if "bars" in figure:
        drawn = plots.bars(figure["bars"], figure.get("aim"))
        told = ", ".join(f"{label} {value}" for label, value in figure["bars"].items())
    else:
        rows = {label: [float(v) if v else None for v in values] for label, values in figure["lines"].items()}
        drawn = plots.lines(figure["across"], rows)
        told = "; ".join(f"{label}: {', '.join(filter(None, values))}" for label, values in figure["lines"].items())
    return plots.figure(name, figure["title"], figure["unit"], figure["command"], told, drawn)


def figures_table(name: str) -> str:
    """The same numbers as a Markdown table."""
    figure = FIGURES[name]
    if "bars" in figure:
        return "| | ratio |\n|---|---|\n" + "".join(f"| {k} | {v} |\n" for k, v in figure["bars"].items())
    head = f"| | {' | '.join(figure['across'])} |\n|---|{'---|' * len(figure['across'])}\n"
    return head + "".join(f"| {k} | {' | '.join(v or '–' for v in vs)} |\n" for k, vs in figure["lines"].items())


def measured_parts(words: str) -> str:
    """Everything that results.json holds: a heading, a drawing and a table for each part, and where it was measured."""
    results = json.loads(RESULTS.read_text(encoding="utf-8"))
    parts = []
    for name in MEASURED:
        when = f"Measured in {results[name]['measured']} on {results[name]['machine']}."
        memory = _memory(results[name]["found"])
        parts.append(
            f"## {PARTS[name][0]} {{ #{name} }}\n\n[[plot: {name}]]\n\n{figures_table(name)}\n{memory}{when}\n"
        )
    return "\n".join(parts)


def _memory(found: dict[str, dict[str, float]]) -> str:
    """The peak of our own process, on the largest that was measured."""
    label, entry = list(found.items())[-1]
    peaks = [f"{NAMES[key[:-3]]} {value:g} MB" for key, value in entry.items() if key.endswith(" MB")]
    return f"Peak memory, {label}: {', '.join(peaks)}. " if peaks else ""
