"""The arithmetic of a piece in a size: how often its chart's repeat is worked, and where a motif lies on it."""

from lintarsia.chart import Chart, Shaping
from lintarsia.chart.grid import NO_STITCH_SYMBOL
from lintarsia.ground.values import dataclass
from lintarsia.pattern.model import Piece


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
