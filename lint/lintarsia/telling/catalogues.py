"""The catalogues of words, `site/words/<language>.po`: gettext's files, read by Babel as they are.

One is read once a process, in a fifth of a second with Babel itself, and none for English: a compiled form beside them
would save half of that and be one more thing to go stale.
"""

from collections.abc import Iterator
from contextlib import contextmanager
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

from lintarsia.ground.installing import how_to_install
from lintarsia.ground.resources import resource
from lintarsia.ground.trouble import Trouble
from lintarsia.telling.guessing import did_you_mean
from lintarsia.telling.languages import ENGLISH, Language, speak

if TYPE_CHECKING:
    from babel.messages.catalog import Catalog

FROM_MEMORY = "from memory"
"""A translator's comment: nobody who knits in this language has read it yet. Whoever does takes it away."""
SCRIPTS = "site/assets/"  # where a phrase is said that scripts say


def folder() -> Path:
    return resource("site") / "words"


def codes() -> tuple[str, ...]:
    """The languages that there are: English, then those with a catalogue."""
    return (ENGLISH, *sorted(file.stem for file in folder().glob("*.po")))


def checked(code: str) -> str:
    """`code` where there is such a language. Raises Trouble with those that there are."""
    known = codes()
    if code not in known:
        near = did_you_mean(code, known) or f"; there are {', '.join(known)}"
        raise Trouble(f"there are no words in {code!r}{near}")
    return code


@contextmanager
def speaking(code: str) -> Iterator[None]:
    """Speak this language for the time of a `with`. Raises Trouble where there is no catalogue of it."""
    with speak(Language() if code == ENGLISH else read_language(code)):
        yield


@cache
def read_language(code: str) -> Language:
    """A language with all its words. Raises Trouble where there is none, or where Babel is not installed."""
    catalog = _catalog(checked(code))
    from babel import Locale
    from babel.numbers import get_decimal_symbol, get_group_symbol

    locale, unread = Locale.parse(code), False
    words: dict[str, str] = {}
    counts: dict[str, tuple[str, ...]] = {}
    for message in catalog:
        if not message.id or message.fuzzy:
            continue
        unread = unread or FROM_MEMORY in message.user_comments
        if isinstance(message.id, str):
            if message.string:
                words[f"{message.context}|{message.id}" if message.context else message.id] = str(message.string)
        elif message.string and all(message.string):
            counts[message.id[0]] = tuple(message.string)
    separators = {ord(","): get_group_symbol(locale), ord("."): get_decimal_symbol(locale)}
    return Language(code, words, counts, _form(catalog), separators, unread)


def script_words(code: str) -> dict[str, Any]:
    """What scripts are given: `language`, `words`, `counts`, and `forms`, by the category that a browser finds for a
    number (Unicode, UTS #35, "Plural Rules")."""
    if code == ENGLISH:
        return {}
    from babel import Locale

    catalog, language = _catalog(code), read_language(code)
    category = Locale.parse(code).plural_form
    said = [message for message in catalog if any(place.startswith(SCRIPTS) for place, _ in message.locations)]
    ones = [one.id for one in said if isinstance(one.id, str) and one.id]
    return {
        "language": code,
        "words": {text: language.words[text] for text in ones if text in language.words},
        "counts": {
            one.id[0]: language.counts[one.id[0]]
            for one in said
            if isinstance(one.id, tuple) and one.id[0] in language.counts
        },
        "forms": {category(number): int(language.form(number)) for number in (*range(200), 10**6)},
    }


def _form(catalog: "Catalog") -> Any:
    from gettext import c2py

    return c2py(catalog.plural_expr)


@cache
def _catalog(code: str) -> "Catalog":
    try:
        from babel.messages.pofile import read_po
    except ImportError:
        raise Trouble(f"words in {code} need one more library: {how_to_install('site')}") from None
    with (folder() / f"{code}.po").open("rb") as file:
        return read_po(file, locale=code, abort_invalid=True)
