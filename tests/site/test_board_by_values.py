"""The board of a pattern's test knits and what was said, from values: who has what, what waits, where it leads."""

from dataclasses import replace

import pytest

from lintarsia.chart.measure import Length
from lintarsia.knits.model import MeasuredGauge, RemarkKind
from lintarsia.knits.summary import NOW, THEN, UNKNOWN, UNSAID, Knit, PatternKnits, YarnUse
from lintarsia.pattern.model import ONE_SIZE
from lintarsia.publishing.pages.board import board
from lintarsia.publishing.pages.said import MOST, Said, Spot, in_order, on_chart, on_piece

GAUGE = MeasuredGauge(21, 29.5, Length(4, "in"))
WREN = Knit(
    "wren.knit.yaml", "Wren", "small", "aa", NOW, "", True, "2026-11-05", GAUGE, None,
    (YarnUse("oat", "61 g", 150.0, 160.0, 0.938), YarnUse("rust", "9 g", None, 20.0, None)), 12.5, (), "", True,
)  # fmt: skip
FINCH = replace(WREN, knitter="Finch", finished="", revision=UNSAID, gauge=None, yarns=(), hours=None)
SISKIN = replace(WREN, knitter="Siskin", size="large", revision=THEN, commit="commit 3f2a19c", same_stitches=False)
PIPIT = replace(SISKIN, knitter="Pipit", same_stitches=True, finished="2026-10-01")
HIDDEN = replace(WREN, knitter="Linnet", site=False)
GROUP = PatternKnits(
    "fox.pattern.yaml", "Fox", "1.0", "aa",
    {"small": (WREN, FINCH, HIDDEN), "medium": (HIDDEN,), "large": (SISKIN, PIPIT)}, None, (),
)  # fmt: skip


def said(row: int, kind: str = "trouble", **more: object) -> Said:
    made = Said(RemarkKind(kind), f"words of {row}", "Wren", "small", "front", row, (4, 6), "", "", "/p", chart="/c",
                spot=Spot(row, (4, 6)), spot_in_chart=Spot(row - 1, (2, 4)))  # fmt: skip
    return replace_said(made, **more)


def replace_said(one: Said, **more: object) -> Said:
    return one._replace(**more)  # type: ignore[arg-type]


def test_who_has_taken_which_size() -> None:
    made = board(GROUP, (), lambda _: "")
    assert made is not None
    assert made.testers == ("Wren", "Finch", "Siskin", "Pipit"), "who keeps away from the site is nowhere"
    assert made.lede == "4 test knits, 3 finished."
    assert made.free == "Nobody has taken medium yet."
    table = [
        (row.size, row.told, [None if cell is None else (cell.state, cell.words) for cell in row.cells])
        for row in made.sizes
    ]
    assert table == [
        ("small", "1 of 2 finished", [("clear", "finished"), ("", "knitting"), None, None]),
        ("medium", "nobody has taken it", [None] * 4),
        ("large", "2 of 2 finished", [None, None, ("note", "earlier state"), ("clear", "finished")]),
    ]
    lines = [(t.size, t.knitter, t.state, t.revision, t.gauge, t.yarn, t.hours) for t in made.taken]
    assert lines == [
        ("small", "Wren", "finished 2026-11-05", "as it is now", "21 × 29.5 to 4 in", "oat 0.94", "12.5"),
        ("", "Finch", "still knitting", "not known", "", "", ""),
        ("large", "Siskin", "finished 2026-11-05", "commit 3f2a19c", "21 × 29.5 to 4 in", "oat 0.94", "12.5"),
        ("", "Pipit", "finished 2026-10-01", "as it is now", "21 × 29.5 to 4 in", "oat 0.94", "12.5"),
    ]


@pytest.mark.parametrize(
    ("revision", "same", "state"),
    [(NOW, True, "clear"), (NOW, None, "clear"), (THEN, True, "clear"), (THEN, False, "note"), (THEN, None, "note"),
     (UNKNOWN, None, "note"), (UNKNOWN, True, "note"), (UNSAID, None, "note")],
)  # fmt: skip
def test_an_earlier_state_is_told_from_that_of_now(revision: str, same: bool | None, state: str) -> None:
    one = replace(GROUP, sizes={"small": (replace(WREN, revision=revision, same_stitches=same),)})
    made = board(one, (), lambda _: "")
    assert made is not None
    ((cell,),) = [row.cells for row in made.sizes]
    assert cell is not None
    assert cell.state == state


def test_who_has_knitted_a_size_twice_is_shown_as_she_last_finished_it() -> None:
    again = replace(WREN, finished="2026-12-01", revision=UNKNOWN)
    made = board(replace(GROUP, sizes={"small": (again, WREN)}), (), lambda _: "")
    assert made is not None
    ((cell,),) = [row.cells for row in made.sizes]
    assert cell is not None
    assert cell.state == "note"


def test_in_one_size_no_size_is_named() -> None:
    made = board(replace(GROUP, sizes={ONE_SIZE: (WREN,)}), (), lambda _: "")
    assert made is not None
    assert ([row.size for row in made.sizes], [t.size for t in made.taken], made.free) == ([""], [""], "")


def test_where_there_is_nothing_to_show_there_is_no_board() -> None:
    hidden = replace(GROUP, sizes={"small": (HIDDEN,)})
    assert board(None, (), lambda _: "") is None
    assert board(hidden, (), lambda _: "") is None
    wanted = board(hidden, (), lambda _: "", until="2026-12-24")
    assert wanted is not None
    assert (wanted.until, wanted.sizes, wanted.testers) == ("2026-12-24", (), ())
    talk = board(None, (said(3),), lambda _: "#x")
    assert talk is not None
    assert talk.lede == "0 test knits, 0 finished; 1 remark without an answer."


def test_what_was_said_stands_by_place_with_its_link() -> None:
    remarks = (
        said(9, "question"), said(3, "praise"), said(3, answered="done", stitches=None), said(5, piece="", alone="Fox"),
        said(4, earlier="commit 3f2a19c", piece="back"),
    )  # fmt: skip
    made = board(GROUP, remarks, lambda one: f"page#{one.row}")
    assert made is not None
    assert made.lede == "4 test knits, 3 finished; 3 remarks without an answer."
    lines = [(s.state, s.kind, s.place, s.link, s.said, s.by, s.answered) for s in made.spots]
    assert lines == [
        ("warning", "trouble", "Fox, row 5, stitches 4–6", "page#5", "words of 5", "Wren, small", ""),
        ("warning", "trouble", "back, row 4, stitches 4–6", "page#4", "words of 4",
         "Wren, small; said of commit 3f2a19c", ""),
        ("clear", "trouble", "front, row 3", "page#3", "words of 3", "Wren, small", "done"),
        ("clear", "praise", "front, row 3, stitches 4–6", "page#3", "words of 3", "Wren, small", ""),
        ("note", "question", "front, row 9, stitches 4–6", "page#9", "words of 9", "Wren, small", ""),
    ]  # fmt: skip
    assert made.left_out == 0


def test_of_very_many_what_waits_comes_first() -> None:
    flood = [*(said(row, "praise") for row in range(2, MOST + 40)), said(999)]
    listed = in_order(flood)
    assert len(listed) == MOST
    assert listed[-1].row == 999
    made = board(GROUP, flood, lambda _: "")
    assert made is not None
    assert made.left_out == len(flood) - MOST == 39


def test_where_a_remark_is_on_a_piece_and_on_its_chart() -> None:
    own, any_size = said(9), said(3, size="")
    others = (
        said(4, of="/q"), said(5, piece="back"), said(6, size="large"), said(7, spot=None, spot_in_chart=None),
        said(8, chart="/d"),
    )  # fmt: skip
    everything = (own, any_size, *others)
    on_it = [(one.row, spot.address) for one, spot in on_piece(everything, "/p", "front", ("small", "medium"))]
    assert on_it == [(3, "#row-3-s4-6"), (8, "#row-8-s4-6"), (9, "#row-9-s4-6")]
    assert [one.row for one, _ in on_piece(everything, "/p", "front", ("large",))] == [3, 6]
    on_its_chart = [(one.row, spot.address) for one, spot in on_chart(everything, "/c")]
    assert on_its_chart == [
        (3, "#row-2-s2-4"), (4, "#row-3-s2-4"), (5, "#row-4-s2-4"), (6, "#row-5-s2-4"), (9, "#row-8-s2-4"),
    ]  # fmt: skip


@pytest.mark.parametrize(("stitches", "address"), [(None, "#row-7"), ((3, 3), "#row-7-s3"), ((3, 9), "#row-7-s3-9")])
def test_addresses_of_stitches(stitches: tuple[int, int] | None, address: str) -> None:
    assert Spot(7, stitches).address == address


@pytest.mark.parametrize(
    ("kind", "answered", "state"),
    [("trouble", "", "warning"), ("question", "", "note"), ("praise", "", "clear"), ("trouble", "yes", "clear")],
)
def test_each_kind_has_its_mark(kind: str, answered: str, state: str) -> None:
    assert said(3, kind, answered=answered).state == state
    assert said(3, kind, answered=answered).by == "Wren, small"
    assert said(3, kind, size="").by == "Wren"


def test_where_more_was_said_than_a_page_lists_what_waits_is_listed() -> None:
    flood = [*(said(row, "praise") for row in range(2, MOST + 40)), said(999)]
    listed = on_chart(flood, "/c")
    assert len(listed) == MOST
    assert listed[-1][0].row == 999, "a question at the very end, which waits"
    assert [spot.row for _, spot in listed] == sorted(spot.row for _, spot in listed)
