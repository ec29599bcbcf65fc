"""The usual forms in which armholes and necks are written, British and American (common practice): each agrees with the
chart, and the same form with one number wrong does not.
"""

import re

import pytest

from lintarsia.reading import read_chart
from lintarsia.rules import catalogue
from lintarsia.rules.base import Work

YOKE = """\
lintarsia: 1
title: Yoke
gauge: {stitches: 22, rows: 30, over: 10 cm}
colours:
  A: {name: Shore, shade: "#c8b89a"}
  B: {name: Kelp, shade: "#3f6b3a"}
shaping:
  3: {right: -3}
  4: {left: -3}
  5: {right: -1, left: -1}
  8: {neck-right: -1, neck-left: -1}
divide: {6: {by: BY, sides: SIDES}}
chart: |
  ....AAAA......AAABB....
  ....AAAAA....AAAABB....
  ....AAAAA....AAAABB....
  ....AAAAAAAAAAAAABB....
  ...AAAAAAAAAAAAAABBB...
  AAAAAAAAAAAAAAAAABBB...
  AAAAAAAAAAAAAAAAABBBBBB
  AAAAAAAAAAAAAAAAABBBBBB
"""
# the row's key, its words, and a number in them with a wrong one in its place
TOGETHER = [
    ("3", "BO 3 sts at beg of row, k3 B, k17 A (20 sts)", "k17", "k16"),
    ("3", "Bind off 3 sts, knit 3 B, knit 17 A.", "17", "18"),
    ("3", "cast off first 3 sts, K3B, K17A", "K3B", "K1B"),
    ("3", "Cast off 3 sts at the beginning of the row, with B k2 (3 sts on needle), k17 A", "k17", "k15"),
    ("4", "BO 3 sts at beg of row; p14 A, p3 B. (17 sts)", "(17", "(18"),
    ("4", "Bind off next 3 sts, purl to last 3 sts with A, p3 B", "p3", "p2"),
    ("3-4", "BO 3 sts at beg of next 2 rows", "3 sts", "4 sts"),
    ("5", "k1 B, ssk B, k11 A, k2tog A, k1 A (15 sts)", "k11", "k12"),
    ("5", "With B k1, skpo; with A knit to last 3 sts, k2tog, k1", "k2tog, k1", "k2tog, k2"),
    ("6", "p5 A, place next 4 sts on a holder, join a second ball of A, p4 A, p2 B", "4 sts", "5 sts"),
    ("6", "P5A, sl next 4 sts onto a stitch holder, join 2nd ball, P4A, P2B", "P4A", "P3A"),
    ("6", "P5 A; slip center 4 sts to holder; with a second ball, p4 A, p2 B. Work both sides at once.", "p4", "p5"),
    ("6", "Purl 5 A, leave next 4 sts on a spare needle, join in new yarn, p4 A, p2 B", "5 A", "6 A"),
    ("7", "Right side: k2 B, k4 A; left side: with second ball k5 A", "k4", "k5"),
    ("7", "k2 B, k4 A to neck edge; on other side k5 A", "k5", "k4"),
    ("7", "Working both sides at the same time with separate balls: k2 B, k4 A; k5 A", "k5", "k6"),
]
IN_TURN = [
    ("Right neck side, row 7 (RS)", "k2 B, k4 A (6 sts)", "k4", "k3"),
    ("Left neck side, row 7 (RS)", "k5 A", "k5", "k4"),
    ("left 7", "K5A", "K5A", "K6A"),
    ("right front, row 7", "k5 A", "k5", "k6"),  # as it is worn: its right is at the left of the chart
]
OFF = [
    ("6", "p5 A, bind off next 4 sts, p4 A, p2 B", "next 4", "next 3"),
    ("6", "P5A, cast off 4, P4A, P2B", "off 4", "off 6"),
]
CASES = (
    [("hold", "together", *form) for form in TOGETHER]
    + [("hold", "right-first", *form) for form in IN_TURN]
    + [("bind-off", "together", *form) for form in OFF]
)


def told(by: str, sides: str, key: str, words: str) -> list[str]:
    text = YOKE.replace("BY", by).replace("SIDES", sides)
    reading = read_chart("yoke.chart.yaml", f'{text}written:\n  {key}: "{words}"\n'.encode())
    assert reading.chart is not None
    assert reading.problems == ()
    work = Work(reading.chart)
    names = [name for name in catalogue.NAMES if name.startswith("words/") and name != "words/missing-row"]
    rules = [catalogue.load(name) for name in names]
    return [f.message for rule in rules if rule.check for f in rule.check(work, rule.options())]


@pytest.mark.parametrize(("by", "sides", "key", "words", "right", "wrong"), CASES)
def test_a_usual_form_agrees_and_its_slip_does_not(
    by: str, sides: str, key: str, words: str, right: str, wrong: str
) -> None:
    assert told(by, sides, key, words) == []
    slipped = re.sub(re.escape(right), wrong, words, count=1)
    assert slipped != words
    assert told(by, sides, key, slipped) != []
