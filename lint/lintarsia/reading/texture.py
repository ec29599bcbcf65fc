"""The layer `stitches` of a chart file: read like the grid, and held to its shape."""

from collections.abc import Iterator, Sequence

from lintarsia.chart import Chart
from lintarsia.chart.grid import NO_STITCH_SYMBOL
from lintarsia.chart.texture import GARTER, KNIT, LETTERS, PLAIN, PURL, Texture, build_texture
from lintarsia.reading.rows import ReadRows
from lintarsia.result import Finding, Region
from lintarsia.telling.counts import count, stitch_count

STITCHES = KNIT + PURL + GARTER
_REMEDY = "write `stitches: |` with a line for each row of the chart: k, p or g for each stitch, . where it is plain"


def fitted(rows: ReadRows, chart: Chart) -> Texture | None:
    """The layer, each row as wide as the grid; what does not fit is plain."""
    own = rows.rows[: chart.grid.height]
    lines = [_fitted(row, text, chart.grid.width) for row, text in zip(own, chart.grid.rows, strict=False)]
    lines += [PLAIN * chart.grid.width] * (chart.grid.height - len(lines))
    return build_texture(lines, chart.garter_purls)


def _fitted(row: str, text: str, width: int) -> str:
    row = row[-len(text) :] if len(row) >= len(text) else row.rjust(len(text), PLAIN)
    kept = [
        letter if letter in LETTERS and symbol != NO_STITCH_SYMBOL else PLAIN
        for letter, symbol in zip(row, text, strict=True)
    ]
    return "".join(kept).rjust(width, PLAIN)


def texture_findings(rows: ReadRows, chart: Chart, region: Region) -> Iterator[Finding]:
    """Where the layer is not of the grid's shape, or has a letter that says nothing."""
    found, height = len(rows.rows), chart.grid.height
    if found != height:
        message = f"stitches has {count(found, 'row')}; the chart has {height}"
        yield Finding("wrong-value", message, region, remedy=_REMEDY)
    for row, (line, text, place) in enumerate(zip(rows.rows, chart.grid.rows, rows.lines, strict=False), 1):
        yield from _row(row, line, text, place)


def _row(row: int, line: str, text: str, place: Region) -> Iterator[Finding]:
    if len(line) != len(text):
        message = f"row {row} of stitches has {stitch_count(len(line))}; the chart's row has {len(text)}"
        yield Finding("wrong-value", message, place, row, remedy=_REMEDY)
        return
    strange = next((at for at, letter in enumerate(line) if letter not in LETTERS), None)
    if strange is not None:
        message = f"stitches has {line[strange]!r}; expected {KNIT} (knit), {PURL} (purl), {GARTER} (garter) or {PLAIN}"
        yield _at(row, strange, line, place, message, _REMEDY)
    beyond = _beyond(line, text)
    if beyond is not None:
        message = f"stitches has {line[beyond]!r} where the chart has no stitch"
        yield _at(row, beyond, line, place, message, f"write {PLAIN} there, or draw the stitch in the chart")


def _beyond(line: str, text: Sequence[str]) -> int | None:
    pairs = enumerate(zip(line, text, strict=True))
    return next((at for at, (letter, symbol) in pairs if symbol == NO_STITCH_SYMBOL and letter in STITCHES), None)


def _at(row: int, column: int, line: str, place: Region, message: str, remedy: str) -> Finding:
    stitch = len(line) - column
    region = Region(place.line, place.column + column, place.line, place.column + column + 1)
    return Finding(
        "wrong-value", f"row {row}, stitch {stitch}: {message}", region, row, (stitch, stitch), remedy=remedy
    )
