"""Slips of a whole row: which change of one row would make it fit between its neighbours, and how surely.

A picture's edges go on from row to row. A row that is shifted, mirrored or exchanged with the next bends every edge at
that place, and the change undone straightens them. How far is put into one number, by weights that were fitted to
planted slips (docs/row-slips.md says how they were found and how often they are right). Pictures whose rows have
little in common, such as small letters, have nothing to go by: in them nothing is said.
"""

from collections.abc import Iterator
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from lintarsia.ground.values import dataclass

Cells = NDArray[np.int16]  # (rows, stitches): row 0 is the knitter's row 1, column 0 the leftmost stitch
FEWEST = 8  # rows, and stitches in a row: in less there is no picture (house value)
FURTHEST = 2  # stitches that a row is taken to be shifted by
BUSIEST = 0.3  # share of stitches that change from row to row, beyond which nothing is said
LOOKED_AT = 16  # rows of a chart that are tried, those whose edges bend most
NEAR = 3  # rows on either side that a row's neighbours reach
_KERNEL = np.array([1, 2, 3, 2, 1]) / 9  # so that an edge moved by two stitches costs more than two moved by one

# Fitted by benchmarks/row_slips.py, which prints them.
WEIGHTS = {"bend": 1.91, "step": 1.37, "own": 1.61, "around": -0.08, "before": 0.09, "busy": -3.02, "base": -0.94}
ENOUGH = 0.0
FACTS = ("bend", "step", "own", "around", "before", "busy")


@dataclass(frozen=True, slots=True)
class Slip:
    """`kind` is `swapped` (row and the next), `mirrored` or `shifted`; `by` is how far to the right, in stitches, the
    row has been shifted. `row` is the knitter's. `score` is a logit: 0 is as likely as not, on the corpora.
    """

    kind: str
    row: int
    by: int
    score: float


@dataclass(frozen=True, slots=True)
class Fit:
    """How a row fits as it is and as it would be, as the logarithms that WEIGHTS are for."""

    bend: float
    step: float
    own: float
    around: float
    before: float
    busy: float

    @property
    def score(self) -> float:
        return WEIGHTS["base"] + sum(WEIGHTS[name] * float(getattr(self, name)) for name in FACTS)


def find_slip(cells: Cells) -> Slip | None:
    """The likeliest slip of a row, where it is likely enough. `cells` without squares that have no stitch."""
    found = max(candidates(cells), key=lambda pair: pair[1].score, default=None)
    if found is None or found[1].score < ENOUGH:
        return None
    return found[0]


def candidates(cells: Cells) -> Iterator[tuple[Slip, Fit]]:
    """Every change of one row that would make it fit better, with how well it fits."""
    if min(cells.shape) < FEWEST:
        return
    busy = float((cells[1:] != cells[:-1]).mean())
    if busy == 0 or busy > BUSIEST:
        return
    picture = _Picture(cells, busy)
    for row in picture.most_bent():
        yield from picture.of_row(row)


class _Picture:
    def __init__(self, cells: Cells, busy: float) -> None:
        self.cells, self.busy = cells, busy
        self.codes = np.unique(cells)

    def most_bent(self) -> list[int]:
        """The rows where edges bend most, ascending: a slip is among them, and looking at all rows takes long."""
        bends = (np.diff(self._blurred(self.cells), n=2, axis=0) ** 2).sum(axis=(1, 2))
        here = np.convolve(np.pad(bends, 1), np.ones(3), "same")
        return sorted(np.argsort(-here, kind="stable")[:LOOKED_AT].tolist())

    def of_row(self, row: int) -> Iterator[tuple[Slip, Fit]]:
        low, high = max(0, row - NEAR), min(len(self.cells), row + NEAR + 2)
        window, at = self.cells[low:high], row - low
        for kind, by, changed in _changes(window, at):
            fit = self._fit(window, changed, at, 2 if kind == "swapped" else 1)
            if fit.bend > 0:
                yield Slip(kind, row + 1, by, fit.score), fit

    def _fit(self, was: Cells, now: Cells, at: int, rows: int) -> Fit:
        steps = [np.diff(self._blurred(window), axis=0) for window in (was, now)]
        bend = [float((np.diff(step, axis=0) ** 2).sum()) for step in steps]
        step = [float((each**2).sum()) for each in steps]
        odd = [_unsupported(window) for window in (was, now)]
        own = [int(o[at : at + rows].sum()) for o in odd]
        around = [int(o[max(0, at - 1) : at + rows + 1].sum()) for o in odd]
        return Fit(
            bend=_ratio(*bend),
            step=_ratio(*step),
            own=_ratio(*own),
            around=_ratio(*around),
            before=float(np.log1p(around[0])),
            busy=10 * self.busy,
        )

    def _blurred(self, window: Cells) -> NDArray[np.float64]:
        """(rows, stitches, colours): how much of each colour is about each place."""
        one: NDArray[np.float64] = (window[..., None] == self.codes).astype(float)
        reach = len(_KERNEL) // 2
        padded = np.pad(one, ((0, 0), (reach, reach), (0, 0)), mode="edge")
        width = window.shape[1]
        total: NDArray[np.float64] = sum(weight * padded[:, i : i + width] for i, weight in enumerate(_KERNEL))
        return total


def _changes(window: Cells, at: int) -> Iterator[tuple[str, int, Cells]]:
    """The window with one slip undone: kind, how far the row had been shifted to the right, the rows."""
    row = window[at]
    undone = [("mirrored", 0, row[::-1])]
    undone += [("shifted", -by, moved(row, by)) for by in range(-FURTHEST, FURTHEST + 1) if by]
    for kind, by, new in undone:
        if not np.array_equal(new, row):
            changed = window.copy()
            changed[at] = new
            yield kind, by, changed
    if at + 1 < len(window) and not np.array_equal(row, window[at + 1]):
        changed = window.copy()
        changed[[at, at + 1]] = window[[at + 1, at]]
        yield "swapped", 0, changed


def moved(row: Cells, by: int) -> Cells:
    """A row moved `by` stitches to the right (to the left where it is below 0), its end stitch repeated."""
    if by > 0:
        return np.concatenate([np.repeat(row[:1], by), row[:-by]])
    return np.concatenate([row[-by:], np.repeat(row[-1:], -by)])


def _unsupported(cells: Cells) -> NDArray[np.int64]:
    """For each row, how many of its stitches neither the row below nor the row above has in their place."""
    odd = np.ones(cells.shape, bool)
    odd[1:] &= cells[1:] != cells[:-1]
    odd[:-1] &= cells[:-1] != cells[1:]
    counts: NDArray[np.int64] = odd.sum(axis=1)
    return counts


def _ratio(before: float, after: float) -> float:
    return float(np.log((before + 0.5) / (after + 0.5)))


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
