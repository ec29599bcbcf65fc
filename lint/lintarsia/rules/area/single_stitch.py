"""area/single-stitch: a stitch all alone in its colour, and what each way to work it costs."""

from collections.abc import Iterator
from dataclasses import field

import numpy as np
from numpy.typing import NDArray

from lintarsia.chart import Chart
from lintarsia.chart.grid import RowIndex, RowNumber, row_number
from lintarsia.ground.values import dataclass
from lintarsia.result import Basis, Edit, Finding, Fix, Level, RuleInfo
from lintarsia.rules.base import Work
from lintarsia.rules.shared.areas import Sides, label_areas, lone_stitches
from lintarsia.telling.counts import stitch_count
from lintarsia.telling.lengths import length_in
from lintarsia.telling.names import colour_and_symbol, row_word

Line = NDArray[np.int16]

INFO = RuleInfo(
    name="area/single-stitch",
    level=Level.WARNING,
    summary="a single stitch stands alone in its colour",
    why=(
        "A lone stitch wants a yarn of its own: two ends to weave in within one stitch. Stranding it makes the fabric "
        "thicker and less stretchy there, duplicate stitch lies on top. Teachers disagree which is best, so the cost "
        "of each is stated and the choice is yours."
    ),
    remedy="choose how to work it: another supply, a strand, or a duplicate stitch; or enlarge the area",
    keys={
        "single-stitch": "one stitch that touches no other of its colour",
        "small-area": "an area of no more stitches than the option `largest` allows",
    },
    sources=(
        "the three ways: common practice; duplicate stitch is fine for one to three stitches: common practice",
        "a tail of 15 cm (6 in) at a join and at a finish: common practice; 5 to 8 in are printed too",
    ),
    judges_by=frozenset({Basis.SYMBOLS}),
)


@dataclass(frozen=True, slots=True)
class Options:
    corners: bool = field(default=True, metadata={"help": "whether stitches that meet at a corner touch"})
    largest: int = field(default=1, metadata={"help": "most stitches of an area that is reported"})


def check(work: Work, options: Options) -> Iterator[Finding]:
    """One finding for each such area, at its lowest row. Silent where the colour's yarn is at hand in the row anyway,
    no further off than the chart lets a yarn be stranded: stranded work covers lone stitches at no cost.
    """
    grid, tube = work.chart.grid, work.chart.tube
    sides = work.sides.numbers if work.chart.divide else None
    if options.largest == 1:
        places = lone_stitches(grid, corners=options.corners, tube=tube, sides=sides)
        areas = [(row, column, column, 1) for row, column in places]
    else:
        areas = _small_areas(work.chart, options, sides)
    for row, left, right, size in areas:
        if grid.cells[row, left] >= grid.known:
            continue  # a symbol that the key does not have is another rule's business
        near = _nearest(_own(grid.cells, sides, row, left), left, right)
        strand = work.bounds.strand
        if near is None or (strand is not None and near[1] > strand):
            yield _finding(work, row, left, right, size, near)


def _small_areas(chart: Chart, options: Options, sides: Sides) -> list[tuple[RowIndex, int, int, int]]:
    """(array row, leftmost, rightmost column in it, stitches in all) of each small area, at its lowest row."""
    labels = label_areas(chart.grid, corners=options.corners, tube=chart.tube, sides=sides)
    sizes = np.bincount(labels[labels >= 0])
    small = (labels >= 0) & (sizes[labels] <= options.largest)
    members: dict[int, list[tuple[RowIndex, int]]] = {}
    for row, column in np.argwhere(small).tolist():  # bottom-up, so an area's first member is in its lowest row
        members.setdefault(int(labels[row, column]), []).append((RowIndex(row), column))
    areas = []
    for stitches in members.values():
        lowest = [column for row, column in stitches if row == stitches[0][0]]
        areas.append((stitches[0][0], min(lowest), max(lowest), len(stitches)))
    return sorted(areas)


def _own(cells: Line, sides: Sides, row: RowIndex, column: int) -> Line:
    """A row's colours, without those across an opening: no yarn is stranded over it."""
    own: Line = cells[row].copy()
    if sides is None:
        return own
    own[sides[row] != sides[row, column]] = -1
    return own


def _nearest(line: Line, left: int, right: int) -> tuple[int, int] | None:
    """The nearest other stitch of the colour in the row: its column, and how many stitches lie between."""
    others = np.flatnonzero(line == line[left])
    at_left, at_right = others[others < left][-1:].tolist(), others[others > right][:1].tolist()
    reached = [(_stitches(line[column + 1 : left]), column) for column in at_left]
    reached += [(_stitches(line[right + 1 : column]), column) for column in at_right]
    if not reached:
        return None
    between, column = min(reached)
    return column, between


def _stitches(cells: Line) -> int:
    return int(np.count_nonzero(cells >= 0))


def _finding(work: Work, row: RowIndex, left: int, right: int, size: int, near: tuple[int, int] | None) -> Finding:
    chart, grid = work.chart, work.chart.grid
    symbol = grid.symbols[grid.cells[row, left]]
    name, stitches = colour_and_symbol(chart, symbol), (grid.stitch(right), grid.stitch(left))
    where = f"{row_word(chart)} {row_number(row)}"
    if size == 1:
        key, what = "single-stitch", f"stitch {stitches[0]} of {where} is a single stitch of {name}, touching no other"
    else:
        key, what = "small-area", f"{size} stitches of {name}, the first in {where}, touch no others of their colour"
    around = _around(chart, row, left, right)
    afterwards = f"knit it in {colour_and_symbol(chart, around)} and " if around else ""
    remedy = (
        f"another supply of {name}: two more ends, {length_in(chart, 2 * work.tail_mm)} of tails; "
        f"or a strand: {_strand(work, row, name, near)}; "
        f"or {afterwards}cover it with {'a duplicate stitch' if size == 1 else f'{size} duplicate stitches'}"
    )
    region = chart.places.cells(row_number(row), *stitches)
    pattern = grid.text(row_number(row), stitches[0], min(stitches[1] + 3, grid.width))
    fixes = _fixes(chart, row_number(row), stitches, symbol, around) if size == 1 else ()
    return Finding(
        key, what, region, row_number(row), stitches, remedy=remedy, fixes=fixes, pattern=f"{symbol}{size} {pattern}"
    )


def _fixes(chart: Chart, row: RowNumber, stitches: tuple[int, int], symbol: str, around: str) -> tuple[Fix, ...]:
    """The duplicate stitch, written out, and the grid as it is then knitted."""
    editor = chart.places.editor
    if editor is None or not around or not (symbol + around).isalnum():
        return ()
    entry = f'{{colour: "{symbol}", row: {row}, stitches: [{stitches[0]}, {stitches[1]}]}}'
    if ("duplicate-stitch",) in chart.places.keys:
        written = editor.adding(("duplicate-stitch",), entry)
    else:
        written = editor.section_before("chart", ("duplicate-stitch:", f"  - {entry}"))
    if written is None:
        return ()
    edits = (Edit(chart.places.cells(row, *stitches), around), written)
    return (Fix(f"knit it in {around} and cover it with a duplicate stitch in {symbol}", edits, safe=False),)


def _strand(work: Work, row: RowIndex, name: str, near: tuple[int, int] | None) -> str:
    if near is None:
        return f"the row has no other {name} to bring it from"
    chart, bounds = work.chart, work.bounds
    length = length_in(chart, near[1] * chart.gauge.float_stitch_mm)
    over = f", over the limit of {length_in(chart, bounds.float_mm)}" if near[1] > bounds.float_stitches else ""
    return f"{stitch_count(near[1])} across ({length}{over}) from stitch {chart.grid.stitch(near[0])}"


def _around(chart: Chart, row: RowIndex, left: int, right: int) -> str:
    """The colour that the area stands in: of the stitches beside, below and above it, the most frequent one."""
    cells = chart.grid.cells
    beside = [(row, left - 1), (row, right + 1), (row - 1, left), (row + 1, left)]
    height, width = cells.shape
    codes = [int(cells[r, c]) for r, c in beside if 0 <= r < height and 0 <= c < width]
    codes = [code for code in codes if 0 <= code < chart.grid.known and code != cells[row, left]]
    return chart.grid.symbols[max(codes, key=codes.count)] if codes else ""
