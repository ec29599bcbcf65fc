"""Slips of a whole row: which change of one row would make it fit between its neighbours, and how surely.

A picture's edges go on from row to row. A row that is shifted, mirrored or exchanged with the next bends every edge at
that place, and the change undone straightens them. How far is put into one number, by weights that were fitted to
planted slips (docs/row-slips.md says how they were found and how often they are right). Pictures whose rows have
little in common, such as small letters, have nothing to go by: in them nothing is said.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise
from typing import NamedTuple

import numpy as np

from lintarsia.chart.grid import RowNumber, row_number
from lintarsia.ground.values import dataclass
from lintarsia.rules.shared.lanes import Cells
from lintarsia.rules.shared.row_fits import WEIGHTS, RowFit, row_fits
from lintarsia.rules.shared.suspect_rows import RowLanes, Suspect, suspects

FEWEST = 8  # rows, and stitches in a row: in less there is no picture (house value)
BUSIEST = 0.3  # share of stitches that change from row to row, beyond which nothing is said
TRIED = 2  # changes of a chart that are weighed, those that promise most: with eight no more slips were found
SLACK = 0.5  # how far a score may lie above what was promised: of a hundred that count, three lie further
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


def find_slip(cells: Cells, bar: Bar = ENOUGH) -> Slip | None:
    """The likeliest slip of a row, where it is likely enough. `cells` without squares that have no stitch."""
    rows, rivals = _promising(cells, -CALM)
    if rows is None:
        return None
    promising = [suspect for suspect in rivals if suspect.promise >= _least(bar.score, rows.busy)]
    if _restless(promising):
        return None
    found = (slip for slip, _ in _weighed(rows, promising[:TRIED]))
    best = max(found, key=lambda slip: slip.score, default=None)
    if best is None or best.score < bar.score:
        return None
    elsewhere = [suspect for suspect in rivals[:RIVALS] if abs(suspect.row + 1 - best.row) > AWAY]
    apart = best.score - _likeliest(rows, elsewhere, best.score - bar.apart)
    return replace(best, score=apart) if apart >= bar.apart else None


def _likeliest(rows: RowLanes, rivals: Sequence[Suspect], limit: float) -> float:
    """The highest score of these changes, the likeliest first, or one above `limit`; -CALM where all are below it."""
    highest = -CALM
    for suspect, fit in zip(rivals, row_fits(rows, rivals), strict=False):
        if highest > limit or suspect.promise < _least(highest, rows.busy):
            break  # nor will those that promise less come above it
        if fit.bend > 0:
            highest = max(highest, fit.score)
    return highest


def candidates(cells: Cells, enough: float, tried: int = TRIED) -> Iterator[tuple[Slip, RowFit]]:
    """The changes of one row that may make it fit better by as much, with how well it would fit."""
    rows, promising = _promising(cells, enough)
    if rows is not None:
        yield from _weighed(rows, promising[:tried])


def _promising(cells: Cells, enough: float) -> tuple[RowLanes | None, list[Suspect]]:
    """The rows, and the changes that are worth weighing, best first; None where there is nothing to go by."""
    if min(cells.shape) < FEWEST:
        return None, []
    busy = int(np.count_nonzero(cells[1:] != cells[:-1])) / cells[1:].size
    if not 0 < busy <= BUSIEST:
        return None, []
    rows = RowLanes(cells, busy)
    return rows, suspects(rows, _least(enough, busy))


def _least(enough: float, busy: float) -> float:
    """What a change has to promise if its score may be `enough`."""
    return enough - SLACK - WEIGHTS["base"] - WEIGHTS["busy"] * 10 * busy


def _restless(promising: Sequence[Suspect]) -> bool:
    """Whether several rows promise nearly as much as the best: then none will stand out. This spares the weighing of
    two in five pictures with wandering edges, for one in two hundred slips."""
    others = [suspect for suspect in promising if abs(suspect.row - promising[0].row) > AWAY]
    return len({suspect.row for suspect in others}) > 1 and promising[0].promise - others[0].promise < NEXT


def _weighed(rows: RowLanes, chosen: Sequence[Suspect]) -> Iterator[tuple[Slip, RowFit]]:
    for suspect, fit in zip(chosen, row_fits(rows, chosen), strict=True):
        if fit.bend > 0:
            yield Slip(suspect.kind, row_number(suspect.row), suspect.by, fit.score), fit


def moved(row: Cells, by: int) -> Cells:
    """A row moved `by` stitches to the right (to the left where it is below 0), its end stitch repeated."""
    if by > 0:
        return np.concatenate([np.repeat(row[:1], by), row[:-by]])
    return np.concatenate([row[-by:], np.repeat(row[-1:], -by)])


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
