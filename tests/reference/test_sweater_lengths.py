"""Yarn in a sweater beside a yarn seller's table: adult stocking-stitch sweaters at 20 stitches to 10 cm.

The table's chest is that of the finished sweater, so no ease comes on top. A chart has no ribs, seams, shaping of
sleeves or added length in larger sizes: what is reckoned lies below the table, and by how much is stated (here and in
docs/yarn.md), not let pass in a band.
"""

import re
from pathlib import Path

import pytest

from lintarsia.chart import Gauge
from lintarsia.chart.measure import Length
from lintarsia.planning.rates import loop_mm

TEN_CM = Length(10, "cm")
ROWS_PER_10 = 20 * 30 / 22  # the typical ratio of rows to stitches
# Finished chest, cm; the seller's metres; ours are below them by so many per cent, by hand: at 20 × 27.3 stitches
# a stitch takes 4.1 × 5 mm = 20.5 mm, and a square centimetre has 5.4545 of them, 11.18 cm of yarn.
TABLE = [(91.5, 1175, 16.2), (101.5, 1349, 21.9), (112, 1527, 26.2), (122, 1780, 32.8)]


def sweater_metres(chest: float) -> float:
    """Front and back, together as wide as the finished chest, 62 cm long; two sleeves of 46 cm, 34 cm round on average.

    These shapes are ours, and the same in every size.
    """
    stitches = (chest * 62 + 2 * 34 * 46) * 2.0 * ROWS_PER_10 / 10
    return stitches * loop_mm(Gauge(20, ROWS_PER_10, TEN_CM)) / 1000


@pytest.mark.parametrize(("chest", "metres", "less"), TABLE)
def test_how_far_below_the_sellers_table(chest: float, metres: float, less: float) -> None:
    assert 100 * (1 - sweater_metres(chest) / metres) == pytest.approx(less, abs=0.2)


def test_the_page_on_yarn_states_it() -> None:
    page = (Path(__file__).parents[2] / "docs" / "yarn.md").read_text(encoding="utf-8")
    rows = re.findall(r"^\| ([\d.]+) cm \| (\d+) m \| (\d+) m \| (\d+) % \|$", page, re.MULTILINE)
    assert [tuple(map(float, row)) for row in rows] == [
        (chest, metres, round(sweater_metres(chest)), round(100 * (1 - sweater_metres(chest) / metres)))
        for chest, metres, _ in TABLE
    ]
