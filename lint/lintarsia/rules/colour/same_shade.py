"""colour/same-shade: two colours of the key that are shown in one shade, and never meet."""

from collections.abc import Iterator

from lintarsia.result import Basis, Finding, Level, RuleInfo
from lintarsia.rules.base import NoOptions, Work
from lintarsia.rules.shared.touching import touching_pairs
from lintarsia.telling.names import colour_and_symbol

Options = NoOptions
INFO = RuleInfo(
    name="colour/same-shade",
    level=Level.NOTE,
    summary="two colours of the key are shown in the same shade",
    why=(
        "On screen and in a coloured print the two cannot be told apart, so a stitch painted in the wrong one of them "
        "goes unseen. Where both are one yarn, one symbol in the key is enough."
    ),
    remedy="give one of them another shade, or use one symbol for both",
    keys={"same-shade": "an earlier colour of the key has the same shade"},
    sources=("common practice",),
    judges_by=frozenset({Basis.COLOURS}),
)


def check(work: Work, options: NoOptions) -> Iterator[Finding]:
    """One finding for each colour whose shade an earlier one has; pairs that touch are left to colour/look-alike."""
    chart = work.chart
    shades: dict[str, str] = {}
    if "colours" in chart.assumed or len({colour.shade for colour in chart.colours.values()}) == len(chart.colours):
        return
    symbols, pairs = list(chart.colours), touching_pairs(work)
    for symbol, colour in chart.colours.items():
        if colour.shade_assumed:
            continue
        first = shades.setdefault(colour.shade, symbol)
        if first != symbol and (symbols.index(first), symbols.index(symbol)) not in pairs:
            one, other = colour_and_symbol(chart, symbol), colour_and_symbol(chart, first)
            message = f"{one} has the shade {colour.shade}, as {other} has"
            yield Finding("same-shade", message, chart.places.value("colours", symbol, "shade"), pattern=symbol)
