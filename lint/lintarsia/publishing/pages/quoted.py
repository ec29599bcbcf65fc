"""What rules say, as HTML: what stands between backticks is code, and everything is escaped."""

from functools import lru_cache

from lintarsia.drawing.svg import escape


@lru_cache(maxsize=1024)  # what a rule says of itself comes again on page after page
def with_code(text: str) -> str:
    parts = text.split("`")
    if len(parts) % 2 == 0:  # an odd tick out: it is a tick
        return escape(text)
    return "".join([f"<code>{escape(part)}</code>" if i % 2 else escape(part) for i, part in enumerate(parts)])


def sentence(text: str) -> str:
    """The same with a capital at its start."""
    return with_code(text[:1].upper() + text[1:])
