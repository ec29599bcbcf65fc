"""One rule on one small chart, for tests that try many values; and a rule on a case file, through the engine."""

from collections.abc import Iterator
from contextlib import chdir
from dataclasses import replace
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from lintarsia.chart import Limits, Reckoning
from lintarsia.engine import check_chart
from lintarsia.reading import read_chart
from lintarsia.result import Finding, Result
from lintarsia.rules import catalogue
from lintarsia.rules.base import Check, Rule, Work
from lintarsia.rules.rulebook import Rulebook
from lintarsia.rules.shared.cases import Case
from lintarsia.settings import Settings
from lintarsia.settings.reader import read_settings

HEAD = """\
lintarsia: 1
title: Edges
colours:
  B: {name: Dusk blue, shade: "#27406b"}
  W: {name: Bone, shade: "#efe9dc"}
  R: {name: Berry, shade: "#b23c2e"}
  Y: {name: Straw, shade: "#e8c95a"}
"""
EDGELESS = Reckoning(cast_on=0, bind_off=0)  # stitches and tails alone, for sums that are easily done by hand
GAUGE = "gauge: {stitches: 22, rows: 30, over: 10 cm}\n"


def chart_check(rule: Rule) -> Check:
    assert rule.check is not None
    return rule.check


def found(rule: str, grid: str, extra: str = GAUGE, limits: Limits | None = None, **options: Any) -> list[Finding]:
    """What the rule finds in a grid (rows separated by spaces, the top one first); `extra` is the rest of the file."""
    rows = "".join(f"  {row}\n" for row in grid.split())
    reading = read_chart("edges.chart.yaml", f"{HEAD}{extra}chart: |\n{rows}".encode())
    assert reading.chart is not None
    chart = replace(reading.chart, limits=limits) if limits else reading.chart
    loaded = catalogue.load(rule)
    checked: Iterator[Finding] = chart_check(loaded)(Work(chart, reckoning=EDGELESS), loaded.options(**options))
    return list(checked)


def told(*given: Any, **options: Any) -> list[str]:
    """The messages of what is found."""
    return [finding.message for finding in found(*given, **options)]


ENGINE_OWN = catalogue.BY_THE_ENGINE


def settings_of(case: Case, folder: Path) -> Settings:
    """The case's settings, with no rule but its own and the engine's; for suppressions, with all rules."""
    names = catalogue.NAMES if case.rule.startswith("suppress/") else {case.rule, *ENGINE_OWN}
    book = Rulebook(tuple(sorted(names)), catalogue.load)
    if not case.settings:
        return Settings(root=str(folder), rulebook=book)
    file = folder / "lintarsia.yaml"
    file.write_text(case.settings, encoding="utf-8")
    return read_settings(str(file), rulebook=book)


def results_of(case: Case) -> list[Result]:
    """All results, sorted; the case is checked in a folder of its own, which takes its other files."""
    with TemporaryDirectory() as made, chdir(made):
        folder = Path(made).resolve()
        for name, text in case.beside.items():
            (folder / name).write_text(text, encoding="utf-8")
        name = f"case{case.kind.suffix}"
        checked = check_chart(name, case.chart.encode(), settings_of(case, folder))
    return sorted(checked.results, key=lambda result: result.order)
