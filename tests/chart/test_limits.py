"""The limits that hold for a chart, by technique, wearer, settings and what the chart says (docs/supplies.md)."""

from typing import Any

import pytest

from lintarsia.chart import HOUSE_LIMITS, Chart, Colour, FloatGauge, Gauge, Limits, Technique, Wearer
from lintarsia.chart.grid import build_grid
from lintarsia.chart.measure import Length, StitchCount

GAUGE = Gauge(22, 30, Length(10, "cm"))  # 4.5 mm a stitch: 5 of them in 2.5 cm
INFANT: Any = {"wearer": Wearer.INFANT}


def limits(house: Limits = HOUSE_LIMITS, **fields: Any) -> tuple[int | None, int | None, int | None]:
    """(strand, carry, idle)"""
    chart = Chart("x", "x", GAUGE, {"A": Colour("A", "A", "#000000")}, build_grid(["A"], "A"))
    bounds = Chart(**{name: getattr(chart, name) for name in Chart.__slots__} | fields).bounds(house)
    return bounds.strand, bounds.carry, bounds.idle


@pytest.mark.parametrize(
    ("technique", "expected"),
    [(Technique.INTARSIA, (0, 5, 2)), (Technique.MIXED, (5, 5, 2)), (Technique.STRANDED, (None, None, None))],
)
def test_a_yarn_is_carried_as_far_as_a_float_may_be(technique: Technique, expected: tuple[int | None, ...]) -> None:
    assert limits(technique=technique) == expected


def test_a_longer_float_is_a_longer_carry_unless_that_is_said() -> None:
    assert limits(limits=Limits(float=Length(4, "cm"))) == (0, 8, 2)
    assert limits(limits=Limits(float=7), technique=Technique.MIXED) == (7, 7, 2)
    assert limits(limits=Limits(float=7, carry=3)) == (0, 3, 2)
    assert limits(Limits(float=StitchCount(6))) == (0, 6, 2)
    assert limits(Limits(carry=2), limits=Limits(float=7)) == (0, 2, 2)


@pytest.mark.parametrize(
    ("carry", "stitches"),
    [(Length(1, "cm"), 2), (Length(0.9, "cm"), 1), (StitchCount(4), 4), (0, 0), (Length(2, "in"), 11)],
)
def test_a_carry_as_a_length_is_the_whole_stitches_in_it(carry: Any, stitches: int) -> None:
    assert limits(limits=Limits(carry=carry))[1] == stitches


def test_a_carry_runs_behind_the_plain_fabric_and_a_float_behind_the_stranded_one() -> None:
    gauge = Gauge(20, 30, Length(10, "cm"), float_gauge=FloatGauge(25, 30))  # 5 mm and 4 mm
    assert limits(gauge=gauge, limits=Limits(carry=Length(2, "cm"))) == (0, 4, 2)
    own = Limits(carry=Length(2, "cm"))
    assert limits(gauge=gauge, limits=own, technique=Technique.STRANDED) == (None, 5, None)


def test_nothing_is_carried_far_or_waits_in_an_infants_piece() -> None:
    assert limits(**INFANT) == (0, 1, 0)
    assert limits(technique=Technique.MIXED, **INFANT) == (5, 1, 0)
    assert limits(Limits(carry=3, idle=2), **INFANT) == (0, 1, 0), "the settings are not about this chart"
    assert limits(Limits(carry=0), **INFANT) == (0, 0, 0), "the settings are stricter"
    assert limits(limits=Limits(carry=3), **INFANT) == (0, 3, 0), "the chart says so itself"
    assert limits(limits=Limits(idle=1), **INFANT) == (0, 1, 1)


def test_a_stranded_yarn_runs_along_every_row_whoever_wears_it() -> None:
    """Its floats are for the rules to judge: a limit on the way up would join yarns anew and shorten none of them."""
    assert limits(technique=Technique.STRANDED, **INFANT) == (None, None, None)
    assert limits(Limits(carry=2, idle=1, strand=3), technique=Technique.STRANDED) == (None, None, None)
