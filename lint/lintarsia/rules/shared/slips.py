"""Slips of a whole row: which change of one row would make it fit between its neighbours, and how surely.

A picture's edges go on from row to row. A row that is shifted, mirrored or exchanged with the next bends every edge at
that place, and the change undone straightens them. How far is put into one number, by weights that were fitted to
planted slips (docs/row-slips.md says how they were found and how often they are right). Pictures whose rows have
little in common, such as small letters, have nothing to go by: in them nothing is said.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from lintarsia.chart.grid import RowIndex, RowNumber, row_number
from lintarsia.ground.values import dataclass
from lintarsia.rules.shared.suspect_rows import NEAR, Cells, Suspect, suspects, unsupported

Blurred = NDArray[np.float64]  # (colours, rows, stitches): how much of each colour is about each place
FEWEST = 8  # rows, and stitches in a row: in less there is no picture (house value)
BUSIEST = 0.3  # share of stitches that change from row to row, beyond which nothing is said
TRIED = 2  # changes of a chart that are weighed, those that promise most: with eight no more slips were found
SLACK = 0.5  # how far a score may lie above what was promised: of a hundred that count, three lie further

# Fitted by benchmarks/row_slips.py, which prints them.
WEIGHTS = {"bend": 1.91, "step": 1.37, "own": 1.61, "around": -0.08, "before": 0.09, "busy": -3.02, "base": -0.94}
FACTS = ("bend", "step", "own", "around", "before", "busy")


CALM = 4.0  # a picture in which nothing else scores more than 4 below "as likely as not" is as calm as can be
RIVALS = 12  # changes that are weighed to see how restless a picture is
AWAY = 2  # rows; what is nearer to a slip is bent by it
NEXT = 2.0  # by how much the best has to promise more than the next, where several do


class Bar(NamedTuple):
    """What is told: `score` at least, and by `apart` above the likeliest change anywhere else in the picture. Edges
    that wander make many a row fit better elsewhere; a slip is the one that stands out."""

    score: float
    apart: float


ENOUGH = Bar(-0.5, 3.0)  # four in five slips in drawn motifs, at one false alarm in two hundred rows or fewer
DOUBTFUL = Bar(-1.5, 2.0)
SURE = 5.0  # from here up nine in ten are right: benchmarks/row_slips.py --confidence


@dataclass(frozen=True, slots=True)
class Slip:
    """`kind` is `swapped` (row and the next), `mirrored` or `shifted`; `by` is how far to the right, in stitches, the
    row has been shifted. `row` is the knitter's. `score` is a logit: 0 is as likely as not, on the corpora; of what
    `find_slip` answers, by how much it stands out.
    """

    kind: str
    row: RowNumber
    by: int
    score: float


@dataclass(frozen=True, slots=True)
class RowFit:
    """How a row fits as it is and as it would be, as the logarithms that WEIGHTS are for."""

    bend: float
    step: float
    own: float
    around: float
    before: float
    busy: float

    @property
    def score(self) -> float:
        score: float = WEIGHTS["base"] + sum(WEIGHTS[name] * getattr(self, name) for name in FACTS)
        return score


def find_slip(cells: Cells, bar: Bar = ENOUGH) -> Slip | None:
    """The likeliest slip of a row, where it is likely enough. `cells` without squares that have no stitch."""
    rivals, busy = _promising(cells, -CALM)
    promising = [suspect for suspect in rivals if suspect.promise >= _least(bar.score, busy)]
    if _restless(promising):
        return None
    found = (slip for slip, _ in _weighed(cells, promising[:TRIED], busy))
    best = max(found, key=lambda slip: slip.score, default=None)
    if best is None or best.score < bar.score:
        return None
    rival = -CALM
    elsewhere = [suspect for suspect in rivals[:RIVALS] if abs(suspect.row + 1 - best.row) > AWAY]
    for suspect in elsewhere:
        if suspect.promise < _least(rival, busy):
            break  # nor will those that promise less come above it
        rival = max([rival, *(slip.score for slip, _ in _weighed(cells, [suspect], busy))])
        if best.score - rival < bar.apart:
            return None
    return replace(best, score=best.score - rival) if best.score - rival >= bar.apart else None


def candidates(cells: Cells, enough: float, tried: int = TRIED) -> Iterator[tuple[Slip, RowFit]]:
    """The changes of one row that may make it fit better by as much, with how well it would fit."""
    promising, busy = _promising(cells, enough)
    yield from _weighed(cells, promising[:tried], busy)


def _promising(cells: Cells, enough: float) -> tuple[list[Suspect], float]:
    """The changes that are worth weighing, best first, and what share of stitches changes from row to row."""
    if min(cells.shape) < FEWEST:
        return [], 0.0
    differs = cells[1:] != cells[:-1]
    busy = int(np.count_nonzero(differs)) / differs.size
    if busy == 0 or busy > BUSIEST:
        return [], busy
    return suspects(cells, differs, _least(enough, busy)), busy


def _least(enough: float, busy: float) -> float:
    """What a change has to promise if its score may be `enough`."""
    return enough - SLACK - WEIGHTS["base"] - WEIGHTS["busy"] * 10 * busy


def _restless(promising: Sequence[Suspect]) -> bool:
    """Whether several rows promise nearly as much as the best: then none will stand out. This spares the weighing of
    two in five pictures with wandering edges, for one in two hundred slips."""
    others = [suspect for suspect in promising if abs(suspect.row - promising[0].row) > AWAY]
    return len({suspect.row for suspect in others}) > 1 and promising[0].promise - others[0].promise < NEXT


def _weighed(cells: Cells, chosen: Sequence[Suspect], busy: float) -> Iterator[tuple[Slip, RowFit]]:
    windows: dict[int, _Window] = {}
    for suspect in chosen:
        window = windows.get(suspect.row) or windows.setdefault(suspect.row, _Window(cells, suspect.row))
        fit = window.fit(suspect, busy)
        if fit.bend > 0:
            yield Slip(suspect.kind, row_number(suspect.row), suspect.by, fit.score), fit


class _Window:
    """A row among its neighbours as they are, which all changes of it are set against."""

    def __init__(self, cells: Cells, row: RowIndex) -> None:
        low = max(0, row - NEAR)
        self.cells, self.at = cells[low : row + NEAR + 2], row - low
        self.codes = np.bincount(self.cells.ravel()).nonzero()[0][:, None, None]
        self.blurred = _blurred(self.cells, self.codes)
        self.bend, self.step = _jags(self.blurred)
        self.odd = _odd(self.cells)

    def fit(self, suspect: Suspect, busy: float) -> RowFit:
        rows = slice(self.at, self.at + (2 if suspect.kind == "swapped" else 1))
        around = slice(max(0, rows.start - 1), rows.stop + 1)
        now, blurred = self.cells.copy(), self.blurred.copy()
        now[rows] = self._undone(suspect)
        blurred[:, rows] = _blurred(now[rows], self.codes)
        bend, step = _jags(blurred)
        odd, before = _odd(now), int(self.odd[around].sum())
        return RowFit(
            bend=_ratio(self.bend, bend),
            step=_ratio(self.step, step),
            own=_ratio(int(self.odd[rows].sum()), int(odd[rows].sum())),
            around=_ratio(before, int(odd[around].sum())),
            before=math.log1p(before),
            busy=10 * busy,
        )

    def _undone(self, suspect: Suspect) -> Cells:
        """The row, or the row and the next, with the slip undone."""
        row = self.cells[self.at]
        if suspect.kind == "swapped":
            return self.cells[[self.at + 1, self.at]]
        return row[::-1] if suspect.kind == "mirrored" else moved(row, -suspect.by)


def _odd(cells: Cells) -> NDArray[np.int64]:
    """For each row, how many of its stitches neither the row below nor the row above has in their place."""
    odd: NDArray[np.int64] = unsupported(cells[1:] != cells[:-1]).sum(axis=1)
    return odd


def _jags(blurred: Blurred) -> tuple[float, float]:
    """How much edges bend from row to row, and how much they move."""
    step = blurred[:, 1:] - blurred[:, :-1]
    bend = step[:, 1:] - step[:, :-1]
    return float(np.vdot(bend, bend)), float(np.vdot(step, step))


def _blurred(cells: Cells, codes: NDArray[np.int64]) -> Blurred:
    """An edge moved by two stitches is to cost more than two moved by one: each place takes 3/9 from itself, 2/9 from
    those beside it and 1/9 from the next, which is the mean of three taken twice."""
    one = cells == codes
    spread = np.empty((*one.shape[:2], one.shape[2] + 4))
    spread[..., 2:-2], spread[..., :2], spread[..., -2:] = one, one[..., :1], one[..., -1:]
    for _ in range(2):
        spread = spread[..., :-2] + spread[..., 1:-1] + spread[..., 2:]
    spread /= 9
    return spread


def moved(row: Cells, by: int) -> Cells:
    """A row moved `by` stitches to the right (to the left where it is below 0), its end stitch repeated."""
    if by > 0:
        return np.concatenate([np.repeat(row[:1], by), row[:-by]])
    return np.concatenate([row[-by:], np.repeat(row[-1:], -by)])


def _ratio(before: float, after: float) -> float:
    return math.log((before + 0.5) / (after + 0.5))


def filled(cells: Cells) -> Cells | None:
    """A chart's cells with the squares beyond a row's stitches filled with its end stitches, so that shaping is no edge
    of the picture; None where a row has no stitch, or squares without a stitch between its own."""
    if int(cells.min()) >= 0:
        return cells
    whole = cells.copy()
    for row in whole:
        at = np.flatnonzero(row >= 0)
        if not len(at) or any(b - a > 1 for a, b in pairwise(at.tolist())):
            return None
        row[: at[0]], row[at[-1] + 1 :] = row[at[0]], row[at[-1]]
    return whole
