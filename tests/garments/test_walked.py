"""The examples walked row by row with words and plan in hand, until no row fails."""

from pathlib import Path

import pytest
from knitter import Knitter, StuckError

from lintarsia.chart import Chart, Worked
from lintarsia.chart.sides import Sides
from lintarsia.planning.planner import make_plan
from lintarsia.reading import read_chart
from lintarsia.written import write_rows
from lintarsia.written.style import Style

FOLDER = Path(__file__).parents[2] / "examples"
EXAMPLES = sorted([*FOLDER.glob("*.chart.yaml"), *FOLDER.glob("fox-jumper/*.chart.yaml")])
LINE_BY_LINE = Style(stars=False, merge=False)


def read(file: Path) -> Chart:
    chart = read_chart(str(file)).chart
    assert chart is not None
    return chart


def cast_on(chart: Chart) -> int:
    """What hangs on the needle before row 1."""
    return chart.grid.stitches(1) - (chart.shaping[1].net if 1 in chart.shaping else 0)


@pytest.mark.parametrize(
    ("file", "named"),
    [  # each example in one way, and in the other one where there is time
        pytest.param(
            file, named, id=f"{file.name.partition('.')[0]}-{'by yarn' if named else 'by colour'}", marks=marks
        )
        for number, file in enumerate(EXAMPLES)
        for named, marks in ((number % 2 == 0, []), (number % 2 == 1, [pytest.mark.slow]))
    ],
)
def test_an_example_is_knitted_from_its_words(file: Path, named: bool) -> None:
    chart = read(file)
    hands = Knitter(cast_on(chart), yarns=set() if named else None, textured=chart.texture is not None)
    for row in write_rows(chart, plan=make_plan(chart) if named else None, style=LINE_BY_LINE):
        hands.line(f"{row.label}: {row.text}")
    assert _joined(chart, hands.rows) == {row: _knitted(chart, row) for row in range(1, chart.grid.height + 1)}
    if chart.texture is not None:
        kinds = {row: _kinds(chart, row, chart.texture.rows[row - 1]) for row in range(1, chart.grid.height + 1)}
        assert _joined(chart, hands.kinds) == kinds
    assert not hands.waits
    assert not hands.yarns


def _joined(chart: Chart, worked: dict[tuple[int, str], str]) -> dict[int, str]:
    """What was worked in each row, its sides in the row's own direction, whichever was worked first."""
    order = ("", "right", "left") if chart.side(1) == "RS" else ("", "left", "right")
    return {
        row: "".join(worked.get((row, half), "") for half in (order if row % 2 else order[::-1])) for row, _ in worked
    }


def _knitted(chart: Chart, row: int) -> str:
    line = chart.grid.rows[row - 1].replace(".", "")
    if any(row == piece.row and piece.half for piece in Sides(chart).in_order):
        assert chart.worked is Worked.FLAT
    return line[::-1] if chart.worked is Worked.ROUND or chart.side(row) == "RS" else line


RIGHT_SIDE = {"k": "k", "p": "p", "g": "k", ".": "k"}
WRONG_SIDE = {"k": "p", "p": "k", "g": "k", ".": "p"}


def _kinds(chart: Chart, row: int, layer: str) -> str:
    """What is knitted and purled by the letters of the layer, in the order of working."""
    text = chart.grid.rows[row - 1].rjust(len(layer), ".")
    letters = "".join(letter for letter, symbol in zip(layer, text, strict=True) if symbol != ".")
    if chart.worked is Worked.ROUND:
        return "".join("p" if letter == "g" and row % 2 == 0 else RIGHT_SIDE[letter] for letter in letters[::-1])
    if chart.side(row) == "RS":
        return "".join(RIGHT_SIDE[letter] for letter in letters[::-1])
    return "".join(WRONG_SIDE[letter] for letter in letters)


@pytest.mark.parametrize(
    ("line", "why"),
    [
        ("Row 2 (RS): BO 3 sts at beg (right edge); k8 A. (8 sts)", "12 on the needle"),
        ("Row 2 (RS): BO 3 sts at beg (right edge); k9 A. (8 sts)", "9 made, 8 said"),
        ("Row 2 (RS): p12 A. (12 sts)", "on the RS"),
        ("Row 2 (RS): k12 A. (12 sts) And now?", "unknown ending"),
        ("Row 2 (RS): weave 12 A. (12 sts)", "what is"),
    ],
)
def test_a_line_that_cannot_be_worked_stops_the_knitter(line: str, why: str) -> None:
    with pytest.raises(StuckError, match=why):
        Knitter(12).line(line)
    with pytest.raises(StuckError, match="not joined"):
        Knitter(12, yarns={"B1"}).line("Row 1 (RS): join A1; k6 A1, k6 A2. (12 sts)")
