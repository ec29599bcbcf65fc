"""supply/steep-edge: edges that slant further in one row than a yarn can be carried."""

from collections.abc import Iterator

from lintarsia.chart import Worked
from lintarsia.chart.grid import row_number
from lintarsia.result import Basis, Finding, Kind, Level, RuleInfo
from lintarsia.rules.base import NoOptions, Work
from lintarsia.rules.shared.edgesteps import EdgeStep, steps
from lintarsia.rules.shared.pieces import on_pieces
from lintarsia.rules.shared.planned import stretch
from lintarsia.telling.counts import one_and_all, stitch_count
from lintarsia.telling.lengths import length_in
from lintarsia.telling.names import colour_and_symbol

Options = NoOptions
INFO = RuleInfo(
    name="supply/steep-edge",
    level=Level.WARNING,
    summary="an edge slants further in one row than a yarn can be carried, so that it is cut and joined anew",
    why=(
        "The yarn waits at the edge where the row below left it. If the block's next row begins many stitches further "
        "on, the yarn would have to lie loose across them; instead it is cut and joined again: two ends more, and a "
        "gap at the edge to close."
    ),
    remedy="step the edge over several rows, or allow a longer carry (limits: carry), or accept the two ends",
    keys={"cut-and-rejoined": "the block goes on, but its yarn is cut below the step and joined above it"},
    judges_by=frozenset({Basis.SYMBOLS, Basis.GAUGE}),
    sources=(
        "common practice: several stitches at once need the new yarn crossed ahead",
        "how far a yarn may be carried is published nowhere; as far as a float is a house value, `carry` in the limits",
    ),
    subjects=(Kind.CHART, Kind.PATTERN),
)


SHELF = 2  # times the carry: a longer step by itself is no slant any more; a house value


def check(work: Work, options: NoOptions) -> Iterator[Finding]:
    """One finding for each step of an edge where the plan cuts a yarn and joins it anew right above.

    A step by itself of more than twice what a yarn can be carried is a flat top or underside, where a yarn plainly
    ends or begins. In the round no yarn turns: none is carried.
    """
    if work.chart.worked is Worked.ROUND or work.bounds.carry is None:
        return
    told: dict[tuple[int, int, int], list[EdgeStep]] = {}
    for step in steps(work.plan.threads):
        if step.slants or step.last - step.first < SHELF * work.bounds.carry:
            told.setdefault((step.row, step.first, step.last), []).append(step)
    for alike in told.values():
        yield _finding(work, alike)


check_pattern = on_pieces(INFO.name, check)


def _finding(work: Work, alike: list[EdgeStep]) -> Finding:
    """One finding for a step, whichever colours lose their yarns at it."""
    chart, step = work.chart, alike[0]
    row, moved = row_number(step.row), step.last - step.first + 1
    names = one_and_all([colour_and_symbol(chart, chart.grid.symbols[each.colour]) for each in alike])
    across = length_in(chart, moved * chart.gauge.stitch_mm)
    carry = stitch_count(work.bounds.carry or 0)
    their = "the yarn can be carried" if len(alike) == 1 else "yarns can be carried"
    ends = "it is cut and joined anew" if len(alike) == 1 else "they are cut and joined anew"
    message = (
        f"the edge of {names} moves {across} ({stitch_count(moved)}) from row {row - 1} to row {row}; "
        f"{their} {carry}, so {ends}"
    )
    place = stretch(chart, row, step.first, step.last)
    return Finding("cut-and-rejoined", message, place.region, row, place.stitches, pattern=place.text)
