"""The fingerprints by which a log may say what was knitted."""

from lintarsia.chart.content import chart_fingerprint
from lintarsia.pattern.content import pattern_fingerprint, piece_fingerprint
from lintarsia.pattern.work import PatternWork


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
