"""Chart to plan: the optimal cover, then yarn, rows and ends as they are asked for."""

from functools import cached_property

import numpy as np

from lintarsia.chart import HOUSE_RECKONING, Chart, Reckoning
from lintarsia.chart.grid import RowNumber
from lintarsia.ground.values import dataclass
from lintarsia.planning.edgework import EdgeRun, bind_off_order, cast_on_order, edge_work
from lintarsia.planning.ends import joins_and_finishes, plan_ends
from lintarsia.planning.model import ColourTotals, End, Link, Plan, RowPlan, Run, Supply, Totals, YarnNeed
from lintarsia.planning.rates import Rates, rates_of
from lintarsia.planning.rows import row_plans
from lintarsia.planning.threads import EndTable, Threads, thread
from lintarsia.planning.yarn import balls_at_hand, holder_for, tex, yarn_needs
from lintarsia.telling.lengths import is_imperial, wound_metres

BALL = "ball"  # what is not wound hangs on


def make_plan(chart: Chart, reckoning: Reckoning = HOUSE_RECKONING) -> Plan:
    """The plan that hands would follow: most blocks gone on with, then fewest supplies, idle rows, carried stitches.

    `reckoning` has the limits where the chart states none, and says how yarn is counted. Deterministic.
    """
    bounds = chart.bounds(reckoning.limits)
    threads = thread(chart, bounds)
    parts = _Parts(chart, threads, reckoning)
    return Plan(chart.path, chart.worked, chart.technique, bounds, threads, parts)


@dataclass(frozen=True)
class _Parts:
    chart: Chart
    threads: Threads
    reckoning: Reckoning

    @cached_property
    def per(self) -> Rates:
        return rates_of(self.chart, self.reckoning)

    @cached_property
    def ids(self) -> list[str]:
        return self.threads.ids(self.chart.grid.symbols)

    @cached_property
    def metres(self) -> "np.ndarray[tuple[int], np.dtype[np.float64]]":
        return self.threads.supply_mm(self.per, *edge_work(self.chart, self.threads)) / 1000

    @cached_property
    def on_balls(self) -> set[int]:
        """The supplies that stay on a ball: of each colour the longest, as many as it has balls to knit from."""
        colours = self.threads.runs.colour[self.threads.first].tolist()
        left: dict[int, int] = {}
        found = set()
        for supply in np.argsort(-self.metres, kind="stable").tolist():
            code = colours[supply]
            if code not in left:
                left[code] = balls_at_hand(self.chart, self.chart.grid.symbols[code])
            if left[code]:
                left[code] -= 1
                found.add(supply)
        return found

    def holder(self, supply: int, symbol: str, metres: float) -> str:
        """What a supply hangs on: wound with what is to spare, as it is measured off, or its ball."""
        if supply in self.on_balls:
            return BALL
        colour = self.chart.colours.get(symbol)
        yarn = self.chart.yarns.get(colour.yarn) if colour and colour.yarn else None
        long = wound_metres(metres * (1 + self.reckoning.allowance), is_imperial(self.chart))
        return holder_for(long, self.reckoning.holders, tex(yarn) if yarn else None)

    def runs(self) -> tuple[Run, ...]:
        t, symbols = self.threads.runs, self.chart.grid.symbols
        colours = [symbols[colour] for colour in t.colour.tolist()]
        columns = ((t.row + 1).tolist(), t.left.tolist(), t.right.tolist(), colours, t.stitches.tolist())
        return tuple(map(Run, *columns))

    def supplies(self) -> tuple[Supply, ...]:
        t, symbols = self.threads, self.chart.grid.symbols
        members: list[list[int]] = [[] for _ in self.ids]
        for run, number in enumerate(t.cover.supply.tolist()):
            members[number].append(run)
        steps = zip(*(a.tolist() for a in (t.cover.carried, t.cover.idle, t.cover.same_row)), strict=True)
        known: dict[tuple[int, int, bool], Link] = {}  # most links are alike, so there are few to make
        links = [known.get(step) or known.setdefault(step, Link(*step)) for step in steps]
        row, colour = (t.runs.row + 1).tolist(), t.runs.colour.tolist()
        sums = (t.per_supply(a).tolist() for a in (t.runs.stitches, t.cover.carried, t.cover.idle))
        return tuple(
            Supply(
                id=name,
                colour=symbols[colour[runs[0]]],
                runs=tuple(runs),
                links=tuple([links[r] for r in runs[:-1]]),
                first_row=row[runs[0]],
                last_row=self.bound_off[number][0] if number in self.bound_off else row[runs[-1]],
                stitches=stitches,
                carried=across,
                idle=rests,
                metres=metres,
                holder=self.holder(number, symbols[colour[runs[0]]], metres),
                wound=number not in self.on_balls,
            )
            for number, (name, runs, metres, stitches, across, rests) in enumerate(
                zip(self.ids, members, self.metres.tolist(), *sums, strict=True)
            )
        )

    def rows(self) -> tuple[RowPlan, ...]:
        return row_plans(self.chart, self.threads, self.ids)

    def cast_on(self) -> tuple[EdgeRun, ...]:
        return cast_on_order(self.chart, self.threads, self.ids)

    def bind_off(self) -> tuple[EdgeRun, ...]:
        return bind_off_order(self.chart, self.threads, self.ids)

    def ends(self) -> tuple[End, ...]:
        return plan_ends(self.chart, self.threads, self.ids, self.tables, self.bound_off)

    @cached_property
    def bound_off(self) -> dict[int, tuple[RowNumber, int]]:
        """The last row, and the run come to last, of the supplies that bind off where no stitch of the chart is left;
        charts with shaping alone have any."""
        if not self.chart.shaping:
            return {}
        from lintarsia.planning.boundoff import last_rows

        return last_rows(self.chart, self.threads)

    @cached_property
    def tables(self) -> tuple[EndTable, EndTable]:
        return joins_and_finishes(self.chart, self.threads, self.per)

    def end_tables(self) -> tuple[EndTable, EndTable]:
        return self.tables

    def totals(self) -> Totals:
        t = self.threads
        supplies = len(t.first)
        return Totals(
            continued=int(t.cover.goes_on.sum()),
            supplies=supplies,
            ends=2 * supplies,
            carried=int(t.cover.carried.sum()),
            idle=int(t.cover.idle.sum()),
            stitches=int(t.runs.stitches.sum()),
            metres=float(self.metres.sum()),
            most_in_a_row=int(t.needs.max(initial=0)),
            most_hanging=int(t.hangs.max(initial=0)),
        )

    @cached_property
    def by_colour(self) -> dict[str, ColourTotals]:
        t, chart = self.threads, self.chart
        codes = t.runs.colour[t.first]
        supplies = np.bincount(codes)
        stitches = np.bincount(t.runs.colour, t.runs.stitches)
        metres = np.bincount(codes, self.metres)
        totals = {}
        for code in np.flatnonzero(supplies).tolist():
            symbol, length = chart.grid.symbols[code], float(metres[code])
            grams, balls = _bought(chart, symbol, length)
            totals[symbol] = ColourTotals(int(supplies[code]), int(stitches[code]), length, grams, balls)
        return totals

    def colours(self) -> dict[str, ColourTotals]:
        return self.by_colour

    def yarns(self) -> tuple[YarnNeed, ...]:
        return yarn_needs(self.chart, self.by_colour, self.per, self.reckoning.allowance)


def _bought(chart: Chart, symbol: str, metres: float) -> tuple[float | None, float | None]:
    """Grams and balls of a colour, where its yarn says what a ball is."""
    colour = chart.colours.get(symbol)
    yarn = chart.yarns.get(colour.yarn) if colour and colour.yarn else None
    if yarn is None or yarn.length is None:
        return None, None
    balls = metres / yarn.length.metres
    return (balls * yarn.mass.grams if yarn.mass else None), balls
