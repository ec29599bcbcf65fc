"""Which yarns a row catches on their way: those that come farther than the chart lets hang loose, and no others."""

import pytest

from lintarsia.planning.planner import make_plan
from lintarsia.publishing.pages.catchnotes import catch_words
from lintarsia.reading.reader import read_chart

HEAD = """\
lintarsia: 1
title: Floats
worked: round
technique: stranded
gauge: {stitches: 20, rows: 30, over: 10 cm}
colours:
  A: {name: Deep sea, shade: "#27406b"}
  B: {name: Bone, shade: "#efe9dc"}
  R: {name: Rust, shade: "#b8743c"}
"""


def said(grid: str, caught: str = "caught: {every: 3 stitches}\n", row: int = 1) -> str:
    """What is said of a row; the grid's rows from row 1 up."""
    rows = "".join(f"  {line}\n" for line in reversed(grid.split()))
    read = read_chart("x.chart.yaml", f"{HEAD}{caught}chart: |\n{rows}".encode())
    assert read.chart is not None
    plan = make_plan(read.chart)
    return catch_words(read.chart, plan, plan.rows[row - 1].runs)


@pytest.mark.parametrize(
    ("grid", "words"),
    [
        ("BAAAB", ""),  # three stitches may hang
        ("BAAAAB", "catch B1 on the way"),
        ("ABBBBARRRRRA", "catch A1 on the way"),
        ("BAAAABAAAAAB", "catch B1 on the way"),
        ("BAAAARBAAAARB", "catch B1 and R1 on the way"),
        ("AAAAAA", ""),
    ],
)
def test_yarns_that_come_from_far_are_caught(grid: str, words: str) -> None:
    assert said(grid) == words


def test_the_first_yarn_of_a_plan_is_caught_like_any_other() -> None:
    """A is worked first and alone, so that what comes from far comes from the plan's first run."""
    assert said("ABBBBA", row=1) == "catch A1 on the way"
    assert said("RAAAAB", row=1) == ""


def test_a_chart_that_does_not_say_how_far_says_nothing_of_catching() -> None:
    assert said("BAAAAAAAAB", caught="") == ""


def test_a_row_of_nothing_catches_nothing() -> None:
    read = read_chart("x.chart.yaml", f"{HEAD}caught: {{every: 3 stitches}}\nchart: |\n  BAAAAB\n".encode())
    assert read.chart is not None
    assert catch_words(read.chart, make_plan(read.chart), ()) == ""
