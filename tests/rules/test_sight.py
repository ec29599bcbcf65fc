"""Colour arithmetic against the paper it comes from and against a colour library."""

import random
from itertools import pairwise

import pytest
from coloraide import Color
from hypothesis import given
from hypothesis import strategies as st

from lintarsia.rules.sight import Lab, difference, farther, seen

# The test data of G. Sharma, W. Wu, E. N. Dalal, "The CIEDE2000 color-difference formula", Color Res. Appl. 30 (2005)
# 21, table 1, as the test suite of the library colour-science carries them (checked there against the authors' own
# file). Its 14th pair, which that suite leaves out, stands apart below.
SHARMA = (
    ((50.0000, 2.6772, -79.7751), (50.0000, 0.0000, -82.7485), 2.0425),
    ((50.0000, 3.1571, -77.2803), (50.0000, 0.0000, -82.7485), 2.8615),
    ((50.0000, 2.8361, -74.0200), (50.0000, 0.0000, -82.7485), 3.4412),
    ((50.0000, -1.3802, -84.2814), (50.0000, 0.0000, -82.7485), 1.0000),
    ((50.0000, -1.1848, -84.8006), (50.0000, 0.0000, -82.7485), 1.0000),
    ((50.0000, -0.9009, -85.5211), (50.0000, 0.0000, -82.7485), 1.0000),
    ((50.0000, 0.0000, 0.0000), (50.0000, -1.0000, 2.0000), 2.3669),
    ((50.0000, -1.0000, 2.0000), (50.0000, 0.0000, 0.0000), 2.3669),
    ((50.0000, 2.4900, -0.0010), (50.0000, -2.4900, 0.0009), 7.1792),
    ((50.0000, 2.4900, -0.0010), (50.0000, -2.4900, 0.0010), 7.1792),
    ((50.0000, 2.4900, -0.0010), (50.0000, -2.4900, 0.0011), 7.2195),
    ((50.0000, 2.4900, -0.0010), (50.0000, -2.4900, 0.0012), 7.2195),
    ((50.0000, -0.0010, 2.4900), (50.0000, 0.0009, -2.4900), 4.8045),
    ((50.0000, -0.0010, 2.4900), (50.0000, 0.0011, -2.4900), 4.7461),
    ((50.0000, 2.5000, 0.0000), (50.0000, 0.0000, -2.5000), 4.3065),
    ((50.0000, 2.5000, 0.0000), (73.0000, 25.0000, -18.0000), 27.1492),
    ((50.0000, 2.5000, 0.0000), (61.0000, -5.0000, 29.0000), 22.8977),
    ((50.0000, 2.5000, 0.0000), (56.0000, -27.0000, -3.0000), 31.9030),
    ((50.0000, 2.5000, 0.0000), (58.0000, 24.0000, 15.0000), 19.4535),
    ((50.0000, 2.5000, 0.0000), (50.0000, 3.1736, 0.5854), 1.0000),
    ((50.0000, 2.5000, 0.0000), (50.0000, 3.2972, 0.0000), 1.0000),
    ((50.0000, 2.5000, 0.0000), (50.0000, 1.8634, 0.5757), 1.0000),
    ((50.0000, 2.5000, 0.0000), (50.0000, 3.2592, 0.3350), 1.0000),
    ((60.2574, -34.0099, 36.2677), (60.4626, -34.1751, 39.4387), 1.2644),
    ((63.0109, -31.0961, -5.8663), (62.8187, -29.7946, -4.0864), 1.2630),
    ((61.2901, 3.7196, -5.3901), (61.4292, 2.2480, -4.9620), 1.8731),
    ((35.0831, -44.1164, 3.7933), (35.0232, -40.0716, 1.5901), 1.8645),
    ((22.7233, 20.0904, -46.6940), (23.0331, 14.9730, -42.5619), 2.0373),
    ((36.4612, 47.8580, 18.3852), (36.2715, 50.5065, 21.2231), 1.4146),
    ((90.8027, -2.0831, 1.4410), (91.1528, -1.6435, 0.0447), 1.4441),
    ((90.9257, -0.5406, -0.9208), (88.6381, -0.8985, -0.7239), 1.5381),
    ((6.7747, -0.2908, -2.4247), (5.8714, -0.0985, -2.2286), 0.6377),
    ((2.0776, 0.0795, -1.1350), (0.9033, -0.0636, -0.5514), 0.9082),
)


@pytest.mark.parametrize(("one", "two", "apart"), SHARMA)
def test_ciede2000_of_the_published_pairs(
    one: tuple[float, float, float], two: tuple[float, float, float], apart: float
) -> None:
    assert len(SHARMA) == 33
    assert difference(Lab(*one), Lab(*two)) == pytest.approx(apart, abs=5e-5)
    assert difference(Lab(*two), Lab(*one)) == pytest.approx(apart, abs=5e-5)


def test_ciede2000_of_the_pair_on_the_edge() -> None:
    """Pair 14: the hues differ by exactly half a turn, so the last bit decides. Values from the paper, from memory."""
    found = difference(Lab(50, -0.0010, 2.4900), Lab(50, 0.0010, -2.4900))
    assert min(abs(found - 4.8045), abs(found - 4.7461)) < 5e-5


def shades(number: int, seed: int) -> list[str]:
    chance = random.Random(seed)
    return [f"#{chance.randrange(2**24):06x}" for _ in range(number)] + ["#000000", "#ffffff", "#808080", "#ff0000"]


def library(shade: str, kind: str = "") -> tuple[float, ...]:
    colour = Color(shade)
    if kind:
        colour = colour.filter(kind, method="brettel" if kind == "tritan" else "machado").clip("srgb")
    return tuple(colour.convert("lab-d65").coords(nans=False))


@pytest.mark.parametrize("kind", ["", "protan", "deutan", "tritan"])
def test_shades_as_each_reader_sees_them_against_coloraide(kind: str) -> None:
    for shade in shades(200, seed=7):
        mine = getattr(seen(shade), kind or "plain")
        assert tuple(mine) == pytest.approx(library(shade, kind), abs=0.02), shade


def test_ciede2000_of_shades_against_coloraide() -> None:
    every = shades(150, seed=11)
    for one, two in pairwise(every):
        a, b = Color(one).convert("lab-d65"), Color(two).convert("lab-d65")
        wanted = a.delta_e(b, method="2000", space="lab-d65")
        assert difference(seen(one).plain, seen(two).plain) == pytest.approx(wanted, abs=0.01), (one, two)


COMPONENT = st.integers(0, 255)
SHADE = st.tuples(COMPONENT, COMPONENT, COMPONENT).map(lambda c: "#" + bytes(c).hex())


@given(SHADE, SHADE, st.floats(0.1, 60))
def test_what_lightness_alone_sets_apart_is_apart(one: str, two: str, least: float) -> None:
    a, b = seen(one).plain, seen(two).plain
    if farther(a, b, least):
        assert difference(a, b) >= least


@given(SHADE)
def test_greys_are_the_same_to_every_reader(shade: str) -> None:
    level = shade[1:3]
    grey = seen(f"#{level * 3}")
    for reader in grey:
        assert tuple(reader) == pytest.approx(tuple(grey.plain), abs=0.6)
