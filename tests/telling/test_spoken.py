"""What is said in a language: one made up here, whose catalogue has every kind of entry, and English beside it."""

from pathlib import Path

import pytest

from lintarsia.telling import catalogues
from lintarsia.telling.counts import count, one_and_all, one_of, stitch_count
from lintarsia.telling.languages import (
    Language,
    in_english,
    own_language,
    phrase,
    phrase_of,
    speak,
    spoken,
    unread,
)

CATALOGUE = r"""
msgid ""
msgstr ""
"Content-Type: text/plain; charset=utf-8\n"
"Plural-Forms: nplurals=2; plural=(n != 1);\n"

#: lint/lintarsia/one.py:3 site/assets/board.js:7
msgid "knit"
msgstr "strik"

#: lint/lintarsia/one.py:4
msgctxt "a verb"
msgid "rest"
msgstr "hvil"

#, fuzzy
#: site/assets/board.js:8
msgid "purl"
msgstr "guessed"

#: site/assets/board.js:9
msgid "unsaid"
msgstr ""

#: site/assets/board.js:10
msgid "{n} row"
msgid_plural "{n} rows"
msgstr[0] "{n} pind"
msgstr[1] "{n} pinde"

#: lint/lintarsia/one.py:9
msgid "{n} loop"
msgid_plural "{n} loops"
msgstr[0] "{n} masked"
msgstr[1] "{n} maskede"

#: site/assets/board.js:11
msgid "{n} stitch"
msgid_plural "{n} stitches"
msgstr[0] "{n} maske"
msgstr[1] ""
"""


@pytest.fixture
def words(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setattr(catalogues, "folder", lambda: tmp_path)
    catalogues._catalog.cache_clear()
    file = tmp_path / "da.po"
    file.write_text(CATALOGUE, encoding="utf-8")
    return file


def test_a_catalogue_gives_what_is_whole_and_sure(words: Path) -> None:
    """Not the head, nor what is guessed, unsaid, or said for one number only."""
    language = catalogues.read_language.__wrapped__("da")
    assert language.words == {"knit": "strik", "a verb|rest": "hvil"}
    assert language.counts == {"{n} row": ("{n} pind", "{n} pinde"), "{n} loop": ("{n} masked", "{n} maskede")}
    assert (language.code, [int(language.form(n)) for n in (0, 1, 2)]) == ("da", [1, 0, 1])
    assert language.separators == {ord(","): ".", ord("."): ","}
    assert language.unread is False
    words.write_text(
        CATALOGUE.replace("#: lint/lintarsia/one.py:4", "# from memory\n#: lint/lintarsia/one.py:4"), "utf-8"
    )
    catalogues._catalog.cache_clear()
    assert catalogues.read_language.__wrapped__("da").unread is True


def test_scripts_have_what_is_said_in_scripts(words: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(catalogues, "read_language", catalogues.read_language.__wrapped__)
    assert catalogues.script_words("da") == {
        "language": "da",
        "words": {"knit": "strik"},
        "counts": {"{n} row": ("{n} pind", "{n} pinde")},
        "forms": {"one": 0, "other": 1},
    }
    assert catalogues.script_words("en") == {}


MADE_UP = Language(
    "xx",
    {"{list} and {last}": "{list} og {last}", "{list} or {last}": "{list} eller {last}", "a|rest": "pause"},
    {"{n} row": ("{n} pind", "{n} pinde")},
    separators={ord(","): "'", ord("."): ","},
    unread=True,
)


def test_counts_and_lists() -> None:
    with speak(MADE_UP):
        assert [count(n, "row") for n in (1, 2, 1204)] == ["1 pind", "2 pinde", "1'204 pinde"]
        assert [count(2, "loop"), count(2, "supply", "supplies"), stitch_count(3)] == [
            "2 loops",
            "2 supplies",
            "3 stitches",
        ]
        assert [count(1, "loop"), stitch_count(1)] == ["1 loop", "1 stitch"]
        assert [one_and_all(["A"]), one_and_all(["A", "B", "C"]), one_of(["A", "B"])] == ["A", "A, B og C", "A eller B"]
        assert [phrase_of("a", "rest"), phrase_of("the", "rest"), phrase("{n} in all", n=3)] == [
            "pause",
            "rest",
            "3 in all",
        ]
    assert [count(1, "row"), count(1204, "row"), stitch_count(2)] == ["1 row", "1,204 rows", "2 stitches"]
    assert [one_and_all(["A", "B", "C"]), one_of(["A", "B", "C"])] == ["A, B and C", "A, B or C"]


def test_a_page_says_which_language_it_is_in() -> None:
    with speak(MADE_UP):
        assert (own_language(), in_english(), spoken(), unread()) == (' lang="xx"', ' lang="en"', "xx", True)
    assert (own_language(), in_english(), spoken(), unread()) == ("", "", "en", False)


def test_a_row_is_called_as_the_sentence_has_it() -> None:
    danish = {
        "round": "omgang",
        "rounds": "omgange",
        "the round": "omgangen",
        "{Word}, {words}": "{Words} og {the_word}",
    }
    with speak(Language("xx", danish)):
        assert phrase("{Word}, {words}", "round") == "Omgange og omgangen"
        assert phrase("{The_word} {n}: {word}", "round", n=3) == "Omgangen 3: omgang"
        assert phrase("{Word}, {words}", "row") == "Rows og the row"
    assert phrase("{Word}, {words}, {the_word}", "row") == "Row, rows, the row"
