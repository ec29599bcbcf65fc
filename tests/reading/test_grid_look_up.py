"""The grid's array against one built cell by cell, for charts in and out of ASCII and of any outline."""

from hypothesis import example, given, settings
from hypothesis import strategies as st

from lintarsia.chart.grid import MISSING, NO_STITCH, build_grid

ROWS = st.lists(st.text("AB.z~", min_size=1, max_size=7), min_size=1, max_size=7)


@given(ROWS | st.lists(st.text("AB.é🧶\u4e00", min_size=1, max_size=7), min_size=1, max_size=7))
@settings(max_examples=80, deadline=None)
@example(["A"])
@example([".", "A.A"])
@example(["".join(map(chr, range(0x4E00, 0x4E00 + 300)))])
@example(["".join(chr(c) for c in range(33, 127) if c != 46)])
def test_every_cell_is_its_symbols_number(rows: list[str]) -> None:
    grid = build_grid(rows, ["B", "A"])
    width = max(map(len, rows))
    assert grid.width == width
    assert grid.symbols[: grid.known] == ("B", "A")
    assert len(set(grid.symbols)) == len(grid.symbols)
    for row, text in zip(grid.cells.tolist(), rows, strict=True):
        expected = [MISSING] * (width - len(text))
        expected += [NO_STITCH if symbol == "." else grid.symbols.index(symbol) for symbol in text]
        assert row == expected


def test_symbols_that_the_key_lacks_follow_in_the_order_they_are_met_from_row_1() -> None:
    assert build_grid(["zA", "qz"], ["A"]).symbols == ("A", "z", "q")
