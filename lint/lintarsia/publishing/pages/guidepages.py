"""The pages that are written by hand: a paragraph `[[drawing: interlock]]` becomes the drawing, and what stands between
`<!-- working -->` and `<!-- all -->` is on the working site alone."""

import re
from collections.abc import Iterator
from html import unescape

from lintarsia.drawing.techniques import TECHNIQUES

_PLACE = re.compile(r"<p>\[\[drawing: ([a-z-]+)\]\]</p>")
_WORKING = re.compile(r"<!-- working -->.*?<!-- all -->", re.DOTALL)
_DESC = re.compile(r"<desc[^>]*>(.*?)</desc>", re.DOTALL)


def for_face(html: str, *, public: bool) -> str:
    """The page without what is for the other face of the site."""
    return _WORKING.sub("", html) if public else re.sub("<!-- (?:working|all) -->", "", html)


def put_drawings(html: str) -> str:
    """The page with its drawings in it. Raises KeyError for a drawing that there is none of."""

    def draw(place: re.Match[str]) -> str:
        svg = TECHNIQUES[place[1]](prefix=f"{place[1]}-")
        told = _DESC.search(svg)
        caption = f"<figcaption>{told[1]}</figcaption>" if told else ""
        return f'<figure class="sheet">{svg}{caption}</figure>'

    return _PLACE.sub(draw, html)


_HEADING = re.compile(r'<h2[^>]*\sid="([^"]*)"[^>]*>(.*?)</h2>', re.DOTALL)
_TITLE = re.compile(r"<h1.*?</h1>", re.DOTALL)


def parts_of(html: str) -> Iterator[tuple[str, str, str]]:
    """What a page says, heading by heading: words and id of each, "" of what stands before the first, and the text."""
    words, anchor, start = "", "", 0
    for heading in _HEADING.finditer(html):
        yield words, anchor, _text(html[start : heading.start()])
        anchor, words, start = heading[1], _text(heading[2]), heading.end()
    yield words, anchor, _text(html[start:])


def _text(html: str) -> str:
    """The words alone, without the page's title and without drawings."""
    bare = re.sub(r"<[^>]*>", " ", _PLACE.sub("", _TITLE.sub("", html)))
    return re.sub(r"\s+([.,;:)])", r"\1", " ".join(unescape(bare).split()))
