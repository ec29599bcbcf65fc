"""float/too-long: a yarn that crosses too much of the back before it is worked again."""

from collections.abc import Iterator
from math import inf
from typing import TYPE_CHECKING

from lintarsia.chart.measure import StitchCount
from lintarsia.result import Basis, Finding, Kind, Level, RuleInfo
from lintarsia.rules.base import NoOptions, Work
from lintarsia.rules.shared.citing import FLOATS_TACKED, FLOATS_TRAPPED
from lintarsia.rules.shared.pieces import on_pieces
from lintarsia.telling.counts import stitch_count
from lintarsia.telling.lengths import length_in
from lintarsia.telling.names import colour_and_symbol, row_word

if TYPE_CHECKING:
    from lintarsia.rules.shared.floats import EdgeFloat, Float

Options = NoOptions
INFO = RuleInfo(
    name="float/too-long",
    level=Level.WARNING,
    summary="a float is longer than the limit",
    why=(
        "A long float catches on fingers and buttons, and it has no stretch: a little too tight and the fabric "
        "puckers, a little too loose and the stitches beside it sag."
    ),
    remedy=(
        "put a stitch of the colour in between, catch the float on the way, or give the far stitches a supply of their "
        "own; if your yarn holds longer floats, raise `limits: float`"
    ),
    keys={
        "in-row": "between two stretches of a colour in one row",
        "round-seam": "from the last use of a colour in a round to its first in the next",
        "repeat-edge": "from the last stitch of a colour in the repeat to its first when the repeat is worked again",
        "between-rows": "from where a colour is left in a row to where it is next needed in a later one",
    },
    sources=(
        f"{FLOATS_TACKED}: about 1 in (2.5 cm)",
        f"{FLOATS_TRAPPED}: the same",
        "in stitches authors say 3 to 7, so the length is what counts, by the gauge",
    ),
    judges_by=frozenset({Basis.SYMBOLS, Basis.GAUGE}),
    subjects=(Kind.CHART, Kind.PATTERN),
)


def check(work: Work, options: NoOptions) -> Iterator[Finding]:
    """One finding for each float over the limit, where stranding is chosen: those of the plan, in the row where they
    end, and those across the edge of the repeat box. Floats that are caught on the way are measured between catches. A
    float that goes over the edge of the repeat and over the seam of the round is told once, for the repeat.
    """
    if not work.stranding_chosen or (work.chart.caught_stitches or inf) <= work.bounds.float_stitches:
        return
    from lintarsia.rules.shared.floats import floats, repeat_floats

    edges = list(repeat_floats(work, work.bounds.float_stitches))
    told = {(edge.colour, edge.row + over) for edge in edges for over in (0, 1)}
    for crossing in floats(work, work.bounds.float_stitches):
        colour = int(work.plan.threads.runs.colour[crossing.head])
        if crossing.kind != "round-seam" or (colour, crossing.row) not in told:
            yield _finding(work, crossing)
    for edge in edges:
        yield _edge_finding(work, edge)


check_pattern = on_pieces(INFO.name, check)


def _finding(work: Work, crossing: "Float") -> Finding:
    chart, runs = work.chart, work.plan.threads.runs
    symbol = chart.grid.symbols[int(runs.colour[crossing.head])]
    name, word = colour_and_symbol(chart, symbol), row_word(chart)
    length = length_in(chart, crossing.crossed * chart.gauge.float_stitch_mm)
    across = f"{stitch_count(crossing.crossed)} ({length})"
    if crossing.kind == "in-row":
        what = f"{name} floats across {across} in {word} {crossing.row}"
    else:
        start = int(runs.row[crossing.tail]) + 1
        leave, entry = (chart.grid.stitch(int(a)) for a in (runs.exit[crossing.tail], runs.entry[crossing.head]))
        seam = "round the seam, " if crossing.kind == "round-seam" else ""
        what = (
            f"{name} floats across {across} {seam}from stitch {leave} of {word} {start} "
            f"to stitch {entry} of {word} {crossing.row}"
        )
    region = chart.places.cells(crossing.row, *crossing.stitches)
    pattern = f"{symbol} {crossing.kind} {chart.grid.text(crossing.row, *crossing.stitches)}"
    message = f"{what}; at most {_limit(work)}"
    return Finding(crossing.kind, message, region, crossing.row, crossing.stitches, pattern=pattern)


def _edge_finding(work: Work, edge: "EdgeFloat") -> Finding:
    chart = work.chart
    symbol = chart.grid.symbols[edge.colour]
    length = length_in(chart, edge.crossed * chart.gauge.float_stitch_mm)
    message = (
        f"{colour_and_symbol(chart, symbol)} floats across {stitch_count(edge.crossed)} ({length}) "
        f"from one repeat to the next in {row_word(chart)} {edge.row}; at most {_limit(work)}"
    )
    region = chart.places.cells(edge.row, *edge.stitches)
    pattern = f"{symbol} repeat-edge {chart.grid.text(edge.row, *edge.stitches)}"
    return Finding("repeat-edge", message, region, edge.row, edge.stitches, pattern=pattern)


def _limit(work: Work) -> str:
    stated = work.chart.limits.float or work.house.float
    if isinstance(stated, StitchCount):
        return f"{stated} are allowed"
    bounds = work.bounds
    return f"{length_in(work.chart, bounds.float_mm)} ({stitch_count(bounds.float_stitches)}) is allowed"
