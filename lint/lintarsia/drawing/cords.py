"""Routes drawn as yarn: a casing that makes crossings read, an edge that is seen on paper, the yarn's own shade."""

from collections.abc import Sequence

from lintarsia.chart import Chart
from lintarsia.drawing.cells import shade_of
from lintarsia.drawing.geometry import Geometry
from lintarsia.drawing.routes import Route
from lintarsia.drawing.shades import PAPER, edge_on
from lintarsia.drawing.svg import num

CASING, EDGE, CORE = 6.0, 3.9, 2.7  # widths of a worked yarn's strokes
FLOATING, LOOSE = 0.55, 0.8  # widths of a yarn that lies behind others, and of one shown alone, as shares of these


def mark_scale(place: Geometry) -> float:
    """How much larger dots and labels are drawn on a wide chart, so that they are still seen when it is shown whole."""
    return min(2.5, max(1.0, max(place.columns / 60, place.rows / 90)))


def draw_routes(chart: Chart, ways: Sequence[Route], prefix: str) -> str:
    """Floats beneath, then turns, then passes, each over its own casing."""
    floats = [(way, way.floats) for way in ways if way.floats]
    turns = [(way, way.turns) for way in ways if way.turns]
    return (
        _cords(chart, floats, f"{prefix}f", FLOATING)
        + _cords(chart, turns, f"{prefix}t")
        + _passes(chart, ways, f"{prefix}p")
    )


def draw_floats(chart: Chart, ways: Sequence[Route], prefix: str) -> str:
    """Only what lies loose at the back: floats and carries."""
    loose = [(way, way.floats + way.carries) for way in ways if way.floats or way.carries]
    return _cords(chart, loose, f"{prefix}l", LOOSE)


def _whose(way: Route) -> str:
    return f'data-supply="{way.name}"'


def _cords(chart: Chart, paths: Sequence[tuple[Route, str]], prefix: str, share: float = 1.0) -> str:
    """Yarns that may cross: each whole, casing and all, over those before it."""
    drawn = []
    for number, (way, path) in enumerate(paths):
        name = f"{prefix}{number}"
        over = _over(name, shade_of(chart, way.supply.colour), share)
        drawn.append(f'<g {_whose(way)}><path id="{name}" d="{path}"/>{over}</g>')
    return _cased(drawn, share)


def _passes(chart: Chart, ways: Sequence[Route], prefix: str) -> str:
    """What lies along rows crosses nothing of its kind, so that the yarns of a colour can share their strokes."""
    paths: dict[str, list[str]] = {}
    for way in ways:
        paths.setdefault(way.supply.colour, []).append(f'<path {_whose(way)} d="{way.passes}"/>')
    drawn = []
    for number, (symbol, lines) in enumerate(paths.items()):
        name = f"{prefix}{number}"
        drawn.append(f'<g id="{name}">{"".join(lines)}</g>{_over(name, shade_of(chart, symbol))}')
    return _cased(drawn)


def _cased(drawn: Sequence[str], share: float = 1.0) -> str:
    """Lines in the paper's colour, unless something else is stated for them."""
    if not drawn:
        return ""
    look = f'stroke="{PAPER}" stroke-width="{num(CASING * share)}" stroke-linecap="butt"'
    return f'<g class="lx-sheet-line" {look}>{"".join(drawn)}</g>'


def _over(name: str, shade: str, share: float = 1.0) -> str:
    """What lies over the casing of that name: an edge that is seen on paper, and the yarn itself."""
    use = f'<use href="#{name}" stroke'
    return (
        f'{use}="{edge_on(shade)}" stroke-width="{num(EDGE * share)}"/>'
        f'{use}="{shade}" stroke-width="{num(CORE * share)}" stroke-linecap="round"/>'
    )
