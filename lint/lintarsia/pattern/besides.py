"""The yarn that a pattern takes besides its pieces: seams and the swatch. Lengths in metres, by yarn, not rounded."""

from collections.abc import Iterator

from lintarsia.chart import Chart
from lintarsia.pattern.model import PieceEdge, Seam
from lintarsia.pattern.pieceyarn import yarns_of
from lintarsia.pattern.work import PatternWork

Metres = dict[str, float]


def seam_metres(work: PatternWork, size: str) -> Metres:
    """So many times each seam's length as the house reckons, and two tails; as often as it is sewn."""
    found: Metres = {}
    for seam in work.pattern.seams:
        length, yarn = _length_mm(work, seam, size), seam.yarn or _most_of(work, seam, size)
        if length and yarn:
            metres = seam.times * (length * work.reckoning.seam + 2 * work.reckoning.tail_mm) / 1000
            found[yarn] = found.get(yarn, 0.0) + metres
    return found


def _length_mm(work: PatternWork, seam: Seam, size: str) -> float:
    """Of the longer of the two edges; 0 where neither piece is knitted in this size."""
    return max(_edge_mm(chart, edge, seam.rows) for chart, edge in ((None, seam.first), *_sewn(work, seam, size)))


def _edge_mm(chart: Chart | None, edge: PieceEdge, rows: tuple[int, int] | None) -> float:
    if chart is None:
        return 0.0
    grid, gauge = chart.grid, chart.gauge
    if not edge.edge.upright:
        return grid.stitches(grid.height if edge.edge == "top" else 1) * gauge.stitch_mm
    first, last = rows or (1, grid.height)
    return max(0, min(last, grid.height) - first + 1) * gauge.row_mm


def _sewn(work: PatternWork, seam: Seam, size: str) -> Iterator[tuple[Chart, PieceEdge]]:
    """The pieces of a seam that are knitted in a size, laid out."""
    for edge in (seam.first, seam.second):
        piece = work.pattern.pieces.get(edge.piece)
        laid = work.laid(piece, size) if piece is not None else None
        if laid is not None:
            yield laid.chart, edge


def _most_of(work: PatternWork, seam: Seam, size: str) -> str:
    """The yarn of which the seam's first piece takes most; "" where its colours name none."""
    for edge in (seam.first, seam.second):
        piece = work.pattern.pieces.get(edge.piece)
        if piece is not None and work.laid(piece, size) is not None:
            return max(
                ((need.metres, need.yarn) for need in work.plan(piece, size).yarns if need.yarn), default=(0.0, "")
            )[1]
    return ""


def swatch_metres(work: PatternWork, size: str) -> Metres:
    """Of a square as large as is stated, in the technique of the first piece that is knitted from a chart (or else of
    the first), with as much of each yarn a stitch as there, floats and all, and two tails of each."""
    side = work.pattern.swatch
    pieces = [p for p in work.pattern.pieces.values() if work.laid(p, size) is not None]
    piece = next((p for p in pieces if p.charts), pieces[0] if pieces else None)
    laid = work.laid(piece, size) if piece is not None else None
    if side is None or piece is None or laid is None:
        return {}
    # A motif on plain knitting is swatched as it is drawn, whatever lies around it in a size.
    chart, plan = (laid.source, work.plan_as_drawn(piece, size)) if laid.motif else (laid.chart, work.plan(piece, size))
    reckoned, gauge = work.reckoning_of(piece, size), chart.gauge
    tails = 2 * reckoned.tail_mm / 1000
    squares = side.mm**2 / (gauge.stitch_mm * gauge.row_mm)
    found: Metres = {}
    for own in yarns_of(chart, plan, reckoned):
        supplies = sum(plan.colours[symbol].supplies for symbol in _symbols(chart, own.yarn) if symbol in plan.colours)
        found[own.yarn] = (own.knitting - supplies * tails) * squares / max(1, plan.totals.stitches) + tails
    return found


def _symbols(chart: Chart, yarn: str) -> Iterator[str]:
    return (symbol for symbol, colour in chart.colours.items() if colour.yarn == yarn)
