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


def chart(grid: str, *, head: str = "", worked: str = "flat") -> Chart:
    colours = "colours:\n  A: {name: Deep sea, shade: '#27406b'}\n  B: {name: Bone, shade: '#efe9dc'}\n"
    gauge = "gauge: {stitches: 20, rows: 30, over: 10 cm}\n"
    rows = "".join(f"  {row}\n" for row in grid.split())
    text = f"lintarsia: 1\ntitle: X\nworked: {worked}\n{gauge}{head}{colours}chart: |\n{rows}"
    read = read_chart("x.chart.yaml", text.encode())
    assert read.chart is not None, read.problems
    return read.chart


@each("file", FILES)
def test_a_yarn_is_joined_where_it_is_first_used_and_finished_where_it_is_last(file: Path) -> None:
    read = read_chart(str(file)).chart
    if read is None:
        return
    steps = told(read)["steps"]
    used = [set(step["r"][1::2]) for step in steps]
    for yarn in set().union(*used):
        own = [at for at, step in enumerate(used) if yarn in step]
        assert [at for at, step in enumerate(steps) if yarn in step.get("j", ())] == own[:1]
        assert [at for at, step in enumerate(steps) if yarn in step.get("f", ())] == own[-1:]
        waits = [at for at, step in enumerate(steps) if yarn in step.get("w", ())]
        assert not set(waits) & set(own), "a yarn waits where it is not worked with"
        assert all(own[0] < at < own[-1] for at in waits)


def test_what_a_row_repeats_is_told_by_its_stitches_and_times() -> None:
    grid, head = f"A{'BBA' * 6}", "technique: stranded\n"
    assert [step.get("a") for step in told(chart(grid, head=head, worked="round"))["steps"]] == [[3, 6]]
    assert [set(step) for step in told(chart("AAB ABB"))["steps"]] == [{"r", "j"}, {"r", "f"}]


def test_sides_and_ways_are_those_of_even_and_of_odd_rows() -> None:
    """A right-side row is worked from right to left as the chart is seen, a round always; common practice."""
    flat, ring = told(chart("AAB ABB")), told(chart("AAB ABB", worked="round"))
    assert (flat["sides"], flat["ways"]) == (["wrong side", "right side"], ["right", "left"])
    assert ring["ways"] == ["left", "left"]


def test_stretches_without_a_stitch_are_told_by_their_first_and_last_column() -> None:
    steps = told(chart("..AB. .AAB. AAABB"))["steps"]
    assert [step.get("g") for step in steps] == [None, [0, 0, 4, 4], [0, 1, 4, 4]]


@each("file", FILES)
def test_crossings_and_yarns_that_hang_are_those_of_the_plan_and_left_out_where_there_are_none(file: Path) -> None:
    read = read_chart(str(file)).chart
    if read is None:
        return
    planned = [step for step, _ in listed_steps(read, make_plan(read))]
    steps = told(read)["steps"]
    assert [step.get("x") for step in steps] == [step.row.crossings or None for step in planned]
    hanging = [step.row.hangs if step.row.hangs > step.row.needs else None for step in planned]
    assert [step.get("m") for step in steps] == hanging
    assert [step.get("n", str(at)) for at, step in enumerate(steps, 1)] == [step.name for step in planned]
    numbers = {yarn[0]: at for at, yarn in enumerate(told(read)["yarns"])}
    assert [step.get("o", []) for step in steps] == [[numbers[yarn] for yarn in step.held] for step in planned]
