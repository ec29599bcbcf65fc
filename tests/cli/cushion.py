"""The one chart of the cushion that is released over and over."""

_PANEL = """\
lintarsia: 1
title: Panel
gauge: {stitches: 20, rows: 30, over: 10 cm}
yarns:
  dk: {name: Fjord DK, length: 120 m}
colours:
  B: {name: Dusk blue, shade: "#27406b", yarn: dk}
chart: |
"""


def panel(rows: int) -> str:
    """The chart's text, of ten stitches."""
    return _PANEL + "  BBBBBBBBBB\n" * rows
