"""What lies and hangs at the wrong side of the fabric: floats, carries, and the two ends of every supply."""

from collections.abc import Sequence
from functools import lru_cache

from lintarsia.chart import Chart
from lintarsia.drawing.cells import shade_of
from lintarsia.drawing.geometry import Geometry, at_corner
from lintarsia.drawing.routes import Route
from lintarsia.drawing.shades import luminance, mix
from lintarsia.drawing.shapes import curve
from lintarsia.drawing.svg import num

TAIL_ROWS = 3.4  # how many rows of the picture a hanging end is long
FINISHED = 0.8  # length of the end where a supply finishes, as a share of that where it is joined


def draw_loose(chart: Chart, ways: Sequence[Route], place: Geometry, prefix: str = "") -> str:
    """Floats and carries lying on the fabric, and ends hanging from it, in the front's (unmirrored) coordinates.

    `ways` are routes in the chart's bare geometry; `place` is where they are put. Ids begin with `prefix`."""
    floats: dict[str, list[str]] = {}
    tails: dict[str, list[str]] = {}
    long = place.cell_h * TAIL_ROWS
    joined = (_tail(-3.0, long), _tail(3.0, long))
    finished = (_tail(3.0, long * FINISHED), _tail(-3.0, long * FINISHED))
    for number, way in enumerate(ways):
        if way.floats or way.carries:
            floats.setdefault(way.supply.colour, []).append(way.floats + way.carries)
        tail = f"M{num(way.start[0])} {num(way.start[1])}{joined[number % 2]}"
        tail += f"M{num(way.end[0])} {num(way.end[1])}{finished[number % 2]}"
        tails.setdefault(way.supply.colour, []).append(tail)
    strands = [(symbol, paths, 3.0) for symbol, paths in floats.items()]
    strands += [(symbol, paths, 4.0) for symbol, paths in tails.items()]
    drawn = [
        _strand(f"{prefix}loose-{number}", shade_of(chart, symbol), "".join(paths), width)
        for number, (symbol, paths, width) in enumerate(strands)
    ]
    look = 'fill="none" stroke-linecap="round" stroke-linejoin="round"'
    return f'<g class="lx-loose" {look}{at_corner(place)}>{"".join(drawn)}</g>'


@lru_cache(maxsize=64)  # charts of one gauge have the same
def _tail(sway: float, long: float) -> str:
    """An end that hangs down in a slack S."""
    return curve((sway, long * 0.3), (-sway * 1.6, long * 0.55), (sway * 0.4, long * 0.92))


def _strand(name: str, shade: str, path: str, width: float) -> str:
    light = mix(shade, "#ffffff", 0.26 if luminance(shade) < 0.4 else 0.6)
    use = f'<use href="#{name}" stroke'
    return (
        # the shadow it throws, its edge, the yarn itself, a gleam
        f'<g stroke="{mix(shade, "#000000", 0.55)}" stroke-width="{num(width + 2.2)}" stroke-opacity=".5">'
        f'<path id="{name}" d="{path}"/></g>'
        f'{use}="{mix(shade, "#000000", 0.25)}" stroke-width="{num(width + 0.8)}"/>'
        f'{use}="{shade}" stroke-width="{num(width - 0.6)}"/>'
        f'{use}="{light}" stroke-width="{num(width * 0.26)}" stroke-opacity=".7"/>'
    )
