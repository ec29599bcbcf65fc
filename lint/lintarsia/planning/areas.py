"""Areas: stitches of one colour that touch, corners included, since a supply moves on slantwise as well."""

from collections import Counter
from collections.abc import Iterator

from lintarsia.chart import Chart
from lintarsia.ground.values import dataclass
from lintarsia.planning.runs import RunTable, side_numbers


@dataclass(frozen=True, slots=True)
class Area:
    """One area. `runs` index the run table; `around` is the colour code that it has most stitches beside."""

    colour: int
    around: int
    runs: tuple[int, ...]
    size: int


def small_areas(chart: Chart, runs: RunTable, largest: int) -> list[Area]:
    """Every area of at most `largest` stitches that has a neighbour of another colour, in the order worked."""
    owner = _join_touching(runs)
    members: dict[int, list[int]] = {}
    for run, root in enumerate(owner):
        members.setdefault(root, []).append(run)
    stitches, colour = runs.stitches.tolist(), runs.colour.tolist()
    found = []
    for own in members.values():
        size = sum(stitches[run] for run in own)
        if size <= largest:
            around = _around(chart, runs, own)
            if around is not None:
                found.append(Area(colour[own[0]], around, tuple(own), size))
    return found


def _join_touching(runs: RunTable) -> list[int]:
    """The lowest run that each run touches, by way of others."""
    owner = list(range(len(runs)))

    def root(run: int) -> int:
        while owner[run] != run:
            owner[run] = owner[owner[run]]
            run = owner[run]
        return run

    for below, run in _touching(runs):
        low, high = sorted((root(below), root(run)))
        owner[high] = low
    return [root(run) for run in range(len(owner))]


def _touching(runs: RunTable) -> Iterator[tuple[int, int]]:
    """Pairs of runs of one colour in neighbouring rows that share a column or touch at a corner."""
    rows: dict[tuple[int, int], list[tuple[int, int, int]]] = {}
    columns = (runs.row, runs.colour, runs.left, runs.right)
    for run, (row, colour, left, right) in enumerate(zip(*(a.tolist() for a in columns), strict=True)):
        rows.setdefault((row, colour), []).append((left, right, run))
    for (row, colour), upper in rows.items():
        lower = sorted(rows.get((row - 1, colour), ()))
        at = 0
        for left, right, run in sorted(upper):
            while at < len(lower) and lower[at][1] < left - 1:
                at += 1
            for beside in range(at, len(lower)):
                if lower[beside][0] > right + 1:
                    break
                if not _parted(runs, lower[beside][2], run):
                    yield lower[beside][2], run


def _parted(runs: RunTable, one: int, other: int) -> bool:
    """Whether two runs are on different sides of an opening: across a slit no stitch touches another."""
    return _differ(int(runs.side[one]), int(runs.side[other]))


def _differ(one: int, other: int) -> bool:
    return one != 0 and other != 0 and one != other


def _around(chart: Chart, runs: RunTable, own: list[int]) -> int | None:
    """The colour that most sides of the area's stitches border on; the first of the key where several do."""
    cells = chart.grid.cells
    sides = side_numbers(chart)
    count: Counter[int] = Counter()
    for run in own:
        row, left, right, colour = (int(a[run]) for a in (runs.row, runs.left, runs.right, runs.colour))
        for column in range(left, right + 1):
            for other_row, other in ((row - 1, column), (row + 1, column), (row, column - 1), (row, column + 1)):
                if 0 <= other_row < cells.shape[0] and 0 <= other < cells.shape[1]:
                    beside = int(cells[other_row, other])
                    across = sides is not None and _differ(int(sides[other_row, other]), int(sides[row, column]))
                    if beside >= 0 and beside != colour and not across:
                        count[beside] += 1
    return min(count, key=lambda code: (-count[code], code)) if count else None
