"""Plans as tables for programs, whole, and lengths of the heading in the gauge's own unit."""

from pathlib import Path

import pytest

from lintarsia.chart import Chart
from lintarsia.ground.trouble import Trouble
from lintarsia.planning.model import Plan
from lintarsia.planning.planner import make_plan
from lintarsia.plansheets.csv import rows_csv, supplies_csv
from lintarsia.plansheets.intochart import write_supplies
from lintarsia.plansheets.text import heading
from lintarsia.reading import read_chart
from lintarsia.reporting.screen import Screen

TEXT = """\
lintarsia: 1
title: Lopsided, "quoted"
gauge: {gauge}
yarns: {{dk: {{name: DK}}}}
colours:
  A: {{name: "Deep, sea", shade: "#27406b", yarn: dk}}
  B: {{name: Bone, shade: "#efe9dc"}}
chart: |
  AABBB
  AABBB
  AAQBB
"""
GAUGE = "{stitches: 22, rows: 30, over: 10 cm}"


def planned(gauge: str = GAUGE) -> tuple[Chart, Plan]:
    chart = read_chart("x.chart.yaml", TEXT.format(gauge=gauge).encode()).chart
    assert chart is not None
    return chart, make_plan(chart)


def test_supplies_one_a_line() -> None:
    """By hand, from the right: two of B, one of Q, two of A; then three of B and two of A, to and fro. B ends row 1 at
    stitch 2 and begins row 2 at stitch 3: it is carried along one."""
    chart, plan = planned()
    head, *lines = [line.split(",") for line in supplies_csv(chart, plan).replace("Deep, sea", "Deep sea").splitlines()]
    rows = [dict(zip(head, line, strict=True)) for line in lines]
    told = [[row[name] for name in ("id", "colour", "name", "yarn", "stitches", "holder", "wound")] for row in rows]
    assert told == [
        ["B1", "B", "Bone", "", "8", "ball", "no"],
        ["Q1", "Q", "", "", "1", "ball", "no"],
        ["A1", "A", '"Deep sea"', "dk", "6", "ball", "no"],
    ]
    places = [[row[name] for name in ("first_row", "join_stitch", "last_row", "finish_stitch")] for row in rows]
    assert places == [["1", "1", "3", "3"], ["1", "3", "1", "3"], ["1", "4", "3", "5"]]
    assert [(row["carried"], row["idle"]) for row in rows] == [("1", "0"), ("0", "0"), ("0", "0")]
    assert [float(row["metres"]) for row in rows] == [round(supply.metres, 2) for supply in plan.supplies]
    assert supplies_csv(chart, plan).endswith("\n")


def test_rows_one_a_line() -> None:
    chart, plan = planned()
    whole = rows_csv(plan).splitlines()
    assert whole == [
        "row,side,direction,needs,hangs,line_up,joins,finishes,waiting,interlocks,crossings",
        "1,RS,right-to-left,3,3,B1 Q1 A1,B1 Q1 A1,Q1,,0,0",
        "2,WS,left-to-right,2,2,A1 B1,,,,1,0",
        "3,RS,right-to-left,2,2,B1 A1,,B1 A1,,1,0",
    ]
    assert rows_csv(plan, (2, 3)).splitlines() == [whole[0], *whole[2:]]
    assert chart.grid.height == 3


SURER = "reckoned from the gauge; a measured loop is surer"


@pytest.mark.parametrize(
    ("gauge", "told"),
    [
        (GAUGE, f"18.6 mm of yarn a stitch, {SURER}"),
        ("{stitches: 22, rows: 30, over: 4 in}", f"0.75 in of yarn a stitch, {SURER}"),
        ("{stitches: 22, rows: 30, over: 4 in, loop: 20.32 mm}", "0.80 in of yarn a stitch, as measured"),
        ("{stitches: 22, rows: 30, over: 10 cm, loop: 0.8 in}", "20.3 mm of yarn a stitch, as measured"),
    ],
)  # fmt: skip
def test_yarn_a_stitch_is_told_in_the_gauge_s_own_unit(gauge: str, told: str) -> None:
    """Munden's 4.1 stitch widths (wet-relaxed): 4.1 × 101.6 / 22 = 18.9 mm, which are 0.75 inches of 25.4 mm."""
    assert told in heading(*planned(gauge), Screen(90))


def test_a_file_that_is_gone_is_told(tmp_path: Path) -> None:
    file = str(tmp_path / "none.chart.yaml")
    with pytest.raises(Trouble) as trouble:
        write_supplies(file, *planned())
    assert str(trouble.value) == f"{file!r} cannot be read (No such file or directory)"
