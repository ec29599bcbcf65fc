"""The fingerprint of a chart: what changes it and what does not."""

import dataclasses
import os
import subprocess
import sys

import pytest

from lintarsia.chart import Chart
from lintarsia.chart.content import COUNTED, UNCOUNTED, chart_fingerprint
from lintarsia.reading import read_chart

FOX = """\
lintarsia: 1
title: Fox at the gate
worked: flat
technique: intarsia
gauge: {stitches: 22, rows: 30, over: 10 cm, needle: 4 mm}
yarns:
  dk: {name: Fjord DK, weight: 3, length: 120 m, mass: 50 g, balls: 2, fibre: wool}
colours:
  B: {name: Dusk blue, shade: "#27406b", yarn: dk}
  W: {name: Bone, shade: "#efe9dc"}
supplies: {B: 2, W: 1}
limits: {carry: 2, float: 2.5 cm}
shaping: {3: {right: -1}, 4: -3}
duplicate-stitch:
  - {colour: W, row: 1, stitches: [2, 3]}
written: {1: k6 B, 2: "p2 B, p2 W, p2 B"}
wearer: child
chart: |
  BB....
  BWWBB.
  BBWWBB
  BBBBBB
"""
PINNED = "26cf4c425375dfe2"


def mark(text: str) -> str:
    reading = read_chart("fox.chart.yaml", text.encode())
    assert reading.chart is not None, reading.problems
    return chart_fingerprint(reading.chart)


def changed(old: str, new: str) -> str:
    assert old in FOX
    return FOX.replace(old, new)


def test_it_never_changes() -> None:
    """On any Python and platform, and from release to release: test knits and saved places hold it for years. A
    deliberate change of this value needs a line in the changelog."""
    assert mark(FOX) == PINNED


def test_it_hangs_on_no_hash_seed() -> None:
    code = (
        "import sys; from lintarsia.chart.content import chart_fingerprint; from lintarsia.reading import read_chart;"
        "print(chart_fingerprint(read_chart('fox.chart.yaml', sys.stdin.buffer.read()).chart))"
    )
    for seed in ("1", "2"):
        environ = {**os.environ, "PYTHONHASHSEED": seed}
        done = subprocess.run([sys.executable, "-c", code], input=FOX.encode(), capture_output=True, env=environ)
        assert done.stdout.decode().strip() == PINNED, done.stderr


SAME = {
    "comments": FOX.replace("worked: flat", "# the fox\nworked: flat  # back and forth"),
    "line ends": FOX.replace("\n", "\r\n"),
    "block for flow": changed(
        "supplies: {B: 2, W: 1}", "supplies:\n  W: 1\n  B: 2"
    ),
    "order of keys": changed("title: Fox at the gate\nworked: flat\n", "worked: flat\ntitle: Fox at the gate\n"),
    "order of the key": changed(
        '  B: {name: Dusk blue, shade: "#27406b", yarn: dk}\n  W: {name: Bone, shade: "#efe9dc"}\n',
        '  W: {shade: "#EFE9DC", name: Bone}\n  B: {yarn: dk, name: Dusk blue, shade: "#27406b"}\n',
    ),
    "defaults left out": changed("worked: flat\ntechnique: intarsia\n", ""),
    "another unit": changed("over: 10 cm", "over: 100 mm"),
    "a number with decimals": changed("rows: 30", "rows: 30.0"),
    "a kind said outright": changed("4: -3", "4: {right: {bind-off: 3}}"),
    "two patches for one": changed(
        "  - {colour: W, row: 1, stitches: [2, 3]}",
        "  - {colour: W, row: 1, stitches: [3, 3]}\n  - {colour: W, row: 1, stitches: [2, 2]}",
    ),
    "spaces in the words": changed("1: k6 B", '1: "k6   B"'),
    "what is accepted": FOX + "suppress:\n  - {rule: area/single-stitch, justification: meant so}\n",
    "symmetry, which only checks look at": FOX + "symmetry: [left-right]\n",
}  # fmt: skip


@pytest.mark.parametrize("text", SAME.values(), ids=SAME)
def test_what_a_knitter_does_not_see_has_no_part_in_it(text: str) -> None:
    assert mark(text) == PINNED


OTHER = {
    "a stitch": changed("BWWBB.", "BWBBB."),
    "a row": changed("  BBBBBB\n", "  BBBBBB\n  BBBBBB\n"),
    "title": changed("Fox at", "Vixen at"),
    "stitches of the gauge": changed("stitches: 22", "stitches: 22.5"),
    "inches for centimetres": changed("over: 10 cm", "over: 4 in"),
    "needle": changed("4 mm", "3.75 mm"),
    "worked": changed("worked: flat", "worked: turned"),
    "first row": FOX + "first-row: WS\n",
    "technique": changed("technique: intarsia", "technique: mixed"),
    "balls": changed("balls: 2", "balls: 3"),
    "shade": changed("#efe9dc", "#efe9dd"),
    "name of a colour": changed("Bone", "Ivory"),
    "other name of a colour": changed('shade: "#efe9dc"}', 'shade: "#efe9dc", also: [MC]}'),
    "supplies": changed("B: 2, W: 1", "B: 2, W: 2"),
    "holder": changed("supplies: {B: 2, W: 1}", "supplies: {B: 2, W: [{holder: bobbin}]}"),
    "limits": changed("carry: 2", "carry: 3"),
    "repeat": FOX + "repeat: {stitches: [1, 2], rows: [1, 2]}\n",
    "edge of a decrease": changed("3: {right: -1}", "3: {left: -1}"),
    "embroidered": changed("row: 1, stitches: [2, 3]", "row: 1, stitches: [2, 4]"),
    "words": changed("p2 W", "p1 W"),
    "wearer": changed("wearer: child", "wearer: infant"),
}


@pytest.mark.parametrize("text", OTHER.values(), ids=OTHER)
def test_what_is_knitted_wound_or_read_changes_it(text: str) -> None:
    assert mark(text) != PINNED


def test_no_two_of_these_are_alike() -> None:
    assert len(set(map(mark, OTHER.values()))) == len(OTHER)


def test_every_field_of_a_chart_counts_or_does_not() -> None:
    """A new field must be put into one of the two lists of `chart/content.py`: is it knitted, wound or read?"""
    fields = [field.name for field in dataclasses.fields(Chart)]
    assert sorted([*COUNTED, *UNCOUNTED]) == sorted(fields)


def test_a_field_at_its_default_leaves_no_trace() -> None:
    """So that a field of a later release changes no fingerprint of charts without it."""
    from lintarsia.chart.content import chart_content

    reading = read_chart("a.chart.yaml", changed("wearer: child\n", "").encode())
    assert reading.chart is not None
    assert "wearer" not in chart_content(reading.chart)
    assert "loop" not in chart_content(reading.chart)["gauge"]
