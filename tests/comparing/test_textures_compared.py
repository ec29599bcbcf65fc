"""Purl and garter stitches that have changed are told by their rows, as what hands have to do otherwise."""

import pytest
from planted import ROWS, chart_of, text_of, top, with_row

from lintarsia.chart.content import row_marks
from lintarsia.comparing.charts import compare_charts
from lintarsia.comparing.model import ChartChange, How
from lintarsia.comparing.telling import safe_words, told


def textured(rows: list[str] | tuple[str, ...] = ROWS, **layer: str) -> str:
    """The kite with rows of texture, `row_7="….pp"`; all others plain."""
    own = {int(name[4:]): line for name, line in layer.items()}
    lines = (own.get(number, "." * len(rows[0])) for number in range(len(rows), 0, -1))
    return text_of(rows) + "stitches: |\n" + "".join(f"  {line}\n" for line in lines)


def compared(was: str, now: str) -> ChartChange:
    return compare_charts(chart_of(was), chart_of(now))


SEED = "...pp.........p."  # stitches 2, 12 and 13


@pytest.mark.parametrize(
    ("was", "now", "words"),
    [
        (textured(row_7=SEED), textured(row_7="..ppp.........p."), "stitch 14 is knitted or purled otherwise"),
        (text_of(), textured(row_7=SEED), "stitches 2 and 12–13 are knitted or purled otherwise"),
        (textured(row_7=SEED), text_of(), "stitches 2 and 12–13 are knitted or purled otherwise"),
        (textured(row_7=SEED), textured(with_row(7, "BBBBRRRBBBBBBBBW"), row_7="..ppp.........p."),
         "stitches 1 and 14 are knitted or purled otherwise"),
    ],
)  # fmt: skip
def test_one_row(was: str, now: str, words: str) -> None:
    change = compared(was, now)
    (row,) = change.rows
    (said,) = told(change)
    assert (row.row, row.was_row, row.how) == (7, 7, How.TEXTURE)
    assert said.words == f"row 7 (RS): {words}"
    assert said.means == "rip back to row 6, the last row that is right", "a purl cannot be embroidered away"
    assert (change.same_to_row, change.facts) == (6, ())
    assert safe_words(change) == "unchanged up to row 6: whoever is no further goes on with the new chart"


def test_the_words_of_the_row_say_the_purls() -> None:
    (row,) = compared(text_of(), textured(row_7=SEED)).rows
    assert (row.was_words, row.now_words) == ("k9 B, k3 R, k4 B", "k1 B, p1 B, k7 B, k2 R, p1 R, p1 B, k3 B")


def test_what_shows_a_knit_however_it_is_written_is_no_change() -> None:
    assert not compared(textured(row_7=SEED), textured(row_7=SEED.replace(".", "k"))).anything
    assert not compared(text_of(), textured(row_7="k" * 16)).anything


def test_rows_that_have_moved_take_their_texture_along() -> None:
    grown = [*ROWS[: top(3)], *[ROWS[top(3)]] * 2, *ROWS[top(3) :]]
    change = compared(textured(row_7=SEED), textured(grown, row_9=SEED))
    assert [(row.row, row.how) for row in change.rows] == [(4, How.DOUBLED), (5, How.DOUBLED)]


def test_garter_stitch_stays_garter_stitch_on_the_other_side() -> None:
    garter = "gggg............"
    grown = [*ROWS[: top(3)], ROWS[top(3)], *ROWS[top(3) :]]
    change = compared(textured(row_7=garter, row_8=garter), textured(grown, row_8=garter, row_9=garter))
    assert [(row.row, row.how) for row in change.rows] == [(4, How.DOUBLED)]


def test_columns_that_came_bring_their_own_texture() -> None:
    wide = [f"{row[:2]}W{row[2:]}" for row in ROWS]
    change = compared(textured(row_7=SEED), textured(wide, row_7=f"{SEED[:2]}p{SEED[2:]}"))
    assert ([fact.what for fact in change.facts], change.rows) == (["the width in stitches"], ())
    other = compared(textured(row_7=SEED), textured(wide, row_7=f"{SEED[:2]}pp{SEED[3:]}"))
    assert [(row.row, row.how) for row in other.rows] == [(7, How.TEXTURE)]


def test_each_row_s_stitches_are_told_by_themselves() -> None:
    change = compared(text_of(), textured(row_7=SEED, row_8=SEED, row_9=SEED))
    assert [one.words.partition(":")[0] for one in told(change)] == ["row 7 (RS)", "row 8 (WS)", "row 9 (RS)"]


def test_a_mark_of_a_row_knows_its_purls() -> None:
    """By it a page knows whether a row that somebody is at is still the same."""
    plain, other = row_marks(chart_of(text_of())), row_marks(chart_of(textured(row_7=SEED)))
    assert [number for number, (a, b) in enumerate(zip(plain, other, strict=True), 1) if a != b] == [7]
    assert row_marks(chart_of(textured(row_7=SEED.replace(".", "k")))) == other
