"""Draws the print sheets: cells, numbers, marks to tape them by, a small map, the key."""

from lintarsia.chart import Chart
from lintarsia.chart.content import chart_fingerprint, stamp_words
from lintarsia.drawing.cells import CellPainter, draw_no_stitch
from lintarsia.drawing.chart import describe
from lintarsia.drawing.geometry import CELL, Geometry
from lintarsia.drawing.key import draw_key, key_lines
from lintarsia.drawing.lines import (
    GUTTER,
    Flags,
    beyond_numbers,
    direction_mark,
    grid_lines,
    number_size,
    row_numbers,
    shaping_gutter,
    stitch_numbers,
)
from lintarsia.drawing.shades import ACCENT, INK, MUTED
from lintarsia.drawing.shapemarks import slits
from lintarsia.drawing.shapesigns import draw_shaping
from lintarsia.drawing.sheets import (
    FOOT,
    HEAD,
    KEY_ENTRY,
    KEY_LINE,
    MARGIN,
    MARKED,
    OVERLAP,
    Sheet,
    part_of,
    plan_sheets,
)
from lintarsia.drawing.svg import FONT, document, escape, num
from lintarsia.drawing.texture import draw_dots
from lintarsia.telling.languages import in_figures, phrase
from lintarsia.telling.names import row_word
from lintarsia.telling.terms import Terms

WHITE = "#ffffff"  # a printer's paper
LONGEST_TITLE = 48


def sheets(chart: Chart, paper: str = "A4", stamp: str = "", terms: Terms = Terms.AMERICAN) -> list[str]:
    """The chart as SVG print sheets of "A4" or "Letter", the first at the lower right where the knitting begins.

    Neighbouring sheets share three stitches or rows; a ringed cross on the same line of both shows where they meet.
    `stamp` is what state of the chart they show; without it its fingerprint, since sheets lie about for years.
    """
    stamp = stamp or stamp_words(chart_fingerprint(chart))
    return [_sheet(chart, sheet, stamp, terms) for sheet in plan_sheets(chart, paper)]


def _sheet(chart: Chart, sheet: Sheet, stamp: str, terms: Terms) -> str:
    part, place = part_of(chart, sheet)
    unit = CELL / sheet.cell_mm
    painter = CellPainter(part, place)
    left = num(place.left)
    rows = "".join(
        f'<g transform="translate({left} {num(place.y(row) + painter.baseline)})">{painter.row(row)}</g>'
        for row in range(place.rows, 0, -1)
    )
    wide = sheet.wide * unit
    key_top = (sheet.high - MARGIN - key_lines(chart, sheet.wide - 2 * MARGIN, KEY_ENTRY) * KEY_LINE) * unit
    key_top = min(key_top, place.y(0) + (FOOT + 3) * unit)
    key = draw_key(chart, MARGIN * unit, key_top, wide - 2 * MARGIN * unit, KEY_ENTRY * unit, KEY_LINE * unit, terms)
    gutter, drop = GUTTER + shaping_gutter(chart), 4.0
    if sheet.of > 1:  # numbers stand clear of the marks to tape by
        gutter, drop = gutter + MARKED, drop + MARKED
    beyond = beyond_numbers(chart, place, sheet.rows[1], gutter)
    arrows = [
        direction_mark(chart, place, r - sheet.rows[0] + 1, beyond)
        for r in (1, 2)
        if sheet.rows[0] <= r <= sheet.rows[1]
    ]
    body = (
        f'<rect width="100%" height="100%" fill="{WHITE}"/>{draw_no_stitch(part.grid, place)}'
        f'<g font-family="{FONT}" text-anchor="middle" font-size="{painter.font_size}" fill="none" '
        f'stroke-width="{painter.stroke}">{rows}</g>'
        f"{draw_dots(part, place)}"
        f"{grid_lines(part, place, _slits(chart, sheet))}{_repeat(chart, sheet, place)}{_overlaps(sheet, place)}"
        f'<g font-family="{FONT}" fill="{MUTED}" font-size="{num(number_size(chart, place))}">'
        f"{row_numbers(part, place, gutter)}{stitch_numbers(chart, place, drop)}{draw_shaping(chart, place, terms)}</g>"
        f"{''.join(arrows)}{_heading(chart, sheet, unit, stamp)}{key}"
    )
    return document(
        body,
        kind="sheet",
        width=wide,
        height=sheet.high * unit,
        title=f"{chart.title}, {phrase('sheet {n} of {all}', n=sheet.number, all=sheet.of)}",
        desc=f"{_shows(chart, sheet)}. {describe(chart)}",
        prefix=f"sheet-{sheet.number}-",
        size=(f"{num(sheet.wide)}mm", f"{num(sheet.high)}mm"),
    )


def _slits(chart: Chart, sheet: Sheet) -> Flags | None:
    """Where the work is parted without a gap, on the sheet."""
    parted = slits(chart)
    return None if parted is None else parted[sheet.rows[0] - 1 : sheet.rows[1], slice(*sheet.columns)]


def _shows(chart: Chart, sheet: Sheet) -> str:
    first, last = chart.grid.width - sheet.columns[1] + 1, chart.grid.width - sheet.columns[0]
    low, high = sheet.rows
    shown = phrase(
        "stitches {first}–{last}, {words} {low}–{high}", row_word(chart), first=first, last=last, low=low, high=high
    )
    times = phrase("twice") if sheet.times == 2 else phrase("{n} times", n=sheet.times)
    return phrase("{stitches}, worked {times}", stitches=shown, times=times) if sheet.times > 1 else shown


def _heading(chart: Chart, sheet: Sheet, unit: float, stamp: str) -> str:
    title = chart.title
    if len(title) > LONGEST_TITLE:
        title = title[: LONGEST_TITLE - 1].rstrip() + "…"
    gauge = chart.gauge
    wide, high = in_figures(num(gauge.stitches)), in_figures(num(gauge.rows))
    size = phrase("{wide} stitches and {high} rows to {over}", wide=wide, high=high, over=gauge.over)
    left, right = MARGIN * unit, (sheet.wide - MARGIN) * unit
    words = _shows(chart, sheet)
    if sheet.of > 1:
        words = f"{phrase('sheet {n} of {all}', n=sheet.number, all=sheet.of)} · {words}"
    map_wide = _map_width(sheet, unit) + 3 * unit if sheet.of > 1 else 0
    return (
        f'<g font-family="{FONT}"><text x="{num(left)}" y="{num((MARGIN + 4.4) * unit)}" font-size="{num(5 * unit)}" '
        f'font-weight="700" fill="{INK}">{escape(title)}</text>'
        f'<text x="{num(left)}" y="{num((MARGIN + 9.4) * unit)}" font-size="{num(3 * unit)}" fill="{MUTED}">'
        f"{escape(size)}</text>"
        f'<text x="{num(right - map_wide)}" y="{num((MARGIN + 9.4) * unit)}" text-anchor="end" '
        f'font-size="{num(3 * unit)}" fill="{MUTED}">{words}</text>'
        f'<text class="lx-stamp" x="{num(left)}" y="{num((MARGIN + 12.6) * unit)}" font-size="{num(2.4 * unit)}" '
        f'fill="{MUTED}">{escape(stamp)}</text></g>{_map(sheet, right, MARGIN * unit, unit)}'
    )


def _map_width(sheet: Sheet, unit: float) -> float:
    return sheet.many_across * min(5.0, 30 / sheet.many_across) * unit


def _map(sheet: Sheet, right: float, top: float, unit: float) -> str:
    """Where this sheet lies among the others."""
    if sheet.of == 1:
        return ""
    wide = min(5.0, 30 / sheet.many_across) * unit
    high = min(4.0, (HEAD - 4) / sheet.many_up) * unit
    parts = []
    for up in range(sheet.many_up):
        for across in range(sheet.many_across):
            here = (across, up) == (sheet.across, sheet.up)
            parts.append(
                f'<rect x="{num(right - (across + 1) * wide)}" y="{num(top + (sheet.many_up - 1 - up) * high)}" '
                f'width="{num(wide)}" height="{num(high)}" fill="{ACCENT if here else WHITE}"/>'
            )
    return f'<g class="lx-map" stroke="{INK}" stroke-width="{num(0.25 * unit)}">{"".join(parts)}</g>'


def _overlaps(sheet: Sheet, place: Geometry) -> str:
    """A veil over what another sheet shows too, and marks on the line in its middle."""
    left, right, top, foot = place.x(0), place.x(place.columns), place.y(place.rows), place.y(0)
    half = OVERLAP // 2 + 1  # a grid line, so that both sheets can point at it
    veils, marks = [], []
    if sheet.across > 0:
        x = place.x(place.columns - OVERLAP)
        veils.append((x, top, right - x, foot - top))
        marks += [(place.x(place.columns - half), y) for y in (top, foot)]
    if sheet.across < sheet.many_across - 1:
        veils.append((left, top, place.x(OVERLAP) - left, foot - top))
        marks += [(place.x(OVERLAP - half), y) for y in (top, foot)]
    if sheet.up > 0:
        y = place.y(OVERLAP)
        veils.append((left, y, right - left, foot - y))
        marks += [(x, place.y(half)) for x in (left, right)]
    if sheet.up < sheet.many_up - 1:
        veils.append((left, top, right - left, place.y(place.rows - OVERLAP) - top))
        marks += [(x, place.y(place.rows - OVERLAP + half)) for x in (left, right)]
    veil = "".join(
        f'<rect x="{num(x)}" y="{num(y)}" width="{num(w)}" height="{num(h)}" fill="{WHITE}" fill-opacity=".5"/>'
        for x, y, w, h in veils
    )
    return veil + "".join(_register(x, y) for x, y in marks)


def _register(x: float, y: float) -> str:
    """A ringed cross."""
    arms = f"M{num(x - 11)} {num(y)}h22M{num(x)} {num(y - 11)}v22"
    ring = f'cx="{num(x)}" cy="{num(y)}" r="6"'
    return (
        f'<g class="lx-register" fill="none"><path stroke="{WHITE}" stroke-width="4" d="{arms}"/>'
        f'<circle {ring} stroke="{WHITE}" stroke-width="4"/><path stroke="{INK}" stroke-width="1.2" d="{arms}"/>'
        f'<circle {ring} stroke="{INK}" stroke-width="1.2"/></g>'
    )


def _repeat(chart: Chart, sheet: Sheet, place: Geometry) -> str:
    """What of the repeat box lies on this sheet; open where it goes on on another."""
    if not chart.repeat:
        return ""
    (first, last), (low, high) = chart.repeat.stitches, chart.repeat.rows
    width = chart.grid.width
    left, right = width - last - sheet.columns[0], width - first + 1 - sheet.columns[0]
    low, high = low - sheet.rows[0], high - sheet.rows[0] + 1
    x1, x2 = max(0, left), min(place.columns, right)
    y1, y2 = max(0, low), min(place.rows, high)
    if x1 >= x2 or y1 >= y2:
        return ""
    way = ""
    for row in (low, high):
        if 0 <= row <= place.rows:
            way += f"M{num(place.x(x1))} {num(place.y(row))}H{num(place.x(x2))}"
    for column in (left, right):
        if 0 <= column <= place.columns:
            way += f"M{num(place.x(column))} {num(place.y(y1))}V{num(place.y(y2))}"
    return (
        f'<g class="lx-repeat" fill="none" stroke-linecap="square"><path stroke="{WHITE}" stroke-width="5" d="{way}"/>'
        f'<path stroke="{ACCENT}" stroke-width="2.6" d="{way}"/></g>'
    )
