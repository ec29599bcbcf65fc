"""Small charts for the reader's tests, and a way to cut a region out of a text."""

import re

from lintarsia.reading import Reading, read_chart
from lintarsia.result import Region

PLAIN = """\
lintarsia: 1
title: Two pebbles
gauge: {stitches: 22, rows: 30, over: 10 cm}
colours:
  A: {name: Shore, shade: "#c8b89a"}
  B: {name: Pebble, shade: "#5a5f66"}
chart: |
  AAAAAA
  ABBABA
  AAAAAA
"""

# A chart to which a key is added, lopsided so that a swap shows: its head, and its grid.
LOPSIDED = """\
lintarsia: 1
title: Lopsided
gauge: {stitches: 22, rows: 30, over: 10 cm}
colours:
  A: {name: Deep sea, shade: "#27406b"}
  B: {name: Bone, shade: "#efe9dc"}
"""
LOPSIDED_GRID = "chart: |\n  AAABB\n  AAABB\n  AA.BB\n"

EVERY_KEY = """\
lintarsia: 1
title: Every key
worked: turned
first-row: WS
technique: mixed
gauge:
  stitches: 22.5
  rows: 30
  over: 4 in
  needle: 4 mm
  loop: 18.5 mm
  float-gauge: {stitches: 23, rows: 26}
yarns:
  shore-dk: {name: Shore DK, weight: 3, length: 120 m, mass: 50 g, balls: 2, fibre: wool}
  odds: {}
colours:
  A: {name: Shore, shade: "#C8B89A", yarn: shore-dk}
  B: {name: Pebble, shade: "#5a5f66"}
supplies:
  A: 2
  B: [{holder: butterfly, length: 6 m}, {}]
limits:
  supplies: 9
  float: 5 stitches
  carry: 4
  idle: 0
  strand: 2
repeat: {stitches: [2, 5], rows: [1, 2]}
shaping:
  2: -2
  3: {right: 1, left: -1}
chart: |
  AAAAAA
  ABBABA
  AA..AA
wearer: child
symmetry: [left-right, half-turn]
duplicate-stitch:
  - {colour: B, row: 3, stitches: [6, 6]}
written:
  1: "k2 A, k2 A"
  2: p6
suppress:
  - {rule: area/single-stitch, row: 2, stitches: [2, 2], justification: " the eye "}
  - {rule: colour/unused, justification: kept for the border}
"""


def read(text: str | bytes) -> Reading:
    """The reading of a text, as if it stood in a file."""
    return read_chart("pebbles.chart.yaml", text.encode() if isinstance(text, str) else text)


def faults(text: str | bytes) -> list[str]:
    """`rule key line:column message` of every problem, in the reader's order."""
    return [f"{rule} {f.key} {f.region.line}:{f.region.column} {f.message}" for rule, f in read(text).problems]


def keys(text: str | bytes) -> list[str]:
    """The keys of every problem, in the reader's order."""
    return [finding.key for _, finding in read(text).problems]


def cut(text: str, region: Region) -> str:
    """What stands in a region, by lines as an editor splits them: the tests' own reckoning, not the reader's."""
    lines = re.split("\r\n|\n|\r", text)
    if region.line == region.end_line:
        return lines[region.line - 1][region.column - 1 : region.end_column - 1]
    first = lines[region.line - 1][region.column - 1 :]
    last = lines[region.end_line - 1][: region.end_column - 1]
    return "\n".join([first, *lines[region.line : region.end_line - 1], last])


def inside(text: str, region: Region) -> bool:
    """Whether a region lies within a text, in the right order."""
    lines = re.split("\r\n|\n|\r", text)
    ends = ((region.line, region.column), (region.end_line, region.end_column))
    if ends[0] > ends[1]:
        return False
    return all(1 <= line <= len(lines) and 1 <= column <= len(lines[line - 1]) + 1 for line, column in ends)
