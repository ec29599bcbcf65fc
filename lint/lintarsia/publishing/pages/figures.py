"""What is said of a chart in numbers, on its page and wherever it is listed."""

from lintarsia.chart import Chart
from lintarsia.planning.model import Plan
from lintarsia.publishing.pages.entry import Figures
from lintarsia.publishing.pages.pictures import Drawings
from lintarsia.publishing.pages.svgsize import svg_size
from lintarsia.publishing.pages.words import TECHNIQUE, fabric_area, fabric_size, worked_words
from lintarsia.telling.counts import count
from lintarsia.telling.counts import stitch_count as stitches
from lintarsia.telling.languages import phrase
from lintarsia.telling.lengths import is_imperial, yarn_length
from lintarsia.telling.names import row_word


def figures(chart: Chart, plan: Plan, drawings: Drawings) -> Figures:
    totals = plan.totals
    return Figures(
        stitches=chart.grid.width,
        rows=chart.grid.height,
        size=fabric_size(chart),
        technique=chart.technique.value,
        worked=worked_words(chart.worked),
        supplies=totals.supplies,
        fullest=totals.most_in_a_row,
        limit=plan.bounds.supplies,
        ends=totals.ends,
        metres=round(totals.metres, 2),
        yarn="–" if "gauge" in chart.assumed else yarn_length(totals.metres, is_imperial(chart)),
        picture=svg_size(drawings.fabric),
        area=0.0 if "gauge" in chart.assumed else round(fabric_area(chart), 1),
    )


def summary(chart: Chart) -> str:
    """`40 stitches × 50 rows, 18 × 17 cm; intarsia, worked flat`"""
    size = f"{stitches(chart.grid.width)} × {count(chart.grid.height, row_word(chart))}"
    return f"{size}, {fabric_size(chart)}; {phrase(TECHNIQUE[chart.technique])}, {worked_words(chart.worked)}"
