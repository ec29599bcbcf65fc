"""Knitted stitches: each is drawn once a colour, as a marker, and set at the vertices of paths.

That takes about three bytes a stitch, which keeps a thousand thumbnails small.
"""

from collections.abc import Iterable, Iterator
from functools import lru_cache
from itertools import pairwise
from operator import itemgetter

from lintarsia.chart import Chart
from lintarsia.chart.grid import NO_STITCH_SYMBOL, Grid
from lintarsia.drawing.cells import shade_of
from lintarsia.drawing.geometry import CELL, Geometry
from lintarsia.drawing.ground import draw_ground
from lintarsia.drawing.rowparts import rows_in_parts
from lintarsia.drawing.shades import luminance, mix
from lintarsia.drawing.svg import num
from lintarsia.drawing.texture import textured

SymbolPath = tuple[str, list[str]]  # a symbol, and the way through its stitches in pieces of one row each

MANY_CHANGES = 2_500  # of colour, beyond which stitches no longer get a ground of their own: nobody could tell


class StitchDrawing:
    """The stitches of a chart alone, without a document around them; worked out once for both sides of the fabric."""

    def __init__(self, chart: Chart, place: Geometry) -> None:
        self.chart = chart
        self.place = place
        grid, turned = textured(chart)
        self._turned = set(turned)  # symbols of stitches that show a purl on the right side
        self._shades = {s: shade_of(chart, turned.get(s, s)) for s in grid.symbols if s != NO_STITCH_SYMBOL}
        self._ground = draw_ground(chart, place, _depth, drop=-0.1, lowest=0.8, most_changes=MANY_CHANGES)
        self._paths = _paths(grid)

    def draw(self, *, back: bool, prefix: str = "") -> str:
        """One side of them as SVG; the back unmirrored."""
        # Named by what they show, so that two fabrics on one page cannot lend each other the wrong stitch.
        high = self.place.cell_h
        shapes = {purl: f"{prefix}{'purl' if purl else 'knit'}-{round(high * 100)}" for purl in (False, True)}
        purls = {symbol: (symbol in self._turned) != back for symbol in self._shades}
        names = {symbol: f"{shapes[purls[symbol]]}-{shade[1:]}" for symbol, shade in self._shades.items()}
        by_name = {names[symbol]: (purls[symbol], shade) for symbol, shade in self._shades.items()}
        used = sorted(set(purls.values()) or {back})
        defs = [(_purl_shapes if purl else _knit_shapes)(shapes[purl], high) for purl in used]
        defs += [(_purl if purl else _knit)(name, shapes[purl], shade, high) for name, (purl, shade) in by_name.items()]
        # At the back the lower of two stitches lies over the upper one, so everything there is drawn the other way
        # round: paths and the rows within them.
        paths = [(s, pieces[::-1]) for s, pieces in reversed(self._paths)] if back else self._paths
        drawn = [_set(names[symbol], "".join(pieces)) for symbol, pieces in paths]
        if not back:
            drawn += [_set(names[symbol], path) for symbol, path in _duplicates(self.chart, names)]
        # Places are counted in cells: a column is one wide and a row one high, which each stitch's own scale undoes.
        place = self.place
        moved = f"translate({num(place.left + CELL / 2)} {num(place.top)})scale({CELL} {num(high)})"
        return f'<defs>{"".join(defs)}</defs>{self._ground}<g fill="none" transform="{moved}">{"".join(drawn)}</g>'


def _depth(shade: str) -> str:
    """The dark behind the stitches, seen between their legs."""
    return mix(shade, "#000000", 0.36)


def _set(name: str, path: str) -> str:
    """The stitch of that name at every vertex between the first of the path and the last, which are no stitches.

    A marker's unit is the width of the path's stroke, and that is 1 though nothing is drawn with it.
    """
    return f'<path marker-mid="url(#{name})" d="M0 0{path}h1"/>'


def _paths(grid: Grid) -> list[SymbolPath]:
    """The paths in the order in which the front's are drawn.

    A stitch lies over that of the row before and on no other. So one path can hold a colour's stitches of many rows,
    and a new one is begun only where the colour comes to lie on one that lies on it.
    """
    paths: dict[tuple[int, str], list[str]] = {}
    layers: dict[str, int] = {}
    y = grid.height
    for parts, met in zip(rows_in_parts(grid), _contacts(grid), strict=True):
        y -= 1
        beneath, layers = layers, {part.symbol: 0 for part in parts}
        for lower, upper in met:
            # No lower than what its stitches lie on, and higher where that is of another colour.
            least = beneath[lower] + (lower != upper)
            if layers[upper] < least:
                layers[upper] = least
        for symbol, _, first, _, _, steps, _ in parts:
            if symbol != NO_STITCH_SYMBOL:
                paths.setdefault((layers[symbol], symbol), []).append(f"L{first} {y}{steps}")
    return [(key[1], paths[key]) for key in sorted(paths, key=itemgetter(0))]


def _contacts(grid: Grid) -> Iterator[Iterable[tuple[str, str]]]:
    """For each row the symbols of stitches that lie on one another, lower first, where it meets the row before."""
    yield ()
    for lower, upper in pairwise(grid.rows):
        if len(lower) != len(upper):  # rows are aligned at the right
            lower, upper = lower[::-1], upper[::-1]
        met = set(zip(lower, upper, strict=False))
        if NO_STITCH_SYMBOL in lower or NO_STITCH_SYMBOL in upper:
            met = {pair for pair in met if NO_STITCH_SYMBOL not in pair}
        yield met


def _duplicates(chart: Chart, names: dict[str, str]) -> list[tuple[str, str]]:
    """Symbols and paths of stitches embroidered over the knitted ones, in the order the file gives them."""
    found, grid = [], chart.grid
    for sewn in chart.duplicate:
        first, last = sewn.stitches
        if sewn.colour in names and 1 <= sewn.row <= grid.height and 1 <= first <= last <= grid.width:
            way = f"L{grid.width - last} {grid.height - sewn.row}" + "h1" * (last - first)
            found.append((sewn.colour, way))
    return found


@lru_cache(maxsize=64)
def _knit_shapes(name: str, high: float) -> str:
    """What knit stitches of one height have in common: a plump leg, of which each has two, and the gleam on both. The
    origin is in the middle of the cell's upper edge. Ids begin with `name`."""

    def y(percent: float) -> str:
        return num(high * percent / 100)

    leg = (
        f"M-8.9 {y(-58)}C-10.9 {y(-20)} -9 {y(62)} -.1 {y(124)}"
        f"C.4 {y(92)} .2 {y(44)} -1.7 {y(4)}C-3.8 {y(-40)} -7.4 {y(-78)} -8.9 {y(-58)}z"
    )
    gleam = f"M-7.9 {y(-20)}C-7.5 {y(12)} -6 {y(46)} -3.2 {y(74)}M2.6 {y(28)}C3.6 {y(10)} 4.6 {y(-8)} 5.6 {y(-26)}"
    return (
        f'<path id="{name}-leg" stroke-width=".6" d="{leg}"/>'
        f'<path id="{name}-gleam" fill="none" stroke-width="1.8" stroke-linecap="round" stroke-opacity=".6" '
        f'd="{gleam}"/>'
    )


@lru_cache(maxsize=256)  # charts share colours
def _knit(name: str, shapes: str, shade: str, high: float) -> str:
    return (
        f'<marker id="{name}" overflow="visible" stroke="{mix(shade, "#000000", 0.24)}" fill="{shade}">'
        f'<g transform="{_unscaled(high)}"><use href="#{shapes}-leg"/>'
        f'<use href="#{shapes}-leg" transform="scale(-1 1)"/>'
        f'<use href="#{shapes}-gleam" stroke="{_light(shade)}"/></g></marker>'
    )


@lru_cache(maxsize=64)
def _purl_shapes(name: str, high: float) -> str:
    """The same stitches from the back: the yarn's wave over the head of the loop and down between the stitches."""

    def y(percent: float) -> str:
        return num(high * percent / 100)

    over = f"M-6 {y(46)}C-5.4 {y(6)} -3.2 {y(-12)} 0 {y(-12)}S5.4 {y(6)} 6 {y(46)}"
    under = f"M-10 {y(88)}C-7.4 {y(88)} -6.4 {y(74)} -6 {y(46)}M6 {y(46)}C6.4 {y(74)} 7.4 {y(88)} 10 {y(88)}"
    gleam = f"M-3.4 {y(-2)}C-2.4 {y(-14)} -1.2 {y(-18)} .6 {y(-18)}"
    return (
        f'<path id="{name}-under" d="{under}"/><path id="{name}-over" stroke-linecap="round" d="{over}"/>'
        f'<path id="{name}-gleam" stroke-width="1.6" stroke-linecap="round" stroke-opacity=".6" d="{gleam}"/>'
    )


@lru_cache(maxsize=256)
def _purl(name: str, shapes: str, shade: str, high: float) -> str:
    return (
        f'<marker id="{name}" overflow="visible" fill="none" stroke="{mix(shade, "#000000", 0.3)}" stroke-width="6.4">'
        f'<g transform="{_unscaled(high)}"><use href="#{shapes}-under"/>'
        f'<use href="#{shapes}-under" stroke="{mix(shade, "#000000", 0.12)}" stroke-width="5.2"/>'
        f'<use href="#{shapes}-over"/><use href="#{shapes}-over" stroke="{shade}" stroke-width="5.2"/>'
        f'<use href="#{shapes}-gleam" stroke="{_light(shade)}"/></g></marker>'
    )


def _unscaled(high: float) -> str:
    """What makes a stitch as large in cells as it is in the drawing's units."""
    return f"scale({1 / CELL:g} {1 / high:.6g})"


def _light(shade: str) -> str:
    return mix(shade, "#ffffff", 0.26 if luminance(shade) < 0.4 else 0.6)
