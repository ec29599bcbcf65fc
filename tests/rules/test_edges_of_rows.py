"""Rules on rows, floats, repeats, steps and lengths to wind at more of their edges."""

from typing import Any

import pytest
from checking import GAUGE, found, told

from lintarsia.chart import Limits
from lintarsia.chart.measure import Length, StitchCount

STRANDED = GAUGE + "technique: stranded\n"
Places = list[tuple[int, tuple[int, int]]]


def places(*given: Any, **options: Any) -> list[tuple[int | None, tuple[int, int] | None]]:
    return [(finding.row, finding.stitches) for finding in found(*given, **options)]


# Floats -----------------------------------------------------------------------------------------------------------

FAR_CARRY = "BBBBBBBBBBBBWWW BBBWWWWWWWWWWWW"  # W begins nine stitches from where it ended


def test_carries_between_rows_are_floats_only_where_stranding_is_chosen() -> None:
    """In plain intarsia the carry limit is the say on them."""
    assert told("float/too-long", FAR_CARRY, GAUGE + "limits: {carry: 20}\n") == []
    mixed = GAUGE + "technique: mixed\nlimits: {carry: 20}\n"
    assert places("float/too-long", FAR_CARRY, mixed) == [(2, (4, 12))]
    one = GAUGE + "limits: {carry: 20, strand: 1}\n"
    assert places("float/too-long", FAR_CARRY, one) == [(2, (4, 12))]


def test_a_single_stitch_may_be_over_the_limit() -> None:
    """Limit 0 stitches: B goes on one stitch further in, W goes behind the stitch between."""
    extra = GAUGE + "limits: {strand: 1, carry: 1, float: 0 stitches}\n"
    assert places("float/too-long", "WBW BBB", extra) == [(2, (3, 3)), (2, (2, 2))]


@pytest.mark.parametrize(
    ("grid", "box", "expected"),
    [
        # left edge stitch 11, right edge stitch 1; W at stitch 9: one stitch left of it in the box, seven right
        ("BBBBBBBBBBB BBWBBBBBBBB", "stitches: [2, 10], rows: [1, 1]", [(1, (2, 8))]),
        ("BBWBBBBBBBB BBBBBBBBBBB", "stitches: [2, 10], rows: [1, 1]", []),  # above the box
        ("BBBBBBBBBBB BBWBBBBBBBB", "stitches: [2, 10], rows: [2, 2]", []),  # below it
        ("BBBBBWBBBBB BBWBBBBBBBB", "stitches: [2, 10], rows: [1, 2]", [(1, (2, 8)), (2, (7, 10))]),
        ("BBBBBBBBBBW", "stitches: [2, 10], rows: [1, 1]", []),  # beside the box
        ("BBWBBBBBBBW", "stitches: [2, 10], rows: [1, 1]", [(1, (2, 8))]),  # the chart's own float, none at the edge
        ("WBWBBBBBBBB", "stitches: [2, 10], rows: [1, 1]", []),
        ("B.WBBBBB..B", "stitches: [2, 10], rows: [1, 1]", []),  # five stitches, three squares without
        ("BBBBBBBBBWB", "stitches: [2, 10], rows: [1, 1]", [(1, (3, 10))]),
        ("BWBBBBBBBBB", "stitches: [2, 10], rows: [1, 1]", [(1, (2, 9))]),
        ("WWBWWWWWWWW", "stitches: [2, 10], rows: [1, 1]", [(1, (2, 8))]),
    ],
)
def test_floats_from_one_repeat_to_the_next(grid: str, box: str, expected: Places) -> None:
    """Five stitches are allowed. The place is the longer side of the box that the yarn crosses."""
    assert places("float/too-long", grid, f"{STRANDED}repeat: {{{box}}}\n") == expected


def test_floats_at_the_edge_of_a_repeat_say_how_far() -> None:
    extra = STRANDED + "repeat: {stitches: [2, 10], rows: [1, 1]}\n"
    assert told("float/too-long", "BBWBBBBBBBB", extra) == [
        "Bone (W) floats across 8 stitches (3.6 cm) from one repeat to the next in row 1; "
        "at most 2.5 cm (5 stitches) is allowed"
    ]
    assert told("float/too-long", "BBWBBBBBBBB", extra, Limits(float=StitchCount(8))) == []
    assert len(told("float/too-long", "BBWBBBBBBBB", extra, Limits(float=StitchCount(7)))) == 1


@pytest.mark.parametrize(("grid", "count"), [("BWRB", 3), ("BW.B", 0), ("B.WB", 0), ("BWBW", 0), ("WRYB", 4)])
def test_colours_of_a_stranded_row(grid: str, count: int) -> None:
    found_here = told("float/third-colour", grid, STRANDED)
    assert [message.partition(" colours")[0].rpartition(" ")[2] for message in found_here] == [str(count)] * bool(count)


# Counts and edges -------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("grid", "expected"),
    [
        (
            "BB. BB BBB.",
            [
                ("row 2 is 2 squares wide and row 1 is 4", "missing"),
                ("row 3 is 3 squares wide and row 2 is 2", "too many"),
            ],
        ),
        (
            "BB B.B BB.. BB",
            [
                ("row 2 is 4 squares wide and row 1 is 2", "too many"),
                ("row 3 is 3 squares wide and row 2 is 4", "missing"),
            ],
        ),
        ("BBB BBB BBB", []),
    ],
)
def test_lines_of_uneven_length(grid: str, expected: list[tuple[str, str]]) -> None:
    """Against the line below, right or wrong."""
    extra = GAUGE + ("shaping: {2: -1}\n" if grid.startswith("BB.") else "")
    assert told("grid/stitch-count", grid, extra) == [
        f"{widths}; its stitches are as many as they should be, so a `.` is {slip}" for widths, slip in expected
    ]


@pytest.mark.parametrize(
    ("grid", "shaping", "message"),
    [
        ("BBBBBB BBBB", "1", "row 2 has 6 stitches; row 1 leaves 5 after the increase declared in row 2"),
        ("BBBBB BBBB", "-1", "row 2 has 5 stitches; row 1 leaves 3 after the decrease declared in row 2"),
        ("BBBB BBBB", "2", "row 2 has 4 stitches; row 1 leaves 6 after the 2 increases declared in row 2"),
        ("BB BBBBB", "-2", "row 2 has 2 stitches; row 1 leaves 3 after the 2 decreases declared in row 2"),
    ],
)
def test_counts_after_shaping(grid: str, shaping: str, message: str) -> None:
    assert told("grid/stitch-count", grid, f"{GAUGE}shaping: {{2: {shaping}}}\n") == [message]


@pytest.mark.parametrize(
    ("grid", "shaping", "expected"),
    [
        ("BBBB.. BBBBBB", "{left: -2}", ["+0 at the left edge and -2 at the right; declared are left -2 and right +0"]),
        ("..BBBB BBBBBB", "{left: -2}", []),
        ("BBBBBB BBBB..", "{left: 2}", ["+0 at the left edge and +2 at the right; declared are left +2 and right +0"]),
        ("BBBBBB BBB...", "{right: 3}", []),
        ("BBBBBB ..BBB.", "{left: 1, right: 2}", ["+2 at the left edge and +1 at the right"]),
        ("...BBB BBBBBB", "{left: -1, right: -2}", ["-3 at the left edge and +0 at the right"]),
        ("BB..BB BBBBBB", "{left: -2}", []),  # inside the row
        ("...... BBBBBB", "{left: -6}", []),  # a row of nothing has no edges
        (".BBBBB BBBBBB", "-1", []),  # at no edge in particular
    ],
)
def test_shaping_at_its_edge(grid: str, shaping: str, expected: list[str]) -> None:
    messages = told("grid/shaping-side", grid, f"{GAUGE}shaping: {{2: {shaping}}}\n")
    assert len(messages) == len(expected)
    assert all(words in message for words, message in zip(expected, messages, strict=True))


def test_rows_without_squares_are_told_once_for_the_chart() -> None:
    results = found("grid/shaping-side", "BB BBB BBBB", GAUGE + "shaping: {2: {right: -1}, 3: {right: -1}}\n")
    assert [(f.key, f.row) for f in results] == [("unpadded-row", 2)]


def test_a_gap_is_named_in_its_own_row() -> None:
    """The row below is longer; the gap's stitches are counted from the right of the row that has it."""
    assert places("grid/parted-row", "BBB B...BB BBBBBBBB") == [(2, (3, 5))]
    assert places("grid/parted-row", "B...BB BBBBBB B...BB") == [(1, (3, 5)), (3, (3, 5))]


# Repeats ----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("grid", "box", "expected"),
    [
        ("BBBWBBBBBBBBBBWB", "stitches: [5, 8], rows: [1, 1]", [(1, (13, 13)), (1, (2, 2))]),
        ("BBBWBBBBBBBB", "stitches: [1, 4], rows: [1, 1]", [(1, (9, 9))]),  # the outermost copy
        ("BBBBBBBBBBWB", "stitches: [9, 12], rows: [1, 1]", [(1, (2, 2))]),
        ("BWBBBBBBBBWB", "stitches: [4, 7], rows: [1, 1]", [(1, (11, 11))]),  # the three at the right are no whole copy
        ("BBBWB BBBBB BBBBB BWBBB", "stitches: [1, 5], rows: [2, 2]", [(1, (4, 4)), (4, (2, 2))]),
        ("BBBWB BBBBB BBBBB BWBBB", "stitches: [1, 5], rows: [3, 3]", [(1, (4, 4)), (4, (2, 2))]),
        ("BBBB BBBW BBBB BBBB WBBB", "stitches: [1, 4], rows: [2, 3]", [(4, (1, 1))]),  # row 1 alone is no copy
        ("BBBB BBBB BBBW BBBB BBBB", "stitches: [1, 4], rows: [1, 2]", [(3, (1, 1))]),  # nor is row 5
        ("BBBBBBBB", "stitches: [1, 4], rows: [1, 1]", []),
        ("WWBBBBBB", "stitches: [1, 4], rows: [1, 1]", []),  # half of it differs: another pattern
    ],
)
def test_copies_of_the_repeat(grid: str, box: str, expected: Places) -> None:
    assert places("repeat/broken-copy", grid, f"{GAUGE}repeat: {{{box}}}\n", alike=0.7) == expected


def test_a_copy_is_one_as_long_as_enough_of_it_is_alike() -> None:
    extra = GAUGE + "repeat: {stitches: [1, 4], rows: [1, 1]}\n"
    assert told("repeat/broken-copy", "BBBWBBBB", extra, alike=0.75) == [
        "row 1 differs in 1 stitch from the repeat, which is drawn again here (4 stitches by 1 row)"
    ]
    assert told("repeat/broken-copy", "BBBWBBBB", extra, alike=0.76) == []
    one = GAUGE + "repeat: {stitches: [1, 1], rows: [1, 2]}\n"
    assert told("repeat/broken-copy", "WB BB", one, alike=0.5)[0].endswith("(1 stitch by 2 rows)")


@pytest.mark.parametrize(("last", "count"), [(1, 0), (2, 0), (3, 1)])
def test_a_repeat_of_one_row_turns_no_side(last: int, count: int) -> None:
    assert len(told("repeat/odd-rows", "B B B", f"{GAUGE}repeat: {{stitches: [1, 1], rows: [1, {last}]}}\n")) == count


# Steps ------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("grid", "expected"),
    [
        ("BBBBBBBBB WWWWWWWWB", ["Dusk blue (B) moves 3.6 cm (8 stitches) from row 1 to row 2"]),  # a step in row 2
        ("BBBBBBBBB WWWWWWBBB BBBBBBBBB", ["Dusk blue (B) moves 2.7 cm (6 stitches) from row 1 to row 2"]),
        ("WWWWWWWWW BBBBBBBBB", []),  # another colour begins
        ("BBBBWWWWW BBBBBBBBB", []),  # row 2 of B begins where row 1 ended
    ],
)
def test_steps_that_cut_a_yarn(grid: str, expected: list[str]) -> None:
    messages = told("supply/steep-edge", grid, limits=Limits(carry=5))
    assert [message.partition(";")[0].removeprefix("the edge of ") for message in messages] == expected


def test_a_block_that_grows_together_has_no_one_edge() -> None:
    """Row 1 has B at either edge; in row 2 they are one block, and no edge of it has moved where a yarn is joined."""
    assert told("supply/steep-edge", "WBBBBBBBBBBW BBWWWWWWWWBB", limits=Limits(carry=0)) == []


@pytest.mark.parametrize(
    ("grid", "found"),
    [
        ("WWWWWWWWWBBB WWWWWWWWWBBB BBBBBBBBBBBB", 0),  # nine stitches by itself: a flat top
        ("WWWWWWWWWWWWWWBB WWWWWWWWWWWWWWBB WWWWWWBBBBBBBBBB WWBBBBBBBBBBBBBB", 2),  # eight after four: a slant
        ("WWWWWWBBBBBB WWWWWWBBBBBB BBBBBBBBBBBB", 1),  # six by itself, little more than can be carried
    ],
)
def test_a_long_step_by_itself_is_a_flat_top(grid: str, found: int) -> None:
    assert len(told("supply/steep-edge", grid, limits=Limits(carry=3))) == found


def test_in_rounds_and_without_a_limit_no_step_is_steep() -> None:
    grid = "BBBBBBBBB WWWWWWWWB"
    assert told("supply/steep-edge", grid, GAUGE + "worked: round\n") == []
    assert told("supply/steep-edge", grid, STRANDED) == []
    assert told("supply/steep-edge", grid, GAUGE + "limits: {carry: 8}\n") == []
    assert len(told("supply/steep-edge", grid, GAUGE + "limits: {carry: 7}\n")) == 1


@pytest.mark.parametrize(("limit", "expected"), [(0, [2]), (1, [2]), (2, [])])
def test_supplies_of_a_row(limit: int, expected: list[int]) -> None:
    assert [f.row for f in found("supply/row-limit", "BW BB", limits=Limits(supplies=limit))] == expected


# Lengths to wind --------------------------------------------------------------------------------------------------

TWENTY_MM = "gauge: {stitches: 22, rows: 30, over: 10 cm, loop: 20 mm}\n"


def test_a_need_of_whole_centimetres_is_not_rounded_up() -> None:
    """20 stitches of 20 mm and two tails of 15 cm are 70 cm to the millimetre."""
    (finding,) = found("supply/too-short", "BBBBBBBBBB " * 2, TWENTY_MM + "supplies: {B: [{length: 50 cm}]}\n")
    assert [fix.description for fix in finding.fixes] == ["make it 70 cm"]
    assert finding.message == "supply 1 of Dusk blue (B) is 50 cm long; B1 needs 70 cm for rows 1 to 2"


def test_one_millimetre_more_is_rounded_up() -> None:
    longer = "gauge: {stitches: 22, rows: 30, over: 10 cm, loop: 20.05 mm}\n"
    (finding,) = found("supply/too-short", "BBBBBBBBBB " * 2, longer + "supplies: {B: [{length: 50 cm}]}\n")
    assert [fix.description for fix in finding.fixes] == ["make it 70.1 cm"]


@pytest.mark.parametrize(
    ("lengths", "short"),
    [
        (["70 cm"], []),
        (["50 cm", "10 cm", "10 cm"], [1]),  # more than are needed: the longest counts
        (["10 cm", "70 cm", "10 cm"], []),
        (["10 cm", "50 cm"], [2]),
        (["", "10 cm"], []),  # one without a length is as long as it need be
    ],
)
def test_the_longest_of_the_lengths_is_compared(lengths: list[str], short: list[int]) -> None:
    each = ", ".join(f"{{length: {length}}}" if length else "{holder: bobbin}" for length in lengths)
    messages = told("supply/too-short", "BBBBBBBBBB " * 2, f"{TWENTY_MM}supplies: {{B: [{each}]}}\n")
    assert [int(message.split()[1]) for message in messages] == short


@pytest.mark.parametrize(
    ("lengths", "short"), [(["34 cm"], []), (["29 cm"], [1]), (["34 cm", "50 cm"], []), (["34 cm", "49 cm"], [2])]
)
def test_those_listed_may_be_the_shorter_ones(lengths: list[str], short: list[int]) -> None:
    """Two blocks of B: the right one of 10 stitches needs 50 cm, the left one of 2 needs 34 cm."""
    each = ", ".join(f"{{length: {length}}}" for length in lengths)
    messages = told("supply/too-short", "BWWWWWBBBBB " * 2, f"{TWENTY_MM}supplies: {{B: [{each}]}}\n")
    assert [int(message.split()[1]) for message in messages] == short


# Ends, and intarsia in rounds -------------------------------------------------------------------------------------


def test_the_shortest_edge_of_a_colours_blocks_is_told() -> None:
    """W1 is joined in 7.9 mm (a stitch and a row) and finished in 12.4 mm (two stitches and a row) of its own edge."""
    assert [message.partition("; 2 cm")[0] for message in told("ends/nowhere-to-hide", "WBBWW WWBBB WBWBB")] == [
        "W1, Bone (W), works 3 stitches: its ends have 8 mm of edge to be woven along",
        "B2, Dusk blue (B), works 1 stitch: its ends have 8 mm of edge to be woven along",
    ]


def test_small_blocks_of_a_colour_are_told_together_and_large_ones_have_a_back_of_their_own() -> None:
    field = "BBBBBBBBBBBBBBB"
    assert told("ends/nowhere-to-hide", f"{field} BBWBBWWBBBWBBWB {field}", room=Length(1.4, "cm")) == [
        "W1, W3 and W4, Bone (W), work 1 stitch each: "
        "their ends have 8 mm of edge to be woven along at most; 1.4 cm is wanted"
    ]
    assert told("ends/nowhere-to-hide", f"{field} BBBWWWBBBBBBBBB BBBWWWBBBBBBBBB {field}", back=6) == []


@pytest.mark.parametrize(("room", "count"), [("1.9 cm", 2), ("1 cm", 2), ("0.7 cm", 0)])
def test_the_edge_that_an_end_wants_is_an_option(room: str, count: int) -> None:
    wanted = Length(float(room.split()[0]), "cm")
    assert len(told("ends/nowhere-to-hide", "BWWBW BBWWB BWBWB", room=wanted)) == count


@pytest.mark.parametrize(
    ("grid", "strand", "expected"),
    [
        ("BBWBB BBBBB", 1, []),
        (
            "BBWWWBB BBBBBBB",
            1,
            ["1 block cannot be reached by the yarn of the round below, the first being Dusk blue (B) in round 2; "
             "at most 1 stitch is stranded across"],
        ),
        (
            "WBBBBBBBW BBBBWBBBB",
            2,
            ["2 blocks cannot be reached by the yarn of the round below, the first being Bone (W) in round 2; "
             "at most 2 stitches are stranded across"],
        ),
        ("BBWBB BBBBB", 0, ["blocks of colour in 1 round, first in round 2; intarsia cannot be worked in the round"]),
        ("W.BWB BB.BB", 0, ["blocks of colour in 1 round, first in round 2; intarsia cannot be worked in the round"]),
        ("WWWWW BB.BB", 0, []),  # stripes
    ],
)  # fmt: skip
def test_blocks_in_rounds(grid: str, strand: int, expected: list[str]) -> None:
    extra = f"{GAUGE}worked: round\ntechnique: mixed\nlimits: {{strand: {strand}}}\n"
    assert told("round/intarsia", grid, extra) == expected
