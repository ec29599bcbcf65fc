"""Tables and plain text grids as rows of cell labels, top row first; "" is an empty cell."""

import csv
import io
import zipfile

from lintarsia.bringing.limits import MOST_ROWS, MOST_STITCHES, MOST_UNPACKED
from lintarsia.bringing.sheetsize import extent
from lintarsia.chart.grid import seen_alone
from lintarsia.ground.installing import how_to_install
from lintarsia.ground.trouble import Trouble
from lintarsia.telling.counts import count

Table = list[list[str]]

SEPARATORS = ",;\t|"


def read_text(name: str, data: bytes) -> str:
    """The text of a file in UTF-8, with or without a byte-order mark, or in UTF-16 with one."""
    encoding = "utf-16" if data[:2] in (b"\xff\xfe", b"\xfe\xff") else "utf-8-sig"
    try:
        text = data.decode(encoding)
    except UnicodeDecodeError as failure:
        raise Trouble(
            f"{name!r} is neither an image, a workbook nor text in UTF-8 (byte {failure.start + 1})"
        ) from None
    if "\0" in text:
        raise Trouble(f"{name!r} is not a text file; it holds a zero byte")
    return text


def text_grid(name: str, text: str) -> Table:
    """One character a stitch; a space or a full stop is no stitch. Blank lines around and an indent are left out.

    Raises Trouble for a character that cannot be a symbol.
    """
    lines = [line.rstrip() for line in text.expandtabs(1).splitlines()]
    while lines and not lines[0]:
        lines.pop(0)
    while lines and not lines[-1]:
        lines.pop()
    indent = min((len(line) - len(line.lstrip()) for line in lines if line), default=0)
    table = [["" if c in " ." else c for c in line[indent:]] for line in lines]
    for number, row in enumerate(table, 1):
        for column, symbol in enumerate(row, indent + 1):
            if symbol and not usable(symbol):
                raise Trouble(f"{name!r}: line {number}, character {column} is U+{ord(symbol):04X}, which is no symbol")
    return _checked(name, table, trim=False)


def usable(symbol: str) -> bool:
    """Whether a text can be a symbol of a chart: one character, seen by itself, no space and no full stop."""
    return len(symbol) == 1 and seen_alone(symbol) and not symbol.isspace() and symbol != "."


def csv_table(name: str, text: str) -> Table:
    """Cells parted by the separator that parts the most lines alike: comma, semicolon, tab or bar."""
    separator = find_separator(text) or ","
    try:
        rows = [
            [cell.strip() for cell in row] for row in csv.reader(io.StringIO(text, newline=""), delimiter=separator)
        ]
    except csv.Error as failure:
        raise Trouble(f"{name!r} cannot be read as a table ({failure})") from None
    return _checked(name, [["" if cell == "." else cell for cell in row] for row in rows])


def find_separator(text: str) -> str | None:
    """The separator that stands in every line that is not blank, the commonest first; None for a plain grid."""
    lines = [line for line in text.splitlines() if line.strip()]
    counts = {s: min((line.count(s) for line in lines), default=0) for s in SEPARATORS}
    best = max(SEPARATORS, key=lambda s: counts[s])
    return best if counts[best] else None


def workbook_table(name: str, data: bytes) -> Table:
    """The first sheet of a workbook, by what its cells say (fills are not read)."""
    try:
        from python_calamine import CalamineWorkbook
    except ImportError:
        raise Trouble(f"workbooks need one more library: {how_to_install('images')}") from None
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as archive:
            _check_reach(name, archive)
        sheet = CalamineWorkbook.from_filelike(io.BytesIO(data)).get_sheet_by_index(0)
        rows = sheet.to_python(skip_empty_area=True, nrows=MOST_ROWS + 1)
    except Trouble:
        raise
    except Exception as failure:  # the library raises kinds of its own for each way a workbook can be broken
        raise Trouble(f"{name!r} cannot be read as a workbook ({failure})") from None
    return _checked(name, [[_label(cell) for cell in row] for row in rows])


def _check_reach(name: str, archive: zipfile.ZipFile) -> None:
    """Refuse a workbook that would fill the memory, before anything is laid out."""
    unpacked = sum(part.file_size for part in archive.infolist())
    if unpacked > MOST_UNPACKED:
        raise Trouble(f"{name!r} unpacks to {unpacked:,} bytes; at most {MOST_UNPACKED:,} are read")
    box = extent(archive)
    if box is None:
        return
    wide, high = box.size
    if wide > MOST_STITCHES or high > MOST_ROWS:
        raise Trouble(
            f"{name!r} reaches to cell {box.corner}, {wide:,} cells by {high:,} rows; at most {MOST_STITCHES} by "
            f"{MOST_ROWS} can be made; delete what stands far from the chart, or copy the chart into a sheet of its own"
        )


def _label(cell: object) -> str:
    if isinstance(cell, float) and cell.is_integer():
        return str(int(cell))
    text = str(cell).strip()
    return "" if text == "." else text


def _checked(name: str, table: Table, *, trim: bool = True) -> Table:
    """Rows made equally long by empty cells at the right; with `trim`, empty rows and columns around them left out."""
    while trim and table and not any(table[0]):
        table.pop(0)
    while trim and table and not any(table[-1]):
        table.pop()
    width = max((len(row) for row in table), default=0)
    rows = [row + [""] * (width - len(row)) for row in table]
    used = [c for c in range(width) if any(row[c] for row in rows)]
    if not used:
        raise Trouble(f"{name!r} holds no stitches; every cell is empty")
    if trim:
        rows = [row[used[0] : used[-1] + 1] for row in rows]
    if len(rows) > MOST_ROWS or len(rows[0]) > MOST_STITCHES:
        size = f"{count(len(rows[0]), 'cell')} by {count(len(rows), 'row')}"
        raise Trouble(f"{name!r} has {size}; at most {MOST_STITCHES} by {MOST_ROWS} can be made")
    return rows
