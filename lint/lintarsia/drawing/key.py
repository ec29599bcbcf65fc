"""The key: a swatch with its symbol for each colour, its name beside it, and the other signs of the chart."""

from lintarsia.chart import Chart
from lintarsia.drawing.cells import used_symbols
from lintarsia.drawing.shades import INK, MUTED, ink_on
from lintarsia.drawing.signs import HIGH, signs
from lintarsia.drawing.svg import FONT, escape, num
from lintarsia.telling.languages import phrase
from lintarsia.telling.terms import Terms

LONGEST_NAME = 22


def key_lines(chart: Chart, wide: float, entry: float) -> int:
    """How many lines of entries `entry` wide the key takes in a width."""
    return lines_of(key_entries(chart), wide, entry)


def key_entries(chart: Chart) -> int:
    """How many entries the key has."""
    return len(used_symbols(chart)) + len(signs(chart))


def lines_of(entries: int, wide: float, entry: float) -> int:
    """How many lines so many entries take."""
    per_line = max(1, int(wide // entry))
    return -(-entries // per_line)


def draw_key(
    chart: Chart, x: float, y: float, wide: float, entry: float, line: float, terms: Terms = Terms.AMERICAN
) -> str:
    """Entries from (x, y) rightward and down; `line` is a line's height."""
    per_line = max(1, int(wide // entry))
    size, side = line * 0.56, line * 0.78
    parts = []
    symbols = used_symbols(chart)
    spots = [(x + n % per_line * entry, y + n // per_line * line) for n in range(key_entries(chart))]
    for symbol, (left, top) in zip(symbols, spots, strict=False):
        colour = chart.colours.get(symbol)
        shade, name = (colour.shade, colour.name) if colour else ("#ffffff", phrase("not in the key"))
        if len(name) > LONGEST_NAME:
            name = name[: LONGEST_NAME - 1].rstrip() + "…"
        parts.append(
            f'<rect x="{num(left)}" y="{num(top)}" width="{num(side * 1.25)}" height="{num(side)}" fill="{shade}" '
            f'stroke="{INK}" stroke-width="{num(line * 0.04)}"/>'
            f'<text x="{num(left + side * 0.625)}" y="{num(top + side / 2 + size * 0.36)}" text-anchor="middle" '
            f'fill="{ink_on(shade)}">{escape(symbol)}</text>{_name(name, left, top, line)}'
        )
    for sign, (left, top) in zip(signs(chart, terms), spots[len(symbols) :], strict=True):
        drawn = f"translate({num(left)} {num(top)})scale({num(side / HIGH)})"
        parts.append(f'<g transform="{drawn}">{sign.drawing}</g>{_name(sign.name, left, top, line)}')
    return f'<g class="lx-key" font-family="{FONT}" font-size="{num(size)}" fill="{MUTED}">{"".join(parts)}</g>'


def _name(name: str, left: float, top: float, line: float) -> str:
    """What an entry whose swatch begins at (left, top) is called."""
    side, size = line * 0.78, line * 0.56
    at = f'x="{num(left + side * 1.25 + line * 0.3)}" y="{num(top + side / 2 + size * 0.36)}"'
    return f'<text class="lx-ink" {at} fill="{INK}">{escape(name)}</text>'
