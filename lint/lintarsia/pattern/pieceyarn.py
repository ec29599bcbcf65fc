"""What a piece takes of each yarn, its cast-on and its bind-off apart from the knitting. Metres, not rounded."""

from collections.abc import Iterator
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from lintarsia.chart import Chart, Reckoning
from lintarsia.planning.edgework import edge_work
from lintarsia.planning.rates import rates_of

if TYPE_CHECKING:
    from lintarsia.planning.model import Plan


class PieceYarn(NamedTuple):
    """Of one yarn in one piece: `knitting` has tails, floats and duplicate stitch in it."""

    yarn: str
    name: str
    knitting: float
    cast_on: float
    bind_off: float

    @property
    def metres(self) -> float:
        return self.knitting + self.cast_on + self.bind_off


def yarns_of(chart: Chart, plan: "Plan", reckoning: Reckoning) -> Iterator[PieceYarn]:
    """Each yarn that the piece names, in the plan's order; a piece in colours without yarns has none."""
    on, off = _edges(chart, plan, reckoning)
    for need in plan.yarns:
        if need.yarn:
            cast_on, bind_off = (sum(edge.get(symbol, 0.0) for symbol in need.colours) for edge in (on, off))
            yield PieceYarn(need.yarn, need.name, need.metres - cast_on - bind_off, cast_on, bind_off)


def _edges(chart: Chart, plan: "Plan", reckoning: Reckoning) -> tuple[dict[str, float], dict[str, float]]:
    """By symbol the metres that are cast on (with what is to spare there) and bound off."""
    threads, per = plan.threads, rates_of(chart, reckoning)
    runs, edges = threads.runs, edge_work(chart, threads)
    beginning = runs.row[threads.first] == runs.row[:1]
    spare = np.bincount(runs.colour[threads.first[beginning]], minlength=len(chart.grid.symbols)) * per.spare
    found = []
    for stitches, rate, more in ((edges.cast_on, per.cast_on, spare), (edges.bind_off, per.bind_off, 0 * spare)):
        mm = np.bincount(runs.colour, stitches * rate, len(chart.grid.symbols)) + more
        found.append({symbol: float(mm[code]) / 1000 for code, symbol in enumerate(chart.grid.symbols)})
    return found[0], found[1]
