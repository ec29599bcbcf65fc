"""Drawings in the pages that are written by hand: a paragraph `[[drawing: interlock]]` becomes the drawing."""

import re

from lintarsia.drawing.techniques import TECHNIQUES

_PLACE = re.compile(r"<p>\[\[drawing: ([a-z-]+)\]\]</p>")
_DESC = re.compile(r"<desc[^>]*>(.*?)</desc>", re.DOTALL)


def put_drawings(html: str) -> str:
    """The page with its drawings in it. Raises KeyError for a drawing that there is none of."""

    def draw(place: re.Match[str]) -> str:
        svg = TECHNIQUES[place[1]](prefix=f"{place[1]}-")
        told = _DESC.search(svg)
        caption = f"<figcaption>{told[1]}</figcaption>" if told else ""
        return f'<figure class="sheet">{svg}{caption}</figure>'

    return _PLACE.sub(draw, html)
