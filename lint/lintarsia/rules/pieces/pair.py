"""pieces/pair: a left and a right piece that are declared to mirror each other do."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from lintarsia.result import Kind, Level, RuleInfo
from lintarsia.rules.base import NoOptions
from lintarsia.telling.counts import count
from lintarsia.telling.names import row_word

if TYPE_CHECKING:
    from lintarsia.chart import Chart
    from lintarsia.pattern.model import Piece
    from lintarsia.pattern.work import About, PatternWork, SizeFault

Options = NoOptions
INFO = RuleInfo(
    name="pieces/pair",
    level=Level.ERROR,
    summary="a piece is not the mirror image of the one it is said to mirror",
    why=(
        "Fronts, sleeves and mittens come in pairs. A stitch that is out of place on one of them shows as soon as the "
        "garment is closed, and a pair of two lefts cannot be worn at all."
    ),
    remedy="mend the chart that is wrong, or take `mirror-of` out where the pieces differ on purpose",
    keys={
        "not-mirrored": "stitches differ from the mirror image of the other piece",
        "other-size": "the two charts have different numbers of rows or stitches",
        "other-times": "the two pieces are not knitted equally often",
    },
    subjects=(Kind.PATTERN,),
)


def check_pattern(work: "PatternWork", options: NoOptions) -> "Iterator[About]":
    """One finding for each pair that differs, at its first stitch in working order. Colours are compared by name.

    Two pieces knitted from one chart file are left alone: then one of them is worked from the chart in reverse.
    """
    from lintarsia.pattern.work import SizeFault

    def judge(piece: "Piece", size: str) -> "Iterator[SizeFault]":
        other = work.pattern.pieces.get(piece.mirror_of or "")
        if other is None or other is piece:
            return
        region = work.place("pieces", piece.name, "mirror-of")
        if piece.knitted(size) != other.knitted(size):
            words = f"knitted {_times(piece.knitted(size))}, and {other.name} {_times(other.knitted(size))}"
            yield SizeFault("other-times", words, region)
        if piece.charts.get(size) == other.charts.get(size):
            return
        mine, theirs = work.chart(piece, size), work.chart(other, size)
        if mine is not None and theirs is not None:
            found = _compare(mine, theirs, other.name)
            if found:
                yield SizeFault(*found, region)

    return work.each(judge)


def _times(number: int) -> str:
    return {1: "once", 2: "twice"}.get(number, f"{number} times")


def _compare(mine: "Chart", theirs: "Chart", name: str) -> tuple[str, str] | None:
    import numpy as np

    from lintarsia.rules.shared.colour_numbers import cells_by_name

    if mine.grid.cells.shape != theirs.grid.cells.shape:
        sizes = [f"{count(c.grid.height, row_word(c))} of {count(c.grid.width, 'stitch')}" for c in (mine, theirs)]
        return "other-size", f"its chart has {sizes[0]}, {name}'s {sizes[1]}"
    names: dict[str, int] = {}
    cells = [cells_by_name(chart, names) for chart in (mine, theirs)]
    wrong = cells[0] != cells[1][:, ::-1]
    if not wrong.any():
        return None
    rows, columns = np.nonzero(wrong)
    row, column = int(rows[0]) + 1, int(columns[rows == rows[0]].max())
    there = mine.grid.width - 1 - column
    stitch, other = mine.grid.stitch(column), theirs.grid.stitch(there)
    words = (
        f"{count(len(rows), 'stitch')} not mirrored; {row_word(mine)} {row}, stitch {stitch} is "
        f"{_at(mine, row, column)}, and stitch {other} of {name} {_at(theirs, row, there)}"
    )
    return "not-mirrored", words


def _at(chart: "Chart", row: int, column: int) -> str:
    from lintarsia.telling.names import colour_name

    code = int(chart.grid.cells[row - 1, column])
    return colour_name(chart, chart.grid.symbols[code]) if code >= 0 else "no stitch"
