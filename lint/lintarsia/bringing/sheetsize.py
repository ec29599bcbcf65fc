"""How far a workbook's cells reach, told from its parts before a table of that size is laid out.

A single cell far down and right, which a slip of the hand leaves and nobody sees, makes the reader of workbooks ask for
the memory of all the cells between: of half a terabyte for a file of five kilobytes.
"""

import posixpath
import re
import zipfile
from collections.abc import Callable, Iterator
from typing import NamedTuple
from xml.parsers import expat

from lintarsia.ground.trouble import Trouble

PIECE = 2**16
_CELL = re.compile(r"([A-Z]{1,4})([0-9]{1,9})")
_LINKED = "http://schemas.openxmlformats.org/officeDocument/2006/relationships id"
_LINKED_STRICT = "http://purl.oclc.org/ooxml/officeDocument/relationships id"


class Extent(NamedTuple):
    """The box of all cells that say something; rows and columns count from 1, both ends are inside."""

    top: int
    left: int
    bottom: int
    right: int

    @property
    def size(self) -> tuple[int, int]:
        """Columns and rows."""
        return self.right - self.left + 1, self.bottom - self.top + 1

    @property
    def corner(self) -> str:
        """The last cell as a spreadsheet names it: `XFD1048576`."""
        column, letters = self.right, ""
        while column:
            column, letter = divmod(column - 1, 26)
            letters = chr(ord("A") + letter) + letters
        return f"{letters}{self.bottom}"


def extent(archive: zipfile.ZipFile) -> Extent | None:
    """The box of the first sheet's cells, or of those of all sheets where the reader lays all out; None without any.

    Raises Trouble for a workbook of another kind, ValueError for what is none.
    """
    names = archive.namelist()
    if "content.xml" in names:
        return _Open(archive, "content.xml").extent
    if "xl/workbook.bin" in names:
        raise Trouble("the workbook is of a kind that is not read; save it as .xlsx")
    return _Sheet(archive, _first_sheet(archive)).extent


def _first_sheet(archive: zipfile.ZipFile) -> str:
    """The part that holds the first sheet. Raises ValueError where the workbook does not say which it is."""
    sheets: list[str] = []
    parts: dict[str, str] = {}

    def sheet(name: str, said: dict[str, str]) -> None:
        if name == "sheet":
            sheets.append(said.get(_LINKED) or said.get(_LINKED_STRICT) or "")

    def part(name: str, said: dict[str, str]) -> None:
        if name == "Relationship":
            parts[said.get("Id", "")] = said.get("Target", "")

    _parse(archive, "xl/workbook.xml", sheet)
    _parse(archive, "xl/_rels/workbook.xml.rels", part)
    if not sheets or sheets[0] not in parts:
        raise ValueError("it names no sheet")
    return posixpath.normpath(posixpath.join("/xl", parts[sheets[0]])).lstrip("/")


class _Box:
    """Grows by the cells that say something."""

    def __init__(self) -> None:
        self.extent: Extent | None = None

    def take(self, row: int, column: int, last_row: int, last_column: int) -> None:
        top, left, bottom, right = self.extent or (row, column, last_row, last_column)
        self.extent = Extent(min(top, row), min(left, column), max(bottom, last_row), max(right, last_column))


class _Sheet(_Box):
    """A sheet of an Office Open XML workbook (ECMA-376 part 1, 18.3.1): cells name their place, or follow on."""

    def __init__(self, archive: zipfile.ZipFile, part: str) -> None:
        super().__init__()
        self._row = self._column = 0
        _parse(archive, part, self._begin)

    def _begin(self, name: str, said: dict[str, str]) -> None:
        if name == "row":
            self._row, self._column = int(said.get("r", self._row + 1)), 0
        elif name == "c":
            self._column += 1
            match = _CELL.fullmatch(said.get("r", ""))
            if match:
                self._row, self._column = int(match[2]), _number(match[1])
        elif name in ("v", "is"):  # a cell without a value has a border or a fill and says nothing
            self.take(self._row, self._column, self._row, self._column)


def _number(letters: str) -> int:
    number = 0
    for letter in letters:
        number = number * 26 + ord(letter) - ord("A") + 1
    return number


class _Open(_Box):
    """The tables of an OpenDocument workbook (ISO/IEC 26300-1, 9.1): rows and cells follow on, and may be repeated."""

    def __init__(self, archive: zipfile.ZipFile, part: str) -> None:
        super().__init__()
        self._row = self._rows = self._column = 0
        _parse(archive, part, self._begin)

    def _begin(self, name: str, said: dict[str, str]) -> None:
        table = "urn:oasis:names:tc:opendocument:xmlns:table:1.0"
        office = "urn:oasis:names:tc:opendocument:xmlns:office:1.0"
        if name == "table":
            self._row, self._rows = 1, 0
        elif name == "table-row":
            self._row, self._column = self._row + self._rows, 1
            self._rows = int(said.get(f"{table} number-rows-repeated", 1))
        elif name in ("table-cell", "covered-table-cell"):
            after = self._column + int(said.get(f"{table} number-columns-repeated", 1))
            if f"{office} value-type" in said:
                self.take(self._row, self._column, self._row + self._rows - 1, after - 1)
            self._column = after


def _parse(archive: zipfile.ZipFile, part: str, begin: Callable[[str, dict[str, str]], None]) -> None:
    """Call `begin` with each element's local name and attributes. Raises ValueError for no XML, and for entities."""
    parser = expat.ParserCreate(namespace_separator=" ")

    def refuse(*_: object) -> None:
        raise ValueError("it declares entities")

    parser.EntityDeclHandler = refuse
    parser.StartElementHandler = lambda name, said: begin(name.rpartition(" ")[2], said)
    try:
        for piece in _pieces(archive, part):
            parser.Parse(piece, False)
        parser.Parse(b"", True)
    except expat.ExpatError as failure:
        raise ValueError(f"{part}: {failure}") from None


def _pieces(archive: zipfile.ZipFile, part: str) -> Iterator[bytes]:
    with archive.open(part) as stream:
        while piece := stream.read(PIECE):
            yield piece
