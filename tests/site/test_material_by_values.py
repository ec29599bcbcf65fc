"""The key and the yarns of a chart's page from values: what is knitted, what is embroidered over it, what is bought."""

from typing import Any

import pytest
from lxml import html

from lintarsia.chart import Chart
from lintarsia.planning.model import YarnNeed
from lintarsia.planning.planner import make_plan
from lintarsia.publishing.pages.keyview import make_key
from lintarsia.publishing.pages.materialview import key_html, yarns_html
from lintarsia.reading import read_chart
from straytext import stray

TEXT = """\
lintarsia: 1
title: Pond
worked: flat
gauge: {stitches: 20, rows: 30, over: OVER}
yarns:
  w: {name: Shore <DK>, length: 100 m, mass: 50 g, balls: 1, fibre: wool & silk}
  s: {length: 40 m}
colours:
  B: {name: Dusk <blue>, shade: "#27406b", yarn: w}
  W: {name: Bone, shade: "#efe9dc", yarn: w}
  R: {name: Madder, shade: "#a33b2a", yarn: s}
  M: {name: Moss, shade: "#5b7443"}
REPEATduplicate-stitch:
  - {colour: R, row: 2, stitches: [1, 3]}
  - {colour: W, row: 3, stitches: [2, 2]}
chart: |
  BBBBBBBW
  BBBBBBWW
  BBBBBBBM
"""
CHIPS = ["<i>0</i>", "<i>1</i>", "<i>2</i>", "<i>3</i>"]


def pond(over: str = "10 cm", repeat: str = "") -> Chart:
    read = read_chart("p.chart.yaml", TEXT.replace("OVER", over).replace("REPEAT", repeat).encode())
    assert read.chart is not None, read.problems
    return read.chart


def text(part: Any) -> str:
    return " ".join(part.text_content().split())


def yarns(chart: Chart) -> list[list[str]]:
    plan = make_plan(chart)
    body = html.fragment_fromstring(
        f"<table><tbody>{yarns_html(chart, plan, make_key(chart, plan), CHIPS)}</tbody></table>"
    )
    assert stray(body) == []
    return [[text(cell) for cell in row] for row in body.iter("tr")]


def test_a_key_tells_what_is_knitted_and_what_is_embroidered() -> None:
    """20 stitches of Dusk blue, 3 of Bone, 1 of Moss; 3 of Madder are embroidered over, and 1 of Bone."""
    chart = pond()
    plan = make_plan(chart)
    made: Any = html.fragment_fromstring(f"<ul>{key_html(chart, plan, make_key(chart, plan), CHIPS)}</ul>")
    assert stray(made) == []
    colours = [text(li) for li in made if li.get("class") is None]
    told = {line.split(" ", 1)[1] for line in colours}
    assert told == {
        "Dusk <blue> 20 stitches · Shore <DK>", "Bone 3 stitches, 1 in duplicate stitch · Shore <DK>",
        "Madder 3 stitches in duplicate stitch · s", "Moss 1 stitch",
    }  # fmt: skip
    assert [line[0] for line in colours] == sorted(line[0] for line in colours), "a chip for each, in the key's order"
    signs = [text(li) for li in made if li.get("class") == "sign"]
    assert any("duplicate stitch" in sign for sign in signs)
    assert all(li.find("svg").get("class") == "key" for li in made if li.get("class") == "sign")


@pytest.mark.parametrize(("over", "unit"), [("10 cm", ("m", "cm")), ("4 in", ("yd", "in"))])
def test_a_yarn_has_its_lengths_its_mass_and_its_balls(over: str, unit: tuple[str, str]) -> None:
    rows = {row[0]: row for row in yarns(pond(over))}
    assert set(rows) == {"Shore <DK> wool & silk", "s", "Moss"}
    shore, other, nobody = rows["Shore <DK> wool & silk"], rows["s"], rows["Moss"]
    assert shore[2].split(" of it ")[0].endswith(unit)
    assert shore[2].endswith("of it for duplicate stitch")
    assert shore[3].endswith(" g")
    assert shore[4] == "1 ball"
    assert other[2].endswith("of it for duplicate stitch")
    assert other[3:] == ["–", "1 ball"]
    assert nobody[3:] == ["–", "–"]
    assert "duplicate" not in nobody[2]
    assert [len(row[1]) for row in (shore, other, nobody)] == [2, 1, 1], "a chip for each of its colours"


def test_what_the_file_has_too_few_of_is_said() -> None:
    text = TEXT.replace("length: 100 m, mass: 50 g, balls: 1", "length: 0.1 m, mass: 50 g, balls: 1")
    chart = read_chart("p.chart.yaml", text.replace("OVER", "10 cm").replace("REPEAT", "").encode()).chart
    assert chart is not None
    (need,) = [need for need in make_plan(chart).yarns if need.yarn == "w"]
    assert isinstance(need, YarnNeed)
    assert need.to_buy is not None
    assert need.to_buy > 1
    (row,) = [row for row in yarns(chart) if row[0].startswith("Shore")]
    assert row[4] == f"{need.to_buy} balls the file has 1"


def test_of_a_repeat_nobody_knows_how_much_is_bought() -> None:
    rows = yarns(pond(repeat="repeat: {stitches: [2, 5], rows: [1, 2]}\n"))
    assert {len(row) for row in rows} == {3}
    (shore,) = [row for row in rows if row[0].startswith("Shore")]
    assert shore[2].endswith("of it for duplicate stitch")
