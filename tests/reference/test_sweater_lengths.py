"""Yarn in a sweater, a sanity band: a yarn seller's table, adult stocking-stitch sweaters at 20 stitches to 10 cm."""

import pytest

from lintarsia.chart import Gauge
from lintarsia.chart.measure import Length
from lintarsia.planning.yarn import loop_mm

TEN_CM = Length(10, "cm")


@pytest.mark.parametrize(("chest", "metres"), [(91.5, 1175), (101.5, 1349), (112, 1527), (122, 1780)])
def test_sweaters_of_a_sellers_table(chest: float, metres: float) -> None:
    """Front and back are half the chest (10 % ease) wide and 62 cm long; two sleeves of 46 cm average 34 cm round.

    These shapes are ours. The table includes ribs, seams and sizes of its makers' choosing, so half as much again is
    let pass.
    """
    area = chest * 1.1 * 62 + 2 * 34 * 46  # cm²
    rows_per_10 = 20 * 1.36  # 22:30, the typical ratio of rows to stitches
    stitches = area * 2.0 * rows_per_10 / 10
    length = stitches * loop_mm(Gauge(20, rows_per_10, TEN_CM)) / 1000
    assert metres / 1.5 < length < metres * 1.5
