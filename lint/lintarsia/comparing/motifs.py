"""A motif that begins at another place of its piece: one change, however many rows look otherwise through it."""

from dataclasses import replace

from lintarsia.comparing.charts import compare_charts
from lintarsia.comparing.model import ChartChange, MotifMoved
from lintarsia.pattern.model import Piece
from lintarsia.pattern.work import PatternWork
from lintarsia.telling.terms import Terms


def motif_moved(
    was: PatternWork, old: Piece, new: Piece, size: str, whole: ChartChange, terms: Terms = Terms.AMERICAN
) -> ChartChange:
    """`whole` with the move told once and, of rows, only what differs besides; as it is where nothing has moved, or
    where the place is stated in one of both states alone."""
    before, after = ((piece.at_stitch.get(size), piece.at_row.get(size)) for piece in (old, new))
    if before == after or any((a is None) != (b is None) for a, b in zip(before, after, strict=True)):
        return whole
    moved = was.laid_as(replace(old, at_stitch=new.at_stitch, at_row=new.at_row), size)
    if moved is None:
        return whole
    rest = compare_charts(moved.chart, whole.now, terms)
    if len(rest.rows) >= len(whole.rows):
        return whole  # so much else is another that the move alone explains nothing
    return replace(rest, same_to_row=whole.same_to_row, motif=MotifMoved(before, after, whole.rows))
