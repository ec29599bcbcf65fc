"""A template filled in once for all pages of a kind, with a mark wherever they differ, and cut at its marks.

Filling it in anew for every page took as long as all its lists, and yet most of a page is alike on all of them. The
template stays whole for those who design pages: it can put in the texts that differ, but not ask about them.
"""

import re
import secrets
from collections.abc import Mapping, Sequence
from dataclasses import dataclass


class Mark:
    """What a template is given in place of a text that differs from page to page."""

    def __init__(self) -> None:
        self._token = secrets.token_hex(16)  # no text of a chart can hold it, since nobody can guess it

    def __html__(self) -> str:
        return self._token

    __str__ = __html__

    def __bool__(self) -> bool:
        raise TypeError("a template can only put in what differs from page to page, not ask about it")


@dataclass(frozen=True, slots=True)
class Cut:
    """A text with gaps: a piece of it, the name of what goes into the first gap, the next piece, and so on."""

    pieces: Sequence[str]

    def filled(self, values: Mapping[str, str]) -> str:
        """The whole text; `values` are HTML. Raises KeyError for a gap that none of them is for."""
        parts = list(self.pieces)
        parts[1::2] = [values[name] for name in parts[1::2]]
        return "".join(parts)


class Marks:
    """The marks of one template, by the names of what goes in at them."""

    def __init__(self, *names: str) -> None:
        self._marks = {name: Mark() for name in names}
        self._names = {str(mark): name for name, mark in self._marks.items()}
        self._any = re.compile(f"({'|'.join(self._names)})")

    def __getitem__(self, name: str) -> Mark:
        return self._marks[name]

    def cut(self, text: str) -> Cut:
        """`text`, which was filled in with these marks, with gaps in their places."""
        return Cut([self._names.get(piece, piece) for piece in self._any.split(text)])
