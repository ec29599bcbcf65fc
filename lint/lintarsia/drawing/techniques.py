"""Small drawings for the guide: how a thing is done, in stitches and yarn of our own drawing.

The gold yarn is always the one to look at. Coordinates are in stitches and rows from the lower left of the swatch.
"""

from collections.abc import Callable

from lintarsia.drawing.geometry import Geometry
from lintarsia.drawing.guideparts import BLUE, GOLD, OAT, arrow, cased, drawn, way
from lintarsia.drawing.handwork import HANDWORK
from lintarsia.drawing.holders import cord
from lintarsia.drawing.shades import ACCENT, INK, PAPER


@drawn(
    "interlock",
    "Interlock at a colour change",
    "A right-side row: the finished yarn is laid over to the left, and the new one is taken up from beneath it, "
    "at its right, so that the two hold each other.",
    (
        "OOOOBBBB",
        "OOOOBBBB",
        "OOOOBBBB",
    ),
    back=False,
)
def interlock_svg(at: Geometry) -> str:
    """The new yarn comes from beneath the finished one at a colour change."""
    new = way(at, "M", 4.9, -1.3, "C", 4.9, 0.4, 4.6, 1.75, 3.4, 1.75, "C", 2.6, 1.75, 2, 1.75, 0.6, 1.75)
    old = way(at, "M", 7.6, 1.45, "C", 6, 1.45, 5.4, 1.45, 4.9, 1.45, "C", 3.6, 1.45, 3.2, 0.3, 3.1, -1.3)
    return cased(new, OAT, 4.2) + cased(old, BLUE, 4.2) + arrow(at, 0.5, 1.75, 180)


@drawn(
    "gap",
    "Closing the gap where a block begins",
    "From the wrong side: the end is drawn across the gap into the neighbouring block, then on along the boundary.",
    (
        "OOOOBBBB",
        "OOOOBBBB",
        "OOOOBBBB",
        "OOOOOOOO",
    ),
    back=True,
)
def gap_svg(at: Geometry) -> str:
    """The end is woven across the gap at the start of a block."""
    hole = way(at, "M", 4, 2.5, "C", 4.3, 2, 4.3, 1, 4, 0.5, "C", 3.7, 1, 3.7, 2, 4, 2.5) + "z"
    tail = way(at, "M", 4.6, 1.5, "C", 4.2, 1.2, 3.8, 1.2, 3.4, 1.5, "S", 2.9, 2.1, 3.35, 2.5, "S", 2.9, 3.1, 3.35, 3.7)
    return (
        f'<path fill="{INK}" stroke="{PAPER}" stroke-width="1.4" d="{hole}"/>{cord(tail, GOLD, 3.6)}'
        f"{arrow(at, 3.4, 3.8, -62)}"
    )


@drawn(
    "duplicate-stitch",
    "Duplicate stitch",
    "The yarn comes up at the foot of a stitch, passes behind the two legs of the stitch above, and goes down "
    "again at the foot, covering the stitch exactly.",
    (
        "BBBBBBBB",
        "BBBBGBBB",
        "BBBBBBBB",
    ),
    back=False,
)
def duplicate_svg(at: Geometry) -> str:
    """Duplicate stitch follows the V of the stitch beneath it."""
    tail = way(at, "M", 4.5, 0.8, "C", 4.5, -0.4, 4.9, -0.9, 6.2, -1.1)
    behind = way(at, "M", 4.1, 2.5, "C", 4.2, 2.85, 4.8, 2.85, 4.9, 2.5)
    return (
        f'{cord(tail, GOLD, 3.6)}<path stroke="{PAPER}" stroke-width="4.6" d="{behind}"/>'
        f'<path stroke="{ACCENT}" stroke-width="2" stroke-dasharray=".1 3.6" d="{behind}"/>'
    )


@drawn(
    "float",
    "Catching a float",
    "From the wrong side: half-way along a long float the working yarn is laid over it once, so that it lies "
    "against the fabric.",
    (
        "BBBBBBBBBB",
        "BBBBBBBBBB",
        "GBBBBBBBBG",
        "BBBBBBBBBB",
    ),
    back=True,
)
def float_svg(at: Geometry) -> str:
    """A long float caught once half-way."""
    across = way(at, "M", 1, 1.5, "C", 2, 0.7, 3.8, 0.7, 5, 1.45, "C", 6.2, 0.7, 8, 0.7, 9, 1.5)
    catch = way(at, "M", 4.64, 0.95, "C", 4.74, 1.85, 5.26, 1.85, 5.36, 0.95)
    return cord(across, GOLD, 3.6) + cord(catch, BLUE, 4.6)


@drawn(
    "tail",
    "Weaving in an end",
    "From the wrong side: the end runs up along the interlocks of the boundary, then doubles back the other way.",
    (
        "OOOOBBBB",
        "OOOOBBBB",
        "OOOOBBBB",
        "OOOOBBBB",
        "OOOOBBBB",
        "OOOOOOOO",
    ),
    back=True,
)
def tail_svg(at: Geometry) -> str:
    """An end runs along the interlocks, then doubles back."""
    up: list[str | float] = ["M", 4.6, 1.5, "C", 4.2, 1.2, 3.75, 1.3, 3.75, 1.7]
    for step in range(1, 4):
        side = 0.27 if step % 2 else -0.27
        up += ["S", 4 + side, 1.55 + step, 4 + side, 1.8 + step]
    back: list[str | float] = ["C", 4.27, 5.6, 5, 5.6, 4.9, 4.8, "S", 4.6, 4.1, 4.9, 3.6, "S", 4.6, 2.9, 4.85, 2.4]
    return cord(way(at, *up, *back), GOLD, 3.4) + arrow(at, 4.87, 2.25, 74)


TECHNIQUES: dict[str, Callable[..., str]] = {
    "interlock": interlock_svg,
    "gap": gap_svg,
    "duplicate-stitch": duplicate_svg,
    "float": float_svg,
    "tail": tail_svg,
    **HANDWORK,
}
