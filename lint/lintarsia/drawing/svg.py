"""Writing SVG text: numbers, escaping, the root element. Nothing here knows knitting.

Drawings carry presentation attributes only, never `style`, so that a page with a strict content security policy can
hold them, and classes beside them, so that a page's own stylesheet can re-colour them (see `theme.py`).
"""

import re
from functools import lru_cache

# Not allowed in XML 1.0 at all, escaped or not.
_FORBIDDEN = re.compile("[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
_SPECIAL = re.compile(rf"[&<>\"']|{_FORBIDDEN.pattern}")
_TOKEN = re.compile(r"[A-Za-z][A-Za-z0-9_-]*|")

FONT = "system-ui, 'Segoe UI', Roboto, 'Noto Sans', 'DejaVu Sans', sans-serif"


def escape(text: str) -> str:
    """Text made safe for element content and for attributes in double or single quotes."""
    if not _SPECIAL.search(text):  # most texts: names of supplies, numbers, plain words
        return text
    text = _FORBIDDEN.sub("\ufffd", text)
    text = text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")
    return text.replace('"', "&quot;").replace("'", "&#39;")


@lru_cache(maxsize=1 << 16)  # the same few thousand coordinates come again and again
def num(value: float) -> str:
    """A coordinate with at most two decimals, as short as it can be written."""
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


def check_prefix(prefix: str) -> str:
    """`prefix` if ids can begin with it. Raises ValueError otherwise."""
    if not _TOKEN.fullmatch(prefix):
        raise ValueError(f"{prefix!r} cannot begin an id; expected a letter, then letters, digits, - or _")
    return prefix


def document(
    body: str,
    *,
    kind: str,
    width: float,
    height: float,
    title: str,
    desc: str,
    prefix: str = "",
    attributes: str = "",
    size: tuple[str, str] | None = None,
) -> str:
    """A whole `<svg>` element around `body`.

    `kind` becomes its class and part of the ids of title and description; `size` is the width and height to state
    (such as `("210mm", "297mm")`), by default the view box's own numbers.
    """
    wide, high = size or (num(width), num(height))
    name = f"{check_prefix(prefix)}{kind}"
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="lx lx-{kind}" viewBox="0 0 {num(width)} {num(height)}" '
        f'width="{wide}" height="{high}" role="img" aria-labelledby="{name}-title {name}-desc"{attributes}>'
        f'<title id="{name}-title">{escape(title)}</title><desc id="{name}-desc">{escape(desc)}</desc>{body}</svg>'
    )
