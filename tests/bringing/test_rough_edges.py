"""Where a slip ends and drawing begins: each border of smooth edges from both its sides, on charts small enough to see.

Charts are drawn as text, a digit a colour and a full stop no stitch. The expected charts follow from what
`lint/lintarsia/bringing/smoothing.py` promises and its house values, counted by hand.
"""

import numpy as np
import pytest

from lintarsia.bringing.smoothing import smooth_edges

Chart = np.ndarray


def drawn(text: str) -> Chart:
    return np.array([[-1 if c == "." else int(c) for c in line] for line in text.split()], np.intp)


def smoothed(text: str) -> list[tuple[str, int]]:
    """What comes of a chart as it is, with each side up and in a mirror, each turned back again."""
    found = []
    for flip in (1, -1):
        for turn in range(4):
            made, kept = smooth_edges(np.rot90(drawn(text)[:, ::flip], turn))
            back = np.rot90(made, -turn)[:, ::flip]
            found.append(("\n".join("".join("." if c < 0 else str(c) for c in row) for row in back), kept))
    return found


def level(text: str) -> None:
    """The stitches marked `b` stand out of an edge of colour 1 on colour 0, and go; so they do in other colours."""
    for own, other in ("10", "01", "23"):
        named = str.maketrans("b01", f"{own}{other}{own}")
        expected = "\n".join(text.replace("b", "0").split()).translate(named)
        assert smoothed(text.translate(named)) == [(expected, 0)] * 8


def as_it_is(text: str) -> None:
    """The stitches marked `b` are of colour 1, and stay."""
    for own, other in ("10", "01", "23"):
        named = str.maketrans("b01", f"{own}{other}{own}")
        expected = "\n".join(text.split()).translate(named)
        assert smoothed(text.translate(named)) == [(expected, 0)] * 8


# Off the middle of a ground too wide to be what a tip stands on; the chart is just large enough for it.
@pytest.mark.parametrize(
    "text",
    [
        "000000000 000000000 00b000000 111111111 111111111",
        "00000000000 00000000000 000b0000000 11111111111 11111111111",
        "0000000000 0000000000 0000000000 00b0000000 1111111111 1111111111 1111111111",
        # two on one edge, apart
        f"{'0' * 24} {'0' * 24} 00b0000b{'0' * 16} {'1' * 24} {'1' * 24}",
    ],
)
def test_a_stitch_that_stands_out_of_a_level_edge_goes(text: str) -> None:
    level(text)


@pytest.mark.parametrize(
    "text",
    [
        "000000000 00b000000 111111111 111111111 111111111",  # one row of the other colour above
        "000000000 000000000 00b000000 111111111 000000000",  # on a line of one row
        "000000000 000000000 0b0000000 111111111 111111111",  # beside the picture's edge
        "000000000 000000000 b00000000 111111111 111111111",
        "000000000 000000000 00bb00000 111111111 111111111",  # two side by side
        "0000000000 0000000000 00b0000000 00b0000000 1111111111 1111111111 1111111111",  # two on each other
        "0000000 0000000 000b000 1111111 1111111",  # a tip
        "0000 0000 00b0 1111 1111",  # too small a picture to say
        "00b 111 111",
        "b 1",
    ],
)
def test_what_stands_otherwise_stays(text: str) -> None:
    as_it_is(text)


@pytest.mark.parametrize(
    ("left", "right"),
    # Three rows: stitches left of the bump, over the edge that it stands on, from the next stitch to the edge's end.
    [(3, 3), (3, 4), (3, 5), (4, 6), (5, 8)],
)
def test_a_tip_stands_about_on_the_middle(left: int, right: int) -> None:
    """The shorter side, the bump's own stitch counted, is 0.6 of the longer or more; one stitch further and it goes."""

    def edge(right: int, beyond: str) -> str:
        wide = left + right - 1
        ground = "3" * 4 + beyond
        above = f"{'0' * (wide + 8)} " * 2 + f"{'0' * (left + 3)}b{'0' * (right + 3)} "
        return above + f"{ground[:4]}{'1' * wide}{beyond * 4} {'1' * (wide + 8)}".replace("3", beyond)

    for beyond in "04":
        as_it_is(edge(right, beyond))
    if 3 * (right + 1) > 5 * left:
        for beyond in "04":
            level(edge(right + 1, beyond))


def heights(five: str) -> str:
    """Five columns as high as told beside a wide ground of the last one's height, at the left-hand side."""
    wide = five + five[-1] * 6
    rows = ["".join("1" if int(c) >= high else "0" for c in wide) for high in range(5, 0, -1)]
    return " ".join(["0" * 11, *rows, "1" * 11])


@pytest.mark.parametrize("five", ["22322", "32322", "12322", "32311", "22311", "22310", "01322"])
def test_beside_a_bump_the_edge_rises_or_falls(five: str) -> None:
    """Heights from left to right, the bump in the middle: with it gone they rise, or fall, all the way."""
    gone = max(int(five[1]), int(five[3]))
    text = heights(five)
    rows = text.split()
    for at, high in enumerate(range(5, 0, -1), 1):
        if gone < high <= int(five[2]):
            rows[at] = rows[at][:2] + "b" + rows[at][3:]
    level(" ".join(rows))


@pytest.mark.parametrize("five", ["12321", "21312", "00322", "22300", "10322", "21311"])
def test_a_roof_a_gap_and_a_drop_are_no_rough_edges(five: str) -> None:
    as_it_is(heights(five))


@pytest.mark.parametrize("at", [(1, 0), (1, 4), (2, 0), (2, 4), (3, 0), (3, 1), (3, 3), (4, 4), (4, 0)])
def test_a_third_colour_nearby_leaves_the_bump_alone(at: tuple[int, int]) -> None:
    """Two stitches to each side, and from one above to two below."""
    rows = [*map(list, ["0" * 9, "0" * 9, "00b000000", "1" * 9, "1" * 9, "1" * 9])]
    rows[at[0]][at[1]] = "4"
    as_it_is(" ".join(map("".join, rows)))


def test_a_third_colour_further_away_does_not() -> None:
    level("400000000 000004000 00b004000 111111111 111111111 141111111")


@pytest.mark.parametrize(
    "text", ["..... ..... ..1.. 11111 11111 11111", "000000000 000000000 00.000000 ......... ........."]
)
def test_the_rim_of_a_motif_is_not_moved(text: str) -> None:
    """What is no stitch is no colour to make level: a stitch would come or go."""
    assert {made for made, _ in smoothed(text)} == {"\n".join(text.split())}


def test_so_many_bumps_are_the_pattern() -> None:
    """One stitch in 33 and a third is the border; what is no stitch does not count."""
    fewest = "00000... 00000... 00100... 11111111 11111..."  # 28 stitches
    rows = fewest.replace(".", "#").split()
    for more, kept in ((5, 1), (6, 0)):
        text, left = " ".join(rows), more
        while left:
            text, left = text.replace("#", "1" if "#" not in text[:27] else "0", 1), left - 1
        text = text.replace("#", ".")
        assert sum(c in "01" for c in text) == 28 + more
        made, told = smooth_edges(drawn(text))
        assert told == kept
        assert (made != drawn(text)).sum() == 1 - kept
