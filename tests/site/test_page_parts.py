"""The parts of a chart's page as markup: well formed, of elements and attributes that there are, with classes that a
style or a script knows, and links to what is on the page. What they say is held beside, part by part."""

import re
from pathlib import Path

import pytest
from lxml import etree

from lintarsia.chart import Chart
from lintarsia.planning.model import Plan
from lintarsia.planning.planner import make_plan
from lintarsia.publishing.pages.keyview import Key, chip, make_key
from lintarsia.publishing.pages.listview import ends_html, on_balls_html, winding_html
from lintarsia.publishing.pages.materialview import key_html, yarns_html
from lintarsia.publishing.pages.rowlist import rows_html
from lintarsia.publishing.pages.rowview import listed_steps, row_lines
from lintarsia.publishing.pages.sewnview import sewn_html
from lintarsia.reading import read_chart

SITE = Path(__file__).parents[2] / "site"
KNOWN = {
    word
    for file in [*SITE.rglob("*.css"), *SITE.rglob("*.js"), *SITE.rglob("*.html")]
    for word in re.findall(r"[A-Za-z][\w-]*", file.read_text("utf-8"))
}
ELEMENTS = "div a b em i input label li ol p small span svg table tbody td th thead tr use"
ATTRIBUTES = "class id href scope type viewBox"

CHART = """\
lintarsia: 1
title: Lopsided
gauge: {stitches: 22, rows: 30, over: 10 cm}
yarns:
  dk: {name: Plain DK & more, length: 120 m, mass: 50 g, balls: 3}
  sock: {name: Thin, length: 400 m, mass: 100 g}
colours:
  A: {name: Deep <sea>, shade: "#27406b", yarn: dk}
  B: {name: Bone, shade: "#efe9dc", yarn: sock}
  R: {name: Rust, shade: "#b8743c"}
wearer: child
limits: {idle: 4}
duplicate-stitch:
  - {colour: R, row: 2, stitches: [1, 2]}
  - {colour: R, row: 5, stitches: [4, 4]}
chart: |
  AABBBAA
  AABBBAA
  AAAAAAA
  AABBAAA
  AABBAAA
"""
PARTED = CHART.replace(
    "limits: {idle: 4}\n",
    "shaping: {4: {right: -1, neck-left: -1}}\ndivide: {3: {by: bind-off, sides: left-first}}\n",
).replace("  AABBBAA\n  AABBBAA\n  AAAAAAA\n", "  A...AA.\n  A...AA.\n  AA..AAA\n")


def parts(text: str) -> tuple[Chart, Plan, Key, dict[str, str]]:
    chart = read_chart("x.chart.yaml", text.encode()).chart
    assert chart is not None
    plan = make_plan(chart)
    key = make_key(chart, plan)
    chips = [chip(number) for number in range(len(chart.colours) + 3)]
    return (
        chart,
        plan,
        key,
        {
            "key": key_html(chart, plan, key, chips),
            "yarns": yarns_html(chart, plan, key, chips),
            "winding": winding_html(chart, plan, key, chips, 0.1),
            "on balls": on_balls_html(chart, plan, key, chips, 0.1),
            "ends": ends_html(chart, plan, key, chips),
            "sewn": sewn_html(chart, key, chips),
            "rows": rows_html(row_lines(chart, plan, key, listed_steps(chart, plan)), "row"),
        },
    )


def parsed(part: str) -> etree._Element:
    """The one element of HTML that is never closed here is closed as XML wants it."""
    whole = re.sub("<input([^>]*)>", "<input\\g<1>/>", part)
    return etree.fromstring(f"<div>{whole}</div>")


def known(attribute: str) -> bool:
    """Scripts know `data-told` as `dataset.told`."""
    first, *rest = attribute.removeprefix("data-").split("-")
    data = attribute.startswith("data-") and "".join([first, *map(str.title, rest)]) in KNOWN
    return attribute in ATTRIBUTES.split() or attribute in KNOWN or attribute in ("aria-hidden", "aria-label") or data


@pytest.mark.parametrize("text", [CHART, PARTED], ids=["whole", "parted"])
def test_parts_are_sound_markup(text: str) -> None:
    for name, part in parts(text)[3].items():
        root = parsed(part)
        for drawing in root.iter("svg"):  # of the drawings' own tests
            if not drawing.findall("use"):
                drawing[:] = []
        for element in root.iter():
            assert element.tag in ELEMENTS.split(), name
            for attribute, value in element.attrib.items():
                assert known(str(attribute)), (name, attribute)
                if attribute == "class":
                    drawn = {
                        word for word in str(value).split() if word.startswith("lx-")
                    }  # which drawings may restyle
                    assert set(str(value).split()) - drawn <= KNOWN | {"rtl", "ltr"}, (name, value)
                if attribute.startswith("aria-hidden"):
                    assert value == "true", name
        ids = [element.get("id") for element in root.iter() if element.get("id")]
        assert len(ids) == len(set(ids)), name


def test_every_row_can_be_linked_to() -> None:
    rows = parts(CHART)[3]["rows"]
    assert re.findall(r'id="row-(\d+)"', rows) == ["1", "2", "3", "4", "5"]
    assert [n for n, _ in re.findall(r'href="#row-(\d+)">(\d+)(?:–\d+)?<', rows)] == re.findall(
        r'<tr id="row-(\d+)"', rows
    )


def words(part: str) -> list[str]:
    """What each row of a table or entry of a list says."""
    rows = parsed(part)
    return [" ".join(" ".join(row.itertext()).split()) for row in rows]


def test_what_is_bought_wound_and_sewn_is_told_of_the_right_colour() -> None:
    own = parts(CHART)[3]
    assert words(own["key"])[:3] == [
        "Deep <sea> 25 stitches · Plain DK & more",
        "Bone 10 stitches · Thin",
        "Rust 3 stitches in duplicate stitch",
    ]
    assert [row.split(" ")[0] for row in words(own["yarns"])] == ["Plain", "Thin", "Rust"]
    assert [re.sub(r"[\d.]+ c?m", "#", row) for row in words(own["on balls"])] == [
        "A1 Deep <sea> # row 1 at stitch 1, to row 5",
        "B1 Bone # row 1 at stitch 4, to row 5",
        "A2 Deep <sea> # row 1 at stitch 6, to row 5",
    ]
    assert words(own["sewn"]) == [
        "2 stitches 1–2 Rust 2",
        "5 stitch 4 Rust 1",
    ]
    ends = [re.sub(r" [\d.]+ cm$", "", row) for row in words(own["ends"])]
    assert ends == [
        "A1 1 1 joined the edge of the piece",
        "B1 1 4 joined, closes the gap the edge with Deep <sea>",
        "A2 1 6 joined, closes the gap the edge with Bone",
        "A2 5 2 finishes, closes the gap the edge with Bone",
        "B1 5 5 finishes, closes the gap the edge with Deep <sea>",
        "A1 5 7 finishes the edge of the piece",
    ]


def test_no_side_of_a_row_is_lost_on_paper() -> None:
    """Rows that say what the row before says are told with it; the other side of a row is no such row."""
    rows = parts(PARTED)[3]["rows"]
    assert re.findall(r'<tr id="row-([\w-]+)"', rows) == ["1", "2", "3", "3-left", "4", "5", "4-right", "5-right"]


def test_each_side_of_rows_that_say_the_same_is_one_line() -> None:
    plain = PARTED.replace("4: {right: -1, neck-left: -1}", "5: {right: -1}")
    plain = plain.replace("  A...AA.\n  A...AA.\n", "  AA..AA.\n" + "  AA..AAA\n" * 2)
    rows = parts(plain)[3]["rows"]
    assert re.findall(r'id="row-([\w-]+)"', rows) == [
        "1",
        "2",
        "3",
        "3-left",
        "4",
        "5",
        "6",
        "4-right",
        "5-right",
        "6-right",
    ]
    assert re.findall(r'<a href="#row-[\w-]+">(\d+–\d+)<', rows) == ["4–5"]
