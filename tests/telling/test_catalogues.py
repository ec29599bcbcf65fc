"""The catalogues of words: they fit what pages say, and what one lacks is listed and said in English.

How numbers and days are written is CLDR's (Unicode Common Locale Data Repository), as the comments beside them name it.
"""

import re
import shutil
import subprocess
import sys
from pathlib import Path
from string import Formatter

import pytest
from babel.messages.catalog import Message

import words
from lintarsia.drawing.dimensions import Measured
from lintarsia.drawing.holders import HOLDERS as DRAWN
from lintarsia.ground.trouble import Trouble
from lintarsia.publishing.pages.coverfacts import MEASURES
from lintarsia.publishing.pages.words import HOLDERS
from lintarsia.telling import catalogues
from lintarsia.telling.catalogues import FROM_MEMORY, checked, codes, read_language, script_words, speaking
from lintarsia.telling.counts import count, one_and_all
from lintarsia.telling.languages import counted, day, in_english, phrase, share, spoken, unread
from lintarsia.telling.lengths import yarn_length

LANGUAGES = [code for code in codes() if code != "en"]
ROW_FORMS = {"word", "words", "the_word", "Word", "Words", "The_word"}
SPARE = 0.05  # of all phrases: so much may wait for words


def braces(text: str) -> set[str]:
    return {name for _, name, _, _ in Formatter().parse(text) if name is not None}


def forms(message: Message) -> list[tuple[str, str]]:
    """The English of each form of a phrase that has words, and these."""
    if isinstance(message.id, str):
        return [(message.id, str(message.string))] if message.string else []
    told = [text for text in message.string or () if text]
    return [(message.id[0] if at == 0 else message.id[1], text) for at, text in enumerate(told)]


def messages(language: str) -> list[Message]:
    return [message for message in words.catalogue(language) if message.id]


def test_there_are_three_languages_besides_english() -> None:
    assert codes() == ("en", "de", "fr", "nb")


@pytest.mark.parametrize("language", LANGUAGES)
def test_what_a_language_lacks_is_listed_and_it_is_little(language: str, capsys: pytest.CaptureFixture[str]) -> None:
    lacks = words.lacking(language)
    words.main([])
    told = capsys.readouterr().out.split("\n")
    assert f"{language}: {len(lacks)} of {len(words.everything_said())} phrases have no words" in told
    assert all(f"  {text}" in told for text in lacks)
    assert len(lacks) <= SPARE * len(words.everything_said()), "run docs/making/words.py --write and fill them in"


@pytest.mark.parametrize("language", LANGUAGES)
def test_every_phrase_keeps_its_braces_and_elements(language: str) -> None:
    for message in messages(language):
        for english, told in forms(message):
            rows = ROW_FORMS if braces(english) & ROW_FORMS else set()
            plural = {"n"} if isinstance(message.id, tuple) else set()  # "the last stitch" names no number
            assert braces(told) - rows - plural == braces(english) - rows - plural, english
            assert braces(told) - ROW_FORMS <= braces(english) | plural, english
            assert sorted(re.findall(r"<[^>]*>", told)) == sorted(re.findall(r"<[^>]*>", english)), english
            assert (told[0] == " ") <= (english[0] in " ;,"), f"{english}: a blank at its start"


@pytest.mark.parametrize("language", LANGUAGES)
def test_nothing_is_guessed_and_what_was_not_read_is_marked(language: str) -> None:
    assert [m.id for m in messages(language) if m.fuzzy] == []
    assert [m.id for m in messages(language) if m.user_comments not in ([], [FROM_MEMORY])] == []
    assert read_language(language).unread is any(FROM_MEMORY in m.user_comments for m in messages(language))


@pytest.mark.parametrize("language", LANGUAGES)
def test_the_file_is_as_the_script_writes_it(language: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    shutil.copy(words.WORDS / f"{language}.po", tmp_path)
    monkeypatch.setattr(words, "WORDS", tmp_path)
    own = words.catalogue(language)
    words.write(language, words.brought_up_to_date(own, words.everything_said()))
    again = (tmp_path / f"{language}.po").read_text("utf-8")
    words.write(language, words.brought_up_to_date(words.catalogue(language), words.everything_said()))
    assert (tmp_path / f"{language}.po").read_text("utf-8") == again
    assert {m.id: m.string for m in own if m.id}.items() >= {
        m.id: m.string for m in words.catalogue(language) if m.id and m.string and (all(m.string))
    }.items()


def test_a_phrase_without_words_is_english_and_one_that_changed_loses_its_old_ones(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    text = (words.WORDS / "de.po").read_text("utf-8")
    text = text.replace('msgid "Winding list"\nmsgstr "Wickelliste"', 'msgid "Winding list"\nmsgstr ""')
    text = text.replace('msgid "Yarn by size"', 'msgid "Yarn by another name"')
    (tmp_path / "de.po").write_text(text, "utf-8")
    monkeypatch.setattr(words, "WORDS", tmp_path)
    monkeypatch.setattr(catalogues, "folder", lambda: tmp_path)
    for cached in (catalogues._catalog, catalogues.read_language):
        cached.cache_clear()
    try:
        with speaking("de"):
            assert (phrase("Winding list"), phrase("Woven in")) == ("Winding list", "Vernäht")
        assert words.lacking("de") == ["Yarn by size", "Winding list"] or set(words.lacking("de")) == {
            "Yarn by size",
            "Winding list",
        }
        words.write("de", words.brought_up_to_date(words.catalogue("de"), words.everything_said()))
        assert "another name" not in (tmp_path / "de.po").read_text("utf-8")
    finally:
        for cached in (catalogues._catalog, catalogues.read_language):
            cached.cache_clear()


def test_phrases_inside_of_others_are_found(tmp_path: Path) -> None:
    python, script, template = tmp_path / "a.py", tmp_path / "a.js", tmp_path / "a.html"
    python.write_text("f\"<b>{phrase('of {n}', n=1)}</b>{count(3, 'stitch')}\" + phrase_of('unit', 'in')\n", "utf-8")
    script.write_text('const a = `${phrase("run {n}", { n })}, ${counted(2, "{n} end", "{n} ends")}`;\n', "utf-8")
    template.write_text(
        '<p title="{{ phrase("Key") }}">{{ markup(\'<a href="{link}">all</a>\', link=x) }}</p>\n', "utf-8"
    )
    assert list(words.said_in(python)) == [
        words.Said("of {n}"), words.Said("{n} stitch", "{n} stitches"), words.Said("in", context="unit")
    ]  # fmt: skip
    assert list(words.said_in(script)) == [words.Said("run {n}"), words.Said("{n} end", "{n} ends")]
    assert list(words.said_in(template)) == [words.Said("Key"), words.Said('<a href="{link}">all</a>')]


def test_words_that_are_looked_up_by_a_name_are_all_there() -> None:
    assert set(MEASURES) >= {str(one) for one in Measured}
    assert set(HOLDERS) == set(DRAWN)


def test_numbers_lengths_and_days_as_the_language_has_them() -> None:
    # CLDR 46, "Number Symbols": de , and . · fr , and U+202F · nb , and U+00A0; "Percent": de with a blank
    with speaking("de"):
        assert count(1204, "stitch") == "1.204 Maschen"
        assert count(1, "stitch") == "1 Masche"
        assert yarn_length(3.5, imperial=False) == "3,5 m"
        assert share(0.1) == "10\N{NO-BREAK SPACE}%"
        assert day("2026-11-30") == "30. November 2026"
        assert day("long ago") == "long ago"
        assert one_and_all(["A1", "B2", "C3"]) == "A1, B2 und C3"
        assert phrase("Start at {word} 1", "round") == "Mit Runde 1 beginnen"
        assert (spoken(), in_english(), unread()) == ("de", ' lang="en"', True)
    with speaking("fr"):
        assert count(1204, "stitch") == "1\N{NARROW NO-BREAK SPACE}204 mailles"
        assert day("2026-11-05") == "5 novembre 2026"
    with speaking("nb"):
        assert count(1204, "stitch") == "1\N{NO-BREAK SPACE}204 masker"
        assert day("2026-11-05") == "5. november 2026"
        assert phrase("Of this {word}", "round") == "Om denne omgangen"
    assert (count(1204, "stitch"), share(0.1), day("2026-11-30"), in_english()) == (
        "1,204 stitches", "10%", "2026-11-30", ""
    )  # fmt: skip


def test_one_and_many_as_the_language_counts() -> None:
    # CLDR 46, "Plural Rules": French has 0 in the singular, German and Norwegian in the plural
    told = {}
    for language in LANGUAGES:
        with speaking(language):
            told[language] = [counted(number, "{n} end", "{n} ends") for number in (0, 1, 2)]
    assert told["de"] == ["0 Fadenenden", "1 Fadenende", "2 Fadenenden"]
    assert told["fr"] == ["0 bout de fil", "1 bout de fil", "2 bouts de fil"]
    assert told["nb"] == ["0 trådender", "1 trådende", "2 trådender"]
    assert script_words("fr")["forms"] == {"one": 0, "many": 1, "other": 2}
    assert script_words("de")["forms"] == {"one": 0, "other": 1}


def test_scripts_are_given_what_scripts_say_and_no_more() -> None:
    given = script_words("de")
    assert given["words"]["Next {word} ›"]
    assert "Winding list" not in given["words"]
    assert script_words("en") == {}


@pytest.mark.parametrize(("code", "near"), [("dee", "did you mean"), ("nl", "there are en, de, fr, nb")])
def test_a_language_that_there_is_none_of(code: str, near: str) -> None:
    with pytest.raises(Trouble, match=near):
        checked(code)


def test_english_words_cost_nothing() -> None:
    code = (
        "import sys; from lintarsia.telling.counts import count; from lintarsia.telling.catalogues import speaking\n"
        "with speaking('en'): count(3, 'row')\n"
        "assert not any(name.startswith('babel') for name in sys.modules)"
    )
    subprocess.run([sys.executable, "-c", code], check=True)
