"""Text of a page where none is meant to be (WHATWG, "HTML", the elements' content models, from memory)."""

from collections.abc import Iterator
from typing import Any

Page = Any  # an element of lxml's, which has no types of its own

_OF_ELEMENTS = frozenset(
    "html head body ul ol dl table thead tbody tr colgroup select picture "  # noqa: SIM905 - by the standard
    "article aside details div fieldset figure footer form header hgroup main nav section".split()  # by ours
)


def drawn_left_out(page: Page) -> Iterator[Page]:
    """All elements but those of drawings, which have a check of their own."""
    left = [page]
    while left:
        element = left.pop()
        if isinstance(element.tag, str) and element.tag != "svg":
            yield element
            left += reversed(element)


def stray(page: Page) -> list[str]:
    """Text that stands between the elements that an element is made of, where no text is meant to be."""
    return [
        f"text in <{element.tag}>: {text.strip()!r}"
        for element in drawn_left_out(page)
        if element.tag in _OF_ELEMENTS
        for text in (element.text, *(inner.tail for inner in element))
        if text and text.strip()
    ]
