"""colour/no-supply: a colour that is worked but that the file's `supplies` leave out."""

from collections.abc import Iterator

from lintarsia.result import Basis, Edit, Finding, Fix, Level, RuleInfo
from lintarsia.rules.base import NoOptions, Work
from lintarsia.telling.counts import count
from lintarsia.telling.names import colour_and_symbol

Options = NoOptions
INFO = RuleInfo(
    name="colour/no-supply",
    level=Level.ERROR,
    summary="a colour that the chart uses has no supply",
    why=(
        "`supplies` tells the knitter what to wind before casting on. A colour that is missing there is met in the "
        "middle of a row, with nothing wound and nothing counted for it."
    ),
    remedy="give the colour its supplies, or leave the whole section out and have them worked out",
    keys={
        "no-supply": "the colour is not in `supplies`",
        "zero-supplies": "the colour is given 0 supplies",
    },
    sources=("common practice: one supply at least for every colour that is worked",),
    judges_by=frozenset({Basis.SYMBOLS, Basis.COLOURS}),
    fix_from_plan=True,
)


def check(work: Work, options: NoOptions) -> Iterator[Finding]:
    """One finding for each colour of the key that the grid or a duplicate stitch uses without a supply; none where the
    file has no `supplies`. The place is the section, or the 0.
    """
    chart = work.chart
    if chart.supplies is None:
        return
    used = work.used | {entry.colour for entry in chart.duplicate}
    for symbol in chart.colours:
        if symbol not in used:
            continue
        stated = chart.supplies.get(symbol)
        name = colour_and_symbol(chart, symbol)
        if stated is not None and stated.count == 0:
            message = f"{name} is used and has 0 supplies; expected 1 or more"
            region = chart.places.value("supplies", symbol)
            edit = Edit(region, str(_needed(work, symbol)))
            yield Finding("zero-supplies", message, region, fixes=_fixes(work, symbol, edit), pattern=symbol)
        elif (
            stated is None and ("supplies", symbol) not in chart.places.keys
        ):  # there but faulty: the schema's business
            message = f"{name} is used and is not in `supplies`; expected 1 supply or more"
            fixes = _fixes(work, symbol, _added(work, symbol))
            yield Finding("no-supply", message, chart.places.key("supplies"), fixes=fixes, pattern=symbol)


def _needed(work: Work, symbol: str) -> int:
    """As many as the plan has; 1 for a colour in duplicate stitch only, which no plan counts."""
    planned = work.plan.colours.get(symbol)
    return planned.supplies if planned else 1


def _added(work: Work, symbol: str) -> Edit | None:
    editor = work.chart.places.editor
    spelling = editor.spelling(("colours", symbol)) if editor else None
    return editor.adding(("supplies",), f"{spelling}: {_needed(work, symbol)}") if editor and spelling else None


def _fixes(work: Work, symbol: str, edit: Edit | None) -> tuple[Fix, ...]:
    needed = _needed(work, symbol)
    words = count(needed, "supply", "supplies")
    return (Fix(f"give {symbol} {words}", (edit,)),) if edit else ()
