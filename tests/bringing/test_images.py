"""Images to charts: pixels, cells, widths, colours, clear pixels, first frames, and what is refused."""

import io
import struct
import zlib
from contextlib import suppress

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray
from PIL import Image

from lintarsia.bringing import Brought, Wishes, bring
from lintarsia.bringing.palette import Shade
from lintarsia.bringing.picture import cell_size, take_cells
from lintarsia.ground.trouble import Trouble
from lintarsia.reading import read_chart

Bytes = NDArray[np.uint8]

NAVY, BONE, RUST = (39, 64, 107), (239, 233, 220), (180, 89, 58)


def encoded(pixels: Bytes, kind: str = "PNG", **more: object) -> bytes:
    out = io.BytesIO()
    Image.fromarray(pixels).save(out, kind, **more)
    return out.getvalue()


def squashed(stitches: int) -> str:
    """22 stitches to 30 rows: a stitch is 30 / 22 as wide as it is high, so that squares lose 1 - 22/30 in height."""
    return (
        "its squares are stitches now, and stitches at 22 × 30 are not square: "
        f"knitted, it will be 27% flatter (--stitches {stitches} keeps its proportions)"
    )


def motif() -> Bytes:
    pixels = np.zeros((9, 11, 3), np.uint8)
    pixels[:] = NAVY
    pixels[2:7, 3:8] = BONE
    pixels[4, 5] = RUST
    return pixels


def enlarged(pixels: Bytes, wide: int, high: int) -> Bytes:
    return pixels.repeat(high, axis=0).repeat(wide, axis=1)


MOTIF_ROWS = (
    "NNNNNNNNNNN",
    "NNNNNNNNNNN",
    "NNNBBBBBNNN",
    "NNNBBBBBNNN",
    "NNNBBRBBNNN",
    "NNNBBBBBNNN",
    "NNNBBBBBNNN",
    "NNNNNNNNNNN",
    "NNNNNNNNNNN",
)


def shades(brought: Brought) -> dict[str, str]:
    return {entry.symbol: entry.shade for entry in brought.key}


def test_a_small_image_is_one_pixel_a_stitch() -> None:
    brought = bring("moon_gate.png", encoded(motif()))
    assert brought.rows == MOTIF_ROWS
    assert [(e.symbol, e.name, e.shade) for e in brought.key] == [
        ("N", "Navy", "#27406b"),
        ("B", "Bone", "#efe9dc"),
        ("R", "Rust", "#b4593a"),
    ]
    assert "title: Moon gate\n" in brought.text
    assert brought.notes == (squashed(11),)


@pytest.mark.parametrize("kind", ["PNG", "GIF", "BMP"])
def test_lossless_formats_give_the_same_chart(kind: str) -> None:
    rows = bring("m", encoded(motif(), kind), Wishes(kind="image")).rows
    assert rows == MOTIF_ROWS


def test_an_enlarged_grid_is_taken_by_its_cells() -> None:
    brought = bring("m.png", encoded(enlarged(motif(), 20, 15)))
    assert brought.rows == MOTIF_ROWS
    assert brought.notes == ("taken as a grid with cells of 20 × 15 pixels",)


@pytest.mark.parametrize(
    ("wide", "high", "size"),
    [(240, 3, "240 stitches by 3 rows"), (1, 151, "1 stitch by 151 rows"), (151, 1, "151 stitches by 1 row")],
)
def test_a_large_chart_unasked_is_said_to_be_one_with_the_way_out(wide: int, high: int, size: str) -> None:
    picture = np.full((high, wide, 3), 255, np.uint8)
    picture[0, 0] = picture[-1, -1] = 0
    note = f"taken as one pixel a stitch, {size}, which is more than most charts have (see --stitches)"
    assert bring("m.png", encoded(picture)).notes == (note, squashed(wide))
    assert bring("m.png", encoded(picture), Wishes(cell=(1, 1))).notes == ()
    assert bring("m.png", encoded(picture[:150, :150]), Wishes(gauge=(24.0, 25.0, "10 cm"))).notes == ()


def test_a_picture_of_one_stitch_has_no_proportions() -> None:
    two = np.array([[NAVY, BONE]], np.uint8)
    assert bring("m.png", encoded(two)).notes == (squashed(2),)
    assert bring("m.png", encoded(two[:, :1])).notes == ()


@pytest.mark.parametrize(
    ("wide", "high", "gauge", "said"),
    [
        (11, 10, (20.0, 30.0), False),  # a tenth wider than high, and more
        (21, 20, (20.0, 30.0), True),
        (20, 21, (20.0, 30.0), True),
        (9, 10, (20.0, 30.0), True),
        (8, 10, (20.0, 30.0), False),
        (20, 20, (21.9, 20.0), False),
        (20, 20, (23.0, 20.0), True),
        (20, 20, (18.0, 20.0), False),
        (20, 20, (17.0, 20.0), True),
    ],
)
def test_square_is_what_is_so_within_a_tenth(wide: int, high: int, gauge: tuple[float, float], said: bool) -> None:
    """Cells as stitches."""
    notes = bring("m.png", encoded(enlarged(motif(), wide, high)), Wishes(gauge=(*gauge, "10 cm"))).notes
    assert len(notes) == 1 + said


def test_lines_between_the_cells_do_not_count_when_the_cell_is_given() -> None:
    lined = enlarged(motif(), 20, 15)
    lined[::15], lined[:, ::20] = 0, 0
    assert bring("m.png", encoded(lined), Wishes(cell=(20, 15))).rows == MOTIF_ROWS


@settings(max_examples=60, deadline=None)
@given(st.data(), st.integers(1, 9), st.integers(1, 9))
def test_cells_are_found_and_taken_whatever_the_grid(data: st.DataObject, wide: int, high: int) -> None:
    columns, rows = data.draw(st.integers(1, 7)), data.draw(st.integers(1, 7))
    flags = data.draw(st.lists(st.integers(0, 3), min_size=rows * columns, max_size=rows * columns))
    small = np.zeros((rows, columns, 4), np.uint8)
    small[:, :, 0] = np.reshape(flags, (rows, columns))
    small[:, :, 3] = 255
    big = enlarged(small, wide, high)
    across, down = cell_size(big)
    assert across % wide == 0 or (across, down) == (1, 1)
    assert down % high == 0 or (across, down) == (1, 1)
    assert (enlarged(take_cells(big, across, down), across, down) == big).all()
    assert (take_cells(big, wide, high) == small).all()


# the gauge's proportion: a picture twice as wide as high, 20 stitches and 30 rows to 10 cm, takes 3 rows for 4 stitches
@pytest.mark.parametrize(("gauge", "rows"), [((20.0, 30.0), 30), ((22.0, 30.0), 27), ((20.0, 20.0), 20)])
def test_rows_follow_from_the_width_and_the_gauge(gauge: tuple[float, float], rows: int) -> None:
    picture = enlarged(motif()[:, :2], 400, 100)[:400]
    brought = bring("m.png", encoded(picture), Wishes(stitches=40, gauge=(*gauge, "10 cm")))
    assert len(brought.rows[0]) == 40
    assert len(brought.rows) == rows


def test_a_large_picture_without_a_width_is_refused() -> None:
    noise = np.random.default_rng(1).integers(0, 255, (301, 301, 3), np.uint8)
    with pytest.raises(Trouble, match=r"'m.png' is 301 × 301 pixels; say how many stitches wide .* --stitches"):
        bring("m.png", encoded(noise))


def test_colours_are_reduced_to_the_number_asked_for_and_flat_ones_stay_true() -> None:
    pixels = motif()
    speckled = pixels.copy()
    speckled[0, 0] = (41, 66, 109)  # nearly navy
    brought = bring("m.png", encoded(speckled), Wishes(most_colours=3))
    assert brought.rows == MOTIF_ROWS
    assert shades(brought) == {"N": "#27406b", "B": "#efe9dc", "R": "#b4593a"}
    assert brought.notes == (squashed(11), "4 colours reduced to 3")


def test_a_small_bright_motif_is_not_lost_in_a_large_ground() -> None:
    rng = np.random.default_rng(7)
    pixels = np.full((60, 60, 3), NAVY, np.int64) + rng.integers(-9, 9, (60, 60, 3))
    pixels[30:33, 30:33] = RUST
    brought = bring("m.png", encoded(pixels.astype(np.uint8)), Wishes(most_colours=2))
    assert "#b4593a" in shades(brought).values()
    assert sum(row.count(brought.key[1].symbol) for row in brought.rows) == 9


def test_many_colours_are_reduced_to_eight_unasked_and_said_so() -> None:
    rng = np.random.default_rng(3)
    brought = bring("m.png", encoded(rng.integers(0, 255, (40, 40, 3), np.uint8)))
    assert len(brought.key) == 8
    assert brought.notes == (squashed(40), "1,600 colours reduced to 8 (see --colours and --tidy)")


def test_the_nearest_yarns_of_a_palette_are_taken() -> None:
    palette = (
        Shade("Fjord", "#1f3a66", "F"),
        Shade("Snow", "#ffffff"),
        Shade("Fox", "#c0603a"),
        Shade("Lime", "#a0ff00"),
    )
    brought = bring("m.png", encoded(motif()), Wishes(palette=palette))
    assert [(e.symbol, e.name, e.shade) for e in brought.key] == [
        ("F", "Fjord", "#1f3a66"),
        ("S", "Snow", "#ffffff"),
        ("X", "Fox", "#c0603a"),
    ]


def test_two_colours_that_come_to_one_yarn_are_one() -> None:
    brought = bring("m.png", encoded(motif()), Wishes(palette=(Shade("Ink", "#101020"), Shade("Milk", "#fdfdfa"))))
    assert {e.name for e in brought.key} == {"Ink", "Milk"}


def clear_cornered() -> Bytes:
    pixels = np.dstack([motif(), np.full((9, 11), 255, np.uint8)])
    pixels[0, :3, 3] = 0
    pixels[0, 3, 3] = 127
    pixels[0, 4, 3] = 128
    return pixels


def test_transparent_pixels_are_no_stitch() -> None:
    assert bring("m.png", encoded(clear_cornered())).rows[0] == "....NNNNNNN"


def test_transparent_pixels_can_be_given_a_shade() -> None:
    brought = bring("m.png", encoded(clear_cornered()), Wishes(clear="#ff0000"))
    assert brought.rows[0] == "RRRRNNNNNNN"
    assert shades(brought)["R"] == "#ff0000"


def test_hidden_colours_of_clear_pixels_do_not_bleed_when_shrunk() -> None:
    pixels = np.zeros((40, 40, 4), np.uint8)
    pixels[:, :, :3] = (0, 255, 0)  # a green that nobody sees
    pixels[:, :22] = (*NAVY, 255)  # ends in the middle of a stitch
    brought = bring("m.png", encoded(pixels), Wishes(stitches=10, gauge=(20.0, 20.0, "10 cm")))
    assert list(shades(brought).values()) == ["#27406b"]
    assert brought.rows[0] == "NNNNNN...."


def test_a_wholly_transparent_image_is_refused() -> None:
    with pytest.raises(Trouble, match="wholly transparent"):
        bring("m.png", encoded(np.zeros((4, 4, 4), np.uint8)))


def test_the_first_frame_of_an_animation_is_taken() -> None:
    frames = [Image.fromarray(p) for p in (motif(), np.zeros((9, 11, 3), np.uint8))]
    out = io.BytesIO()
    frames[0].save(out, "GIF", save_all=True, append_images=frames[1:])
    assert bring("m.gif", out.getvalue()).rows == MOTIF_ROWS


def test_dithering_mixes_two_yarns_and_is_off_by_default() -> None:
    grey = np.full((20, 20, 3), 128, np.uint8)
    palette = (Shade("Black", "#000000"), Shade("White", "#ffffff"))
    plain = bring("m.png", encoded(grey), Wishes(palette=palette))
    assert len(plain.key) == 1
    mixed = bring("m.png", encoded(grey), Wishes(palette=palette, dither=True))
    assert len(mixed.key) == 2
    share = sum(row.count(mixed.key[0].symbol) for row in mixed.rows) / 400
    assert 0.4 < share < 0.6


def png_header(wide: int, high: int) -> bytes:
    """A PNG that claims a size and has next to no data."""

    def chunk(kind: bytes, data: bytes) -> bytes:
        return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))

    head = chunk(b"IHDR", struct.pack(">IIBBBBB", wide, high, 8, 2, 0, 0, 0))
    return b"\x89PNG\r\n\x1a\n" + head + chunk(b"IDAT", zlib.compress(b"")) + chunk(b"IEND", b"")


@pytest.mark.parametrize(("wide", "high"), [(50_000, 50_000), (40_000_001, 1), (100_000, 100_000)])
def test_huge_images_are_refused_before_they_are_unpacked(wide: int, high: int) -> None:
    with pytest.raises(Trouble, match=r"at most 40,000,000 can be read|cannot be read as an image"):
        bring("m.png", png_header(wide, high))


@pytest.mark.parametrize(
    "data",
    [
        b"\x89PNG\r\n\x1a\n",
        b"\x89PNG\r\n\x1a\n" + b"\0" * 50,
        encoded(motif())[:60],
        b"GIF89a",
        b"GIF89a" + b"\xff" * 40,
        b"\xff\xd8\xff\xe0junk",
        b"BM" + b"\0" * 20,
        png_header(20, 20),
    ],
)
def test_broken_images_are_refused_in_words(data: bytes) -> None:
    with pytest.raises(Trouble, match=r"'m\.png' (is not an image|cannot be read as an image)"):
        bring("m.png", data)


@settings(max_examples=60, deadline=None)
@given(st.binary(max_size=200), st.integers(0, 120))
def test_damaged_images_never_raise_anything_but_trouble(junk: bytes, at: int) -> None:
    good = encoded(motif())
    damaged = good[:at] + junk + good[at + len(junk) :]
    with suppress(Trouble):
        bring("m.png", damaged, Wishes(kind="image"))


def test_more_stitches_than_a_chart_can_have_are_refused() -> None:
    tall = np.zeros((3000, 2, 3), np.uint8)
    tall[::2] = 255
    with pytest.raises(Trouble, match="at most 1500 by 2000"):
        bring("m.png", encoded(tall), Wishes(cell=(1, 1)))


@settings(max_examples=60, deadline=None)
@given(st.integers(1, 12), st.integers(1, 12), st.integers(1, 20), st.randoms(use_true_random=False))
def test_any_picture_reads_back_as_itself(wide: int, high: int, many: int, random: object) -> None:
    rng = np.random.default_rng(random.randrange(2**32))  # type: ignore[attr-defined]
    colours = rng.integers(0, 256, (many, 3)).astype(np.uint8)
    pixels = colours[rng.integers(0, many, (high, wide))]
    chart = read_chart("m.chart.yaml", bring("m.png", encoded(pixels)).text.encode()).chart
    assert chart is not None
    lit = [[chart.colours[symbol].shade for symbol in row] for row in reversed(chart.grid.rows)]
    assert lit == [["#{:02x}{:02x}{:02x}".format(*p) for p in line] for line in pixels.tolist()]


@pytest.mark.parametrize(
    ("note", "rows"),
    [
        (1, ("BBN", "NNN", "NNN", "NNN")),
        (3, ("NNN", "NNN", "NNN", "NBB")),
        (6, ("NNNB", "NNNB", "NNNN")),  # turned a quarter clockwise, as a phone held upright notes it
        (8, ("NNNN", "BNNN", "BNNN")),
        (5, ("BNNN", "BNNN", "NNNN")),
    ],
)
@pytest.mark.parametrize("kind", ["PNG", "JPEG"])
def test_a_picture_is_turned_as_its_note_says(kind: str, note: int, rows: tuple[str, ...]) -> None:
    """Tag 274, orientation, of Exif 2.3: what row 0 and column 0 of the pixels are to the eye."""
    pixels = np.zeros((4, 3, 3), np.uint8)
    pixels[:] = NAVY
    pixels[0, :2] = BONE
    exif = Image.Exif()
    exif[274] = note
    data = encoded(enlarged(pixels, 16, 16), kind, exif=exif.tobytes())
    brought = bring(f"p.{kind.lower()}", data, Wishes(cell=(16, 16), most_colours=2))
    commonest = brought.key[0].symbol
    assert tuple("".join("N" if c == commonest else "B" for c in row) for row in brought.rows) == rows
    assert len(brought.key) == 2


def test_a_note_that_cannot_be_read_turns_nothing() -> None:
    data = encoded(motif(), exif=b"Exif\0\0MM\0*\0\0\0\x08\xff\xff")
    assert bring("p.png", data).rows == MOTIF_ROWS
