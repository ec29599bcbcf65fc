"""A chart in somebody's page: its picture, its key and the way to the page that one knits from."""

from dataclasses import dataclass

from markupsafe import Markup

from lintarsia.chart import Chart
from lintarsia.drawing.chart import chart_svg
from lintarsia.planning.model import Plan
from lintarsia.publishing.pages.entry import Entry
from lintarsia.publishing.pages.keyview import lone_chip, make_key
from lintarsia.publishing.pages.materialview import key_html
from lintarsia.publishing.pages.svgsize import svg_size
from lintarsia.publishing.pages.templates import fill
from lintarsia.telling.languages import phrase
from lintarsia.telling.names import row_word
from lintarsia.telling.terms import Terms

FILE = "placed.svg"  # the drawing of a chart for this, among its pictures


@dataclass(frozen=True, slots=True)
class Placed:
    """What stands there whichever page that is. `drawing` is the SVG of the chart, "" where its fabric is shown;
    `size` is the picture's, pixels, None where it is not known; `key` is HTML, `word` is `row` or `round`."""

    entry: Entry
    drawing: str = ""
    size: tuple[int, int] | None = None
    key: str = ""
    word: str = "row"

    def html(self, page: str, picture: str) -> str:
        """As it stands where `page` leads to its own page and `picture` to its picture."""
        seen = phrase("Chart: {title}", title=self.entry.title) if self.drawing else self.entry.title
        width, height = self.size or ("", "")
        return fill(
            "placed.html", page=page, picture=picture, seen=seen, width=width, height=height, title=self.entry.title,
            facts=self.entry.summary, key=Markup(self.key), word=self.word,
        )  # fmt: skip


def placed_chart(chart: Chart, plan: Plan, entry: Entry, terms: Terms, *, fabric: bool) -> Placed:
    """A chart, or its `fabric`, with its key."""
    key = make_key(chart, plan)
    chips = [lone_chip(chart, symbol) for symbol in key.number]
    told, word = key_html(chart, plan, key, chips, terms), row_word(chart)
    if fabric:
        return Placed(entry, size=entry.figures.picture if entry.figures else None, key=told, word=word)
    drawing = chart_svg(chart, layers=(), background=True, terms=terms)
    return Placed(entry, drawing, svg_size(drawing), told, word)
