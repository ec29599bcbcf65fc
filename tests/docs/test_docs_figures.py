"""The drawn figures on speed say what the benchmarks' own pages say, and draw what they say."""

import json
import re
from itertools import pairwise

import pytest

from blocks import ROOT
from speed import FIGURES, MEASURED, RESULTS, STATED, figures_table, plot


def _numbers(name: str) -> list[str]:
    figure = FIGURES[name]
    return (
        [*figure["bars"].values()] if "bars" in figure else [v for line in figure["lines"].values() for v in line if v]
    )


@pytest.mark.parametrize("name", STATED)
def test_each_number_is_stated_by_the_benchmarks(name: str) -> None:
    stated = (ROOT / FIGURES[name]["from"]).read_text(encoding="utf-8")
    missing = [n for n in _numbers(name) if not re.search(rf"(?<![\d.]){re.escape(n)}(?![\d.]*\d)", stated)]
    assert missing == []


@pytest.mark.parametrize("name", FIGURES)
def test_the_command_is_there(name: str) -> None:
    script = FIGURES[name]["command"].split()[1]
    assert (ROOT / script).is_file()
    page = (ROOT / "docs" / "speed.md").read_text(encoding="utf-8")
    assert f"plot: {name}]]" in page or (name in MEASURED and "[[measured: all]]" in page)


def test_bars_are_as_long_as_their_numbers() -> None:
    for name, figure in FIGURES.items():
        if "bars" in figure:
            widths = [float(w) for w in re.findall(r'class="bar"[^>]* width="([\d.]+)"', plot(name))]
            values = [float(v) for v in figure["bars"].values()]
            assert widths == pytest.approx([v / max(values) * max(widths) for v in values], abs=0.1)


def test_equal_steps_of_a_power_are_drawn_alike() -> None:
    """On a logarithmic scale the way from 0.01 to 0.1 is as long as that from 0.1 to 1."""
    heights = [float(y) for y in re.findall(r'class="rule" d="M\d+ ([\d.]+)', plot("plan-growth"))]
    steps = [a - b for a, b in pairwise(heights)]
    assert steps == pytest.approx([steps[0]] * len(steps), abs=0.2)


def test_tables_have_the_same_numbers() -> None:
    for name in FIGURES:
        assert all(f"| {number} " in figures_table(name) for number in _numbers(name))


def test_what_was_measured_is_drawn_as_it_was_measured() -> None:
    """Bars are the ratios, lines the seconds, to three figures; nothing is left out."""
    results = json.loads(RESULTS.read_text(encoding="utf-8"))
    assert set(MEASURED) == set(results)
    for name, figure in MEASURED.items():
        found = results[name]["found"]
        ratios = "bars" in figure
        measured = sorted(
            value
            for entry in found.values()
            for key, value in entry.items()
            if (" / " in key if ratios else key.endswith(" s"))
        )
        shown = sorted(map(float, _numbers(name)))
        if ratios:
            shown.remove(1.0)  # what the others are measured by
        assert shown == pytest.approx(measured, rel=0.006)
