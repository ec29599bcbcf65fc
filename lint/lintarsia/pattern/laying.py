"""A piece laid out in full: its chart's repeats worked out across and up, and plain knitting around a motif."""

from dataclasses import replace

from lintarsia.chart import Chart, Places, Shaping
from lintarsia.chart.grid import NO_STITCH_SYMBOL, build_grid
from lintarsia.ground.values import dataclass
from lintarsia.pattern.model import Piece

MOST_CELLS = 2**20  # of one piece: a thousand stitches and as many rows


@dataclass(frozen=True, slots=True)
class Fit:
    """The arithmetic of a piece in one size, in stitches of the cast-on and in rows.

    `repeat` and `edge` make up the chart's first row; `box` says whether the file draws a repeat box. `repeats` is how
    often the repeat is worked, as stated or as the cast-on has room for it; `over` is what the cast-on then leaves.
    `repeat_rows`, `edge_rows` and `row_repeats` are the same upwards, where `rows` gives the room; rows around a motif
    on plain knitting are plain, so there the box is worked once.
    """

    box: bool
    repeat: int
    edge: int
    repeats: int
    cast_on: int | None
    repeat_rows: int
    edge_rows: int
    row_repeats: int
    rows: int | None

    @property
    def stitches(self) -> int:
        """What the repeats and the edge come to."""
        return self.repeat * self.repeats + self.edge

    @property
    def over(self) -> int:
        return 0 if self.cast_on is None else self.cast_on - self.stitches

    @property
    def high(self) -> int:
        return self.repeat_rows * self.row_repeats + self.edge_rows


@dataclass(frozen=True, slots=True)
class Motif:
    """Where the chart lies on a larger piece: stitches and rows of plain knitting around it; `centred`: unless said."""

    right: int
    left: int
    below: int
    above: int
    centred: bool


@dataclass(frozen=True, slots=True)
class Laid:
    """A piece as one chart, bottom to top. `cast_on` is before row 1; `widest` is its widest row, in stitches."""

    chart: Chart
    fit: Fit
    cast_on: int
    widest: int
    rows: int
    motif: Motif | None


def fit_of(chart: Chart, piece: Piece, size: str) -> Fit:
    """The arithmetic of a piece; a repeat of no stitches cannot be (the reader refuses a chart without any)."""
    grid = chart.grid
    start = grid.stitches(1) - chart.shaping.get(1, Shaping(0)).net
    repeat, edge, high, low = start, 0, grid.height, 0
    if chart.repeat is not None:
        (first, last), (bottom, top) = chart.repeat.stitches, chart.repeat.rows
        inside = grid.text(1, first, last)
        repeat = len(inside) - inside.count(NO_STITCH_SYMBOL)
        edge = start - repeat
        high, low = top - bottom + 1, grid.height - (top - bottom + 1)
    edge = piece.edge.get(size, edge)
    cast_on, rows = piece.cast_on.get(size), piece.rows.get(size)
    room = 1 if cast_on is None or chart.repeat is None or not repeat else max(1, (cast_on - edge) // repeat)
    room_up = 1 if rows is None or chart.repeat is None or piece.plain is not None else max(1, (rows - low) // high)
    return Fit(
        box=chart.repeat is not None,
        repeat=repeat,
        edge=edge,
        repeats=piece.repeats.get(size, room),
        cast_on=cast_on,
        repeat_rows=high,
        edge_rows=low,
        row_repeats=piece.row_repeats.get(size, room_up),
        rows=rows,
    )


def motif_of(fit: Fit, piece: Piece, size: str) -> Motif | None:
    """Where the chart lies on a larger piece; None where it fills the piece or nothing is said of what is around it."""
    if piece.plain is None:
        return None
    wide, high = max(0, fit.over), max(0, (fit.rows or 0) - fit.high)
    if not wide and not high:
        return None
    centred = size not in piece.at_stitch
    right = wide // 2 if centred else min(wide, piece.at_stitch[size] - 1)
    below = min(high, piece.at_row.get(size, 1) - 1)
    return Motif(right, wide - right, below, high - below, centred)


def lay_out(chart: Chart, piece: Piece, size: str) -> Laid | None:
    """The piece in full; None where that would be larger than anything knitted."""
    fit = fit_of(chart, piece, size)
    motif = motif_of(fit, piece, size)
    across = chart.grid.width * max(1, fit.repeats) + (motif.left + motif.right if motif else 0)
    up = chart.grid.height * max(1, fit.row_repeats) + (motif.below + motif.above if motif else 0)
    if across * up > MOST_CELLS:
        return None
    rows = _repeated(chart, fit)
    if motif is not None and piece.plain is not None:
        rows = _surrounded(rows, motif, piece.plain)
    grid = build_grid(rows, tuple(chart.colours))
    whole = replace(
        chart,
        grid=grid,
        repeat=None,
        shaping={} if len(rows) != chart.grid.height else chart.shaping,
        divide={} if len(rows) != chart.grid.height else chart.divide,
        supplies=None,
        written={},
        symmetry=(),
        suppressions=(),
        places=Places(),
    )
    return Laid(
        chart=whole,
        fit=fit,
        cast_on=fit.cast_on if fit.cast_on is not None else fit.stitches,
        widest=max(grid.stitches(row) for row in range(1, grid.height + 1)),
        rows=fit.rows if fit.rows is not None else grid.height,
        motif=motif,
    )


def _repeated(chart: Chart, fit: Fit) -> list[str]:
    """The chart's rows, bottom-up, with its box worked as often as is said; the columns of the box in every row."""
    grid = chart.grid
    rows = [row.rjust(grid.width, NO_STITCH_SYMBOL) for row in grid.rows]
    if chart.repeat is None:
        return [row * fit.repeats for row in rows] * fit.row_repeats
    (first, last), (bottom, top) = chart.repeat.stitches, chart.repeat.rows
    left, right = grid.width - last, grid.width - first + 1
    wide = [row[:left] + row[left:right] * fit.repeats + row[right:] for row in rows]
    return wide[: bottom - 1] + wide[bottom - 1 : top] * fit.row_repeats + wide[top:]


def _surrounded(rows: list[str], motif: Motif, plain: str) -> list[str]:
    wide = [plain * motif.left + row + plain * motif.right for row in rows]
    line = plain * len(wide[0])
    return [line] * motif.below + wide + [line] * motif.above
