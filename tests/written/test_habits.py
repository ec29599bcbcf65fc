"""What designers leave unsaid, each in one row of a chart that only this reading agrees with. Common practice."""

import pytest
from test_garment_words import HEAD, chart

from lintarsia.chart import Chart
from lintarsia.reading import read_chart
from lintarsia.written import WrittenRow, read_written


def row_of(made: Chart, row: int) -> WrittenRow:
    return next(found for found in read_written(made) if found.row == row)


WIDER = ["AAAAA.", "AAAAAB"]  # row 2 (RS) has six: B at the right edge is worked first
FIRST = "first-row: WS\nshaping: {2: {right: 1}}\n"


@pytest.mark.parametrize(
    ("words", "made"),
    [
        ("inc 1 B, k5 A", "BAAAAA"),  # an increase between two stitches takes neither
        ("k1 B, inc 1 A, k4 A", "BAAAAA"),
        ("k1 B, M1, k4 in A", "BAAAAA"),  # the colour named last is that of all before it without one
        ("k1 B, kfb A, k3 A", "BAAAAA"),
        ("k1 B, k1, M1, k3 in A", "BAAAAA"),
        ("kfb, k4 in A", "AAAAAA"),
        ("k1 B, kfb A, k4 A", "BAAAAAA"),
    ],
)
def test_increases(words: str, made: str) -> None:
    row = row_of(chart(WIDER, f"{FIRST}written: {{2: '{words}'}}"), 2)
    assert (row.symbols, row.agrees) == (made, made == "BAAAAA")


def test_an_increase_is_read_plainly_where_that_is_the_row() -> None:
    """One stitch made into two: five on the needle are six."""
    row = row_of(chart(WIDER, f"{FIRST}written: {{2: 'k1 B, inc 1 A, k3 A'}}"), 2)
    assert (row.symbols, row.taken, row.agrees) == ("BAAAAA", 5, True)


NARROWER = ["A" * 9, "AABAAA...", "...AAA..."]
OFF = "first-row: WS\nshaping: {2: {right: -3}, 3: {left: -3}}\n"


@pytest.mark.parametrize(
    ("second", "third", "agree"),
    [
        ("BO 3 sts, k3 A, k1 B, k2 A", "BO 3 sts, p3 A", [True, True]),
        ("BO 3 sts, k2 A, k1 B, k2 A", "BO 3 sts, p2 A", [True, True]),
        ("BO 3 sts, k3 A, k1 B, k to end A", "BO 3 sts, p to end A", [True, True]),
        # One row that counts every stitch shows that none leaves the one on the needle out.
        ("BO 3 sts, k3 A, k1 B, k2 A", "BO 3 sts, p2 A", [True, False]),
        ("BO 3 sts, k2 A, k1 B, k2 A", "BO 3 sts, p3 A", [False, True]),
        # Stitches counted as those on the needle are all of them.
        ("BO 3 sts, k until 3 sts on RH needle in A, k1 B, k2 A", "BO 3 sts, p to end A", [True, True]),
        ("BO 3 sts, k until 2 sts on RH needle in A, k1 B, k2 A", "BO 3 sts, p to end A", [False, True]),
    ],
)
def test_the_stitch_left_by_binding_off(second: str, third: str, agree: list[bool]) -> None:
    made = chart(NARROWER, f"{OFF}written: {{2: '{second}', 3: '{third}'}}")
    assert [row.agrees for row in read_written(made)] == agree


@pytest.mark.parametrize(
    ("words", "fault"),
    [
        ("k3 B, mind the dog, k4 A", None),
        ("Mind the dog: k3 B; then feed it, k4 A", None),
        ("k3 B, mind the dog, k3 A", "'mind' says nothing here; expected stitches such as k3 A"),
        ("k3 B, mind three dogs, k4 A", "'mind' says nothing here; expected stitches such as k3 A"),
        ("oh, ah, eh, k3 B, k4 A", None),
        ("oh, ah, eh, ih, k3 B, k4 A", "'oh' says nothing here; expected stitches such as k3 A"),
    ],
)
def test_a_remark_that_nobody_understands(words: str, fault: str | None) -> None:
    """Passed over where the row then is the chart's; three in a row at most."""
    row = row_of(chart(["AAAABBB"], f"written: {{1: '{words}'}}"), 1)
    assert (row.fault and row.fault.message, row.agrees) == (fault, fault is None)


@pytest.mark.parametrize(
    ("third", "fourth", "made"),
    [
        ("as row 1", "as row 2", ["BBBAA", "AABBB"]),
        ("as row 1", "as row 3", ["BBBAA", "BBBAA"]),
        ("as row 1", "as row 4", ["BBBAA", None]),
        ("as row 9", "as row 3", [None, None]),
        ("rep row 2", "work as for row 1", ["AABBB", "BBBAA"]),
    ],
)
def test_a_row_said_by_another(third: str, fourth: str, made: list[str | None]) -> None:
    text = f"written: {{1: 'k3 B, k2 A', 2: 'p2 A, p3 B', 3: {third}, 4: {fourth}}}"
    rows = read_written(chart(["AABBB"] * 4, text))[2:]
    assert [row.symbols if row.fault is None else None for row in rows] == made


def test_rows_that_come_again_come_in_turn() -> None:
    text = "written: {1: 'k3 B, k2 A', 2: 'p2 A, p3 B', 3-6: 'rep rows 1–2 once more'}"
    assert [row.symbols for row in read_written(chart(["AABBB"] * 6, text))] == ["BBBAA", "AABBB"] * 3


def test_colours_as_they_appear_are_those_of_the_row_below_from_where_the_row_begins() -> None:
    words = "written: {1: 'k3 B, k2 A', 2: '%s each st in the colour as it appears'}"
    assert row_of(chart(["AABBB", "AABBB"], words % "p"), 2).symbols == "AABBB"
    assert row_of(chart(["AABBB", "AABBB"], "worked: round\n" + words % "k"), 2).symbols == "BBBAA"
    assert row_of(chart(["AABBB", "ABBBB"], words % "p"), 2).agrees is False


@pytest.mark.parametrize(
    ("words", "off"),
    [
        ("ssk A, k4 A", False),
        ("ssk A, k3 A, m1 A", True),  # five stitches, and one that is left on the needle
        ("ssk A, k4 A, m1 A", True),
        ("k5 A", False),
        ("dec 1 st at beg; k5 A", False),
    ],
)
def test_a_shaped_row_works_the_whole_needle(words: str, off: bool) -> None:
    row = row_of(
        chart(["A" * 6, "AAAAA."], f"first-row: WS\nshaping: {{2: {{right: -1}}}}\nwritten: {{2: '{words}'}}"), 2
    )
    assert row.count_is_off is off


def test_a_side_of_an_opening_is_said_by_the_same_side_of_another_row() -> None:
    slit = "divide: {2: {by: nothing, at: 4, sides: right-first}}\n"
    words = "written: {1: 'k3 B, k4 A', left 2: p4 A, right 2: p3 B, left 3: as row 2, right 3: as row 1}"
    rows = {(row.row, row.half): row for row in read_written(chart(["AAAABBB"] * 3, slit + words))}
    assert rows[3, "left"].symbols == "AAAA"
    assert rows[3, "right"].symbols == "BBBAAAA", "row 1 has no sides: the words for the whole row"


def test_of_two_entries_for_a_row_the_first_stands() -> None:
    """That it is written twice is told; whichever is left, words for two rows are those of the first."""
    text = f"{HEAD}written: {{1-2: k5 A, 2-3: p5 B}}\nchart: |\n  AAAAA\n  AAAAA\n  BBBBB\n"
    reading = read_chart("yoke.chart.yaml", text.encode())
    assert [finding.key for _, finding in reading.problems] == ["written-twice"]
    assert reading.chart is not None
    assert [(row.row, row.rows, row.symbols) for row in read_written(reading.chart)] == [
        (1, (1, 2), "AAAAA"),
        (2, (1, 2), "AAAAA"),
        (3, (2, 3), "BBBBB"),
    ]
