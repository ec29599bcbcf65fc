"""What `bring` says, spelt out: messages and notes whole, blank files to the last letter, previews block by block."""

import io
import sys
import zipfile
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from lintarsia.bringing import bring as door
from lintarsia.bringing import limits, picture, table
from lintarsia.bringing.blank import Blank, blank_chart, blank_pattern, file_part
from lintarsia.bringing.bring import Brought, kind_of, title_of
from lintarsia.bringing.charttext import KeyEntry, chart_text, scalar
from lintarsia.bringing.clear_parts import clear_parts
from lintarsia.bringing.palette import read_palette
from lintarsia.bringing.picture import cell_size, resize, take_cells, to_grid
from lintarsia.bringing.preview import as_png, in_terminal
from lintarsia.bringing.shadenames import letters_for, name_shades
from lintarsia.bringing.table import csv_table, find_separator, read_text, text_grid
from lintarsia.bringing.wishes import Wishes
from lintarsia.ground.installing import how_to_install
from lintarsia.ground.trouble import Trouble

Bytes = np.ndarray
RED, BONE, CLEAR = (196, 38, 46, 255), (238, 232, 220, 255), (9, 9, 9, 127)


def png(pixels: Bytes, kind: str = "PNG") -> bytes:
    out = io.BytesIO()
    Image.fromarray(pixels).save(out, kind)
    return out.getvalue()


def pixels(*rows: str) -> Bytes:
    return np.array([[{"R": RED, "B": BONE, ".": CLEAR}[c] for c in row] for row in rows], np.uint8)


def refused(name: str, data: bytes, wishes: Wishes | None = None) -> str:
    with pytest.raises(Trouble) as caught:
        door(name, data, wishes or Wishes())
    return str(caught.value)


@pytest.mark.parametrize(
    ("name", "data", "said"),
    [
        ("a.png", b"", "'a.png' is empty"),
        ("a.png", b"\x89PNG\r\n\x1a\n", "'a.png' is not an image that can be read; expected PNG, GIF, JPEG, BMP"),
        ("a.csv", b"a,\xff", "'a.csv' is neither an image, a workbook nor text in UTF-8 (byte 3)"),
        ("a.txt", b"BB\0B", "'a.txt' is not a text file; it holds a zero byte"),
        ("a.txt", b" BB\n B\x07B\n", "'a.txt': line 2, character 3 is U+0007, which is no symbol"),
        ("a.txt", b"\n \n", "'a.txt' holds no stitches; every cell is empty"),
        ("a.csv", b"x" * 131_073, "'a.csv' cannot be read as a table (field larger than field limit (131072))"),
        ("a.csv", b",,\n., \n", "'a.csv' holds no stitches; every cell is empty"),
        ("a.chart.yaml", b"lintarsia: 1\n", None),
        ("a.pattern.yaml", b"\xef\xbb\xbflintarsia-pattern : 1\n", None),
        ("a.txt", b"# mine\nlintarsia-knit: 1\n", None),
        ("a.txt", b"title: x\nchart: |\n", None),
    ],
)
def test_what_is_no_picture_of_a_chart(name: str, data: bytes, said: str | None) -> None:
    kinds = {b"lintarsia-p": "pattern", b"lintarsia-k": "test knit"}
    kind = next((word for head, word in kinds.items() if head in data), "chart")
    own = f"{name!r} is a {kind} file already; there is nothing to bring (lintarsia check reads it as it is)"
    assert refused(name, data) == (said or own)


def test_too_much_is_told_with_the_bound(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys.modules["lintarsia.bringing.bring"], "MOST_BYTES", 1200)
    assert refused("a.txt", b"B" * 1201) == "'a.txt' has 1,201 bytes; at most 1,200 are read"
    assert door("a.txt", b"B" * 1200).rows == ("B" * 1200,)
    monkeypatch.setattr(picture, "MOST_PIXELS", 11)
    assert refused("a.png", png(pixels("RRRR").repeat(3, axis=0))) == "'a.png' is 4 × 3 pixels; at most 11 can be read"
    monkeypatch.setattr(picture, "MOST_PIXELS", 12)
    assert door("a.png", png(pixels("RRRB").repeat(3, axis=0))).rows == ("RRRB",) * 3


@pytest.mark.parametrize(("wide", "high"), [(1500, 2), (3, 2000)])
def test_the_largest_chart_of_a_table(wide: int, high: int) -> None:
    at_most = "at most 1500 by 2000 can be made"
    for kind, line, end in (("a.txt", "B" * wide, "B"), ("a.csv", ",".join("B" * wide), ",B")):
        assert len(door(kind, f"{line}\n".encode() * high).rows) == high
        more = f"{line}{end}\n" * high if high == 2 else f"{line}\n" * (high + 1)
        size = f"{wide + 1} cells by 2 rows" if high == 2 else "3 cells by 2001 rows"
        assert refused(kind, more.encode()).replace(",", "") == f"'{kind}' has {size}; {at_most}"


def test_a_chart_as_large_as_the_wish_and_larger() -> None:
    said = "that is 4 stitches by 3 rows, 12 in all; at most 11 are read (max-stitches in the settings allows more)"
    for name, data in (("a.txt", b"BBBB\nRRRR\nBBRR\n"), ("a.png", png(pixels("BBBB", "RRRR", "BBRR")))):
        assert refused(name, data, Wishes(most_stitches=11)) == said
        assert len(door(name, data, Wishes(most_stitches=12)).rows) == 3
    with pytest.raises(Trouble, match="that is 1,200 stitches by 1 row, 1,200 in all; at most 7 are read"):
        limits.refuse_large(1200, 1, 7)


def workbook(name: str = "xl/worksheets/sheet1.xml") -> bytes:
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w") as archive:
        archive.writestr(name, b"<worksheet>" + b" " * 5000 + b"</worksheet>")
    return out.getvalue()


def test_workbooks_that_cannot_be_read(monkeypatch: pytest.MonkeyPatch) -> None:
    assert refused("a.xlsx", b"PK\x03\x04").startswith("'a.xlsx' cannot be read as a workbook (")
    monkeypatch.setattr(table, "MOST_UNPACKED", 5022)
    said = refused("a.xlsx", workbook())
    assert said == "'a.xlsx' unpacks to 5,023 bytes; at most 5,022 are read"
    monkeypatch.setattr(table, "MOST_UNPACKED", 5023)
    assert refused("a.xlsx", workbook()).startswith("'a.xlsx' cannot be read as a workbook (")
    monkeypatch.setitem(sys.modules, "python_calamine", None)
    assert refused("a.xlsx", workbook()) == f"workbooks need one more library: {how_to_install('images')}"


def test_without_the_library_for_images(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "PIL", None)
    said = f"images need one more library: {how_to_install('images')}"
    with pytest.raises(Trouble) as caught:
        picture.open_image("a.png", b"\x89PNG")
    assert str(caught.value) == said


@pytest.mark.parametrize(
    ("name", "head", "kind"),
    [
        ("a", b"\x89PNG\r\n\x1a\nrest", "image"), ("a", b"GIF87a", "image"), ("a", b"GIF89a", "image"),
        ("a.csv", b"\xff\xd8\xff", "image"), ("a", b"BM", "image"), ("a.PNG", b"x", "image"), ("a.gif", b"", "image"),
        ("a.jpg", b"", "image"), ("a.jpeg", b"", "image"), ("a.bmp", b"", "image"), ("a", b"PK\x03\x04", "workbook"),
        ("a.xlsx", b"", "workbook"), ("a.ods", b"", "workbook"), ("a.xlsm", b"", "workbook"), ("a.csv", b"", "table"),
        ("a.TSV", b"", "table"), ("a.txt", b"", "grid"), ("png", b"", "grid"), ("a", b"PK", "grid"),
    ],
)  # fmt: skip
def test_what_a_file_is(name: str, head: bytes, kind: str) -> None:
    assert kind_of(name, head) == kind


@pytest.mark.parametrize(
    ("name", "title"),
    [
        ("two_moons-v2.png", "Two moons v2"), ("x/é.b.c", "É"), ("__.png", "Untitled chart"),
        (".png", "Untitled chart"),
        ("a-_-b.csv", "A b"), ("dir.d/NINE", "NINE"), ("\udcff.png", "?"),
    ],
)  # fmt: skip
def test_a_title_from_a_name(name: str, title: str) -> None:
    assert title_of(name) == title


def test_tables_in_detail() -> None:
    assert text_grid("a", "\n\n  BR\n  .\tB \n B\n\n") == [["", "B", "R", ""], ["", "", "", "B"], ["B", "", "", ""]]
    assert csv_table("a", "x;y\nz;.\n") == [["x", "y"], ["z", ""]]
    assert csv_table("a", ", ,\n,b,\n,,c\n,,\n") == [["b", ""], ["", "c"]]
    assert csv_table("a", "word\n") == [["word"]]
    assert [find_separator(text) for text in ("a,b;c;d\n\na,b;c;d", "a\tb", "a|b", "a\n", "a,b\nc", "")] == [
        ";", "\t", "|", None, None, None,
    ]  # fmt: skip
    assert read_text("a", "é".encode("utf-16")) == "é"
    assert read_text("a", b"\xef\xbb\xbfB") == "B"
    assert [table._label(cell) for cell in (3.0, 3.5, " B ", ".", 7, "..")] == ["3", "3.5", "B", "", "7", ".."]


def test_labels_of_every_kind_get_symbols_names_and_shades() -> None:
    """In the order of their number, and then of their names; an own letter, a shade, a name, words of anybody's."""
    text = "Q,#AABBCC,Navy,wild oats,Q\nQ,00ff00,Navy,wild oats,\nQ,#AABBCC,x y,z z,\n"
    brought = door("a.csv", text.encode())
    assert [(e.symbol, e.name, e.shade) for e in brought.key] == [
        ("Q", "Bone", "#efe9dc"), ("S", "Silver", "#aabbcc"), ("N", "Navy", "#1f2f5c"), ("W", "wild oats", "#b4593a"),
        ("L", "Lime", "#00ff00"), ("X", "x y", "#76814a"), ("Z", "z z", "#d9a531"),
    ]  # fmt: skip
    assert [len(row) for row in brought.rows] == [5, 5, 5]
    assert brought.rows[1][4] == "."


def test_names_and_letters() -> None:
    assert name_shades(["#efe9dc", "#efe9dd", "#1f2f5c", "#efe9db"]) == ["Bone", "Bone 2", "Navy", "Bone 3"]
    assert letters_for(["Olive", "Oat", "Iris", "Bone", "Bone 2"], ["B"]) == ["O", "A", "I", "N", "E"]
    assert letters_for(["Ab"] * 5, []) == ["A", "B", "a", "b", "C"]
    assert letters_for(["Iris"] * 3, ["R"]) == ["I", "S", "r"]
    assert letters_for(["1 2", "??", "é"], []) == ["A", "B", "C"]
    with pytest.raises(ValueError, match=r"^there are 61 colours; a chart file made here can hold 62$"):
        letters_for(["x"] * 61, ["A", "b"])
    assert len(set(letters_for(["x"] * 60, ["A", "b"]))) == 60


@pytest.mark.parametrize(
    ("text", "written"),
    [
        ("Dusk blue", "Dusk blue"), ("a-b c1", "a-b c1"), ("No", '"No"'), ("on", '"on"'), ("1", '"1"'),
        ("a: b", '"a: b"'),
        ('say "so"\\', '"say \\"so\\"\\\\"'), ("\x07", '"\\x07"'), ("\xff", '"ÿ"'), ("\x9f", '"\\x9f"'),
        ("\u0100", '"\u0100"'), ("\u2028", '"\\u2028"'), ("\U000e0001", '"\\U000e0001"'), ("", '""'), (" a", '" a"'),
        ("\uffff", '"\\uffff"'),
    ],
)  # fmt: skip
def test_words_as_yaml(text: str, written: str) -> None:
    assert scalar(text) == written


def test_a_chart_file_to_the_last_letter() -> None:
    key = [KeyEntry("B", "Bone", "#efe9dc"), KeyEntry("N", "no", "#1f2f5c")]
    made = chart_text(
        title="A: b", gauge=(22.5, 30.0, "4 in"), technique="mixed", worked="round", key=key, rows=["BN", "NN"],
        remark="one\ntwo",
    )  # fmt: skip
    assert made == (
        '# one\n# two\nlintarsia: 1\ntitle: "A: b"\nworked: round\ntechnique: mixed\n'
        "gauge: {stitches: 22.5, rows: 30, over: 4 in}\ncolours:\n"
        '  B: {name: Bone, shade: "#efe9dc"}\n  "N": {name: "no", shade: "#1f2f5c"}\nchart: |\n  BN\n  NN\n'
    )


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "'p' lists no shades; expected lines such as  Dusk blue: \"#27406b\""),
        ("- {name: Oat}\n", "'p': 'Oat' has no shade such as \"#27406b\""),
        ("colours:\n  B: {shade: '#123456'}\n", "'p': 'B' has no shade such as \"#27406b\""),
        ("Oat: '#12345'\n", "'p': 'Oat' has no shade such as \"#27406b\""),
        ("- 7\n", "'p': '7' has no shade such as \"#27406b\""),
    ],
)
def test_a_palette_that_lists_none(text: str, said: str) -> None:
    with pytest.raises(Trouble) as caught:
        read_palette("p", text)
    assert str(caught.value) == said


def test_a_palette_in_each_form() -> None:
    for text in ("no: '#AABBCC'\n", "- {name: 'no', shade: '#aabbcc'}\n"):
        assert [(s.name, s.shade, s.symbol) for s in read_palette("p", text)] == [("no", "#aabbcc", "")]
    chart = "colours: {B: {name: 1e3, shade: '#123456'}, BB: {name: x, shade: '#654321'}}\n"
    told = [(s.name, s.shade, s.symbol) for s in read_palette("p", chart)]
    assert told == [("1e3", "#123456", "B"), ("x", "#654321", "")]
    with pytest.raises(Trouble, match=r"^'p' cannot be read as YAML \(.*\)$"):
        read_palette("p", "a: [\n")


@pytest.mark.parametrize("fill", [False, True])
def test_clear_parts_are_told_whole(fill: bool) -> None:
    shaped = pixels("RBBBB", "B...B", "BBBBB", "....R")
    made, notes = clear_parts("a", shaped, shade="", fill=fill)
    if fill:
        told = "transparent inside: 3 stitches made #eee8dc (--transparent chooses another shade)"
        assert made[1, 1:4].tolist() == [list(BONE)] * 3
    else:
        told = "3 stitches inside are transparent: holes in the fabric (--tidy or --transparent fills them)"
        assert (made == shaped).all()
    assert notes == (told,)
    assert made[3, 0].tolist() == list(CLEAR)
    assert clear_parts("a", shaped, shade="#010203", fill=fill)[0][3, 0].tolist() == [1, 2, 3, 255]
    with pytest.raises(Trouble) as caught:
        clear_parts("a", pixels(".."), shade="", fill=fill)
    assert str(caught.value) == "'a' is wholly transparent, so it has no stitches"


def test_half_of_a_rim_is_ground_enough() -> None:
    """The rim of 5 by 4 has fourteen stitches; seven solid ones give their commonest shade, six the house's."""
    seven = pixels("RRBBB", "B...B", ".....", ".....")
    seven[1, 1:4], seven[2, 1:4] = BONE, BONE
    seven[1, 2] = CLEAR
    assert clear_parts("a", seven, shade="", fill=True)[0][1, 2].tolist() == list(BONE)
    six = seven.copy()
    six[1, 0] = CLEAR
    assert clear_parts("a", six, shade="", fill=True)[0][1, 2].tolist() == [239, 233, 220, 255]


def test_images_at_every_size_of_grid() -> None:
    """What is said of how the stitches were found, whole."""
    small = pixels("RRBBB", "BBBBR", "RBRBB", "BBRRR")
    square = "its squares are stitches now, and stitches at 22 × 30 are not square: knitted, it will be 27% flatter "
    keeps = "(--stitches 5 keeps its proportions)"
    gauge = (22.0, 30.0)
    assert to_grid("a", small, stitches=None, cell=None, gauge=gauge).notes == (square + keeps,)
    tall = "its squares are stitches now, and stitches at 30 × 22.5 are not square: knitted, it will be 33% taller "
    assert to_grid("a", small, stitches=None, cell=None, gauge=(30, 22.5)).notes == (tall + keeps,)
    assert to_grid("a", small, stitches=None, cell=None, gauge=(22, 24.2)).notes == ()
    assert to_grid("a", small, stitches=None, cell=None, gauge=(22, 24.5)).notes != ()
    large = small.repeat(20, axis=0).repeat(30, axis=1)
    cells = "taken as a grid with cells of 30 × 20 pixels"
    assert to_grid("a", large, stitches=None, cell=None, gauge=gauge).notes == (cells,)
    assert to_grid("a", large, stitches=None, cell=(30, 20), gauge=gauge).notes == (cells,)
    assert (to_grid("a", large, stitches=None, cell=None, gauge=gauge).colours == small).all()
    even = small.repeat(22, axis=0).repeat(20, axis=1)
    assert to_grid("a", even, stitches=None, cell=None, gauge=gauge).notes == (
        "taken as a grid with cells of 20 × 22 pixels", square + keeps,
    )  # fmt: skip
    wished = to_grid("a", large, stitches=10, cell=None, gauge=gauge)
    assert wished.notes == ("150 × 80 pixels drawn as 10 × 7",)
    assert wished.colours.shape == (7, 10, 4)
    for cell, told in (((151, 1), "151 × 1"), ((1, 81), "1 × 81")):
        with pytest.raises(Trouble) as caught:
            to_grid("a", large, stitches=None, cell=cell, gauge=gauge)
        assert str(caught.value) == f"'a' is 150 × 80 pixels; a cell of {told} is larger than that"
    assert to_grid("a", large, stitches=None, cell=(150, 80), gauge=gauge).colours.shape == (1, 1, 4)
    with pytest.raises(Trouble) as caught:
        to_grid("a", large, stitches=1501, cell=None, gauge=gauge)
    assert str(caught.value) == "that is 1,501 stitches by 1,092 rows; at most 1500 by 2000 can be made"


def photo(wide: int, high: int) -> Bytes:
    chance = np.random.default_rng(5)
    return np.dstack([chance.integers(0, 256, (high, wide, 3), np.uint8), np.full((high, wide), 255, np.uint8)])


def test_pictures_without_a_grid() -> None:
    gauge = (22.0, 22.0)
    assert to_grid("a", photo(150, 150), stitches=None, cell=None, gauge=gauge).notes == ()
    said = "taken as one pixel a stitch, 151 stitches by 9 rows, which is more than most charts have (see --stitches)"
    assert to_grid("a", photo(151, 9), stitches=None, cell=None, gauge=gauge).notes == (said,)
    assert to_grid("a", photo(300, 9), stitches=None, cell=None, gauge=gauge).colours.shape == (9, 300, 4)
    with pytest.raises(Trouble) as caught:
        to_grid("a", photo(301, 9), stitches=None, cell=None, gauge=gauge)
    assert str(caught.value) == (
        "'a' is 301 × 9 pixels; say how many stitches wide it shall be with --stitches, "
        "or how many pixels a cell has with --cell if it is a grid"
    )


def test_cells_are_found_and_their_middles_taken() -> None:
    small = pixels("RRBB", "BBBR", "RBRB")
    assert cell_size(small.repeat(6, axis=0).repeat(4, axis=1)) == (4, 6)
    assert cell_size(pixels("RRR", "RRR")) == (1, 1)
    assert cell_size(pixels("RRRR", "BBBB").repeat(3, axis=0)) == (4, 3)
    lined = small.repeat(8, axis=0).repeat(8, axis=1)
    lined[::8], lined[:, ::8] = (0, 0, 0, 255), (0, 0, 0, 255)
    assert (take_cells(lined, 8, 8) == small).all()
    assert (take_cells(small.repeat(2, axis=0).repeat(2, axis=1), 2, 2) == small).all()
    grey = np.zeros((4, 4, 4), np.uint8)
    grey[..., 3] = 255
    grey[1:3, 1:3, 0] = [[10, 20], [40, 50]]  # no colour has half of the middle: the median of 10, 20, 40, 50
    assert take_cells(grey, 4, 4)[0, 0].tolist() == [30, 0, 0, 255]
    grey[1:3, 1:3, 0] = [[10, 10], [40, 50]]
    assert take_cells(grey, 4, 4)[0, 0].tolist() == [10, 0, 0, 255]


def test_larger_is_by_copies_and_smaller_by_means() -> None:
    two = pixels("RB")
    assert resize(two, 4, 1)[0].tolist() == [list(RED)] * 2 + [list(BONE)] * 2
    assert resize(two, 1, 1)[0, 0].tolist() == [217, 135, 133, 255]
    assert resize(two, 2, 1)[0].tolist() == [list(RED), list(BONE)]


def brought(*rows: str, before: Bytes | None = None) -> Brought:
    key = (KeyEntry("R", "Red", "#c4262e"), KeyEntry("B", "Bone", "#eee8dc"))
    return Brought("", rows, key, (), before)


def test_a_preview_block_by_block() -> None:
    """Two rows to a line, the upper one in front; a clear half has the ground of the terminal."""
    red, bone = "196;38;46", "238;232;220"
    even = (10.0, 10.0)
    assert in_terminal(brought("RB.", "BB."), even, 80) == (
        f"\x1b[38;2;{red};48;2;{bone}m▀\x1b[38;2;{bone};48;2;{bone}m▀\x1b[0m \x1b[0m\n"
    )
    assert in_terminal(brought("R.", ".B", "B."), even, 80) == (
        f"\x1b[38;2;{red};49m▀\x1b[38;2;{bone};49m▄\x1b[0m\n\x1b[38;2;{bone};49m▀\x1b[0m \x1b[0m\n"
    )


@pytest.mark.parametrize(("width", "lines"), [(8, 1), (7, 3)])
def test_a_preview_lies_beside_what_it_was_made_of_where_there_is_room(width: int, lines: int) -> None:
    told = in_terminal(brought("RRB", "RBB", before=pixels("RRB", "RBB")), (10, 10), width)
    assert len(told.splitlines()) == lines
    assert told.count("m▀") == 6
    assert ("  \x1b" in told) is (lines == 1)
    assert ("\n\n" in told) is (lines == 3)


def test_a_preview_as_a_picture() -> None:
    """12 pixels a stitch, 24 between; at 3 stitches to 4 rows a row is 9 high; what is clear is paper."""
    made = np.asarray(Image.open(io.BytesIO(as_png(brought("R.B", "BBB", before=pixels("RRB", "BBB")), (3, 4)))))
    assert made.shape == (18, 2 * 36 + 24, 3)
    assert made[0, 0].tolist() == list(RED[:3])
    assert (made[:, 36:60] == 255).all()
    assert made[8, 60 + 11].tolist() == list(RED[:3])
    assert made[8, 60 + 12].tolist() == [255, 255, 255]
    assert made[9, 60 + 12].tolist() == list(BONE[:3])


BLANK = """\
lintarsia: 1
title: Hare
worked: round
technique: stranded
gauge: {stitches: 21.5, rows: 30, over: 4 in}      # of your own swatch, washed
yarns:
  ground: {name: Bone yarn}      # from the ball band, too: length: 120 m, mass: 50 g, balls: 2
colours:
  B: {name: Bone, shade: "#efe9dc", yarn: ground}
#  R: {name: Rust, shade: "#b4593a"}      # the next colour: without the # once it is in the grid
# The top line is round 2, the lowest is round 1. Each has 3 stitches; stitch 1 is at the right.
chart: |
  BBB
  BBB
"""


def test_a_blank_chart_to_the_last_letter() -> None:
    like = Blank(3, 2, (21.5, 30.0, "4 in"), "stranded", "round")
    assert blank_chart("Hare", like) == BLANK
    flat = blank_chart("Hare", Blank(1, 2, ground="#b4593a"))
    assert 'shade: "#efe9dc"' in flat
    assert "# The top line is row 2, the lowest is row 1. Each has 1 stitch; stitch 1 is at the right.\n" in flat


def test_a_blank_pattern_to_the_last_letter() -> None:
    charts = {"Left front": "hare-left-front.chart.yaml", "no": "x.chart.yaml"}
    assert blank_pattern("Hare", charts, ["small", "2"], Blank(30, 40)) == (
        'lintarsia-pattern: 1\ntitle: Hare\nversion: "0.1"\nsizes: [small, "2"]\npieces:\n'
        '  Left front:\n    chart: "hare-left-front.chart.yaml"\n    times: 1\n'
        '#    cast-on: {small: 30, "2": 30}      # of the whole piece, where it is wider than the chart\n'
        '#    rows: {small: 40, "2": 40}      # of the whole piece, where it is longer\n'
        '  "no":\n    chart: "x.chart.yaml"\n    times: 1\n'
        '#    cast-on: {small: 30, "2": 30}      # of the whole piece, where it is wider than the chart\n'
        '#    rows: {small: 40, "2": 40}      # of the whole piece, where it is longer\n'
    )
    plain = blank_pattern("Hare", {"a": "x"}, [], Blank(30, 40))
    assert "#    cast-on: 30      # of" in plain
    assert "sizes" not in plain
    assert [file_part(name) for name in ("Left front", " é & b ", "--", "A_b")] == ["left-front", "é-b", "piece", "a_b"]


def test_a_chart_that_does_not_read_back_is_never_written(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys.modules["lintarsia.bringing.bring"], "chart_text", lambda **_: BLANK)
    said = "'a.txt' gives a chart that does not read back (the rows differ)"
    assert refused("a.txt", b"BBB\nBBR\n") == said
    monkeypatch.setattr(sys.modules["lintarsia.bringing.bring"], "chart_text", lambda **_: "lintarsia: 1\n")
    assert refused("a.txt", b"BBB\n").startswith("'a.txt' gives a chart that does not read back (")
    assert Path("a.chart.yaml").exists() is False


def test_a_grid_of_letters_may_have_any_letter() -> None:
    assert text_grid("a", "XB\n.X\n") == [["X", "B"], ["", "X"]]


def test_a_symbol_of_the_palette_is_kept_unless_the_table_has_it_for_something_else() -> None:
    palette = read_palette("p", "colours: {R: {name: Berry, shade: '#a01030'}, G: {name: Leaf, shade: '#204020'}}\n")
    free = door("a.csv", b"Berry,Leaf\nBerry,Berry\n", Wishes(palette=palette))
    assert free.rows == ("RG", "RR")
    assert [(e.symbol, e.name, e.shade) for e in free.key] == [("R", "Berry", "#a01030"), ("G", "Leaf", "#204020")]
    taken = door("a.csv", b"Berry,R\nBerry,Leaf\n", Wishes(palette=palette))
    assert len({e.symbol for e in taken.key}) == 3
    assert taken.rows[0][1] == "R"
    assert taken.rows[0][0] != "R"


def test_more_shades_than_there_are_letters() -> None:
    """Sixty-four shades spread over all that there are, each of them used."""
    lattice = [(r * 85, g * 85, b * 85) for r in range(4) for g in range(4) for b in range(4)]
    shades = "".join(f"c{number}: '#{r:02x}{g:02x}{b:02x}'\n" for number, (r, g, b) in enumerate(lattice))
    wishes = Wishes(palette=read_palette("p", shades), dither=True)
    said = "'a.png': there are 64 colours; a chart file made here can hold 62"
    assert refused("a.png", png(photo(90, 90)), wishes) == said


@pytest.mark.parametrize(("cell", "told"), [(12, "12 × 12"), (15, "15 × 15")])
def test_a_grid_with_grain_is_found_and_said(cell: int, told: str) -> None:
    """Ten cells by eight; every pixel a little off, so that no two are alike."""
    chance = np.random.default_rng(3)
    cells = chance.integers(0, 2, (8, 10))[..., None] * np.array([150, 140, 120]) + np.array([60, 70, 90])
    grained = cells.repeat(cell, axis=0).repeat(cell, axis=1) + chance.integers(-6, 7, (8 * cell, 10 * cell, 3))
    rgba = np.dstack([grained, np.full(grained.shape[:2], 255)]).astype(np.uint8)
    found = to_grid("a", rgba, stitches=None, cell=None, gauge=(22.0, 22.0))
    assert found.notes[0] == f"taken as a grid of 10 × 8 cells of {told} pixels (--cell says otherwise)"
    assert found.colours.shape == (8, 10, 4)


def test_a_workbook_that_names_no_sheet() -> None:
    from lintarsia.bringing.sheetsize import extent

    out = io.BytesIO()
    with zipfile.ZipFile(out, "w") as archive:
        archive.writestr("xl/workbook.xml", "<workbook><sheets/></workbook>")
        archive.writestr("xl/_rels/workbook.xml.rels", "<Relationships/>")
    with zipfile.ZipFile(out) as archive, pytest.raises(ValueError, match=r"^it names no sheet$"):
        extent(archive)


@pytest.mark.parametrize("target", ["worksheets/one.xml", "/xl/worksheets/one.xml", "../xl/worksheets/one.xml"])
def test_the_first_sheet_by_the_name_that_its_relationship_gives(target: str) -> None:
    """Relative to the workbook's own folder, or from the top (ECMA-376, part 2)."""
    from lintarsia.bringing.sheetsize import _first_sheet

    main = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
    linked = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w") as archive:
        sheet = '<sheets><sheet name="one" r:id="r7"/></sheets></workbook>'
        archive.writestr("xl/workbook.xml", f'<workbook xmlns="{main}" xmlns:r="{linked}">{sheet}')
        archive.writestr(
            "xl/_rels/workbook.xml.rels",
            f'<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">'
            f'<Relationship Id="r7" Target="{target}"/></Relationships>',
        )
    with zipfile.ZipFile(out) as archive:
        assert _first_sheet(archive) == "xl/worksheets/one.xml"


def test_a_workbook_of_the_binary_kind_is_told_how_to_be_saved() -> None:
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w") as archive:
        archive.writestr("xl/workbook.bin", b"\0")
    assert refused("a.xlsx", out.getvalue()).endswith("the workbook is of a kind that is not read; save it as .xlsx")
