"""Plain, checked data to a Chart.

Whatever is None was faulty and has been reported; it is left out or stood in for. What reaches outside the chart or
names a colour that the key lacks is left out too (cross.py reports it), so that nobody after this needs to ask.
"""

import os
import re
from collections.abc import Mapping, Sequence
from typing import Any

from lintarsia.chart import (
    Chart,
    Colour,
    DuplicateStitch,
    Gauge,
    Places,
    Repeat,
    Side,
    Suppression,
    Symmetry,
    Technique,
    Wearer,
    Worked,
)
from lintarsia.chart.grid import NO_STITCH_SYMBOL, Grid, build_grid
from lintarsia.chart.measure import Length, StitchCount, parse_reach
from lintarsia.reading.materials import build_colours, build_gauge, build_limits, build_supplies, build_yarn, whole
from lintarsia.result import Region

STAND_IN_GAUGE = Gauge(22, 30, Length(10, "cm"))


def build_chart(
    path: str,
    data: Mapping[str, Any],
    rows: tuple[str, ...],
    places: Places,
    written: Sequence[tuple[str, Region]] = (),
) -> Chart:
    """The chart. Required parts that `data` lacks get a stand-in and are named in `Chart.assumed`.

    `written` has the lines of the written rows where they are a block of text.
    """
    get = data.get
    assumed: list[str] = []
    title = get("title")
    if not title:
        title = os.path.basename(path).removesuffix(".yaml").removesuffix(".chart") or "untitled"
        assumed.append("title")
    gauge = build_gauge(get("gauge"))
    if gauge is None:
        gauge = STAND_IN_GAUGE
        assumed.append("gauge")
    colours = build_colours(get("colours"))
    if not colours:
        colours = _stand_in_colours(rows)
        assumed.append("colours")
    grid = build_grid(rows, tuple(colours))
    if grid.known < len(grid.symbols):
        assumed.append("symbols")
    supplies = get("supplies")
    if supplies is not None:
        supplies = {s: build_supplies(v) for s, v in supplies.items() if v is not None and s in colours}
    worked, first_row = Worked(get("worked") or "flat"), Side(get("first-row") or "RS")
    return Chart(
        path=path,
        title=title,
        gauge=gauge,
        colours=colours,
        grid=grid,
        worked=worked,
        first_row=first_row,
        technique=Technique(get("technique") or "intarsia"),
        yarns={name: build_yarn(name, yarn) for name, yarn in (get("yarns") or {}).items() if yarn is not None},
        supplies=supplies,
        limits=build_limits(get("limits")),
        repeat=_repeat(get("repeat"), grid),
        of=_of(get("of"), grid),
        caught=_caught(get("caught")),
        wearer=Wearer(data["wearer"]) if get("wearer") else None,
        symmetry=tuple(Symmetry(s) for s in get("symmetry") or () if s is not None),
        duplicate=tuple(filter(None, (_duplicate(d, grid, colours) for d in get("duplicate-stitch") or ()))),
        suppressions=tuple(filter(None, (_suppression(d, grid) for d in get("suppress") or ()))),
        places=places,
        assumed=frozenset(assumed),
        **_shaped(data, grid),
        **_written(get("written"), written, grid, worked, first_row),
    )


def _shaped(data: Mapping[str, Any], grid: Grid) -> dict[str, Any]:
    """What the chart says of its shape; most charts say nothing, and pay for none of it."""
    shaping, divide, decreases = data.get("shaping"), data.get("divide"), data.get("decreases")
    if shaping is None and divide is None and decreases is None:
        return {}
    from lintarsia.reading.shaping import build_decreases, build_divide, build_shaping

    return {
        "shaping": build_shaping(shaping, grid.height),
        "divide": build_divide(divide, grid.height, grid.width),
        "decreases": build_decreases(decreases),
    }


def _written(
    data: Any, lines: Sequence[tuple[str, Region]], grid: Grid, worked: Worked, first_row: Side
) -> dict[str, Any]:
    """What the chart says of its rows in words."""
    if not data:
        return {}
    from lintarsia.reading.written_rows import words_by_row, words_by_side, written_entries

    def side(row: int) -> str:
        return "RS" if worked is Worked.ROUND else str(first_row if row % 2 else first_row.other)

    entries = written_entries(data, lines, grid.height, side)
    return {"written": words_by_row(entries), "written_sides": words_by_side(entries), "written_entries": entries}


def _pair(values: list[Any]) -> tuple[int, int]:
    first, last = int(values[0]), int(values[1])
    return (first, last) if first <= last else (last, first)


def _stand_in_colours(rows: tuple[str, ...]) -> dict[str, Colour]:
    symbols = sorted(set("".join(rows)) - {NO_STITCH_SYMBOL})
    step = 200 / max(1, len(symbols) - 1)
    return {s: Colour(s, s, "#" + f"{int(20 + i * step):02x}" * 3) for i, s in enumerate(symbols)}


def _repeat(data: Any, grid: Grid) -> Repeat | None:
    if not whole(data, "stitches", "rows"):
        return None
    stitches, rows = _pair(data["stitches"]), _pair(data["rows"])
    return Repeat(stitches, rows) if stitches[1] <= grid.width and rows[1] <= grid.height else None


def _duplicate(data: Any, grid: Grid, colours: Mapping[str, Colour]) -> DuplicateStitch | None:
    if not whole(data, "colour", "row", "stitches"):
        return None
    row, stitches = int(data["row"]), _pair(data["stitches"])
    inside = row <= grid.height and stitches[1] <= len(grid.rows[row - 1]) and data["colour"] in colours
    if not inside or NO_STITCH_SYMBOL in grid.text(row, *stitches):
        return None
    return DuplicateStitch(data["colour"], row, stitches)


def _of(data: Any, grid: Grid) -> int | None:
    """Stitches of the round; None where it would be narrower than the chart, which is reported."""
    count = int(re.match(r"[0-9]+", data)[0]) if data else None  # type: ignore[index]
    return count if count is not None and count >= grid.width else None


def _caught(data: Any) -> Length | StitchCount | None:
    return parse_reach(data["every"]) if whole(data, "every") else None


def _suppression(data: Any, grid: Grid) -> Suppression | None:
    if not whole(data, "rule", "justification", *(data or ())):
        return None
    row, stitches = data.get("row"), data.get("stitches")
    if row is not None and row > grid.height:
        return None
    pair = None if stitches is None else _pair(stitches)
    if pair and pair[1] > (grid.width if row is None else len(grid.rows[int(row) - 1])):
        return None
    return Suppression(data["rule"], data["justification"].strip(), None if row is None else int(row), pair)
