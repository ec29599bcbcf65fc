"""What pages say of a chart in a few words: sizes, counts, places, the stitches of a row."""

from lintarsia.chart import Chart, Technique, Worked

WORKED = {
    Worked.FLAT: "worked flat",
    Worked.ROUND: "worked in the round",
    Worked.TURNED: "a tube, turned at the end of each row",
}
TECHNIQUE = {
    Technique.INTARSIA: "intarsia",
    Technique.STRANDED: "stranded",
    Technique.MIXED: "intarsia and stranding",
}


def fabric_size(chart: Chart) -> str:
    """`18 × 24 cm`, or in inches where the gauge is; a chart whose gauge is only stood in for has no size."""
    if "gauge" in chart.assumed:
        return "size unknown"
    wide, high = chart.grid.width * chart.gauge.stitch_mm, chart.grid.height * chart.gauge.row_mm
    unit, name = (25.4, "in") if chart.gauge.over.imperial else (10.0, "cm")
    return f"{_short(wide / unit)} × {_short(high / unit)} {name}"


def fabric_area(chart: Chart) -> float:
    """cm² of the whole grid."""
    return chart.grid.width * chart.gauge.stitch_mm * chart.grid.height * chart.gauge.row_mm / 100


def _short(value: float) -> str:
    return f"{value:,.0f}" if value >= 99.5 else f"{value:.1f}".removesuffix(".0")


def side_words(chart: Chart, row: int) -> str:
    """`right side`, `wrong side`; of a round, nothing: it always shows its right side."""
    return "" if chart.worked is Worked.ROUND else chart.side(row).words
