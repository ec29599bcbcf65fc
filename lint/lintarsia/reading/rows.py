"""The chart's block of text to rows, bottom-up, each with its own place in the file."""

import re
from collections import Counter
from dataclasses import replace
from itertools import repeat

from yaml import ScalarNode

from lintarsia.reading.flow_text import Piece, spell_out
from lintarsia.reading.source import split_lines, unreadable
from lintarsia.reading.tree import MOST_FINDINGS
from lintarsia.result import Edit, Finding, Fix, Level, Region
from lintarsia.values import dataclass

# House values, far beyond any chart.
MOST_ROWS = 20_000
MOST_QUOTED = 2**18

_REMEDY = "write `chart: |` and below it the rows, all indented alike"


@dataclass(frozen=True, slots=True)
class Rows:
    """`rows` and `lines` bottom-up: index 0 is row 1."""

    rows: tuple[str, ...]
    lines: tuple[Region, ...]
    findings: tuple[Finding, ...] = ()


def read_rows(node: ScalarNode, text: str, region: Region) -> Rows:
    """The rows of the chart's value, whose own region is `region`.

    In a block, and in any text without backslashes and doubled quotes, a cell's column follows from its row's. YAML
    joins the lines of a folded or unquoted text; they are reported, and read as the file has them.
    Raises Unreadable for more than anybody knits.
    """
    lines = max(node.value.count("\n"), region.end_line - region.line)
    if lines > MOST_ROWS:
        message = f"the chart has {lines:,} lines; at most {MOST_ROWS:,} rows are read"
        raise unreadable("too-many-stitches", message, region)
    if node.style == "|":
        return _from_block(node, text)
    if node.style == ">":
        return _from_folded_block(node, text, region)
    return _from_flow(node, text, region)


def _from_block(node: ScalarNode, text: str) -> Rows:
    value: str = node.value
    first = node.start_mark.line + 1  # index of the source line below the `|`
    source = split_lines(text)
    rows = value.rstrip("\n").split("\n")
    if "" not in rows and " " not in value and "\t" not in value:  # by far the usual block: nothing to tidy
        left = len(source[first]) - len(rows[0]) + 1
        last = first + len(rows)
        rows.reverse()
        numbers = range(last, first, -1)
        ends = [left + len(row) for row in rows]
        return Rows(tuple(rows), tuple(map(Region._make, zip(numbers, repeat(left), numbers, ends, strict=False))))
    return _tidy([_Line(row, first + i, len(source[first + i]) - len(row)) for i, row in enumerate(rows)])


def _from_folded_block(node: ScalarNode, text: str, region: Region) -> Rows:
    source = split_lines(text)
    numbers = range(region.line, region.end_line)  # indices of the lines below the `>`
    indent = min((_indent(source[n]) for n in numbers if source[n].strip()), default=0)
    rows = _tidy([_Line(source[n][indent:], n, indent) for n in numbers])
    if len(rows.rows) <= 1:
        return rows
    mark = Region(region.line, region.column, region.line, region.column + 1)
    fix = Fix("keep the lines apart: | instead of >", (Edit(mark, "|"),))
    return replace(rows, findings=(_joined(region, fix), *rows.findings))


def _indent(line: str) -> int:
    return len(line) - len(line.lstrip(" "))


def _from_flow(node: ScalarNode, text: str, region: Region) -> Rows:
    """Rows of a text in quotes, or of a bare one."""
    length = node.end_mark.index - node.start_mark.index
    if length > MOST_QUOTED:
        message = f"the chart is a text of {length:,} characters that is not a block; at most {MOST_QUOTED:,} are read"
        raise unreadable("too-many-stitches", message, region, _REMEDY)
    pieces = spell_out(node, text)
    if pieces is None:
        return Rows((), (), (_joined(region),))
    lines: list[_Line] = []
    gathered: list[Piece] = []
    for piece in [*pieces, None]:
        if piece is not None and piece.text != "\n" and not piece.fold:
            gathered.append(piece)
        elif gathered:
            row = "".join(p.text for p in gathered)
            lines.append(_Line(row, gathered[0].line, gathered[0].column, gathered[-1].end_column))
            gathered = []
    rows = _tidy(lines)
    if any(piece.fold for piece in pieces) and len(rows.rows) > 1:
        return replace(rows, findings=(_joined(region), *rows.findings))
    return rows


def _joined(region: Region, *fixes: Fix) -> Finding:
    message = "YAML joins these lines into one; expected a block that keeps them apart, `chart: |`"
    return Finding("folded-chart", message, region, remedy=_REMEDY, fixes=fixes)


@dataclass(frozen=True, slots=True)
class _Line:
    """A row as it stands in the file; indices count from 0."""

    text: str
    line: int
    column: int
    end_column: int | None = None

    def region(self, start: int, end: int) -> Region:
        """The characters `start` to `end` of the text."""
        return Region(self.line + 1, self.column + start + 1, self.line + 1, self.column + end + 1)


def _tidy(printed: list[_Line]) -> Rows:
    """Rows bottom-up from lines top-down, with white space reported and blank lines taken out."""
    if (apart := _set_apart(printed)) is not None:
        return Rows((), (), (apart,))
    rows: list[str] = []
    regions: list[Region] = []
    findings: list[Finding] = []
    blank: list[_Line] = []
    usual = _usual_width(printed)
    for line in reversed(printed):
        bare = line.text.rstrip(" \t")
        if not bare:
            blank.append(line)
            continue
        row = len(rows) + 1
        if rows:
            findings += [_empty_row(b, row) for b in blank]
        blank = []
        region = line.region(0, len(bare))
        if line.end_column is not None and bare == line.text:
            region = Region(region.line, region.column, region.line, line.end_column + 1)
        if bare != line.text:
            findings.append(_space_after(row, line.region(len(bare), len(line.text))))
        inner = bare.lstrip(" \t")
        if len(inner) == usual < len(bare):
            findings.append(_space_before(row, line.region(0, len(bare) - len(inner))))
            bare, region = inner, region._replace(column=region.column + len(bare) - len(inner))
        if " " in bare or "\t" in bare:
            findings.append(_space_inside(row, bare, line))
            bare = _without_space(bare, usual)
        rows.append(bare)
        regions.append(region)
    return Rows(tuple(rows), tuple(regions), tuple(findings[:MOST_FINDINGS]))


_APART = re.compile(r"\S(?:[ \t]+\S)+")


def _set_apart(printed: list[_Line]) -> Finding | None:
    """The one fault of a chart whose stitches all stand apart, as they come out of a table."""
    lines = [line for line in printed if line.text.strip()]
    if len(lines) < 2 or any("." in line.text or not _APART.fullmatch(line.text.strip()) for line in lines):
        return None
    edits = tuple(Edit(line.region(0, len(line.text)), "".join(line.text.split())) for line in lines)
    fix = Fix("set the stitches side by side", edits)
    first = lines[0].text
    sample = "".join(first.split())[:20]
    return Finding(
        "space-in-row",
        "the stitches of every row stand apart; expected them side by side, one character a stitch",
        lines[0].region(0, len(first)),
        remedy=f"take the spaces out: {sample}; or save the table as .csv, and `lintarsia bring` it",
        fixes=(fix,) if all(line.end_column is None for line in lines) else (),
    )


def _usual_width(printed: list[_Line]) -> int:
    """The width of most rows, of those without white space in them; 0 where no two agree."""
    widths = Counter(len(line.text) for line in printed if line.text.split() == [line.text])
    width, times = max(widths.items(), key=lambda item: item[1], default=(0, 0))
    return width if times > 1 else 0


def _without_space(bare: str, usual: int) -> str:
    """Something to read on with: one space in a row of the usual width is a stitch, others are none.

    So one slip stays one result, instead of making the count wrong as well.
    """
    bare = bare.replace("\t", " ")
    at = bare.find(" ")
    if len(bare) == usual and bare.count(" ") == 1 and at > 0:
        return bare.replace(" ", bare[at - 1])
    return bare.replace(" ", ".")


def _empty_row(line: _Line, above: int) -> Finding:
    return Finding(
        "empty-row",
        f"a blank line stands between row {above - 1} and the row above it; expected none",
        Region(line.line + 1, 1, line.line + 1, line.column + len(line.text) + 1),
        remedy="delete the blank line",
        fixes=(Fix("delete the blank line", (Edit(Region(line.line + 1, 1, line.line + 2, 1), ""),)),),
    )


def _space_after(row: int, region: Region) -> Finding:
    return Finding(
        "space-after-row",
        f"row {row} has white space after its last stitch; expected none",
        region,
        row=row,
        level=Level.WARNING,  # no stitch is in doubt
        remedy="delete the white space",
        fixes=(Fix("delete the white space", (Edit(region, ""),)),),
    )


def _space_before(row: int, region: Region) -> Finding:
    return Finding(
        "space-before-row",
        f"row {row} begins further in than the rows around it, and is as wide as they are; expected the same indent",
        region,
        row=row,
        remedy="delete the space before the row",
        fixes=(Fix("delete the space before the row", (Edit(region, ""),)),),
    )


def _space_inside(row: int, bare: str, line: _Line) -> Finding:
    at = next(i for i, c in enumerate(bare) if c in " \t")
    stitch = len(bare) - at
    what = "a space" if bare[at] == " " else "a tab"
    return Finding(
        "space-in-row",
        f"row {row} has {what} at stitch {stitch}; expected a symbol, or `.` for no stitch",
        line.region(at, at + 1),
        row=row,
        remedy="write the stitch that belongs there, or `.` where there is none, or delete the space",
        stitches=(stitch, stitch),
    )
