"""Link previews: real PNG files, read back by a library from outside, that show the chart the right way up."""

from io import BytesIO

import numpy as np
import pytest
from PIL import Image
from sitekit import Site

from lintarsia.publishing.pages.cards import HIGH, MARGIN, PAPER, WIDE, card
from lintarsia.reading import read_chart

HEAD = "lintarsia: 1\ntitle: T\ngauge: {stitches: 22, rows: 22, over: 10 cm}\n"
KEY = 'colours:\n  R: {name: red, shade: "#ff0000"}\n  B: {name: blue, shade: "#0000ff"}\n'


def shown(rows: str) -> Image.Image:
    text = f"{HEAD}{KEY}chart: |\n" + "".join(f"  {row}\n" for row in rows.split())
    chart = read_chart("t.chart.yaml", text.encode()).chart
    assert chart is not None
    image = Image.open(BytesIO(card(chart)))
    image.load()
    return image


def test_it_is_as_large_as_previews_are() -> None:
    image = shown("RB BR")
    assert image.format == "PNG"
    assert image.size == (WIDE, HIGH)
    assert image.getpixel((2, 2)) == PAPER


@pytest.mark.parametrize(("x", "y", "part"), [(-1, -1, 0), (1, -1, 2), (-1, 1, 2), (1, 1, 0)])
def test_the_top_line_is_at_the_top_and_the_left_at_the_left(x: int, y: int, part: int) -> None:
    pixel = shown("RRBB RRBB BBRR BBRR").getpixel((WIDE // 2 + x * 120, HIGH // 2 + y * 120))
    assert isinstance(pixel, tuple)
    assert pixel[part] > 100
    assert pixel[2 - part] == 0


@pytest.mark.parametrize("rows", ["R", "R" * 400, " ".join(["RB"] * 400), ".R. RRR", "RRR R"])
def test_any_shape_makes_a_picture(rows: str) -> None:
    colours = shown(rows).convert("RGB").getcolors(1 << 20)
    assert colours is not None
    assert len(colours) > 1


SHADES = "colours:\n  G: {name: Grey, shade: '#c8c8c8'}\n  S: {name: Stone, shade: '#503c28'}\n"
GREY, STONE = (200, 200, 200), (80, 60, 40)


def fabric(rows: str, gauge: str = "{stitches: 22, rows: 22, over: 10 cm}") -> "np.ndarray":
    """The fabric by itself, as (height, width, 3): what is neither at the paper's edge nor beyond the largest size."""
    text = f"lintarsia: 1\ntitle: T\ngauge: {gauge}\n{SHADES}chart: |\n" + "".join(f"  {r}\n" for r in rows.split())
    chart = read_chart("t.chart.yaml", text.encode()).chart
    assert chart is not None
    sheet = np.asarray(Image.open(BytesIO(card(chart))).convert("RGB")).astype(int)
    drawn = (sheet != PAPER).any(axis=2)
    assert not drawn[:MARGIN].any()
    assert not drawn[-MARGIN:].any()
    assert not drawn[:, :MARGIN].any()
    assert not drawn[:, -MARGIN:].any()
    down, across = np.flatnonzero(drawn.any(axis=1)), np.flatnonzero(drawn.any(axis=0))
    assert abs(down[0] - (HIGH - 1 - down[-1])) <= 1, "it stands in the middle"
    assert abs(across[0] - (WIDE - 1 - across[-1])) <= 1
    return sheet[down[0] : down[-1] + 1, across[0] : across[-1] + 1]


@pytest.mark.parametrize(
    ("rows", "gauge", "wide", "high"),
    [
        (" ".join(["GGGGG"] * 4), (22, 22), 5, 4),
        (" ".join(["GGGGG"] * 4), (20, 30), 30, 16),  # a stitch of 5 mm by 3⅓
        ("G" * 40, (22, 22), 40, 1),
        (" ".join(["G"] * 40), (22, 22), 1, 40),
        ("GG GG", (1, 9), 5, 1),  # a gauge that nobody knits: no stitch is more than five times as wide as high
        ("GG GG", (9, 1), 1, 5),
    ],
)
def test_it_has_the_proportions_of_the_knitting_and_as_much_room_as_there_is(
    rows: str, gauge: tuple[int, int], wide: int, high: int
) -> None:
    made = fabric(rows, f"{{stitches: {gauge[0]}, rows: {gauge[1]}, over: 10 cm}}")
    room = min((WIDE - 2 * MARGIN) / wide, (HIGH - 2 * MARGIN) / high)
    assert made.shape[:2] == pytest.approx((high * room, wide * room), abs=1.01)


def light(made: "np.ndarray") -> "np.ndarray":
    """How much of the grey is left of each pixel, of a fabric in grey alone."""
    return made[..., 0] / GREY[0]


def test_no_stitch_is_lighter_than_its_yarn_nor_half_as_dark_but_at_a_corner() -> None:
    shade = light(fabric(" ".join(["GGGGG"] * 4)))
    assert 0.95 < shade.max() <= 1
    assert 0.4 < shade.min() < 0.6
    assert 0.8 < shade.mean() < 0.95


def test_all_stitches_are_alike_and_each_is_its_own_mirror_image() -> None:
    """Seen from its right side, a knit stitch is a V (any book on knitting; common practice)."""
    made = light(fabric(" ".join(["GGGGG"] * 4)))
    high, wide = made.shape[0] // 4, made.shape[1] // 5
    one = made[high : 2 * high, wide : 2 * wide]
    for x in (2, 3):
        assert np.abs(one - made[high : 2 * high, x * wide : (x + 1) * wide]).max() < 0.06
    assert np.abs(one - made[2 * high : 3 * high, wide : 2 * wide]).max() < 0.06
    assert np.abs(one[:, 1:] - one[:, :0:-1]).max() < 0.06


def test_a_stitch_is_dark_where_it_meets_its_neighbours_and_light_between() -> None:
    made = light(fabric(" ".join(["GGGGG"] * 4)))
    high, wide = made.shape[0] // 4, made.shape[1] // 5
    one = made[high : 2 * high, wide : 2 * wide]
    sides, legs = one[:, 0], one[:, wide // 4]
    assert sides.max() < 0.8 < 0.97 < legs.max()
    assert one[:, 2].max() > sides.max()
    darkest = [int(one[:, x].argmin()) for x in (wide // 8, wide // 4, wide // 2)]
    assert 0 < darkest[0] < darkest[1]
    # The V: its arms are at the sides, half a stitch higher than its foot in the middle.
    assert (darkest[2] - darkest[1]) % high == pytest.approx(high / 4, abs=2)
    assert (darkest[2] - darkest[0]) % high == pytest.approx(high * 3 / 8, abs=2)


def test_where_two_rows_meet_the_upper_one_comes_down_in_the_middle_of_each_stitch() -> None:
    made = fabric("GGGG SSSS")
    high, wide = made.shape[0] // 2, made.shape[1] // 4
    warm = made[..., 0] - made[..., 2] > 5  # stone is warmer than grey, in any light
    foot, arm = (int(warm[:, wide + at].argmax()) for at in (wide // 2, 1))
    assert foot == pytest.approx(high * 1.25, abs=2)
    assert arm == pytest.approx(high * 0.75, abs=3)
    assert not warm[: high // 2].any()
    assert warm[-high // 2 :].all()


def test_stitches_too_small_for_a_v_are_plain_squares_in_their_shades() -> None:
    made = fabric(" ".join(["GS" * 200] * 2))
    assert {tuple(pixel) for pixel in made.reshape(-1, 3).tolist()} == {GREY, STONE}


def test_where_there_is_no_stitch_there_is_paper() -> None:
    made = fabric("GG.GG GGGGG")
    high, wide = made.shape[0] // 2, made.shape[1] // 5
    assert (made[: high // 2, 2 * wide + 2 : 3 * wide - 2] == PAPER).all()
    assert (made[: high // 2, wide // 2] != PAPER).any()


def test_the_site_s_previews_can_be_opened(site: Site) -> None:
    cards = sorted(site.folder.rglob("card.png"))
    assert len(cards) == 6 + 3  # of charts, and of the pieces of patterns
    for file in cards:
        with Image.open(file) as image:
            assert image.size == (WIDE, HIGH)
