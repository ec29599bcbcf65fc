"""Contrast: W3C, Web Content Accessibility Guidelines 2.2, "contrast ratio" and "relative luminance".

Black on white is 21 by definition; #767676 is the lightest grey that reaches 4.5 on white, #777777 just does not (the
understanding document of criterion 1.4.3); red on blue, 2.15, follows from the formula.
"""

import pytest

from lintarsia.drawing import shades
from lintarsia.rules.shared.sight import seen

RATIOS = [
    ("#000000", "#ffffff", 21.0),
    ("#767676", "#ffffff", 4.54),
    ("#777777", "#ffffff", 4.48),
    ("#ff0000", "#0000ff", 2.15),
]


@pytest.mark.parametrize(("one", "other", "ratio"), RATIOS)
def test_contrast_of_drawings(one: str, other: str, ratio: float) -> None:
    assert shades.contrast(one, other) == pytest.approx(ratio, abs=0.005)
    assert shades.contrast(other, one) == shades.contrast(one, other)


@pytest.mark.parametrize(("one", "other", "ratio"), RATIOS)
def test_lightness_gives_the_same_ratios(one: str, other: str, ratio: float) -> None:
    """(Y1 + 0.05) / (Y2 + 0.05): what prints as grey is luminance, and L* is nothing else."""
    dark, light = sorted(luminance(shade) for shade in (one, other))
    assert (light + 0.05) / (dark + 0.05) == pytest.approx(ratio, abs=0.005)


def luminance(shade: str) -> float:
    """From L* back to Y (CIE 15)."""
    lightness = seen(shade).plain.l
    return ((lightness + 16) / 116) ** 3 if lightness > 8 else lightness * 27 / 24389
