"""Slips of a whole row: which change of one row would make it fit between its neighbours, and how surely.

In a calm picture counting tells which few changes are worth weighing (rules/shared/suspect_rows.py); in one of strokes
and small figures all are weighed. What weighs them is a table of how usual each stitch is among its neighbours
(rules/shared/unlikely_rows.py). Rows of small repeats are as usual elsewhere as where they stand, and confetti has no
usual stitches: in them nothing is said. docs/row-slips.md says how often it is right.
"""

from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from lintarsia.chart.grid import RowIndex, RowNumber, row_number
from lintarsia.ground.values import dataclass
from lintarsia.rules.shared.lanes import Cells
from lintarsia.rules.shared.neighbours import EXCHANGED
from lintarsia.rules.shared.suspect_rows import UNDONE, RowLanes, Suspect, suspects
from lintarsia.rules.shared.unlikely_rows import Guess, Odds, likeliest, odds_of_slips, table

FEWEST = 8  # rows, and stitches in a row: in less there is no picture (house value)
CALM = 0.12  # share of stitches that change from row to row, up to which counting comes first
BUSIEST = 0.6  # the share beyond which nothing is said
LEAST = 1.5  # what a change has to promise, to be weighed; of slips that the table tells, one in thirty promises less
TRIED = 12  # changes of a calm picture that are weighed, those that promise most: two in a hundred slips come later
STROKES = 0.5  # what is taken from a guess where all are weighed: more of them come out high by chance
TWICE_SAID = 0.6  # of what two like sides say together; the stitches in the middle see both (house value)
ENDS, OVERLAP = 2, 8  # stitches at a row's ends that a slip may have put out of a repeat; that have to repeat
STRANDED = 0.25  # share of rows that repeat sideways, from which on a picture is one of bands

# What is told, by score: benchmarks/row_slips.py --confidence says how often it is right.
ENOUGH = -0.9
DOUBTFUL = -2.0
SURE = 2.0
CERTAIN = 5.0


@dataclass(frozen=True, slots=True)
class Slip:
    """`kind` is `swapped` (row and the next), `mirrored` or `shifted`; `by` is how far to the right, in stitches, the
    row has been shifted. `row` is the knitter's. `score` is that of a Guess, less STROKES among strokes."""

    kind: str
    row: RowNumber
    by: int
    score: float


def find_slip(cells: Cells, bar: float = ENOUGH) -> Slip | None:
    """The likeliest slip of a row, where its score is `bar` or more. `cells` without squares that have no stitch."""
    if min(cells.shape) < FEWEST:
        return None
    busy = int(np.count_nonzero(cells[1:] != cells[:-1])) / cells[1:].size
    if not 0 < busy <= BUSIEST:
        return None
    calm = busy <= CALM
    odds = _odds_in_calm(cells) if calm else _odds_among_strokes(cells)
    if odds is not None and bool((cells == cells[:, ::-1]).all()):
        odds = _of_like_sides(odds)
    slip = None if odds is None else _slip(likeliest(odds), 0.0 if calm else STROKES)
    return slip if slip is not None and slip.score >= bar else None


def _slip(guess: Guess | None, less: float) -> Slip | None:
    if guess is None:
        return None
    kind, by = ("swapped", 0) if guess.way == EXCHANGED else UNDONE[guess.way]
    return Slip(kind, row_number(RowIndex(guess.row)), by, guess.score - less)


def _odds_in_calm(cells: Cells) -> Odds | None:
    chosen = suspects(RowLanes(cells), LEAST)
    if not chosen:
        return None
    row, way = np.array([(suspect.row, _way(suspect)) for suspect in chosen[:TRIED]]).T
    return odds_of_slips(cells, table(), row, way)


def _way(suspect: Suspect) -> int:
    return EXCHANGED if suspect.kind == "swapped" else UNDONE.index((suspect.kind, suspect.by))


def _odds_among_strokes(cells: Cells) -> Odds | None:
    """None in a picture of bands; of others without their rows that repeat sideways."""
    repeats = _repeats_sideways(cells)
    if repeats.mean() >= STRANDED:
        return None
    odds = odds_of_slips(cells, table())
    odds[repeats] = -np.inf
    odds[:-1, EXCHANGED][repeats[1:]] = -np.inf
    return odds


def _of_like_sides(odds: Odds) -> Odds:
    """Of a picture whose two sides are alike: they would not be with a row shifted, and what both of them say of rows
    that are exchanged is said once."""
    made, begun = np.full_like(odds, -np.inf), table().ways[EXCHANGED]
    made[:, EXCHANGED] = begun + TWICE_SAID * (odds[:, EXCHANGED] - begun)
    return made


def _repeats_sideways(cells: Cells) -> NDArray[np.bool_]:
    """Which rows are, but for their ends, repeats of a few stitches of more than one colour."""
    inner = cells[:, ENDS:-ENDS]
    furthest = min(cells.shape[1] // 2, inner.shape[1] - OVERLAP)
    repeats = np.zeros(len(cells), bool)
    for step in range(2, furthest + 1):
        repeats |= (inner[:, step:] == inner[:, :-step]).all(1)
    repeats &= (inner[:, 1:] != inner[:, :-1]).any(1)
    return repeats


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
