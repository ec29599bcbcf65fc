"""Of one thing, messages speak in the singular: every rule on charts as small as charts can be."""

import re

from hypothesis import example, given, settings
from hypothesis import strategies as st

from lintarsia.engine import check_chart
from lintarsia.settings import Settings

THINGS = "stitches rows rounds squares supplies colours balls ends pairs yarns blocks places steps others"
MANY = re.compile(rf"(?<![\d.,–-])1 (?:{'|'.join(THINGS.split())})\b|\b1 are\b")
TEXT = """\
lintarsia: 1
title: Small
worked: {worked}
technique: {technique}
gauge: {{stitches: 22, rows: 30, over: 10 cm}}
colours:
  B: {{name: Dusk blue, shade: "#27406b"}}
  W: {{name: Bone, shade: "#efe9dc"}}
  R: {{name: Berry, shade: "#b23c2e"}}
supplies: {{B: 1, W: 1, R: 1}}
limits: {{supplies: 1, strand: 1, carry: 1, idle: 1, float: 1 stitches}}
symmetry: [left-right, top-bottom, half-turn]
{extra}chart: |
{rows}"""
FAR = "repeat: {stitches: [1, 9], rows: [1, 9]}\nsuppress: [{rule: a/b, stitches: [9, 9], justification: none}]\n"
NEAR = "repeat: {stitches: [1, 1], rows: [1, 1]}\nshaping: {2: 1, 3: -1}\nwritten: {1: k1 B, 2: p1 W}\n"


@settings(max_examples=120)
@given(
    st.lists(st.text("BWR.", min_size=1, max_size=4), min_size=1, max_size=5),
    st.sampled_from(["flat", "round", "turned"]),
    st.sampled_from(["intarsia", "stranded", "mixed"]),
    st.sampled_from(["", FAR, NEAR]),
)
@example(["B"], "flat", "intarsia", FAR)
@example(["BWBW", "WBWB"], "round", "intarsia", "")
@example(["BBBB", "BWBB", "BBBB"], "flat", "intarsia", NEAR)
def test_one_is_not_many(grid: list[str], worked: str, technique: str, extra: str) -> None:
    rows = "".join(f"  {row}\n" for row in grid)
    text = TEXT.format(worked=worked, technique=technique, extra=extra, rows=rows)
    for result in check_chart("small.chart.yaml", text.encode(), Settings(root="/")).results:
        assert not MANY.search(result.message), result.message
        assert not MANY.search(result.remedy or ""), result.remedy
