"""Duplicate stitch as a page tells it: how many stitches of each colour, and row by row what to embroider."""

from collections.abc import Iterable, Mapping, Sequence

from lintarsia.chart import Chart
from lintarsia.drawing.svg import escape
from lintarsia.publishing.pages.keyview import Key
from lintarsia.telling.languages import phrase
from lintarsia.telling.names import row_word
from lintarsia.telling.spans import stretches

Stretch = tuple[int, int]  # first and last stitch


def sewn_stitches(chart: Chart) -> dict[tuple[int, str], list[Stretch]]:
    """By row and symbol, from row 1 up: what is embroidered, in stretches from stitch 1 that do not touch."""
    found: dict[tuple[int, str], list[Stretch]] = {}
    for sewn in chart.duplicate:
        found.setdefault((sewn.row, sewn.colour), []).append(sewn.stitches)
    return {place: stretches(found[place]) for place in sorted(found)}


def sewn_totals(stitches: Mapping[tuple[int, str], Sequence[Stretch]]) -> dict[str, int]:
    """How many stitches are embroidered in each colour."""
    totals: dict[str, int] = {}
    for (_, symbol), sewn in stitches.items():
        totals[symbol] = totals.get(symbol, 0) + _number(sewn)
    return totals


def sewn_html(chart: Chart, key: Key, chips: Sequence[str]) -> str:
    """A `<tr>` for each colour of each row that is embroidered; "" where there is none."""
    word = row_word(chart)
    return "\n".join(
        [
            _line(word, row, key.number[symbol], escape(key.name[symbol]), sewn, chips)
            for (row, symbol), sewn in sewn_stitches(chart).items()
            if symbol in key.number
        ]
    )


def _line(word: str, row: int, number: int, name: str, sewn: Sequence[Stretch], chips: Sequence[str]) -> str:
    told = ", ".join(f"{first}–{last}" if last > first else str(first) for first, last in sewn)
    many = _number(sewn)
    said = phrase("stitch {list}", list=told) if many == 1 else phrase("stitches {list}", list=told)
    return (
        f'<tr data-of-row="{row}"><td class="tick"><label><input type="checkbox" data-tick="sewn-{row}-{number}" '
        f'aria-label="{phrase("embroidered: {word} {row}, {colour}", word, row=row, colour=name)}"></label></td>'
        f'<th scope="row"><a href="#row-{row}">{row}</a></th><td>{said}</td>'
        f'<td>{chips[number]} {name}</td><td class="n">{many}</td></tr>'
    )


def _number(sewn: Iterable[Stretch]) -> int:
    return sum(last - first + 1 for first, last in sewn)
