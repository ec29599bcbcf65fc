"""Small drawings for the guide: how a thing is done, in stitches and yarn of our own drawing.

The gold yarn is always the one to look at. Coordinates are in stitches and rows from the lower left of the swatch.
"""

from collections.abc import Callable

from lintarsia.chart import Chart, Colour, Gauge
from lintarsia.chart.grid import build_grid
from lintarsia.chart.measure import Length
from lintarsia.drawing.geometry import Geometry, geometry
from lintarsia.drawing.holders import cord
from lintarsia.drawing.shades import ACCENT, INK, PAPER
from lintarsia.drawing.stitches import Stitches
from lintarsia.drawing.svg import document, num

BLUE, OAT, GOLD = "#3a5a8c", "#e9dfc9", "#d8a23a"
_SHADES = {"B": BLUE, "O": OAT, "G": GOLD}
SCALE = 2.0


def _swatch(*lines: str) -> Chart:
    """A few stitches, top line first."""
    used = [s for s in _SHADES if any(s in line for line in lines)]
    colours = {s: Colour(s, s, _SHADES[s]) for s in used}
    return Chart("", "", Gauge(22, 30, Length(10, "cm")), colours, build_grid(lines[::-1], used))


def _way(at: Geometry, *parts: str | float) -> str:
    """Path data from commands and from pairs of stitch and row, counted from the lower left corner."""
    text, pair = "", list[float]()
    for part in parts:
        if isinstance(part, str):
            text += part
            continue
        pair.append(part)
        if len(pair) == 2:
            text += f"{num(at.x(pair[0]))} {num(at.y(pair[1]))} "
            pair.clear()
    return text.replace(" C", "C").replace(" S", "S").strip()


def _cased(path: str, shade: str, width: float) -> str:
    return f'<path stroke="{PAPER}" stroke-width="{num(width + 4.4)}" stroke-linecap="butt" d="{path}"/>' + cord(
        path, shade, width
    )


def _arrow(at: Geometry, stitch: float, row: float, turn: float) -> str:
    """An arrow head turned by `turn` degrees from pointing right."""
    where = f'transform="translate({num(at.x(stitch))} {num(at.y(row))})rotate({num(turn)})"'
    head = "M-5-4L0 0L-5 4"
    return (
        f'<path {where} stroke="{PAPER}" stroke-width="5.4" d="{head}"/>'
        f'<path {where} stroke="{ACCENT}" stroke-width="2.4" d="{head}"/>'
    )


def _picture(
    kind: str, title: str, desc: str, swatch: Chart, over: Callable[[Geometry], str], *, back: bool, prefix: str
) -> str:
    place = geometry(swatch, left=14, right=14, top=22, bottom=30)
    look = 'fill="none" stroke-linecap="round" stroke-linejoin="round"'
    stitches = Stitches(swatch, place).draw(back=back, prefix=f"{prefix}{kind}-")
    return document(
        f'<rect class="lx-sheet" width="100%" height="100%" rx="10" fill="{PAPER}"/>{stitches}'
        f"<g {look}>{over(place)}</g>",
        kind=kind,
        width=place.width,
        height=place.height,
        title=title,
        desc=desc,
        prefix=prefix,
        size=(num(place.width * SCALE), num(place.height * SCALE)),
    )


def interlock_svg(*, prefix: str = "") -> str:
    """The new yarn comes from beneath the finished one at a colour change."""

    def over(at: Geometry) -> str:
        new = _way(at, "M", 4.9, -1.3, "C", 4.9, 0.4, 4.6, 1.75, 3.4, 1.75, "C", 2.6, 1.75, 2, 1.75, 0.6, 1.75)
        old = _way(at, "M", 7.6, 1.45, "C", 6, 1.45, 5.4, 1.45, 4.9, 1.45, "C", 3.6, 1.45, 3.2, 0.3, 3.1, -1.3)
        return _cased(new, OAT, 4.2) + _cased(old, BLUE, 4.2) + _arrow(at, 0.5, 1.75, 180)

    return _picture(
        "interlock",
        "Interlock at a colour change",
        "A right-side row: the finished yarn is laid over to the left, and the new one is taken up from beneath it, "
        "at its right, so that the two hold each other.",
        _swatch("OOOOBBBB", "OOOOBBBB", "OOOOBBBB"),
        over,
        back=False,
        prefix=prefix,
    )


def gap_svg(*, prefix: str = "") -> str:
    """The end is woven across the gap at the start of a block."""

    def over(at: Geometry) -> str:
        hole = _way(at, "M", 4, 2.5, "C", 4.3, 2, 4.3, 1, 4, 0.5, "C", 3.7, 1, 3.7, 2, 4, 2.5) + "z"
        tail = _way(
            at, "M", 4.6, 1.5, "C", 4.2, 1.2, 3.8, 1.2, 3.4, 1.5, "S", 2.9, 2.1, 3.35, 2.5, "S", 2.9, 3.1, 3.35, 3.7
        )
        return (
            f'<path fill="{INK}" stroke="{PAPER}" stroke-width="1.4" d="{hole}"/>{cord(tail, GOLD, 3.6)}'
            f"{_arrow(at, 3.4, 3.8, -62)}"
        )

    return _picture(
        "gap",
        "Closing the gap where a block begins",
        "From the wrong side: the end is drawn across the gap into the neighbouring block, then on along the boundary.",
        _swatch("OOOOBBBB", "OOOOBBBB", "OOOOBBBB", "OOOOOOOO"),
        over,
        back=True,
        prefix=prefix,
    )


def duplicate_svg(*, prefix: str = "") -> str:
    """Duplicate stitch follows the V of the stitch beneath it."""

    def over(at: Geometry) -> str:
        tail = _way(at, "M", 4.5, 0.8, "C", 4.5, -0.4, 4.9, -0.9, 6.2, -1.1)
        behind = _way(at, "M", 4.1, 2.5, "C", 4.2, 2.85, 4.8, 2.85, 4.9, 2.5)
        return (
            f'{cord(tail, GOLD, 3.6)}<path stroke="{PAPER}" stroke-width="4.6" d="{behind}"/>'
            f'<path stroke="{ACCENT}" stroke-width="2" stroke-dasharray=".1 3.6" d="{behind}"/>'
        )

    return _picture(
        "duplicate-stitch",
        "Duplicate stitch",
        "The yarn comes up at the foot of a stitch, passes behind the two legs of the stitch above, and goes down "
        "again at the foot, covering the stitch exactly.",
        _swatch("BBBBBBBB", "BBBBGBBB", "BBBBBBBB"),
        over,
        back=False,
        prefix=prefix,
    )


def float_svg(*, prefix: str = "") -> str:
    """A long float caught once half-way."""

    def over(at: Geometry) -> str:
        across = _way(at, "M", 1, 1.5, "C", 2, 0.7, 3.8, 0.7, 5, 1.45, "C", 6.2, 0.7, 8, 0.7, 9, 1.5)
        catch = _way(at, "M", 4.64, 0.95, "C", 4.74, 1.85, 5.26, 1.85, 5.36, 0.95)
        return cord(across, GOLD, 3.6) + cord(catch, BLUE, 4.6)

    return _picture(
        "float",
        "Catching a float",
        "From the wrong side: half-way along a long float the working yarn is laid over it once, so that it lies "
        "against the fabric.",
        _swatch("BBBBBBBBBB", "BBBBBBBBBB", "GBBBBBBBBG", "BBBBBBBBBB"),
        over,
        back=True,
        prefix=prefix,
    )


def tail_svg(*, prefix: str = "") -> str:
    """An end runs along the interlocks, then doubles back."""

    def over(at: Geometry) -> str:
        up: list[str | float] = ["M", 4.6, 1.5, "C", 4.2, 1.2, 3.75, 1.3, 3.75, 1.7]
        for step in range(1, 4):
            side = 0.27 if step % 2 else -0.27
            up += ["S", 4 + side, 1.55 + step, 4 + side, 1.8 + step]
        back: list[str | float] = ["C", 4.27, 5.6, 5, 5.6, 4.9, 4.8, "S", 4.6, 4.1, 4.9, 3.6, "S", 4.6, 2.9, 4.85, 2.4]
        return cord(_way(at, *up, *back), GOLD, 3.4) + _arrow(at, 4.87, 2.25, 74)

    return _picture(
        "tail",
        "Weaving in an end",
        "From the wrong side: the end runs up along the interlocks of the boundary, then doubles back the other way.",
        _swatch("OOOOBBBB", "OOOOBBBB", "OOOOBBBB", "OOOOBBBB", "OOOOBBBB", "OOOOOOOO"),
        over,
        back=True,
        prefix=prefix,
    )


TECHNIQUES: dict[str, Callable[..., str]] = {
    "interlock": interlock_svg,
    "gap": gap_svg,
    "duplicate-stitch": duplicate_svg,
    "float": float_svg,
    "tail": tail_svg,
}
