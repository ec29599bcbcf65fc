"""The way of each supply through the chart, as path data: through its runs, round its turns, over its floats.

Where two runs meet in intarsia the yarns clasp: the yarn that ends its run passes a little below the middle of the row
and turns on its neighbour's side; the yarn that begins passes a little above and has come from the other side. With
every turn drawn beneath every pass along a row, each clasp is over at one crossing and under at the other: the two
lines link as the yarns themselves do.

A path says where it begins, and goes on from there in steps, drawn or not. So two stretches of one shape are the same
text wherever they lie, and `shapes.py` works it out once.
"""

from functools import lru_cache
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from lintarsia.chart import Chart, Technique, Worked
from lintarsia.drawing.geometry import CELL, Geometry
from lintarsia.drawing.shapes import along, slack, step, turn
from lintarsia.drawing.svg import escape, num
from lintarsia.planning.model import Plan, Supply

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


class _Passes(NamedTuple):
    """Every run of a plan as it is worked, one entry a run in each list.

    It is entered and left at `enter` and `leave`, in whole units, going `way` (-1 leftward). Heights are in tenths of a
    unit: it is entered at `top`, `rise` above the row's middle, and left at `foot`, `fall` below it. `first` and
    `last`: in its row.
    """

    enter: list[int]
    leave: list[int]
    way: list[int]
    top: list[int]
    foot: list[int]
    rise: list[int]
    fall: list[int]
    first: list[bool]
    last: list[bool]


def routes(chart: Chart, plan: Plan, place: Geometry) -> list[Route]:
    """The route of every supply of the plan, in the plan's order. `place` is the chart's geometry without margins."""
    in_rounds = chart.worked is Worked.ROUND
    clasping = chart.technique is not Technique.STRANDED and not in_rounds
    passes = _passes(chart, plan, place, round(place.cell_h * OFFSET * 10) if clasping else 0)
    return [_route(supply, passes, place, in_rounds) for supply in plan.supplies]


def _passes(chart: Chart, plan: Plan, place: Geometry, offset: int) -> _Passes:
    runs = plan.threads.runs
    leftward = np.array(chart.leftwards)[runs.row]
    middle = _middles(place)[runs.row]
    bounds = np.ones(len(runs) + 1, bool)  # where a row begins or ends
    np.not_equal(runs.row[1:], runs.row[:-1], out=bounds[1:-1])
    first, last = bounds[:-1], bounds[1:]
    rise, fall = np.where(first, 0, offset), np.where(last, 0, offset)
    columns = (
        (runs.entry + leftward) * CELL,
        (runs.exit + ~leftward) * CELL,
        1 - 2 * leftward,
        middle - rise,
        middle + fall,
        rise,
        fall,
        first,
        last,
    )
    return _Passes(*[column.tolist() for column in columns])


@lru_cache(maxsize=16)  # charts of one size have the same
def _middles(place: Geometry) -> NDArray[np.int64]:
    """The middle of every row in tenths of a unit; row 1's is at index 0."""
    return np.array([round(place.middle(row) * 10) for row in range(1, place.rows + 1)])


def _route(supply: Supply, passes: _Passes, place: Geometry, in_rounds: bool) -> Route:
    enter, leave, way, top, foot, rise, fall, _, _ = passes
    this = supply.runs[0]
    # A supply begins and finishes in the middle of a stitch, and of its row.
    start = (enter[this] + way[this] * CELL // 2, (top[this] + rise[this]) / 10)
    gaps = [(enter[this], start[1])] if rise[this] else []
    lines = [f"M{start[0]} {num(start[1])}"]
    turns: list[str] = []
    floats: list[str] = []
    carries: list[str] = []
    x, bent, turned = start[0], 0, False
    for (carried, idle, same_row), after in zip(supply.links, supply.runs[1:], strict=True):
        line, past = along(leave[this] - x, bent, fall[this])
        across, down = enter[after] - leave[this], top[after] - foot[this]
        if in_rounds and not same_row:
            lines.append(line)
            _go_round(this, after, passes, place, lines, floats)
        elif same_row:
            floats.append(f"{_move(leave[this], foot[this])}{slack(across, down, _sag(across, place))}")
            lines += line, step(across, down)
            turned = False
        else:
            drawn, on = turn(across, down, way[this], way[after])
            turns += (past if turned else _move(leave[this], foot[this])), drawn
            lines += line, on
            turned = True
            if carried > 1 or idle:
                carries.append(_move(leave[this], foot[this]) + drawn)
        this, x, bent = after, enter[after], rise[after]
    end = (leave[this] - way[this] * CELL // 2, (foot[this] - fall[this]) / 10)
    lines.append(along(end[0] - x, bent, 0)[0])
    if fall[this]:
        gaps.append((leave[this], end[1]))
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


def _move(x: int, y: int) -> str:
    """To a place, `y` in tenths."""
    return f"M{x} {num(y / 10)}"


def _sag(across: int, place: Geometry) -> int:
    """How far a float hangs."""
    return round(10 * place.cell_h * min(0.62, 0.34 + 0.05 * abs(across) / CELL))


def _go_round(this: int, after: int, passes: _Passes, place: Geometry, lines: list[str], floats: list[str]) -> None:
    """Past the left edge and in again at the right, in a later round."""
    left, right, sag = -ROUND_REACH, place.columns * CELL + ROUND_REACH, round(place.cell_h * 4)
    if passes.last[this]:
        lines.append(f"H{left}")
    else:
        leave = passes.leave[this]
        floats.append(f"{_move(leave, passes.foot[this])}{slack(left - leave, 0, sag)}")
    enter, top = passes.enter[after], passes.top[after]
    comes_in = _move(right, top)
    if passes.first[after]:
        lines.append(f"{comes_in}H{enter}")
    else:
        floats.append(f"{comes_in}{slack(enter - right, 0, sag)}")
        lines.append(_move(enter, top))
