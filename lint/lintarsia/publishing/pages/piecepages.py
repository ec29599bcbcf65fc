"""The pages of a pattern's pieces: one for each piece and size, and one for sizes in which a piece is the same."""

from collections.abc import Container, Iterator, Sequence
from dataclasses import replace

from lintarsia.chart import Chart
from lintarsia.chart.content import chart_fingerprint
from lintarsia.ground.values import dataclass
from lintarsia.pattern.choosing import PieceInSize
from lintarsia.pattern.model import Pattern, Piece
from lintarsia.pattern.work import PatternWork
from lintarsia.planning.model import Plan
from lintarsia.publishing.pages.layout import piece_slug
from lintarsia.telling.counts import one_and_all


@dataclass(frozen=True, slots=True)
class PiecePage:
    """A piece laid out, in the `sizes` in which it is the same. `chart` has the page's title; `fingerprint` is that of
    the piece in the first of its sizes, as `plan` tells it. `told` are the sizes as the page names them, "" where they
    are all in which the piece is knitted."""

    slug: str
    fingerprint: str
    piece: Piece
    sizes: tuple[str, ...]
    chart: Chart
    plan: Plan
    cast_on: int
    told: str = ""

    @property
    def name(self) -> str:
        """`side, large`; the piece alone where it is the same in every size."""
        return f"{self.piece.name}, {self.told}" if self.told else self.piece.name

    def times(self) -> tuple[int, ...]:
        """How often it is knitted, by its sizes."""
        return tuple(self.piece.knitted(size) for size in self.sizes)


def piece_pages(work: PatternWork, slug: str, taken: Container[str]) -> tuple[PiecePage, ...]:
    """In the order of the pieces and sizes; what cannot be laid out has none. `slug` is the pattern's, `taken` holds
    those of the site's other pages."""
    made: list[PiecePage] = []
    for piece in work.pattern.pieces.values():
        for sizes in _alike(work, piece):
            mine = {page.slug for page in made}
            own = piece_slug(slug, piece.name, _told(work.pattern, piece, sizes), _Both(taken, mine))
            made.append(_page(work, piece, sizes, own))
    return tuple(made)


def by_piece(pages: Sequence[PiecePage]) -> dict[str, list[PiecePage]]:
    """The pages by the names of their pieces."""
    found: dict[str, list[PiecePage]] = {}
    for page in pages:
        found.setdefault(page.piece.name, []).append(page)
    return found


def in_sizes(work: PatternWork, page: PiecePage) -> Iterator[PieceInSize]:
    """The piece in each of the page's sizes, as commands know it."""
    for size in page.sizes:
        laid = work.laid(page.piece, size)
        if laid is not None:
            yield PieceInSize(page.piece, size, laid, work.pattern.about(page.piece.name, size))


@dataclass(frozen=True, slots=True)
class _Both:
    """What is in one container or another."""

    one: Container[str]
    other: Container[str]

    def __contains__(self, slug: object) -> bool:
        return slug in self.one or slug in self.other


def _alike(work: PatternWork, piece: Piece) -> Iterator[tuple[str, ...]]:
    """Sizes in which the piece has the same chart, gathered in the pattern's order."""
    found: dict[str, list[str]] = {}
    for size in work.pattern.sizes:
        laid = work.laid(piece, size)
        if laid is not None:
            found.setdefault(chart_fingerprint(replace(laid.chart, title="")), []).append(size)
    yield from map(tuple, found.values())


def _told(pattern: Pattern, piece: Piece, sizes: Sequence[str]) -> str:
    """The sizes as the page names them; "" where they are all in which the piece is knitted."""
    every = tuple(size for size in pattern.sizes if piece.knitted(size))
    return "" if tuple(sizes) == every and (len(every) > 1 or not pattern.sized) else one_and_all(list(sizes))


def _page(work: PatternWork, piece: Piece, sizes: tuple[str, ...], slug: str) -> PiecePage:
    laid = work.laid(piece, sizes[0])
    assert laid is not None
    told = _told(work.pattern, piece, sizes)
    title = f"{work.pattern.title}: {piece.name}" + (f", {told}" if told else "")
    chart, plan = replace(laid.chart, title=title), work.plan(piece, sizes[0])
    return PiecePage(slug, chart_fingerprint(laid.chart), piece, sizes, chart, plan, laid.cast_on, told)
