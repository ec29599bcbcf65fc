"""What a chart says as a whole, was and now: everything that is knitted, wound or read but for the rows."""

from collections.abc import Callable, Iterator, Mapping
from typing import Any

from lintarsia.chart import Chart, Limits
from lintarsia.chart.content import chart_content, plain
from lintarsia.chart.measure import StitchCount
from lintarsia.comparing.model import Fact, Recolouring

BY_ROW = ("grid", "shaping", "duplicate", "written", "written_sides", "texture")
"""Fields of a chart that are told row by row."""

Said = Mapping[str, str]


def facts(was: Chart, now: Chart, rows: Mapping[int, int], symbols: Mapping[str, str]) -> Iterator[Fact]:
    """What differs. `rows` leads from a row of was to that of now, `symbols` from a symbol to what it has become: what
    only goes along with these is no change."""
    renamed = {s: t for s, t in symbols.items() if s not in now.colours and t not in was.colours}
    for said in _SAID.values():
        yield from _differing(said(was, rows, renamed), said(now, {}, {}))
    old, new = chart_content(was), chart_content(now)
    for field in sorted({*old, *new} - {*_SAID, *BY_ROW}):
        if old.get(field) != new.get(field):  # a field that has no words of its own here yet
            yield Fact(field.replace("_", " "), _raw(old.get(field)), _raw(new.get(field)))


def _differing(old: Said, new: Said) -> Iterator[Fact]:
    for what in dict.fromkeys([*old, *new]):
        if old.get(what) != new.get(what):
            yield Fact(what, old.get(what), new.get(what))


def _raw(value: Any) -> str | None:
    return None if value is None else str(value)


def _simple(field: str, what: str) -> "Teller":
    def said(chart: Chart, rows: Mapping[int, int], symbols: Said) -> Said:
        value = getattr(chart, field)
        return {} if value is None else {what: str(plain(value)) if not isinstance(value, StitchCount) else str(value)}

    return said


def _gauge(chart: Chart, rows: Mapping[int, int], symbols: Said) -> Said:
    gauge = chart.gauge
    said = {"the gauge": f"{gauge.stitches:g} stitches and {gauge.rows:g} rows to {_length(gauge.over)}"}
    if gauge.needle:
        said["the needle"] = _length(gauge.needle)
    if gauge.loop:
        said["the yarn of a stitch"] = _length(gauge.loop)
    if gauge.float_gauge:
        own = gauge.float_gauge
        said["the gauge of the stranded fabric"] = f"{own.stitches:g} stitches and {own.rows:g} rows"
    return said


def _length(value: Any) -> str:
    """As written, but one way for each length: 100 mm is told as 10 cm."""
    if value.unit == "mm" and value.value >= 10 and value.value % 10 == 0:
        return f"{value.value / 10:g} cm"
    return str(value)


def _colours(chart: Chart, rows: Mapping[int, int], symbols: Said) -> Said:
    said: dict[str, str] = {}
    for symbol, colour in chart.colours.items():
        name = symbols.get(symbol, symbol)
        said[f"colour {name}"] = "in the key"
        said[f"the name of {name}"] = str(plain(colour.name))
        said[f"the shade of {name}"] = colour.shade
        if colour.yarn:
            said[f"the yarn of {name}"] = colour.yarn
        if colour.also:
            said[f"other names of {name}"] = ", ".join(colour.also)
    return said


def _yarns(chart: Chart, rows: Mapping[int, int], symbols: Said) -> Said:
    said: dict[str, str] = {}
    for name, yarn in chart.yarns.items():
        said[f"the yarn {name}"] = yarn.name or name
        each = {
            "weight": yarn.weight,
            "length of a ball": yarn.length and _length(yarn.length),
            "mass of a ball": yarn.mass,
            "balls": yarn.balls and f"{yarn.balls:g}",
            "fibre": yarn.fibre,
        }
        said |= {f"{what} of {name}": str(value) for what, value in each.items() if value not in (None, "")}
    return said


def _supplies(chart: Chart, rows: Mapping[int, int], symbols: Said) -> Said:
    said: dict[str, str] = {}
    for symbol, stated in (chart.supplies or {}).items():
        each = [" of ".join(filter(None, (one.holder or "", str(one.length or "")))) for one in stated.each]
        held = f" ({', '.join(each)})" if any(each) else ""
        said[f"stated supplies of {symbols.get(symbol, symbol)}"] = f"{stated.count}{held}"
    return said


def _limits(chart: Chart, rows: Mapping[int, int], symbols: Said) -> Said:
    own = {name: getattr(chart.limits, name) for name in Limits.__dataclass_fields__}
    return {f"the limit {name}": str(value) for name, value in own.items() if value is not None}


def _repeat(chart: Chart, rows: Mapping[int, int], symbols: Said) -> Said:
    if chart.repeat is None:
        return {}
    (right, left), (low, high) = chart.repeat.stitches, chart.repeat.rows
    low, high = rows.get(low, low), rows.get(high, high)
    return {"the repeat box": f"stitches {right}–{left}, rows {low}–{high}"}


def _divide(chart: Chart, rows: Mapping[int, int], symbols: Said) -> Said:
    said = {}
    for row, made in chart.divide.items():
        at = "" if made.at is None else f", after stitch {made.at}"
        to = "" if made.to is None else f", to row {rows.get(made.to, made.to)}"
        said[f"the opening from row {rows.get(row, row)}"] = f"{made.by}, {made.sides}{at}{to}"
    return said


def _decreases(chart: Chart, rows: Mapping[int, int], symbols: Said) -> Said:
    own = chart.decreases
    if own is None:
        return {}
    lean = "leaning along with the edge" if own.along else "leaning against the edge"
    return {"decreases": f"{lean}, {own.after} stitches from it"}


Teller = Callable[[Chart, Mapping[int, int], Said], Said]
_SAID: Mapping[str, Teller] = {
    "title": _simple("title", "the title"),
    "worked": _simple("worked", "worked"),
    "first_row": _simple("first_row", "the first row"),
    "technique": _simple("technique", "the technique"),
    "of": _simple("of", "stitches of the whole round"),
    "begins": _simple("begins", "the first stitches"),
    "ends": _simple("ends", "the last stitches"),
    "gauge": _gauge,
    "wearer": _simple("wearer", "the wearer"),
    "colours": _colours,
    "yarns": _yarns,
    "supplies": _supplies,
    "limits": _limits,
    "repeat": _repeat,
    "divide": _divide,
    "decreases": _decreases,
    "caught": lambda chart, rows, symbols: (
        {} if chart.caught is None else {"floats are caught every": str(chart.caught)}
    ),
}


def without_recoloured(found: Iterator[Fact], told: tuple[Recolouring, ...]) -> Iterator[Fact]:
    """The facts but for those that say of a symbol what a recolouring says already."""
    symbols = {symbol for one in told for symbol in (one.was, one.now)}
    for fact in found:
        kind, _, symbol = fact.what.rpartition(" ")
        if symbol in symbols and kind in ("colour", "the name of", "the shade of", "the yarn of", "other names of"):
            continue
        yield fact
