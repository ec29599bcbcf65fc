"""A pattern, and its rows in words, to the document that is published."""

from collections.abc import Iterator, Sequence
from itertools import chain

from lintarsia.chart import Wearer
from lintarsia.chart.content import stamp_words
from lintarsia.drawing.fabric import fabric_svg
from lintarsia.pattern.aroundpieces import around
from lintarsia.pattern.choosing import PieceInSize
from lintarsia.pattern.content import pattern_fingerprint
from lintarsia.pattern.duties import wearer_of
from lintarsia.pattern.work import PatternWork
from lintarsia.plansheets.caution import CAUTION
from lintarsia.publishing.document.drawn import chart_pictures, face_width, schematics
from lintarsia.publishing.document.endlist import end_parts
from lintarsia.publishing.document.model import (
    Block,
    Glossary,
    Key,
    Part,
    PatternDocument,
    Picture,
    Pictures,
    Prose,
    Rows,
    Table,
)
from lintarsia.publishing.document.written import Written
from lintarsia.publishing.imprint import NO_IMPRINT, Imprint
from lintarsia.publishing.pages.coverfacts import BySize, yarns
from lintarsia.telling.bothunits import nested_words
from lintarsia.telling.counts import count
from lintarsia.written.formats import SEWN, DocumentPart

GENERAL = ("RS rows", "The count", "A shaped row", "The right and the left", "Where both", "Sizes:")
"""How lines begin that are about words, and not about the piece they stand with."""
STAMPED = "This pattern"  # a line of finishing that the foot of every page has


def compose(
    work: PatternWork, written: Sequence[Written], *, imprint: Imprint = NO_IMPRINT, revision: str = "",
    paper: str = "A4",
) -> PatternDocument:  # fmt: skip
    """The document of the pieces that are written. `paper` is what charts are cut for, "A4" or "Letter"."""
    pattern = work.pattern
    chosen = tuple(chain.from_iterable(each.pieces for each in written))
    sizes = tuple(size for size in pattern.sizes if any(one.size == size for one in chosen))
    own = around(work, chosen, [each.page for each in written])
    before = {part.title: part for part in own.before}
    shared = _shared(written)
    parts = [
        _measurements(work, chosen, before.pop("Sizes", None)),
        _materials(work, sizes, before.pop("Materials", None)),
        *(Part(part.title, _lines(part)) for title, part in before.items() if title != "Abbreviations"),
        *_notes(work, shared),
        *(Part(title, _lines(part)) for title, part in before.items() if title == "Abbreviations"),
        *(_piece(work, each, shared, paper) for each in written),
        *(_finishing(part) for part in own.behind),
        *end_parts(work, written),
    ]
    return PatternDocument(
        pattern.title,
        _lede(work, sizes),
        _face(chosen),
        tuple(_facts(work, chosen, sizes, written[0].terms.gauge)),
        tuple(part for part in parts if part.blocks),
        stamp_words(pattern_fingerprint(work), pattern.version, revision),
        imprint,
    )


def _lede(work: PatternWork, sizes: Sequence[str]) -> str:
    if work.pattern.summary:
        return work.pattern.summary
    told = f"A pattern of {count(len(work.pattern.pieces), 'piece')}"
    if not work.pattern.sized:
        return f"{told}."
    return f"{told}, {'size' if len(sizes) == 1 else 'sizes'} {nested_words(sizes)}."


def _face(chosen: Sequence[PieceInSize]) -> Picture | None:
    """The fabric of the largest size of the first piece that has a chart with most colours."""
    charted = [one for one in chosen if one.piece.charts]
    if not charted:
        return None
    first = max(charted, key=lambda one: len(set("".join(one.chart.grid.rows))))
    one = [other for other in charted if other.piece is first.piece][-1]
    svg = fabric_svg(one.chart)
    return Picture("fabric", svg, f"{one.piece.name} as knitted", face_width(svg))


def _facts(
    work: PatternWork, chosen: Sequence[PieceInSize], sizes: Sequence[str], gauge_word: str
) -> Iterator[tuple[str, str]]:
    if work.pattern.sized:
        yield ("Sizes" if len(sizes) > 1 else "Size"), nested_words(sizes)
    gauges = [one.chart.gauge for one in chosen]
    yield gauge_word, "; ".join(dict.fromkeys(f"{g.stitches:g} sts × {g.rows:g} rows in {g.over}" for g in gauges))
    needles = dict.fromkeys(str(gauge.needle) for gauge in gauges if gauge.needle)
    if needles:
        yield "Needles", ", ".join(needles)


def _lines(part: DocumentPart) -> tuple[Block, ...]:
    if all(not words for _, words in part.lines):
        return tuple(Prose(what) for what, _ in part.lines)
    return (Glossary(part.lines),)


def _measurements(work: PatternWork, chosen: Sequence[PieceInSize], said: DocumentPart | None) -> Part:
    stated = any(one.piece.measures for one in chosen)
    blocks: list[Block] = [Glossary(said.lines)] if said is not None and stated else []
    return Part("Sizes and measurements", (*blocks, *schematics(work, chosen)))


def _materials(work: PatternWork, sizes: Sequence[str], said: DocumentPart | None) -> Part:
    """The yarn as a table, a column for each size, and what is needed besides as the pattern prints it."""
    places = [work.pattern.sizes.index(size) for size in sizes]
    lines: list[BySize] = yarns(work)
    head = ("Yarn", *(sizes if work.pattern.sized else ("Amount",)))
    rows = tuple((line.what, *(line.values[at] for at in places)) for line in lines)
    table = Table(head, rows, tuple(range(1, len(head))), f"With {work.allowance:.0%} to spare")
    bought = {line.what for line in lines}
    besides = tuple(line for line in (said.lines if said else ()) if line[0] not in bought)
    return Part("Materials", (*((table,) if rows else ()), *((Glossary(besides),) if besides else ())))


def _shared(written: Sequence[Written]) -> tuple[str, ...]:
    """What every page says of how its words are to be read, and needs to be said once only."""
    first, *rest = [each.page.reading for each in written]
    general = [line for line in first if line.startswith(GENERAL)]
    return tuple(line for line in general if rest and all(line in other for other in rest))


def _notes(work: PatternWork, shared: Sequence[str]) -> Iterator[Part]:
    notes = [Prose(note) for note in work.pattern.notes]
    if shared:
        notes.append(Prose(" ".join(shared)))
    if wearer_of(work) in (Wearer.INFANT, Wearer.CHILD):
        notes.append(Prose(CAUTION))
    if notes:
        yield Part("Notes", tuple(notes))


def _piece(work: PatternWork, each: Written, shared: Sequence[str], paper: str) -> Part:
    page = each.page
    first = each.pieces[0]
    often = nested_words([str(one.times) for one in each.pieces])
    own = [f"Knit {often}."] if often != "1" else []
    words = " ".join([*own, *(line for line in page.reading if line not in shared)])
    lead = f"{work.pattern.title}: "
    told = page.title.removeprefix(lead) if page.title.startswith(lead) else first.piece.name
    blocks: list[Block] = [Prose(words)] if words else []
    pictures = tuple(chart_pictures(work, each, paper))
    apart = any(picture.whole_page for picture in pictures)  # they follow, so that no page is left half empty
    blocks.append(Key(page.key))
    if apart:
        blocks.append(Prose("The chart fills the pages behind the rows."))
    elif pictures:
        blocks.append(Pictures(pictures))
    if page.supplies:
        rows = tuple((name, colour, what) for name, colour, what in page.supplies)
        blocks.append(Table(("Supply", "Colour", "To wind"), rows, (), page.supplies_are.capitalize()))
    blocks.append(Rows(tuple((row.label, row.text) for row in page.rows)))
    if page.sewn:
        blocks += [Prose(f"{SEWN}:"), Glossary(page.sewn)]
    if apart:
        blocks.append(Pictures(pictures))
    return Part(told[:1].upper() + told[1:], tuple(blocks), fresh=bool(pictures))


def _finishing(part: DocumentPart) -> Part:
    return Part(part.title, (Glossary(tuple(line for line in part.lines if line[0] != STAMPED)),), fresh=True)
