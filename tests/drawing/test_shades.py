"""Contrast against WCAG's own figures and against coloraide; inks that can always be read."""

import itertools

import pytest
from coloraide import Color

from lintarsia.publishing.drawing import shades

LADDER = ["#" + "".join(f"{part:02x}" for part in parts) for parts in itertools.product(range(0, 256, 51), repeat=3)]


@pytest.mark.parametrize(
    ("one", "other", "ratio"),
    [
        # WCAG 2.2 understanding documents: black on white is 21, #767676 the lightest grey that reaches 4.5 on white.
        ("#000000", "#ffffff", 21.0),
        ("#767676", "#ffffff", 4.54),
        ("#777777", "#ffffff", 4.48),
        ("#ff0000", "#0000ff", 2.15),
    ],
)
def test_contrast_is_that_of_wcag(one: str, other: str, ratio: float) -> None:
    assert shades.contrast(one, other) == pytest.approx(ratio, abs=0.005)
    assert shades.contrast(other, one) == shades.contrast(one, other)


def test_contrast_agrees_with_a_colour_library() -> None:
    for one, other in zip(LADDER, reversed(LADDER), strict=True):
        assert shades.contrast(one, other) == pytest.approx(Color(one).contrast(other, method="wcag21"), rel=1e-3)


def test_a_symbol_can_be_read_on_every_shade() -> None:
    worst = min(shades.contrast(shade, shades.ink_on(shade)) for shade in LADDER)
    assert worst >= shades.TEXT_CONTRAST


def test_ink_stays_quiet_where_it_can() -> None:
    # On navy and on cream black or white would shout; a tint that just reads is taken.
    for shade in ("#1f2f5c", "#f4e7c3"):
        assert shades.contrast(shade, shades.ink_on(shade)) < 5.5


def test_a_yarns_edge_is_seen_on_paper() -> None:
    for shade in LADDER:
        assert shades.contrast(shades.edge_on(shade), shades.PAPER) >= shades.GRAPHIC_CONTRAST


def test_page_inks_can_be_read_on_paper() -> None:
    for ink in (shades.INK, shades.MUTED, shades.ACCENT):
        assert shades.contrast(ink, shades.PAPER) >= shades.TEXT_CONTRAST
