"""What scripts are told of rows is the chart: laid out from the data, every stitch has its colour and place."""

import json
from pathlib import Path
from typing import Any

from sitekit import EXAMPLES

from folding import each
from lintarsia.chart import Chart
from lintarsia.planning.planner import make_plan
from lintarsia.publishing.pages.keyview import make_key
from lintarsia.publishing.pages.rowdata import rows_script
from lintarsia.publishing.pages.rowview import listed_steps
from lintarsia.reading.reader import read_chart

CASES = EXAMPLES.parent / "tests" / "cases"
FILES = sorted([*EXAMPLES.glob("*.chart.yaml"), *CASES.glob("grid/*/*.yaml"), *CASES.glob("size/*/*.yaml")])


def told(chart: Chart) -> dict[str, Any]:
    plan = make_plan(chart)
    script = rows_script(chart, plan, make_key(chart, plan), listed_steps(chart, plan))
    start, end = script.index(">") + 1, script.rindex("</script>")
    assert "<" not in script[start:end]  # nothing in it can end it
    found: dict[str, Any] = json.loads(script[start:end])
    return found


def columns(step: dict[str, Any], wide: int, leftward: bool) -> list[int]:
    """Those of a step's stitches in working order, as `rows.js` reckons them."""
    first, end = step.get("c", (0, wide))
    gaps = step.get("g", [])
    spans = list(zip(gaps[::2], gaps[1::2], strict=True))
    own = [at for at in range(first, end) if not any(low <= at <= high for low, high in spans)]
    return own[::-1] if leftward else own


@each("file", FILES)
def test_the_chart_can_be_laid_out_from_the_data(file: Path) -> None:
    chart = read_chart(str(file)).chart
    if chart is None:
        return
    data, wide = told(chart), chart.grid.width
    laid: dict[tuple[int, int], str] = {}
    for number, step in enumerate(data["steps"], 1):
        row = int(str(step.get("n", number)).partition("-")[0])
        own = columns(step, wide, data["ways"][row % 2] == "left")
        symbols = [
            data["colours"][data["yarns"][yarn][1]][0]
            for stitches, yarn in zip(step["r"][::2], step["r"][1::2], strict=True)
            for _ in range(stitches)
        ]
        assert len(symbols) == len(own), step
        laid |= {(row, at): symbol for at, symbol in zip(own, symbols, strict=True)}
    drawn = {
        (row, wide - len(text) + at): symbol
        for row, text in enumerate(chart.grid.rows, 1)
        for at, symbol in enumerate(text)
        if chart.grid.cells[row - 1][wide - len(text) + at] >= 0
    }
    assert laid == drawn


def test_a_name_cannot_end_the_data() -> None:
    file = b"lintarsia: 1\ntitle: X\ncolours:\n  A: {name: '</script><b>', shade: '#27406b'}\nchart: |\n  AA\n"
    chart = read_chart("x.chart.yaml", file).chart
    assert chart is not None
    assert told(chart)["colours"][0][1] == "</script><b>"
