"""Rows as a knitter meets them: line-ups, joins, finishes, twists, crossings, rests."""

from itertools import combinations

import pytest
from charts_drawn import GAUGE
from hypothesis import given, settings
from hypothesis import strategies as st

from lintarsia.chart import Chart, Colour, Limits, Side, Technique, Worked
from lintarsia.chart.grid import build_grid
from lintarsia.planning.planner import make_plan
from lintarsia.planning.rows import crossing_rows, crossings, inversions

# As in tests/reference/test_class_example.py.
CLASS_EXAMPLE = """
    BBBBBBBBB
    BBBBBYBBB
    BYBBBYBBB
    BYBBBBBBB
    BBBBBBBBB
"""


def test_the_class_example_row_by_row(draw):
    rows = make_plan(draw(CLASS_EXAMPLE)).rows
    assert [row.side for row in rows] == [Side.RS, Side.WS, Side.RS, Side.WS, Side.RS]
    assert [row.direction for row in rows[:2]] == ["right-to-left", "left-to-right"]
    assert rows[0].line_up == rows[0].joins == ("B1",)
    assert rows[1].line_up == ("B1", "Y1", "B2")
    assert rows[1].joins == ("Y1", "B2")
    # row 3 begins at the right, where B2 was left at the end of row 2; Y2 and the blue between the blobs are new
    assert rows[2].line_up == ("B2", "Y2", "B3", "Y1", "B1")
    assert rows[2].joins == ("Y2", "B3")
    assert rows[2].finishes == ("B3", "Y1")  # above it, B1 works the left as one stretch
    # none at the first stitches of Y1 and B2, nor of Y2 and B3: there is nothing yet to twist
    assert [row.interlocks for row in rows] == [0, 0, 2, 2, 0]
    assert rows[4].finishes == rows[4].line_up
    assert all(len(row.by) == len(row.runs) for row in rows)


def test_a_supply_that_rests_is_waiting(draw):
    rows = make_plan(draw("AAAA BBBB BBBB AAAA")).rows
    assert [row.waiting for row in rows] == [(), ("A1",), ("A1",), ()]
    assert [row.line_up for row in rows] == [("A1",), ("B1",), ("B1",), ("A1",)]


def test_waiting_yarns_are_named_in_the_order_they_hang(draw):
    chart = draw(
        """
        CCCAAABB
        CCCCCCCC
        BBAAACCC
        """,
        limits=Limits(carry=9, idle=2),
    )
    plan = make_plan(chart)
    # row 1 (right to left) leaves A at column 2 and B at column 0; row 2 is worked from left to right
    assert plan.rows[1].waiting == ("B1", "A1")


def test_two_lines_that_cross(draw):
    rows = make_plan(draw("WBRW WBRW WRBW WRBW")).rows
    assert [row.crossings for row in rows] == [0, 0, 1, 0]


def test_no_stitch_cells_are_no_break_for_a_twist(draw):
    plan = make_plan(draw("AA..BB AA..BB"))
    assert [row.interlocks for row in plan.rows] == [0, 1]


def test_stranded_yarns_are_not_twisted(draw):
    plan = make_plan(draw("ABAB BABA", technique=Technique.STRANDED))
    assert [row.interlocks for row in plan.rows] == [0, 0]


def test_in_a_mixed_row_only_what_no_float_runs_behind_is_twisted(draw):
    """A floats behind B; C beside them is intarsia."""
    plan = make_plan(draw("AABBBAACC AABBBAACC", technique=Technique.MIXED, limits=Limits(strand=3)))
    assert [row.line_up for row in plan.rows] == [("C1", "A1", "B1"), ("A1", "B1", "C1")]
    assert [row.interlocks for row in plan.rows] == [0, 1]


def test_floats_along_the_spiral_hold_the_seam_of_a_round_as_well(draw):
    """Each yarn runs behind the other's stitches all around, over the seam too."""
    for picture in ("AAAABBBB AAAABBBB", "AABBBBAA AABBBBAA"):
        chart = draw(picture, worked=Worked.ROUND, technique=Technique.MIXED, limits=Limits(strand=4))
        plan = make_plan(chart)
        assert plan.totals.supplies == 2
        assert [row.interlocks for row in plan.rows] == [0, 0]
    turned = make_plan(draw("AAAABBBB AAAABBBB", worked=Worked.TURNED))
    assert [row.interlocks for row in turned.rows] == [0, 1]


def test_a_yarn_that_rested_is_twisted_where_it_comes_in_again_also_at_the_seam(draw):
    """B rests through round 2. In round 3 it follows A, which ends there: inside the round, or at its seam."""
    limits = Limits(strand=8)
    inside = draw("CCBA AAAA BBAA", worked=Worked.ROUND, technique=Technique.MIXED, limits=limits)
    assert [row.interlocks for row in make_plan(inside).rows] == [0, 0, 1]
    seam = draw("CCBB AAAA AABB", worked=Worked.ROUND, technique=Technique.MIXED, limits=limits)
    assert [row.interlocks for row in make_plan(seam).rows] == [0, 0, 1]


def test_what_hangs_is_what_is_needed_and_what_rests(draw):
    plan = make_plan(draw("AAAABB BBBBBB BBBBBB AAAABB", limits=Limits(idle=2)))
    assert [(row.needs, row.hangs) for row in plan.rows] == [(2, 2), (1, 2), (1, 2), (2, 2)]
    assert [(row.needs, row.hangs, row.waiting) for row in make_plan(draw("AAA BBB AAA")).rows][1] == (1, 2, ("A1",))
    assert (plan.totals.most_in_a_row, plan.totals.most_hanging) == (2, 2)
    assert plan.threads.hangs.tolist() == [row.hangs for row in plan.rows]


def test_rows_without_stitches_are_still_rows(draw):
    plan = make_plan(draw("AAA ... AAA"))
    assert [row.needs for row in plan.rows] == [1, 0, 1]
    assert plan.rows[1].line_up == ()
    assert plan.rows[1].waiting == ("A1",)


def test_a_chart_without_any_stitch(draw):
    plan = make_plan(draw("...", colours={"A": Colour("A", "a", "#000000")}))
    assert (plan.totals.supplies, plan.totals.metres, plan.totals.most_in_a_row) == (0, 0, 0)
    assert (plan.runs, plan.supplies, plan.ends, plan.yarns, dict(plan.colours)) == ((), (), (), (), {})


@given(st.lists(st.integers(-4, 4), max_size=9))
def test_inversions_are_pairs_in_falling_order(values):
    assert inversions(values) == sum(a > b for a, b in combinations(values, 2))


@pytest.mark.parametrize(
    ("left_at", "swaps"),
    [([], 0), ([3], 0), ([1, 2, 3], 0), ([3, 1, 2], 0), ([2, 3, 1], 0), ([2, 1, 3], 1), ([3, 2, 1], 1), ([5, 5, 1], 0)],
)
def test_a_ring_may_be_read_from_any_place(left_at, swaps):
    assert crossings(left_at, ring=True) == swaps


GRIDS = st.integers(1, 7).flatmap(
    lambda width: st.lists(st.text("ABC.", min_size=width, max_size=width), min_size=1, max_size=7)
)


@settings(max_examples=80, deadline=None)
@given(GRIDS, st.sampled_from(list(Worked)), st.sampled_from(list(Technique)), st.sampled_from([Side.RS, Side.WS]))
def test_rows_and_supplies_tell_the_same_story(rows, worked, technique, first_row):
    key = {symbol: Colour(symbol, symbol, "#000000") for symbol in "ABC"}
    chart = Chart(
        "x", "x", GAUGE, key, build_grid(rows, "ABC"), worked=worked, technique=technique, first_row=first_row
    )
    plan = make_plan(chart)
    worked_in = {s.id: sorted({plan.runs[r].row for r in s.runs}) for s in plan.supplies}
    for row in plan.rows:
        order = list(dict.fromkeys(row.by))
        assert list(row.line_up) == order
        assert row.needs == len(order)
        columns = [plan.runs[r].left for r in row.runs]
        assert columns == sorted(columns, reverse=row.direction == "right-to-left")
        assert set(row.line_up) == {name for name, own in worked_in.items() if row.row in own}
        assert set(row.joins) == {name for name, own in worked_in.items() if own[0] == row.row}
        assert set(row.finishes) == {name for name, own in worked_in.items() if own[-1] == row.row}
        assert set(row.waiting) == {
            name for name, own in worked_in.items() if own[0] < row.row < own[-1] and row.row not in own
        }
        assert row.crossings == expected_crossings(plan, row, worked is Worked.ROUND)
    assert crossing_rows(chart, plan.threads) == {row.row: row.crossings for row in plan.rows if row.crossings}
    assert plan.totals.most_in_a_row == max(row.needs for row in plan.rows)
    assert plan.totals.stitches == sum(s.stitches for s in plan.supplies) == sum(map(len, "".join(rows).split(".")))
    assert plan.totals.metres == pytest.approx(sum(s.metres for s in plan.supplies))
    assert plan.totals.idle == sum(len(row.waiting) for row in plan.rows)
    for symbol, colour in plan.colours.items():
        own = [s for s in plan.supplies if s.colour == symbol]
        assert [s.id for s in own] == [f"{symbol}{k}" for k in range(1, len(own) + 1)]
        assert colour.supplies == len(own)
        assert colour.metres == pytest.approx(sum(s.metres for s in own))


def expected_crossings(plan, row, ring: bool) -> int:
    """Pairs whose hanging order differs from the order of need; of a ring, for the best place to begin."""
    left_at = []
    for name in row.line_up:
        supply = next(s for s in plan.supplies if s.id == name)
        before = [plan.runs[r] for r in supply.runs if plan.runs[r].row < row.row]
        if before:
            last = before[-1]
            right_to_left = plan.rows[last.row - 1].direction == "right-to-left"
            left_at.append(last.left if right_to_left else last.right)
    if row.direction == "right-to-left":
        left_at = [-at for at in left_at]
    cuts = [-99, *left_at] if ring else [-99]
    turned = ([at + 100 if at <= cut else at for at in left_at] for cut in cuts)
    return min(sum(int(a > b) for a, b in combinations(places, 2)) for places in turned)
