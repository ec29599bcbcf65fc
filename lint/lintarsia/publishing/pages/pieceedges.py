"""What is said above a piece's chart, and at its first and last row, of how it begins and ends."""

from lintarsia.chart import Chart
from lintarsia.chart.grid import NO_STITCH_SYMBOL
from lintarsia.pattern.edgewords import begins, ends
from lintarsia.pattern.work import PatternWork
from lintarsia.publishing.pages.edgenotes import NO_NOTES, EdgeNotes
from lintarsia.publishing.pages.piecepages import PiecePage, in_sizes
from lintarsia.telling.terms import Terms


def edge_notes(work: PatternWork, page: PiecePage, terms: Terms) -> EdgeNotes:
    """What the pattern's written rows say of the piece. Where a neck parts it to its top, each side says at its own
    last row what becomes of it."""
    sizes = list(in_sizes(work, page))
    if not sizes:
        return NO_NOTES
    parted = any(row.parts for row in page.plan.rows[-1:])
    return EdgeNotes(begins(work, sizes), "" if parted else ends(work, sizes, terms), _onward(work, page))


def _onward(work: PatternWork, page: PiecePage) -> frozenset[str]:
    """Sizes of one page are alike, but what is knitted on them need not be: a yarn goes on that does in all of them."""
    after = [other for other in work.pattern.pieces.values() if other.continues == page.piece.name]
    if len(after) != 1:
        return frozenset()
    laid = [work.laid(after[0], size) for size in page.sizes]
    return frozenset.intersection(*(_first_colours(one.chart) if one else frozenset() for one in laid))


def _first_colours(chart: Chart) -> frozenset[str]:
    return frozenset(chart.colours[symbol].name for symbol in chart.grid.rows[0] if symbol != NO_STITCH_SYMBOL)
