"""yarn/unused: a yarn in the shopping list that no colour is worked in."""

from collections.abc import Iterator

from lintarsia.result import Finding, Level, RuleInfo
from lintarsia.rules.base import NoOptions, Work

Options = NoOptions
INFO = RuleInfo(
    name="yarn/unused",
    level=Level.NOTE,
    summary="a yarn is listed that no colour is worked in",
    why=(
        "`yarns` is what the knitter buys. A yarn that no colour names is bought for nothing, unless it is for a "
        "part of the piece that this chart does not show."
    ),
    remedy="take the yarn out, or name it in the colour that is worked in it",
    keys={"unused": "no colour of the key names the yarn"},
    sources=("common practice",),
)


def check(work: Work, options: NoOptions) -> Iterator[Finding]:
    """One finding for each yarn that no colour names; none in a chart whose colours name no yarns at all."""
    chart = work.chart
    named = {colour.yarn for colour in chart.colours.values() if colour.yarn}
    if not named:
        return
    for yarn in chart.yarns:
        if yarn not in named:
            message = f"the yarn {yarn!r} is listed, and no colour of the key is worked in it"
            yield Finding("unused", message, chart.places.key("yarns", yarn), pattern=yarn)
