"""The lists of a chart's page before and after the knitting, held to the plan: supplies one by one, or by colour and
holder where there are too many; ends in a table, or in words where they are many."""

from typing import Any

import pytest
from lxml import html

from lintarsia.chart import Chart
from lintarsia.planning.model import Plan
from lintarsia.planning.planner import make_plan
from lintarsia.publishing.pages import listview
from lintarsia.publishing.pages.keyview import make_key
from lintarsia.publishing.pages.listview import ends_html, ends_in_table, on_balls_html, winding_html
from lintarsia.reading import read_chart
from straytext import stray

TEXT = """\
lintarsia: 1
title: Specks
worked: flat
gauge: {stitches: 22, rows: 30, over: OVER}
colours:
  B: {name: Dusk <blue>, shade: "#27406b"}
  W: {name: Bone, shade: "#efe9dc"}
  R: {name: Rust, shade: "#b8743c"}
chart: |
  BBBBBBBBBBBBBBBB
  BBWWBBBRRBBBWWBB
  BBWWBBBRRBBBWWBB
  BBBBBBBBBBBBBBBB
"""
CHIPS = ["<i>0</i>", "<i>1</i>", "<i>2</i>"]


def planned(over: str = "10 cm") -> tuple[Chart, Plan]:
    chart = read_chart("s.chart.yaml", TEXT.replace("OVER", over).encode()).chart
    assert chart is not None
    return chart, make_plan(chart)


def lines(made: str) -> list[list[str]]:
    """The words of each cell of each row."""
    body = html.fragment_fromstring(f"<table><tbody>{made}</tbody></table>")
    assert stray(body) == []
    return [[" ".join(cell.text_content().split()) for cell in row] for row in body.iter("tr")]


def ticks(made: str) -> list[tuple[str, str]]:
    """What the page remembers each box by, and what is said of it."""
    body: Any = html.fragment_fromstring(made, create_parent="div")
    return [(box.get("data-tick"), box.get("aria-label")) for box in body.iter("input")]


def winding(chart: Chart, plan: Plan) -> str:
    return winding_html(chart, plan, make_key(chart, plan), CHIPS, 0.1)


def test_a_line_for_each_supply_to_wind_with_a_box_to_tick() -> None:
    chart, plan = planned()
    made = winding(chart, plan)
    wound = [supply for supply in plan.supplies if supply.wound]
    assert [row[:2] for row in lines(made)] == [["", supply.id] for supply in wound]
    assert ticks(made) == [(supply.id, f"wound: {supply.id}") for supply in wound]
    names = {"B": "0 Dusk <blue>", "W": "1 Bone", "R": "2 Rust"}
    assert [row[2] for row in lines(made)] == [names[supply.colour] for supply in wound]
    for row, supply in zip(lines(made), wound, strict=True):
        assert row[3].endswith((" m", " cm"))
        assert row[4] == supply.holder
        assert row[5].startswith("row ")
    body = html.fragment_fromstring(f"<table><tbody>{made}</tbody></table>")
    assert [tr.get("data-supply") for tr in body.iter("tr")] == [supply.id for supply in wound]
    assert {th.get("scope") for th in body.iter("th")} == {"row"}


def test_what_is_knitted_from_the_ball_needs_no_winding() -> None:
    chart, plan = planned()
    made = on_balls_html(chart, plan, make_key(chart, plan), CHIPS, 0.1)
    balls = [supply.id for supply in plan.supplies if not supply.wound]
    assert balls
    assert [row[0] for row in lines(made)] == balls
    assert {len(row) for row in lines(made)} == {4}
    assert ticks(made) == []


def test_many_supplies_are_gathered_by_colour_and_holder(monkeypatch: pytest.MonkeyPatch) -> None:
    chart, plan = planned()
    monkeypatch.setattr(listview, "MOST_SUPPLIES", len(plan.supplies))
    assert "data-supply" in winding(chart, plan)
    monkeypatch.setattr(listview, "MOST_SUPPLIES", len(plan.supplies) - 1)
    made = winding(chart, plan)
    alike: dict[tuple[str, str], int] = {}
    for supply in plan.supplies:
        if supply.wound:
            alike[supply.colour, supply.holder] = alike.get((supply.colour, supply.holder), 0) + 1
    rows = lines(made)
    names = {"0 Dusk <blue>": "B", "1 Bone": "W", "2 Rust": "R"}
    told = {(names[row[2]], row[4]): row[1] for row in rows}
    assert told == {kind: f"{n} supply" if n == 1 else f"{n} supplies" for kind, n in alike.items()}
    assert len(rows) == len(alike)
    assert {row[0] + row[5] for row in rows} == {""}
    assert [row[2][0] for row in rows] == sorted(row[2][0] for row in rows), "in the order of the key"
    assert [name for name, _ in ticks(made)] == [str(number) for number in range(1, len(rows) + 1)]
    assert [said for _, said in ticks(made)] == [f"wound: {row[2][2:]}" for row in rows]


def test_gathered_lengths_are_told_from_the_shortest_to_the_longest(monkeypatch: pytest.MonkeyPatch) -> None:
    chart, plan = planned()
    single = {row[1]: row[3] for row in lines(winding(chart, plan))}
    bone = {single[supply.id] for supply in plan.supplies if supply.colour == "W" and supply.wound}
    monkeypatch.setattr(listview, "MOST_SUPPLIES", 1)
    told = {row[2]: row[3] for row in lines(winding(chart, plan))}
    assert told["1 Bone"] == bone.pop(), "two of one length"
    assert " to " in told["0 Dusk <blue>"] or told["0 Dusk <blue>"] in single.values()


@pytest.mark.parametrize(("over", "unit"), [("10 cm", "cm"), ("4 in", "in")])
def test_ends_stand_in_the_order_of_the_work(over: str, unit: str) -> None:
    chart, plan = planned(over)
    made = ends_html(chart, plan, make_key(chart, plan), CHIPS)
    rows = lines(made)
    assert sorted((row[1].split()[1], int(row[2]), int(row[3])) for row in rows) == sorted(
        (end.supply, end.row, end.stitch) for end in plan.ends
    )
    order = [(int(row[2]), row[4].startswith("joined"), int(row[3])) for row in rows]
    assert order == sorted(order)
    assert {row[4] for row in rows} == {
        ("joined" if end.kind == "join" else "finishes") + (", closes the gap" if end.closes_gap else "")
        for end in plan.ends
    }
    edges = {"the edge of the piece", *(f"the edge with {name}" for name in ("Dusk <blue>", "Bone", "Rust"))}
    assert {row[5] for row in rows} <= edges
    assert all(row[6].endswith(f" {unit}") or row[6] in ("", "–") for row in rows), rows
    assert sorted(ticks(made)) == sorted(
        (f"{end.supply}-{end.kind}", f"woven in: {end.supply}, {end.kind}") for end in plan.ends
    )
    body: Any = html.fragment_fromstring(f"<table><tbody>{made}</tbody></table>")
    assert [a.get("href") for a in body.iter("a")] == [f"#row-{row[2]}" for row in rows]


def test_many_ends_are_told_in_words(monkeypatch: pytest.MonkeyPatch) -> None:
    chart, plan = planned()
    rows = lines(ends_html(chart, plan, make_key(chart, plan), CHIPS))
    monkeypatch.setattr(listview, "MOST_IN_TABLE", len(plan.ends))
    assert ends_in_table(plan)
    monkeypatch.setattr(listview, "MOST_IN_TABLE", len(plan.ends) - 1)
    assert not ends_in_table(plan)
    made = ends_html(chart, plan, make_key(chart, plan), CHIPS)
    listed: Any = html.fragment_fromstring(f"<ul>{made}</ul>")
    said = [" ".join(li.text_content().split()) for li in listed]
    assert said == [
        f"{row[1].split()[1]} {row[4]}, row {row[2]}, stitch {row[3]}; along {row[5]}, {row[6]}" for row in rows
    ]
    assert [li.find(".//a").get("href") for li in listed] == [f"#row-{row[2]}-s{row[3]}" for row in rows]
    assert sorted(li.find(".//input").get("data-tick") for li in listed) == sorted(
        f"{end.supply}-{end.kind}" for end in plan.ends
    )
    assert stray(listed) == []


def test_ends_that_nobody_would_tick_off_are_not_listed(monkeypatch: pytest.MonkeyPatch) -> None:
    chart, plan = planned()
    monkeypatch.setattr(listview, "MOST_SUPPLIES", len(plan.supplies))
    assert ends_html(chart, plan, make_key(chart, plan), CHIPS)
    monkeypatch.setattr(listview, "MOST_SUPPLIES", len(plan.supplies) - 1)
    assert ends_html(chart, plan, make_key(chart, plan), CHIPS) == ""
