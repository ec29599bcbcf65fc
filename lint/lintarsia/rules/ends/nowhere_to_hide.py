"""ends/nowhere-to-hide: ends that hang from a block too small to weave them in."""

from collections.abc import Iterator
from dataclasses import field

from lintarsia.chart import Chart, Technique, Worked
from lintarsia.chart.measure import Length
from lintarsia.ground.values import dataclass
from lintarsia.planning.threads import Threads
from lintarsia.result import Basis, Finding, Level, RuleInfo
from lintarsia.rules.base import Work
from lintarsia.rules.shared.planned import stretch
from lintarsia.telling.counts import stitch_count
from lintarsia.telling.lengths import length_in
from lintarsia.telling.names import colour_and_symbol


@dataclass(frozen=True, slots=True)
class Options:
    room: Length = field(
        default=Length(2, "cm"), metadata={"help": "edge that an end is woven along, out and then back again"}
    )


INFO = RuleInfo(
    name="ends/nowhere-to-hide",
    level=Level.NOTE,
    summary="the ends of a supply have too little edge of their own block to be woven along",
    why=(
        "Ends run along the edge of their block and double back. A block of one or two stitches has no such edge: its "
        "tails go behind another colour, where they show, make a lump, or work loose in wear."
    ),
    remedy="work so small a block in duplicate stitch afterwards, share a yarn with a neighbour, or make it larger",
    keys={
        "lone-stitch": "a supply works a single stitch",
        "short-edge": "a supply works several stitches, with too little edge for its ends",
    },
    sources=(
        "common practice: ends run along the interlocks, across the gap, and double back in anything worn",
        "how much edge an end wants is published nowhere; 2 cm is a house value, an option",
    ),
    judges_by=frozenset({Basis.GAUGE}),
)

KINDS = ("join", "finish")


def check(work: Work, options: Options) -> Iterator[Finding]:
    """One finding a supply, for those of its ends that hang inside the piece. At an edge of the piece a seam takes
    them, and in stranded knitting the floats do. Intarsia in rounds is silent here: every round would cut every yarn,
    and round/intarsia has said already that it cannot be worked so.
    """
    chart = work.chart
    if chart.technique is Technique.STRANDED:
        return
    if chart.worked is Worked.ROUND and chart.technique is Technique.INTARSIA:
        return
    wanted = options.room.mm
    tables = work.plan.end_tables
    short = [
        {n for n, (beside, room) in enumerate(zip(t.beside, t.room, strict=True)) if beside >= 0 and room < wanted}
        for t in tables
    ]
    if not short[0] and not short[1]:
        return
    threads = work.plan.threads
    ids = threads.ids(chart.grid.symbols)
    stitches = threads.per_supply(threads.runs.stitches)
    for number in sorted(short[0] | short[1]):
        own = [(name, table) for name, table, few in zip(KINDS, tables, short, strict=True) if number in few]
        rooms = [(name, length_in(chart, table.room[number])) for name, table in own]
        run = own[0][1].run[number]
        yield _finding(chart, threads, run, ids[number], int(stitches[number]), rooms, wanted)


def _finding(
    chart: Chart, threads: Threads, run: int, name: str, stitches: int, rooms: list[tuple[str, str]], wanted: float
) -> Finding:
    runs = threads.runs
    symbol = chart.grid.symbols[int(runs.colour[run])]
    message = (
        f"{name}, {colour_and_symbol(chart, symbol)}, works {stitch_count(stitches)}: "
        f"{_have(rooms)} to be woven along; {length_in(chart, wanted)} is wanted"
    )
    place = stretch(chart, int(runs.row[run]) + 1, int(runs.left[run]), int(runs.right[run]))
    key = "lone-stitch" if stitches == 1 else "short-edge"
    return Finding(key, message, place.region, place.row, place.stitches, pattern=place.text)


def _have(rooms: list[tuple[str, str]]) -> str:
    """What each of the ends named has."""
    (name, room), *others = rooms
    if not others:
        return f"its end at the {name} has {room} of edge"
    if others[0][1] == room:
        return f"its two ends have {room} of edge each"
    return f"its two ends have {room} ({name}) and {others[0][1]} ({others[0][0]}) of edge"
