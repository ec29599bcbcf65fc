"""White space in and around the rows of a chart: what it can mean, and the finding that says so."""

import re
from collections import Counter

from lintarsia.ground.values import dataclass
from lintarsia.result import Edit, Finding, Fix, Level, Region

_APART = re.compile(r"\S(?:[ \t]+\S)+")


@dataclass(frozen=True, slots=True)
class Line:
    """A row as it stands in the file; indices count from 0."""

    text: str
    line: int
    column: int
    end_column: int | None = None

    def region(self, start: int, end: int) -> Region:
        """The characters `start` to `end` of the text."""
        return Region(self.line + 1, self.column + start + 1, self.line + 1, self.column + end + 1)


def set_apart(printed: list[Line]) -> Finding | None:
    """The one fault of a chart whose stitches all stand apart, as they come out of a table.

    Such a chart is read no further: in none of its rows is there a width to hold the others to.
    """
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


def stands_apart(bare: str, usual: int) -> bool:
    """Whether a row's white space only sets its stitches apart: without it, the row is as wide as most rows are.

    Where all of its stitches stand alone, it is enough that it comes nearer to that width.
    """
    inner = bare.strip(" \t")
    stitches = len("".join(inner.split()))
    if stitches == len(inner) or len(bare) == usual:
        return False
    nearer = abs(stitches - usual) < abs(len(bare) - usual)
    return stitches == usual or (nearer and _APART.fullmatch(inner) is not None)


def row_apart(row: int, stitches: str, line: Line) -> Finding:
    """The one fault of a row whose stitches do not all stand side by side; `stitches`: without white space."""
    text = line.text.rstrip(" \t")
    region = line.region(len(text) - len(text.lstrip(" \t")), len(text))
    edit = Edit(line.region(0, len(text)), stitches)
    return Finding(
        "space-in-row",
        f"row {row} has white space between its {len(stitches)} stitches; expected them side by side",
        region,
        row,
        (1, len(stitches)),
        remedy=f"take the white space out: {stitches if len(stitches) <= 40 else stitches[:37] + '...'}",
        fixes=(Fix("set the stitches side by side", (edit,)),) if line.end_column is None else (),
    )


def usual_width(printed: list[Line]) -> int:
    """The width of most rows, of those without white space in them; 0 where no two agree."""
    widths = Counter(len(line.text) for line in printed if line.text.split() == [line.text])
    width, times = max(widths.items(), key=lambda item: item[1], default=(0, 0))
    return width if times > 1 else 0


def without_space(bare: str, usual: int) -> str:
    """Something to read on with: one space in a row of the usual width is a stitch, others are none.

    So one slip stays one result, instead of making the count wrong as well.
    """
    bare = bare.replace("\t", " ")
    at = bare.find(" ")
    if len(bare) == usual and bare.count(" ") == 1 and at > 0:
        return bare.replace(" ", bare[at - 1])
    return bare.replace(" ", ".")


def empty_row(line: Line, above: int) -> Finding:
    return Finding(
        "empty-row",
        f"a blank line stands between row {above - 1} and the row above it; expected none",
        Region(line.line + 1, 1, line.line + 1, line.column + len(line.text) + 1),
        remedy="delete the blank line",
        fixes=(Fix("delete the blank line", (Edit(Region(line.line + 1, 1, line.line + 2, 1), ""),)),),
    )


def space_after(row: int, region: Region) -> Finding:
    return Finding(
        "space-after-row",
        f"row {row} has white space after its last stitch; expected none",
        region,
        row=row,
        level=Level.WARNING,  # no stitch is in doubt
        remedy="delete the white space",
        fixes=(Fix("delete the white space", (Edit(region, ""),)),),
    )


def space_before(row: int, region: Region) -> Finding:
    return Finding(
        "space-before-row",
        f"row {row} begins further in than the rows around it, and is as wide as they are; expected the same indent",
        region,
        row=row,
        remedy="delete the space before the row",
        fixes=(Fix("delete the space before the row", (Edit(region, ""),)),),
    )


def space_inside(row: int, bare: str, line: Line) -> Finding:
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
