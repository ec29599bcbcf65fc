"""The pages that are written by hand: a paragraph `[[drawing: interlock]]` becomes the drawing, and what stands between
`<!-- working -->` and `<!-- all -->` is on the working site alone."""

import re

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
