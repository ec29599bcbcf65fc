"""Pages are filled in by Jinja with everything escaped; only what our own drawing code wrote goes in as it is."""

from functools import cache
from typing import Any

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup, escape

from lintarsia.ground.resources import resource
from lintarsia.publishing.pages.levelmarks import mark
from lintarsia.publishing.pages.quoted import sentence, with_code
from lintarsia.telling.counts import count
from lintarsia.telling.languages import (
    counted,
    day,
    in_english,
    marked,
    own_language,
    phrase,
    phrase_of,
    row_forms,
    spoken,
    unread,
)


@cache
def environment() -> Environment:
    """One for the process: compiled templates are kept. A name that a template misspells is an error, not a blank."""
    env = Environment(
        loader=FileSystemLoader(str(resource("site") / "parts")),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        auto_reload=False,
    )
    env.globals.update(words())
    env.filters["ticks"] = lambda text: Markup(with_code(text))
    env.filters["told"] = lambda text: Markup(sentence(text))
    env.globals["mark"] = lambda state: Markup(mark(state))
    return env


(FROM_MEMORY,) = marked(
    "The words of these pages are from memory: no knitter whose own language this is has read them yet."
)


def words() -> dict[str, Any]:
    """The functions by which templates say something, in the language that is spoken when they are filled in."""
    return {
        "phrase": phrase,
        "phrase_of": phrase_of,
        "markup": markup,
        "counted": counted,
        "count": count,
        "day": day,
        "in_english": lambda: Markup(in_english()),
        "own_language": lambda: Markup(own_language()),
        "spoken": spoken,
        "unread": unread,
        "FROM_MEMORY": FROM_MEMORY,
        "row_forms": row_forms,
    }


def markup(text: str, word: str = "", **values: object) -> Markup:
    """A phrase with elements in it, which are the catalogue's own; `values` are escaped."""
    return Markup(phrase(text)).format(**(row_forms(word) if word else {}), **values)


def load(*templates: str) -> None:
    """Have these ready: one takes some milliseconds to compile, once a process."""
    for template in templates:
        environment().get_template(template)


def fill(template: str, **values: Any) -> str:
    """The part `template` with `values` in it."""
    return environment().get_template(template).render(**values)


def escaped(text: str) -> str:
    """A text as templates put it in, for what is put together beside them."""
    return str(escape(text))
