"""Results counted, weighed, marked, packed and put aside."""

import pytest

from lintarsia.ground.packing import PAYS_FROM, packed, unpacked
from lintarsia.result import Finding, Level, Region, Report, Result, RuleInfo
from lintarsia.result.fingerprints import fingerprints
from lintarsia.result.spool import Spool

ERROR, WARNING, NOTE, OFF = Level.ERROR, Level.WARNING, Level.NOTE, Level.OFF


def result(file: str, level: Level, line: int = 1, *, kept: bool = False, rule: str = "a/b") -> Result:
    return Result(rule, "k", level, "m", file, Region(line, 1, line, 2), suppressed=kept)


LOPSIDED = (
    *[result("a", ERROR)] * 2,
    *[result("a", WARNING, kept=True)] * 3,
    *[result("b", WARNING)] * 5,
    *[result("b", ERROR, kept=True)] * 4,
    *[result("c", NOTE)] * 7,
)


def test_levels_are_in_order() -> None:
    assert [level.rank for level in (OFF, NOTE, WARNING, ERROR)] == [0, 1, 2, 3]
    assert [WARNING.reaches(level) for level in (OFF, NOTE, WARNING, ERROR)] == [True, True, True, False]


def test_a_group_is_what_stands_before_the_stroke() -> None:
    assert RuleInfo("float/too-long", NOTE, "s", "w", "r", {}).group == "float"


def test_what_is_suppressed_is_counted_apart() -> None:
    report = Report(3, LOPSIDED)
    assert [report.count(level) for level in (ERROR, WARNING, NOTE)] == [2, 5, 7]
    assert report.suppressed == 7


@pytest.mark.parametrize(
    ("blocking", "of", "blocked", "number"),
    [
        (ERROR, {}, True, 2),
        (WARNING, {}, True, 7),
        (NOTE, {}, True, 14),
        (OFF, {}, False, 0),
        (ERROR, {"a": OFF}, False, 0),
        (OFF, {"b": WARNING}, True, 5),
        (OFF, {"b": ERROR}, False, 0),
        (ERROR, {"a": OFF, "c": NOTE}, True, 7),
    ],
)
def test_what_blocks(blocking: Level, of: dict[str, Level], blocked: bool, number: int) -> None:
    report = Report(3, LOPSIDED, blocking=blocking, blocking_of=of)
    assert report.blocked is blocked
    assert sum(map(report.blocks, LOPSIDED)) == number


def test_results_are_ordered_by_file_then_place_then_rule() -> None:
    one, two, three, four = (
        result("a", NOTE, 2),
        result("a", NOTE, 10),
        result("b", ERROR, 1),
        result("b", NOTE, 1, rule="c/d"),
    )
    assert sorted((four, three, two, one), key=lambda r: r.order) == [one, two, three, four]


def told(message: str, pattern: str = "", key: str = "k") -> tuple[str, Finding]:
    return "a/b", Finding(key, message, Region(1, 1, 1, 1), pattern=pattern)


def test_marks_do_not_know_of_rows_and_count_what_is_alike() -> None:
    rows = ("row 3 has 5 stitches", "row 14 has 5 stitches", "rows 3–5 and 7 have 5 stitches", "row 3 has 6 stitches")
    marks = [fingerprints([told(message)])[0].own for message in rows]
    assert marks[0] == marks[1]
    assert len(set(marks)) == 3
    assert all(len(mark) == 32 and int(mark, 16) >= 0 for mark in marks)
    rounds = [
        fingerprints([told(m)])[0].own for m in ("rounds 3 to 5, 9 differ", "rounds 4–6 differ", "rounds 1 differ")
    ]
    assert len(set(rounds)) == 1
    several = fingerprints([told("x", "P"), told("other", "P"), told("x", "Q"), told("y", "P"), told("x", "P", "l")])
    assert [mark.alike for mark in several] == ["", several[0].own, "", several[0].own, ""]
    assert len({mark.own for mark in several}) == 5
    assert fingerprints([told("z", "P")])[0] == several[0]


@pytest.mark.parametrize("size", [3, PAYS_FROM - 100, PAYS_FROM * 3])
def test_what_is_packed_comes_back(size: int) -> None:
    what = {"a": "x" * size, "b": (1, None)}
    data = packed(what)
    assert unpacked(data) == what
    assert data[:1] == (b"z" if size > PAYS_FROM else b"p")
    assert len(data) < max(size + 100, 200) if size < PAYS_FROM else len(data) < size / 10


@pytest.mark.parametrize("held", [0, 4, 11, 12, 100])
def test_a_spool_gives_all_in_order_wherever_they_lie(held: int) -> None:
    files = {
        "c": [result("c", NOTE, n) for n in (7, 2, 4)],
        "a": [],
        "b": [result("b", WARNING, n) for n in range(9, 0, -1)],
    }
    spool = Spool(held)
    for own in files.values():
        spool.add(own)
    found = spool.results()
    assert isinstance(found, tuple) is (held >= 12)
    assert [(r.file, r.region.line) for r in found] == [("b", n) for n in range(1, 10)] + [("c", n) for n in (2, 4, 7)]
    assert len(found) == 12
    assert (found[0].file, found[-1].region.line, found[8].region.line) == ("b", 7, 9)
    assert [r.region.line for r in found[8:11]] == [9, 2, 4]
    with pytest.raises(IndexError):
        found[12]
    report = Report(3, found)
    assert [report.count(level) for level in (ERROR, WARNING, NOTE)] == [0, 9, 3]
    assert list(found) == list(found), "they can be had twice"
