"""A chart to plant edits in: lopsided, so that a swap of left and right shows."""

from lintarsia.chart import Chart
from lintarsia.comparing.charts import compare_charts
from lintarsia.comparing.model import ChartChange
from lintarsia.reading import read_chart

HEAD = """\
lintarsia: 1
title: Kite
worked: {worked}
gauge: {{stitches: 22, rows: 30, over: 10 cm}}
yarns:
  w: {{name: Plain DK, length: 120 m, mass: 50 g, balls: 1}}
colours:
  B: {{name: Dusk blue, shade: "#27406b", yarn: w}}
  W: {{name: Bone, shade: "#efe9dc", yarn: w}}
  R: {{name: Madder, shade: "#a33b2a", yarn: w}}
{more}chart: |
"""
# Row 1 is the last. A kite of R with a lopsided window of W, and a tail of W beneath it.
ROWS = (
    "BBBBBBBBBBBBBBBB",  # 14
    "BBBBBBBBBBBBBBBB",  # 13
    "BBBBRBBBBBBBBBBB",  # 12
    "BBBRRRBBBBBBBBBB",  # 11
    "BBRRRRRBBBBBBBBB",  # 10
    "BBRWRRRBBBBBBBBB",  # 9
    "BBBRRRRBBBBBBBBB",  # 8
    "BBBBRRRBBBBBBBBB",  # 7
    "BBBBBRRBBBBBBBBB",  # 6
    "BBBBBBRBBBWBBBBB",  # 5
    "BBBBBBBBBWWBBBBB",  # 4
    "BBBBBBBBBBWWWBBB",  # 3
    "BBBBBBBBBBBBBBBB",  # 2
    "BBBBBBBBBBBBBBBB",  # 1
)


def text_of(rows: tuple[str, ...] | list[str] = ROWS, more: str = "", worked: str = "flat") -> str:
    """The file, rows from the top as printed."""
    return HEAD.format(more=more, worked=worked) + "".join(f"  {row}\n" for row in rows)


def chart_of(text: str) -> Chart:
    reading = read_chart("kite.chart.yaml", text.encode())
    assert reading.chart is not None, reading.problems
    return reading.chart


def compared(rows: tuple[str, ...] | list[str] = ROWS, more: str = "", worked: str = "flat") -> ChartChange:
    """The kite against another drawing of it, worked alike."""
    return compare_charts(chart_of(text_of(worked=worked)), chart_of(text_of(rows, more, worked)))


def top(row: int) -> int:
    """Where the knitter's row stands in ROWS."""
    return len(ROWS) - row


def with_row(row: int, text: str) -> list[str]:
    """The kite with another row."""
    rows = list(ROWS)
    rows[top(row)] = text
    return rows
