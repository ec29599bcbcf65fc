"""A template filled in once for all pages of a kind, with a mark wherever they differ, and cut at its marks.

Filling it in anew for every page took as long as all its lists, and yet most of a page is alike on all of them. The
template stays whole for those who design pages: it can put in the texts that differ, but not ask about them.

Pages are put together as UTF-8: nearly all of their texts are plain ASCII, which takes no time to encode, while a whole
page never is.
"""

import re
import secrets
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import chain


class Placeholder:
    """What a template is given in place of a text that differs from page to page."""

    def __init__(self) -> None:
        self._token = secrets.token_hex(16)  # no text of a chart can hold it, since nobody can guess it

    def __html__(self) -> str:
        return self._token

    __str__ = __html__

    def __bool__(self) -> bool:
        raise TypeError("a template can only put in what differs from page to page, not ask about it")


def encoded(page: str) -> bytes:
    """As MkDocs writes pages."""
    return page.encode("utf-8", "xmlcharrefreplace")


@dataclass(frozen=True, slots=True)
class Cut:
    """A page with gaps: `gaps` names what goes into each, `pieces` is what stands around them, one more."""

    pieces: Sequence[bytes]
    gaps: Sequence[str]

    def filled(self, values: Mapping[str, str | bytes]) -> bytes:
        """The whole page; `values` are HTML. Raises KeyError for a gap that none of them is for."""
        parts = [value if isinstance(value, bytes) else encoded(value) for value in map(values.__getitem__, self.gaps)]
        return b"".join(chain.from_iterable(zip(self.pieces, (*parts, b""), strict=True)))


class Marks:
    """The marks of one template, by the names of what goes in at them."""

    def __init__(self, *names: str) -> None:
        self._marks = {name: Placeholder() for name in names}
        self._names = {str(mark): name for name, mark in self._marks.items()}
        self._any = re.compile(f"({'|'.join(self._names)})")

    def __getitem__(self, name: str) -> Placeholder:
        return self._marks[name]

    def cut(self, page: str) -> Cut:
        """`page`, which was filled in with these marks, with gaps in their places."""
        parts = self._any.split(page)
        return Cut([encoded(piece) for piece in parts[::2]], [self._names[mark] for mark in parts[1::2]])
