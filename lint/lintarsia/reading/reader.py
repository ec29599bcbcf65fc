"""The whole way from a file to a Chart, with every fault on the way reported and none raised."""

from dataclasses import dataclass
from typing import Any

from yaml import MappingNode, ScalarNode

from lintarsia.chart import Chart, Places
from lintarsia.reading.build import build_chart
from lintarsia.reading.places import LatePlaces
from lintarsia.reading.rows import Rows, read_rows
from lintarsia.reading.schema import load_schema
from lintarsia.reading.source import MAX_BYTES, Unreadable, decode, read_bytes, unreadable
from lintarsia.reading.tree import Tree, compose
from lintarsia.result import Finding

UNREADABLE = "file/unreadable"
SCHEMA = "file/schema"


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
    text = None
    try:
        if data is None:
            data = read_bytes(path, max_bytes)
        text = decode(data, max_bytes)
        root = compose(text)
        return _read(path, text, root)
    except Unreadable as error:
        return Reading(path, None, ((UNREADABLE, error.finding),), text)
    except RecursionError:
        finding = unreadable("too-deep", "the file nests far too deep; a chart needs four levels").finding
        return Reading(path, None, ((UNREADABLE, finding),), text)


def _read(path: str, text: str, root: MappingNode) -> Reading:
    schema = load_schema("chart.schema.json")
    tree = Tree(text)
    plain: dict[str, Any] = tree.build(root, schema.shape)
    keys, values = LatePlaces(root, keys=True), LatePlaces(root, keys=False)
    places = Places(keys, values)
    findings = tree.findings
    if not schema.accepts(plain):
        from lintarsia.reading.wording import schema_findings

        findings += schema_findings(schema, plain, places)
    chart = None
    if plain.get("chart") is not None:
        rows = _rows(root, text)
        findings += rows.findings
        if rows.rows:
            chart = build_chart(path, plain, rows.rows, Places(keys, values, rows.lines))
    if findings:
        findings.sort(key=lambda f: (f.region, f.key, f.message))
    return Reading(path, chart, tuple((SCHEMA, finding) for finding in findings), text)


def _rows(root: MappingNode, text: str) -> Rows:
    node = next(v for k, v in root.value if isinstance(k, ScalarNode) and k.value == "chart")
    return read_rows(node, text)
