"""The chart's block of text to rows, bottom-up, each with its own place in the file."""

from collections.abc import Mapping
from dataclasses import field, replace
from itertools import repeat

from yaml import ScalarNode

from lintarsia.ground.values import dataclass
from lintarsia.reading.flow_text import Spelt, spell_out
from lintarsia.reading.row_space import (
    Line,
    empty_row,
    row_apart,
    set_apart,
    space_after,
    space_before,
    space_inside,
    stands_apart,
    usual_width,
    without_space,
)
from lintarsia.reading.source import cannot_read, split_lines
from lintarsia.reading.tree import MOST_FINDINGS
from lintarsia.result import Edit, Finding, Fix, Region

# House values, far beyond any chart.
MOST_ROWS = 20_000
MOST_QUOTED = 2**18

_REMEDY = "write `chart: |` and below it the rows, all indented alike"


@dataclass(frozen=True, slots=True)
class ReadRows:
    """`rows` and `lines` bottom-up: index 0 is row 1. `apart` is as in Places."""

    rows: tuple[str, ...]
    lines: tuple[Region, ...]
    findings: tuple[Finding, ...] = ()
    apart: Mapping[int, tuple[int, ...]] = field(default_factory=dict)


def read_rows(node: ScalarNode, text: str, region: Region) -> ReadRows:
    """The rows of the chart's value, whose own region is `region`.

    In a block, and in any text without backslashes and doubled quotes, a cell's column follows from its row's. YAML
    joins the lines of a folded or unquoted text; they are reported, and read as the file has them.
    Raises CannotRead for more than anybody knits.
    """
    lines = max(node.value.count("\n"), region.end_line - region.line)
    if lines > MOST_ROWS:
        message = f"the chart has {lines:,} lines; at most {MOST_ROWS:,} rows are read"
        raise cannot_read("too-many-stitches", message, region)
    if node.style == "|":
        return _from_block(node, text)
    if node.style == ">":
        return _from_folded_block(node, text, region)
    return _from_flow(node, text, region)


def _from_block(node: ScalarNode, text: str) -> ReadRows:
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
        return ReadRows(tuple(rows), tuple(map(Region._make, zip(numbers, repeat(left), numbers, ends, strict=False))))
    return _tidy([Line(row, first + i, len(source[first + i]) - len(row)) for i, row in enumerate(rows)])


def _from_folded_block(node: ScalarNode, text: str, region: Region) -> ReadRows:
    source = split_lines(text)
    numbers = range(region.line, region.end_line)  # indices of the lines below the `>`
    indent = min((_indent(source[n]) for n in numbers if source[n].strip()), default=0)
    rows = _tidy([Line(source[n][indent:], n, indent) for n in numbers])
    if len(rows.rows) <= 1:
        return rows
    mark = Region(region.line, region.column, region.line, region.column + 1)
    fix = Fix("keep the lines apart: | instead of >", (Edit(mark, "|"),))
    return replace(rows, findings=(_joined(region, fix), *rows.findings))


def _indent(line: str) -> int:
    return len(line) - len(line.lstrip(" "))


def _from_flow(node: ScalarNode, text: str, region: Region) -> ReadRows:
    """Rows of a text in quotes, or of a bare one."""
    length = node.end_mark.index - node.start_mark.index
    if length > MOST_QUOTED:
        message = f"the chart is a text of {length:,} characters that is not a block; at most {MOST_QUOTED:,} are read"
        raise cannot_read("too-many-stitches", message, region, _REMEDY)
    pieces = spell_out(node, text)
    if pieces is None:
        return ReadRows((), (), (_joined(region),))
    lines: list[Line] = []
    gathered: list[Spelt] = []
    for piece in [*pieces, None]:
        if piece is not None and piece.text != "\n" and not piece.fold:
            gathered.append(piece)
        elif gathered:
            row = "".join(p.text for p in gathered)
            lines.append(Line(row, gathered[0].line, gathered[0].column, gathered[-1].end_column))
            gathered = []
    rows = _tidy(lines)
    if any(piece.fold for piece in pieces) and len(rows.rows) > 1:
        return replace(rows, findings=(_joined(region), *rows.findings))
    return rows


def _joined(region: Region, *fixes: Fix) -> Finding:
    message = "YAML joins these lines into one; expected a block that keeps them apart, `chart: |`"
    return Finding("folded-chart", message, region, remedy=_REMEDY, fixes=fixes)


def _tidy(printed: list[Line]) -> ReadRows:
    """Rows bottom-up from lines top-down, with white space reported and blank lines taken out."""
    if (fault := set_apart(printed)) is not None:
        return ReadRows((), (), (fault,))
    rows: list[str] = []
    regions: list[Region] = []
    findings: list[Finding] = []
    blank: list[Line] = []
    apart: dict[int, tuple[int, ...]] = {}
    usual = usual_width(printed)
    for line in reversed(printed):
        bare = line.text.rstrip(" \t")
        if not bare:
            blank.append(line)
            continue
        row = len(rows) + 1
        if rows:
            findings += [empty_row(b, row) for b in blank]
        blank = []
        region = line.region(0, len(bare))
        if line.end_column is not None and bare == line.text:
            region = Region(region.line, region.column, region.line, line.end_column + 1)
        if bare != line.text:
            findings.append(space_after(row, line.region(len(bare), len(line.text))))
        inner = bare.lstrip(" \t")
        if len(inner) == usual < len(bare):
            findings.append(space_before(row, line.region(0, len(bare) - len(inner))))
            bare, region = inner, region._replace(column=region.column + len(bare) - len(inner))
        if stands_apart(bare, usual):
            apart[row] = tuple(line.column + i + 1 for i, c in enumerate(line.text) if c not in " \t")
            region = region._replace(column=apart[row][0])
            bare = "".join(bare.split())
            findings.append(row_apart(row, bare, line))
        elif " " in bare or "\t" in bare:
            findings.append(space_inside(row, bare, line))
            bare = without_space(bare, usual)
        rows.append(bare)
        regions.append(region)
    return ReadRows(tuple(rows), tuple(regions), tuple(findings[:MOST_FINDINGS]), apart)
