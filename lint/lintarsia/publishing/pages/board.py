"""The test knits of a pattern as its page shows them: sizes by testers, who has taken them, and what was said.

Handles and what was measured, no more; a log that says `site: false` is left out altogether.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from lintarsia.knits.model import MeasuredGauge
from lintarsia.knits.summary import NOW, THEN, Knit, PatternKnits
from lintarsia.pattern.model import ONE_SIZE
from lintarsia.publishing.pages.said import KINDS, MOST, Said, in_order, place_words
from lintarsia.telling.counts import count, one_and_all
from lintarsia.telling.languages import counted, day, in_figures, phrase


class TesterCell(NamedTuple):
    """What has become of a size in one tester's hands; `state` picks its mark, "" for none."""

    state: str
    words: str


class SizeRow(NamedTuple):
    """A size, how far it is in words, and a cell for each tester."""

    size: str
    told: str
    cells: tuple[TesterCell | None, ...]


@dataclass(frozen=True, slots=True)
class Taken:
    """A size and one who has taken it. `size` is "" below the first of a size."""

    size: str
    knitter: str
    state: str
    revision: str
    gauge: str
    yarn: str
    hours: str


@dataclass(frozen=True, slots=True)
class SpotLine:
    """A remark: where, what was said and by whom; `state` picks its mark, `link` leads to its stitches ("" to none)."""

    state: str
    kind: str
    place: str
    link: str
    said: str
    by: str
    answered: str


@dataclass(frozen=True, slots=True)
class Board:
    """`until` is the day by which logs are wanted, "" where the pattern names none."""

    lede: str
    until: str
    free: str
    testers: tuple[str, ...]
    sizes: tuple[SizeRow, ...]
    taken: tuple[Taken, ...]
    spots: tuple[SpotLine, ...]
    left_out: int  # remarks that are not listed


def board(one: PatternKnits | None, said: Sequence[Said], link: Callable[[Said], str], until: str = "") -> Board | None:
    """None where nothing may be shown and no day is named. `link` is where a remark's stitches are shown."""
    sizes = {size: [knit for knit in knits if knit.site] for size, knits in one.sizes.items()} if one else {}
    shown = [knit for knits in sizes.values() for knit in knits]
    if not shown and not said and not until:
        return None
    testers = tuple(dict.fromkeys(knit.knitter for knit in shown))
    free = [size for size, knits in sizes.items() if not knits and size != ONE_SIZE]
    return Board(
        _lede(shown, said),
        until,
        phrase("Nobody has taken {sizes} yet.", sizes=one_and_all(free)) if free else "",
        testers,
        tuple(_size_row(_name(size), knits, testers) for size, knits in sizes.items()) if shown else (),
        tuple(line for size, knits in sizes.items() for line in _taken(_name(size), knits)),
        tuple(_spot(each, link(each)) for each in in_order(said)),
        max(0, len(said) - MOST),
    )


def _name(size: str) -> str:
    return "" if size == ONE_SIZE else size


def _lede(shown: Sequence[Knit], said: Sequence[Said]) -> str:
    done, waiting = sum(bool(knit.finished) for knit in shown), sum(one.open for one in said)
    told = phrase("{knits}, {n} finished", knits=count(len(shown), "test knit"), n=done)
    left = counted(waiting, "{n} remark without an answer", "{n} remarks without an answer")
    return f"{told}; {left}." if waiting else f"{told}."


def _size_row(size: str, knits: Sequence[Knit], testers: Sequence[str]) -> SizeRow:
    done = sum(bool(knit.finished) for knit in knits)
    told = phrase("{n} of {all} finished", n=done, all=len(knits)) if knits else phrase("nobody has taken it")
    by = {knit.knitter: knit for knit in sorted(knits, key=lambda knit: knit.finished)}
    return SizeRow(size, told, tuple(_cell(by[name]) if name in by else None for name in testers))


def _cell(knit: Knit) -> TesterCell:
    if not knit.finished:
        return TesterCell("", phrase("knitting"))
    return TesterCell("clear", phrase("finished")) if _as_now(knit) else TesterCell("note", phrase("earlier state"))


def _as_now(knit: Knit) -> bool:
    return knit.revision == NOW or (knit.revision == THEN and bool(knit.same_stitches))


def _taken(size: str, knits: Sequence[Knit]) -> Iterator[Taken]:
    for number, knit in enumerate(knits):
        gauge = _gauge(knit.gauge) if knit.gauge else ""
        yarn = ", ".join(
            f"{used.yarn} {in_figures(f'{used.ratio:.2f}')}" for used in knit.yarns if used.ratio is not None
        )
        state = phrase("finished {day}", day=day(knit.finished)) if knit.finished else phrase("still knitting")
        hours = in_figures(f"{knit.hours:g}") if knit.hours is not None else ""
        yield Taken("" if number else size, knit.knitter, state, _revision(knit), gauge, yarn, hours)


def _gauge(gauge: MeasuredGauge) -> str:
    numbers = in_figures(f"{gauge.stitches:g} × {gauge.rows:g}")
    return phrase("{gauge} to {over}", gauge=numbers, over=gauge.over)


def _revision(knit: Knit) -> str:
    return phrase("as it is now") if _as_now(knit) else knit.commit or phrase("not known")


def _spot(said: Said, link: str) -> SpotLine:
    place = place_words("row", said.row, said.stitches, said.piece or said.alone)
    by = said.by + (f"; {phrase('said of {place}', place=said.earlier)}" if said.earlier else "")
    return SpotLine(said.state, phrase(KINDS[said.kind]), place, link, said.words, by, said.answered)
