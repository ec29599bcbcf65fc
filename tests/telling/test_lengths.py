"""Lengths in words, against the definitions of the units.

The yard is 0.9144 m and the inch 25.4 mm exactly (international yard and pound agreement, 1959); 36 inches are a yard.
"""

import pytest

from folding import each
from lintarsia.chart.measure import MM_PER
from lintarsia.telling.lengths import fabric_length, wound_length, wound_metres, yarn_length, yarn_lengths


@pytest.mark.parametrize(
    ("metres", "metric", "imperial"),
    [
        (0.0254, "3 cm", "1 in"),
        (0.889, "89 cm", "35 in"),
        (0.9144, "91 cm", "1.0 yd"),
        (0.994, "99 cm", "1.1 yd"),
        (0.995, "1.0 m", "1.1 yd"),
        (5.4, "5.4 m", "5.9 yd"),
        (91.44, "91.4 m", "100 yd"),
        (99.94, "99.9 m", "109 yd"),
        (99.95, "100 m", "109 yd"),
        (612.0, "612 m", "669 yd"),
        (1371.6, "1,372 m", "1,500 yd"),
    ],
)
def test_yarn_to_the_nearest(metres: float, metric: str, imperial: str) -> None:
    assert (yarn_length(metres, False), yarn_length(metres, True)) == (metric, imperial)


def test_a_yard_is_shorter_than_a_metre() -> None:
    """The same yarn has more yards than metres, at every length and in every way of telling it."""
    for metres in (2.3, 47.0, 1250.0):
        for tell in (yarn_length, wound_length, lambda m, i: yarn_lengths((m, m + 0.004), i)[0]):
            yards, plain = (float(tell(metres, i).split()[0].replace(",", "")) for i in (True, False))
            assert yards == pytest.approx(plain / 0.9144, abs=0.6)
            assert yards > plain


def test_two_lengths_that_would_read_the_same_are_told_finer() -> None:
    assert yarn_lengths((120.2, 120.4), False) == ("120.20 m", "120.40 m")
    assert yarn_lengths((109.728, 109.8), True) == ("120.00 yd", "120.08 yd")
    assert yarn_lengths((1828.8, 1829.0), True) == ("2,000.00 yd", "2,000.22 yd")
    assert yarn_lengths((120.2, 127.4), False) == ("120 m", "127 m")
    assert yarn_lengths((120.2, 120.2), True) == ("131 yd", "131 yd")


@pytest.mark.parametrize(
    ("metres", "metric", "imperial"),
    [
        (0.05, "5 cm", "2 in"),
        (0.051, "10 cm", "4 in"),
        (0.31, "35 cm", "14 in"),
        (0.86, "90 cm", "34 in"),
        (0.87, "90 cm", "1.00 yd"),
        (0.95, "95 cm", "1.25 yd"),
        (0.96, "1.0 m", "1.25 yd"),
        (9.144, "9.2 m", "10.00 yd"),
        (9.2, "9.2 m", "10.50 yd"),
        (10.0, "10.0 m", "11.00 yd"),
        (10.01, "10.5 m", "11.00 yd"),
        (1234.1, "1,234.5 m", "1,350.00 yd"),
    ],
)
def test_yarn_to_be_wound_is_rounded_up(metres: float, metric: str, imperial: str) -> None:
    assert (wound_length(metres, False), wound_length(metres, True)) == (metric, imperial)


@pytest.mark.parametrize(
    ("mm", "metric", "imperial"),
    [
        (8.0, "8 mm", "0.3 in"),
        (9.94, "10 mm", "0.4 in"),
        (9.95, "1 cm", "0.4 in"),
        (25.4, "2.5 cm", "1 in"),
        (120.0, "12 cm", "4.7 in"),
        (254.0, "25.4 cm", "10 in"),
        (12700.0, "1,270 cm", "500 in"),
    ],
)
def test_distances_on_the_fabric(mm: float, metric: str, imperial: str) -> None:
    assert (fabric_length(mm, False), fabric_length(mm, True)) == (metric, imperial)


@each("metres, imperial", [(m * 1.173**i, imp) for i in range(40) for m in (0.07, 0.1) for imp in (False, True)])
def test_what_is_measured_off_is_as_long_as_it_is_told(metres: float, imperial: bool) -> None:
    figure, unit = wound_length(metres, imperial).replace(",", "").split()
    assert wound_metres(metres, imperial) == pytest.approx(float(figure) * MM_PER[unit] / 1000)
    assert wound_metres(metres, imperial) >= metres - 1e-8
