"""The held lists of wordings as charts: one row's words each, in a chart of its own."""

from collections.abc import Iterator
from pathlib import Path
from typing import Any, NamedTuple

import yaml

from lintarsia.chart import Chart, Colour, Gauge, Shaping, Side
from lintarsia.chart.grid import build_grid
from lintarsia.chart.measure import Length
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
        if name == "faults":
            yield from (_row(group, words, group["chart"], rule) for words, rule in group["faults"])
        else:
            yield from (_row(group, words, group["made"]) for words in group["words"])


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
    written = {row.rows[0]: row.text for row in write_rows(chart)} | {len(rows): words}
    from dataclasses import replace

    return Held(words, replace(chart, written=written), len(rows), expected)
