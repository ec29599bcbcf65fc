"""What is said of a chart as a whole: everything that somebody knits, winds or reads by is told, was and now."""

import pytest
from planted import ROWS, chart_of, compared, text_of, top

from lintarsia.comparing.charts import compare_charts
from lintarsia.comparing.model import ChartChange, Fact, Recolouring
from lintarsia.comparing.telling import fact_words, told

PLAIN = "worked: flat\n"


def changed(was: str, now: str) -> ChartChange:
    return compare_charts(chart_of(was), chart_of(now))


def facts(old: str, new: str, base: str = "") -> list[tuple[str, str | None, str | None]]:
    """Of the kite with `old` exchanged for `new`."""
    text = base or text_of()
    assert old in text
    change = changed(text, text.replace(old, new))
    assert (change.rows, change.turned) == ((), ())
    return [(fact.what, fact.was, fact.now) for fact in change.facts]


OVER = "over: 10 cm"
KEY_W = 'W: {name: Bone, shade: "#efe9dc", yarn: w}'


@pytest.mark.parametrize(
    ("old", "new", "fact"),
    [
        (OVER, f"{OVER}, needle: 4.5 mm", ("the needle", None, "4.5 mm")),
        (OVER, f"{OVER}, loop: 19.5 mm", ("the yarn of a stitch", None, "19.5 mm")),
        (OVER, f"{OVER}, float-gauge: {{stitches: 23.5, rows: 26}}",
         ("the gauge of the stranded fabric", None, "23.5 stitches and 26 rows")),
        (OVER, "over: 4 in",
         ("the gauge", "22 stitches and 30 rows to 10 cm", "22 stitches and 30 rows to 4 in")),
        (PLAIN, f"{PLAIN}technique: stranded\n", ("the technique", "intarsia", "stranded")),
        (PLAIN, f"{PLAIN}caught: {{every: 3 stitches}}\n", ("floats are caught every", None, "3 stitches")),
        (PLAIN, f"{PLAIN}limits: {{supplies: 7}}\n", ("the limit supplies", None, "7")),
        (PLAIN, f"{PLAIN}limits: {{float: 3 cm}}\n", ("the limit float", None, "3 cm")),
        (PLAIN, f"{PLAIN}limits: {{idle: 0}}\n", ("the limit idle", None, "0")),
        (PLAIN, f"{PLAIN}decreases: {{lean: along, after: 2}}\n",
         ("decreases", None, "leaning along with the edge, 2 stitches from it")),
        (PLAIN, f"{PLAIN}decreases: {{lean: against, after: 1}}\n",
         ("decreases", None, "leaning against the edge, 1 stitches from it")),
        ("name: Bone", "name: Ivory", ("the name of W", "Bone", "Ivory")),
        (KEY_W, f"{KEY_W[:-1]}, also: [bone, ecru]}}", ("other names of W", None, "bone, ecru")),
        ("name: Plain DK", "name: Fjord", ("the yarn w", "Plain DK", "Fjord")),
        ("length: 120 m", "length: 110 m", ("length of a ball of w", "120 m", "110 m")),
        ("length: 120 m", "weight: 3, length: 120 m", ("weight of w", None, "3")),
        ("mass: 50 g", "mass: 40 g", ("mass of a ball of w", "50 g", "40 g")),
        ("balls: 1", "balls: 2.5", ("balls of w", "1", "2.5")),
        ("balls: 1", "balls: 1, fibre: wool", ("fibre of w", None, "wool")),
        ("mass: 50 g, ", "", ("mass of a ball of w", "50 g", None)),
    ],
)  # fmt: skip
def test_one_thing_is_told_as_one(old: str, new: str, fact: tuple[str, str | None, str | None]) -> None:
    assert facts(old, new) == [fact]


def test_the_yarn_of_a_colour() -> None:
    more = text_of().replace("yarns:\n", "yarns:\n  m: {name: Moss, length: 90 m, mass: 50 g}\n")
    assert facts(KEY_W, KEY_W.replace("yarn: w", "yarn: m"), more) == [("the yarn of W", "w", "m")]
    assert facts("yarns:\n", "yarns:\n  m: {name: Moss, length: 90 m, mass: 50 g}\n") == [
        ("the yarn m", None, "Moss"), ("length of a ball of m", None, "90 m"), ("mass of a ball of m", None, "50 g"),
    ]  # fmt: skip


def test_a_yarn_without_a_name_goes_by_its_own() -> None:
    assert facts("name: Plain DK, ", "") == [("the yarn w", "Plain DK", "w")]


def test_supplies_that_are_stated() -> None:
    more = text_of(more="supplies: {B: 2, W: [{holder: butterfly, length: 6 m}], R: 1}\n")
    assert facts(PLAIN, f"{PLAIN}supplies: {{B: 2, R: 1, W: 1}}\n") == [
        ("stated supplies of B", None, "2"), ("stated supplies of R", None, "1"), ("stated supplies of W", None, "1"),
    ]  # fmt: skip
    assert facts("6 m}", "7 m}, {holder: bobbin}, {length: 3 m}", more) == [
        ("stated supplies of W", "1 (butterfly of 6 m)", "3 (butterfly of 7 m, bobbin, 3 m)")
    ]


def test_a_colour_of_the_key_that_came_or_went() -> None:
    moss = '  M: {name: Moss, shade: "#5b7443", yarn: w}\n'
    change = changed(text_of(), text_of().replace("chart: |", f"{moss.strip(chr(10))}\nchart: |"))
    assert [fact_words(fact) for fact in change.facts] == [
        "colour M: new", "the name of M: new, Moss", "the shade of M: new, #5b7443", "the yarn of M: new, w",
    ]  # fmt: skip
    gone = changed(text_of().replace("chart: |", f"{moss.strip(chr(10))}\nchart: |"), text_of())
    assert [fact_words(fact) for fact in gone.facts][:2] == ["colour M: gone", "the name of M: gone, Moss"]


def test_lengths_that_are_written_otherwise_are_the_same() -> None:
    for old, new in (("over: 10 cm", "over: 100 mm"), ("length: 120 m", "length: 120.0 m"), ("22, ", "22.0, ")):
        assert facts(old, new) == []
    assert facts("over: 10 cm", "over: 105 mm")[0][2] == "22 stitches and 30 rows to 105 mm"
    assert facts("over: 10 cm", "over: 9 mm")[0][2] == "22 stitches and 30 rows to 9 mm"


def test_a_repeat_box_and_an_opening_go_along_with_their_rows() -> None:
    grown = [*ROWS[: top(3)], *[ROWS[top(3)]] * 2, *ROWS[top(3) :]]
    box = "repeat: {{stitches: [2, 5], rows: [{a}, {b}]}}\n"
    was = text_of(more=box.format(a=3, b=9))
    assert changed(was, text_of(grown, more=box.format(a=3, b=11))).facts == ()
    (fact,) = changed(was, text_of(grown, more=box.format(a=3, b=9))).facts
    assert fact == Fact("the repeat box", "stitches 2–5, rows 3–11", "stitches 2–5, rows 3–9")


SLIT = "divide:\n  {row}: {{by: nothing, sides: {sides}, at: {at}{to}}}\n"


def slit(row: int = 8, sides: str = "together", at: int = 5, to: int | None = None) -> str:
    return SLIT.format(row=row, sides=sides, at=at, to="" if to is None else f", to: {to}")


@pytest.mark.parametrize(
    ("other", "now"),
    [
        (slit(at=6), "nothing, together, after stitch 6"),
        (slit(sides="right-first"), "nothing, right-first, after stitch 5"),
        (slit(to=12), "nothing, together, after stitch 5, to row 12"),
    ],
)
def test_an_opening(other: str, now: str) -> None:
    found = [f for f in changed(text_of(more=slit()), text_of(more=other)).facts if "opening" in f.what]
    assert found == [Fact("the opening from row 8", "nothing, together, after stitch 5", now)]
    moved = changed(text_of(more=slit()), text_of(more=slit(row=9)))
    assert [fact_words(fact) for fact in moved.facts if "opening" in fact.what] == [
        "the opening from row 8: gone, nothing, together, after stitch 5",
        "the opening from row 9: new, nothing, together, after stitch 5",
    ]


def test_where_only_the_grid_around_is_another() -> None:
    """Stitches that stand in other columns, between no-stitch squares, are the same work."""
    rows = [f"..{row}" for row in ROWS]
    other = [f".{row}." for row in ROWS]
    change = changed(text_of(rows), text_of(other))
    assert change.anything
    assert all(not fact.was and not fact.now for fact in change.facts) or change.rows


@pytest.mark.parametrize(
    ("fact", "words"),
    [
        (Fact("the title", "Kite", "Dragon"), "the title: Kite → Dragon"),
        (Fact("the needle", None, "4 mm"), "the needle: new, 4 mm"),
        (Fact("the needle", "4 mm", None), "the needle: gone, 4 mm"),
        (Fact("colour M", None, "in the key"), "colour M: new"),
        (Fact("the piece hood", "", None), "the piece hood: gone"),
        (Fact("the place of the stitches in the grid", "", ""), "the place of the stitches in the grid is another"),
        (Fact("seams", "", "a to b"), "seams:  → a to b"),
    ],
)
def test_in_words(fact: Fact, words: str) -> None:
    assert fact_words(fact) == words


def test_a_recolouring_says_what_the_key_says() -> None:
    """Name and shade of a symbol that stands for another colour now are not told again; what else of the key is."""
    rows = [row.replace("R", "G") for row in ROWS]
    text = text_of(rows).replace('R: {name: Madder, shade: "#a33b2a"', 'G: {name: Moss, shade: "#5b7443"')
    change = changed(text_of(), text.replace("name: Bone", "name: Ivory"))
    assert change.recolourings == (Recolouring("R", "G", "Madder", "Moss", False),)
    assert change.facts == (Fact("the name of W", "Bone", "Ivory"),)
    (first, *_) = told(change)
    assert first.words == "every stitch of R (Madder) is worked in G (Moss) now"
    assert first.means == "work the 23 stitches over in duplicate stitch"


def test_a_symbol_that_is_written_otherwise_takes_its_supplies_along() -> None:
    more = "supplies: {{B: 1, W: 1, {s}: 1}}\n"
    was = text_of(more=more.format(s="R"))
    now = text_of([row.replace("R", "K") for row in ROWS], more=more.format(s="K")).replace("  R: ", "  K: ")
    change = changed(was, now)
    assert (change.facts, change.rows) == ((), ())
    assert change.recolourings == (Recolouring("R", "K", "Madder", "Madder", True),)
    (said,) = told(change)
    assert (said.means, change.same_to_row) == ("", 14)


@pytest.mark.parametrize(("number", "means"), [
    (1, "work it over in duplicate stitch"),
    (40, "work the 40 stitches over in duplicate stitch"),
    (41, "rip back to row 2, the last row that is right"),
])  # fmt: skip
def test_up_to_forty_stitches_are_embroidered_over(number: int, means: str) -> None:
    width = 50
    rows = ["B" * width, "B" * 3 + "R" * number + "B" * (width - 3 - number), "B" * width, "B" * width]
    was = text_of(rows)
    now = was.replace("R", "G").replace('G: {name: Madder, shade: "#a33b2a"', 'G: {name: Moss, shade: "#5b7443"')
    change = changed(was, now)
    (first, *_) = told(change)
    assert (first.words[:18], first.means) == ("every stitch of R ", means)


def test_the_width_at_one_place_of_every_row() -> None:
    wide = [f"{row[:13]}BB{row[13:]}" for row in ROWS]
    (fact,) = compared(wide).facts
    assert fact == Fact("the width in stitches", "16", "18 (stitches 1–2, new in every row)")
    back = changed(text_of(wide), text_of())
    assert back.facts == (Fact("the width in stitches", "18 (stitches 1–2, in every row)", "16"),)
    one = compared([f"W{row}" for row in ROWS])
    assert one.facts == (Fact("the width in stitches", "16", "17 (stitch 17, new in every row)"),)
    assert (one.same_to_row, one.rows) == (0, ())
