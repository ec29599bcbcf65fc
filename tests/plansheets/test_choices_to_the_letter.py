"""Choices, plans side by side and winding lists, whole: every column and blank line, from costs that are given."""

from dataclasses import replace

import pytest
from test_sheets_whole import planned

from lintarsia.chart import Chart
from lintarsia.planning.model import Plan
from lintarsia.planning.planner import make_plan
from lintarsia.planning.what_if import Costs, SmallArea
from lintarsia.plansheets import winding
from lintarsia.plansheets.choices import choices_documents, choices_text
from lintarsia.plansheets.materials import clip
from lintarsia.plansheets.sidebyside import compare_text, parse_try, try_limits
from lintarsia.plansheets.text import heading
from lintarsia.plansheets.winding import winding_list
from lintarsia.reading import read_chart
from lintarsia.reporting.screen import PLAIN, Screen

TEXT = """\
lintarsia: 1
title: Specks
{more}gauge: {{stitches: 22, rows: 30, over: 10 cm, float-gauge: {{stitches: 20, rows: 30}}}}
colours:
  B: {{name: Dusk blue, shade: "#27406b"}}
  W: {{name: Bone, shade: "#efe9dc"}}
  R: {{name: A name that is far too long, shade: "#a33b2a"}}
chart: |
  BBBBBBBBBB
  BBBBWWBBBB
  BBRBWWBBBB
  BBBBBBBWBB
  BBBBBBBBBB
"""


def specks(more: str = "") -> tuple[Chart, Plan]:
    chart = read_chart("x.chart.yaml", TEXT.format(more=more).encode()).chart
    assert chart is not None
    return chart, make_plan(chart)


OWN = Costs(6, 12, 3.174, 0, 5)
STRANDED = Costs(4, 8, 2.9, 2, 4)
SAME = Costs(7, 14, 2.9, 2, 4)
SEWN = Costs(5, 10, 12.04, 0, 3)
ONE = SmallArea("W", "B", 1, (2, 2), (3, 3), OWN, None, SEWN)
FOUR = SmallArea("R", "B", 4, (3, 4), (5, 6), OWN, STRANDED, SEWN)
HEAD = """\
Specks

                        supplies   ends       yarn  longest float  fullest row
  as planned                   5     10      2.9 m              –            5

"""
ONE_TOLD = """\
W  row 2, stitch 3: 1 stitch in B
  own supply              6 (+1)     12      3.2 m              –            5
  duplicate stitch             5     10     12.0 m              –            3

"""
FOUR_TOLD = """\
R  rows 3–4, stitches 5–6: 4 stitches in B
  own supply              6 (+1)     12      3.2 m              –            5
  stranded behind it      4 (-1)      8      2.9 m           1 cm            4
  duplicate stitch             5     10     12.0 m              –            3

"""
TEACHERS = """\
Costs are those of the whole plan. Teachers disagree on stranding a few stitches
in intarsia: it saves ends, and makes the fabric thicker and less elastic there.
"""
FROM_1 = "from row 1 up"
FINGERS = """\
Small fingers and toes catch in floats: line the piece or keep them short, and
follow the rules that hold where you sell.
"""


@pytest.mark.parametrize(
    ("areas", "left_out", "told"),
    [
        ((), 0, "Specks\n\nno area is so small that there is a choice to make\n"),
        ((ONE,), 0, HEAD + ONE_TOLD),
        ((ONE, FOUR), 0, HEAD + ONE_TOLD + FOUR_TOLD + TEACHERS),
        ((FOUR,), 1, f"{HEAD}{FOUR_TOLD}these are the first 1 area {FROM_1}; 1 more was not weighed (--all weighs\n"
         f"every one)\n\n{TEACHERS}"),
        ((ONE, ONE), 1204, f"{HEAD}{ONE_TOLD * 2}these are the first 2 areas {FROM_1}; 1,204 more were not weighed "
         "(--all\nweighs every one)\n\n"),
    ],
)  # fmt: skip
def test_small_areas_and_what_each_way_costs(areas: tuple[SmallArea, ...], left_out: int, told: str) -> None:
    assert choices_text(*specks(), areas, PLAIN, left_out) == told


def test_stranding_is_cautioned_for_small_fingers_alone() -> None:
    for wearer in ("child", "infant"):
        told = choices_text(*specks(f"wearer: {wearer}\n"), (replace(FOUR, own=SAME, stranded=SAME),), PLAIN)
        assert told.endswith(f"\n\n{TEACHERS}{FINGERS}")
    assert "Small fingers" not in choices_text(*specks("wearer: child\n"), (ONE,), PLAIN)
    assert choices_text(*specks("wearer: adult\n"), (FOUR,), PLAIN) == HEAD + FOUR_TOLD + TEACHERS


def test_small_areas_for_programs() -> None:
    assert choices_documents((ONE, FOUR)) == [
        {
            "colour": "W", "around": "B", "size": 1, "rows": [2, 2], "stitches": [3, 3], "stranded": None,
            "own_supply": {"supplies": 6, "ends": 12, "metres": 3.17, "longest_float": 0, "most_in_a_row": 5},
            "duplicate_stitch": {"supplies": 5, "ends": 10, "metres": 12.04, "longest_float": 0, "most_in_a_row": 3},
        },
        {
            "colour": "R", "around": "B", "size": 4, "rows": [3, 4], "stitches": [5, 6],
            "own_supply": {"supplies": 6, "ends": 12, "metres": 3.17, "longest_float": 0, "most_in_a_row": 5},
            "stranded": {"supplies": 4, "ends": 8, "metres": 2.9, "longest_float": 2, "most_in_a_row": 4},
            "duplicate_stitch": {"supplies": 5, "ends": 10, "metres": 12.04, "longest_float": 0, "most_in_a_row": 3},
        },
    ]  # fmt: skip


LABELS = (
    "supplies", "ends to weave in", "fullest row", "most hanging", "longest float", "stitches carried", "rows waited",
    "yarn", "  B Dusk blue", "  W Bone", "  R A name that is…",
)  # fmt: skip


@pytest.mark.parametrize(("width", "tables"), [(80, [3]), (76, [3]), (75, [2, 1]), (62, [2, 1]), (40, [1, 1, 1])])
def test_plans_side_by_side_in_as_many_tables_as_the_width_asks_for(width: int, tables: list[int]) -> None:
    """The first column stands in each table; each ends with a blank line but the last."""
    chart, _ = specks()
    tries = [parse_try(text) for text in ("strand=3", "supplies=2,idle=4", "carry=2")]
    columns = try_limits(chart, tries, make_plan)
    told = compare_text(chart, columns, Screen(width))
    title, *blocks = told.removesuffix("\n").split("\n\n")
    assert title == "Specks"
    assert len(blocks) == len(tables)
    names = iter(("strand 3", "idle 4", "carry 2"))
    for block, wide in zip(blocks, tables, strict=True):
        *heads, last = block.split("\n")[: -len(LABELS)]
        assert last == " " * 20 + "".join(name.rjust(14) for name in ("as stated", *(next(names) for _ in range(wide))))
        assert [head.split() for head in heads] == ([["supplies", "2"]] if "idle 4" in last else [])
        rows = block.split("\n")[-len(LABELS) :]
        assert [row[:20].rstrip() for row in rows] == list(LABELS)
        assert all(len(row) == 20 + 14 * (wide + 1) for row in rows)
    first = columns[0].plan.totals
    assert f"{'supplies':<20}{first.supplies:>14}" in blocks[0]
    assert f"{'longest float':<20}{'–':>14}{'1 cm':>14}" in blocks[0]


def test_words_are_cut_where_the_column_ends() -> None:
    assert [clip(text, 4) for text in ("", "abc", "abcd", "abcde")] == ["    ", "abc ", "abcd", "abc…"]


def test_a_symbol_that_the_key_lacks_has_no_name_beside_it() -> None:
    chart, _ = planned()
    told = compare_text(chart, try_limits(chart, [parse_try("strand=3")], make_plan), PLAIN)
    (line,) = [line for line in told.splitlines() if line.startswith("  Q")]
    assert line.split() == ["Q", "1", "1"]


@pytest.mark.parametrize(
    ("limit", "told"), [(2, "limit 2, 3 rows over it"), (4, "limit 4, 1 row over it"), (5, "limit 5")]
)
def test_rows_over_the_limit_are_counted(limit: int, told: str) -> None:
    chart, _ = specks()
    bound = replace(chart, limits=replace(chart.limits, supplies=limit))
    assert f"at most 5 in a row ({told})" in "\n".join(heading(bound, make_plan(bound), PLAIN))


SPARE = "To wind, tails and 25% to spare included"


def test_what_is_wound_one_by_one_and_gathered(monkeypatch: pytest.MonkeyPatch) -> None:
    chart, plan = specks()
    one_by_one = [
        SPARE,
        "      B1     1.2 m  on the ball   row 1 at stitch 1, to row 3",
        "      W1     55 cm  on the ball   row 2 at stitch 3, to row 4",
        "  [ ] B2     1.1 m  loose strand  row 2 at stitch 2, to row 5",
        "      R1     40 cm  on the ball   row 3 at stitch 8 only",
        "  [ ] B3     55 cm  loose strand  row 3 at stitch 9, to row 4",
    ]
    monkeypatch.setattr(winding, "MANY", 5)
    assert winding_list(chart, plan, PLAIN, whole=False, allowance=0.25) == one_by_one
    monkeypatch.setattr(winding, "MANY", 4)
    assert winding_list(chart, plan, PLAIN, whole=True, allowance=0.25) == one_by_one
    assert winding_list(chart, plan, PLAIN, whole=False, allowance=0.25) == [
        SPARE,
        "  [ ] B  2 loose strands         55 cm to 1.1 m",
        "      B  1 on the ball           1.2 m",
        "      W  1 on the ball           55 cm",
        "      R  1 on the ball           40 cm",
        "  5 supplies in all; --all lists each",
    ]
