"""What is said of floats and carries that are caught on the way."""

from lintarsia.chart import Chart
from lintarsia.telling.counts import stitch_count
from lintarsia.telling.languages import phrase


def catching_words(chart: Chart) -> str:
    """`floats and carries longer than 3 stitches are caught on the way`; "" where the file does not say so."""
    if chart.caught_stitches is None:
        return ""
    most = stitch_count(chart.caught_stitches)
    return phrase("floats and carries longer than {stitches} are caught on the way", stitches=most)
