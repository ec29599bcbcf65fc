"""Tables, workbooks and plain grids to charts."""

import io
import zipfile

import openpyxl
import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st

from lintarsia.bringing import Wishes, bring
from lintarsia.bringing.bring import SPREAD
from lintarsia.bringing.palette import Shade, read_palette
from lintarsia.bringing.shadenames import NAMES
from lintarsia.bringing.sheetsize import extent
from lintarsia.bringing.table import find_separator, usable
from lintarsia.ground.trouble import Trouble
from lintarsia.reading import read_chart


def test_a_plain_grid_keeps_its_letters() -> None:
    brought = bring("grid.txt", b"\n  BBWB\n  B..B\n  WWWW\n\n")
    assert brought.rows == ("BBWB", "B..B", "WWWW")
    assert {e.symbol for e in brought.key} == {"B", "W"}


def test_spaces_in_a_plain_grid_are_no_stitch_and_short_lines_are_filled_up() -> None:
    assert bring("grid.txt", b"##  #\n###\n").rows == ("##..#", "###..")


def test_symbols_that_say_no_colour_get_each_its_own_the_commonest_the_likeliest() -> None:
    """Twelve that are far apart, and then whatever else there is a name for."""
    symbols = "ABCDEFGHIJKLMNOPQ"
    row = "".join(symbol * (20 - at) for at, symbol in enumerate(symbols))
    key = bring("a.txt", row.encode()).key
    assert [entry.symbol for entry in key] == list(symbols)
    assert [entry.name for entry in key[:13]] == [*SPREAD, next(name for name in NAMES if name not in SPREAD)]
    assert len({entry.shade for entry in key}) == len(symbols)


def test_a_character_that_can_be_no_symbol_is_told_with_its_place() -> None:
    with pytest.raises(Trouble, match=r"'g.txt': line 2, character 3 is U\+200B, which is no symbol"):
        bring("g.txt", "BBB\nBB\u200b\n".encode())


@pytest.mark.parametrize("separator", [",", ";", "\t", "|"])
def test_tables_are_read_whatever_parts_their_cells(separator: str) -> None:
    lines = (["blue", "blue", "white"], ["blue", "", "white"])
    text = "\n".join(separator.join(line) for line in lines)
    brought = bring("t.csv", text.encode())
    assert find_separator(text) == separator
    assert [len(row) for row in brought.rows] == [3, 3]
    assert brought.rows[1][1] == "."
    assert {e.name for e in brought.key} == {"blue", "white"}


def test_cells_that_say_a_shade_or_a_colours_name_get_it() -> None:
    brought = bring("t.csv", b"#C8202F,navy,B\n#C8202F,navy,x\n")
    assert {e.shade for e in brought.key} >= {"#c8202f", "#1f2f5c"}
    assert {e.symbol for e in brought.key} >= {"B", "x"}


def test_quoted_cells_and_marks_and_dos_lines() -> None:
    brought = bring("t.csv", '\ufeff"sea, deep",A\r\n"sea, deep",A\r\n'.encode())
    assert "sea, deep" in {e.name for e in brought.key}


def test_utf_16_with_a_mark_is_read() -> None:
    assert bring("t.csv", "é,é\nA,A\n".encode("utf-16")).rows == ("éé", "AA")


def test_labels_are_found_in_a_palette_and_its_letters_kept() -> None:
    palette = (Shade("Fjord", "#27406b", "F"), Shade("Bone", "#efe9dc", "W"))
    brought = bring("t.csv", b"fjord,Bone\nBone,Bone\n".replace(b"fjord", b"Fjord"), Wishes(palette=palette))
    assert brought.rows == ("FW", "WW")
    assert {(e.symbol, e.name, e.shade) for e in brought.key} == {
        ("F", "Fjord", "#27406b"),
        ("W", "Bone", "#efe9dc"),
    }


def workbook(rows: list[list[object]]) -> bytes:
    book = openpyxl.Workbook()
    for row in rows:
        book.active.append(row)
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()


def test_the_first_sheet_of_a_workbook_is_read_by_what_its_cells_say() -> None:
    brought = bring("w.xlsx", workbook([["A", "A", None], [1, 2.5, "A"], ["navy", None, "A"]]))
    assert brought.rows[0] == "AA."
    assert brought.rows[1][0] == "1"
    assert {e.name for e in brought.key} >= {"navy", "2.5"}


def test_empty_rows_and_columns_around_a_table_are_left_out() -> None:
    assert bring("w.xlsx", workbook([[None, None, None], [None, "A", "B"], [None, "B", "A"]])).rows == ("AB", "BA")


def test_a_workbook_that_unpacks_to_too_much_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("lintarsia.bringing.table.MOST_UNPACKED", 1000)
    with pytest.raises(Trouble, match="at most 1,000 are read"):
        bring("w.xlsx", workbook([["A"]]))


def not_a_workbook() -> bytes:
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w") as archive:
        archive.writestr("hello", "x")
    return out.getvalue()


@pytest.mark.parametrize("data", [b"PK\x03\x04junk", not_a_workbook(), workbook([["A"]])[:500]])
def test_broken_workbooks_are_refused_in_words(data: bytes) -> None:
    with pytest.raises(Trouble, match=r"'w\.xlsx' cannot be read as a workbook"):
        bring("w.xlsx", data)


@pytest.mark.parametrize(
    ("name", "data", "said"),
    [
        ("a.txt", b"", "'a.txt' is empty"),
        ("a.txt", b"\n\n  \n", "holds no stitches"),
        ("a.csv", b",,\n,,\n", "holds no stitches"),
        ("a.txt", b"\xff\x80B", "neither an image, a workbook nor text in UTF-8"),
        ("a.txt", b"A\0B", "is not a text file"),
        ("a.txt", b"B" * 1501, "at most 1500 by 2000"),
        ("a.csv", b"a\n" * 2001, "at most 1500 by 2000"),
        (
            "a.csv",
            ("\n".join(f"colour {n}" for n in range(63))).encode(),
            "63 colours; a chart file made here can hold 62",
        ),
    ],
)
def test_files_without_a_chart_are_refused_in_words(name: str, data: bytes, said: str) -> None:
    with pytest.raises(Trouble, match=said):
        bring(name, data)


AWKWARD = "yYnN~-?:!#&*|>'\"%@`{}[],=0123456789é漢\\"


@settings(max_examples=120, deadline=None)
@given(st.lists(st.text(AWKWARD + ".", min_size=1, max_size=8), min_size=1, max_size=8))
def test_any_grid_reads_back_as_itself(lines: list[str]) -> None:
    if not any(c != "." for line in lines for c in line):
        return
    brought = bring("g", "\n".join(lines).encode(), Wishes(kind="grid"))
    wide = max(map(len, lines))
    filled = [
        at for at, line in enumerate(lines) if line.strip(".")
    ]  # rows without a stitch at either end are left out
    assert brought.rows == tuple(line.ljust(wide, ".") for line in lines[filled[0] : filled[-1] + 1])
    chart = read_chart("g.chart.yaml", brought.text.encode()).chart
    assert chart is not None
    assert chart.grid.rows[::-1] == brought.rows


@pytest.mark.parametrize("mark", ["\u0301", "\U0001da00"])
def test_a_mark_that_goes_over_another_character_is_no_symbol(mark: str) -> None:
    with pytest.raises(Trouble, match=f"line 2, character 1 is U\\+{ord(mark):04X}, which is no symbol"):
        bring("g", f"AB\n{mark}B".encode(), Wishes(kind="grid"))
    brought = bring("t", f"A,{mark}".encode(), Wishes(kind="table"))
    assert read_chart("t.chart.yaml", brought.text.encode()).problems == ()
    assert mark not in brought.rows[0]


@settings(max_examples=60, deadline=None)
@given(st.lists(st.lists(st.text(max_size=6), min_size=1, max_size=4), min_size=1, max_size=4), st.text(max_size=20))
def test_any_table_and_title_make_a_valid_chart_or_a_message(table: list[list[str]], title: str) -> None:
    text = "\n".join(",".join(cell.replace(",", "").replace('"', "") for cell in row) for row in table)
    try:
        brought = bring("t", text.encode("utf-8", "replace"), Wishes(kind="table", title=title))
    except Trouble:
        return
    reading = read_chart("t.chart.yaml", brought.text.encode())
    assert reading.chart is not None
    assert reading.problems == ()
    if title:
        assert reading.chart.title == title


def test_what_can_be_a_symbol() -> None:
    assert all(usable(c) for c in "Bé漢#~1")
    assert not any(usable(c) for c in (".", " ", "\u00a0", "\t", "\x07", "", "AB", "\u200b", "\ufeff"))


@pytest.mark.parametrize(
    "text",
    [
        'Fjord: "#27406B"\nno: "#efe9dc"\n',
        '- {name: Fjord, shade: "#27406b"}\n- {name: no, shade: "#EFE9DC"}\n',
        'title: x\ncolours:\n  F: {name: Fjord, shade: "#27406b", yarn: dk}\n  .: {name: no, shade: "#efe9dc"}\n',
    ],
)
def test_palettes_come_in_three_forms(text: str) -> None:
    shades = read_palette("p.yaml", text)
    assert [(s.name, s.shade) for s in shades] == [("Fjord", "#27406b"), ("no", "#efe9dc")]


def test_a_charts_own_letters_are_kept_where_they_can_be() -> None:
    text = 'colours:\n  F: {name: A, shade: "#27406b"}\n  ".": {name: B, shade: "#efe9dc"}\n'
    assert [s.symbol for s in read_palette("p.yaml", text)] == ["F", ""]


@pytest.mark.parametrize("text", ["", "x", "1", "[", "Fjord: blue", "- 3", "colours: {B: 3}", 'Fjord: ["#27406b"]'])
def test_other_palettes_are_refused_in_words(text: str) -> None:
    with pytest.raises(Trouble, match=r"'p.yaml'"):
        read_palette("p.yaml", text)


def test_what_is_no_yaml_is_told_in_one_line() -> None:
    text = "Fjord: [\n  x: y: z\n"
    with pytest.raises(yaml.YAMLError) as own:
        yaml.load(text, Loader=yaml.CSafeLoader)
    with pytest.raises(Trouble) as caught:
        read_palette("p.yaml", text)
    assert str(caught.value) == f"'p.yaml' cannot be read as YAML ({' '.join(str(own.value).split())})"


def far_cell(*, styled: bool) -> bytes:
    """Seven columns and five rows, and one cell where a hand slipped to the end of the sheet."""
    book = openpyxl.Workbook()
    for row in range(1, 6):
        for column in range(1, 8):
            book.active.cell(row, column, "A" if column < 3 else "B")
    far = book.active.cell(1_048_576, 16_384, None if styled else "x")
    far.font = openpyxl.styles.Font(bold=True)
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()


def test_a_workbook_with_a_stray_far_cell_is_refused_with_the_cell() -> None:
    """What lay between would take half a terabyte, so this is told before anything is laid out."""
    with pytest.raises(Trouble) as refused:
        bring("far.xlsx", far_cell(styled=False))
    assert str(refused.value) == (
        "'far.xlsx' reaches to cell XFD1048576, 16,384 cells by 1,048,576 rows; at most 1500 by 2000 can be made; "
        "delete what stands far from the chart, or copy the chart into a sheet of its own"
    )


def test_a_far_cell_that_says_nothing_does_no_harm() -> None:
    assert bring("far.xlsx", far_cell(styled=True)).rows == ("AABBBBB",) * 5


def archive(**parts: str) -> bytes:
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w") as made:
        for name, text in parts.items():
            made.writestr(name.replace("__", "/").replace("_xml", ".xml"), text)
    return out.getvalue()


OPEN = (
    '<office:document-content xmlns:office="urn:oasis:names:tc:opendocument:xmlns:office:1.0" '
    'xmlns:table="urn:oasis:names:tc:opendocument:xmlns:table:1.0"><office:body><office:spreadsheet>'
    "<table:table>{}</table:table></office:spreadsheet></office:body></office:document-content>"
)
CELL = '<table:table-cell office:value-type="string"/>'
GAP = '<table:table-cell table:number-columns-repeated="{}"/>'


@pytest.mark.parametrize(
    ("rows", "corner", "size"),
    [
        (f"<table:table-row>{CELL}{GAP.format(1998)}{CELL}</table:table-row>", "BXX1", (2000, 1)),
        (
            f"<table:table-row>{CELL}</table:table-row><table:table-row table:number-rows-repeated='9000'>"
            f"{GAP.format(3)}</table:table-row><table:table-row>{GAP.format(2)}{CELL}</table:table-row>",
            "C9002",
            (3, 9002),
        ),
        (f"<table:table-row table:number-rows-repeated='70000'>{CELL}</table:table-row>", "A70000", (1, 70_000)),
    ],
)
def test_how_far_an_open_documents_repeated_cells_reach(rows: str, corner: str, size: tuple[int, int]) -> None:
    with zipfile.ZipFile(io.BytesIO(archive(content_xml=OPEN.format(rows)))) as made:
        box = extent(made)
    assert box is not None
    assert (box.corner, box.size) == (corner, size)


@pytest.mark.parametrize(
    "parts",
    [
        {"xl__workbook_xml": "<workbook/>", "xl___rels__workbook.xml.rels": "<Relationships/>"},
        {"content_xml": "<!DOCTYPE a [<!ENTITY b 'c'>]><a>&b;</a>"},
        {"content_xml": "<a>"},
        {"other_xml": "<a/>"},
    ],
    ids=["no sheet", "entities", "cut short", "no workbook"],
)
def test_what_is_no_workbook_is_told_as_such(parts: dict[str, str]) -> None:
    with pytest.raises(Trouble, match=r"'w\.xlsx' cannot be read as a workbook"):
        bring("w.xlsx", archive(**parts))
