"""Rows in stints: what a knitter with the chart before her would work, read off small charts by hand.

The order of working is common practice: sides worked together take each row on the side that the row meets first; one
side after the other, the yarn goes as far as it reaches in the row that divides.
"""

import pytest

from lintarsia.chart import Chart
from lintarsia.chart.grid import RowNumber
from lintarsia.chart.openings import Amiss, OpeningFault
from lintarsia.chart.shaping import Change, ChangeKind, Edge
from lintarsia.chart.sides import Half, Sides, Stint, row_changes
from lintarsia.reading import read_chart

HEAD = """\
lintarsia: 1
title: Yoke
gauge: {stitches: 22, rows: 30, over: 10 cm}
colours:
  A: {name: Shore, shade: "#c8b89a"}
"""

# Seven stitches; the middle two of row 3 (RS) come off, then one at each neck edge of row 5.
NECK = ["AA....A", "AA....A", "AAA..AA", "AAA..AA", "AAAAAAA", "AAAAAAA"]


def chart(rows: list[str], extra: str) -> Chart:
    text = HEAD + extra + "\nchart: |\n" + "".join(f"  {row}\n" for row in rows)
    reading = read_chart("yoke.chart.yaml", text.encode())
    assert reading.problems == ()
    assert reading.chart is not None
    return reading.chart


def neck(sides: str, *, first_row: str = "RS") -> Sides:
    shaping = "shaping: {5: {neck-left: -1, neck-right: -1}}"
    return Sides(chart(NECK, f"first-row: {first_row}\n{shaping}\ndivide: {{3: {{by: bind-off, sides: {sides}}}}}"))


def order(sides: Sides) -> list[str]:
    """`3R` is the right-hand side's part of row 3."""
    return [f"{p.row}{p.half.name[0] if p.half else ''}" for p in sides.in_order]


@pytest.mark.parametrize(
    ("sides", "first_row", "expected"),
    [
        ("together", "RS", "1 2 3R 3L 4L 4R 5R 5L 6L 6R"),
        ("together", "WS", "1 2 3L 3R 4R 4L 5L 5R 6R 6L"),
        ("right-first", "RS", "1 2 3R 4R 5R 6R 3L 4L 5L 6L"),
        ("left-first", "RS", "1 2 3R 3L 4L 5L 6L 4R 5R 6R"),
        ("right-first", "WS", "1 2 3L 3R 4R 5R 6R 4L 5L 6L"),
        ("left-first", "WS", "1 2 3L 4L 5L 6L 3R 4R 5R 6R"),
    ],
)
def test_the_order_of_working(sides: str, first_row: str, expected: str) -> None:
    assert order(neck(sides, first_row=first_row)) == expected.split()


def test_columns_edges_and_what_comes_off_between() -> None:
    sides = neck("together")
    right, left = sides.stints(3)
    assert (right.half, right.columns, right.starts_at, right.ends_at) == (
        Half.RIGHT,
        (5, 7),
        Edge.RIGHT,
        Edge.NECK_RIGHT,
    )
    assert (left.half, left.columns, left.starts_at, left.ends_at) == (Half.LEFT, (0, 3), Edge.NECK_LEFT, Edge.LEFT)
    assert (right.opening, left.opening) == (None, Change(ChangeKind.BIND_OFF, 2))
    right, left = sides.stints(5)
    assert (right.columns, right.end, right.start) == ((6, 7), (Change(ChangeKind.DECREASE, 1, Edge.NECK_RIGHT),), ())
    assert (left.columns, left.start, left.end) == ((0, 2), (Change(ChangeKind.DECREASE, 1, Edge.NECK_LEFT),), ())
    assert [sides.half_at(3, c) for c in (0, 2, 5, 6)] == [Half.LEFT, Half.LEFT, Half.RIGHT, Half.RIGHT]
    assert sides.half_at(2, 0) is None
    assert sides.opening(2) is None


def test_on_the_wrong_side_the_left_hand_side_comes_first() -> None:
    left, right = neck("together").stints(4)
    assert (left.half, left.starts_at, right.half, right.starts_at) == (
        Half.LEFT,
        Edge.LEFT,
        Half.RIGHT,
        Edge.NECK_RIGHT,
    )


def test_a_side_that_ends_before_the_other() -> None:
    rows = [".......", "AAA....", "AAA..AA", "AAAAAAA"]
    sides = Sides(chart(rows, "divide: {2: {by: hold}}\nshaping: {3: {right: -2}, 4: {left: -3}}"))
    assert order(sides) == ["1", "2L", "2R", "3R", "3L", "4L"]
    gone = sides.stints(3)[0]
    assert gone.columns[0] == gone.columns[1]
    assert gone.start == (Change(ChangeKind.DECREASE, 2, Edge.RIGHT),)


def test_stitches_cast_on_over_an_opening_close_it() -> None:
    rows = ["AAAAAAA", "AAAAAAA", "AAA..AA", "AAA..AA", "AAAAAAA"]
    sides = Sides(chart(rows, "divide: {2: {by: bind-off}}\nshaping: {4: {neck-right: {cast-on: 2}}}"))
    assert (sides.openings[0].first_row, sides.openings[0].last_row, sides.faults) == (2, 3, ())
    (row,) = sides.stints(4)
    assert (row.half, row.inside) == (None, (Change(ChangeKind.CAST_ON, 2, Edge.NECK_RIGHT),))


@pytest.mark.parametrize(
    ("rows", "extra", "split"),
    [
        (["AAAAAAA"] * 4, "divide: {3: {by: nothing, at: 2}}", 5),
        (["AAA.AAA"] * 4, "divide: {3: {by: nothing}}", 3),  # a column without stitches from the first row on
        (["AA...AA", "AAA.AAA", "AAAAAAA", "AAAAAAA"], "divide: {2: {by: nothing}}\nshaping: {3: {neck-left: -1}}", 4),
        (["AA...AA", "AAA.AAA", "AAAAAAA", "AAAAAAA"], "divide: {2: {by: nothing}}\nshaping: {3: {neck-right: -1}}", 3),
    ],
)
def test_where_a_slit_runs(rows: list[str], extra: str, split: int) -> None:
    sides = Sides(chart(rows, extra))
    assert sides.faults == ()
    assert sides.openings[0].splits[0] == split
    assert sides.openings[0].stitches == 0


def test_a_slit_ends_where_it_is_said_to() -> None:
    sides = Sides(chart(["AAAAAAA"] * 6, "divide: {3: {by: nothing, at: 2, to: 4}}"))
    assert order(sides) == ["1", "2", "3R", "3L", "4L", "4R", "5", "6"]


@pytest.mark.parametrize(
    ("rows", "extra", "fault"),
    [
        (["AAAAAAA"] * 3, "divide: {2: {by: bind-off}}", OpeningFault(Amiss.NO_OPENING, RowNumber(2))),
        (["AAAAAAA"] * 3, "divide: {2: {by: nothing}}", OpeningFault(Amiss.NO_OPENING, RowNumber(2))),
        (["A.AAA.A", "AAAAAAA"], "divide: {2: {by: hold}}", OpeningFault(Amiss.SEVERAL, RowNumber(2), found=2)),
        (
            ["AA...AA", "AAAAAAA"],
            "divide: {2: {by: nothing}}",
            OpeningFault(Amiss.STITCHES_LEFT, RowNumber(2), found=3),
        ),
        (["AA...AA", "AA...AA"], "divide: {2: {by: bind-off}}", OpeningFault(Amiss.NOTHING_COMES_OFF, RowNumber(2))),
        (
            ["AA...AA"] * 3 + ["AAAAAAA"],
            "divide: {2: {by: hold}, 3: {by: hold}}",
            OpeningFault(Amiss.PARTED_ALREADY, RowNumber(3)),
        ),
        (["AA...AA", "AAAAAAA"], "divide: {2: {by: hold}}\nworked: round", OpeningFault(Amiss.IN_ROUNDS, RowNumber(2))),
        (
            ["AA...AA", "AAAAAAA"],
            "divide: {2: {by: bind-off}}\nshaping: {2: {neck-left: {bind-off: 2}}}",
            OpeningFault(Amiss.OTHER_NUMBER, RowNumber(2), found=3, stated=2),
        ),
    ],
)
def test_partings_that_do_not_fit(rows: list[str], extra: str, fault: OpeningFault) -> None:
    assert Sides(chart(rows, extra)).faults == (fault,)


def test_the_openings_own_stitches_may_be_told_by_its_edges() -> None:
    rows = ["AA...AA", "AA...AA", "AAAAAAA"]
    shaping = "shaping: {2: {neck-left: {hold: 2}, neck-right: {hold: 1}}}"
    sides = Sides(chart(rows, f"divide: {{2: {{by: hold}}}}\n{shaping}"))
    assert sides.faults == ()
    assert [(p.opening, p.changes) for p in sides.stints(2)] == [(None, ()), (Change(ChangeKind.HOLD, 3), ())]


def test_a_number_with_no_edge_said_goes_where_the_grid_shows_it() -> None:
    c = chart([".AAA.", "AAAA.", "AAAAA"], "shaping: {2: -1, 3: -1}")
    assert row_changes(c, 2) == (Change(ChangeKind.DECREASE, 1, Edge.RIGHT),)
    assert row_changes(c, 3) == (Change(ChangeKind.DECREASE, 1, Edge.LEFT),)
    inside = chart(["AA.AA", "AAAAA"], "shaping: {2: -1}")
    assert row_changes(inside, 2) == (Change(ChangeKind.DECREASE, 1),)


def test_an_armhole_on_two_successive_rows() -> None:
    rows = [".AAAA..", "AAAAA..", "AAAAAAA"]
    sides = Sides(chart(rows, "first-row: WS\nshaping: {2: {right: {bind-off: 2}}, 3: {left: {bind-off: 1}}}"))
    stints = sides.in_order
    assert stints[1] == Stint(RowNumber(2), None, (0, 5), True, start=(Change(ChangeKind.BIND_OFF, 2, Edge.RIGHT),))
    assert stints[2] == Stint(RowNumber(3), None, (1, 5), False, start=(Change(ChangeKind.BIND_OFF, 1, Edge.LEFT),))
