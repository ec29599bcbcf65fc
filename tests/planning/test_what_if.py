"""Each way of working a small area, against a plan made anew of the chart that this way amounts to."""

from collections.abc import Iterator
from dataclasses import replace

import numpy as np
import pytest
from charts_drawn import GAUGE
from hypothesis import given, settings
from hypothesis import strategies as st

from lintarsia.chart import Chart, Colour, Limits, Technique, Worked
from lintarsia.chart.grid import build_grid
from lintarsia.planning.areas import small_areas
from lintarsia.planning.planner import make_plan
from lintarsia.planning.what_if import Costs, number_of_areas, plan_costs, weigh_areas

LOOP = 4.1 * 100 / 22  # mm a stitch, Munden wet-relaxed (from memory) at 22 stitches over 10 cm


def flood(rows: list[str], largest: int) -> list[frozenset[tuple[int, int]]]:
    """Areas of one symbol, corners touching, by flooding cell by cell; rows bottom-up."""
    left = {(r, c) for r, row in enumerate(rows) for c, symbol in enumerate(row) if symbol != "."}
    found = []
    while left:
        front = [left.pop()]
        own = set(front)
        while front:
            r, c = front.pop()
            for cell in ((r + a, c + b) for a in (-1, 0, 1) for b in (-1, 0, 1)):
                if cell in left and rows[cell[0]][cell[1]] == rows[r][c]:
                    left.remove(cell)
                    own.add(cell)
                    front.append(cell)
        if len(own) <= largest:
            found.append(frozenset(own))
    return found


def recolour(chart: Chart, cells: frozenset[tuple[int, int]], symbol: str) -> Chart:
    rows = [list(row) for row in chart.grid.rows]
    for r, c in cells:
        rows[r][c] = symbol
    key = dict(chart.colours)
    if symbol != ".":
        key[symbol] = Colour(symbol, symbol, "#000000")
    return replace(chart, colours=key, grid=build_grid(["".join(row) for row in rows], list(key)))


def cells_of(chart: Chart, area) -> Iterator[frozenset[tuple[int, int]]]:
    low, high = area.rows
    first, last = area.stitches
    for own in flood(list(chart.grid.rows), area.size):
        rows = [r + 1 for r, _ in own]
        stitches = [chart.grid.width - c for _, c in own]
        symbol = chart.grid.rows[min(own)[0]][min(own)[1]]
        if (min(rows), max(rows), min(stitches), max(stitches), symbol) == (low, high, first, last, area.colour):
            yield own


GRIDS = st.integers(3, 7).flatmap(
    lambda width: st.lists(st.text("AAAB", min_size=width, max_size=width), min_size=2, max_size=6)
)
BOUNDS = st.builds(
    Limits,
    carry=st.sampled_from([None, 0, 1, 3]),
    idle=st.sampled_from([None, 0, 2]),
    strand=st.sampled_from([None, 0, 2]),
)
TECHNIQUES = st.sampled_from(list(Technique))  # what is not stated is bounded otherwise in each, or not at all


@settings(max_examples=60, deadline=None)
@given(GRIDS, BOUNDS, st.sampled_from([Worked.FLAT, Worked.TURNED, Worked.ROUND]), TECHNIQUES)
def test_own_supply_and_duplicate_stitch_equal_a_plan_made_anew(rows, limits, worked, technique):
    key = {symbol: Colour(symbol, symbol, "#000000") for symbol in "AB"}
    chart = Chart("x", "x", GAUGE, key, build_grid(rows, "AB"), worked=worked, technique=technique, limits=limits)
    plan = make_plan(chart)
    for area in weigh_areas(chart, plan):
        same = list(cells_of(chart, area))
        if len(same) != 1:  # two areas share a box: which is meant cannot be told from outside
            continue
        assert_equal(area.own, plan_costs(make_plan(recolour(chart, same[0], "X"))))
        knitted = plan_costs(make_plan(recolour(chart, same[0], area.around)))
        sewn = (area.size * LOOP + 300) / 1000
        assert_equal(area.duplicate, replace(knitted, ends=knitted.ends + 2, metres=knitted.metres + sewn))


def assert_equal(found: Costs, expected: Costs) -> None:
    assert replace(found, metres=0) == replace(expected, metres=0)
    assert found.metres == pytest.approx(expected.metres)


@settings(max_examples=60, deadline=None)
@given(GRIDS, st.sampled_from([0, 1, 3]))
def test_stranding_equals_the_chart_with_a_hole_and_the_area_apart(rows, carry):
    """Without strand, a hole of no-stitch cells joins what is at both sides of it, as a float behind does.

    A stitch of C at the left and one of D at the right of every row, each one supply, keep a hole from the edge, where
    it would be shaping.
    """
    key = {symbol: Colour(symbol, symbol, "#000000") for symbol in "ABCD"}
    limits = Limits(carry=carry, float=None)
    chart = Chart("x", "x", GAUGE, key, build_grid([f"C{row}D" for row in rows], "ABCD"), limits=limits)
    for area in weigh_areas(chart, make_plan(chart)):
        same = list(cells_of(chart, area)) if area.colour in "AB" else []
        if len(same) != 1 or len({r for r, _ in same[0]}) != len(same[0]):
            continue  # one stitch a row at most: the area's own yarn then never strands
        assert_one_stitch_a_row(chart, same[0], area)


def assert_one_stitch_a_row(chart: Chart, cells, area) -> None:
    rows = chart.grid.rows
    bridged = 0
    for r, c in cells:
        left, right = rows[r][:c].rstrip("."), rows[r][c + 1 :].lstrip(".")
        bridged += bool(left and right and left[-1] == right[0])
    if not bridged:
        assert area.stranded is None
        return
    around = make_plan(recolour(chart, cells, "."))
    kept = [*cells, *((r, c) for r in range(len(rows)) for c in (0, len(rows[0]) - 1))]
    lone = ["".join(v if (r, c) in kept else "." for c, v in enumerate(row)) for r, row in enumerate(rows)]
    alone = make_plan(replace(chart, grid=build_grid(lone, "ABCD")))
    assert area.stranded.supplies == around.totals.supplies + alone.totals.supplies - 2
    floats = bridged * 100 / 22 / 1000
    own = alone.totals.metres - alone.colours["C"].metres - alone.colours["D"].metres
    assert area.stranded.metres == pytest.approx(around.totals.metres + own + floats)
    assert area.stranded.longest_float == 1
    needs = around.threads.needs + alone.threads.needs - 2
    assert area.stranded.most_in_a_row == int(needs.max())


@given(st.lists(st.text("AB.", min_size=5, max_size=5), min_size=1, max_size=6))
@settings(max_examples=60, deadline=None)
def test_areas_are_those_that_flooding_finds(rows):
    if not "".join(rows).strip("."):
        return
    key = {symbol: Colour(symbol, symbol, "#000000") for symbol in "AB"}
    chart = Chart("x", "x", GAUGE, key, build_grid(rows, "AB"))
    runs = make_plan(chart).threads.runs
    for area in small_areas(chart, runs, 30):
        assert area.size == int(np.array(runs.stitches)[list(area.runs)].sum())
    if all("." not in row.strip(".") for row in rows):  # no-stitch cells inside a row do not part neighbours
        sides = {frozenset(own) for own in flood(rows, 30)}
        bordered = [own for own in sides if any(beside(rows, own))]
        assert sorted(a.size for a in small_areas(chart, runs, 30)) == sorted(map(len, bordered))


def beside(rows, own):
    for r, c in own:
        for a, b in ((r + 1, c), (r - 1, c), (r, c + 1), (r, c - 1)):
            inside = 0 <= a < len(rows) and 0 <= b < len(rows[0])
            yield inside and rows[a][b] not in (".", rows[r][c])


def test_one_stitch_in_a_plain_field(draw):
    chart = draw(
        """
        AAAAAAA
        AAABAAA
        AAAAAAA
        """
    )
    (area,) = weigh_areas(chart, make_plan(chart))
    assert (area.colour, area.around, area.rows, area.stitches, area.size) == ("B", "A", (2, 2), (4, 4), 1)
    # A worked past B needs a second A in row 2 and, since it cannot be carried 7 stitches back, a third in row 3.
    assert area.own == plan_costs(make_plan(chart))
    assert area.stranded is not None
    assert (area.stranded.supplies, area.stranded.longest_float, area.stranded.most_in_a_row) == (2, 1, 2)
    assert (area.duplicate.supplies, area.duplicate.ends, area.duplicate.most_in_a_row) == (1, 4, 1)


def test_no_more_than_so_many_are_weighed_from_row_1_up(draw):
    """Three specks, in rows 2, 4 and 6: found all, weighed the first two, the same as when all are."""
    chart = draw("""
        AAAAAAA
        AACAAAA
        AAAAAAA
        AAAABAA
        AAAAAAA
        ABAAAAA
        AAAAAAA
        """)
    plan = make_plan(chart)
    told = []
    some = weigh_areas(chart, plan, most=2, progress=lambda done, total: told.append((done, total)))
    assert number_of_areas(chart, plan) == 3
    assert [area.rows for area in some] == [(2, 2), (4, 4)]
    assert some == weigh_areas(chart, plan)[:2] == weigh_areas(chart, plan, most=9)[:2]
    assert told == [(1, 2), (2, 2)]


def test_larger_areas_are_left_out(draw):
    chart = draw("AAAA BBBB")
    assert weigh_areas(chart, make_plan(chart), largest=3) == ()
    assert len(weigh_areas(chart, make_plan(chart), largest=4)) == 2


def test_where_an_area_of_several_rows_lies(draw):
    chart = draw(
        """
        AAAAAAAA
        AABAAAAA
        AAABBAAA
        AAAAABAA
        AAAAAAAA
        """
    )
    (area,) = weigh_areas(chart, make_plan(chart))
    assert (area.rows, area.stitches, area.size) == ((2, 4), (3, 6), 4)
