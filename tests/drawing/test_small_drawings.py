"""Line-ups, holders, the mark, the techniques: whole, safe, saying in words what they show."""

import re

import pytest
from drawn import SVG, dangers, make_chart, parse

from lintarsia.chart import Shaping
from lintarsia.chart.grid import RowNumber
from lintarsia.drawing import HOLDERS, TECHNIQUES, THEME_CSS, chart_svg, holder_svg, line_up_svg, mark_svg
from lintarsia.planning.planner import make_plan


def test_the_line_up_hangs_in_the_order_the_row_uses_it() -> None:
    chart = make_chart()
    plan = make_plan(chart)
    for turn in plan.rows:
        root = parse(line_up_svg(chart, plan, turn.row))
        yarns = [g for g in root.iter(f"{SVG}g") if g.get("class") == "lx-yarn"]
        assert [g.get("data-supply") for g in yarns] == [*turn.line_up, *turn.waiting]
        places = [float(re.findall(r"^translate\(([\d.]+)", g.get("transform"))[0]) for g in yarns]
        assert places == sorted(places, reverse=True)  # the first at the needle's tip, on the right, in every row
        for yarn in yarns:
            name = yarn.get("data-supply")
            words = [t.text for t in yarn.iter(f"{SVG}text")]
            assert words[0] == name
            assert ("new" in words) == (name in turn.joins)
            assert ("last row" in words) == (name in turn.finishes)
            assert ("rests" in words) == (name in turn.waiting)


def test_a_line_up_says_itself_in_words() -> None:
    chart = make_chart()
    plan = make_plan(chart)
    root = parse(line_up_svg(chart, plan, RowNumber(2)))
    assert root[0].text == "Line-up for row 2 (WS)"
    assert root[1].text.startswith("In working order, from the right: ")


def test_long_and_hostile_names_are_shortened_and_escaped() -> None:
    chart = make_chart("BB", {"B": ("<script>" + "x" * 200, "#27406b")})
    svg = line_up_svg(chart, make_plan(chart), RowNumber(1))
    assert dangers(svg) == []
    assert all(len(t.text) <= 14 for t in parse(svg).iter(f"{SVG}text"))


@pytest.mark.parametrize("holder", [*HOLDERS, "", "a shoe box"])
def test_holders_can_be_drawn_whatever_they_are_called(holder: str) -> None:
    svg = holder_svg(holder, "#b8743c")
    assert dangers(svg) == []
    assert "#b8743c" in svg


def test_holders_look_different() -> None:
    shapes = {re.sub(r"<title.*?</desc>", "", holder_svg(holder, "#b8743c")) for holder in HOLDERS}
    assert len(shapes) == len(HOLDERS)


def test_the_mark_is_two_yarns_and_light() -> None:
    svg = mark_svg()
    assert dangers(svg) == []
    assert len(svg) < 1200
    assert parse(svg).get("viewBox") == "0 0 64 64"


@pytest.mark.parametrize("name", TECHNIQUES)
def test_techniques_are_safe_and_described(name: str) -> None:
    svg = TECHNIQUES[name](prefix="guide-")
    root = parse(svg)
    assert dangers(svg) == []
    assert len(root[1].text) > 40
    ids = re.findall(r' id="([^"]*)"', svg)
    assert len(ids) == len(set(ids))
    assert all(i.startswith("guide-") for i in ids)


def test_every_picture_has_a_role_a_name_and_a_description() -> None:
    chart = make_chart()
    plan = make_plan(chart)
    for svg in (
        chart_svg(chart),
        line_up_svg(chart, plan, RowNumber(1)),
        mark_svg(),
        *(draw() for draw in TECHNIQUES.values()),
    ):
        root = parse(svg)
        assert root.get("role") == "img"
        assert root.get("aria-labelledby").split() == [root[0].get("id"), root[1].get("id")]
        assert [root[0].tag, root[1].tag] == [f"{SVG}title", f"{SVG}desc"]


def test_what_the_stylesheet_can_colour_is_in_the_drawings() -> None:
    chart = make_chart()
    plan = make_plan(chart)
    drawn = chart_svg(chart, background=True, key=True) + line_up_svg(chart, plan, RowNumber(1)) + TECHNIQUES["gap"]()
    drawn += chart_svg(make_chart(".BB\nBBB", shaping={2: Shaping(-1, -1, None)}))
    drawn += chart_svg(make_chart("...BB\nBBBBB", shaping={2: Shaping(-3, -3, 0)}), key=True)
    for name in re.findall(r"\.(lx-[\w-]+)", THEME_CSS):
        assert re.search(rf'class="[^"]*\b{name}\b', drawn), name
