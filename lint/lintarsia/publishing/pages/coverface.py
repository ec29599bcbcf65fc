"""What a pattern's cover shows first, and where its knitting begins."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from itertools import takewhile

from lintarsia.publishing.pages.piecepages import PiecePage

ALIKE = 0.02  # pictures of pieces whose widths differ by more of it are not set on one another


def face(pages: Sequence[PiecePage]) -> tuple[PiecePage, ...]:
    """The pages of the piece that stands for the pattern: the first of those with most colours."""
    if not pages:
        return ()
    most = max(pages, key=lambda page: len(page.plan.colours) if page.piece.charts else 0)
    return tuple(page for page in pages if page.piece is most.piece)


def begun_with(pages: Sequence[PiecePage]) -> tuple[PiecePage, ...]:
    """The pages of the piece that is knitted before that, stitch on stitch, and after none: the brim below a band."""
    shown = face(pages)
    if not shown:
        return ()
    first = _before(pages, shown[0])[-1]
    return tuple(page for page in pages if page.piece is first.piece)


def stacked(pages: Sequence[PiecePage], page: PiecePage, widths: Mapping[str, int]) -> tuple[PiecePage, ...]:
    """A page with those of the pieces that are knitted on below and above it in its first size, the topmost first: as
    far as the pictures, `widths` px by slug, are as wide as its own."""

    def fits(other: PiecePage) -> bool:
        return abs(widths[other.slug] - widths[page.slug]) <= ALIKE * widths[page.slug]

    above, below = (tuple(takewhile(fits, way(pages, page)[1:])) for way in (_after, _before))
    return (*reversed(above), page, *below)


def _before(pages: Sequence[PiecePage], page: PiecePage) -> list[PiecePage]:
    """The page, the one it goes on from, and so on down, in its first size."""
    return list(_chain(page, lambda one: _named(pages, one.piece.continues, page.sizes[0])))


def _after(pages: Sequence[PiecePage], page: PiecePage) -> list[PiecePage]:
    """The page, the one that goes on from it, and so on up; where two do, there is no one above."""

    def above(one: PiecePage) -> PiecePage | None:
        names = {other.piece.name for other in pages if other.piece.continues == one.piece.name}
        return _named(pages, names.pop(), page.sizes[0]) if len(names) == 1 else None

    return list(_chain(page, above))


def _chain(page: PiecePage, onward: Callable[[PiecePage], PiecePage | None]) -> Iterator[PiecePage]:
    seen: set[str] = set()
    at: PiecePage | None = page
    while at is not None and at.slug not in seen:
        seen.add(at.slug)
        yield at
        at = onward(at)


def _named(pages: Sequence[PiecePage], name: str | None, size: str) -> PiecePage | None:
    return next((page for page in pages if page.piece.name == name and size in page.sizes), None)
