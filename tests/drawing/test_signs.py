"""The key explains the signs that a chart has, and no others."""

from dataclasses import replace

import pytest
from drawn import make_chart, parse

from lintarsia.chart import DuplicateStitch, Repeat, Shaping, Worked
from lintarsia.chart.shaping import Change, ChangeKind, Divide, Edge, Parting
from lintarsia.drawing.shades import NO_STITCH
from lintarsia.drawing.signs import signs


@pytest.mark.parametrize(
    ("shaping", "names"),
    [
        ({}, []),
        ({3: Shaping(0)}, []),
        ({3: Shaping(-2, -1, -1)}, ["decrease"]),
        ({3: Shaping(1, 1, 0)}, ["increase"]),
        ({3: Shaping(-2)}, ["more or fewer stitches"]),
        ({3: Shaping(0, 1, -1), 4: Shaping(-2)}, ["decrease", "increase", "more or fewer stitches"]),
        ({99: Shaping(-1, -1, 0)}, []),  # beyond the last row
    ],
)
def test_marks_of_shaping(shaping: dict[int, Shaping], names: list[str]) -> None:
    assert [sign.name for sign in signs(make_chart(shaping=shaping))] == names


def test_numbers_beside_marks_are_explained_where_there_are_any() -> None:
    [one] = signs(make_chart(shaping={3: Shaping(-1, -1, 0)}))
    [two] = signs(make_chart(shaping={3: Shaping(-2, -2, 0)}))
    assert "number" not in one.words
    assert "number" in two.words


def test_each_kind_of_shaping_has_a_sign_of_its_own_in_the_order_of_the_work() -> None:
    chart = make_chart("BB..WW..\n.B..WWW.\nBBBBBBB.\n..BBBBB.", shaping={
        2: Shaping(2, left=2, right=0, stated=(Change(ChangeKind.CAST_ON, 2, Edge.LEFT),)),
        3: Shaping(0, left=-1, right=1), 4: Shaping(0, left=1, right=-1),
    }, divide={3: Divide(3, Parting.HOLD)})  # fmt: skip
    found = signs(chart)
    assert [sign.name for sign in found] == ["no stitch", "hold", "cast on", "decrease", "increase"]
    assert len({sign.drawing for sign in found}) == 5


def test_no_sign_is_a_slanted_stroke() -> None:
    """On printed charts a slanted stroke is a decrease, and a grey square is no stitch (common practice)."""
    [sign] = signs(make_chart("..BB\nBBBB"))
    assert NO_STITCH in sign.drawing
    assert "l" not in "".join(p.get("d") for p in parse(f"<g>{sign.drawing}</g>").iter("path"))


def test_no_stitch_duplicate_stitch_and_repeat() -> None:
    chart = make_chart("..BB\nWBBB", duplicate=(DuplicateStitch("B", 1, (4, 4)),), repeat=Repeat((1, 2), (1, 2)))
    assert [sign.name for sign in signs(chart)] == ["no stitch", "duplicate stitch", "repeat"]
    assert signs(chart)[2].words == "stitches 1–2, rows 1–2"
    letters = [t.text for t in parse(f"<g>{signs(chart)[1].drawing}</g>").iter("text")]
    assert letters == ["W", "B"]  # what is knitted, then what is embroidered over it
    assert signs(replace(chart, worked=Worked.ROUND))[2].words.endswith("rounds 1–2")


def test_symbols_in_signs_are_escaped() -> None:
    chart = make_chart("<<\n<<", {"<": ("Less", "#27406b")}, duplicate=(DuplicateStitch("<", 1, (1, 1)),))
    assert [t.text for t in parse(f"<g>{signs(chart)[0].drawing}</g>").iter("text")] == ["<", "<"]
