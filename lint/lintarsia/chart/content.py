"""What of a chart is knitted, wound or read, as plain values, and its fingerprint: 16 hex digits.

The file's layout, its comments, the order of its keys and whatever only checks look at have no part in it. Values at
their defaults are left out, so that a field that a later release adds changes no fingerprint of charts without it.
Settings have none either: they are the house's, and a chart may lie in two houses.
"""

import hashlib
import json
import unicodedata
from collections.abc import Mapping
from dataclasses import MISSING, fields, is_dataclass
from enum import Enum
from typing import Any

from lintarsia.chart.grid import NO_STITCH_SYMBOL, Grid
from lintarsia.chart.measure import Length, Mass
from lintarsia.chart.model import Chart
from lintarsia.chart.sides import row_changes
from lintarsia.chart.texture import KNIT, PLAIN, Texture

DIGITS = 16

COUNTED = (
    "title", "gauge", "colours", "grid", "worked", "first_row", "technique", "yarns", "supplies", "limits", "repeat",
    "shaping", "divide", "of", "decreases", "begins", "ends", "caught", "wearer", "duplicate", "written",
    "written_sides", "texture",
)  # fmt: skip
"""Fields of a chart that somebody knits, winds or reads."""

UNCOUNTED = ("path", "symmetry", "written_entries", "suppressions", "places", "assumed")
"""Fields that only checks look at, or that say where something stands in the file. A test holds these two lists to the
fields that there are."""


def chart_fingerprint(chart: Chart) -> str:
    """The same for two files that a knitter would not tell apart, on every platform."""
    return fingerprint(chart_content(chart))


def fingerprint(content: Any) -> str:
    """Of plain values, as `plain` makes them."""
    text = json.dumps(content, sort_keys=True, ensure_ascii=True, separators=(",", ":"))
    return hashlib.sha256(text.encode("ascii")).hexdigest()[:DIGITS]


def stamp_words(fingerprint: str, version: str = "", revision: str = "") -> str:
    """What prints and pages say of the state they show: `version 1.2 · fingerprint 3f9c01d2aa40b7e5 · commit …`."""
    told = (f"version {version}" if version else "", f"fingerprint {fingerprint}", revision)
    return " · ".join(filter(None, told))


def chart_content(chart: Chart) -> dict[str, Any]:
    """By field, those that are at their defaults left out."""
    content = _of_fields(chart, COUNTED)
    content["grid"] = plain(chart.grid)
    if chart.written_sides:
        content["written_sides"] = [[*place, plain(words)] for place, words in sorted(chart.written_sides.items())]
    if chart.texture is not None:  # what the stitches show, however the file says it
        content["texture"] = ["".join("p" if purl else "k" for purl in row) for row in chart.texture.purl.tolist()]
    if chart.shaping:
        content["shaping"] = {str(row): _changes(chart, row) for row in chart.shaping if row_changes(chart, row)}
    if chart.duplicate:
        content["duplicate"] = _embroidered(chart)
    return {name: value for name, value in content.items() if value not in ({}, [])}


def row_marks(chart: Chart) -> list[str]:
    """A short mark of each row, from row 1: of its stitches, purled ones among them, and its shaping. Those that are
    alike have the same."""
    texts, shaped = plain(chart.grid), [_changes(chart, row) for row in range(1, chart.grid.height + 1)]
    purled = [_purled(chart, row) for row in range(1, chart.grid.height + 1)]
    return [fingerprint([text, changes, *purl])[:6] for text, changes, purl in zip(texts, shaped, purled, strict=True)]


def _purled(chart: Chart, row: int) -> list[str]:
    """The texture of a row that has any; garter stitch is the same on either side."""
    line = "" if chart.texture is None else chart.texture.rows[row - 1].replace(KNIT, PLAIN)
    return [line] if line.strip(PLAIN) else []


def _changes(chart: Chart, row: int) -> list[Any]:
    """`-3` and `{bind-off: 3}` are the same to hands, and so is the order in which edges are named."""
    made = [plain(change) for change in row_changes(chart, row)]
    return sorted(made, key=lambda change: json.dumps(change, sort_keys=True))


def _embroidered(chart: Chart) -> list[Any]:
    """Stitch by stitch, since a stretch may be stated in two parts."""
    cells: dict[tuple[int, int], str] = {}
    for patch in chart.duplicate:
        low, high = sorted(patch.stitches)
        cells.update(dict.fromkeys(((patch.row, stitch) for stitch in range(low, high + 1)), patch.colour))
    return [[*cell, colour] for cell, colour in sorted(cells.items())]


def plain(value: Any) -> Any:
    """A value as JSON has it, without what does not change its meaning."""
    if isinstance(value, Grid):
        return [row.rjust(value.width, NO_STITCH_SYMBOL) for row in value.rows]
    if isinstance(value, Texture):
        return list(value.rows)
    if isinstance(value, Length):  # 10 cm and 100 mm are one length, but nobody reads inches for centimetres
        return [_number(value.mm), "in" if value.imperial else "mm"]
    if isinstance(value, Mass):
        return [_number(value.grams), value.unit]
    if isinstance(value, Enum):
        return str(value.value)
    if is_dataclass(value) and not isinstance(value, type):
        return _of_fields(value, tuple(field.name for field in fields(value)))
    if isinstance(value, Mapping):
        return {str(key): plain(inner) for key, inner in value.items()}
    if isinstance(value, list | tuple):
        return [plain(inner) for inner in value]
    if isinstance(value, str):
        return " ".join(unicodedata.normalize("NFC", value).split())
    return value if value is None or isinstance(value, bool) else _number(value)


def _number(value: float) -> str:
    """Whole or not, `22` and `22.0` are the same stitches. Nine digits are the same on every machine."""
    return f"{value:.9g}"


def _of_fields(value: Any, names: tuple[str, ...]) -> dict[str, Any]:
    known = {field.name: field for field in fields(value)}
    found = {}
    for name in names:
        made = plain(getattr(value, name))
        if made != _default(known[name]):
            found[name] = made
    return found


def _default(field: Any) -> Any:
    if field.default is not MISSING:
        return plain(field.default)
    return plain(field.default_factory()) if field.default_factory is not MISSING else MISSING
