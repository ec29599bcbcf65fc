"""Every chart that is a case of a rule, mended both ways: twice is once, and nothing graver comes of it."""

import pytest

from casefiles import every_case
from folding import some
from lintarsia.engine import check_chart
from lintarsia.mending import mend
from lintarsia.reading import read_chart
from lintarsia.result import Kind, Level
from lintarsia.settings import Settings

HOUSE = Settings(root="/")
CASES = [case for case in every_case() if case.kind is Kind.CHART]


@pytest.mark.parametrize(
    ("risky", "end"),
    [
        pytest.param(False, "\n", id="safe, LF"),
        pytest.param(True, "\r\n", id="risky, CRLF"),
        pytest.param(False, "\r\n", id="safe, CRLF", marks=pytest.mark.slow),
        pytest.param(True, "\n", id="risky, LF", marks=pytest.mark.slow),
    ],
)
def test_mending_twice_is_mending_once_and_safe_fixes_change_no_stitch(risky: bool, end: str) -> None:
    changed = 0
    for case in some(CASES, 3):
        data = case.chart.replace("\n", end).encode()
        mended = mend("x.chart.yaml", data, HOUSE, risky=risky)
        if mended.data == data:
            continue  # mended again it is the same once more
        changed += 1
        assert mend("x.chart.yaml", mended.data, HOUSE, risky=risky).data == mended.data, case.file
        assert errors(mended.data) <= errors(data), case.file
        assert mended.data.count(b"\n") - mended.data.count(b"\r\n") == (
            0 if end == "\r\n" else mended.data.count(b"\n")
        )
        assert risky or every_stitch_is_there(data, mended.data), case.file
    assert changed > 10


def errors(data: bytes) -> int:
    return sum(r.level is Level.ERROR and not r.suppressed for r in check_chart("x.chart.yaml", data, HOUSE).results)


def every_stitch_is_there(data: bytes, mended: bytes) -> bool:
    """Safe fixes add what is certain to be missing; every stitch of the grid stands there still, in its order. Squares
    without a stitch may become stitches: a bind-off at the end of a row moves to the next."""
    before, after = (read_chart("x.chart.yaml", text).chart for text in (data, mended))
    if before is None or after is None:
        return True
    return all(is_part(old.replace(".", ""), new) for old, new in zip(before.grid.rows, after.grid.rows, strict=True))


def is_part(old: str, new: str) -> bool:
    """Whether `old` is `new` with some characters left out."""
    rest = iter(new)
    return all(symbol in rest for symbol in old)


def test_a_lone_stitch_becomes_duplicate_stitch_in_a_list_that_is_there() -> None:
    text = (
        "lintarsia: 1\ntitle: Specks\ngauge: {stitches: 22, rows: 30, over: 10 cm}\ncolours:\n"
        '  B: {name: Dusk blue, shade: "#27406b"}\n  W: {name: Bone, shade: "#efe9dc"}\n'
        "chart: |\n  BBBBBBBBBBB\n  BBBWBBBWBBB\n  BBBBBBBBBBB\n  BBBBBWBBBBB\n  BBBBBBBBBBB\n"
    )
    safe = mend("x.chart.yaml", text.encode(), HOUSE)
    assert safe.data == text.encode()
    mended = mend("x.chart.yaml", text.encode(), HOUSE, risky=True)
    section = (
        'duplicate-stitch:\n  - {colour: "W", row: 4, stitches: [8, 8]}\n  - {colour: "W", row: 4, stitches: [4, 4]}\n'
        '  - {colour: "W", row: 2, stitches: [6, 6]}\n'
    )
    assert mended.data.decode() == text.replace("W", "B").replace("  B: {name: Bone", "  W: {name: Bone").replace(
        "chart: |", section + "chart: |"
    )
    assert not all(fixed.safe for fixed in mended.fixed)


def test_a_pattern_is_mended_too() -> None:
    case = next(case for case in every_case() if case.kind is Kind.PATTERN)
    whole = case.chart.encode()
    assert whole.startswith(b"lintarsia-pattern: 1\n")
    mended = mend("x.pattern.yaml", whole.removeprefix(b"lintarsia-pattern: 1\n"), HOUSE)
    assert mended.data == whole
