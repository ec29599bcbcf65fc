"""Colour as colour-blind readers see it, against the library colour-science.

Protan and deutan: the matrices of G. M. Machado, M. M. Oliveira, L. A. F. Fernandes, IEEE Trans. Vis. Comput. Graph. 15
(2009) 1291, severity 1.0, as that library tabulates them. The library has no Brettel 1997 model, so tritan is compared
with coloraide alone (tests/rules/test_sight.py).
"""

import warnings
from itertools import pairwise
from types import ModuleType

import numpy as np
import pytest

from lintarsia.rules.shared import sight

MACHADO = {"protan": "Protanomaly", "deutan": "Deuteranomaly"}


@pytest.fixture(scope="module")
def colour() -> ModuleType:
    """The library, which takes a second to import and warns that it could draw if matplotlib were there."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        import colour

        return colour


def shades(number: int) -> list[str]:
    dice = np.random.default_rng(2009)
    return ["#000000", "#ffffff", "#ff0000"] + [f"#{value:06x}" for value in dice.integers(0, 2**24, number)]


@pytest.mark.parametrize("kind", MACHADO)
def test_matrices(colour: ModuleType, kind: str) -> None:
    ours = {"protan": sight._PROTAN, "deutan": sight._DEUTAN}[kind]
    theirs = colour.blindness.CVD_MATRICES_MACHADO2010[MACHADO[kind]][1.0]
    assert np.array_equal(np.array(ours), theirs)


@pytest.mark.parametrize("kind", MACHADO)
def test_shades_as_a_colour_blind_reader_sees_them(colour: ModuleType, kind: str) -> None:
    """From #rrggbb to L*a*b* by the library's own steps: decode, multiply, clip, XYZ, Lab."""
    matrix = colour.blindness.CVD_MATRICES_MACHADO2010[MACHADO[kind]][1.0]
    for shade in shades(100):
        linear = colour.models.eotf_sRGB(colour.notation.HEX_to_RGB(shade))
        assert getattr(sight.seen(shade), kind) == pytest.approx(lab(colour, np.clip(matrix @ linear, 0, 1)), abs=0.05)


def test_shades_as_most_eyes_see_them(colour: ModuleType) -> None:
    for shade in shades(100):
        linear = colour.models.eotf_sRGB(colour.notation.HEX_to_RGB(shade))
        assert sight.seen(shade).plain == pytest.approx(lab(colour, linear), abs=0.05)


def test_differences(colour: ModuleType) -> None:
    every = [sight.seen(shade).plain for shade in shades(200)]
    for one, two in pairwise(every):
        wanted = float(colour.difference.delta_E_CIE2000(np.array(one), np.array(two)))
        assert sight.difference(one, two) == pytest.approx(wanted, abs=1e-6)


def lab(colour: ModuleType, linear: np.ndarray) -> tuple[float, ...]:
    """L*a*b* under the white of sRGB's definition; the library's matrix is rounded to four decimals."""
    space = colour.models.RGB_COLOURSPACE_sRGB
    xyz = space.matrix_RGB_to_XYZ @ linear
    return tuple(map(float, colour.XYZ_to_Lab(xyz, illuminant=space.whitepoint)))
