"""Results as a chart's page tells them: like ones gathered, each with its place, its stitches and a way to see them."""

import re
from collections.abc import Iterable, Mapping, Sequence
from typing import NamedTuple

from lintarsia.chart import Chart
from lintarsia.publishing.pages.entry import tally_of
from lintarsia.reporting.groups import groups, places
from lintarsia.result import Fix, Level, Region, Result, RuleInfo
from lintarsia.telling.catalogues import speaking
from lintarsia.telling.counts import count
from lintarsia.telling.languages import ENGLISH, marked, phrase, row_forms
from lintarsia.telling.names import row_word

LEVEL_WORDS = dict(zip((Level.ERROR, Level.WARNING, Level.NOTE), marked("error", "warning", "note"), strict=True))

_NOT_PLAIN = re.compile("[^A-Za-z0-9]+")
# `row 14 (WS) needs …`: the place stands above the message already. Not `rows 2–6 are …`, nor `row 4 and row 5 …`.
_SAME_PLACE = re.compile(r"(?:row|round) (\d+)(?: \((?:RS|WS)\))?(?:: | (?!and |or |to |with )(?=[a-z]))")
MOST_SPOTS = 200  # of like results listed one by one; the report for machines has every one
MOST_MARKS = 2_000  # results drawn into a chart


class AtHand(NamedTuple):
    """A mend that `lintarsia check` can make: what it does, and the option that has it made."""

    does: str
    option: str


class ResultPlace(NamedTuple):
    """One result at its place. `mark` is its number in the drawing's results layer, None where nothing is drawn.

    `remedy` and `fixes` are its own alone: what holds for all of its kind is told once, by the `Telling`.
    """

    anchor: str
    where: str
    message: str
    row: int | None
    first: int
    last: int
    mark: int | None
    line: int
    remedy: str = ""
    fixes: tuple[AtHand, ...] = ()


class Telling(NamedTuple):
    """Like results in one file, told once. `spots` has at least one; `more` is how many are not listed.

    `remedy` and `fixes` hold for every one of them; where what to do differs from place to place, `remedy` is the
    rule's general advice and each spot has its own.
    """

    level: str
    blocks: bool
    rule: str
    why: str
    remedy: str
    head: str
    places: tuple[str, ...]
    spots: tuple[ResultPlace, ...]
    more: int
    fixes: tuple[AtHand, ...]


class AcceptedView(NamedTuple):
    """A suppressed result, with the reason that the designer gave."""

    rule: str
    where: str
    message: str
    justification: str
    row: int | None
    stitches: tuple[int, int] | None = None


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
    chart: Chart | None,
    results: Sequence[Result],
    blocking: Level,
    rules: Mapping[str, RuleInfo],
    elsewhere: Mapping[str, Level] | None = None,
) -> list[Telling]:
    """Standing results gathered by rule and kind: the gravest first, and among equals as the rows are knitted."""
    numbers = {id(result): i for i, result in enumerate(results)}
    names = anchors(results)
    word = row_word(chart) if chart else "row"
    told = []
    alike = [sorted(group, key=_place) for group in groups(results)]
    for group in sorted(alike, key=lambda group: (-group[0].level.rank, _place(group[0]))):
        first, alone = group[0], len(group) == 1
        info = rules[first.rule]
        remedy = first.remedy if alone or _alike(result.remedy for result in group) else info.remedy
        fixes = _at_hand(first.fixes) if alone or _alike(_at_hand(result.fixes) for result in group) else ()
        with speaking(ENGLISH):  # as the rules'
            head = f"{count(len(group), 'place')}: {_kind(info, first.key)}"
            told_places = tuple(places(group, word))
        spots = []
        for result in group[:MOST_SPOTS]:
            number = numbers[id(result)]
            spots.append(_spot(chart, result, names[number], number, remedy, fixes))
        told.append(
            Telling(
                level=LEVEL_WORDS[first.level],
                blocks=any(tally_of((result,), blocking, elsewhere).blocks for result in group),
                rule=first.rule,
                why=info.why,
                remedy=remedy,
                head=first.message if alone else head,
                places=() if alone else told_places,
                spots=tuple(spots),
                more=max(0, len(group) - MOST_SPOTS),
                fixes=fixes,
            )
        )
    return told


def _kind(info: RuleInfo, key: str) -> str:
    """What like results have in common: the summary of their rule, or of their kind where a rule has several."""
    return info.keys.get(key, info.summary) if len(info.keys) > 1 else info.summary


def _place(result: Result) -> tuple[int, int, Region]:
    """To sort by: what concerns the whole chart, then row by row from row 1, and from stitch 1 within each."""
    return (result.row or 0, result.stitches[0] if result.stitches else 0, result.region)


def _alike(values: Iterable[object]) -> bool:
    return len(set(values)) == 1


def _at_hand(fixes: Sequence[Fix]) -> tuple[AtHand, ...]:
    return tuple([AtHand(fix.description, "--fix" if fix.safe else "--fix=risky") for fix in fixes])


def of_row(row: int | None, stitches: tuple[int, int] | None = None) -> str:
    """Attributes of what is told of a row, or of stitches of it, by which the card finds it."""
    told = f' data-of-row="{row}"' if row else ""
    return told + (f' data-of-stitches="{stitches[0]} {stitches[1]}"' if row and stitches else "")


def accepted(chart: Chart | None, results: Sequence[Result]) -> list[AcceptedView]:
    return [
        AcceptedView(r.rule, where(chart, r), r.message, r.justification, r.row, r.stitches)
        for r in results
        if r.suppressed
    ]


def _spot(
    chart: Chart | None, result: Result, anchor: str, number: int, told: str, at_hand: tuple[AtHand, ...]
) -> ResultPlace:
    """`told` and `at_hand` are what all of the kind have been told to do, and need not be told here."""
    row = result.row
    drawn = chart is not None and row is not None and 1 <= row <= chart.grid.height and number < MOST_MARKS
    first, last = result.stitches or (1, chart.grid.width if chart else 1)
    fixes = _at_hand(result.fixes)
    return ResultPlace(
        anchor, where(chart, result), _beyond_place(result), row if drawn else None, first, last,
        number if drawn else None, result.region.line,
        "" if result.remedy == told else result.remedy, () if fixes == at_hand else fixes,
    )  # fmt: skip


def _beyond_place(result: Result) -> str:
    """The message without the row that it begins with, where that is the row of the place it stands below."""
    said = _SAME_PLACE.match(result.message)
    return result.message[said.end() :] if said and int(said[1]) == result.row else result.message


def where(chart: Chart | None, result: Result) -> str:
    """`Row 14 (wrong side), stitches 23–25`; the line of the file where the result has no row."""
    if result.row is None:
        return phrase("Line {n} of the file", n=result.region.line)
    name = f"{row_forms(row_word(chart) if chart else 'row')['Word']} {result.row}"
    if chart and row_word(chart) == "row":
        name += f" ({phrase(chart.side(result.row).words)})"
    return name if result.stitches is None else f"{name}, {stitches_words(*result.stitches)}"


def stitches_words(first: int, last: int) -> str:
    """`stitch 7`, `stitches 7–9`."""
    if first == last:
        return phrase("stitch {first}", first=first)
    return phrase("stitches {first}–{last}", first=first, last=last)
