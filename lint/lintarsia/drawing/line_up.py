"""The line-up before a row: yarns as they hang before the knitter, the first to be used at the needle's tip.

She works the stitches off a needle whose tip is at her right, whichever side faces her: the order of use always runs
from right to left, on wrong-side rows too.
"""

from lintarsia.chart import Chart
from lintarsia.chart.grid import RowNumber
from lintarsia.drawing.cells import shade_of
from lintarsia.drawing.holders import cord, draw_holder
from lintarsia.drawing.shades import ACCENT, INK, MUTED, PAPER
from lintarsia.drawing.svg import FONT, document, escape, num
from lintarsia.planning.model import Plan, Supply

SLOT, HIGH, MARGIN = 88.0, 166.0, 12.0
LONGEST_NAME = 14  # characters of a colour's name that fit beneath a holder


def line_up_svg(chart: Chart, plan: Plan, row: RowNumber, *, prefix: str = "") -> str:
    """Yarns in working order, each with its name and holder; joins marked "new", finishes "last row".

    Yarns that hang from the work and rest in this row follow at the left, pale. `row` is the knitter's.
    """
    turn = plan.rows[row - 1]
    kinds = {supply.id: supply for supply in plan.supplies}
    slots = []
    names = (*turn.line_up, *turn.waiting)
    for number, name in enumerate(names):
        supply = kinds[name]
        notes = [w for w, ids in (("new", turn.joins), ("last row", turn.finishes)) if name in ids]
        rests = number >= len(turn.line_up)
        slots.append(_slot(chart, supply, len(names) - 1 - number, ["rests"] if rests else notes, rests))
    wide = 2 * MARGIN + SLOT * max(1, len(slots))
    body = (
        f'{_needle(wide)}<g fill="none" stroke-linecap="round" stroke-linejoin="round" font-family="{FONT}">'
        f"{''.join(slots)}</g>"
    )
    told = ", ".join(f"{n} {_colour(chart, kinds[n].colour)}" for n in turn.line_up)
    return document(
        body,
        kind="line-up",
        width=wide,
        height=HIGH,
        title=f"Line-up for {chart.row_name(row)}",
        desc=f"In working order, from the right: {told}.",
        prefix=f"{prefix}row-{row}-" if prefix else f"row-{row}-",
        attributes=f' data-row="{row}"',
    )


def _colour(chart: Chart, symbol: str) -> str:
    colour = chart.colours.get(symbol)
    return colour.name if colour else symbol


def _slot(chart: Chart, supply: Supply, number: int, notes: list[str], rests: bool) -> str:
    name, shade = escape(supply.id), shade_of(chart, supply.colour)
    sway = 5 if number % 2 else -5
    words = _colour(chart, supply.colour)
    if len(words) > LONGEST_NAME:
        words = words[: LONGEST_NAME - 1].rstrip() + "…"
    hang = f"M0 11C{sway} 26 {-sway} 40 0 56"
    loop = "M-5 15C-5 5 5 5 5 15"
    dim = ' opacity=".45"' if rests else ""
    yarn = (
        f'{cord(hang, shade)}{cord(loop, shade)}<g transform="translate(0 56)">{draw_holder(supply.holder, shade)}</g>'
    )
    words = f'font-size="11" fill="{MUTED}">{escape(words)}'
    return (
        f'<g class="lx-yarn" data-supply="{name}" transform="translate({num(MARGIN + SLOT * (number + 0.5))} 0)">'
        f"<g{dim}>{yarn}</g>"
        f'<text class="lx-ink" y="123" text-anchor="middle" font-size="15" font-weight="700" fill="{INK}">{name}</text>'
        f'<text class="lx-muted" y="138" text-anchor="middle" {words}</text>{_notes(notes)}</g>'
    )


def _notes(notes: list[str]) -> str:
    if not notes:
        return ""
    widths = [12 + 5.6 * len(note) for note in notes]
    x = -(sum(widths) + 4 * (len(notes) - 1)) / 2
    parts = []
    for note, wide in zip(notes, widths, strict=True):
        strong = note == "new"
        fill, ink = (ACCENT, PAPER) if strong else (PAPER, INK)
        parts.append(
            f'<rect x="{num(x)}" y="145" width="{num(wide)}" height="16" rx="8" fill="{fill}" '
            f'stroke="{ACCENT if strong else MUTED}" stroke-width="1"/>'
            f'<text x="{num(x + wide / 2)}" y="156.6" text-anchor="middle" font-size="10.5" fill="{ink}">{note}</text>'
        )
        x += wide + 4
    return "".join(parts)


def _needle(wide: float) -> str:
    """A needle with its point at the right and its knob at the left."""
    tip = wide - 3
    far, near, nearest = num(tip - 16), num(tip - 8), num(tip - 3)
    shaft = f"M9 8.2H{far}C{near} 8.4 {nearest} 10 {num(tip)} 11.4C{nearest} 12.8 {near} 14.2 {far} 14.4H9z"
    return (
        f'<g class="lx-needle" stroke="{INK}"><path fill="#c9b48a" d="{shaft}"/>'
        f'<circle cx="8" cy="11.3" r="5.4" fill="#8a5a3c"/></g>'
    )
