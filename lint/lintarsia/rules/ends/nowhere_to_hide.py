"""ends/nowhere-to-hide: ends that hang from a block too small to weave them in."""

from collections.abc import Iterable, Iterator
from dataclasses import field

from lintarsia.chart import Technique, Worked
from lintarsia.chart.grid import RowNumber
from lintarsia.chart.measure import Length
from lintarsia.ground.values import dataclass
from lintarsia.planning.threads import EndTable
from lintarsia.result import Basis, Finding, Kind, Level, RuleInfo
from lintarsia.rules.base import Work
from lintarsia.rules.shared.pieces import on_pieces
from lintarsia.rules.shared.planned import stretch
from lintarsia.telling.counts import one_and_all, stitch_count
from lintarsia.telling.lengths import length_in
from lintarsia.telling.names import colour_and_symbol


@dataclass(frozen=True, slots=True)
class Options:
    room: Length = field(
        default=Length(2, "cm"), metadata={"help": "edge that an end is woven along, out and then back again"}
    )
    slack: Length = field(default=Length(2, "mm"), metadata={"help": "what of that may be missing without a word"})
    back: int = field(
        default=12, metadata={"help": "from how many stitches on a block has a back of its own to hide its ends in"}
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
        "how much edge an end wants is published nowhere; 2 cm is a house value, an option, as is the size of a block "
        "with a back of its own",
    ),
    judges_by=frozenset({Basis.SYMBOLS, Basis.GAUGE}),
    subjects=(Kind.CHART, Kind.PATTERN),
)

MOST_NAMED = 4  # supplies of one colour; the plan has them all


def check(work: Work, options: Options) -> Iterator[Finding]:
    """One finding a colour, for the supplies with an end that hangs inside the piece and has too little edge. At an
    edge of the piece a seam takes them, a larger block has its own back, and in stranded knitting the floats do.
    Intarsia in rounds is silent here: every round would cut every yarn, and round/intarsia has said already that it
    cannot be worked so.
    """
    chart = work.chart
    if chart.technique is Technique.STRANDED:
        return
    if chart.worked is Worked.ROUND and chart.technique is Technique.INTARSIA:
        return
    short = _short(work.plan.end_tables, options.room.mm - options.slack.mm)
    if not short:
        return
    threads = work.plan.threads
    stitches = threads.per_supply(threads.runs.stitches)
    colours: dict[int, list[int]] = {}
    for number, (run, _) in sorted(short.items()):
        if stitches[number] < options.back:
            colours.setdefault(int(threads.runs.colour[run]), []).append(number)
    for numbers in colours.values():
        yield _finding(work, numbers, [short[number] for number in numbers], stitches[numbers].tolist(), options)


check_pattern = on_pieces(INFO.name, check)


def _short(tables: Iterable[EndTable], wanted: float) -> dict[int, tuple[int, float]]:
    """The supplies with too little edge for an end inside the piece: the run that the first such end hangs from, and
    the edge in mm that it has.
    """
    short: dict[int, tuple[int, float]] = {}
    for table in tables:
        for number, (beside, room) in enumerate(zip(table.beside, table.room, strict=True)):
            if beside >= 0 and room < wanted:
                short.setdefault(number, (table.run[number], room))
    return short


def _finding(
    work: Work, numbers: list[int], ends: list[tuple[int, float]], stitches: list[int], options: Options
) -> Finding:
    chart, runs, ids = work.chart, work.plan.threads.runs, work.plan.threads.ids(work.chart.grid.symbols)
    run, room = ends[0][0], length_in(chart, max(room for _, room in ends))
    name, alone = colour_and_symbol(chart, chart.grid.symbols[int(runs.colour[run])]), len(numbers) == 1
    names = [ids[number] for number in numbers[:MOST_NAMED]]
    if len(numbers) > MOST_NAMED:
        names.append(f"{len(numbers) - MOST_NAMED} more")
    most = stitch_count(max(stitches))
    works = f"works {most}" if alone else f"work {most} each" if len(set(stitches)) == 1 else f"work at most {most}"
    message = (
        f"{one_and_all(names)}, {name}, {works}: {'its' if alone else 'their'} ends have {room} of edge "
        f"to be woven along{'' if alone else ' at most'}; {length_in(chart, options.room.mm)} is wanted"
    )
    place = stretch(chart, RowNumber(int(runs.row[run]) + 1), int(runs.left[run]), int(runs.right[run]))
    key = "lone-stitch" if max(stitches) == 1 else "short-edge"
    return Finding(key, message, place.region, place.row, place.stitches, pattern=place.text)
