"""What no schema can see: whether the parts of a chart file agree with each other.

The chart was built without the parts that do not (see build.py); here the file's own data says what they were.
"""

from collections.abc import Iterator, Mapping
from typing import Any

from lintarsia.chart import NARROWEST_MM, WIDEST_MM, Chart, Path, Places, Side, Worked
from lintarsia.chart.grid import NO_STITCH_SYMBOL, seen_alone
from lintarsia.reading.phrases import said
from lintarsia.result import Finding, Level
from lintarsia.telling.counts import count


def cross_findings(chart: Chart, data: Mapping[str, Any]) -> Iterator[Finding]:
    """Faults between parts that are each well formed. `data` is what the chart was built from."""
    yield from _gauge(chart, data)
    yield from _symbols(chart)
    for name, yarn in chart.yarns.items():
        if yarn.length is None and (stated := data["yarns"][name].get("length")) is not None:
            message = f"a ball of {name} is {stated} long; expected a length above 0"
            yield Finding("wrong-value", message, chart.places.value("yarns", name, "length"))
    if data.get("repeat"):
        yield from _repeat(chart, data["repeat"])
    yield from _shaping(chart, data)
    if data.get("of"):
        yield from _of(chart, data["of"])
    for index, entry in enumerate(data.get("duplicate-stitch") or ()):
        yield from _duplicate(chart, entry or {}, ("duplicate-stitch", index))
    for index, entry in enumerate(data.get("suppress") or ()):
        yield from _stretch("the accepted result", entry or {}, ("suppress", index), chart)
    for symbol in data.get("supplies") or ():
        if symbol not in chart.colours:
            yield _unknown_symbol("a supply", symbol, chart, ("supplies", symbol), key=True)
    if data.get("written"):
        yield from _written(chart, data["written"])
    if chart.worked is Worked.ROUND and chart.first_row is Side.WS:
        yield Finding(
            "first-row-round",
            "first-row is WS, but a chart worked in the round shows the right side in every round",
            chart.places.value("first-row"),
            level=Level.WARNING,
            remedy="leave first-row out, or say how the piece is worked",
        )


def _shaping(chart: Chart, data: Mapping[str, Any]) -> Iterator[Finding]:
    if data.get("shaping") or data.get("divide"):
        from lintarsia.reading.shaping import shaping_findings

        yield from shaping_findings(chart, data)


def _written(chart: Chart, data: Any) -> Iterator[Finding]:
    from lintarsia.reading.written_rows import written_twice

    yield from written_twice(chart.written_entries, lambda e: e.region or chart.places.key("written", e.said))
    if isinstance(data, str) and not chart.written_entries:
        message = "written: found no rows; expected lines such as `Row 1 (RS): k3 A, k6 B`, or rows under their numbers"
        yield Finding("wrong-value", message, chart.places.value("written"))


def _gauge(chart: Chart, data: Mapping[str, Any]) -> Iterator[Finding]:
    stated, gauge, places = data.get("gauge"), chart.gauge, chart.places
    if "gauge" in chart.assumed:
        if stated and stated.get("over") is not None and not float(stated["over"].rstrip(" mcinyd")):
            yield _impossible("the gauge is counted over no length at all", places, "over")
        return
    for name, size, thing in (("stitches", gauge.stitch_mm, "stitch"), ("rows", gauge.row_mm, "row")):
        if not NARROWEST_MM <= size <= WIDEST_MM:
            yield _impossible(f"by this gauge one {thing} measures {_figure(size)} mm", places, name)


def _figure(size: float) -> str:
    return f"{size:.3g}" if size < 999.5 else f"{size:,.0f}"


def _impossible(found: str, places: Places, name: str) -> Finding:
    message = f"{found}; expected {NARROWEST_MM:g} to {WIDEST_MM:g} mm a stitch or row"
    return Finding("gauge-impossible", message, places.value("gauge", name))


def _of(chart: Chart, stated: str) -> Iterator[Finding]:
    """A panel is no wider than its round, and only a tube has rounds."""
    if chart.of is None:
        wide = count(chart.grid.width, "stitch")
        message = f"the chart is {wide} wide, a part of {stated}; expected more"
        yield Finding("stitches-outside", message, chart.places.value("of"))
    elif chart.worked is Worked.FLAT:
        message = f"the chart is a part of {stated} and is worked flat; expected round or turned"
        remedy = "leave `of` out, or say how the tube is worked"
        yield Finding("wrong-value", message, chart.places.value("of"), level=Level.WARNING, remedy=remedy)


def _symbols(chart: Chart) -> Iterator[Finding]:
    if "colours" in chart.assumed:
        return
    for symbol in chart.colours:
        if not symbol.isascii() and not seen_alone(symbol):
            message = f"the symbol U+{ord(symbol):04X} cannot be seen by itself; expected a character that can"
            yield Finding("wrong-name", message, chart.places.key("colours", symbol))


def _repeat(chart: Chart, box: Mapping[str, Any]) -> Iterator[Finding]:
    for name, one, most in (("stitches", "stitch", chart.grid.width), ("rows", "row", chart.grid.height)):
        ends = box.get(name)
        if ends is None or None in ends:
            continue
        yield from _backwards(ends, chart, ("repeat", name))
        if max(ends) > most:
            message = f"the {name} of the repeat box reach {int(max(ends))}; the chart has {count(most, one, name)}"
            yield Finding("repeat-outside", message, chart.places.value("repeat", name))


def _duplicate(chart: Chart, entry: Mapping[str, Any], path: tuple[str, int]) -> Iterator[Finding]:
    what = "the duplicate stitch"
    symbol = entry.get("colour")
    if symbol is not None and symbol not in chart.colours:
        yield _unknown_symbol(what, symbol, chart, (*path, "colour"))
    outside = list(_stretch(what, entry, path, chart))
    yield from outside
    row, ends = entry.get("row"), entry.get("stitches")
    if outside or row is None or ends is None or None in ends:
        return
    if NO_STITCH_SYMBOL in chart.grid.text(int(row), int(min(ends)), int(max(ends))):
        message = f"{what} lies where row {int(row)} has no stitch; expected stitches to work over"
        yield Finding("stitches-outside", message, chart.places.value(*path, "stitches"))


def _stretch(what: str, entry: Mapping[str, Any], path: tuple[str, int], chart: Chart) -> Iterator[Finding]:
    """A row and stitches that something is said to be at."""
    row, ends = entry.get("row"), entry.get("stitches")
    if row is not None and row > chart.grid.height:
        yield _row_outside(what, int(row), chart, (*path, "row"))
        row = None
    if ends is None or None in ends:
        return
    yield from _backwards(ends, chart, (*path, "stitches"))
    last = int(max(ends))
    most = chart.grid.width if row is None else len(chart.grid.rows[int(row) - 1])
    if last > most:
        where = "the chart is" if row is None else f"row {int(row)} is"
        message = f"{what} reaches stitch {last}; {where} {count(most, 'stitch', 'stitches')} wide"
        yield Finding("stitches-outside", message, chart.places.value(*path, "stitches"))


def _backwards(ends: list[int], chart: Chart, path: Path) -> Iterator[Finding]:
    if ends[0] > ends[1]:
        message = f"{path[-1]} run backwards, [{ends[0]}, {ends[1]}]; expected the lower number first"
        yield Finding("range-backwards", message, chart.places.value(*path))


def _row_outside(what: str, row: int, chart: Chart, path: Path, *, key: bool = False) -> Finding:
    region = chart.places.key(*path) if key else chart.places.value(*path)
    rows = count(chart.grid.height, "row", "rows")
    return Finding("row-outside", f"{what} names row {row}; the chart has {rows}", region)


def _unknown_symbol(what: str, symbol: str, chart: Chart, path: Path, *, key: bool = False) -> Finding:
    region = chart.places.key(*path) if key else chart.places.value(*path)
    known = ", ".join(map(said, chart.colours)) if len(chart.colours) <= 12 else f"{len(chart.colours)} others"
    return Finding("unknown-symbol", f"{what} names the colour {symbol!r}; the key has {known}", region)
