"""ends/nowhere-to-hide: ends that hang from a block too small to weave them in."""

from collections.abc import Iterator
from dataclasses import dataclass, field

from lintarsia.chart import Chart, Technique
from lintarsia.measure import Length
from lintarsia.planning.model import End, Plan
from lintarsia.planning.threads import Threads
from lintarsia.result import Finding, Level, RuleInfo
from lintarsia.rules.base import Work
from lintarsia.rules.planned import colour_words, stretch
from lintarsia.rules.telling import length_in, stitch_count


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
    remedy="work so small a block in duplicate stitch afterwards, strand behind it, or make it larger",
    keys={
        "lone-stitch": "a supply works a single stitch",
        "short-edge": "a supply works several stitches, with too little edge for its ends",
    },
    sources=(
        "common practice: ends run along the interlocks, across the gap, and double back in anything worn",
        "how much edge an end wants is published nowhere; 2 cm is a house value, an option",
    ),
)


def check(work: Work, options: Options) -> Iterator[Finding]:
    """One finding a supply, for those of its ends that hang inside the piece. At an edge of the piece a seam takes
    them, and in stranded knitting the floats do.
    """
    chart = work.chart
    if chart.technique is Technique.STRANDED or not _any_short(chart, work.plan.threads, options.room.mm):
        return
    plan = work.plan
    for number in range(plan.totals.supplies):
        short = [end for end in plan.ends[2 * number : 2 * number + 2] if end.along and end.room_mm < options.room.mm]
        if short:
            yield _finding(chart, plan, number, short, options.room.mm)


def _any_short(chart: Chart, threads: Threads, wanted: float) -> bool:
    """Whether any supply could be short of edge, by its first and last runs alone: most charts have none."""
    width, height = chart.gauge.stitch_mm, chart.gauge.row_mm
    stitches = threads.runs.stitches
    shortest = min(stitches[threads.first].min(initial=9999), stitches[threads.last].min(initial=9999))
    return bool(shortest * width + height < wanted)


def _finding(chart: Chart, plan: Plan, number: int, short: list[End], wanted: float) -> Finding:
    supply = plan.supplies[number]
    lone = supply.stitches == 1
    words = f"{supply.id}, {colour_words(chart, supply.colour)}, works {stitch_count(supply.stitches)}: "
    room = min(end.room_mm for end in short)
    ends = "its two ends have" if len(short) == 2 else f"its end at the {short[0].kind} has"
    each = " each" if len(short) == 2 else ""
    message = f"{words}{ends} {length_in(chart, room)} of edge{each} to be woven along"
    message += f"; {length_in(chart, wanted)} is wanted"
    run = plan.runs[supply.runs[0 if short[0].kind == "join" else -1]]
    place = stretch(chart, run.row, run.left, run.right)
    return Finding(
        "lone-stitch" if lone else "short-edge", message, place.region, run.row, place.stitches, pattern=place.text
    )
