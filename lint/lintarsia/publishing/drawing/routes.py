"""The way of each supply through the chart, as path data: through its runs, round its turns, over its floats.

Where two runs meet in intarsia the yarns clasp: the yarn that ends its run passes a little below the middle of the row
and turns on its neighbour's side; the yarn that begins passes a little above and has come from the other side. With
every turn drawn beneath every pass along a row, each clasp is over at one crossing and under at the other: the two
lines link as the yarns themselves do.

A path says where each of its stretches begins, and goes on from there in steps. So two stretches of one shape are the
same text, which `shapes.py` works out once.
"""

from collections.abc import Sequence
from typing import NamedTuple

from lintarsia.chart import Chart, Technique, Worked
from lintarsia.planning.model import Plan, Supply
from lintarsia.publishing.drawing.geometry import CELL, Geometry
from lintarsia.publishing.drawing.shapes import along, slack, turn
from lintarsia.publishing.drawing.svg import escape, num

Point = tuple[float, float]

OFFSET = 0.17  # of a row's height: how far a clasping yarn leaves the middle of its row
ROUND_REACH = 9  # how far a line runs past the edge where a round goes on at the other side


class Route(NamedTuple):
    """Path data of the stretches along rows (`passes`), the turns between rows and the floats; "" where there are none.

    `name` is the supply's, escaped. `carries` repeats those of the turns that cross more than one stitch or wait a row.
    `start` and `end` are where the supply is joined and finished; `gaps` are the boundaries there at which nothing can
    be interlocked yet or any more.
    """

    supply: Supply
    name: str
    passes: str
    turns: str
    floats: str
    carries: str
    start: Point
    end: Point
    gaps: tuple[Point, ...]


class _Pass(NamedTuple):
    """One run as it is worked: where it is entered and left, in whole units, and which way it goes (-1 leftward).

    `enter_at` and `leave_at` are these places as path data. Heights are in tenths of a unit: the run is entered at
    `top`, `rise` above the row's middle, and left at `foot`, `fall` below it. `first` and `last`: in its row.
    """

    enter: int
    leave: int
    way: int
    enter_at: str
    leave_at: str
    top: int
    foot: int
    rise: int
    fall: int
    first: bool
    last: bool


def routes(chart: Chart, plan: Plan, place: Geometry) -> list[Route]:
    """The route of every supply of the plan, in the plan's order. `place` is the chart's geometry without margins."""
    clasping = chart.technique is not Technique.STRANDED and chart.worked is not Worked.ROUND
    passes = _passes(chart, plan, place, round(place.cell_h * OFFSET * 10) if clasping else 0)
    return [_route(chart, supply, passes, place) for supply in plan.supplies]


def _passes(chart: Chart, plan: Plan, place: Geometry, offset: int) -> list[_Pass]:
    """The pass of every run of the plan."""
    middles = [round(place.middle(row) * 10) for row in range(place.rows + 1)]
    heights = {d: [(middle + d, num((middle + d) / 10)) for middle in middles] for d in {-offset, 0, offset}}
    leftward, rows, passes = chart.leftwards, [run.row for run in plan.runs], []
    for run, row, before, after in zip(plan.runs, rows, [0, *rows], [*rows[1:], 0], strict=False):
        first, last = before != row, after != row
        rise, fall = 0 if first else offset, 0 if last else offset
        (top, enter_y), (foot, leave_y) = heights[-rise][row], heights[fall][row]
        if leftward[row - 1]:
            enter, leave, way = (run.right + 1) * CELL, run.left * CELL, -1
        else:
            enter, leave, way = run.left * CELL, (run.right + 1) * CELL, 1
        at = f"{enter} {enter_y}", f"{leave} {leave_y}"
        passes.append(_Pass(enter, leave, way, *at, top, foot, rise, fall, first, last))
    return passes


def _route(chart: Chart, supply: Supply, passes: Sequence[_Pass], place: Geometry) -> Route:
    in_rounds = chart.worked is Worked.ROUND
    this = passes[supply.runs[0]]
    # A supply begins and finishes in the middle of a stitch, and of its row.
    start = (this.enter + this.way * CELL // 2, (this.top + this.rise) / 10)
    gaps = [(this.enter, start[1])] if this.rise else []
    lines, turns, floats, carries = [f"M{start[0]} {num(start[1])}"], list[str](), list[str](), list[str]()
    x, rise = start[0], 0
    for link, index in zip(supply.links, supply.runs[1:], strict=True):
        after = passes[index]
        leave, enter, leave_at = this.leave, after.enter, this.leave_at
        lines.append(along(leave - x, rise, this.fall))
        if in_rounds and not link.same_row:
            _go_round(this, after, place, lines, floats)
        else:
            if link.same_row:
                floats.append(f"M{leave_at}{slack(enter - leave, after.top - this.foot, _sag(enter - leave, place))}")
            else:
                turns.append(f"M{leave_at}{turn(enter - leave, after.top - this.foot, this.way, after.way)}")
                if link.carried > 1 or link.idle:
                    carries.append(turns[-1])
            lines.append(f"M{after.enter_at}")
        this, x, rise = after, enter, after.rise
    end = (this.leave - this.way * CELL // 2, (this.foot - this.fall) / 10)
    lines.append(along(end[0] - x, rise, 0))
    if this.fall:
        gaps.append((this.leave, end[1]))
    return Route(
        supply,
        escape(supply.id),
        "".join(lines),
        "".join(turns),
        "".join(floats),
        "".join(carries),
        start,
        end,
        tuple(gaps),
    )


def _sag(across: int, place: Geometry) -> int:
    """How far a float hangs."""
    return round(10 * place.cell_h * min(0.62, 0.34 + 0.05 * abs(across) / CELL))


def _go_round(this: _Pass, after: _Pass, place: Geometry, lines: list[str], floats: list[str]) -> None:
    """Past the left edge and in again at the right, in a later round."""
    left, right, sag = -ROUND_REACH, place.columns * CELL + ROUND_REACH, round(place.cell_h * 4)
    if this.last:
        lines.append(f"H{left}")
    else:
        floats.append(f"M{this.leave_at}{slack(left - this.leave, 0, sag)}")
    comes_in = f"M{right} {num(after.top / 10)}"
    if after.first:
        lines.append(f"{comes_in}H{after.enter}")
    else:
        floats.append(f"{comes_in}{slack(after.enter - right, 0, sag)}")
        lines.append(f"M{after.enter_at}")
