"""Two fixes that touch the same words are not both taken in one round, wherever in a long file they stand."""

import pytest

from lintarsia.mending import mend
from lintarsia.mending.picking import _Taken
from lintarsia.reading.applying import Splice
from lintarsia.settings import Settings


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


@pytest.mark.parametrize(("worked", "rounds"), [("flat", False), ("round", True)])
def test_what_is_mended_in_a_round_is_told_of_a_round(worked: str, rounds: bool) -> None:
    text = (
        f"lintarsia: 1\ntitle: Field\nworked: {worked}\ngauge: {{stitches: 22, rows: 30, over: 10 cm}}\n"
        'colours:\n  B: {name: Dusk blue, shade: "#27406b"}\n  R: {name: Rust, shade: "#b8743c"}\n'
        f"chart: |\n{'  BBBBBBBB' + chr(10)}  BBBBBBBB\n"
    )
    mended = mend("field.chart.yaml", text.encode(), Settings(root="/"))
    assert b"Rust" not in mended.data
    assert [fixed.round for fixed in mended.fixed] == [rounds]
