"""Two fixes that touch the same words are not both taken in one round, wherever in a long file they stand."""

import pytest

from lintarsia.mending.picking import _Taken
from lintarsia.reading.applying import Splice


@pytest.mark.parametrize(
    ("start", "end", "free"),
    [
        (140, 150, True),
        (149, 151, False),
        (260, 270, False),  # in the middle of a piece that reaches over several hundreds
        (349, 420, False),
        (350, 420, True),
        (90, 900, False),
        (910, 912, True),
        (350, 350, False),  # put in right behind it: which comes first is open
        (351, 351, True),
        (1204, 1204, False),
    ],
)
def test_what_a_piece_leaves_free(start: int, end: int, free: bool) -> None:
    taken = _Taken()
    assert taken.free((Splice(start, end, "new"),)) is True
    taken.add((Splice(150, 350, "old"), Splice(1200, 1207, "")))
    assert taken.free((Splice(start, end, "new"),)) is free
    assert taken.free((Splice(500, 501, ""), Splice(start, end, "new"))) is free
