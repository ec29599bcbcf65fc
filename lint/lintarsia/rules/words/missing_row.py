"""words/missing-row: where some rows are written, all are, and none that the chart does not have."""

from collections.abc import Iterator

from lintarsia.chart import Chart, Worked
from lintarsia.result import Basis, Finding, Level, RuleInfo
from lintarsia.rules.base import NoOptions, Work
from lintarsia.telling.counts import count
from lintarsia.telling.names import row_word
from lintarsia.telling.spans import stretches

Options = NoOptions
INFO = RuleInfo(
    name="words/missing-row",
    level=Level.WARNING,
    summary="some rows are written and others are not, or a row is written that the chart does not have",
    why=(
        "A knitter who works from the words has no other instructions: a row that is left out is never knitted, and "
        "all after it are one row out. A row beyond the chart is knitted into the piece."
    ),
    remedy="write the missing rows (`lintarsia write` gives them), or take out those that the chart does not have",
    keys={
        "not-written": "rows of the chart that are not written",
        "not-charted": "a row that is written and not in the chart",
    },
    sources=("common practice",),
    judges_by=frozenset({Basis.COLOURS}),
)


def check(work: Work, options: NoOptions) -> Iterator[Finding]:
    """One finding for each stretch of rows that are not written, one for each that the chart does not have."""
    chart = work.chart
    if not chart.written:
        return
    missing = [row for row in range(1, chart.grid.height + 1) if row not in chart.written]
    for first, last in stretches((row, row) for row in missing):
        message = f"{_rows(chart, first, last)} in the chart and not written"
        yield Finding("not-written", message, chart.places.key("written"), first)
    yield from _beyond(chart)


def _beyond(chart: Chart) -> Iterator[Finding]:
    """One finding for each entry that names rows which the chart does not have."""
    said = {row: entry for entry in chart.written_entries for row in entry.rows}
    told = set()
    for row in sorted(chart.written):
        entry = said.get(row)
        if row <= chart.grid.height or (entry and entry.said in told):
            continue
        told.add(entry.said if entry else str(row))
        message = f"{row_word(chart)} {row} is written; the chart has {count(chart.grid.height, row_word(chart))}"
        region = (
            entry.region if entry and entry.region else chart.places.key("written", entry.said if entry else str(row))
        )
        yield Finding("not-charted", message, region, pattern=chart.written[row])


def _rows(chart: Chart, first: int, last: int) -> str:
    if first == last:
        return f"{chart.row_name(first)} is"
    word = "rounds" if chart.worked is Worked.ROUND else "rows"
    return f"{word} {first}–{last} are"
