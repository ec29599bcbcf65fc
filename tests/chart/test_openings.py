"""Shaping in words and numbers, and openings found in grids that are wider on one side than on the other."""

import pytest

from lintarsia.chart import Chart
from lintarsia.chart.grid import RowNumber
from lintarsia.chart.openings import Amiss, OpeningFault, gaps_of
from lintarsia.chart.shaping import Change, ChangeKind, Edge, Shaping, usual_change
from lintarsia.chart.sides import Half, Sides, half_of
from lintarsia.reading import read_chart

HEAD = """\
lintarsia: 1
title: Yoke
gauge: {stitches: 22, rows: 30, over: 10 cm}
colours:
  A: {name: Shore, shade: "#c8b89a"}
"""


def chart(rows: list[str], extra: str) -> Chart:
    text = HEAD + extra + "\nchart: |\n" + "".join(f"  {row}\n" for row in rows)
    found = read_chart("yoke.chart.yaml", text.encode()).chart
    assert found is not None
    return found


@pytest.mark.parametrize(
    ("number", "kind", "net"),
    [
        (1, ChangeKind.INCREASE, 1),
        (2, ChangeKind.INCREASE, 2),
        (3, ChangeKind.CAST_ON, 3),
        (-1, ChangeKind.DECREASE, -1),
        (-2, ChangeKind.DECREASE, -2),
        (-3, ChangeKind.BIND_OFF, -3),
        (-5, ChangeKind.BIND_OFF, -5),
    ],
)
def test_one_or_two_are_decreased_and_more_bound_off(number: int, kind: ChangeKind, net: int) -> None:
    """Common practice: "decrease 5" is not said."""
    change = usual_change(number, Edge.LEFT)
    assert change == Change(kind, abs(number), Edge.LEFT)
    assert change.net == net


def test_edges() -> None:
    assert [edge.words for edge in Edge] == [
        "the left edge",
        "the right edge",
        "the inner edge (neck-left)",
        "the inner edge (neck-right)",
    ]
    assert [edge.inner for edge in Edge] == [False, False, True, True]
    assert [edge.mirrored for edge in Edge] == [Edge.RIGHT, Edge.LEFT, Edge.NECK_RIGHT, Edge.NECK_LEFT]
    assert Change(ChangeKind.HOLD, 4).net == -4


def test_halves() -> None:
    assert [half_of(number) for number in (0, 1, 2, 3, 4)] == [None, Half.LEFT, Half.RIGHT, Half.LEFT, Half.RIGHT]
    assert (Half.RIGHT.outer, Half.RIGHT.inner, Half.RIGHT.other) == (Edge.RIGHT, Edge.NECK_RIGHT, Half.LEFT)
    assert (Half.LEFT.outer, Half.LEFT.inner, Half.LEFT.other) == (Edge.LEFT, Edge.NECK_LEFT, Half.RIGHT)


@pytest.mark.parametrize(
    ("shaping", "changes"),
    [
        (Shaping(-3), (Change(ChangeKind.BIND_OFF, 3),)),
        (Shaping(0), ()),
        (
            Shaping(1, left=-2, right=3),
            (Change(ChangeKind.CAST_ON, 3, Edge.RIGHT), Change(ChangeKind.DECREASE, 2, Edge.LEFT)),
        ),
        (Shaping(-1, left=0, right=-1), (Change(ChangeKind.DECREASE, 1, Edge.RIGHT),)),
        (
            Shaping(-6, neck_left=-1, neck_right=-2),
            (
                Change(ChangeKind.DECREASE, 2, Edge.NECK_RIGHT),
                Change(ChangeKind.DECREASE, 1, Edge.NECK_LEFT),
                Change(ChangeKind.BIND_OFF, 3),
            ),
        ),
        (
            Shaping(-3, neck_left=-1, neck_right=-2),
            (Change(ChangeKind.DECREASE, 2, Edge.NECK_RIGHT), Change(ChangeKind.DECREASE, 1, Edge.NECK_LEFT)),
        ),
        (
            Shaping(-3, left=-2, right=-1, stated=(Change(ChangeKind.BIND_OFF, 2, Edge.LEFT),)),
            (Change(ChangeKind.BIND_OFF, 2, Edge.LEFT), Change(ChangeKind.DECREASE, 1, Edge.RIGHT)),
        ),
    ],
)  # fmt: skip
def test_every_change_of_a_row(shaping: Shaping, changes: tuple[Change, ...]) -> None:
    assert shaping.changes == changes


def test_gaps_lie_between_stitches() -> None:
    grid = chart(["..A..AA.A.", "AAAAAAAAAA"], "").grid
    assert [gaps_of(row >= 0) for row in grid.cells] == [[], [(3, 5), (7, 8)]]


def test_a_gap_that_was_there_below_is_not_the_one_that_opens() -> None:
    sides = Sides(chart(["A.AAA..A", "A.AAAAAA", "A.AAAAAA"], "divide: {3: {by: hold}}"))
    assert sides.faults == ()
    (opening,) = sides.openings
    assert (opening.gap(3), opening.split(3), opening.stitches) == ((5, 7), 6, 2)
    assert [sides.half_at(3, column) for column in (0, 4, 5, 6, 7)] == [
        Half.LEFT,
        Half.LEFT,
        Half.LEFT,
        Half.RIGHT,
        Half.RIGHT,
    ]


def test_a_gap_that_grows_is_one_that_opens() -> None:
    """Stitches stand beneath a part of the first gap, and beneath none of the second."""
    sides = Sides(chart(["A...AA.A", "AA..AA.A"], "divide: {2: {by: hold}}"))
    assert sides.faults == ()
    assert (sides.openings[0].gap(2), sides.openings[0].stitches) == ((1, 4), 1)


def test_one_stitch_is_enough_to_come_off() -> None:
    sides = Sides(chart(["AAA.AA", "AAAAAA"], "divide: {2: {by: bind-off}}"))
    assert sides.faults == ()
    assert [stint.opening for stint in sides.stints(2)] == [None, Change(ChangeKind.BIND_OFF, 1)]


@pytest.mark.parametrize(
    ("rows", "begins"),
    [
        (["AAA.AA", "AAAAAA", "AAAAAA"], 3),
        (["AAA.AA", "AA..AA", "AAAAAA", "AAAAAA", "AAAAAA"], 4),
        (["A.A.AA", "AAAAAA", "AAAAAA"], 0),
    ],
)
def test_where_an_opening_begins_later_than_said(rows: list[str], begins: int) -> None:
    sides = Sides(chart(rows, "divide: {2: {by: hold}}"))
    assert sides.faults == (OpeningFault(Amiss.NO_OPENING, RowNumber(2), begins=begins),)
    assert sides.openings == ()
    assert sides.numbers is None


def test_a_slit_has_no_column_of_its_own() -> None:
    sides = Sides(chart(["AAAAAAA"] * 3, "divide: {2: {by: nothing, at: 2}}"))
    assert [sides.half_at(2, column) for column in (0, 4, 5, 6)] == [Half.LEFT, Half.LEFT, Half.RIGHT, Half.RIGHT]
    assert sides.half_at(1, 4) is None
    numbers = sides.numbers
    assert numbers is not None
    assert numbers.tolist() == [[0] * 7, [1] * 5 + [2] * 2, [1] * 5 + [2] * 2]


def test_two_openings_have_numbers_of_their_own() -> None:
    rows = ["AA.AAA", "AAAAAA", "AAAAAA", "AAAAAA", "A..AAA", "AAAAAA"]
    shaping = "shaping: {3: {neck-right: {cast-on: 2}}}"
    sides = Sides(chart(rows, f"{shaping}\ndivide: {{2: {{by: hold}}, 6: {{by: bind-off}}}}"))
    assert sides.faults == ()
    assert [(o.first_row, o.last_row, o.stitches) for o in sides.openings] == [(2, 2, 2), (6, 6, 1)]
    numbers = sides.numbers
    assert numbers is not None
    assert [row.tolist() for row in numbers[[1, 5]]] == [[1, 1, 2, 2, 2, 2], [3, 3, 4, 4, 4, 4]]
    assert not numbers[[0, 2, 3, 4]].any()


@pytest.mark.parametrize(
    ("shaping", "left"),
    [
        ("2: -3", ()),  # the number of the opening: its own stitches
        ("2: {neck-left: {bind-off: 3}}", ()),
        ("2: {neck-left: {bind-off: 3}, left: -1}", (Change(ChangeKind.DECREASE, 1, Edge.LEFT),)),
    ],
)
def test_what_the_dividing_row_changes_besides_the_opening(shaping: str, left: tuple[Change, ...]) -> None:
    rows = [".A...AAA", ".A...AAA", "AAAAAAAA"] if left else ["AA...AAA", "AA...AAA", "AAAAAAAA"]
    sides = Sides(chart(rows, f"first-row: WS\ndivide: {{2: {{by: bind-off}}}}\nshaping: {{{shaping}}}"))
    assert sides.faults == ()
    right, other = sides.stints(2)
    assert (right.half, right.changes, right.columns) == (Half.RIGHT, (), (5, 8))
    assert (other.half, other.changes, other.columns) == (Half.LEFT, left, (1 if left else 0, 2))
    assert (right.opening, other.opening) == (None, Change(ChangeKind.BIND_OFF, 3))
