"""Steps of a colour's edge between two rows: where the plan cuts a yarn below one and joins it anew above."""

from collections.abc import Iterator
from typing import NamedTuple

from lintarsia.chart.grid import RowIndex
from lintarsia.planning.runs import RunTable
from lintarsia.planning.threads import Ints, Threads


class EdgeStep(NamedTuple):
    """The columns `first` to `last` (from 0, both inside) by which a colour's edge moves from the row below `row`
    (from 0) to it. `slants`: in the row before or after it moves the same way, at least half as far.
    """

    row: RowIndex
    colour: int
    first: int
    last: int
    slants: bool


def cut_and_rejoined(threads: Threads) -> list[tuple[int, int]]:
    """Pairs of runs: a supply finishes with the first, the next row's run of the colour right above joins another."""
    runs = threads.runs

    def placed(at: Ints) -> Iterator[tuple[int, int, int]]:
        """Runs with their row and colour."""
        return zip(at.tolist(), runs.row[at].tolist(), runs.colour[at].tolist(), strict=True)

    ended: dict[tuple[int, int], list[int]] = {}
    for run, row, colour in placed(threads.last):
        ended.setdefault((row + 1, colour), []).append(run)
    pairs = []
    for above, row, colour in placed(threads.first):
        below = [
            run
            for run in ended.get((row, colour), ())
            if runs.left[run] <= runs.right[above] and runs.right[run] >= runs.left[above]
        ]
        if below:
            pairs.append((min(below, key=lambda run: (abs(runs.exit[run] - runs.entry[above]), run)), above))
    return pairs


def steps(threads: Threads) -> Iterator[EdgeStep]:
    """The step of each place where a yarn is cut and joined anew, where there is one edge for it to follow: not where
    a block parts or grows together, nor where the row begins elsewhere altogether.
    """
    pairs = cut_and_rejoined(threads)
    if pairs:
        edges = _Edges(threads.runs)
        for below, above in pairs:
            step = edges.step(below, above)
            if step is not None:
                yield step


class _Edges:
    def __init__(self, runs: RunTable) -> None:
        self.left: list[int] = runs.left.tolist()
        self.right: list[int] = runs.right.tolist()
        self.row: list[RowIndex] = runs.row.tolist()
        self.colour: list[int] = runs.colour.tolist()
        self.entry: list[int] = runs.entry.tolist()
        self.exit: list[int] = runs.exit.tolist()
        self.of: dict[tuple[int, int], list[int]] = {}
        for run, placed in enumerate(zip(self.row, self.colour, strict=True)):
            self.of.setdefault(placed, []).append(run)

    def step(self, below: int, above: int) -> EdgeStep | None:
        at_right = self.entry[above] == self.right[above]
        side = self.right if at_right else self.left
        start, end = side[below], side[above]
        if start == end or self.exit[below] != start or self.entry[above] != end:
            return None
        toward, grows = 1 if end > start else -1, (end > start) == at_right
        columns = (start + toward, end) if grows else (start, end - toward)
        first, last = min(columns), max(columns)
        row, colour = self.row[above], self.colour[above]
        if self._meeting(RowIndex(row - 1 if grows else row), colour, first, last):
            return None
        before = self._edge(RowIndex(row - 2), colour, below, at_right)
        after = self._edge(RowIndex(row + 1), colour, above, at_right)
        moved = max(
            0 if before is None else (start - before) * toward,
            0 if after is None else (after - end) * toward,
        )
        return EdgeStep(row, colour, first, last, 2 * moved >= last - first + 1)

    def _meeting(self, row: RowIndex, colour: int, first: int, last: int) -> list[int]:
        """The runs of a colour in a row that have a stitch in the columns."""
        runs = self.of.get((row, colour), ())
        return [run for run in runs if self.left[run] <= last and self.right[run] >= first]

    def _edge(self, row: RowIndex, colour: int, beside: int, at_right: bool) -> int | None:
        """The column of the colour's outermost stitch in a row, of the runs right above or below the run `beside`."""
        runs = self._meeting(row, colour, self.left[beside], self.right[beside])
        if not runs:
            return None
        return max(self.right[run] for run in runs) if at_right else min(self.left[run] for run in runs)
