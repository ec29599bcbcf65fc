"""Pictures made by script of known charts: how many stitches are right before tidying and after.

The oracle is the chart that the picture was made of (dirty.py). A stitch is right where its colour stands for the true
one, each true colour being given to one colour of the brought chart only: twelve shades for three are wrong for all but
three of them.
"""

import io
from collections.abc import Callable

import dirty
import numpy as np
import pytest
from dirty import SHADES, Chart, encoded
from glyphs import read_glyphs
from PIL import Image, ImageDraw, ImageFilter

from folding import slow, some
from lintarsia.bringing import Brought, Wishes, bring
from lintarsia.bringing.gridding import find_grid
from lintarsia.bringing.smoothing import smooth_edges, specks

Make = Callable[[Chart, np.random.Generator], bytes]
ONE_A_STITCH = Wishes(cell=(1, 1))


def letters(seed: int) -> Chart:
    random = np.random.default_rng(seed)
    return dirty.glyphs(random, [(code, bits) for code, bits in read_glyphs()[33:590] if bits.any()])


def shapes(seed: int) -> Chart:
    """Two ellipses and two polygons over each other, in two colours on a ground."""
    random = np.random.default_rng(seed)
    image = Image.new("L", (int(random.integers(30, 60)), int(random.integers(30, 70))))
    draw = ImageDraw.Draw(image)
    for at in range(4):
        x, y = random.integers(5, image.width - 5), random.integers(5, image.height - 5)
        corners = int(random.integers(3, 7))
        angles, reach = np.sort(random.random(corners)) * 2 * np.pi, random.integers(5, 18, corners)
        if at % 2:
            draw.polygon(
                [(float(x + r * np.cos(a)), float(y + r * np.sin(a))) for a, r in zip(angles, reach, strict=True)],
                fill=1 + at // 2,
            )
        else:
            draw.ellipse([float(x - reach[0]), float(y - reach[1]), float(x + reach[0]), float(y + reach[1])], fill=1)
    return np.array(image).astype(np.intp)


def right(truth: Chart, brought: Brought) -> int:
    """Stitches whose colour is the one that stands for theirs."""
    symbols = np.array([list(row) for row in brought.rows])
    if symbols.shape != truth.shape:
        return 0
    pairs = [
        (int(((truth == t) & (symbols == s)).sum()), int(t), str(s))
        for t in np.unique(truth)
        for s in np.unique(symbols)
    ]
    taken_true: set[int] = set()
    taken: set[str] = set()
    total = 0
    for both, colour, symbol in sorted(pairs, reverse=True):
        if colour not in taken_true and symbol not in taken:
            taken_true.add(colour)
            taken.add(symbol)
            total += both
    return total


def tidied(data: bytes, wishes: Wishes = ONE_A_STITCH) -> Brought:
    return bring("m", data, Wishes(kind="image", cell=wishes.cell, tidy=True, specks=wishes.specks))


def near(chart: Chart, random: np.random.Generator) -> bytes:
    return encoded(dirty.near_shades(chart, random))


def small_jpeg(chart: Chart, random: np.random.Generator) -> bytes:
    return dirty.jpeg_grid(chart, random, wide=7, high=5, quality=75)


def small_scan(chart: Chart, random: np.random.Generator) -> bytes:
    return dirty.scan(chart, random, wide=9.1, high=6.9)


# (what, how it is made, most that may be right before, least that must be after); of grids whose cells have to be found
# all may be right before, too
KINDS: list[tuple[str, Make, float | None, float]] = [
    ("twelve near shades for three", near, 0.45, 0.999),
    ("a JPEG of a grid", dirty.jpeg_grid, None, 0.999),
    ("a JPEG of small cells", small_jpeg, None, 0.999),
    ("a scan of squared paper", dirty.scan, None, 0.999),
    ("a scan of fine squared paper", small_scan, None, 0.999),
    ("halos", lambda chart, _: dirty.haloed(chart), 0.95, 0.995),
    ("specks", dirty.specked, 0.9999, 0.998),
]
# The same with other noise and other shapes asks for patience.
LOTS = [0, *slow(1, 2)]


@pytest.mark.parametrize(("make", "before", "after"), [k[1:] for k in KINDS], ids=[k[0] for k in KINDS])
@pytest.mark.parametrize("seed", LOTS)
def test_a_known_chart_comes_back_from_its_dirty_picture(
    seed: int, make: Make, before: float | None, after: float
) -> None:
    for chart in some((dirty.mushroom(), shapes(seed)), 2):
        data = make(chart, np.random.default_rng(seed))
        tidy = tidied(data, ONE_A_STITCH if before else Wishes())
        assert right(chart, tidy) >= after * chart.size
        assert len(tidy.key) == len(np.unique(chart))
        if before:
            untidy = bring("m", data, Wishes(kind="image", cell=(1, 1)))
            assert right(chart, untidy) <= before * chart.size


@pytest.mark.parametrize("seed", LOTS)
def test_rough_edges_are_no_worse_for_it_and_most_of_what_is_moved_is_right(seed: int) -> None:
    """On slanted edges a stitch too many is not to be told from the slant: those are left."""
    better = worse = 0
    for chart in (dirty.mushroom(), shapes(seed), shapes(seed + 10), shapes(seed + 20)):
        data = dirty.rough(chart, np.random.default_rng(seed))
        gain = right(chart, tidied(data)) - right(chart, bring("m", data, Wishes(kind="image", cell=(1, 1))))
        better, worse = better + max(gain, 0), worse + max(-gain, 0)
    assert better > 2 * worse


@pytest.mark.slow  # needs the font
def test_clean_letters_are_left_as_they_are() -> None:
    """Thin strokes, dots, serifs and dotted lines of a real font: nothing of them is dirt."""
    for seed in range(12):
        chart = letters(seed)
        assert right(chart, tidied(encoded(SHADES[chart]))) == chart.size


def test_clean_shapes_lose_one_stitch_in_a_thousand_at_most() -> None:
    charts = [shapes(seed) for seed in some(range(12), 3)]
    wrong = sum(chart.size - right(chart, tidied(encoded(SHADES[chart]))) for chart in charts)
    assert wrong <= sum(chart.size for chart in charts) / 1000


@pytest.mark.parametrize(
    ("wide", "high"),
    [
        (17.3, 12.7),
        (9.1, 6.9),
        (12, 12),
        *slow((24.25, 20.1), (31.6, 23.3)),
    ],
)
def test_the_cells_of_a_scan_are_found_with_their_margins(wide: float, high: float) -> None:
    chart = shapes(7)
    data = dirty.scan(chart, np.random.default_rng(4), wide=wide, high=high, margin=(23, 31))
    found = find_grid(np.asarray(Image.open(io.BytesIO(data))))
    assert found is not None
    assert found.lined
    assert (found.down.cells, found.across.cells) == chart.shape
    assert (found.across.size, found.down.size) == pytest.approx((wide, high), rel=0.002)
    assert (found.across.start, found.down.start) == pytest.approx((31, 23), abs=1.5)


@pytest.mark.parametrize("quality", [10, *slow(30, 80)])
@pytest.mark.parametrize("soft", [1, 3, 7, 12])
def test_a_photograph_is_no_grid_for_the_blocks_of_its_jpeg(soft: int, quality: int) -> None:
    """JPEG works in blocks of 8 × 8 pixels (ITU-T T.81), which is a comb of its own in every such file."""
    random = np.random.default_rng(soft)
    noise = Image.fromarray(random.integers(0, 255, (400, 500, 3)).astype(np.uint8))
    data = encoded(np.asarray(noise.filter(ImageFilter.GaussianBlur(soft))), "JPEG", quality=quality)
    assert find_grid(np.asarray(Image.open(io.BytesIO(data)))) is None


def test_a_grid_that_is_found_is_said_with_the_option_that_overrules_it() -> None:
    brought = bring("m.jpg", dirty.scan(dirty.mushroom(), np.random.default_rng(1)), Wishes(tidy=True))
    first, second, *_ = brought.notes
    assert first == (
        "taken as a grid of 34 × 41 cells of 17.3 × 12.7 pixels, with lines between them (--cell says otherwise)"
    )
    assert second.startswith("near shades: ")
    assert brought.notes[-1] == "tidied to 3 colours"


def test_every_step_says_how_many_stitches_it_moved() -> None:
    chart = np.zeros((20, 17), np.intp)
    chart[11:, :] = 1
    pixels = SHADES[chart].copy()
    pixels[4, 5] = SHADES[1]  # a speck
    pixels[10, 4] = SHADES[1]  # a stitch that stands out of the edge
    pixels[19, 16] = SHADES[1] + 5  # a near shade
    brought = tidied(encoded(pixels))
    assert brought.notes == (
        "near shades: 3 made 2; 1 stitch took another shade",
        "specks: 1 stitch taken out (--specks 0 keeps them)",
        "edges: 1 stitch moved",
        "tidied to 2 colours",
    )
    assert right(chart, brought) == chart.size
    kept = tidied(encoded(pixels), Wishes(cell=(1, 1), specks=0))
    assert kept.rows[4][5] != kept.rows[4][4]
    assert right(chart, kept) == chart.size - 1


def test_a_drawn_outline_between_two_shades_is_no_halo() -> None:
    """One shade all along, halfway between its neighbours': soft edges would be of many."""
    pixels = np.full((21, 24, 3), 240, np.uint8)
    pixels[4:15, 5:18] = 128
    pixels[5:14, 6:17] = 16
    brought = tidied(encoded(pixels))
    assert sorted(e.shade for e in brought.key) == ["#101010", "#808080", "#f0f0f0"]
    assert brought.rows == bring("m", encoded(pixels), Wishes(kind="image", cell=(1, 1))).rows


def test_a_pair_of_eyes_and_a_seeded_ground_are_no_specks() -> None:
    face = np.zeros((19, 23), np.intp)
    face[7, 6] = face[7, 13] = 2
    assert right(face, tidied(encoded(SHADES[face]))) == face.size
    seeded = np.zeros((43, 47), np.intp)
    seeded[3::7, 2::7] = 1
    assert right(seeded, tidied(encoded(SHADES[seeded]))) == seeded.size


@pytest.mark.parametrize("largest", [1, 2, 3])
def test_specks_are_areas_up_to_a_size_corners_included(largest: int) -> None:
    which = np.zeros((12, 15), np.intp)
    which[1, 1] = 1
    which[5, 3] = which[6, 4] = 1
    which[9, 9:12] = 1
    which[2, 7:11] = which[3, 7:11] = 2
    expected = np.zeros_like(which, bool)
    expected[1, 1] = True
    expected[[5, 6], [3, 4]] = largest >= 2
    expected[9, 9:12] = largest >= 3
    assert (specks(which, largest) == expected).all()


def test_the_tip_of_a_roof_and_a_stair_are_no_rough_edges() -> None:
    roof = np.zeros((14, 19), np.intp)
    for row in range(3, 12):
        roof[row, 9 - (row - 3) : 10 + (row - 3)] = 1
    stair = (np.arange(17)[None, :] // 3 >= np.arange(14)[:, None]).astype(np.intp)
    for chart in (roof, stair):
        assert smooth_edges(chart)[1] == 0
        assert (smooth_edges(chart)[0] == chart).all()


def ring(ground: bool) -> np.ndarray:
    """A rust ring with a clear middle, on clear or on navy."""
    y, x = np.mgrid[0:15, 0:18]
    far = (x - 8) ** 2 + (y - 7) ** 2
    pixels = np.zeros((15, 18, 4), np.uint8)
    if ground:
        pixels[:] = (31, 47, 92, 255)
    pixels[far <= 30] = (180, 89, 58, 255)
    pixels[far <= 7] = 0
    return pixels


def test_clear_parts_inside_are_told_of_and_filled_when_tidied() -> None:
    data = encoded(ring(ground=True))
    plain = bring("m", data, Wishes(kind="image", cell=(1, 1)))
    assert plain.rows[7][8] == "."
    assert plain.notes[:1] == (
        "21 stitches inside are transparent: holes in the fabric (--tidy or --transparent fills them)",
    )
    filled = tidied(data)
    assert filled.rows[7][8] == filled.rows[0][0] != "."
    assert filled.notes[0] == "transparent inside: 21 stitches made #1f2f5c (--transparent chooses another shade)"


def test_without_a_background_the_middle_becomes_bone_and_the_outside_stays_no_stitch() -> None:
    filled = tidied(encoded(ring(ground=False)))
    assert filled.rows[0][0] == "."
    assert {e.symbol: e.name for e in filled.key}[filled.rows[7][8]] == "Bone"


def test_the_nearest_yarns_of_a_palette_are_taken_after_tidying() -> None:
    from lintarsia.bringing.palette import Shade

    palette = (
        Shade("Coal", "#101010", "C"),
        Shade("Fox", "#c0302a", "F"),
        Shade("Milk", "#f4f0e8", "M"),
        Shade("Sky", "#9cc8e8"),
    )
    chart = dirty.mushroom()
    data = dirty.jpeg_grid(chart, np.random.default_rng(2))
    brought = bring("m.jpg", data, Wishes(tidy=True, palette=palette))
    assert sorted(e.symbol for e in brought.key) == ["C", "F", "M"]
    assert right(chart, brought) >= 0.999 * chart.size


@pytest.mark.parametrize("cell", [9, *slow(14, 22)])
def test_a_scan_cut_at_its_outermost_lines_keeps_all_its_cells(cell: int) -> None:
    page = dirty.squared(dirty.mushroom(), cell=cell, line=1 + (cell > 20))
    for data in (encoded(page), encoded(page, "JPEG", quality=55)):
        brought = bring("scan", data, Wishes(tidy=True))
        assert right(dirty.mushroom(), brought) == dirty.mushroom().size


def test_paper_around_a_grid_is_no_cell() -> None:
    page = np.pad(dirty.squared(dirty.mushroom()), ((22, 25), (22, 19), (0, 0)), constant_values=250)
    brought = bring("scan", encoded(page), Wishes(tidy=True))
    assert right(dirty.mushroom(), brought) == dirty.mushroom().size


@pytest.mark.parametrize("degrees", slow(-2.0, -1.0, 0.5, 1.0, 2.0, 2.8))
def test_a_scan_that_lies_askew_is_turned_straight_and_that_is_said(degrees: float) -> None:
    brought = bring("scan", dirty.askew(dirty.squared(dirty.mushroom()), degrees), Wishes(tidy=True))
    (said,) = [note for note in brought.notes if "askew" in note]
    assert float(said.split()[2].rstrip("°,")) == pytest.approx(abs(degrees), abs=0.15)
    assert right(dirty.mushroom(), brought) >= 0.99 * dirty.mushroom().size


def test_a_scan_that_lies_straight_is_not_turned() -> None:
    for data in (dirty.scan(dirty.mushroom(), np.random.default_rng(4)), encoded(dirty.squared(dirty.mushroom()))):
        assert not [note for note in bring("scan", data, Wishes(tidy=True)).notes if "askew" in note]


def test_a_chart_photographed_by_a_window_has_its_own_shades() -> None:
    data = dirty.by_a_window(dirty.squared(dirty.mushroom()), np.random.default_rng(5))
    brought = bring("photograph", data, Wishes(tidy=True))
    assert right(dirty.mushroom(), brought) >= 0.99 * dirty.mushroom().size
    (said,) = [note for note in brought.notes if note.startswith("light: ")]
    assert said.endswith("darker at one edge than at the other, evened out first")


def test_a_sunset_in_bands_is_no_uneven_light() -> None:
    """Bands of six rows, each a shade darker: most neighbours are alike, so nothing is evened out."""
    levels = np.linspace(240, 60, 8).astype(np.uint8).repeat(6)
    sky = np.repeat(np.stack([levels, levels // 2, levels // 3], axis=1)[:, None], 30, axis=1)
    brought = bring("sky", encoded(sky), Wishes(cell=(1, 1), tidy=True))
    assert not [note for note in brought.notes if note.startswith("light: ")]
