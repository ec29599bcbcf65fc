"""The size that an SVG states, for the page to keep room for it before it is loaded."""

import re

_SIZE = re.compile(r'<svg[^>]*? width="([0-9.]+)" height="([0-9.]+)"')


def svg_size(svg: str) -> tuple[int, int]:
    """Width and height in whole pixels, as an `<img>` states them. Raises ValueError where the SVG states none."""
    found = _SIZE.match(svg)
    if not found:
        raise ValueError("the drawing does not state its size in pixels")
    return max(1, round(float(found[1]))), max(1, round(float(found[2])))
