"""The way of each supply through the chart, as path data: through its runs, round its turns, over its floats.

Where two runs meet in intarsia the yarns clasp: the yarn that ends its run passes a little below the middle of the row
and turns on its neighbour's side; the yarn that begins passes a little above and has come from the other side. With
every turn drawn beneath every pass along a row, each clasp is over at one crossing and under at the other: the two
lines link as the yarns themselves do.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import NamedTuple

from lintarsia.chart import Chart, Technique, Worked
from lintarsia.planning.model import Plan, Supply
from lintarsia.publishing.drawing.geometry import Geometry
from lintarsia.publishing.drawing.svg import num

Point = tuple[float, float]

OFFSET = 0.17  # of a row's height: how far a clasping yarn leaves the middle of its row
REACH = 0.52  # of a stitch's width: control length of a turn; the yarn itself reaches three quarters of it
ROUND_REACH = 9.0  # how far a line runs past the edge where a round goes on at the other side


@dataclass(frozen=True, slots=True)
class Route:
    """Path data of the stretches along rows (`passes`), the turns between rows and the floats; "" where there are none.

    `carries` repeats those of the turns that cross more than one stitch or wait a row. `start` and `end` are where the
    supply is joined and finished; `gaps` are the boundaries there at which nothing can be interlocked yet or any more.
    """

    supply: Supply
    passes: str
    turns: str
    floats: str
    carries: str
    start: Point
    end: Point
    gaps: tuple[Point, ...]


class _Pass(NamedTuple):
    """One run as it is worked: where it is entered and left, and which way it goes (-1 leftward, 1 rightward)."""

    enter: Point
    leave: Point
    way: int
    middle: float
    first: bool  # nothing is worked before it in its row
    last: bool


def routes(chart: Chart, plan: Plan, place: Geometry) -> list[Route]:
    """The route of every supply of the plan, in the plan's order."""
    clasping = chart.technique is not Technique.STRANDED and chart.worked is not Worked.ROUND
    order: dict[int, tuple[bool, bool]] = {}
    for row in plan.rows:
        for at, run in enumerate(row.runs):
            order[run] = (at == 0, at == len(row.runs) - 1)
    leftward = chart.leftwards
    middles = [place.middle(row) for row in range(place.rows + 1)]
    edges = [place.x(column) for column in range(place.columns + 1)]
    offset = place.cell_h * OFFSET if clasping else 0.0
    passes = [
        _pass(edges[run.left], edges[run.right + 1], middles[run.row], leftward[run.row - 1], *order[i], offset)
        for i, run in enumerate(plan.runs)
    ]
    return [_route(chart, place, supply, passes, clasping) for supply in plan.supplies]


def _pass(left: float, right: float, middle: float, leftward: bool, first: bool, last: bool, offset: float) -> _Pass:
    enter, leave = (right, left) if leftward else (left, right)
    return _Pass(
        (enter, middle if first else middle - offset),
        (leave, middle if last else middle + offset),
        -1 if leftward else 1,
        middle,
        first,
        last,
    )


def _route(chart: Chart, place: Geometry, supply: Supply, passes: Sequence[_Pass], clasping: bool) -> Route:
    inset = place.cell_w * 0.5
    first, last = passes[supply.runs[0]], passes[supply.runs[-1]]
    start = (first.enter[0] + first.way * inset, first.middle)
    end = (last.leave[0] - last.way * inset, last.middle)
    along, turns, floats, carries = [f"M{_at(start)}"], list[str](), list[str](), list[str]()
    for number, index in enumerate(supply.runs):
        this = passes[index]
        begins, ends = number == 0, number == len(supply.runs) - 1
        along.append(_through(this, place, None if begins else this.enter, None if ends else this.leave, inset))
        if ends:
            break
        after, link = passes[supply.runs[number + 1]], supply.links[number]
        if chart.worked is Worked.ROUND and not link.same_row:
            _go_round(place, this, after, along, floats)
            continue
        if link.same_row:
            floats.append(_float(place, this, after))
        else:
            turns.append(_turn(place, this, after))
            if link.carried > 1 or link.idle:
                carries.append(turns[-1])
        along.append(f"M{_at(after.enter)}")
    gaps = [(first.enter[0], first.middle)] if clasping and not first.first else []
    gaps += [(last.leave[0], last.middle)] if clasping and not last.last else []
    return Route(supply, "".join(along), "".join(turns), "".join(floats), "".join(carries), start, end, tuple(gaps))


@lru_cache(maxsize=1 << 14)  # where one stretch ends the next begins
def _at(point: Point) -> str:
    return f"{num(point[0])} {num(point[1])}"


def _through(this: _Pass, place: Geometry, enter: Point | None, leave: Point | None, inset: float) -> str:
    """Along the row. Without `enter` or `leave` the line begins or ends in the middle of its first or last stitch."""
    ease = place.cell_w * 0.8
    begin = enter[0] if enter else this.enter[0] + this.way * inset
    stop = leave[0] if leave else this.leave[0] - this.way * inset
    rise = enter if enter and enter[1] != this.middle else None
    fall = leave if leave and leave[1] != this.middle else None
    if rise and fall and abs(stop - begin) < 2 * ease:
        half = (begin + stop) / 2
        return f"C{num(half)} {num(rise[1])} {num(half)} {num(fall[1])} {_at(fall)}"
    text = ""
    if rise:
        to = begin + this.way * min(ease, abs(stop - begin))
        half = (begin + to) / 2
        text += f"C{num(half)} {num(rise[1])} {num(half)} {num(this.middle)} {num(to)} {num(this.middle)}"
    if fall:
        start = stop - this.way * min(ease, abs(stop - begin))
        half = (start + stop) / 2
        text += f"H{num(start)}C{num(half)} {num(this.middle)} {num(half)} {num(fall[1])} {_at(fall)}"
    else:
        text += f"H{num(stop)}"
    return text


def _turn(place: Geometry, this: _Pass, after: _Pass) -> str:
    """From the end of a run round to the beginning of the next, in a later row; wider where it is carried further."""
    (x, y), (to_x, to_y) = this.leave, after.enter
    reach = place.cell_w * REACH + 0.3 * abs(to_x - x)
    out, back = (x + this.way * reach, y), (to_x - after.way * reach, to_y)
    return f"M{_at(this.leave)}C{_at(out)} {_at(back)} {_at(after.enter)}"


def _float(place: Geometry, this: _Pass, after: _Pass) -> str:
    """Across the stitches of other colours, slack as a float is."""
    (x, y), (to_x, to_y) = this.leave, after.enter
    sag = place.cell_h * min(0.62, 0.34 + 0.05 * abs(to_x - x) / place.cell_w)
    third = (to_x - x) / 4
    low = max(y, to_y) + sag
    return f"M{_at(this.leave)}C{num(x + third)} {num(low)} {num(to_x - third)} {num(low)} {_at(after.enter)}"


def _go_round(place: Geometry, this: _Pass, after: _Pass, along: list[str], floats: list[str]) -> None:
    """Past the left edge and in again at the right, in a later round."""
    left, right = place.x(0) - ROUND_REACH, place.x(place.columns) + ROUND_REACH
    if this.last:
        along.append(f"H{num(left)}")
    else:
        floats.append(f"M{_at(this.leave)}{_slack(this.leave, (left, this.middle), place)}")
    if after.first:
        along.append(f"M{num(right)} {num(after.middle)}H{num(after.enter[0])}")
    else:
        floats.append(f"M{num(right)} {num(after.middle)}{_slack((right, after.middle), after.enter, place)}")
        along.append(f"M{_at(after.enter)}")


def _slack(start: Point, end: Point, place: Geometry) -> str:
    low = max(start[1], end[1]) + place.cell_h * 0.4
    quarter = (end[0] - start[0]) / 4
    return f"C{num(start[0] + quarter)} {num(low)} {num(end[0] - quarter)} {num(low)} {_at(end)}"
