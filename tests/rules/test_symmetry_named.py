"""symmetry/broken: which of two places it names, and what it says of them, by the plainest way."""

from collections import Counter

import pytest
from checking import HEAD, found, told
from hypothesis import given, settings
from hypothesis import strategies as st

GAUGE = "gauge: {stitches: 22, rows: 30, over: 10 cm}\n"
GRIDS = st.integers(1, 6).flatmap(
    lambda width: st.lists(st.text("BBBWR.", min_size=width, max_size=width), min_size=1, max_size=5)
)
Place = tuple[int, int]


def with_stitches(rows: list[str]) -> bool:
    """A chart has a stitch in it, and every row its full width, or the reader has its say."""
    return all(row.strip(".") for row in rows)


def partner(place: Place, rows: list[str], symmetry: str) -> Place:
    """Rows and columns count from 0, rows bottom-up."""
    row, column = place
    height, width = len(rows), len(rows[0])
    turned = {
        "left-right": (row, width - 1 - column),
        "top-bottom": (height - 1 - row, column),
        "half-turn": (height - 1 - row, width - 1 - column),
    }
    return turned[symmetry]


def standing(place: Place, rows: list[str]) -> tuple[int, int]:
    """How many of the eight neighbours have the place's own colour, and how often the chart has it."""
    row, column = place
    own = rows[row][column]
    around = [
        rows[r][c]
        for r in range(max(0, row - 1), min(len(rows), row + 2))
        for c in range(max(0, column - 1), min(len(rows[0]), column + 2))
        if (r, c) != place
    ]
    return around.count(own), Counter("".join(rows))[own]


@settings(max_examples=200)
@given(GRIDS, st.sampled_from(["left-right", "top-bottom", "half-turn"]))
def test_the_odd_one_of_two_is_named(rows: list[str], symmetry: str) -> None:
    """Fewer neighbours of its own; else the rarer colour; else the upper one, or the left one of a row."""
    if not with_stitches(rows):
        return
    wanted = set()
    for row in range(len(rows)):
        for column in range(len(rows[0])):
            here, there = (row, column), partner((row, column), rows, symmetry)
            if rows[row][column] != rows[there[0]][there[1]]:
                first, second = standing(here, rows), standing(there, rows)
                upper = here[0] > there[0] or (here[0] == there[0] and here[1] < there[1])
                if first < second or (first == second and upper):
                    wanted.add(here)
    named = set()
    for finding in found("symmetry/broken", " ".join(reversed(rows)), f"{GAUGE}symmetry: [{symmetry}]\n"):
        if finding.row is None:  # the whole motif stands off the middle: test_symmetry_broken.py looks at those
            return
        assert finding.stitches is not None
        width = len(rows[0])
        named |= {(finding.row - 1, width - stitch) for stitch in range(finding.stitches[0], finding.stitches[1] + 1)}
    assert named == wanted


@settings(max_examples=100)
@given(GRIDS, st.data())
def test_stitches_that_the_repeat_does_not_give(rows: list[str], data: st.DataObject) -> None:
    """The box may stand anywhere; what is outside is compared with the place in the box it would be worked from."""
    if not with_stitches(rows):
        return
    height, width = len(rows), len(rows[0])
    low = data.draw(st.integers(1, height))
    high = data.draw(st.integers(low, height))
    right = data.draw(st.integers(1, width))
    left = data.draw(st.integers(right, width))
    wanted = set()
    for row in range(1, height + 1):
        for stitch in range(1, width + 1):
            from_row = (row - low) % (high - low + 1) + low
            from_stitch = (stitch - right) % (left - right + 1) + right
            if rows[row - 1][width - stitch] != rows[from_row - 1][width - from_stitch]:
                wanted.add((row, stitch))
    extra = f"{GAUGE}symmetry: [repeat]\nrepeat: {{stitches: [{right}, {left}], rows: [{low}, {high}]}}\n"
    named = set()
    for finding in found("symmetry/broken", " ".join(reversed(rows)), extra):
        assert finding.row is not None
        assert finding.stitches is not None
        named |= {(finding.row, stitch) for stitch in range(finding.stitches[0], finding.stitches[1] + 1)}
    assert named == wanted


@pytest.mark.parametrize(
    ("grid", "symmetry", "expected"),
    [
        ("BBWB", "left-right", ["row 1, stitch 2: W; mirrored left to right it meets row 1, stitch 3, B"]),
        (
            "BBBBWW",
            "left-right",
            ["row 1, stitches 1–2: W; mirrored left to right it meets row 1, stitches 5–6, B"],
        ),
        ("BBB BWB BBB BBB", "top-bottom", ["row 3, stitch 2: W; mirrored top to bottom it meets row 2, stitch 2, B"]),
        ("BBBB BBBW", "half-turn", ["row 1, stitch 1: W; turned by half it meets row 2, stitch 4, B"]),
        ("BBB.", "left-right", ["row 1, stitch 1: no stitch (.); mirrored left to right it meets row 1, stitch 4, B"]),
        ("WBBR", "left-right", ["row 1, stitch 4: W; mirrored left to right it meets row 1, stitch 1, R"]),
    ],
)
def test_both_places_are_told(grid: str, symmetry: str, expected: list[str]) -> None:
    assert told("symmetry/broken", grid, f"{GAUGE}symmetry: [{symmetry}]\n") == expected


def test_a_chart_that_differs_all_over_is_told_once() -> None:
    """More than 200 squares, and more than a fifth of all."""
    half = "B" * 21 + "W" * 21
    (finding,) = found("symmetry/broken", f"{half} " * 10, f"{GAUGE}symmetry: [top-bottom, left-right]\n")
    assert finding.message == (
        "210 of 420 squares differ mirrored left to right; the chart does not have this symmetry"
    )
    assert (finding.row, finding.stitches) == (None, None)
    symmetry_line = HEAD.count("\n") + 2
    assert finding.region == (symmetry_line, 24, symmetry_line, 34)
    fifth = "B" * 21 + "R" * 63 + "W" * 21  # 210 of 1,050: just a fifth
    assert len(found("symmetry/broken", f"{fifth} " * 10, f"{GAUGE}symmetry: [left-right]\n")) == 10
    fewer = "B" * 20 + "W" * 20  # 200 of 400: each row is told
    assert len(found("symmetry/broken", f"{fewer} " * 10, f"{GAUGE}symmetry: [left-right]\n")) == 10
    wide = "B" * 21 + "R" * 60 + "R" * 60 + "W" * 21  # 210 of 1,620, which is less than a fifth
    assert len(found("symmetry/broken", f"{wide} " * 10, f"{GAUGE}symmetry: [left-right]\n")) == 10
