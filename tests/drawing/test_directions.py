"""Which way rows are worked, in a drawing: arrows and numbers stand where a row begins, and arrows point along it."""

import re

import pytest
from drawn import SVG, make_chart, parse

from lintarsia.chart import Side
from lintarsia.drawing import chart_svg
from lintarsia.drawing.shades import ACCENT

LOPSIDED = "BBWWW\nBBBWW\nBBBBW\n"


def arrows(svg: str) -> list[tuple[str, str]]:
    """(side of the cells, way it points) of each arrow from the lowest up."""
    root = parse(svg)
    left = float(root.get("data-left"))
    right = left + float(root.get("data-cell-width")) * float(root.get("data-columns", 5))
    found = []
    for path in root.iter(f"{SVG}path"):
        if path.get("class") != "lx-way":
            continue
        assert path.get("stroke") == ACCENT
        numbers = [float(n) for n in re.findall(r"-?[\d.]+", path.get("d"))]
        start, y, tip, back, up, along, down, _, other = numbers
        side = "right" if min(start, tip) > right else "left" if max(start, tip) < left else "inside"
        way = "leftward" if tip < start else "rightward"
        assert (back > 0) is (way == "leftward"), "the head opens towards the shaft"
        assert (along, up, down, other) == (-back, -3, 3, 3)
        assert abs(start - tip) > abs(back)
        found.append((-y, side, way))
    return [(side, way) for _, side, way in sorted(found)]


BEGINS_RIGHT, BEGINS_LEFT = ("right", "leftward"), ("left", "rightward")


@pytest.mark.parametrize(
    ("worked", "first", "expected"),
    [
        ("flat", Side.RS, [BEGINS_RIGHT, BEGINS_LEFT]),
        ("flat", Side.WS, [BEGINS_LEFT, BEGINS_RIGHT]),
        ("turned", Side.RS, [BEGINS_RIGHT, BEGINS_LEFT]),
        ("round", Side.RS, [BEGINS_RIGHT, BEGINS_RIGHT]),
    ],
)
def test_arrows_point_the_way_the_row_is_worked(worked: str, first: Side, expected: list[tuple[str, str]]) -> None:
    """A right-side row goes from right to left as the chart is seen, a wrong-side row back; rounds all go left."""
    assert arrows(chart_svg(make_chart(LOPSIDED, worked=worked, first_row=first))) == expected


def test_a_single_row_has_a_single_arrow() -> None:
    assert arrows(chart_svg(make_chart("BBBWW"))) == [BEGINS_RIGHT]
