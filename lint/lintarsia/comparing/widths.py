"""Stitches that are added, or dropped, at one place in every row of a chart."""

from collections.abc import Sequence

from lintarsia.ground.values import dataclass

UNEXPLAINED = 0.1  # of the rows that may have changed besides


@dataclass(frozen=True, slots=True)
class InsertedColumns:
    """`first` counts from 0 at the left, in the wider of the two."""

    first: int
    number: int
    added: bool


def inserted_columns(old: Sequence[str], new: Sequence[str]) -> InsertedColumns | None:
    """Where both have as many rows, each of one width, and one place explains the difference in nearly all of them."""
    if len(old) != len(new) or len({*map(len, old)}) != 1 or len({*map(len, new)}) != 1 or len(old[0]) == len(new[0]):
        return None
    added = len(new[0]) > len(old[0])
    narrow, wide = (old, new) if added else (new, old)
    number = len(wide[0]) - len(narrow[0])
    left = [_alike(a, b) for a, b in zip(narrow, wide, strict=True)]
    right = [_alike(a[::-1], b[::-1]) for a, b in zip(narrow, wide, strict=True)]
    best, place = 0, 0
    for first in range(len(narrow[0]), -1, -1):
        fits = sum(a >= first and b >= len(narrow[0]) - first for a, b in zip(left, right, strict=True))
        if fits > best:
            best, place = fits, first
    return InsertedColumns(place, number, added) if best >= (1 - UNEXPLAINED) * len(old) else None


def _alike(one: str, other: str) -> int:
    """How many stitches from the left are the same."""
    return next((k for k, (a, b) in enumerate(zip(one, other, strict=False)) if a != b), min(len(one), len(other)))
