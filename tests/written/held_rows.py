"""The held lists of wordings as charts: one row's words each, in a chart of its own."""

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any, NamedTuple

import yaml

from lintarsia.chart import Chart, Colour, Gauge, Shaping, Side
from lintarsia.chart.grid import build_grid
from lintarsia.chart.measure import Length
from lintarsia.chart.texture import build_texture
from lintarsia.reading import read_chart
from lintarsia.rules import catalogue
from lintarsia.rules.base import NoOptions, Work
from lintarsia.written import write_rows

HELD = Path(__file__).with_name("held")
KEY = {
    "A": Colour("A", "Dusk blue", "#27406b", also=("MC", "main colour")),
    "B": Colour("B", "Bone", "#efe9dc", also=("CC", "CC1", "contrast colour")),
    "C": Colour("C", "Rust", "#a4502f", also=("CC2",)),
}
RULES = [name for name in catalogue.NAMES if name.startswith("words/")]


class Held(NamedTuple):
    words: str
    chart: Chart
    row: int
    expected: str = ""


def held(name: str) -> Iterator[Held]:
    for group in yaml.safe_load((HELD / f"{name}.yaml").read_text(encoding="utf-8")):
        if "chart" in group and "rows" in group:
            yield from (_in_a_chart(group, words) for words in group.get("words", ()))
            yield from (_in_a_chart(group, words, rule) for words, rule in group.get("faults", ()))
        elif "faults" in group:
            yield from (_row(group, words, group["chart"], rule) for words, rule in group["faults"])
        else:
            yield from (_row(group, words, group["made"]) for words in group["words"])


def _in_a_chart(group: dict[str, Any], words: str, expected: str = "") -> Held:
    """The words in the rows that the group names, of a chart that is stated whole, top row first; the other rows have
    their own, but those that are to be missing."""
    key = {
        symbol: {"name": colour.name, "shade": colour.shade, "also": list(colour.also)}
        for symbol, colour in KEY.items()
    }
    rows = group["rows"]
    document = {
        "lintarsia": 1,
        "title": "Held",
        "worked": group.get("worked", "flat"),
        "first-row": group.get("first-row", "RS"),
        "gauge": {"stitches": 22, "rows": 30, "over": "10 cm"},
        "colours": key,
        "shaping": group.get("shaping", {}),
        "divide": group.get("divide", {}),
        "chart": "\n".join(group["chart"]) + "\n",
    }
    left = {*rows, *group.get("missing", ())}
    own = {row.rows[0]: row.text for row in write_rows(_read(document)) if row.rows[0] not in left}
    return Held(words, _read({**document, "written": {**own, ", ".join(map(str, rows)): words}}), rows[0], expected)


def _read(document: dict[str, Any]) -> Chart:
    reading = read_chart("held.chart.yaml", yaml.safe_dump({n: v for n, v in document.items() if v != {}}).encode())
    assert reading.chart is not None, reading
    return reading.chart


def found(case: Held) -> list[str]:
    """Rule and message of every result of the group `words` in the held row."""
    work = Work(case.chart)
    results = [
        (rule, finding)
        for rule in RULES
        if (check := catalogue.load(rule).check)
        for finding in check(work, NoOptions())
    ]
    return [f"{rule} {finding.key}: {finding.message}" for rule, finding in results]


def _row(group: dict[str, Any], words: str, made: str, expected: str = "") -> Held:
    """Row 1 of its chart; row 2 where it is a wrong-side row or one that is shaped, above one of the same colours."""
    side, before = Side(group["side"]), group.get("before")
    first = side if side is Side.RS and before is None else side.other
    line = made[::-1] if side is Side.RS else made
    below = line if before is None else ("A" * before)
    width = max(len(line), len(below))
    rows = [line] if first is side else [below.ljust(width, "."), line.ljust(width, ".")]
    chart = Chart(
        path="held.chart.yaml",
        title="Held",
        gauge=Gauge(22, 30, Length(10, "cm")),
        colours=KEY,
        grid=build_grid(rows, tuple(KEY)),
        first_row=first,
        shaping={} if before is None else {2: Shaping(len(line) - before)},
    )
    if kinds := group.get("kinds"):
        shown = [("k" if kind == "p" else "p") if side is Side.WS else kind for kind in kinds]
        layer = "".join(shown)[::-1] if side is Side.RS else "".join(shown)
        layers = ["k" * width] * (len(rows) - 1) + [layer.ljust(width, ".")]
        chart = replace(chart, texture=build_texture(layers, [False] * len(layers)))
    written = {row.rows[0]: row.text for row in write_rows(chart)} | {len(rows): words}
    return Held(words, replace(chart, written=written), len(rows), expected)
