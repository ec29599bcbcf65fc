"""Supplies of a field with two blobs: textilefusion.com, "intarsia" class page.

A plain field with two blobs, worked as B · B Y B · B Y B Y B · B Y B · B, needs three blue and two yellow supplies, and
five in its fullest row. The page gives the order of the colours; how many stitches each takes is ours.
"""

import pytest

from lintarsia.chart import Chart, Colour, Gauge, Side
from lintarsia.chart.grid import build_grid
from lintarsia.chart.measure import Length
from lintarsia.planning.planner import make_plan

ONE_WIDE = ["BBBBBBBBB", "BYBBBBBBB", "BYBBBYBBB", "BBBBBYBBB", "BBBBBBBBB"]
THREE_WIDE = ["BBBBBBBBBBBBBBB", "BBBYYYBBBBBBBBB", "BBBYYYBBBYYYBBB", "BBBBBBBBBYYYBBB", "BBBBBBBBBBBBBBB"]


@pytest.mark.parametrize("rows", [ONE_WIDE, THREE_WIDE], ids=["one stitch wide", "three stitches wide"])
@pytest.mark.parametrize("first", list(Side))
@pytest.mark.parametrize("mirrored", [False, True])
def test_three_blue_and_two_yellow(rows: list[str], first: Side, mirrored: bool) -> None:
    """Whichever side the first row shows, and whichever blob begins first."""
    drawn = [row[::-1] for row in rows] if mirrored else rows
    key = {symbol: Colour(symbol, symbol, shade) for symbol, shade in (("B", "#27406b"), ("Y", "#e0b040"))}
    plan = make_plan(Chart("x", "x", Gauge(22, 30, Length(10, "cm")), key, build_grid(drawn, "BY"), first_row=first))
    assert {symbol: colour.supplies for symbol, colour in plan.colours.items()} == {"B": 3, "Y": 2}
    assert [row.needs for row in plan.rows] == [1, 3, 5, 3, 1]
    assert (plan.totals.supplies, plan.totals.ends, plan.totals.most_in_a_row) == (5, 10, 5)
    assert plan.totals.stitches == sum(map(len, rows))
