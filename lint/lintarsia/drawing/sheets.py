"""A chart cut into sheets that a printer takes and that can be taped together."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np

from lintarsia.chart import Chart, DuplicateStitch
from lintarsia.chart.grid import Grid
from lintarsia.chart.texture import Texture
from lintarsia.drawing.geometry import CELL, Geometry, cell_height, geometry
from lintarsia.drawing.key import key_entries, lines_of
from lintarsia.drawing.lines import side_room

PAPERS = {"A4": (210.0, 297.0), "Letter": (215.9, 279.4)}  # mm; ISO 216, ANSI/ASME Y14.1

MARGIN, HEAD, FOOT = 8.0, 15.0, 7.0  # mm: to the paper's edge, heading, stitch numbers
MARKED = 8.0  # more room beside the cells where marks to tape by stand on their edge, in units of CELL a stitch
KEY_ENTRY, KEY_LINE = 44.0, 6.0  # mm
SMALLEST, USUAL, LARGEST = 3.4, 3.7, 8.0  # width of a cell, mm: on one sheet, on several, at most
OVERLAP = 3  # stitches and rows that neighbouring sheets share


@dataclass(frozen=True, slots=True)
class Sheet:
    """One sheet: which part of the chart it shows and which neighbours it has. Sizes in mm.

    `across` and `up` are its place, (0, 0) being the sheet at the lower right where the knitting begins. The chart has
    what all its sheets show so many `times` across.
    """

    number: int
    of: int
    across: int
    up: int
    columns: tuple[int, int]  # from, to (exclusive), from the left
    rows: tuple[int, int]  # knitter's rows, inclusive
    wide: float
    high: float
    cell_mm: float
    many_across: int
    many_up: int
    times: int = 1


@dataclass(frozen=True, slots=True)
class _Cut:
    """A way to cut: the paper as it lies, the parts across and up, and the cell that fills the sheets with them."""

    wide: float
    high: float
    cell_mm: float
    across: tuple[tuple[int, int], ...]
    up: tuple[tuple[int, int], ...]

    @property
    def sheets(self) -> int:
        return len(self.across) * len(self.up)


def plan_sheets(chart: Chart, paper: str = "A4") -> list[Sheet]:
    """The fewest sheets of that paper, upright or lying; one if its cells can be 3.4 mm wide or more. Of a chart that
    is its repeat over and over, and takes more than one, they show the repeat once.

    Raises ValueError for a paper that is not in PAPERS.
    """
    if paper not in PAPERS:
        raise ValueError(f"{paper!r} is not a paper; expected {' or '.join(PAPERS)}")
    best, times = _cut_of(chart, chart.grid.width, paper), 1
    if best.sheets > 1:
        times = times_over(chart)
        best = _cut_of(chart, chart.grid.width // times, paper)
    sheets = []
    for j, (low, top) in enumerate(best.up):
        for i, (right, left) in enumerate(best.across):
            columns = (chart.grid.width - left, chart.grid.width - right)
            number = j * len(best.across) + i + 1
            sheets.append(
                Sheet(
                    number,
                    best.sheets,
                    i,
                    j,
                    columns,
                    (low + 1, top),
                    best.wide,
                    best.high,
                    best.cell_mm,
                    len(best.across),
                    len(best.up),
                    times,
                )
            )
    return sheets


def times_over(chart: Chart) -> int:
    """How many times a chart without shaping has its repeat, stitch for stitch, from its right edge to its left; 1 for
    any other."""
    if chart.repeat is None or chart.repeat.stitches[0] != 1 or chart.shaping or chart.divide or chart.duplicate:
        return 1
    wide, grid = chart.repeat.stitches[1], chart.grid
    same = not grid.width % wide and all(len(text) == grid.width for text in grid.rows)
    layers = [grid.cells, *([chart.texture.purl] if chart.texture else [])]
    if same and all(np.array_equal(cells[:, wide:], cells[:, :-wide]) for cells in layers):
        return grid.width // wide
    return 1


def _cut_of(chart: Chart, columns: int, paper: str) -> _Cut:
    """How its first `columns` stitches are cut."""
    return _best_cut(
        (columns, chart.grid.height),
        cell_height(chart) / CELL,
        side_room(chart, geometry(chart), chart.grid.height),
        key_entries(chart),
        paper,
    )


@lru_cache(maxsize=64)  # charts of one size are cut alike
def _best_cut(size: tuple[int, int], ratio: float, side: float, entries: int, paper: str) -> _Cut:
    """The paper upright or lying, with the arguments of `_cut`."""
    short, long = PAPERS[paper]
    cuts = [_cut(size, ratio, side, entries, wide, high) for wide, high in ((short, long), (long, short))]
    return min(cuts, key=lambda cut: (cut.sheets, -cut.cell_mm))


def _cut(size: tuple[int, int], ratio: float, side: float, entries: int, wide: float, high: float) -> _Cut:
    """How much of a chart of that size, in stitches and rows, with room `side` beside its cells in units of CELL a
    stitch and so many entries in its key, one sheet takes."""
    columns, rows = size
    room_w = wide - 2 * MARGIN
    key = lines_of(entries, wide - 2 * MARGIN, KEY_ENTRY) * KEY_LINE + 2
    room_h = high - 2 * MARGIN - HEAD - FOOT - key
    beside = 2 * side / CELL
    fit = min(room_w / (columns + beside), room_h / (rows * ratio))
    if fit < SMALLEST:
        beside = 2 * (side + MARKED) / CELL
        columns, rows = (max(OVERLAP + 1, int(most)) for most in (room_w / USUAL - beside, room_h / ratio / USUAL))
    across, up = (tuple(_parts(whole, most)) for whole, most in zip(size, (columns, rows), strict=True))
    most_columns, most_rows = (max(to - start for start, to in parts) for parts in (across, up))
    return _Cut(wide, high, min(room_w / (most_columns + beside), room_h / (most_rows * ratio), LARGEST), across, up)


def _parts(whole: int, most: int) -> Iterator[tuple[int, int]]:
    """(from, to) of parts of nearly equal size that share OVERLAP with the next."""
    if whole <= most:
        yield 0, whole
        return
    many = -(-(whole - OVERLAP) // (most - OVERLAP))
    for k in range(many):
        start = (whole - OVERLAP) * k // many
        yield start, (whole - OVERLAP) * (k + 1) // many + OVERLAP


def part_of(chart: Chart, sheet: Sheet) -> tuple[Chart, Geometry]:
    """The part of the chart on a sheet, and its geometry on the whole sheet in units of CELL a stitch.

    What is said of rows by their numbers in the whole is left out of the part.
    """
    (left, right), (low, top) = sheet.columns, sheet.rows
    grid, unit = chart.grid, CELL / sheet.cell_mm
    texts = []
    for text in grid.rows[low - 1 : top]:
        offset = grid.width - len(text)
        texts.append(text[max(0, left - offset) : max(0, right - offset)])
    part = Grid(tuple(texts), grid.symbols, grid.known, grid.cells[low - 1 : top, left:right])
    columns, rows = right - left, top - low + 1
    spare = sheet.wide * unit - columns * CELL
    head = (MARGIN + HEAD) * unit
    place = Geometry(
        columns,
        rows,
        CELL,
        cell_height(chart),
        left=spare / 2,
        right=spare / 2,
        top=head,
        bottom=sheet.high * unit - head - rows * cell_height(chart),
        skip_rows=low - 1,
        skip_stitches=grid.width - right,
    )
    return replace(
        chart, grid=part, duplicate=_sewn_part(chart, sheet), shaping={}, divide={}, texture=_texture_part(chart, sheet)
    ), place


def _texture_part(chart: Chart, sheet: Sheet) -> Texture | None:
    """The purl and garter stitches on a sheet."""
    if chart.texture is None:
        return None
    rows, columns = slice(sheet.rows[0] - 1, sheet.rows[1]), slice(*sheet.columns)
    return Texture(tuple(row[columns] for row in chart.texture.rows[rows]), chart.texture.purl[rows, columns])


def _sewn_part(chart: Chart, sheet: Sheet) -> tuple[DuplicateStitch, ...]:
    """The duplicate stitches on a sheet, in its own rows and stitches."""
    (left, right), (low, top) = sheet.columns, sheet.rows
    skipped = chart.grid.width - right
    found = []
    for sewn in chart.duplicate:
        first, last = max(1, sewn.stitches[0] - skipped), min(right - left, sewn.stitches[1] - skipped)
        if low <= sewn.row <= top and first <= last:
            found.append(DuplicateStitch(sewn.colour, sewn.row - low + 1, (first, last)))
    return tuple(found)
