"""What a pattern's cover tells: measurements, yarn, gauge, what is needed besides, abbreviations, finishing."""

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from lintarsia.chart import Worked
from lintarsia.drawing.dimensions import Measured
from lintarsia.drawing.schematic import told
from lintarsia.drawing.silhouette import Silhouette
from lintarsia.pattern.aroundpieces import around
from lintarsia.pattern.buying import Need, needs_of
from lintarsia.pattern.measurement import Measurement
from lintarsia.pattern.model import Piece
from lintarsia.pattern.stitchpage import in_its_stitch
from lintarsia.pattern.work import PatternWork
from lintarsia.publishing.pages.piecepages import PiecePage, in_sizes
from lintarsia.telling.catalogues import speaking
from lintarsia.telling.counts import count
from lintarsia.telling.languages import ENGLISH, in_figures, marked, phrase
from lintarsia.telling.lengths import yarn_length
from lintarsia.telling.terms import Terms
from lintarsia.written.page import rows_page
from lintarsia.written.style import Style

STATED = {"width": Measured.CAST_ON, "around": Measured.AROUND, "height": Measured.HEIGHT}
"""What a pattern states of a piece, and what of its schematic says the same."""


MEASURES = marked(
    "width at the cast-on", "around", "widest", "widest, around", "width at the top", "around at the top", "height",
    "to the armhole", "armhole depth", "to the shaping", "shoulder slope", "neck width", "neck depth", "shoulder",
    "width",
)  # fmt: skip
"""What a schematic measures and a pattern may state, as tables name it."""


class BySize(NamedTuple):
    """A line of a table: what, and its value in each size."""

    what: str
    values: tuple[str, ...]


def yarns(work: PatternWork) -> list[BySize]:
    """Each yarn with what each size takes of it: `3 balls (310 m)`."""
    sizes = [needs_of(work, size) for size in work.pattern.sizes]
    names = dict.fromkeys(yarn for needs in sizes for yarn in needs)
    imperial = any(file.chart.gauge.over.imperial for file in work.charts.values() if file.chart)
    lines = []
    for yarn in names:
        need = next(needs[yarn] for needs in sizes if yarn in needs)
        lines.append(BySize(need.name or yarn, tuple(_amount(needs.get(yarn), imperial) for needs in sizes)))
    return lines


def _amount(need: Need | None, imperial: bool) -> str:
    if need is None:
        return "–"
    length = yarn_length(need.buy_metres, imperial)
    return length if need.printed is None else f"{count(need.printed, 'ball')} ({length})"


def stated_of(piece: Piece, sizes: Sequence[str]) -> dict[Measured, list[tuple[float, float]]]:
    """What a pattern states of a piece in all of the sizes, for its schematic: each number in the units it is in."""
    found = {}
    for what, by in piece.measures.items():
        if what in STATED and all(size in by for size in sizes):
            found[STATED[what]] = [_both(by[size]) for size in sizes]
    return found


def _both(said: Measurement) -> tuple[float, float]:
    lengths = [one.length for one in said.stated]
    metric = next((one.mm for one in lengths if not one.imperial), lengths[0].mm)
    return metric, next((one.mm for one in lengths if one.imperial), lengths[0].mm)


def measurements(
    work: PatternWork, piece: Piece, sizes: Sequence[str], shapes: Sequence[Silhouette]
) -> Iterator[BySize]:
    """Of a piece, a line for each measure: as the pattern states it, else as stitches and rows make it. A size in which
    the piece is not knitted has a dash."""
    said = {STATED[what]: by for what, by in piece.measures.items() if what in STATED}
    for what, by in piece.measures.items():
        yield BySize(phrase(what), tuple(str(by[size]) if size in by else "–" for size in work.pattern.sizes))
    found = [dict(told([shape])) for shape in shapes]
    for what in dict.fromkeys(what for one in found for what in one):
        if Measured(what) not in said:
            by_size = {size: one.get(what, "–") for size, one in zip(sizes, found, strict=True)}
            yield BySize(phrase(what), tuple(by_size.get(size, "–") for size in work.pattern.sizes))


SECTIONS = marked("Abbreviations", "Finishing")
GAUGE = marked("Gauge", "Tension")
WAYS = dict(
    zip(
        (Worked.FLAT, Worked.ROUND, Worked.TURNED),
        marked("flat", "in the round", "a tube, turned at the end of each row"),
        strict=True,
    )
)


class Besides(NamedTuple):
    """What is needed besides the yarn, and the sections that stand after the materials."""

    needed: tuple[tuple[str, str], ...]
    sections: tuple[tuple[str, tuple[tuple[str, str], ...]], ...]


def besides(work: PatternWork, pages: Sequence[PiecePage], terms: Terms = Terms.AMERICAN) -> Besides:
    """As the pattern prints them, see `pattern/aroundpieces.py`; those that only a document has are left out."""
    chosen = [one for page in pages for one in in_sizes(work, page)]
    if not chosen:
        return Besides((), ())
    styles = [Style(terms=terms, reckoning=work.reckoning_of(one.piece, one.size)) for one in chosen]
    with speaking(ENGLISH):  # whose abbreviations they are
        words = [in_its_stitch(rows_page(one.chart, style=s), one, s) for one, s in zip(chosen, styles, strict=True)]
    own = around(work, chosen, words)
    parts = {part.title: part.lines for part in (*own.before, *own.behind)}
    bought = {line.what for line in yarns(work)}
    needed = tuple(line for line in parts.pop("Materials", ()) if line[0] not in bought)
    for title in ("Sizes", terms.gauge):
        parts.pop(title, None)
    parts["Finishing"] = tuple(line for line in parts.get("Finishing", ()) if line[0] != "This pattern")
    return Besides(needed, tuple((phrase(title), lines) for title, lines in parts.items() if lines))


def facts(work: PatternWork, pages: Sequence[PiecePage], terms: Terms = Terms.AMERICAN) -> list[tuple[str, str]]:
    """What a knitter asks first: sizes, gauge, needles."""
    pattern = work.pattern
    told = [(phrase("Sizes"), ", ".join(pattern.sizes))] if pattern.sized else []
    gauges = dict.fromkeys(
        phrase(
            "{wide} sts × {high} rows in {over}",
            wide=in_figures(f"{page.chart.gauge.stitches:g}"),
            high=in_figures(f"{page.chart.gauge.rows:g}"),
            over=in_figures(str(page.chart.gauge.over)),
        )
        for page in pages
    )
    needles = dict.fromkeys(in_figures(str(page.chart.gauge.needle)) for page in pages if page.chart.gauge.needle)
    told += [(phrase(terms.gauge), "; ".join(gauges))] if gauges else []
    told += [(phrase("Needles"), ", ".join(needles))] if needles else []
    ways = dict.fromkeys(phrase(WAYS[page.chart.worked]) for page in pages)
    return told + ([(phrase("Worked"), ", ".join(ways))] if ways else [])
