"""The ends to weave in, piece by piece: where each hangs, and what it can be woven along."""

from collections.abc import Iterator, Sequence
from operator import attrgetter

from lintarsia.pattern.choosing import PieceInSize
from lintarsia.pattern.work import PatternWork
from lintarsia.publishing.document.model import Part, Table
from lintarsia.publishing.document.written import Written
from lintarsia.telling.names import row_word

MOST = 120  # ends of a piece; a longer list is no help to anybody


def end_parts(work: PatternWork, written: Sequence[Written]) -> Iterator[Part]:
    """A list for each piece and size in which there are more ends than the two of one yarn."""
    for each in written:
        for one in each.pieces:
            plan = work.plan(one.piece, one.size)
            if 2 < len(plan.ends) <= MOST:
                yield Part(f"Ends of {one.name}", (_table(work, one),), level=2)


def _table(work: PatternWork, one: PieceInSize) -> Table:
    chart, plan = one.chart, work.plan(one.piece, one.size)
    rows = []
    for end in sorted(plan.ends, key=attrgetter("row", "kind", "stitch")):  # in a row, finishes come first
        colour = chart.colours.get(end.supply.rstrip("0123456789"))
        beside = chart.colours.get(end.along)
        along = f"the edge with {beside.name}" if beside else "the edge of the piece"
        what = ("joined" if end.kind == "join" else "finishes") + (", closes the gap" if end.closes_gap else "")
        name = f"{end.supply} {colour.name}" if colour else end.supply
        rows.append((str(end.row), str(end.stitch), name, what, along))
    word = row_word(chart).capitalize()
    return Table((word, "Stitch", "Yarn", "Here it", "Weave along"), tuple(rows), (0, 1))
