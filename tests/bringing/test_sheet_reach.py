"""How far the cells of a workbook reach, told from parts written here as ECMA-376 part 1 (18.2, 18.3.1) and
ISO/IEC 26300-1 (9.1) say them: cells that name their place, cells that follow on, and cells that are repeated."""

import io
import zipfile

import pytest

from lintarsia.bringing.sheetsize import Extent, extent

LINK = 'xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships"'
STRICT = 'xmlns:r="http://purl.oclc.org/ooxml/officeDocument/relationships"'
V = "<v>1</v>"


def archive(parts: dict[str, str]) -> zipfile.ZipFile:
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w") as made:
        for name, text in parts.items():
            made.writestr(name, text)
    return zipfile.ZipFile(out)


def workbook(rows: str, *, namespace: str = LINK, target: str = "worksheets/two.xml") -> zipfile.ZipFile:
    """Two sheets, of which the first to be named lies in the second part."""
    return archive(
        {
            "xl/workbook.xml": f"<workbook {namespace}><sheets><sheet name='a' r:id='R7'/><sheet name='b' r:id='R3'/>"
            "</sheets></workbook>",
            "xl/_rels/workbook.xml.rels": "<Relationships><Relationship Id='R3' Target='worksheets/one.xml'/>"
            f"<Relationship Id='R7' Target='{target}'/></Relationships>",
            "xl/worksheets/one.xml": f"<worksheet><sheetData><row r='90'><c>{V}</c></row></sheetData></worksheet>",
            "xl/worksheets/two.xml": f"<worksheet><sheetData>{rows}</sheetData></worksheet>",
        }
    )


@pytest.mark.parametrize(
    ("rows", "box"),
    [
        (f"<row r='4'><c r='C4'>{V}</c></row>", (4, 3, 4, 3)),
        (f"<row><c>{V}</c><c>{V}</c></row><row><c/><c/><c><is/></c></row>", (1, 1, 2, 3)),
        (f"<row r='5'><c/><c>{V}</c></row><row><c/><c/><c>{V}</c></row>", (5, 2, 6, 3)),
        (f"<row r='2'><c r='AB2'>{V}</c><c>{V}</c></row><row r='3'><c>{V}</c></row>", (2, 1, 3, 29)),
        (f"<row r='7'><c r='F7'>{V}</c></row><row r='3'><c r='B3'>{V}</c><c r='D3'>{V}</c></row>", (3, 2, 7, 6)),
        ("<row r='7'><c r='F7'/></row>", None),  # a border, or a fill
        (f"<row r='7'><c r='F7'/></row><row r='9'><c r='B9'>{V}</c><c r='Z9' s='3'/></row>", (9, 2, 9, 2)),
        ("", None),
    ],
)
def test_cells_name_their_place_or_follow_on(rows: str, box: tuple[int, int, int, int] | None) -> None:
    for namespace in (LINK, STRICT):
        for target in ("worksheets/two.xml", "/xl/worksheets/two.xml", "worksheets/../worksheets/two.xml"):
            assert extent(workbook(rows, namespace=namespace, target=target)) == box


@pytest.mark.parametrize(
    ("column", "letters"),
    [(1, "A"), (26, "Z"), (27, "AA"), (52, "AZ"), (53, "BA"), (702, "ZZ"), (703, "AAA"), (16384, "XFD")],
)
def test_columns_are_named_as_a_spreadsheet_names_them(column: int, letters: str) -> None:
    box = extent(workbook(f"<row r='12'><c r='{letters}12'>{V}</c></row>"))
    assert box == Extent(12, column, 12, column)
    assert (box.corner, box.size) == (f"{letters}12", (1, 1))


def test_the_size_counts_both_ends() -> None:
    assert Extent(3, 2, 7, 6).size == (5, 5)
    assert Extent(3, 2, 3, 9).size == (8, 1)


TABLE = "urn:oasis:names:tc:opendocument:xmlns:table:1.0"
OFFICE = "urn:oasis:names:tc:opendocument:xmlns:office:1.0"
CELL, EMPTY = "<t:table-cell o:value-type='string'/>", "<t:table-cell/>"
THREE = "<t:table-cell t:number-columns-repeated='3' o:value-type='float'/>"
ROW = "<t:table-row>{}</t:table-row>"


@pytest.mark.parametrize(
    ("tables", "box"),
    [
        ([ROW.format(EMPTY + CELL) + ROW.format(EMPTY * 3) + ROW.format(EMPTY * 2 + CELL)], (1, 2, 3, 3)),
        ([ROW.format("<t:covered-table-cell o:value-type='float'/>")], (1, 1, 1, 1)),
        ([ROW.format(EMPTY + THREE + EMPTY)], (1, 2, 1, 4)),
        ([ROW.format("<t:table-cell t:number-columns-repeated='3'/>" + CELL + CELL)], (1, 4, 1, 5)),
        (["<t:table-row t:number-rows-repeated='4'/>" + ROW.format(CELL)], (5, 1, 5, 1)),
        ([f"<t:table-row t:number-rows-repeated='4'>{EMPTY}{CELL}</t:table-row>" + ROW.format(CELL)], (1, 1, 5, 2)),
        ([ROW.format(EMPTY) * 5 + ROW.format(CELL), ROW.format(EMPTY) + ROW.format(EMPTY + CELL)], (2, 1, 6, 2)),
        ([ROW.format(EMPTY)], None),
    ],
)
def test_rows_and_cells_follow_on_and_may_be_repeated(tables: list[str], box: tuple[int, int, int, int] | None) -> None:
    sheets = "".join(f"<t:table>{rows}</t:table>" for rows in tables)
    text = f"<o:spreadsheet xmlns:t='{TABLE}' xmlns:o='{OFFICE}'>{sheets}</o:spreadsheet>"
    assert extent(archive({"content.xml": text})) == box


@pytest.mark.parametrize(
    ("left_out", "said"),
    [("xl/workbook.xml", "it names no sheet"), ("xl/_rels/workbook.xml.rels", "it names no sheet")],
)
def test_a_workbook_that_does_not_say_which_sheet_is_the_first(left_out: str, said: str) -> None:
    whole = workbook("")
    parts = {name: whole.read(name).decode() for name in whole.namelist()}
    with pytest.raises(ValueError, match=said):
        extent(archive({**parts, left_out: "<nothing/>"}))
