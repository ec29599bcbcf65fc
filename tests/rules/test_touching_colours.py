"""Which colours touch and where first, in flat pieces and tubes and under duplicate stitch, by the plainest way."""

from collections.abc import Iterator, Sequence

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lintarsia.chart import Chart, Colour, DuplicateStitch, Gauge, Places, Worked
from lintarsia.chart.grid import build_grid
from lintarsia.chart.measure import Length
from lintarsia.result import Region
from lintarsia.rules.base import Work
from lintarsia.rules.shared.touching import first_touch, touching_pairs, worn_cells

SYMBOLS = "BWR"
Over = Sequence[tuple[str, int, tuple[int, int]]]
Touch = tuple[int, int, tuple[int, int], tuple[int, int]]


def chart(rows: list[str], worked: Worked = Worked.FLAT, over: Over = ()) -> Chart:
    """A chart of the rows, bottom-up; `over` are duplicate stitches: colour, row, stitches."""
    colours = {symbol: Colour(symbol, symbol, "#000000") for symbol in SYMBOLS}
    return Chart(
        "x",
        "x",
        Gauge(22, 30, Length(10, "cm")),
        colours,
        build_grid(rows, SYMBOLS),
        worked=worked,
        places=Places(lines=tuple(Region(1, 1, 1, len(row) + 1) for row in rows)),
        duplicate=tuple(DuplicateStitch(*entry) for entry in over),
    )


def meetings(rows: list[str], tube: bool) -> Iterator[Touch]:
    """(knitter's row, 0 beside, 1 above or 2 at the seam, stitches, the two codes) of every two squares that meet."""
    code = {symbol: number for number, symbol in enumerate(SYMBOLS)}
    width = len(rows[0])
    for row, text in enumerate(rows, 1):
        for stitch in range(1, width + 1):
            here = text[-stitch]
            others = [(0, (stitch, stitch + 1), text[-stitch - 1])] if stitch < width else []
            if row > 1:
                others.append((1, (stitch, stitch), rows[row - 2][-stitch]))
            if tube and stitch == 1:
                others.append((2, (1, 1), text[0]))
            for how, place, there in others:
                if "." not in (here, there) and here != there:
                    pair = sorted((code[here], code[there]))
                    yield row, how, place, (pair[0], pair[1])


ROWS = st.integers(1, 6).flatmap(
    lambda width: st.lists(st.text("BBBWR.", min_size=width, max_size=width), min_size=1, max_size=5)
)


@given(ROWS, st.sampled_from([Worked.FLAT, Worked.ROUND, Worked.TURNED]))
def test_the_first_touch_is_the_lowest_and_then_the_plainest(rows: list[str], worked: Worked) -> None:
    """Side by side before one above the other, that before the seam; of two alike the one nearer stitch 1."""
    made = chart(rows, worked)
    found = sorted(meetings(rows, made.tube))
    assert touching_pairs(Work(made)) == {pair for *_, pair in found}
    for pair in ((0, 1), (0, 2), (1, 2)):
        places = [(row, stitches) for row, _, stitches, each in found if each == pair]
        assert first_touch(made, *pair) == (places[0] if places else None)


@given(ROWS, st.sampled_from([Worked.FLAT, Worked.ROUND]), st.data())
def test_duplicate_stitch_touches_what_is_around_and_what_is_beneath(
    rows: list[str], worked: Worked, data: st.DataObject
) -> None:
    width = len(rows[0])
    row, first = data.draw(st.integers(1, len(rows))), data.draw(st.integers(1, width))
    last = data.draw(st.integers(first, width))
    colour = data.draw(st.sampled_from(SYMBOLS))
    made = chart(rows, worked, [(colour, row, (first, last))])
    worn = [list(text) for text in rows]
    beneath = set()
    for stitch in range(first, last + 1):
        if worn[row - 1][-stitch] != ".":
            beneath.add(tuple(sorted((SYMBOLS.index(worn[row - 1][-stitch]), SYMBOLS.index(colour)))))
            worn[row - 1][-stitch] = colour
    seen = ["".join(text) for text in worn]
    assert [made.grid.symbols[code] if code >= 0 else "." for code in worn_cells(made).ravel()] == list("".join(seen))
    wanted = {pair for *_, pair in [*meetings(rows, made.tube), *meetings(seen, made.tube)]}
    assert touching_pairs(Work(made)) == wanted | {pair for pair in beneath if pair[0] != pair[1]}


@pytest.mark.parametrize("row", [0, 4])
def test_a_duplicate_stitch_beyond_the_rows_covers_nothing(row: int) -> None:
    rows = ["BBB", "BBB", "BBB"]
    made = chart(rows, over=[("W", row, (1, 3))])
    assert (worn_cells(made) == made.grid.cells).all()
    assert touching_pairs(Work(made)) == set()


def test_a_duplicate_stitch_alone_on_its_piece_touches_the_stitch_beneath() -> None:
    assert touching_pairs(Work(chart(["B"], over=[("W", 1, (1, 1))]))) == {(0, 1)}
    assert touching_pairs(Work(chart(["W"], over=[("B", 1, (1, 1))]))) == {(0, 1)}


@pytest.mark.parametrize(
    ("rows", "pair", "place"),
    [
        (["BRRW"], (0, 1), (1, (1, 1))),  # only at the seam
        (["WRRB"], (0, 1), (1, (1, 1))),
        (["BRRW", "BWRR"], (0, 1), (1, (1, 1))),  # the seam of a lower row before two side by side
        (["BWRR", "BRRW"], (0, 1), (1, (3, 4))),
        (["BWRW"], (0, 1), (1, (3, 4))),  # side by side before the seam of one row
        (["BBWRWB"], (0, 1), (1, (1, 2))),  # the one nearer stitch 1
        (["BRB", "WRW"], (0, 1), (2, (1, 1))),  # one above the other
        (["BRW", "WRW"], (0, 1), (1, (1, 1))),
        (["RRR", "RRR"], (0, 1), None),
    ],
)
def test_where_colours_of_a_tube_first_touch(
    rows: list[str], pair: tuple[int, int], place: tuple[int, tuple[int, int]] | None
) -> None:
    assert first_touch(chart(rows, Worked.ROUND), *pair) == place
