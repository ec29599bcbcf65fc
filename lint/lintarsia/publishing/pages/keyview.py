"""The key of a chart, and the small drawings that its page repeats: a chip for each colour, a hanging yarn for each
colour on each holder. They are drawn once as symbols and used by number."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache

from lintarsia.chart import Chart
from lintarsia.chart.grid import NO_STITCH_SYMBOL
from lintarsia.drawing.cells import shade_of
from lintarsia.drawing.holders import cord, draw_holder
from lintarsia.drawing.shades import edge_on, ink_on
from lintarsia.drawing.svg import FONT, escape
from lintarsia.planning.model import Plan
from lintarsia.telling.names import colour_name


@dataclass(frozen=True, slots=True)
class Key:
    """`number` and `name` by symbol; `hang` by supply; `sprite` is the SVG with every drawing, to be put in a page."""

    number: Mapping[str, int]
    name: Mapping[str, str]
    hang: Mapping[str, int]
    sprite: str


def chip(number: int) -> str:
    """The use of a colour's drawing. What it shows is always told beside it in words."""
    return f'<svg class="key" viewBox="0 0 24 20" aria-hidden="true"><use href="#key-{number}"/></svg>'


def make_key(chart: Chart, plan: Plan) -> Key:
    symbols = dict.fromkeys([*chart.colours, *(s for s in chart.grid.symbols if s != NO_STITCH_SYMBOL)])
    number = {symbol: i for i, symbol in enumerate(symbols)}
    kinds: dict[tuple[str, str], int] = {}
    hang = {s.id: kinds.setdefault((s.colour, s.holder), len(kinds)) for s in plan.supplies}
    parts = [_symbol(f"key-{i}", "0 0 24 20", _chip(symbol, shade_of(chart, symbol))) for symbol, i in number.items()]
    for (symbol, holder), i in kinds.items():
        parts.append(_symbol(f"hang-{i}", "-26 6 52 92", _hang(shade_of(chart, symbol), holder)))
    sprite = f'<svg class="sprite" aria-hidden="true" focusable="false" width="0" height="0">{"".join(parts)}</svg>'
    return Key(number, {s: colour_name(chart, s) for s in symbols}, hang, sprite)


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


@lru_cache(maxsize=1024)
def _hang(shade: str, holder: str) -> str:
    """A yarn as it hangs from the needle, down to what it is wound on."""
    look = 'fill="none" stroke-linecap="round" stroke-linejoin="round"'
    return (
        f"<g {look}>{cord('M0 8C4 22-4 34 0 50', shade)}"
        f'<g transform="translate(0 50)">{draw_holder(holder, shade)}</g></g>'
    )
