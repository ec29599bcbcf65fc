"""The drawings of a document: charts as large as their page allows, cut into sheets where they need it; schematics."""

from collections.abc import Iterator, Sequence

from lintarsia.chart import Chart
from lintarsia.drawing.chart import chart_geometry, chart_svg
from lintarsia.drawing.export import page_size, size_of
from lintarsia.drawing.geometry import CELL
from lintarsia.drawing.schematic import scale_for, schematic_svg, told
from lintarsia.drawing.sheet_pages import sheets
from lintarsia.drawing.silhouette import Silhouette, silhouette
from lintarsia.pattern.choosing import PieceInSize
from lintarsia.pattern.work import PatternWork
from lintarsia.publishing.document.model import Block, Picture, Pictures, Table
from lintarsia.publishing.document.written import Written
from lintarsia.publishing.pages.coverfacts import stated_of
from lintarsia.telling.bothunits import nested_words
from lintarsia.telling.terms import Terms

TEXT_WIDE, TEXT_HIGH = 170.0, 205.0  # mm: what a page has for a chart, its heading and key beside it
SMALLEST, LARGEST = 2.6, 4.4  # mm: a cell below this has a sheet of its own; none is drawn larger
FACE_WIDE, FACE_HIGH = 120.0, 105.0  # mm
SCHEMATICS_WIDE = 78.0  # mm: two of them stand beside one another
SCHEMATIC_UNIT = 0.19  # mm of paper a px of the drawing, where there is room


def face_width(svg: str) -> float:
    wide, high = size_of(svg)
    return min(FACE_WIDE, FACE_HIGH * wide / high)


def chart_pictures(work: PatternWork, each: Written, paper: str) -> Iterator[Picture]:
    """The charts that a piece is knitted from: the one as charted, with its repeat, or those laid out, each once."""
    pieces = each.pieces
    chart = work.chart(pieces[0].piece, pieces[0].size)
    if chart is not None and (each.as_charted or _repeats_alone(chart, pieces)):
        yield from _chart(chart, pieces[0].piece.name, _often(chart, pieces), paper, each.terms)
        return
    drawn: dict[tuple[str, ...], list[PieceInSize]] = {}
    for one in pieces:
        if not one.piece.charts:
            continue  # in one colour: its rows say it all
        drawn.setdefault(one.chart.grid.rows, []).append(one)
    for ones in drawn.values():
        sizes = ", ".join(one.size for one in ones)
        name = f"{ones[0].piece.name} {sizes}" if work.pattern.sized else ones[0].piece.name
        yield from _chart(ones[0].chart, name, sizes if len(drawn) > 1 else "", paper, each.terms)


def _repeats_alone(chart: Chart, pieces: Sequence[PieceInSize]) -> bool:
    """Whether the chart, with its repeat across worked so many times, is all there is to the piece: then it is printed
    once, as it is drawn, with the rows' own numbers."""
    same = len({one.piece.charts.get(one.size) for one in pieces}) == 1
    laid = [one.laid for one in pieces]
    plain = all(one.motif is None and not one.weave.mirrored and one.fit.row_repeats == 1 for one in laid)
    own = any(one.size in one.piece.shaping for one in pieces)
    return chart.repeat is not None and same and plain and not own and all(one.fit.repeats > 1 for one in laid)


def _often(chart: Chart, pieces: Sequence[PieceInSize]) -> str:
    """`repeat 11 (12, 13) times around`; "" for a chart without a repeat, or one that is worked once."""
    times = [one.laid.fit.repeats for one in pieces]
    if chart.repeat is None or set(times) == {1}:
        return ""
    return f"repeat {nested_words([str(n) for n in times])} times {'around' if chart.tube else 'across'}"


def _chart(chart: Chart, name: str, caption: str, paper: str, terms: Terms) -> Iterator[Picture]:
    place = chart_geometry(chart)
    cell = CELL * min(TEXT_WIDE / place.width, TEXT_HIGH / place.height)
    if cell >= SMALLEST:
        svg = chart_svg(chart, terms=terms)
        wide = place.width * min(cell, LARGEST) / CELL
        yield Picture(_file(name), svg, f"Chart of {chart.title}", wide, caption)
        return
    pages = sheets(chart, paper, terms=terms)
    for number, svg in enumerate(pages, 1):
        alt = f"Chart of {chart.title}, sheet {number} of {len(pages)}"
        yield Picture(f"{_file(name)}-{number}", svg, alt, page_size(svg)[0], whole_page=True)


def _file(name: str) -> str:
    """A name for a file, of letters and digits."""
    return "-".join("".join(c if c.isascii() and c.isalnum() else " " for c in name.casefold()).split()) or "piece"


def schematics(work: PatternWork, chosen: Sequence[PieceInSize]) -> Iterator[Block]:
    """Each piece's drawing with all its sizes, to one scale, and its measures as a table."""
    shapes: dict[str, list[tuple[str, Silhouette]]] = {}
    for one in chosen:
        own = shapes.setdefault(one.piece.name, [])
        if one.size not in (size for size, _ in own):
            own.append((one.size, silhouette(one.chart)))
    scale = scale_for([shape for own in shapes.values() for _, shape in own])
    drawn = {name: [shape for _, shape in own] for name, own in shapes.items()}
    said = {name: stated_of(work.pattern.pieces[name], [size for size, _ in own]) for name, own in shapes.items()}
    svgs = {
        name: schematic_svg(name, own, scale, prefix=f"m{at}-", stated=said[name])
        for at, (name, own) in enumerate(drawn.items())
    }
    unit = min(SCHEMATIC_UNIT, SCHEMATICS_WIDE / max(size_of(svg)[0] for svg in svgs.values()))
    pictures, rows = [], []
    for name, svg in svgs.items():
        measures = told(drawn[name], said[name])
        alt = f"Schematic of {name}: {'; '.join(f'{what} {words}' for what, words in measures)}"
        pictures.append(Picture(f"schematic-{_file(name)}", svg, alt, size_of(svg)[0] * unit, name))
        rows += [("" if at else name, what, words) for at, (what, words) in enumerate(measures)]
    order = f"Where there are several numbers, they are for {', '.join(work.pattern.sizes)}"
    many = any(len(own) > 1 for own in shapes.values())
    yield Pictures(tuple(pictures))
    yield Table(("Piece", "Measure", "Length"), tuple(rows), (2,), order if many else "")
