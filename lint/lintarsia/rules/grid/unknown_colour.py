"""grid/unknown-colour: a symbol in the grid that the key does not have."""

import re
from collections.abc import Iterator

from lintarsia.chart import Chart
from lintarsia.result import Edit, Finding, Fix, Level, RuleInfo
from lintarsia.rules.base import NoOptions, Work
from lintarsia.telling.names import row_word

Options = NoOptions
_UNSEEN = {"\u00a0": "a no-break space", "\u200b": "a space of no width", "\u00ad": "a soft hyphen"}
INFO = RuleInfo(
    name="grid/unknown-colour",
    level=Level.ERROR,
    summary="the grid uses a symbol that the key of colours does not have",
    why=(
        "The knitter meets a square and has no yarn for it: chart symbols are not standardised, "
        "so the key is all there is."
    ),
    remedy="correct the square, or add the colour to `colours`",
    keys={"unknown-colour": "a symbol of the grid is not in the key"},
    sources=("common practice: chart symbols are not standardised, so a key is needed",),
)


def check(work: Work, options: NoOptions) -> Iterator[Finding]:
    """One finding for each stretch of one unknown symbol in a row."""
    grid = work.chart.grid
    unknown = grid.symbols[grid.known :]
    if not unknown:
        return
    stretch = re.compile("|".join(f"{re.escape(symbol)}+" for symbol in unknown))
    for row, text in enumerate(grid.rows, 1):
        for match in stretch.finditer(text):
            yield _finding(work.chart, row, match[0], (len(text) - match.end() + 1, len(text) - match.start()))


def _finding(chart: Chart, row: int, found: str, stitches: tuple[int, int]) -> Finding:
    symbol, key = found[0], chart.colours
    name = repr(symbol) if symbol.isprintable() else _UNSEEN.get(symbol, f"the unseen character U+{ord(symbol):04X}")
    message = (
        f"{row_word(chart)} {row} uses {name}, which the key does not have; "
        f"expected {', '.join(key)}, or `.` for no stitch"
    )
    region = chart.places.cells(row, *stitches)
    meant = symbol.swapcase()
    fixes: tuple[Fix, ...] = ()
    remedy = None
    if symbol == "#":
        remedy = "correct the square, or add the colour to `colours`, in quotes ('#'): without them it begins a comment"
    if meant in key:
        remedy = f"write {meant}: capitals and small letters are different symbols; or add {symbol} to `colours`"
        fixes = (Fix(f"write {meant}", (Edit(region, meant * len(found)),), safe=False),)
    return Finding("unknown-colour", message, region, row, stitches, remedy=remedy, fixes=fixes, pattern=found)
