"""The words of pages in the knitter's language.

Whoever puts words on a page writes them in English, `phrase("row {row} of {rows}", row=3, rows=40)`, and gets them in
the language that is spoken: what a catalogue in `site/words` has for them, or the English where it has nothing. English
needs no catalogue, and neither the catalogues nor Babel, which reads them, are loaded for it.

Which language a page is in goes along with what makes it, from process to process: a site's plan, a chart's task, the
frame around a page. It is spoken for the time in which one page is put together, `with speaking("de")`, and not longer:
some two hundred functions have a word to say, and none has to be told. What rules report is put together outside and
stays English.
"""

from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from contextvars import ContextVar
from typing import NamedTuple

ENGLISH = "en"


class Language(NamedTuple):
    """A language as a catalogue has it. `words` are by the English ones, those with a context by `context|text`;
    `counts` by the English of one, each with its forms, which `form` picks by a number; `separators` replaces the
    comma and the point of English figures; `unread` says that no native knitter has read all of it."""

    code: str = ENGLISH
    words: Mapping[str, str] = {}
    counts: Mapping[str, tuple[str, ...]] = {}
    form: Callable[[int], int] = lambda number: number != 1
    separators: Mapping[int, str] = {}
    unread: bool = False


_SPOKEN: ContextVar[Language] = ContextVar("spoken", default=Language())  # noqa: B039 - a tuple, which nobody changes


@contextmanager
def speak(language: Language) -> Iterator[None]:
    """Speak this language for the time of a `with`; `catalogues.speaking` does by its code."""
    token = _SPOKEN.set(language)
    try:
        yield
    finally:
        _SPOKEN.reset(token)


def is_english() -> bool:
    return _SPOKEN.get().code == ENGLISH


def spoken() -> str:
    """The code of the language that is spoken: `en`, `de`."""
    return _SPOKEN.get().code


def unread() -> bool:
    """Whether words of the language that is spoken are from memory: no native knitter has read them all."""
    return _SPOKEN.get().unread


def marked(*texts: str) -> tuple[str, ...]:
    """Texts that are looked up elsewhere, by a name: here they are found by what gathers the catalogues."""
    return texts


def phrase(text: str, word: str = "", **values: object) -> str:
    """`text` as it is said, with `values` in its braces. `word` is `row` or `round`, for `{word}` and the other
    names of `row_forms`."""
    told = _SPOKEN.get().words.get(text, text)
    if word:
        values |= row_forms(word)
    return told.format(**values) if values else told


def phrase_of(context: str, text: str, **values: object) -> str:
    """The same for a text that is said in several ways: `context` says in English which is meant."""
    told = _SPOKEN.get().words.get(f"{context}|{text}", text)
    return told.format(**values) if values else told


def counted(number: int, one: str, many: str, **values: object) -> str:
    """`one` or `many`, as the language has it of such a number, which is `{n}` in both."""
    language = _SPOKEN.get()
    forms = language.counts.get(one)
    told = (one if number == 1 else many) if forms is None else forms[language.form(number)]
    return told.format(n=in_figures(f"{number:,}"), **values)


ROW_WORDS = marked("row", "rows", "the row", "round", "rounds", "the round")


def row_forms(word: str) -> dict[str, str]:
    """What a row is called where a sentence may have it: `word`, `words`, `the_word`, for languages in which that is a
    word of its own; and each with a capital."""
    one, many, the = phrase(word), phrase(f"{word}s"), phrase(f"the {word}")
    forms = {"word": one, "words": many, "the_word": the}
    return forms | {name.capitalize(): told[:1].upper() + told[1:] for name, told in forms.items()}


def in_figures(text: str) -> str:
    """`1,204.5` with the separators of the language: `1.204,5`."""
    separators = _SPOKEN.get().separators
    return text.translate(separators) if separators else text


def share(part: float) -> str:
    """`10%`, `10 %`: a part of one."""
    if is_english():
        return f"{part:.0%}"
    from babel.numbers import format_percent

    return format_percent(part, locale=spoken())


def day(iso: str) -> str:
    """A day as it is written out, `30. November 2026`; in English, and where it is no day, as it stands in files."""
    if is_english():
        return iso
    from datetime import date

    try:
        found = date.fromisoformat(iso)
    except ValueError:
        return iso
    from babel.dates import format_date

    return format_date(found, "long", locale=spoken())


def in_english() -> str:
    """The attribute of what is English on a page that is not, so that it is read aloud right; "" on one that is."""
    return "" if is_english() else f' lang="{ENGLISH}"'


def own_language() -> str:
    """The attribute of a page's own language where that is not English."""
    return "" if is_english() else f' lang="{spoken()}"'
