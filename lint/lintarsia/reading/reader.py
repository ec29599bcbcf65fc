"""The whole way from a file to a Chart, with every fault on the way reported and none raised."""

from collections.abc import Collection, Mapping
from dataclasses import replace
from typing import Any

from yaml import MappingNode, ScalarNode

from lintarsia.chart import Chart, Places
from lintarsia.chart.grid import NO_STITCH_SYMBOL
from lintarsia.ground.values import dataclass
from lintarsia.reading.build import build_chart
from lintarsia.reading.cross import cross_findings
from lintarsia.reading.document import UNREADABLE, Document, read_document
from lintarsia.reading.places import mark_region
from lintarsia.reading.rows import ReadRows, read_rows
from lintarsia.reading.source import MAX_BYTES, CannotRead, Read, cannot_read
from lintarsia.reading.tree import is_text
from lintarsia.result import Finding, Region

# Rows of unequal length are padded, so a small file can ask for a huge grid. House values, far beyond any chart.
MOST_CELLS = 2**23
MOST_SYMBOLS = 2**10


@dataclass(frozen=True, slots=True)
class Reading:
    """What came of reading a chart file.

    `chart` is None where there is no grid to speak of. `problems` are (rule name, finding), in the order of their
    places. `text` is the file's text, without its byte-order mark, where it could be decoded.
    """

    file: str
    chart: Chart | None
    problems: tuple[tuple[str, Finding], ...] = ()
    text: str | None = None


def read_chart(
    path: str,
    data: bytes | None = None,
    *,
    max_bytes: int = MAX_BYTES,
    max_stitches: int = MOST_CELLS,
    read: Read | None = None,
) -> Reading:
    """The chart in a file, or in `data` when that is given (then `path` only names it). Never raises for bad input.

    `max_stitches` counts the longest row times the rows; no more than 8,388,608 are read in any case. `read` as in
    `read_document`.
    """
    document = read_document(path, data, max_bytes=max_bytes, read=read)
    chart = None
    if document.data is not None and document.data.get("chart") is not None:
        try:
            chart = _chart(document, min(max_stitches, MOST_CELLS))
        except CannotRead as error:
            document.problems.append((UNREADABLE, error.finding))
    return Reading(path, chart, document.sorted_problems(), document.text)


def _chart(document: Document, most: int) -> Chart | None:
    data, root, text, places = document.data, document.root, document.text, document.places
    assert data is not None
    assert root is not None
    assert text is not None
    node = next(value for key, value in root.value if isinstance(key, ScalarNode) and key.value == "chart")
    region = mark_region(node.start_mark) if node.style == "|" else places.value("chart")
    rows = read_rows(node, text, region)
    document.add(*rows.findings)
    if not rows.rows:
        if not rows.findings:
            message = "chart: found no rows; expected a line of symbols for each row"
            document.add(Finding("wrong-value", message, places.value("chart")))
        return None
    if not any(row.strip(NO_STITCH_SYMBOL) for row in rows.rows):
        message = "the chart has no stitch at all; expected symbols of the key"
        document.add(Finding("no-stitches", message, places.value("chart")))
        return None
    _check_size(rows, data.get("colours") or (), places, most)
    places = Places(places.keys, places.values, rows.lines, rows.apart, places.editor)
    chart = build_chart(document.file, data, rows.rows, places, _written(root, data, text))
    document.add(*cross_findings(chart, data))
    return _textured(document, root, text, chart) if data.get("stitches") else chart


def _textured(document: Document, root: MappingNode, text: str, chart: Chart) -> Chart:
    """The chart with its purl and garter stitches."""
    from lintarsia.reading.texture import fitted, texture_findings

    node = next(value for key, value in root.value if isinstance(key, ScalarNode) and key.value == "stitches")
    region = mark_region(node.start_mark) if node.style == "|" else document.places.value("stitches")
    rows = read_rows(node, text, region)
    document.add(*rows.findings, *texture_findings(rows, chart, document.places.key("stitches")))
    return replace(chart, texture=fitted(rows, chart))


def _written(root: MappingNode, data: Mapping[str, Any], text: str) -> list[tuple[str, Region]]:
    """The lines of written rows that are a block of text."""
    if not isinstance(data.get("written"), str):
        return []
    from lintarsia.reading.written_rows import block_lines

    return block_lines(next(value for key, value in root.value if is_text(key) and key.value == "written"), text)


def _check_size(rows: ReadRows, colours: Collection[str], places: Places, most: int) -> None:
    """Refuse a grid that no memory should be spent on. Raises CannotRead."""
    width, height = max(map(len, rows.rows)), len(rows.rows)
    if width * height > most:
        raise cannot_read(
            "too-many-stitches",
            f"the chart has {height:,} rows and the longest is {width:,} stitches wide; "
            f"that is {width * height:,} stitches, and at most {most:,} are read",
            places.value("chart"),
            remedy="check that this is a chart and no photograph; if it is, "
            + ("knit and check it in parts" if most == MOST_CELLS else "raise max-stitches in the settings"),
        )
    if width * height + len(colours) <= MOST_SYMBOLS:
        return
    different = len(set(colours).union(*rows.rows))
    if different > MOST_SYMBOLS:
        raise cannot_read(
            "too-many-symbols",
            f"the chart uses {different:,} different symbols; at most {MOST_SYMBOLS:,} are read",
            places.value("chart"),
        )
