"""Which drawings of a chart are files, and which stand in its page: by its size, and by how many stretches it has."""

import pytest
from lxml import etree

from lintarsia.chart import Chart
from lintarsia.planning.planner import make_plan
from lintarsia.publishing.pages import pictures
from lintarsia.publishing.pages.pictures import Drawings, draw
from lintarsia.reading import read_chart
from lintarsia.result import NOWHERE, Level, Result

HEAD = """\
lintarsia: 1
title: Field
worked: flat
gauge: {stitches: 20, rows: 20, over: 10 cm}
colours:
  B: {name: Dusk blue, shade: "#27406b"}
  W: {name: Bone, shade: "#efe9dc"}
chart: |
"""
LAYERS = {"paths.svg", "back.svg", "chart.svg"}


def field(wide: int, high: int) -> Chart:
    rows = "".join(f"  {'B' * (wide // 3)}{'W' * (wide - wide // 3)}\n" for _ in range(high))
    chart = read_chart("f.chart.yaml", (HEAD + rows).encode()).chart
    assert chart is not None
    return chart


def drawn(wide: int, high: int) -> Drawings:
    chart = field(wide, high)
    made = draw(chart, make_plan(chart), (), "stamp of this state")
    for svg in (made.chart, made.fabric, *made.files.values(), *([made.back] if made.back else [])):
        assert etree.fromstring(svg.encode()).tag == "{http://www.w3.org/2000/svg}svg"
    return made


def test_a_small_chart_stands_in_its_page_whole() -> None:
    made = drawn(12, 8)
    assert made.files == {}
    assert made.back
    assert 'id="c-layer-supplies"' in made.chart


def test_a_large_one_has_its_layers_and_its_paths_as_files() -> None:
    made = drawn(61, 50)
    assert made.back == ""
    assert set(made.files) >= LAYERS
    assert "supplies.svg" in made.files
    assert "results.svg" not in made.files
    assert 'id="c-layer-supplies"' not in made.chart


def test_of_more_stretches_than_anybody_could_tell_apart_there_are_no_layers(monkeypatch: pytest.MonkeyPatch) -> None:
    runs = len(make_plan(field(61, 50)).threads.runs)
    monkeypatch.setattr(pictures, "MOST_LAID_RUNS", runs)
    assert "supplies.svg" in drawn(61, 50).files
    monkeypatch.setattr(pictures, "MOST_LAID_RUNS", runs - 1)
    assert {name for name in drawn(61, 50).files if not name.startswith("sheet-")} == LAYERS


def test_a_chart_that_would_print_too_small_has_sheets_that_say_their_state() -> None:
    """A page lies where the chart is wider than it is high."""
    wide, high = drawn(61, 50), drawn(40, 75)
    for made in (wide, high):
        sheets = [name for name in made.files if name.startswith("sheet-")]
        assert sheets == [f"sheet-{number}.svg" for number in range(1, len(sheets) + 1)]
        assert sheets
        assert all("stamp of this state" in made.files[name] for name in sheets)
    assert not [name for name in drawn(12, 8).files if name.startswith("sheet-")]


@pytest.mark.parametrize(("wide", "high"), [(12, 8), (61, 50)])
def test_what_was_found_is_marked_in_the_page_however_large_the_chart_is(wide: int, high: int) -> None:
    """Marks are what one looks for, and they are few: they wait in no file as the other layers of a large chart do."""
    chart = field(wide, high)
    found = Result("area/lone", "lone", Level.WARNING, "stands alone", "f.chart.yaml", NOWHERE, 3, (2, 5))
    root = etree.fromstring(draw(chart, make_plan(chart), (found,)).chart.encode())
    (layer,) = root.xpath("//*[@id='c-layer-results']")
    marks = layer.xpath(".//*[@id='c-mark-0']")
    assert [(mark.get("data-row"), mark.get("data-first"), mark.get("data-last")) for mark in marks] == [
        ("3", "2", "5")
    ]
