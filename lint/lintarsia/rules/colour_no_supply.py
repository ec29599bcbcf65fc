"""colour/no-supply: a colour that is worked but that the file's `supplies` leave out."""

from collections.abc import Iterator

from lintarsia.result import Finding, Level, RuleInfo
from lintarsia.rules.base import NoOptions, Work
from lintarsia.rules.telling import colour_name

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
        name = colour_name(chart, symbol)
        if stated is not None and stated.count == 0:
            message = f"{name} is used and has 0 supplies; expected 1 or more"
            yield Finding("zero-supplies", message, chart.places.value("supplies", symbol), pattern=symbol)
        elif (
            stated is None and ("supplies", symbol) not in chart.places.keys
        ):  # there but faulty: the schema's business
            message = f"{name} is used and is not in `supplies`; expected 1 supply or more"
            yield Finding("no-supply", message, chart.places.key("supplies"), pattern=symbol)
