"""Links: how a supply may go on from one run to a later one, and what each way costs."""

import numpy as np
from numpy.typing import NDArray

from lintarsia.ground.values import dataclass
from lintarsia.planning.cover.looking import look_around, look_over_edges, look_up, within_rows, within_spiral
from lintarsia.planning.runs import Integers, RunTable

NEAR = 64  # places to look at for each run; beyond, bisecting is quicker


@dataclass(frozen=True, slots=True, eq=False)
class LinkTable:
    """Every allowed link, in order of (`tail`, `head`), which index the runs in working order.

    `goes_on` says whether the link goes on with a block: inside a row, or to a run of the next row that shares a column
    with the tail. `idle` is in rows waited, `carried` in stitches: those in between inside a row and along the spiral
    of rounds, else the columns of travel.
    """

    tail: Integers
    head: Integers
    goes_on: NDArray[np.bool_]
    idle: Integers
    carried: Integers


def possible_links(runs: RunTable, *, strand: int | None, carry: int | None, idle: int | None) -> LinkTable:
    """All links that the bounds allow in work that turns at the end of each row; None is no bound."""
    if len(runs) == 0:
        return _table(runs, np.zeros(0, np.int64), np.zeros(0, np.int64))
    rows, width = int(runs.row[-1]) + 1, int(runs.right.max()) + 1
    wait = rows - 1 if idle is None else min(idle, rows - 1)
    reach = width if carry is None else min(carry, width)
    around = (wait + 1) * (2 * reach + 1) <= NEAR
    tail, head = (look_around if around else look_up)(runs, reach, wait)
    ordered = around
    if reach < width and runs.shaped:
        far_tail, far_head = look_over_edges(runs, reach, wait)
        near = travel(runs, far_tail, far_head) <= reach
        tail, head = np.concatenate((tail, far_tail[near])), np.concatenate((head, far_head[near]))
        ordered = False
    if strand != 0:  # neighbouring runs differ in colour, so that a link in the row needs a strand of at least 1
        float_tail, float_head = within_rows(runs, strand)
        tail, head = np.concatenate((float_tail, tail)), np.concatenate((float_head, head))
        ordered = False
    if runs.side.any():
        one_side = (runs.side[tail] == runs.side[head]) | (runs.side[tail] == 0) | (runs.side[head] == 0)
        tail, head = tail[one_side], head[one_side]
    if not ordered:
        order = np.lexsort((head, tail))
        tail, head = tail[order], head[order]
    return _table(runs, tail, head)


def spiral_links(runs: RunTable, strand: int) -> LinkTable:
    """All links of rounds: at most `strand` stitches between, along the spiral."""
    tail, head = within_spiral(runs, strand)
    order = np.lexsort((head, tail))
    return _table(runs, tail[order], head[order], spiral=True)


def travel(runs: RunTable, tail: Integers, head: Integers) -> Integers:
    """How far each supply moves sideways to its next row, in columns.

    From exit to entry, less what the row of the head gains or loses on the way at the edge where it starts.
    """
    leave, enter = runs.exit[tail], runs.entry[head]
    way = np.abs(enter - leave)
    if runs.shaped:
        low, high = np.minimum(leave, enter), np.maximum(leave, enter) + 1
        own = np.minimum(high, runs.changed_to[head]) - np.maximum(low, runs.changed_from[head])
        # Both ends may stand in what the row gains, where a yarn waited for it: it goes no way then, not less.
        way = np.maximum(way - np.maximum(own, 0), 0)
    columns: Integers = way
    return columns


def goes_on(runs: RunTable, tail: Integers, head: Integers) -> NDArray[np.bool_]:
    """Whether a yarn stays in its block: in its row, or in the next row above or below a stitch of its own.

    Columns from `left` to `right` of a run are its columns, no-stitch cells included: they do not break it.
    """
    ahead = runs.row[head] - runs.row[tail]
    shares = (runs.left[head] <= runs.right[tail]) & (runs.left[tail] <= runs.right[head])
    stays: NDArray[np.bool_] = (ahead == 0) | ((ahead == 1) & shares)
    return stays


def stitches_between(runs: RunTable, tail: Integers, head: Integers) -> Integers:
    """How many stitches are worked after each tail and before its head."""
    between: Integers = runs.start[head] - runs.start[tail] - runs.stitches[tail]
    return between


def _table(runs: RunTable, tail: Integers, head: Integers, *, spiral: bool = False) -> LinkTable:
    idle, carried = costs(runs, tail, head, spiral=spiral)
    return LinkTable(tail, head, goes_on(runs, tail, head), idle, carried)


def costs(runs: RunTable, tail: Integers, head: Integers, *, spiral: bool) -> tuple[Integers, Integers]:
    """(rows waited, stitches carried) of links."""
    waited = runs.row[head] - runs.row[tail] - 1
    inside = waited < 0
    if spiral:
        carried = stitches_between(runs, tail, head)
    elif inside.any():
        carried = np.where(inside, stitches_between(runs, tail, head), travel(runs, tail, head))
    else:
        carried = travel(runs, tail, head)
    return np.maximum(waited, 0), carried
