"""Pages are filled in by Jinja with everything escaped; only what our own drawing code wrote goes in as it is."""

from functools import cache
from typing import Any

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup, escape

from lintarsia.publishing.words import count, stitches
from lintarsia.resources import resource


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
    env.filters["count"] = count
    env.filters["stitches"] = stitches
    env.filters["ticks"] = ticks
    env.filters["told"] = told
    return env


def ticks(text: str) -> Markup:
    """Text with what stands between backticks as code; everything escaped."""
    parts = text.split("`")
    if len(parts) % 2 == 0:  # an odd tick out: it is a tick
        return escape(text)
    return Markup("").join(Markup("<code>{}</code>").format(p) if i % 2 else escape(p) for i, p in enumerate(parts))


def told(text: str) -> Markup:
    """The same with a capital at its start, as a sentence of its own."""
    return ticks(text[:1].upper() + text[1:])


def fill(template: str, **values: Any) -> str:
    """The part `template` with `values` in it."""
    return environment().get_template(template).render(**values)
