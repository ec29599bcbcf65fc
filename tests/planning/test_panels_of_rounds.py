"""A panel of a round: between two of its rounds lie the stitches of the other panels."""

import pytest

from lintarsia.planning.planner import make_plan
from lintarsia.reading import read_chart

HEAD = """\
lintarsia: 1
title: Mitten back
worked: round
technique: stranded
gauge: {stitches: 22, rows: 30, over: 10 cm}
colours:
  A: {name: Shore, shade: "#c8b89a"}
  B: {name: Pebble, shade: "#5a5f66"}
"""


@pytest.mark.parametrize(("of", "floated"), [("", 4), ("of: 8 stitches\n", 4), ("of: 20 stitches\n", 16)])
def test_the_rest_of_the_round_lies_between(of: str, floated: int) -> None:
    """Round 1 ends with three A at the left; B ends before them and begins round 2 after one A: 4 stitches, and 12 of
    the other panels where there are any."""
    reading = read_chart("mitten.chart.yaml", f"{HEAD}{of}chart: |\n  AAAAABBA\n  AAABBBBB\n".encode())
    assert reading.problems == ()
    assert reading.chart is not None
    plan = make_plan(reading.chart)
    (b,) = [supply for supply in plan.supplies if supply.colour == "B"]
    assert b.carried == floated
