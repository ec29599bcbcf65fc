"""The list of ends to weave in: each end of the plan in its row, in the order of the work, and what it lies along."""

import re
from collections.abc import Callable
from pathlib import Path

import pytest

from lintarsia.engine.subjects.pattern import work_on
from lintarsia.pattern.choosing import choose
from lintarsia.pattern.reading import read_pattern
from lintarsia.pattern.work import PatternWork
from lintarsia.publishing.document import endlist
from lintarsia.publishing.document.endlist import end_parts
from lintarsia.publishing.document.model import Part, Table
from lintarsia.publishing.document.written import Written
from lintarsia.settings import Settings
from lintarsia.written.page import rows_page

CHART = """\
lintarsia: 1
title: Gate
worked: flat
gauge: {stitches: 20, rows: 30, over: 10 cm}
colours:
  B: {name: Dusk blue, shade: "#27406b"}
  W: {name: Bone, shade: "#efe9dc"}
  R: {name: Rust, shade: "#b8743c"}
chart: |
  BBBBBBBBBB
  BBWWWRRRBB
  BBWWWRRRBB
  BBBBBBBBBB
"""
RING = CHART.replace("worked: flat", "worked: round\ntechnique: stranded").split("chart:")[0] + (
    "chart: |\n  BWBWBW\n  WBWBWB\n"
)
PATTERN = """\
lintarsia-pattern: 1
title: Set
pieces:
  front: {chart: gate.chart.yaml}
  ring: {chart: ring.chart.yaml}
  strap: {colour: B, cast-on: 4, rows: 9}
"""
Made = Callable[[], tuple[PatternWork, list[Part]]]


@pytest.fixture
def made(tmp_path: Path) -> Made:
    for name, text in (("gate.chart", CHART), ("ring.chart", RING), ("set.pattern", PATTERN)):
        (tmp_path / f"{name}.yaml").write_text(text, encoding="utf-8")

    def make() -> tuple[PatternWork, list[Part]]:
        pattern = read_pattern(str(tmp_path / "set.pattern.yaml")).pattern
        assert pattern is not None
        work = work_on(pattern, Settings(root=str(tmp_path)))
        return work, list(end_parts(work, [Written(rows_page(one.chart), (one,)) for one in choose(work, None, None)]))

    return make


def table(part: Part) -> Table:
    (block,) = part.blocks
    assert isinstance(block, Table)
    return block


def test_each_piece_with_more_than_the_two_ends_of_one_yarn_has_a_list(made: Made) -> None:
    _, parts = made()
    assert [(part.title, part.level, part.fresh) for part in parts] == [
        ("Ends of front", 2, False), ("Ends of ring", 2, False),
    ]  # fmt: skip


def test_a_list_has_its_numbers_at_the_right_and_is_headed_by_what_rows_are_called(made: Made) -> None:
    _, (front, ring) = made()
    assert table(front).head == ("Row", "Stitch", "Yarn", "Here it", "Weave along")
    assert table(ring).head == ("Round", "Stitch", "Yarn", "Here it", "Weave along")
    assert table(front).right == table(ring).right == (0, 1)


def test_every_end_of_the_plan_is_in_it_and_finishes_come_first_in_a_row(made: Made) -> None:
    work, (front, _) = made()
    (one,) = choose(work, "front", None)
    ends = work.plan(one.piece, one.size).ends
    rows = table(front).rows
    assert sorted((int(row), int(stitch), yarn.split()[0]) for row, stitch, yarn, *_ in rows) == sorted(
        (end.row, end.stitch, end.supply) for end in ends
    )
    order = [(int(row), what.startswith("joined"), int(stitch)) for row, stitch, _, what, _ in rows]
    assert order == sorted(order)
    assert {what for *_, what, _ in rows} == {
        ("joined" if end.kind == "join" else "finishes") + (", closes the gap" if end.closes_gap else "")
        for end in ends
    }
    assert any(what.endswith(", closes the gap") for *_, what, _ in rows)


def test_a_yarn_has_its_colour_s_name_and_lies_along_a_colour_or_the_edge(made: Made) -> None:
    """The block of Bone stands between Dusk blue and Rust, so its ends run along either; Dusk blue's own at the first
    stitch and the last row lie along the edge."""
    _, (front, _) = made()
    names = {"B": "Dusk blue", "W": "Bone", "R": "Rust"}
    for _, _, yarn, _, _ in table(front).rows:
        found = re.fullmatch(r"([BWR])\d+ (.+)", yarn)
        assert found is not None
        assert names[found[1]] == found[2]
    along = {yarn.partition(" ")[2]: set() for _, _, yarn, _, _ in table(front).rows}  # type: dict[str, set[str]]
    for _, _, yarn, _, where in table(front).rows:
        along[yarn.partition(" ")[2]].add(where)
    assert along["Bone"] <= {"the edge with Dusk blue", "the edge with Rust"}
    assert along["Rust"] <= {"the edge with Dusk blue", "the edge with Bone"}
    assert "the edge of the piece" in along["Dusk blue"]


def test_a_list_that_helps_nobody_is_left_out(made: Made, monkeypatch: pytest.MonkeyPatch) -> None:
    _, (front, ring) = made()
    longest, other = (len(table(part).rows) for part in (front, ring))
    assert longest > other
    monkeypatch.setattr(endlist, "MOST", longest)
    assert [part.title for part in made()[1]] == ["Ends of front", "Ends of ring"]
    monkeypatch.setattr(endlist, "MOST", longest - 1)
    assert [part.title for part in made()[1]] == ["Ends of ring"]
