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
    if not chart.in_words:
        return
    for half in ("", "right", "left"):
        for first, last in stretches((row, row) for row in _missing(work, half)):
            of = f"the {half} side of " if half else ""
            message = f"{of}{_rows(chart, first, last, half)} in the chart and not written"
            yield Finding("not-written", message, chart.places.key("written"), first)
    yield from _beyond(work)


def _missing(work: Work, half: str) -> list[int]:
    """The rows that are not written; of a side: those of which only the other side is."""
    chart, sides = work.chart, work.chart.written_sides
    rows = [row for row in range(1, chart.grid.height + 1) if row not in chart.written]
    if not sides:
        return [] if half else rows
    if not half:
        return [row for row in rows if not {(row, "right"), (row, "left")} & set(sides)]
    halves = {(stint.row, stint.half) for row in rows for stint in work.sides.stints(row)}
    other = "left" if half == "right" else "right"
    return [row for row in rows if (row, other) in sides and (row, half) not in sides and (row, half) in halves]


def _beyond(work: Work) -> Iterator[Finding]:
    """One finding for each entry that names rows, or sides of them, which the chart does not have."""
    chart = work.chart
    said = {(row, entry.half): entry for entry in chart.written_entries for row in entry.rows}
    told = set()
    places = {**{(row, ""): text for row, text in chart.written.items()}, **chart.written_sides}
    for place, words in sorted(places.items()):
        (row, half), entry = place, said.get(place)
        there = row <= chart.grid.height and (not half or any(p.half == half for p in work.sides.stints(row)))
        if there or (entry and entry.said in told):
            continue
        told.add(entry.said if entry else str(row))
        message = f"{row_word(chart)} {row} is written; the chart has {count(chart.grid.height, row_word(chart))}"
        if row <= chart.grid.height:
            message = f"the {half} side of {row_word(chart)} {row} is written; the chart has no such side in that row"
        region = (
            entry.region if entry and entry.region else chart.places.key("written", entry.said if entry else str(row))
        )
        yield Finding("not-charted", message, region, pattern=words)


def _rows(chart: Chart, first: int, last: int, half: str) -> str:
    if first == last:
        return f"{chart.row_name(first)} is"
    word = "rounds" if chart.worked is Worked.ROUND else "rows"
    return f"{word} {first}–{last} {'is' if half else 'are'}"
