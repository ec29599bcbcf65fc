"""A picture with clear surroundings brings its shaping with it: set beside what designers wrote for the same outline,
and counted by the check, which knows nothing of how the outline was followed.
"""

import random
from pathlib import Path

import pytest

from folding import each
from lintarsia.bringing.bring import bring
from lintarsia.bringing.outline import UntoldError, outline
from lintarsia.chart import Chart
from lintarsia.chart.sides import row_changes
from lintarsia.reading import read_chart
from lintarsia.rules import catalogue
from lintarsia.rules.base import Work

EXAMPLES = Path(__file__).parents[2] / "examples"
SHAPED = ["fox-jumper/front", "lighthouse-jumper-front", "harbour-buoy-cardigan-left-front", "little-boat-jumper"]
COUNTING = ("grid/stitch-count", "grid/opening", "grid/parted-row")


def brought(rows: list[str]) -> tuple[Chart, tuple[str, ...]]:
    """Rows from the top line down, as a table brings them."""
    made = bring("shape.txt", "\n".join(rows).encode())
    reading = read_chart("shape.chart.yaml", made.text.encode())
    assert reading.problems == ()
    assert reading.chart is not None
    return reading.chart, made.notes


def told(chart: Chart, rules: tuple[str, ...] = COUNTING) -> list[str]:
    work = Work(chart)
    return [
        f.message for name in rules if (rule := catalogue.load(name)).check for f in rule.check(work, rule.options())
    ]


@pytest.mark.parametrize("name", SHAPED)
def test_the_outline_of_a_garment_is_shaped_as_its_designer_wrote(name: str) -> None:
    own = read_chart(str(EXAMPLES / f"{name}.chart.yaml")).chart
    assert own is not None
    chart, notes = brought(list(own.grid.rows[::-1]))
    assert {row: d.row for row, d in chart.divide.items()} == {row: d.row for row, d in own.divide.items()}
    last = chart.grid.height  # a row in which nothing is left is cut off at the top
    for row in range(1, last + 1):
        changes = [(c.edge, c.net) for c in row_changes(chart, row)]
        assert sorted(changes, key=str) == sorted([(c.edge, c.net) for c in row_changes(own, row)], key=str), row
    assert told(chart) == []
    assert any("shaped as the outline goes" in note for note in notes)


@each("lot", range(60))
def test_any_outline_that_is_followed_counts_up(lot: int) -> None:
    rows = drawn(random.Random(lot))
    chart, _ = brought(rows[::-1])
    assert chart.grid.rows == tuple(row for row in rows if row.strip("."))
    assert told(chart) == []


def drawn(lot: random.Random) -> list[str]:
    """A body with edges that wander, a neck that opens by two or by many, sides that end in different rows."""
    width, body, high = lot.randint(14, 24), lot.randint(2, 5), lot.randint(3, 8)
    left, right = lot.randint(0, 2), lot.randint(0, 3)
    rows = []
    for _ in range(body):
        left, right = max(0, left + lot.choice([-1, 0, 0, 1])), max(0, right + lot.choice([-1, 0, 0, 2]))
        rows.append("." * left + "A" * (width - left - right) + "." * right)
    at, gap = width // 2 - lot.randint(0, 1), lot.choice([1, 2, 4])
    ends = body + lot.randint(2, high)
    for row in range(body, body + high):
        line = "." * left + "B" * (width - left - right) + "." * right
        gap += lot.choice([0, 1]) if row > body else 0
        line = line[:at] + "." * gap + line[at + gap :]
        rows.append("." * at + line[at:] if row >= ends else line)
    return rows


def test_armholes_drawn_in_one_row_are_moved_to_where_the_yarn_is_by_the_safe_fix() -> None:
    chart, _ = brought(["...AAAA...", "AAAAAAAAAA", "AAAAAAAAAA"])
    [late] = told(chart, ("grid/shaping-side",))
    assert late.startswith("row 3 (RS) binds off 3 stitches at the left edge, where the row ends")


@pytest.mark.parametrize(
    ("rows", "why"),
    [
        (["AA.A.AA", "AAAAAAA"], "row 2 stands in 3 parts"),
        (["AAAAAAA", "AA..AAA"], "row 1 stands in several parts"),
        (["....AAA", "AAA...."], "row 2 has no stitch above one of row 1"),
        (["AAAAAAA", "AA..AAA", "AAAAAAA"], "the hole beneath row 3 is closed again"),
        (["AA.BB......", "AAA....AAAA", "AAAAAAAAAAA"], "row 3 has a part that is not knitted on from row 2"),
        (["......BB..A", "AAA....AAAA", "AAAAAAAAAAA"], "row 3 has a part that is not knitted on from row 2"),
        (["AA..AAA", "AAAA..."], "row 2 stands in two parts that are not both knitted on from row 1"),
    ],
)
def test_what_no_hands_could_follow_is_left_to_a_person_and_said(rows: list[str], why: str) -> None:
    with pytest.raises(UntoldError, match=f"^{why}$"):
        outline(rows[::-1])
    chart, notes = brought(rows)
    assert not chart.shaping
    assert not chart.divide
    assert notes == (f"the rows differ in width: say in `shaping` how ({why}, so nothing is written)",)


def test_a_slit_of_one_stitch_is_decreased_on_one_side() -> None:
    made = outline(["AAAAAAAAA", "AAAA.AAAA", "AAA...AAA"])
    assert made.lines() == [
        "shaping:",
        "  2: {neck-left: -1}",
        "  3: {neck-left: -1, neck-right: -1}",
        "divide:",
        "  2: {by: nothing, sides: together, at: 4}",
    ]


@pytest.mark.parametrize(
    ("gap", "how"), [(2, "{by: nothing, sides: together, at: 6}"), (3, "{by: bind-off, sides: together}")]
)
def test_from_three_stitches_on_the_neck_is_bound_off(gap: int, how: str) -> None:
    made = outline(["A" * 12, "A" * 5 + "." * gap + "A" * (7 - gap)])
    assert made.divide == {2: how}
    assert made.shaping == ({2: {"neck-left": "-1", "neck-right": "-1"}} if gap == 2 else {})


def test_a_row_without_a_stitch_binds_off_what_was_there_and_none_follows() -> None:
    """At the edge where the row starts: the left of a wrong-side row, the right of a right-side row."""
    assert outline(["..AAAAA.", "........", "........"]).shaping == {2: {"left": "{bind-off: 5}"}}
    assert outline(["..AAAAA.", "..AAAAA.", "........"]).shaping == {3: {"right": "{bind-off: 5}"}}
    with pytest.raises(UntoldError, match=r"^row 2 has no stitch, and row 3 has$"):
        outline(["..AAAAA.", "........", "..AAAAA."])


def test_empty_rows_around_a_picture_are_left_out_and_a_tube_is_not_shaped() -> None:
    chart, notes = brought(["......", ".AAAA.", "AAAAAA", "......"])
    assert chart.grid.rows == ("AAAAAA", ".AAAA.")
    assert notes[0] == "2 rows without a stitch at top or bottom left out"
