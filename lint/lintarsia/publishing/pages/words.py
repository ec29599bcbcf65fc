"""What pages say of a chart in a few words: sizes, counts, places, the stitches of a row."""

from lintarsia.chart import Chart, Technique, Worked
from lintarsia.telling.languages import in_figures, marked, phrase

WORKED = dict(
    zip(
        (Worked.FLAT, Worked.ROUND, Worked.TURNED),
        marked("worked flat", "worked in the round", "a tube, turned at the end of each row"),
        strict=True,
    )
)
TECHNIQUE = dict(
    zip(
        (Technique.INTARSIA, Technique.STRANDED, Technique.MIXED),
        marked("intarsia", "stranded", "intarsia and stranding"),
        strict=True,
    )
)
TECHNIQUES = marked("intarsia", "stranded", "mixed")  # as files name them
HOLDERS = marked("loose strand", "butterfly", "bobbin", "ball")


def worked_words(worked: Worked) -> str:
    """`worked flat`, in the language that is spoken."""
    return phrase(WORKED[worked])


def fabric_size(chart: Chart) -> str:
    """`18 × 24 cm`, or in inches where the gauge is; a chart whose gauge is only stood in for has no size."""
    if "gauge" in chart.assumed:
        return phrase("size unknown")
    wide, high = chart.grid.width * chart.gauge.stitch_mm, chart.grid.height * chart.gauge.row_mm
    unit, name = (25.4, "in") if chart.gauge.over.imperial else (10.0, "cm")
    return f"{_short(wide / unit)} × {_short(high / unit)} {phrase(name)}"


def unparted(size: str) -> str:
    """A size that no line's end parts from its unit."""
    return size.replace(" ", "\N{NO-BREAK SPACE}")


def fabric_area(chart: Chart) -> float:
    """cm² of the whole grid."""
    return chart.grid.width * chart.gauge.stitch_mm * chart.grid.height * chart.gauge.row_mm / 100


def _short(value: float) -> str:
    return in_figures(f"{value:,.0f}" if value >= 99.5 else f"{value:.1f}".removesuffix(".0"))


def stamp_words(fingerprint: str, version: str = "", revision: str = "") -> str:
    """As `chart.content.stamp_words`, in the language that is spoken."""
    changed, _, commit = revision.rpartition("commit ")
    told = [
        phrase("version {version}", version=version) if version else "",
        phrase("fingerprint {mark}", mark=fingerprint),
        phrase("changed since commit {commit}", commit=commit) if changed else "",
        phrase("commit {commit}", commit=commit) if commit and not changed else "",
    ]
    return " · ".join(filter(None, told))


SIDES = marked("right side", "wrong side")
UNITS = marked("cm", "mm", "m", "in", "yd", "g", "oz")


def side_words(chart: Chart, row: int) -> str:
    """`right side`, `wrong side`; of a round, nothing: it always shows its right side."""
    return "" if chart.worked is Worked.ROUND else phrase(chart.side(row).words)
