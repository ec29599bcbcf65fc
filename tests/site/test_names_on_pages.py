"""Names where a page has little room, or letters that are written from right to left (Unicode, UAX #9)."""

import pytest

from lintarsia.publishing.pages.names import isolated, shortened


def test_a_name_is_cut_to_forty_letters_without_a_gap_before_the_dots() -> None:
    assert shortened("x" * 40) == "x" * 40
    assert shortened("x" * 41) == "x" * 39 + "…"
    assert shortened("x" * 37 + "  " + "yyyy") == "x" * 37 + "…"


@pytest.mark.parametrize("name", ["Bone", "", "7", "Grün", "深い海"])
def test_a_name_that_turns_nothing_stays_as_it_is(name: str) -> None:
    assert isolated(name) == name


@pytest.mark.parametrize("name", ["\u05d0\u05d1", "Bone \u0627", "a\u202eb", "a\u202bb", "a\u2067b"])
def test_a_name_that_turns_what_stands_beside_it_is_set_apart(name: str) -> None:
    """Between FIRST STRONG ISOLATE and POP DIRECTIONAL ISOLATE."""
    assert isolated(name) == f"\u2068{name}\u2069"
