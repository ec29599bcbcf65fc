"""The key of a chart, and the small drawings that its page repeats: a chip for each colour, a hanging yarn for each
kind of holder. They are drawn once as symbols; chips are used by number, yarns by the number of their holder."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache

from lintarsia.chart import Chart
from lintarsia.chart.grid import NO_STITCH_SYMBOL
from lintarsia.drawing.cells import shade_of
from lintarsia.drawing.holders import hanging_yarn
from lintarsia.drawing.shades import edge_on, ink_on
from lintarsia.drawing.svg import FONT, escape
from lintarsia.planning.model import Plan
from lintarsia.telling.names import colour_name


@dataclass(frozen=True, slots=True)
class Key:
    """`number` and `name` by symbol; `holders` by what a yarn is wound on; `sprite` is the SVG with every drawing,
    to be put in a page."""

    number: Mapping[str, int]
    name: Mapping[str, str]
    holders: Mapping[str, int]
    sprite: str


def chip(number: int) -> str:
    """The use of a colour's drawing. What it shows is always told beside it in words."""
    return f'<svg class="key" aria-hidden="true"><use href="#key-{number}"/></svg>'


def lone_chip(chart: Chart, symbol: str) -> str:
    """The drawing itself, for a page that may show several charts."""
    drawn = _chip(symbol, shade_of(chart, symbol))
    return f'<svg class="key" viewBox="0 0 24 20" aria-hidden="true">{drawn}</svg>'


def make_key(chart: Chart, plan: Plan) -> Key:
    symbols = dict.fromkeys([*chart.colours, *(s for s in chart.grid.symbols if s != NO_STITCH_SYMBOL)])
    number = {symbol: i for i, symbol in enumerate(symbols)}
    holders = {holder: at for at, holder in enumerate(dict.fromkeys(supply.holder for supply in plan.supplies))}
    parts = [_symbol(f"key-{i}", "0 0 24 20", _chip(symbol, shade_of(chart, symbol))) for symbol, i in number.items()]
    parts += [_symbol(f"hang-{i}", "-26 6 52 92", hanging_yarn(holder)) for holder, i in holders.items()]
    sprite = f'<svg class="sprite" aria-hidden="true" focusable="false" width="0" height="0">{"".join(parts)}</svg>'
    return Key(number, {s: colour_name(chart, s) for s in symbols}, holders, sprite)


def _symbol(name: str, view: str, drawing: str) -> str:
    return f'<symbol id="{name}" viewBox="{view}">{drawing}</symbol>'


@lru_cache(maxsize=1024)  # charts of one site are often knitted from the same yarns
def _chip(symbol: str, shade: str) -> str:
    """A cell of the chart with its symbol, so that the key looks like what it explains."""
    return (
        f'<rect x="1" y="1" width="22" height="18" rx="3" '
        f'fill="{shade}" stroke="{edge_on(shade)}" stroke-width="1.2"/><text x="12" y="14.6" text-anchor="middle" '
        f'font-family="{FONT}" font-size="13" fill="{ink_on(shade)}">{escape(symbol)}</text>'
    )
