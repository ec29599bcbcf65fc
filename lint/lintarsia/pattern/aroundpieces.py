"""What a pattern prints around its rows: sizes, materials, gauge, abbreviations before them, finishing behind them."""

from collections.abc import Iterator, Sequence

from lintarsia.chart.content import stamp_words
from lintarsia.ground.values import dataclass
from lintarsia.pattern.buying import needs_of
from lintarsia.pattern.choosing import PieceInSize
from lintarsia.pattern.content import pattern_fingerprint
from lintarsia.pattern.model import Seam
from lintarsia.pattern.nested import nested
from lintarsia.pattern.sizes import measured
from lintarsia.pattern.work import PatternWork
from lintarsia.telling.counts import count
from lintarsia.telling.languages import in_figures, marked, phrase
from lintarsia.telling.lengths import yarn_length
from lintarsia.written.formats import DocumentPart
from lintarsia.written.page import RowsPage, gauge_words


@dataclass(frozen=True, slots=True)
class AroundPieces:
    """The sections before and behind the pieces."""

    before: tuple[DocumentPart, ...]
    behind: tuple[DocumentPart, ...]


def around(work: PatternWork, chosen: Sequence[PieceInSize], pages: Sequence[RowsPage]) -> AroundPieces:
    """For the chosen pieces and sizes; every abbreviation that the pages use stands once."""
    sizes = tuple(dict.fromkeys(one.size for one in chosen))
    short = tuple(dict.fromkeys(line for page in pages for line in page.abbreviations))
    before = (
        DocumentPart("Sizes", tuple(_sizes(work, chosen, sizes))),
        DocumentPart("Materials", tuple(_materials(work, chosen, sizes))),
        DocumentPart(
            pages[0].gauge_word,
            tuple((words, "") for words in dict.fromkeys(gauge_words(one.chart) for one in chosen)),
        ),
        DocumentPart("Abbreviations", tuple(sorted(short, key=lambda line: line[0].casefold()))),
    )
    return AroundPieces(
        tuple(s for s in before if s.lines), (DocumentPart("Finishing", tuple(_finishing(work, chosen, sizes))),)
    )


def _sizes(work: PatternWork, chosen: Sequence[PieceInSize], sizes: Sequence[str]) -> Iterator[tuple[str, str]]:
    for size in sizes:
        told = []
        for one in (one for one in chosen if one.size == size):
            stated = ", ".join(f"{what} {by[size]}" for what, by in one.piece.measures.items() if size in by)
            often = f" ({one.times} of them)" if one.times > 1 else ""
            told.append(f"{one.piece.name}{often} {stated or measured(one.laid)}")
        yield size if work.pattern.sized else "", "; ".join(told)


def _materials(work: PatternWork, chosen: Sequence[PieceInSize], sizes: Sequence[str]) -> Iterator[tuple[str, str]]:
    needs = {size: needs_of(work, size) for size in sizes}
    for yarn in dict.fromkeys(yarn for found in needs.values() for yarn in found):
        own = [needs[size].get(yarn) for size in sizes]
        first = next(need for need in own if need is not None)
        imperial = first.ball is not None and first.ball.imperial
        lengths = [yarn_length(need.buy_metres, imperial) if need else "0" for need in own]
        amount = lengths[0] + (f" ({', '.join(lengths[1:])})" if len(set(lengths)) > 1 else "")
        if first.ball is not None:
            balls = [need.printed or 0 if need else 0 for need in own]
            one = set(balls) == {1}
            amount = f"{nested(balls)} {'ball' if one else 'balls'} of {first.ball} ({amount} with what is to spare)"
        yield first.name, amount
    needles = dict.fromkeys(str(one.chart.gauge.needle) for one in chosen if one.chart.gauge.needle)
    if needles:
        yield phrase("Needles"), in_figures(", ".join(needles))
    if any(change.kind == "hold" for one in chosen for made in one.chart.shaping.values() for change in made.changes):
        yield phrase("Stitch holders"), phrase("or waste yarn")
    yield phrase("Tapestry needle"), ""
    for listed in (work.pattern.tools, work.pattern.notions):
        for name, by in listed.items():
            yield name[:1].upper() + name[1:], _by_size([by[size] for size in sizes if size in by])


def _sewn(seam: Seam) -> Iterator[str]:
    yield phrase("join {first} to {second}", first=seam.first, second=seam.second)
    if seam.rows:
        rows = count(seam.rows[1] - seam.rows[0] + 1, "row")
        yield phrase("{rows} from row {row}", rows=rows, row=seam.rows[0])
    if seam.times > 1:
        yield phrase("twice") if seam.times == 2 else phrase("{n} times", n=seam.times)


def _by_size(said: Sequence[str]) -> str:
    """`20 cm square (30 cm square)`; one where it is the same in all sizes."""
    return said[0] + (f" ({', '.join(said[1:])})" if len(set(said)) > 1 else "") if said else ""


WOVEN = marked("weave in {n}", "weave in {n}, across the gap that each closes")


def _finishing(work: PatternWork, chosen: Sequence[PieceInSize], sizes: Sequence[str]) -> Iterator[tuple[str, str]]:
    for name in dict.fromkeys(one.piece.name for one in chosen):
        own = [one for one in chosen if one.piece.name == name]
        ends = [2 * work.plan(one.piece, one.size).totals.supplies * one.times for one in own]
        gaps = any(end.closes_gap for one in own for end in work.plan(one.piece, one.size).ends)
        yield phrase("Ends of {piece}", piece=name), phrase(WOVEN[gaps], n=nested(ends))
    yield phrase("Washing"), phrase("wash and block every piece to its measurements")
    for seam in work.pattern.seams:
        yield phrase("Seam"), ", ".join(_sewn(seam))
    yield "This pattern", stamp_words(pattern_fingerprint(work), work.pattern.version)
