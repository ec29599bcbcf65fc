"""What the page of a chart, or of a piece in a size, tells the script by which a knitter says something of it."""

from dataclasses import dataclass

from lintarsia.chart import Chart
from lintarsia.ground.kinds import Kind
from lintarsia.publishing.pages.entry import Entry
from lintarsia.publishing.pages.layout import Layout
from lintarsia.publishing.pages.templates import escaped


@dataclass(frozen=True, slots=True)
class Knitted:
    """What a log of the page states: the `file` that it names, which is `of` a chart or a pattern, the sizes that it
    can be of, the piece, and the fingerprint. `over` is the length that the gauge is stated over; `title` is what the
    log is called."""

    file: str
    fingerprint: str
    over: str
    of: Kind = Kind.CHART
    sizes: tuple[str, ...] = ()
    piece: str = ""
    title: str = ""


def knitted_chart(chart: Chart, entry: Entry) -> Knitted:
    """Of the page of a chart by itself."""
    return Knitted(entry.file, entry.fingerprint, str(chart.gauge.over), title=chart.title)


GAPS = ("knit_of", "knit_file", "knit_sizes", "knit_piece", "knit_mark", "knit_title", "gauge_over", "mine")
"""The names of the values of `saying`."""


def saying(knitted: Knitted, layout: Layout, page: str) -> dict[str, str]:
    """The values of `site/parts/say.html`, as HTML."""
    return {
        "knit_of": str(knitted.of),
        "knit_file": escaped(knitted.file),
        "knit_sizes": "".join([f"<option>{escaped(size)}</option>" for size in knitted.sizes]),
        "knit_piece": escaped(knitted.piece),
        "knit_mark": knitted.fingerprint,
        "knit_title": escaped(knitted.title),
        "gauge_over": escaped(knitted.over),
        "mine": layout.link(page, layout.mine),
    }
