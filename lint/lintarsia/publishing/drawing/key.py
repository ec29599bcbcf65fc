"""The key: a swatch with its symbol for each colour, its name beside it."""

from lintarsia.chart import Chart
from lintarsia.publishing.drawing.cells import used_symbols
from lintarsia.publishing.drawing.shades import INK, MUTED, ink_on
from lintarsia.publishing.drawing.svg import FONT, escape, num

LONGEST_NAME = 22


def key_lines(chart: Chart, wide: float, entry: float) -> int:
    """How many lines of entries `entry` wide the key takes in a width."""
    return lines_of(len(used_symbols(chart)), wide, entry)


def lines_of(entries: int, wide: float, entry: float) -> int:
    """How many lines so many entries take."""
    per_line = max(1, int(wide // entry))
    return -(-entries // per_line)


def draw_key(chart: Chart, x: float, y: float, wide: float, entry: float, line: float) -> str:
    """Entries from (x, y) rightward and down; `line` is a line's height."""
    per_line = max(1, int(wide // entry))
    size = line * 0.56
    parts = []
    for number, symbol in enumerate(used_symbols(chart)):
        left, top = x + number % per_line * entry, y + number // per_line * line
        colour = chart.colours.get(symbol)
        shade, name = (colour.shade, colour.name) if colour else ("#ffffff", "not in the key")
        if len(name) > LONGEST_NAME:
            name = name[: LONGEST_NAME - 1].rstrip() + "…"
        side = line * 0.78
        parts.append(
            f'<rect x="{num(left)}" y="{num(top)}" width="{num(side * 1.25)}" height="{num(side)}" fill="{shade}" '
            f'stroke="{INK}" stroke-width="{num(line * 0.04)}"/>'
            f'<text x="{num(left + side * 0.625)}" y="{num(top + side / 2 + size * 0.36)}" text-anchor="middle" '
            f'fill="{ink_on(shade)}">{escape(symbol)}</text>'
            f'<text class="lx-ink" x="{num(left + side * 1.25 + line * 0.3)}" y="{num(top + side / 2 + size * 0.36)}" '
            f'fill="{INK}">{escape(name)}</text>'
        )
    return f'<g class="lx-key" font-family="{FONT}" font-size="{num(size)}" fill="{MUTED}">{"".join(parts)}</g>'
