"""yarn/unused: a yarn in the shopping list that no colour is worked in."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from lintarsia.result import Basis, Finding, Kind, Level, RuleInfo
from lintarsia.rules.base import NoOptions, Work

if TYPE_CHECKING:
    from lintarsia.pattern.work import About, PatternWork

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
    keys={
        "unused": "no colour of the key names the yarn",
        "not-in-charts": "a pattern says how much to buy of a yarn that no chart of its pieces has",
    },
    sources=("common practice",),
    subjects=(Kind.CHART, Kind.PATTERN),
    judges_by=frozenset({Basis.GAUGE, Basis.COLOURS}),
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


def check_pattern(work: "PatternWork", options: NoOptions) -> "Iterator[About]":
    """One finding for each yarn to buy that no chart lists; none while a chart cannot be read, which may list it."""
    from difflib import get_close_matches

    from lintarsia.pattern.work import About

    charts = [file.chart for file in work.charts.values()]
    if any(chart is None for chart in charts):
        return
    listed = {yarn for chart in charts if chart is not None for yarn in chart.yarns}
    listed |= {colour.yarn for colour in work.pattern.colours.values() if colour.yarn}
    for yarn in work.pattern.yarns:
        if listed and yarn not in listed:
            near = get_close_matches(yarn, listed, n=1)
            message = f"the yarn {yarn!r} is to be bought, and no chart of the pattern has it"
            message += f"; did you mean {near[0]!r}?" if near else ""
            region = work.pattern.places.key("yarns", yarn)
            remedy = "name it as the charts do, or take it out"
            yield About(Finding("not-in-charts", message, region, level=Level.WARNING, remedy=remedy, pattern=yarn))
