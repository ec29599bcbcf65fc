"""What a rule from elsewhere says of itself, and what it finds, is looked over piece by piece."""

from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from typing import Any

import pytest

from lintarsia.reading import read_chart
from lintarsia.result import Basis, Edit, Finding, Fix, Level, Region, RuleInfo
from lintarsia.rules.base import NoOptions, Rule, Work
from lintarsia.settings.vetting import Unsound, own_rule

INFO = RuleInfo("ours/edge", Level.NOTE, "an edge", "why", "remedy", {"far": "too far", "near": "too near"})
CHART = """\
lintarsia: 1
title: Lopsided
gauge: {stitches: 22, rows: 30, over: 10 cm}
colours: {A: {name: Deep sea, shade: "#27406b"}, B: {name: Bone, shade: "#efe9dc"}}
chart: |
  AAABB
  AAABB
  AABBB
"""
PLACE = Region(6, 3, 6, 5)
NO_KEY = "is no key of ours/edge; expected small letters, digits and hyphens, and a phrase"
NO_BASIS = "judges_by of ours/edge is not a set of lintarsia.result.Basis"
GOOD = Finding("far", "row 3 is far", PLACE, 3, (1, 5))


def make(options: Any = NoOptions, **changes: Any) -> Rule:
    return own_rule(Rule(replace(INFO, **changes), options, lambda work, options: iter(())), "of a test")


@pytest.mark.parametrize(
    ("changes", "told"),
    [
        ({"name": 7}, "7 is no rule name; expected group/name in small letters, digits and hyphens"),
        ({"name": "edge"}, "'edge' is no rule name; expected group/name in small letters, digits and hyphens"),
        ({"level": "note"}, "the level of ours/edge is 'note', not one of lintarsia.result.Level"),
        ({"summary": ""}, "ours/edge says nothing in summary"),
        ({"why": "  "}, "ours/edge says nothing in why"),
        ({"remedy": 3}, "ours/edge says nothing in remedy"),
        ({"keys": [("far", "too far")]}, "ours/edge has no keys"),
        ({"keys": {}}, "ours/edge has no keys"),
        ({"keys": {1: "x"}}, f"1 {NO_KEY}"),
        ({"keys": {"Far": "x"}}, f"'Far' {NO_KEY}"),
        ({"keys": {"far": 2}}, f"'far' {NO_KEY}"),
        ({"sources": "a book"}, "the sources of ours/edge are not a tuple of texts"),
        ({"sources": ("a book", 3)}, "the sources of ours/edge are not a tuple of texts"),
        ({"suppressible": 1}, "suppressible of ours/edge is not True or False"),
        ({"acceptable": None}, "acceptable of ours/edge is not True or False"),
        ({"fix_from_plan": "no"}, "fix_from_plan of ours/edge is not True or False"),
        ({"blinds": 0}, "blinds of ours/edge is not True or False"),
        ({"judges_by": (Basis.GAUGE,)}, NO_BASIS),
        ({"judges_by": frozenset({Basis.GAUGE, "size"})}, NO_BASIS),
    ],
)  # fmt: skip
def test_what_a_rule_may_not_say_of_itself(changes: dict[str, Any], told: str) -> None:
    with pytest.raises(Unsound) as raised:
        make(**changes)
    assert str(raised.value) == told


def test_what_it_may_say() -> None:
    rule = make(sources=(), judges_by=frozenset({Basis.COLOURS}), suppressible=False)
    assert (rule.origin, rule.info.sources, rule.options) == ("of a test", (), NoOptions)


@dataclass(frozen=True)
class NoDefault:
    depth: int


@dataclass(frozen=True)
class OfBytes:
    width: int = 3
    depth: bytes = b""


@dataclass(frozen=True)
class Failing:
    depth: int = field(default_factory=lambda: int("x"))


def test_options() -> None:
    for options, told in (
        (dict, "the Options of ours/edge are not a dataclass"),
        (OfBytes(), "the Options of ours/edge are not a dataclass"),
        (NoDefault, "the option depth of ours/edge has no default"),
        (OfBytes, "the option depth of ours/edge has a type that settings cannot state (<class 'bytes'>)"),
    ):
        with pytest.raises(Unsound) as raised:
            make(options)
        assert str(raised.value) == told
    with pytest.raises(Unsound, match=r"^the Options of ours/edge cannot be made \(ValueError: .*, test_vetting.py"):
        make(Failing)


def fix(*edits: Any) -> Fix:
    return Fix("x", edits)


def edit(*parts: Any) -> Edit:
    return Edit(*parts)


def look_over(found: object) -> list[Any]:
    chart = read_chart("x.chart.yaml", CHART.encode()).chart
    assert chart is not None

    def check(work: Work, options: NoOptions) -> Iterator[Any]:
        yield found

    rule = own_rule(Rule(INFO, NoOptions, check), "of a test")
    assert rule.check is not None
    return list(rule.check(Work(chart), NoOptions()))


def but(**parts: Any) -> Finding:
    """The good one, but for some parts, which may be anything."""
    return replace(GOOD, **parts)


def region(*numbers: Any) -> Finding:
    return but(region=Region(*numbers))


SPAN = "not a whole number from 1 to"


@pytest.mark.parametrize(
    ("found", "told"),
    [
        ("text", "it found 'text', which is no Finding"),
        (but(key="low"), "its key 'low' is not one of far, near"),
        (but(message=" "), "a finding has no message"),
        (but(message=3), "a finding has no message"),
        (but(region=(6, 3, 6, 5)), "its region is (6, 3, 6, 5), not a Region of whole numbers from 1"),
        (region(6, 0, 6, 5), "its region is Region(line=6, column=0, end_line=6, end_column=5), not a Region of whole"),
        (region(6, 3, 6, 5.0), "its region is Region(line=6, column=3, end_line=6, end_column=5.0), not a Region of"),
        (region(6, 3, 6, 2), "its region ends before it begins"),
        (region(6, 3, 5, 9), "its region ends before it begins"),
        (but(row=0), f"its row is 0, {SPAN} 3"),
        (but(row=4), f"its row is 4, {SPAN} 3"),
        (but(row=True), f"its row is True, {SPAN} 3"),
        (but(stitches=(0, 5)), f"its stitch is 0, {SPAN} 5"),
        (but(stitches=(1, 6)), f"its stitch is 6, {SPAN} 5"),
        (but(row=None), "stitches are not (first, last) of a row"),
        (but(stitches=(1,)), "stitches are not (first, last) of a row"),
        (but(level="note"), "its level is 'note', not one of lintarsia.result.Level"),
        (but(pattern=3), "its pattern or remedy is not a text"),
        (but(remedy=3), "its pattern or remedy is not a text"),
        (but(fixes=("x",)), "its fixes are not Fixes made of Edits"),
        (but(fixes=(fix("y"),)), "its fixes are not Fixes made of Edits"),
        (but(fixes=(fix(edit(PLACE, 3)),)), "its fixes are not Fixes made of Edits"),
        (but(fixes=(Fix("x", (Edit(Region(0, 1, 1, 1), "A"),)),)), "its region is Region(line=0"),
    ],
)  # fmt: skip
def test_what_it_may_not_find(found: object, told: str) -> None:
    with pytest.raises((TypeError, ValueError)) as raised:
        look_over(found)
    assert told in str(raised.value)
    assert str(raised.value).startswith(told[:20])


@pytest.mark.parametrize(
    "found",
    [
        GOOD,
        but(row=1, stitches=(5, 5), level=Level.ERROR, remedy="mend it", pattern="AB"),
        but(row=None, stitches=None, region=Region(1, 1, 1, 1)),
        but(stitches=None, fixes=(Fix("x", (Edit(PLACE, "A"), Edit(Region(6, 5, 6, 5), "")), safe=False),)),
    ],
)
def test_what_it_may_find(found: Finding) -> None:
    assert look_over(found) == [found]
