"""colour/unused: a colour of the key that no stitch is worked in."""

from collections.abc import Iterator

from lintarsia.chart import Chart
from lintarsia.result import Basis, Finding, Fix, Level, RuleInfo
from lintarsia.rules.base import NoOptions, Work
from lintarsia.telling.names import colour_and_symbol

Options = NoOptions
INFO = RuleInfo(
    name="colour/unused",
    level=Level.WARNING,
    summary="a colour of the key is used by no stitch",
    why=(
        "The knitter buys and winds what the key lists. A colour that no stitch uses is yarn bought for nothing, "
        "or the trace of a colour that was painted over by mistake."
    ),
    remedy="take the colour out of the key, or put it back into the chart",
    keys={"unused": "no stitch and no duplicate stitch has this colour"},
    sources=("common practice",),
    judges_by=frozenset({Basis.COLOURS}),
)


def check(work: Work, options: NoOptions) -> Iterator[Finding]:
    """One finding for each colour that neither the grid nor a duplicate stitch uses, at its place in the key."""
    chart = work.chart
    used = work.used | {entry.colour for entry in chart.duplicate} if chart.duplicate else work.used
    for symbol in chart.colours:
        if symbol not in used:
            message = f"{colour_and_symbol(chart, symbol)} is in the key, and no stitch of the chart uses it"
            fixes = _fixes(chart, symbol)
            yield Finding("unused", message, chart.places.key("colours", symbol), fixes=fixes, pattern=symbol)


def _fixes(chart: Chart, symbol: str) -> tuple[Fix, ...]:
    """The colour's entry in the key deleted, and the one in `supplies`. The yarns are left: other colours may be of
    the same yarn, and what is bought is not for a chart to decide. None while a row is short: the colour may be that of
    the missing stitch.
    """
    from lintarsia.rules.shared.short_rows import any_short

    editor = chart.places.editor
    if editor is None or any_short(chart):
        return ()
    edits = [editor.taking_out(("colours", symbol))]
    if ("supplies", symbol) in chart.places.keys:
        edits.append(editor.taking_out(("supplies", symbol)))
    certain = tuple(edit for edit in edits if edit is not None)
    return (Fix(f"take {symbol} out of the key", certain),) if len(certain) == len(edits) else ()
