"""The whole way from a file to a Chart, with every fault on the way reported and none raised."""

from dataclasses import dataclass

from yaml import MappingNode, ScalarNode

from lintarsia.chart import Chart, Places
from lintarsia.reading.build import build_chart
from lintarsia.reading.document import read_document
from lintarsia.reading.rows import Rows, read_rows
from lintarsia.reading.source import MAX_BYTES
from lintarsia.result import Finding


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


def read_chart(path: str, data: bytes | None = None, *, max_bytes: int = MAX_BYTES) -> Reading:
    """The chart in a file, or in `data` when that is given (then `path` only names it). Never raises for bad input."""
    document = read_document(path, data, max_bytes=max_bytes)
    plain, root, text = document.data, document.root, document.text
    chart = None
    if plain is not None and plain.get("chart") is not None:
        assert root is not None
        assert text is not None
        rows = _rows(root, text)
        document.add(*rows.findings)
        if rows.rows:
            places = Places(document.places.keys, document.places.values, rows.lines)
            chart = build_chart(path, plain, rows.rows, places)
    return Reading(path, chart, document.sorted_problems(), text)


def _rows(root: MappingNode, text: str) -> Rows:
    node = next(v for k, v in root.value if isinstance(k, ScalarNode) and k.value == "chart")
    return read_rows(node, text)
