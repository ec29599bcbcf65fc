"""Results as a chart's page tells them: like ones gathered, each with its place, its stitches and a way to see them."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from lintarsia.chart import Chart
from lintarsia.publishing.words import count, row_word
from lintarsia.reporting.groups import groups, places
from lintarsia.result import Level, Result, RuleInfo

LEVEL_WORDS = {Level.ERROR: "error", Level.WARNING: "warning", Level.NOTE: "note"}

_NOT_PLAIN = re.compile("[^A-Za-z0-9]+")
MOST_SPOTS = 200  # of like results listed one by one; the report for machines has every one
MOST_MARKS = 2_000  # results drawn into a chart


@dataclass(frozen=True, slots=True)
class Spot:
    """One result at its place. `mark` is its number in the drawing's results layer, None where nothing is drawn."""

    anchor: str
    where: str
    message: str
    row: int | None
    first: int
    last: int
    mark: int | None
    line: int


@dataclass(frozen=True, slots=True)
class Telling:
    """Like results in one file, told once. `spots` has at least one; `fixes` says what a fix would do.

    `more` is how many are not listed.
    """

    level: str
    blocks: bool
    rule: str
    summary: str
    why: str
    remedy: str
    head: str
    places: tuple[str, ...]
    spots: tuple[Spot, ...]
    more: int
    fixes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Accepted:
    """A suppressed result, with the reason that the designer gave."""

    rule: str
    where: str
    message: str
    justification: str


def anchors(results: Sequence[Result]) -> list[str]:
    """An id for each result, made of its fingerprint so that links to it outlive other changes to the chart."""
    seen: dict[str, int] = {}
    made = []
    for result in results:
        name = f"result-{_NOT_PLAIN.sub('', result.fingerprint)[:16]}"
        seen[name] = seen.get(name, 0) + 1
        made.append(name if seen[name] == 1 else f"{name}-{seen[name]}")
    return made


def tellings(
    chart: Chart | None, results: Sequence[Result], blocking: Level, rules: Mapping[str, RuleInfo]
) -> list[Telling]:
    """Standing results, the gravest first, gathered by rule and kind."""
    numbers = {id(result): i for i, result in enumerate(results)}
    names = anchors(results)
    word = row_word(chart) if chart else "row"
    told = []
    for group in groups(results):
        first = group[0]
        info = rules[first.rule]
        told.append(
            Telling(
                level=LEVEL_WORDS[first.level],
                blocks=blocking is not Level.OFF and first.level.reaches(blocking),
                rule=first.rule,
                summary=info.summary,
                why=info.why,
                remedy=first.remedy,
                head=first.message if len(group) == 1 else f"{count(len(group), 'place')}: {info.summary}",
                places=tuple(places(group, word)) if len(group) > 1 else (),
                spots=tuple(
                    _spot(chart, result, names[numbers[id(result)]], numbers[id(result)])
                    for result in group[:MOST_SPOTS]
                ),
                more=max(0, len(group) - MOST_SPOTS),
                fixes=tuple(dict.fromkeys(fix.description for result in group for fix in result.fixes)),
            )
        )
    return sorted(told, key=lambda t: (not t.blocks, -Level(t.level).rank))


def accepted(chart: Chart | None, results: Sequence[Result]) -> list[Accepted]:
    return [Accepted(r.rule, where(chart, r), r.message, r.justification) for r in results if r.suppressed]


def _spot(chart: Chart | None, result: Result, anchor: str, number: int) -> Spot:
    row = result.row
    drawn = chart is not None and row is not None and 1 <= row <= chart.grid.height and number < MOST_MARKS
    first, last = result.stitches or (1, chart.grid.width if chart else 1)
    return Spot(
        anchor, where(chart, result), result.message, row if drawn else None, first, last,
        number if drawn else None, result.region.line,
    )  # fmt: skip


def where(chart: Chart | None, result: Result) -> str:
    """`Row 14 (wrong side), stitches 23–25`; the line of the file where the result has no row."""
    if result.row is None:
        return f"Line {result.region.line} of the file"
    name = f"{row_word(chart).capitalize() if chart else 'Row'} {result.row}"
    if chart and row_word(chart) == "row":
        name += f" ({chart.side(result.row).words})"
    if result.stitches is None:
        return name
    first, last = result.stitches
    return f"{name}, stitch {first}" if first == last else f"{name}, stitches {first}–{last}"
