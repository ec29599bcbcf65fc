"""What a row repeats throughout, against the plain way to ask: each width from two up, compared with itself shifted."""

from itertools import product

import pytest

from lintarsia.written.motif import motif


def by_trying(stitches: str) -> int | None:
    """The fewest stitches, from two up, by which the row is shifted onto itself; none where it is of one colour."""
    if len(set(stitches)) < 2:
        return None
    shifts = range(2, len(stitches) // 2 + 1)
    return next((wide for wide in shifts if stitches[wide:] == stitches[:-wide]), None)


def test_every_short_row_of_two_colours() -> None:
    for long in range(13):
        for row in map("".join, product("AB", repeat=long)):
            assert motif(row) == by_trying(row), row


@pytest.mark.parametrize(
    ("row", "wide"),
    [
        ("GCCCGCCCGCCCGCCCGCCCG", 4),  # five times, and one stitch of a sixth
        ("AABAABAA", 3),
        ("AABAB", None),  # the end repeats, the row does not
        ("ABCABCABD", None),
        ("ABAABA", 3),
        ("AAAA", None),
        ("", None),
    ],
)
def test_rows_by_hand(row: str, wide: int | None) -> None:
    assert motif(row) == wide
