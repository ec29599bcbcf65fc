"""How much yarn: by supply, by duplicate stitch, by yarn to buy. Lengths in mm inside, metres outside, not rounded."""

from collections.abc import Mapping
from math import ceil

from lintarsia.chart import HOUSE_HOLDERS, HOUSE_RECKONING, Chart, Holders, Yarn
from lintarsia.planning.model import ColourTotals, YarnNeed
from lintarsia.planning.rates import Rates

HOLDER_TEX = 500
"""Holders are sized for yarns of up to this many grams a kilometre, 100 m to 50 g; thicker ones fill them sooner.

A house value, like the lengths themselves.
"""


def tex(yarn: Yarn) -> float | None:
    """Grams a kilometre (ISO 1144:2016), where the yarn says what a ball weighs and how long it is."""
    return yarn.mass.grams / yarn.length.metres * 1000 if yarn.mass and yarn.length else None


def holder_for(metres: float, holders: Holders = HOUSE_HOLDERS, thickness: float | None = None) -> str:
    """What to wind `metres` of yarn on; `thickness` in tex, where it is known."""
    room = metres * max(1.0, (thickness or 0) / HOLDER_TEX)
    for most, name in holders:
        if room <= most + 1e-9:
            return name
    return holders[-1][1]


def balls_at_hand(chart: Chart, symbol: str) -> int:
    """From how many balls a colour can be knitted at once: as many as its yarn has, where it is the yarn of no other.

    A part of a ball is one to knit from. Of a yarn in several colours nobody says how many balls each has: one, then.
    """
    named = chart.colours[symbol].yarn if symbol in chart.colours else None
    yarn = chart.yarns.get(named) if named else None
    if yarn is None or yarn.balls is None or sum(colour.yarn == named for colour in chart.colours.values()) > 1:
        return 1
    return max(1, int(yarn.balls + 1e-9))


def duplicate_mm(chart: Chart, per: Rates) -> dict[str, float]:
    """Yarn that duplicate stitch takes, mm, by colour: it follows the knitted loop, with two tails a patch."""
    cells: dict[str, set[tuple[int, int]]] = {}
    for patch in chart.duplicate:
        low, high = sorted(patch.stitches)
        cells.setdefault(patch.colour, set()).update((patch.row, s) for s in range(low, high + 1))
    return {colour: len(own) * per.loop + patches(own) * 2 * per.tail for colour, own in cells.items()}


def patches(cells: set[tuple[int, int]]) -> int:
    """How many separate patches cells (row, stitch) make; corners touch."""
    left, found = set(cells), 0
    while left:
        found += 1
        front = [left.pop()]
        while front:
            row, stitch = front.pop()
            near = {(row + a, stitch + b) for a in (-1, 0, 1) for b in (-1, 0, 1)} & left
            left -= near
            front += near
    return found


def yarn_needs(
    chart: Chart, colours: Mapping[str, ColourTotals], per: Rates, allowance: float = HOUSE_RECKONING.allowance
) -> tuple[YarnNeed, ...]:
    """What to buy: a need for each yarn that the plan or the duplicate stitch uses, in the file's order."""
    extra = duplicate_mm(chart, per)
    groups: dict[tuple[bool, str], list[str]] = {(True, yarn): [] for yarn in chart.yarns}
    for symbol in dict.fromkeys([*colours, *extra]):
        named = chart.colours[symbol].yarn if symbol in chart.colours else None
        groups.setdefault((True, named) if named else (False, symbol), []).append(symbol)
    return tuple(_need(chart, key, symbols, colours, extra, allowance) for key, symbols in groups.items() if symbols)


def _need(
    chart: Chart,
    key: tuple[bool, str],
    symbols: list[str],
    colours: Mapping[str, ColourTotals],
    extra: Mapping[str, float],
    allowance: float,
) -> YarnNeed:
    named, label = key
    yarn = chart.yarns.get(label) if named else None
    duplicate = sum(extra.get(s, 0.0) for s in symbols) / 1000
    metres = sum(colours[s].metres for s in symbols if s in colours) + duplicate
    more = metres * allowance
    ball = yarn.length.metres if yarn and yarn.length else None
    colour = chart.colours.get(symbols[0])
    name = (yarn.name or label) if yarn else label if named else (colour.name if colour else label)
    return YarnNeed(
        yarn=label if named else "",
        name=name,
        colours=tuple(symbols),
        metres=metres,
        duplicate_metres=duplicate,
        allowance_metres=more,
        grams=metres / ball * yarn.mass.grams if ball and yarn and yarn.mass else None,
        balls=metres / ball if ball else None,
        to_buy=ceil((metres + more) / ball - 1e-9) if ball and chart.repeat is None else None,
        stated=yarn.balls if yarn else None,
    )
