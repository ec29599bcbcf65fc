"""Planted edits: each is found, told once as what it is, and nothing else is told."""

import pytest
from planted import ROWS, chart_of, compared, text_of, top, with_row

from lintarsia.comparing.charts import compare_charts
from lintarsia.comparing.model import Fact, How, Recolouring
from lintarsia.comparing.telling import safe_words, told

Row = tuple[int | None, int | None, How]


def rows_of(change: object) -> list[Row]:
    return [(row.row, row.was_row, row.how) for row in change.rows]  # type: ignore[attr-defined]


def words_of(change: object) -> list[str]:
    return [one.words for one in told(change)]  # type: ignore[arg-type]


def test_the_same_chart() -> None:
    change = compared()
    assert not change.anything
    assert change.same_to_row == 14
    assert safe_words(change) == "every row is unchanged: go on where you are"


def test_another_layout_of_the_same_chart() -> None:
    other = text_of().replace("worked: flat\n", "# back and forth\n").replace("over: 10 cm", "over: 100 mm")
    assert not compare_charts(chart_of(text_of()), chart_of(other)).anything


def test_stitches() -> None:
    change = compared(with_row(9, "BBRWRWRBBBBBBBBB"))
    assert rows_of(change) == [(9, 9, How.STITCHES)]
    assert change.rows[0].stitches == ((11, 11),)
    assert change.rows[0].was_words == "k9 B, k3 R, k1 W, k1 R, k2 B"
    assert change.rows[0].now_words == "k9 B, k1 R, [k1 W, k1 R] 2 times, k2 B"
    assert (change.same_to_row, change.turned, change.facts, change.recolourings) == (8, (), (), ())
    [one] = told(change)
    assert one.words == "row 9 (RS): stitch 11 is in another colour"
    assert one.means == "work it over in duplicate stitch, in Bone (W)"


def test_stitches_at_two_places_of_a_row() -> None:
    change = compared(with_row(2, "WBBBBBBBBBBBBBWR"))
    assert change.rows[0].stitches == ((1, 2), (16, 16))
    assert words_of(change) == ["row 2 (WS): stitches 1–2 and 16 are in another colour"]


def test_many_stitches_are_not_embroidered_over() -> None:
    [one] = told(compared(with_row(2, "WWWWWWWWWWWWBWRB")))
    assert one.means == "rip back to row 1, the last row that is right"


@pytest.mark.parametrize("number", [1, 2, 3])
def test_rows_put_in_by_doubling(number: int) -> None:
    rows = list(ROWS)
    rows[top(7) : top(7)] = [rows[top(7)]] * number
    change = compared(rows)
    assert rows_of(change) == [(8 + k, None, How.DOUBLED) for k in range(number)]
    assert change.turned == (((8 + number, 14 + number),) if number % 2 else ())
    assert change.same_to_row == 7
    said = words_of(change)
    assert said[0] == ("row 8 (WS) is new, like row 7" if number == 1 else f"rows 8–{7 + number} are new, like row 7")
    assert len(said) == 1 + number % 2


def test_the_turned_side_is_said_once() -> None:
    change = compared([*ROWS[:6], "BBBBRRRRRRRRBBBB", *ROWS[6:]])
    assert words_of(change) == [
        "row 9 (RS) is new",
        "rows 10–15: an odd number of rows came or went below, so right side and wrong side have changed places here",
    ]


def test_in_rounds_nothing_is_turned() -> None:
    change = compared([*ROWS[:6], "BBBBRRRRRRRRBBBB", *ROWS[6:]], worked="round")
    assert words_of(change) == ["round 9 is new"]


def test_a_row_in_and_a_row_out_turn_only_what_is_between() -> None:
    rows = [*ROWS[: top(11)], *ROWS[top(10) : top(4)], "BBBBWWWBBWWBBBBB", *ROWS[top(4) :]]
    change = compared(rows)
    assert rows_of(change) == [(5, None, How.ADDED), (None, 11, How.REMOVED)]
    assert change.turned == ((6, 11),)


def test_a_dropped_row() -> None:
    change = compared([row for k, row in enumerate(ROWS) if k != top(8)])
    assert rows_of(change) == [(None, 8, How.REMOVED)]
    assert change.turned == ((8, 13),)
    [gone, _] = told(change)
    assert (gone.words, gone.means) == (
        "row 8 (WS) of before is dropped",
        "rip back to row 7, the last row that is right",
    )


def test_a_motif_that_has_moved_is_one_change() -> None:
    rows = list(ROWS)
    for row in range(6, 13):
        rows[top(row)] = "BBB" + rows[top(row)][:-3]
    change = compared(rows)
    assert {row.how for row in change.rows} == {How.SHIFTED}
    assert [row.row for row in change.rows] == [6, 7, 8, 9, 10, 11, 12]
    assert words_of(change) == ["rows 6–12: moved 3 stitches to the right"]


def test_a_single_row_that_has_moved() -> None:
    change = compared(with_row(3, "BBBBBBBBBWWWBBBB"))
    assert words_of(change) == ["row 3 (RS): moved 1 stitch to the left"]


def test_a_mirrored_row() -> None:
    change = compared(with_row(9, ROWS[top(9)][::-1]))
    assert words_of(change) == ["row 9 (RS): mirrored"]


def test_mirrored_rows_are_one_change() -> None:
    rows = [row[::-1] if 6 <= 14 - k <= 12 else row for k, row in enumerate(ROWS)]
    assert words_of(compared(rows)) == ["rows 6–12: mirrored"]


def test_neighbours_that_have_changed_places() -> None:
    rows = list(ROWS)
    rows[top(4)], rows[top(3)] = rows[top(3)], rows[top(4)]
    assert words_of(compared(rows)) == ["rows 3–4 have changed places"]


def test_a_colour_exchanged_for_another_everywhere() -> None:
    change = compared([row.replace("R", "W") for row in ROWS])
    assert change.recolourings == (Recolouring("R", "W", "Madder", "Bone", False),)
    assert (rows_of(change), change.facts, change.same_to_row) == ([], (), 4)
    assert words_of(change) == ["every stitch of R (Madder) is worked in W (Bone) now"]


def test_two_colours_exchanged_for_each_other() -> None:
    change = compared([row.translate(str.maketrans("RW", "WR")) for row in ROWS])
    assert sorted((one.was, one.now) for one in change.recolourings) == [("R", "W"), ("W", "R")]
    assert (rows_of(change), change.facts) == ([], ())


def test_a_symbol_that_is_only_written_otherwise() -> None:
    text = text_of([row.replace("R", "K") for row in ROWS]).replace("  R: ", "  K: ")
    change = compare_charts(chart_of(text_of()), chart_of(text))
    assert words_of(change) == ["the symbol R is written K now; the colour is the same (Madder)"]
    assert change.same_to_row == 14


def test_a_symbol_that_stands_for_a_new_colour_in_the_key() -> None:
    text = text_of([row.replace("R", "G") for row in ROWS])
    text = text.replace('  R: {name: Madder, shade: "#a33b2a"', '  G: {name: Moss, shade: "#5b7443"')
    assert words_of(compare_charts(chart_of(text_of()), chart_of(text))) == [
        "every stitch of R (Madder) is worked in G (Moss) now"
    ]


def test_a_recolouring_with_a_row_put_in_and_a_stitch_changed() -> None:
    rows = [row.replace("R", "W") for row in with_row(2, "BBBBBBBBBBBBBRBB")]
    rows[top(12)] = "BBBBWBBBBBBBBBBW"
    rows[top(6) : top(6)] = [rows[top(6)]] * 2
    change = compared(rows)
    assert [(one.was, one.now) for one in change.recolourings] == [("R", "W")]
    assert rows_of(change) == [
        (2, 2, How.STITCHES), (7, None, How.DOUBLED), (8, None, How.DOUBLED), (14, 12, How.STITCHES),
    ]  # fmt: skip


def test_a_shade() -> None:
    text = text_of().replace("#efe9dc", "#ffffff")
    change = compare_charts(chart_of(text_of()), chart_of(text))
    assert change.facts == (Fact("the shade of W", "#efe9dc", "#ffffff"),)
    assert change.same_to_row == 14


@pytest.mark.parametrize(
    ("old", "new", "fact"),
    [
        ("stitches: 22", "stitches: 21",
         Fact("the gauge", "22 stitches and 30 rows to 10 cm", "21 stitches and 30 rows to 10 cm")),
        ("title: Kite", "title: Dragon", Fact("the title", "Kite", "Dragon")),
        ("balls: 1", "balls: 2", Fact("balls of w", "1", "2")),
        ("worked: flat", "worked: flat\nwearer: child", Fact("the wearer", None, "child")),
        ("worked: flat", "worked: turned", Fact("worked", "flat", "turned")),
        ("worked: flat", "worked: flat\nfirst-row: WS", Fact("the first row", "RS", "WS")),
        ("worked: flat", "worked: flat\nsupplies: {B: 2, W: 1, R: 1}", Fact("stated supplies of B", None, "2")),
        ("worked: flat", "worked: flat\nlimits: {carry: 3}", Fact("the limit carry", None, "3 stitches")),
        ("worked: flat", "worked: flat\nrepeat: {stitches: [1, 4], rows: [1, 2]}",
         Fact("the repeat box", None, "stitches 1–4, rows 1–2")),
    ],
)  # fmt: skip
def test_what_is_said_of_the_whole(old: str, new: str, fact: Fact) -> None:
    change = compare_charts(chart_of(text_of()), chart_of(text_of().replace(old, new)))
    assert change.facts[0] == fact
    assert all(other.what.startswith("stated supplies") for other in change.facts[1:])
    assert (change.rows, change.turned, change.recolourings) == ((), (), ())


def test_a_repeat_box_that_goes_along_with_its_rows_is_no_change() -> None:
    old = text_of(more="repeat: {stitches: [1, 4], rows: [3, 9]}\n")
    rows = list(ROWS)
    rows[top(7) : top(7)] = [rows[top(7)]] * 2
    new = text_of(rows, more="repeat: {stitches: [1, 4], rows: [3, 11]}\n")
    assert words_of(compare_charts(chart_of(old), chart_of(new))) == ["rows 8–9 are new, like row 7"]


def test_words_and_shaping_and_embroidery_go_along_with_their_rows() -> None:
    more = "written: {{{w}: k16 B}}\nduplicate-stitch: [{{colour: W, row: {d}, stitches: [2, 3]}}]\n"
    old = text_of(more=more.format(w=1, d=14))
    new = text_of([*ROWS[: top(7)], *[ROWS[top(7)]] * 2, *ROWS[top(7) :]], more=more.format(w=1, d=16))
    assert words_of(compare_charts(chart_of(old), chart_of(new))) == ["rows 8–9 are new, like row 7"]


def test_duplicate_stitch() -> None:
    more = "duplicate-stitch: [{{colour: W, row: 9, stitches: [{s}, 12]}}]\n"
    change = compare_charts(chart_of(text_of(more=more.format(s=11))), chart_of(text_of(more=more.format(s=10))))
    [one] = told(change)
    assert one.words == "row 9 (RS): other duplicate stitch in stitch 10"
    assert one.means == "nothing to rip back: embroider it as it stands now"


def test_the_designer_s_words() -> None:
    change = compare_charts(
        chart_of(text_of(more="written: {1: k16 B}\n")), chart_of(text_of(more="written: {1: k15 B}\n"))
    )
    assert (change.rows[0].was_words, change.rows[0].now_words) == ("k16 B", "k15 B")
    assert words_of(change) == ["row 1 (RS): the written row is another, the chart is not"]


def test_a_count_is_ripped_back() -> None:
    rows = [f".{row[1:]}" if 14 - k >= 10 else row for k, row in enumerate(ROWS)]
    change = compared(rows)
    [one] = told(change)
    assert one.words == "rows 10–14: 15 stitches instead of 16"
    assert one.means == "rip back to row 9, the last row that is right"


def test_a_stitch_wider_everywhere() -> None:
    change = compared([f"{row[:13]}B{row[13:]}" for row in ROWS])
    [fact] = change.facts
    assert (fact.what, fact.was) == ("the width in stitches", "16")
    assert (change.rows, change.same_to_row) == ((), 0)


def test_several_edits_at_once() -> None:
    rows = with_row(12, "BBBBRBBBBBBBBBBW")
    rows[top(3)] = "BBBBBBBBBWWWBBBB"
    rows[top(8) : top(8)] = ["BBRRRRRBBBBBBBBB"]
    change = compared(rows)
    assert words_of(change) == [
        "row 3 (RS): moved 1 stitch to the left",
        "row 9 (RS) is new",
        "row 13 (RS), 12 before: stitch 1 is in another colour",
        "rows 10–15: an odd number of rows came or went below, so right side and wrong side have changed places here",
    ]
