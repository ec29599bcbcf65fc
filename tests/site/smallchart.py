"""A chart of two colours in a few rows, where a test is about something else than the chart."""

from collections.abc import Iterable

HEAD = """\
lintarsia: 1
title: {title}
gauge: {{stitches: 22, rows: 30, over: 10 cm}}
colours:
  B: {{name: Dusk blue, shade: "#27406b"}}
  W: {{name: Bone, shade: "#efe9dc"}}
{more}chart: |
"""


def small_chart(title: str, rows: Iterable[str], *, more: str = "") -> str:
    """The file's text. `rows` are as printed, the last one first, of B (Dusk blue) and W (Bone); `more` is what the
    file states besides, in lines of its own."""
    return HEAD.format(title=title, more=more) + "".join(f"  {row}\n" for row in rows)
