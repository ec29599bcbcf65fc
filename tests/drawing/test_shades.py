"""Contrast against coloraide (WCAG's own figures are in tests/reference); inks that can always be read."""

import itertools

import pytest
from coloraide import Color

from lintarsia.drawing import shades

LADDER = ["#" + "".join(f"{part:02x}" for part in parts) for parts in itertools.product(range(0, 256, 51), repeat=3)]


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
