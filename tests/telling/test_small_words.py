"""Small things that are said, each at its edges: balls, what is caught, lengths at the table, languages that are not.

The inch is 25.4 mm and the yard 0.9144 m exactly (international yard and pound agreement, 1959).
"""

import builtins
from typing import Any

import pytest

from lintarsia.chart import Chart
from lintarsia.ground.trouble import Trouble
from lintarsia.reading import read_chart
from lintarsia.telling import catalogues
from lintarsia.telling.bothunits import centimetres
from lintarsia.telling.catching import catching_words
from lintarsia.telling.guessing import did_you_mean, nearest
from lintarsia.telling.languages import marked
from lintarsia.telling.lengths import ball_count, fabric_length, wound_length
from lintarsia.telling.names import colour_and_symbol, colour_name, half_words, row_word, rows_words

TEXT = """\
lintarsia: 1
title: Words
{more}gauge: {{stitches: 22, rows: 30, over: 10 cm}}
colours:
  B: {{name: Dusk blue, shade: "#27406b"}}
  W: {{name: W, shade: "#efe9dc"}}
chart: |
  BBBWW
  BBWWW
"""


def chart(more: str = "") -> Chart:
    found = read_chart("x.chart.yaml", TEXT.format(more=more).encode()).chart
    assert found is not None
    return found


def test_balls_whole_and_in_parts() -> None:
    told = [ball_count(number) for number in (1, 1.0, 2, 0, 2.5, 0.5, 1204, 1.125)]
    assert told == ["1 ball", "1 ball", "2 balls", "0 balls", "2.5 balls", "0.5 balls", "1,204 balls", "1.125 balls"]


def test_what_is_caught_is_said_where_the_file_says_so() -> None:
    assert catching_words(chart()) == ""
    for stitches, told in ((3, "3 stitches"), (1, "1 stitch")):
        words = catching_words(chart(f"caught: {{every: {stitches} stitches}}\n"))
        assert words == f"floats and carries longer than {told} are caught on the way"


@pytest.mark.parametrize(
    ("metres", "metric", "imperial"),
    [
        (0.95, "95 cm", "1.25 yd"), (0.951, "1.0 m", "1.25 yd"), (9.95, "10.0 m", "11.00 yd"),
        (10.0, "10.0 m", "11.00 yd"), (10.01, "10.5 m", "11.00 yd"), (9.144, "9.2 m", "10.00 yd"),
        (9.15, "9.2 m", "10.50 yd"),
        (0.86, "90 cm", "34 in"), (0.87, "90 cm", "1.00 yd"), (0.05, "5 cm", "2 in"), (0.0508, "10 cm", "2 in"),
    ],
)  # fmt: skip
def test_what_is_measured_off_at_a_table_is_never_too_little(metres: float, metric: str, imperial: str) -> None:
    assert (wound_length(metres, False), wound_length(metres, True)) == (metric, imperial)


def test_finished_lengths_are_told_finer_below_five_centimetres() -> None:
    assert [centimetres(mm) for mm in (49.4, 49.6, 50.6, 52.4, 52.6, 503)] == ["4.9", "5", "5", "5", "5.5", "50.5"]


def test_distances_on_the_fabric() -> None:
    assert [fabric_length(mm, False) for mm in (9.94, 9.95, 25.4, 120)] == ["10 mm", "1 cm", "2.5 cm", "12 cm"]
    assert [fabric_length(mm, True) for mm in (7.62, 25.4, 304.8)] == ["0.3 in", "1 in", "12 in"]


def test_names_of_colours_rows_and_sides() -> None:
    own = chart()
    assert [colour_and_symbol(own, symbol) for symbol in "BWQ"] == ["Dusk blue (B)", "W", "Q"]
    assert [colour_name(own, symbol) for symbol in "BQ"] == ["Dusk blue", "“Q”, not in the key"]
    assert (row_word(own), row_word(chart("worked: round\n")), row_word(chart("worked: turned\n"))) == (
        "row", "round", "row",
    )  # fmt: skip
    assert (rows_words("row", [3]), rows_words("round", [3, 4, 5])) == ("row 3", "rounds 3–5")
    assert (half_words("left"), marked("a", "b")) == ("left-hand side", ("a", "b"))


def test_the_nearest_name_is_one_and_the_very_nearest() -> None:
    assert nearest("colors", ["colour", "colours", "colourful"]) == "colours"
    assert nearest("float_len", ["float/length", "float-len"]) == "float-len"
    assert nearest("zebra", ["colours"]) is None
    assert did_you_mean("suplies", ["supplies", "limits"]) == "; did you mean 'supplies'?"
    assert did_you_mean("zebra", ["limits"]) == ""


def test_a_language_that_is_not_there_is_told_with_those_that_are(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(catalogues, "codes", lambda: ("en", "de", "nb"))
    assert catalogues.checked("nb") == "nb"
    for code, told in (("xx", "there are no words in 'xx'; there are en, de, nb"),
                       ("nn-b", "there are no words in 'nn-b'; did you mean 'nb'?")):  # fmt: skip
        with pytest.raises(Trouble) as caught:
            catalogues.checked(code)
        assert str(caught.value) == told


def test_without_the_library_that_reads_words_it_is_named(monkeypatch: pytest.MonkeyPatch) -> None:
    load = builtins.__import__

    def missing(name: str, *rest: Any, **more: Any) -> Any:
        if name.startswith("babel"):
            raise ImportError(name)
        return load(name, *rest, **more)

    monkeypatch.setattr(builtins, "__import__", missing)
    with pytest.raises(Trouble) as caught:
        catalogues._catalog.__wrapped__("de")
    assert str(caught.value).startswith("words in de need one more library: ")
    assert "[site]" in str(caught.value)
