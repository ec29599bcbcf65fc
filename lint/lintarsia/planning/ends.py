"""The two ends of every supply: where they hang, what they can be woven along, and whether there is room.

An end is woven across the gap that its join or finish leaves, then along the boundary of its own block (common
practice): along the row of its first or last stitches and up or down the edge at which it hangs. `room_mm` is the
length of that path in the fabric, for as many rows as the supply works one after the other.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from lintarsia.chart import Chart, Technique
from lintarsia.planning.model import End
from lintarsia.planning.threads import Threads
from lintarsia.planning.yarn import Rates


@dataclass(slots=True)
class _Edge:
    """How far the edge of one block has been followed. `settled` is the room up to the row before `row`."""

    on_right: bool
    row: int
    at: int
    was_at: int
    settled: float


def plan_ends(chart: Chart, threads: Threads, ids: Sequence[str], per: Rates) -> tuple[End, ...]:
    """A join and a finish for every supply, in the order of `ids`."""
    leftward = [chart.leftward(row) for row in range(1, chart.grid.height + 1)]
    joins = _follow(threads, leftward, per, threads.first.tolist(), forward=True)
    finishes = _follow(threads, leftward, per, threads.last.tolist(), forward=False)
    runs = threads.runs
    found: list[End] = []
    for number, name in enumerate(ids):
        for kind, run, room in (
            ("join", int(threads.first[number]), joins[number]),
            ("finish", int(threads.last[number]), finishes[number]),
        ):
            column = int((runs.entry if kind == "join" else runs.exit)[run])
            beside = _neighbour(chart, threads, run, forward=kind == "join")
            along = "" if beside is None else chart.grid.symbols[int(runs.colour[beside])]
            found.append(
                End(
                    supply=name,
                    kind=kind,
                    row=int(runs.row[run]) + 1,
                    stitch=chart.grid.stitch(column),
                    along=along,
                    room_mm=room,
                    closes_gap=along != "" and chart.technique is not Technique.STRANDED,
                )
            )
    return tuple(found)


def _neighbour(chart: Chart, threads: Threads, run: int, *, forward: bool) -> int | None:
    """The run of another colour that the end hangs beside; None at an edge of the piece.

    Of a tube, the first and the last run of a row are neighbours.
    """
    row, count = threads.runs.row, len(threads.runs)
    step = -1 if forward else 1
    beside = run + step
    if 0 <= beside < count and row[beside] == row[run]:
        return beside
    if not chart.tube:
        return None
    beside = run
    while 0 <= beside - step < count and row[beside - step] == row[run]:
        beside -= step
    return beside if threads.runs.colour[beside] != threads.runs.colour[run] else None


def _follow(threads: Threads, leftward: Sequence[bool], per: Rates, at: Sequence[int], *, forward: bool) -> list[float]:
    """The room of each supply's join (`forward`) or finish, mm: from the run `at`, row by row, as far as it goes."""
    runs = threads.runs
    left, right, row, stitches = (a.tolist() for a in (runs.left, runs.right, runs.row, runs.stitches))
    supply = threads.cover.supply.tolist()
    edges: list[_Edge] = []
    for run in at:
        on_right = leftward[row[run]] is forward
        edge = right[run] if on_right else left[run]
        edges.append(_Edge(on_right, row[run], edge, edge, stitches[run] * per.carry))
    step = 1 if forward else -1
    for run in range(len(row)) if forward else range(len(row) - 1, -1, -1):
        edge = edges[supply[run]]
        side = right[run] if edge.on_right else left[run]
        if row[run] == edge.row:
            edge.at = max(edge.at, side) if edge.on_right else min(edge.at, side)
        elif row[run] == edge.row + step:
            edge.settled += per.row + abs(edge.at - edge.was_at) * per.carry
            edge.row, edge.was_at, edge.at = row[run], edge.at, side
    return [e.settled + per.row + abs(e.at - e.was_at) * per.carry for e in edges]
