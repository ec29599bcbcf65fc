"""What test knitters have said, as pages tell it: on a chart at its stitches, on a pattern's board by place."""

from collections.abc import Iterator, Mapping, Sequence
from typing import NamedTuple

from lintarsia.chart import Chart
from lintarsia.knits.model import RemarkKind
from lintarsia.publishing.pages.levelmarks import mark
from lintarsia.publishing.pages.resultview import of_row, stitches_words
from lintarsia.publishing.pages.templates import escaped
from lintarsia.telling.languages import marked, phrase
from lintarsia.telling.names import row_word

MOST = 200
"""Remarks that a page lists, as of results of a kind: what waits for an answer first. The logs have every one."""


class Spot(NamedTuple):
    """A row, and its first and last stitch; None for the whole row. Numbers are the knitter's."""

    row: int
    stitches: tuple[int, int] | None

    @property
    def address(self) -> str:
        """What leads to it on the page that it is numbered on: `#row-14-s7-9`."""
        if self.stitches is None:
            return f"#row-{self.row}"
        first, last = self.stitches
        return f"#row-{self.row}-s{first}" + (f"-{last}" if last > first else "")


class Said(NamedTuple):
    """A remark. `row` and `stitches` are as they were said; `earlier` names the state of before that they were said of,
    "" for that of now. `spot` is where that is in the piece as it is now, and `spot_in_chart` in the chart that the
    piece is laid out from; None where it is nowhere. `of` and `chart` are real paths; `alone` is the title of a chart
    that was logged by itself."""

    kind: RemarkKind
    words: str
    knitter: str
    size: str
    piece: str
    row: int
    stitches: tuple[int, int] | None
    answered: str
    earlier: str
    of: str
    alone: str = ""
    chart: str = ""
    spot: Spot | None = None
    spot_in_chart: Spot | None = None

    @property
    def open(self) -> bool:
        return self.kind is not RemarkKind.PRAISE and not self.answered

    @property
    def state(self) -> str:
        """Which mark it has: trouble, a question, and what wants no answer any more are told apart by shape."""
        if not self.open:
            return "clear"
        return "warning" if self.kind is RemarkKind.TROUBLE else "note"

    @property
    def place(self) -> str:
        """`side, row 25, stitches 19–25`, as it was said."""
        return place_words("row", self.row, self.stitches, self.piece)

    @property
    def by(self) -> str:
        return f"{self.knitter}, {self.size}" if self.size else self.knitter


def place_words(word: str, row: int, stitches: tuple[int, int] | None, piece: str = "") -> str:
    """A place in words."""
    at = f"{piece}, {phrase(word)} {row}" if piece else f"{phrase(word)} {row}"
    return at if stitches is None else f"{at}, {stitches_words(*stitches)}"


def in_order(said: Sequence[Said]) -> list[Said]:
    """Those that a page lists, by place; what waits for an answer before what has one."""
    listed = sorted(said, key=lambda one: not one.open)[:MOST]
    return sorted(listed, key=lambda one: (one.piece, one.row, not one.open, one.stitches or (0, 0), one.by, one.words))


def on_chart(said: Sequence[Said], chart: str) -> list[tuple[Said, Spot]]:
    """What was said of a chart (its real path), in the chart's own numbers, from row 1 up."""
    found = [(one, one.spot_in_chart) for one in said if one.chart == chart]
    return _upward(found)


def _upward(found: Sequence[tuple[Said, Spot | None]]) -> list[tuple[Said, Spot]]:
    placed = [(one, spot) for one, spot in found if spot is not None]
    placed = sorted(placed, key=lambda pair: not pair[0].open)[:MOST]
    return sorted(placed, key=lambda pair: (pair[1].row, not pair[0].open, pair[1].stitches or (0, 0), pair[0].words))


def on_piece(said: Sequence[Said], pattern: str, piece: str, sizes: Sequence[str]) -> list[tuple[Said, Spot]]:
    """What was said of a piece of a pattern (its real path) in one of the sizes, from row 1 up."""
    own = [one for one in said if one.of == pattern and one.piece == piece and (not one.size or one.size in sizes)]
    return _upward([(one, one.spot) for one in own])


def said_html(chart: Chart, said: Sequence[tuple[Said, Spot]]) -> str:
    """An `<li>` for each; its number is that of its mark in the drawing."""
    return "".join([_line(row_word(chart), number, *one) for number, one in enumerate(said)])


def _line(word: str, number: int, said: Said, spot: Spot) -> str:
    where = place_words(word, spot.row, spot.stitches)
    more = "".join([f'<p class="hint">{part}</p>' for part in _more(said, where)])
    return (
        f'<li class="said said-{said.state}" id="said-{number}"{of_row(spot.row, spot.stitches)}>'
        f'<p class="said-head">{mark(said.state)} '
        f'<a href="#c-said-{number}" data-spot="{spot.address}">{where}</a> <span>{phrase(KINDS[said.kind])}</span></p>'
        f"<p>“{escaped(said.words)}”</p>{more}</li>\n"
    )


KINDS: Mapping[RemarkKind, str] = dict(
    zip(
        (RemarkKind.TROUBLE, RemarkKind.QUESTION, RemarkKind.PRAISE),
        marked("trouble", "question", "praise"),
        strict=True,
    )
)


def _more(said: Said, where: str) -> Iterator[str]:
    if said.answered:
        yield phrase("Answered: {words}", words=escaped(said.answered))
    by = escaped(said.by)
    by += f" · {phrase('said of {place}', place=escaped(said.place))}" if said.piece or said.place != where else ""
    yield by + (f" · {phrase('of {state}', state=escaped(said.earlier))}" if said.earlier else "")
