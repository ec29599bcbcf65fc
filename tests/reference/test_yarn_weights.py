"""Yarn weights: Craft Yarn Council, Standard Yarn Weight System (craftyarncouncil.com; table as read in 2026).

Stitches over 4 in of stocking stitch and needle sizes in mm. The table calls itself a guideline; lace is often worked
on larger needles than it has.
"""

import pytest

from lintarsia.chart import Chart, Colour, Gauge, Yarn
from lintarsia.chart.grid import build_grid
from lintarsia.chart.measure import Length
from lintarsia.rules.base import NoOptions, Work
from lintarsia.rules.gauge.yarn_weight import USUAL, check

# weight, name, fewest and most stitches in 4 in, needle in mm.
TABLE = [
    (0, "lace", 33, 40, 1.5, 2.25),
    (1, "super fine", 27, 32, 2.25, 3.25),
    (2, "fine", 23, 26, 3.25, 3.75),
    (3, "light", 21, 24, 3.75, 4.5),
    (4, "medium", 16, 20, 4.5, 5.5),
    (5, "bulky", 12, 15, 5.5, 8),
    (6, "super bulky", 7, 11, 8, 12.75),
    (7, "jumbo", None, 6, 12.75, None),
]


def keys(weight: int, stitches: float, over: Length, needle: Length | None = None) -> list[str]:
    chart = Chart(
        path="x",
        title="x",
        gauge=Gauge(stitches, stitches * 1.3, over, needle),
        colours={"B": Colour("B", "B", "#000000", "y")},
        grid=build_grid(["BB"], "B"),
        yarns={"y": Yarn("y", weight=weight)},
    )
    return [finding.key for finding in check(Work(chart), NoOptions())]


FOUR_INCHES = Length(4, "in")


@pytest.mark.parametrize(("weight", "name", "fewest", "most", "thin", "thick"), TABLE)
def test_yarn_weights(weight: int, name: str, fewest: int | None, most: int, thin: float, thick: float | None) -> None:
    assert USUAL[weight] == (name, fewest or 0, most, thin, thick)
    assert len(USUAL) == len(TABLE)
    assert keys(weight, most, FOUR_INCHES) == []
    assert keys(weight, most + 1, FOUR_INCHES) == ["gauge-outside"]
    if fewest:
        assert keys(weight, fewest, FOUR_INCHES) == []
        assert keys(weight, fewest, Length(10, "cm")) == []
        assert keys(weight, fewest - 1, FOUR_INCHES) == ["gauge-outside"]
    usual = fewest or most
    assert keys(weight, usual, FOUR_INCHES, Length(thin, "mm")) == []
    assert keys(weight, usual, FOUR_INCHES, Length(thin - 0.25, "mm")) == ["needle-outside"]
    if thick:
        assert keys(weight, usual, FOUR_INCHES, Length(thick, "mm")) == []
        if weight:  # lace is often worked on larger needles
            assert keys(weight, usual, FOUR_INCHES, Length(thick + 0.25, "mm")) == ["needle-outside"]
