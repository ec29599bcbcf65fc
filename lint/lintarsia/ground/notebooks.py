"""How a value shows itself in a notebook: by whoever can draw it, which the value itself must know nothing of.

Charts, plans and reports are below everything that draws. The door, which is above it, says here how each is shown.
"""

from collections.abc import Callable
from typing import TypeVar

T = TypeVar("T")

_ways: dict[type, Callable[..., str]] = {}


def show_by(kind: type[T], way: Callable[[T], str]) -> None:
    """From now on values of `kind` are shown by `way`, which answers with SVG or HTML."""
    _ways[kind] = way


def shown_in_notebook(value: object) -> str | None:
    """SVG or HTML for a notebook; None, which notebooks take for a no, where nobody has said how."""
    way = _ways.get(type(value))
    return way(value) if way else None
