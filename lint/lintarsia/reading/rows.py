"""The chart's block of text to rows, bottom-up, each with its own place in the file."""

from dataclasses import dataclass

from yaml import ScalarNode

from lintarsia.reading.places import node_region
from lintarsia.reading.source import split_lines
from lintarsia.result import Edit, Finding, Fix, Level, Region


@dataclass(frozen=True, slots=True)
class Rows:
    """`rows` and `lines` bottom-up: index 0 is row 1."""

    rows: tuple[str, ...]
    lines: tuple[Region, ...]
    findings: tuple[Finding, ...] = ()


def read_rows(node: ScalarNode, text: str) -> Rows:
    """The rows of the chart's value. In a block every cell's column is exact; so it is in a text on one line."""
    if node.style == "|":
        return _from_block(node, text)
    start, end = node.start_mark, node.end_mark
    if start.line == end.line and node.style in ("", "'", '"'):
        return _from_one_line(node)
    return _from_folded(node, text)


def _from_block(node: ScalarNode, text: str) -> Rows:
    values = node.value.split("\n")
    first = node.start_mark.line + 1  # index of the source line below the `|`
    source = split_lines(text)
    return _tidy([(value, first + i, len(source[first + i]) - len(value)) for i, value in enumerate(values) if value])


def _from_one_line(node: ScalarNode) -> Rows:
    rows = [row for row in node.value.split("\n") if row]
    at = node.start_mark.column + (1 if node.style else 0)
    placed = []
    for row in rows:
        placed.append((row, node.start_mark.line, at))
        at += len(row) + 2  # the two characters of \n
    return _tidy(placed)


def _from_folded(node: ScalarNode, text: str) -> Rows:
    """A folded text has lost its rows; the file still has them."""
    source = split_lines(text)
    begin, end = node.start_mark, node.end_mark
    placed = []
    for number in range(begin.line, min(end.line + 1, len(source))):
        line = source[number]
        left = begin.column if number == begin.line else 0
        right = end.column if number == end.line else len(line)
        if number == begin.line and node.style == ">":
            continue
        row = line[left:right].strip(" \t\"'\\")
        if row:
            placed.append((row, number, line.index(row, left)))
    rows = _tidy(placed)
    region = node_region(node)
    fixes: tuple[Fix, ...] = ()
    if node.style == ">":
        mark = Region(begin.line + 1, begin.column + 1, begin.line + 1, begin.column + 2)
        fixes = (Fix("write the block with |", (Edit(mark, "|"),)),)
    fault = Finding(
        "folded-chart",
        "the rows are joined into one, as YAML reads this; expected a block that keeps its lines, `chart: |`",
        region,
        remedy="write `chart: |` and the rows below it, indented",
        fixes=fixes,
    )
    return Rows(rows.rows, rows.lines, (fault, *rows.findings))


def _tidy(placed: list[tuple[str, int, int]]) -> Rows:
    """Rows bottom-up from (text, source line index, source column index) top-down, spaces taken out."""
    rows: list[str] = []
    lines: list[Region] = []
    findings: list[Finding] = []
    placed.reverse()
    for row, line, column in placed:
        if " " in row or "\t" in row:
            bare = row.rstrip(" \t")
            if bare != row:
                region = Region(line + 1, column + len(bare) + 1, line + 1, column + len(row) + 1)
                findings.append(_space_after(len(rows) + 1, region))
            if not bare:
                findings.pop()
                continue
            if " " in bare or "\t" in bare:
                findings.append(_space_inside(len(rows) + 1, bare, line, column))
                bare = bare.replace(" ", ".").replace("\t", ".")
            row = bare
        rows.append(row)
        lines.append(Region(line + 1, column + 1, line + 1, column + len(row) + 1))
    return Rows(tuple(rows), tuple(lines), tuple(findings))


def _space_after(row: int, region: Region) -> Finding:
    return Finding(
        "space-after-row",
        f"row {row} has white space after its last stitch; expected none",
        region,
        row=row,
        level=Level.WARNING,
        fixes=(Fix("delete the white space", (Edit(region, ""),)),),
    )


def _space_inside(row: int, bare: str, line: int, column: int) -> Finding:
    at = next(i for i, c in enumerate(bare) if c in " \t")
    stitch = len(bare) - at
    what = "a space" if bare[at] == " " else "a tab"
    return Finding(
        "space-in-row",
        f"row {row} has {what} at stitch {stitch}; expected a symbol, or `.` for no stitch",
        Region(line + 1, column + at + 1, line + 1, column + at + 2),
        row=row,
        stitches=(stitch, stitch),
    )
