"""`shaping`, `divide` and `decreases` of a chart file: plain data to the chart's terms, and what does not agree.

What is built leaves out what the findings name, so that nobody after this needs to ask.
"""

from collections.abc import Iterator, Mapping
from typing import Any

from lintarsia.chart import Chart
from lintarsia.chart.shaping import Change, ChangeKind, Decreases, Divide, Edge, Order, Parting, Shaping
from lintarsia.reading.phrases import said
from lintarsia.result import Edit, Finding, Fix, Level
from lintarsia.telling.counts import count, one_and_all

_DRAWN = "name a row that the chart has, or draw the rows that are missing"


def rows_of(key: str) -> range:
    """The rows that a key names: `12`, `31-40`, every second row in `31-59/2`. Empty where it runs backwards."""
    ends, _, step = key.partition("/")
    first, _, last = ends.partition("-")
    return range(int(first), int(last or first) + 1, int(step or 1))


def _inside(key: str, height: int) -> range:
    """Those rows of a key that the chart has."""
    rows = rows_of(key)
    return range(rows.start, min(rows.stop, height + 1), rows.step)


def build_shaping(data: Mapping[str, Any] | None, height: int) -> dict[int, Shaping]:
    """The shaping of each row, without rows that the chart does not have and what shapes an edge a second time."""
    built: dict[int, dict[Edge | None, tuple[int, tuple[Change, ...]]]] = {}
    for key, value in (data or {}).items():
        if value is None:
            continue
        edges = _edges(value)
        for row in _inside(key, height):
            _put(built.setdefault(row, {}), edges)
    return {row: _shaping(edges) for row, edges in built.items()}


def build_divide(data: Mapping[str, Any] | None, height: int, width: int) -> dict[int, Divide]:
    """The partings that lie within the chart, in the order of their rows."""
    built = {}
    for key, value in sorted((data or {}).items(), key=lambda item: int(item[0])):
        row = int(key)
        if value is None or value.get("by") is None or row > height:
            continue
        at, to = value.get("at"), value.get("to")
        built[row] = Divide(
            row,
            Parting(value["by"]),
            Order(value.get("sides") or "together"),
            int(at) if at is not None and at < width else None,
            int(to) if to is not None and row <= to <= height else None,
        )
    return built


def build_decreases(data: Mapping[str, Any] | None) -> Decreases | None:
    """How decreases are worked; None where the file does not say."""
    if data is None:
        return None
    return Decreases(along=(data.get("lean") or "along") == "along", after=int(data.get("after") or 0))


def shaping_findings(chart: Chart, data: Mapping[str, Any]) -> Iterator[Finding]:
    """What is wrong with rows and edges that are each well formed."""
    seen: dict[int, dict[Edge | None, str]] = {}
    for key, value in (data.get("shaping") or {}).items():
        yield from _rows(chart, key)
        yield from _numberless(chart, key, value)
        yield from _twice(chart, key, value, seen)
    for key, value in (data.get("divide") or {}).items():
        yield from _divide(chart, key, value or {})


def _edges(value: Any) -> dict[Edge | None, tuple[int, tuple[Change, ...]]]:
    """By edge its net change and what is stated outright; under None for a bare number."""
    if not isinstance(value, dict):
        return {None: (int(value), ())}
    return {Edge(edge): _one_edge(Edge(edge), made) for edge, made in value.items() if made is not None}


def _one_edge(edge: Edge, made: Any) -> tuple[int, tuple[Change, ...]]:
    if not isinstance(made, dict):
        return int(made), ()
    name, after = str(made.get("as") or "").strip(), int(made.get("after") or 0)
    changes = tuple(
        Change(kind, int(made[kind]), edge, name, after) for kind in ChangeKind if made.get(kind) is not None
    )
    return sum(change.net for change in changes), changes


def _put(row: dict[Edge | None, tuple[int, tuple[Change, ...]]], edges: Mapping[Edge | None, Any]) -> None:
    for edge, made in edges.items():
        if not _taken(row, edge):
            row[edge] = made


def _taken(row: Mapping[Edge | None, Any], edge: Edge | None) -> bool:
    """Whether a row's edge is shaped already. A number with no edge said may be at any of the outer two."""
    outer = [other for other in row if other is None or not other.inner]
    return edge in row or (edge is None and bool(outer)) or (None in row and edge is not None and not edge.inner)


def _shaping(edges: Mapping[Edge | None, tuple[int, tuple[Change, ...]]]) -> Shaping:
    def number(edge: Edge) -> int:
        return edges[edge][0] if edge in edges else 0

    sided = None not in edges
    return Shaping(
        net=sum(net for net, _ in edges.values()),
        left=number(Edge.LEFT) if sided else None,
        right=number(Edge.RIGHT) if sided else None,
        neck_left=number(Edge.NECK_LEFT),
        neck_right=number(Edge.NECK_RIGHT),
        stated=tuple(change for _, changes in edges.values() for change in changes),
    )


def _rows(chart: Chart, key: str) -> Iterator[Finding]:
    rows, region = rows_of(key), chart.places.key("shaping", key)
    if not rows:
        message = f"the rows of shaping run backwards, {key}; expected the lower number first"
        ends, slash, step = key.partition("/")
        yield Finding(
            "range-backwards", message, region, remedy=f"write {'-'.join(ends.split('-')[::-1])}{slash}{step}"
        )
    elif rows[-1] > chart.grid.height:
        message = f"shaping names row {rows[-1]}; the chart has {count(chart.grid.height, 'row', 'rows')}"
        yield Finding("row-outside", message, region, remedy=_DRAWN)
    elif "-" in key and str(rows[-1]) != (last := key.partition("/")[0].partition("-")[2]):
        meant = f"{rows[0]}-{rows[-1]}/{rows.step}" if len(rows) > 1 else str(rows[0])
        message = f"the steps of {key} pass over its last row, {last}; shaped are rows {_listed(rows)}"
        message = message.replace("are rows ", "is row ") if len(rows) == 1 else message
        fix = Fix(f"write {meant}", (Edit(region, meant),))
        yield Finding("range-off-step", message, region, level=Level.NOTE, remedy=f"write {meant}", fixes=(fix,))


def _listed(rows: range) -> str:
    """`3, 5 and 7`, `3, 5, … and 59`."""
    if len(rows) > 4:
        return f"{rows[0]}, {rows[1]}, … and {rows[-1]}"
    return one_and_all([str(row) for row in rows])


def _numberless(chart: Chart, key: str, value: Any) -> Iterator[Finding]:
    for edge, made in value.items() if isinstance(value, dict) else ():
        if isinstance(made, dict) and made and not any(kind in made for kind in ChangeKind):
            message = (
                f"{edge} of {said(key)} in shaping says no number of stitches; expected one, such as {{decrease: 1}}"
            )
            region = chart.places.value("shaping", key, edge)
            yield Finding("wrong-value", message, region, remedy="say how many: {decrease: 1, as: ssk}")


def _twice(chart: Chart, key: str, value: Any, seen: dict[int, dict[Edge | None, str]]) -> Iterator[Finding]:
    """The first row in which a key shapes an edge that an earlier key has shaped."""
    edges = {} if value is None else _edges(value)
    told = False
    for row in _inside(key, chart.grid.height):
        before = seen.setdefault(row, {})
        taken = [edge for edge in edges if _taken(before, edge)]
        if taken and not told:
            told, edge = True, taken[0]
            where = f"at {edge}" if edge else "at no edge in particular"
            other = before.get(edge) or next(iter(before.values()))
            message = f"row {row} is shaped {where} by {key}, after {other}; expected each edge once"
            region = chart.places.key("shaping", key)
            yield Finding("shaped-twice", message, region, remedy="put what is made in the row under one key")
        before.update({edge: key for edge in edges if edge not in before})


def _divide(chart: Chart, key: str, value: Mapping[str, Any]) -> Iterator[Finding]:
    row, height, width = int(key), chart.grid.height, chart.grid.width
    rows = count(height, "row", "rows")
    if row > height:
        message = f"divide names row {row}; the chart has {rows}"
        yield Finding("row-outside", message, chart.places.key("divide", key), remedy=_DRAWN)
        return
    at, to = value.get("at"), value.get("to")
    if at is not None and at >= width:
        message = (
            f"the slit of row {row} runs after stitch {at}; the chart is {count(width, 'stitch', 'stitches')} wide"
        )
        yield Finding("stitches-outside", message, chart.places.value("divide", key, "at"))
    if to is not None and not row <= to <= height:
        message = f"the opening of row {row} ends with row {to}; expected one from {row} to {height}"
        yield Finding("row-outside", message, chart.places.value("divide", key, "to"))
