"""The fingerprints by which a log may say what was knitted."""

from lintarsia.chart import Chart
from lintarsia.chart.content import chart_content, chart_fingerprint
from lintarsia.pattern.content import pattern_fingerprint, piece_fingerprint
from lintarsia.pattern.work import PatternWork

STITCHES = (
    "grid", "worked", "first_row", "technique", "shaping", "divide", "of", "decreases", "caught", "duplicate",
    "texture",
)  # fmt: skip
"""Fields of a chart that the stitches of a piece depend on; a measured loop or another ball changes none of them."""


def same_stitches(then: PatternWork, now: PatternWork, size: str) -> bool:
    """Whether somebody who has knitted a size of `then` has knitted every stitch of `now`."""
    if size not in now.pattern.sizes:
        return False
    return _stitches(then, size) == _stitches(now, size)


def _stitches(work: PatternWork, size: str) -> dict[str, object]:
    laid = {name: work.laid(piece, size) for name, piece in work.pattern.pieces.items()}
    return {name: (work.pattern.pieces[name].knitted(size), _of(one.chart)) for name, one in laid.items() if one}


def _of(chart: Chart) -> dict[str, object]:
    content = chart_content(chart)
    return {field: content.get(field) for field in STITCHES}


def fingerprints_of(knitted: PatternWork, size: str) -> frozenset[str]:
    """The pattern's, those of its pieces in a size, and those of the charts that these are laid out from.

    Any page that a knitter has before her may have written its own into the log.
    """
    found = {pattern_fingerprint(knitted)}
    for piece in knitted.pattern.pieces.values():
        chart = knitted.chart(piece, size)
        found.update({piece_fingerprint(knitted, piece, size) or ""} if chart else ())
        found.update({chart_fingerprint(chart)} if chart else ())
    return frozenset(found - {""})
