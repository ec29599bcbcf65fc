"""symmetry/broken: stitches that break a symmetry which the chart is said to have."""

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from lintarsia.chart import Chart, Repeat, Symmetry
from lintarsia.chart.grid import NO_STITCH, NO_STITCH_SYMBOL, RowIndex
from lintarsia.result import Basis, Finding, Level, RuleInfo
from lintarsia.rules.base import NoOptions, Work
from lintarsia.telling.counts import count
from lintarsia.telling.names import row_word

Options = NoOptions
INFO = RuleInfo(
    name="symmetry/broken",
    level=Level.WARNING,
    summary="a stitch breaks a symmetry that the chart is said to have",
    why=(
        "One square out of place in a symmetrical motif is hardly seen on the chart and at once on the body, and the "
        "knitter will take it for a mistake of their own."
    ),
    remedy="change one of the two places to match the other, or take the symmetry out of `symmetry`",
    keys={
        "left-right": "the two halves do not mirror each other across an upright line",
        "top-bottom": "the two halves do not mirror each other across a level line",
        "half-turn": "the chart is not the same upside down",
        "repeat": "stitches outside the repeat box are not those that the repeat gives",
        "no-repeat": "symmetry under the repeat is declared and the chart has no repeat box",
    },
    sources=("arithmetic",),
    judges_by=frozenset({Basis.SYMBOLS}),
)

# Beyond both it is the declaration that is wrong, not so many stitches: house values.
MOST_STITCHES, MOST_SHARE = 200, 0.2
# A motif further off the middle than so many stitches or rows was put there: a house value.
MOST_SHIFT = 6

_PHRASE = {
    Symmetry.LEFT_RIGHT: "mirrored left to right",
    Symmetry.TOP_BOTTOM: "mirrored top to bottom",
    Symmetry.HALF_TURN: "turned by half",
    Symmetry.REPEAT: "moved by the repeat",
}


def check(work: Work, options: NoOptions) -> Iterator[Finding]:
    """One finding for each contiguous stretch of a row, naming both places.

    Of two places that should agree the one is named that has fewer neighbours of its own colour: the odd stitch is more
    likely the slip. Then the one whose colour is rarer in the chart, then the one in the upper or left half.

    Stitches bound off or cast on at one edge, and as many at the other in the row after, are the same at both: each can
    only be worked where a row starts.
    """
    chart = work.chart
    if not chart.symmetry:
        return
    cells = np.maximum(chart.grid.cells, NO_STITCH)  # a missing square is one without a stitch
    for index, symmetry in enumerate(chart.symmetry):
        if symmetry is Symmetry.REPEAT and chart.repeat is None:
            message = "symmetry under the repeat is declared; the chart has no repeat box"
            yield Finding("no-repeat", message, chart.places.value("symmetry", index), level=Level.WARNING)
            continue
        yield from _broken(work, symmetry, cells)


def _broken(work: Work, symmetry: Symmetry, cells: NDArray[np.int16]) -> Iterator[Finding]:
    chart = work.chart
    rows, columns = _partners(symmetry, cells.shape, chart.repeat)
    other = cells[rows, columns]
    wrong = cells != other
    if symmetry is Symmetry.LEFT_RIGHT and chart.shaping:
        from lintarsia.rules.shared.mirrored_rows import made_a_row_later

        wrong &= ~made_a_row_later(work)
    if not wrong.any():
        return
    if symmetry is not Symmetry.REPEAT:
        height, width = cells.shape
        standing = _at_home(cells) * (cells.size + 1) + np.bincount(cells.ravel() + 1)[cells + 1]
        mine, theirs = standing, standing[rows, columns]
        own = np.arange(height)[:, None] * width - np.arange(width)[None, :]
        wrong &= (mine < theirs) | ((mine == theirs) & (own > rows * width - columns))
    shift = off_centre(cells, symmetry)
    if shift:
        yield _shifted(chart, symmetry, shift)
        return
    number = int(wrong.sum())
    if number > MOST_STITCHES and number > cells.size * MOST_SHARE:
        what = f"{number:,} of {cells.size:,} squares differ {_PHRASE[symmetry]}"
        region = chart.places.value("symmetry", chart.symmetry.index(symmetry))
        yield Finding(str(symmetry), f"{what}; the chart does not have this symmetry", region, pattern=str(symmetry))
        return
    for row, first, last in _stretches(wrong, cells, other, columns):
        there = RowIndex(int(rows[row, first]))
        yield _finding(chart, symmetry, RowIndex(row), first, last, there, columns[row, first : last + 1])


def off_centre(cells: NDArray[np.int16], symmetry: Symmetry) -> int:
    """By how many half stitches (to the right) or half rows (upward) a motif that is symmetrical in itself, on a plain
    ground, stands off the middle; 0 where that is not what is wrong.
    """
    if symmetry not in (Symmetry.LEFT_RIGHT, Symmetry.TOP_BOTTOM):
        return 0
    lines = cells.T if symmetry is Symmetry.LEFT_RIGHT else cells
    size = len(lines)
    for by in range(1, min(MOST_SHIFT * 2, size // 2) + 1):
        for shift in (by, -by):
            inside = lines[by:] if shift > 0 else lines[:-by]
            spare = lines[:by] if shift > 0 else lines[-by:]
            beside = inside[0] if shift > 0 else inside[-1]
            if (spare == beside).all() and (inside == inside[::-1]).all() and _is_motif(cells):
                return shift
    return 0


def _is_motif(cells: NDArray[np.int16]) -> bool:
    """Whether more than a line of cells differs from the ground, the commonest colour: less is a slip, no motif."""
    ground = np.bincount(cells.ravel() - cells.min()).argmax() + cells.min()
    motif = cells != ground
    return int(motif.any(axis=0).sum()) > 1 and int(motif.any(axis=1).sum()) > 1


def _shifted(chart: Chart, symmetry: Symmetry, shift: int) -> Finding:
    across = symmetry is Symmetry.LEFT_RIGHT
    way = ("to the right of" if shift > 0 else "to the left of") if across else ("above" if shift > 0 else "below")
    message = f"the motif stands {_halves(abs(shift), 'stitch' if across else row_word(chart))} {way} the middle"
    region = chart.places.value("symmetry", chart.symmetry.index(symmetry))
    remedy = f"move it, or take a {'stitch' if across else row_word(chart)} from one edge and add it at the other"
    return Finding(str(symmetry), message, region, remedy=remedy, pattern=f"{symmetry} shifted {shift}")


def _halves(number: int, unit: str) -> str:
    """`one stitch`, `2 stitches`, `half a stitch`, `1 1/2 stitches`."""
    if number == 1:
        return f"half a {unit}"
    if number == 2:
        return f"one {unit}"
    return count(number // 2, unit) if number % 2 == 0 else f"{number // 2} 1/2 {count(2, unit).partition(' ')[2]}"


def _at_home(cells: NDArray[np.int16]) -> NDArray[np.int64]:
    """How many of its eight neighbours have a cell's own colour."""
    height, width = cells.shape
    wide = np.pad(cells, 1, constant_values=NO_STITCH - 1)
    same = np.zeros(cells.shape, np.int64)
    for up in range(3):
        for across in range(3):
            same += wide[up : up + height, across : across + width] == cells
    return same - 1


def _partners(
    symmetry: Symmetry, shape: tuple[int, ...], repeat: Repeat | None
) -> tuple[NDArray[np.intp], NDArray[np.intp]]:
    """For each cell, the row and column of the cell that it should equal."""
    height, width = shape
    rows, columns = np.indices((height, width))
    if symmetry is Symmetry.REPEAT:
        assert repeat is not None
        (right, left), (low, high) = repeat.stitches, repeat.rows
        across, up = left - right + 1, high - low + 1
        stitch = np.arange(width, 0, -1)
        box = width - ((stitch - right) % across + right)
        return (rows - (low - 1)) % up + low - 1, np.broadcast_to(box, (height, width))
    if symmetry is not Symmetry.LEFT_RIGHT:
        rows = height - 1 - rows
    if symmetry is not Symmetry.TOP_BOTTOM:
        columns = width - 1 - columns
    return rows, columns


def _stretches(
    wrong: NDArray[np.bool_], cells: NDArray[np.int16], other: NDArray[np.int16], columns: NDArray[np.intp]
) -> Iterator[tuple[int, int, int]]:
    """(row, first column, last column) of neighbouring cells that are wrong in the same way."""
    for row in np.flatnonzero(wrong.any(axis=1)).tolist():
        where = np.flatnonzero(wrong[row])
        first = int(where[0])
        for here, following in zip(where.tolist(), [*where.tolist()[1:], -1], strict=True):
            goes_on = (
                following == here + 1
                and cells[row, following] == cells[row, here]
                and other[row, following] == other[row, here]
                and abs(int(columns[row, following] - columns[row, here])) == 1
            )
            if not goes_on:
                yield row, first, here
                first = following


def _finding(
    chart: Chart, symmetry: Symmetry, row: RowIndex, left: int, right: int, there: RowIndex, columns: NDArray[np.intp]
) -> Finding:
    grid = chart.grid
    first, last = grid.stitch(right), grid.stitch(left)
    across = sorted((grid.stitch(int(columns[0])), grid.stitch(int(columns[-1]))))
    found, expected = _symbol(chart, row, left), _symbol(chart, there, int(columns[0]))
    place = f"{row_word(chart)} {row + 1}, {_said(first, last)}"
    partner = f"{row_word(chart)} {there + 1}, {_said(across[0], across[1])}"
    message = f"{place}: {found}; {_PHRASE[symmetry]} it meets {partner}, {expected}"
    return Finding(
        str(symmetry),
        message,
        chart.places.cells(row + 1, first, last),
        row + 1,
        (first, last),
        pattern=f"{symmetry} {grid.rows[row]} {first}",
    )


def _symbol(chart: Chart, row: RowIndex, column: int) -> str:
    code = int(chart.grid.cells[row, column])
    return chart.grid.symbols[code] if code >= 0 else f"no stitch ({NO_STITCH_SYMBOL})"


def _said(first: int, last: int) -> str:
    return f"stitch {first}" if first == last else f"stitches {first}–{last}"
