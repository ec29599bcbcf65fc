"""Shaping is marked in the squares that a knitter sees come and go: counted here by hand from lopsided charts."""

import pytest
from drawn import SVG, make_chart, parse

from lintarsia.chart import Shaping
from lintarsia.chart.shaping import Change, ChangeKind, Divide, Edge, Order, Parting
from lintarsia.drawing import chart_svg
from lintarsia.drawing.shapemarks import ShapeMark, shape_marks, slits

ARMHOLES = """
...BBBBBBBBBBB..
...BBBBBBBBBBBB.
...BBBBBBBBBBBBB
BBBBBBBBBBBBBBBB
"""


def test_armholes_and_decreases_are_marked_in_the_squares_that_lose_a_stitch() -> None:
    chart = make_chart(ARMHOLES, shaping={
        2: Shaping(-3, left=-3, right=0), 3: Shaping(-1, left=0, right=-1), 4: Shaping(-1, left=0, right=-1),
    })  # fmt: skip
    assert shape_marks(chart) == (
        ShapeMark(2, 0, 2, ChangeKind.BIND_OFF, -1),
        ShapeMark(3, 15, 15, ChangeKind.DECREASE, 1),
        ShapeMark(4, 14, 14, ChangeKind.DECREASE, 1),
    )


def test_cast_on_stitches_are_marked_beneath_and_increases_beside() -> None:
    chart = make_chart("BBBBBBB\n...BBBB\n...BBB.", shaping={
        2: Shaping(1, left=0, right=1), 3: Shaping(3, left=3, right=0),
    })  # fmt: skip
    assert shape_marks(chart) == (
        ShapeMark(2, 7, 7, ChangeKind.INCREASE, 1),
        ShapeMark(2, 0, 2, ChangeKind.CAST_ON, -1),  # in the row below the new ones
    )


def test_several_changes_at_one_edge_share_the_squares_from_outside_in() -> None:
    stated = (Change(ChangeKind.BIND_OFF, 3, Edge.LEFT), Change(ChangeKind.DECREASE, 1, Edge.LEFT))
    chart = make_chart("....BBBB\nBBBBBBBB", shaping={2: Shaping(-4, left=-4, right=0, stated=stated)})
    assert shape_marks(chart) == (
        ShapeMark(2, 0, 2, ChangeKind.BIND_OFF, -1),
        ShapeMark(2, 3, 3, ChangeKind.DECREASE, -1),
    )


NECK = """
BBB......BBBBB
BBBB....BBBBBB
BBBBB...BBBBBB
BBBBBBBBBBBBBB
"""


@pytest.mark.parametrize("sides", Order)
@pytest.mark.parametrize(("by", "kind"), [(Parting.HOLD, ChangeKind.HOLD), (Parting.BIND_OFF, ChangeKind.BIND_OFF)])
def test_a_neck_is_marked_between_the_sides_and_along_its_edges(sides: Order, by: Parting, kind: ChangeKind) -> None:
    chart = make_chart(NECK, divide={2: Divide(2, by, sides)}, shaping={
        3: Shaping(-1, left=0, right=0, neck_left=-1), 4: Shaping(-2, left=0, right=0, neck_left=-1, neck_right=-1),
    })  # fmt: skip
    assert sorted(shape_marks(chart)) == [
        ShapeMark(2, 5, 7, kind, 0),
        ShapeMark(3, 4, 4, ChangeKind.DECREASE, 1),  # the inner edge of the left side: the fabric ends to its right
        ShapeMark(4, 3, 3, ChangeKind.DECREASE, 1),
        ShapeMark(4, 8, 8, ChangeKind.DECREASE, -1),
    ]


def test_a_side_that_is_bound_off_altogether_is_marked_across_its_squares() -> None:
    chart = make_chart("BBBB......\nBBBB...BBB\nBBBBBBBBBB", divide={2: Divide(2, Parting.HOLD)}, shaping={
        3: Shaping(-3, left=0, right=-3),
    })  # fmt: skip
    assert shape_marks(chart)[1:] == (ShapeMark(3, 7, 9, ChangeKind.BIND_OFF, 1),)


def test_what_the_squares_do_not_show_stands_beside_the_row_with_its_number() -> None:
    chart = make_chart("BBBB\nBBBB\nBBBB", shaping={
        2: Shaping(-4, left=0, right=-4), 3: Shaping(-2),
    })  # fmt: skip
    assert shape_marks(chart) == (
        ShapeMark(2, 4, 4, ChangeKind.BIND_OFF, 1, -4),
        ShapeMark(3, -1, -1, None, -1, -2),  # row 3 is numbered at the right
    )


def test_a_slit_is_part_of_the_outline() -> None:
    chart = make_chart("BBBBBB\nBBBBBB\nBBBBBB", divide={2: Divide(2, Parting.NOTHING, at=2, to=2)})
    parted = slits(chart)
    assert parted is not None
    assert [(int(r) + 1, int(c)) for r, c in zip(*parted.nonzero(), strict=True)] == [(2, 4)]
    [outline] = [p for p in parse(chart_svg(chart)).iter(f"{SVG}path") if p.get("class") == "lx-outline"]
    whole = make_chart("BBBBBB\nBBBBBB\nBBBBBB")
    [plain] = [p for p in parse(chart_svg(whole)).iter(f"{SVG}path") if p.get("class") == "lx-outline"]
    assert outline.get("d").count("M") == plain.get("d").count("M") + 1


def test_stretches_tell_their_number_in_the_squares_beyond_and_to_those_who_listen() -> None:
    chart = make_chart(ARMHOLES, shaping={2: Shaping(-3, left=-3, right=0)})
    [group] = [g for g in parse(chart_svg(chart)).iter(f"{SVG}g") if g.get("class") == "lx-shaping"]
    assert group.find(f"{SVG}title").text == "bind off 3"
    assert [t.text for t in group.findall(f"{SVG}text")] == ["3"]
