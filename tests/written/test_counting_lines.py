"""What the head of a page says of how shaped rows count. That the stitch left on the needle is counted with what
follows is the house's way (`shapingwords.py`): of 20 stitches 3 are bound off, 17 are worked and none is left over."""

import pytest

from lintarsia.written.countinglines import counting_lines

OFF = "A shaped row that says {} counts the stitch then left on the needle with those that follow."


@pytest.mark.parametrize(
    ("row", "line"),
    [
        ("BO 3 sts at beg (right edge); k17 B", OFF.format("BO")),
        ("cast off 3 sts at beg (neck edge); p2 A", OFF.format("cast off")),
        ("dec 1 st at each end; k9 A", "A shaped row that says dec tells its stitches as they are after that."),
        ("inc 2 sts at end (left edge); k9 A", "A shaped row that says inc tells its stitches as they are after that."),
        ("CO 2 sts at beg (right edge); k9 A", "A shaped row that says CO tells its stitches as they are after that."),
    ],
)
def test_rows_that_need_it(row: str, line: str) -> None:
    assert list(counting_lines([row, "k5 A"])) == [line]


@pytest.mark.parametrize(
    "row", ["k2 A, ssk A, k3 A, k2tog A, k2 A", "BO rem 3 sts; fasten off", "k5 A; CO 3 sts", "k4 B"]
)
def test_rows_that_say_it_as_they_are_worked(row: str) -> None:
    assert list(counting_lines([row])) == []


def test_both_kinds_in_one_page() -> None:
    found = list(counting_lines(["inc 1 st at end (left edge); k9 A", "dec 1 st at each end; k7 A", "BO 3 sts; k4 A"]))
    assert found == ["A shaped row that says dec or inc tells its stitches as they are after that.", OFF.format("BO")]
