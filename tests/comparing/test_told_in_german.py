"""What is told to whoever began with an earlier state, in another language: on the card, beside what scripts say."""

from planted import ROWS, chart_of, compared, text_of, with_row

from lintarsia.comparing.charts import compare_charts
from lintarsia.comparing.telling import told, what_words
from lintarsia.telling.catalogues import speaking

RICH = text_of().replace("over: 10 cm", "over: 10 cm, needle: 4.5 mm, loop: 19.5 mm")


def test_a_row_and_what_it_means() -> None:
    row = next(number for number, text in enumerate(ROWS, 1) if text[3:5] == "BB")
    text = ROWS[row - 1]
    change = compared(with_row(row, f"{text[:3]}WW{text[5:]}"))
    with speaking("de"):
        [one] = [one for one in told(change) if one.rows]
    wide = len(text)
    side = "Hinr." if change.now.side(row).value == "RS" else "Rückr."
    assert one.words == f"Reihe {row} ({side}): Maschen {wide - 4}–{wide - 3} sind in einer anderen Farbe"
    assert one.means == "die 2 Maschen im Maschenstich übersticken, in Bone (W)"


def test_every_fact_has_its_words() -> None:
    """Those of a chart that says much, against one that says little."""
    change = compare_charts(chart_of(text_of()), chart_of(RICH))
    assert {fact.what for fact in change.facts} == {"the needle", "the yarn of a stitch"}
    with speaking("de"):
        assert [one.words for one in told(change)] == ["Nadel: neu, 4.5 mm", "Garn je Masche: neu, 19.5 mm"]
        assert what_words("length of a ball of w") == "Lauflänge eines Knäuels von w"
        assert what_words("the shade of W") == "Farbton von W"
        assert what_words("something of a later release") == "something of a later release"
