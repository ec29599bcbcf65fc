"""Where long floats are caught: as few times as will do, evenly, between two stitches."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lintarsia.chart import Limits, Technique
from lintarsia.chart.measure import StitchCount
from lintarsia.planning.catches import catches
from lintarsia.planning.planner import make_plan


def caught(chart) -> list[tuple[int, int, int]]:
    plan = make_plan(chart)
    return [(c.row, c.left, c.right) for c in catches(chart, plan.threads, plan.bounds.float_stitches)]


def stranded(draw, picture: str, most: int = 5):
    return draw(picture, technique=Technique.STRANDED, limits=Limits(float=StitchCount(most)))


def test_a_float_as_long_as_the_limit_lies_loose(draw):
    assert caught(stranded(draw, "ABBBBBA")) == []


def test_one_stitch_more_is_caught_in_the_middle(draw):
    assert caught(stranded(draw, "ABBBBBBA")) == [(0, 3, 4)]


def test_the_same_from_the_other_side(draw):
    """Row 2 is worked from left to right; seven stitches are halved as 4 and 3 either way."""
    assert caught(stranded(draw, "ABBBBBBBA AAAAAAAAA")) == [(1, 4, 5)]
    assert caught(stranded(draw, "AAAAAAAAA ABBBBBBBA")) == [(0, 3, 4)]


def test_no_stitch_cells_are_not_counted(draw):
    assert caught(stranded(draw, "ABB..BBBA")) == []
    assert caught(stranded(draw, "ABBB..BBBA")) == [(0, 3, 6)]


@given(st.integers(1, 40), st.integers(1, 9))
def test_no_part_is_longer_than_the_limit_and_none_is_caught_in_vain(length, most):
    from charts_drawn import draw_chart

    chart = stranded(draw_chart, "A" + "B" * length + "A", most)
    places = sorted(left for _, left, _ in caught(chart))
    parts = [b - a for a, b in zip([0, *places], [*places, length], strict=True)]
    assert max(parts) <= most
    assert len(places) == -(-length // most) - 1


@pytest.mark.parametrize("technique", [Technique.INTARSIA, Technique.MIXED])
def test_where_nothing_is_stranded_nothing_is_caught(draw, technique):
    assert caught(draw("ABBBBBBBBA ABBBBBBBBA", technique=technique, limits=Limits(strand=0))) == []
