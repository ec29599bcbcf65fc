"""Geometry of plain knitting: D. L. Munden, J. Textile Institute 50 (1959) T448.

Courses/cm = Kc / l, wales/cm = Kw / l, stitches/cm² = Ks / l², l the loop length in cm. Dry-relaxed Kc 5.0, Kw 3.8,
Ks 19.0; wet-relaxed 5.3, 4.1, 21.6 (from memory); fully relaxed Kc 5.5, Kw 4.2. Kc × Kw and Ks agree within rounding.
Examined value: GATE textile engineering paper 2015, question 54. Maker's rule: Simply Knitting 2018; Black Squirrel,
"Yarn Chicken".
"""

import pytest

from lintarsia.chart import Gauge
from lintarsia.chart.measure import Length
from lintarsia.planning.rates import MUNDEN_KW, loop_mm

TEN_CM = Length(10, "cm")
CONSTANTS = {"dry-relaxed": (5.0, 3.8, 19.0), "wet-relaxed": (5.3, 4.1, 21.6)}


@pytest.mark.parametrize(("kc", "kw", "ks"), CONSTANTS.values(), ids=CONSTANTS)
def test_a_fabric_of_munden_gives_its_loop_back(kc: float, kw: float, ks: float) -> None:
    """Wales and courses of a 5 mm loop; the program takes every hand-knit for wet-relaxed, so their ratio is left."""
    wales, courses = kw / 0.5, kc / 0.5
    assert wales * courses == pytest.approx(ks / 0.5**2, rel=0.01)
    assert loop_mm(Gauge(wales, courses, Length(1, "cm"))) == pytest.approx(5.0 * CONSTANTS["wet-relaxed"][1] / kw)


@pytest.mark.parametrize(
    ("stitches", "rows", "expected"), [(22, 30, 18.6), (18, 24, 22.8), (30, 42, 13.7), (14, 20, 29.3)]
)
def test_loop_from_the_gauge(stitches: float, rows: float, expected: float) -> None:
    """Worked by hand: 4.1 × 100 mm / stitches. Kw 4.1 is Munden's wet-relaxed constant, from memory."""
    assert round(loop_mm(Gauge(stitches, rows, TEN_CM)), 1) == expected


def test_the_default_lies_between_dry_and_full_relaxation() -> None:
    """Munden 1959: wales/cm = Kw / loop; Kw 3.8 dry-relaxed, 4.2 fully relaxed."""
    assert 3.8 < MUNDEN_KW < 4.2


def test_examined_value_of_stitch_density() -> None:
    """GATE textile engineering paper 2015, question 54: fully relaxed, loop 0.5 cm, printed answer 92 stitches/cm².

    Kc 5.5 and Kw 4.2 over the loop give courses and wales per cm. A gauge of these must give its own loop back,
    but for the ratio of Kw 4.1 to 4.2.
    """
    wales, courses = 4.2 / 0.5, 5.5 / 0.5
    assert wales * courses == pytest.approx(92.4)
    assert wales * courses == pytest.approx(92, abs=0.5)  # as printed, to the whole stitch
    assert loop_mm(Gauge(wales, courses, Length(1, "cm"))) == pytest.approx(5.0 * 4.1 / 4.2)


def test_three_times_the_width_is_27_percent_under() -> None:
    """'A row takes three times its width' (Simply Knitting 2018; Black Squirrel, 'Yarn Chicken')."""
    width = 100 / 22
    assert 1 - 3 * width / loop_mm(Gauge(22, 30, TEN_CM)) == pytest.approx(0.27, abs=0.005)
