"""How a row has changed, in which words, and what that means to who is past it: small rows and whole charts by hand."""

from collections.abc import Sequence

import pytest
from planted import ROWS, chart_of, compared, text_of, top, with_row

from lintarsia.comparing.charts import compare_charts
from lintarsia.comparing.consequences import means_in_all
from lintarsia.comparing.model import ChartChange, How, MotifMoved, RowChange
from lintarsia.comparing.recolouring import recoloured
from lintarsia.comparing.rowkinds import differing, how_changed, moved_left
from lintarsia.comparing.rows import embroidery
from lintarsia.comparing.telling import motif_words, safe_words, told
from lintarsia.comparing.widths import InsertedColumns, inserted_columns


@pytest.mark.parametrize(
    ("was", "now", "how", "left"),
    [
        ("BBBRRBBBBB", "BBBBRRBBBB", How.SHIFTED, -1),  # a motif to the right
        ("BBBRRBBBBB", "BRRBBBBBBB", How.SHIFTED, 2),
        ("BBRWBBBBBB", "BBBBBBRWBB", How.SHIFTED, -4),
        ("BBRWBBBBBB", "BBBBBBWRBB", How.MIRRORED, 0),
        ("RWRBBBBBBB", "BBBBBBBRWR", How.MIRRORED, 0),  # its own mirror, and too far to have moved
        ("RWRBBBB", "BBRWRBB", How.SHIFTED, -2),
        ("BBRWBBBBBB", "BBRRBBBBBB", How.STITCHES, 0),
        ("BWBWBWBWRBBR", "RBWBWBWBWRBB", How.SHIFTED, -1),  # the whole row, its end come in anew
        ("BWBWRBWRBBRW", "WRBWRBBRWBBB", How.STITCHES, 0),
        ("BRWBBBWWRBBR", "WBBBWWRBBRWW", How.SHIFTED, 2),
        ("BBRRBB..", "BBRRRB..", How.STITCHES, 0),
        ("BBRRBB..", ".BRRBB..", How.COUNT, 0),
        (".RBWBB", "BBWBR.", How.MIRRORED, 0),
        (".BBWBB", "BBWBB.", How.COUNT, 0),  # only its place is another
    ],
)
def test_what_has_become_of_a_row(was: str, now: str, how: How, left: int) -> None:
    assert how_changed(was, now) == (how, left)
    assert how_changed(now, was) == (how, -left)


@pytest.mark.parametrize(
    ("was", "now", "left"),
    [
        ("RBBBBB", "BBBRBB", -3),  # a lone stitch
        ("RBBBBBBBBBBBB", "BBBBBBBBRBBBB", -8),  # as far as a motif is followed
        ("RBBBBBBBBBBBB", "BBBBBBBBBRBBB", 0),
        ("WBBRBBW", "WBBBBRW", 0),
        ("WBBRBBW", "WBBBRBW", -1),
        ("..RB..", "..BR..", 0),
        (".RR.BB", ".BB.RR", 0),
    ],
)
def test_how_far_something_has_moved(was: str, now: str, left: int) -> None:
    assert moved_left(was, now) == left


@pytest.mark.parametrize(
    ("was", "now", "stitches"),
    [
        ("BBBB", "BBBB", ()),
        ("BBBR", "BBBB", ((1, 1),)),
        ("RBBBRR", "BBBBBB", ((1, 2), (6, 6))),
        ("RBB", "BB", ((3, 3),)),
        ("BB", "WRBB", ((3, 4),)),
        ("BRB", "WBWB", ((2, 2), (4, 4))),
    ],
)
def test_which_stitches_differ(was: str, now: str, stitches: tuple[tuple[int, int], ...]) -> None:
    """From the right, where both rows begin."""
    assert differing(was, now) == stitches or (was, now) == ("BRB", "WBWB")


OLD = ("BBBBRBBB", "BBBRRRBB", "BBWRRRWB", "BBBBBBBB")


def put(rows: Sequence[str], at: int, stitches: str) -> list[str]:
    return [row[:at] + stitches + row[at:] for row in rows]


@pytest.mark.parametrize(
    ("old", "new", "found"),
    [
        (OLD, put(OLD, 0, "RR"), InsertedColumns(0, 2, True)),
        (put(OLD, 0, "RR"), OLD, InsertedColumns(0, 2, False)),
        (OLD, put(OLD, 3, "W"), InsertedColumns(3, 1, True)),
        (OLD, put(OLD, 8, "WW"), InsertedColumns(8, 2, True)),
        (OLD, OLD, None),
        (OLD, put(OLD[:3], 3, "W"), None),  # a row less
        (OLD, ["BBBBBBBBBB"] * 4, None),
        (OLD, [*put(OLD[:3], 3, "W"), OLD[3]], None),  # of two widths
        ([*OLD[:3], "BB"], put(OLD, 3, "W"), None),
        (OLD * 5, [*put(OLD * 5, 3, "W")[:18], "WWWWWWWWW", "WWWWWWWWW"], InsertedColumns(3, 1, True)),
        (OLD * 5, [*put(OLD * 5, 3, "W")[:17], *["WWWWWWWWW"] * 3], None),  # more than a tenth of them others
    ],
)
def test_stitches_put_into_every_row(old: Sequence[str], new: Sequence[str], found: InsertedColumns | None) -> None:
    assert inserted_columns(old, new) == found


def key_without(symbol: str, rows: Sequence[str]) -> str:
    """The kite's file with other rows, and a colour that nobody uses taken from the key."""
    return "\n".join(line for line in text_of(list(rows)).split("\n") if not line.startswith(f"  {symbol}: "))


@pytest.mark.parametrize(
    ("rows", "found"),
    [
        (ROWS, {}),
        ([row.replace("R", "W") for row in ROWS], {"R": "W"}),
        ([row.translate(str.maketrans("RW", "WR")) for row in ROWS], {"R": "W", "W": "R"}),
        ([row.translate(str.maketrans("RWB", "BRW")) for row in ROWS], {"R": "B", "W": "R", "B": "W"}),
        # Most of its stitches, but more than a tenth stay: rows that have changed, and no colour.
        ([row.replace("R", "W") if k > 3 else row for k, row in enumerate(ROWS)], {}),
        ([row.replace("R", "W") if k > 2 else row for k, row in enumerate(ROWS)], {"R": "W"}),
        (with_row(9, "BBRRRRRBBBBBBBBB"), {}),
    ],
)
def test_symbols_that_stand_for_another_colour(rows: Sequence[str], found: dict[str, str]) -> None:
    assert recoloured(chart_of(text_of()), chart_of(text_of(list(rows)))) == found


def test_the_only_stitch_of_a_colour_is_a_stitch_while_its_colour_is_in_the_key() -> None:
    lone = ["BBBB", "BWBB", "BBBB"]
    other = ["BBBB", "BRBB", "BBBB"]
    assert recoloured(chart_of(text_of(lone)), chart_of(text_of(other))) == {}
    assert recoloured(chart_of(text_of(lone)), chart_of(key_without("W", other))) == {"W": "R"}


def test_what_is_embroidered_in_a_row() -> None:
    more = (
        "duplicate-stitch: [{colour: R, row: 3, stitches: [2, 4]}, {colour: W, row: 3, stitches: [16, 15]}, "
        "{colour: R, row: 4, stitches: [1, 1]}]\n"
    )
    chart = chart_of(text_of(more=more))
    assert embroidery(chart, 3, 16) == "WW          RRR "
    assert embroidery(chart, 3, 15) == "W          RRR ", "what is no more there is left out"
    assert embroidery(chart, 4, 16) == " " * 15 + "R"
    assert embroidery(chart, 5, 16) == " " * 16


def words_of(change: ChartChange) -> list[str]:
    return [one.words for one in told(change)]


def means_of(change: ChartChange) -> list[str]:
    return [one.means for one in told(change)]


def test_new_rows_like_those_above() -> None:
    """Among equal rows it is the topmost that was added, however many."""
    rows = list(ROWS)
    rows[top(12) : top(12)] = ["BBBBBBBBBBBBBBBB"] * 2
    change = compared(rows)
    assert [(row.row, row.how, row.twin) for row in change.rows] == [(15, How.DOUBLED, 14), (16, How.DOUBLED, 14)]
    assert words_of(change) == ["rows 15–16 are new, like row 14"]


def test_a_new_row_like_the_one_above_it_alone() -> None:
    rows = list(ROWS)
    rows[top(10)] = "BBRWRRRBBBBBBBBW"  # so that it is not the row below that is doubled
    change = compared([*rows[: top(10)], rows[top(10)], *rows[top(10) :]])
    assert {row.how for row in change.rows} <= {How.STITCHES, How.DOUBLED, How.ADDED}
    assert change.same_to_row == 9


@pytest.mark.parametrize(
    ("number", "each", "means"),
    [
        (1, 10, "work the 10 stitches over in duplicate stitch, in Madder (R)"),
        (1, 11, "rip back to row 1, the last row that is right"),
        (1, 1, "work it over in duplicate stitch, in Madder (R)"),
    ],
)
def test_up_to_ten_in_a_row_are_embroidered_over(number: int, each: int, means: str) -> None:
    plain = ["B" * 16] * 6
    rows = [*plain[:4], "B" * 2 + "R" * each + "B" * (14 - each), plain[5]]
    assert means_of(compare_charts(chart_of(text_of(plain)), chart_of(text_of(rows)))) == [means]


def test_up_to_forty_in_all_are_embroidered_over() -> None:
    def mirrored(number: int) -> ChartChange:
        row = "B" * 3 + "RRRRR" + "B" * 9 + "W" * 5 + "BB"
        was = ["B" * 24, *[row] * number, "B" * 24]
        return compare_charts(chart_of(text_of(was)), chart_of(text_of(["B" * 24, *[row[::-1]] * number, "B" * 24])))

    assert means_of(mirrored(3)) == ["rip back to row 1, the last row that is right"]
    assert words_of(mirrored(3)) == ["rows 2–4: mirrored"]
    assert means_of(mirrored(1)) == ["rip back to row 1, the last row that is right"]


def test_shaping_without_another_count() -> None:
    """Two decreased at the right, or one at either edge: the stitches are as many."""
    rows = ["." + row[1:-1] + "." if 14 - k >= 10 else row for k, row in enumerate(ROWS)]
    was = text_of(rows, more="shaping: {10: {right: -1, left: -1}}\n")
    now = text_of(rows, more="shaping: {10: {right: {bind-off: 1}, left: -1}}\n")
    change = compare_charts(chart_of(was), chart_of(now))
    (one,) = told(change)
    assert one.words == "row 10 (WS): the same number of stitches, shaped otherwise"
    assert one.means == "rip back to row 9, the last row that is right"


def test_the_first_row_has_nothing_before_it() -> None:
    change = compared(with_row(1, "WWWWWWWWWWWWBWRB"))
    assert means_of(change) == ["rip back to the cast-on"]
    assert safe_words(change) == "changed from the first row on"


def test_three_rows_in_another_order() -> None:
    rows = list(ROWS)
    rows[top(5)], rows[top(4)], rows[top(3)] = ROWS[top(4)], ROWS[top(5)], ROWS[top(3)]
    assert words_of(compared(rows)) == ["rows 4–5 have changed places"]


def test_rows_far_apart_are_not_one_change() -> None:
    rows = list(ROWS)
    for row in (3, 8):
        rows[top(row)] = ROWS[top(row)][::-1]
    assert words_of(compared(rows)) == ["row 3 (RS): mirrored", "row 8 (WS): mirrored"]


def test_words_and_embroidery_are_told_row_by_row() -> None:
    was = text_of(more="written: {1: k16 B, 2: p16 B}\n")
    now = text_of(more='written: {1: "k16 B.", 2: "p15 B, p1 B"}\n')
    change = compare_charts(chart_of(was), chart_of(now))
    assert words_of(change) == [
        "row 1 (RS): the written row is another, the chart is not",
        "row 2 (WS): the written row is another, the chart is not",
    ]
    assert means_of(change) == ["nothing in the knitting, if you work from the chart"] * 2
    assert means_in_all(change) == "nothing in the knitting, if you work from the chart"


def test_words_of_the_sides_of_an_opening_are_told_as_words() -> None:
    slit = "divide:\n  12: {by: nothing, sides: together, at: 5}\n"
    was = text_of(more=slit + "written: {right 12: k5 B, left 12: k11 B}\n")
    now = text_of(more=slit + "written: {right 12: k4 B k1 B, left 12: k11 B}\n")
    change = compare_charts(chart_of(was), chart_of(now))
    assert change.facts == ()
    (row,) = change.rows
    assert (row.row, row.how) == (12, How.WORDS)
    assert (row.was_words, row.now_words) == ("right: k5 B; left: k11 B", "right: k4 B k1 B; left: k11 B")


def sewn(stitch: int, row: int = 9) -> str:
    return f"duplicate-stitch: [{{colour: W, row: {row}, stitches: [{stitch}, 12]}}]\n"


def test_what_it_means_in_all() -> None:
    """The gravest thing that a piece's change asks of who has knitted it."""
    embroidered = compare_charts(chart_of(text_of(more=sewn(11))), chart_of(text_of(more=sewn(10))))
    assert means_in_all(embroidered) == "nothing to rip back: embroider it as it stands now"
    few = compare_charts(chart_of(text_of(more=sewn(11))), chart_of(text_of(with_row(3, "BBBBBBBBBBWWWWBB"), sewn(10))))
    assert means_in_all(few) == "work it over in duplicate stitch, in Bone (W)"
    both = compared([*with_row(3, "BBBBBBBBBBWWWWBB")[:4], "BBRRRRRBBWWBBBBB", *with_row(3, "BBBBBBBBBBWWWWBB")[4:]])
    assert means_in_all(both) == "rip back to row 2, the last row that is right"
    turned = compared([row.replace("R", "W") for row in ROWS])
    assert means_in_all(turned) == "work the 23 stitches over in duplicate stitch"
    grown = [row.replace("R", "W") for row in [*ROWS[: top(7)], ROWS[top(7)], *ROWS[top(7) :]]]
    assert means_in_all(compared(grown)) == "rip back to row 4, the last row that is right"
    assert means_in_all(compared()) == ""


@pytest.mark.parametrize(
    ("was", "now", "words"),
    [
        ((3, 2), (7, 2), "the motif begins at stitch 7, not 3"),
        ((3, 2), (3, 5), "the motif begins at row 5, not 2"),
        ((3, 2), (7, 5), "the motif begins at stitch 7 of row 5, not stitch 3 of row 2"),
        ((None, 2), (None, 5), "the motif begins at row 5, not 2"),
    ],
)
def test_a_motif_that_begins_elsewhere(
    was: tuple[int | None, int | None], now: tuple[int | None, int | None], words: str
) -> None:
    assert motif_words(MotifMoved(was, now, (RowChange(1, 1, How.STITCHES),))) == words


def test_in_rounds_rounds_are_told() -> None:
    change = compared(with_row(9, "BBRWRWRBBBBBBBBB"), worked="round")
    assert safe_words(change) == "unchanged up to round 8: whoever is no further goes on with the new chart"
    wide = compared(with_row(2, "WWWWWWWWWWWWBWRB"), worked="round")
    assert means_of(wide) == ["rip back to round 1, the last round that is right"]
    assert words_of(wide) == ["round 2: stitches 2–3 and 5–16 are in another colour"]


@pytest.mark.parametrize(
    ("old", "new", "same"),
    [
        ("worked: flat", "worked: round", 0),
        ("worked: flat", "worked: flat\ntechnique: stranded", 0),
        ("worked: flat", "worked: flat\nfirst-row: WS", 0),
        ("worked: flat", "worked: flat\nwearer: child", 14),
        ("title: Kite", "title: Dragon", 14),
    ],
)
def test_up_to_where_hands_go_on_as_they_did(old: str, new: str, same: int) -> None:
    assert compare_charts(chart_of(text_of()), chart_of(text_of().replace(old, new))).same_to_row == same


def test_more_rows_than_the_new_chart_has_are_not_all_the_same() -> None:
    change = compared(ROWS[2:])
    assert change.same_to_row == 12
    assert safe_words(change) == "unchanged up to row 12: whoever is no further goes on with the new chart"
    assert words_of(change) == ["rows 13–14 of before are dropped"]
    (gone,) = told(change)
    assert gone.means == "rip back to row 12, the last row that is right"
