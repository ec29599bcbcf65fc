"""supply/too-short: the lengths that the file gives the supplies against those that the plan needs."""

from collections.abc import Iterator
from math import ceil

from lintarsia.chart import Chart
from lintarsia.chart.measure import MM_PER, Length
from lintarsia.planning.model import Supply
from lintarsia.result import Basis, Edit, Finding, Fix, Level, RuleInfo
from lintarsia.rules.base import NoOptions, Work
from lintarsia.rules.shared.citing import LOOP_SOURCES
from lintarsia.rules.shared.planned import stretch
from lintarsia.telling.lengths import yarn_in
from lintarsia.telling.names import colour_and_symbol, row_word

Options = NoOptions
INFO = RuleInfo(
    name="supply/too-short",
    level=Level.ERROR,
    summary="a separate yarn is wound shorter than what it has to work",
    why=(
        "A butterfly that runs out in the middle of its block has to be joined there: two more ends, where no colour "
        "changes and nothing hides them. The length counts the stitches, what is carried, and a tail at each end."
    ),
    remedy="wind at least the length that is needed; a measured `gauge.loop` makes it surer than the gauge can",
    keys={"shorter-than-needed": "the length stated is less than the supply needs"},
    sources=(
        *LOOP_SOURCES,
        "common practice: a tail of 15 cm at a join and at a finish",
    ),
    judges_by=frozenset({Basis.SYMBOLS, Basis.GAUGE}),
    fix_from_plan=True,
)


def check(work: Work, options: NoOptions) -> Iterator[Finding]:
    """Lengths are compared longest with longest, so that a list in any order is right if any order is. A supply without
    a length is as long as it need be. Where fewer are listed than needed, those listed may be the shorter ones.
    """
    chart = work.chart
    if not chart.supplies:
        return
    for symbol, given in chart.supplies.items():
        lengths = [(each.length, i) for i, each in enumerate(given.each) if each.length]
        if not lengths:
            continue
        needs = sorted((s for s in work.plan.supplies if s.colour == symbol), key=lambda s: (-s.metres, s.id))
        endless = len(given.each) - len(lengths)
        left = needs[max(endless, len(needs) - len(lengths)) :]
        lengths.sort(key=lambda pair: (-pair[0].mm, pair[1]))
        for (length, index), supply in zip(lengths, left, strict=False):
            if length.metres + 0.005 < supply.metres:  # half of the last figure that is shown
                yield _finding(chart, symbol, index, length, supply, work)


def _finding(chart: Chart, symbol: str, index: int, length: Length, supply: Supply, work: Work) -> Finding:
    word = row_word(chart)
    first, last = supply.first_row, supply.last_row
    where = f"{word} {first}" if first == last else f"{word}s {first} to {last}"
    message = (
        f"supply {index + 1} of {colour_and_symbol(chart, symbol)} is {length} long; "
        f"{supply.id} needs {yarn_in(chart, supply.metres)} for {where}"
    )
    run = work.plan.runs[supply.runs[0]]
    place = stretch(chart, run.row, run.left, run.right)
    region = chart.places.value("supplies", symbol, index, "length")
    longer = Length(ceil(supply.metres * 1000 / MM_PER[length.unit] * 10 - 1e-9) / 10, length.unit)
    fix = Fix(f"make it {longer}", (Edit(region, str(longer)),))
    pattern = f"{symbol} {length}"
    return Finding("shorter-than-needed", message, region, place.row, place.stitches, fixes=(fix,), pattern=pattern)
