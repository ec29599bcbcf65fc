"""What the own shaping of a pattern's piece asks for, against the stitches and rows that the piece has."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from lintarsia.pattern.entries import entry_of
from lintarsia.pattern.overdrawn import Overdrawn, overdrawn
from lintarsia.pattern.work import SizeFault
from lintarsia.telling.counts import one_and_all, stitch_count
from lintarsia.telling.names import row_word

if TYPE_CHECKING:
    from lintarsia.chart import Chart
    from lintarsia.ground.regions import Region
    from lintarsia.pattern.model import Piece
    from lintarsia.pattern.work import PatternWork

_FEWER = "take off no more stitches than are there, or cast on more"
_ROWS = "state as many rows as are shaped, or leave these out"


def outline_faults(work: "PatternWork", piece: "Piece", size: str) -> Iterator[SizeFault]:
    """Every row that is not there, and the first of each side that takes more stitches than there are."""
    laid = work.laid(piece, size)
    if laid is None:
        return
    shaping, divide = piece.shaping.get(size, {}), piece.divide.get(size, {})
    height = laid.chart.grid.height
    for fault in overdrawn(shaping, divide, laid.across, height):
        section, edge = ("shaping", fault.edges[0]) if fault.edges else ("divide", "")
        place = entry_of(work.pattern, section, piece.name, size, fault.row, edge)
        yield SizeFault("too-many-taken", _taken(laid.chart, fault), place, remedy=_FEWER)
    told: set[Region] = set()
    for section, rows in (("shaping", shaping), ("divide", divide)):
        for row in sorted(row for row in rows if row > height):
            place = entry_of(work.pattern, section, piece.name, size, row)
            if place not in told:
                told.add(place)
                word = row_word(laid.chart)
                words = f"{word} {row} is beyond the last {word}, {height:,}"
                yield SizeFault("beyond-last-row", words, place, remedy=_ROWS)


def _taken(chart: "Chart", fault: Overdrawn) -> str:
    row = chart.row_name(fault.row)
    if not fault.edges:
        return f"{row} takes {stitch_count(fault.asked)} out of the middle; {_there(fault)}"
    where = one_and_all([edge.words for edge in fault.edges])
    if not fault.asked:
        return f"{row} is shaped at {where}; {_there(fault)}"
    return f"{row} takes {stitch_count(fault.asked)} at {where}; {_there(fault)}"


def _there(fault: Overdrawn) -> str:
    side = f" on the {fault.half}-hand side" if fault.half else ""
    there = stitch_count(fault.there) if fault.there else "no stitch"
    return f"{there} {'are' if fault.there > 1 else 'is'} left{side}"
