"""What of a pattern is knitted, bought or read, as plain values, and its fingerprint.

A piece in a size is a chart, and has that chart's fingerprint. The pattern's has those of all its pieces in all sizes.
The version is no part of it: it names a content, and two versions may have the same. What is at fault (a piece without
a chart) counts as what the file says.
"""

from typing import Any

from lintarsia.chart.content import chart_fingerprint, fingerprint, plain
from lintarsia.pattern.model import Piece, Seam
from lintarsia.pattern.work import PatternWork

COUNTED = (
    "title", "sizes", "pieces", "yarns", "seams", "wearer", "allowance", "colours", "swatch", "notions", "tools",
    "summary", "notes",
)  # fmt: skip
UNCOUNTED = ("path", "version", "tolerance", "until", "suppressions", "places")
"""Fields of a pattern; as for those of a chart, a test holds both lists to the fields that there are."""

PIECE_COUNTED = ("name", "times", "cast_on", "measures", "mirror_of", "stitch", "clearance")
PIECE_WHERE_SAID = ("continues", "picked_up", "ends")  # left out at their defaults: older fingerprints stay as they are
PIECE_LAID = (
    "charts", "rows", "repeats", "row_repeats", "edge", "plain", "at_stitch", "at_row", "colour", "worked", "shaping",
    "divide",
)  # fmt: skip
"""Fields of a piece that are knitted, and those that decide how its chart is laid out: the chart laid out has them."""


def pattern_fingerprint(work: PatternWork) -> str:
    """Of the pattern with its charts."""
    return fingerprint(pattern_content(work))


def piece_fingerprint(work: PatternWork, piece: Piece, size: str) -> str | None:
    """That of the piece laid out in a size; None where it cannot be, or is not knitted in that size."""
    laid = work.laid(piece, size)
    return None if laid is None else chart_fingerprint(laid.chart)


def pattern_content(work: PatternWork) -> dict[str, Any]:
    pattern = work.pattern
    seams = [[*sorted([str(seam.first), str(seam.second)]), plain(seam.rows), *_sewn(seam)] for seam in pattern.seams]
    later = {key: plain(getattr(pattern, key)) for key in ("colours", "swatch", "notions", "tools", "summary", "notes")}
    return {key: said for key, said in later.items() if said} | {
        "title": plain(pattern.title),
        "sizes": list(pattern.sizes),
        "pieces": {name: _piece(work, piece) for name, piece in pattern.pieces.items()},
        "yarns": {name: plain(yarn) for name, yarn in pattern.yarns.items()},
        "seams": sorted(seams, key=str),
        "wearer": plain(pattern.wearer),
        "allowance": plain(pattern.allowance),
    }


def _sewn(seam: Seam) -> list[Any]:
    return [] if seam.times == 1 and seam.yarn is None else [seam.times, seam.yarn]


def _piece(work: PatternWork, piece: Piece) -> dict[str, Any]:
    sizes = [size for size in work.pattern.sizes if piece.knitted(size)]
    usual = Piece("", {})
    said = [name for name in PIECE_WHERE_SAID if getattr(piece, name) != getattr(usual, name)]
    return {name: plain(getattr(piece, name)) for name in (*PIECE_COUNTED, *said)} | {
        "in": {size: piece_fingerprint(work, piece, size) or piece.charts.get(size) for size in sizes}
    }
