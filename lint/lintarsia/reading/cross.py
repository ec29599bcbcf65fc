"""What no schema can see: whether the parts of a chart file agree with each other."""

import unicodedata
from collections.abc import Iterator, Mapping
from typing import Any

from lintarsia.chart import Chart, Places, Side, Worked
from lintarsia.result import Finding, Level

# House values: finer than any hand knitting, and coarser than knitting on one's arms.
NARROWEST_MM, WIDEST_MM = 0.3, 150.0


def cross_findings(chart: Chart, data: Mapping[str, Any]) -> Iterator[Finding]:
    """Faults between parts that are each well formed. `data` is what the chart was built from."""
    yield from _gauge(chart, data)
    yield from _colours(chart)
    if chart.repeat:
        yield from _repeat(chart, data)
    if chart.shaping:
        yield from _shaping(chart)
    if chart.duplicate:
        yield from _duplicate(chart, data)
    if chart.suppressions:
        yield from _suppressions(chart, data)
    if chart.supplies:
        yield from _supplies(chart)
    if chart.worked is Worked.ROUND and chart.first_row is Side.WS:
        yield Finding(
            "first-row-round",
            "first-row is WS, but a chart worked in the round shows the right side in every round",
            chart.places.value("first-row"),
            level=Level.WARNING,
            remedy="leave first-row out, or say how the piece is worked",
        )


def _gauge(chart: Chart, data: Mapping[str, Any]) -> Iterator[Finding]:
    stated, gauge, places = data.get("gauge"), chart.gauge, chart.places
    if "gauge" in chart.assumed:
        if stated and stated.get("over") is not None and not float(stated["over"].rstrip(" mcinyd")):
            yield _impossible("the gauge is counted over no length at all", places, "over")
        return
    for name, size, thing in (("stitches", gauge.stitch_mm, "stitch"), ("rows", gauge.row_mm, "row")):
        if not NARROWEST_MM <= size <= WIDEST_MM:
            yield _impossible(f"by this gauge one {thing} measures {size:.3g} mm", places, name)


def _impossible(found: str, places: Places, name: str) -> Finding:
    message = f"{found}; expected {NARROWEST_MM:g} to {WIDEST_MM:g} mm a stitch or row"
    return Finding("gauge-impossible", message, places.value("gauge", name))


def _colours(chart: Chart) -> Iterator[Finding]:
    if "colours" in chart.assumed:
        return
    for symbol in chart.colours:
        if not symbol.isascii() and (not symbol.isprintable() or unicodedata.category(symbol)[0] == "M"):
            message = f"the symbol U+{ord(symbol):04X} cannot be seen by itself; expected a character that can"
            yield Finding("wrong-name", message, chart.places.key("colours", symbol))


def _repeat(chart: Chart, data: Mapping[str, Any]) -> Iterator[Finding]:
    assert chart.repeat is not None
    for name, last, most in (
        ("stitches", chart.repeat.stitches[1], chart.grid.width),
        ("rows", chart.repeat.rows[1], chart.grid.height),
    ):
        yield from _backwards(data["repeat"][name], chart, "repeat", name)
        if last > most:
            message = f"the {name} of the repeat box reach {last}; the chart has {most} {name}"
            yield Finding("repeat-outside", message, chart.places.value("repeat", name))


def _shaping(chart: Chart) -> Iterator[Finding]:
    for row in chart.shaping:
        if row > chart.grid.height:
            yield _row_outside("shaping", row, chart, chart.places.key("shaping", str(row)))


def _duplicate(chart: Chart, data: Mapping[str, Any]) -> Iterator[Finding]:
    for index, entry in enumerate(data["duplicate-stitch"]):
        if not entry:
            continue
        path = ("duplicate-stitch", index)
        symbol = entry.get("colour")
        if symbol is not None and symbol not in chart.colours:
            yield _unknown_symbol("the duplicate stitch", symbol, chart, chart.places.value(*path, "colour"))
        yield from _stretch("the duplicate stitch", entry, path, chart)


def _suppressions(chart: Chart, data: Mapping[str, Any]) -> Iterator[Finding]:
    for index, entry in enumerate(data["suppress"]):
        if entry:
            yield from _stretch("the accepted result", entry, ("suppress", index), chart)


def _stretch(what: str, entry: Mapping[str, Any], path: tuple[str, int], chart: Chart) -> Iterator[Finding]:
    """A row and stitches that something is said to be at."""
    row, stitches = entry.get("row"), entry.get("stitches")
    if row is not None and row > chart.grid.height:
        yield _row_outside(what, int(row), chart, chart.places.value(*path, "row"))
        row = None
    if stitches is None or None in stitches:
        return
    yield from _backwards(stitches, chart, *path, "stitches")
    last = int(max(stitches))
    most = chart.grid.width if row is None else len(chart.grid.rows[int(row) - 1])
    if last > most:
        where = "the chart is" if row is None else f"row {int(row)} is"
        yield Finding(
            "stitches-outside",
            f"{what} reaches stitch {last}; {where} {most} stitches wide",
            chart.places.value(*path, "stitches"),
        )


def _supplies(chart: Chart) -> Iterator[Finding]:
    assert chart.supplies is not None
    for symbol in chart.supplies:
        if symbol not in chart.colours:
            yield _unknown_symbol("a supply", symbol, chart, chart.places.key("supplies", symbol))


def _backwards(ends: list[int], chart: Chart, *path: str | int) -> Iterator[Finding]:
    if None not in ends and ends[0] > ends[1]:
        message = f"{path[-1]} run backwards, [{ends[0]}, {ends[1]}]; expected the lower number first"
        yield Finding("range-backwards", message, chart.places.value(*path))


def _row_outside(what: str, row: int, chart: Chart, region: Any) -> Finding:
    return Finding("row-outside", f"{what} names row {row}; the chart has {chart.grid.height} rows", region)


def _unknown_symbol(what: str, symbol: str, chart: Chart, region: Any) -> Finding:
    known = ", ".join(chart.colours)
    return Finding("unknown-symbol", f"{what} names the colour {symbol!r}; the key has {known}", region)
