"""Which row and column of a chart each row and column of a piece comes from, and the chart's grid laid out so."""

from lintarsia.chart import Chart
from lintarsia.chart.grid import NO_STITCH_SYMBOL, RowNumber
from lintarsia.ground.values import dataclass
from lintarsia.pattern.fit import Fit, Motif

PLAIN = -1


@dataclass(frozen=True, slots=True)
class Weave:
    """Of every row of a piece, bottom-up, the chart's row (from 0), and of every column, from the left, the chart's
    column; PLAIN where there is plain knitting instead. `plain` is its symbol. `mirrored`: the columns run backwards.
    """

    rows: tuple[int, ...]
    columns: tuple[int, ...]
    plain: str = ""
    mirrored: bool = False

    def chart_row(self, row: int) -> RowNumber | None:
        """The chart's row, in knitter's numbers, of a row of the piece; None where it is plain."""
        source = self.rows[row - 1]
        return None if source == PLAIN else RowNumber(source + 1)

    def rows_from(self, row: int) -> tuple[RowNumber, ...]:
        """The rows of the piece, in knitter's numbers, that a row of the chart is worked in."""
        return tuple(RowNumber(at) for at, source in enumerate(self.rows, 1) if source == row - 1)

    @property
    def beside(self) -> bool:
        """Whether plain knitting lies at a side of the chart."""
        return PLAIN in self.columns

    @property
    def as_drawn(self) -> bool:
        """Whether the piece is just the chart."""
        return self.rows == tuple(range(len(self.rows))) and self.columns == tuple(range(len(self.columns)))

    def widened(self, left: int, right: int, chart: Chart) -> "Weave":
        """With plain knitting at the sides that shaping adds; in the chart's first colour where nothing says which."""
        plain = self.plain or chart.grid.rows[0].strip(NO_STITCH_SYMBOL)[:1]
        return Weave(self.rows, (PLAIN,) * left + self.columns + (PLAIN,) * right, plain, self.mirrored)


def weave_of(chart: Chart, fit: Fit, motif: Motif | None, plain: str, *, mirrored: bool = False) -> Weave:
    """The chart's rows and columns in the piece: its box as often as is said, plain knitting around, and mirrored."""
    columns = _repeated(chart.grid.width, _box_columns(chart), fit.repeats)
    rows = _repeated(chart.grid.height, _box_rows(chart), fit.row_repeats)
    if motif is not None:
        columns = [PLAIN] * motif.left + columns + [PLAIN] * motif.right
        rows = [PLAIN] * motif.below + rows + [PLAIN] * motif.above
    return Weave(tuple(rows), tuple(columns[::-1] if mirrored else columns), plain, mirrored)


def _repeated(whole: int, box: tuple[int, int], times: int) -> list[int]:
    first, end = box
    return [*range(first), *list(range(first, end)) * times, *range(end, whole)]


def _box_columns(chart: Chart) -> tuple[int, int]:
    """The columns of the repeat, (first, last + 1): the box, in every row; the whole chart where it has none."""
    if chart.repeat is None:
        return 0, chart.grid.width
    first, last = chart.repeat.stitches
    return chart.grid.width - last, chart.grid.width - first + 1


def _box_rows(chart: Chart) -> tuple[int, int]:
    if chart.repeat is None:
        return 0, chart.grid.height
    return chart.repeat.rows[0] - 1, chart.repeat.rows[1]


def woven_rows(chart: Chart, weave: Weave) -> list[str]:
    """The piece's rows, bottom-up. Beside a motif on plain knitting its outer no-stitch cells are plain."""
    width = chart.grid.width
    texts = [row.rjust(width, NO_STITCH_SYMBOL) for row in chart.grid.rows]
    if weave.beside:
        texts = [_filled(text, weave.plain) for text in texts]
    woven = ["".join([text[c] if c != PLAIN else weave.plain for c in weave.columns]) for text in texts]
    line = weave.plain * len(weave.columns)
    return [line if source == PLAIN else woven[source] for source in weave.rows]


def _filled(text: str, plain: str) -> str:
    inner = text.strip(NO_STITCH_SYMBOL)
    if not inner:
        return plain * len(text)
    left = len(text) - len(text.lstrip(NO_STITCH_SYMBOL))
    return plain * left + inner + plain * (len(text) - left - len(inner))
