"""Duplicate stitch in words, colour by colour, for the sheet of a chart."""

from collections.abc import Iterator

from lintarsia.chart import Chart
from lintarsia.telling.counts import one_and_all
from lintarsia.telling.names import row_word
from lintarsia.telling.spans import span, stretches
from lintarsia.written.order import ColourSupply
from lintarsia.written.symbols import written_yarn


def sewn_lines(chart: Chart, first: int, last: int) -> Iterator[tuple[str, str]]:
    """`W`, `row 14, stitches 7–8 and 12; row 15, stitch 7`: what is embroidered in rows `first` to `last`, by colour in
    the key's order and from the lowest row up. Stitches are the chart's numbers, from the right."""
    found: dict[str, dict[int, list[tuple[int, int]]]] = {symbol: {} for symbol in chart.colours}
    for patch in chart.duplicate:
        if first <= patch.row <= last:
            low, high = sorted(patch.stitches)
            found.setdefault(patch.colour, {}).setdefault(patch.row, []).append((low, high))
    word = row_word(chart)
    for colour, rows in found.items():
        if rows:
            places = "; ".join(f"{word} {row}, {_stitches(rows[row])}" for row in sorted(rows))
            yield written_yarn(ColourSupply(colour)), places


def _stitches(places: list[tuple[int, int]]) -> str:
    made = stretches(places)
    many = len(made) > 1 or made[0][0] != made[0][1]
    return f"{'stitches' if many else 'stitch'} {one_and_all([span(*place) for place in made])}"
