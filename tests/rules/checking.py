"""One rule on one small chart, for tests that try many values."""

from collections.abc import Iterator
from dataclasses import replace
from typing import Any

from lintarsia.chart import Limits
from lintarsia.reading import read_chart
from lintarsia.result import Finding
from lintarsia.rules import catalogue
from lintarsia.rules.base import Work

HEAD = """\
lintarsia: 1
title: Edges
colours:
  B: {name: Dusk blue, shade: "#27406b"}
  W: {name: Bone, shade: "#efe9dc"}
  R: {name: Rowan, shade: "#b23c2e"}
  Y: {name: Straw, shade: "#e8c95a"}
"""
GAUGE = "gauge: {stitches: 22, rows: 30, over: 10 cm}\n"


def found(rule: str, grid: str, extra: str = GAUGE, limits: Limits | None = None, **options: Any) -> list[Finding]:
    """What the rule finds in a grid (rows separated by spaces, the top one first); `extra` is the rest of the file."""
    rows = "".join(f"  {row}\n" for row in grid.split())
    reading = read_chart("edges.chart.yaml", f"{HEAD}{extra}chart: |\n{rows}".encode())
    assert reading.chart is not None
    chart = replace(reading.chart, limits=limits) if limits else reading.chart
    loaded = catalogue.load(rule)
    checked: Iterator[Finding] = loaded.check(Work(chart), loaded.options(**options))
    return list(checked)


def told(*given: Any, **options: Any) -> list[str]:
    """The messages of what is found."""
    return [finding.message for finding in found(*given, **options)]
