"""The list of a chart's page, and the card that follows it, take the sides of an opening in the order hands do.

The orders are worked out by hand: row 1 is a right-side row, so row 2 starts at the chart's left.
"""

import re
from pathlib import Path

import pytest
from lxml import html
from playwright.sync_api import expect
from sitekit import Look, row_list

from lintarsia.chart import Chart
from lintarsia.planning.planner import make_plan
from lintarsia.publishing.pages.steps import steps
from lintarsia.reading.reader import read_chart

NECK = """\
lintarsia: 1
title: Neck
worked: flat
gauge: {{stitches: 22, rows: 30, over: 10 cm}}
colours:
  A: {{name: Bone, shade: "#efe9dc"}}
  B: {{name: Deep sea, shade: "#27406b"}}
shaping:
  4: {{neck-left: -1}}
divide:
  {row}: {{by: hold, sides: {sides}}}
chart: |
  AA....BBB
  {third}
  {second}
  AAAAAABBB
"""
OPENED, WHOLE = "AAA...BBB", "AAAAAABBB"


def neck(tmp_path: Path, sides: str, row: int) -> Chart:
    file = tmp_path / "neck.chart.yaml"
    second = OPENED if row == 2 else WHOLE
    file.write_text(NECK.format(sides=sides, row=row, second=second, third=OPENED), encoding="utf-8")
    chart = read_chart(str(file)).chart
    assert chart is not None
    return chart


def told(chart: Chart) -> dict[str, str]:
    """What each step says of shaping, by its name."""
    return {step.name: step.shaped for step in steps(chart, make_plan(chart))}


@pytest.mark.parametrize(
    ("sides", "row", "order"),
    [
        ("together", 2, ["1", "2", "2-right", "3", "3-left", "4", "4-right"]),
        # Row 2 meets the left-hand side first, so the yarn goes on to it and no further.
        ("left-first", 2, ["1", "2", "3", "4", "2-right", "3-right", "4-right"]),
        # Row 2 goes across both sides before the right-hand one is worked to its top.
        ("right-first", 2, ["1", "2", "2-right", "3", "4", "3-left", "4-left"]),
        ("right-first", 3, ["1", "2", "3", "4", "3-left", "4-left"]),
    ],
)
def test_steps_stand_in_the_order_of_working(tmp_path: Path, sides: str, row: int, order: list[str]) -> None:
    chart = neck(tmp_path, sides, row)
    assert [step.name for step in steps(chart, make_plan(chart))] == order


def test_each_step_has_its_own_stitches_and_yarns(tmp_path: Path) -> None:
    chart = neck(tmp_path, "right-first", 3)
    plan = make_plan(chart)
    by_name = {step.name: step for step in steps(chart, plan)}
    assert {name: sum(plan.runs[r].stitches for r in s.row.runs) for name, s in by_name.items()} == {
        "1": 9, "2": 9, "3": 3, "4": 3, "3-left": 3, "4-left": 2,
    }  # fmt: skip
    assert by_name["3"].columns == (6, 9)
    assert by_name["4-left"].columns == (0, 2)
    assert by_name["4"].row.line_up == ("B1",)
    assert by_name["4"].held == ("A1",)  # hangs where row 2 left it, while the other side is worked
    assert by_name["4"].row.hangs == 2
    assert by_name["4-left"].row.line_up == ("A1",)


def test_what_happens_at_the_opening_is_said_where_it_is_done(tmp_path: Path) -> None:
    said = told(neck(tmp_path, "right-first", 3))
    assert said == {
        "1": "", "2": "",
        # Of the 9 stitches of row 2, 3 are worked: 3 for the neck and 3 of the other side wait.
        "3": "the work parts here: the right-hand side alone, to its top; leave the other 6 stitches on a holder, and "
        "turn",
        "4": "after this row leave the 3 stitches of this side on a holder, or bind them off",
        "3-left": (
            "the other side is finished: back to row 3, and now the left-hand side; leave the next 3 stitches on the "
            "holder, and put the others on the needle; take up A1, which hangs there"
        ),
        "4-left": (
            "decrease 1 at the end: 3 to 2 stitches; after this row leave the 2 stitches of this side on a holder, or "
            "bind them off"
        ),
    }  # fmt: skip
    said = told(neck(tmp_path, "together", 2))
    assert said["2"] == ("the work parts here: the left-hand side first, and each side with yarns of its own from here")
    assert said["2-right"] == "put the next 3 stitches on a holder; take up B1, which hangs there"
    said = told(neck(tmp_path, "right-first", 2))
    assert said["2"] == "the work parts here"
    assert said["2-right"] == (
        "put the next 3 stitches on a holder; take up B1, which hangs there; "
        "leave the left-hand side on a holder; from here the right-hand side alone, to its top"
    )


@pytest.mark.parametrize(
    ("change", "below", "others"),
    # Of the 9 stitches of row 2, the 3 of the right-hand side are worked, and others when the row changes them.
    [("{{right: -1}}", "AAA...BB.", 6), ("{{neck-right: -1}}", "AAA....BB", 6), ("{{neck-left: -1}}", "AA....BBB", 6)],
)
def test_what_waits_beside_the_side_that_is_worked_is_counted_without_what_the_row_changes(
    tmp_path: Path, change: str, below: str, others: int
) -> None:
    text = NECK.replace("4: {{neck-left: -1}}", f"3: {change}").replace("AA....BBB", below)
    file = tmp_path / "changed.chart.yaml"
    file.write_text(text.format(sides="right-first", row=3, second=WHOLE, third=below), encoding="utf-8")
    chart = read_chart(str(file)).chart
    assert chart is not None
    assert f"leave the other {others} stitches on a holder, and turn" in told(chart)["3"]


EMPTIED = NECK.replace("4: {{neck-left: -1}}", "4: {{left: {{hold: 3}}, right: {{bind-off: 3}}}}").replace(
    "AA....BBB", "........."
)


@pytest.mark.parametrize(("sides", "order"), [
    ("together", ["1", "2", "2-right", "3", "3-left", "4", "4-right"]),
    ("right-first", ["1", "2", "2-right", "3", "4", "3-left", "4-left"]),
])  # fmt: skip
def test_a_side_that_is_emptied_says_so_and_leaves_nothing_at_work(
    tmp_path: Path, sides: str, order: list[str]
) -> None:
    """Row 4 starts at the chart's left. On a holder no yarn is needed any more; binding off takes one."""
    file = tmp_path / "emptied.chart.yaml"
    file.write_text(EMPTIED.format(sides=sides, row=2, second=OPENED, third=OPENED), encoding="utf-8")
    chart = read_chart(str(file)).chart
    assert chart is not None
    made = steps(chart, make_plan(chart))
    assert [step.name for step in made] == order
    last = {step.half: step for step in made if step.row.row == 4}
    left, right = (step for _, step in sorted(last.items(), key=lambda pair: str(pair[0])))
    assert left.shaped == "put the 3 stitches that are left on a holder, and cut the yarn"
    assert right.shaped == "bind off the 3 stitches that are left, and fasten off"
    row = left.row
    assert (row.line_up, row.joins, row.finishes, row.waiting, row.runs, row.by) == ((), (), (), (), (), ())
    assert (row.interlocks, row.crossings, row.needs, row.hangs) == (0, 0, 0, 0)
    assert (right.row.line_up, right.row.runs, right.row.needs) == (("B1",), (), 1)
    assert not any("after this row" in step.shaped for step in made)


def test_the_list_says_how_many_hang_where_more_do_than_work(tmp_path: Path) -> None:
    chart = neck(tmp_path, "right-first", 3)
    page = html.fromstring(f"<table>{row_list(chart)}</table>")
    told = {tr.get("id"): tr.xpath("string(td[3])") for tr in page.iter("tr")}
    assert told["row-1"] == "2"
    assert told["row-4"] == "1 of 2 hanging"
    assert page.xpath("string(//tr[@id='row-4']//*[@class='rests'])") == "Left hanging on the other side: A1"


def test_left_handed_sides_keep_the_names_that_the_pattern_has_for_them(look: Look) -> None:
    page = look.at("charts/lighthouse-jumper-front.html#row-69-left")
    page.locator("#left-handed").check(force=True)
    expect(page.locator("#knit-title")).to_contain_text("left-hand side")
    expect(page.locator("#row-69-left .half")).to_have_text("left-hand side")
    expect(page.locator(".hands-told")).to_be_visible()
    page.get_by_role("button", name="Stop knitting along").click()
    expect(page.locator("[data-part='start']")).to_have_text("Go on at row 69, left-hand side")


def test_the_card_walks_from_side_to_side(look: Look) -> None:
    page = look.at("charts/lighthouse-jumper-front.html#row-68")
    card, title, onward = page.locator("#knit-card"), page.locator("#knit-title"), page.get_by_role("button", name="›")
    onward.click()
    expect(title).to_contain_text("Row 69")
    expect(title).to_contain_text("right-hand side")
    expect(card.locator(".runs .run b")).to_have_text(["18"])
    expect(onward).to_have_text("Other side ›")
    onward.click()
    expect(page).to_have_url(re.compile("#row-69-left$"))
    expect(title).to_contain_text("left-hand side")
    expect(card).to_contain_text("put the next 12 stitches on a holder; join N4 at the neck edge")
    x, width, high = (float(page.locator(".row-frame").get_attribute(name) or 0) for name in ("x", "width", "height"))
    veils = [[float(veil.get_attribute(name) or 0) for name in ("height", "x")] for veil in page.locator(".veil").all()]
    # Above and below, and in the row itself all but its left-hand side.
    assert [left > x + width - 3 for height, left in veils if height < high] == [False, True]
    onward.click()  # a wrong-side row starts at the left of the chart
    expect(title).to_contain_text("Row 70")
    expect(title).to_contain_text("left-hand side")
    page.reload()
    expect(title).to_contain_text("Row 70")


def test_a_link_to_a_side_that_is_not_there_is_said_not_to_lead_anywhere(look: Look) -> None:
    page = look.at("charts/lighthouse-jumper-front.html#row-20-left")
    expect(page.locator("[data-part='start-how']")).to_contain_text("There is no row 20, left-hand side")


def test_yarns_on_their_balls_are_not_to_be_wound(look: Look) -> None:
    page = look.at("charts/lighthouse-jumper-front.html")
    wound = page.locator(".winding table:has([data-tick]) tbody tr")
    stay = page.locator(".on-balls tbody tr")
    expect(wound).not_to_have_count(0)
    expect(stay).not_to_have_count(0)
    expect(stay.locator("[data-tick]")).to_have_count(0)
