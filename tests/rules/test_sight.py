"""Colour arithmetic against a colour library; tests/reference has the published values."""

import random
from itertools import pairwise

import pytest
from coloraide import Color
from hypothesis import given
from hypothesis import strategies as st

from lintarsia.rules.shared.sight import difference, farther, seen


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
