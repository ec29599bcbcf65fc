"""supply/too-few: the supplies that the file gives a colour against those that the plan needs."""

from collections.abc import Iterator

from lintarsia.chart import Chart, StatedSupplies
from lintarsia.planning.model import Plan, Supply
from lintarsia.result import Basis, Edit, Finding, Fix, Level, RuleInfo
from lintarsia.rules.base import NoOptions, Work
from lintarsia.rules.shared.planned import stretch
from lintarsia.telling.counts import count
from lintarsia.telling.names import colour_and_symbol, row_word

Options = NoOptions
INFO = RuleInfo(
    name="supply/too-few",
    level=Level.ERROR,
    summary="a colour has fewer separate yarns than its blocks need",
    why=(
        "Every block of colour in a row hangs on its own yarn. A knitter who has wound too few meets a block with "
        "nothing to work it with, and has to wind, join and hide two more ends in the middle of a row."
    ),
    remedy="write the number that is needed, or redraw so that the blocks can share a yarn",
    keys={
        "fewer-than-a-row-needs": "one row alone works with more yarns of the colour than the file gives it",
        "fewer-than-planned": "no row needs more at once, but no plan can do with so few",
    },
    sources=("common practice: one supply for every block of colour in a row",),
    fix_from_plan=True,
    judges_by=frozenset({Basis.SYMBOLS}),
)


def check(work: Work, options: NoOptions) -> Iterator[Finding]:
    """One finding for each colour, at the block that no supply is left for. A colour with none at all, or without an
    entry, is the business of colour/no-supply.
    """
    stated = work.chart.supplies
    if not stated:
        return
    for symbol, given in stated.items():
        planned = work.plan.colours.get(symbol)
        if planned and 0 < given.count < planned.supplies:
            yield _finding(work.chart, work.plan, symbol, given)


def _finding(chart: Chart, plan: Plan, symbol: str, given: StatedSupplies) -> Finding:
    own = [supply for supply in plan.supplies if supply.colour == symbol]
    first_without = own[given.count]
    word = row_word(chart)
    row, at_once = _fullest(plan, symbol)
    has = count(given.count, "supply", "supplies")
    message = f"{colour_and_symbol(chart, symbol)} has {has}; the plan needs {len(own):,}"
    key = "fewer-than-planned"
    if at_once > given.count:
        key = "fewer-than-a-row-needs"
        message += f", and {word} {row} alone works with {at_once}"
    else:
        message += f": nothing can be carried to where {first_without.id} is joined"
    run = plan.runs[first_without.runs[0]]
    place = stretch(chart, run.row, run.left, run.right)
    region = chart.places.value("supplies", symbol)
    to_wind_last = sorted(own, key=lambda supply: supply.wound)  # the ball itself is at hand before all that is wound
    edit = _added(chart, symbol, to_wind_last[given.count :]) if given.each else Edit(region, str(len(own)))
    fixes = (Fix(f"give {symbol} {count(len(own), 'supply', 'supplies')}", (edit,)),) if edit else ()
    return Finding(key, message, region, place.row, place.stitches, fixes=fixes, pattern=symbol)


def _fullest(plan: Plan, symbol: str) -> tuple[int, int]:
    """The lowest row with most supplies of a colour, and how many."""
    runs = plan.runs
    most, at = 0, 0
    for row in plan.rows:
        used = len({name for run, name in zip(row.runs, row.by, strict=True) if runs[run].colour == symbol})
        if used > most:
            most, at = used, row.row
    return at, most


def _added(chart: Chart, symbol: str, lacking: list[Supply]) -> Edit | None:
    """The supplies that a list lacks, put behind what stands there; without lengths, which `plan --write` states."""
    editor = chart.places.editor
    entries = [f"{{holder: {supply.holder}}}" for supply in lacking]
    return editor.adding(("supplies", symbol), *entries) if editor else None
