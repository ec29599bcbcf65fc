"""Edits by place put into a text. Nothing outside their regions changes, not a line's end."""

from collections.abc import Iterable
from itertools import pairwise
from typing import NamedTuple

from lintarsia.reading.source import Lines
from lintarsia.result import Edit, Fix

MARK = b"\xef\xbb\xbf"


class Splice(NamedTuple):
    """text[start:end] is to be replaced by `new`; where the two are the same, `new` is put in before it."""

    start: int
    end: int
    new: str

    def clashes(self, other: "Splice") -> bool:
        """Whether the two cannot both be meant: they overlap, or which of two insertions comes first is open.

        Lines put in at the same place, one each, are entries of one list or mapping, whose order says nothing.
        """
        if self.start == self.end == other.start == other.end:
            return not (_one_line(self.new) and _one_line(other.new))
        if self.start == self.end or other.start == other.end:
            return self.start <= other.end and other.start <= self.end
        return self.start < other.end and other.start < self.end


def _one_line(text: str) -> bool:
    body = text.removeprefix("\r\n") if text.startswith("\r\n") else text[1:]
    return text[:1] in ("\r", "\n") and "\n" not in body and "\r" not in body


def splices(fix: Fix, lines: Lines) -> tuple[Splice, ...] | None:
    """A fix as splices; None where a region is not in the text or its edits clash with each other."""
    try:
        found = tuple(_splice(edit, lines) for edit in fix.edits)
    except ValueError:
        return None
    ordered = all(one.start <= one.end for one in found)
    parted = not any(one.clashes(other) for one, other in pairwise(sorted(found)))  # in order, none clash further off
    return found if found and ordered and parted else None


def _splice(edit: Edit, lines: Lines) -> Splice:
    line, column, end_line, end_column = edit.region
    return Splice(lines.index(line, column), lines.index(end_line, end_column), edit.text)


def apply(text: str, chosen: Iterable[Splice]) -> str:
    """The text with splices that do not clash put in; insertions at the same place stand in the order given."""
    parts, at = [], 0
    for start, end, new in sorted(chosen, key=lambda splice: splice[:2]):
        parts += [text[at:start], new]
        at = end
    return "".join([*parts, text[at:]])


def edited(text: str, edits: Iterable[Edit]) -> str:
    """The text with edits of one hand put in: what goes in at the same place stands in the order given.

    Raises ValueError for a region that is not in the text.
    """
    lines = Lines(text)
    return apply(text, [_splice(edit, lines) for edit in edits])


def parted(data: bytes) -> tuple[bytes, str]:
    """The byte-order mark, if any, and the text; the two put together are the data again."""
    mark = MARK if data.startswith(MARK) else b""
    return mark, data[len(mark) :].decode("utf-8")
