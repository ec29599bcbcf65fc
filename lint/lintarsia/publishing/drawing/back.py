"""What lies and hangs at the wrong side of the fabric: floats, carries, and the two ends of every supply."""

from collections.abc import Sequence

from lintarsia.chart import Chart
from lintarsia.publishing.drawing.cells import shade_of
from lintarsia.publishing.drawing.geometry import Geometry, at_corner
from lintarsia.publishing.drawing.routes import Point, Route
from lintarsia.publishing.drawing.shades import luminance, mix
from lintarsia.publishing.drawing.svg import num

TAIL_ROWS = 3.4  # how many rows of the picture a hanging end is long


def draw_loose(chart: Chart, ways: Sequence[Route], place: Geometry) -> str:
    """Floats and carries lying on the fabric, and ends hanging from it, in the front's (unmirrored) coordinates.

    `ways` are routes in the chart's bare geometry; `place` is where they are put."""
    floats: dict[str, list[str]] = {}
    tails: dict[str, list[str]] = {}
    for number, way in enumerate(ways):
        floats.setdefault(way.supply.colour, []).append(way.floats + way.carries)
        sway = 3.0 if number % 2 else -3.0
        tails.setdefault(way.supply.colour, []).append(
            _tail(way.start, place, sway) + _tail(way.end, place, -sway, shorter=0.8)
        )
    parts = [_strand(shade_of(chart, symbol), "".join(paths), 3.0) for symbol, paths in floats.items()]
    parts += [_strand(shade_of(chart, symbol), "".join(paths), 4.0) for symbol, paths in tails.items()]
    look = 'fill="none" stroke-linecap="round" stroke-linejoin="round"'
    return f'<g class="lx-loose" {look}{at_corner(place)}>{"".join(parts)}</g>'


def _tail(point: Point, place: Geometry, sway: float, shorter: float = 1.0) -> str:
    """An end that hangs down from a stitch in a slack S."""
    x, y = point
    long = place.cell_h * TAIL_ROWS * shorter
    return (
        f"M{num(x)} {num(y)}c{num(sway)} {num(long * 0.3)} {num(-sway * 1.6)} {num(long * 0.55)} "
        f"{num(sway * 0.4)} {num(long * 0.92)}"
    )


def _strand(shade: str, path: str, width: float) -> str:
    if not path:
        return ""
    light = mix(shade, "#ffffff", 0.26 if luminance(shade) < 0.4 else 0.6)
    strokes = (
        (mix(shade, "#000000", 0.55), width + 2.2, 0.5),  # the shadow it throws
        (mix(shade, "#000000", 0.25), width + 0.8, 1),
        (shade, width - 0.6, 1),
        (light, width * 0.26, 0.7),
    )
    return "".join(
        f'<path stroke="{colour}" stroke-width="{num(wide)}" stroke-opacity="{num(share)}" d="{path}"/>'
        for colour, wide, share in strokes
    )
