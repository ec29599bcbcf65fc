"""Edits by place put into a text. Nothing outside their regions changes, not a line's end."""

from collections.abc import Iterable
from itertools import pairwise
from typing import NamedTuple

from lintarsia.reading.source import Lines
from lintarsia.result import Edit, Fix

MARK = b"\xef\xbb\xbf"


class Piece(NamedTuple):
    """text[start:end] is to be replaced by `new`; where the two are the same, `new` is put in before it."""

    start: int
    end: int
    new: str

    def clashes(self, other: "Piece") -> bool:
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


def pieces(fix: Fix, lines: Lines) -> tuple[Piece, ...] | None:
    """A fix as pieces; None where a region is not in the text or its edits clash with each other."""
    try:
        found = tuple(_piece(edit, lines) for edit in fix.edits)
    except ValueError:
        return None
    ordered = all(piece.start <= piece.end for piece in found)
    parted = not any(one.clashes(other) for one, other in pairwise(sorted(found)))  # in order, none clash further off
    return found if found and ordered and parted else None


def _piece(edit: Edit, lines: Lines) -> Piece:
    line, column, end_line, end_column = edit.region
    return Piece(lines.index(line, column), lines.index(end_line, end_column), edit.text)


def apply(text: str, chosen: Iterable[Piece]) -> str:
    """The text with pieces that do not clash put in; insertions at the same place stand in the order given."""
    parts, at = [], 0
    for start, end, new in sorted(chosen, key=lambda piece: piece[:2]):
        parts += [text[at:start], new]
        at = end
    return "".join([*parts, text[at:]])


def parted(data: bytes) -> tuple[bytes, str]:
    """The byte-order mark, if any, and the text; the two put together are the data again."""
    mark = MARK if data.startswith(MARK) else b""
    return mark, data[len(mark) :].decode("utf-8")
