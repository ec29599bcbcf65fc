"""Lengths in both units, and the words that differ from one country to the other."""

import pytest

from lintarsia.telling.bothunits import both_units, centimetres, inches, nested_words
from lintarsia.telling.languages import Language, phrase_of, speak
from lintarsia.telling.names import half_words
from lintarsia.telling.terms import Terms


@pytest.mark.parametrize(
    ("mm", "told"),
    [
        # An inch is 25.4 mm (international yard and pound agreement, 1959).
        (0, "0"),
        (3, "0"),
        (6.4, "¼"),
        (12.7, "½"),
        (19, "¾"),
        (25.4, "1"),
        (203.2, "8"),
        (298, "11¾"),
        (317.5, "12½"),
    ],
)
def test_inches_to_the_quarter(mm: float, told: str) -> None:
    assert inches(mm) == told


@pytest.mark.parametrize(
    ("mm", "told"), [(200, "20"), (196, "19.5"), (52.6, "5.5"), (50, "5"), (49.4, "4.9"), (7, "0.7"), (1004, "100.5")]
)
def test_centimetres_to_the_half_and_small_ones_to_the_millimetre(mm: float, told: str) -> None:
    assert centimetres(mm) == told


def test_sizes_in_brackets_behind_the_first() -> None:
    assert nested_words(["20", "30", "40"]) == "20 (30, 40)"
    assert nested_words(["20", "20", "40"]) == "20 (20, 40)"
    assert nested_words(["20", "20"]) == "20"
    assert both_units([200, 300], False) == ("20 (30) cm", "7¾ (11¾) in")
    assert both_units([200, 300], True) == ("7¾ (11¾) in", "20 (30) cm")
    assert both_units([200, 300], True, [203.2, 304.8]) == ("8 (12) in", "20 (30) cm")


def test_british_and_american() -> None:
    assert [Terms.BRITISH.bind_off, Terms.BRITISH.bind_them_off, Terms.BRITISH.gauge] == [
        "cast off",
        "cast them off",
        "Tension",
    ]
    assert [Terms.AMERICAN.bind_off, Terms.AMERICAN.bind_them_off, Terms.AMERICAN.gauge] == [
        "bind off",
        "bind them off",
        "Gauge",
    ]


def test_the_halves_of_a_chart() -> None:
    assert (half_words("left"), half_words("right")) == ("left-hand side", "right-hand side")


def test_a_text_that_is_said_in_several_ways() -> None:
    with speak(Language("xx", {"a card|{n} left": "{n} igen", "a hand|left": "venstre {x}"})):
        assert phrase_of("a card", "{n} left", n=3) == "3 igen"
        assert phrase_of("a coat", "{n} left", n=3) == "3 left"
        assert phrase_of("a hand", "left") == "venstre {x}"
