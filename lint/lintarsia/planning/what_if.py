"""What if a small area were worked with its own supply, stranded, or in duplicate stitch: the whole plan, each time.

A change of some runs can only touch the supplies that could be linked to them, so each weighing solves those parts
of the plan afresh and takes the rest as it stands. The sums are those of a plan made anew.
"""

from collections.abc import Callable, Sequence

from lintarsia.chart import HOUSE_RECKONING, Chart, Reckoning
from lintarsia.chart.grid import RowIndex
from lintarsia.ground.values import dataclass
from lintarsia.planning.areas import Area, small_areas
from lintarsia.planning.islands import Islands
from lintarsia.planning.model import Plan
from lintarsia.planning.parts import NewRun, Sums
from lintarsia.planning.rates import rates_of

LARGEST = 6  # stitches: a house value; what is larger is worth its own supply to every teacher


@dataclass(frozen=True, slots=True)
class Costs:
    """What the whole plan comes to. `longest_float` in stitches, 0 where nothing is stranded."""

    supplies: int
    ends: int
    metres: float
    longest_float: int
    most_in_a_row: int


@dataclass(frozen=True, slots=True)
class SmallArea:
    """A small area and the ways to work it. Rows and stitches are the knitter's; `around` is the colour it lies in.

    `own`: a supply for this area alone. `stranded`: the same, but the colours at both sides of it run on behind it;
    None where no colour stands at both sides. `duplicate`: knitted in the surrounding colour, embroidered afterwards.
    """

    colour: str
    around: str
    size: int
    rows: tuple[int, int]
    stitches: tuple[int, int]
    own: Costs
    stranded: Costs | None
    duplicate: Costs


def plan_costs(plan: Plan) -> Costs:
    """The plan as it stands."""
    totals = plan.totals
    return Costs(totals.supplies, totals.ends, totals.metres, plan.threads.longest_float, totals.most_in_a_row)


def weigh_areas(
    chart: Chart,
    plan: Plan,
    *,
    largest: int = LARGEST,
    most: int | None = None,
    reckoning: Reckoning = HOUSE_RECKONING,
    progress: Callable[[int, int], None] | None = None,
) -> tuple[SmallArea, ...]:
    """Each area of at most `largest` stitches, in the order worked, with what each way of working it costs; no more
    than `most` of them, the first, where that is given.

    `progress` is told how many are done and of how many: a photograph has thousands.
    """
    weigh = _Weighing(chart, plan, Islands(chart, plan.bounds, plan.threads), reckoning)
    areas = small_areas(chart, plan.threads.runs, largest)[:most]
    weighed = []
    for number, area in enumerate(areas, 1):
        weighed.append(weigh.area(area))
        if progress:
            progress(number, len(areas))
    return tuple(weighed)


def number_of_areas(chart: Chart, plan: Plan, largest: int = LARGEST) -> int:
    """How many `weigh_areas` would weigh without a bound; found in no time, where weighing one takes a quarter of a
    second in the worst charts."""
    return len(small_areas(chart, plan.threads.runs, largest))


class _Weighing:
    def __init__(self, chart: Chart, plan: Plan, islands: Islands, reckoning: Reckoning) -> None:
        self.chart, self.islands = chart, islands
        self.per = rates_of(chart, reckoning)
        self.base = plan_costs(plan)
        self.reach = max(plan.bounds.strand or 0, plan.bounds.float_stitches)

    def area(self, area: Area) -> SmallArea:
        grid, runs = self.chart.grid, self.islands.threads.runs
        rows = [int(runs.row[run]) + 1 for run in area.runs]
        columns = [int(column) for run in area.runs for column in (runs.left[run], runs.right[run])]
        return SmallArea(
            colour=grid.symbols[area.colour],
            around=grid.symbols[area.around],
            size=area.size,
            rows=(min(rows), max(rows)),
            stitches=(grid.stitch(max(columns)), grid.stitch(min(columns))),
            own=self._own(area),
            stranded=self._stranded(area),
            duplicate=self._duplicate(area),
        )

    def _own(self, area: Area) -> Costs:
        return self._costs([self.islands.without(area.runs), self.islands.alone(area.runs)])

    def _stranded(self, area: Area) -> Costs | None:
        gone: list[int] = list(area.runs)
        new: list[NewRun] = []
        for row in self._rows(area):
            old, joined = self._bridged(row, area)
            gone += old
            new += joined
        if not new:
            return None
        return self._costs([self.islands.exchange(gone, new), self.islands.alone(area.runs, strand=self.reach)])

    def _bridged(self, row: Sequence[int], area: Area) -> tuple[list[int], list[NewRun]]:
        """Runs of one colour at both sides of the area, made into one that is stranded behind it."""
        old: list[int] = []
        new: list[NewRun] = []
        chain: list[int] = []  # runs of the row that the yarn goes on through, the area's left out
        for run in [*row, -1]:
            if run in area.runs:
                continue
            colour = self.islands.colour(run) if run >= 0 else None
            if chain and colour == self.islands.colour(chain[-1]):
                chain.append(run)
                continue
            if len(chain) > 1:
                old += chain
                new.append(self.islands.joined(chain))
            chain = [run]
        return old, new

    def _duplicate(self, area: Area) -> Costs:
        gone: list[int] = []
        new: list[NewRun] = []
        for row in self._rows(area):
            chain: list[int] = []
            for run in [*row, -1]:
                own = run in area.runs or (run >= 0 and self.islands.colour(run) == area.around)
                if own:
                    chain.append(run)
                    continue
                if any(part in area.runs for part in chain):
                    gone += chain
                    new.append(self.islands.joined(chain, area.around))
                chain = []
        sewn = (area.size * self.per.loop + 2 * self.per.tail) / 1000
        knitted = self._costs([self.islands.exchange(gone, new)])
        return Costs(
            knitted.supplies, knitted.ends + 2, knitted.metres + sewn, knitted.longest_float, knitted.most_in_a_row
        )

    def _rows(self, area: Area) -> list[list[int]]:
        """The runs of each row that the area is in, or of its side of an opening there: nothing is stranded across."""
        row, side = self.islands.threads.runs.row, self.islands.threads.runs.side
        parts = sorted({(int(row[run]), int(side[run])) for run in area.runs})
        return [[run for run in self.islands.in_row(RowIndex(index)) if side[run] == part] for index, part in parts]

    def _costs(self, changes: Sequence[tuple[Sums, Sums]]) -> Costs:
        """The plan's sums with each (old, new) pair of tallies exchanged."""
        supplies, mm = self.base.supplies, 0.0
        needs = self.islands.threads.needs.copy()
        gone: set[int] = set()
        longest = 0
        for old, new in changes:
            supplies += new.supplies - old.supplies
            mm += new.mm(self.per) - old.mm(self.per)
            needs += new.needs - old.needs
            gone |= old.components
            longest = max(longest, new.longest_float)
        longest = max(longest, self.islands.longest_without(gone))
        return Costs(supplies, 2 * supplies, self.base.metres + mm / 1000, longest, int(needs.max(initial=0)))
