"""A long row that is one stretch of stitches over and over, told as knitters do: the stretch, and how many times."""

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from lintarsia.planning.model import Plan, RowPlan
from lintarsia.telling.languages import phrase
from lintarsia.written.motif import motif

LONG = 8  # runs that can be told with their names before a card is full

Told = tuple[int, str]  # stitches, and the supply that works them


class Fold(NamedTuple):
    """`wide` stitches worked `times` times; `stretch` are its runs, `rest` those of what is left at the end."""

    wide: int
    times: int
    stretch: tuple[Told, ...]
    rest: tuple[Told, ...]


class Folding:
    """Finds the fold of a row: None for one of few runs, or that repeats nothing. Like rows are looked at once."""

    def __init__(self, plan: Plan) -> None:
        self._runs = plan.runs
        self._known: dict[tuple[tuple[int, ...], tuple[str, ...]], Fold | None] = {}

    def __call__(self, row: RowPlan) -> Fold | None:
        if len(row.runs) <= LONG:
            return None
        worked = tuple([self._runs[run].stitches for run in row.runs])
        if (worked, row.by) not in self._known:
            self._known[worked, row.by] = _fold(worked, row.by)
        return self._known[worked, row.by]


def _fold(worked: Sequence[int], by: Sequence[str]) -> Fold | None:
    stitches = [supply for supply, number in zip(by, worked, strict=True) for _ in range(number)]
    wide = motif(stitches)
    if not wide:
        return None
    runs, end = list(zip(worked, by, strict=True)), len(stitches) // wide * wide
    return Fold(wide, len(stitches) // wide, tuple(_between(runs, 0, wide)), tuple(_between(runs, end, len(stitches))))


def _between(runs: Sequence[Told], start: int, end: int) -> Iterator[Told]:
    """The runs between two stitches, counted in working order from 0; runs are cut where they reach beyond."""
    at = 0
    for stitches, supply in runs:
        first, at = max(at, start), at + stitches
        if min(at, end) > first:
            yield min(at, end) - first, supply


def times_words(times: int) -> str:
    return phrase("twice") if times == 2 else phrase("{n} times", n=times)
