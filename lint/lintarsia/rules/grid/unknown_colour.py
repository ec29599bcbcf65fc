"""grid/unknown-colour: a symbol in the grid that the key does not have."""

import re
from collections.abc import Iterator

from lintarsia.chart import Chart
from lintarsia.result import Edit, Finding, Fix, Level, RuleInfo
from lintarsia.rules.base import NoOptions, Work
from lintarsia.telling.counts import count
from lintarsia.telling.names import row_word

Options = NoOptions
_UNSEEN = {"\u00a0": "a no-break space", "\u200b": "a space of no width", "\u00ad": "a soft hyphen"}
MOST_PLACES = 20  # of one symbol, each told by itself; more are one fault of the key, not so many of the grid

Stretch = tuple[int, int, int]
"""A row, and the first and last stitch of one symbol in it."""

INFO = RuleInfo(
    name="grid/unknown-colour",
    level=Level.ERROR,
    summary="the grid uses a symbol that the key of colours does not have",
    why=(
        "The knitter meets a square and has no yarn for it: chart symbols are not standardised, "
        "so the key is all there is."
    ),
    remedy="correct the square, or add the colour to `colours`",
    keys={"unknown-colour": "a symbol of the grid is not in the key; more than twenty places of one are told as one"},
    sources=("common practice: chart symbols are not standardised, so a key is needed",),
)


def check(work: Work, options: NoOptions) -> Iterator[Finding]:
    """One finding for each stretch of one unknown symbol in a row; one for all of a symbol that is in many places."""
    grid = work.chart.grid
    unknown = grid.symbols[grid.known :]
    if not unknown:
        return
    stretch = re.compile("|".join(f"{re.escape(symbol)}+" for symbol in unknown))
    places: dict[str, list[Stretch]] = {}
    for row, text in enumerate(grid.rows, 1):
        for match in stretch.finditer(text):
            ends = (len(text) - match.end() + 1, len(text) - match.start())
            places.setdefault(match[0][0], []).append((row, *ends))
    for symbol, found in places.items():
        if len(found) > MOST_PLACES:
            yield _finding(work.chart, symbol, found)
        else:
            yield from (_finding(work.chart, symbol, [place]) for place in found)


def _finding(chart: Chart, symbol: str, places: list[Stretch]) -> Finding:
    row, first, last = places[0]
    name = repr(symbol) if symbol.isprintable() else _UNSEEN.get(symbol, f"the unseen character U+{ord(symbol):04X}")
    message = (
        f"{row_word(chart)} {row} uses {name}, which the key does not have{_often(chart, places)}; "
        f"expected {', '.join(chart.colours)}, or `.` for no stitch"
    )
    remedy, fixes = _mend(chart, symbol, places)
    pattern = symbol * (last - first + 1) if len(places) == 1 else f"{symbol} {_stitches(places)}"
    region = chart.places.cells(row, first, last)
    return Finding("unknown-colour", message, region, row, (first, last), remedy=remedy, fixes=fixes, pattern=pattern)


def _often(chart: Chart, places: list[Stretch]) -> str:
    """Where else, for a symbol that would fill the report: the count tells a wrong key from a slip."""
    if len(places) == 1:
        return ""
    rows = len({row for row, _, _ in places})
    return f" ({_stitches(places):,} stitches in {count(rows, row_word(chart))} do)"


def _stitches(places: list[Stretch]) -> int:
    return sum(last - first + 1 for _, first, last in places)


def _mend(chart: Chart, symbol: str, places: list[Stretch]) -> tuple[str | None, tuple[Fix, ...]]:
    """What to do where it is likely what was meant."""
    meant = symbol.swapcase()
    if meant in chart.colours:
        remedy = f"write {meant}: capitals and small letters are different symbols; or add {symbol} to `colours`"
        edits = tuple(
            Edit(chart.places.cells(row, first, last), meant * (last - first + 1)) for row, first, last in places
        )
        return remedy, (Fix(f"write {meant}", edits, safe=False),)
    if symbol == "#":
        remedy = "correct the square, or add the colour to `colours`, in quotes ('#'): without them it begins a comment"
        return remedy, ()
    return None, ()
