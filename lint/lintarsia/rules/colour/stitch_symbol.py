"""colour/stitch-symbol: a colour whose symbol is the abbreviation of a stitch, in a chart with written rows."""

from collections.abc import Iterator

from lintarsia.result import Basis, Finding, Level, RuleInfo
from lintarsia.rules.base import NoOptions, Work
from lintarsia.telling.names import colour_and_symbol

Options = NoOptions
STITCHES = {"k": "knit", "p": "purl"}
INFO = RuleInfo(
    name="colour/stitch-symbol",
    level=Level.WARNING,
    summary="a colour's symbol is K or P, and the chart has written rows",
    why=(
        "In words k is knit and p is purl. `K3 P, p3 K` can be followed, and `3 P` cannot: three purl stitches, or "
        "three of the colour. Whoever reads aloud, or listens to a screen reader, cannot tell them apart."
    ),
    remedy="give the colour another letter, or quote it in the written rows; M, C and the like are free",
    keys={"stitch-symbol": "the symbol is the abbreviation of a stitch"},
    sources=("abbreviations: a house list of the usual English ones",),
    judges_by=frozenset({Basis.COLOURS}),
)


def check(work: Work, options: NoOptions) -> Iterator[Finding]:
    """One finding for each such colour, at its symbol in the key; none where no rows are written."""
    chart = work.chart
    if not chart.in_words:
        return
    for symbol in chart.colours:
        stitch = STITCHES.get(symbol.lower())
        if stitch:
            name = colour_and_symbol(chart, symbol)
            message = f"the symbol of {name} means {stitch} in written rows; expected another letter"
            yield Finding("stitch-symbol", message, chart.places.key("colours", symbol), pattern=symbol)
